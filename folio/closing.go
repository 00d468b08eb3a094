package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Codes of violations and warnings about closing.
const (
	NotClosing  check.Code = "not-closing"      // what lies between the covers is thicker than any room they can leave; what to leave out is advice, and a hinge by rule needs both no rule and a width: with no rule alone the width is told once more
	WarnEase    check.Code = "closing-ease"     // it closes, but nearer than the ease asked for
	WarnCrease  check.Code = "crease-decides"   // in the gaps as planned it closes with other creases, which are told of each fold; all of them together do
	WarnSpine   check.Code = "spine-tight"      // the spine rule leaves less room than the contents take
	WarnOpen    check.Code = "stays-open"       // the hinges do not turn far enough for the covers to lie parallel; of a closed folio, and there advice
	WarnDoors   check.Code = "doors-touch"      // the covered edges of two doors take more than the gap between them
	WarnPassing check.Code = "touch-in-passing" // side by side, two things or edges touch as the one is folded past the other
	WarnMagnets check.Code = "magnets-apart"    // the magnets of a pair stay further apart than they are thick when the folio is closed (common practice, no published source)
)

// checkClosing checks what is given; defaults are filled in.
func (b *builder) checkClosing() bool {
	c := b.spec.Closing
	sound := b.soundAt("closing", c.Check(b.notation()))
	if c.UnderFlap > 0 && !b.plan.shape.layered() {
		b.bad.Malformed("closing.underflap", check.Conflict, b.bad.Text(c.UnderFlap)+" with the form "+b.spec.Form.String(), "nothing, or the form "+boards.ForeEdgeFlap.String())
		return false
	}
	return sound
}

// closes checks that the folio closes over what it holds. Where the sum of
// everything at its thickest would do, nothing has to be laid over each
// other.
func (b *builder) closes() {
	p := b.plan
	s, ok := p.hinged()
	if !ok {
		path, why := p.ajar()
		b.warn(check.Warning{Path: path, Code: WarnOpen,
			Text: why + ", so the covers do not come to lie parallel; whether the folio closes over its contents is not worked out"})
		return
	}
	n := b.notation()
	if p.shape.ruled(boards.WidthShared) > 0 {
		free := p.panelWidth(p.index(boards.MainPanel))
		for i := range p.boards {
			if p.shape.rule(i) == boards.WidthShared {
				free -= p.panelWidth(i)
			}
		}
		if need := 2 * b.spec.Covering.Caliper; free < need {
			b.warn(check.Warning{Path: "doorgap", Code: WarnDoors, Got: free, Want: need,
				Text: "the doors leave " + n.Bound(free, units.Down) + " between their boards, and their covered edges take " + n.Bound(need, units.Up)})
		}
	}
	b.hooks(&s)
	if s.surely() {
		return
	}
	var few [3]pinch
	all := s.withContents(few[:0], true)
	h := &all[worst(all, b.spec.Closing.Ease)]
	if h.left() < 0 {
		b.tooTight()
		return
	}
	b.passes(&s)
	if h.left() < h.ease(b.spec.Closing.Ease) {
		t := s.tight(h)
		b.warn(check.Warning{Path: b.closingPath(&s, h), Code: WarnEase, Got: h.left(), Want: b.spec.Closing.Ease,
			Text: t.where(p) + ", nearer than the ease of " + n.Text(b.spec.Closing.Ease)})
	}
}

// surely reports whether everything at its thickest, all of it in one place,
// leaves the ease. Fittings that stand on a spine, and a flap, take a closer
// look.
func (s *shut) surely() bool {
	p, f := s.p, &s.p.folded
	var buf [4]meet
	all := s.meetings(buf[:0])
	if len(all) > 1 {
		return false
	}
	film := p.spec.Closing.Adhesive.Caliper
	between := p.spec.Block.Thickness
	for i := range p.fitted {
		fit := &p.fitted[i]
		switch {
		case fit.panel.Spine():
			if fit.outside != p.valley(p.foldAt(fit.panel)) {
				return false
			}
		case all[0].has(f, f.lies(p.index(fit.panel)), fit.outside):
			// A mat and its picture are both stuck down.
			between += fit.full + 2*film
		}
	}
	// At most two turn-ins of each material lie over one place of a board.
	turned := 4 * p.spec.Covering.Caliper
	if p.wrap.quarter {
		turned += 4 * p.spec.SpineCovering.Caliper
	}
	return max(between+turned, p.spec.Spine.Contents)+p.spec.Closing.Ease <= s.roomOf(&all[0])
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

// doesNotClose says that a folio does not close, and what would do.
func (b *builder) doesNotClose(h *pinch, t Tight) {
	p, n := b.plan, b.notation()
	s, _ := p.hinged()
	path, limit := b.closingPath(&s, h), t.do.Length()
	v := check.Violation{Path: path, Code: NotClosing, Fault: check.Impossible, Got: t.where(p), Bound: check.AtLeast, By: -h.left()}
	spine := -1
	if h.meeting != closing.BesideSpine && h.meeting != closing.AtForeEdge {
		_, spine = s.decides(&h.meet)
	}
	lead, makes := "at least ", ""
	switch {
	case h.against != "":
		v.Bound = check.NoBound
		v.Want = "something there that is lower by " + n.Bound(-h.left(), units.Up) + " than " + p.fitted[h.stands].Label()
	case h.meeting == closing.BesideSpine:
		v.Bound = check.NoBound
		at := p.called(h.spine)
		or := "or nearer to its middle"
		if times, _ := s.gains(h); times != 0 {
			or = "or a " + at + " of at least " + n.Bound(limit, units.Up)
		}
		v.Want = "something lower or narrower on the " + at + ", " + or
	case path == "closing.underflap":
		limit = b.spec.Rulers.Board.Up(b.spec.Closing.UnderFlap + h.stack + b.spec.Closing.Ease - h.room)
		if makes = "gap"; spine >= 0 {
			makes = p.boards[spine].name
		}
	case path == "spine.contents" && spine < 0:
		limit, makes = b.spec.Rulers.Gap.Up(h.stack+b.spec.Closing.Ease-b.spec.under()), "gap"
	case path == "spine.contents":
		limit, makes = limit+b.spec.goesRound()-p.panelWidth(spine), "spine"
	case path == "spine.width" && spine < 0: // as wide as the spine boards ask for
		limit, makes = b.spec.Rulers.Board.Up(b.spine+h.stack+b.spec.Closing.Ease-h.room), "gap"
		lead = "a spine of at least "
	case spine < 0:
		lead = "a gap of at least "
	case path == "spine.width":
		// The board that decides may go round more than the spine by itself.
		limit += b.spine - p.panelWidth(spine)
		fallthrough
	default:
		lead = "a spine of at least "
	}
	if makes != "" {
		makes = ", which makes the " + makes + " " + n.Text(t.do.Length())
	}
	if v.Want == "" {
		v.Want = lead + n.Bound(limit, units.Up) + makes
	}
	switch {
	case v.Bound != check.NoBound && limit > units.Longest:
		v.Bound, v.Want = check.NoBound, "thinner things there: not even "+n.Bound(units.Longest, units.Down)+" would do"
	case isRule(path):
		v.Bound, v.Want = check.NoBound, instead(path)+" of at least "+n.Bound(limit, units.Up)+", or a rule that gives as much"
	}
	if v.Limit = limit; v.Bound == check.NoBound {
		v.Limit, v.By = 0, 0
	}
	b.bad.Add(v)
}

// closesAsMade says what does not go between covers as they are made: a fitting,
// which is inside and can be changed, or else it is warned about.
func (b *builder) closesAsMade(h *pinch, t Tight) {
	n := b.notation()
	tallest, most := -1, -units.Longest
	if h.meeting == closing.BesideSpine {
		tallest = h.stands
	}
	for _, c := range h.cells {
		if c.fitting >= 0 && c.over(h.place.Min) && c.height > most {
			tallest, most = c.fitting, c.height
		}
	}
	if tallest < 0 {
		b.warn(check.Warning{Path: "measured", Code: NotClosing, Got: h.room, Want: h.stack,
			Text: "the cover as measured does not close without force: " + t.where(b.plan)})
		return
	}
	f := &b.plan.fitted[tallest]
	b.bad.Add(check.Violation{Path: fittingPath(f.index), Code: NotClosing, Fault: check.Impossible, Got: t.where(b.plan),
		Want: "something there that is lower by " + n.Bound(-h.left(), units.Up) + " than " + f.Label()})
}

// closingPath is the field that decides on the room of a meeting.
func (b *builder) closingPath(s *shut, h *pinch) string {
	p := b.plan
	switch h.meeting {
	case closing.BesideSpine:
		return "fittings"
	case closing.AtForeEdge:
		return p.gapPath(s.roomy(h))
	}
	joint, spine := s.decides(&h.meet)
	published := p.shape.hinge(joint).Rule
	switch {
	case spine >= 0 && p.shape.rule(spine) == boards.WidthFixed:
		return check.Index("row.boards", spine) + ".width"
	case spine < 0 && published != rule.HingeRoundContents && published != rule.HingeLeast:
		return p.gapPath(joint)
	case h.meeting != closing.BetweenCovers:
		return "closing.underflap"
	case !p.shape.spined(), b.spec.Spine.Width == 0:
		return "spine.contents"
	}
	return "spine.width"
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

// roundBack returns half the circle over a width, rounded up.
func roundBack(across units.Length) units.Length { return portion(across, halfPi, units.Up) }
