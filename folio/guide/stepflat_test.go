package guide_test

import (
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/rule"
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
}
