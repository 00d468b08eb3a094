package folio

import (
	"strings"

	"boardwrap.example/internal/word"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// boardThing returns the piece that a board of the row is cut as.
func (p *Plan) boardThing(i int) work.Object {
	b := &p.boards[i]
	return work.Object{Index: int(b.piece), Copy: int(b.copy), Name: b.name}
}

// wrapObject returns a piece of the covering.
func (p *Plan) wrapObject(w wrapPart) work.Object {
	return work.Object{Index: w.piece, Copy: w.copy, Name: w.called(&p.pieces[w.piece])}
}

// called returns what a piece of the covering is called.
func (w *wrapPart) called(piece *Piece) string {
	if piece.quantity > 1 {
		return ordinal(w.copy) + " " + piece.name
	}
	return piece.name
}

// object returns a piece of which there is one copy.
func (p *Plan) object(i int) work.Object { return work.Object{Index: i, Name: p.pieceName(i)} }

// pieceName returns what a piece is called in the order of work: its name, and where
// another fitting has a piece of that name, also of which fitting it is.
func (p *Plan) pieceName(i int) string {
	piece := &p.pieces[i]
	if piece.fitting == 0 {
		return piece.name
	}
	for k := range p.pieces {
		if o := &p.pieces[k]; o.name == piece.name && o.fitting != piece.fitting && o.fitting > 0 {
			return p.fitted[piece.fitting-1].piecesName(i)
		}
	}
	return piece.name
}

// piecesName returns what a piece of the fitting is called with the fitting's name: that
// alone for a mat or a frame whose name says that it is one.
func (f *Fitted) piecesName(i int) string {
	name, label := f.plan.pieces[i].name, f.Label()
	if name == f.kind.String() && strings.HasSuffix(label, name) {
		return label
	}
	return partOf(name, label)
}

// boardBase returns the inside of a board, or its outside.
func (p *Plan) boardBase(i int, outside bool) work.Base {
	kind := work.OnBoard
	if outside {
		kind = work.OnOutside
	}
	return work.Base{Kind: kind, Index: i, Panel: work.All, Name: p.boards[i].name}
}

// partOf returns what a part of a fitting is called, and only that where the fitting
// is called so itself: there is no leaf of the leaf.
func partOf(part, fitting string) string {
	if part == fitting {
		return part
	}
	return part + " of " + word.The(fitting)
}

func onPiece(t work.Object) work.Base {
	return work.Base{Kind: work.OnPiece, Index: t.Index, Copy: t.Copy, Panel: work.All, Name: t.Name}
}

// Base returns the area on the row from whose edges places on a base are measured: of the
// whole cover or of one board, with the covering at the outer edges, as fittings, the
// liner and the block are laid. What a board is covered with is measured from its own
// edges, [Board.Rect]. It returns false for a base that is no part of the row.
func (p *Plan) Base(on work.Base) (area units.Rect, ok bool) {
	switch {
	case len(p.boards) == 0:
	case on.Kind == work.OnRow:
		return p.openCover(), true
	case on.Kind == work.OnBoard || on.Kind == work.OnOutside:
		if on.Index >= 0 && on.Index < len(p.boards) {
			return p.covered(on.Index), true
		}
	}
	return units.Rect{}, false
}

// covered returns where a board lies on the row with the covering round its
// outer edges, as hands measure from them.
func (p *Plan) covered(i int) units.Rect {
	r, cover := p.boards[i].rect, p.openCover()
	r.Min.Y, r.Max.Y = cover.Min.Y, cover.Max.Y
	if i == 0 {
		r.Min.X = cover.Min.X
	}
	if i == len(p.boards)-1 {
		r.Max.X = cover.Max.X
	}
	return r
}
