package folio_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
)

// onSpine is a folio with things on a spine of 30 mm, one on the other, and a
// label of 10 mm at the right cover's hinge edge, everything glued.
func onSpine(heights ...units.Length) folio.Spec {
	s := folio.Spec{
		Cover: units.Size{W: 120 * mm, H: 160 * mm}, Spine: rule.Spine{Width: 30 * mm},
		Board: stock.Stock{Caliper: 2 * mm}, Covering: stock.Stock{Caliper: mm / 5}, Liner: stock.Stock{Caliper: mm / 5},
		Rulers: rule.Rulers{Main: units.TenthMillimetres}, Closing: closing.Allowance{Adhesive: closing.AdhesiveFilm{Glue: true}},
	}
	for i, h := range heights {
		f := folio.Fitting{Name: string(rune('a' + i)), Kind: folio.Ornament{Size: units.Size{W: 22 * mm, H: 60 * mm}, Thickness: h}}
		if f.Panel = boards.Spine1; i > 0 {
			f.Panel, f.StandsOn = boards.MainPanel, string(rune('a'+i-1))
		}
		s.Fittings = append(s.Fittings, f)
	}
	s.Fittings = append(s.Fittings, folio.Fitting{Name: "label", Panel: boards.RightCover,
		Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 40 * mm}, Thickness: 10 * mm}, Place: place.Place{Across: place.Left}})
	return s
}

// Things that stand on each other on a spine reach as far as one thing of their
// height together: 1.7 and 1.8 as 3.5, and twenty of a tenth as 2.
func TestStackOnSpine(t *testing.T) {
	tenths := make([]units.Length, 20)
	for i := range tenths {
		tenths[i] = mm * 2 / 10
	}
	for name, c := range map[string][2][]units.Length{
		"two":  {{17 * mm / 10, 18 * mm / 10}, {35 * mm / 10}},
		"many": {tenths, {4 * mm}},
	} {
		stack, ok := mustBuild(t, onSpine(c[0]...)).Tightest(true)
		one, ok2 := mustBuild(t, onSpine(c[1]...)).Tightest(true)
		if !ok || !ok2 || stack.Left().Length() != one.Left().Length() || stack.Meeting() != one.Meeting() || one.Meeting() != closing.BesideSpine {
			t.Errorf("%s: %v left %v, as one %v left %v", name, stack.Left().Length(), stack.Meeting(), one.Left().Length(), one.Meeting())
		}
	}
	// A small thing on a wide one reaches further only where it is: it lies in
	// the middle, and the label only meets the wide one.
	s := onSpine(17 * mm / 10)
	alone, _ := mustBuild(t, s).Tightest(true)
	s.Fittings = append(s.Fittings, folio.Fitting{StandsOn: "a", Kind: folio.Ornament{Size: units.Size{W: 4 * mm, H: 4 * mm}, Thickness: mm}})
	with, _ := mustBuild(t, s).Tightest(true)
	if with.Left().Length() > alone.Left().Length() {
		t.Errorf("something more on the spine leaves more: %v, before %v", with.Left().Length(), alone.Left().Length())
	}
}
