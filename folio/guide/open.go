package guide

import (
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/view"
	"boardwrap.example/internal/inorder"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Inside draws the open folio as one sees its inside: the edges of the boards
// and of what is turned in under the liner, the liner, the fittings and what
// they hold.
func Inside(p *folio.Plan, o Options) (Picture, bool) { return open(p, o, false) }

// Outside draws the open folio as one sees its outside, with what is fitted
// there; the boards under the covering are hidden.
func Outside(p *folio.Plan, o Options) (Picture, bool) { return open(p, o, true) }

func open(p *folio.Plan, o Options, outside bool) (Picture, bool) {
	if !drawable(p) {
		return Picture{}, false
	}
	o = o.made(p)
	write, side := o.figures(p.Notation()), "inside"
	if outside {
		side = "outside"
	}
	size := units.Size{W: p.OpenWidth().Length(), H: p.OpenHeight().Length()}
	describe := "The " + side + " of the open folio, " + write.size(size) + fittingsOn(p, outside) + "."
	// All but the words is the same at each scale.
	bare := newFigure(pen{})
	xs, ys := bare.openBare(p, outside, finished(p))
	return compose("Open folio, "+side, describe, o, write, func(q pen) []*figure {
		f := bare.with(q)
		f.chain(score.Head, xs)
		f.chain(score.Left, ys)
		return []*figure{f}
	}), true
}

// fittingsOn names the fittings on a side, for a description.
func fittingsOn(p *folio.Plan, outside bool) string {
	text, join := "", ", with "
	for g := range p.Fittings() {
		if g.Outside() == outside {
			text += join + g.Label()
			join = ", "
		}
	}
	return text
}

// A state says how far the work on a folio has come: with which kind of line
// each part of it is drawn, absent for what is not there.
type state struct {
	worked                  bool // it is being made: its edge is there already
	turnedIn, edging, liner lineKind
	fittings                []lineKind
	contents                []lineKind          // by fitting
	copies                  map[[2]int]lineKind // of fittings, of what has come by itself, by piece and copy
	turned                  map[[2]int]lineKind // of turnedIn, by piece and copy; nil is all alike
	bare                    bool                // without names and dimensions
	unmeasured              bool                // without dimensions
}

// finished is the state of a finished folio.
func finished(p *folio.Plan) state {
	s := state{turnedIn: outline, edging: outline, liner: outline}
	for range p.Fittings() {
		s.fittings, s.contents = append(s.fittings, outline), append(s.contents, outline)
	}
	return s
}

// open draws the open folio from a side, with the dimensions of its boards.
func (f *figure) open(p *folio.Plan, outside bool, s state) {
	xs, ys := f.openBare(p, outside, s)
	if s.bare || s.unmeasured {
		return
	}
	f.chain(score.Head, xs)
	f.chain(score.Left, ys)
}

// openBare draws the open folio from a side without dimensions, and returns the places
// between which those of its boards run.
func (f *figure) openBare(p *folio.Plan, outside bool, s state) (across, along []units.Length) {
	seen := p.View(view.Cover)
	cover := units.Rect{Max: units.Point{X: p.OpenWidth().Length(), Y: p.OpenHeight().Length()}}
	if outside {
		row := p.View(view.Cover).Inverse()
		seen = p.View(view.Outside)
		cover = seen.Rect(row.Rect(cover))
	}
	edge := outline
	if s.worked {
		edge = there
	}
	var list []sheetlet
	var xs []units.Length
	for b := range p.Boards() {
		i, n := b.Piece()
		r := seen.Rect(b.Rect())
		of := ofCopy(i, n)
		f.within(hidden, of, r, cover)
		xs = append(xs, r.Min.X, r.Max.X)
		if !s.bare && !carries(p, b.Role(), outside, s) {
			f.name(b.Name(), r, of)
		}
	}
	whole := flat(edge, nothing, cover)
	whole.under = true
	list = append(list, whole)
	if !outside {
		for t := range p.TurnIns() {
			i, n := t.Piece()
			k := s.turnedIn
			if s.turned != nil {
				k = absent
				if at, ok := s.turned[[2]int{i, n}]; ok {
					k = at
				}
			}
			if k != absent {
				list = append(list, sheetlet{of: ofCopy(i, n), kind: k, pts: cornersOf(seen.Polygon(t.Outline())), quiet: true})
			}
		}
		for _, l := range laidAs(p, stock.EdgeStripPiece) {
			if s.edging != absent {
				list = append(list, sheetlet{of: ofPiece(l.piece), kind: s.edging, pts: corners(seen.Rect(l.rect)), quiet: true})
			}
		}
		for _, l := range laidAs(p, stock.LinerPiece) {
			if s.liner != absent {
				list = append(list, flat(s.liner, ofPiece(l.piece), seen.Rect(l.rect)))
			}
		}
	}
	f.stack(f.fitted(list, p, seen, outside, s))
	xs = sortedPlaces(xs...)
	xs[0], xs[len(xs)-1] = cover.Min.X, cover.Max.X // hands measure from the covered edge
	return xs, []units.Length{cover.Min.Y, cover.Max.Y}
}

// within draws the edges of a rectangle that do not lie on those of another.
func (f *figure) within(k lineKind, of ref, r, outer units.Rect) {
	pts := corners(r)
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		level, upright := a.Y == b.Y && (a.Y == outer.Min.Y || a.Y == outer.Max.Y), a.X == b.X && (a.X == outer.Min.X || a.X == outer.Max.X)
		if !level && !upright {
			f.line(k, of, false, a, b)
		}
	}
}

// carries reports whether there is a fitting on a side of a board.
func carries(p *folio.Plan, r boards.Role, outside bool, s state) bool {
	b, _ := p.Board(r)
	for g := range p.Fittings() {
		on, _ := p.Board(g.Panel())
		if on.Role() == b.Role() && g.Outside() == outside && s.fittings[g.Index()] != absent {
			return true
		}
	}
	return false
}

// placed lists the pieces of a plan where they lie.
//
//go:noinline
func placed(p *folio.Plan) []folio.Placed {
	var list []folio.Placed
	for q := range p.Placed() {
		list = append(list, q)
	}
	return list
}

// A laid is a piece where it lies.
type laid struct {
	name        string
	piece, copy int
	rect        units.Rect
}

// laidAs lists the pieces of a role where they lie on the row.
//
//go:noinline
func laidAs(p *folio.Plan, role stock.PieceRole) []laid {
	var roles []folio.Piece
	for piece := range p.Pieces() {
		roles = append(roles, piece)
	}
	var list []laid
	for _, q := range placed(p) {
		if i, n := q.Piece(); roles[i].Role() == role {
			list = append(list, laid{roles[i].Name(), i, n, q.Rect()})
		}
	}
	return list
}

// laidOn lists what is glued on the covering where it lies there: the boards, and a
// stiffener midway between them.
//
//go:noinline
func laidOn(p *folio.Plan) []laid {
	var list []laid
	for b := range p.Boards() {
		r, _ := p.OnWrap(b.Role())
		i, n := b.Piece()
		list = append(list, laid{b.Name(), i, n, r})
	}
	for _, l := range laidAs(p, stock.StiffenerPiece) {
		size, left, right := l.rect.Size(), list[0].rect, list[1].rect
		l.rect = units.RectAt(units.Point{X: left.Max.X + (right.Min.X - left.Max.X - size.W).Half(units.Down), Y: left.Min.Y}, size)
		list = append(list, l)
	}
	return list
}

// fitted adds the fittings of a side, from the bottom up.
func (f *figure) fitted(list []sheetlet, p *folio.Plan, seen view.Transform, outside bool, s state) []sheetlet {
	for _, g := range standing(p) {
		i := g.Index()
		k := s.fittings[i]
		if g.Outside() != outside || k == absent {
			continue
		}
		of := ofFitting(i)
		parts, above := lying(g)
		if n := len(parts) - 4*mostDrawn; n > 0 { // the lowest and the highest
			parts = slices.Delete(parts, 2*mostDrawn, 2*mostDrawn+n)
			f.say("layers between are left out")
		}
		at := len(list)
		for _, q := range parts {
			piece, n := q.Piece()
			panel, ok := q.Panel()
			if !ok {
				panel = none
			}
			kind := k
			if own, ok := s.copies[[2]int{piece, n}]; ok {
				kind = own
			}
			part := flat(kind, ref{piece, n, panel, i}, seen.Rect(q.Rect()), holes(p, q, seen)...)
			edge := q.Outline()
			if _, plain := edge.Rect(); !plain {
				part.pts = cornersOf(seen.Polygon(edge))
			}
			list = append(list, part)
		}
		if len(parts) == 0 {
			list = append(list, flat(k, of, seen.Rect(g.Rect())))
		}
		if s.contents[i] != absent {
			for _, spot := range g.Spots() {
				if _, ok := spot.Content(); !ok || spot.Hidden() {
					continue
				}
				held := flat(s.contents[i], of, seen.Rect(spot.Lies()))
				if _, slips := spot.Mouth(); slips || spot.ByCorners() {
					list = slices.Insert(list, at+above, held)
				} else {
					list = append(list, held)
				}
			}
		}
		f.name(g.Label(), seen.Rect(g.Rect()), of)
	}
	return list
}

// standing lists the fittings, each after what it stands on, which comes before it in
// the Spec: all that stand on a panel, then all that stand on those.
func standing(p *folio.Plan) []folio.Fitted {
	var list, sorted []folio.Fitted
	var heights []int
	for g := range p.Fittings() {
		height := 0
		if on, ok := g.StandsOn(); ok {
			height = heights[on] + 1
		}
		list, heights = append(list, g), append(heights, height)
	}
	for height := 0; len(sorted) < len(list); height++ {
		for i := range list {
			if heights[i] == height {
				sorted = append(sorted, list[i])
			}
		}
	}
	return sorted
}

// lying lists the parts of a fitting from the bottom up, and says how many of
// them lie under what it holds: foam under a frame; the panels of what is folded
// in the order of their layers.
func lying(g folio.Fitted) (parts []folio.Placed, above int) {
	type part struct {
		folio.Placed
		level int
	}
	var levels []int
	if d, ok := g.Design(); ok {
		levels = d.Levels()
	}
	roles := map[int]stock.PieceRole{} // only looked up
	for i, piece := range g.Pieces() {
		roles[i] = piece.Role()
	}
	var list []part
	most := 0
	for q := range g.Placed() {
		i, _ := q.Piece()
		level := 1
		switch n, ok := q.Panel(); {
		case ok && n < len(levels):
			level = levels[n]
		case roles[i] == stock.FoamPiece:
			level = 0
		}
		most = max(most, level)
		list = append(list, part{q, level})
	}
	inorder.Sort(list, func(a, b part) int { return a.level - b.level })
	for _, q := range list {
		if q.level == 0 && most > 0 {
			above++
		}
		parts = append(parts, q.Placed)
	}
	return parts, above
}

// pieceAt returns the piece of a plan at a place among them.
func pieceAt(p *folio.Plan, i int) (piece folio.Piece) {
	for piece = range p.Pieces() {
		if i--; i < 0 {
			break
		}
	}
	return piece
}

// holes lists the openings of a piece where it lies: in its middle, so that they are the
// same on the outside.
func holes(p *folio.Plan, q folio.Placed, seen view.Transform) [][]units.Point {
	i, _ := q.Piece()
	piece := pieceAt(p, i)
	var list [][]units.Point
	for r := range piece.Openings() {
		list = append(list, corners(seen.Rect(r.Moved(q.Rect().Min))))
	}
	return list
}
