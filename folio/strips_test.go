package folio_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

// Side papers stay where they are on their boards. Where the hinges came out wider
// than both of their laps together, the strip in the middle covers that no longer.
func TestStripsOfWideHinges(t *testing.T) {
	s := good()
	s.Rulers = rule.Rulers{Main: units.WholeMillimetres}
	s.Cover, s.Spine = units.MustParseSize("120 x 170 mm"), rule.Spine{Width: 25 * mm}
	s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: 20 * mm, Lap: mm}
	for _, c := range []struct {
		rule   rule.QuarterRule
		more   units.Length
		warned bool
	}{{rule.QuarterAlways, 2 * mm, false}, {rule.QuarterAlways, 2*mm + 1, true}, {rule.QuarterAlways, 2*mm + 2, true}, {rule.QuarterNever, 3 * mm, false}} {
		s.Quarter.Rule = c.rule
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		around := 2 * s.WithDefaults().Covering.Caliper // over the covering at both edges
		made, err := p.Refit(refit.Measured{Width: p.OpenWidth().Length() + around + c.more, Height: p.OpenHeight().Length()})
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for w := range made.Warnings() {
			found = found || w.Code == folio.WarnMeasured && w.Path == "measured.width" && w.Got == c.more && w.Want == 2*mm
		}
		if found != c.warned {
			t.Errorf("%v, %v wider: warned %t, want %t", c.rule, c.more, found, c.warned)
		}
	}
}
