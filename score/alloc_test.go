package score_test

import (
	"slices"
	"testing"

	"boardwrap.example/score"
	"boardwrap.example/units"
)

// TestAllocs: the decision takes one allocation whatever the length of the
// strip, and a witness a fixed number.
func TestAllocs(t *testing.T) {
	for _, n := range []int{10, 1000} {
		s := mustStrip(t, slices.Repeat([]units.Length{mm}, n), score.Alternate(n-1, score.Valley)...)
		if got := testing.AllocsPerRun(10, func() { s.FoldsFlat() }); got > 1 {
			t.Errorf("%d panels: FoldsFlat allocates %v times", n, got)
		}
		if got := testing.AllocsPerRun(10, func() {
			if _, err := s.Fold(); err != nil {
				t.Fatal(err)
			}
		}); got > 6 {
			t.Errorf("%d panels: Fold allocates %v times", n, got)
		}
	}
}
