package folio

import (
	"iter"

	"boardwrap.example/folio/boards"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A Wrap is the covering of the case: one sheet, or in quarter style spine
// strips and side papers. The axes are those of the whole covering even where
// it is made of several pieces.
type Wrap struct {
	quarter bool
	onSheet bool
	w, h    Extent
	sheet   lie
	parts   []wrapPart
	plan    *Plan
	mitres  mitring
}

// Quarter reports whether the case is covered in quarter style.
func (w Wrap) Quarter() bool { return w.quarter }

// Size returns the size of the whole covering laid out: that of the sheet to
// cut, unless it is in quarter style.
func (w Wrap) Size() units.Size {
	return units.Size{W: lengthOf(w.w.blank), H: lengthOf(w.h.blank)}
}

// Across returns margins and blank from left to right.
func (w Wrap) Across() Extent { return w.w }

// Along returns margins and blank from head to tail.
func (w Wrap) Along() Extent { return w.h }

// Source returns the sheet the wrap is cut from, as it lies, whether it is
// turned from how Spec.Covering lists it, and whether there is a list to choose
// from. In quarter style there is no such sheet: see the pieces.
func (w Wrap) Source() (size units.Size, turned, ok bool) {
	return w.sheet.size, w.sheet.turned, w.onSheet
}

// Pieces walks the pieces of the covering from left to right: spine strips
// before the side papers that lap them.
func (w Wrap) Pieces() iter.Seq[WrapPiece] {
	return func(yield func(WrapPiece) bool) {
		for _, part := range w.parts {
			if !yield(WrapPiece{piece: w.plan.pieces[part.piece], index: part.piece, part: part}) {
				return
			}
		}
	}
}

// Corners returns the four mitres, on the whole covering.
func (w Wrap) Corners() [4]CornerCut {
	var all [4]CornerCut
	for c := range all {
		all[c] = CornerCut{score.Corner(c), &w.mitres, w.Size()}
	}
	return all
}

// A wrapPart is a piece of the covering, or a copy of one.
type wrapPart struct {
	piece, copy int
	x           units.Length // on the whole covering
	first, last int          // the wide boards that it lies on
	strip       bool
}

// A WrapPiece is one piece of the covering and where its left edge lies on the
// whole covering.
type WrapPiece struct {
	piece Piece
	index int
	part  wrapPart
}

// Piece returns what has to be cut.
func (w WrapPiece) Piece() Piece { return w.piece }

// Name returns what the order of work calls it, which tells copies apart: "second spine
// strip".
func (w WrapPiece) Name() string { return w.part.called(&w.piece) }

// Index returns the place of the piece in [Plan.Pieces], and which copy it is,
// counted from 0.
func (w WrapPiece) Index() (piece, copy int) { return w.index, w.part.copy }

// X returns how far the piece's left edge lies from the left edge of the whole
// covering.
func (w WrapPiece) X() units.Length { return w.part.x }

// Strip reports whether the piece is a spine strip of quarter style.
func (w WrapPiece) Strip() bool { return w.part.strip }

// Boards returns the places in the row of the leftmost and the rightmost board
// that the piece is glued to.
func (w WrapPiece) Boards() (first, last int) { return w.part.first, w.part.last }

// A PlacementLine is a line drawn on the wrong side of a wrap piece to lay the
// boards by.
type PlacementLine struct {
	upright bool
	at      units.Length
	board   boards.Role
	edge    score.Edge
}

// Upright reports whether it runs from head to tail, else from left to right.
func (l PlacementLine) Upright() bool { return l.upright }

// At returns how far an upright line lies from the covering's left edge, a level
// one from its head edge.
func (l PlacementLine) At() units.Length { return l.at }

// Board returns the board that the line is an edge of.
func (l PlacementLine) Board() boards.Role { return l.board }

// Edge returns which edge of the board it is.
func (l PlacementLine) Edge() score.Edge { return l.edge }

// Placement walks the lines to draw on the wrong side of the whole covering:
// the head and tail edges of the boards, then the left and right edge of each
// board, from the covering's upper left corner. They are those of the plan,
// whatever was measured.
func (p *Plan) Placement() iter.Seq[PlacementLine] {
	return func(yield func(PlacementLine) bool) {
		if len(p.boards) == 0 {
			return
		}
		head := p.wrap.h.near.Length()
		first := p.boards[0]
		if !yield(PlacementLine{false, head, first.role, score.Head}) ||
			!yield(PlacementLine{false, head + first.height.Length(), first.role, score.Tail}) {
			return
		}
		left := p.wrap.w.near.Length()
		for _, b := range p.boards {
			x := left + b.planned
			if !yield(PlacementLine{true, x, b.role, score.Left}) ||
				!yield(PlacementLine{true, x + b.width.Length(), b.role, score.Right}) {
				return
			}
		}
	}
}

// OnWrap returns where a board is to be laid on the whole covering, whatever was
// measured, and whether the row has that board.
func (p *Plan) OnWrap(r boards.Role) (units.Rect, bool) {
	i := p.index(r)
	if i < 0 {
		return units.Rect{}, false
	}
	b := p.boards[i]
	at := units.Point{X: p.wrap.w.near.Length() + b.planned, Y: p.wrap.h.near.Length()}
	return units.RectAt(at, b.Size()), true
}
