package propose_test

import (
	"testing"

	"boardwrap.example/folio/propose"
	"boardwrap.example/units"
)

// However soon a search ends, nothing that it found is lost: a folio in which everything
// is in view is also one, the smallest one if there is no smaller, and so is the
// thinnest.
func TestNothingFoundIsLost(t *testing.T) {
	r := propose.Request{Things: usualThings(t), Case: metric()}
	for i := range r.Things {
		r.Things[i].Count = 2
	}
	thin := r
	thin.Limits.Thickness = 7500 * units.Micrometre
	for _, r := range []propose.Request{r, thin} {
		keeps(t, r)
	}
}

func keeps(t *testing.T, r propose.Request) {
	some := 0
	for steps := int64(100); steps < 200_000; steps += steps / 4 {
		a, err := propose.Folios(t.Context(), r, propose.Budget{Steps: steps})
		if err != nil {
			t.Fatal(err)
		}
		smallest, ok := a.Of(propose.Smallest)
		thinnest, _ := a.Of(propose.Thinnest)
		for p := range a.All() {
			some++
			if !ok {
				t.Errorf("%d steps: %v, and no smallest", steps, p.Aim())
				continue
			}
			if p.Cover().Area().Compare(smallest.Cover().Area()) < 0 {
				t.Errorf("%d steps: the smallest has a cover of %v, %v one of %v", steps, smallest.Cover(), p.Aim(), p.Cover())
			}
			if o := thinnest.Closed().Thickness().Length(); p.Closed().Thickness().Length() < o {
				t.Errorf("%d steps: the thinnest is %v thick, %v %v", steps, o, p.Aim(), p.Closed().Thickness())
			}
		}
	}
	if some == 0 {
		t.Error("nothing was found")
	}
}
