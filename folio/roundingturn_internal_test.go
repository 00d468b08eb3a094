package folio

import (
	"math/big"
	"testing"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
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

// A covering that bends in a half circle is as long as the half of its circumference, so
// that it reaches beyond the boards by its length over π: no nanometre less, or a board
// inside is put where the covering is, and no more than it takes.
func TestHalfCirclesReachBeyond(t *testing.T) {
	pi, _ := new(big.Float).SetPrec(200).SetString("3.14159265358979323846264338327950288419716939937510582097494459")
	row := &shape{Boards: []boards.Board{{Role: boards.LeftCover}, {Role: boards.RightCover}}, usual: &rule.Hinge{Crease: rule.CreaseRound}}
	for _, gap := range append([]units.Length{314_159_265, 22, 355}, offRuler...) {
		z := sizing{row: row, f: &folding{n: 2, board: [boards.MaxBoards]int8{0, 1}}}
		z.gap[0] = gap
		for side := range 2 {
			got := z.beyond(0, side)
			around := func(l units.Length) *big.Float { return new(big.Float).Mul(pi, big.NewFloat(float64(l))) }
			if long := big.NewFloat(float64(gap)); around(got).Cmp(long) < 0 || around(got-1).Cmp(long) >= 0 {
				t.Errorf("a half circle of %d on side %d reaches %d beyond the board", gap, side, got)
			}
		}
	}
}

// Past what lies inside, such a covering reaches only if it is π times as long as that, and
// no nanometre less.
func TestHalfCirclesReachPastWhatLiesInside(t *testing.T) {
	pi, _ := new(big.Float).SetPrec(200).SetString("3.14159265358979323846264338327950288419716939937510582097494459")
	for _, past := range offRuler[4:] {
		spec := Spec{}
		b := &builder{spec: &spec, plan: &Plan{shape: shape{Boards: []boards.Board{{Role: boards.LeftCover}, {Role: boards.RightCover}}, usual: &rule.Hinge{Crease: rule.CreaseRound}}}}
		z := sizing{s: &spec, row: &b.plan.shape, f: &folding{n: 2, board: [boards.MaxBoards]int8{0, 1}}}
		z.out[0] = [2]units.Length{past, past / 2}
		long := new(big.Float).Mul(pi, big.NewFloat(float64(past)))
		if got := b.roundAt(&z, 0); big.NewFloat(float64(got)).Cmp(long) < 0 || big.NewFloat(float64(got-1)).Cmp(long) >= 0 {
			t.Errorf("to reach %d beyond the board a covering is %d long", past, got)
		}
	}
}
