package rooms

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

// Module is the path of the module.
const Module = "boardwrap.example"

// A Package is what the go command tells about a package.
type Package struct {
	ImportPath                         string
	Dir                                string
	GoFiles                            []string
	Imports, TestImports, XTestImports []string
	Deps                               []string // direct and indirect, tests not counted
	Standard, DepOnly                  bool
	Export                             string
	Error                              *struct{ Err string }
}

// Room returns the import path without the module: "" for the module's root,
// "folio/guide" for a package, and false for a package of another module.
func Room(importPath string) (string, bool) {
	if importPath == Module {
		return "", true
	}
	return strings.CutPrefix(importPath, Module+"/")
}

// List lists the packages of the module at root that match the patterns. A
// pattern for a directory that does not exist yet matches nothing.
func List(root string, patterns ...string) ([]Package, error) {
	return list(root, nil, patterns)
}

func list(root string, flags, patterns []string) ([]Package, error) {
	args := append([]string{"list", "-json"}, flags...)
	here := len(args)
	for _, p := range patterns {
		if _, err := os.Stat(filepath.Join(root, strings.TrimSuffix(p, "/..."))); err == nil {
			args = append(args, p)
		}
	}
	if len(args) == here {
		return nil, nil
	}
	return run(root, args)
}

// run reads what the go command lists.
func run(root string, args []string) ([]Package, error) {
	cmd := exec.Command("go", args...)
	cmd.Dir = root
	var problems bytes.Buffer
	cmd.Stderr = &problems
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("go %s: %w\n%s", strings.Join(args, " "), err, &problems)
	}
	var all []Package
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p Package
		switch err := dec.Decode(&p); {
		case errors.Is(err, io.EOF):
			return all, nil
		case err != nil:
			return nil, err
		}
		all = append(all, p)
	}
}

// Importer imports packages, and what they import, from the compiler's export data.
func Importer(fset *token.FileSet, root string, importPaths ...string) (types.Importer, error) {
	all, err := run(root, append([]string{"list", "-json", "-export", "-deps"}, importPaths...))
	if err != nil {
		return nil, err
	}
	return compiled(fset, all), nil
}

func compiled(fset *token.FileSet, all []Package) types.Importer {
	exports := map[string]string{}
	for _, p := range all {
		exports[p.ImportPath] = p.Export
	}
	return importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
}

// A Checked package was parsed and type-checked, without its tests.
type Checked struct {
	Package
	Fset  *token.FileSet
	Files []*ast.File
	Types *types.Package
	Info  *types.Info
}

// Check type-checks the packages that match the patterns, against the
// compiler's export data of what they import.
func Check(root string, patterns ...string) ([]Checked, error) {
	all, err := list(root, []string{"-export", "-deps"}, patterns)
	if err != nil {
		return nil, err
	}
	fset := token.NewFileSet()
	imports := compiled(fset, all)
	var checked []Checked
	for _, p := range all {
		if p.DepOnly {
			continue
		}
		c := Checked{Package: p, Fset: fset, Info: &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}}}
		for _, name := range p.GoFiles {
			f, err := parser.ParseFile(fset, filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution)
			if err != nil {
				return nil, err
			}
			c.Files = append(c.Files, f)
		}
		conf := types.Config{Importer: imports}
		if c.Types, err = conf.Check(p.ImportPath, fset, c.Files, c.Info); err != nil {
			return nil, err
		}
		checked = append(checked, c)
	}
	return checked, nil
}
