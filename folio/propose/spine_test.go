package propose_test

import (
	"fmt"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// The spine of a proposal is the narrowest for what lies on its cover, also where the
// liner is cut on a coarser ruler than the boards: a graduation less, and the folio
// does not close over it with its ease, or the liner leaves less than the usual
// margin of 6 mm. And a coarser ruler of the liner takes of a cover no more than a
// graduation at either side.
func TestSpineIsTheNarrowest(t *testing.T) {
	tried, smallest := 0, map[string]units.Size{}
	for _, liner := range []units.Length{mm, 2_003_000, 3 * mm, 5 * mm, 7_001_000} {
		coarse, err := units.NewRuler(liner, units.MetricDecimal)
		if err != nil {
			t.Fatal(err)
		}
		for _, form := range []boards.Form{boards.SpineBoard, boards.SoftSpine, boards.DoubleSpineGate} {
			for _, thick := range []units.Length{300_000, 4_100_003, 12_000_001} {
				r := propose.Request{Case: folio.Spec{Form: form, Rulers: rule.Rulers{Main: units.WholeMillimetres, Liner: coarse}}}
				r.Things = []propose.Thing{{Content: pocket.Content{Name: "medal", Size: units.Size{W: 51_300_001, H: 67_900_003}, Thickness: thick}, Count: 2, Sticks: true}}
				a, key := asked(t, r), fmt.Sprint(form, thick)
				if p, ok := a.Of(propose.Smallest); !ok {
					t.Errorf("%v, liner %v, %v: none", form, liner, thick)
				} else if fine, ok := smallest[key]; !ok {
					smallest[key] = p.Cover()
				} else if p.Complete() && p.Cover().Area().Compare(fine.Grow(liner+mm).Area()) > 0 {
					t.Errorf("%v, liner %v, %v: a cover of %v, and of %v with one in steps of a millimetre", form, liner, thick, p.Cover(), fine)
				}
				for p := range a.All() {
					if bad := sound(r, p); bad != "" {
						t.Errorf("%v, %v, liner %v: %s", p.Aim(), form, liner, bad)
					}
					less := p.Spec()
					if form == boards.SoftSpine {
						less.Spine.Contents -= mm
					} else {
						less.Spine.Width -= mm
					}
					plan, err := folio.Build(less)
					if err != nil {
						continue
					}
					if tried++; easy(plan) && margined(plan, 6*mm) {
						t.Errorf("%v, %v, liner %v, %v: a spine of %v is narrower and does", p.Aim(), form, liner, thick, less.Spine)
					}
				}
			}
		}
	}
	if tried < 50 {
		t.Errorf("only %d are tried", tried)
	}
}

// easy reports whether a plan closes with its ease.
func easy(p *folio.Plan) bool {
	for m := closing.BetweenCovers; m <= closing.BetweenOutsides; m++ {
		if t, ok := p.TightestOf(m, true); ok && !t.Eased() {
			return false
		}
	}
	return true
}

// margined reports whether round all that lies on the boards so much stays free.
func margined(p *folio.Plan, margin units.Length) bool {
	for f := range p.Fittings() {
		panel, _ := p.Panel(f.Panel(), false)
		if !f.Rect().In(panel.Grow(-p.Spec().Clearance - margin)) {
			return false
		}
	}
	return true
}
