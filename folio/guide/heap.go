package guide

import (
	"iter"
	"slices"
	"strconv"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// heap draws a heap as it lies on the table: with a kind of line for each part,
// what is under others hidden. It returns where it lies.
func (f *figure) heap(w *workshop, h *heap, kind func(*part) lineKind) {
	list := make([]sheetlet, 0, len(h.parts))
	owner := make([]*part, 0, len(h.parts))
	for _, p := range h.parts {
		if p.stands {
			continue
		}
		pts := p.shape()
		list = append(list, sheetlet{of: ref{p.piece, p.copy, -1, w.owner(p.piece)}, kind: kind(p), pts: pts, holes: openings(w, p)})
		owner = append(owner, p)
	}
	below := hidden
	if len(list) > 12 { // too many dashes to be told apart
		below = absent
	}
	for i, p := range owner {
		pts, over := p.shape(), list[i+1:]
		for k, a := range pts {
			b := pts[(k+1)%len(pts)]
			if h.inner(p, a, b) {
				continue
			}
			f.edge(list[i].kind, below, list[i].of, a, b, over)
		}
		for _, r := range list[i].holes {
			f.covered(list[i].kind, below, list[i].of, r, over)
		}
		f.scores(w, p, list[i].of, over)
	}
}

// edge draws a straight edge under what lies over it.
func (f *figure) edge(k, below lineKind, of ref, a, b units.Point, over []sheetlet) {
	for _, s := range split(a, b, over) {
		kind := k
		if s.covered {
			kind = below
		}
		if kind != absent {
			f.line(kind, of, false, s.a, s.b)
		}
	}
}

// inner reports whether an edge of a part is none of the paper: the piece goes
// on beyond it, and lies flat with it.
func (h *heap) inner(p *part, a, b units.Point) bool {
	back := p.lies.undone()
	mid := units.Point{X: a.X + (b.X - a.X).Half(units.Down), Y: a.Y + (b.Y - a.Y).Half(units.Down)}
	at := back.point(mid)
	for _, q := range h.parts {
		if q != p && q.piece == p.piece && q.copy == p.copy && q.lies == p.lies && q.stands == p.stands && onEdge(q.area, at) {
			return true
		}
	}
	return false
}

// onEdge reports whether a point lies on an edge of an outline.
func onEdge(pts []units.Point, q units.Point) bool {
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if turn(a, b, q) == 0 && q.X >= min(a.X, b.X) && q.X <= max(a.X, b.X) && q.Y >= min(a.Y, b.Y) && q.Y <= max(a.Y, b.Y) {
			return true
		}
	}
	return false
}

// openings lists what is cut out of a part, where it lies.
func openings(w *workshop, p *part) [][]units.Point {
	piece, _ := w.piece(p.piece)
	var list [][]units.Point
	for r := range piece.Openings() {
		if encloses(p.area, middleOf(r)) {
			list = append(list, corners(spanned(p.lies.point(r.Min), p.lies.point(r.Max))))
		}
	}
	return list
}

// scores draws the scores of a part at which it is not folded, where they are
// seen, as valleys and mountains as they lie.
func (f *figure) scores(w *workshop, p *part, of ref, over []sheetlet) {
	piece, _ := w.piece(p.piece)
	b, ok := piece.Blank()
	if !ok {
		return
	}
	for _, l := range b.Lines() {
		a, z, ok := p.along(l.Axis, l.At, l.From, l.To)
		if !ok || w.nowFolded(p.piece, l) {
			continue
		}
		kind := l.Fold
		if p.lies.up() == score.Back {
			kind = kind.Other()
		}
		f.edge(foldKind(kind), absent, of, p.lies.point(a), p.lies.point(z), over)
	}
}

// nowFolded reports whether a line is folded in this step: it is drawn as that.
func (w *workshop) nowFolded(piece int, l score.Line) bool {
	return slices.ContainsFunc(w.now, func(a work.Action) bool {
		fold, ok := a.(work.FoldAt)
		return ok && fold.What.Index == piece && fold.Axis == l.Axis && fold.At == l.At
	})
}

// along returns from where to where a line runs within a part, on the drawing;
// false where it does not, or only along an edge. A line that ends at 0 runs from
// edge to edge.
func (p *part) along(axis score.Axis, at, first, last units.Length) (a, b units.Point, ok bool) {
	if axis == score.Level { // as one that is upright
		flipped := part{area: make([]units.Point, len(p.area))}
		for i, q := range p.area {
			flipped.area[len(p.area)-1-i] = units.Point{X: q.Y, Y: q.X}
		}
		a, b, ok = flipped.along(score.Upright, at, first, last)
		return units.Point{X: a.Y, Y: a.X}, units.Point{X: b.Y, Y: b.X}, ok
	}
	r := boundsOf(p.area)
	if at <= r.Min.X || at >= r.Max.X {
		return a, b, false
	}
	from, to := r.Max.Y, r.Min.Y
	for _, q := range clipped(p.area, axis, at, true) {
		if q.X == at {
			from, to = min(from, q.Y), max(to, q.Y)
		}
	}
	if last > 0 {
		from, to = max(from, first), min(to, last)
	}
	return units.Point{X: at, Y: from}, units.Point{X: at, Y: to}, from < to
}

// folds draws where a piece is folded, as it lies before: long dashes where the
// part that turns comes up and over, dashes and dots where it goes under, with an
// arrow over the first of each.
func (f *figure) folds(h *heap, n int, list []work.FoldAt) (xs, ys []units.Length) {
	arrows := map[work.Way]bool{} // only looked up
	for _, a := range list {
		k, kind := crease, swing
		if a.Way == work.Away {
			k, kind = creaseUnder, swingUnder
		}
		var from, to units.Point
		var lies lie
		found := false
		for _, p := range h.parts {
			if p.piece != a.What.Index || p.copy != n || p.stands {
				continue
			}
			b, e, ok := p.along(a.Axis, a.At, a.From, a.To)
			if !ok && p.reaches(a.Axis, a.At) && !found && h.open(p, a) {
				b, e, ok = p.edgeOn(a.Axis, a.At)
			}
			if !ok {
				continue
			}
			b, e = p.lies.point(b), p.lies.point(e)
			f.line(k, ref{p.piece, n, -1, -1}, false, b, e)
			from, to, lies, found = b, e, p.lies, true
		}
		if !found {
			continue
		}
		if from.X == to.X {
			xs = append(xs, from.X)
		} else {
			ys = append(ys, from.Y)
		}
		if !arrows[a.Way] {
			arrows[a.Way] = true
			mid := units.Point{X: from.X + (to.X - from.X).Half(units.Down), Y: from.Y + (to.Y - from.Y).Half(units.Down)}
			f.swings(kind, mid, lies.way(a.Moves))
		}
	}
	return xs, ys
}

// open reports whether a part ends at the line of a fold, and its piece goes on
// beyond it, flat.
func (h *heap) open(p *part, a work.FoldAt) bool {
	b, e, ok := p.edgeOn(a.Axis, a.At)
	return ok && h.inner(p, p.lies.point(b), p.lies.point(e))
}

// edgeOn returns the edge of a part that lies on a line.
func (p *part) edgeOn(axis score.Axis, at units.Length) (a, b units.Point, ok bool) {
	for i, q := range p.area {
		r := p.area[(i+1)%len(p.area)]
		if axis == score.Upright && q.X == at && r.X == at || axis == score.Level && q.Y == at && r.Y == at {
			return q, r, true
		}
	}
	return a, b, false
}

// swings draws the arrow of a fold: from the part that turns, which lies in a
// direction, over the line or under it.
func (f *figure) swings(k lineKind, mid, way units.Point) {
	reach, high := f.pen.mm(7000), f.pen.mm(5000)
	point := func(along, up units.Length) units.Point {
		return units.Point{X: mid.X + way.X*along - way.Y.Abs()*up, Y: mid.Y + way.Y*along - way.X.Abs()*up}
	}
	from, top, tip := point(reach, 0), point(0, high), point(-reach, 0)
	n := len(f.lines)
	body := f.body
	f.arc(k, nothing, from, point(reach, high), top)
	f.arc(k, nothing, top, point(-reach, high), tip)
	f.body = body // it is not part of what is measured
	f.lines[n].pts = append(f.lines[n].pts, f.lines[n+1].pts[1:]...)
	f.lines = f.lines[:n+1]
	f.arrow(tip, way.Y.Abs(), way.X.Abs())
}

// A seam is a part cut through in the section of a heap.
type seam struct {
	p        *part
	from, to units.Length // as it lies: where the end of the drawing's lower number lies first
	level    int
}

// cutThrough draws a heap cut through across an axis of folds, at a point of the
// axis, as it lies: each part as long as it is, the layers drawn apart, joined at their folds.
func (f *figure) cutThrough(w *workshop, h *heap, axis score.Axis, through units.Point, names bool) {
	seams := h.seams(axis, through)
	apart := f.pen.apart(seams)
	at := func(s seam, x units.Length) units.Point {
		y, _ := apart.Times(int64(-s.level))
		return units.Point{X: x, Y: y}
	}
	var xs []units.Length
	named := map[[2]int]bool{} // only looked up
	for n, s := range seams {
		if n == mostDrawn {
			f.say("and " + strconv.Itoa(len(seams)-n) + " layers more")
			break
		}
		of := ref{s.p.piece, s.p.copy, -1, w.owner(s.p.piece)}
		a, b := at(s, s.from), at(s, s.to)
		for panel, ends := range w.panels(s.p, axis) {
			of.panel = panel
			f.line(outline, of, false, at(s, ends[0]), at(s, ends[1]))
		}
		xs = append(xs, s.from, s.to)
		of.panel = -1
		if key := [2]int{s.p.piece, s.p.copy}; names && !named[key] {
			named[key] = true
			piece, _ := w.piece(s.p.piece)
			f.name(piece.Name(), boundsOf([]units.Point{a, b}), of)
		}
		for _, before := range seams[:n] {
			if x, ok := before.meets(s, axis); ok {
				f.turn(of, at(before, x), at(s, x), apart.Half(units.Down), x <= min(s.from, s.to) && x <= min(before.from, before.to))
			}
		}
	}
	f.walls(w, h, axis, seams, at)
	if xs = sortedPlaces(xs...); len(xs) > 1 {
		f.chain(score.Head, []units.Length{xs[0], xs[len(xs)-1]})
	}
}

// apart returns how far apart the layers of a section are drawn: closer where
// there are many.
func (p pen) apart(seams []seam) units.Length {
	top := 1
	for _, s := range seams {
		top = max(top, s.level)
	}
	return p.mm(max(1500, min(3500, 20_000/int64(top))))
}

// panels walks the panels of a part across an axis as it lies, by their number
// between the scores of their piece that run like that, with where they lie.
func (w *workshop) panels(p *part, axis score.Axis) iter.Seq2[int, [2]units.Length] {
	return func(yield func(int, [2]units.Length) bool) {
		piece, _ := w.piece(p.piece)
		own, r := axis, boundsOf(p.area)
		if p.lies.a == 0 {
			own = 1 - axis
		}
		from, to := r.Min.X, r.Max.X
		if own == score.Level {
			from, to = r.Min.Y, r.Max.Y
		}
		var at []units.Length
		if b, ok := piece.Blank(); ok {
			for _, l := range b.Lines() {
				if l.Axis == own && b.Whole(l) && l.At < to {
					at = append(at, l.At)
				}
			}
		}
		at = append(sortedPlaces(at...), to)
		for n, end := range at {
			if end <= from {
				continue
			}
			_, a := p.lies.line(own, from)
			_, b := p.lies.line(own, end)
			if from = end; !yield(n, [2]units.Length{a, b}) {
				return
			}
		}
	}
}

// walls draws what stands up: at a right angle as long as it is, while the fold
// beyond it is still to be made, else as what joins the layers at either side.
func (f *figure) walls(w *workshop, h *heap, axis score.Axis, seams []seam, at func(seam, units.Length) units.Point) {
	for _, p := range h.parts {
		if !p.stands {
			continue
		}
		of := ref{p.piece, p.copy, -1, w.owner(p.piece)}
		var ends []units.Point
		for _, s := range seams {
			if x, ok := s.ends(p, axis); ok {
				ends = append(ends, at(s, x))
			}
		}
		switch {
		case len(ends) > 1:
			f.line(outline, of, false, ends[0], ends[1])
		case len(ends) == 1 && h.wall != nil:
			r := boundsOf(p.shape())
			long := r.Size().W
			if axis == score.Level {
				long = r.Size().H
			}
			if h.wall.way == work.Towards {
				long = -long
			}
			f.line(outline, of, false, ends[0], units.Point{X: ends[0].X, Y: ends[0].Y + long})
		}
	}
}

// seams lists the parts that a line through a point, across an axis, cuts
// through, with their layers.
func (h *heap) seams(axis score.Axis, through units.Point) []seam {
	along := func(p units.Point) (x, y units.Length) {
		if axis == score.Level {
			return p.Y, p.X
		}
		return p.X, p.Y
	}
	_, middle := along(through)
	var list []seam
	for _, p := range h.parts {
		r := boundsOf(p.shape())
		x0, y0 := along(r.Min)
		x1, y1 := along(r.Max)
		if p.stands || y0 > middle || middle >= y1 {
			continue
		}
		list = append(list, seam{p: p, from: x0, to: x1})
	}
	for range list { // until nothing rises any more
		still := true
		for i := range list {
			for k := range i {
				a, b := &list[k], &list[i]
				least := b.level
				if a.from < b.to && b.from < a.to {
					least = a.level + 1
				} else if a.p.piece == b.p.piece && a.p.copy == b.p.copy && a.p.lies == b.p.lies && (a.to == b.from || b.to == a.from) {
					least = max(a.level, b.level)
					still = still && a.level == least
					a.level = least
				}
				if b.level < least {
					b.level, still = least, false
				}
			}
		}
		if still {
			break
		}
	}
	return list
}

// meets returns where two parts are joined by a fold.
func (s seam) meets(t seam, axis score.Axis) (units.Length, bool) {
	if s.p.lies == t.p.lies {
		return 0, false
	}
	x, ok := s.ends(t.p, axis)
	y, too := t.ends(s.p, axis)
	return x, ok && too && x == y
}

// ends returns at which of its ends a part goes on in another one.
func (s seam) ends(p *part, axis score.Axis) (units.Length, bool) {
	if s.p.piece != p.piece || s.p.copy != p.copy {
		return 0, false
	}
	for i, a := range s.p.area {
		b := s.p.area[(i+1)%len(s.p.area)]
		if a.X != b.X && a.Y != b.Y || !onEdge(p.area, units.Point{X: a.X + (b.X - a.X).Half(units.Down), Y: a.Y + (b.Y - a.Y).Half(units.Down)}) {
			continue
		}
		q, r := s.p.lies.point(a), s.p.lies.point(b)
		if axis == score.Level {
			q.X, r.X = q.Y, r.Y
		}
		if q.X == r.X && (q.X == s.from || q.X == s.to) {
			return q.X, true
		}
	}
	return 0, false
}

// bent draws a flat piece that was creased and laid open again, in section: each
// panel as long as it is, slanting by four along to three up where a fold turns
// it up or down.
func (f *figure) bent(of ref, ends []units.Length, folds []score.Fold, turnsFirst bool) {
	lean := 0
	if turnsFirst { // the part before the first fold turns
		lean = -1
		if folds[0] == score.Mountain {
			lean = 1
		}
	}
	at := units.Point{}
	for k := 1; k < len(ends); k++ {
		long := ends[k] - ends[k-1]
		next := units.Point{X: at.X + long, Y: at.Y}
		if lean != 0 {
			x, _ := long.Scale(4, 5, units.Nearest)
			y, _ := long.Scale(3, 5, units.Nearest)
			next = units.Point{X: at.X + x, Y: at.Y - units.Length(lean)*y}
		}
		f.line(outline, of, false, at, next)
		at = next
		if k-1 < len(folds) {
			if folds[k-1] == score.Valley {
				lean = min(lean+1, 1)
			} else {
				lean = max(lean-1, -1)
			}
		}
	}
}
