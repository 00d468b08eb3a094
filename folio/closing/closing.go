// Package closing holds what a Spec of package folio says of closing: the room to
// leave, what fittings are fixed with, the magnets that hold the folio shut. It names
// the faces that meet, too.
package closing

import (
	"cmp"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// An Allowance is the room that is to be left when the folio is closed over what it
// holds.
type Allowance struct {
	// Ease is the room that is to be left at the tightest place; 0 means 1/32
	// in, or 1 mm where plans are metric (common practice, no published source),
	// [units.None] nothing. A folio that closes with less is warned about.
	Ease units.Length
	// UnderFlap is the room to leave between the front cover and the flap of
	// [boards.ForeEdgeFlap], for what sits on the outside of the one and on the
	// inside of the other. It widens the second spine. The default is 0.
	UnderFlap units.Length
	// Adhesive is what holds fittings down.
	Adhesive AdhesiveFilm
}

// An AdhesiveFilm is what fittings are fixed with. It has a thickness of its own,
// which counts where heights add up.
type AdhesiveFilm struct {
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

// Fill fills in what is left 0, for plans in the notation.
func (a *Allowance) Fill(n units.Notation) {
	a.Ease = cmp.Or(a.Ease, n.Choose(units.Inch/32, units.Millimetre))
	film := units.Millimetre / 10
	if a.Adhesive.Glue {
		film = 0
	}
	a.Adhesive.Caliper = cmp.Or(a.Adhesive.Caliper, film)
	a.Adhesive.TapeWidth = cmp.Or(a.Adhesive.TapeWidth, n.Choose(units.Inch/4, 6*units.Millimetre))
}

// Check returns what is wrong with it once defaults are filled in, with lengths
// written in the notation, or nil. The error is a *check.Error.
func (a Allowance) Check(n units.Notation) error {
	var bad check.List
	bad.In(n)
	bad.Allowance("ease", a.Ease)
	bad.Allowance("adhesive.caliper", a.Adhesive.Caliper)
	bad.Length("adhesive.tapewidth", a.Adhesive.TapeWidth)
	bad.Allowance("underflap", a.UnderFlap)
	return bad.Err()
}
