package score

import (
	"cmp"
	"slices"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
)

// outline works out what is left of a sheet when shapes are cut off and out of
// it: the pieces, and the openings in them. The shapes lie on the sheet, are
// convex but for rounding, and share no area with each other; they may touch.
//
// The edges of the sheet and of the shapes, these the other way round, are
// split where a corner lies on them. Where two run against each other nothing
// is left between them, so both go; what remains are the edges of the paper.
func outline(size units.Size, shapes []units.Polygon) (pieces, openings []units.Polygon) {
	sheet := units.RectAt(units.Point{}, size).Polygon()
	if len(shapes) == 0 {
		return []units.Polygon{sheet}, nil
	}
	for _, loop := range loops(paperEdges(sheet, shapes)) {
		// A loop passes no point twice and its edges do not cross.
		p, _ := units.NewPolygon(loop...)
		if clockwise(loop) {
			pieces = append(pieces, p)
		} else {
			openings = append(openings, p)
		}
	}
	return pieces, openings
}

// within returns what of a convex outline lies in a rectangle, from the
// rectangle's corner: each of its sides takes off what lies beyond it (Sutherland
// and Hodgman, "Reentrant polygon clipping", CACM 17, 1974).
func within(p units.Polygon, r units.Rect) units.Polygon {
	var corners []units.Point
	for _, c := range p.Corners() {
		corners = append(corners, units.Point{X: c.X - r.Min.X, Y: c.Y - r.Min.Y})
	}
	size := r.Size()
	for _, side := range [...]struct {
		axis   Axis
		at     units.Length
		beyond bool
	}{{Upright, 0, true}, {Upright, size.W, false}, {Level, 0, true}, {Level, size.H, false}} {
		far := func(c units.Point) units.Length {
			d := c.X - side.at
			if side.axis == Level {
				d = c.Y - side.at
			}
			if side.beyond {
				return d
			}
			return -d
		}
		var kept []units.Point
		for i, a := range corners {
			b := corners[(i+1)%len(corners)]
			in, out := far(a), far(b)
			if in >= 0 {
				kept = append(kept, a)
			}
			if in > 0 && out < 0 || in < 0 && out > 0 {
				x, _ := (b.X - a.X).Scale(in.Nanometres(), (in - out).Nanometres(), units.Nearest)
				y, _ := (b.Y - a.Y).Scale(in.Nanometres(), (in - out).Nanometres(), units.Nearest)
				kept = append(kept, a.Plus(units.Point{X: x, Y: y}))
			}
		}
		corners = kept
	}
	q, err := units.NewPolygon(corners...)
	if err != nil { // nothing, or no area
		return units.Polygon{}
	}
	return q
}

// clockwise reports whether corners run round what they enclose to the right.
func clockwise(corners []units.Point) bool {
	var sum units.Area
	for i, a := range corners {
		b := corners[(i+1)%len(corners)]
		sum = sum.Plus(a.X.By(b.Y)).Minus(b.X.By(a.Y))
	}
	return sum.Sign() > 0
}

// A stretch is a straight piece of an edge with the paper to its right.
type stretch struct{ from, to units.Point }

// paperEdges returns the edges of the paper, split at every corner.
func paperEdges(sheet units.Polygon, shapes []units.Polygon) []stretch {
	var corners []units.Point
	for _, p := range append([]units.Polygon{sheet}, shapes...) {
		for _, c := range p.Corners() {
			corners = append(corners, c)
		}
	}
	inorder.Sort(corners, comparePoints)
	corners = slices.Compact(corners)
	var all []stretch
	for a, b := range sheet.Edges() {
		all = split(all, a, b, corners)
	}
	for _, p := range shapes {
		for a, b := range p.Edges() {
			all = split(all, b, a, corners)
		}
	}
	has := make(map[stretch]bool, len(all)) // only looked up
	for _, s := range all {
		has[s] = true
	}
	return slices.DeleteFunc(all, func(s stretch) bool { return has[stretch{s.to, s.from}] })
}

func comparePoints(a, b units.Point) int {
	if d := cmp.Compare(a.X, b.X); d != 0 {
		return d
	}
	return cmp.Compare(a.Y, b.Y)
}

// split appends the edge from a to b, split at the corners that lie on it.
func split(all []stretch, a, b units.Point, corners []units.Point) []stretch {
	low, high := a, b
	if comparePoints(a, b) > 0 {
		low, high = b, a
	}
	from, _ := slices.BinarySearchFunc(corners, low, comparePoints)
	to, _ := slices.BinarySearchFunc(corners, high, comparePoints)
	var on []units.Point // from low to high
	for _, c := range corners[from : to+1] {
		if min(a.Y, b.Y) <= c.Y && c.Y <= max(a.Y, b.Y) && turnAt(a, b, c) == 0 {
			on = append(on, c)
		}
	}
	if low == b {
		slices.Reverse(on)
	}
	for i := 1; i < len(on); i++ {
		all = append(all, stretch{on[i-1], on[i]})
	}
	return all
}

// turnAt returns the sign of the turn at b on the way from a to c: +1 to the
// right.
func turnAt(a, b, c units.Point) int {
	return (b.X - a.X).By(c.Y - b.Y).Compare((b.Y - a.Y).By(c.X - b.X))
}

// loops joins stretches into closed ways that pass no point twice. Where ways
// meet in a point the sharpest turn to the right stays with the same paper.
func loops(all []stretch) [][]units.Point {
	leaving := make(map[units.Point][]int, len(all)) // only looked up
	for i, s := range all {
		leaving[s.from] = append(leaving[s.from], i)
	}
	used := make([]bool, len(all))
	var out [][]units.Point
	for first := range all {
		if used[first] {
			continue
		}
		var way []units.Point
		place := map[units.Point]int{} // where on the way a point stands; only looked up
		for at := first; at >= 0; {
			used[at] = true
			s := all[at]
			place[s.from] = len(way)
			way = append(way, s.from)
			if k, been := place[s.to]; been {
				out = append(out, slices.Clone(way[k:]))
				for _, p := range way[k:] {
					delete(place, p)
				}
				way = way[:k]
			}
			at = onwards(all, used, s, leaving[s.to])
		}
	}
	return out
}

// onwards returns the unused stretch that turns most to the right after s, or
// -1 if there is none.
func onwards(all []stretch, used []bool, s stretch, leaving []int) int {
	best := -1
	for _, i := range leaving {
		if used[i] {
			continue
		}
		if best < 0 || righter(s, all[i].to, all[best].to) {
			best = i
		}
	}
	return best
}

// righter reports whether going on from s to p turns more to the right than
// going on to q.
func righter(s stretch, p, q units.Point) bool {
	a, b := turnAt(s.from, s.to, p), turnAt(s.from, s.to, q)
	if a != b {
		return a > b
	}
	return turnAt(q, s.to, p) < 0 // p lies to the right of the way to q
}

// sines are 10¹⁵ times the sines of 0°, 7.5° and so on to 90°: a quarter of a
// round is cut by twelve chords.
var sines = [...]int64{0, 130526192220052, 258819045102521, 382683432365090, 500000000000000, 608761429008721,
	707106781186548, 793353340291235, 866025403784439, 923879532511287, 965925826289068, 991444861373810, 1e15}

const sineUnit = 1_000_000_000_000_000

// sine and cosine take an angle in steps of 7.5°, from 0 to 180°.
func sine(k int) int64 {
	if n := len(sines) - 1; k > n {
		k = 2*n - k
	}
	return sines[k]
}

func cosine(k int) int64 {
	n := len(sines) - 1
	if k > n {
		return -sines[k-n]
	}
	return sines[n-k]
}

// onEdge returns where a place lies that is along from the beginning of an edge
// and into from it.
func onEdge(s units.Size, e Edge, along, into units.Length) units.Point {
	switch e {
	case Tail:
		return units.Point{X: along, Y: s.H - into}
	case Left:
		return units.Point{X: into, Y: along}
	case Right:
		return units.Point{X: s.W - into, Y: along}
	}
	return units.Point{X: along, Y: into}
}

// shape returns what the notch takes away: a rectangle, or a half round whose
// chords lie in it.
func (n Notch) shape(s units.Size) units.Polygon {
	if !n.Round {
		return n.Area(s).Polygon()
	}
	from := n.Middle - n.Width.Half(units.Down)
	corners := make([]units.Point, 0, 2*len(sines))
	for k := range 2*len(sines) - 1 {
		along, _ := n.Width.Scale(sineUnit-cosine(k), 2*sineUnit, units.Nearest)
		into, _ := n.Depth.Scale(sine(k), sineUnit, units.Nearest)
		corners = append(corners, onEdge(s, n.Edge, from+along, into))
	}
	p, _ := units.NewPolygon(corners...)
	return p
}

// shape returns what the cut-out takes away, rounded corners by chords that lie
// in it.
func (c CutOut) shape() units.Polygon {
	if c.Radius == 0 {
		return c.Area.Polygon()
	}
	corners := make([]units.Point, 0, 4*len(sines))
	low, high, last := c.Area.Min, c.Area.Max, len(sines)-1
	for quarter := range 4 {
		for k := range len(sines) {
			// How far from the edge where the quarter begins, going to the right
			// round the opening, and from the one where it ends.
			first, _ := c.Radius.Scale(sineUnit-sines[last-k], sineUnit, units.Nearest)
			then, _ := c.Radius.Scale(sineUnit-sines[k], sineUnit, units.Nearest)
			var at units.Point
			switch quarter {
			case 0:
				at = units.Point{X: low.X + first, Y: low.Y + then}
			case 1:
				at = units.Point{X: high.X - then, Y: low.Y + first}
			case 2:
				at = units.Point{X: high.X - first, Y: high.Y - then}
			default:
				at = units.Point{X: low.X + then, Y: high.Y - first}
			}
			corners = append(corners, at)
		}
	}
	p, _ := units.NewPolygon(corners...)
	return p
}

// corners returns the triangle that the slant takes away.
func (t Slant) corners(s units.Size) [3]units.Point {
	c := units.Point{}
	x, y := t.Along, t.Down
	if t.Corner == HeadRight || t.Corner == TailRight {
		c.X, x = s.W, -x
	}
	if t.Corner == TailLeft || t.Corner == TailRight {
		c.Y, y = s.H, -y
	}
	return [3]units.Point{c, c.Plus(units.Point{X: x}), c.Plus(units.Point{Y: y})}
}

// tapers returns the two triangles that a taper takes off a tab.
func (t Tab) tapers(s units.Size) (first, second [3]units.Point) {
	at := func(along, into units.Length) units.Point { return onEdge(s, t.Edge, along, into) }
	return [3]units.Point{at(t.From, 0), at(t.From+t.Taper, 0), at(t.From, t.Depth)},
		[3]units.Point{at(t.To, 0), at(t.To-t.Taper, 0), at(t.To, t.Depth)}
}
