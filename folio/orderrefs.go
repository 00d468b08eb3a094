package folio

import (
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

// ordinal tells copies of a piece apart, and things of one name, counted from 0.
func ordinal(copy int) string {
	words := [...]string{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth"}
	if copy < len(words) {
		return words[copy]
	}
	n := copy + 1
	end := "th"
	if n%100/10 != 1 && n%10 >= 1 && n%10 <= 3 {
		end = [...]string{"st", "nd", "rd"}[n%10-1]
	}
	return count(n) + end
}

// object returns a piece of which there is one copy.
func (p *Plan) object(i int) work.Object { return work.Object{Index: i, Name: p.pieces[i].name} }

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
