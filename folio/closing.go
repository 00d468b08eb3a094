package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Codes of violations and warnings about closing.
const (
	NotClosing  check.Code = "not-closing"      // what lies between the covers is thicker than any room they can leave; what to leave out is advice, and a hinge by rule needs both no rule and a width: with no rule alone the width is told once more
	WarnEase    check.Code = "closing-ease"     // it closes, but nearer than the ease asked for
	WarnCrease  check.Code = "crease-decides"   // in the gaps as planned it closes with other creases, which are told of each fold; all of them together do; between covers and at fore edges only, as the Spec says by itself what is left under a flap
	WarnSpine   check.Code = "spine-tight"      // the spine rule leaves less room than the contents take
	WarnOpen    check.Code = "stays-open"       // the hinges do not turn far enough for the covers to lie parallel; of a closed folio, and there advice
	WarnDoors   check.Code = "doors-touch"      // the covered edges of two doors take more than the gap between them
	WarnPassing check.Code = "touch-in-passing" // side by side, two things or edges touch as the one is folded past the other
	WarnMagnets check.Code = "magnets-apart"    // the magnets of a pair stay further apart than they are thick when the folio is closed (common practice, no published source)
)

// checkClosing checks what is given; defaults are filled in.
func (b *builder) checkClosing() bool {
	c := b.spec.Closing
	if c.UnderFlap > 0 && !b.plan.shape.layered() {
		b.bad.Malformed("closing.underflap", check.Conflict, b.bad.Text(c.UnderFlap)+" with the form "+b.spec.Form.String(), "nothing, or the form "+boards.ForeEdgeFlap.String())
	}
	return b.soundAt("closing", c.Check(b.notation()))
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
