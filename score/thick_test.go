package score_test

import (
	"context"
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A letter of 0.25 mm card round a print of 1 mm: the inner fold closes on the
// print, 4 calipers, so it takes two scores 1 mm apart; the outer one goes round
// the print and the inner panel, 1.25 mm.
func TestThickLetter(t *testing.T) {
	s := mustStrip(t, []units.Length{100 * mm, 100 * mm, 98 * mm}, score.Valley, score.Valley)
	f, err := s.FoldBy(context.Background(), score.Turn{Score: 1}, score.Turn{Score: 0})
	if err != nil {
		t.Fatal(err)
	}
	print := score.Enclosure{Panel: 1, Side: score.Face, From: 5 * mm, To: 95 * mm, Thickness: mm}
	thick, err := f.Thick(mm/4, units.HalfMillimetres, print)
	if err != nil {
		t.Fatal(err)
	}
	want := []score.ThickScore{
		{At: 100 * mm, Fold: score.Valley, Degrees: 90, Of: 0}, {At: 100*mm + 3*mm/2, Fold: score.Valley, Degrees: 90, Of: 0},
		{At: 201*mm + mm/2, Fold: score.Valley, Degrees: 90, Of: 1}, {At: 202*mm + mm/2, Fold: score.Valley, Degrees: 90, Of: 1},
	}
	n := 0
	for i, got := range thick.Scores() {
		n++
		if got != want[i] {
			t.Errorf("score %d: %+v; want %+v", i, got, want[i])
		}
	}
	if n != len(want) || thick.Length() != 300*mm+mm/2 {
		t.Errorf("%d scores on %v", n, thick.Length())
	}
	if want := "strip as made 300.5 mm = strip 298 mm + round fold 1 1.5 mm + round fold 2 1 mm"; thick.Working().String() != want {
		t.Errorf("%v; want %s", thick.Working(), want)
	}
	if from, to := thick.Panel(2); from != 202*mm+mm/2 || to != 300*mm+mm/2 {
		t.Errorf("panel 2 from %v to %v", from, to)
	}
	b, err := score.NewBlank(thick.Draft(score.Level, 50*mm))
	if err != nil || b.Size() != (units.Size{W: 50 * mm, H: 300*mm + mm/2}) || len(b.Draft().Lines) != 4 {
		t.Errorf("%v, %v", b.Size(), err)
	}
	// Nothing in it: the inner fold closes on nothing, the outer on one panel.
	thick, err = f.Thick(mm/4, units.HalfMillimetres)
	if err != nil || thick.Length() != 298*mm {
		t.Errorf("empty: %v, %v", thick.Length(), err)
	}
	violation(t, second(f.Thick(-1, -1, score.Enclosure{Panel: 9})), "caliper", check.NotPositive)
	long, err := mustStrip(t, []units.Length{5 * units.Metre, 5 * units.Metre}, score.Valley).Fold()
	if err != nil {
		t.Fatal(err)
	}
	violation(t, second(long.Thick(mm, 0, score.Enclosure{Panel: 0, To: units.Metre, Thickness: 5 * mm})), "", score.TooLong)
}

// TestThickProperties: panels keep their widths and their order, what lies
// between two scores of a fold is no less than what it goes round, and nothing
// else is added.
func TestThickProperties(t *testing.T) {
	double := 0
	properties(t, func(p *gopter.Properties) {
		p.Property("panels keep their widths and folds get their room", prop.ForAll(
			func(d draft, caliper int64, r units.Ruler) string {
				f, err := d.strip().Fold()
				if err != nil {
					return ""
				}
				around, err := f.Around(units.Length(caliper), r)
				if err != nil {
					return err.Error()
				}
				thick, err := f.Thick(units.Length(caliper), r)
				if err != nil {
					return err.Error()
				}
				of := map[int][]score.ThickScore{}
				for _, s := range thick.Scores() {
					of[s.Of] = append(of[s.Of], s)
				}
				last := units.Length(0)
				for i, w := range f.Strip().Panels() {
					from, to := thick.Panel(i)
					if to-from != w || from < last || i == 0 && from != 0 {
						return "a panel has changed"
					}
					if i > 0 {
						a, scores := around[i-1], of[i-1]
						switch {
						case scores[0].At != last || scores[len(scores)-1].At != from:
							return "a score is not at the edge of its panel"
						case a.Double != (len(scores) == 2) || a.Double && from-last < a.Stack:
							return "a fold has no room"
						case !a.Double && from != last:
							return "room where none is needed"
						}
						if a.Double {
							double++
						}
						for _, s := range scores {
							if s.Degrees*len(scores) != 180 || s.Fold != d.folds[i-1] {
								return "the folds do not make up the fold"
							}
						}
					}
					last = to
				}
				if last != thick.Length() {
					return "the length is wrong"
				}
				return ""
			}, drafts(9, smallWidths(4)), gen.Int64Range(int64(units.Shortest), int64(mm)), anyRuler()))
	})
	if double < proptest.Cases(1000)/10 {
		t.Errorf("only %d folds of two scores", double)
	}
}

// TestUnfoldableEitherWay: the scores that block each other are the same
// whichever way round the strip lies and whichever side is up.
func TestUnfoldableEitherWay(t *testing.T) {
	blocked := 0
	properties(t, func(p *gopter.Properties) {
		p.Property("turned round or over, the same scores block each other", prop.ForAll(
			func(d draft) string {
				s := d.strip()
				scores := func(s score.Strip) []int {
					_, err := s.Fold()
					u, is := err.(*score.Unfoldable)
					if !is {
						return nil
					}
					return u.Scores()
				}
				here := scores(s)
				if len(here) > 0 {
					blocked++
				}
				for name, other := range map[string][]int{"round": scores(s.Reversed()), "over": scores(s.Over())} {
					if len(other) != len(here) {
						return name + ": another number of scores"
					}
					for i, sc := range other {
						if s.Len()-2-sc != here[len(here)-1-i] {
							return name + ": other scores"
						}
					}
				}
				return ""
			}, drafts(12, smallWidths(4))))
	})
	if blocked < proptest.Cases(1000)/5 {
		t.Errorf("only %d strips do not fold", blocked)
	}
}

// Whatever is asked of a caliper, nothing wraps round.
func TestNothingWraps(t *testing.T) {
	f, err := mustStrip(t, []units.Length{mm, mm, mm}, score.Valley, score.Mountain).Fold()
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range []units.Length{math.MaxInt64, units.Longest + 1} {
		if got := f.Thickness(l); got != 3*units.Longest {
			t.Errorf("thickness of %v: %v", l, got)
		}
		if got := f.ThicknessWorking("t", l).Length(); got != 3*units.Longest {
			t.Errorf("working of %v: %v", l, got)
		}
		for _, n := range []int{math.MaxInt, 1 << 30} {
			if got := score.Creep(l, n).Length(); got <= 0 {
				t.Errorf("creep %v", got)
			}
			if got := score.NestedLeaf(mm, l, n, 0).Length(); got >= 0 {
				t.Errorf("leaf %v", got)
			}
		}
		least, most := score.Channel(l, l, units.Sixteenths)
		if least.Length() <= 0 || most.Length() < least.Length() {
			t.Errorf("channel %v to %v", least, most)
		}
		if apart, double := score.DoubleScore(l, l, units.Sixteenths); apart.Length() <= 0 || double != (l > 2*units.Longest) {
			t.Errorf("scores %v apart, %t", apart, double)
		}
	}
	for _, l := range []units.Length{math.MinInt64, -1} {
		if f.Thickness(l) != 0 || score.Creep(l, 9).Length() != 0 {
			t.Errorf("of %v: %v, %v", l, f.Thickness(l), score.Creep(l, 9))
		}
		if apart, double := score.DoubleScore(l, mm, 0); apart.Length() != 0 || double {
			t.Errorf("scores %v apart, %t", apart, double)
		}
		// Round nothing one score will do, whatever the sheet.
		if _, double := score.DoubleScore(0, l, 0); double {
			t.Errorf("two scores round nothing of a sheet of %v", l)
		}
	}
}

// The 5 in a zigzag folds away between its neighbours, whatever follows; what is left has
// its middle of 10 between 35 and 40 that both fold over it, and its two scores block
// each other, of whichever panels the parts beside them are made.
func TestUnfoldableNamesWhatIsLeft(t *testing.T) {
	s := mustStrip(t, []units.Length{20 * mm, 5 * mm, 20 * mm, 10 * mm, 40 * mm}, score.Valley, score.Mountain, score.Valley, score.Valley)
	for _, c := range []struct {
		strip score.Strip
		want  []int
	}{{s, []int{2, 3}}, {s.Reversed(), []int{0, 1}}} {
		_, err := c.strip.Fold()
		var u *score.Unfoldable
		if !errors.As(err, &u) || !slices.Equal(u.Scores(), c.want) {
			t.Errorf("%v: %v, want scores %v", c.strip, err, c.want)
		}
	}
}
