package folio

import (
	"testing"

	"boardwrap.example/units"
)

// offRuler are lengths that no third and no part of a circle divides.
var offRuler = []units.Length{4, 5, 7, 8, 101, 7907, 104_729, 1_299_709, 15_485_863, 86_028_121}

// What is high above a soft joint counts as at least a third of its height away from it:
// a nanometre less, and it may touch what nobody is told of; no nanometre more is needed.
func TestHighThingsCountAsAThird(t *testing.T) {
	for _, high := range offRuler {
		for _, out := range []units.Length{0, high / 3, high} {
			g := passing{q: out, a: high, arm: arm{twice: true}}
			got := g.about()
			if 3*got < high || got < out || got > out && 3*(got-1) >= high {
				t.Errorf("%d out and %d high: it counts as %d out", out, high, got)
			}
		}
	}
}

// What is left to turn in, where a row came out longer or shorter, is what the margin is
// less half of that, never more: twice what is left and what the row is longer go into two
// margins.
func TestTurnedInIsNeverOverstated(t *testing.T) {
	for i := range 2 * len(offRuler) {
		more := offRuler[i/2]
		if i%2 > 0 {
			more = -more
		}
		margin := units.Sum("margin", units.MetricDecimal.Exact(), units.Up, units.T("margin", 100_000_007))
		l := lap{axis: &Extent{near: &margin, far: &margin}, more: more}
		if left := 2*margin.Length() - more - 2*l.turned(); left < 0 || left > 1 {
			t.Errorf("a row longer by %d: %d are turned in of %d", more, l.turned(), margin.Length())
		}
	}
}
