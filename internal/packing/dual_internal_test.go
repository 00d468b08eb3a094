package packing

import (
	"context"
	"testing"
)

// Superadditive and never falling: the two properties that the proof of the
// bound rests on, tried on every pair of lengths.
func TestDualFunctionsAreSuperadditive(t *testing.T) {
	for c := int64(1); c <= 40; c++ {
		var lengths []int64
		for x := int64(1); x <= c; x++ {
			lengths = append(lengths, x)
		}
		for _, f := range dualFuncs(c, lengths, 10_000) {
			if f.at(0) != 0 || f.at(c) <= 0 {
				t.Fatalf("%+v: f(0) = %d, f(c) = %d", f, f.at(0), f.at(c))
			}
			for x := int64(0); x <= c; x++ {
				for y := int64(0); x+y <= c; y++ {
					if f.at(x)+f.at(y) > f.at(x+y) {
						t.Fatalf("%+v: f(%d) + f(%d) > f(%d)", f, x, y, x+y)
					}
				}
			}
		}
	}
}

// Five pieces of 6 × 4 need three sheets of 10 × 10 as they lie, two on each: no
// two stand side by side, and no three one above the other. Turned, four would go
// round a middle of 2 × 2, so the functions may not show more than two sheets.
func TestDualBoundKnowsWhatTurns(t *testing.T) {
	for turn, want := range map[bool]int{false: 3, true: 2} {
		v := newTask(Problem{Items: []Item{{W: 6, H: 4, Copies: 5, Turn: turn}}, Stock: []Stock{{W: 10, H: 10, Count: Unlimited}}})
		if b, _, _ := v.dualBound(newMeter(context.Background(), noLimit), 5, 1_000_000); b != want {
			t.Errorf("turn %v: bound %d, want %d", turn, b, want)
		}
	}
}
