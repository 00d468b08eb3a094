package guide

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/worktop"
	"boardwrap.example/units"
)

// What lies under others is dashed where up to twelve parts lie on the table; with more
// nobody could tell the dashes apart, and there are none.
func TestDashesOfFewParts(t *testing.T) {
	mm := units.Millimetre
	dashed, not := map[int]bool{}, map[int]bool{}
	for k := range 8 {
		run := pocket.GussetRun{Content: pocket.IDCard(), Pockets: 1 + k/2, OpenFoot: k%2 == 1}
		p, err := folio.Build(folio.Spec{Cover: units.Size{W: 250 * mm, H: 300 * mm}, Spine: rule.Spine{Width: 60 * mm}, Stocks: []stock.Stock{{Name: "thin", Caliper: mm / 20, TwoSided: true}},
			Fittings: []folio.Fitting{{Name: "cards", Stock: "thin", Kind: folio.Folded{Kind: run}}}})
		if err != nil {
			t.Fatal(err)
		}
		steps := StepsOf(p)
		for i := range steps.all {
			w := steps.shop.anew()
			for _, before := range steps.all[:i] {
				w.done = append(w.done, before.Do...)
			}
			w.now, w.part = steps.all[i].Do, steps.all[i].For
			w.stages()
			for _, s := range w.subjects() {
				if s.view != onHeap {
					continue
				}
				h := w.before().Heap(s.piece, s.copy)
				flat, hides := 0, false
				for _, q := range h.Stretches() {
					flat += once(!q.Stands())
				}
				for _, l := range w.lookAt(h, func(worktop.Stretch) lineKind { return there }).lines {
					hides = hides || l.kind == hidden
				}
				if dashed[flat] = dashed[flat] || hides; hides && flat > 12 {
					t.Errorf("%+v: of %d parts what is hidden is dashed", run, flat)
				}
				not[flat] = not[flat] || !hides
			}
		}
	}
	if !dashed[12] || !not[13] && !not[14] {
		t.Errorf("dashed %v, not %v", dashed, not)
	}
}
