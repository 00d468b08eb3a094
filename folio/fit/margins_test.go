package fit_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// Two thick pictures that lie beside each other when the folio is closed go in as soon as
// each goes in over the bare margin of the other's mat, though the mats overlap; wider
// ones, of which one has to lie on the other, do not yet.
func TestPicturesOverMargins(t *testing.T) {
	// On an inside for pictures of up to 108 x 158 mm with 3 mm of mat around: two of 53 mm
	// and three margins are 115, and with the margins over the pictures 112.
	leaf := func(w, h, thick units.Length) pocket.Content {
		return pocket.Content{Name: "leaf", Size: units.Size{W: w, H: h}, Thickness: thick}
	}
	thick, bare, wide := leaf(53*mm, 150*mm, 4*mm), leaf(53*mm, 150*mm, 0), leaf(60*mm, 150*mm, 4*mm)
	beside, early := 0, 0
	for spine := 2 * mm; spine <= 16*mm; spine += mm / 4 {
		s := edgeSpec()
		s.Spine.Width = spine
		p, err := folio.Build(s)
		if err != nil {
			continue
		}
		survey := fit.Of(p)
		_, one := survey.All(t.Context(), fit.Budget{}, thick, bare)
		ways, both := survey.All(t.Context(), fit.Budget{}, thick, thick)
		_, over := survey.All(t.Context(), fit.Budget{}, wide, wide)
		if one != nil {
			continue
		}
		beside++
		if over != nil {
			early++
		}
		if both != nil {
			t.Errorf("a spine of %v: %v", spine, both)
		} else if with, err := survey.With(ways...); err != nil || !eased(with) {
			t.Errorf("a spine of %v: it does not close over what was found: %v", spine, err)
		}
	}
	if beside < 10 || early < 5 {
		t.Errorf("beside each other with %d spines, %d of them too narrow for one over the other", beside, early)
	}
}
