package guide

import (
	"slices"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// before returns the table as the step finds it: of the pieces of its fitting.
func (w *workshop) before() *worktop {
	var list []work.Action
	for _, a := range w.done {
		if w.handles(a) {
			list = append(list, a)
		}
	}
	return w.worktop(list)
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
		if a.What.Kind != work.Piece {
			return false
		}
	case work.Stick:
		of = a.What.Index
	}
	i := w.owner(of)
	return i >= 0 && w.part.Kind == work.PartFitting && i == w.part.Index
}

// heapFigures draws what a piece hangs together with: where it is folded, as it
// lies before, and in section after; else as it lies, with what is new.
func (w *workshop) heapFigures(q pen, s subject) []*figure {
	t := w.before()
	if t == nil {
		return w.flatFigure(q, s)
	}
	now := w.now
	for len(now) > 1 { // turned over again at the end, one would see the other side
		if _, ok := now[len(now)-1].(work.TurnOver); !ok {
			break
		}
		now = now[:len(now)-1]
	}
	var folds []work.FoldAt
	first := len(now)
	for i, a := range now {
		if fold, ok := a.(work.FoldAt); ok && w.isOf(fold.What, s) {
			first = min(first, i)
			folds = append(folds, fold)
		}
	}
	for _, a := range now[:first] {
		t.do(a)
	}
	if t.lost {
		return w.flatFigure(q, s)
	}
	h := t.heap(s.piece, s.copy)
	if len(folds) == 0 {
		return w.asItLies(q, s, h)
	}
	f := newFigure(q)
	f.heap(w, h, func(*part) lineKind { return there })
	xs, ys := f.folds(h, s.copy, folds)
	if len(folds) > 2 { // the lines are scored already
		xs, ys = nil, nil
	}
	f.around(h.bounds(), xs, ys)
	f.nameOf(w, h, s)
	f.settle()
	figs := []*figure{f}
	if after := w.bentFigure(q, s, h, folds); after != nil {
		return append(figs, after)
	}
	for _, a := range now[first:] {
		t.do(a)
	}
	if t.lost {
		return figs
	}
	g, after := newFigure(q), t.heap(s.piece, s.copy)
	axis, through := after.lineOf(folds[len(folds)-1], s.copy)
	g.cutThrough(w, after, axis, through, after.several())
	g.settle()
	if len(g.lines) == 0 {
		return figs
	}
	g.say("beside it in section afterwards, layers drawn apart")
	return append(figs, g)
}

// flatFigure draws the piece flat, where it is not known how it lies.
func (w *workshop) flatFigure(q pen, s subject) []*figure {
	f := newFigure(q)
	if !w.flat(f, s) {
		return nil
	}
	f.settle()
	return []*figure{f}
}

// isOf reports whether a thing is the copy of a piece that is drawn.
func (w *workshop) isOf(t work.Thing, s subject) bool {
	return t.Kind == work.Piece && t.Index == s.piece && (t.Copy == s.copy || t.Copy == work.All)
}

// lineOf returns how the line of a fold that was made runs on the table, and its
// middle.
func (h *heap) lineOf(a work.FoldAt, n int) (score.Axis, units.Point) {
	for _, p := range h.parts {
		if p.piece != a.What.Index || p.copy != n || p.stands {
			continue
		}
		if b, e, ok := p.edgeOn(a.Axis, a.At); ok {
			axis, _ := p.lies.line(a.Axis, a.At)
			return axis, p.lies.point(middleOf(boundsOf([]units.Point{b, e})))
		}
	}
	return a.Axis, middleOf(h.bounds())
}

// several reports whether a heap has parts of more than one piece.
func (h *heap) several() bool {
	return slices.ContainsFunc(h.parts, func(p *part) bool { return p.piece != h.parts[0].piece || p.copy != h.parts[0].copy })
}

// bentFigure draws a flat piece that is only creased, in section; nil where it is
// folded, or lies in layers already.
func (w *workshop) bentFigure(q pen, s subject, h *heap, folds []work.FoldAt) *figure {
	axis := folds[0].Axis
	for _, a := range folds {
		if !a.Open || a.Axis != axis {
			return nil
		}
	}
	for _, p := range h.parts {
		if p.piece != s.piece || p.lies != h.parts[0].lies {
			return nil
		}
	}
	inorder.Sort(folds, func(a, b work.FoldAt) int { return compare(a.At, b.At) })
	piece, _ := w.piece(s.piece)
	ends, kinds := []units.Length{0}, []score.Fold(nil)
	for _, a := range folds {
		kind := score.Valley
		if a.Way == work.Away {
			kind = score.Mountain
		}
		ends, kinds = append(ends, a.At), append(kinds, kind)
	}
	long := piece.Size().W
	if axis == score.Level {
		long = piece.Size().H
	}
	turnsFirst := folds[0].Moves == score.Left || folds[0].Moves == score.Head
	ends = append(ends, long)
	if lies := h.parts[0].lies; lies.a+lies.d == 0 && (axis == score.Upright) == (lies.a < 0) { // seen the other way round
		slices.Reverse(kinds)
		slices.Reverse(ends)
		for i := range ends {
			ends[i] = long - ends[i]
		}
		turnsFirst = !turnsFirst
	}
	f := newFigure(q)
	f.bent(ref{s.piece, s.copy, -1, w.owner(s.piece)}, ends, kinds, turnsFirst)
	f.settle()
	f.say("beside it in section, half opened")
	return f
}

// asItLies draws a heap as it lies, with what is new.
func (w *workshop) asItLies(q pen, s subject, h *heap) []*figure {
	fresher := func(p *part) bool {
		return slices.ContainsFunc(w.now, func(a work.Action) bool {
			fix, ok := a.(work.Fix)
			return ok && fix.What.Kind == work.Piece && fix.What.Index == p.piece && (fix.What.Copy == p.copy || fix.What.Copy == work.All)
		})
	}
	stuck := slices.ContainsFunc(w.now, func(a work.Action) bool { _, ok := a.(work.Stick); return ok })
	if stuck {
		if h.plain() {
			return nil // it is drawn flat already
		}
		f := newFigure(q)
		f.cutThrough(w, h, w.lastFold(s), middleOf(h.round(s.piece, s.copy)), true)
		f.settle()
		f.say("beside it in section as it lies, layers drawn apart")
		return []*figure{f}
	}
	f := newFigure(q)
	f.heap(w, h, func(p *part) lineKind {
		if fresher(p) {
			return fresh
		}
		return there
	})
	f.nameOf(w, h, s)
	base, placed := h.round(s.piece, s.copy), false
	for _, a := range w.now {
		fix, ok := a.(work.Fix)
		if !ok || fix.What.Kind != work.Piece {
			continue
		}
		r := h.round(fix.What.Index, max(fix.What.Copy, 0))
		if r.Empty() {
			continue
		}
		f.name(fix.What.Name, r, ref{fix.What.Index, max(fix.What.Copy, 0), -1, -1})
		if !placed {
			placed = true
			f.around(base, []units.Length{r.Min.X, r.Max.X}, []units.Length{r.Min.Y, r.Max.Y})
		}
	}
	for _, a := range w.now {
		fix, ok := a.(work.Fix)
		if !ok || fix.What.Kind != work.Content || fix.On.Kind != work.OnPiece || fix.On.Index != s.piece || max(fix.On.Copy, 0) != s.copy {
			continue
		}
		r := fix.At.Rect(fix.Size, base.Size()).Moved(base.Min)
		f.rect(fresh, ref{-1, 0, -1, w.owner(s.piece)}, r)
		f.name(fix.What.Name, r, nothing)
		if !placed {
			placed = true
			f.around(base, []units.Length{r.Min.X, r.Max.X}, []units.Length{r.Min.Y, r.Max.Y})
		}
	}
	if !placed {
		f.around(h.bounds(), nil, nil)
	}
	f.settle()
	figs := []*figure{f}
	if slices.ContainsFunc(h.parts, func(p *part) bool { return p.turned }) {
		g := newFigure(q)
		g.cutThrough(w, h, w.lastFold(s), middleOf(base), true)
		g.settle()
		g.say("beside it in section as it lies, layers drawn apart")
		figs = append(figs, g)
	}
	return figs
}

// round returns the rectangle round what lies flat of a copy of a piece.
func (h *heap) round(piece, copy int) units.Rect {
	own := heap{}
	for _, p := range h.parts {
		if p.piece == piece && p.copy == copy {
			own.parts = append(own.parts, p)
		}
	}
	return own.bounds()
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

// around dimensions a rectangle with places in it, along its head and its left.
func (f *figure) around(r units.Rect, xs, ys []units.Length) {
	f.chain(score.Head, sortedPlaces(append(xs, r.Min.X, r.Max.X)...))
	f.chain(score.Left, sortedPlaces(append(ys, r.Min.Y, r.Max.Y)...))
}

// nameOf names the piece that a heap is drawn for.
func (f *figure) nameOf(w *workshop, h *heap, s subject) {
	piece, _ := w.piece(s.piece)
	var at units.Rect
	for _, p := range h.parts { // the largest part that lies highest
		if r := boundsOf(p.shape()); p.piece == s.piece && p.copy == s.copy && !p.stands && r.Size().Area().Compare(at.Size().Area()) >= 0 {
			at = r
		}
	}
	if !at.Empty() {
		f.name(piece.Name(), at, ref{s.piece, s.copy, -1, -1})
	}
}
