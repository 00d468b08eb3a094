package folio_test

import (
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/score"
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

// Of two strips beside a back each is told of by what the hinges under it came out wider.
func TestEachWideHingeIsTold(t *testing.T) {
	s := good()
	s.Form, s.Rulers = boards.DoubleSpineGate, rule.Rulers{Main: units.WholeMillimetres}
	s.Cover, s.Spine = units.MustParseSize("160 x 170 mm"), rule.Spine{Width: 25 * mm}
	s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: 10 * mm, Lap: mm}
	p := mustBuild(t, s)
	around := 2 * p.Spec().Covering.Caliper
	for more, warned := range map[units.Length]int{4 * mm: 0, 4*mm + 4: 2, 7 * mm: 2} {
		made, err := p.Refit(refit.Measured{Width: p.OpenWidth().Length() + around + more, Height: p.OpenHeight().Length()})
		if err != nil {
			t.Fatal(err)
		}
		told := 0
		for w := range made.Warnings() {
			if strings.Contains(w.Text, "look for bare board") {
				if told++; w.Got != more/2 || w.Want != 2*mm {
					t.Errorf("%v wider: %v", more, w)
				}
			}
		}
		if told != warned {
			t.Errorf("%v wider: told %d times, want %d", more, told, warned)
		}
	}
}

// Nine boards, as many as a row may have, all of which lie, shut with something on them that
// turns past others.
func TestNineBoardsThatLie(t *testing.T) {
	s := plainCase()
	s.Spine, s.Hinge, s.Cover = rule.Spine{Contents: 4 * mm}, rule.Hinge{}, units.Size{W: 60 * mm, H: 90 * mm}
	s.Closing.UnderFlap = 8 * mm
	for i := range boards.MaxBoards {
		s.Row.Boards = append(s.Row.Boards, boards.Board{Role: boards.Panel1 + boards.Role(i)})
		if i > 0 {
			s.Row.Joints = append(s.Row.Joints, boards.Joint{Fold: score.Fold(i % 2), Hinge: rule.Hinge{Rule: rule.HingeLeast, Crease: rule.CreaseTwo}})
		}
	}
	s.Fittings = []folio.Fitting{
		{Name: "badge", Panel: boards.Panel1, Kind: folio.Ornament{Size: units.Size{W: 10 * mm, H: 10 * mm}, Thickness: 3 * mm}},
		{Name: "coin", Panel: boards.Panel9, Kind: folio.Ornament{Size: units.Size{W: 10 * mm, H: 10 * mm}, Thickness: 3 * mm}},
	}
	p := mustBuild(t, s)
	if tight, ok := p.Tightest(true); !ok || !tight.Closes() {
		t.Errorf("%v, %v", tight, ok)
	}
}
