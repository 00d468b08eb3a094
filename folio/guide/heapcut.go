package guide

import (
	"iter"
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
		k, rest := 0, [2]units.Length{}
		for panel, ends := range w.panels(p, axis) {
			if k++; k > mostDrawn { // as one line
				if k == mostDrawn+1 {
					rest = ends
				}
				rest[1] = ends[1]
				continue
			}
			of.panel = panel
			f.line(outline, of, false, at(c, ends[0]), at(c, ends[1]))
		}
		if of.panel = none; k > mostDrawn {
			f.line(outline, of, false, at(c, rest[0]), at(c, rest[1]))
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

// panels walks the panels of a part across an axis as it lies, by their number
// between the scores of their piece that run like that, with where they lie.
func (w *workshop) panels(p worktop.Stretch, axis score.Axis) iter.Seq2[int, [2]units.Length] {
	return func(yield func(int, [2]units.Length) bool) {
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
		n, _ := slices.BinarySearch(at, from+1)
		for from < to {
			end := to
			if n < len(at) {
				end = min(end, at[n])
			}
			_, a := p.Lies().Line(own, from)
			_, b := p.Lies().Line(own, end)
			if from = end; !yield(n, [2]units.Length{a, b}) {
				return
			}
			n++
		}
	}
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
	piece, _ := w.piece(i)
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
