package guide

import (
	"math/big"
	"math/rand"
	"testing"

	"boardwrap.example/units"
)

// Where two lines cross, the one has gone the share of its way that the distances of its
// ends from the other say, in whole fractions: told to the nanometre on ways of a metre.
func TestWhereLinesCross(t *testing.T) {
	rnd := rand.New(rand.NewSource(16))
	any := func() units.Length {
		if rnd.Intn(2) == 0 { // some are alike
			return units.Length(rnd.Intn(4)) * units.Millimetre
		}
		return units.Length(rnd.Int63n(3)) * units.Length(rnd.Int63n(units.Metre.Nanometres()/2))
	}
	for range 2000 {
		a, b, c, d := units.Point{X: any(), Y: any()}, units.Point{X: any(), Y: any()}, units.Point{X: any(), Y: any()}, units.Point{X: any(), Y: any()}
		far := func(q units.Point) *big.Int { // from the line through c and d, times its length
			x := new(big.Int).Mul(big.NewInt((d.X - c.X).Nanometres()), big.NewInt((q.Y - c.Y).Nanometres()))
			return x.Sub(x, new(big.Int).Mul(big.NewInt((d.Y-c.Y).Nanometres()), big.NewInt((q.X-c.X).Nanometres())))
		}
		from, to := far(a), far(b)
		if from.Sign()*to.Sign() >= 0 { // they do not cross between a and b
			continue
		}
		share := new(big.Rat).SetFrac(from, new(big.Int).Sub(from, to))
		got := crossing(a, b, c, d)
		for _, x := range [...][3]units.Length{{a.X, b.X, got.X}, {a.Y, b.Y, got.Y}} {
			want := new(big.Rat).Mul(share, big.NewRat((x[1]-x[0]).Nanometres(), 1))
			want.Add(want, big.NewRat(x[0].Nanometres(), 1))
			if off := want.Sub(want, big.NewRat(x[2].Nanometres(), 1)); off.Abs(off).Cmp(big.NewRat(2, 1)) > 0 {
				t.Errorf("%v to %v and %v to %v cross at %v, %s nm off", a, b, c, d, got, off.FloatString(0))
			}
		}
	}
}

// Where an edge lies within what lies over it, and behind none of its holes, it is
// drawn as hidden, or not at all where that is asked for; everywhere else as it is,
// and all of it once. Whether a place is hidden is told here by the sides of convex
// outlines that it lies on, a quarter of a step from every place where that changes.
func TestHiddenWhereCovered(t *testing.T) {
	rnd := rand.New(rand.NewSource(15))
	at := func(x, y int) units.Point { return units.Point{X: units.Length(x * 1000), Y: units.Length(y * 1000)} }
	shapes := func() []units.Point {
		x, y, w, h := rnd.Intn(8), rnd.Intn(8), 2+rnd.Intn(7), 2+rnd.Intn(7)
		switch rnd.Intn(3) {
		case 0: // stands on a corner
			return []units.Point{at(x+w, y), at(x+2*w, y+w), at(x+w, y+2*w), at(x, y+w)}
		case 1: // has a slant
			return []units.Point{at(x, y), at(x+w, y), at(x+w+h, y+h), at(x, y+h)}
		}
		return []units.Point{at(x, y), at(x+w, y), at(x+w, y+h), at(x, y+h)}
	}
	within := func(pts []units.Point, q units.Point, edgeToo bool) bool {
		for i, a := range pts {
			b := pts[(i+1)%len(pts)]
			side := (b.X-a.X).Nanometres()*(q.Y-a.Y).Nanometres() - (b.Y-a.Y).Nanometres()*(q.X-a.X).Nanometres()
			if side < 0 || side == 0 && !edgeToo {
				return false
			}
		}
		return true
	}
	seen, behind := 0, 0
	for range 60 {
		var list []sheetlet
		for i := range 2 + rnd.Intn(4) {
			s := sheetlet{of: ofPiece(i), kind: outline, pts: shapes(), under: rnd.Intn(6) == 0, quiet: rnd.Intn(4) == 0}
			if lo, hi := boundsOf(s.pts).Min, boundsOf(s.pts).Max; rnd.Intn(2) == 0 && hi.X-lo.X > 3000 && hi.Y-lo.Y > 3000 {
				s.holes = [][]units.Point{corners(units.Rect{Min: lo.Plus(at(1, 1)), Max: lo.Plus(at(3, 3))})}
			}
			list = append(list, s)
		}
		f := newFigure(trueScale())
		f.stack(list)
		for i, s := range list {
			for _, way := range append([][]units.Point{s.pts}, s.holes...) {
				for k, a := range way {
					b := way[(k+1)%len(way)]
					steps := max((b.X-a.X).Abs(), (b.Y-a.Y).Abs()).Nanometres() / 500
					for step := range steps {
						q := a
						x, _ := (b.X - a.X).Scale(2*step+1, 2*steps, units.Nearest)
						y, _ := (b.Y - a.Y).Scale(2*step+1, 2*steps, units.Nearest)
						q.X, q.Y = q.X+x, q.Y+y
						want := outline
						for _, over := range list[i+1:] {
							if !over.under && within(over.pts, q, false) && (len(over.holes) == 0 || !within(over.holes[0], q, true)) {
								if want = hidden; s.quiet {
									want = absent
								}
							}
						}
						if got := kindsAt(f, i, q); want == absent && len(got) > 0 || want != absent && (len(got) != 1 || got[0] != want) {
							t.Fatalf("sheet %d of %+v is drawn as %v at %v; want %v", i, list, got, q, want)
						}
						if want == outline {
							seen++
						} else {
							behind++
						}
					}
				}
			}
		}
	}
	if seen < 2000 || behind < 500 {
		t.Errorf("lopsided: %d places are seen, %d hidden", seen, behind)
	}
}

// kindsAt lists how a piece's edge is drawn at a place.
func kindsAt(f *figure, piece int, q units.Point) (kinds []lineKind) {
	for i := range f.lines {
		l := &f.lines[i]
		l.segments(func(a, b units.Point) bool {
			on := (b.X-a.X).Nanometres()*(q.Y-a.Y).Nanometres() == (b.Y-a.Y).Nanometres()*(q.X-a.X).Nanometres()
			if on && l.of.piece == piece && q.X >= min(a.X, b.X) && q.X <= max(a.X, b.X) && q.Y >= min(a.Y, b.Y) && q.Y <= max(a.Y, b.Y) {
				kinds = append(kinds, l.kind)
			}
			return true
		})
	}
	return kinds
}
