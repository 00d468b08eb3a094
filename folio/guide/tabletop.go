package guide

import (
	"boardwrap.example/pocket/work"
	"boardwrap.example/pocket/worktop"
	"boardwrap.example/score"
)

// partsOf lists the parts of a heap.
//
//go:noinline
func partsOf(h worktop.Heap) []worktop.Stretch {
	var list []worktop.Stretch
	for _, p := range h.Stretches() {
		list = append(list, p)
	}
	return list
}

// before returns the table as the step finds it: of the pieces of its fitting; nil
// where that is not known.
func (w *workshop) before() *worktop.Bench {
	last := w.last
	if last.t == nil || last.part != w.part || last.done > len(w.done) {
		last.part, last.done, last.lost, last.t = w.part, 0, false, worktop.New(w.blanks())
	}
	for _, a := range w.done[last.done:] {
		if last.lost = last.lost || w.handles(a) && !last.t.Do(a); last.lost {
			break
		}
	}
	if last.done = len(w.done); last.lost {
		return nil
	}
	return last.t.Clone()
}

// blanks lists the pieces of the fittings as they are cut, for the table that they
// are worked on.
func (w *workshop) blanks() []worktop.Workpiece {
	list := make([]worktop.Workpiece, len(w.pieces))
	for i, piece := range w.pieces {
		if w.owners[i] < 0 {
			continue // the case is not made on the table
		}
		list[i].Quantity = piece.Quantity()
		b, ok := piece.Blank()
		if !ok {
			d := score.Draft{Size: piece.Size()}
			for r := range piece.Openings() {
				d.CutOuts = append(d.CutOuts, score.CutOut{Area: r})
			}
			b, _ = score.NewBlank(d)
		}
		list[i].Blank = b
	}
	return list
}

// handles reports whether an action moves pieces of the fitting that the step
// is for.
func (w *workshop) handles(a work.Action) bool {
	of := -1
	switch a := a.(type) {
	case work.FoldAt:
		of = a.What.Index
	case work.TurnOver:
		of = a.What.Index
	case work.Fix:
		of = a.What.Index
		if a.What.Kind != work.Piece || a.On.Kind != work.OnPiece || w.owner(a.On.Index) < 0 {
			return false
		}
	case work.Stick:
		of = a.What.Index
	}
	i := w.owner(of)
	return i >= 0 && w.part.Kind == work.PartFitting && i == w.part.Index
}

// do does on the table what actions of the step do there.
func (w *workshop) do(t *worktop.Bench, list []work.Action) bool {
	ok := true
	for _, a := range list {
		if w.handles(a) {
			ok = t.Do(a) && ok
		}
	}
	return ok
}

// isOf reports whether a thing is the copy of a piece that is drawn.
func (w *workshop) isOf(t work.Object, s subject) bool {
	return t.Kind == work.Piece && t.Index == s.piece && (t.Copy == s.copy || t.Copy == work.All)
}

// lastFold returns the axis along which a piece was folded last, as it lies.
func (w *workshop) lastFold(s subject) score.Axis {
	axis := score.Upright
	for _, a := range w.done {
		if fold, ok := a.(work.FoldAt); ok && w.isOf(fold.What, s) {
			axis = fold.Axis
		}
	}
	return axis
}
