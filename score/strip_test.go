package score_test

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/prop"
)

const mm = units.Millimetre

func TestStripOfBadPanels(t *testing.T) {
	_, err := score.NewStrip([]units.Length{0, -mm, 1, 11 * units.Metre, mm}, score.Valley, 7)
	violation(t, err, "panels[0]", check.NotPositive)
	violation(t, err, "panels[1]", check.NotPositive)
	violation(t, err, "panels[2]", check.OutOfRange)
	violation(t, err, "panels[3]", check.OutOfRange)
	violation(t, err, "folds", check.Conflict)
	violation(t, err, "folds[1]", check.Unknown)

	_, err = score.NewStrip(nil)
	violation(t, err, "panels", check.Missing)
	v := violation(t, second(score.NewStrip([]units.Length{6 * units.Metre, 6 * units.Metre}, score.Valley)), "panels", check.OutOfRange)
	if v.Want != "only the first of them, or narrower ones" {
		t.Errorf("%v", v)
	}
	// The sum of very many panels does not wrap round.
	many := slices.Repeat([]units.Length{10 * units.Metre}, score.MaxPanels)
	violation(t, second(score.NewStrip(many, score.Repeat(len(many)-1, score.Valley)...)), "panels", check.OutOfRange)
	// Nor does the error of very many bad panels fill the memory.
	if err := second(score.NewStrip(make([]units.Length, score.MaxPanels))); strings.Count(err.Error(), "\n") != check.MaxViolations+1 {
		t.Errorf("%d lines of error", strings.Count(err.Error(), "\n"))
	}
}

// Counts are looked at before anything is made of them: none of these takes
// memory or time, let alone panics.
func TestCountsAreChecked(t *testing.T) {
	for _, n := range []int{score.MaxPanels + 1, 1 << 30, math.MaxInt} {
		violation(t, second(score.Accordion(units.Longest, n, 0, 0)), "parts", check.TooMany)
		violation(t, second(score.Divide(units.Longest, n, 0)), "parts", check.TooMany)
		violation(t, second(score.Roll(units.Longest, n, score.TuckIn{})), "panels", check.OutOfRange)
		if got := len(score.Repeat(n, score.Valley)) + len(score.Alternate(n, score.Valley)); got != 2*score.MaxPanels {
			t.Errorf("%d folds", got)
		}
	}
	for _, n := range []int{0, -1, math.MinInt} {
		violation(t, second(score.Accordion(units.Longest, n, 0, 0)), "parts", check.NotPositive)
		if len(score.Repeat(n, score.Valley))+len(score.Alternate(n, score.Valley)) != 0 {
			t.Errorf("%d folds", n)
		}
	}
	violation(t, second(score.NewStrip(make([]units.Length, score.MaxPanels+1))), "panels", check.TooMany)
	violation(t, second(score.ScoredStrip(units.Longest, make([]units.Length, score.MaxPanels))), "scores", check.TooMany)
	fan, err := score.Accordion(units.Longest, score.MaxPanels, 0, score.Mountain)
	if err != nil || fan.Strip().Len() != score.MaxPanels {
		t.Errorf("the longest accordion: %v", err)
	}
}

func second[T any](_ T, err error) error { return err }

func TestScoredStrip(t *testing.T) {
	// A strip of 12 in scored at 3 7/8, 7 7/8 and 10 1/2: a flap, a base, the
	// front of a pocket and a hem (common practice, no published source).
	in := units.Inch
	s, err := score.ScoredStrip(12*in, []units.Length{3*in + 7*in/8, 7*in + 7*in/8, 10*in + in/2}, score.Valley, score.Valley, score.Valley)
	if err != nil {
		t.Fatal(err)
	}
	var got []units.Length
	for i, p := range s.Panels() {
		if p != s.Panel(i) {
			t.Errorf("Panel(%d) = %v, not %v", i, s.Panel(i), p)
		}
		got = append(got, p)
	}
	if want := []units.Length{3*in + 7*in/8, 4 * in, 2*in + 5*in/8, in + in/2}; !slices.Equal(got, want) {
		t.Errorf("panels %v, want %v", got, want)
	}
	for i, sc := range s.Scores() {
		if again, ok := s.Score(i); !ok || again != sc {
			t.Errorf("score %d: %v and %v", i, sc, again)
		}
	}
	if w := s.Working("strip"); w.Length() != 12*in || w.Total() != 12*in {
		t.Errorf("working %v", w)
	}

	_, err = score.ScoredStrip(12*in, []units.Length{0, 5 * in, 4 * in, 12 * in}, score.Repeat(4, score.Valley)...)
	violation(t, err, "scores[0]", check.OutOfRange)
	violation(t, err, "scores[2]", check.Conflict)
	violation(t, err, "scores[3]", check.OutOfRange)
	violation(t, second(score.ScoredStrip(0, nil)), "length", check.NotPositive)
	violation(t, second(score.ScoredStrip(mm, []units.Length{mm - 1}, score.Valley)), "scores[0]", check.Conflict)
	violation(t, second(score.ScoredStrip(mm, nil, score.Valley)), "folds", check.Conflict)
}

func TestDivide(t *testing.T) {
	s, err := score.Divide(297*mm, 4, units.WholeMillimetres, score.Alternate(3, score.Valley)...)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := s.String(), "74 v 75 m 74 v 74 mm"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	violation(t, second(score.Divide(3*mm, 4, units.WholeMillimetres, score.Repeat(3, score.Valley)...)), "parts", check.TooMany)
	violation(t, second(score.Divide(3*mm, 0, units.WholeMillimetres)), "parts", check.NotPositive)
	violation(t, second(score.Divide(3*mm, 1, units.Ruler(-5))), "ruler", check.Unknown)
	violation(t, second(score.Divide(1000*mm, 1<<30, 0)), "parts", check.TooMany)
}

func TestStripIsNotShared(t *testing.T) {
	panels, folds := []units.Length{mm, 2 * mm}, []score.Fold{score.Mountain}
	s := mustStrip(t, panels, folds...)
	panels[0], folds[0] = 9*mm, score.Valley
	if got, want := s.String(), "1 m 2 mm"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	f, err := s.Fold()
	if err != nil {
		t.Fatal(err)
	}
	f.Order()[0] = 77
	for st := range f.Stacks() {
		st.Panels[0] = 77
	}
	if slices.Contains(f.Order(), 77) {
		t.Error("the order is shared with the caller")
	}
	for st := range f.Stacks() {
		if slices.Contains(st.Panels, 77) {
			t.Error("a stack is shared with the caller")
		}
	}
}

func TestZeroStrip(t *testing.T) {
	var s score.Strip
	f, err := s.Fold()
	if err != nil || !s.FoldsFlat() || f.Width() != 0 || f.MostLayers() != 0 || len(f.Bays()) != 0 || len(f.Top()) != 0 {
		t.Errorf("zero strip: %v, %v", f, err)
	}
	if _, ok := s.Score(0); ok || s.Panel(0) != 0 || s.Length() != 0 || s.String() != "no panels" {
		t.Error("zero strip has something")
	}
	if f, err := s.FoldBy(context.Background()); err != nil || f.Width() != 0 {
		t.Error(err)
	}
	if s.Reversed().Len() != 0 || s.Over().Len() != 0 {
		t.Error("a turned zero strip has panels")
	}
	var zero score.Folding
	if zero.Width() != 0 || zero.FaceUp(0) || zero.At(0) != nil || zero.Thickness(mm) != 0 {
		t.Error("zero Folded has something")
	}
}

func TestParseFolds(t *testing.T) {
	got, err := score.ParseFolds("V m MV")
	if want := []score.Fold{score.Valley, score.Mountain, score.Mountain, score.Valley}; err != nil || !slices.Equal(got, want) {
		t.Errorf("%v, %v", got, err)
	}
	violation(t, second(score.ParseFolds("VX")), "folds", check.Unknown)
}

func TestStripProperties(t *testing.T) {
	properties(t, func(p *gopter.Properties) {
		p.Property("panels add up to the strip, scores are their running sums", prop.ForAll(func(d draft) bool {
			s := d.strip()
			var sum units.Length
			for i, panel := range s.Panels() {
				sum += panel
				if sc, ok := s.Score(i); ok && sc.At != sum {
					return false
				}
			}
			return sum == s.Length() && s.Working("strip").Length() == sum
		}, drafts(30, anyWidths())))
		p.Property("a strip made from its own scores is the same", prop.ForAll(func(d draft) bool {
			s := d.strip()
			var at []units.Length
			for _, sc := range s.Scores() {
				at = append(at, sc.At)
			}
			again, err := score.ScoredStrip(s.Length(), at, d.folds...)
			return err == nil && again.Equal(s)
		}, drafts(30, anyWidths())))
		p.Property("turning twice changes nothing; turned strips fold flat alike", prop.ForAll(func(d draft) bool {
			s := d.strip()
			return s.Reversed().Reversed().Equal(s) && s.Over().Over().Equal(s) &&
				s.Reversed().FoldsFlat() == s.FoldsFlat() && s.Over().FoldsFlat() == s.FoldsFlat()
		}, drafts(12, smallWidths(4))))
		p.Property("folds that alternate always fold flat", prop.ForAll(func(d draft) bool {
			// "Alternating folds always fold": Arkin et al. 2004, section 3.
			s, err := score.NewStrip(d.panels, score.Alternate(len(d.panels)-1, score.Mountain)...)
			return err == nil && s.FoldsFlat()
		}, drafts(40, anyWidths())))
		p.Property("twice as wide panels fold alike", prop.ForAll(func(d draft) bool {
			wide := slices.Clone(d.panels)
			for i := range wide {
				wide[i] *= 2
			}
			s, err := score.NewStrip(wide, d.folds...)
			return err == nil && s.FoldsFlat() == d.strip().FoldsFlat()
		}, drafts(12, smallWidths(4))))
	})
}
