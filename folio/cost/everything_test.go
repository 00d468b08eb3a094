package cost_test

import (
	"context"
	"reflect"
	"testing"

	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/fuzztest"
	"boardwrap.example/units"
)

// everything is each function and type of the package.
func everything() []any {
	job := layout.Job{
		Pieces:    []layout.LoosePiece{{Name: "slip", Material: "card", Size: units.MustParseSize("4 x 6 in"), Quantity: 5}},
		Materials: []layout.Material{{Name: "card", Sheets: []layout.SheetKind{{Size: units.MustParseSize("12 x 12 in"), Grain: stock.GrainAlongHeight, Count: layout.Unlimited, Price: usd(90)}}}},
	}
	l, err := layout.Lay(context.Background(), job, layout.Budget{Steps: 10_000})
	if err != nil {
		panic(err) // others test this
	}
	return []any{cost.Of, cost.Basis{}, cost.SheetRule(0), fuzztest.Choice{Of: reflect.TypeFor[*layout.Layout](), Value: l}}
}

// FuzzEverything calls every function and method with any values at all.
func FuzzEverything(f *testing.F) { fuzztest.Everything(f, 1500, everything()...) }

// Nothing that the package exports is left out of that.
func TestEverythingIsCalled(t *testing.T) { fuzztest.Complete(t, ".", everything()...) }
