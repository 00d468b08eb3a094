package packing

import (
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"path/filepath"
	"strings"
	"testing"
)

// A product that is added or taken off may be fused with that on some machines,
// and then rounds otherwise; a conversion forbids it (Go specification,
// "Floating-point operators"). So each such product in floating point is
// converted.
func TestNoFusedProducts(t *testing.T) {
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	fset := token.NewFileSet()
	var parsed []*ast.File
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(fset, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		parsed = append(parsed, f)
	}
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}}
	conf := types.Config{Importer: importer.ForCompiler(fset, "source", nil)}
	if _, err := conf.Check("packing", fset, parsed, info); err != nil {
		t.Fatal(err)
	}
	floats := 0
	bare := func(e ast.Expr) {
		for {
			p, ok := e.(*ast.ParenExpr)
			if !ok {
				break
			}
			e = p.X
		}
		b, ok := e.(*ast.BinaryExpr)
		tv := info.Types[e]
		if ok && b.Op == token.MUL && tv.Value == nil && types.Identical(tv.Type, types.Typ[types.Float64]) {
			t.Errorf("%s: a product is added that may be fused", fset.Position(e.Pos()))
		}
	}
	for _, f := range parsed {
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.BinaryExpr:
				if n.Op == token.ADD || n.Op == token.SUB {
					bare(n.X)
					bare(n.Y)
				}
				if types.Identical(info.Types[n].Type, types.Typ[types.Float64]) {
					floats++
				}
			case *ast.AssignStmt:
				if n.Tok == token.ADD_ASSIGN || n.Tok == token.SUB_ASSIGN {
					bare(n.Rhs[0])
				}
			}
			return true
		})
	}
	if floats < 10 {
		t.Errorf("only %d operations in floating point seen", floats)
	}
}
