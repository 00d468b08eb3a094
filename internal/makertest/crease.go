package makertest

import (
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A crease is a fold between two facets, or a line at which they could be
// folded.
type crease struct {
	a, b     *facet
	line     score.Line
	from, to units.Length // where they meet along it
	fold     score.Fold   // as it was folded
	kept     *work.FoldAt // it has been laid open again, and is folded so in use
}

// measure works out from where to where two facets meet along a crease.
func (c *crease) measure() {
	a0, a1 := extent(c.a.area, c.line)
	b0, b1 := extent(c.b.area, c.line)
	c.from, c.to = max(a0, b0), min(a1, b1)
}

// real reports whether the two facets of a crease meet there.
func (c *crease) real() bool {
	return c.from < c.to
}

// within reports whether a crease runs through an area.
func (c *crease) within(way region) bool {
	l := c.line
	if l.From, l.To = c.from, c.to; l.From >= l.To {
		return false
	}
	const d = 1000 // nanometres on either side of the fold
	r := units.Rect{Min: units.Point{X: l.At - d, Y: l.From}, Max: units.Point{X: l.At + d, Y: l.To}}
	if l.Axis == score.Level {
		r = units.Rect{Min: units.Point{X: l.From, Y: l.At - d}, Max: units.Point{X: l.To, Y: l.At + d}}
	}
	return c.a.lies.region(rectRegion(r)).overlaps(way)
}

// full returns a line with its ends filled in.
func full(l score.Line, s units.Size) score.Line {
	if l.To == 0 {
		if l.To = s.H; l.Axis == score.Level {
			l.To = s.W
		}
	}
	return l
}

// beyondLine returns what of a region lies beyond a line towards an edge, and
// within its ends.
func beyondLine(r region, l score.Line, to score.Edge) region {
	at, from, end := float64(l.At), float64(l.From), float64(l.To)
	const far = 1e11
	var b box
	switch {
	case l.Axis == score.Upright && to == score.Left:
		b = box{vec{-far, from}, vec{at, end}}
	case l.Axis == score.Upright && to == score.Right:
		b = box{vec{at, from}, vec{far, end}}
	case l.Axis == score.Level && to == score.Head:
		b = box{vec{from, -far}, vec{end, at}}
	case l.Axis == score.Level && to == score.Tail:
		b = box{vec{from, at}, vec{end, far}}
	default:
		return nil
	}
	return r.and(region{{b.min, {b.max.x, b.min.y}, b.max, {b.min.x, b.max.y}}})
}

// crosses reports whether a region lies on both sides of a line.
func crosses(r region, l score.Line) bool {
	near, far := score.Left, score.Right
	if l.Axis == score.Level {
		near, far = score.Head, score.Tail
	}
	return !beyondLine(r, l, near).empty() && !beyondLine(r, l, far).empty()
}

// extent returns from where to where a region lies along a line.
func extent(r region, l score.Line) (from, to units.Length) {
	const d = 1000 // nanometres to either side
	at := units.Rect{Min: units.Point{X: l.At - d, Y: l.From}, Max: units.Point{X: l.At + d, Y: l.To}}
	if l.Axis == score.Level {
		at = units.Rect{Min: units.Point{X: l.From, Y: l.At - d}, Max: units.Point{X: l.To, Y: l.At + d}}
	}
	b := r.and(rectRegion(at)).rect()
	if l.Axis == score.Upright {
		return b.Min.Y, b.Max.Y
	}
	return b.Min.X, b.Max.X
}

// touches reports whether a region reaches a line.
func touches(r region, l score.Line) bool {
	from, to := extent(r, l)
	return from < to
}
