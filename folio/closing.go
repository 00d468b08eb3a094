package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/units/check"
)

// Codes of violations and warnings about closing.
const (
	NotClosing  check.Code = "not-closing"      // what lies between the covers is thicker than any room they can leave; what to leave out is advice, and a hinge by rule needs both no rule and a width: with no rule alone the width is told once more
	WarnEase    check.Code = "closing-ease"     // it closes, but nearer than the ease asked for
	WarnCrease  check.Code = "crease-decides"   // it closes only if the hinges crease away from the spine board
	WarnSpine   check.Code = "spine-tight"      // the spine rule leaves less room than the contents take
	WarnOpen    check.Code = "stays-open"       // the hinges do not turn far enough for the covers to lie parallel; of a closed folio, and there advice
	WarnDoors   check.Code = "doors-touch"      // the covered edges of two doors take more than the gap between them
	WarnPassing check.Code = "touch-in-passing" // side by side, two things or edges touch as the one is folded past the other
	WarnMagnets check.Code = "magnets-apart"    // magnets stay apart when the folio is closed
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
