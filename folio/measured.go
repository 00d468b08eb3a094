package folio

import (
	"slices"

	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Measured returns what the plan was refitted to, and whether it was.
func (p *Plan) Measured() (refit.Measured, bool) {
	if p.measured == nil {
		return refit.Measured{}, false
	}
	m := *p.measured
	m.Panels = slices.Clone(m.Panels)
	return m, true
}

// Made reports whether the pieces of a role are in the cover that has been measured:
// they are cut and covered already. As planned nothing is.
//
//go:noinline
func (p *Plan) Made(r stock.PieceRole) bool {
	switch r {
	case stock.BoardPiece, stock.StiffenerPiece, stock.CoveringPiece, stock.StripPiece:
		return p.measured != nil
	}
	return false
}

// edges is how far the cover as measured reaches past the boards at its outer
// edges: up to the covering's caliper, and 0 as planned.
type edges struct{ left, right, ends units.Length }

// sound checks what was measured as far as it can be wrong by itself.
func (b *builder) sound(m *refit.Measured) bool {
	boards := b.planned.boards
	b.bad.Length("measured.width", m.Width)
	b.bad.Length("measured.height", m.Height)
	if len(m.Panels) != 0 && len(m.Panels) != len(boards) {
		b.bad.Malformed("measured.panels", check.OutOfRange, count(len(m.Panels))+" widths", "none, or one for each of the "+count(len(boards))+" boards")
		return false
	}
	for i, w := range m.Panels {
		b.bad.Length(check.Index("measured.panels", i), w)
	}
	return b.bad.Len() == 0
}

// nominal reports whether the cover measures just what was planned.
func (b *builder) nominal(m *refit.Measured) bool {
	for i, w := range m.Panels {
		if w != b.planned.boards[i].width.Length() {
			return false
		}
	}
	return m.Width == b.openWidth() && m.Height == b.openHeight()
}

// measure lays the boards where they must lie to give the size of the cover.
func (b *builder) measure(m *refit.Measured) {
	p := b.plan
	p.openW = b.exactly("open width", units.T("as measured", m.Width))
	p.openH = b.exactly("open height", units.T("as measured", m.Height))
	first, last := 0, len(p.boards)-1
	panel := func(i int) units.Length {
		if len(m.Panels) > 0 {
			return m.Panels[i]
		}
		return p.boards[i].width.Length()
	}
	side := b.spec.Covering.Caliper
	if len(m.Panels) > 0 {
		p.edge.left = (panel(first) - p.boards[first].width.Length()).Clamp(0, side)
		p.edge.right = (panel(last) - p.boards[last].width.Length()).Clamp(0, side)
	} else {
		more := m.Width - b.openWidth()
		p.edge.left = more.Half(units.Down).Clamp(0, side)
		p.edge.right = (more - p.edge.left).Clamp(0, side)
	}
	p.edge.ends = (m.Height - b.openHeight()).Half(units.Down).Clamp(0, p.edgeAlong())

	high := m.Height - 2*p.edge.ends
	b.off(off{path: "measured.height", what: "the cover's height", got: m.Height, planned: b.openHeight(), low: b.openHeight(), high: b.openHeight() + 2*p.edge.ends, places: 1})
	var boards, planned units.Length
	for i := range p.boards {
		bd := &p.boards[i]
		w := panel(i)
		if len(m.Panels) > 0 {
			edge := p.edgeOf(i)
			b.off(off{path: check.Index("measured.panels", i), what: "the " + bd.name, got: w, planned: bd.width.Length(), low: bd.width.Length(), high: bd.width.Length() + edge, places: 1})
			w -= edge
		}
		bd.rect = units.RectAt(units.Point{}, units.Size{W: w, H: high})
		boards += w
	}
	for i := range p.gaps {
		planned += p.gaps[i].planned.Length()
	}
	// What the gaps differ by is shared equally, the rest going to the last.
	without := boards + p.edge.left + p.edge.right
	extra := m.Width - without - planned
	if !b.off(off{path: "measured.width", what: "the cover's width", got: m.Width, planned: b.openWidth(), low: without + planned, high: without + planned + times(b.spec.Placing, len(p.gaps)),
		least: without, places: len(p.gaps)}) {
		return
	}
	share, _ := extra.Scale(1, int64(len(p.gaps)), units.Down)
	var x units.Length
	for i := range p.boards {
		p.boards[i].rect = p.boards[i].rect.Moved(units.Point{X: x})
		x = p.boards[i].rect.Max.X
		if i == len(p.gaps) {
			break
		}
		gap := &p.gaps[i]
		g := gap.planned.Length() + share
		if i == len(p.gaps)-1 {
			g += extra - times(share, len(p.gaps))
		}
		gap.rect = units.RectAt(units.Point{X: x}, units.Size{W: g, H: high})
		x += g
		if n := b.notation(); g < gap.least && g < gap.planned.Length() {
			b.warn(check.Warning{Path: "measured.width", Code: GapNarrow, Got: g, Want: gap.least,
				Text: "the gap right of the " + gap.left.String() + " came out as " + n.Text(g) + ", and its hinge closes only from " + n.Bound(gap.least, units.Up)})
		}
	}
	b.warnStrips()
}

// warnStrips warns of hinges that came out so wide that a spine strip in their middle
// no longer reaches under the side papers: these keep their places on their boards.
func (b *builder) warnStrips() {
	p, n, lap := b.plan, b.notation(), b.spec.Quarter.Lap
	for i := range p.wrap.parts {
		part := &p.wrap.parts[i]
		if !part.strip {
			continue
		}
		left, right := &p.boards[part.first], &p.boards[part.last]
		more := right.rect.Min.X - left.rect.Max.X - (right.planned - left.planned - left.width.Length())
		if more > 2*lap { // a half of it at each side
			b.warn(check.Warning{Path: "measured.width", Code: WarnMeasured, Got: more, Want: 2 * lap,
				Text: "between the " + left.name + " and the " + right.name + " the cover came out " + n.Bound(more, units.Up) + " wider than planned, and side papers lap the spine strip there by " +
					n.Bound(lap, units.Down) + " a side: look for bare board between them"})
		}
	}
}

// edgeOf returns how far the covering reaches past a board at the outer edges.
func (p *Plan) edgeOf(board int) units.Length {
	switch board {
	case 0:
		return p.edge.left
	case len(p.boards) - 1:
		return p.edge.right
	}
	return 0
}

// An off is a measured length beside what was to be expected.
type off struct {
	path, what   string
	got, planned units.Length
	low, high    units.Length // between which covering and placing explain it
	least        units.Length // below it the cover cannot be
	places       int          // that may each be off
}

// off checks a measured length and reports whether it can be the cover that was
// planned.
func (b *builder) off(o off) bool {
	n := b.notation()
	little, far := units.Inch/16, units.Inch/4
	if n == units.MetricDecimal {
		little, far = 2*units.Millimetre, 6*units.Millimetre
	}
	from, to := max(o.low-times(far, o.places), o.least, units.Shortest), o.high+times(far, o.places)
	if o.got < from || o.got > to {
		limit, bound := from, check.AtLeast
		if o.got > to {
			limit, bound = to, check.AtMost
		}
		want := o.what + " as planned, " + n.Text(o.planned) + ", or from " + n.Bound(from, units.Up) + " to " + n.Bound(to, units.Down) + ": measure again, or plan another cover"
		// "337" with a plan in inches is 337 mm, and "13 1/4" with one in millimetres 13 1/4 in.
		other, num, den := units.MetricDecimal, int64(5), int64(127)
		if n == other {
			other, num, den = units.InchFraction, den, num
		}
		meant, _ := o.got.Scale(num, den, units.Nearest)
		if from <= meant && meant <= to {
			want += "; if another unit was meant, " + other.Text(meant) + " would do"
		}
		b.bad.Add(check.Violation{Path: o.path, Code: MeasuredFar, Nature: check.Impossible, Got: n.Text(o.got), Want: want,
			Bound: bound, Limit: limit, By: (o.got - limit).Abs()})
		return false
	}
	if by := max(o.low-o.got, o.got-o.high); by > times(little, o.places) {
		b.warn(check.Warning{Path: o.path, Code: WarnMeasured, Got: o.got, Want: o.got.Clamp(o.low, o.high),
			Text: o.what + " measures " + n.Text(o.got) + " instead of " + n.Text(o.planned) + " as planned; measure again before cutting"})
	}
	return true
}

// edgeAlong is the caliper of what goes round the boards' edges at head and
// tail: in quarter style the thicker of the two coverings.
func (p *Plan) edgeAlong() units.Length {
	if p.wrap.quarter {
		return max(p.spec.Covering.Caliper, p.spec.SpineCovering.Caliper)
	}
	return p.spec.Covering.Caliper
}

// settled returns where a fitting lies whose place on its panel was worked out
// anew. Across and along, each for itself, it stays where it was planned on its board
// if the measure moves it there by no more than the covering at an edge and a step of
// each ruler, but for what the panel moves past it. Hands place no finer, and what
// passed beside each other goes on doing so. What changes its size by relation is
// placed anew.
func (b *builder) settled(index, board int, rect, area units.Rect) units.Rect {
	if b.planned == nil {
		return rect
	}
	near := b.plan.edgeAlong() + b.spec.Rulers.Liner.Step() + b.spec.Rulers.Fitting.Step()
	stays := func(was, is, low, high units.Length) units.Length {
		if (was - is).Abs() <= near {
			return was.Clamp(low, high) - is
		}
		return 0
	}
	for i := range b.planned.fitted {
		f := &b.planned.fitted[i]
		size := rect.Size()
		if f.index != index || f.rect.Size() != size {
			continue
		}
		from, to := b.planned.boards[board].rect.Min, b.plan.boards[board].rect.Min
		was := f.rect.Min.Plus(units.Point{X: to.X - from.X, Y: to.Y - from.Y})
		return rect.Moved(units.Point{
			X: stays(was.X, rect.Min.X, area.Min.X, area.Max.X-size.W),
			Y: stays(was.Y, rect.Min.Y, area.Min.Y, area.Max.Y-size.H),
		})
	}
	return rect
}
