package units_test

import (
	"errors"
	"math/big"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
)

func pt(x, y int64) units.Point { return units.Point{X: units.Length(x), Y: units.Length(y)} }

// cornersOn are lists of up to most corners on a grid of the given side, few of
// which make a polygon without crossings.
func cornersOn(side, most int) gopter.Gen {
	return proptest.Map(gen.SliceOf(gen.IntRange(0, side*side-1)), func(at []int) []units.Point {
		var out []units.Point
		for _, n := range at[:min(len(at), 3+len(at)%(most-2))] { // of each number of corners some
			out = append(out, pt(int64(n%side), int64(n/side)))
		}
		return out
	})
}

// crossesByRationals says in another way, with rational parameters along the
// edges, whether an outline without repeats crosses or touches itself.
func crossesByRationals(c []units.Point) bool {
	n := len(c)
	for i := range n {
		a, b := c[i], c[(i+1)%n]
		for j := range i {
			p, q := c[j], c[(j+1)%n]
			for _, at := range common(a, b, p, q) {
				// Neighbours share one corner, and only it.
				shared := j == i-1 && at.is(a) || (i+1)%n == j && at.is(b)
				if !shared {
					return true
				}
			}
		}
	}
	return false
}

type ratPoint struct{ x, y *big.Rat }

func (r ratPoint) is(p units.Point) bool {
	return r.x.Cmp(rat(p.X)) == 0 && r.y.Cmp(rat(p.Y)) == 0
}

func rat(l units.Length) *big.Rat { return new(big.Rat).SetInt64(int64(l)) }

// common returns points that show whether two segments meet, and where: their
// crossing, or the ends of one that lie on the other.
func common(a, b, p, q units.Point) []ratPoint {
	d1x, d1y := int64(b.X-a.X), int64(b.Y-a.Y)
	d2x, d2y := int64(q.X-p.X), int64(q.Y-p.Y)
	det := d1x*d2y - d1y*d2x
	if det != 0 {
		ex, ey := int64(p.X-a.X), int64(p.Y-a.Y)
		t, u := big.NewRat(ex*d2y-ey*d2x, det), big.NewRat(ex*d1y-ey*d1x, det)
		zero, one := new(big.Rat), big.NewRat(1, 1)
		if t.Cmp(zero) < 0 || t.Cmp(one) > 0 || u.Cmp(zero) < 0 || u.Cmp(one) > 0 {
			return nil
		}
		x := new(big.Rat).Mul(t, big.NewRat(d1x, 1))
		y := new(big.Rat).Mul(t, big.NewRat(d1y, 1))
		return []ratPoint{{x.Add(x, rat(a.X)), y.Add(y, rat(a.Y))}}
	}
	var out []ratPoint
	on := func(v, s, e units.Point) bool {
		cross := int64(e.X-s.X)*int64(v.Y-s.Y) - int64(e.Y-s.Y)*int64(v.X-s.X)
		return cross == 0 && min(s.X, e.X) <= v.X && v.X <= max(s.X, e.X) && min(s.Y, e.Y) <= v.Y && v.Y <= max(s.Y, e.Y)
	}
	for _, v := range []units.Point{a, b} {
		if on(v, p, q) {
			out = append(out, ratPoint{rat(v.X), rat(v.Y)})
		}
	}
	for _, v := range []units.Point{p, q} {
		if on(v, a, b) {
			out = append(out, ratPoint{rat(v.X), rat(v.Y)})
		}
	}
	return out
}

// bare leaves out repeated corners and those on the way straight on.
func bare(c []units.Point) []units.Point {
	for i := 0; i < len(c) && len(c) > 1; {
		a, b, d := c[(i+len(c)-1)%len(c)], c[i], c[(i+1)%len(c)]
		cross := (b.X-a.X)*(d.Y-b.Y) - (b.Y-a.Y)*(d.X-b.X)
		along := (b.X-a.X)*(d.X-b.X) + (b.Y-a.Y)*(d.Y-b.Y)
		if a == b || cross == 0 && along > 0 {
			c = slices.Delete(slices.Clone(c), i, i+1)
			i = 0
			continue
		}
		i++
	}
	return c
}

// winds says whether a point lies inside or on an outline by counting how often
// the corners, seen from it, go round: by eighths of a turn, in integers.
func winds(c []units.Point, q units.Point) bool {
	turns := 0
	octant := func(p units.Point) int {
		x, y := p.X-q.X, p.Y-q.Y
		switch {
		case x > 0 && y == 0:
			return 0
		case x > 0 && y > 0:
			return 1
		case x == 0 && y > 0:
			return 2
		case x < 0 && y > 0:
			return 3
		case x < 0 && y == 0:
			return 4
		case x < 0 && y < 0:
			return 5
		case x == 0 && y < 0:
			return 6
		}
		return 7
	}
	for i, a := range c {
		b := c[(i+1)%len(c)]
		cross := (a.X-q.X)*(b.Y-q.Y) - (a.Y-q.Y)*(b.X-q.X)
		dot := (a.X-q.X)*(b.X-q.X) + (a.Y-q.Y)*(b.Y-q.Y)
		if cross == 0 && dot <= 0 {
			return true // on the edge
		}
		step := (octant(b) - octant(a) + 8) % 8 // forwards, less than half a turn if cross > 0
		if cross < 0 && step > 0 {
			step -= 8
		}
		turns += step
	}
	return turns != 0
}

// TestPolygonsByCounting: what is a polygon and what is not, compared with a
// search for crossings in rationals; its area compared with Pick's theorem
// (twice the area is twice the grid points inside, plus those on the edge, less
// 2), with inside and edge told by winding numbers and common divisors.
func TestPolygonsByCounting(t *testing.T) {
	const side = 6
	sound := 0
	proptest.Run(t, 20000, func(p *gopter.Properties) {
		p.Property("a polygon is what neither crosses nor touches itself, and its area is Pick's", prop.ForAll(func(c []units.Point) string {
			poly, err := units.NewPolygon(slices.Clone(c)...)
			corners := bare(c)
			if len(corners) < 3 || crossesByRationals(corners) {
				if err == nil {
					return "taken"
				}
				return ""
			}
			if err != nil {
				return err.Error()
			}
			sound++
			inside, edge := int64(0), int64(0)
			for a, b := range poly.Edges() {
				g := new(big.Int).GCD(nil, nil, big.NewInt(int64((b.X - a.X).Abs())), big.NewInt(int64((b.Y - a.Y).Abs())))
				edge += g.Int64()
			}
			for x := range int64(side) {
				for y := range int64(side) {
					if winds(corners, pt(x, y)) != poly.Contains(pt(x, y)) {
						return "contains " + pt(x, y).String() + " wrongly"
					}
					if poly.Contains(pt(x, y)) {
						inside++
					}
				}
			}
			inside -= edge
			if got, want := bigArea(t, poly.DoubleArea()), big.NewInt(2*inside+edge-2); got.Cmp(want) != 0 {
				return "twice the area is " + got.String() + ", by Pick's theorem " + want.String()
			}
			if slices.MinFunc(corners, func(a, b units.Point) int {
				if a.Y != b.Y {
					return int(a.Y - b.Y)
				}
				return int(a.X - b.X)
			}) != slices.Collect(seconds(poly))[0] {
				return "does not begin at the topmost corner"
			}
			return ""
		}, cornersOn(side, 7)))
	})
	if sound < proptest.Cases(500) {
		t.Errorf("only %d polygons among the corners", sound)
	}
}

func seconds(p units.Polygon) func(func(units.Point) bool) {
	return func(yield func(units.Point) bool) {
		for _, c := range p.Corners() {
			if !yield(c) {
				return
			}
		}
	}
}

// TestOnePolygonOneList: from any corner, in either sense, with corners said
// twice or lying on the way, the polygon is the same.
func TestOnePolygonOneList(t *testing.T) {
	proptest.Run(t, 5000, func(p *gopter.Properties) {
		p.Property("the same outline is the same polygon", prop.ForAll(func(c []units.Point, turn, at int) string {
			for i := range c { // room for middles
				c[i] = pt(2*int64(c[i].X), 2*int64(c[i].Y))
			}
			want, err := units.NewPolygon(c...)
			if err != nil {
				return ""
			}
			other := slices.Clone(c)
			k := at % len(other)
			next := other[(k+1)%len(other)]
			middle := pt(int64(other[k].X+next.X)/2, int64(other[k].Y+next.Y)/2)
			other = slices.Insert(other, k+1, middle, middle)
			k = turn % len(other)
			other = append(slices.Clone(other[k:]), other[:k]...)
			if turn%2 == 0 {
				slices.Reverse(other)
			}
			got, err := units.NewPolygon(other...)
			if err != nil || !cmp.Equal(got, want) {
				return got.String() + " and " + want.String()
			}
			return ""
		}, cornersOn(6, 6), gen.IntRange(0, 100), gen.IntRange(0, 100)))
	})
}

// clipped returns the area of a polygon inside a rectangle, cut edge by edge
// with rationals (Sutherland and Hodgman, "Reentrant polygon clipping", CACM 17,
// 1974; the edges that it doubles have no area).
func clipped(c []ratPoint, r units.Rect) *big.Rat {
	sides := []struct {
		x    bool
		at   units.Length
		sign int
	}{{true, r.Min.X, 1}, {true, r.Max.X, -1}, {false, r.Min.Y, 1}, {false, r.Max.Y, -1}}
	for _, s := range sides {
		off := func(p ratPoint) *big.Rat {
			v := p.y
			if s.x {
				v = p.x
			}
			d := new(big.Rat).Sub(v, rat(s.at))
			return d.Mul(d, big.NewRat(int64(s.sign), 1))
		}
		var out []ratPoint
		for i, a := range c {
			b := c[(i+1)%len(c)]
			da, db := off(a), off(b)
			if da.Sign() >= 0 {
				out = append(out, a)
			}
			if da.Sign()*db.Sign() < 0 {
				f := new(big.Rat).Quo(da, new(big.Rat).Sub(da, db))
				mix := func(u, v *big.Rat) *big.Rat {
					w := new(big.Rat).Sub(v, u)
					return w.Add(w.Mul(w, f), u)
				}
				out = append(out, ratPoint{mix(a.x, b.x), mix(a.y, b.y)})
			}
		}
		c = out
	}
	sum := new(big.Rat)
	for i, a := range c {
		b := c[(i+1)%len(c)]
		sum.Add(sum, new(big.Rat).Sub(new(big.Rat).Mul(a.x, b.y), new(big.Rat).Mul(b.x, a.y)))
	}
	return sum.Quo(sum, big.NewRat(2, 1))
}

func TestContainsRectByClipping(t *testing.T) {
	inside := 0
	proptest.Run(t, 6000, func(p *gopter.Properties) {
		p.Property("a rectangle lies inside if clipping leaves all of it", prop.ForAll(func(c []units.Point, x, y, w, h int) string {
			poly, err := units.NewPolygon(c...)
			if err != nil {
				return ""
			}
			r := units.RectAt(pt(int64(x), int64(y)), units.Size{W: units.Length(w), H: units.Length(h)})
			var corners []ratPoint
			for c := range seconds(poly) {
				corners = append(corners, ratPoint{rat(c.X), rat(c.Y)})
			}
			want := clipped(corners, r).Cmp(big.NewRat(int64(w*h), 1)) == 0
			if want {
				inside++
			}
			if got := poly.ContainsRect(r); got != want {
				return poly.String()
			}
			return ""
		}, cornersOn(7, 6), gen.IntRange(1, 4), gen.IntRange(1, 4), gen.IntRange(1, 2), gen.IntRange(1, 2)))
	})
	if inside < proptest.Cases(50) {
		t.Errorf("only %d rectangles inside", inside)
	}
}

// TestPolygonsMove: a polygon turned over, round or moved holds the points that
// are moved along, and keeps its area; turned back it is what it was.
func TestPolygonsMove(t *testing.T) {
	const side = 6
	proptest.Run(t, 2000, func(p *gopter.Properties) {
		p.Property("points move along", prop.ForAll(func(c []units.Point) string {
			poly, err := units.NewPolygon(c...)
			if err != nil {
				return ""
			}
			const s = side - 1
			for name, m := range map[string]struct {
				poly, back units.Polygon
				to         func(x, y int64) units.Point
			}{
				"moved":    {poly.Moved(pt(3, -4)), poly.Moved(pt(3, -4)).Moved(pt(-3, 4)), func(x, y int64) units.Point { return pt(x+3, y-4) }},
				"mirrored": {poly.Mirrored(s), poly.Mirrored(s).Mirrored(s), func(x, y int64) units.Point { return pt(s-x, y) }},
				"flipped":  {poly.Flipped(s), poly.Flipped(s).Flipped(s), func(x, y int64) units.Point { return pt(x, s-y) }},
				"turned":   {poly.Turned(s), poly.Turned(s).Turned(s).Turned(s).Turned(s), func(x, y int64) units.Point { return pt(s-y, x) }},
			} {
				if !m.back.Equal(poly) || m.poly.DoubleArea() != poly.DoubleArea() {
					return name + " and back"
				}
				again, err := units.NewPolygon(slices.Collect(seconds(m.poly))...)
				if err != nil || !again.Equal(m.poly) {
					return name + " is written in another way than it should"
				}
				for x := range int64(side) {
					for y := range int64(side) {
						if m.poly.Contains(m.to(x, y)) != poly.Contains(pt(x, y)) {
							return name
						}
					}
				}
			}
			return ""
		}, cornersOn(side, 6)))
	})
}

func TestPolygonErrors(t *testing.T) {
	const far = units.Farthest
	for name, c := range map[string]struct {
		corners []units.Point
		want    error
	}{
		"none":           {nil, units.ErrCorners},
		"two":            {[]units.Point{pt(0, 0), pt(5, 0), pt(0, 0)}, units.ErrCorners},
		"one, repeated":  {slices.Repeat([]units.Point{pt(1, 1)}, 9), units.ErrCorners},
		"too many":       {make([]units.Point, units.MaxCorners+1), units.ErrCorners},
		"on one line":    {[]units.Point{pt(0, 0), pt(5, 5), pt(2, 2)}, units.ErrFlat},
		"to and fro":     {[]units.Point{pt(0, 0), pt(5, 0), pt(2, 0), pt(7, 0), pt(1, 0)}, units.ErrFlat},
		"a bow":          {[]units.Point{pt(0, 0), pt(5, 5), pt(5, 0), pt(0, 5)}, units.ErrCrossing},
		"a star":         {[]units.Point{pt(0, 2), pt(5, 2), pt(1, 5), pt(3, 0), pt(4, 5)}, units.ErrCrossing}, // turns one way, twice round
		"round twice":    {[]units.Point{pt(0, 0), pt(5, 0), pt(0, 5), pt(0, 0), pt(5, 0), pt(0, 5)}, units.ErrCrossing},
		"a spike":        {[]units.Point{pt(0, 0), pt(5, 0), pt(5, 5), pt(5, 0), pt(0, 5)}, units.ErrCrossing},
		"a touch":        {[]units.Point{pt(0, 0), pt(4, 0), pt(4, 4), pt(2, 0), pt(0, 4)}, units.ErrCrossing},
		"far out":        {[]units.Point{pt(0, 0), {X: far + 1}, pt(5, 5)}, units.ErrRange},
		"the lowest int": {[]units.Point{pt(0, 0), {Y: -1 << 63}, pt(5, 5)}, units.ErrRange},
	} {
		if p, err := units.NewPolygon(c.corners...); !errors.Is(err, c.want) || !p.Empty() {
			t.Errorf("%s: %v, %v; want %v", name, p, err, c.want)
		}
	}
	// The largest there is.
	p, err := units.NewPolygon(units.Point{X: -far, Y: -far}, units.Point{X: far, Y: -far}, units.Point{X: far, Y: far}, units.Point{X: -far, Y: far})
	if r, ok := p.Rect(); err != nil || !ok || p.Area(units.Down) != (2*far).By(2*far) || r.Polygon().DoubleArea() != p.DoubleArea() || p.Perimeter(units.Down) != 16*far/2 {
		t.Errorf("%v, %v", p, err)
	}
	if p := (units.Rect{Max: units.Point{X: far + 1, Y: 1}}).Polygon(); !p.Empty() {
		t.Errorf("%v", p)
	}
}

func TestPolygonOfALeafWithASlant(t *testing.T) {
	mm := units.Millimetre
	// 90 x 55 mm less a triangle of 20 x 10 mm: 4950 − 100 mm².
	p, err := units.NewPolygon(units.Point{}, units.Point{X: 70 * mm}, units.Point{X: 90 * mm, Y: 10 * mm}, units.Point{X: 90 * mm, Y: 55 * mm}, units.Point{Y: 55 * mm})
	if err != nil || p.Area(units.Nearest).String() != "4850 mm²" || p.Len() != 5 {
		t.Errorf("%v %v, %v", p, p.Area(units.Nearest), err)
	}
	if want := "(0, 0) (70, 0) (90, 10) (90, 55) (0, 55) mm"; p.String() != want {
		t.Errorf("%v; want %s", p, want)
	}
	if want := "(20, 0) (90, 0) (90, 55) (0, 55) (0, 10) mm"; p.Mirrored(90*mm).String() != want {
		t.Errorf("mirrored %v; want %s", p.Mirrored(90*mm), want)
	}
	if p.Bounds() != units.RectAt(units.Point{}, units.Size{W: 90 * mm, H: 55 * mm}) {
		t.Error(p.Bounds())
	}
	if _, is := p.Rect(); is || p.Contains(units.Point{X: 81 * mm, Y: 5 * mm}) || !p.Contains(units.Point{X: 80 * mm, Y: 5 * mm}) {
		t.Error("the slant is not cut")
	}
	var none units.Polygon
	if none.String() != "no outline" || none.Contains(units.Point{}) || none.ContainsRect(p.Bounds()) || !none.ContainsRect(units.Rect{}) || !none.Bounds().Empty() || none.Len() != 0 || !none.Mirrored(mm).Empty() {
		t.Errorf("the zero Polygon: %v", none)
	}
	half, err := units.NewPolygon(pt(0, 0), pt(1, 0), pt(0, 1))
	if err != nil || half.Area(units.Up) != units.Nanometre.By(1) || half.Area(units.Down) != (units.Area{}) || half.Area(units.Nearest) != units.Nanometre.By(1) {
		t.Errorf("half a square nanometre: %v, %v", half.Area(units.Up), half.Area(units.Down))
	}
}

func TestAreaScale(t *testing.T) {
	lengths := []int64{0, 1, -1, 7, -1 << 63, 1<<63 - 1, 25400000, -3, 1 << 40}
	for _, a := range lengths {
		for _, b := range lengths {
			area := units.Length(a).By(units.Length(b))
			for _, num := range lengths {
				for _, den := range lengths {
					for _, d := range []units.Direction{units.Nearest, units.Up, units.Down} {
						got, exact := area.Scale(num, den, d)
						n := new(big.Int).Mul(new(big.Int).Mul(big.NewInt(a), big.NewInt(b)), big.NewInt(num))
						want, wantExact := rounded(n, big.NewInt(den), d)
						if bigArea(t, got).Cmp(want) != 0 || exact != wantExact {
							t.Fatalf("%d·%d·%d/%d, %v: %v, %t; want %v, %t", a, b, num, den, d, bigArea(t, got), exact, want, wantExact)
						}
					}
				}
			}
		}
	}
}

// rounded returns n/den in a direction, 0 and false where it does not fit an
// area.
func rounded(n, den *big.Int, d units.Direction) (*big.Int, bool) {
	if den.Sign() == 0 {
		return new(big.Int), false
	}
	floor, rem := new(big.Int), new(big.Int)
	floor.DivMod(new(big.Int).Mul(n, big.NewInt(int64(den.Sign()))), new(big.Int).Abs(den), rem)
	exact := rem.Sign() == 0
	if !exact {
		twice := new(big.Int).Lsh(rem, 1)
		c := twice.Cmp(new(big.Int).Abs(den))
		if d == units.Up || d == units.Nearest && (c > 0 || c == 0 && floor.Sign() >= 0) {
			floor.Add(floor, big.NewInt(1))
		}
	}
	if floor.BitLen() > 127 {
		return new(big.Int), false
	}
	return floor, exact
}

func FuzzPolygon(f *testing.F) {
	f.Add([]byte{0, 0, 9, 0, 9, 9, 0, 9})
	f.Add([]byte{0, 0, 255, 1, 3, 3, 200, 100, 7, 7})
	f.Fuzz(func(t *testing.T, data []byte) {
		var c []units.Point
		for i := 0; i+1 < len(data) && len(c) < 300; i += 2 {
			c = append(c, pt(int64(int8(data[i])), int64(int8(data[i+1]))))
		}
		p, err := units.NewPolygon(c...)
		if (err == nil) != (!p.Empty() && p.DoubleArea().Sign() > 0) {
			t.Fatalf("%v, %v", p, err)
		}
		for c := range seconds(p) {
			if !p.Contains(c) {
				t.Fatalf("a corner lies outside: %v", c)
			}
		}
		if again, err2 := units.NewPolygon(slices.Collect(seconds(p))...); err == nil && (err2 != nil || !again.Equal(p)) {
			t.Fatalf("%v made again: %v, %v", p, again, err2)
		}
	})
}

// A polygon has up to so many corners: along a parabola none lies on a line with its
// neighbours. With one more, and with ten times as many, it is refused.
func TestMostCorners(t *testing.T) {
	for n, ok := range map[int]bool{units.MaxCorners: true, units.MaxCorners + 1: false, 10 * units.MaxCorners: false} {
		var bow []units.Point
		for i := range int64(n) {
			bow = append(bow, pt(i, i*i))
		}
		p, err := units.NewPolygon(bow...)
		if ok && (err != nil || p.Len() != n) || !ok && (!errors.Is(err, units.ErrCorners) || !p.Empty()) {
			t.Errorf("%d corners: %d, %v", n, p.Len(), err)
		}
	}
}

func BenchmarkNewPolygon(b *testing.B) {
	var comb []units.Point // the worst: long teeth, all of them side by side
	for i := range int64(units.MaxCorners / 4) {
		comb = append(comb, pt(0, 4*i), pt(1e9, 4*i), pt(1e9, 4*i+1), pt(1, 4*i+1))
	}
	comb = append(comb[:len(comb)-1], pt(-5, comb2(comb)), pt(-5, 0))
	for b.Loop() {
		if _, err := units.NewPolygon(comb[:units.MaxCorners]...); err != nil && !errors.Is(err, units.ErrCrossing) {
			b.Fatal(err)
		}
	}
}

func comb2(c []units.Point) int64 { return int64(c[len(c)-1].Y) + 1 }
