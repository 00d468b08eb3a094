package guide

import (
	"slices"
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// flat draws a piece that is worked on, flat, as it is in the step. It returns
// false if there is no such piece.
func (w *workshop) flat(f *figure, i int) bool {
	piece, ok := w.piece(i)
	if !ok {
		return false
	}
	of, size := ofPiece(i), piece.Size()
	m := marks{w: w, f: f, piece: i, size: size, xs: []units.Length{0, size.W}, ys: []units.Length{0, size.H}}
	edge := there
	for _, a := range w.now {
		if c, ok := a.(work.Cut); ok && c.What.Kind == work.Piece && c.What.Index == i {
			edge = knife
			m.grain = c.Grain
		}
	}
	whole := units.RectAt(units.Point{}, size)
	f.rect(edge, of, whole)
	for _, a := range w.done {
		m.action(a, there)
	}
	for _, a := range w.now {
		m.action(a, knife)
	}
	f.measure(m.xs, m.ys)
	text := piece.Name()
	if n := piece.Quantity(); n > 1 && edge == knife {
		text = strconv.Itoa(n) + " x " + text
	}
	f.name(text, whole, of)
	if m.grain != work.GrainEither {
		f.number()
		f.grain(whole, m.grain)
	}
	return true
}

// marks draws what is done to a flat piece.
type marks struct {
	w     *workshop
	f     *figure
	piece int
	size  units.Size
	xs    []units.Length
	ys    []units.Length
	grain work.Grain
	over  bool // it lies turned over
}

// is reports whether a thing is the piece.
func (m *marks) is(t work.Thing) bool { return t.Kind == work.Piece && t.Index == m.piece }

// take dimensions a rectangle if it is new.
func (m *marks) take(r units.Rect, k lineKind) {
	if k == knife {
		m.xs, m.ys = append(m.xs, r.Min.X, r.Max.X), append(m.ys, r.Min.Y, r.Max.Y)
	}
}

// action draws an action done before, or now if the kind of line is the
// knife's.
func (m *marks) action(a work.Action, k lineKind) {
	f, of := m.f, ofPiece(m.piece)
	now := k == knife
	switch a := a.(type) {
	case work.Open:
		if m.is(a.What) {
			f.rect(k, of, a.Area)
			m.take(a.Area, k)
		}
	case work.NotchOut:
		if m.is(a.What) {
			r := a.Notch.Area(m.size)
			f.rect(k, of, r)
			m.take(r, k)
		}
	case work.Trim:
		if m.is(a.What) {
			f.line(k, of, false, a.From, a.To)
			m.take(boundsOf([]units.Point{a.From, a.To}), k)
		}
	case work.ScoreAt:
		if m.is(a.What) && !m.folds(a.Line) {
			f.line(foldKind(a.Line.Fold), of, false, ends(a.Line, m.size)...)
			m.at(a.Line.Axis, a.Line.At, now)
		}
	case work.FoldAt:
		if m.is(a.What) && now {
			l := score.Line{Axis: a.Axis, At: a.At, From: a.From, To: a.To}
			f.line(crease, of, false, ends(l, m.size)...)
			m.at(a.Axis, a.At, now)
			f.turns(a, m.size)
		}
	case work.Stick:
		if m.is(a.What) && now {
			f.fields = append(f.fields, field{a.Area, a.Side == score.Back, of})
		}
	case work.Sink:
		if m.is(a.What) {
			middle := a.Middle
			if a.Outside { // as one looks at it
				middle.X = m.size.W - middle.X
			}
			f.circle(k, of, middle, a.Diameter)
			m.take(units.Rect{Min: middle, Max: middle}, k)
		}
	case work.TurnOver:
		if m.is(a.What) {
			m.over = !m.over
		}
	case work.Fix:
		m.fix(a, k)
		if m.is(a.What) && now && a.By != work.SelfSticky {
			for _, r := range a.Areas {
				f.fields = append(f.fields, field{r, a.Up == score.Face, of})
			}
		}
	}
}

// folds reports whether a line is folded in this step.
func (m *marks) folds(l score.Line) bool {
	return slices.ContainsFunc(m.w.now, func(a work.Action) bool {
		fold, ok := a.(work.FoldAt)
		return ok && m.is(fold.What) && fold.Axis == l.Axis && fold.At == l.At
	})
}

// at dimensions a line.
func (m *marks) at(axis score.Axis, at units.Length, now bool) {
	switch {
	case !now:
	case axis == score.Upright:
		m.xs = append(m.xs, at)
	default:
		m.ys = append(m.ys, at)
	}
}

// fix draws what is fixed on the piece while it is not in the folio yet, as one
// sees it with the face of the piece up.
func (m *marks) fix(a work.Fix, k lineKind) {
	if a.On.Kind != work.OnPiece && a.On.Kind != work.OnBoard && a.On.Kind != work.OnOutside {
		return
	}
	on := a.On.Index
	if a.On.Kind != work.OnPiece {
		if a.What.Kind != work.Magnet {
			return
		}
		on = m.w.board(a.On.Index).piece
	}
	if on != m.piece {
		return
	}
	base := units.RectAt(units.Point{}, m.size)
	if a.On.Kind == work.OnPiece && a.On.Panel != work.All {
		base = m.panel(a.On.Panel)
	}
	r := a.At.Rect(a.Size, base.Size())
	if m.over != (a.On.Kind == work.OnOutside) { // the outside of a board is drawn as one looks at it
		w := base.Size().W
		r.Min.X, r.Max.X = w-r.Max.X, w-r.Min.X
	}
	r = r.Moved(base.Min)
	kind := there
	if k == knife {
		kind = fresh
	}
	if m.over && kind == there {
		kind = hidden
	}
	of := nothing
	if a.What.Kind == work.Piece {
		of = ref{a.What.Index, max(a.What.Copy, 0), -1, -1}
	}
	if a.What.Kind == work.Magnet { // round: its size is that of the square about it
		m.f.circle(kind, of, r.Min.Plus(units.Point{X: r.Size().W.Half(units.Down), Y: r.Size().H.Half(units.Down)}), r.Size().W)
	} else {
		m.f.rect(kind, of, r)
	}
	if k == knife {
		m.f.name(a.What.Name, r, of)
	}
}

// panel returns where a panel of the piece lies between its scores.
func (m *marks) panel(n int) units.Rect {
	r := units.RectAt(units.Point{}, m.size)
	piece, _ := m.w.piece(m.piece)
	b, ok := piece.Blank()
	if !ok {
		return r
	}
	var at []units.Length
	level := false
	for _, l := range b.Lines() {
		if b.Whole(l) {
			at, level = append(at, l.At), l.Axis == score.Level
		}
	}
	at = sortedPlaces(at...)
	if n < 0 || n > len(at) {
		return r
	}
	from, to := r.Min, r.Max
	if n > 0 {
		if level {
			from.Y = at[n-1]
		} else {
			from.X = at[n-1]
		}
	}
	if n < len(at) {
		if level {
			to.Y = at[n]
		} else {
			to.X = at[n]
		}
	}
	return units.Rect{Min: from, Max: to}
}

// turns draws the arrow of a fold: from the middle of the part that turns over
// the line.
func (f *figure) turns(a work.FoldAt, size units.Size) {
	long := f.pen.mm(16_000)
	tip, from := units.Point{X: a.At, Y: size.H.Half(units.Down)}, units.Point{}
	dx, dy := units.Length(0), units.Length(0)
	switch a.Moves {
	case score.Right:
		dx = -1
	case score.Left:
		dx = 1
	case score.Tail:
		dy = -1
	default:
		dy = 1
	}
	if a.Axis == score.Level {
		tip = units.Point{X: size.W.Half(units.Down), Y: a.At}
	}
	from = units.Point{X: tip.X - dx*long.Half(units.Down), Y: tip.Y - dy*long.Half(units.Down)}
	tip = units.Point{X: tip.X + dx*long.Half(units.Down), Y: tip.Y + dy*long.Half(units.Down)}
	f.aid(from, tip)
	f.arrow(tip, dx, dy)
}

// circle draws a circle of a diameter by chords.
func (f *figure) circle(k lineKind, of ref, middle units.Point, diameter units.Length) {
	r := diameter.Half(units.Down)
	at := func(dx, dy units.Length) units.Point { return middle.Plus(units.Point{X: dx, Y: dy}) }
	f.arc(k, of, at(-r, 0), at(-r, -r), at(0, -r))
	f.arc(k, of, at(0, -r), at(r, -r), at(r, 0))
	f.arc(k, of, at(r, 0), at(r, r), at(0, r))
	f.arc(k, of, at(0, r), at(-r, r), at(-r, 0))
}

// wrapState says how far the covering has come that is drawn laid flat.
type wrapState struct {
	mitred bool
	paper  lineKind
	board  func(piece, copy int) lineKind
	lines  [][2]units.Point // drawn to lay the boards by
	cuts   [][2]units.Point // that take corners off
}

// planned is the covering with its boards.
func planned() wrapState {
	return wrapState{mitred: true, paper: outline, board: func(int, int) lineKind { return outline }}
}

// wrapped draws the covering laid flat.
func (f *figure) wrapped(p *folio.Plan, s wrapState) {
	names := pieceNames(p)
	whole := p.Wrap().Size()
	xs, ys := []units.Length{0, whole.W}, []units.Length{0, whole.H}
	view := p.View(folio.ViewWrap)
	var list []sheetlet
	for q := range p.Placed() {
		i, n := q.Piece()
		if _, fitted := q.Fitting(); fitted || !q.Outside() {
			continue
		}
		r := view.Rect(q.Rect())
		paper := flat(s.paper, ref{i, n, -1, -1}, r)
		if s.mitred {
			paper.pts = cornersOf(view.Polygon(q.Outline()))
		}
		list = append(list, paper)
		xs = append(xs, r.Min.X, r.Max.X)
		f.nameIn(names[i], paper.pts, paper.of)
	}
	for b := range p.Boards() {
		r, _ := p.OnWrap(b.Role())
		i, n := b.Piece()
		k := s.board(i, n)
		if k == absent {
			continue
		}
		board := flat(k, ref{i, n, -1, -1}, r)
		list = append(list, board)
		xs, ys = append(xs, r.Min.X, r.Max.X), append(ys, r.Min.Y, r.Max.Y)
		f.name(b.Role().String(), r, board.of)
	}
	f.stack(list)
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
		xs, ys = append(xs, c[0].X, c[1].X), append(ys, c[0].Y, c[1].Y)
	}
	f.measure(xs, ys)
}
