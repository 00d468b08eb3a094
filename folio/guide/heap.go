package guide

import (
	"slices"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/pocket/work"
	"boardwrap.example/pocket/worktop"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// heap draws a heap as it lies on the table: with a kind of line for each part,
// what is under others hidden. That is the same at every scale.
func (f *figure) heap(w *workshop, s subject, h worktop.Heap, kind func(worktop.Stretch) lineKind) {
	seen, ok := w.last.seen[s]
	if !ok {
		seen = w.lookAt(h, kind)
		w.last.seen[s] = seen
	}
	for _, l := range seen.lines {
		f.line(l.kind, l.of, l.shut, l.pts...)
	}
	if seen.left > 0 {
		f.say("and " + plural(seen.left, "score") + " more")
	}
}

// A look is what is seen of a heap from above.
type look struct {
	lines []line
	left  int // scores that are left out
}

// lookAt looks at a heap.
func (w *workshop) lookAt(h worktop.Heap, kind func(worktop.Stretch) lineKind) look {
	var list []sheetlet
	var parts []int
	for i, p := range h.Stretches() {
		if p.Stands() {
			continue
		}
		piece, copy := p.Piece()
		edge, openings := p.Outline()
		s := sheetlet{of: w.of(piece, copy), kind: kind(p), pts: cornersOf(p.Lies().Polygon(edge))}
		for _, o := range openings {
			s.holes = append(s.holes, cornersOf(p.Lies().Polygon(o)))
		}
		list, parts = append(list, s), append(parts, i)
	}
	below := hidden
	if len(list) > 12 { // too many dashes to be told apart
		below = absent
	}
	boxed(list)
	above, over := outlines(list)
	all := partsOf(h)
	f, left := newFigure(pen{}), 0
	for n, i := range parts {
		s, part, over := list[n], all[i], above[:over[n]]
		back := part.Lies().Undone()
		for k, a := range s.pts {
			b := s.pts[(k+1)%len(s.pts)]
			if !h.GoesOn(i, back.Point(halfway(a, b))) {
				f.edge(s.kind, below, s.of, a, b, over)
			}
		}
		for _, r := range s.holes {
			f.covered(s.kind, below, s.of, r, over)
		}
		left += f.scores(w, part, s.of, over)
	}
	return look{f.lines, left}
}

// outlines lists what differs of things that lie over each other, given from the
// bottom up, from the top down, and how many of that lie over each: of the leaves of a
// pile, all of one size, one hides what all of them do.
func outlines(list []sheetlet) (above []sheetlet, over []int) {
	over = make([]int, len(list))
	for n, s := range slices.Backward(list) {
		over[n] = len(above)
		if !slices.ContainsFunc(above, func(t sheetlet) bool {
			return sameOutline(s.pts, t.pts) && slices.EqualFunc(s.holes, t.holes, sameOutline)
		}) {
			above = append(above, s)
		}
	}
	return above, over
}

// sameOutline reports whether outlines have the same corners one after the other,
// wherever they begin and whichever way they run.
func sameOutline(a, b []units.Point) bool {
	if len(a) != len(b) {
		return false
	}
	for first, q := range b {
		if q != a[0] {
			continue
		}
		on, back := true, true
		for i, p := range a {
			on = on && p == b[(first+i)%len(b)]
			back = back && p == b[(first+len(b)-i)%len(b)]
		}
		if on || back {
			return true
		}
	}
	return false
}

// edge draws a straight edge under what lies over it.
func (f *figure) edge(k, below lineKind, of ref, a, b units.Point, over []sheetlet) {
	for _, s := range split(a, b, near(over, boundsOf([]units.Point{a, b}))) {
		kind := k
		if s.covered {
			kind = below
		}
		if kind != absent {
			f.line(kind, of, false, s.a, s.b)
		}
	}
}

// scores draws the scores of a part at which it is not folded, where they are
// seen, as valleys and mountains as they lie: mostDrawn of them. It returns how many
// it leaves out.
func (f *figure) scores(w *workshop, p worktop.Stretch, of ref, over []sheetlet) int {
	piece := w.piece(of.piece)
	b, ok := piece.Blank()
	if !ok {
		return 0
	}
	n := 0
	edge, _ := p.Outline()
	bounds := edge.Bounds()
	for _, l := range b.Lines() {
		a, z, ok := lineWithin(edge, bounds, l.Axis, l.At, l.From, l.To)
		if !ok || w.nowFolded(of.piece, l) {
			continue
		}
		if n++; n > mostDrawn {
			continue
		}
		kind := l.Fold
		if p.Lies().Up() == score.Back {
			kind = kind.Other()
		}
		f.edge(foldKind(kind), absent, of, p.Lies().Point(a), p.Lies().Point(z), over)
	}
	return max(n-mostDrawn, 0)
}

// nowFolded reports whether a line is folded in this step: it is drawn as that.
func (w *workshop) nowFolded(piece int, l score.Line) bool {
	return slices.ContainsFunc(w.now, func(a work.Action) bool {
		fold, ok := a.(work.FoldAt)
		return ok && fold.What.Index == piece && fold.Axis == l.Axis && fold.At == l.At
	})
}

// lineWithin returns from where to where a line runs within an outline with its bounds, on
// the drawing; false where it does not, or only along an edge. A line that ends at 0 runs
// from edge to edge.
func lineWithin(edge units.Polygon, bounds units.Rect, axis score.Axis, at, first, last units.Length) (a, b units.Point, ok bool) {
	across := func(q units.Point) (x, y units.Length) {
		if axis == score.Level {
			return q.Y, q.X
		}
		return q.X, q.Y
	}
	low, least := across(bounds.Min)
	high, most := across(bounds.Max)
	if at <= low || at >= high {
		return a, b, false
	}
	from, to := most, least
	for q, r := range edge.Edges() {
		x0, y0 := across(q)
		x1, y1 := across(r)
		switch {
		case x0 == at:
			from, to = min(from, y0), max(to, y0)
		case x0 < at && at < x1, x1 < at && at < x0:
			y, _ := (y1 - y0).Scale((at - x0).Nanometres(), (x1 - x0).Nanometres(), units.Nearest)
			from, to = min(from, y0+y), max(to, y0+y)
		}
	}
	if last > 0 {
		from, to = max(from, first), min(to, last)
	}
	a, b = units.Point{X: at, Y: from}, units.Point{X: at, Y: to}
	if axis == score.Level {
		a, b = units.Point{X: from, Y: at}, units.Point{X: to, Y: at}
	}
	return a, b, from < to
}

// folds draws where a piece is folded, as it lies before: long dashes where the
// part that turns comes up and over, dashes and dots where it goes under, with an
// arrow over the first of each.
func (f *figure) folds(h worktop.Heap, n int, list []work.FoldAt) (xs, ys []units.Length) {
	arrows := map[work.Way]bool{} // only looked up
	for _, a := range list {
		k, kind := crease, swing
		if a.Way == work.Away {
			k, kind = creaseUnder, swingUnder
		}
		var from, to units.Point
		var lies worktop.Lie
		found := false
		for _, p := range h.Stretches() {
			if piece, copy := p.Piece(); piece != a.What.Index || copy != n || p.Stands() {
				continue
			}
			edge, _ := p.Outline()
			b, e, ok := lineWithin(edge, edge.Bounds(), a.Axis, a.At, a.From, a.To)
			if !ok && !found {
				b, e, ok = p.EdgeOn(a.Axis, a.At)
			}
			if !ok {
				continue
			}
			b, e = p.Lies().Point(b), p.Lies().Point(e)
			f.line(k, ofCopy(a.What.Index, n), false, b, e)
			from, to, lies, found = b, e, p.Lies(), true
		}
		if from.X == to.X {
			xs = append(xs, from.X)
		} else {
			ys = append(ys, from.Y)
		}
		if !arrows[a.Way] {
			at := halfway(from, to)
			if len(arrows) > 0 { // beside the one of the other way, not over it
				at = halfway(from, at)
			}
			arrows[a.Way] = true
			f.swings(kind, at, lies.Way(a.Moves))
		}
	}
	return xs, ys
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
	cover(&f.lines[n].box, f.lines[n+1].box, false)
	f.lines = f.lines[:n+1]
	f.arrow(tip, way.Y.Abs(), way.X.Abs())
	for _, r := range [...]units.Rect{f.lines[n].box, f.dots[len(f.dots)-1].box} {
		cover(&f.swung, r, f.swung.Empty())
	}
}

// lineOf returns how the line of a fold that was made runs on the table, and its
// middle.
func lineOf(h worktop.Heap, a work.FoldAt, n int) (axis score.Axis, middle units.Point) {
	for _, p := range slices.Backward(partsOf(h)) { // of the lowest
		if piece, copy := p.Piece(); piece != a.What.Index || copy != n || p.Stands() {
			continue
		}
		if b, e, ok := p.EdgeOn(a.Axis, a.At); ok {
			axis, _ = p.Lies().Line(a.Axis, a.At)
			middle = p.Lies().Point(halfway(b, e))
		}
	}
	return axis, middle
}

// A leaned is what is drawn half opened: turned up about a crease by three up to four
// along.
type leaned struct {
	at     units.Point // of the crease, in the section
	across int64       // 1 where what turns lies right of it, −1 left
}

// point returns where a point comes to lie.
func (l leaned) point(q units.Point) units.Point {
	x, y := q.X-l.at.X, l.at.Y-q.Y // upwards
	turned := func(a, b units.Length, by int64) units.Length {
		four, _ := a.Scale(4, 5, units.Nearest)
		three, _ := b.Scale(3*by, 5, units.Nearest)
		return four + three
	}
	return units.Point{X: l.at.X + turned(x, y, -l.across), Y: l.at.Y - turned(y, x, l.across)}
}

// halfOpened draws in section what lies in layers and was only creased at lines
// along an axis: each crease half opened, with all that it would turn up and over.
func (w *workshop) halfOpened(q pen, s subject, t *worktop.Bench, folds []work.FoldAt) *figure {
	h, turns, _ := t.Turning(s.copy, folds...)
	axis, through := lineOf(h, folds[0], s.copy)
	cuts := h.Section(axis, through)
	parts, apart := partsOf(h), q.apart(cuts)
	groups := map[string][]worktop.Crossing{} // by what turns them; only looked up
	var order []string
	leans := make([]leaned, len(folds))
	most := make([]int, len(folds)) // parts that it turns
	for _, c := range cuts {
		key := make([]byte, len(folds))
		for k, a := range folds {
			key[k] = '0'
			if !turns[k][c.Stretch()] {
				continue
			}
			key[k] = '1'
			most[k]++
			p := parts[c.Stretch()]
			if _, _, ok := p.EdgeOn(a.Axis, a.At); !ok {
				continue
			}
			_, at := p.Lies().Line(a.Axis, a.At)
			from, _ := c.Ends()
			up, _ := apart.Times(int64(-c.Level()))
			leans[k] = leaned{at: units.Point{X: at, Y: up}, across: 1}
			if from < at {
				leans[k].across = -1
			}
		}
		if _, there := groups[string(key)]; !there {
			order = append(order, string(key))
		}
		groups[string(key)] = append(groups[string(key)], c)
	}
	outwards := make([]int, len(folds)) // the crease that turns least first
	for k := range outwards {
		outwards[k] = k
	}
	inorder.Sort(outwards, func(a, b int) int { return most[a] - most[b] })
	f := newFigure(q)
	for _, key := range order {
		g := newFigure(q)
		g.cutOf(w, h, axis, groups[key], apart, false)
		for _, l := range g.lines {
			if l.kind != outline {
				continue
			}
			pts := slices.Clone(l.pts)
			for _, k := range outwards {
				for i := range pts {
					if key[k] == '1' {
						pts[i] = leans[k].point(pts[i])
					}
				}
			}
			f.line(l.kind, l.of, l.shut, pts...)
		}
	}
	f.say("beside it in section, half opened, layers drawn apart")
	return f
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
