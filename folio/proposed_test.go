package folio_test

import (
	"context"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/propose"
	"boardwrap.example/internal/makertest"
	"boardwrap.example/units"
)

// A maker who reads nothing but the order of work makes a sample of what is
// proposed, with every way to hold things.
func TestProposalsMadeByHand(t *testing.T) {
	made := map[string]bool{}
	for _, c := range []struct {
		text    string
		spec    folio.Spec
		without []propose.Way
	}{
		{text: "6 photo 10 x 15 cm, 1 ID-1 card, 1 note"},
		{text: "6 photo 10 x 15 cm, 1 ID-1 card, 1 note", spec: folio.Spec{Rulers: folio.Rulers{Main: units.WholeMillimetres}}},
		{text: "2 photo 4 x 6 in may be stuck, 1 ID-1 card tucked away", spec: folio.Spec{Form: folio.SoftSpine}},
		{text: "1 photo 5 x 7 in in view, 4 tag 40 x 80 mm apart, 2 note A7 tucked away", without: []propose.Way{propose.Corners, propose.Slip, propose.Gusset}},
		{text: "3 note A7 tucked away together, 2 ID-1 card tucked away", without: []propose.Way{propose.Slip, propose.Gusset, propose.GussetRun}},
		{text: "3 note A7 tucked away together, 2 ID-1 card tucked away", without: []propose.Way{propose.Slip, propose.Gusset, propose.GussetRun, propose.FoldedFlap}},
		{text: "1 photo 4 x 6 in may be stuck", without: []propose.Way{propose.Corners, propose.Frame}},
		{text: "3 ticket 40 x 80 mm tucked away apart", without: []propose.Way{propose.Slip, propose.Gusset, propose.GussetRun, propose.FoldedFlap}},
	} {
		things, err := propose.ParseThings(c.text)
		if err != nil {
			t.Fatal(err)
		}
		a, err := propose.Folios(context.Background(), propose.Request{Things: things, Case: c.spec, Without: c.without}, propose.Budget{})
		if err != nil {
			t.Fatal(err)
		}
		for p := range a.All() {
			if err := makertest.Follow(makerJob(p.Plan(), p.Plan())); err != nil {
				t.Errorf("%s, %v: %v", c.text, p.Aim(), err)
			}
			for h := range p.Held() {
				made[h.Way.String()] = true
			}
		}
	}
	for _, w := range []propose.Way{propose.Corners, propose.Frame, propose.Mat, propose.Slip, propose.Gusset, propose.GussetRun, propose.Accordion, propose.FoldedFlap} {
		if !made[w.String()] {
			t.Errorf("no %v was made", w)
		}
	}
}
