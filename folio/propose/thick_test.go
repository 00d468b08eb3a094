package propose_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/propose"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Three boards to and fro, of which the third looks out, are within a thickness that
// they have without that limit, and are not within less; and no form is said to be
// thicker than the one that was found.
func TestThicknessToAndFro(t *testing.T) {
	mountain := boards.Joint{Fold: score.Mountain}
	r := propose.Request{Case: folio.Spec{Row: boards.Row{
		Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Panel2}, {Role: boards.Panel3}}, Joints: []boards.Joint{{}, mountain},
	}}}
	r.Things = []propose.Thing{{Content: pocket.Content{Name: "ticket", Size: units.Size{W: 70 * mm, H: 50 * mm}, Thickness: mm / 4}, Sight: propose.InView}}
	thin, ok := asked(t, r).Of(propose.Thinnest)
	if !ok {
		t.Fatal("none")
	}
	thick := thin.Closed().Thickness().Length()
	r.Limits.Thickness = thick
	again, ok := asked(t, r).Of(propose.Thinnest)
	if !ok || again.Closed().Thickness().Length() != thick {
		t.Errorf("within the %v that it is thick there is none", thick)
	}
	r.Limits.Thickness = thick - 1
	for p := range asked(t, r).All() {
		t.Errorf("thinner than the thinnest of %v: %v", thick, p.Closed().Thickness())
	}
}
