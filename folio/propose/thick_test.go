package propose_test

import (
	"context"
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

// Three thick badges on a low cover would go into the thinnest folio side by side, two
// on one cover and one on the other, if it were not that they touch as it is folded: a
// proposal has them otherwise. (Where that warning rules nothing out, three of these
// proposals have it.)
func TestNothingTouchesInPassing(t *testing.T) {
	badge := func(name string, w, h, thick units.Length, see propose.Sight) propose.Thing {
		return propose.Thing{Content: pocket.Content{Name: name, Size: units.Size{W: w, H: h}, Thickness: thick}, Sight: see, Sticks: true}
	}
	r := propose.Request{Case: metric(), Limits: propose.Limits{Cover: units.Size{W: 199 * mm, H: 58 * mm}, Thickness: 23 * mm}, Things: []propose.Thing{
		badge("bow badge", 27*mm, 21*mm, 12*mm, propose.InView), badge("cox badge", 42*mm, 30*mm, 6*mm, propose.EitherSight), badge("stroke badge", 32*mm, 17*mm, 10*mm, propose.InView),
	}}
	a, err := propose.Folios(context.Background(), r, propose.Budget{Steps: 300_000})
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for p := range a.All() {
		n++
		if bad := sound(r, p); bad != "" {
			t.Errorf("%v: %s", p.Aim(), bad)
		}
	}
	if n == 0 {
		t.Error("nothing is proposed")
	}
}

// Two medals of a group lie beside each other where a cover may be large, and on each
// other in one pocket where it may only be as large as for one: that a folio as thick as
// both is the thinnest then is proved, since of the thinner ones none goes on a cover.
func TestThinnestIsProvedBeyondTheFirst(t *testing.T) {
	for _, thick := range []units.Length{4 * mm, 5 * mm} { // an even and an odd number of steps apart
		provedBeyond(t, thick)
	}
}

func provedBeyond(t *testing.T, medal units.Length) {
	t.Helper()
	// So far from the edges nothing lies on what is turned in.
	r := propose.Request{Case: metric(), Without: but(propose.Gusset), Taste: propose.Taste{Margin: 25 * mm}}
	r.Things = []propose.Thing{{Content: pocket.Content{Name: "medal", Size: units.Size{W: 50 * mm, H: 50 * mm}, Thickness: medal}, Count: 2, Group: "crew"}}
	beside, ok := asked(t, r).Of(propose.Thinnest)
	if !ok || !beside.Complete() {
		t.Fatal("none")
	}
	together := r
	together.Things = []propose.Thing{r.Things[0]}
	together.Things[0].Keeping = propose.Together
	small, ok := asked(t, together).Of(propose.Smallest)
	if !ok {
		t.Fatal("none in one pocket")
	}
	r.Limits.Cover = small.Cover()
	on, ok := asked(t, r).Of(propose.Thinnest)
	thick, thin := on.Closed().Thickness().Length(), beside.Closed().Thickness().Length()
	if !ok || !on.Complete() || thick != small.Closed().Thickness().Length() || thick-thin < medal-mm || thick-thin > medal+mm {
		t.Errorf("beside each other %v thick, on each other %v, proved %v", thin, thick, on.Complete())
	}
}
