package guide

import (
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A lie is how something flat lies: quarter turns, perhaps turned over, and a
// move. It takes X, Y to aX + bY + x, cX + dY + y; a to d are −1, 0 and 1.
type lie struct{ a, b, c, d, x, y units.Length }

var asDrawn = lie{a: 1, d: 1}

func (l lie) point(q units.Point) units.Point {
	return units.Point{X: l.a*q.X + l.b*q.Y + l.x, Y: l.c*q.X + l.d*q.Y + l.y}
}

// then returns how what lies so lies when it is moved by m.
func (l lie) then(m lie) lie {
	to := m.point(units.Point{X: l.x, Y: l.y})
	return lie{m.a*l.a + m.b*l.c, m.a*l.b + m.b*l.d, m.c*l.a + m.d*l.c, m.c*l.b + m.d*l.d, to.X, to.Y}
}

// up returns the side of the drawing that lies up.
func (l lie) up() score.Side {
	if l.a*l.d-l.b*l.c < 0 {
		return score.Back
	}
	return score.Face
}

// line returns how a line on the drawing runs.
func (l lie) line(axis score.Axis, at units.Length) (score.Axis, units.Length) {
	switch {
	case l.a != 0 && axis == score.Upright:
		return score.Upright, l.a*at + l.x
	case l.a != 0:
		return score.Level, l.d*at + l.y
	case axis == score.Upright:
		return score.Level, l.c*at + l.y
	}
	return score.Upright, l.b*at + l.x
}

// way returns the direction in which an edge of the drawing lies.
func (l lie) way(e score.Edge) units.Point {
	l.x, l.y = 0, 0
	switch e {
	case score.Head:
		return l.point(units.Point{Y: -1})
	case score.Tail:
		return l.point(units.Point{Y: 1})
	case score.Left:
		return l.point(units.Point{X: -1})
	}
	return l.point(units.Point{X: 1})
}

// mirrored returns the move that turns things over a line.
func mirrored(axis score.Axis, at units.Length) lie {
	if axis == score.Upright {
		return lie{a: -1, d: 1, x: 2 * at}
	}
	return lie{a: 1, d: -1, y: 2 * at}
}

// A part is what of a piece lies between folds that were made.
type part struct {
	piece, copy int
	area        []units.Point // of the drawing
	lies        lie
	turned      bool // by a fold
	stands      bool // at a right angle to the rest
}

// shape returns where the part lies, its corners clockwise.
func (p *part) shape() []units.Point {
	pts := make([]units.Point, len(p.area))
	for i, q := range p.area {
		pts[i] = p.lies.point(q)
	}
	if p.lies.up() == score.Back {
		slices.Reverse(pts)
	}
	return pts
}

// A heap is what hangs together on the table, from the lowest part up.
type heap struct {
	parts []*part
	bonds []bond
	wall  *wall // stands up, and is to be laid down by the next fold
}

// A bond is where two pieces are stuck together, by points of their drawings.
type bond struct{ a, b spot }

type spot struct {
	piece, copy int
	at          units.Point
}

// A wall is the first of two folds at right angles.
type wall struct {
	axis  score.Axis
	at    units.Length
	way   work.Way
	moved map[*part]bool
}

// bounds returns the rectangle round the parts that lie flat.
func (h *heap) bounds() units.Rect {
	var r units.Rect
	first := true
	for _, p := range h.parts {
		if !p.stands {
			cover(&r, boundsOf(p.shape()), first)
			first = false
		}
	}
	return r
}

// plain reports whether it is a piece by itself that was never folded and lies
// as it was drawn.
func (h *heap) plain() bool { return len(h.parts) == 1 && h.parts[0].lies == asDrawn }

// mostParts is how many parts a heap may have to be followed; of more the pieces
// are drawn flat.
const mostParts = 240

// A worktop is the table on which a fitting is made: how its pieces lie.
type worktop struct {
	w     *workshop
	heaps map[[2]int]*heap // by piece and copy; only looked up
	lost  bool             // something could not be followed
}

func newWorktop(w *workshop) *worktop {
	return &worktop{w: w, heaps: map[[2]int]*heap{}}
}

// worktop returns the table as it is after actions; nil where that is not known.
func (w *workshop) worktop(list []work.Action) *worktop {
	t := newWorktop(w)
	for _, a := range list {
		if t.do(a); t.lost {
			return nil
		}
	}
	return t
}

// heap returns what a copy of a piece hangs together with.
func (t *worktop) heap(piece, copy int) *heap {
	copy = max(copy, 0)
	h, ok := t.heaps[[2]int{piece, copy}]
	if !ok {
		of, _ := t.w.piece(piece)
		edge := of.Outline()
		if b, ok := of.Blank(); ok {
			edge, _ = b.Outline()
		}
		h = &heap{parts: []*part{{piece: piece, copy: copy, area: cornersOf(edge), lies: asDrawn}}}
		t.heaps[[2]int{piece, copy}] = h
	}
	return h
}

// copies lists the copies that a thing stands for.
func (t *worktop) copies(what work.Thing) []int {
	piece, ok := t.w.piece(what.Index)
	if what.Kind != work.Piece || !ok {
		return nil
	}
	if what.Copy != work.All {
		return []int{what.Copy}
	}
	list := make([]int, min(piece.Quantity(), mostParts))
	for i := range list {
		list[i] = i
	}
	return list
}

// do does an action.
func (t *worktop) do(a work.Action) {
	switch a := a.(type) {
	case work.FoldAt:
		for _, n := range t.copies(a.What) {
			t.fold(n, a)
		}
	case work.TurnOver:
		for _, n := range t.copies(a.What) {
			h := t.heap(a.What.Index, n)
			r := h.bounds()
			h.move(lie{a: -1, d: 1, x: r.Min.X + r.Max.X})
		}
	case work.Fix:
		if a.What.Kind == work.Piece && a.On.Kind == work.OnPiece && t.w.owner(a.On.Index) >= 0 {
			for _, n := range t.copies(a.What) {
				t.fix(n, a)
			}
		}
	case work.Stick:
		if a.To.Kind == work.OnPiece {
			for _, n := range t.copies(a.What) {
				t.stick(n, a)
			}
		}
	}
}

func (h *heap) move(by lie) {
	for _, p := range h.parts {
		p.lies = p.lies.then(by)
	}
	if by.up() == score.Back {
		slices.Reverse(h.parts)
	}
}

// fold folds a copy of a piece, with all that is stuck to what turns.
func (t *worktop) fold(n int, a work.FoldAt) {
	h := t.heap(a.What.Index, n)
	if a.Open {
		return
	}
	moves, axis, at, ok := h.hinge(a, n)
	if !ok || len(h.parts) > mostParts {
		t.lost = true
		return
	}
	h.carry(moves)
	if h.wall != nil {
		t.lost = !h.layDown(moves, axis, at) || t.lost
		return
	}
	over := mirrored(axis, at)
	var stay, moved []*part
	for _, p := range h.parts {
		if !moves[p] {
			stay = append(stay, p)
			continue
		}
		p.lies, p.turned, p.stands = p.lies.then(over), true, p.stands || !a.Flat
		moved = append(moved, p)
	}
	slices.Reverse(moved)
	if a.Way == work.Towards {
		h.parts = slices.Concat(stay, moved)
	} else {
		h.parts = slices.Concat(moved, stay)
	}
	if !a.Flat {
		h.wall = &wall{axis, at, a.Way, moves}
	}
}

// layDown makes the second of two folds at right angles: between them stands a
// wall, and what lies beyond it lies flat again, beginning at the nearer fold.
func (h *heap) layDown(moves map[*part]bool, axis score.Axis, at units.Length) bool {
	first := h.wall
	beyond, by := moves, first.at-at
	if len(first.moved) < len(moves) {
		beyond, by = first.moved, at-first.at
	}
	if axis != first.axis {
		return false
	}
	shift := lie{a: 1, d: 1, x: by}
	if axis == score.Level {
		shift = lie{a: 1, d: 1, y: by}
	}
	for _, p := range h.parts {
		if p.stands && beyond[p] {
			p.lies, p.stands = p.lies.then(shift), false
		}
	}
	h.wall = nil
	return true
}

// hinge parts what the line of a fold runs through, and returns what turns, and
// how the line runs on the table.
func (h *heap) hinge(a work.FoldAt, n int) (moves map[*part]bool, axis score.Axis, at units.Length, ok bool) {
	beyond := a.Moves == score.Right || a.Moves == score.Tail
	moves = map[*part]bool{}
	for i := 0; i < len(h.parts); i++ {
		p := h.parts[i]
		if p.piece != a.What.Index || p.copy != n {
			continue
		}
		half, rest := clipped(p.area, a.Axis, a.At, beyond), [][]units.Point{clipped(p.area, a.Axis, a.At, !beyond)}
		if a.To > 0 { // what lies beside the ends of the line stays
			rest = append(rest, clipped(half, 1-a.Axis, a.From, false), clipped(half, 1-a.Axis, a.To, true))
			half = clipped(clipped(half, 1-a.Axis, a.From, true), 1-a.Axis, a.To, false)
		}
		if rest = slices.DeleteFunc(rest, func(pts []units.Point) bool { return len(pts) == 0 }); len(half) == 0 {
			continue
		}
		p.area, moves[p] = half, true
		for _, pts := range rest {
			q := *p
			q.area = pts
			h.parts = slices.Insert(h.parts, i, &q)
			i++
		}
	}
	for p := range moves {
		for _, q := range h.parts {
			if !moves[q] && q.piece == p.piece && q.copy == p.copy && q.lies == p.lies && q.reaches(a.Axis, a.At) && p.reaches(a.Axis, a.At) {
				axis, at = p.lies.line(a.Axis, a.At)
				return moves, axis, at, true
			}
		}
	}
	return moves, axis, at, false
}

// reaches reports whether an edge of the part lies on a line of the drawing.
func (p *part) reaches(axis score.Axis, at units.Length) bool {
	for i, q := range p.area {
		r := p.area[(i+1)%len(p.area)]
		if axis == score.Upright && q.X == at && r.X == at || axis == score.Level && q.Y == at && r.Y == at {
			return true
		}
	}
	return false
}

// carry takes along what is stuck to what turns; another piece turns whole.
func (h *heap) carry(moves map[*part]bool) {
	for again := true; again; {
		again = false
		for _, b := range h.bonds {
			p, q := h.at(b.a), h.at(b.b)
			if p == nil || q == nil || moves[p] == moves[q] {
				continue
			}
			if moves[q] {
				p, q = q, p
			}
			for _, r := range h.parts {
				if r.piece == q.piece && r.copy == q.copy && (p.piece != q.piece || p.copy != q.copy) && !moves[r] {
					moves[r], again = true, true
				}
			}
		}
	}
}

// at returns the part that a point of a drawing is on.
func (h *heap) at(s spot) *part {
	for _, p := range h.parts {
		if p.piece == s.piece && p.copy == s.copy && encloses(p.area, s.at) {
			return p
		}
	}
	return nil
}

// fix lays a copy of a piece on another one, with what hangs on it.
func (t *worktop) fix(n int, a work.Fix) {
	top, base := t.heap(a.What.Index, n), t.heap(a.On.Index, a.On.Copy)
	over := base.panel(t.w, a.On.Index, max(a.On.Copy, 0), a.On.Panel)
	lead := top.panel(t.w, a.What.Index, n, a.Panel)
	if len(over) == 0 || len(lead) == 0 {
		t.lost = true
		return
	}
	if top != base {
		first := lead[0]
		if i := slices.IndexFunc(lead, func(p *part) bool { return !p.turned }); i >= 0 && a.Panel == work.All {
			first = lead[i]
		}
		move := asDrawn
		for range a.Quarters & 3 {
			move = move.then(lie{b: -1, c: 1})
		}
		if first.lies.up() != a.Up {
			move = lie{a: -1, d: 1}.then(move)
		}
		top.move(move)
		size, on := t.within(lead, a.Panel), t.within(over, a.On.Panel)
		to := a.At.Rect(size.Size(), on.Size()).Moved(on.Min).Min
		top.move(lie{a: 1, d: 1, x: to.X - size.Min.X, y: to.Y - size.Min.Y})
		under := len(base.parts)
		if a.On.Panel != work.All {
			under = base.below(over)
		}
		base.parts = slices.Insert(base.parts, under, top.parts...)
		base.bonds = append(base.bonds, top.bonds...)
		for _, p := range base.parts {
			t.heaps[[2]int{p.piece, p.copy}] = base
		}
	}
	areas := a.Areas
	if len(areas) == 0 {
		for _, p := range lead {
			areas = append(areas, boundsOf(p.area))
		}
	}
	for _, r := range areas {
		base.join(spot{a.What.Index, n, middleOf(r)}, over)
	}
}

// below puts in front all that lies under something that is laid right over some
// parts, and returns how many that is: what lies no higher than they do. What was
// folded over them lies over it.
func (h *heap) below(over []*part) int {
	height := make([]int, len(h.parts))
	covers := make([]bool, len(h.parts)) // one of the parts
	boxes := make([]units.Rect, len(h.parts))
	top := 0
	for i, p := range h.parts {
		boxes[i] = boundsOf(p.shape())
		for k := range i {
			if boxes[i].Overlaps(boxes[k]) {
				height[i] = max(height[i], height[k]+1)
				covers[i] = covers[i] || slices.Contains(over, h.parts[k])
			}
		}
		if slices.Contains(over, p) {
			top = max(top, height[i])
		}
	}
	var lower, upper []*part
	for i, p := range h.parts {
		if slices.Contains(over, p) || !covers[i] && height[i] <= top {
			lower = append(lower, p)
		} else {
			upper = append(upper, p)
		}
	}
	h.parts = append(lower, upper...)
	return len(lower)
}

// stick glues a part of a piece to what lies over or under it.
func (t *worktop) stick(n int, a work.Stick) {
	h := t.heap(a.What.Index, n)
	h.join(spot{a.What.Index, n, middleOf(a.Area)}, h.panel(t.w, a.To.Index, max(a.To.Copy, 0), a.To.Panel))
}

// join notes that a point of a piece is stuck to the nearest of some parts that
// lies over or under it.
func (h *heap) join(s spot, to []*part) {
	p := h.at(s)
	if p == nil {
		return
	}
	at, from, best := p.lies.point(s.at), slices.Index(h.parts, p), len(h.parts)
	for i, q := range h.parts {
		if far := max(i-from, from-i); q != p && far < best && slices.Contains(to, q) {
			if on := q.lies.undone().point(at); encloses(q.area, on) {
				best = far
				h.bonds = append(h.bonds, bond{s, spot{q.piece, q.copy, on}})
			}
		}
	}
}

// undone returns the move that takes l back: its turn is l's mirrored at the
// diagonal.
func (l lie) undone() lie {
	m := lie{a: l.a, b: l.c, c: l.b, d: l.d}
	o := m.point(units.Point{X: l.x, Y: l.y})
	m.x, m.y = -o.X, -o.Y
	return m
}

// panel returns the parts of a panel of a copy of a piece, or of all of it, that
// lie flat.
func (h *heap) panel(w *workshop, piece, copy, n int) []*part {
	of, _ := w.piece(piece)
	within := units.RectAt(units.Point{}, of.Size())
	if n != work.All {
		within = panelOf(of, n)
	}
	var list []*part
	for _, p := range h.parts {
		if p.piece == piece && p.copy == copy && !p.stands && !boundsOf(p.area).Intersect(within).Empty() {
			list = append(list, p)
		}
	}
	return list
}

// within returns where the parts of a panel lie: the panel itself where one is
// meant.
func (t *worktop) within(list []*part, n int) units.Rect {
	if n != work.All {
		of, _ := t.w.piece(list[0].piece)
		r := panelOf(of, n)
		return spanned(list[0].lies.point(r.Min), list[0].lies.point(r.Max))
	}
	var r units.Rect
	for i, p := range list {
		cover(&r, boundsOf(p.shape()), i == 0)
	}
	return r
}

// panelOf returns where a panel of a piece lies between its scores on the
// drawing: along its upright scores where it has any, else along its level ones.
func panelOf(piece folio.Piece, n int) units.Rect {
	r := units.RectAt(units.Point{}, piece.Size())
	b, ok := piece.Blank()
	if !ok {
		return r
	}
	var at [2][]units.Length
	for _, l := range b.Lines() {
		if l.From == 0 {
			at[l.Axis] = append(at[l.Axis], l.At)
		}
	}
	axis := score.Upright
	if len(at[axis]) == 0 {
		axis = score.Level
	}
	ends := sortedPlaces(at[axis]...)
	if n < 0 || n > len(ends) || len(ends) == 0 {
		return r
	}
	from, to := &r.Min.X, &r.Max.X
	if axis == score.Level {
		from, to = &r.Min.Y, &r.Max.Y
	}
	if n > 0 {
		*from = ends[n-1]
	}
	if n < len(ends) {
		*to = ends[n]
	}
	return r
}

func middleOf(r units.Rect) units.Point {
	return units.Point{X: r.Min.X + r.Size().W.Half(units.Down), Y: r.Min.Y + r.Size().H.Half(units.Down)}
}

// clipped returns what of an outline lies on one side of a line: towards the
// right or the tail if beyond. It is empty where that has no area.
func clipped(pts []units.Point, axis score.Axis, at units.Length, beyond bool) []units.Point {
	far := func(p units.Point) units.Length {
		d := p.X - at
		if axis == score.Level {
			d = p.Y - at
		}
		if !beyond {
			d = -d
		}
		return d
	}
	var out []units.Point
	area := false
	for i, p := range pts {
		q := pts[(i+1)%len(pts)]
		a, b := far(p), far(q)
		area = area || a > 0
		if a >= 0 {
			out = append(out, p)
		}
		if a > 0 && b < 0 || a < 0 && b > 0 {
			c := units.Point{X: at, Y: at}
			if axis == score.Upright {
				y, _ := (q.Y - p.Y).Scale(a.Abs().Nanometres(), (q.X - p.X).Abs().Nanometres(), units.Nearest)
				c.Y = p.Y + y
			} else {
				x, _ := (q.X - p.X).Scale(a.Abs().Nanometres(), (q.Y - p.Y).Abs().Nanometres(), units.Nearest)
				c.X = p.X + x
			}
			out = append(out, c)
		}
	}
	if out = straightened(out); !area || len(out) < 3 {
		return nil
	}
	return out
}

// straightened returns an outline without the corners at which it goes straight
// on, or back.
func straightened(pts []units.Point) []units.Point {
	for again := true; again && len(pts) > 2; {
		again = false
		for i := 0; i < len(pts) && len(pts) > 2; i++ {
			if turn(pts[(i+len(pts)-1)%len(pts)], pts[i], pts[(i+1)%len(pts)]) == 0 {
				pts = slices.Delete(pts, i, i+1)
				again = true
				i--
			}
		}
	}
	return pts
}

// encloses reports whether a point lies in an outline.
func encloses(pts []units.Point, q units.Point) bool {
	in := false
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if (a.Y > q.Y) != (b.Y > q.Y) && (turn(a, b, q) > 0) == (b.Y > a.Y) {
			in = !in
		}
	}
	return in
}
