// Command neverread lists fields of structs that are written and never read, or
// not even written: unexported ones, and exported ones of unexported types.
//
//	neverread ./...
//
// What only tests read counts as never read. A field counts as read where it is
// selected other than to assign to it, add to it or append to it; where its
// whole struct is compared, is the key of a map, is converted, or goes to a
// function as an empty interface, as it does to print it. It fails if it finds
// any.
package main

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"slices"

	"boardwrap.example/internal/tools/listing"
)

func main() { listing.Main(run) }

func run(dir string, patterns ...string) ([]string, error) {
	loaded, err := listing.Load(dir, false, patterns...)
	if err != nil {
		return nil, err
	}
	var found []string
	for _, p := range loaded {
		s := &search{info: p.TypesInfo, read: map[*types.Var]bool{}}
		for _, f := range p.Syntax {
			s.file(f)
		}
		for _, f := range p.Syntax {
			for _, v := range s.fields(f) {
				if !s.read[v] {
					found = append(found, fmt.Sprintf("%s: the field %s is never read", p.Fset.Position(v.Pos()), v.Name()))
				}
			}
		}
	}
	slices.Sort(found)
	return found, nil
}

type search struct {
	info *types.Info
	read map[*types.Var]bool
}

// fields returns the fields that nobody outside the package can read.
func (s *search) fields(f *ast.File) []*types.Var {
	var all []*types.Var
	hidden := func(st *ast.StructType, exportedType bool) {
		for _, field := range st.Fields.List {
			if field.Tag != nil {
				continue // somebody reads it by its tag
			}
			for _, name := range field.Names {
				if v, ok := s.info.Defs[name].(*types.Var); ok && name.Name != "_" && !(exportedType && name.IsExported()) {
					all = append(all, v)
				}
			}
		}
	}
	named := map[*ast.StructType]bool{}
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.TypeSpec:
			if st, ok := n.Type.(*ast.StructType); ok {
				named[st] = true
				hidden(st, n.Name.IsExported())
			}
		case *ast.StructType:
			if !named[n] {
				hidden(n, true)
			}
		}
		return true
	})
	return all
}

// file notes what a file reads.
func (s *search) file(f *ast.File) {
	written := map[ast.Node]bool{} // selectors that are only written to
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.AssignStmt:
			s.assignment(n, written)
		case *ast.IncDecStmt:
			written[n.X] = true
		case *ast.SelectorExpr:
			s.selector(n, written[n])
		case *ast.BinaryExpr:
			if n.Op == token.EQL || n.Op == token.NEQ {
				s.whole(s.info.TypeOf(n.X), nil)
				s.whole(s.info.TypeOf(n.Y), nil)
			}
		case *ast.MapType:
			s.whole(s.info.TypeOf(n.Key), nil)
		case *ast.SwitchStmt:
			if n.Tag != nil {
				s.whole(s.info.TypeOf(n.Tag), nil)
			}
		case *ast.CallExpr:
			s.call(n)
		case *ast.Ident:
			if inst, ok := s.info.Instances[n]; ok {
				s.instance(n, inst)
			}
		}
		return true
	})
}

func (s *search) assignment(n *ast.AssignStmt, written map[ast.Node]bool) {
	for i, l := range n.Lhs {
		sel, ok := l.(*ast.SelectorExpr)
		if !ok {
			continue
		}
		written[sel] = true
		if len(n.Rhs) != len(n.Lhs) {
			continue
		}
		call, ok := n.Rhs[i].(*ast.CallExpr)
		if !ok || len(call.Args) == 0 {
			continue
		}
		fun, ok := call.Fun.(*ast.Ident)
		if ok && fun.Name == "append" && types.ExprString(call.Args[0]) == types.ExprString(sel) {
			written[call.Args[0]] = true
		}
	}
}

// selector notes the field that is selected, unless it is only written, and
// the embedded ones on the way to it.
func (s *search) selector(n *ast.SelectorExpr, written bool) {
	sel := s.info.Selections[n]
	if sel == nil {
		return
	}
	path := sel.Index()
	if sel.Kind() != types.FieldVal { // the last one is the method
		path, written = path[:len(path)-1], false
	}
	t := sel.Recv()
	for i, index := range path {
		if p, ok := t.Underlying().(*types.Pointer); ok {
			t = p.Elem()
		}
		st, ok := t.Underlying().(*types.Struct)
		if !ok {
			return
		}
		v := st.Field(index)
		if last := i == len(path)-1; !last || !written {
			s.read[v.Origin()] = true
		}
		t = v.Type()
	}
}

func (s *search) call(n *ast.CallExpr) {
	tv := s.info.Types[n.Fun]
	if tv.IsType() { // a conversion
		for _, a := range n.Args {
			s.whole(s.info.TypeOf(a), nil)
		}
		return
	}
	sig, ok := tv.Type.(*types.Signature)
	if !ok {
		return
	}
	for i, a := range n.Args {
		k := min(i, sig.Params().Len()-1)
		if k < 0 {
			continue
		}
		t := sig.Params().At(k).Type()
		if sl, ok := t.(*types.Slice); ok && sig.Variadic() && k == sig.Params().Len()-1 {
			t = sl.Elem()
		}
		if it, ok := t.Underlying().(*types.Interface); ok && it.Empty() {
			s.whole(s.info.TypeOf(a), nil)
		}
	}
}

// instance notes the fields of what stands for a comparable type parameter.
func (s *search) instance(id *ast.Ident, inst types.Instance) {
	var params *types.TypeParamList
	switch o := s.info.Uses[id].(type) {
	case *types.Func:
		params = o.Signature().TypeParams()
	case *types.TypeName:
		if named, ok := o.Type().(*types.Named); ok {
			params = named.TypeParams()
		}
	}
	for i := range min(params.Len(), inst.TypeArgs.Len()) {
		if it, ok := params.At(i).Constraint().Underlying().(*types.Interface); ok && it.IsComparable() {
			s.whole(inst.TypeArgs.At(i), nil)
		}
	}
}

// whole notes all fields of a struct, and of what lies in it.
func (s *search) whole(t types.Type, seen []types.Type) {
	if t == nil || slices.ContainsFunc(seen, func(u types.Type) bool { return types.Identical(t, u) }) {
		return
	}
	seen = append(seen, t)
	switch u := t.Underlying().(type) {
	case *types.Pointer:
		s.whole(u.Elem(), seen)
	case *types.Slice:
		s.whole(u.Elem(), seen)
	case *types.Array:
		s.whole(u.Elem(), seen)
	case *types.Struct:
		for v := range u.Fields() {
			s.read[v.Origin()] = true
			s.whole(v.Type(), seen)
		}
	}
}
