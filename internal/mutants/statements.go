package main

import (
	"go/ast"
	"go/token"
	"go/types"
	"regexp"
	"slices"
	"strings"
)

// statement leaves out what stands in a list of statements and can be left out:
// assignments, calls, jumps, and ifs without else, which are then not taken. A
// statement that adds to what is wrong or unwise is a violation.
func (fd *finder) statement(s ast.Stmt) {
	list, _, _ := fd.listAround(fd.parent())
	if list == nil || !slices.Contains(list, s) {
		return
	}
	op := drop
	switch s := s.(type) {
	case *ast.AssignStmt:
		if s.Tok == token.DEFINE || isBlank(s.Lhs) {
			return
		}
		if len(s.Rhs) == 1 && fd.isTrouble(fd.info.TypeOf(s.Rhs[0])) {
			op = violation
		}
	case *ast.IncDecStmt, *ast.DeferStmt, *ast.GoStmt, *ast.SendStmt:
	case *ast.ExprStmt:
		call, ok := s.X.(*ast.CallExpr)
		if !ok || isBuiltin(fd.info, call.Fun, "panic") {
			return // without it the function might end without a result
		}
		if fd.complains(call) {
			op = violation
		}
	case *ast.BranchStmt:
		if s.Tok != token.BREAK && s.Tok != token.CONTINUE {
			return
		}
	case *ast.IfStmt:
		if s.Else != nil || len(s.Body.List) == 1 && canGo(s.Body.List[0]) {
			return // what it holds is left out by itself
		}
	default:
		return
	}
	fd.replace(op, s, fd.keepUsed(s))
}

// canGo reports whether a statement would be left out by itself.
func canGo(s ast.Stmt) bool {
	switch s := s.(type) {
	case *ast.AssignStmt:
		return s.Tok != token.DEFINE && !isBlank(s.Lhs)
	case *ast.IncDecStmt, *ast.SendStmt:
		return true
	case *ast.ExprStmt:
		return true
	case *ast.BranchStmt:
		return s.Tok == token.BREAK || s.Tok == token.CONTINUE
	}
	return false
}

func isBlank(list []ast.Expr) bool {
	for _, e := range list {
		if id, ok := e.(*ast.Ident); !ok || id.Name != "_" {
			return false
		}
	}
	return true
}

// keepUsed names the variables of the function that a statement reads, so that
// they are not unused when it is left out.
func (fd *finder) keepUsed(s ast.Stmt) string {
	var names []string
	ast.Inspect(s, func(n ast.Node) bool {
		id, ok := n.(*ast.Ident)
		if !ok {
			return true
		}
		v, ok := fd.info.Uses[id].(*types.Var)
		if !ok || v.IsField() || v.Parent() == nil || v.Parent() == fd.types.Scope() || v.Pkg() != fd.types {
			return true
		}
		if (v.Pos() < s.Pos() || v.Pos() >= s.End()) && !slices.Contains(names, v.Name()) {
			names = append(names, v.Name())
		}
		return true
	})
	if len(names) == 0 {
		return ""
	}
	return strings.Repeat("_, ", len(names)-1) + "_ = " + strings.Join(names, ", ")
}

// troubles are types of the package check that say what is wrong or unwise.
var troubles = []string{"List", "Violation", "Warning", "Error"}

// isTrouble reports whether a type is one of those, a pointer to one or a list
// of them.
func (fd *finder) isTrouble(t types.Type) bool {
	switch t := types.Unalias(t).(type) {
	case *types.Pointer:
		return fd.isTrouble(t.Elem())
	case *types.Slice:
		return fd.isTrouble(t.Elem())
	case *types.Named:
		o := t.Obj()
		return o.Pkg() != nil && o.Pkg().Name() == "check" && slices.Contains(troubles, o.Name())
	}
	return false
}

// complaining are the names of helpers that add to what is wrong or unwise.
var complaining = regexp.MustCompile(`(?i)^(warn|unwise|refuse|violat|complain|malformed|impossible|reject)`)

// complains reports whether a call adds a violation or warning.
func (fd *finder) complains(call *ast.CallExpr) bool {
	switch fun := call.Fun.(type) {
	case *ast.SelectorExpr:
		if t := fd.info.TypeOf(fun.X); t != nil && fd.isTrouble(t) || complaining.MatchString(fun.Sel.Name) {
			return true
		}
	case *ast.Ident:
		if complaining.MatchString(fun.Name) {
			return true
		}
	}
	return slices.ContainsFunc(call.Args, func(e ast.Expr) bool {
		t := fd.info.TypeOf(e)
		if u, ok := e.(*ast.UnaryExpr); ok && u.Op == token.AND {
			t = fd.info.TypeOf(u.X)
		}
		return t != nil && fd.isTrouble(t)
	})
}
