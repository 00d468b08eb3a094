package folio

import (
	"slices"

	"boardwrap.example/folio/closing"
	"boardwrap.example/units"
)

// tightest finds the tightest meeting. Of several it is the first.
func (s *shut) tightest(full bool) pinch {
	var few [3]pinch
	all := s.withContents(few[:0], full)
	return all[worst(all, 0)]
}

// withContents is pinches, with the contents of the Spec between the covers too where
// they are thicker than what the plan holds there. They include the ease, but that does
// not.
func (s *shut) withContents(all []pinch, full bool) []pinch {
	all = s.pinches(all, full)
	c := s.p.spec.Spine.Contents
	for i := range all {
		if h := &all[i]; full && c > h.stack && (i == 0 || s.singly && h.meeting == closing.BetweenCovers && h.meet.low == all[0].meet.low) {
			all = append(all, *h)
			h = &all[i]
			h.stack, h.place, h.cells, h.contents = c, units.Rect{}, nil, true
		}
	}
	return all
}

// pinches appends the tightest place of each meeting: that of the board on the
// table first, then the others with the edges inside folds, then beside a spine, one
// for each thing that stands there.
func (s *shut) pinches(all []pinch, full bool) []pinch {
	p := s.p
	var buf [4]meet
	meetings := s.meetings(buf[:0])
	base := s.base(meetings)
	all = append(all, s.pinched(base, full))
	for i := range meetings {
		if m := &meetings[i]; m != base {
			all = append(all, s.pinched(m, full))
		}
	}
	all = s.foreEdges(all)
	var few [12]Height // with the turn-ins of two spines
	standing := few[:0]
	p.heights(full, func(h Height) bool {
		if k := p.foldAt(h.panel); k >= 0 && h.outside != p.valley(k) {
			standing = append(standing, h)
		}
		return true
	})
	for _, h := range stacked(standing) {
		if b, ok := s.beside(h, full); ok {
			all = append(all, b)
		}
	}
	return s.across(s.across(all, true, full), false, full)
}

// within returns the part of a rectangle on the board on the table where two boards
// lie over each other, as far as their covered edges reach, and no further than the
// backs of their folds.
func (s *shut) within(r units.Rect, m *meet) units.Rect {
	p, f := s.p, &s.p.folded
	expected := s.expected()
	for _, k := range [...]int{m.low, m.high} {
		board := p.onto(p.boards[f.inRow(k)].rect, k, false)
		low, high := board.Min.X-p.spec.Covering.Caliper, board.Max.X+p.spec.Covering.Caliper
		for _, fold := range [...]int{k - 1, k} {
			if fold < 0 || fold >= f.n-1 {
				continue
			}
			// The fold lies beyond whichever of its boards is nearer to the table.
			near, side := fold, 0
			if fold < f.main {
				near, side = fold+1, 1
			}
			at := p.onto(p.boards[f.inRow(near)].rect, near, false)
			out := expected.outOf(fold, side, units.Up) + p.spec.Covering.Caliper
			if f.up(fold) {
				high = at.Max.X + out
			} else {
				low = at.Min.X - out
			}
		}
		r.Min.X, r.Max.X = max(r.Min.X, low), min(r.Max.X, high)
	}
	return r
}

// pinched returns the tightest place of faces that meet.
func (s *shut) pinched(m *meet, full bool) pinch {
	p, f := s.p, &s.p.folded
	out := pinch{meeting: m.kind, panel: p.shape.Main, room: s.roomOf(m), meet: *m}
	board := f.main
	if f.up(m.low) {
		board, out.panel = m.low, p.boards[f.inRow(m.low)].role
	}
	var buf [32]cell
	cells := buf[:0]
	add := func(h Height) bool {
		k := f.lies(p.index(h.panel))
		if !m.has(f, k, h.outside) {
			return true
		}
		r := p.onto(h.rect, k, false)
		if !m.joined {
			r = s.within(r, m)
		}
		if !r.Empty() {
			cells = append(cells, cell{p.onto(r, board, true), h.height, h.fitting})
		}
		return true
	}
	p.heights(full, add)
	for k := range f.n {
		if m.has(f, k, true) {
			p.lapped(p.boards[f.inRow(k)].role, add)
		}
	}
	if !s.bare {
		out.cells = slices.Clone(cells)
	}
	out.stack, out.place = greatest(cells)
	return out
}

// foreEdges appends what lies between the edges of boards and the folds that they
// lie in: the boards of the fold reach further, and a spine board stands there with
// its liner and turn-ins.
func (s *shut) foreEdges(all []pinch) []pinch {
	p, f := s.p, &s.p.folded
	if f.n == 2 {
		return all
	}
	z := s.lies()
	z.clearings(func(c clearing) {
		h := pinch{meeting: closing.AtForeEdge, panel: p.boards[f.inRow(c.board)].role, room: -c.short, fold: c.fold, side: c.side, edge: c.board}
		if left, right := f.between(c.fold); left != right && p.valley(c.fold) {
			h.panel = p.boards[right].role
			h.room += p.spec.Covering.Caliper // turn-ins are counted where they are
			p.turned(func(t Height) bool {
				if t.panel == h.panel {
					h.cells = append(h.cells, cell{t.rect, t.height, t.fitting})
				}
				return true
			})
		}
		h.stack, h.place = greatest(h.cells)
		all = append(all, h)
	})
	return all
}

// leaves returns what hinges bent otherwise than planned leave at a place between covers
// or at a fore edge.
func (s *shut) leaves(h *pinch) units.Length {
	if h.meeting != closing.AtForeEdge {
		return s.roomOf(&h.meet) - h.stack
	}
	for _, o := range s.foreEdges(nil) {
		if o.fold == h.fold && o.edge == h.edge {
			return o.left()
		}
	}
	return h.left()
}

// beside checks something that stands on a spine board against the covers at
// both sides of it and what they carry, and reports whether it reaches as far.
//
// Closed, the spine board stands across the covers. Measured along a cover from
// the wrong side of the covering on the spine, what stands on the spine takes
// from the liner up, board + liner to board + liner + its height; a cover
// begins where its hinge ends. Where both overlap, what the cover carries must
// be lower than the way from its liner to the thing on the spine.
func (s *shut) beside(h Height, full bool) (pinch, bool) {
	p, f := s.p, &s.p.folded
	i, fold := p.index(h.panel), p.foldAt(h.panel)
	inside := !h.outside
	base := p.face(inside)
	reach := base + h.height
	var found pinch
	ok := false
	left, right := s.joints(fold)
	x, w := p.boards[i].rect.Min.X, p.panelWidth(i)
	ways := [2]units.Length{h.rect.Min.X - x + left.in(units.Down) - base, x + w - h.rect.Max.X + right.in(units.Down) - base}
	for side, board := range [...]int{i - 1, i + 1} {
		out := s.outOf(fold, side, units.Down)
		if reach <= out {
			continue
		}
		b := pinch{meeting: closing.BesideSpine, panel: p.boards[board].role, spine: h.panel, stands: h.fitting, side: 2*side - 1, room: ways[side], grows: ways[side]}
		b.cells = s.inTheWay(h, board, out, reach, full)
		b.stack, b.place = greatest(b.cells)
		if !ok || s.asksMore(&b, &found) {
			found, ok = b, true
		}
	}
	z := s.lies()
	expected := s.expected()
	low, way := fold, ways[0]
	hinge, right := expected.joints(fold)
	if f.rank[fold+1] < f.rank[fold] {
		low, way, hinge = fold+1, ways[1], right
	}
	more := hinge.in(units.Up) - hinge.in(units.Down) // of the way, at the most
	z.clearings(func(c clearing) {
		// An edge comes between, or a fold, with what its boards carry: from the lower
		// board of the fold up, it begins after the room between the two.
		lower, upper, hem := z.hem(c.board, fold)
		if c.fold != fold || reach <= z.inside(fold)-c.short {
			return
		}
		up, over := expected.passage(low, lower), expected.passage(low, upper)
		below, above := s.atForeEdge(h, lower, z, reach, full)
		if hem {
			_, above = s.atForeEdge(h, upper, z, reach, full)
		}
		free := up.length(units.Down) - base - p.face(!f.up(lower)) - below
		top := over.length(units.Up) - base + p.face(f.up(upper)) + above
		under, past := free-way-more-h.rect.Size().W, way-top
		b := pinch{meeting: closing.BesideSpine, panel: p.boards[f.inRow(lower)].role, spine: h.panel, stands: h.fitting, room: max(under, past)}
		// What hangs together with one of the boards of the fold keeps its distance from that, so
		// that a wider spine board makes room towards it.
		if b.side, b.grows = -1, past; lower > fold {
			b.side = 1
		}
		if (lower > fold) == (low == fold) {
			b.grows = under
		}
		if !ok || b.left() < found.left() {
			found, ok = b, true
		}
	})
	return found, ok
}

// inTheWay returns what a board beside a spine board carries where something on the
// spine board reaches over it.
func (s *shut) inTheWay(h Height, board int, out, reach units.Length, full bool) []cell {
	p := s.p
	x, w := p.boards[board].rect.Min.X, p.panelWidth(board)
	before := board < p.index(h.panel)
	var cells []cell
	p.heights(full, func(o Height) bool {
		if o.outside != h.outside || o.panel != p.boards[board].role {
			return true
		}
		c := cell{o.rect, o.height, o.fitting}
		// Only the part in the way counts.
		c.rect.Min.Y, c.rect.Max.Y = max(o.rect.Min.Y, h.rect.Min.Y), min(o.rect.Max.Y, h.rect.Max.Y)
		if before {
			c.rect.Min.X = max(c.rect.Min.X, x+w+out-reach)
		} else {
			c.rect.Max.X = min(c.rect.Max.X, x-out+reach)
		}
		if !c.rect.Empty() {
			cells = append(cells, c)
		}
		return true
	})
	return cells
}

// atForeEdge returns how high a board that lies inside a fold stands up below and
// above where something on the spine board reaches over it.
func (s *shut) atForeEdge(h Height, board int, z *sizing, reach units.Length, full bool) (below, above units.Length) {
	p, f := s.p, &s.p.folded
	fold := p.foldAt(h.panel)
	role, rect := p.boards[f.inRow(board)].role, p.boards[f.inRow(board)].rect
	edge, atLeft := z.edgeAt(fold, board)
	var low, high []cell
	add := func(o Height) bool {
		from := edge + o.rect.Min.X - rect.Min.X
		if !atLeft {
			from = edge + rect.Max.X - o.rect.Max.X
		}
		if o.panel != role || o.rect.Max.Y <= h.rect.Min.Y || h.rect.Max.Y <= o.rect.Min.Y || from >= reach {
			return true
		}
		// What lies over one place, all of it in the way, does so somewhere in the way too.
		c := cell{o.rect, o.height, o.fitting}
		if o.outside == f.up(board) {
			low = append(low, c)
		} else {
			high = append(high, c)
		}
		return true
	}
	p.heights(full, add)
	p.lapped(role, add)
	below, _ = greatest(low)
	above, _ = greatest(high)
	return below, above
}

// edgeAt returns how far the edge of a board inside a fold lies from it, and whether
// it is the left one in the row.
func (z *sizing) edgeAt(fold, board int) (edge units.Length, atLeft bool) {
	if z.right(fold) {
		return z.at[fold] - z.x[board][1], !z.f.up(board)
	}
	return z.x[board][0] - z.at[fold], z.f.up(board)
}
