package fit_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/place"
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
