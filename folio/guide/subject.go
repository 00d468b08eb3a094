package guide

import (
	"slices"

	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
)

// A subject is what is drawn of a step.
type subject struct {
	view  subjectView
	piece int // of onPiece and onHeap
	copy  int
	over  bool // it lies turned over
	// one is for a piece of which only the copy is meant: boards that are alike until
	// magnets are sunk in them.
	one bool
}

type subjectView uint8

const (
	onPiece   subjectView = iota // a flat piece
	onHeap                       // what a piece hangs together with, as it lies
	onWrap                       // the covering laid flat
	onInside                     // the open folio
	onOutside                    // the open folio turned over
	onClosed                     // the closed folio
	onGrain                      // the boards with the grain
	onMeasure                    // the open folio as it is measured
	onPress                      // what dries, in section
)

// subjects lists what is to be drawn of the step, in the order of its actions.
func (w *workshop) subjects() []subject {
	var list []subject
	for i, a := range w.now {
		if first, ok := w.repeated(i); ok { // one of them is drawn for all
			w.alike[first] = a.(work.Fix).On.Name
			continue
		}
		if s, ok := w.subject(a); ok && !slices.Contains(list, s) {
			list = append(list, s)
		}
		if s, ok := w.coated(a); ok && !slices.Contains(list, s) {
			list = append(list, s)
		}
		if stick, ok := a.(work.Stick); ok && stick.Standing && stick.To.Kind == work.OnBoard && !slices.Contains(list, subject{view: onInside}) {
			list = append(list, subject{view: onInside})
		}
	}
	return list
}

// repeated returns which subject an action before i is drawn on that does the same to
// another copy of a piece, where both copies are loose and lie as they were cut.
func (w *workshop) repeated(i int) (of subject, ok bool) {
	next, ok := w.now[i].(work.Fix)
	if !ok {
		return subject{}, false
	}
	for _, a := range w.now[:i] {
		if first, ok := a.(work.Fix); ok && first.Again(next) {
			t := w.before()
			of, _ = heaped(first.On.Index, first.On.Copy)
			return of, t != nil && t.Heap(of.piece, of.copy).AsCut() && t.Heap(next.On.Index, next.On.Copy).AsCut()
		}
	}
	return subject{}, false
}

// coated returns what is drawn besides: the folded piece of which parts take
// adhesive, flat beside where it goes; what hangs together with a piece that is
// stuck, as it lies.
func (w *workshop) coated(a work.Action) (subject, bool) {
	if s, ok := a.(work.Stick); ok {
		return subject{view: onHeap, piece: s.What.Index, copy: s.What.Copy}, s.What.Kind == work.Piece
	}
	fix, ok := a.(work.Fix)
	if !ok || fix.What.Kind != work.Piece || len(fix.Areas) == 0 {
		return subject{}, false
	}
	piece := w.piece(fix.What.Index)
	b, folded := piece.Blank()
	if !folded {
		return subject{}, false
	}
	for range b.Lines() {
		return subject{view: onPiece, piece: fix.What.Index}, true
	}
	return subject{}, false
}

// subject returns what an action is drawn on.
func (w *workshop) subject(a work.Action) (subject, bool) {
	flat := func(t work.Object) (subject, bool) {
		return subject{view: onPiece, piece: t.Index}, t.Kind == work.Piece
	}
	switch a := a.(type) {
	case work.FindGrain:
		return subject{view: onGrain}, true
	case work.Cut:
		return flat(a.What)
	case work.Open:
		return flat(a.What)
	case work.NotchOut:
		return flat(a.What)
	case work.ScoreAt:
		s, ok := flat(a.What)
		s.over = a.On == score.Back
		return s, ok
	case work.FoldAt:
		return heaped(a.What.Index, a.What.Copy)
	case work.TurnOver:
		s, _ := heaped(a.What.Index, a.What.Copy)
		return s, !slices.ContainsFunc(w.now, func(a work.Action) bool { _, ok := a.(work.TurnOver); return !ok })
	case work.Stick:
		return flat(a.What)
	case work.Sink:
		return subject{view: onPiece, piece: a.What.Index, copy: a.What.Copy, one: true}, a.What.Kind == work.Piece
	case work.Trim:
		if w.role(a.What.Index) == stock.CoveringPiece || w.role(a.What.Index) == stock.StripPiece {
			return subject{view: onWrap}, true
		}
		return flat(a.What)
	case work.Draw: // lines are drawn on the covering
		return subject{view: onWrap}, true
	case work.MarkPlace:
		return w.base(a.On, a.What)
	case work.Lay:
		return w.base(a.On, a.What)
	case work.Put:
		return w.base(a.On, a.What)
	case work.Fix:
		if a.What.Kind == work.Content && a.On.Kind == work.OnPiece { // its places are those on the piece
			return heaped(a.On.Index, a.On.Copy)
		}
		return w.base(a.On, a.What)
	case work.Insert:
		return w.base(a.On, a.What)
	case work.TurnIn, work.Tuck, work.Rub:
		return subject{view: onInside}, true
	case work.Measure, work.Refit:
		return subject{view: onMeasure}, true
	case work.Dry:
		return subject{view: onPress}, true
	case work.Close:
		return subject{view: onClosed}, true
	}
	return subject{}, false
}

// heaped returns what a copy of a piece hangs together with as what is drawn.
func heaped(piece, copy int) (subject, bool) {
	return subject{view: onHeap, piece: piece, copy: max(copy, 0)}, true
}

// base returns what something that lies on a base is drawn on.
func (w *workshop) base(on work.Base, what work.Object) (subject, bool) {
	switch on.Kind {
	case work.OnOutside:
		if r := w.role(what.Index); what.Kind == work.Piece && (r == stock.CoveringPiece || r == stock.StripPiece) {
			return subject{view: onWrap}, true
		}
		if what.Kind == work.Magnet {
			return w.board(on.Index), true
		}
		return subject{view: onOutside}, true
	case work.OnPiece:
		if r := w.role(on.Index); r == stock.CoveringPiece || r == stock.StripPiece {
			return subject{view: onWrap}, true
		}
		switch i := w.owner(on.Index); {
		case i < 0:
		case w.fittings[i] == absent, what.Kind == work.Piece && w.owner(what.Index) == i:
			return heaped(on.Index, on.Copy)
		case w.fits[i].Outside():
			return subject{view: onOutside}, true
		}
	case work.OnBought:
		if w.fits[on.Index].Outside() {
			return subject{view: onOutside}, true
		}
	case work.OnBoard:
		if what.Kind == work.Magnet {
			return w.board(on.Index), true
		}
	}
	return subject{view: onInside}, true
}

// board returns the piece of a board as what is drawn.
func (w *workshop) board(index int) subject {
	i, copy := slices.Collect(w.p.Boards())[index].Piece()
	return subject{view: onPiece, piece: i, copy: copy, one: true}
}

// boardName returns what the board is called that a copy of a piece is.
func (w *workshop) boardName(piece, copy int) (name string) {
	for b := range w.p.Boards() {
		if i, c := b.Piece(); i == piece && c == copy {
			name = b.Name()
		}
	}
	return name
}
