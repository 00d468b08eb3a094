package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Codes of violations and warnings about closing.
const (
	NotClosing  check.Code = "not-closing"    // what lies between the covers is thicker than any room they can leave; what to leave out is advice
	WarnEase    check.Code = "closing-ease"   // it closes, but nearer than the ease asked for
	WarnCrease  check.Code = "crease-decides" // it closes only if the hinges crease away from the spine board
	WarnSpine   check.Code = "spine-tight"    // the spine rule leaves less room than the contents take
	WarnOpen    check.Code = "stays-open"     // the hinges do not turn far enough for the covers to lie parallel; of a closed folio, and there advice
	WarnDoors   check.Code = "doors-touch"    // the covered edges of two doors take more than the gap between them
	WarnMagnets check.Code = "magnets-apart"  // magnets stay apart when the folio is closed
)

// Closing says how the folio is to close over what it holds.
type Closing struct {
	// Ease is the room that is to be left at the tightest place; 0 means 1/32
	// in, or 1 mm where plans are metric (common practice, no published source),
	// [units.None] nothing. A folio that closes with less is warned about.
	Ease units.Length
	// UnderFlap is the room to leave between the front cover and the flap of
	// [boards.ForeEdgeFlap], for what sits on the outside of the one and on the
	// inside of the other. It widens the second spine. The default is 0.
	UnderFlap units.Length
	// Adhesive is what holds fittings down.
	Adhesive Adhesive
}

// An Adhesive is what fittings are fixed with. It has a thickness of its own,
// which counts where heights add up.
type Adhesive struct {
	// Glue fixes with glue over the whole area instead of double-sided tape
	// along the edges.
	Glue bool
	// Caliper is the thickness of the film; 0 means 0.1 mm for tape and nothing
	// for glue, [units.None] nothing (common practice, no published source).
	Caliper units.Length
	// TapeWidth is the width of the tape; 0 means 1/4 in, or 6 mm where plans are
	// metric (common practice, no published source).
	TapeWidth units.Length
}

func (c *Closing) fill(n units.Notation) {
	c.Ease = filled(c.Ease, n.Choose(units.Inch/32, units.Millimetre))
	film := units.Millimetre / 10
	if c.Adhesive.Glue {
		film = 0
	}
	c.Adhesive.Caliper = filled(c.Adhesive.Caliper, film)
	if c.Adhesive.TapeWidth == 0 {
		c.Adhesive.TapeWidth = n.Choose(units.Inch/4, 6*units.Millimetre)
	}
}

// check checks what is given; defaults are filled in.
func (c Closing) check(bad *check.List, f boards.Form, layered bool) bool {
	before := bad.Len()
	bad.Allowance("closing.ease", c.Ease)
	bad.Allowance("closing.adhesive.caliper", c.Adhesive.Caliper)
	bad.Length("closing.adhesive.tapewidth", c.Adhesive.TapeWidth)
	if bad.Allowance("closing.underflap", c.UnderFlap) && c.UnderFlap != 0 && !layered {
		bad.Malformed("closing.underflap", check.Conflict, bad.Text(c.UnderFlap)+" with the form "+f.String(), "nothing, or the form "+boards.ForeEdgeFlap.String())
	}
	return bad.Len() == before
}
