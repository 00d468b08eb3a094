package rooms_test

import (
	"bytes"
	"go/ast"
	"go/build/constraint"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// .ci/run picks the tests in files with the build tag long by the word Long in
// their names: one without it would run nowhere.
func TestLongTestsSaySo(t *testing.T) {
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, "_test.go") {
			return err
		}
		source, err := os.ReadFile(name)
		if err != nil || !bytes.Contains(source, []byte("//go:build ")) {
			return err
		}
		fset := token.NewFileSet()
		f, err := parser.ParseFile(fset, name, source, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		for _, test := range unnamedLong(f) {
			t.Errorf("%s: %s is built with the tag long: put Long into its name", place(fset, f.Pos()), test)
		}
		return nil
	})
	if err != nil {
		t.Error(err)
	}
}

// unnamedLong returns the tests of a file with the tag long that do not have it
// in their names.
func unnamedLong(f *ast.File) []string {
	long := false
	for _, group := range f.Comments {
		for _, c := range group.List {
			if expr, err := constraint.Parse(c.Text); err == nil && c.Pos() < f.Package {
				// It is a file of long runs if only they build it.
				long = long || expr.Eval(func(tag string) bool { return true }) && !expr.Eval(func(tag string) bool { return tag != "long" })
			}
		}
	}
	var found []string
	for _, d := range f.Decls {
		fn, ok := d.(*ast.FuncDecl)
		if ok && long && strings.HasPrefix(fn.Name.Name, "Test") && fn.Name.Name != "TestMain" && !strings.Contains(fn.Name.Name, "Long") {
			found = append(found, fn.Name.Name)
		}
	}
	return found
}

func TestUnnamedLong(t *testing.T) {
	for source, want := range map[string]int{
		"//go:build long\n\npackage p\n\nfunc TestA() {}\nfunc TestLongA() {}\n": 1,
		"//go:build !long\n\npackage p\n\nfunc TestA() {}\n":                     0,
		"package p\n\n//go:build long\n\nfunc TestA() {}\n":                      0,
	} {
		f, err := parser.ParseFile(token.NewFileSet(), "p_test.go", source, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		if got := unnamedLong(f); len(got) != want {
			t.Errorf("%q: %v; want %d", source, got, want)
		}
	}
}
