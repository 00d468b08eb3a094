package score_test

import (
	"context"
	"errors"
	"slices"
	"testing"

	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// TestTurnsTo finds turns for every layer order that some sequence of single
// folds reaches, and only for those; the sequences are all tried one by one.
func TestTurnsTo(t *testing.T) {
	ctx := context.Background()
	reached, unreached := 0, 0
	for n := 2; n <= 5; n++ {
		lengthsOf(n, 2, func(panels []units.Length) {
			assignments(n-1, func(folds []score.Fold) {
				r, u := compareTurns(t, ctx, mustStrip(t, panels, folds...))
				reached += r
				unreached += u
			})
		})
	}
	t.Logf("%d layer orders reached by single folds, %d not", reached, unreached)
	if reached < 900 || unreached == 0 {
		t.Errorf("%d reached and %d not, want many and some", reached, unreached)
	}
}

func compareTurns(t *testing.T, ctx context.Context, s score.Strip) (reached, unreached int) {
	t.Helper()
	// A turn that is blocked early may succeed later; that is another of the
	// sequences.
	var ends []score.Folding
	permutations(s.Len()-1, func(order []int) {
		var turns []score.Turn
		for _, sc := range order {
			if f, err := s.FoldBy(context.Background(), append(slices.Clone(turns), score.Turn{Score: sc})...); err == nil {
				turns = append(turns, score.Turn{Score: sc})
				if complete(f) {
					ends = append(ends, f)
					break
				}
			}
		}
	})
	all, err := s.Foldings(ctx, plenty)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range all {
		turns, err := s.TurnsTo(ctx, want)
		if slices.ContainsFunc(ends, want.Equal) {
			reached++
			got, foldErr := s.FoldBy(context.Background(), turns...)
			if err != nil || foldErr != nil || !got.Equal(want) {
				t.Errorf("%v to %v: turns %v, %v, %v", s, want.Order(), turns, err, foldErr)
			}
			continue
		}
		unreached++
		if !errors.Is(err, score.ErrNoTurns) {
			t.Errorf("%v to %v: turns %v, %v, but no sequence leads there", s, want.Order(), turns, err)
		}
	}
	return reached, unreached
}

// TestTurnsToLong: the same scores folded in another order first lead to other layers,
// and from there nowhere. What was folded turn by turn is found again.
func TestTurnsToLong(t *testing.T) {
	for _, c := range []struct {
		panels []units.Length // in millimetres
		folds  string
		scores []int
	}{
		{[]units.Length{2, 2, 2, 2, 2, 2, 2}, "VVVVMM", []int{3, 0, 1, 2}},
		{[]units.Length{1, 1, 1, 1, 2, 2}, "MMVMM", []int{1, 0, 3, 4}},
		{[]units.Length{2, 1, 1, 1, 1, 1}, "VVVMM", []int{4, 2, 3, 1, 0}},
		{[]units.Length{1, 1, 1, 1, 2, 2, 1}, "MMVVVM", []int{1, 2, 0, 5, 3, 4}},
		{[]units.Length{1, 1, 2, 1, 1, 2, 2}, "VVVMVV", []int{0, 3, 4, 5, 2, 1}},
		{[]units.Length{1, 1, 1, 1, 1, 1}, "MMMVV", []int{2, 4, 1, 0}},
	} {
		folds, err := score.ParseFolds(c.folds)
		if err != nil {
			t.Fatal(err)
		}
		panels := slices.Clone(c.panels)
		for i := range panels {
			panels[i] *= units.Millimetre
		}
		s := mustStrip(t, panels, folds...)
		var turns []score.Turn
		for _, sc := range c.scores {
			turns = append(turns, score.Turn{Score: sc})
		}
		want, err := s.FoldBy(context.Background(), turns...)
		if err != nil || !complete(want) {
			t.Fatalf("%v by %v: %v", s, c.scores, err)
		}
		found, err := s.TurnsTo(context.Background(), want)
		got, foldErr := s.FoldBy(context.Background(), found...)
		if err != nil || foldErr != nil || !got.Equal(want) {
			t.Errorf("%v by %v: turns %v, %v, %v", s, c.scores, found, err, foldErr)
		}
	}
}

// TestNoTurns: both ends of 1, 2, 2, 1, 1 can lie across each other (panel 4
// under panel 0, both between panels 1 and 3), which no single fold makes.
func TestNoTurns(t *testing.T) {
	folds, err := score.ParseFolds("MMMV")
	if err != nil {
		t.Fatal(err)
	}
	in := units.Inch
	s := mustStrip(t, []units.Length{in, 2 * in, 2 * in, in, in}, folds...)
	all, err := s.Foldings(context.Background(), plenty)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range all {
		_, err := s.TurnsTo(context.Background(), f)
		if got, want := err != nil, slices.Equal(f.Order(), []int{1, 4, 0, 3, 2}); got != want {
			t.Errorf("order %v: %v", f.Order(), err)
		}
	}
}

func complete(f score.Folding) bool {
	for i := range f.Strip().Len() - 1 {
		if f.Flat(i) {
			return false
		}
	}
	return true
}

// TestTurnsToRoll: two scores, both valleys, equal panels: which is folded
// first decides which end lies inside.
func TestTurnsToRoll(t *testing.T) {
	s := mustStrip(t, slices.Repeat([]units.Length{units.Inch}, 3), score.Valley, score.Valley)
	for _, first := range []int{0, 1} {
		f, err := s.FoldBy(context.Background(), score.Turn{Score: first}, score.Turn{Score: 1 - first})
		if err != nil {
			t.Fatal(err)
		}
		inside := 2 * first // panel 0 or panel 2
		if got := f.Order()[1]; got != inside {
			t.Errorf("score %d first: panel %d lies inside, want %d", first+1, got, inside)
		}
		turns, err := s.TurnsTo(context.Background(), f)
		if err != nil || len(turns) != 2 || turns[0].Score != first {
			t.Errorf("turns %v, %v, want score %d first", turns, err, first+1)
		}
	}
}

func TestTurnsToErrors(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	s := mustStrip(t, slices.Repeat([]units.Length{units.Inch}, 3), score.Valley, score.Valley)
	half, err := s.FoldBy(context.Background(), score.Turn{Score: 1})
	if err != nil {
		t.Fatal(err)
	}
	violation(t, second(s.TurnsTo(ctx, half)), "want", check.Conflict)
	f, err := s.Fold()
	if err != nil {
		t.Fatal(err)
	}
	violation(t, second(s.Over().TurnsTo(ctx, f)), "want", check.Conflict)
	long := mustStrip(t, slices.Repeat([]units.Length{units.Inch}, 17), score.Alternate(16, score.Valley)...)
	fan, err := long.Fold()
	if err != nil {
		t.Fatal(err)
	}
	violation(t, second(long.TurnsTo(ctx, fan)), "panels", check.TooMany)
	cancel()
	if _, err := s.TurnsTo(ctx, f); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v", err)
	}
}

func TestFoldingsErrors(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	s := mustStrip(t, slices.Repeat([]units.Length{units.Inch}, 3), score.Valley, score.Valley)
	if all, err := s.Foldings(ctx, 1); !errors.Is(err, score.ErrLimit) || len(all) != 1 {
		t.Errorf("%d, %v", len(all), err)
	}
	if n, err := s.CountFoldings(ctx, 1); !errors.Is(err, score.ErrLimit) || n != 1 {
		t.Errorf("%d, %v", n, err)
	}
	// Exactly as many as asked for is no error.
	if n, err := s.CountFoldings(ctx, 2); err != nil || n != 2 {
		t.Errorf("%d, %v", n, err)
	}
	violation(t, second(s.Foldings(ctx, 0)), "limit", check.NotPositive)
	violation(t, second(s.CountFoldings(ctx, -1)), "limit", check.NotPositive)
	long := mustStrip(t, slices.Repeat([]units.Length{units.Inch}, 65), score.Alternate(64, score.Valley)...)
	violation(t, second(long.Foldings(ctx, 1)), "panels", check.TooMany)
	cancel()
	if _, err := s.Foldings(ctx, 1); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v", err)
	}
}
