package guide

import (
	"slices"

	"boardwrap.example/folio/view"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// place dimensions where the first new thing of the step lies, or where all copies
// of one piece do, from the edges that they are measured from, and hatches what takes
// adhesive on a flat piece.
func (w *workshop) place(f *figure, outside bool) {
	seen := w.p.View(view.Cover)
	if outside {
		seen = w.p.View(view.Outside)
	}
	var xs, ys dimensioned
	piece := work.Object{Index: -1}
	for _, a := range w.now {
		what, at, size, areas, ok := placing(a)
		if !ok || xs.list != nil && (what.Kind != work.Piece || what.Index != piece.Index) {
			continue
		}
		r, ok := w.lies(what, size)
		if !ok {
			if r, ok = w.told(a, outside); !ok {
				continue
			}
			f.rect(fresh, w.of(what.Index, what.Copy), seen.Rect(r))
		}
		if fix, ok := a.(work.Fix); ok && fix.Panel != work.All {
			f.say("what opens is drawn closed")
		}
		piece, r = what, seen.Rect(r)
		if what.Kind == work.Piece && w.piece(what.Index).Size() == size {
			for _, area := range areas {
				if seen.Over() {
					area.Min.X, area.Max.X = size.W-area.Max.X, size.W-area.Min.X
				}
				f.fields = append(f.fields, field{area.Moved(r.Min), true, ofPiece(what.Index)})
			}
		}
		if seen.Edge(at.Across) == score.Right {
			xs.add(r.Max.X+at.X, r.Max.X)
		} else {
			xs.add(r.Min.X-at.X, r.Min.X)
		}
		ys.add(r.Min.Y-at.Y, r.Min.Y) // places are told from the head edge
	}
	xs.draw(f, score.Tail)
	ys.draw(f, score.Right)
}

// dimensioned are places along one axis with the edge that they are measured from.
type dimensioned struct {
	from units.Length
	list []units.Length
}

// add takes in a place, if it is measured from the same edge as those before.
func (d *dimensioned) add(from, at units.Length) {
	if d.list == nil {
		d.from = from
	}
	if from == d.from {
		d.list = append(d.list, at)
	}
}

// draw dimensions the places along a side: one by itself, several from their edge.
func (d *dimensioned) draw(f *figure, side score.Edge) {
	at := sortedPlaces(append(d.list, d.from)...)
	if len(at) < 3 {
		f.chain(side, at)
		return
	}
	f.running(side, at, at[0] != d.from)
}

// slips draws the way of what the step slips in, over the edge at which it goes in.
func (w *workshop) slips(f *figure, outside bool) {
	seen := w.p.View(view.Cover)
	if outside {
		seen = w.p.View(view.Outside)
	}
	var drawn []units.Point
	near := f.pen.mm(4000)
	for _, a := range w.now {
		in, ok := a.(work.Insert)
		if !ok || in.Corners || in.Into.Kind != work.PartFitting {
			continue
		}
		g := w.fits[in.Into.Index]
		for i, spot := range g.Spots() {
			r := seen.Rect(spot.Lies())
			at := middleOf(r)
			if i != in.What.Copy || g.Outside() != outside || slices.ContainsFunc(drawn, func(q units.Point) bool {
				return (q.X-at.X).Abs() < near && (q.Y-at.Y).Abs() < near
			}) {
				continue
			}
			drawn = append(drawn, at)
			f.slip(r, seen.Edge(in.From))
		}
	}
}

// slip draws an arrow from an edge of a rectangle inwards.
func (f *figure) slip(r units.Rect, over score.Edge) {
	size := r.Size()
	long, deep := f.pen.mm(9000), size.H
	if over == score.Left || over == score.Right {
		deep = size.W
	}
	long = min(long, deep.Half(units.Down))
	from, way := halfway(r.Min, units.Point{X: r.Max.X, Y: r.Min.Y}), units.Point{Y: 1}
	switch over {
	case score.Left:
		from, way = halfway(r.Min, units.Point{X: r.Min.X, Y: r.Max.Y}), units.Point{X: 1}
	case score.Right:
		from, way = halfway(units.Point{X: r.Max.X, Y: r.Min.Y}, r.Max), units.Point{X: -1}
	case score.Tail:
		from, way = halfway(units.Point{X: r.Min.X, Y: r.Max.Y}, r.Max), units.Point{Y: -1}
	}
	tip := units.Point{X: from.X + way.X*long, Y: from.Y + way.Y*long}
	body := f.body
	f.line(slide, nothing, false, from, tip)
	f.body = body // it is not part of what is measured
	f.arrow(tip, way.X, way.Y)
}

// places reports whether the step puts something in a place that is dimensioned.
func (w *workshop) places() bool {
	return slices.ContainsFunc(w.now, func(a work.Action) bool {
		what, _, size, _, ok := placing(a)
		if ok {
			if _, ok = w.lies(what, size); !ok {
				_, ok = w.told(a, false)
			}
		}
		return ok
	})
}

// told returns where an action lays a piece on a board of the row, or marks where it will
// lie, of which nothing lies flat once it is done: a guard that stands on a spine.
func (w *workshop) told(a work.Action, outside bool) (units.Rect, bool) {
	what, at, size, _, ok := placing(a)
	if !ok || what.Kind != work.Piece || w.owner(what.Index) < 0 {
		return units.Rect{}, false
	}
	var on work.Base
	switch a := a.(type) {
	case work.MarkPlace:
		on = a.On
	default:
		_, on = placedOn(a)
	}
	area, ok := w.p.Base(on)
	return at.Rect(size, area.Size()).Moved(area.Min), ok && on.Kind == work.OnBoard && !outside
}

// tabs draws where the tabs of a guard lie whose folds stand up in the step.
func (w *workshop) tabs(f *figure) {
	for _, a := range w.now {
		last, ok := a.(work.Stick)
		if !ok || !last.Standing {
			continue
		}
		d, _ := w.fits[w.owner(last.What.Index)].Design()
		for _, a := range w.done {
			first, ok := a.(work.Fix)
			if !ok || first.What.Kind != work.Piece || first.What.Index != last.What.Index || first.What.Copy != last.What.Copy {
				continue
			}
			r, ok := w.told(first, false)
			if !ok {
				continue
			}
			r, of := w.p.View(view.Cover).Rect(r), w.of(last.What.Index, last.What.Copy)
			tab, folds := d.Tabs()
			f.rect(there, of, r)
			f.rect(fresh, of, r.Moved(units.Point{X: tab + folds}))
		}
	}
}

// lies returns where a thing of a size lies on the row.
func (w *workshop) lies(t work.Object, size units.Size) (units.Rect, bool) {
	switch t.Kind {
	case work.Bought:
		if t.Index >= 0 && t.Index < len(w.fits) {
			return w.fits[t.Index].Rect(), true
		}
	case work.Piece:
		for _, q := range placed(w.p) {
			if i, n := q.Piece(); i == t.Index && n == t.Copy && q.Rect().Size() == size {
				return q.Rect(), true
			}
		}
	}
	return units.Rect{}, false
}
