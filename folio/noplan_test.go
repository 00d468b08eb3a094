package folio_test

import (
	"reflect"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/stick"
	"boardwrap.example/folio/tie"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// What is asked of no plan at all is refused with one error, or there is nothing; a zero
// Plan, which nothing was built of, is as good as none, and has no hinges to be blamed.
func TestNoPlan(t *testing.T) {
	var none *folio.Plan
	asked := map[string]func() error{
		"a refit":  func() error { _, err := none.Refit(refit.Measured{}); return err },
		"a crease": func() error { _, err := new(folio.Plan).ClosedAt(0); return err },
	}
	for kind, p := range map[string]*folio.Plan{"": none, " of a zero plan": new(folio.Plan)} {
		asked["shutting"+kind] = p.Shuts
		asked["a band"+kind] = func() error { _, err := tie.Band{}.Round(p); return err }
		asked["a ribbon"+kind] = func() error { _, err := tie.Ribbon{}.Round(p); return err }
		asked["packing"+kind] = func() error { _, err := post.Pack(p, post.Packing{}); return err }
		asked["a box"+kind] = func() error { _, err := post.BoxFor(p, 0); return err }
	}
	for what, ask := range asked {
		if err := ask(); err == nil || err.Error() != "plan: missing: got no plan; want a plan made by folio.Build" {
			t.Errorf("%s: %v", what, err)
		}
	}
	for range stick.Of(none).Tapes() {
		t.Error("tape")
	}
	if _, err := fit.Of(none).All(t.Context(), fit.Budget{}, pocket.IDCard()); !refusedWith(err, "contents", fit.NotHeld) {
		t.Errorf("a card: %v", err)
	}
}

// What is nothing has no measure: no method of a zero record, nor of a zero Plan, has a length
// other than 0, and none ends in a panic.
func TestNothingHasNoMeasure(t *testing.T) {
	met := 0
	for _, record := range []any{
		folio.Board{}, folio.Closed{}, folio.CornerCut{}, folio.Extent{}, folio.Fastening{}, folio.Fitted{}, folio.Gap{}, folio.Height{}, folio.Layer{},
		folio.Load{}, folio.MagnetPlace{}, folio.Overall{}, folio.Overhead{}, folio.Piece{}, folio.Placed{}, folio.PlacementLine{}, new(folio.Plan),
		folio.Slab{}, folio.Spot{}, folio.Stacked{}, folio.Surface{}, folio.Tight{}, folio.TurnedEdge{}, folio.Wrap{}, folio.WrapPiece{},
	} {
		of := reflect.ValueOf(record)
		for i := range of.NumMethod() {
			if of.Method(i).Type().NumIn() > 0 {
				continue
			}
			for _, out := range of.Method(i).Call(nil) {
				switch got := out.Interface().(type) {
				case units.Length, units.Size, units.Point, units.Rect, units.Mass, units.Area:
					if met++; !out.IsZero() {
						t.Errorf("%s of a zero %T is %v", of.Type().Method(i).Name, record, got)
					}
				case units.Working:
					if met++; got.Length() != 0 {
						t.Errorf("%s of a zero %T is %v", of.Type().Method(i).Name, record, got)
					}
				}
			}
		}
	}
	if met < 40 {
		t.Errorf("only %d measures were met", met)
	}
}
