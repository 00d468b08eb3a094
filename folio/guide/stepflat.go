package guide

import (
	"slices"
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/pocket/work"
	"boardwrap.example/pocket/worktop"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// flat draws a piece that is worked on, flat, as it is in the step.
func (w *workshop) flat(f *figure, s subject) {
	i := s.piece
	piece := w.piece(i)
	of, size := ofPiece(i), piece.Size()
	m := marks{w: w, f: f, piece: i, copy: s.copy, one: s.one, size: size, seen: s.over, xs: []units.Length{0, size.W}, ys: []units.Length{0, size.H}}
	edge := there
	for _, a := range w.now {
		if c, ok := a.(work.Cut); ok && c.What.Kind == work.Piece && c.What.Index == i {
			edge = knife
			m.grain = c.Grain
		}
	}
	whole := units.RectAt(units.Point{}, size)
	if m.shaped = w.shaped(i); m.shaped { // what was cut off is gone
		m.outline(piece)
	} else {
		f.rect(edge, of, whole)
	}
	for _, a := range w.done {
		m.action(a, there)
	}
	for _, a := range w.now {
		m.action(a, knife)
	}
	f.places(m.xs, m.ys, m.seen || m.right)
	if s.over {
		f.say("turned over, its back up")
	}
	text := piece.Name()
	if s.one {
		text = w.boardName(i, s.copy)
	}
	if n := piece.Quantity(); n > 1 && edge == knife {
		text = strconv.Itoa(n) + " x " + text
	}
	f.wants = append(f.wants, want{s: short(text), region: whole, of: of, below: true})
	if m.grain != work.GrainEither {
		f.grain(whole, m.grain)
	}
}

// marks draws what is done to a flat piece.
type marks struct {
	w     *workshop
	f     *figure
	piece int
	copy  int  // the only one meant,
	one   bool // if one is
	size  units.Size
	xs    []units.Length
	ys    []units.Length
	grain work.Grain
	seen  bool // it is drawn turned over
	right bool // what is done is told from the right edge

	shaped bool // all that is cut off and out of it was cut before
}

// shaped reports whether everything that is cut off and out of a piece was cut
// before the step.
func (w *workshop) shaped(i int) bool {
	piece := w.piece(i)
	b, _ := piece.Blank()
	d := b.Draft()
	left := len(d.CutOuts) + len(d.Notches) + len(d.Slants)
	if left == 0 {
		return false
	}
	for _, a := range w.done {
		switch a := a.(type) {
		case work.Open:
			left -= once(a.What.Index == i)
		case work.NotchOut:
			left -= once(a.What.Index == i)
		case work.Trim:
			left -= once(a.What.Index == i)
		}
	}
	return left == 0
}

func once(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// outline draws the piece without what was cut off and out of it.
func (m *marks) outline(piece folio.Piece) {
	b, _ := piece.Blank()
	edge, openings := b.Outline()
	for _, p := range append([]units.Polygon{edge}, openings...) {
		m.f.line(there, ofPiece(m.piece), true, m.shown(cornersOf(p))...)
	}
}

// is reports whether a thing is the piece.
func (m *marks) is(t work.Object) bool {
	return t.Kind == work.Piece && t.Index == m.piece && (!m.one || t.Copy < 0 || t.Copy == m.copy)
}

// take dimensions a rectangle if it is new.
func (m *marks) take(r units.Rect, k lineKind) {
	if k == knife {
		m.xs, m.ys = append(m.xs, r.Min.X, r.Max.X), append(m.ys, r.Min.Y, r.Max.Y)
	}
}

// shown returns where places of the face are seen.
func (m *marks) shown(pts []units.Point) []units.Point {
	if m.seen {
		for i := range pts {
			pts[i].X = m.size.W - pts[i].X
		}
	}
	return pts
}

// side returns where a rectangle of the face is seen.
func (m *marks) side(r units.Rect) units.Rect { return boundsOf(m.shown(corners(r))) }

// action draws an action done before, or now if the kind of line is the
// knife's.
func (m *marks) action(a work.Action, k lineKind) {
	f, of := m.f, ofPiece(m.piece)
	now := k == knife
	switch a := a.(type) {
	case work.Open:
		if m.is(a.What) && !m.shaped {
			f.line(k, of, true, m.shown(opened(a))...)
			m.take(m.side(a.Area), k)
		}
	case work.NotchOut:
		if m.is(a.What) && !m.shaped {
			r := a.Notch.Area(m.size)
			f.line(k, of, false, m.shown(notched(a.Notch, r))...)
			m.take(m.side(r), k)
		}
	case work.Trim:
		if m.is(a.What) && !m.shaped {
			cut := m.shown([]units.Point{a.From, a.To})
			f.line(k, of, false, cut...)
			m.take(boundsOf(cut), k)
		}
	case work.ScoreAt:
		m.score(a, now)
	case work.Stick:
		if m.is(a.What) && now {
			m.coat(a.Area, a.Side == score.Back)
		}
	case work.Sink:
		if m.is(a.What) {
			middle := a.Middle
			if a.Outside { // as one looks at it
				middle.X = m.size.W - middle.X
				m.right = m.right || now
			}
			f.circle(k, of, middle, a.Diameter)
			m.take(units.Rect{Min: middle, Max: middle}, k)
		}
	case work.Fix:
		m.fix(a, k)
		if m.is(a.What) && now {
			lies := m.w.lying(a)
			for _, r := range a.Areas {
				m.coat(r, lies(r) == score.Face)
			}
		}
	}
}

// coat hatches what takes adhesive, and dimensions it.
func (m *marks) coat(r units.Rect, behind bool) {
	m.f.fields = append(m.f.fields, field{r, behind, ofPiece(m.piece)})
	m.take(r, knife)
}

// lying returns which side of a folded piece lies up where it has an area of its
// drawing, as it is fixed: of a tab that was folded under its back.
func (w *workshop) lying(a work.Fix) func(units.Rect) score.Side {
	var parts []worktop.Stretch
	if t := w.before(); t != nil {
		parts = t.Panel(a.What.Index, a.What.Copy, work.All)
	}
	return func(r units.Rect) score.Side {
		for _, p := range parts {
			if p.Area().Overlaps(r) {
				return p.Lies().Up()
			}
		}
		return a.Up
	}
}

// score draws a line that is scored: what is scored now on the side that is
// seen, and as the fold that it will be what was scored before, on either side.
func (m *marks) score(a work.ScoreAt, now bool) {
	if !m.is(a.What) || now && (a.On == score.Back) != m.seen {
		return
	}
	l, kind := a.Line, foldKind(a.Line.Fold)
	pts := m.shown(ends(l, m.size))
	if m.seen { // one scores a piece in one step: what was scored before is not turned over
		kind = scored
		if l.Axis == score.Upright {
			l.At = m.size.W - l.At
		}
	}
	m.f.line(kind, ofPiece(m.piece), false, pts...)
	m.at(l.Axis, l.At, now)
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

// fix draws a magnet that is fixed in the board, as one looks at it: round, its
// size that of the square about it.
func (m *marks) fix(a work.Fix, k lineKind) {
	if a.What.Kind != work.Magnet || a.On.Kind == work.OnPiece {
		return
	}
	if b := m.w.board(a.On.Index); b.piece != m.piece || b.copy != m.copy {
		return
	}
	r := a.At.Rect(a.Size, m.size)
	if a.On.Kind == work.OnOutside { // the outside of a board is drawn as one looks at it
		r.Min.X, r.Max.X = m.size.W-r.Max.X, m.size.W-r.Min.X
	}
	kind := there
	if k == knife {
		kind = fresh
	}
	m.f.circle(kind, nothing, middleOf(r), r.Size().W)
	if k == knife {
		m.f.name(a.What.Name, r, nothing)
	}
}

// opened returns the outline of what is cut out, as it is cut: its corners rounded
// by quarters of circles.
func opened(a work.Open) []units.Point {
	pts := corners(a.Area)
	var out []units.Point
	for i, c := range pts {
		before, after := pts[(i+3)%4], pts[(i+1)%4]
		out = append(out, quarter(towards(c, before, a.Radius), c, towards(c, after, a.Radius))...)
	}
	return slices.Compact(out)
}

// towards returns the point so far from one corner of a rectangle towards the next.
func towards(from, to units.Point, by units.Length) units.Point {
	step := func(a, b units.Length) units.Length {
		switch {
		case b > a:
			return a + by
		case b < a:
			return a - by
		}
		return a
	}
	return units.Point{X: step(from.X, to.X), Y: step(from.Y, to.Y)}
}

// notched returns the cut of a notch from one end at the edge to the other.
func notched(n score.Notch, r units.Rect) []units.Point {
	c := corners(r)
	from := 0
	switch n.Edge {
	case score.Right:
		from = 1
	case score.Tail:
		from = 2
	case score.Left:
		from = 3
	}
	a, b, d, e := c[from], c[(from+3)%4], c[(from+2)%4], c[(from+1)%4]
	if !n.Round {
		return []units.Point{a, b, d, e}
	}
	mid := middleOf(boundsOf([]units.Point{b, d}))
	return append(quarter(a, b, mid), quarter(mid, d, e)[1:]...)
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
