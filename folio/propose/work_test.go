package propose_test

import (
	"slices"
	"testing"

	"boardwrap.example/folio/propose"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// A card that is tucked away goes into a slip pocket, be a gusset pocket smaller and a
// folded strip as small and upright; gussets are for what is thicker than a flat pocket
// takes, for who wants no slip pocket, and for a cover that is too small for one.
func TestLessWork(t *testing.T) {
	size := units.Size{W: 90 * mm, H: 130 * mm}
	card := func(thick units.Length) propose.Request {
		return propose.Request{Case: metric(), Things: []propose.Thing{{Content: pocket.Content{Name: "race card", Size: size, Thickness: thick}, Sight: propose.TuckedAway}}}
	}
	cover := func(way propose.Holder) units.Size {
		r := card(mm / 4)
		r.Without = but(way)
		p, ok := asked(t, r).Of(propose.Smallest)
		if !ok {
			t.Fatalf("no %v", way)
		}
		return p.Cover()
	}
	gusset, slip, strip := cover(propose.Gusset), cover(propose.Slip), cover(propose.FoldedFlap)
	if gusset.Area().Compare(slip.Area()) >= 0 || strip.Area() != slip.Area() || strip.W >= slip.W {
		t.Fatalf("a gusset pocket on %v, a slip pocket on %v, a folded strip on %v", gusset, slip, strip)
	}
	without := card(mm / 4)
	without.Without = []propose.Holder{propose.Slip, propose.FoldedFlap}
	tight := card(mm / 4)
	tight.Limits.Cover = gusset
	just := card(mm / 4)
	just.Limits.Cover = slip
	two := card(mm / 2)
	two.Things[0].Count, two.Things[0].Keeping = 2, propose.Together
	three := card(mm / 2)
	three.Things[0].Count, three.Things[0].Keeping, three.Without = 3, propose.Together, []propose.Holder{propose.GussetRun}
	both := card(mm / 4) // with something in view beside it
	both.Things[0].Group = "crew"
	both.Things = append(both.Things, propose.Thing{Content: pocket.Content{Name: "ticket", Size: units.Size{W: 40 * mm, H: 60 * mm}}, Group: "crew"})
	for _, c := range []struct {
		name string
		r    propose.Request
		want propose.Holder
	}{
		{"thin", card(mm / 4), propose.Slip}, {"as thick as a flat pocket takes", card(pocket.FlatLimit), propose.Slip}, {"thicker", card(pocket.FlatLimit + 1), propose.Gusset},
		{"two in one", two, propose.Slip}, {"three in one", three, propose.Gusset},
		{"no slip pocket", without, propose.Gusset}, {"a small cover", tight, propose.Gusset}, {"a cover just large enough", just, propose.Slip}, {"beside another", both, propose.Slip},
	} {
		n := 0
		for p := range asked(t, c.r).All() {
			n++
			if bad := sound(c.r, p) + within(c.r, p); bad != "" {
				t.Errorf("%s, %v: %s", c.name, p.Aim(), bad)
			}
			for h := range p.Held() {
				if h.Thing == 0 && h.Way != c.want {
					t.Errorf("%s, %v: in a %v, want a %v", c.name, p.Aim(), h.Way, c.want)
				}
			}
			said := slices.ContainsFunc(slices.Collect(p.RuledOut()), func(o propose.RuledOut) bool {
				return o.Thing == 0 && o.Way == propose.Gusset && o.Why.Cause == propose.LessWork
			})
			if said != (c.want == propose.Slip) {
				t.Errorf("%s, %v: that a slip pocket is less work is said: %v", c.name, p.Aim(), said)
			}
		}
		if n != 3 { // sheets are not counted
			t.Errorf("%s: %d proposals", c.name, n)
		}
	}
	// Three tickets in view take so much beside it that only gussets leave the room on a
	// cover on which all of it goes otherwise: those are for everything in view alone.
	both.Things[1].Count = 3
	view := both
	view.Without = []propose.Holder{propose.Slip, propose.FoldedFlap}
	view.Things = slices.Clone(both.Things)
	view.Things[1].Sight = propose.InView
	p, ok := asked(t, view).Of(propose.Smallest)
	if !ok {
		t.Fatal("none in view")
	}
	both.Limits.Cover, both.Without = p.Cover(), []propose.Holder{propose.FoldedFlap}
	held := func(aim propose.Aim) (way propose.Holder) {
		p, ok := asked(t, both).Of(aim)
		if !ok {
			t.Errorf("%v: none", aim)
		}
		for h := range p.Held() {
			if h.Thing == 0 {
				way = h.Way
			}
		}
		return way
	}
	if small, all := held(propose.Smallest), held(propose.AllInView); small != propose.Slip || all != propose.Gusset {
		t.Errorf("on %v in a %v, with everything in view in a %v", p.Cover(), small, all)
	}
}
