package layout

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

// A length may shrink by so many steps of the ruler as its tolerance has, up to 256;
// beyond that, however much it may, by 256, and there is a folio for it.
func TestMostLengths(t *testing.T) {
	mm := units.Millimetre
	plan, err := folio.Build(folio.Spec{Cover: units.Size{W: 500 * mm, H: 700 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}})
	if err != nil {
		t.Fatal(err)
	}
	for may, steps := range map[units.Length]int16{
		-mm: 0, 0: 0, mm - 1: 0, mm: 1, (mostLengths - 1) * mm: mostLengths - 1,
		mostLengths * mm: mostLengths, (mostLengths + 1) * mm: mostLengths, 10 * mostLengths * mm: mostLengths, 1<<63 - 1: mostLengths,
	} {
		a, ok := newAlterer(plan, Tolerance{Width: may, Height: may})
		if !ok {
			t.Fatal("it cannot be built again")
		}
		if a.most[Narrower] != steps || a.most[Lower] != steps {
			t.Errorf("%v: %d and %d steps", may, a.most[Narrower], a.most[Lower])
		}
		if p := a.build(a.most); p == nil || p.Spec().Cover != (units.Size{W: 500*mm - units.Length(steps)*mm, H: 700*mm - units.Length(steps)*mm}) {
			t.Errorf("%v: it cannot be built, or is another one", may)
		}
	}
}
