package worktop

import (
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A Crossing is a part of a heap where a section goes through it.
type Crossing struct {
	part     int
	from, to units.Length
	level    int
}

// Stretch returns its place in [Heap.Stretches].
func (c Crossing) Stretch() int { return c.part }

// Ends returns from where to where it is cut, on the table, as if nothing were cut
// out of its rectangle.
func (c Crossing) Ends() (from, to units.Length) { return c.from, c.to }

// Level returns on which level it lies: over all that is cut through under it,
// and no higher; parts of a piece that lie side by side and flat lie on one level.
func (c Crossing) Level() int { return c.level }

// Section returns the parts that a line through a point, across an axis, cuts
// through, from the lowest up. What stands up is no part of it.
func (h Heap) Section(axis score.Axis, through units.Point) []Crossing {
	across := through.Y
	if axis == score.Level {
		across = through.X
	}
	var list []Crossing
	for i, p := range h.parts {
		r := p.Rect()
		if axis == score.Level {
			r.Min.X, r.Min.Y, r.Max.X, r.Max.Y = r.Min.Y, r.Min.X, r.Max.Y, r.Max.X
		}
		if !p.stands && r.Min.Y <= across && across < r.Max.Y {
			list = append(list, Crossing{part: i, from: r.Min.X, to: r.Max.X})
		}
	}
	for range list { // until nothing rises any more
		if !h.rise(list) {
			break
		}
	}
	return list
}

// rise lifts what lies on another part over it, and what lies beside a part of its
// own piece to its level. It reports whether anything rose.
func (h Heap) rise(list []Crossing) bool {
	rose := false
	for i := range list {
		for k := range i {
			a, b := &list[k], &list[i]
			least := b.level
			if a.from < b.to && b.from < a.to {
				least = a.level + 1
			} else if p, q := h.parts[a.part], h.parts[b.part]; p.piece == q.piece && p.copy == q.copy && p.lies == q.lies && (a.to == b.from || b.to == a.from) {
				least = max(a.level, b.level)
				rose = rose || a.level < least
				a.level = least
			}
			if b.level < least {
				b.level, rose = least, true
			}
		}
	}
	return rose
}

// Fold returns where two cuts are joined by a fold: at an end of both, at which
// the piece goes on from one into the other.
func (h Heap) Fold(a, b Crossing, axis score.Axis) (at units.Length, ok bool) {
	if !h.holds(a.part) || !h.holds(b.part) || h.parts[a.part].lies == h.parts[b.part].lies {
		return 0, false
	}
	x, ok := h.End(a, b.part, axis)
	y, too := h.End(b, a.part, axis)
	return x, ok && too && x == y
}

func (h Heap) holds(part int) bool { return part >= 0 && part < len(h.parts) }

// End returns at which of its ends a cut goes on in another part, given by its
// place in Stretches: where both have the same straight edge on the drawing, or a
// stretch of it.
func (h Heap) End(c Crossing, part int, axis score.Axis) (at units.Length, ok bool) {
	if !h.holds(c.part) || !h.holds(part) || c.part == part {
		return
	}
	p, q := h.parts[c.part], h.parts[part]
	if p.piece != q.piece || p.copy != q.copy {
		return
	}
	for a, b := range p.edge.Edges() {
		from, to := p.lies.Point(a), p.lies.Point(b)
		if axis == score.Level {
			from.X, to.X = from.Y, to.Y
		}
		if from.X == to.X && (from.X == c.from || from.X == c.to) && shares(q.edge, a, b) {
			return from.X, true
		}
	}
	return
}

// shares reports whether an outline has a stretch of the straight edge from a to b.
func shares(p units.Polygon, a, b units.Point) bool {
	for c, d := range p.Edges() {
		if a.X == b.X && c.X == a.X && d.X == a.X && max(min(a.Y, b.Y), min(c.Y, d.Y)) < min(max(a.Y, b.Y), max(c.Y, d.Y)) {
			return true
		}
		if a.Y == b.Y && c.Y == a.Y && d.Y == a.Y && max(min(a.X, b.X), min(c.X, d.X)) < min(max(a.X, b.X), max(c.X, d.X)) {
			return true
		}
	}
	return false
}
