package worktop

import (
	"iter"
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A Stretch is what of a copy of a piece lies between the folds that were made.
type Stretch struct {
	piece, copy int
	area        units.Rect // of the drawing, within which it lies
	edge        units.Polygon
	openings    []units.Polygon
	lies        Lie
	turned      bool
	stands      bool
}

// Piece returns the place of the piece in what the table was made for, and which
// copy it is, from 0.
func (p Stretch) Piece() (index, copy int) { return p.piece, p.copy }

// Area returns the rectangle of the drawing that it is between folds.
func (p Stretch) Area() units.Rect { return p.area }

// Outline returns its outline on the drawing, less what is cut off and into its
// edges, and the openings in it.
func (p Stretch) Outline() (edge units.Polygon, openings []units.Polygon) {
	return p.edge, slices.Clone(p.openings)
}

// Lies returns how it lies; what stands up as it would before it was stood up.
func (p Stretch) Lies() Lie { return p.lies }

// Rect returns the least rectangle round it on the table.
func (p Stretch) Rect() units.Rect { return p.lies.Rect(p.edge.Bounds()) }

// Turned reports whether a fold has turned it.
func (p Stretch) Turned() bool { return p.turned }

// Stands reports whether it stands up at a right angle to the rest.
func (p Stretch) Stands() bool { return p.stands }

// EdgeOn returns the part's edge on a line of the drawing: from its first point to
// its last there, also where something is cut out between them.
func (p Stretch) EdgeOn(axis score.Axis, at units.Length) (a, b units.Point, ok bool) {
	far := func(q units.Point) (off, along units.Length) {
		if axis == score.Level {
			return q.Y - at, q.X
		}
		return q.X - at, q.Y
	}
	for q, r := range p.edge.Edges() {
		off, _ := far(q)
		other, _ := far(r)
		if off != 0 || other != 0 {
			continue
		}
		for _, c := range [...]units.Point{q, r} {
			_, along := far(c)
			_, first := far(a)
			_, last := far(b)
			if !ok || along < first {
				a = c
			}
			if !ok || along > last {
				b = c
			}
			ok = true
		}
	}
	return a, b, ok
}

// within keeps of the part what lies in a rectangle of the drawing, and reports
// whether anything does.
func (p *Stretch) within(b score.Blank, r units.Rect) bool {
	if r = r.Intersect(p.area); r.Empty() {
		return false
	}
	edge, openings := b.Part(r)
	if edge.Empty() {
		return false
	}
	p.area, p.edge = r, edge.Moved(r.Min)
	p.openings = openings // of a list of its own
	for i := range p.openings {
		p.openings[i] = p.openings[i].Moved(r.Min)
	}
	return true
}

// A Heap is what hangs together on the table: parts over each other, of one piece
// or of several that are stuck together.
type Heap struct {
	parts []*Stretch // from the lowest up
	bonds []bond
	wall  *wall // stands up, and is to be laid down by the next fold
}

// A bond is where two pieces are stuck together, by points of their drawings.
type bond struct{ a, b spot }

type spot struct {
	piece, copy int
	at          units.Point
}

// A wall is the first of two folds at right angles.
type wall struct {
	axis  score.Axis
	at    units.Length
	way   work.Way
	moved map[*Stretch]bool
}

// Stretches walks the stretches from the lowest up.
func (h Heap) Stretches() iter.Seq2[int, Stretch] {
	return func(yield func(int, Stretch) bool) {
		for i, p := range h.parts {
			if !yield(i, *p) {
				return
			}
		}
	}
}

// Bounds returns the rectangle round the parts that lie flat.
func (h Heap) Bounds() units.Rect {
	return h.bounds(func(*Stretch) bool { return true })
}

// Of returns the rectangle round what lies flat of a copy of a piece.
func (h Heap) Of(piece, copy int) units.Rect {
	return h.bounds(func(p *Stretch) bool { return p.piece == piece && p.copy == copy })
}

func (h Heap) bounds(of func(*Stretch) bool) units.Rect {
	var all units.Rect
	for _, p := range h.parts {
		if !p.stands && of(p) {
			all = all.Union(p.Rect())
		}
	}
	return all
}

// AsCut reports whether it is a piece by itself that was never folded and lies as
// it was drawn.
func (h Heap) AsCut() bool { return len(h.parts) == 1 && h.parts[0].lies == AsDrawn() }

// Wall returns which way a part was stood up that the next fold is to lay down
// again, and whether one was.
func (h Heap) Wall() (way work.Way, stood bool) {
	if h.wall == nil {
		return
	}
	return h.wall.way, true
}

// GoesOn reports whether a point on an edge of a part, given by its place in
// Stretches, is none of the paper's edge: the piece goes on beyond it and lies, or
// stands, with it. The point is one of the drawing.
func (h Heap) GoesOn(part int, at units.Point) bool {
	if part < 0 || part >= len(h.parts) {
		return false
	}
	p := h.parts[part]
	return slices.ContainsFunc(h.parts, func(q *Stretch) bool {
		return q != p && q.piece == p.piece && q.copy == p.copy && q.lies == p.lies && q.stands == p.stands && onEdge(q.edge, at)
	})
}

// onEdge reports whether a point lies on an outline.
func onEdge(p units.Polygon, q units.Point) bool {
	for a, b := range p.Edges() {
		if q.X < min(a.X, b.X) || q.X > max(a.X, b.X) || q.Y < min(a.Y, b.Y) || q.Y > max(a.Y, b.Y) {
			continue
		}
		if (b.X - a.X).By(q.Y-a.Y).Compare((b.Y - a.Y).By(q.X-a.X)) == 0 {
			return true
		}
	}
	return false
}

// at returns the part that a point of a drawing is on.
func (h *Heap) at(s spot) *Stretch {
	for _, p := range h.parts {
		if p.piece == s.piece && p.copy == s.copy && p.edge.Contains(s.at) {
			return p
		}
	}
	return nil
}

func (h *Heap) move(by Lie) {
	for _, p := range h.parts {
		p.lies = p.lies.then(by)
	}
	if by.Up() == score.Back {
		slices.Reverse(h.parts)
	}
}

// clone copies the heap, so that it stays as it is.
func (h *Heap) clone() Heap {
	out := Heap{parts: make([]*Stretch, len(h.parts)), bonds: h.bonds[:len(h.bonds):len(h.bonds)], wall: h.wall}
	for i, p := range h.parts {
		q := *p
		out.parts[i] = &q
	}
	return out
}

// apart is clone with a wall of its own, so that it can be worked on.
func (h *Heap) apart() *Heap {
	out := h.clone()
	if h.wall != nil {
		wall := *h.wall
		wall.moved = make(map[*Stretch]bool, len(h.wall.moved))
		for i, p := range h.parts {
			if h.wall.moved[p] {
				wall.moved[out.parts[i]] = true
			}
		}
		out.wall = &wall
	}
	return &out
}
