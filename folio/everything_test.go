package folio_test

import (
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/fuzztest"
	"boardwrap.example/pocket"
)

// allOfIt is each function and type of the package.
func allOfIt() []any {
	all := []any{
		folio.Build, rule.SpineFor, rule.ContentsFor, rule.LeastGap, folio.Kinds, place.By, place.Filling, stock.DefaultBoard, stock.DefaultCovering,
		stock.DefaultLiner, stock.DefaultCard, folio.Spec{}, stock.Stock{}, place.Place{}, refit.Measured{},
		func() *folio.Plan { return new(folio.Plan) }, // which says of everything that it is not there
		// A sound folio with something of any kind on it, and what any measure makes of it.
		func(f folio.Fitting, m refit.Measured) (*folio.Plan, error) {
			s := good()
			f.Panel, f.StandsOn, f.Stock = boards.MainPanel, "", ""
			s.Fittings = []folio.Fitting{f}
			p, err := folio.Build(s)
			if err != nil {
				return folio.Build(good())
			}
			if q, err := p.Refit(m); err == nil {
				return q, nil
			}
			return p, nil
		},
	}
	for k := range folio.Kinds() {
		all = append(all, k)
	}
	all = append(all, fuzztest.Choices(slices.Collect(folio.Kinds())...)...)
	return append(all, fuzztest.Choices(slices.Collect(pocket.Kinds())...)...)
}

// FuzzEverything calls every function and method with any values at all.
func FuzzEverything(f *testing.F) { fuzztest.Everything(f, 6000, allOfIt()...) }

// Nothing that the package exports is left out of that.
func TestEverythingIsCalled(t *testing.T) { fuzztest.Complete(t, ".", allOfIt()...) }
