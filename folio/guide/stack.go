package guide

import (
	"cmp"
	"slices"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
)

// A sheetlet is something flat that lies over others.
type sheetlet struct {
	of    ref
	kind  lineKind // of its edges where they are seen
	pts   []units.Point
	holes [][]units.Point // through which one sees what lies under it
	under bool            // it hides nothing
	quiet bool            // where it is hidden it is not drawn
	box   units.Rect      // round it, where it lies over others
}

// boxed gives each its box.
func boxed(list []sheetlet) {
	for i := range list {
		list[i].box = boundsOf(list[i].pts)
	}
}

// near lists what touches a rectangle and may hide what is there.
func near(list []sheetlet, r units.Rect) []*sheetlet {
	var out []*sheetlet
	for i := range list {
		if s := &list[i]; !s.under && touches(r, s.box) {
			out = append(out, s)
		}
	}
	return out
}

// flat returns a rectangle as something flat.
func flat(k lineKind, of ref, r units.Rect, holes ...[]units.Point) sheetlet {
	return sheetlet{of: of, kind: k, pts: corners(r), holes: holes}
}

// stack draws things that lie over each other, from the bottom up: each edge as
// hidden where something lies over it.
func (f *figure) stack(list []sheetlet) {
	boxed(list)
	for i := range list {
		s := &list[i]
		below := hidden
		if s.quiet {
			below = absent
		}
		f.covered(s.kind, below, s.of, s.pts, list[i+1:])
		for _, h := range s.holes {
			f.covered(s.kind, below, s.of, h, list[i+1:])
		}
	}
}

// covered draws a closed outline under what lies over it, where it is hidden as
// another kind of line.
func (f *figure) covered(k, below lineKind, of ref, pts []units.Point, over []sheetlet) {
	by := near(over, boundsOf(pts))
	if len(by) == 0 {
		f.line(k, of, true, pts...)
		return
	}
	var parts []stretch
	seen := true
	for i, a := range pts {
		for _, part := range split(a, pts[(i+1)%len(pts)], by) {
			parts = append(parts, part)
			seen = seen && !part.covered
		}
	}
	if seen {
		f.line(k, of, true, pts...)
		return
	}
	for _, part := range parts {
		kind := k
		if part.covered {
			kind = below
		}
		if kind != absent {
			f.line(kind, of, false, part.a, part.b)
		}
	}
}

// A stretch is a part of an edge that is covered or seen from end to end.
type stretch struct {
	a, b    units.Point
	covered bool
}

// split divides an edge where what lies over it begins and ends.
func split(a, b units.Point, by []*sheetlet) []stretch {
	cuts := []units.Point{a, b}
	along := boundsOf(cuts)
	var over []*sheetlet
	for _, s := range by {
		if !touches(along, s.box) {
			continue
		}
		over = append(over, s)
		cuts = append(cuts, meets(a, b, s.pts)...)
		for _, h := range s.holes {
			cuts = append(cuts, meets(a, b, h)...)
		}
	}
	inorder.Sort(cuts, func(p, q units.Point) int { return cmp.Compare(farAlong(a, b, p), farAlong(a, b, q)) })
	cuts = slices.Compact(cuts)
	var parts []stretch
	for i := 1; i < len(cuts); i++ {
		mid := halfway(cuts[i-1], cuts[i])
		is := slices.ContainsFunc(over, func(s *sheetlet) bool { return s.hides(mid) })
		if n := len(parts); n > 0 && parts[n-1].covered == is {
			parts[n-1].b = cuts[i]
			continue
		}
		parts = append(parts, stretch{cuts[i-1], cuts[i], is})
	}
	return parts
}

// farAlong returns how far a point of an edge lies from its beginning, on the axis
// on which it runs further.
func farAlong(a, b, p units.Point) units.Length {
	if (b.X - a.X).Abs() >= (b.Y - a.Y).Abs() {
		return (p.X - a.X).Abs()
	}
	return (p.Y - a.Y).Abs()
}

// meets returns where an edge from a to b crosses the edges of an outline, to
// the nanometre.
func meets(a, b units.Point, pts []units.Point) []units.Point {
	var list []units.Point
	box := boundsOf([]units.Point{a, b})
	for i, c := range pts {
		d := pts[(i+1)%len(pts)]
		if max(c.X, d.X) < box.Min.X || min(c.X, d.X) > box.Max.X || max(c.Y, d.Y) < box.Min.Y || min(c.Y, d.Y) > box.Max.Y {
			continue
		}
		from, to := turn(c, d, a), turn(c, d, b)
		if from*to >= 0 || turn(a, b, c)*turn(a, b, d) > 0 {
			continue
		}
		list = append(list, crossing(a, b, c, d))
	}
	return list
}

// crossing returns where the line through a and b meets that through c and d,
// which is not parallel to it.
func crossing(a, b, c, d units.Point) units.Point {
	switch {
	case a.X == b.X && c.Y == d.Y:
		return units.Point{X: a.X, Y: c.Y}
	case a.Y == b.Y && c.X == d.X:
		return units.Point{X: c.X, Y: a.Y}
	}
	// The shares are those of areas of up to 10²⁰ nm²: as numbers with 53 bits
	// they are good to the nanometre of any plan.
	num := (d.X - c.X).By(c.Y - a.Y).Minus((d.Y - c.Y).By(c.X - a.X))
	den := (d.X - c.X).By(b.Y - a.Y).Minus((d.Y - c.Y).By(b.X - a.X))
	const parts = 1_000_000_000
	share := int64(num.Quotient(den) * parts)
	x, _ := (b.X - a.X).Scale(share, parts, units.Nearest)
	y, _ := (b.Y - a.Y).Scale(share, parts, units.Nearest)
	return a.Plus(units.Point{X: x, Y: y})
}

// hides reports whether a point lies within something flat, not on its edge, and
// in no hole.
func (s *sheetlet) hides(p units.Point) bool {
	if !encloses(s.pts, p) || onEdge(s.pts, p) {
		return false
	}
	for _, h := range s.holes {
		if encloses(h, p) || onEdge(h, p) {
			return false
		}
	}
	return true
}

// onEdge reports whether a point lies on an edge of an outline.
func onEdge(pts []units.Point, q units.Point) bool {
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if turn(a, b, q) == 0 && q.X >= min(a.X, b.X) && q.X <= max(a.X, b.X) && q.Y >= min(a.Y, b.Y) && q.Y <= max(a.Y, b.Y) {
			return true
		}
	}
	return false
}

// encloses reports whether a point lies in an outline.
func encloses(pts []units.Point, q units.Point) bool {
	in := false
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if (a.Y > q.Y) != (b.Y > q.Y) && (turn(a, b, q) > 0) == (b.Y > a.Y) {
			in = !in
		}
	}
	return in
}
