package rooms_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/internal/rooms"
)

// What a kind of fitting or pocket is stands in its own file: nobody else asks which kind
// it has before it, so that a new kind is one file. The code that writes documents is
// generated from the list of kinds, and tests may ask.
func TestNobodyAsksForAKind(t *testing.T) {
	packages, err := everything()
	if err != nil {
		t.Fatal(err)
	}
	kinds := map[string]bool{} // by their full names, as a type that is imported is another value
	for _, p := range packages {
		if room, _ := rooms.Room(p.ImportPath); room != "folio" && room != "pocket" {
			continue
		}
		all := p.Types.Scope()
		family := all.Lookup("Kind").Type().Underlying().(*types.Interface)
		for _, name := range all.Names() {
			if t := all.Lookup(name).Type(); !types.IsInterface(t) && types.Implements(t, family) {
				kinds[t.String()] = true
			}
		}
	}
	if len(kinds) < 12 {
		t.Fatalf("found %d kinds", len(kinds))
	}
	seen := 0 // the generated code asks, of every kind
	for _, p := range packages {
		asked := askedIn(p.Fset, p.Files, p.Info, func(n *types.Named) bool { return kinds[n.String()] })
		seen += asked.own + len(asked.elsewhere)
		for _, a := range asked.elsewhere {
			if !strings.Contains(a, "_code.go:") {
				t.Error(a)
			}
		}
	}
	if seen < len(kinds) {
		t.Errorf("found %d places that ask for one of %d kinds", seen, len(kinds))
	}
}

// asked is where the code asks whether a value is of a kind.
type asked struct {
	own       int      // in the file of that kind
	elsewhere []string // where it is, and of which kind
}

// askedIn looks through files for assertions of types and switches on them.
func askedIn(fset *token.FileSet, files []*ast.File, info *types.Info, kind func(*types.Named) bool) (a asked) {
	look := func(e ast.Expr) {
		t := info.TypeOf(e)
		if p, ok := t.(*types.Pointer); ok {
			t = p.Elem()
		}
		n, ok := t.(*types.Named)
		if !ok || n.Obj().Pkg() == nil || types.IsInterface(n) || !kind(n) {
			return
		}
		at := fset.Position(e.Pos())
		if at.Filename == fset.Position(n.Obj().Pos()).Filename {
			a.own++
			return
		}
		a.elsewhere = append(a.elsewhere, filepath.ToSlash(at.String())+": asks for a "+n.Obj().Name()+", which only its own file should")
	}
	for _, f := range files {
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.TypeAssertExpr:
				if n.Type != nil {
					look(n.Type)
				}
			case *ast.TypeSwitchStmt:
				for _, c := range n.Body.List {
					for _, e := range c.(*ast.CaseClause).List {
						look(e)
					}
				}
			}
			return true
		})
	}
	return a
}

// Both ways of asking are found, of values and pointers, and a kind's own file is told
// from others.
func TestTheSearchForWhoAsks(t *testing.T) {
	fset := token.NewFileSet()
	var files []*ast.File
	for name, source := range map[string]string{
		"kind.go": "package p\ntype Kind interface{ kind() }\ntype Other interface{ other() }",
		"mat.go":  "package p\ntype Mat struct{}\nfunc (Mat) kind() {}\nfunc mats(k Kind) bool { _, ok := k.(Mat); return ok }",
		"ask.go": "package p\nfunc ask(k Kind) int {\n\tif _, ok := k.(Mat); ok {\n\t\treturn 1\n\t}\n" +
			"\tswitch k.(type) {\n\tcase nil, Other:\n\t\treturn 2\n\tcase *Mat:\n\t\treturn 3\n\t}\n\treturn 0\n}\nfunc (m *Mat) also() {}",
	} {
		f, err := parser.ParseFile(fset, name, source, 0)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, f)
	}
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{}}
	pkg, err := (&types.Config{}).Check("p", fset, files, info)
	if err != nil {
		t.Fatal(err)
	}
	kind := pkg.Scope().Lookup("Kind").Type().Underlying().(*types.Interface)
	a := askedIn(fset, files, info, func(n *types.Named) bool { return types.Implements(n, kind) })
	slices.Sort(a.elsewhere)
	if a.own != 1 || len(a.elsewhere) != 2 || !strings.HasPrefix(a.elsewhere[0], "ask.go:3:") || !strings.HasPrefix(a.elsewhere[1], "ask.go:9:") {
		t.Errorf("%d in its own file, elsewhere %q", a.own, a.elsewhere)
	}
}
