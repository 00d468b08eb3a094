package main

import (
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"slices"
	"strings"
	"unicode"
)

// pairs are the words for axes, sides and ends: where one stands in a name, the
// other may have been meant.
var pairs = [][2]string{
	{"w", "h"}, {"x", "y"}, {"min", "max"}, {"left", "right"}, {"head", "tail"}, {"near", "far"}, {"width", "height"},
	{"widths", "heights"}, {"low", "high"}, {"least", "most"}, {"first", "last"}, {"inner", "outer"}, {"inside", "outside"},
	{"above", "below"}, {"before", "after"}, {"front", "back"}, {"start", "end"}, {"lower", "upper"}, {"from", "to"},
	{"smallest", "largest"}, {"shortest", "longest"}, {"valley", "mountain"}, {"hi", "lo"}, {"across", "along"},
	{"cols", "rows"}, {"column", "row"}, {"turned", "upright"},
}

// ways are the names of directions of rounding.
var ways = [][]string{{"Up", "Down", "Nearest"}, {"up", "down", "nearest"}, {"Floor", "Ceil", "Round", "Trunc"}}

// directionType is the type whose constants are directions of rounding.
const directionType = "Direction"

// name swaps what a name stands for: directions, axes, constants.
func (fd *finder) name(id *ast.Ident) {
	o := fd.info.Uses[id]
	if o == nil || id.Name == "_" || fd.isKey(id) {
		return
	}
	for _, others := range ways {
		if i := slices.Index(others, id.Name); i >= 0 {
			for k, other := range others {
				if k != i && fd.standsFor(id, other, o) {
					fd.replace(rounding, id, other)
				}
			}
			return
		}
	}
	for _, other := range otherNames(id.Name) {
		if fd.standsFor(id, other, o) {
			fd.replace(swap, id, other)
		}
	}
	if c, ok := o.(*types.Const); ok && !isBool(c.Type()) {
		if next := fd.nextConstant(c); next != nil {
			fd.replace(swappedConstant, id, next.Name())
		}
	}
}

func (fd *finder) isKey(id *ast.Ident) bool {
	kv, ok := fd.parent().(*ast.KeyValueExpr)
	if !ok || kv.Key != id {
		return false
	}
	v, ok := fd.info.Uses[id].(*types.Var)
	return ok && v.IsField()
}

// standsFor reports whether another name could stand in the place of id, for
// something of the same kind and type.
func (fd *finder) standsFor(id *ast.Ident, other string, o types.Object) bool {
	there := fd.lookUp(id, other)
	if there == nil || there == o {
		return false
	}
	switch o.(type) {
	case *types.Var:
		if _, ok := there.(*types.Var); !ok {
			return false
		}
	case *types.Const:
		if _, ok := there.(*types.Const); !ok {
			return false
		}
	case *types.Func:
		if _, ok := there.(*types.Func); !ok {
			return false
		}
	case *types.Builtin:
		_, ok := there.(*types.Builtin)
		return ok
	default:
		return false
	}
	return types.Identical(o.Type(), there.Type())
}

// lookUp returns what a name would mean in the place of id: a field or method
// behind the same operand, or something in scope.
func (fd *finder) lookUp(id *ast.Ident, name string) types.Object {
	if sel, ok := fd.parent().(*ast.SelectorExpr); ok && sel.Sel == id {
		if of, ok := sel.X.(*ast.Ident); ok {
			if p, ok := fd.info.Uses[of].(*types.PkgName); ok {
				if o := p.Imported().Scope().Lookup(name); o != nil && o.Exported() {
					return o
				}
				return nil
			}
		}
		t := fd.info.TypeOf(sel.X)
		if t == nil {
			return nil
		}
		o, _, _ := types.LookupFieldOrMethod(t, true, fd.types, name)
		return o
	}
	scope := fd.types.Scope().Innermost(id.Pos())
	if scope == nil {
		return nil
	}
	_, o := scope.LookupParent(name, id.Pos())
	return o
}

// otherNames returns the names with one word of a pair put for the other, as in
// LeftCover and RightCover, maxW and maxH.
func otherNames(name string) []string {
	var all []string
	words := splitWords(name)
	for i, word := range words {
		for _, pair := range pairs {
			for k := range 2 {
				if strings.EqualFold(word, pair[k]) {
					changed := slices.Clone(words)
					changed[i] = inCaseOf(word, pair[1-k])
					all = append(all, strings.Join(changed, ""))
				}
			}
		}
	}
	return all
}

// splitWords splits a name before its capitals and around its digits.
func splitWords(name string) []string {
	var words []string
	start := 0
	runes := []rune(name)
	for i := 1; i <= len(runes); i++ {
		if i == len(runes) || unicode.IsUpper(runes[i]) && !unicode.IsUpper(runes[i-1]) || unicode.IsDigit(runes[i]) != unicode.IsDigit(runes[i-1]) {
			words = append(words, string(runes[start:i]))
			start = i
		}
	}
	return words
}

// inCaseOf writes a word with a capital where the model has one.
func inCaseOf(model, word string) string {
	if unicode.IsUpper([]rune(model)[0]) {
		return strings.ToUpper(word[:1]) + word[1:]
	}
	return word
}

// nextConstant returns the constant of the same named type that is declared
// after c, or the first one after the last, with another value; nil where there
// is none, and for directions, which are rounding's.
func (fd *finder) nextConstant(c *types.Const) *types.Const {
	named, ok := types.Unalias(c.Type()).(*types.Named)
	if !ok || c.Pkg() == nil || c.Parent() != c.Pkg().Scope() || named.Obj().Name() == directionType {
		return nil
	}
	var all []*types.Const
	scope := c.Pkg().Scope()
	for _, name := range scope.Names() {
		o, ok := scope.Lookup(name).(*types.Const)
		if ok && types.Identical(o.Type(), c.Type()) && (o.Exported() || o.Pkg() == fd.types) {
			all = append(all, o)
		}
	}
	// By position; those of other packages have one as well, from the export
	// data. By name where they are on one line.
	slices.SortStableFunc(all, func(a, b *types.Const) int { return int(a.Pos() - b.Pos()) })
	at := slices.Index(all, c)
	for i := 1; i < len(all); i++ {
		next := all[(at+i)%len(all)]
		if !constant.Compare(next.Val(), token.EQL, c.Val()) {
			return next
		}
	}
	return nil
}

// composite swaps the two values of a composite literal whose fields are a pair.
func (fd *finder) composite(n *ast.CompositeLit) {
	t := fd.info.TypeOf(n)
	if t == nil {
		return
	}
	st, ok := t.Underlying().(*types.Struct)
	if !ok {
		return
	}
	fields := make([]*types.Var, len(n.Elts))
	values := make([]ast.Expr, len(n.Elts))
	for i, e := range n.Elts {
		values[i] = e
		if kv, ok := e.(*ast.KeyValueExpr); ok {
			values[i] = kv.Value
			if key, ok := kv.Key.(*ast.Ident); ok {
				fields[i], _ = fd.info.Uses[key].(*types.Var)
			}
		} else if i < st.NumFields() {
			fields[i] = st.Field(i)
		}
	}
	for i, f := range fields {
		if f == nil {
			continue
		}
		for _, other := range otherNames(f.Name()) {
			k := slices.IndexFunc(fields, func(g *types.Var) bool { return g != nil && g.Name() == other })
			switch {
			case k > i && types.Identical(f.Type(), fields[k].Type()):
				fd.exchange(values[i], values[k])
			case k < 0:
				fd.rename(n.Elts[i], f, st, other)
			}
		}
	}
}

// rename gives a value to the other field of a pair, which the literal leaves
// at zero.
func (fd *finder) rename(e ast.Expr, f *types.Var, st *types.Struct, other string) {
	kv, ok := e.(*ast.KeyValueExpr)
	if !ok {
		return
	}
	for g := range st.Fields() {
		if g.Name() == other && types.Identical(f.Type(), g.Type()) && (g.Exported() || g.Pkg() == fd.types) {
			fd.replace(swap, kv.Key, other)
		}
	}
}

// exchange puts two expressions in each other's place.
func (fd *finder) exchange(a, b ast.Expr) {
	between := string(fd.file.text[fd.file.offset(a.End()):fd.file.offset(b.Pos())])
	fd.add(swap, fd.file.offset(a.Pos()), fd.file.offset(b.End()), fd.file.source(b)+between+fd.file.source(a))
}

// call swaps two arguments whose parameters are a pair. What x and y are called
// in the standard library are no axes.
func (fd *finder) call(n *ast.CallExpr) {
	sig, ok := fd.info.TypeOf(n.Fun).(*types.Signature)
	if !ok || fd.info.Types[n.Fun].IsBuiltin() || fd.isStandard(n.Fun) {
		return
	}
	params := sig.Params()
	for i := range min(params.Len(), len(n.Args)) {
		for _, other := range otherNames(params.At(i).Name()) {
			for k := i + 1; k < min(params.Len(), len(n.Args)); k++ {
				if params.At(k).Name() == other && types.Identical(params.At(i).Type(), params.At(k).Type()) {
					fd.exchange(n.Args[i], n.Args[k])
				}
			}
		}
	}
}

// isStandard reports whether a function comes from the standard library, whose
// packages have no dot in the first part of their paths.
func (fd *finder) isStandard(fun ast.Expr) bool {
	sel, ok := fun.(*ast.SelectorExpr)
	if !ok {
		return false
	}
	o := fd.info.Uses[sel.Sel]
	if o == nil || o.Pkg() == nil {
		return false
	}
	first, _, _ := strings.Cut(o.Pkg().Path(), "/")
	return !strings.Contains(first, ".")
}
