package makertest

import (
	"math"

	"boardwrap.example/units"
)

// A vec is a point in nanometres. Places on rulers are whole numbers far below
// 2^53, so that they are exact; only where an oblique cut crosses a line are
// they not.
type vec struct{ x, y float64 }

func vecOf(p units.Point) vec { return vec{float64(p.X), float64(p.Y)} }

// A poly is a convex polygon with its corners clockwise as seen with Y down:
// its area comes out positive.
type poly []vec

// A region is made of polygons that do not overlap.
type region []poly

// slack is the area that is taken for nothing, in square nanometres: a strip
// of a millimetre by a tenth of a nanometre, which is what sums of areas are
// good for.
const slack = 1e5

func rectPoly(r units.Rect) poly {
	a, b := vecOf(r.Min), vecOf(r.Max)
	return poly{a, {b.x, a.y}, b, {a.x, b.y}}
}

func rectRegion(r units.Rect) region {
	if r.Empty() {
		return nil
	}
	return region{rectPoly(r)}
}

// cross is positive where c lies to the right of the way from a to b, seen
// with Y down.
func cross(a, b, c vec) float64 { return (b.x-a.x)*(c.y-a.y) - (b.y-a.y)*(c.x-a.x) }

func (p poly) signed() float64 {
	sum := 0.0
	for i := 2; i < len(p); i++ {
		sum += cross(p[0], p[i-1], p[i])
	}
	return sum / 2
}

// wound returns p with its corners in order.
func (p poly) wound() poly {
	if p.signed() >= 0 {
		return p
	}
	out := make(poly, len(p))
	for i, v := range p {
		out[len(p)-1-i] = v
	}
	return out
}

// clip returns what of p lies to the right of the way from a to b.
func (p poly) clip(a, b vec) poly {
	var out poly
	for i, v := range p {
		w := p[(i+1)%len(p)]
		dv, dw := cross(a, b, v), cross(a, b, w)
		if dv >= 0 {
			out = append(out, v)
		}
		if dv > 0 && dw < 0 || dv < 0 && dw > 0 {
			t := dv / (dv - dw)
			at := vec{v.x + t*(w.x-v.x), v.y + t*(w.y-v.y)}
			if a.x == b.x {
				at.x = a.x
			}
			if a.y == b.y {
				at.y = a.y
			}
			out = append(out, at)
		}
	}
	if out = out.tidy(); len(out) < 3 || out.signed() <= 0 {
		return nil
	}
	return out
}

// tidy drops corners that are nothing but an error of rounding away from the
// one before: an edge so short has no direction.
func (p poly) tidy() poly {
	const near = 1e-3
	out := p[:0]
	for _, v := range p {
		if n := len(out); n == 0 || math.Abs(v.x-out[n-1].x) > near || math.Abs(v.y-out[n-1].y) > near {
			out = append(out, v)
		}
	}
	for n := len(out); n > 1 && math.Abs(out[0].x-out[n-1].x) <= near && math.Abs(out[0].y-out[n-1].y) <= near; n = len(out) {
		out = out[:n-1]
	}
	return out
}

// minus returns what of p lies outside q.
func (p poly) minus(q poly) region {
	if !p.box().overlaps(q.box()) {
		return region{p}
	}
	var out region
	rest := p
	for i, a := range q {
		b := q[(i+1)%len(q)]
		if beyond := rest.clip(b, a); len(beyond) > 0 {
			out = append(out, beyond)
		}
		if rest = rest.clip(a, b); len(rest) == 0 {
			break
		}
	}
	return out
}

func (p poly) and(q poly) poly {
	if !p.box().overlaps(q.box()) {
		return nil
	}
	for i, a := range q {
		if p = p.clip(a, q[(i+1)%len(q)]); len(p) == 0 {
			return nil
		}
	}
	return p
}

// A box is the upright rectangle round something.
type box struct{ min, max vec }

func (b box) overlaps(c box) bool {
	return b.min.x < c.max.x && c.min.x < b.max.x && b.min.y < c.max.y && c.min.y < b.max.y
}

func (p poly) box() box { return region{p}.box() }

func (r region) box() box {
	b := box{vec{math.Inf(1), math.Inf(1)}, vec{math.Inf(-1), math.Inf(-1)}}
	for _, p := range r {
		for _, v := range p {
			b.min.x, b.min.y = min(b.min.x, v.x), min(b.min.y, v.y)
			b.max.x, b.max.y = max(b.max.x, v.x), max(b.max.y, v.y)
		}
	}
	return b
}

// rect returns the rectangle round r to the nanometre, empty if r is.
func (r region) rect() units.Rect {
	if len(r) == 0 {
		return units.Rect{}
	}
	b := r.box()
	nm := func(f float64) units.Length { return units.Length(math.Round(f)) }
	return units.Rect{Min: units.Point{X: nm(b.min.x), Y: nm(b.min.y)}, Max: units.Point{X: nm(b.max.x), Y: nm(b.max.y)}}
}

func (r region) area() float64 {
	sum := 0.0
	for _, p := range r {
		sum += p.signed()
	}
	return sum
}

// empty reports whether there is nothing of r, but for what sums are good for.
func (r region) empty() bool { return r.area() <= slack }

func (r region) and(q region) region {
	var out region
	for _, a := range r {
		for _, b := range q {
			if c := a.and(b); len(c) > 0 {
				out = append(out, c)
			}
		}
	}
	return out
}

func (r region) minus(q region) region {
	out := r
	for _, b := range q {
		var next region
		for _, a := range out {
			next = append(next, a.minus(b)...)
		}
		out = next
	}
	return out
}

// overlaps reports whether r and q share an area.
func (r region) overlaps(q region) bool { return r.box().overlaps(q.box()) && !r.and(q).empty() }

// same reports whether r and q are the same area.
func (r region) same(q region) bool { return r.minus(q).empty() && q.minus(r).empty() }

// polygon returns the area of a polygon that need not be convex, as the
// difference of the triangles from its first corner.
func polygon(corners []units.Point) region {
	if len(corners) < 3 {
		return nil
	}
	p := make(poly, len(corners))
	for i, c := range corners {
		p[i] = vecOf(c)
	}
	return ears(p.wound())
}

// ears cuts a simple polygon into triangles.
func ears(p poly) region {
	var out region
	p = append(poly(nil), p...)
	for len(p) > 3 {
		n, cut := len(p), false
		for i := range p {
			a, b, c := p[(i+n-1)%n], p[i], p[(i+1)%n]
			turn := cross(a, b, c)
			if turn < 0 || turn > 0 && holdsAny(poly{a, b, c}, p) {
				continue
			}
			if turn > 0 {
				out = append(out, poly{a, b, c})
			}
			p = append(p[:i:i], p[i+1:]...)
			cut = true
			break
		}
		if !cut {
			return out
		}
	}
	if p.signed() > 0 {
		out = append(out, p)
	}
	return out
}

// holdsAny reports whether a corner of p lies in a triangle and is none of its
// own.
func holdsAny(t, p poly) bool {
	for _, v := range p {
		if v != t[0] && v != t[1] && v != t[2] &&
			cross(t[0], t[1], v) >= 0 && cross(t[1], t[2], v) >= 0 && cross(t[2], t[0], v) >= 0 {
			return true
		}
	}
	return false
}
