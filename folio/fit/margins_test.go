package fit_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
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

// In a table of covers a folio is at least as thin as is said, and leaves at least as
// much room, whatever the boards are thick: both are read off an inch ruler.
func TestTableIsOnTheSafeSide(t *testing.T) {
	uneven := 0
	for caliper := mm; caliper < 3*mm; caliper += mm / 8 {
		s := folio.Spec{Spine: rule.Spine{Width: units.Inch}, Board: stock.Stock{Caliper: caliper}}
		family, err := fit.FamilyOf(t.Context(), s, units.MustParseSize("5 x 7 in"))
		if err != nil {
			t.Fatal(err)
		}
		s.Cover = units.MustParseSize("5 x 7 in")
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		is, ok := p.Closed()
		row := family.Table()[1]
		thick, err := units.Parse(row[5])
		room, err2 := units.Parse(row[6])
		if !ok || err != nil || err2 != nil {
			t.Fatalf("%v: %q", caliper, row)
		}
		if thick < is.Thickness().Length() || room > is.Room().Length() {
			t.Errorf("boards of %v: %v thick and %v of room are told as %v and %v", caliper, is.Thickness().Length(), is.Room().Length(), thick, room)
		}
		if room != is.Room().Length() {
			uneven++
		}
	}
	if uneven < 8 {
		t.Errorf("%d rooms are on no ruler", uneven)
	}
}

// What fills a board follows its size, so that a smaller cover may do though none was found.
func TestWhatFollowsIsNeverComplete(t *testing.T) {
	for _, size := range []place.Sizing{{}, place.Filling(place.OfPanel, 3*mm)} {
		s := edgeSpec()
		s.Fittings = []folio.Fitting{{Name: "label", Panel: boards.LeftCover, Kind: folio.Ornament{Size: units.Size{W: 30 * mm, H: 40 * mm}, Thickness: mm}}}
		if !size.Empty() {
			s.Fittings[0].Kind, s.Fittings[0].Size = folio.Ornament{Thickness: mm}, size
		}
		least, err := fit.Smallest(t.Context(), s, fit.Budget{})
		if err != nil || least.Complete() != size.Empty() {
			t.Errorf("%+v: complete %v, %v", size, least.Complete(), err)
		}
	}
}
