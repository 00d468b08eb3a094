package guide

import (
	"iter"

	"boardwrap.example/folio"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Piece draws the piece that stands at place i of [folio.Plan.Pieces] as it is
// cut, its face up: outline and openings, the lines that are scored, what takes
// adhesive, where the grain runs. It returns false if there is no such piece.
func Piece(p *folio.Plan, i int, o Options) (Picture, bool) {
	if !drawable(p) {
		return Picture{}, false
	}
	at := 0
	for piece := range p.Pieces() {
		if at == i {
			return piecePicture(p, piece, i, cutOf(p.Steps(), i), o)
		}
		at++
	}
	return Picture{}, false
}

// piecePicture draws piece i, which an action cuts.
func piecePicture(p *folio.Plan, piece folio.Piece, i int, cut work.Cut, o Options) (Picture, bool) {
	write := o.figures(p.Notation())
	title := fullName(piece.Name(), piece.Part())
	describe := "The " + piece.Name() + ", " + write.size(piece.Size()) + ", as it is cut, face up."
	return compose(title, describe, o, write, func(q pen) []*figure {
		f := newFigure(q)
		f.piece(piece, i, cut)
		return []*figure{f}
	}), true
}

// cutOf returns the action that cuts a piece.
func cutOf(steps iter.Seq[work.Step], i int) (cut work.Cut) {
	for s := range steps {
		for _, a := range s.Do {
			if c, ok := a.(work.Cut); ok && c.What.Index == i {
				cut = c
			}
		}
	}
	return cut
}

// piece draws a flat piece with its dimensions.
func (f *figure) piece(piece folio.Piece, i int, cut work.Cut) {
	of := ofPiece(i)
	size := piece.Size()
	whole := units.RectAt(units.Point{}, size)
	xs := []units.Length{0, size.W}
	ys := []units.Length{0, size.H}
	take := func(r units.Rect) {
		xs, ys = append(xs, r.Min.X, r.Max.X), append(ys, r.Min.Y, r.Max.Y)
	}
	f.polygon(outline, of, piece.Outline())
	for c := range piece.CornerCuts() {
		take(boundsOf([]units.Point{c.Cut().From, c.Cut().To}))
	}
	if b, ok := piece.Blank(); ok {
		f.blank(b, of)
		for _, l := range b.Lines() {
			if l.Axis == score.Upright {
				xs = append(xs, l.At)
			} else {
				ys = append(ys, l.At)
			}
		}
		for _, c := range b.CutOuts() {
			take(c.Area)
		}
		for _, n := range b.Notches() {
			take(n.Area(size))
		}
	} else {
		for r := range piece.Openings() {
			f.rect(outline, of, r)
			take(r)
		}
	}
	f.measure(xs, ys)
	f.name(piece.Name(), whole, of)
	if cut.Grain != work.GrainEither {
		f.grain(whole, cut.Grain)
	}
}

// measure dimensions what is drawn along all its sides.
func (f *figure) measure(xs, ys []units.Length) {
	xs, ys = sortedPlaces(xs...), sortedPlaces(ys...)
	f.chain(score.Head, xs)
	f.running(score.Tail, xs, false)
	f.chain(score.Left, ys)
	f.running(score.Right, ys, false)
}

// places dimensions what is done in a step: the whole along the head and at the
// left, and how far from the left, or from the right, and from the head each place
// lies.
func (f *figure) places(xs, ys []units.Length, fromRight bool) {
	xs, ys = sortedPlaces(xs...), sortedPlaces(ys...)
	f.chain(score.Head, []units.Length{xs[0], xs[len(xs)-1]})
	f.chain(score.Left, []units.Length{ys[0], ys[len(ys)-1]})
	f.running(score.Tail, xs, fromRight)
	f.running(score.Right, ys, false)
}

// blank draws the openings, lines and glue of a folded piece, without its
// outline.
func (f *figure) blank(b score.Blank, of ref) {
	_, openings := b.Outline()
	for _, p := range openings {
		f.polygon(outline, of, p)
	}
	for _, g := range b.Glue() {
		f.fields = append(f.fields, field{g.Area, g.Side == score.Back, of})
	}
	size := b.Size()
	for _, l := range b.Lines() {
		f.line(foldKind(l.Fold), of, false, ends(l, size)...)
	}
}

func foldKind(k score.Fold) lineKind {
	if k == score.Mountain {
		return mountain
	}
	return valley
}

// ends returns where a line of a blank begins and ends; one that ends at 0 runs from
// edge to edge.
func ends(l score.Line, size units.Size) []units.Point {
	from, to := l.From, l.To
	if l.Axis == score.Level {
		if to == 0 {
			to = size.W
		}
		return []units.Point{{X: from, Y: l.At}, {X: to, Y: l.At}}
	}
	if to == 0 {
		to = size.H
	}
	return []units.Point{{X: l.At, Y: from}, {X: l.At, Y: to}}
}

// grain draws a double arrow along the grain where there is room for it, with
// nothing else there.
func (f *figure) grain(within units.Rect, g work.Grain) {
	long := f.pen.mm(14000)
	half := f.pen.em(500)
	size, way := units.Size{W: 2 * half, H: long}, units.Point{Y: 1}
	if g == work.GrainAlongWidth {
		size, way = size.Turned(), units.Point{X: 1}
	}
	room := units.Size{W: within.Size().W - size.W, H: within.Size().H - size.H}
	for _, across := range [...]int64{2, 14, 4, 12, 6, 10} {
		for _, down := range [...]int64{3, 13, 5, 11} {
			x, _ := room.W.Scale(across, 16, units.Down)
			y, _ := room.H.Scale(down, 16, units.Down)
			place := units.RectAt(within.Min.Plus(units.Point{X: x, Y: y}), size)
			if !place.In(within) || !f.free(place) {
				continue
			}
			a := units.Point{X: place.Min.X + way.Y*half, Y: place.Min.Y + way.X*half}
			b := units.Point{X: place.Max.X - way.Y*half, Y: place.Max.Y - way.X*half}
			f.lines = append(f.lines, line{along, nothing, []units.Point{a, b}, false, boundsOf([]units.Point{a, b})})
			f.arrow(a, -way.X, -way.Y)
			f.arrow(b, way.X, way.Y)
			return
		}
	}
}
