package score_test

import (
	"context"
	"errors"
	"slices"
	"testing"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

const plenty = 1 << 30

func mustStrip(t testing.TB, panels []units.Length, folds ...score.Fold) score.Strip {
	t.Helper()
	s, err := score.NewStrip(panels, folds...)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestAllSmallStrips compares the decision, the witness, the list of layer
// orders and the planner with a search through all permutations, on every
// strip of 2 to 5 panels of 1 to 4 mm with every assignment of folds; a third of those
// of 5 at every change, all in a whole run.
func TestAllSmallStrips(t *testing.T) {
	ctx := context.Background()
	strips, foldable := 0, 0
	for n := 2; n <= 5; n++ {
		lengthsOf(n, 4, func(panels []units.Length) {
			assignments(n-1, func(folds []score.Fold) {
				strips++
				if !proptest.Whole && n == 5 && strips%3 != 0 {
					return
				}
				s := mustStrip(t, panels, folds...)
				want := bruteForce(s)
				if len(want) > 0 {
					foldable++
				}
				agree(t, ctx, s, want)
			})
		})
		if t.Failed() {
			return
		}
	}
	if want := 4*4*2 + 64*4 + 256*8 + 1024*16; strips != want {
		t.Errorf("%d strips, want %d", strips, want)
	}
	t.Logf("%d strips, %d of those tried fold flat", strips, foldable)
}

func agree(t *testing.T, ctx context.Context, s score.Strip, want map[string]bool) {
	t.Helper()
	spans, _ := walkOf(s, never)
	if got := s.FoldsFlat(); got != (len(want) > 0) {
		t.Errorf("%v: FoldsFlat %v, but %d layer orders exist", s, got, len(want))
		return
	}
	all, err := s.Foldings(ctx, plenty)
	if err != nil {
		t.Errorf("%v: %v", s, err)
	}
	got := map[string]bool{}
	for _, f := range all {
		k := key(spans, overIn(f))
		if got[k] {
			t.Errorf("%v: a layer order is listed twice", s)
		}
		if !want[k] {
			t.Errorf("%v: order %v is not one that paper can take: %s", s, f.Order(), broken(s, never, overIn(f)))
		}
		got[k] = true
	}
	if len(got) != len(want) {
		t.Errorf("%v: %d layer orders listed, %d exist", s, len(got), len(want))
	}
	f, err := s.Fold()
	turns, turnsErr := s.Turns()
	if len(want) == 0 {
		var u, v *score.Unfoldable
		if !errors.As(err, &u) || !errors.As(turnsErr, &v) {
			t.Errorf("%v: errors %v and %v", s, err, turnsErr)
		}
		return
	}
	if err != nil || turnsErr != nil {
		t.Errorf("%v: %v, %v", s, err, turnsErr)
		return
	}
	if !want[key(spans, overIn(f))] {
		t.Errorf("%v: witness %v: %s", s, f.Order(), broken(s, never, overIn(f)))
	}
	by, err := s.FoldBy(context.Background(), turns...)
	if err != nil {
		t.Errorf("%v: turns %v: %v", s, turns, err)
		return
	}
	if !by.Equal(f) {
		t.Errorf("%v: turns %v give %v, not %v", s, turns, by.Order(), f.Order())
	}
}

// TestStampFoldings: the layer orders of n equal panels, all assignments
// together, are the foldings of a strip of n stamps, OEIS A000136; up to
// reversing the strip and turning the stack over they are those of blank
// stamps, OEIS A001011.
func TestStampFoldings(t *testing.T) {
	labelled := []int{1, 2, 6, 16, 50, 144, 462, 1392, 4536, 14060} // A000136, n = 1...10
	blank := []int{1, 1, 2, 5, 14, 38, 120, 353, 1148, 3527}        // A001011, n = 1...10
	for n := 1; n <= len(labelled); n++ {
		total, classes := 0, map[string]bool{}
		seen := map[string]bool{}
		assignments(n-1, func(folds []score.Fold) {
			s := mustStrip(t, slices.Repeat([]units.Length{units.Inch}, n), folds...)
			count, err := s.CountFoldings(context.Background(), plenty)
			if err != nil {
				t.Fatal(err)
			}
			total += count
			all, err := s.Foldings(context.Background(), plenty)
			if err != nil || len(all) != count {
				t.Fatalf("%v: %d listed, %d counted, %v", s, len(all), count, err)
			}
			for _, f := range all {
				order := f.Order()
				if seen[text(order)] {
					t.Fatalf("order %v twice", order)
				}
				seen[text(order)] = true
				classes[least(order)] = true
			}
		})
		if total != labelled[n-1] {
			t.Errorf("n = %d: %d layer orders, A000136 says %d", n, total, labelled[n-1])
		}
		if len(classes) != blank[n-1] {
			t.Errorf("n = %d: %d up to symmetry, A001011 says %d", n, len(classes), blank[n-1])
		}
	}
}

func text(order []int) string {
	b := make([]byte, len(order))
	for i, p := range order {
		b[i] = byte('a' + p)
	}
	return string(b)
}

// least returns the first of an order's images under reversing the strip and
// turning the stack over.
func least(order []int) string {
	best := text(order)
	reversed := make([]int, len(order))
	for i, p := range order {
		reversed[i] = len(order) - 1 - p
	}
	for _, o := range [][]int{order, reversed} {
		up := slices.Clone(o)
		best = min(best, text(up))
		slices.Reverse(up)
		best = min(best, text(up))
	}
	return best
}
