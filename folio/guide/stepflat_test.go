package guide_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// Two equal strips of a quarter style are called in pictures as in the steps.
func TestCopiesAreCalledAsInTheSteps(t *testing.T) {
	p, err := folio.Build(folio.Spec{
		Form: boards.DoubleSpineGate, Cover: units.MustParseSize("152 x 204 mm"), Spine: rule.Spine{Width: 20 * units.Millimetre},
		Rulers: rule.Rulers{Main: units.WholeMillimetres}, Quarter: rule.Quarter{Rule: rule.QuarterAlways},
	})
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	steps := guide.StepsOf(p)
	for s := range p.Steps() {
		pic, ok := steps.Draw(s.Number, guide.Options{})
		said := s.Text(units.Format{})
		if !ok || !strings.Contains(said, " on the second spine strip") && !strings.Contains(said, "On the second spine strip") {
			continue
		}
		svg := string(pic.AppendSVG(nil))
		if strings.Contains(svg, ">spine strip<") {
			t.Errorf("step %d, %q: a spine strip of no number", s.Number, said)
		}
		if strings.Contains(svg, ">first spine strip<") && strings.Contains(svg, ">second spine strip<") {
			found++
		}
	}
	if found < 2 {
		t.Errorf("%d steps show both strips by their names", found)
	}
	// A gusset run has two strips that are alike, and each is folded by itself.
	for _, s := range samples() {
		for st := range s.plan.Steps() {
			fold, ok := st.Do[0].(work.FoldAt)
			if !ok || fold.What.Copy < 0 || s.name != "pockets" {
				continue
			}
			r, bad := s.look(0)(fmt.Sprintf("step %d", st.Number))
			if found++; bad != "" || !slices.ContainsFunc(r.texts, func(x readText) bool { return x.s == fold.What.Name }) {
				t.Errorf("step %d, %s: no %q; %s", st.Number, st.Text(units.Format{}), fold.What.Name, bad)
			}
		}
	}
	if found < 8 {
		t.Errorf("only %d", found)
	}
}

// The figures of what takes adhesive are those that the step tells.
func TestAdhesiveIsDimensioned(t *testing.T) {
	found := 0
	for _, s := range wide() {
		for st := range s.plan.Steps() {
			for _, a := range st.Do {
				stick, ok := a.(work.Stick)
				if fix, is := a.(work.Fix); is && fix.By == work.SelfSticky && fix.On.Kind == work.OnPiece { // foam, from the edges of its frame
					stick.Area.Min, ok = units.Point{X: fix.At.X, Y: fix.At.Y}, true
				}
				if !ok {
					continue
				}
				r, bad := s.look(0)(fmt.Sprintf("step %d", st.Number))
				if bad != "" {
					t.Fatal(bad)
				}
				for _, l := range [...]units.Length{stick.Area.Min.X, stick.Area.Max.X, stick.Area.Min.Y, stick.Area.Max.Y} {
					want := units.Format{Ruler: st.Ruler, Bare: true}.Text(l)
					if found++; l > 0 && !slices.ContainsFunc(r.texts, func(x readText) bool { return x.s == want }) {
						t.Errorf("%s, step %d, %s: no %s", s.name, st.Number, st.Text(units.Format{}), want)
					}
				}
			}
		}
	}
	if found < 40 {
		t.Errorf("only %d figures", found)
	}
}
