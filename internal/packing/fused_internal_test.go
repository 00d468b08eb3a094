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
// also where it has a name in between, and then rounds otherwise; a conversion
// forbids it (Go specification, "Floating-point operators"). So each product in
// floating point is converted, multiplied, divided or compared.
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
	float := func(e ast.Expr) bool {
		tv := info.Types[e]
		return tv.Value == nil && types.Identical(tv.Type, types.Typ[types.Float64])
	}
	for _, f := range parsed {
		var around []ast.Node
		ast.Inspect(f, func(n ast.Node) bool {
			if n == nil {
				around = around[:len(around)-1]
				return true
			}
			if b, ok := n.(*ast.BinaryExpr); ok && float(b) {
				floats++
				if b.Op == token.MUL && !kept(info, around) {
					t.Errorf("%s: a product may be fused with what it is added to", fset.Position(b.Pos()))
				}
			}
			if a, ok := n.(*ast.AssignStmt); ok && a.Tok == token.MUL_ASSIGN && float(a.Lhs[0]) {
				t.Errorf("%s: a product may be fused with what it is added to", fset.Position(a.Pos()))
			}
			around = append(around, n)
			return true
		})
	}
	if floats < 10 {
		t.Errorf("only %d operations in floating point seen", floats)
	}
}

// kept reports whether what stands around an expression lets it be rounded before
// anything is added to it.
func kept(info *types.Info, around []ast.Node) bool {
	for i := len(around) - 1; i >= 0; i-- {
		switch n := around[i].(type) {
		case *ast.ParenExpr:
		case *ast.CallExpr:
			return info.Types[n.Fun].IsType()
		case *ast.BinaryExpr:
			return n.Op != token.ADD && n.Op != token.SUB
		default:
			return false
		}
	}
	return false
}
