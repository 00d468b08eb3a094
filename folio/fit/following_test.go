package fit_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
)

// What takes one of its sides from a fitting goes with it, be it the width or the
// height: with the frame gone there is nothing left to measure by.
func TestWithoutTakesWhatIsMeasuredBySide(t *testing.T) {
	fixed := place.Relation{Of: place.OfPanel, Shares: 4}
	by := place.Relation{Of: place.OfFitting, Fitting: "view", Shares: 4}
	for name, size := range map[string]place.Sizing{
		"width":  {W: by, H: fixed},
		"height": {W: fixed, H: by},
	} {
		s := club(123, 186) // a step too narrow for the view
		s.Fittings = append(s.Fittings[3:4:4], folio.Fitting{Name: "label", Outside: true, Kind: folio.Ornament{}, Size: size})
		if p, left, err := fit.Without(s); err != nil || labels(left) != "view, label" || len(p.Spec().Fittings) != 0 {
			t.Errorf("%s by the view: without %q, %v", name, labels(left), err)
		}
	}
}

// What does not go in by itself, and follows from something that does not either, is left
// out once, for what is wrong with it.
func TestWithoutTakesEachOnce(t *testing.T) {
	s := club(124, 186)
	s.Stocks = append(s.Stocks, stock.Stock{Name: "offcut", Caliper: mm / 4, Sheets: []stock.Sheet{{Size: units.Size{W: 50 * mm, H: 50 * mm}}}})
	s.Fittings = []folio.Fitting{
		{Name: "view", Outside: true, Stock: "offcut", Kind: folio.Mat{Size: units.Size{W: 60 * mm, H: 60 * mm}}, Place: place.Place{Along: place.Head}},
		{Name: "map", Outside: true, Kind: folio.Mat{Size: units.Size{W: 300 * mm, H: 30 * mm}}, Place: place.Place{Along: place.After, AlongOf: "view"}},
	}
	p, left, err := fit.Without(s)
	if err != nil || labels(left) != "view, map" || len(p.Spec().Fittings) != 0 {
		t.Fatalf("without %q, %v", labels(left), err)
	}
	for _, m := range left {
		n := 0
		for range m.Why() {
			n++
		}
		if n == 0 {
			t.Errorf("nothing is wrong with %v", m)
		}
	}
}
