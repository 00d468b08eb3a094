package guide

import (
	"testing"

	"boardwrap.example/score"
	"boardwrap.example/units"
)

// The cut of a notch runs from one of its ends at the edge into the piece as deep as the
// notch is and back to the other, at whichever edge: square by its corners, round by a curve
// that bulges everywhere.
func TestNotchesRunFromTheirEdge(t *testing.T) {
	mm := units.Millimetre
	size := units.Size{W: 100 * mm, H: 60 * mm}
	for _, edge := range []score.Edge{score.Head, score.Right, score.Tail, score.Left} {
		for _, round := range []bool{false, true} {
			n := score.Notch{Edge: edge, Middle: 30 * mm, Width: 20 * mm, Depth: 8 * mm, Round: round}
			pts := notched(n, n.Area(size))
			// How far along the edge and from it.
			place := func(q units.Point) (along, deep units.Length) {
				switch edge {
				case score.Head:
					return q.X, q.Y
				case score.Tail:
					return q.X, size.H - q.Y
				case score.Left:
					return q.Y, q.X
				}
				return q.Y, size.W - q.X
			}
			first, at0 := place(pts[0])
			last, at1 := place(pts[len(pts)-1])
			if min(first, last) != 20*mm || max(first, last) != 40*mm || at0 != 0 || at1 != 0 {
				t.Errorf("%v, round %t: from %v to %v", edge, round, pts[0], pts[len(pts)-1])
			}
			most, turns := units.Length(0), 0
			for i, q := range pts {
				_, deep := place(q)
				most = max(most, deep)
				if i > 1 {
					turns += turn(pts[i-2], pts[i-1], q)
				}
			}
			if most != 8*mm || max(turns, -turns) != len(pts)-2 || round == (len(pts) == 4) {
				t.Errorf("%v, round %t: %d points, %v deep, %d turns", edge, round, len(pts), most, turns)
			}
		}
	}
}
