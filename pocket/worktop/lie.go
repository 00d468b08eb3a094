package worktop

import (
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A Lie is how something flat lies on the table: quarter turns, perhaps turned
// over, and a move, from how it is drawn. The zero Lie is none: see [AsDrawn]. Lies
// are comparable.
type Lie struct{ a, b, c, d, x, y units.Length } // to aX + bY + x, cX + dY + y; a to d are −1, 0 and 1

// AsDrawn is the lie of what has not been moved yet.
func AsDrawn() Lie { return Lie{a: 1, d: 1} }

// Point returns where a place of the drawing lies.
func (l Lie) Point(q units.Point) units.Point {
	return units.Point{X: l.a*q.X + l.b*q.Y + l.x, Y: l.c*q.X + l.d*q.Y + l.y}
}

// Rect returns where a rectangle of the drawing lies.
func (l Lie) Rect(r units.Rect) units.Rect {
	p, q := l.Point(r.Min), l.Point(r.Max)
	return units.Rect{Min: units.Point{X: min(p.X, q.X), Y: min(p.Y, q.Y)}, Max: units.Point{X: max(p.X, q.X), Y: max(p.Y, q.Y)}}
}

// Polygon returns where an outline of the drawing lies.
func (l Lie) Polygon(p units.Polygon) units.Polygon {
	corners := make([]units.Point, 0, p.Len())
	for _, c := range p.Corners() {
		corners = append(corners, l.Point(c))
	}
	out, _ := units.NewPolygon(corners...)
	return out
}

// Up returns the side of the drawing that lies up.
func (l Lie) Up() score.Side {
	if l.a*l.d-l.b*l.c < 0 {
		return score.Back
	}
	return score.Face
}

// Line returns how a line of the drawing runs on the table.
func (l Lie) Line(axis score.Axis, at units.Length) (score.Axis, units.Length) {
	switch {
	case l.a != 0 && axis == score.Upright:
		return score.Upright, l.a*at + l.x
	case l.a != 0:
		return score.Level, l.d*at + l.y
	case axis == score.Upright:
		return score.Level, l.c*at + l.y
	}
	return score.Upright, l.b*at + l.x
}

// Way returns the direction in which an edge of the drawing lies: 1 or −1 nm along
// one axis.
func (l Lie) Way(e score.Edge) units.Point {
	l.x, l.y = 0, 0
	switch e {
	case score.Head:
		return l.Point(units.Point{Y: -1})
	case score.Tail:
		return l.Point(units.Point{Y: 1})
	case score.Left:
		return l.Point(units.Point{X: -1})
	}
	return l.Point(units.Point{X: 1})
}

// Undone returns the lie that takes a place on the table to the drawing.
func (l Lie) Undone() Lie {
	// The turn back is the turn mirrored at the diagonal.
	m := Lie{a: l.a, b: l.c, c: l.b, d: l.d}
	o := m.Point(units.Point{X: l.x, Y: l.y})
	m.x, m.y = -o.X, -o.Y
	return m
}

// then returns how what lies so lies when it is moved by m.
func (l Lie) then(m Lie) Lie {
	to := m.Point(units.Point{X: l.x, Y: l.y})
	return Lie{m.a*l.a + m.b*l.c, m.a*l.b + m.b*l.d, m.c*l.a + m.d*l.c, m.c*l.b + m.d*l.d, to.X, to.Y}
}

// moved is the move by so much.
func moved(x, y units.Length) Lie { return Lie{a: 1, d: 1, x: x, y: y} }

// mirrored returns the move that turns things over a line.
func mirrored(axis score.Axis, at units.Length) Lie {
	if axis == score.Upright {
		return Lie{a: -1, d: 1, x: at + at}
	}
	return Lie{a: 1, d: -1, y: at + at}
}
