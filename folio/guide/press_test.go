package guide_test

import (
	"fmt"
	"slices"
	"strconv"
	"testing"

	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// What is stuck dries with what it is stuck on, also where it reaches far beyond that.
func TestDriesOnItsBase(t *testing.T) {
	found := 0
	for _, s := range slices.Concat(samples(), wide()) {
		var last *work.Fix
		for step := range s.plan.Steps() {
			for _, a := range step.Do {
				switch a := a.(type) {
				case work.Fix:
					last = &a
				case work.Stick:
					last = nil
				case work.Dry:
					if last == nil || last.On.Kind != work.OnPiece || last.On.Panel != work.All || last.What.Kind != work.Piece || step.For.Kind != work.PartFitting {
						continue
					}
					r, bad := s.look(0)(fmt.Sprintf("step %d", step.Number))
					if found++; bad != "" || !slices.ContainsFunc(r.lines, func(l readLine) bool { return l.of["piece"] == strconv.Itoa(last.On.Index) }) {
						t.Errorf("%s, step %d, %s: no %s; %s", s.name, step.Number, step.Text(units.Format{}), last.On.Name, bad)
					}
				}
			}
		}
	}
	if found < 4 {
		t.Errorf("only %d", found)
	}
}

// What dries lies under the waste sheet, and both lie under the weight, which reaches
// over all of what it presses: nothing is drawn over them and nothing beside them.
func TestWeightLiesOver(t *testing.T) {
	pressed := 0
	for _, s := range slices.Concat(samples(), everyForm(), wide()) {
		for step := range s.plan.Steps() {
			for _, a := range step.Do {
				dry, ok := a.(work.Dry)
				if !ok || !dry.Weight {
					continue
				}
				r, bad := s.look(0)(fmt.Sprintf("step %d", step.Number))
				if bad != "" {
					t.Fatal(bad)
				}
				under, _ := round(r.kind("outline", "layer"))
				there := r.kind("there")
				if len(there) == 0 || len(r.kind("outline")) == 0 {
					continue // it is drawn from above
				}
				weight, _ := round(there[:1])
				for i := range there {
					if b, _ := round(there[i : i+1]); b.y0 < weight.y0 {
						weight = b
					}
				}
				pressed++
				if waste, ok := round(r.kind("hidden")); dry.Apart {
					if !ok || waste.y1 >= under.y0 || waste.x0 > under.x0 || waste.x1 < under.x1 {
						t.Errorf("%s, step %d: the waste sheet is at %v over %v", s.name, step.Number, waste, under)
					}
					under.y0 = min(under.y0, waste.y0)
				}
				if weight.y1 >= under.y0 || weight.x0 > under.x0 || weight.x1 < under.x1 {
					t.Errorf("%s, step %d: the weight is at %v over %v", s.name, step.Number, weight, under)
				}
			}
		}
	}
	if pressed < 10 {
		t.Errorf("only %d are pressed", pressed)
	}
}
