package units

import (
	"cmp"
	"errors"
	"iter"
	"slices"

	"boardwrap.example/internal/inorder"
)

// A Polygon is the outline of a piece of one part: corners joined by straight
// edges that neither cross nor touch. It keeps its corners in one way only,
// clockwise as the piece lies before the maker, from the topmost on (the
// leftmost of those), without corners on a straight edge, so that equal
// outlines are equal lists. Polygons cannot be changed; the zero Polygon has no
// corners and no area.
type Polygon struct{ corners []Point }

// Limits of a polygon.
const (
	// MaxCorners is how many corners a polygon may have.
	MaxCorners = 10_000
	// Farthest is how far from 0 the coordinates of its corners may lie.
	Farthest = 1000 * 1000 * Metre
)

// Errors of [NewPolygon], beside [ErrRange] for a corner beyond [Farthest].
var (
	// ErrCorners is returned for fewer than three corners that differ, or
	// more than [MaxCorners].
	ErrCorners = errors.New("units: an outline has 3 to 10,000 corners")
	// ErrCrossing is returned for edges that cross, touch or run back on
	// themselves.
	ErrCrossing = errors.New("units: the outline crosses or touches itself")
	// ErrFlat is returned where all corners lie on one line.
	ErrFlat = errors.New("units: the outline has no area")
)

// NewPolygon returns the polygon with the given corners, in either sense and
// from any corner on; the last is joined to the first. Corners said twice in
// succession or lying on a straight edge are left out. It takes time in
// proportion to the square of the corners at worst: a quarter of a second for the most there may be.
func NewPolygon(corners ...Point) (Polygon, error) {
	if len(corners) > MaxCorners {
		return Polygon{}, ErrCorners
	}
	for _, c := range corners {
		if max(c.X.Abs(), c.Y.Abs()) > Farthest {
			return Polygon{}, ErrRange
		}
	}
	corners = withoutRepeats(corners)
	if len(corners) < 3 {
		return Polygon{}, ErrCorners
	}
	corners = withoutStraights(corners)
	if len(corners) < 3 {
		return Polygon{}, ErrFlat
	}
	if !convex(corners) && crosses(corners) {
		if flat(corners) {
			return Polygon{}, ErrFlat
		}
		return Polygon{}, ErrCrossing
	}
	p := Polygon{corners}
	if p.twice().Sign() < 0 {
		slices.Reverse(p.corners)
	}
	p.start()
	return p, nil
}

// withoutRepeats copies corners without those that repeat the one before.
func withoutRepeats(corners []Point) []Point {
	out := make([]Point, 0, len(corners))
	for _, c := range corners {
		if n := len(out); n == 0 || out[n-1] != c {
			out = append(out, c)
		}
	}
	for len(out) > 1 && out[len(out)-1] == out[0] {
		out = out[:len(out)-1]
	}
	return out
}

// withoutStraights takes out, in place, the corners past which the outline goes
// straight on.
func withoutStraights(corners []Point) []Point {
	n := 0
	for i, c := range corners {
		next := corners[(i+1)%len(corners)]
		if n > 0 {
			if straight(corners[n-1], c, next) {
				continue
			}
		} else if straight(corners[len(corners)-1], c, next) {
			continue
		}
		corners[n] = c
		n++
	}
	// The last corner was looked at with a first one that may be gone by now.
	for n > 2 && straight(corners[n-2], corners[n-1], corners[0]) {
		n--
	}
	for n > 2 && straight(corners[n-1], corners[0], corners[1]) {
		corners = corners[1:]
		n--
	}
	return corners[:n]
}

// straight reports whether b lies on the way from a to c.
func straight(a, b, c Point) bool {
	return side(a, b, c) == 0 && dot(a, b, c).Sign() >= 0
}

// side returns the sign of the turn at b on the way from a to c: +1 for one to
// the right as seen, Y pointing down.
func side(a, b, c Point) int {
	return (b.X - a.X).By(c.Y - b.Y).Compare((b.Y - a.Y).By(c.X - b.X))
}

// dot returns how far b to c goes on in the sense of a to b, times its length.
func dot(a, b, c Point) Area {
	return (b.X - a.X).By(c.X - b.X).Plus((b.Y - a.Y).By(c.Y - b.Y))
}

func flat(corners []Point) bool {
	for _, c := range corners[2:] {
		if side(corners[0], corners[1], c) != 0 {
			return false
		}
	}
	return true
}

// convex reports whether the outline turns the same way at every corner and only
// once round: then no two of its edges share more than the corner that joins them.
// It is what most outlines are, and takes time in proportion to the corners.
func convex(corners []Point) bool {
	n := len(corners)
	way := side(corners[n-1], corners[0], corners[1])
	before, changes := onward(corners[n-1], corners[0]), 0
	for i, c := range corners {
		next := corners[(i+1)%n]
		if s := side(c, next, corners[(i+2)%n]); s == 0 || s != way {
			return false
		}
		if on := onward(c, next); on != before {
			before = on
			changes++
		}
	}
	return changes == 2 // from going to the right to going to the left and back
}

// onward reports whether b lies to the right of a, or right below it.
func onward(a, b Point) bool { return b.X > a.X || b.X == a.X && b.Y > a.Y }

// crosses reports whether any two edges share more than the corner that joins
// them. It goes through the edges from left to right and compares each with
// those that reach as far.
func crosses(corners []Point) bool {
	n := len(corners)
	order := make([]int, n) // edges, by their left ends
	for i := range order {
		order[i] = i
	}
	left := func(e int) Length { return min(corners[e].X, corners[(e+1)%n].X) }
	right := func(e int) Length { return max(corners[e].X, corners[(e+1)%n].X) }
	inorder.Sort(order, func(a, b int) int { return cmp.Compare(left(a), left(b)) })
	var active []int
	for _, e := range order {
		a, b := corners[e], corners[(e+1)%n]
		from := left(e)
		kept := active[:0]
		for _, f := range active {
			if right(f) < from {
				continue
			}
			kept = append(kept, f)
			c, d := corners[f], corners[(f+1)%n]
			switch {
			case min(a.Y, b.Y) > max(c.Y, d.Y) || min(c.Y, d.Y) > max(a.Y, b.Y):
			case (e+1)%n == f:
				if runsBack(a, b, d) {
					return true
				}
			case (f+1)%n == e:
				if runsBack(c, d, b) {
					return true
				}
			case meet(a, b, c, d):
				return true
			}
		}
		active = append(kept, e)
	}
	return false
}

// runsBack reports whether the edge from b to c lies on the one from a to b.
func runsBack(a, b, c Point) bool { return side(a, b, c) == 0 && dot(a, b, c).Sign() < 0 }

// meet reports whether the edges a to b and c to d, whose boxes overlap, have a
// point in common: neither has both ends on one side of the other's line. Where both
// lie on one line their boxes say it already.
func meet(a, b, c, d Point) bool {
	return side(a, b, c)*side(a, b, d) <= 0 && side(c, d, a)*side(c, d, b) <= 0
}

// start turns the list so that it begins with the topmost corner.
func (p *Polygon) start() {
	first := 0
	for i, c := range p.corners {
		if f := p.corners[first]; c.Y < f.Y || c.Y == f.Y && c.X < f.X {
			first = i
		}
	}
	if first > 0 {
		p.corners = append(slices.Clone(p.corners[first:]), p.corners[:first]...)
	}
}

// Polygon returns the rectangle as a polygon; one that is empty or reaches
// beyond [Farthest] gives the zero Polygon.
//
//go:noinline
func (r Rect) Polygon() Polygon {
	if r.Empty() || min(r.Min.X, r.Min.Y) < -Farthest || max(r.Max.X, r.Max.Y) > Farthest {
		return Polygon{}
	}
	return Polygon{[]Point{r.Min, {r.Max.X, r.Min.Y}, r.Max, {r.Min.X, r.Max.Y}}}
}

// Len returns the number of corners.
func (p Polygon) Len() int { return len(p.corners) }

// Corners walks the corners, clockwise from the topmost.
func (p Polygon) Corners() iter.Seq2[int, Point] { return slices.All(p.corners) }

// Edges walks the edges in the order of the corners that they begin at: from
// and to.
func (p Polygon) Edges() iter.Seq2[Point, Point] {
	return func(yield func(from, to Point) bool) {
		for i, c := range p.corners {
			if !yield(c, p.corners[(i+1)%len(p.corners)]) {
				return
			}
		}
	}
}

// Empty reports whether the polygon has no area: whether it is the zero Polygon.
func (p Polygon) Empty() bool { return len(p.corners) == 0 }

// Equal reports whether two polygons have the same outline.
func (p Polygon) Equal(q Polygon) bool { return slices.Equal(p.corners, q.corners) }

// Bounds returns the least rectangle that holds the polygon.
func (p Polygon) Bounds() Rect {
	if p.Empty() {
		return Rect{}
	}
	r := Rect{p.corners[0], p.corners[0]}
	for _, c := range p.corners {
		r.Min.X, r.Max.X = min(r.Min.X, c.X), max(r.Max.X, c.X)
		r.Min.Y, r.Max.Y = min(r.Min.Y, c.Y), max(r.Max.Y, c.Y)
	}
	return r
}

// Rect returns the polygon as an upright rectangle, and whether it is one.
func (p Polygon) Rect() (Rect, bool) {
	r := p.Bounds()
	return r, len(p.corners) == 4 && p.Equal(r.Polygon())
}

// twice returns twice the area with the sign of the sense of the corners, by
// the cross products of the corners (the surveyor's formula).
func (p Polygon) twice() Area {
	var sum Area
	for a, b := range p.Edges() {
		sum = sum.Plus(a.X.By(b.Y)).Minus(b.X.By(a.Y))
	}
	return sum
}

// DoubleArea returns twice the area, exactly: the area of a polygon whose
// corners are whole nanometres may end in half a square nanometre.
func (p Polygon) DoubleArea() Area { return p.twice() }

// Area returns the area, half a square nanometre rounded in direction d.
func (p Polygon) Area(d Direction) Area {
	half, _ := p.twice().Scale(1, 2, d)
	return half
}

// Perimeter returns how long the edges are together, each of them rounded to a
// whole nanometre in direction d.
func (p Polygon) Perimeter(d Direction) Length {
	var sum Length
	for a, b := range p.Edges() {
		sum += Diagonal(b.X-a.X, b.Y-a.Y, d)
	}
	return sum
}

// Contains reports whether a point lies in the polygon or on its edge.
func (p Polygon) Contains(q Point) bool {
	if b := p.Bounds(); q.X < b.Min.X || q.X > b.Max.X || q.Y < b.Min.Y || q.Y > b.Max.Y {
		return false
	}
	return p.holds(q.X, q.Y, 1)
}

// holds is Contains for a point with its coordinates times n. It counts the
// edges that a ray to the right crosses.
func (p Polygon) holds(x, y, n Length) bool {
	q := Point{x, y}
	in := false
	for a, b := range p.Edges() {
		a, b = Point{n * a.X, n * a.Y}, Point{n * b.X, n * b.Y}
		if a.Y > b.Y {
			a, b = b, a
		}
		if q.Y < a.Y || q.Y > b.Y {
			continue
		}
		s := side(a, b, q)
		switch {
		case s == 0 && min(a.X, b.X) <= q.X && q.X <= max(a.X, b.X):
			return true
		case q.Y < b.Y && s > 0: // a lower end does not count, and level edges have none
			in = !in
		}
	}
	return in
}

// ContainsRect reports whether all of a rectangle lies in the polygon; edges
// may touch. An empty rectangle lies in every polygon, as in [Rect.In].
func (p Polygon) ContainsRect(r Rect) bool {
	if r.Empty() {
		return true
	}
	if p.Empty() || !r.In(p.Bounds()) {
		return false
	}
	if _, ok := p.Rect(); ok {
		return true
	}
	for a, b := range p.Edges() {
		if r.entered(a, b) {
			return false
		}
	}
	// No edge enters it: it lies inside or outside as its middle does.
	return p.holds(r.Min.X+r.Max.X, r.Min.Y+r.Max.Y, 2)
}

// entered reports whether the line from a to b passes through the inside of r:
// whether no line separates them (the separating axis theorem for a rectangle
// and a line).
func (r Rect) entered(a, b Point) bool {
	if max(a.X, b.X) <= r.Min.X || min(a.X, b.X) >= r.Max.X || max(a.Y, b.Y) <= r.Min.Y || min(a.Y, b.Y) >= r.Max.Y {
		return false
	}
	var left, right bool
	for _, c := range [...]Point{r.Min, {r.Max.X, r.Min.Y}, r.Max, {r.Min.X, r.Max.Y}} {
		switch s := side(a, b, c); {
		case s < 0:
			left = true
		case s > 0:
			right = true
		}
	}
	return left && right
}

// Moved returns the polygon moved by q. As with a [Rect], arithmetic is not
// checked for overflow, which cannot occur within the bounds of a plan.
func (p Polygon) Moved(q Point) Polygon {
	return p.mapped(false, q.Plus)
}

// Mirrored returns the polygon as it is seen from the other side of a sheet of
// the given width, turned over like a page: X becomes width − X.
func (p Polygon) Mirrored(width Length) Polygon {
	return p.mapped(true, func(c Point) Point { return Point{width - c.X, c.Y} })
}

// Flipped returns the polygon as it is seen from the other side of a sheet of
// the given height, turned over head to tail: Y becomes height − Y.
func (p Polygon) Flipped(height Length) Polygon {
	return p.mapped(true, func(c Point) Point { return Point{c.X, height - c.Y} })
}

// Turned returns the polygon after a quarter turn to the right of a sheet of
// the given height: what was the left edge is the head.
func (p Polygon) Turned(height Length) Polygon {
	return p.mapped(false, func(c Point) Point { return Point{height - c.Y, c.X} })
}

// mapped moves every corner; reversed says that the sense is turned round.
func (p Polygon) mapped(reversed bool, to func(Point) Point) Polygon {
	out := Polygon{make([]Point, len(p.corners))}
	for i, c := range p.corners {
		out.corners[i] = to(c)
	}
	if reversed {
		slices.Reverse(out.corners)
	}
	out.start()
	return out
}

// String returns the corners in millimetres, exactly: "(0, 0) (90, 0) (90, 55)
// (0, 55) mm", and "no outline" for the zero Polygon.
func (p Polygon) String() string {
	if p.Empty() {
		return "no outline"
	}
	dst := make([]byte, 0, 24*len(p.corners))
	for _, c := range p.corners {
		dst = append(c.append(dst), ' ')
	}
	return string(append(dst, "mm"...))
}
