package folio

import (
	"iter"

	"boardwrap.example/units"
)

// Over walks the heights that lie over the inside of a panel when the folio is
// closed: turn-ins, what it carries, and what faces it, with every rectangle as it lies on
// that panel then. It returns the clear distance between the faces as well, and false
// for a spine board, or where the folio does not shut. Heights at one place add
// up.
func (p *Plan) Over(panel Role, full bool) (heights iter.Seq[Height], room units.Length, ok bool) {
	if panel == MainPanel {
		panel = p.spec.Form.main()
	}
	if p.index(panel) < 0 || panel.Spine() {
		return nil, 0, false
	}
	s, ok := p.hinged()
	if !ok {
		return nil, 0, false
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
	var cells []cell
	for h := range heights {
		if h.fitting != without {
			if c := (cell{h.rect.Intersect(r), h.height, h.fitting}); !c.rect.Empty() {
				cells = append(cells, c)
			}
		}
	}
	if without >= 0 && without < len(p.fitted) {
		for _, l := range p.fitted[without].layers {
			if c := (cell{l.rect.Intersect(r), l.empty, without}); !c.rect.Empty() {
				cells = append(cells, c)
			}
		}
	}
	most, _ := greatest(cells)
	return max(0, room-most-p.spec.Closing.Ease-film)
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
