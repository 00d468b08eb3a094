package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// A subject is a package whose tests are tried, as it stands, without its tests.
type subject struct {
	path, dir string // import path and directory
	room      string // the path without the module's, which is what people call it
	files     []*file
	fset      *token.FileSet
	types     *types.Package
	info      *types.Info
	importer  types.Importer
	tested    bool // it has test files
}

type file struct {
	name string // absolute
	text []byte
	ast  *ast.File
	tok  *token.File
}

// offset returns where in the file's text a position lies.
func (f *file) offset(p token.Pos) int { return f.tok.Offset(p) }

// source returns the text of a node.
func (f *file) source(n ast.Node) string { return string(f.text[f.offset(n.Pos()):f.offset(n.End())]) }

// lineText returns the code of the line that holds an offset, on which the space
// and a comment at its end say nothing.
func (f *file) lineText(at int) string {
	start := bytes.LastIndexByte(f.text[:at], '\n') + 1
	end := len(f.text)
	if i := bytes.IndexByte(f.text[at:], '\n'); i >= 0 {
		end = at + i
	}
	for _, group := range f.ast.Comments {
		if c := f.offset(group.Pos()); start <= c && c < end && at < c {
			end = c
			break
		}
	}
	return oneLine(string(f.text[start:end]))
}

// listed is what the go command tells about a package.
type listed struct {
	ImportPath, Dir, Export            string
	GoFiles, TestGoFiles, XTestGoFiles []string
	Deps, TestImports, XTestImports    []string
	DepOnly, Standard                  bool
	Module                             *struct{ Path string }
	Incomplete                         bool
	Error                              *struct{ Err string }
	IgnoredGoFiles, CgoFiles, SFiles   []string
	Imports                            []string
}

func goList(root string, args ...string) ([]listed, error) {
	cmd := exec.Command("go", append([]string{"list", "-json"}, args...)...)
	cmd.Dir = root
	cmd.Env = append(os.Environ(), "GOWORK=off")
	var problems bytes.Buffer
	cmd.Stderr = &problems
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("go list %s: %w\n%s", strings.Join(args, " "), err, &problems)
	}
	var all []listed
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		switch err := dec.Decode(&p); {
		case errors.Is(err, io.EOF):
			return all, nil
		case err != nil:
			return nil, err
		}
		all = append(all, p)
	}
}

// load reads and type-checks the packages that match the patterns, against the
// compiler's export data of what they import. Commands are passed over: they
// are run by their tests as a whole or not at all.
func load(root string, patterns []string) ([]*subject, error) {
	all, err := goList(root, append([]string{"-export", "-deps"}, patterns...)...)
	if err != nil {
		return nil, err
	}
	exports := map[string]string{}
	for _, p := range all {
		exports[p.ImportPath] = p.Export
	}
	lookup := func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) }
	var subjects []*subject
	for _, p := range all {
		if p.DepOnly || len(p.GoFiles) == 0 {
			continue
		}
		fset := token.NewFileSet()
		s := &subject{path: p.ImportPath, dir: p.Dir, room: p.ImportPath, fset: fset, importer: importer.ForCompiler(fset, "gc", lookup)}
		if p.Module != nil {
			s.room = strings.TrimPrefix(strings.TrimPrefix(p.ImportPath, p.Module.Path), "/")
		}
		s.tested = len(p.TestGoFiles)+len(p.XTestGoFiles) > 0
		if err := s.read(p.GoFiles); err != nil {
			return nil, err
		}
		if s.types.Name() != "main" {
			subjects = append(subjects, s)
		}
	}
	return subjects, nil
}

func (s *subject) read(names []string) error {
	var asts []*ast.File
	for _, name := range names {
		f := &file{name: filepath.Join(s.dir, name)}
		var err error
		if f.text, err = os.ReadFile(f.name); err != nil {
			return err
		}
		f.ast, err = parser.ParseFile(s.fset, f.name, f.text, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		f.tok = s.fset.File(f.ast.FileStart)
		asts = append(asts, f.ast)
		s.files = append(s.files, f)
	}
	s.info = &types.Info{
		Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}, Defs: map[*ast.Ident]types.Object{},
		Selections: map[*ast.SelectorExpr]*types.Selection{}, Scopes: map[ast.Node]*types.Scope{},
	}
	conf := types.Config{Importer: s.importer}
	var err error
	s.types, err = conf.Check(s.path, s.fset, asts, s.info)
	return err
}
