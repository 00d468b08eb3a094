package rooms

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// Counterexamples shrink: no test maps what it generates by gopter's own Map, which
// drops the shrinker, or by its FlatMap, which keeps the length of a list that was
// found. Those that compare ours with theirs may.
func TestGeneratorsShrink(t *testing.T) {
	root := filepath.Join("..", "..")
	files, kept := 0, 0
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			switch d.Name() {
			case ".git", "testdata", "node_modules":
				return filepath.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(name, ".go") {
			return nil
		}
		set := token.NewFileSet()
		f, err := parser.ParseFile(set, name, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		files++
		for _, at := range unshrunk(f) {
			if strings.HasSuffix(filepath.ToSlash(name), "internal/proptest/proptest_test.go") {
				kept++
				continue
			}
			t.Errorf("%v: what is generated here does not shrink: use proptest.Map or proptest.List", set.Position(at))
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if files < 500 || kept != 2 {
		t.Errorf("looked at %d files only, and at %d that may", files, kept)
	}
}

// unshrunk returns where a file speaks of a Map or FlatMap that is no function of a
// package: nothing in this module but a generator of gopter has such a method.
func unshrunk(f *ast.File) (at []token.Pos) {
	packages := map[string]bool{}
	for _, spec := range f.Imports {
		from, _ := strconv.Unquote(spec.Path.Value)
		packages[path.Base(from)] = true
		if spec.Name != nil {
			packages[spec.Name.Name] = true
		}
	}
	ast.Inspect(f, func(n ast.Node) bool {
		if s, ok := n.(*ast.SelectorExpr); ok && (s.Sel.Name == "Map" || s.Sel.Name == "FlatMap") {
			if from, ok := s.X.(*ast.Ident); !ok || !packages[from.Name] {
				at = append(at, s.Sel.Pos())
			}
		}
		return true
	})
	return at
}

func TestTheSearchForWhatDoesNotShrink(t *testing.T) {
	set := token.NewFileSet()
	f, err := parser.ParseFile(set, "p.go", `package p
import (
	"strings"
	my "example.com/proptest"
)
var a = gen.Int().Map(double)
var b = my.Map(gen.Int(), double)
var c = a.FlatMap(lists, nil)
var d = strings.Map(r, "x")
var e = pair.first.Map
var f = OneOf(gen.Int()).
	Map(double)
`, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, at := range unshrunk(f) {
		lines = append(lines, strconv.Itoa(set.Position(at).Line))
	}
	if got := strings.Join(lines, " "); got != "6 8 10 12" {
		t.Errorf("found lines %s; want 6, 8, 10 and 12", got)
	}
}
