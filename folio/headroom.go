package folio

import (
	"iter"

	"boardwrap.example/units"
)

// Over walks the heights that lie over the inside of a panel when the folio is
// closed: turn-ins, what it carries, and what faces it, with every rectangle as it lies on
// that panel then. It returns the clear distance between the faces as well, and false
// for a spine board, or where the folio does not shut; there are no heights then. Heights at one place add
// up.
func (p *Plan) Over(panel Role, full bool) (heights iter.Seq[Height], room units.Length, ok bool) {
	if panel == MainPanel {
		panel = p.spec.Form.main()
	}
	if p.index(panel) < 0 || panel.Spine() {
		return walk[Height](nil), 0, false
	}
	s, ok := p.hinged()
	if !ok {
		return walk[Height](nil), 0, false
	}
	face := p.facing(panel, false)
	room = s.room()
	if face == facesFlap {
		room = s.flapRoom()
	}
	return func(yield func(Height) bool) {
		more := true
		over := func(h Height) bool {
			if p.facing(h.panel, h.outside) != face {
				return true
			}
			h.rect = p.mirrored(h.rect, h.panel)
			if face == facesFlap {
				h.rect = s.underFlap(h.rect)
			}
			if h.rect.Empty() {
				return true
			}
			h.rect = p.mirrored(h.rect, panel)
			more = yield(h)
			return more
		}
		if p.heights(full, over); more && face == facesFlap {
			p.lapped(LeftCover, over)
		}
	}, room, true
}

// Facing returns where a rectangle on the inside of one panel comes to lie on the
// inside of another one when the folio is closed, and whether the two come to
// face each other or lie side by side over the same one.
func (p *Plan) Facing(r units.Rect, from, on Role) (units.Rect, bool) {
	main := p.spec.Form.main()
	for _, role := range [...]*Role{&from, &on} {
		if *role == MainPanel {
			*role = main
		}
		if p.index(*role) < 0 || role.Spine() {
			return units.Rect{}, false
		}
	}
	if p.facing(from, false) != p.facing(on, false) {
		return units.Rect{}, false
	}
	return p.mirrored(p.mirrored(r, from), on), true
}

// Beside walks what stands on the spines at both sides of a panel and reaches over
// its inside when the folio is closed: over which part of the panel, and how high
// the panel may be filled there by what it carries itself, from its liner up. It
// walks nothing for a spine board, and where the folio does not shut.
func (p *Plan) Beside(panel Role, full bool) iter.Seq2[units.Rect, units.Length] {
	return func(yield func(units.Rect, units.Length) bool) {
		if panel == MainPanel {
			panel = p.spec.Form.main()
		}
		s, ok := p.hinged()
		board := p.index(panel)
		if !ok || board < 0 || panel.Spine() {
			return
		}
		var standing []Height
		p.heights(full, func(h Height) bool {
			if p.facing(h.panel, h.outside) == facesSpine {
				standing = append(standing, h)
			}
			return true
		})
		for _, h := range stacked(standing) {
			if r, room, ok := s.besides(h, board, full); ok && !yield(r, room) {
				return
			}
		}
	}
}

// besides says over which part of a board something on a spine reaches when the
// folio is closed, if it does, and what room it leaves there.
func (s shut) besides(h Height, board int, full bool) (units.Rect, units.Length, bool) {
	p := s.p
	i := p.index(h.panel)
	base := p.spec.Board.Caliper + p.spec.Liner.Caliper
	reach, in, out := base+h.height, s.in(units.Down), s.out(units.Down)
	x, w := p.boards[i].rect.Min.X, p.panelWidth(i)
	left, right := h.rect.Min.X-x+in-base, x+w-h.rect.Max.X+in-base
	part := p.boards[board].rect
	part.Min.Y, part.Max.Y = h.rect.Min.Y, h.rect.Max.Y
	switch {
	case board == i-1 && reach > out:
		part.Min.X = max(part.Min.X, part.Max.X+out-reach)
		return part, left, true
	case board == i+1 && reach > out:
		part.Max.X = min(part.Max.X, part.Min.X-out+reach)
		return part, right, true
	case h.panel == Spine2 && p.boards[board].role == LeftCover && p.spec.Form == ForeEdgeFlap && reach > out-p.spec.Covering.Caliper:
		// The front cover lies under it or over it; over it, nothing inside
		// counts.
		_, above := s.atForeEdge(h, reach, full)
		if left-s.room()-base-p.outer()-above >= p.spec.Closing.Ease {
			return part, 0, false
		}
		part.Max.X = min(part.Max.X, part.Min.X-out+reach)
		return part, s.room() - left - h.rect.Size().W, true
	}
	return part, 0, false
}

// Headroom returns how thick something may be that is laid on a rectangle of a
// panel's inside and stuck down, so that the folio still closes over everything
// it holds with its ease: a film of adhesive is taken off. What the fitting at
// the place without in [Plan.Fittings] holds is left out; −1 leaves nothing out.
// Where the folio does not shut, closing sets no limit.
func (p *Plan) Headroom(r units.Rect, panel Role, without int) units.Length {
	s, ok := p.hinged()
	if !ok {
		return units.Longest
	}
	film := p.spec.Closing.Adhesive.Caliper
	if panel == MainPanel {
		panel = p.spec.Form.main()
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
		return max(0, s.out(units.Down)-p.spec.Board.Caliper-p.spec.Liner.Caliper-turned-film)
	}
	heights, room, ok := p.Over(panel, true)
	if !ok {
		return 0
	}
	left := room - p.filledOver(r, heights, without)
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
		if c := (cell{at.Intersect(r), height, fitting}); height > 0 && !c.rect.Empty() {
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
			add(l.rect, l.empty, without)
		}
	}
	most, _ := greatest(cells)
	return most
}

// TightestOf returns the tightest place of one meeting, as [Plan.Tightest] does of
// all, and whether the folio shuts and has that meeting. Contents that the Spec
// gives by thickness alone are left out.
func (p *Plan) TightestOf(m Meeting, full bool) (Tight, bool) {
	s, ok := p.hinged()
	if !ok {
		return Tight{}, false
	}
	found := false
	var h pinch
	for _, o := range s.pinches(full) {
		if o.meeting == m && (!found || o.left() < h.left()) {
			h, found = o, true
		}
	}
	if !found {
		return Tight{}, false
	}
	return s.tight(h), true
}
