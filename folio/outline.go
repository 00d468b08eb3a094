package folio

import (
	"iter"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Outline returns the outline of the piece as it is cut, from its upper left
// corner: a rectangle, less the mitres; of a folded one less slants, notches and
// what is cut out at its edges, as [score.Blank.Outline] gives it. Windows are not
// part of it.
func (p Piece) Outline() units.Polygon {
	if !p.plain() {
		edge, _ := p.blank.Outline()
		return edge
	}
	var leg [4]units.Length // by corner
	for c := range leg {
		if p.mitred>>c&1 > 0 {
			leg[c] = p.mitres.legs[c]
		}
	}
	size := p.Size()
	w, h := size.W, size.H
	return polygon(
		units.Point{X: leg[score.HeadLeft]}, units.Point{X: w - leg[score.HeadRight]},
		units.Point{X: w, Y: leg[score.HeadRight]}, units.Point{X: w, Y: h - leg[score.TailRight]},
		units.Point{X: w - leg[score.TailRight], Y: h}, units.Point{X: leg[score.TailLeft], Y: h},
		units.Point{Y: h - leg[score.TailLeft]}, units.Point{Y: leg[score.HeadLeft]},
	)
}

// polygon is NewPolygon for corners that are known to make one.
func polygon(corners ...units.Point) units.Polygon {
	p, _ := units.NewPolygon(corners...)
	return p
}

// A Placed is one copy of a piece, or one panel of a folded one, as it lies on
// the row, as planned or as measured.
type Placed struct {
	plan *Plan
	lain
	fitting     int // 1 + the fitting's place in the plan, 0 for the case
	first, last int
	outside     bool
}

// A lain is a copy of a piece, or a panel of a folded one, and where it lies.
type lain struct {
	piece, copy int32
	panel       int32 // 1 + that of a folded fitting's design, 0 for a whole piece
	over        bool  // the other side than the piece's is up: it was folded over
	rect        units.Rect
}

// laying tells where a copy of a piece lies.
func laying(piece, copy int, r units.Rect) lain {
	return lain{piece: int32(piece), copy: int32(copy), rect: r}
}

// Piece returns the place of the piece in [Plan.Pieces], and which copy it is,
// counted from 0.
func (p Placed) Piece() (index, copy int) { return int(p.piece), int(p.copy) }

// Panel returns which panel of a folded fitting's design it is, as the design
// counts them, and false for a whole piece.
func (p Placed) Panel() (index int, ok bool) { return int(p.panel) - 1, p.panel > 0 }

// Fitting returns the place in [Plan.Fittings] of the fitting that it belongs
// to, and false for a piece of the case.
func (p Placed) Fitting() (index int, ok bool) { return p.fitting - 1, p.fitting > 0 }

// Boards returns the places in the row of the leftmost and the rightmost board
// that it is or lies on.
func (p Placed) Boards() (first, last int) { return p.first, p.last }

// Rect returns the least rectangle round it on the row.
func (p Placed) Rect() units.Rect { return p.rect }

// Outline returns its outline on the row: what of it is cut off and into its edges
// is no part of it.
func (p Placed) Outline() units.Polygon {
	if p.plan == nil { // the zero Placed is nothing
		return p.rect.Polygon()
	}
	piece := &p.plan.pieces[p.piece]
	if p.panel > 0 {
		design := p.plan.fitted[p.fitting-1].design
		for n, panel := range design.Panels() {
			if n == int(p.panel)-1 {
				closed := panel.Closed()
				out := design.Outline(panel).Moved(units.Point{X: -closed.Min.X, Y: -closed.Min.Y})
				if p.outside { // seen from inside
					out = out.Mirrored(closed.Size().W)
				}
				return out.Moved(p.rect.Min)
			}
		}
	}
	if piece.mitred == 0 {
		return p.rect.Polygon()
	}
	return piece.Outline().Moved(p.rect.Min)
}

// Outside reports whether it lies at the outside of the folio: the wrap under the
// boards, and what is fitted there.
func (p Placed) Outside() bool { return p.outside }

// Up returns which side of its material one sees who looks at the inside: the
// wrong side of a wrap, the right side of a liner; of what is fitted on the
// outside, the side that lies away from the board.
func (p Placed) Up() work.PaperSide {
	if p.plan == nil {
		return work.RightSide
	}
	up := p.plan.pieces[p.piece].up
	if p.over {
		up = up.Other()
	}
	return up
}

// Placed walks all pieces where they lie on the row, as planned or as measured:
// the boards, left to right; the stiffener of a soft spine; the pieces of the wrap, laid flat under the boards
// with nothing turned in yet, spine strips before the side papers that lap them;
// edge strips, as they lie when they have gone round the boards' edges; the pieces of
// the liner; and those of the fittings, as [Fitted.Placed]. Where
// the edges of the wrap come to lie is told by [Plan.TurnIns].
func (p *Plan) Placed() iter.Seq[Placed] {
	return func(yield func(Placed) bool) {
		for i := range p.boards {
			b := &p.boards[i]
			if !yield(Placed{plan: p, lain: laying(int(b.piece), int(b.copy), b.rect), first: i, last: i}) {
				return
			}
		}
		if p.stiff != nil && !yield(Placed{plan: p, lain: laying(p.stiff.piece, 0, p.stiffAt()), last: 1}) {
			return
		}
		for _, part := range p.wrap.parts {
			if !yield(Placed{plan: p, lain: laying(part.piece, part.copy, p.laid(part)), first: part.first, last: part.last, outside: true}) {
				return
			}
		}
		for _, list := range [...][]lined{p.edgings, p.liner} {
			for _, l := range list {
				if !yield(Placed{plan: p, lain: laying(int(l.piece), 0, l.rect), first: int(l.first), last: int(l.last)}) {
					return
				}
			}
		}
		for i := range p.fitted {
			if !p.fitted[i].placed(yield) {
				return
			}
		}
	}
}

// placed walks where the pieces of the fitting lie, and reports whether it was to
// the end.
func (f *Fitted) placed(yield func(Placed) bool) bool {
	for _, l := range f.lain {
		board := f.plan.index(f.panel)
		if !yield(Placed{plan: f.plan, lain: l, fitting: f.index + 1, first: board, last: board, outside: f.outside}) {
			return false
		}
	}
	return true
}

// laid returns where a piece of the wrap lies on the row, flat. The whole wrap
// and a strip lie about the middle of what they cover; a side paper keeps its
// place on its board, at the outer edge where it has one.
func (p *Plan) laid(part wrapPart) units.Rect {
	piece := &p.pieces[part.piece]
	row := p.row()
	planned := p.boards[len(p.boards)-1]
	x := part.x - p.wrap.w.near.Length() // on the row as planned
	y := -p.wrap.h.near.Length() + (row.H - planned.height.Length()).Half(units.Down)
	first, last := &p.boards[part.first], &p.boards[part.last]
	right := func(b *Board) units.Length { return b.planned + b.width.Length() }
	switch {
	case part.strip:
		x += ((first.rect.Max.X - right(first)) + (last.rect.Min.X - last.planned)).Half(units.Down)
	case part.first != part.last:
		x += (row.W - right(&planned)).Half(units.Down)
	case part.first == len(p.boards)-1:
		x += last.rect.Max.X - right(last)
	default:
		x += first.rect.Min.X - first.planned
	}
	return units.RectAt(units.Point{X: x, Y: y}, piece.Size())
}

// wrapCorner returns where the upper left corner of the whole covering lies on
// the row.
func (p *Plan) wrapCorner() units.Point {
	var corner units.Point
	for _, part := range p.wrap.parts {
		if r := p.laid(part); r.Min.X < corner.X { // left of the boards
			corner = r.Min
		}
	}
	return corner
}

// A TurnedEdge is an edge of a piece of the wrap as it lies on the inside of the
// boards after it has been turned in over their edge.
type TurnedEdge struct {
	piece, copy int
	edge        score.Edge
	depth       units.Length
	outline     units.Polygon
}

// Piece returns the place of the piece of the wrap in [Plan.Pieces], and which
// copy it is, counted from 0.
func (t TurnedEdge) Piece() (index, copy int) { return t.piece, t.copy }

// Edge returns which edge is turned in.
func (t TurnedEdge) Edge() score.Edge { return t.edge }

// Depth returns how far it reaches over the boards from their edge: what the
// wrap stands past the edge, less board and covering.
func (t TurnedEdge) Depth() units.Length { return t.depth }

// Outline returns where it lies on the row: from the boards' edge inwards, with
// its mitred ends. Of two mitred turn-ins that meet at a corner the one that is
// turned in later lies over the other; the ears that are tucked round the corner
// before it are left out.
func (t TurnedEdge) Outline() units.Polygon { return t.outline }

// TurnIns walks the turn-ins of the wrap where they lie on the row, as planned or
// as measured: piece by piece as [Plan.Placed], each from head and tail to left
// and right.
func (p *Plan) TurnIns() iter.Seq[TurnedEdge] {
	return func(yield func(TurnedEdge) bool) {
		for _, part := range p.wrap.parts {
			for _, e := range [...]score.Edge{score.Head, score.Tail, score.Left, score.Right} {
				if t, ok := p.turnIn(part, e); ok && !yield(t) {
					return
				}
			}
		}
	}
}

// turnIn works out one turn-in, and reports whether the piece has one there.
func (p *Plan) turnIn(part wrapPart, edge score.Edge) (TurnedEdge, bool) {
	flap, ok := p.flap(part, edge)
	if !ok {
		return TurnedEdge{}, false
	}
	out := TurnedEdge{piece: part.piece, copy: part.copy, edge: edge, depth: flap.depth}
	row := p.row()
	out.outline = polygon(flap.corners(func(along, deep units.Length) units.Point {
		return turnedIn(row, edge, along, deep)
	})...)
	return out, true
}

// turnedIn returns the point of the row so far along an edge and so deep in from
// it.
func turnedIn(row units.Size, edge score.Edge, along, deep units.Length) units.Point {
	switch edge {
	case score.Head:
		return units.Point{X: along, Y: deep}
	case score.Tail:
		return units.Point{X: along, Y: row.H - deep}
	case score.Left:
		return units.Point{X: deep, Y: along}
	}
	return units.Point{X: row.W - deep, Y: along}
}

// flap works out the shape of one turn-in, and reports whether the piece has one
// there.
func (p *Plan) flap(part wrapPart, edge score.Edge) (flap, bool) {
	laid, row := p.laid(part), p.row()
	round := p.spec.Board.Caliper + p.pieces[part.piece].caliper
	atLeft, atRight := !part.strip && part.first == 0, !part.strip && part.last == len(p.boards)-1
	past := [...]units.Length{score.Head: -laid.Min.Y, score.Tail: laid.Max.Y - row.H, score.Left: -laid.Min.X, score.Right: laid.Max.X - row.W}
	if edge == score.Left && !atLeft || edge == score.Right && !atRight {
		return flap{}, false
	}
	depth := past[edge] - round
	if depth <= 0 {
		return flap{}, false
	}
	// A mitre crosses the boards' edge lines this far from their corner, and the
	// turn-in keeps its full length as far in as the cut has over the edge.
	over := func(c score.Corner, side, end score.Edge) units.Length {
		return past[side] + past[end] - p.wrap.mitres.legs[c] - round
	}
	out := flap{depth: depth}
	switch edge {
	case score.Head, score.Tail:
		left, right := score.HeadLeft, score.HeadRight
		if edge == score.Tail {
			left, right = score.TailLeft, score.TailRight
		}
		out.from, out.to = max(laid.Min.X, 0), min(laid.Max.X, row.W)
		out.mitredFrom, out.overFrom = atLeft, over(left, score.Left, edge)
		out.mitredTo, out.overTo = atRight, over(right, score.Right, edge)
	default:
		head, tail := score.HeadLeft, score.TailLeft
		if edge == score.Right {
			head, tail = score.HeadRight, score.TailRight
		}
		out.to = row.H
		out.mitredFrom, out.overFrom = true, over(head, edge, score.Head)
		out.mitredTo, out.overTo = true, over(tail, edge, score.Tail)
	}
	return out, true
}

// A flap is a turn-in along its edge, which runs from one place to another, with
// ends that are straight or mitred.
type flap struct {
	depth                units.Length
	from, to             units.Length
	mitredFrom, mitredTo bool
	overFrom, overTo     units.Length // how deep the end is straight before the mitre slants
}

// ends returns how the flap ends at both ends. They do not cross: the cuts stay on
// their halves of the paper, or the plan is refused.
func (f flap) ends() (from, to end) {
	return endOf(f.mitredFrom, f.overFrom, f.depth), endOf(f.mitredTo, f.overTo, f.depth)
}

// An end is how a flap ends: how far in along the edge it begins there, how deep it
// is straight, and how far in its full depth begins.
type end struct{ edge, straight, inner units.Length }

func endOf(mitred bool, over, deep units.Length) end {
	switch {
	case !mitred:
		return end{0, deep, 0}
	case over < 0:
		return end{-over, 0, deep - over}
	}
	return end{0, min(over, deep), max(deep-over, 0)}
}

// corners returns the corners of the flap, from the edge inwards and back.
func (f flap) corners(at func(along, deep units.Length) units.Point) []units.Point {
	a, b := f.ends()
	return []units.Point{
		at(f.from+a.edge, 0), at(f.from+a.edge, a.straight), at(f.from+a.inner, f.depth),
		at(f.to-b.inner, f.depth), at(f.to-b.edge, b.straight), at(f.to-b.edge, 0),
	}
}
