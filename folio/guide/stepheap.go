package guide

import (
	"cmp"
	"slices"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/pocket/work"
	"boardwrap.example/pocket/worktop"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

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
	w.do(t, now[:first])
	h := t.Heap(s.piece, s.copy)
	if len(folds) == 0 {
		return w.asItLies(q, s, h)
	}
	f := newFigure(q)
	f.heap(w, s, h, func(worktop.Stretch) lineKind { return there })
	xs, ys := f.folds(h, s.copy, folds)
	if len(folds) > 2 { // the lines are scored already
		xs, ys = nil, nil
	}
	f.around(h.Bounds(), xs, ys)
	f.nameOf(w, h, s)
	figs := []*figure{f}
	if after := w.creased(q, s, h, t, folds); after != nil {
		return append(figs, after)
	}
	if !w.do(t, now[first:]) {
		return figs
	}
	g, after := newFigure(q), t.Heap(s.piece, s.copy)
	axis, through := lineOf(after, folds[len(folds)-1], s.copy)
	g.cutThrough(w, after, axis, through, several(after))
	g.say("beside it in section afterwards, layers drawn apart")
	return append(figs, g)
}

// flatFigure draws the piece flat, where it is not known how it lies.
func (w *workshop) flatFigure(q pen, s subject) []*figure {
	f := newFigure(q)
	w.flat(f, s)
	return []*figure{f}
}

// several reports whether a heap has parts of more than one piece.
func several(h worktop.Heap) bool {
	first, copy := -1, 0
	for _, p := range partsOf(h) {
		i, n := p.Piece()
		if first >= 0 && (i != first || n != copy) {
			return true
		}
		first, copy = i, n
	}
	return false
}

// creased draws a piece that is only creased, along one axis, half opened; nil where
// it is folded.
func (w *workshop) creased(q pen, s subject, h worktop.Heap, t *worktop.Bench, folds []work.FoldAt) *figure {
	for _, a := range folds {
		if !a.Open || a.Axis != folds[0].Axis {
			return nil
		}
	}
	if f := w.bentFigure(q, s, h, folds); f != nil {
		return f
	}
	return w.halfOpened(q, s, t, folds)
}

// bentFigure draws a flat piece that is only creased, in section; nil where it lies
// in layers already, or not as it is drawn.
func (w *workshop) bentFigure(q pen, s subject, h worktop.Heap, folds []work.FoldAt) *figure {
	axis := folds[0].Axis
	for _, p := range partsOf(h) {
		if i, _ := p.Piece(); i != s.piece || p.Lies() != worktop.AsDrawn() {
			return nil
		}
	}
	inorder.Sort(folds, func(a, b work.FoldAt) int { return cmp.Compare(a.At, b.At) })
	piece := w.piece(s.piece)
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
	f := newFigure(q)
	f.bent(w.of(s.piece, s.copy), ends, kinds, turnsFirst)
	f.say("beside it in section, half opened")
	return f
}

// standing draws in section a piece whose folds stand up on what its ends lie on: what is
// beside a mountain fold stands, and all else lies. It returns false where that does not
// come down again.
func (f *figure) standing(b score.Blank, of ref) bool {
	size, apart, high := b.Size(), f.pen.mm(1000), f.pen.mm(4000)
	var at units.Point
	from, up := units.Length(0), false
	var lying []units.Length
	panel := func(to units.Length, up, down bool) {
		next := at
		switch long := to - from; {
		case up: // to the left of its fold
			next = units.Point{X: at.X + apart, Y: at.Y - max(long, high)}
		case down:
			next = units.Point{X: at.X + apart, Y: at.Y + max(long, high)}
		default:
			next.X += long
			lying = append(lying, at.X, next.X)
		}
		f.line(outline, of, false, at, next)
		at, from = next, to
	}
	for _, l := range b.Lines() {
		if l.Axis != score.Upright {
			return false
		}
		mountain := l.Fold == score.Mountain
		panel(l.At, mountain, up)
		up = mountain
	}
	panel(size.W, false, up)
	if at.Y != 0 || len(lying) < 2 {
		return false
	}
	f.chain(score.Tail, lying[:2])
	return true
}

// asItLies draws a heap as it lies, with what is new.
func (w *workshop) asItLies(q pen, s subject, h worktop.Heap) []*figure {
	fresher := func(p worktop.Stretch) bool {
		piece, copy := p.Piece()
		return slices.ContainsFunc(w.now, func(a work.Action) bool {
			fix, ok := a.(work.Fix)
			return ok && fix.What.Kind == work.Piece && fix.What.Index == piece && fix.What.Copy == copy
		})
	}
	stands := false
	stuck := slices.ContainsFunc(w.now, func(a work.Action) bool {
		stick, ok := a.(work.Stick)
		stands = stands || stick.Standing
		return ok
	})
	if stuck {
		f := newFigure(q)
		if blank, _ := w.piece(s.piece).Blank(); stands && f.standing(blank, w.of(s.piece, s.copy)) {
			f.name(w.copyName(s.piece, s.copy), f.body, w.of(s.piece, s.copy))
			f.say("beside it in section as it stands, folds drawn apart")
			return []*figure{f}
		}
		f.cutThrough(w, h, w.lastFold(s), middleOf(h.Of(s.piece, s.copy)), true)
		f.say("beside it in section as it lies, layers drawn apart")
		return []*figure{f}
	}
	f := newFigure(q)
	f.heap(w, s, h, func(p worktop.Stretch) lineKind {
		if fresher(p) {
			return fresh
		}
		return there
	})
	f.nameOf(w, h, s)
	if last, ok := w.alike[s]; ok {
		f.say("alike up to " + last)
	}
	base := h.Of(s.piece, s.copy)
	var xs, ys []units.Length
	fromRight := false // the first of several
	for _, a := range w.now {
		fix, ok := a.(work.Fix)
		if !ok {
			continue
		}
		r, of, lies := units.Rect{}, nothing, worktop.AsDrawn()
		switch {
		case fix.What.Kind == work.Piece:
			r, of = h.Of(fix.What.Index, fix.What.Copy), ofCopy(fix.What.Index, fix.What.Copy)
			if _, flat := w.coated(a); flat { // it is drawn flat besides
				fix.Areas = nil
			}
			for _, p := range partsOf(h) {
				if i, n := p.Piece(); i == fix.What.Index && n == fix.What.Copy {
					lies = p.Lies()
				}
			}
		case fix.What.Kind == work.Content && fix.On.Kind == work.OnPiece && fix.On.Index == s.piece && fix.On.Copy == s.copy:
			r = fix.At.Rect(fix.Size, base.Size()).Moved(base.Min)
			f.rect(fresh, ofFitting(w.owner(s.piece)), r)
		}
		if r.Empty() {
			continue
		}
		for _, area := range fix.Areas {
			if fix.What.Kind == work.Content {
				area = area.Moved(r.Min)
			}
			f.fields = append(f.fields, field{lies.Rect(area), true, nothing})
		}
		f.name(fix.What.Name, r, of)
		xs, ys = append(xs, r.Min.X, r.Max.X), append(ys, r.Min.Y, r.Max.Y)
		if len(xs) == 2 {
			fromRight = fix.At.Across == score.Right
		}
	}
	if xs == nil {
		base = h.Bounds()
	}
	several := len(xs) > 2 // strips of a frame, told from opposite edges
	xs, ys = f.around(base, xs, ys)
	if several {
		f.running(score.Tail, xs, fromRight)
		f.running(score.Right, ys, false)
	}
	figs := []*figure{f}
	if slices.ContainsFunc(partsOf(h), worktop.Stretch.Turned) {
		g := newFigure(q)
		g.cutThrough(w, h, w.lastFold(s), middleOf(base), true)
		g.say("beside it in section as it lies, layers drawn apart")
		figs = append(figs, g)
	}
	return figs
}

// around dimensions a rectangle with places in it, along its head and its left, and
// returns all places with its edges.
func (f *figure) around(r units.Rect, xs, ys []units.Length) (across, along []units.Length) {
	xs, ys = sortedPlaces(append(xs, r.Min.X, r.Max.X)...), sortedPlaces(append(ys, r.Min.Y, r.Max.Y)...)
	f.chain(score.Head, xs)
	f.chain(score.Left, ys)
	return xs, ys
}

// nameOf names the piece that a heap is drawn for.
func (f *figure) nameOf(w *workshop, h worktop.Heap, s subject) {
	var at units.Rect
	for _, p := range partsOf(h) { // the largest part that lies highest
		i, n := p.Piece()
		if r := p.Rect(); i == s.piece && n == s.copy && !p.Stands() && r.Size().Area().Compare(at.Size().Area()) >= 0 {
			at = r
		}
	}
	name := w.copyName(s.piece, s.copy)
	for _, a := range w.now {
		if fold, ok := a.(work.FoldAt); ok && fold.What.Copy == work.All { // and not only of the one that is drawn
			name = fold.What.Name
		}
	}
	if !at.Empty() {
		f.name(name, at, ofCopy(s.piece, s.copy))
	}
}
