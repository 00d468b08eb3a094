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

// calledBack are methods of interfaces whose calls may go back, with the reasons.
var calledBack = map[string]string{
	"folio.Kind.String": "what offers something to kinds of fittings says what they are called",
	"pocket.Kind.seen":  "the maker, who closes every design, asks its kind what is seen of it when the panels are known",
}

// Calls inside a package run one way: from file to file they form no cycle, so a file can
// be read without those that call it. Recursion stays in one file. Whoever names a
// function or method calls it, also where it is handed on as a value, in a body as in
// what a variable of the package begins with; and whoever names such a variable calls
// what it names. Whoever names a method of an interface of the package calls that of
// every type of the package that has the interface, but for those in calledBack.
//
// What this does not see are calls of functions that were handed on, as a walk calls
// whom it yields to, and calls through interfaces of other packages and generic ones.
func TestCallsRunOneWay(t *testing.T) {
	packages, err := everything()
	if err != nil {
		t.Fatal(err)
	}
	functions, needed := 0, map[string]bool{}
	for _, p := range packages {
		room, _ := rooms.Room(p.ImportPath)
		back := func(method string) bool { return calledBack[room+"."+method] != "" }
		c := callsOf(p.Fset, p.Files, p.Types, p.Info, back)
		functions += c.functions
		if round := c.round(); round != nil {
			t.Errorf("%s: calls go round, from file to file:\n\t%s", p.ImportPath, strings.Join(round, "\n\t"))
		}
		for name := range calledBack {
			if !strings.HasPrefix(name, room+".") {
				continue
			}
			others := func(method string) bool { return back(method) && room+"."+method != name }
			needed[name] = needed[name] || callsOf(p.Fset, p.Files, p.Types, p.Info, others).round() != nil
		}
	}
	for name := range calledBack {
		if !needed[name] {
			t.Errorf("%s need not be called back: take it off the list", name)
		}
	}
	if len(packages) < 40 || functions < 4000 {
		t.Errorf("looked at %d functions of %d packages only", functions, len(packages))
	}
}

// calls are those of a package from file to file.
type calls struct {
	files     map[string]map[string]string // by the file that calls and the one called: who calls whom
	functions int
}

// callsOf finds the calls of a package, but for those of methods of interfaces that may
// be called back.
func callsOf(fset *token.FileSet, files []*ast.File, pkg *types.Package, info *types.Info, back func(method string) bool) calls {
	file := func(pos token.Pos) string { return filepath.Base(fset.Position(pos).Filename) }
	holders := map[token.Pos]bool{} // variables that name functions, by where they are declared
	// callees walks the functions of the package that a part of a file names, and such
	// variables.
	callees := func(n ast.Node, yield func(types.Object)) {
		ast.Inspect(n, func(n ast.Node) bool {
			id, ok := n.(*ast.Ident)
			if !ok {
				return true
			}
			switch o := info.Uses[id].(type) {
			case *types.Func:
				if o = o.Origin(); o.Pkg() != pkg {
					break
				}
				if r := o.Signature().Recv(); r == nil || !types.IsInterface(r.Type()) {
					yield(o)
				} else if named, ok := r.Type().(*types.Named); ok && !back(named.Obj().Name()+"."+o.Name()) {
					methodsOf(named, o, yield)
				}
			case *types.Var:
				if holders[o.Pos()] {
					yield(o)
				}
			}
			return true
		})
	}
	c := calls{files: map[string]map[string]string{}}
	note := func(caller string, at token.Pos, n ast.Node) {
		callees(n, func(o types.Object) {
			from, to := file(at), file(o.Pos())
			if from == to {
				return
			}
			if c.files[from] == nil {
				c.files[from] = map[string]string{}
			}
			if c.files[from][to] == "" {
				c.files[from][to] = from + ": " + caller + " calls " + o.Name() + " of " + to
			}
		})
	}
	variables := func(do func(s *ast.ValueSpec)) {
		for _, f := range files {
			for _, d := range f.Decls {
				if d, ok := d.(*ast.GenDecl); ok && d.Tok == token.VAR {
					for _, s := range d.Specs {
						do(s.(*ast.ValueSpec))
					}
				}
			}
		}
	}
	for before := -1; len(holders) > before; { // a variable may be made of another
		before = len(holders)
		variables(func(s *ast.ValueSpec) {
			for _, v := range s.Values {
				callees(v, func(types.Object) {
					for _, name := range s.Names {
						holders[name.Pos()] = true
					}
				})
			}
		})
	}
	variables(func(s *ast.ValueSpec) {
		for _, v := range s.Values {
			note("variable "+s.Names[0].Name, s.Pos(), v)
		}
	})
	for _, f := range files {
		for _, d := range f.Decls {
			if d, ok := d.(*ast.FuncDecl); ok {
				c.functions++
				if d.Body != nil {
					note(d.Name.Name, d.Pos(), d.Body)
				}
			}
		}
	}
	return c
}

// methodsOf walks what a method of an interface is in the types of its package that have
// the interface.
func methodsOf(face *types.Named, method *types.Func, yield func(types.Object)) {
	scope := face.Obj().Pkg().Scope()
	for _, name := range scope.Names() {
		of, ok := scope.Lookup(name).(*types.TypeName)
		if !ok || of.IsAlias() || types.IsInterface(of.Type()) || of.Type().(*types.Named).TypeParams().Len() > 0 {
			continue
		}
		pointer := types.NewPointer(of.Type()) // it has the methods of the type too
		if i, ok := face.Underlying().(*types.Interface); !ok || !types.Implements(pointer, i) {
			continue
		}
		if o, _, _ := types.LookupFieldOrMethod(pointer, false, method.Pkg(), method.Name()); o != nil && o.Pkg() == method.Pkg() {
			yield(o)
		}
	}
}

// round returns the shortest cycle, by the calls from each file to the next; nil if
// there is none.
func (c calls) round() (shortest []string) {
	sorted := func(m map[string]string) (names []string) {
		for name := range m {
			names = append(names, name)
		}
		slices.Sort(names)
		return names
	}
	for start := range c.files {
		ways := map[string][]string{}
		for todo := []string{start}; len(todo) > 0; todo = todo[1:] {
			at := todo[0]
			for _, to := range sorted(c.files[at]) {
				if ways[to] == nil {
					ways[to] = append(slices.Clip(ways[at]), c.files[at][to])
					todo = append(todo, to)
				}
			}
		}
		if way := ways[start]; way != nil && (shortest == nil || len(way) < len(shortest) || len(way) == len(shortest) && slices.Compare(way, shortest) < 0) {
			shortest = way
		}
	}
	return shortest
}

// The search finds calls of functions, of methods, of what is generic, of what is handed
// on, of what variables hold and through an interface, and says who calls whom. Recursion
// in a file, what only looks like a call back and methods that may be called back it lets
// be.
func TestTheSearchForCallsThatGoRound(t *testing.T) {
	const low = "package folio\ntype board struct{ next *board }\nfunc (b *board) cut() { if b.next != nil { b.next.cut() } }\n" +
		"type kind interface{ fit(); String() string }\n"
	const mat = "package folio\ntype mat struct{}\nfunc (*mat) fit() { new(board).cut() }\nfunc (*mat) String() string { return \"mat\" }\n"
	for _, c := range []struct {
		name, low, high string
		want            []string
	}{
		{name: "one way", low: low, high: "package folio\nfunc cover(b *board) { b.cut() }\n"},
		{name: "a function", low: low + "func glue() { press() }\n", high: "package folio\nfunc press() { new(board).cut() }\n",
			want: []string{"high.go: press calls cut of low.go", "low.go: glue calls press of high.go"}},
		{name: "a method of what is generic", low: low + "func glue() { var p pile[int]; p.press() }\n", high: "package folio\ntype pile[T any] []T\nfunc (p pile[T]) press() { new(board).cut() }\n",
			want: []string{"high.go: press calls cut of low.go", "low.go: glue calls press of high.go"}},
		{name: "handed on", low: low + "func glue() func() { return press }\n", high: "package folio\nfunc press() { f := (*board).cut; f(nil) }\n",
			want: []string{"high.go: press calls cut of low.go", "low.go: glue calls press of high.go"}},
		{name: "a variable's beginning", low: low + "var all = press()\n", high: "package folio\nfunc press() int { new(board).cut(); return 1 }\n",
			want: []string{"high.go: press calls cut of low.go", "low.go: variable all calls press of high.go"}},
		{name: "what a variable holds", low: low + "func glue() { for _, f := range others { f() } }\n", high: "package folio\nvar works = []func(){press}\nvar others = works\nfunc press() { new(board).cut() }\n",
			want: []string{"high.go: press calls cut of low.go", "low.go: glue calls others of high.go"}},
		{name: "a plain variable", low: low + "func glue() int { return most }\n", high: "package folio\nvar most = 3\nfunc press() { new(board).cut() }\n"},
		{name: "a field of a function's name", low: low + "type sheet struct{ press int }\nfunc glue(s sheet) int { return s.press }\n", high: "package folio\nfunc press() { new(board).cut() }\n"},
		{name: "an interface", low: low + "func lay(k kind) { k.fit() }\n", high: mat,
			want: []string{"high.go: fit calls cut of low.go", "low.go: lay calls fit of high.go"}},
		{name: "an interface that the type has not", low: low + "func lay(k kind) { k.fit() }\n", high: "package folio\ntype mat struct{}\nfunc (mat) fit() { new(board).cut() }\n"},
		{name: "what may be called back", low: low + "func lay(k kind) string { return k.String() }\n", high: mat},
	} {
		fset := token.NewFileSet()
		var files []*ast.File
		for name, text := range map[string]string{"low.go": c.low, "high.go": c.high} {
			f, err := parser.ParseFile(fset, name, text, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			files = append(files, f)
		}
		info := &types.Info{Uses: map[*ast.Ident]types.Object{}}
		pkg, err := new(types.Config).Check("folio", fset, files, info)
		if err != nil {
			t.Fatal(err)
		}
		got := callsOf(fset, files, pkg, info, func(method string) bool { return method == "kind.String" }).round()
		slices.Sort(got)
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q; want %q", c.name, got, c.want)
		}
	}
}
