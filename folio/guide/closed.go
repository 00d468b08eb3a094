package guide

import (
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Closed draws the closed folio from the head, cut through at the tightest
// place: covering, boards, liner and what stands on them, full, and beside it
// the stack at the tightest place as an enlarged detail. It returns false if the
// folio does not shut.
func Closed(p *folio.Plan, o Options) (Picture, bool) {
	if !drawable(p) {
		return Picture{}, false
	}
	shut, ok := p.Closed()
	if !ok {
		return Picture{}, false
	}
	write := o.figures(p.Notation()).rounded()
	describe := "The closed folio from the head, " + write.size(units.Size{W: shut.Width().Length(), H: shut.Thickness().Length()}) + " over the covering"
	tight, stands := p.Tightest(true)
	if stands {
		describe += "; at the tightest place " + tight.String()
	}
	return compose("Closed folio, from the head", describe+".", o, write, func(q pen) []*figure {
		f := newFigure(q)
		f.flat = true
		f.section(p, shut, tight, stands)
		figs := []*figure{f}
		if stands {
			figs = append(figs, tightStack(q, tight))
		}
		return figs
	}), true
}

// A side is a face of a board in section, on which things stand.
type side struct {
	f     *figure
	slab  folio.Slab
	out   units.Length // 0 inside; else how far the covering lies from the inner face
	steps []step       // the skyline, left to right on the row
}

// A step is a stretch of a skyline.
type step struct{ from, to, high units.Length }

// point returns a place of the section on the drawing, whose Y runs downwards.
func (s *side) point(x, high units.Length) units.Point {
	if s.out > 0 {
		high = -s.out - high
	}
	q := s.slab.Point(x, high)
	return units.Point{X: q.X, Y: -q.Y}
}

// put lays something over a stretch of the side, and returns where the first
// part of it lies.
func (s *side) put(k lineKind, of ref, from, to, high units.Length) units.Rect {
	var at units.Rect
	var steps []step
	for _, t := range s.steps {
		a, b := max(t.from, from), min(t.to, to)
		if a >= b {
			steps = append(steps, t)
			continue
		}
		if t.from < a {
			steps = append(steps, step{t.from, a, t.high})
		}
		p, q := s.point(a, t.high), s.point(b, t.high+high)
		s.f.rect(k, of, spanned(p, q))
		if at == (units.Rect{}) {
			at = spanned(p, q)
		}
		steps = append(steps, step{a, b, t.high + high})
		if b < t.to {
			steps = append(steps, step{b, t.to, t.high})
		}
	}
	s.steps = steps
	return at
}

// fittingName returns what a fitting is called; −1 is the block.
func fittingName(p *folio.Plan, i int) string {
	for g := range p.Fittings() {
		if g.Index() == i {
			return g.Label()
		}
	}
	return "block"
}

// section draws the closed folio in section.
func (f *figure) section(p *folio.Plan, shut folio.Closed, tight folio.Tight, stands bool) {
	spec := p.Spec()
	boards := slices.Collect(p.Boards())
	at, panel := cutAt(boards[0], tight, stands)
	slabs, _ := p.Section()
	var inner, outer []*side
	for s := range slabs {
		b := boards[s.Board()]
		r := b.Rect()
		i, n := b.Piece()
		f.rect(outline, ofCopy(i, n), flipped(s.Rect()))
		f.name(b.Name(), flipped(s.Rect()), ofCopy(i, n))
		in := &side{f: f, slab: s, steps: []step{{r.Min.X, r.Max.X, 0}}}
		out := &side{f: f, slab: s, out: spec.Board.Caliper, steps: []step{{r.Min.X, r.Max.X, 0}}}
		inner, outer = append(inner, in), append(outer, out)
		out.put(layer, nothing, r.Min.X, r.Max.X, spec.Covering.Caliper)
	}
	f.bends(shut, outer, boards)
	stand := func(turnIns bool) {
		for h := range p.Heights(true) {
			if lies := h.Rect(); h.TurnIn() == turnIns && lies.Min.Y <= at && at < lies.Max.Y {
				f.stands(p, h, inner, outer, boards)
			}
		}
	}
	stand(true)
	lining := laidAs(p, stock.LinerPiece)
	for k, b := range boards {
		r := b.Rect()
		for _, l := range lining {
			inner[k].put(layer, ofPiece(l.piece), max(l.rect.Min.X, r.Min.X), min(l.rect.Max.X, r.Max.X), spec.Liner.Caliper)
		}
	}
	stand(false)
	if stands {
		f.tightLine(p, inner, panel, tight, boards)
	}
	c := spec.Covering.Caliper
	f.chain(score.Head, []units.Length{-c, shut.Width().Length() - c})
	f.chain(score.Left, []units.Length{c - shut.Thickness().Length(), c})
}

// stands draws something that stands on a board, and names it the first time.
func (f *figure) stands(p *folio.Plan, h folio.Height, inner, outer []*side, boards []folio.Board) {
	on, _ := p.Board(h.Panel())
	for k, b := range boards {
		if on.Role() != b.Role() {
			continue
		}
		s := inner[k]
		if h.Outside() {
			s = outer[k]
		}
		fitting, _ := h.Fitting()
		of, lies := ofFitting(fitting), h.Rect()
		at := s.put(layer, of, lies.Min.X, lies.Max.X, h.Height())
		name := fittingName(p, fitting)
		if h.TurnIn() {
			name = "turn-in"
		}
		if !slices.ContainsFunc(f.wants, func(w want) bool { return w.s == short(name) && w.of == of }) {
			f.name(name, at, of)
		}
	}
}

// cutAt returns how far from the head of the row the section is taken, and the
// board that the tightest place is told on.
func cutAt(first folio.Board, tight folio.Tight, stands bool) (units.Length, boards.Role) {
	if stands {
		if r, on := tight.Place(); !r.Empty() {
			return middleOf(r).Y, on
		}
	}
	return middleOf(first.Rect()).Y, first.Role()
}

// tightLine draws a line through the tightest place.
func (f *figure) tightLine(p *folio.Plan, inner []*side, on boards.Role, tight folio.Tight, boards []folio.Board) {
	place, _ := tight.Place()
	if place.Empty() {
		return
	}
	role, _ := p.Board(on)
	for k, b := range boards {
		if b.Role() != role.Role() {
			continue
		}
		x := middleOf(place).X
		beyond := f.pen.mm(5000)
		a, z := inner[k].point(x, -beyond), inner[k].point(x, tight.Room().Length()+beyond)
		if m := tight.Meeting(); m == closing.UnderFlap || m == closing.BetweenOutsides { // not on this face: through all
			a.Y, z.Y = f.body.Max.Y+beyond, f.body.Min.Y-beyond
		}
		f.line(centre, nothing, false, a, z)
	}
}

// bends draws the wrong side of the covering where it goes round the hinges.
func (f *figure) bends(shut folio.Closed, outer []*side, boards []folio.Board) {
	for k := 1; k < len(outer); k++ {
		a := outer[k-1].point(boards[k-1].Rect().Max.X, 0)
		b := outer[k].point(boards[k].Rect().Min.X, 0)
		up, next := outer[k-1].slab.Upright(), outer[k].slab.Upright()
		switch {
		case shut.Bend() == rule.CreaseTwo && (up || next):
			f.line(layer, nothing, false, a, b)
		case !up && !next && shut.Bend() == rule.CreaseRound: // a soft spine: half a circle
			mid := units.Point{X: a.X, Y: a.Y + (b.Y - a.Y).Half(units.Down)}
			r := (b.Y - a.Y).Abs().Half(units.Down)
			f.arc(layer, nothing, a, units.Point{X: a.X - r, Y: a.Y}, units.Point{X: a.X - r, Y: mid.Y})
			f.arc(layer, nothing, units.Point{X: a.X - r, Y: mid.Y}, units.Point{X: b.X - r, Y: b.Y}, b)
		case !up && !next: // a soft spine with a flat back
			x := a.X - shut.Crease()
			f.line(layer, nothing, false, a, units.Point{X: x, Y: a.Y}, units.Point{X: x, Y: b.Y}, b)
		case shut.Bend() == rule.CreaseRound:
			f.arc(layer, nothing, a, cornerOf(a, b, up), b)
		default:
			f.line(layer, nothing, false, a, cornerOf(a, b, up), b)
		}
	}
}

// enlargements are those that ISO 5455 recommends (from memory).
var enlargements = [...]int64{50, 20, 10, 5, 2, 1}

// tightStack draws what stands at the tightest place, enlarged: each thing as
// high as it is, and what is left of the room.
func tightStack(q pen, tight folio.Tight) *figure {
	f := newFigure(q)
	high := max(tight.Room().Length(), tight.Stack().Length(), units.Millimetre)
	for _, t := range enlargements {
		if l, ok := high.Times(t); ok && l <= q.mm(90_000) {
			f.times = t
			break
		}
	}
	width := q.mm(26_000)
	at := func(l units.Length) units.Length {
		y, _ := l.Times(f.times)
		return -y
	}
	ys := []units.Length{0, at(tight.Room().Length())}
	var sum units.Length
	for t := range tight.Things() {
		of := nothing
		if i, ok := t.Fitting(); ok {
			of = ofFitting(i)
		}
		r := units.Rect{Min: units.Point{X: 0, Y: at(sum + t.Height())}, Max: units.Point{X: width, Y: at(sum)}}
		f.rect(outline, of, r)
		f.name(t.Name(), r, of)
		sum += t.Height()
		ys = append(ys, at(sum))
	}
	// The faces between which they stand.
	for _, y := range ys[:2] {
		f.line(outline, nothing, false, units.Point{X: -q.mm(3000), Y: y}, units.Point{X: width + q.mm(3000), Y: y})
	}
	if gap := (ys[1] - at(sum)).Abs(); gap < q.em(1000) { // no room for words, or none left at all
		f.squeezed(ys[1], at(sum), width)
		ys[1] = at(sum)
	} else {
		f.spare = [2]units.Length{ys[1], at(sum)}
		f.name("room left", units.Rect{Min: units.Point{X: 0, Y: ys[1]}, Max: units.Point{X: width, Y: at(sum)}}, nothing)
	}
	f.chain(score.Left, sortedPlaces(ys...))
	return f
}

// squeezed dimensions next to nothing between two faces, or nothing, from outside:
// with an arrow to each face beside a width, and the figure on the upper one.
func (f *figure) squeezed(upper, lower, width units.Length) {
	p := f.pen
	x := width + p.mm(1500)
	for _, side := range [...]struct {
		at  units.Length
		way units.Length
	}{{upper, 1}, {lower, -1}} {
		f.aid(units.Point{X: x, Y: side.at - side.way*p.em(2000)}, units.Point{X: x, Y: side.at})
		f.arrow(units.Point{X: x, Y: side.at}, 0, side.way)
	}
	f.write(text{s: "room left " + f.toSpare((lower - upper).Abs()), at: units.Point{X: x + p.em(400), Y: upper - p.em(1000)}, anchor: atStart, of: nothing})
}
