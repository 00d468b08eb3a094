package folio_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/makertest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
)

// A maker who reads nothing but the order of work makes a sample of what is
// proposed, with every way to hold things.
func TestProposalsMadeByHand(t *testing.T) {
	made := map[string]bool{}
	for _, c := range []struct {
		text    string
		spec    folio.Spec
		without []propose.Holder
	}{
		{text: "6 photo 10 x 15 cm, 1 ID-1 card, 1 note"},
		{text: "6 photo 10 x 15 cm, 1 ID-1 card, 1 note", spec: folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres}}},
		{text: "2 photo 4 x 6 in may be stuck, 1 ID-1 card tucked away", spec: folio.Spec{Form: boards.SoftSpine}},
		{text: "1 photo 5 x 7 in in view, 4 tag 40 x 80 mm apart, 2 note A7 tucked away", without: []propose.Holder{propose.Corners, propose.Slip, propose.Gusset}},
		{text: "3 note A7 tucked away together, 2 ID-1 card tucked away", without: []propose.Holder{propose.Slip, propose.Gusset, propose.GussetRun}},
		{text: "3 note A7 tucked away together, 2 ID-1 card tucked away", without: []propose.Holder{propose.Slip, propose.Gusset, propose.GussetRun, propose.FoldedFlap}},
		{text: "1 photo 4 x 6 in may be stuck", without: []propose.Holder{propose.Corners, propose.Frame}},
		{text: "3 ticket 40 x 80 mm tucked away apart", without: []propose.Holder{propose.Slip, propose.Gusset, propose.GussetRun, propose.FoldedFlap}},
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
	for _, w := range []propose.Holder{propose.Corners, propose.Frame, propose.Mat, propose.Slip, propose.Gusset, propose.GussetRun, propose.Accordion, propose.FoldedFlap} {
		if !made[w.String()] {
			t.Errorf("no %v was made", w)
		}
	}
}

// anyHolding generates what is to be held, in words, with wishes.
func anyHolding() gopter.Gen {
	names := []string{"photo 4 x 6 in", "photo 89 x 127 mm", "ID-1 card", "note A7", "tag 40 x 80 mm", "ticket 52 x 90 mm 0.9 mm thick", "plaque 60 x 60 mm 2 mm thick"}
	wishes := []string{"", "", " in view", " tucked away", " together", " apart", " may be stuck", " upright"}
	one := proptest.Map(gopter.CombineGens(gen.IntRange(1, 3), gen.IntRange(0, len(names)-1), gen.IntRange(0, len(wishes)-1)), func(v []any) string {
		return fmt.Sprint(v[0], " ", names[v[1].(int)], wishes[v[2].(int)])
	})
	return proptest.Map(proptest.List(1, 3, one), func(list []string) string { return strings.Join(list, ", ") })
}

// Whatever is proposed, the maker makes a sample of it.
func TestAnyProposalMadeByHand(t *testing.T) {
	proptest.Run(t, 12, func(ps *gopter.Properties) {
		ps.Property("the order of work makes what is proposed", prop.ForAll(func(text string, options int) string {
			things, err := propose.ParseThings(text)
			if err != nil {
				return err.Error()
			}
			r := propose.Request{Things: things, Case: folio.Spec{Form: boards.Form(options / 8)}}
			if options&1 != 0 {
				r.Case.Rulers.Main = units.WholeMillimetres
			}
			if options&4 != 0 {
				r.Taste.Order = propose.LinedUp
			}
			answer, err := propose.Folios(context.Background(), r, propose.Budget{Steps: 4_000_000})
			if err != nil {
				return err.Error()
			}
			for p := range answer.All() {
				if err := makertest.Follow(makerJob(p.Plan(), p.Plan())); err != nil {
					return fmt.Sprintf("%v: %v", p.Aim(), err)
				}
			}
			return ""
		}, anyHolding(), gen.IntRange(0, 8*int(boards.OwnRow)-1)))
	})
}
