package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// doesNotClose says that a folio does not close, and what would do.
func (b *builder) doesNotClose(h *pinch, t Tight) {
	p, n := b.plan, b.notation()
	s, _ := p.hinged()
	path, limit := b.closingPath(&s, h), t.do.Length()
	v := check.Violation{Path: path, Code: NotClosing, Nature: check.Impossible, Got: t.where(p), Bound: check.AtLeast, By: -h.left()}
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
	case h.meeting == closing.AtForeEdge && !b.spec.Row.Given() && b.spec.Hinge.Rule != rule.HingeLeast && s.alike(h):
		v.Bound = check.NoBound
		v.Want = "no width"
		if isRule(path) {
			v.Want = "no rule"
		}
		v.Want += ", so that each gap is as wide as it needs: with gaps that are alike one is always too narrow"
	case path == "closing.underflap":
		// Beside the turn-ins it is all that this layer asks for: another may ask for more
		// already, and then what is added here makes no more room at first.
		var least units.Length
		if h.meeting == closing.UnderFlap {
			least = b.spec.turnIns(1)
		}
		least = min(least, h.room-b.spec.Closing.UnderFlap)
		limit = b.spec.Rulers.Board.Up(h.stack + b.spec.Closing.Ease - least)
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
	case isRule(path) && v.Bound != check.NoBound:
		v.Bound, v.Want = check.NoBound, instead(path)+" of at least "+n.Bound(limit, units.Up)+", or a rule that gives as much"
	}
	if v.Limit = limit; v.Bound == check.NoBound {
		v.Limit, v.By = 0, 0
	}
	b.bad.Add(v)
}

// closesAsMade says what does not go between covers as they are made: a fitting,
// which is inside and can be changed, or else it is warned about. With creases as told it
// is so much too thick.
func (b *builder) closesAsMade(h *pinch, t Tight, over units.Length, creased string) {
	n := b.notation()
	var all units.Length
	tallest, most := -1, -units.Longest
	for _, c := range h.cells {
		if c.fitting < 0 || !c.over(h.place.Min) {
			continue
		}
		if all += c.height; c.height > most {
			tallest, most = c.fitting, c.height
		}
	}
	if tallest < 0 {
		b.warn(check.Warning{Path: "measured", Code: NotClosing, Got: h.room, Want: h.stack,
			Text: "the cover as measured does not close without force: " + t.where(b.plan)})
		return
	}
	f := &b.plan.fitted[tallest]
	want := "nothing there"
	switch {
	case 2*over <= most:
		want = "something there that is lower by " + n.Bound(over, units.Up) + " than " + f.Label() + creased
	case over < all:
		want = "things there that are thinner by " + n.Bound(over, units.Up) + " in all, or none" + creased
	}
	b.bad.Add(check.Violation{Path: fittingPath(f.index), Code: NotClosing, Nature: check.Impossible, Got: t.where(b.plan), Want: want})
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
