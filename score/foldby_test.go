package score_test

import (
	"context"
	"errors"
	"slices"
	"testing"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"
)

// turnsOf are turns on a strip of up to most scores.
func turnsOf(most int) gopter.Gen {
	turn := proptest.Map(gopter.CombineGens(gen.IntRange(0, most-1), gen.IntRange(0, 2)), func(v []any) score.Turn {
		return score.Turn{Score: v[0].(int), Way: score.TurnWay(v[1].(int))}
	})
	return gen.SliceOfN(3*most, turn)
}

// anyTurnsOf are turns of either part.
func anyTurnsOf(most int) gopter.Gen {
	turn := proptest.Map(gopter.CombineGens(gen.IntRange(0, most-1), gen.IntRange(0, 2), gen.Bool()), func(v []any) score.Turn {
		return score.Turn{Score: v[0].(int), Way: score.TurnWay(v[1].(int)), Part: score.TurnedPart(bit(v[2].(bool)))}
	})
	return gen.SliceOfN(3*most, turn)
}

// carryOut makes those turns that are possible, one at a time, as a maker
// would who tries whatever the turns say. It calls visit after every turn.
func carryOut(s score.Strip, turns []score.Turn, visit func(score.Folding, error) bool) {
	var done []score.Turn
	for _, st := range turns {
		if st.Score >= s.Len()-1 {
			continue
		}
		f, err := s.FoldBy(context.Background(), append(slices.Clone(done), st)...)
		if !visit(f, err) {
			return
		}
		if err == nil {
			done = append(done, st)
		}
	}
}

// TestFoldByKeepsTheRules: whatever is folded, after every turn the layers are
// such as paper can take, checked by rules written down apart (brute_test.go).
func TestFoldByKeepsTheRules(t *testing.T) {
	made, blocked, together := 0, map[check.Code]int{}, 0
	properties(t, func(p *gopter.Properties) {
		p.Property("no panel through a fold, no folds that cross, transitive", prop.ForAll(
			func(d draft, turns []score.Turn) string {
				fault := ""
				carryOut(d.strip(), turns, func(f score.Folding, err error) bool {
					var b *score.Blocked
					switch {
					case errors.As(err, &b):
						blocked[b.Code]++
						return true
					case err != nil:
						fault = err.Error()
						return false
					}
					made++
					for m := range f.Made() {
						if len(m.Scores) > 1 {
							together++
						}
					}
					fault = broken(f.Strip(), f.Flat, overIn(f))
					return fault == ""
				})
				return fault
			},
			drafts(8, smallWidths(3)), turnsOf(7)))
	})
	// The property would say little if nothing had been folded or blocked.
	t.Logf("%d turns made, %d of several layers; blocked: %v", made, together, blocked)
	if made < proptest.Cases(1000) || together < proptest.Cases(100) || blocked[score.InTheWay] < proptest.Cases(100) || blocked[score.WrongWay] == 0 || blocked[score.FoldedAlready] == 0 {
		t.Errorf("too few of some kind: %d made, %d together, blocked %v", made, together, blocked)
	}
}

// TestTurnsAlwaysSucceed: a strip that folds flat is folded by the turns found
// for it, with the kinds that it has, into the layers of Fold.
func TestTurnsAlwaysSucceed(t *testing.T) {
	flat := 0
	properties(t, func(p *gopter.Properties) {
		p.Property("the turns fold the strip as Fold does", prop.ForAll(
			func(d draft) string {
				s := d.strip()
				f, err := s.Fold()
				turns, turnsErr := s.Turns()
				if (err == nil) != (turnsErr == nil) {
					return "Fold and Turns disagree"
				}
				if err != nil {
					return ""
				}
				flat++
				by, err := s.FoldBy(context.Background(), turns...)
				if err != nil {
					return err.Error()
				}
				if !by.Equal(f) { // the kinds of fold included
					return "other layers"
				}
				for i, st := range turns {
					if st.Way == score.AsScored || len(slices.Collect(by.Made())[i].Scores) != 1 {
						return "a turn without its way, or of several scores"
					}
				}
				return broken(s, never, overIn(by))
			},
			gen.OneGenOf(drafts(12, smallWidths(4)), drafts(4, anyWidths()), foldableDrafts(40))))
	})
	if flat < proptest.Cases(300) {
		t.Errorf("only %d of 1,000 fold flat", flat)
	}
}

// foldableDrafts are strips that fold flat by construction: they are unfolded
// from one panel by undoing end folds and crimps.
func foldableDrafts(most int) gopter.Gen {
	undo := gopter.CombineGens(gen.IntRange(0, 1<<20), gen.IntRange(0, 3), gen.Int64Range(1, 9), gen.Bool())
	return proptest.Map(proptest.List(0, most/2, undo), func(vs [][]any) draft {
		d := draft{panels: []units.Length{100 * units.Millimetre}}
		for _, v := range vs {
			where, how, tenths, bit := v[0].(int), v[1].(int), v[2].(int64), v[3].(bool)
			kind := score.Valley
			if bit {
				kind = score.Mountain
			}
			at := where % len(d.panels)
			switch how {
			case 0: // a panel more at the left end, no longer than the first
				part, _ := d.panels[0].Scale(tenths, 9, units.Up)
				part = max(part, units.Shortest)
				d.panels = slices.Insert(d.panels, 0, part)
				d.folds = slices.Insert(d.folds, 0, kind)
			case 1: // at the right end
				part, _ := d.panels[len(d.panels)-1].Scale(tenths, 9, units.Up)
				part = max(part, units.Shortest)
				d.panels = append(d.panels, part)
				d.folds = append(d.folds, kind)
			default: // a crimp in a panel: a, b, c with a − b + c the old one
				whole := d.panels[at]
				b, _ := whole.Scale(tenths, 9, units.Up)
				b = max(b, units.Shortest)
				a := whole
				if where%2 == 0 {
					a = b // the middle as long as one neighbour
				}
				c := whole + b - a
				d.panels = slices.Replace(d.panels, at, at+1, a, b, c)
				d.folds = slices.Insert(d.folds, at, kind, kind.Other())
			}
		}
		return d
	})
}

// TestFoldInHalfTwice: a strip folded in half and in half again. The
// second turn takes the layer on top along; what comes out is the double
// parallel fold, both folds of the second turn one inside the other.
func TestFoldInHalfTwice(t *testing.T) {
	s := mustStrip(t, slices.Repeat([]units.Length{units.Inch}, 4), score.Valley, score.Valley, score.Mountain)
	f, err := s.FoldBy(context.Background(), score.Turn{Score: 1}, score.Turn{Score: 0})
	if err != nil {
		t.Fatal(err)
	}
	if !f.Strip().Equal(s) {
		t.Errorf("kinds became %v", f.Strip())
	}
	made := slices.Collect(f.Made())
	if len(made) != 2 || !slices.Equal(made[1].Scores, []int{0, 2}) {
		t.Errorf("made %v, want scores 0 and 2 in one", made)
	}
	// Panel 0 stays face up. The stack of the first fold is turned on to it:
	// 3 on 0, the pair 2, 1 outside.
	if got, want := f.Order(), []int{0, 3, 2, 1}; !slices.Equal(got, want) {
		t.Errorf("layers %v, want %v", got, want)
	}
	if f.Width() != units.Inch || f.MostLayers() != 4 {
		t.Errorf("%v wide, %d layers", f.Width(), f.MostLayers())
	}
	// The same scores all as valleys: the layer taken along is folded the
	// wrong way.
	_, err = mustStrip(t, slices.Repeat([]units.Length{units.Inch}, 4), score.Repeat(3, score.Valley)...).FoldBy(context.Background(), score.Turn{Score: 1}, score.Turn{Score: 0})
	var b *score.Blocked
	if !errors.As(err, &b) || b.Code != score.WrongWay || b.Index != 1 || b.By != 2 {
		t.Errorf("error %v, want turn 2 to fold panel 3 the wrong way", err)
	}
}

// TestBlockedBy: a fold is blocked by a panel without a score there.
func TestBlockedBy(t *testing.T) {
	// 1, 1, 3: with score 2 folded first, the long panel lies across score 1.
	s := mustStrip(t, []units.Length{units.Inch, units.Inch, 3 * units.Inch}, score.Valley, score.Valley)
	f, err := s.FoldBy(context.Background(), score.Turn{Score: 1}, score.Turn{Score: 0})
	var b *score.Blocked
	if !errors.As(err, &b) || b.Code != score.InTheWay || b.Turn.Way != score.Towards || b.Index != 1 || b.By != 0 {
		t.Fatalf("error %#v", err)
	}
	if want := "turn 2, fold what lies beyond score 1 towards you: panel 1 lies in the way"; err.Error() != want {
		t.Errorf("error %q, want %q", err, want)
	}
	if f.Flat(1) || !f.Flat(0) {
		t.Error("the result is not the strip as it lay before the blocked turn")
	}
	// The other order succeeds.
	if _, err := s.FoldBy(context.Background(), score.Turn{Score: 0}, score.Turn{Score: 1}); err != nil {
		t.Error(err)
	}
	// And so does turning the other way, which makes a mountain of score 1.
	f, err = s.FoldBy(context.Background(), score.Turn{Score: 1}, score.Turn{Score: 0, Way: score.Away})
	if err != nil {
		t.Fatal(err)
	}
	if sc, _ := f.Strip().Score(0); sc.Fold != score.Mountain {
		t.Errorf("score 1 became a %v", sc.Fold)
	}
	if _, err := s.FoldBy(context.Background(), score.Turn{Score: 0}, score.Turn{Score: 0}); !errors.As(err, &b) || b.Code != score.FoldedAlready {
		t.Errorf("error %v", err)
	}
	if _, err := s.FoldBy(context.Background(), score.Turn{Score: 2}, score.Turn{Score: -1}, score.Turn{Way: 9}); err == nil {
		t.Error("unknown turns are taken")
	} else if e := new(check.Error); !errors.As(err, &e) || e.Len() != 3 {
		t.Errorf("error %v, want three violations", err)
	}
}

// A context that ends stops the folding between two turns; what was folded by
// then is told.
func TestFoldByEnds(t *testing.T) {
	s := mustStrip(t, slices.Repeat([]units.Length{10 * mm}, 400), slices.Repeat([]score.Fold{score.Valley, score.Mountain}, 200)[:399]...)
	turns := make([]score.Turn, 399)
	for i := range turns {
		turns[i] = score.Turn{Score: len(turns) - 1 - i}
	}
	whole, err := s.FoldBy(context.Background(), turns...)
	if err != nil || whole.Width() != 10*mm {
		t.Fatal(err, whole.Width())
	}
	for _, after := range []int{0, 1, 17, 398} {
		f, err := s.FoldBy(&endsAfter{Context: context.Background(), left: after}, turns...)
		made := 0
		for range f.Made() {
			made++
		}
		if !errors.Is(err, context.Canceled) || made != after {
			t.Errorf("ended after %d turns: %v, %d made", after, err, made)
		}
	}
}

// endsAfter is a context that is asked so many times before it has ended.
type endsAfter struct {
	context.Context
	left int
}

func (c *endsAfter) Err() error {
	if c.left--; c.left < 0 {
		return context.Canceled
	}
	return nil
}
