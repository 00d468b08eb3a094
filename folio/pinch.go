package folio

import (
	"slices"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

// A pinch is a tightest place before it is written down.
type pinch struct {
	meeting     closing.Meeting
	panel       boards.Role
	spine       boards.Role // beside which there is
	stands      int         // this fitting
	against     string      // what that comes to lie against straight across
	meet        meet
	fold, side  int          // at a fore edge; beside a spine the side, −1 left and 1 right of what stands there
	grows       units.Length // beside a spine: the room on that side, of which a wider one makes more
	edge        int          // of this board that lies
	stack, room units.Length
	place       units.Rect
	cells       []cell
	contents    bool // the contents of the Spec, without a place
}

func (h *pinch) left() units.Length { return h.room - h.stack }

// ease is what is to be left there: the ease given, or nothing where only the
// block and the case itself lie, which is what published spine rules go round.
func (h *pinch) ease(given units.Length) units.Length {
	if h.meeting == closing.BesideSpine || h.fitted() {
		return given
	}
	return 0
}

// fitted reports whether a fitting lies there, and not only the block and the case itself.
func (h *pinch) fitted() bool {
	return slices.ContainsFunc(h.cells, func(c cell) bool { return c.fitting >= 0 })
}

// worst finds the place that does not close by the most, or else the one that lacks the
// most of what is to be left there. Of several it is the first.
func worst(all []pinch, ease units.Length) int {
	at := 0
	lacks := func(i int) [2]units.Length {
		return [2]units.Length{min(0, all[i].left()), all[i].left() - all[i].ease(ease)}
	}
	for i := range all {
		if a, b := lacks(i), lacks(at); a[0] < b[0] || a[0] == b[0] && a[1] < b[1] {
			at = i
		}
	}
	return at
}

// asksMore reports whether one place is tighter than another, or as tight and a wider
// board would do there, or as wide a one with more there.
func (s *shut) asksMore(h, other *pinch) bool {
	if h.left() != other.left() {
		return h.left() < other.left()
	}
	var g units.Ledger
	a, b := s.wouldDo(&g, h).Length(), s.wouldDo(&g, other).Length()
	return a > b || a == b && h.stack > other.stack
}

// wouldDo works out the spine board, or the gap, that would do.
func (s *shut) wouldDo(g *units.Ledger, h *pinch) units.Working {
	p := s.p
	spec := &p.spec
	more := [...]units.Term{units.T("stack", h.stack), units.T("ease", spec.Closing.Ease), units.N(-1, "room", h.room)}
	switch h.meeting {
	case closing.AtForeEdge:
		joint := s.roomy(h)
		b := s.j[joint]
		return g.Sum("gap that would do", spec.Rulers.Gap, units.Up, units.T("gap", b.gap), units.T("what it lacks, by the way it bends", b.wider(p.shape.hinge(joint), h.stack-h.room)))
	case closing.BesideSpine:
		times, more := s.gains(h)
		name, width := p.called(h.spine), p.panelWidth(p.index(h.spine))
		if times == 0 {
			return g.Sum("as wide a "+name, spec.Rulers.Board, units.Up, units.T(name, width))
		}
		return g.Sum(name+" that would do", spec.Rulers.Board, units.Up, units.T(name, width),
			units.N(times, "stack", h.stack), units.N(times, "ease", spec.Closing.Ease), units.N(-times, "room", h.grows), units.T("the middle on its ruler", more))
	}
	joint, spine := s.decides(&h.meet)
	if spine >= 0 {
		name := p.boards[spine].name
		return g.Sum(name+" that would do", spec.Rulers.Board, units.Up, units.T(name, p.panelWidth(spine)), more[0], more[1], more[2])
	}
	if s.j[joint].bend == rule.CreaseRound {
		around := h.stack + spec.Closing.Ease + 2*spec.Board.Caliper + 2*spec.Liner.Caliper
		return g.Sum("gap that would do", spec.Rulers.Gap, units.Up, units.T("half of the girth of a round back", roundBack(around)))
	}
	return g.Sum("gap that would do", spec.Rulers.Gap, units.Up, units.T("gap", s.j[joint].gap), more[0], more[1], more[2])
}

// gains tells by how many times what is lacking beside a spine board that must be wider,
// and by how much more: what stands at its edge gains all of that or nothing, 0 times,
// and what stands in its middle a half, less what the ruler takes that it is laid by.
func (s *shut) gains(h *pinch) (times int, more units.Length) {
	p := s.p
	if h.against != "" || h.room > h.grows && h.left() >= p.spec.Closing.Ease {
		return 0, 0
	}
	f := &p.fitted[h.stands]
	for f.base >= 0 {
		f = &p.fitted[f.base]
	}
	given := &p.spec.Fittings[f.index]
	ruler := p.spec.Rulers.Fitting
	beside := p.panelArea(f.panel, f.outside).Size().W - 2*p.spec.Clearance - f.rect.Size().W
	half := beside.Half(units.Down)
	start := ruler.Down(half)
	lacks := h.stack + p.spec.Closing.Ease - h.grows
	switch across := given.Place.Across; {
	case given.Place.Lined() || !given.Size.Empty():
	case across == place.Left && h.side < 0, across == place.Right && h.side > 0:
		return 0, 0
	case across != place.Middle:
		return 1, 0
	case h.side < 0:
		return 2, 2*(ruler.Up(start+lacks)-lacks) - beside
	default: // the wider side now, which it need not stay
		return 2, beside - 2*start
	}
	return 2, 0
}

// roomy returns the joint whose gap makes room at a fore edge.
func (s *shut) roomy(h *pinch) int {
	left, right := s.p.folded.between(h.fold)
	if h.side == 1 {
		return right
	}
	return left
}

// alike reports whether what does not clear a fold is a fold too, so that a wider gap at
// both leaves no more room: the spine of a flap inside that of the other one.
func (s *shut) alike(h *pinch) bool {
	z := s.lies()
	return z.foldOf(h.edge, z.right(h.fold)) >= 0
}

// decides returns the joint, or the spine board, of the fold that makes room where
// faces meet: of those that the way from one to the other rises at, the one in which
// the most lies. A joint of its own has no spine board, −1.
func (s *shut) decides(m *meet) (joint, spine int) {
	f := &s.p.folded
	fold, most := min(m.low, m.high), int8(0)
	for k := min(m.low, m.high); k < max(m.low, m.high); k++ {
		inside := f.rank[k+1] - f.rank[k]
		if m.high < m.low {
			inside = -inside
		}
		if inside > most {
			fold, most = k, inside
		}
	}
	left, right := f.between(fold)
	if left == right {
		return left, -1
	}
	return left, right
}
