package guide

import (
	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/view"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Wrap draws the covering laid flat, its wrong side up, with the boards where
// they are glued and the corners that are cut off. Of a covering in several
// pieces those that lap others lie over them.
func Wrap(p *folio.Plan, o Options) (Picture, bool) {
	if !drawable(p) {
		return Picture{}, false
	}
	write := o.figures(p.Notation())
	describe := "The covering laid flat, wrong side up, " + write.size(p.Wrap().Size()) + ", with the boards on it"
	if p.Wrap().Quarter() {
		describe += "; it is made of several pieces"
	}
	return compose("Boards on the wrap", describe+".", o, write, func(q pen) []*figure {
		f := newFigure(q)
		f.wrapped(p, planned())
		if !p.Wrap().Quarter() {
			c := p.Wrap().Corners()[score.HeadLeft]
			f.say("mitres through " + q.write.text(c.Leg().Length()) + " from each corner")
		}
		return []*figure{f}
	}), true
}

// wrapState says how far the covering has come that is drawn laid flat.
type wrapState struct {
	paper func(piece, copy int) lineKind
	board func(piece, copy int) lineKind
	lines [][2]units.Point // drawn to lay the boards by
	cuts  [][2]units.Point // that take corners off
	step  bool             // it is drawn for a step, and dimensioned for that
	over  bool             // it is seen from outside, and dimensioned elsewhere
	// turned tells which pieces are turned in at head and tail already.
	turned map[[2]int]lineKind
	on     [2]int // in a step, the piece and the copy from whose edges places are measured
}

// planned is the covering with its boards.
func planned() wrapState {
	all := func(int, int) lineKind { return outline }
	return wrapState{paper: all, board: all}
}

// wrapped draws the covering laid flat.
func (f *figure) wrapped(p *folio.Plan, s wrapState) {
	parts := map[[2]int]folio.WrapPiece{} // by piece and copy; only looked up
	for part := range p.Wrap().Pieces() {
		i, n := part.Index()
		parts[[2]int{i, n}] = part
	}
	whole := p.Wrap().Size()
	var xs []units.Length
	ys := []units.Length{0, whole.H}
	view := p.View(view.Wrap)
	seen := func(r units.Rect) units.Rect {
		if s.over {
			r.Min.X, r.Max.X = whole.W-r.Max.X, whole.W-r.Min.X
		}
		return r
	}
	var papers, onThem []sheetlet
	var on units.Rect
	for _, q := range placed(p) {
		i, n := q.Piece()
		if _, fitted := q.Fitting(); fitted || !q.Outside() {
			continue
		}
		k, part := s.paper(i, n), parts[[2]int{i, n}]
		if k == absent {
			continue
		}
		// It is laid as it was planned, whatever was measured since.
		r := view.Rect(q.Rect())
		by := units.Point{X: part.X() - r.Min.X}
		r = seen(r.Moved(by))
		if s.turned[[2]int{i, n}] == there {
			board, _ := p.OnWrap(boards.MainPanel)
			r.Min.Y, r.Max.Y = board.Min.Y, board.Max.Y
		}
		paper := flat(k, ofCopy(i, n), r)
		if !s.step { // its corners are cut off when all else is done
			paper.pts = cornersOf(view.Polygon(q.Outline()).Moved(by))
		}
		if s.over {
			papers = append(papers, paper)
		} else { // the strips lie next to the boards
			papers = append([]sheetlet{paper}, papers...)
		}
		xs = append(xs, r.Min.X, r.Max.X)
		if s.step && s.on == [2]int{i, n} {
			on = r
		}
		f.nameIn(part.Name(), paper.pts, paper.of)
	}
	for _, l := range laidOn(p) {
		k := s.board(l.piece, l.copy)
		if k == absent {
			continue
		}
		r := seen(l.rect)
		board := flat(k, ofCopy(l.piece, l.copy), r)
		onThem = append(onThem, board)
		xs, ys = append(xs, r.Min.X, r.Max.X), append(ys, r.Min.Y, r.Max.Y)
		f.name(l.name, r, board.of)
	}
	if s.over {
		f.stack(append(onThem, papers...))
	} else {
		f.stack(append(papers, onThem...))
	}
	for _, l := range s.lines {
		f.line(drawn, nothing, false, l[0], l[1])
		if l[0].X == l[1].X {
			xs = append(xs, l[0].X)
		} else {
			ys = append(ys, l[0].Y)
		}
	}
	for _, c := range s.cuts {
		f.line(knife, nothing, false, c[0], c[1])
	}
	switch {
	case len(s.cuts) > 0:
		f.legs(s.cuts)
	case s.over:
	case s.step:
		if !on.Empty() {
			all := xs
			xs = nil
			for _, x := range all {
				if on.Min.X <= x && x <= on.Max.X {
					xs = append(xs, x)
				}
			}
		}
		f.places(xs, ys, false)
	default:
		f.measure(xs, ys)
	}
}

// legs dimensions the first of the cuts that take corners off a covering: all are at 45
// degrees and as far from the boards.
func (f *figure) legs(cuts [][2]units.Point) {
	box := boundsOf(cuts[0][:])
	f.chain(score.Head, []units.Length{box.Min.X, box.Max.X})
	f.chain(score.Left, []units.Length{box.Min.Y, box.Max.Y})
	f.say("all corners alike")
}

// onWrap draws the covering laid flat as it is in the step.
func (w *workshop) onWrap(f *figure) {
	boards := map[[2]int]lineKind{} // by the place of the piece and the copy; only looked up
	look := func(list []work.Action, k lineKind) {
		for _, a := range list {
			if fix, ok := a.(work.Fix); ok && fix.What.Kind == work.Piece {
				boards[[2]int{fix.What.Index, fix.What.Copy}] = k
			}
		}
	}
	look(w.done, there)
	look(w.now, fresh)
	on, copy := w.layingOn()
	over := false
	for _, a := range w.now {
		_, base := placedOn(a)
		over = over || base.Kind == work.OnOutside
	}
	f.wrapped(w.p, wrapState{
		step: true, over: over, on: [2]int{on, copy}, turned: w.state().turned,
		board: func(piece, copy int) lineKind {
			if k, ok := boards[[2]int{piece, copy}]; ok {
				return k
			}
			return absent
		},
		paper: w.laidOut(),
		lines: w.drawnLines(),
		cuts:  w.trims(),
	})
	if over {
		w.pasted(f)
	}
}

// pasted dimensions where pieces of the covering are laid on the outside of boards:
// from the edge of its board at which each of them is measured, as one looks at it.
func (w *workshop) pasted(f *figure) {
	wide := w.p.Wrap().Size().W
	var xs, ys []units.Length
	for _, a := range w.now {
		what, on := placedOn(a)
		_, at, size, _, _ := placing(a)
		n := 0
		for b := range w.p.Boards() {
			if n == on.Index && on.Kind == work.OnOutside {
				board, _ := w.p.OnWrap(b.Role())
				x := w.offset(what)
				if at.Across == score.Left { // by the row, which one sees turned over
					xs = append(xs, wide-x, wide-board.Min.X)
				} else {
					xs = append(xs, wide-x-size.W, wide-board.Max.X)
				}
				ys = append(ys, board.Min.Y, board.Min.Y+at.Y)
			}
			n++
		}
	}
	f.chain(score.Tail, sortedPlaces(xs...))
	f.chain(score.Right, sortedPlaces(ys...))
}
