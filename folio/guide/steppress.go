package guide

import (
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/view"
	"boardwrap.example/pocket/work"
	"boardwrap.example/pocket/worktop"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// measured draws the open cover with where it is measured.
func (w *workshop) measured(f *figure) {
	f.open(w.p, false, state{worked: true, turnedIn: there, edging: absent, liner: absent, fittings: w.none(), contents: w.none(), bare: true})
	r := f.body
	width, height := "width", "height"
	for _, a := range w.now {
		switch a := a.(type) {
		case work.Measure:
			width, height = "width, planned "+f.long(a.Planned.W), "height, planned "+f.long(a.Planned.H)
		case work.Refit:
			if a.Done {
				width, height = "width "+f.long(a.Size.W), "height "+f.long(a.Size.H)
			}
		}
	}
	f.span(score.Head, r.Min.X, r.Max.X, width)
	f.span(score.Left, r.Min.Y, r.Max.Y, height)
	f.say("measured over the covering, from outer edge to outer edge")
}

// span dimensions the whole of a side in words.
func (f *figure) span(side score.Edge, from, to units.Length, s string) {
	l, p := f.lane(side), f.pen
	dim := p.em(chainAt)
	for _, x := range [...]units.Length{from, to} {
		f.aid(l.at(x, p.em(extensionGap)), l.at(x, dim+p.em(chainBeyond)))
	}
	f.aid(l.at(from, dim), l.at(to, dim))
	l.ends(from, to, dim)
	width := f.width(s)
	mid := from + (to - from).Half(units.Down)
	if to-from >= width+p.em(600) {
		f.write(text{s: s, at: l.at(mid, dim+p.em(leaderGap+drop)), upright: !l.level(), width: width, of: nothing})
		return
	}
	l.leaders([]outer{{from: mid, s: s, width: width}}, dim, dim+p.em(leaderStraight))
}

// A level is a level of what lies pressed: bars side by side.
type pressed struct {
	name string
	of   ref
	high units.Length // 0 for a sheet
	bars [][2]units.Length
	kind lineKind
	// names are those of the bars where each has one, and there is no name of all.
	names []string
}

// press draws what dries in section: what lies on what, as wide as it is, the
// layers drawn apart.
func (w *workshop) press(f *figure) {
	var dry work.Dry
	for _, a := range w.now {
		if d, ok := a.(work.Dry); ok {
			dry = d
		}
	}
	if w.part.Kind == work.PartMagnets {
		w.dryingMagnets(f)
		return
	}
	layers, stack, through := w.drying()
	y := units.Length(0)
	apart := f.pen.mm(3500)
	put := func(l pressed) {
		if l.bars == nil {
			return
		}
		var last units.Rect
		for i, b := range l.bars {
			r := units.Rect{Min: units.Point{X: b[0], Y: y - l.high}, Max: units.Point{X: b[1], Y: y}}
			if l.high > 0 {
				f.rect(l.kind, l.of, r)
			} else {
				f.line(l.kind, l.of, false, r.Min, r.Max)
			}
			if l.names != nil {
				f.name(l.names[i], r, l.of)
			}
			last = r // they come from left to right: its leader to the margin runs along no other
		}
		f.name(l.name, last, l.of)
		y -= l.high + apart
	}
	for _, l := range layers {
		put(l)
	}
	all := f.body
	if stack != nil { // by itself; its folds reach beyond it
		y, all = f.raise(w, stack, through, y), stack.Bounds()
	}
	from, to := all.Min.X, all.Max.X
	if from == to {
		return
	}
	if dry.Apart {
		beyond := f.pen.mm(2000)
		from, to = from-beyond, to+beyond
		put(pressed{name: "waste sheet", of: nothing, bars: [][2]units.Length{{from, to}}, kind: hidden})
	}
	if dry.Weight {
		put(pressed{name: "weight", of: nothing, high: f.pen.mm(9000), bars: [][2]units.Length{{from, to}}, kind: there})
	}
	f.say("in section, layers drawn apart")
}

// raise draws a heap in section over a height, and returns the height over it.
func (f *figure) raise(w *workshop, h *worktop.Heap, through units.Point, y units.Length) units.Length {
	g := newFigure(f.pen)
	g.cutThrough(w, *h, score.Upright, through, true)
	top, cuts := 0, h.Section(score.Upright, through)
	for _, c := range cuts {
		top = max(top, c.Level())
	}
	for _, l := range g.lines {
		if l.kind != outline {
			continue
		}
		pts := make([]units.Point, len(l.pts))
		for i, q := range l.pts {
			pts[i] = units.Point{X: q.X, Y: q.Y + y}
		}
		f.line(l.kind, l.of, l.shut, pts...)
	}
	for _, n := range g.wants {
		f.name(n.s, n.region.Moved(units.Point{Y: y}), n.of)
	}
	up, _ := f.pen.apart(cuts).Times(int64(top + 1))
	return y - up
}

// drying returns what lies pressed, from the lowest: the layers of the case, or
// what the fitting that dries stands on; and the heap that dries on the table, with
// a point of what was stuck last.
func (w *workshop) drying() ([]pressed, *worktop.Heap, units.Point) {
	if w.part.Kind == work.PartFitting {
		return w.dryingFitting(w.fits[w.part.Index])
	}
	seen, state, sides, lies := w.p.View(view.Wrap), w.state(), false, w.laidOut()
	onIt := map[[2]int]bool{} // boards, by piece and copy; only looked up
	for _, a := range w.done {
		switch a := a.(type) {
		case work.TurnIn:
			if a.Edge == score.Left || a.Edge == score.Right {
				seen, sides = w.p.View(view.Cover), true
			}
		case work.Fix:
			if a.What.Kind == work.Piece {
				onIt[[2]int{a.What.Index, a.What.Copy}] = true
			}
		}
	}
	papers := [...]pressed{{name: "covering", of: nothing, kind: there}, {of: nothing, kind: there}} // the strips lie next to the boards
	for _, q := range placed(w.p) {
		i, n := q.Piece()
		if _, fitted := q.Fitting(); fitted || !q.Outside() || lies(i, n) == absent {
			continue
		}
		r, l := seen.Rect(q.Rect()), &papers[0]
		if w.role(i) == stock.StripPiece {
			l = &papers[1]
			for part := range w.p.Wrap().Pieces() {
				if k, c := part.Index(); k == i && c == n {
					l.names = append(l.names, part.Name())
				}
			}
		}
		if sides {
			r.Min.X, r.Max.X = max(r.Min.X, 0), min(r.Max.X, w.p.OpenWidth().Length())
		}
		l.bars = append(l.bars, [2]units.Length{r.Min.X, r.Max.X})
	}
	if papers[1].bars != nil {
		papers[0].name = "side papers"
	}
	list := papers[:]
	list = append(list, w.bars(pressed{name: "spine stiffener", kind: there, of: nothing}, stock.StiffenerPiece, seen, onIt))
	boards := pressed{name: "boards", kind: there, of: nothing, high: w.p.Spec().Board.Caliper}
	for b := range w.p.Boards() {
		if i, n := b.Piece(); onIt[[2]int{i, n}] {
			r := seen.Rect(b.Rect())
			boards.bars = append(boards.bars, [2]units.Length{r.Min.X, r.Max.X})
		}
	}
	list = append(list, boards)
	turned := pressed{name: "turn-ins", of: nothing, kind: there}
	for t := range w.p.TurnIns() {
		i, n := t.Piece()
		across := t.Edge() == score.Left || t.Edge() == score.Right // which a section across shows, by themselves
		if r := boundsOf(cornersOf(seen.Polygon(t.Outline()))); across == sides && state.turned[[2]int{i, n}] == there {
			if bar := [2]units.Length{r.Min.X, r.Max.X}; !slices.Contains(turned.bars, bar) {
				turned.bars = append(turned.bars, bar)
			}
		}
	}
	list = append(list, turned)
	if state.edging != absent {
		list = append(list, w.bars(pressed{name: "edge strips", kind: outline, of: nothing}, stock.EdgeStripPiece, seen, nil))
	}
	if state.liner != absent {
		list = append(list, w.bars(pressed{name: "liner", kind: outline, of: nothing}, stock.LinerPiece, seen, nil))
	}
	return list, nil, units.Point{}
}

// bars returns a level of what lies pressed with the pieces of a role in it: all, or
// those that are in a set.
//
//go:noinline
func (w *workshop) bars(level pressed, role stock.PieceRole, seen view.Transform, in map[[2]int]bool) pressed {
	for _, l := range laidAs(w.p, role) {
		if r := seen.Rect(l.rect); in == nil || in[[2]int{l.piece, l.copy}] {
			level.bars = append(level.bars, [2]units.Length{r.Min.X, r.Max.X})
		}
	}
	return level
}

// dryingMagnets draws the boards that magnets were glued into in section, their insides
// up, each magnet in the side that it is in.
func (w *workshop) dryingMagnets(f *figure) {
	n, high, thick := 0, w.p.Spec().Board.Caliper, w.p.Spec().Magnets.Thickness
	for b := range w.p.Boards() {
		r, in := b.Rect(), []units.Rect(nil)
		for _, a := range w.done {
			fix, ok := a.(work.Fix)
			if !ok || fix.What.Kind != work.Magnet || fix.On.Index != n {
				continue
			}
			m := fix.At.Rect(fix.Size, r.Size()).Moved(r.Min)
			m.Min.Y, m.Max.Y = -high, thick-high
			if fix.On.Kind == work.OnOutside {
				m.Min.Y, m.Max.Y = -thick, 0
			}
			if !slices.Contains(in, m) {
				in = append(in, m)
				f.rect(there, nothing, m)
				f.name("magnet", m, nothing)
			}
		}
		if in != nil {
			r.Min.Y, r.Max.Y = -high, 0
			i, c := b.Piece()
			f.rect(there, ofCopy(i, c), r)
			f.name(b.Name(), r, ofCopy(i, c))
		}
		n++
	}
	f.flat = true
	f.say("in section, insides up")
}

// dryingFitting returns what dries of a fitting.
func (w *workshop) dryingFitting(g folio.Fitted) ([]pressed, *worktop.Heap, units.Point) {
	if w.fittings[g.Index()] == absent {
		t := w.before()
		if t == nil {
			return nil, nil, units.Point{}
		}
		var what work.Object // that was stuck last
		switch a := w.done[len(w.done)-1].(type) {
		case work.Fix:
			if what = a.What; what.Kind == work.Content {
				what = work.Object{Index: a.On.Index, Copy: a.On.Copy}
			}
		case work.Stick:
			what = a.What
		}
		return stuck(t, what)
	}
	b, _ := w.p.Board(g.Panel())
	r, on := g.Rect(), b.Rect()
	list := []pressed{
		{name: b.Name(), kind: there, of: nothing, high: w.p.Spec().Board.Caliper, bars: [][2]units.Length{{on.Min.X, on.Max.X}}},
		{name: g.Label(), kind: outline, of: ofFitting(g.Index()), bars: [][2]units.Length{{r.Min.X, r.Max.X}}},
	}
	return list, nil, units.Point{}
}

// stuck returns the heap that a piece hangs together with, and its middle.
func stuck(t *worktop.Bench, what work.Object) ([]pressed, *worktop.Heap, units.Point) {
	h := t.Heap(what.Index, what.Copy)
	at := h.Of(what.Index, what.Copy)
	for _, p := range partsOf(h) { // over the lowest that it lies on
		if i, c := p.Piece(); i != what.Index || c != what.Copy {
			if r := p.Rect().Intersect(at); !r.Empty() {
				at = r
			}
			break
		}
	}
	return nil, &h, middleOf(at)
}
