package guide_test

import (
	"math/rand"
	"reflect"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/layout"
	"boardwrap.example/internal/fuzztest"
	"boardwrap.example/units"
)

// everything is each function and type of the package.
func everything() []any {
	small := folio.Spec{Cover: units.MustParseSize("5 x 6 in")}
	small.Spine.Width = units.Inch
	all := []any{
		guide.Accordion, guide.Closed, guide.Inside, guide.Outside, guide.Piece, guide.Sheet, guide.Step, guide.StepsOf, guide.Strip, guide.Wrap,
		guide.Bind, guide.CuttingBook, guide.FamilySheet, guide.HandOut, guide.PriceList, guide.ShoppingList, guide.Templates,
		guide.Drawing{}, guide.PaperSize(0), guide.Steps{},
		fuzztest.Choice{Of: reflect.TypeFor[*folio.Plan](), Value: sampleOf("small", small).plan},
		fuzztest.Choice{Of: reflect.TypeFor[*layout.Layout](), Value: theRegatta()},
	}
	batch, err := cost.Of(theRegatta(), cost.Basis{Minutes: []int{7}})
	if err != nil {
		panic(err) // others test this
	}
	all = append(all, fuzztest.Choice{Of: reflect.TypeFor[*cost.BatchCost](), Value: batch})
	return append(all, fuzztest.Choices[guide.Element](guide.Para(""), guide.Texts{}, guide.Table{}, guide.Checklist{}, guide.Figures{}, guide.Drawing{}, guide.Scale{})...)
}

// Every function and method is called with any values at all. It is no fuzz target:
// pictures take too long to be drawn by the thousand.
func TestEverything(t *testing.T) {
	for seed := range int64(20) {
		data := make([]byte, 1500)
		rand.New(rand.NewSource(seed)).Read(data)
		fuzztest.Call(t, data, everything()...)
	}
}

// Nothing that the package exports is left out of that.
func TestEverythingIsCalled(t *testing.T) { fuzztest.Complete(t, ".", everything()...) }
