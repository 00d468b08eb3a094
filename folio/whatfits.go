package folio

import (
	"iter"
	"strings"

	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// A RoomKind is a way to put something flat into a folio.
type RoomKind uint8

// Kinds of rooms.
const (
	OnPanel  RoomKind = iota // on a mat of its own, on a free part of a panel
	OnMat                    // on a mat that is there
	InFrame                  // slipped into a frame
	InPocket                 // in a pocket of a folded fitting
)

// String returns the kind in words.
func (k RoomKind) String() string {
	switch k {
	case OnPanel:
		return "on the panel"
	case OnMat:
		return "on the mat"
	case InFrame:
		return "in the frame"
	case InPocket:
		return "in the pocket"
	}
	return "no such room"
}

// A Room is a place of a plan that takes something flat, a photograph, a card, a
// note: a spot of a fitting, or the free part of a panel.
type Room struct {
	Kind  RoomKind
	Panel Role
	// Fitting is the place in [Plan.Fittings], −1 for the panel itself, and
	// Pocket which of its pockets, from 0.
	Fitting, Pocket int
	// Room is the largest width and height that go there, ease and reveal
	// taken off; on a panel it is that of the whole panel.
	Room units.Size
	// Least is the smallest that stays there: a picture in a frame must cover
	// the opening wherever it slides. Zero elsewhere.
	Least units.Size
	// Rect is where the room lies on the row.
	Rect units.Rect
	// Thickness is the most that goes there; on a panel and on a mat, what
	// closing leaves at the tightest place over the room.
	Thickness units.Length
}

// takes reports whether a content goes into the room as it lies.
func (s Room) takes(c pocket.Content) bool {
	return !c.Size.Empty() && c.Size.FitsIn(s.Room) && s.Least.FitsIn(c.Size) && c.Thickness <= s.Thickness
}

// A Fit says how a content goes into a room: as it lies or after a quarter
// turn, and where on the row.
type Fit struct {
	Room    Room
	Content pocket.Content // turned, if it was
	Turned  bool
	Rect    units.Rect
}

// Rooms walks the places that take something: the panels inside but the
// spines, left to right, then mats, frames and pockets in the order of the
// fittings. Where the
// folio does not shut, closing limits no thickness.
func (p *Plan) Rooms() iter.Seq[Room] {
	return func(yield func(Room) bool) {
		for i := range p.boards {
			role := p.boards[i].role
			if role.narrow() {
				continue
			}
			area := p.panelArea(role, false).Grow(-p.spec.Clearance)
			s := Room{Kind: OnPanel, Panel: role, Fitting: -1, Rect: area, Room: area.Size().Grow(-usualReveal(p.Notation()))}
			if s.Room.Empty() {
				continue
			}
			s.Thickness = p.headroom(area, role, -1)
			if !yield(s) {
				return
			}
		}
		for i := range p.fitted {
			if !p.spots(i, yield) {
				return
			}
		}
	}
}

// spots yields the spots of one fitting.
func (p *Plan) spots(i int, yield func(Room) bool) bool {
	f := &p.fitted[i]
	if f.fitting.Outside {
		return true
	}
	for _, spot := range f.spots {
		s := Room{
			Kind: InPocket, Panel: f.panel, Fitting: i, Pocket: spot.index, Room: spot.capacity.Size, Least: spot.least,
			Rect: spot.rect, Thickness: spot.capacity.Thickness,
		}
		if spot.mounted && s.Thickness == units.Longest {
			s.Kind = OnMat
			s.Thickness = p.headroom(s.Rect, f.panel, i)
		} else if s.Least != (units.Size{}) {
			s.Kind = InFrame
		}
		if !yield(s) {
			return false
		}
	}
	return true
}

// headroom returns how much more may lie over a place of a panel so that the
// folio still closes with its ease, a film of adhesive taken off. What the
// fitting at index without carries is left out.
func (p *Plan) headroom(r units.Rect, role Role, without int) units.Length {
	s, ok := p.hinged()
	if !ok {
		return units.Longest
	}
	film := p.spec.Closing.Adhesive.Caliper
	face := p.facing(role, false)
	if face == facesSpine {
		// Up to where the covers begin; beyond it they would be in the way.
		return max(0, s.out(units.Down)-p.spec.Board.Caliper-p.spec.Liner.Caliper-film)
	}
	room := s.room()
	if face == facesFlap {
		room = s.flapRoom()
	}
	r = p.mirrored(r, role)
	var cells []cell
	p.heights(true, func(h Height) bool {
		if p.facing(h.Panel, h.Outside) == face && h.Fitting != without {
			c := cell{p.mirrored(h.Rect, h.Panel).Intersect(r), h.Height, h.Fitting}
			if face == facesFlap {
				c.rect = s.underFlap(c.rect)
			}
			if !c.rect.Empty() {
				cells = append(cells, c)
			}
		}
		return true
	})
	if without >= 0 {
		cells = append(cells, cell{r, p.fitted[without].empty + film, without})
	}
	most, _ := greatest(cells)
	return max(0, room-most-p.spec.Closing.Ease-film)
}

// Takes reports whether a content goes into a spot, as it lies or turned, and
// how. On a panel it must find a free place for itself and the reveal of its
// mat, rounded up on the ruler of fittings, between the fittings that are there: the one nearest to the panel's upper
// left corner is given. A two-way fit is given as the content lies.
func (p *Plan) Takes(s Room, c pocket.Content) (Fit, bool) {
	for _, turned := range [...]bool{false, true} {
		if turned {
			c = c.Turned()
		}
		if s.Kind == OnPanel {
			if at, ok := p.free(s, c); ok {
				return Fit{s, c, turned, at}, true
			}
			continue
		}
		if s.takes(c) {
			at := Place{}.within(s.Rect, c.Size, 1)
			return Fit{s, c, turned, at}, true
		}
	}
	return Fit{}, false
}

// free finds a free place for a content and the reveal round it. If there is
// one, there is one that touches, at its left and at its head, an edge of the
// panel or of a fitting.
func (p *Plan) free(s Room, c pocket.Content) (units.Rect, bool) {
	if c.Size.Empty() || !c.Size.FitsIn(s.Room) {
		return units.Rect{}, false
	}
	ruler := p.spec.Rulers.Fitting
	mat := c.Size.Grow(usualReveal(p.Notation()))
	mat = units.Size{W: ruler.Up(mat.W), H: ruler.Up(mat.H)}
	taken := make([]units.Rect, 0, len(p.fitted))
	xs := append(make([]units.Length, 0, len(p.fitted)+1), s.Rect.Min.X)
	ys := append(make([]units.Length, 0, len(p.fitted)+1), s.Rect.Min.Y)
	for i := range p.fitted {
		f := &p.fitted[i]
		if f.panel == s.Panel && !f.fitting.Outside {
			taken = append(taken, f.rect)
			xs, ys = append(xs, f.rect.Max.X), append(ys, f.rect.Max.Y)
		}
	}
	var best units.Rect
	ok := false
	for _, y := range ys {
		for _, x := range xs {
			at := units.RectAt(units.Point{X: x, Y: y}, mat)
			if ok && (y > best.Min.Y || y == best.Min.Y && x >= best.Min.X) || !at.In(s.Rect) || meets(at, taken) {
				continue
			}
			if c.Thickness <= p.headroom(at, s.Panel, -1) {
				best, ok = at, true
			}
		}
	}
	return Place{}.within(best, c.Size, 1), ok
}

func meets(r units.Rect, all []units.Rect) bool {
	for _, o := range all {
		if o.Overlaps(r) {
			return true
		}
	}
	return false
}

// WhereFits walks every way in which a content goes into the plan, in the order
// of [Plan.Rooms]. A walk without a step means that it goes nowhere.
func (p *Plan) WhereFits(c pocket.Content) iter.Seq[Fit] {
	return func(yield func(Fit) bool) {
		for s := range p.Rooms() {
			if fit, ok := p.Takes(s, c); ok && !yield(fit) {
				return
			}
		}
	}
}

// UsualPhotos walks the photographic prints of [pocket.UsualContents].
func UsualPhotos() iter.Seq[pocket.Content] {
	return func(yield func(pocket.Content) bool) {
		for u := range pocket.UsualContents() {
			if strings.HasPrefix(u.Content.Name, "photo ") && !yield(u.Content) {
				return
			}
		}
	}
}

// LargestOf returns the content with the largest area that goes into a spot, in
// either direction: the first of equal ones. With [UsualPhotos] it is the
// largest usual photograph.
func (p *Plan) LargestOf(contents iter.Seq[pocket.Content], s Room) (Fit, bool) {
	var best Fit
	found := false
	for c := range contents {
		if found && c.Size.Area().Compare(best.Content.Size.Area()) <= 0 {
			continue
		}
		if fit, ok := p.Takes(s, c); ok {
			best, found = fit, true
		}
	}
	return best, found
}

// HoldsAll reports whether all the contents go into the plan at once, one into
// each spot and one on each panel, and how: the fits stand in the order of the
// contents. What lies on a panel is checked on its own; two that meet when the
// folio is closed need a plan with a fitting for each.
func (p *Plan) HoldsAll(contents ...pocket.Content) ([]Fit, bool) {
	var spots []Room
	for s := range p.Rooms() {
		spots = append(spots, s)
	}
	fits := make([][]Fit, len(contents))
	where := make([][]int, len(contents))
	for i, c := range contents {
		for j, s := range spots {
			if fit, ok := p.Takes(s, c); ok {
				fits[i], where[i] = append(fits[i], fit), append(where[i], j)
			}
		}
	}
	// A matching of contents to spots by augmenting paths.
	taken := make([]int, len(spots)) // 1 + the content
	chosen := make([]int, len(contents))
	var seen []bool
	var place func(int) bool
	place = func(i int) bool {
		for k, j := range where[i] {
			if seen[j] {
				continue
			}
			seen[j] = true
			if taken[j] == 0 || place(taken[j]-1) {
				taken[j], chosen[i] = i+1, k
				return true
			}
		}
		return false
	}
	out := make([]Fit, len(contents))
	for i := range contents {
		seen = make([]bool, len(spots))
		if !place(i) {
			return nil, false
		}
	}
	for i := range contents {
		out[i] = fits[i][chosen[i]]
	}
	return out, true
}
