package folio

import (
	"iter"
	"slices"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/units"
)

// Over walks the heights that lie over the inside of a panel when the folio is
// closed: turn-ins, what it carries, and what faces it, with every rectangle as it lies on
// that panel then. It returns the clear distance between the faces as well, and false
// for a spine board, or where the folio does not shut; there are no heights then. Heights at one place add
// up.
func (p *Plan) Over(panel boards.Role, full bool) (heights iter.Seq[Height], room units.Length, ok bool) {
	if p.index(panel) < 0 || panel.Spine() {
		return walk[Height](nil), 0, false
	}
	s, ok := p.hinged()
	if !ok {
		return walk[Height](nil), 0, false
	}
	f := &p.folded
	board := f.lies(p.index(panel))
	var buf [4]meet
	all := s.meetings(buf[:0])
	at := slices.IndexFunc(all, func(m meet) bool { return m.has(f, board, false) })
	if at < 0 {
		return func(func(Height) bool) {}, units.Longest, true // it looks out
	}
	m := all[at]
	return s.over(&m, board, full), s.roomOf(&m), true
}

// over walks the heights of faces that meet, as they lie on one of the boards.
func (s *shut) over(m *meet, board int, full bool) iter.Seq[Height] {
	p, f := s.p, &s.p.folded
	return func(yield func(Height) bool) {
		more := true
		over := func(h Height) bool {
			k := f.lies(p.index(h.panel))
			if !m.has(f, k, h.outside) {
				return true
			}
			h.rect = p.onto(h.rect, k, false)
			if !m.joined {
				h.rect = s.within(h.rect, m)
			}
			if h.rect.Empty() {
				return true
			}
			h.rect = p.onto(h.rect, board, true)
			more = yield(h)
			return more
		}
		p.heights(full, over)
		for k := range f.n {
			if more && m.has(f, k, true) {
				p.lapped(p.boards[f.inRow(k)].role, over)
			}
		}
	}
}

// An Overhead is what comes to lie over a part of a panel's inside when the folio is
// closed.
type Overhead struct {
	part    units.Rect
	room    units.Length
	facing  []boards.Role
	heights iter.Seq[Height]
}

// Part is where it lies over the panel, on the row.
func (o Overhead) Part() units.Rect { return o.part }

// Room is the clear distance between the faces.
func (o Overhead) Room() units.Length { return o.room }

// Facing returns the boards, but the panel's own, whose insides take part in it.
func (o Overhead) Facing() []boards.Role { return slices.Clone(o.facing) }

// Heights walks all that stands there, as [Plan.Over] does.
func (o Overhead) Heights() iter.Seq[Height] {
	if o.heights == nil {
		return func(func(Height) bool) {}
	}
	return o.heights
}

// Overheads walks what comes to lie over the inside of a panel when the folio is
// closed: of most boards one thing, of a board that a flap covers in part more.
// It walks nothing for a spine board, for one whose inside looks out, and where the
// folio does not shut.
func (p *Plan) Overheads(panel boards.Role, full bool) iter.Seq[Overhead] {
	return func(yield func(Overhead) bool) {
		s, ok := p.hinged()
		if !ok {
			return
		}
		f := &p.folded
		board := f.lies(p.index(panel)) // −1 takes part in nothing
		var buf [4]meet
		all := slices.DeleteFunc(s.meetings(buf[:0]), func(m meet) bool { return !m.has(f, board, false) })
		for i := range all {
			m := &all[i]
			o := Overhead{part: p.panelArea(panel, false), room: s.roomOf(m), heights: s.over(m, board, full)}
			if len(all) > 1 && !m.joined {
				o.part = p.onto(s.within(p.onto(o.part, board, false), m), board, true)
			}
			for k := range f.n {
				if k != board && m.has(f, k, false) {
					o.facing = append(o.facing, p.boards[f.inRow(k)].role)
				}
			}
			if !o.part.Empty() && !yield(o) {
				return
			}
		}
	}
}

// Facing returns where a rectangle on the inside of one panel comes to lie on the
// inside of another one when the folio is closed, and whether the two come to
// face each other or lie side by side over the same one.
func (p *Plan) Facing(r units.Rect, from, on boards.Role) (units.Rect, bool) {
	s, _ := p.hinged()
	f := &p.folded
	a, b := f.lies(p.index(from)), f.lies(p.index(on))
	var buf [4]meet
	for _, m := range s.meetings(buf[:0]) {
		if m.has(f, a, false) && m.has(f, b, false) {
			return p.onto(p.onto(r, a, false), b, true), true
		}
	}
	return units.Rect{}, false
}

// Beside walks what stands on spines and reaches over the inside of a panel when the
// folio is closed, at its side or straight across from it: over which part of the panel,
// and how high the panel may be filled there by what it carries itself, from its liner
// up. It walks nothing for a spine board, and where the folio does not shut.
func (p *Plan) Beside(panel boards.Role, full bool) iter.Seq2[units.Rect, units.Length] {
	return func(yield func(units.Rect, units.Length) bool) {
		s, ok := p.hinged()
		board := p.index(panel)
		if !ok || board < 0 || panel.Spine() {
			return
		}
		var standing, behind []Height
		p.heights(full, func(h Height) bool {
			if k := p.foldAt(h.panel); k >= 0 && h.outside == p.valley(k) {
				behind = append(behind, h)
			} else if k >= 0 {
				standing = append(standing, h)
			}
			return true
		})
		for _, h := range stacked(standing) {
			if h.outside {
				continue // insides look away from it
			}
			if r, room, ok := s.besides(h, board, full); ok && !yield(r, room) {
				return
			}
		}
		if p.folded.n == 2 {
			return
		}
		for _, on := range [...][]Height{standing, behind} {
			for _, h := range stacked(on) {
				if r, room, ok := s.opposite(h, board); ok && !yield(r, room) {
					return
				}
			}
		}
	}
}

// opposite says over which part of a board something on the spine of another fold
// reaches, or comes nearer to it than the ease, and what room it leaves there, as
// [shut.across] looks at it.
func (s *shut) opposite(h Height, board int) (part units.Rect, room units.Length, ok bool) {
	p, f, z := s.p, &s.p.folded, s.lies()
	fold, k := p.foldAt(h.panel), f.lies(board)
	back := h.outside == p.valley(fold)
	if k == fold || k == fold+1 || !back && z.within(k, fold) {
		return
	}
	bd := &p.boards[board]
	t, o := s.lumpOf(z, h), s.lumpOf(z, Height{rect: bd.rect, panel: bd.role, fitting: ofBoard})
	if z.right(fold) == back {
		t.x[1] += p.spec.Closing.Ease
	} else {
		t.x[0] -= p.spec.Closing.Ease
	}
	low, high := max(t.x[0], o.x[0]), min(t.x[1], o.x[1])
	part = units.Rect{Min: units.Point{X: bd.rect.Min.X + low - o.x[0], Y: h.rect.Min.Y}, Max: units.Point{X: bd.rect.Min.X + high - o.x[0], Y: h.rect.Max.Y}}
	face := o.z[0] // which has no height
	room, end := t.z[0]-face, t.z[1]-face
	if !f.up(k) {
		part.Min.X, part.Max.X = bd.rect.Min.X+o.x[1]-high, bd.rect.Min.X+o.x[1]-low
		room, end = face-t.z[1], face-t.z[0]
	}
	return part, room, low < high && end > 0 // not behind it
}

// besides says over which part of a board something on a spine reaches when the
// folio is closed, if it does, and what room it leaves there.
func (s *shut) besides(h Height, board int, full bool) (part units.Rect, room units.Length, ok bool) {
	p, f := s.p, &s.p.folded
	i, fold := p.index(h.panel), p.foldAt(h.panel)
	base := p.face(true)
	reach := base + h.height
	hinges := [2]*bent{}
	hinges[0], hinges[1] = s.joints(fold)
	x, w := p.boards[i].rect.Min.X, p.panelWidth(i)
	ways := [2]units.Length{h.rect.Min.X - x + hinges[0].in(units.Down) - base, x + w - h.rect.Max.X + hinges[1].in(units.Down) - base}
	part = p.boards[board].rect
	part.Min.Y, part.Max.Y = h.rect.Min.Y, h.rect.Max.Y
	if side := (board - i + 1) / 2; board == i-1 || board == i+1 {
		out := s.outOf(fold, side, units.Down)
		if side == 0 {
			part.Min.X = max(part.Min.X, part.Max.X+out-reach)
		} else {
			part.Max.X = min(part.Max.X, part.Min.X-out+reach)
		}
		return part, ways[side], reach > out
	}
	z, k := s.lies(), f.lies(board)
	if !z.within(k, fold) {
		return
	}
	expected := s.expected()
	low, way := fold, ways[0]
	hinge, right := expected.joints(fold)
	if f.rank[fold+1] < f.rank[fold] {
		low, way, hinge = fold+1, ways[1], right
	}
	more := hinge.in(units.Up) - hinge.in(units.Down) // of the way, at the most
	// The board lies under it or over it; with its inside away from it, nothing
	// inside counts.
	up := expected.passage(low, k)
	faces := base + p.face(!f.up(k))
	free, most := up.length(units.Down)-faces, up.length(units.Up)-faces
	slab := base + p.outer()
	below, above := s.atForeEdge(h, k, z, reach, full)
	room, apart := free-way-more-h.rect.Size().W, way-most-slab-above
	if f.up(k) {
		room, apart = way-most-slab, free-below-way-more-h.rect.Size().W
	}
	edge, atLeft := z.edgeAt(fold, k)
	if atLeft {
		part.Max.X = min(part.Max.X, part.Min.X-edge+reach)
	} else {
		part.Min.X = max(part.Min.X, part.Max.X+edge-reach)
	}
	return part, room, apart < p.spec.Closing.Ease && !part.Empty() // it may end before the board begins
}

// Headroom returns how thick something may be that is laid on a rectangle of a
// panel's inside and stuck down, so that the folio still closes over everything
// it holds with its ease: a film of adhesive is taken off. What the fitting at
// the place without in [Plan.Fittings] holds is left out; −1 leaves nothing out.
// Where the folio does not shut, closing sets no limit; on a board that the row has
// not there is no room.
func (p *Plan) Headroom(r units.Rect, panel boards.Role, without int) units.Length {
	s, ok := p.hinged()
	if !ok {
		return units.Longest
	}
	film := p.spec.Closing.Adhesive.Caliper
	if panel == boards.MainPanel {
		panel = p.shape.Main
	}
	if p.index(panel) < 0 {
		return 0
	}
	if panel.Spine() {
		// Up to where the covers begin; beyond it they would be in the way.
		var turned units.Length
		p.turned(func(h Height) bool {
			if h.panel == panel && h.rect.Overlaps(r) {
				turned = max(turned, h.height)
			}
			return true
		})
		fold := p.foldAt(panel)
		if !p.valley(fold) {
			return units.Longest // its inside looks out
		}
		return max(0, s.atSpine(fold)-p.face(true)-turned-film)
	}
	left := units.Longest
	for o := range p.Overheads(panel, true) {
		if part := o.part.Intersect(r); !part.Empty() {
			left = min(left, o.room-p.filledOver(part, o.heights, without))
		}
	}
	own := func(yield func(Height) bool) {
		p.heights(true, func(h Height) bool { return h.panel != panel || h.outside || yield(h) })
	}
	for part, room := range p.Beside(panel, true) {
		if part.Overlaps(r) {
			left = min(left, room-p.filledOver(part.Intersect(r), own, without))
		}
	}
	return max(0, left-p.spec.Closing.Ease-film)
}

// filledOver returns how high a rectangle is filled at the most, with one fitting
// empty.
func (p *Plan) filledOver(r units.Rect, heights iter.Seq[Height], without int) units.Length {
	var cells []cell
	add := func(at units.Rect, height units.Length, fitting int) {
		if c := (cell{at.Intersect(r), height, fitting}); !c.rect.Empty() {
			cells = append(cells, c)
		}
	}
	for h := range heights {
		if h.fitting != without || without < 0 {
			add(h.rect, h.height, h.fitting)
		}
	}
	if without >= 0 && without < len(p.fitted) {
		for _, l := range p.fitted[without].layers {
			add(l.rect, l.Height(false), without)
		}
	}
	most, _ := greatest(cells)
	return most
}

// TightestOf returns the tightest place of one meeting, as [Plan.Tightest] does of
// all, and whether the folio shuts and has that meeting. Of places that are equally tight
// it is the one for which the wider board would do, and of these the one where more
// lies. Contents that the Spec gives by thickness alone are left out.
func (p *Plan) TightestOf(m closing.Meeting, full bool) (Tight, bool) {
	s, ok := p.hinged()
	if !ok {
		return Tight{}, false
	}
	found := false
	var h pinch
	for _, o := range s.pinches(nil, full) {
		if o.meeting == m && (!found || s.asksMore(&o, &h)) {
			h, found = o, true
		}
	}
	if !found {
		return Tight{}, false
	}
	return s.tight(&h), true
}

// atSpine returns how far the boards beside a spine board keep from the wrong side of
// the covering there.
func (s *shut) atSpine(fold int) units.Length {
	return min(s.outOf(fold, 0, units.Down), s.outOf(fold, 1, units.Down))
}
