package guide

import (
	"fmt"
	"slices"
	"testing"

	"boardwrap.example/units"
)

// Each cut has its number once: in a ring with a leader that runs square from the cut to
// the ring, over nothing that is drawn, or, where there is no room for one, among what
// could not be named.
func TestEachCutHasItsNumber(t *testing.T) {
	mm := units.Millimetre
	ringed, noted := 0, 0
	for _, apart := range []units.Length{mm / 2, 3 * mm, 9 * mm, 30 * mm} {
		for _, upright := range []bool{false, true} {
			f := newFigure(trueScale())
			f.rect(outline, nothing, units.Rect{Max: units.Point{X: 120 * mm, Y: 120 * mm}})
			cuts := map[string][2]units.Point{}
			for i := 1; units.Length(i)*apart < 120*mm; i++ {
				at := units.Length(i-1)*apart + min(apart, 4*mm) // with no room before the first
				from, to := units.Point{Y: at}, units.Point{X: 120 * mm, Y: at}
				if upright {
					from, to = units.Point{X: at}, units.Point{X: at, Y: 120 * mm}
				}
				f.line(knife, nothing, false, from, to)
				f.balloons = append(f.balloons, balloon{fmt.Sprint(i), []units.Point{from, to}})
				cuts["cut "+fmt.Sprint(i)] = [2]units.Point{from, to}
			}
			all, first := f.all, len(f.lines)
			f.number()
			for i, x := range f.texts {
				ring, leader, cut := f.dots[i], f.lines[first+i].pts, cuts["cut "+x.s]
				delete(cuts, "cut "+x.s)
				ringed++
				round := grown(units.Rect{Min: ring.at, Max: ring.at}, ring.radius)
				if !ring.open || !x.box(f.pen).In(round) || !round.In(all) {
					t.Errorf("%s does not lie in its ring: %+v", x.s, ring)
				}
				off, along := (leader[1].Y - leader[0].Y).Abs(), leader[0].X == leader[1].X && leader[1].X == ring.at.X
				far := (leader[0].Y - ring.at.Y).Abs()
				if upright {
					off, along = (leader[1].X - leader[0].X).Abs(), leader[0].Y == leader[1].Y && leader[1].Y == ring.at.Y
					far = (leader[0].X - ring.at.X).Abs()
				}
				if on := boundsOf(cut[:]); !along || off == 0 || off+ring.radius != far || !touches(on, units.Rect{Min: leader[0], Max: leader[0]}) {
					t.Errorf("the leader of %s runs from %v to %v, its ring is %+v and its cut %v", x.s, leader[0], leader[1], ring, cut)
				}
				for _, l := range f.lines[:first] {
					if !l.segments(func(a, b units.Point) bool { return !crosses(a, b, round) }) {
						t.Errorf("the ring of %s lies over a line", x.s)
					}
				}
			}
			for _, n := range f.notes {
				if _, ok := cuts[n]; !ok {
					t.Errorf("%q is noted of a cut that has a ring, or of none", n)
				}
				delete(cuts, n)
				noted++
			}
			if len(cuts) > 0 || len(slices.Compact(slices.Sorted(slices.Values(f.notes)))) != len(f.notes) {
				t.Errorf("%d cuts have no number, noted are %q", len(cuts), f.notes)
			}
		}
	}
	if ringed < 20 || noted < 20 {
		t.Errorf("lopsided: %d in rings, %d noted", ringed, noted)
	}
}
