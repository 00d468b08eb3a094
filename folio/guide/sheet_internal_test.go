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

// The number of a cut stands wherever along it, in sixteenths, there is room for its ring
// and nowhere else, at either side of it; without any room it is noted.
func TestNumberWhereThereIsRoom(t *testing.T) {
	const mm = units.Millimetre
	radius := trueScale().em(900)
	for _, upright := range []bool{false, true} {
		at := func(along, away units.Length) units.Point {
			if upright {
				return units.Point{X: away, Y: along}
			}
			return units.Point{X: along, Y: away}
		}
		for share := range units.Length(17) {
			for _, side := range []units.Length{-1, 1} {
				f := newFigure(trueScale())
				f.line(outline, nothing, false, at(-40*mm, -40*mm), at(200*mm, 40*mm))
				f.lines = f.lines[:0] // room for rings all round
				gap := share * 10 * mm
				for _, taken := range []units.Rect{
					spanned(at(-40*mm, side), at(gap-radius-1, side*40*mm)), spanned(at(gap+radius+1, side), at(200*mm, side*40*mm)),
					spanned(at(-40*mm, -side), at(200*mm, -side*40*mm)),
				} {
					f.fields = append(f.fields, field{rect: taken})
				}
				f.balloons = append(f.balloons, balloon{"7", []units.Point{at(0, 0), at(160*mm, 0)}})
				f.number()
				if share == 0 || share == 16 { // at the ends of the cut
					if len(f.dots) != 0 || len(f.notes) != 1 {
						t.Errorf("upright %t: at an end of the cut: %d rings, noted %q", upright, len(f.dots), f.notes)
					}
					continue
				}
				if len(f.dots) != 1 || len(f.notes) != 0 {
					t.Errorf("upright %t, room at %d sixteenths: %d rings, noted %q", upright, share, len(f.dots), f.notes)
					continue
				}
				ring, leader := f.dots[0], f.lines[0].pts
				if away := (units.Point{X: ring.at.X - at(gap, 0).X, Y: ring.at.Y - at(gap, 0).Y}); away != at(0, side*f.pen.em(1250)) || ring.radius != radius || leader[0] != at(gap, 0) {
					t.Errorf("upright %t, room at %d sixteenths: the ring lies %v off, its leader begins at %v", upright, share, away, leader[0])
				}
			}
		}
	}
}
