package stock_test

import (
	"testing"

	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/fuzztest"
)

// everything is each function and type of the package.
func everything() []any {
	return []any{stock.DefaultBoard, stock.DefaultCovering, stock.DefaultLiner, stock.DefaultCard, stock.Stock{}, stock.GrainRule(0), stock.PieceRole(0)}
}

// FuzzEverything calls every function and method with any values at all.
func FuzzEverything(f *testing.F) { fuzztest.Everything(f, 1500, everything()...) }

// Nothing that the package exports is left out of that.
func TestEverythingIsCalled(t *testing.T) { fuzztest.Complete(t, ".", everything()...) }
