package propose_test

import (
	"context"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// A chip under a flap of 50 mm goes on a cover hardly wider than itself; while the thinnest
// folio is sought there is a thickness at which it goes into nothing.
func TestNoOptionIsThinEnough(t *testing.T) {
	row := boards.ForeEdgeFlap.Row()
	row.Boards[4].Rule, row.Boards[4].Width = boards.WidthFixed, 50*mm
	for _, side := range []units.Length{mm / 2, mm} {
		for _, ruler := range []units.Ruler{units.TenthMillimetres, units.WholeMillimetres} {
			r := propose.Request{
				Things: []propose.Thing{{Content: pocket.Content{Name: "chip", Size: units.Size{W: side, H: side}, Thickness: mm / 2}}},
				Case: folio.Spec{Row: row, Rulers: rule.Rulers{Main: ruler}, Board: stock.Stock{Caliper: mm / 2}, Lining: rule.Lining{Inset: mm / 10},
					Clearance: mm / 10, Hinge: rule.Hinge{Rule: rule.HingeLeast}},
			}
			r.Taste.Margin, r.Taste.Between = units.None, units.None
			a, err := propose.Folios(context.Background(), r, propose.Budget{Steps: 200_000})
			if err != nil {
				t.Errorf("%v: %v", side, err)
				continue
			}
			// Nothing lies on the covers, which may be as narrow as the ruler says.
			if p, ok := a.Of(propose.Smallest); ruler == units.TenthMillimetres && (!ok || p.Cover().W != ruler.Step()) {
				t.Errorf("a chip of %v goes on a cover of %v, %v", side, p.Cover(), ok)
			}
			for p := range a.All() {
				if _, err := folio.Build(p.Spec()); err != nil {
					t.Errorf("%v: %v", side, err)
				}
			}
		}
	}
}
