package folio_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

// A miniature needs no margin of its own to be told: what is turned in by default leaves
// bare board between opposite turn-ins, is never less on a larger cover, and on a usual
// one is the published inch, or 25 mm. A margin that is given is kept as it is.
func TestDefaultMarginOfASmallCover(t *testing.T) {
	for _, metric := range []bool{false, true} {
		usual, r := units.Inch, rule.Rulers{Main: units.Sixteenths}
		if metric {
			usual, r = 25*mm, rule.Rulers{Main: units.WholeMillimetres}
		}
		var before units.Length
		for side := 16 * mm; side <= 110*mm; side += 1_300_000 * units.Nanometre {
			for _, cover := range []units.Size{{W: 90 * mm, H: side}, {W: 3 * side, H: side}} {
				s := folio.Spec{Cover: cover, Rulers: r, Spine: rule.Spine{Width: 8 * mm}}
				p, err := folio.Build(s)
				if err != nil {
					t.Fatalf("%v: %v", cover, err)
				}
				ideal, open := p.Spec().Margin.Ideal, p.OpenHeight().Length()
				least := 7 * mm // what is tolerated, a step more
				for _, m := range []units.Working{p.Wrap().Along().Near(), p.Wrap().Along().Far(), p.Wrap().Across().Near(), p.Wrap().Across().Far()} {
					if m.Length() > usual+r.Main.Step() || 3*m.Length() > max(open, 3*least)+3*r.Main.Step() {
						t.Errorf("%v: a margin of %v on a cover that is open %v high", cover, m, open)
					}
				}
				if ideal < before || 3*ideal > open && ideal > least || ideal < usual && 3*(ideal+r.Main.Step()) <= open {
					t.Errorf("%v: the ideal margin is %v, of a smaller cover %v", cover, ideal, before)
				}
				before = ideal
				if again, err := folio.Build(p.Spec()); err != nil || again.Spec().Margin != p.Spec().Margin {
					t.Errorf("%v: built again it is %v", cover, err)
				}
				w, h := p.AsMade()
				if _, err := p.Refit(refit.Measured{Width: w.Length(), Height: h.Length()}); err != nil {
					t.Errorf("%v: as made: %v", cover, err)
				}
				s.Margin.Ideal = usual
				if p, err := folio.Build(s); err == nil && p.Spec().Margin.Ideal != usual || err != nil && open > 2*usual+2*r.Main.Step() {
					t.Errorf("%v: a margin that is given is not kept: %v", cover, err)
				}
				s.Margin = rule.Margin{Rule: rule.MarginThreeQuarters}
				if p, err := folio.Build(s); err == nil && p.Spec().Margin.Ideal != 3*units.Inch/4 {
					t.Errorf("%v: a rule that is given is not kept: %v", cover, p.Spec().Margin)
				}
				s.Margin = rule.Margin{Least: 14 * mm}
				if p, err := folio.Build(s); err == nil && (p.Spec().Margin.Least != 14*mm || p.Spec().Margin.Ideal < 14*mm) {
					t.Errorf("%v: a least that is given is not kept: %v", cover, p.Spec().Margin)
				}
			}
		}
	}
}
