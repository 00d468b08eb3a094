package worktop

import (
	"slices"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// MaxStretches is how many stretches between folds a heap may have, and copies a piece.
const MaxStretches = 240

// A Workpiece is what is worked on: the blank as it is cut, and how many there are. Of
// the zero Blank nothing is followed.
type Workpiece struct {
	Blank    score.Blank // as it is cut, before any fold
	Quantity int         // how many there are, above 0
}

// A Bench is the table on which pieces are worked on. It must not be used by
// several goroutines at once.
type Bench struct {
	pieces []Workpiece
	heaps  map[[2]int]*Heap // by piece and copy; only looked up
	lost   bool
}

// New returns a table on which each copy of the pieces lies by itself, as it is
// drawn. Actions name pieces by their place in the list.
func New(pieces []Workpiece) *Bench {
	return &Bench{pieces: slices.Clone(pieces), heaps: map[[2]int]*Heap{}}
}

// Do does actions one after the other: it folds, turns over, lays one piece on
// another and sticks together; actions that move no piece on a piece change
// nothing. It returns false once something cannot be followed: a fold where the
// piece has none of its paper on both sides of the line, or a heap of more parts
// than [MaxStretches]; and from then on.
func (t *Bench) Do(list ...work.Action) bool {
	for _, a := range list {
		if t.lost {
			break
		}
		t.do(a)
	}
	return !t.lost
}

// Clone returns a table of its own on which everything lies as it does on this one.
func (t *Bench) Clone() *Bench {
	out := &Bench{pieces: t.pieces, heaps: make(map[[2]int]*Heap, len(t.heaps)), lost: t.lost}
	of := make(map[*Heap]*Heap, len(t.heaps)) // several pieces have one
	for key, h := range t.heaps {
		if of[h] == nil {
			of[h] = h.apart()
		}
		out.heaps[key] = of[h]
	}
	return out
}

// Heap returns what a copy of a piece hangs together with, as it lies now; an empty
// one if there is no such piece. Copies count from 0; for [work.All] it is that of the
// first.
func (t *Bench) Heap(piece, copy int) Heap {
	h := t.heap(piece, copy)
	if h == nil {
		return Heap{}
	}
	return h.clone()
}

func (t *Bench) heap(piece, copy int) *Heap {
	copy = max(copy, 0)
	if piece < 0 || piece >= len(t.pieces) || copy >= max(t.pieces[piece].Quantity, 1) {
		return nil
	}
	h, ok := t.heaps[[2]int{piece, copy}]
	if !ok {
		b := t.pieces[piece].Blank
		p := &Stretch{piece: piece, copy: copy, area: units.RectAt(units.Point{}, b.Size()), lies: AsDrawn()}
		h = &Heap{}
		if p.within(b, p.area) {
			h.parts = append(h.parts, p)
		}
		t.heaps[[2]int{piece, copy}] = h
	}
	return h
}

// copies lists the copies that a thing stands for.
func (t *Bench) copies(what work.Object) []int {
	if what.Kind != work.Piece || what.Index < 0 || what.Index >= len(t.pieces) {
		return nil
	}
	if what.Copy != work.All {
		return []int{what.Copy}
	}
	list := make([]int, max(min(t.pieces[what.Index].Quantity, MaxStretches), 1))
	for i := range list {
		list[i] = i
	}
	return list
}

func (t *Bench) do(a work.Action) {
	switch a := a.(type) {
	case work.FoldAt:
		for _, n := range t.copies(a.What) {
			t.fold(n, a)
		}
	case work.TurnOver:
		for _, n := range t.copies(a.What) {
			if h := t.heap(a.What.Index, n); h != nil {
				r := h.Bounds()
				h.move(Lie{a: -1, d: 1, x: r.Min.X + r.Max.X})
			}
		}
	case work.Fix:
		if a.What.Kind == work.Piece && a.On.Kind == work.OnPiece {
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

// fold folds a copy of a piece, with all that is stuck to what turns.
func (t *Bench) fold(n int, a work.FoldAt) {
	if a.Open {
		return
	}
	h := t.heap(a.What.Index, n)
	if h == nil {
		t.lost = true
		return
	}
	moves, axis, at, ok := t.hinge(h, a, n)
	if !ok || len(h.parts) > MaxStretches {
		t.lost = true
		return
	}
	h.carry(moves)
	if h.wall != nil {
		t.lost = !h.layDown(moves, axis, at)
		return
	}
	over := mirrored(axis, at)
	var stay, turned []*Stretch
	for _, p := range h.parts {
		if !moves[p] {
			stay = append(stay, p)
			continue
		}
		p.lies, p.turned, p.stands = p.lies.then(over), true, p.stands || !a.Flat
		turned = append(turned, p)
	}
	slices.Reverse(turned)
	if a.Way == work.Towards {
		h.parts = slices.Concat(stay, turned)
	} else {
		h.parts = slices.Concat(turned, stay)
	}
	if !a.Flat {
		h.wall = &wall{axis, at, a.Way, moves}
	}
}

// Turning returns what a copy of a piece hangs together with, parted at the lines
// of folds of it, as if they were only creased: and for each fold which parts, by
// their place in [Heap.Stretches], it would turn. Nothing is folded. It returns false
// where a fold cannot be followed.
func (t *Bench) Turning(copy int, folds ...work.FoldAt) (h Heap, turns [][]bool, ok bool) {
	if len(folds) == 0 || t.lost {
		return Heap{}, nil, false
	}
	of := t.heap(folds[0].What.Index, copy)
	if of == nil {
		return Heap{}, nil, false
	}
	h = of.clone()
	for range 2 { // when all are parted, what turns is known
		turns = nil
		for _, a := range folds {
			if a.What.Index != folds[0].What.Index {
				return Heap{}, nil, false
			}
			moves, _, _, ok := t.hinge(&h, a, max(copy, 0))
			if !ok || len(h.parts) > MaxStretches {
				return Heap{}, nil, false
			}
			h.carry(moves)
			list := make([]bool, len(h.parts))
			for i, p := range h.parts {
				list[i] = moves[p]
			}
			turns = append(turns, list)
		}
	}
	return h, turns, true
}

// layDown makes the second of two folds at right angles: between them stands a
// wall, and what lies beyond it lies flat again, beginning at the nearer fold. It
// reports whether they run alike. The line farther off may be folded first.
func (h *Heap) layDown(moves map[*Stretch]bool, axis score.Axis, at units.Length) bool {
	first := h.wall
	beyond, by := moves, first.at-at
	if len(first.moved) < len(moves) {
		beyond, by = first.moved, at-first.at
	}
	if axis != first.axis {
		return false
	}
	shift := moved(by, 0)
	if axis == score.Level {
		shift = moved(0, by)
	}
	over := mirrored(axis, at)
	for _, p := range h.parts {
		switch {
		case p.stands && beyond[p]:
			p.lies, p.stands = p.lies.then(shift), false
		case !p.stands && moves[p] && !beyond[p]:
			p.lies, p.turned, p.stands = p.lies.then(over), true, true
		}
	}
	h.wall = nil
	return true
}

// cells divides a sheet for a fold: what turns, and what lies beyond the line and
// beside its ends, which stays.
func cells(size units.Size, a work.FoldAt) (turns units.Rect, stays [3]units.Rect) {
	turns = units.RectAt(units.Point{}, size)
	stays[0] = turns
	switch a.Moves {
	case score.Left:
		turns.Max.X, stays[0].Min.X = a.At, a.At
	case score.Right:
		turns.Min.X, stays[0].Max.X = a.At, a.At
	case score.Head:
		turns.Max.Y, stays[0].Min.Y = a.At, a.At
	default:
		turns.Min.Y, stays[0].Max.Y = a.At, a.At
	}
	if a.To <= 0 { // from edge to edge
		return turns, stays
	}
	stays[1], stays[2] = turns, turns
	if a.Axis == score.Upright {
		turns.Min.Y, turns.Max.Y, stays[1].Max.Y, stays[2].Min.Y = a.From, a.To, a.From, a.To
	} else {
		turns.Min.X, turns.Max.X, stays[1].Max.X, stays[2].Min.X = a.From, a.To, a.From, a.To
	}
	return turns, stays
}

// hinge parts what the line of a fold runs through, and returns what turns, and
// how the line runs on the table.
func (t *Bench) hinge(h *Heap, a work.FoldAt, n int) (moves map[*Stretch]bool, axis score.Axis, at units.Length, ok bool) {
	blank := t.pieces[a.What.Index].Blank
	turns, stays := cells(blank.Size(), a)
	moves = map[*Stretch]bool{}
	var parts []*Stretch
	for _, p := range h.parts {
		half := *p
		if p.piece != a.What.Index || p.copy != n || !half.within(blank, turns) {
			parts = append(parts, p)
			continue
		}
		for _, r := range stays {
			if rest := *p; rest.within(blank, r) {
				parts = append(parts, &rest)
			}
		}
		*p = half
		moves[p] = true
		parts = append(parts, p)
	}
	h.parts = parts
	for _, p := range h.parts {
		if !moves[p] || !p.reaches(a.Axis, a.At) {
			continue
		}
		for _, q := range h.parts {
			if !moves[q] && q.piece == p.piece && q.copy == p.copy && q.lies == p.lies && q.reaches(a.Axis, a.At) {
				axis, at = p.lies.Line(a.Axis, a.At)
				return moves, axis, at, true
			}
		}
	}
	return moves, axis, at, false
}

// reaches reports whether an edge of the part lies on a line of the drawing.
func (p *Stretch) reaches(axis score.Axis, at units.Length) bool {
	_, _, ok := p.EdgeOn(axis, at)
	return ok
}

// carry takes along what is stuck to what turns; another piece turns whole.
func (h *Heap) carry(moves map[*Stretch]bool) {
	for again := true; again; {
		again = false
		for _, b := range h.bonds {
			p, q := h.at(b.a), h.at(b.b)
			if p == nil || q == nil || moves[p] == moves[q] || p.piece == q.piece && p.copy == q.copy {
				continue
			}
			if moves[q] {
				q = p
			}
			for _, r := range h.parts {
				if r.piece == q.piece && r.copy == q.copy && !moves[r] {
					moves[r], again = true, true
				}
			}
		}
	}
}

// fix lays a copy of a piece on another one, with what hangs on it.
func (t *Bench) fix(n int, a work.Fix) {
	top, base := t.heap(a.What.Index, n), t.heap(a.On.Index, a.On.Copy)
	if top == nil || base == nil {
		t.lost = true
		return
	}
	over := t.flat(base, a.On.Index, max(a.On.Copy, 0), a.On.Panel)
	lead := t.flat(top, a.What.Index, n, a.Panel)
	if len(over) == 0 || len(lead) == 0 || top != base && len(top.parts)+len(base.parts) > MaxStretches {
		t.lost = true
		return
	}
	if top != base {
		t.put(top, base, a, lead, over)
	}
	areas := slices.Clone(a.Areas)
	if len(areas) == 0 {
		for _, p := range lead {
			areas = append(areas, p.edge.Bounds())
		}
	}
	for _, r := range areas {
		base.join(spot{a.What.Index, n, middle(r)}, over)
	}
}

// put lays a heap on another one, by a part of each.
func (t *Bench) put(top, base *Heap, a work.Fix, lead, over []*Stretch) {
	first := lead[0]
	if i := slices.IndexFunc(lead, func(p *Stretch) bool { return !p.turned }); i >= 0 && a.Panel == work.All {
		first = lead[i]
	}
	move := AsDrawn()
	for range a.Quarters & 3 {
		move = move.then(Lie{b: -1, c: 1})
	}
	if first.lies.Up() != a.Up {
		move = Lie{a: -1, d: 1}.then(move)
	}
	top.move(move)
	size, on := t.round(lead, a.Panel), t.round(over, a.On.Panel)
	to := a.At.Rect(size.Size(), on.Size()).Moved(on.Min).Min
	top.move(moved(to.X-size.Min.X, to.Y-size.Min.Y))
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

// below puts in front all that lies under something that is laid right over some
// parts, and returns how many that is: what lies no higher than they do, or under
// something that does. What was folded over them lies over it.
func (h *Heap) below(over []*Stretch) int {
	rects := make([]units.Rect, len(h.parts))
	height := make([]int, len(h.parts))
	one := make([]bool, len(h.parts))    // is one of the parts
	covers := make([]bool, len(h.parts)) // lies over one
	top := 0
	for i, p := range h.parts {
		rects[i], one[i] = p.Rect(), slices.Contains(over, p)
		for k := range i {
			if rects[i].Overlaps(rects[k]) {
				height[i] = max(height[i], height[k]+1)
				covers[i] = covers[i] || one[k]
			}
		}
		if one[i] {
			top = max(top, height[i])
		}
	}
	var lower, upper []*Stretch
	var under []units.Rect // of what is lower
	for i, p := range slices.Backward(h.parts) {
		if one[i] || !covers[i] && height[i] <= top || slices.ContainsFunc(under, rects[i].Overlaps) {
			lower, under = append(lower, p), append(under, rects[i])
		} else {
			upper = append(upper, p)
		}
	}
	slices.Reverse(lower)
	slices.Reverse(upper)
	h.parts = append(lower, upper...)
	return len(lower)
}

// stick glues a part of a piece to what lies over or under it, on the side that takes
// the glue.
func (t *Bench) stick(n int, a work.Stick) {
	h := t.heap(a.What.Index, n)
	if h == nil {
		t.lost = true
		return
	}
	at, to := spot{a.What.Index, n, middle(a.Area)}, t.flat(h, a.To.Index, max(a.To.Copy, 0), a.To.Panel)
	if p := h.at(at); p != nil {
		over := p.lies.Up() == a.Side
		from := slices.Index(h.parts, p)
		to = slices.DeleteFunc(to, func(q *Stretch) bool { return (slices.Index(h.parts, q) > from) != over })
	}
	h.join(at, to)
}

// join notes that a point of a piece is stuck to the nearest of some parts that
// lies over or under it.
func (h *Heap) join(s spot, to []*Stretch) {
	p := h.at(s)
	if p == nil {
		return
	}
	at, from, best := p.lies.Point(s.at), slices.Index(h.parts, p), len(h.parts)
	var found bond
	for i, q := range h.parts {
		if far := max(i-from, from-i); q != p && far < best && slices.Contains(to, q) {
			if on := q.lies.Undone().Point(at); q.edge.Contains(on) {
				best, found = far, bond{s, spot{q.piece, q.copy, on}}
			}
		}
	}
	if best < len(h.parts) {
		h.bonds = append(h.bonds, found)
	}
}

// Panel returns the parts of a panel of a copy of a piece that lie flat, lowest
// first: of all of it for [work.All]; none if there is no such piece. Panels are
// counted as in [work.Base], copies as in [Bench.Heap].
func (t *Bench) Panel(piece, copy, panel int) []Stretch {
	h := t.heap(piece, copy)
	if h == nil {
		return nil
	}
	var list []Stretch
	for _, p := range t.flat(h, piece, max(copy, 0), panel) {
		list = append(list, *p)
	}
	return list
}

func (t *Bench) flat(h *Heap, piece, copy, panel int) []*Stretch {
	if piece < 0 || piece >= len(t.pieces) {
		return nil
	}
	within := panelOf(t.pieces[piece].Blank, panel)
	var list []*Stretch
	for _, p := range h.parts {
		if p.piece == piece && p.copy == copy && !p.stands && !p.area.Intersect(within).Empty() {
			list = append(list, p)
		}
	}
	return list
}

// round returns where the parts of a panel lie: the panel itself where one is
// meant.
func (t *Bench) round(list []*Stretch, panel int) units.Rect {
	if panel != work.All {
		return list[0].lies.Rect(panelOf(t.pieces[list[0].piece].Blank, panel))
	}
	return Heap{parts: list}.Bounds()
}

// panelOf returns where a panel of a blank lies between its scores on the drawing:
// along its upright scores where it has any, else along its level ones.
func panelOf(b score.Blank, n int) units.Rect {
	r := units.RectAt(units.Point{}, b.Size())
	if n < 0 { // all of it
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
	ends := inorder.Set(at[axis])
	if n > len(ends) {
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

func middle(r units.Rect) units.Point {
	return units.Point{X: r.Min.X + r.Size().W.Half(units.Down), Y: r.Min.Y + r.Size().H.Half(units.Down)}
}
