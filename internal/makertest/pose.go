package makertest

import (
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A pose is where a flat thing lies: quarter turns, perhaps turned over, and a
// move. It takes X, Y to aX + bY + x, cX + dY + y.
type pose struct {
	a, b, c, d int64
	x, y       units.Length
}

var asDrawn = pose{a: 1, d: 1}

func (p pose) point(q units.Point) units.Point {
	n := func(k int64, l units.Length) units.Length { return units.Length(k) * l }
	return units.Point{X: n(p.a, q.X) + n(p.b, q.Y) + p.x, Y: n(p.c, q.X) + n(p.d, q.Y) + p.y}
}

func (p pose) vec(v vec) vec {
	return vec{float64(p.a)*v.x + float64(p.b)*v.y + float64(p.x), float64(p.c)*v.x + float64(p.d)*v.y + float64(p.y)}
}

func (p pose) rect(r units.Rect) units.Rect {
	a, b := p.point(r.Min), p.point(r.Max)
	return units.Rect{Min: units.Point{X: min(a.X, b.X), Y: min(a.Y, b.Y)}, Max: units.Point{X: max(a.X, b.X), Y: max(a.Y, b.Y)}}
}

func (p pose) region(r region) region {
	out := make(region, len(r))
	for i, q := range r {
		moved := make(poly, len(q))
		for k, v := range q {
			moved[k] = p.vec(v)
		}
		out[i] = moved.wound()
	}
	return out
}

// over reports whether what lies so is turned over.
func (p pose) over() bool { return p.a*p.d-p.b*p.c < 0 }

// up returns the side of the drawing that lies up.
func (p pose) up() score.Side {
	if p.over() {
		return score.Back
	}
	return score.Face
}

// then returns the pose of what lies as p when everything is moved by q.
func (p pose) then(q pose) pose {
	to := q.point(units.Point{X: p.x, Y: p.y})
	return pose{
		q.a*p.a + q.b*p.c, q.a*p.b + q.b*p.d,
		q.c*p.a + q.d*p.c, q.c*p.b + q.d*p.d,
		to.X, to.Y,
	}
}

// undone returns the move that takes back p. Its turn is p's turn mirrored at
// the diagonal, for turns by quarters and mirrors.
func (p pose) undone() pose {
	q := pose{a: p.a, b: p.c, c: p.b, d: p.d}
	o := q.point(units.Point{X: p.x, Y: p.y})
	q.x, q.y = -o.X, -o.Y
	return q
}

func (p pose) moved(by units.Point) pose {
	p.x += by.X
	p.y += by.Y
	return p
}

// turned returns how a drawing lies with a side up and so many quarter turns
// clockwise after that.
func turned(up score.Side, quarters int) pose {
	p := asDrawn
	if up == score.Back {
		p.a = -1
	}
	for range quarters & 3 {
		p = p.then(pose{b: -1, c: 1})
	}
	return p
}

// mirrored returns the move that turns things over a line.
func mirrored(axis score.Axis, at units.Length) pose {
	if axis == score.Upright {
		return pose{a: -1, d: 1, x: 2 * at}
	}
	return pose{a: 1, d: -1, y: 2 * at}
}

// line returns how a line on the drawing runs when it lies so.
func (p pose) line(axis score.Axis, at units.Length) (score.Axis, units.Length) {
	if axis == score.Upright {
		if p.a != 0 {
			return score.Upright, units.Length(p.a)*at + p.x
		}
		return score.Level, units.Length(p.c)*at + p.y
	}
	if p.d != 0 {
		return score.Level, units.Length(p.d)*at + p.y
	}
	return score.Upright, units.Length(p.b)*at + p.x
}

// edge returns the edge at which an edge of the drawing lies.
func (p pose) edge(e score.Edge) score.Edge {
	d := outward(e)
	x, y := p.a*d[0]+p.b*d[1], p.c*d[0]+p.d*d[1]
	switch {
	case x < 0:
		return score.Left
	case x > 0:
		return score.Right
	case y < 0:
		return score.Head
	}
	return score.Tail
}

// outward returns the direction beyond an edge.
func outward(e score.Edge) [2]int64 {
	switch e {
	case score.Head:
		return [2]int64{0, -1}
	case score.Tail:
		return [2]int64{0, 1}
	case score.Left:
		return [2]int64{-1, 0}
	}
	return [2]int64{1, 0}
}
