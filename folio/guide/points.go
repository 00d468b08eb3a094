package guide

import (
	"cmp"
	"slices"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
)

// cover takes a rectangle into another; a flat one counts too.
func cover(all *units.Rect, r units.Rect, first bool) {
	if first {
		*all = r
		return
	}
	all.Min.X, all.Min.Y = min(all.Min.X, r.Min.X), min(all.Min.Y, r.Min.Y)
	all.Max.X, all.Max.Y = max(all.Max.X, r.Max.X), max(all.Max.Y, r.Max.Y)
}

// boundsOf returns the rectangle round points.
func boundsOf(pts []units.Point) units.Rect {
	r := units.Rect{Min: pts[0], Max: pts[0]}
	for _, p := range pts[1:] {
		cover(&r, units.Rect{Min: p, Max: p}, false)
	}
	return r
}

// grown returns a rectangle larger by a distance on all sides.
func grown(r units.Rect, by units.Length) units.Rect {
	return units.Rect{Min: units.Point{X: r.Min.X - by, Y: r.Min.Y - by}, Max: units.Point{X: r.Max.X + by, Y: r.Max.Y + by}}
}

// touches reports whether two rectangles have a point in common.
func touches(a, b units.Rect) bool {
	return a.Min.X <= b.Max.X && b.Min.X <= a.Max.X && a.Min.Y <= b.Max.Y && b.Min.Y <= a.Max.Y
}

// sortedPlaces returns places in order, each once.
func sortedPlaces(at ...units.Length) []units.Length {
	inorder.Sort(at, cmp.Compare)
	return slices.Compact(at)
}

// corners returns the corners of a rectangle, clockwise.
//
//go:noinline
func corners(r units.Rect) []units.Point {
	return []units.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
}

// corner lists the corners of an outline.
func cornersOf(p units.Polygon) []units.Point {
	pts := make([]units.Point, 0, p.Len())
	for _, c := range p.Corners() {
		pts = append(pts, c)
	}
	return pts
}

// middleOf returns the middle of a rectangle.
func middleOf(r units.Rect) units.Point {
	return halfway(r.Min, r.Max)
}

// halfway returns the middle between two points.
func halfway(a, b units.Point) units.Point {
	return units.Point{X: a.X + (b.X - a.X).Half(units.Down), Y: a.Y + (b.Y - a.Y).Half(units.Down)}
}

// turn returns the sign of the turn at b on the way from a to c.
func turn(a, b, c units.Point) int {
	p, q, r, s := b.X-a.X, c.Y-b.Y, b.Y-a.Y, c.X-b.X
	// Products of lengths below 2 m go into a word; a browser takes its time for longer ones.
	if near := units.Length(1 << 31); max(p, q, r, s) < near && min(p, q, r, s) > -near {
		return cmp.Compare(p*q, r*s)
	}
	return p.By(q).Compare(r.By(s))
}

// crosses reports whether a straight line passes through a rectangle or touches
// it.
func crosses(a, b units.Point, r units.Rect) bool {
	if max(a.X, b.X) < r.Min.X || min(a.X, b.X) > r.Max.X || max(a.Y, b.Y) < r.Min.Y || min(a.Y, b.Y) > r.Max.Y {
		return false
	}
	if a.X == b.X || a.Y == b.Y {
		return true
	}
	// Aslant: its ends and the rectangle overlap on both axes; it misses only if
	// all corners lie on one side of it.
	var left, right bool
	for _, c := range [...]units.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}} {
		switch side := turn(a, b, c); {
		case side < 0:
			left = true
		case side > 0:
			right = true
		default:
			return true
		}
	}
	return left && right
}

// spanned returns the rectangle between two opposite corners.
func spanned(p, q units.Point) units.Rect {
	return units.Rect{Min: units.Point{X: min(p.X, q.X), Y: min(p.Y, q.Y)}, Max: units.Point{X: max(p.X, q.X), Y: max(p.Y, q.Y)}}
}

// flipped returns a rectangle of the section, whose Y runs upwards, on the
// drawing.
func flipped(r units.Rect) units.Rect {
	r.Min.Y, r.Max.Y = -r.Max.Y, -r.Min.Y
	return r
}

// cornerOf returns where the faces of two boards at a right angle meet.
func cornerOf(a, b units.Point, upright bool) units.Point {
	if upright {
		return units.Point{X: a.X, Y: b.Y}
	}
	return units.Point{X: b.X, Y: a.Y}
}

// quarter returns the points of a quarter of an ellipse.
func quarter(a, corner, b units.Point) []units.Point {
	sines := [...]int64{0, 258819, 500000, 707107, 866025, 965926, 1000000}
	pts := make([]units.Point, 0, len(sines))
	for k := range sines {
		// From a, the share of the way to the corner, and from the corner to b.
		to, on := sines[k], 1_000_000-sines[len(sines)-1-k]
		x1, _ := (corner.X - a.X).Scale(to, 1_000_000, units.Nearest)
		y1, _ := (corner.Y - a.Y).Scale(to, 1_000_000, units.Nearest)
		x2, _ := (b.X - corner.X).Scale(on, 1_000_000, units.Nearest)
		y2, _ := (b.Y - corner.Y).Scale(on, 1_000_000, units.Nearest)
		pts = append(pts, units.Point{X: a.X + x1 + x2, Y: a.Y + y1 + y2})
	}
	return pts
}
