package main

import (
	"go/ast"
	"go/token"
	"go/types"
)

// visit notes the mutants that begin with a node.
func (fd *finder) visit(n ast.Node) {
	switch n := n.(type) {
	case *ast.BinaryExpr:
		fd.binary(n)
	case *ast.UnaryExpr:
		fd.unary(n)
	case *ast.AssignStmt:
		if op, ok := otherAssignment[n.Tok]; ok && !isString(fd.info.TypeOf(n.Lhs[0])) {
			at := fd.file.offset(n.TokPos)
			fd.add(arithmetic, at, at+len(n.Tok.String()), op.String())
		}
	case *ast.IncDecStmt:
		op := token.INC
		if n.Tok == token.INC {
			op = token.DEC
		}
		at := fd.file.offset(n.TokPos)
		fd.add(arithmetic, at, at+2, op.String())
	case *ast.BasicLit:
		fd.literal(n)
	case *ast.IndexExpr:
		fd.index(n)
	case *ast.SliceExpr:
		fd.slice(n)
	case *ast.Ident:
		fd.name(n)
	case *ast.CompositeLit:
		fd.composite(n)
	case *ast.CallExpr:
		fd.call(n)
	}
	if e, ok := n.(ast.Expr); ok {
		fd.condition(e)
	}
	if s, ok := n.(ast.Stmt); ok {
		fd.statement(s)
	}
}

var otherOperation = map[token.Token]token.Token{
	token.ADD: token.SUB, token.SUB: token.ADD, token.MUL: token.QUO, token.QUO: token.MUL, token.REM: token.MUL,
	token.SHL: token.SHR, token.SHR: token.SHL, token.AND: token.OR, token.OR: token.AND, token.XOR: token.AND, token.AND_NOT: token.AND,
}

var otherAssignment = map[token.Token]token.Token{
	token.ADD_ASSIGN: token.SUB_ASSIGN, token.SUB_ASSIGN: token.ADD_ASSIGN, token.MUL_ASSIGN: token.QUO_ASSIGN,
	token.QUO_ASSIGN: token.MUL_ASSIGN, token.REM_ASSIGN: token.MUL_ASSIGN, token.SHL_ASSIGN: token.SHR_ASSIGN,
	token.SHR_ASSIGN: token.SHL_ASSIGN, token.AND_ASSIGN: token.OR_ASSIGN, token.OR_ASSIGN: token.AND_ASSIGN,
	token.XOR_ASSIGN: token.AND_ASSIGN, token.AND_NOT_ASSIGN: token.AND_ASSIGN,
}

var opposite = map[token.Token]token.Token{
	token.LSS: token.GEQ, token.GEQ: token.LSS, token.GTR: token.LEQ, token.LEQ: token.GTR, token.EQL: token.NEQ, token.NEQ: token.EQL,
}

var otherBoundary = map[token.Token]token.Token{
	token.LSS: token.LEQ, token.LEQ: token.LSS, token.GTR: token.GEQ, token.GEQ: token.GTR,
}

func (fd *finder) binary(n *ast.BinaryExpr) {
	with := func(op operator, t token.Token) {
		// In parentheses: the other sign may bind less.
		fd.replace(op, n, "("+fd.file.source(n.X)+" "+t.String()+" "+fd.file.source(n.Y)+")")
	}
	if t, ok := otherOperation[n.Op]; ok && !isString(fd.info.TypeOf(n)) {
		with(arithmetic, t)
	}
	if t, ok := opposite[n.Op]; ok {
		with(comparison, t)
	}
	if t, ok := otherBoundary[n.Op]; ok {
		with(boundary, t)
	}
	switch n.Op {
	case token.LAND:
		with(logic, token.LOR)
	case token.LOR:
		with(logic, token.LAND)
	}
}

func (fd *finder) unary(n *ast.UnaryExpr) {
	switch n.Op {
	case token.SUB, token.XOR:
		fd.replace(arithmetic, n, fd.file.source(n.X))
	case token.NOT:
		fd.replace(negation, n, fd.file.source(n.X))
	}
}

// condition negates what is true or false and is no comparison, connection or
// negation itself, for which there are other mutants.
func (fd *finder) condition(e ast.Expr) {
	tv := fd.info.Types[e]
	if !tv.IsValue() || !isBool(tv.Type) || !fd.isValueHere(e) {
		return
	}
	switch e := e.(type) {
	case *ast.BinaryExpr, *ast.ParenExpr:
		return
	case *ast.UnaryExpr:
		if e.Op == token.NOT {
			return
		}
	case *ast.Ident:
		switch e.Name {
		case "true":
			fd.replace(negation, e, "false")
			return
		case "false":
			fd.replace(negation, e, "true")
			return
		}
	}
	fd.replace(negation, e, "!("+fd.file.source(e)+")")
}

// isValueHere reports whether an expression is used for its value: it is not
// what is assigned to, declared, a part of a longer name or a key, nor stands
// behind a !, whose own mutant drops that.
func (fd *finder) isValueHere(e ast.Expr) bool {
	switch up := fd.parent().(type) {
	case *ast.AssignStmt:
		return contains(up.Rhs, e)
	case *ast.ValueSpec:
		return contains(up.Values, e)
	case *ast.RangeStmt:
		return up.X == e
	case *ast.SelectorExpr, *ast.ExprStmt, *ast.IncDecStmt:
		return false
	case *ast.KeyValueExpr:
		return up.Value == e
	case *ast.UnaryExpr:
		return up.Op != token.NOT && up.Op != token.AND
	case *ast.CallExpr:
		return up.Fun != e
	}
	return true
}

func (fd *finder) parent() ast.Node { return fd.stack[len(fd.stack)-2] }

func contains(list []ast.Expr, e ast.Expr) bool {
	for _, x := range list {
		if x == e {
			return true
		}
	}
	return false
}

// literal makes whole numbers one more and one less.
func (fd *finder) literal(n *ast.BasicLit) {
	t := fd.info.TypeOf(n)
	if n.Kind != token.INT || t == nil || !isInteger(t) {
		return
	}
	more, less := true, true
	if c, ok := fd.parent().(*ast.BinaryExpr); ok { // not what another boundary comes to
		switch {
		case c.Y == n && (c.Op == token.LSS || c.Op == token.GEQ), c.X == n && (c.Op == token.GTR || c.Op == token.LEQ):
			more = false
		case c.Op == token.LSS || c.Op == token.GEQ || c.Op == token.GTR || c.Op == token.LEQ:
			less = false
		}
	}
	if more {
		fd.replace(offByOne, n, "("+n.Value+" + 1)")
	}
	if less {
		fd.replace(offByOne, n, "("+n.Value+" - 1)")
	}
}

// isRoom reports whether an expression says how much room a slice gets
// beforehand, which nobody sees.
func (fd *finder) isRoom(e ast.Expr) bool {
	call, ok := fd.parent().(*ast.CallExpr)
	return ok && isBuiltin(fd.info, call.Fun, "make") && len(call.Args) > 2 && call.Args[2] == e
}

// index takes the next element of a list or text instead.
func (fd *finder) index(n *ast.IndexExpr) {
	tv := fd.info.Types[n.X]
	if !tv.IsValue() || holdsNumber(n.Index) {
		return
	}
	switch tv.Type.Underlying().(type) {
	case *types.Basic, *types.Slice, *types.Array, *types.Pointer:
		fd.replace(offByOne, n.Index, "("+fd.file.source(n.Index)+") + 1")
	}
}

// slice begins a part of a list one later and ends it one earlier.
func (fd *finder) slice(n *ast.SliceExpr) {
	if n.Low != nil && !holdsNumber(n.Low) {
		fd.replace(offByOne, n.Low, "("+fd.file.source(n.Low)+") + 1")
	}
	if n.High != nil && !holdsNumber(n.High) {
		fd.replace(offByOne, n.High, "("+fd.file.source(n.High)+") - 1")
	}
}

// holdsNumber reports whether a literal stands in the expression: it has
// mutants of its own, which come to the same.
func holdsNumber(e ast.Expr) bool {
	found := false
	ast.Inspect(e, func(n ast.Node) bool {
		if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.INT {
			found = true
		}
		return !found
	})
	return found
}

func isBuiltin(info *types.Info, fun ast.Expr, name string) bool {
	id, ok := fun.(*ast.Ident)
	if !ok || id.Name != name {
		return false
	}
	_, ok = info.Uses[id].(*types.Builtin)
	return ok
}

func isBasic(t types.Type, flag types.BasicInfo) bool {
	if t == nil {
		return false
	}
	b, ok := t.Underlying().(*types.Basic)
	return ok && b.Info()&flag != 0
}

func isString(t types.Type) bool  { return isBasic(t, types.IsString) }
func isBool(t types.Type) bool    { return isBasic(t, types.IsBoolean) }
func isInteger(t types.Type) bool { return isBasic(t, types.IsInteger) }
