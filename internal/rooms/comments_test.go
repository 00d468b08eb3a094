package rooms

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
)

// Every field that somebody else can set or read says what it is: beside it, over
// it, or by its name in what is said over a field before. Fields embedded say it
// themselves. The tools' own rooms under internal may be shorter.
func TestFieldsHaveComments(t *testing.T) {
	fields := 0
	set := token.NewFileSet()
	library(t, set, func(_ string, f *ast.File) {
		ast.Inspect(f, func(n ast.Node) bool {
			if s, ok := n.(*ast.TypeSpec); ok && s.Name.IsExported() {
				if st, ok := s.Type.(*ast.StructType); ok {
					fields += len(st.Fields.List)
					for _, name := range uncommented(st) {
						t.Errorf("%v: nothing is said of %s.%s", set.Position(name.Pos()), s.Name, name)
					}
				}
			}
			return true
		})
	})
	if fields < 500 {
		t.Errorf("looked at %d fields only", fields)
	}
}

// library parses the files of the library that others import, tests apart, and hands
// each on with its directory.
func library(t *testing.T, set *token.FileSet, take func(dir string, f *ast.File)) {
	t.Helper()
	err := filepath.WalkDir(filepath.Join("..", ".."), func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			switch d.Name() {
			case ".git", "testdata", "node_modules", "internal", "examples":
				return filepath.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		f, err := parser.ParseFile(set, path, nil, parser.ParseComments)
		if err != nil {
			return err
		}
		take(filepath.Dir(path), f)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// uncommented returns the exported names of fields of which nothing is said.
func uncommented(s *ast.StructType) (bare []*ast.Ident) {
	before := ""
	for _, f := range s.Fields.List {
		if f.Doc != nil || f.Comment != nil {
			before = f.Doc.Text() + f.Comment.Text()
			continue
		}
		for _, name := range f.Names {
			if name.IsExported() && !mentions(before, name.Name) {
				bare = append(bare, name)
			}
		}
	}
	return bare
}

// mentions reports whether a text has a word.
func mentions(text, word string) bool {
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return !('a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' || '0' <= r && r <= '9') }) {
		if w == word {
			return true
		}
	}
	return false
}

func TestTheSearchForComments(t *testing.T) {
	f, err := parser.ParseFile(token.NewFileSet(), "p.go", `package p
type T struct {
	A int // is said
	// C and D belong together.
	C int
	D, E int
	f int
	G int
}`, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	ast.Inspect(f, func(n ast.Node) bool {
		if s, ok := n.(*ast.StructType); ok {
			for _, name := range uncommented(s) {
				got = append(got, name.Name)
			}
		}
		return true
	})
	if strings.Join(got, " ") != "E G" {
		t.Errorf("found %q; want E and G", got)
	}
}
