package guide

import (
	"slices"
	"strconv"

	"boardwrap.example/pocket/worktop"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// cutThrough draws a heap cut through across an axis of folds, at a point of the
// axis, as it lies: each part as long as it is, the layers drawn apart, joined at their folds.
func (f *figure) cutThrough(w *workshop, h worktop.Heap, axis score.Axis, through units.Point, names bool) {
	cuts := h.Section(axis, through)
	f.cutOf(w, h, axis, cuts, f.pen.apart(cuts), names)
}

// cutOf draws some of the cuts of a section of a heap.
func (f *figure) cutOf(w *workshop, h worktop.Heap, axis score.Axis, cuts []worktop.Crossing, apart units.Length, names bool) {
	parts := partsOf(h)
	at := func(c worktop.Crossing, x units.Length) units.Point {
		y, _ := apart.Times(int64(-c.Level()))
		return units.Point{X: x, Y: y}
	}
	var xs []units.Length
	named := map[[2]int]bool{} // only looked up
	for n, c := range cuts {
		if n == mostDrawn {
			f.say("and " + strconv.Itoa(len(cuts)-n) + " layers more")
			break
		}
		p := parts[c.Stretch()]
		piece, copy := p.Piece()
		of := w.of(piece, copy)
		from, to := c.Ends()
		panels := w.panels(p, axis)
		for _, panel := range panels[:min(len(panels), mostDrawn)] {
			of.panel = panel.number
			f.line(outline, of, false, at(c, panel.from), at(c, panel.to))
		}
		if of.panel = none; len(panels) > mostDrawn { // the others as one line
			f.line(outline, of, false, at(c, panels[mostDrawn].from), at(c, panels[len(panels)-1].to))
		}
		xs = append(xs, from, to)
		if key := [2]int{piece, copy}; names && !named[key] {
			named[key] = true
			f.name(w.copyName(piece, copy), boundsOf([]units.Point{at(c, from), at(c, to)}), of)
		}
		for _, before := range cuts[:n] {
			if x, ok := h.Fold(before, c, axis); ok {
				first, _ := before.Ends()
				f.turn(of, at(before, x), at(c, x), apart.Half(units.Down), x <= min(from, first))
			}
		}
	}
	f.walls(w, h, axis, cuts, at)
	if xs = sortedPlaces(xs...); len(xs) > 1 {
		f.chain(score.Head, []units.Length{xs[0], xs[len(xs)-1]})
	}
}

// apart returns how far apart the layers of a section are drawn: closer where
// there are many.
func (p pen) apart(cuts []worktop.Crossing) units.Length {
	top := 1
	for _, c := range cuts {
		top = max(top, c.Level())
	}
	return p.mm(max(1500, min(3500, 20_000/int64(top))))
}

// A crossed is a panel of a part that a section cuts through: its number, and where its
// edges lie that are first and last on the drawing.
type crossed struct {
	number   int
	from, to units.Length
}

// panels lists the panels of a part across an axis as it lies, by their number between
// the scores of their piece that run like that.
func (w *workshop) panels(p worktop.Stretch, axis score.Axis) []crossed {
	i, _ := p.Piece()
	edge, _ := p.Outline()
	own, r := axis, edge.Bounds()
	if lies, _ := p.Lies().Line(score.Upright, 0); lies != score.Upright {
		own = 1 - axis
	}
	from, to := r.Min.X, r.Max.X
	if own == score.Level {
		from, to = r.Min.Y, r.Max.Y
	}
	at := w.scored(i, own)
	first, _ := slices.BinarySearch(at, from+1)
	last, _ := slices.BinarySearch(at, to)
	ends := slices.Concat([]units.Length{from}, at[first:last], []units.Length{to})
	list := make([]crossed, 0, len(ends)-1)
	for k := range len(ends) - 1 {
		_, a := p.Lies().Line(own, ends[k])
		_, b := p.Lies().Line(own, ends[k+1])
		list = append(list, crossed{first + k, a, b})
	}
	return list
}

// A scoring is the scores of a piece along an axis.
type scoring struct {
	piece int
	axis  score.Axis
}

// scored lists where a piece is scored along an axis from edge to edge, in order.
func (w *workshop) scored(i int, axis score.Axis) []units.Length {
	at, ok := w.last.scored[scoring{i, axis}]
	if ok {
		return at
	}
	piece := w.piece(i)
	if b, ok := piece.Blank(); ok {
		for _, l := range b.Lines() {
			if l.Axis == axis && b.Whole(l) {
				at = append(at, l.At)
			}
		}
	}
	at = sortedPlaces(at...)
	w.last.scored[scoring{i, axis}] = at
	return at
}

// walls draws what stands up as what joins the layers at either side: both its folds
// are made in one step.
func (f *figure) walls(w *workshop, h worktop.Heap, axis score.Axis, cuts []worktop.Crossing, at func(worktop.Crossing, units.Length) units.Point) {
	for i, p := range h.Stretches() {
		if !p.Stands() {
			continue
		}
		piece, copy := p.Piece()
		of := w.of(piece, copy)
		var ends []units.Point
		for _, c := range cuts {
			if x, ok := h.End(c, i, axis); ok {
				ends = append(ends, at(c, x))
			}
		}
		f.line(outline, of, false, ends...)
	}
}
