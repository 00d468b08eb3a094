package fit_test

import (
	"context"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
)

// Two blocks a millimetre apart, together thicker than the room, cannot
// pass each other: the corner of the one comes further on its circle about the crease
// than that. The smallest folio with them says so in its warnings, and with one of them
// much thinner it says nothing.
func TestSmallestTellsWhatTouchesInPassing(t *testing.T) {
	for thick, want := range map[units.Length]bool{8 * mm: true, 2 * mm: false} {
		block := func(name string, on boards.Role, side place.Align, from, thick units.Length) folio.Fitting {
			return folio.Fitting{Name: name, Panel: on, Kind: folio.Ornament{Size: units.Size{W: 8 * mm, H: 20 * mm}, Thickness: thick},
				Place: place.Place{Along: place.Head, Across: side, Offset: units.Point{X: from, Y: 10 * mm}}}
		}
		s := folio.Spec{
			Cover: units.Size{W: 120 * mm, H: 150 * mm}, Spine: rule.Spine{Width: 20 * mm}, Hinge: rule.Hinge{Rule: rule.HingeLeast},
			Board: stock.Stock{Caliper: 2 * mm}, Liner: stock.Stock{Caliper: mm / 10}, Covering: stock.Stock{Caliper: mm / 5},
			Rulers: rule.Rulers{Main: units.WholeMillimetres}, Closing: closing.Allowance{Ease: units.None}, Lining: rule.Lining{Inset: mm}, Clearance: units.Micrometre,
			Fittings: []folio.Fitting{block("bar", boards.LeftCover, place.Right, 2*mm, 9*mm), block("badge", boards.RightCover, place.Left, 11*mm, thick)},
		}
		least, err := fit.Smallest(context.Background(), s, fit.Budget{})
		if err != nil {
			t.Fatal(err)
		}
		told := false
		for w := range least.Plan().Warnings() {
			told = told || w.Code == folio.WarnPassing
		}
		if told != want {
			t.Errorf("%v thick: warned %v", thick, told)
		}
	}
}
