package edgetest

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/units/check"
)

// shared are the codes that every package may say, by their names in check.
var shared = map[string]check.Code{
	"NotPositive": check.NotPositive, "Negative": check.Negative, "OutOfRange": check.OutOfRange, "Unknown": check.Unknown,
	"Missing": check.Missing, "Conflict": check.Conflict, "TooSmall": check.TooSmall, "TooLarge": check.TooLarge, "TooMany": check.TooMany,
}

// EveryCode fails where the package of a test says a code that none of the edges
// is of, its own or one that all packages share, or fewer than least codes. Those
// elsewhere are held by other tests, and by no edge.
func EveryCode(t *testing.T, edges []Edge, least int, elsewhere ...check.Code) {
	t.Helper()
	met := map[check.Code]bool{}
	for _, e := range edges {
		met[e.Code] = true
	}
	said := codes(t, ".")
	if len(said) < least {
		t.Errorf("only %d codes were found, want %d", len(said), least)
	}
	for _, c := range elsewhere {
		if met[c] || !slices.Contains(said, c) {
			t.Errorf("%q has an edge, or is not said at all", c)
		}
		met[c] = true
	}
	for _, c := range said {
		if !met[c] {
			t.Errorf("no edge of %q", c)
		}
	}
}

// codes returns the codes that the package in a directory declares, and of the
// shared ones those that it says.
func codes(t *testing.T, dir string) []check.Code {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	var said []check.Code
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.ValueSpec:
				if of, ok := n.Type.(*ast.SelectorExpr); ok && of.Sel.Name == "Code" && len(n.Values) == 1 {
					text, err := strconv.Unquote(n.Values[0].(*ast.BasicLit).Value)
					if err != nil {
						t.Fatal(err)
					}
					said = append(said, check.Code(text))
				}
			case *ast.SelectorExpr:
				if from, ok := n.X.(*ast.Ident); ok && from.Name == "check" {
					if code, ok := shared[n.Sel.Name]; ok {
						said = append(said, code)
					}
				}
			}
			return true
		})
	}
	slices.Sort(said)
	return slices.Compact(said)
}
