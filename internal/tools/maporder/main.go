// Command maporder lists what differs from run to run because a map has no order:
// loops over maps whose body draws from a source of chance, or reads a count, that
// was there before the loop. It lists the functions of math/rand that nobody gives a
// seed, too.
//
//	maporder ./...
//
// What draws is known by its type: a *rand.Rand, what holds one, and functions
// written in place that use one. It reads tests as well, and fails if it finds any.
package main

import (
	"cmp"
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"slices"
	"strings"

	"boardwrap.example/internal/tools/listing"
)

func main() { listing.Main(run) }

func run(dir string, patterns ...string) ([]string, error) {
	loaded, err := listing.Load(dir, true, patterns...)
	if err != nil {
		return nil, err
	}
	var found []string
	for _, p := range loaded {
		s := &search{info: p.TypesInfo, draws: map[types.Object]bool{}}
		for _, f := range p.Syntax {
			s.literals(f)
		}
		for _, f := range p.Syntax {
			ast.Inspect(f, func(n ast.Node) bool {
				if loop, ok := n.(*ast.RangeStmt); ok && s.overMap(loop.X) {
					if id, what := s.order(loop); id != nil {
						found = append(found, fmt.Sprintf("%s: in the order of a map, %s %s", p.Fset.Position(id.Pos()), id.Name, what))
					}
				}
				if sel, ok := n.(*ast.SelectorExpr); ok && s.seedless(sel) {
					found = append(found, fmt.Sprintf("%s: rand.%s has no seed", p.Fset.Position(sel.Pos()), sel.Sel.Name))
				}
				return true
			})
		}
	}
	slices.Sort(found)
	return slices.Compact(found), nil // a package is read with its tests and without
}

type search struct {
	info  *types.Info
	draws map[types.Object]bool // variables that hold functions which draw
}

// chancy says whether a package is one of those that draw numbers.
func chancy(p *types.Package) bool {
	return p != nil && (p.Path() == "math/rand" || p.Path() == "math/rand/v2")
}

// overMap says whether a loop goes through a map, by itself or by what package maps
// gives.
func (s *search) overMap(x ast.Expr) bool {
	if t := s.info.TypeOf(x); t != nil {
		if _, ok := t.Underlying().(*types.Map); ok {
			return true
		}
	}
	call, ok := ast.Unparen(x).(*ast.CallExpr)
	if !ok {
		return false
	}
	sel, ok := call.Fun.(*ast.SelectorExpr)
	if !ok {
		return false
	}
	f, ok := s.info.Uses[sel.Sel].(*types.Func)
	return ok && f.Pkg() != nil && f.Pkg().Path() == "maps"
}

// seedless says whether a function of package math/rand draws from the source that
// everybody shares.
func (s *search) seedless(sel *ast.SelectorExpr) bool {
	f, ok := s.info.Uses[sel.Sel].(*types.Func)
	return ok && chancy(f.Pkg()) && f.Signature().Recv() == nil && !strings.HasPrefix(f.Name(), "New")
}

// chance says whether something of this type draws numbers: a source, or what
// holds one.
func chance(t types.Type, seen []types.Type) bool {
	if slices.ContainsFunc(seen, func(u types.Type) bool { return types.Identical(t, u) }) {
		return false
	}
	seen = append(seen, t)
	if named, ok := types.Unalias(t).(*types.Named); ok && chancy(named.Obj().Pkg()) {
		return true
	}
	switch u := t.Underlying().(type) {
	case *types.Pointer:
		return chance(u.Elem(), seen)
	case *types.Struct:
		for v := range u.Fields() {
			if chance(v.Type(), seen) {
				return true
			}
		}
	}
	return false
}

// literals notes which variables hold functions that draw from what is outside
// them: written in place, or made of a source.
func (s *search) literals(f *ast.File) {
	for more := true; more; {
		more = false
		note := func(name ast.Expr, value ast.Expr) {
			id, ok := name.(*ast.Ident)
			if !ok {
				return
			}
			o := s.info.ObjectOf(id)
			if o == nil || s.draws[o] {
				return
			}
			var from *ast.Ident
			switch value := value.(type) {
			case *ast.FuncLit:
				from = s.drawn(value.Body, value)
			case *ast.CallExpr: // what makes a function of a source
				if _, isFunc := o.Type().Underlying().(*types.Signature); isFunc {
					for _, a := range value.Args {
						from = cmp.Or(from, s.drawn(a, value))
					}
				}
			}
			if from != nil {
				s.draws[o], more = true, true
			}
		}
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.AssignStmt:
				for i := range min(len(n.Lhs), len(n.Rhs)) {
					note(n.Lhs[i], n.Rhs[i])
				}
			case *ast.ValueSpec:
				for i := range min(len(n.Names), len(n.Values)) {
					note(n.Names[i], n.Values[i])
				}
			}
			return true
		})
	}
}

// drawn returns the first name in a body of something that draws and was there
// before the node around it.
func (s *search) drawn(body ast.Node, around ast.Node) *ast.Ident {
	var first *ast.Ident
	ast.Inspect(body, func(n ast.Node) bool {
		id, ok := n.(*ast.Ident)
		if !ok || first != nil {
			return first == nil
		}
		v, ok := s.info.Uses[id].(*types.Var)
		if ok && !v.IsField() && outside(v, around) && (s.draws[v] || chance(v.Type(), nil)) {
			first = id
		}
		return true
	})
	return first
}

func outside(o types.Object, n ast.Node) bool { return o.Pos() < n.Pos() || o.Pos() >= n.End() }

// order returns what in a loop over a map depends on its order, and how.
func (s *search) order(loop *ast.RangeStmt) (*ast.Ident, string) {
	if id := s.drawn(loop.Body, loop); id != nil {
		return id, "draws"
	}
	counted := map[types.Object]bool{}
	steps := map[*ast.Ident]bool{}
	ast.Inspect(loop.Body, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.IncDecStmt:
			if id, ok := n.X.(*ast.Ident); ok {
				counted[s.info.ObjectOf(id)], steps[id] = true, true
			}
		case *ast.AssignStmt:
			if id, ok := n.Lhs[0].(*ast.Ident); ok && (n.Tok == token.ADD_ASSIGN || n.Tok == token.SUB_ASSIGN) {
				counted[s.info.ObjectOf(id)], steps[id] = true, true
			}
		}
		return true
	})
	var first *ast.Ident
	ast.Inspect(loop.Body, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok && first == nil && !steps[id] {
			if o := s.info.Uses[id]; o != nil && counted[o] && outside(o, loop) {
				first = id
			}
		}
		return true
	})
	return first, "counts"
}
