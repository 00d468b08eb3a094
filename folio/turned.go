package folio

import (
	"slices"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// ofTurnIns stands for the turn-ins of the wrap where fittings have their
// places in the plan, and ofBlock for the block.
const (
	ofBlock   = -1
	ofTurnIns = -2
	ofBoard   = -3 // a board or a fold itself, among lumps
)

// turned walks what the covering adds to the inside of the boards: each turn-in, board
// by board, as the rectangle round it, and then each edge strip. At a mitred corner two of them count over
// the whole of their square, as they lie on each other along its diagonal, with
// the ears that are tucked under them. It reports whether the walk came to its
// end.
func (p *Plan) turned(yield func(Height) bool) bool {
	row := p.row()
	for _, part := range p.wrap.parts {
		for _, e := range [...]score.Edge{score.Head, score.Tail, score.Left, score.Right} {
			f, ok := p.flap(part, e)
			if !ok {
				continue
			}
			from, to := f.ends()
			r := between(turnedIn(row, e, f.from+from.edge, 0), turnedIn(row, e, f.to-to.edge, f.depth))
			for i := range p.boards {
				b := &p.boards[i]
				h := Height{ofTurnIns, b.role, false, r.Intersect(b.rect), p.pieces[part.piece].caliper}
				if !h.rect.Empty() && !yield(h) {
					return false
				}
			}
		}
	}
	for _, l := range p.edgings {
		for i := l.first; i <= l.last; i++ {
			b := &p.boards[i]
			if !yield(Height{ofTurnIns, b.role, false, l.rect.Intersect(b.rect), p.spec.Covering.Caliper}) {
				return false
			}
		}
	}
	return true
}

// between returns the rectangle between two corners that lie across from each
// other.
func between(a, b units.Point) units.Rect {
	return units.Rect{
		Min: units.Point{X: min(a.X, b.X), Y: min(a.Y, b.Y)},
		Max: units.Point{X: max(a.X, b.X), Y: max(a.Y, b.Y)},
	}
}

// outer is the least caliper of covering on the outside of a board. What lies
// there beyond it is walked by [Plan.lapped].
func (p *Plan) outer() units.Length {
	if p.wrap.quarter {
		return min(p.spec.Covering.Caliper, p.spec.SpineCovering.Caliper)
	}
	return p.spec.Covering.Caliper
}

// lapped walks what the covering of a board's outside is thicker than [Plan.outer]:
// in quarter style its strips and its side paper, and where the one laps the
// other both.
func (p *Plan) lapped(r boards.Role, yield func(Height) bool) {
	if !p.wrap.quarter {
		return
	}
	board := &p.boards[p.index(r)]
	thin := p.outer()
	var paper units.Rect
	for _, part := range p.wrap.parts {
		if !part.strip && p.boards[part.first].role == r {
			paper = p.laid(part).Intersect(board.rect)
		}
	}
	if h := p.spec.Covering.Caliper - thin; h > 0 && !paper.Empty() && !yield(Height{ofTurnIns, r, true, paper, h}) {
		return
	}
	for _, part := range p.wrap.parts {
		strip := p.laid(part).Intersect(board.rect)
		if !part.strip || strip.Empty() {
			continue
		}
		// Under the paper all of the strip counts, beside it what it is thicker.
		lap, bare := strip.Intersect(paper), strip
		switch {
		case lap.Empty():
		case lap.Min.X > strip.Min.X:
			bare.Max.X = lap.Min.X
		default:
			bare.Min.X = lap.Max.X
		}
		caliper := p.pieces[part.piece].caliper
		if !lap.Empty() && !yield(Height{ofTurnIns, r, true, lap, caliper}) ||
			caliper > thin && !bare.Empty() && !yield(Height{ofTurnIns, r, true, bare, caliper - thin}) {
			return
		}
	}
}

// edged reports whether edge strips may lie on the boards.
func (s *Spec) edged() bool {
	row := s.shape()
	return s.Lining.Lap > 0 && s.Lining.Rule != rule.LiningOnePiece && slices.Contains(row.folds[:], score.Mountain)
}

// overEdge is the most that the covering adds to a board's edge at head and tail:
// in quarter style where a side paper laps a strip.
func (s *Spec) overEdge(quarter bool) units.Length {
	if quarter {
		return s.Covering.Caliper + s.SpineCovering.Caliper
	}
	return s.Covering.Caliper
}

// atHinge is the caliper of the covering that is turned in at head and tail of a
// hinge and comes to lie between the boards there.
func (s *Spec) atHinge(quarter bool) units.Length {
	if quarter {
		return s.SpineCovering.Caliper
	}
	return s.Covering.Caliper
}

// turnIns is the most that turn-ins add to what lies between two faces when the
// folio is closed, before the wrap is known: both at a mitred corner, or in
// quarter style those of a side paper and of the strip that it laps. A cover has
// corners, a flap as well; what they close over has some only in a row of three, and
// where an edge strip crosses a turn-in.
func (s *Spec) turnIns(faces int) units.Length {
	c := s.Covering.Caliper
	most := 2 * faces
	if faces == 2 && s.lying() > 2 && !s.edged() {
		most--
	}
	out := times(c, most)
	if s.Quarter.Rule != rule.QuarterNever {
		out = max(out, times(s.overEdge(true), faces))
	}
	return out
}
