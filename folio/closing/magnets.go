package closing

import (
	"cmp"
	"strconv"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// mostPairs bounds the pairs of magnets.
const mostPairs = 100

// Magnets are pairs of flat round magnets sunk in the boards, which hold the
// folio shut: at the fore edges of both covers; in a flap and the cover that it
// closes over; in both doors and the back beneath.
type Magnets struct {
	// Diameter is how far a magnet is across; 0 with the rest means that there
	// are none.
	Diameter units.Length
	// Thickness is how deep it is sunk; above 0 where there are any.
	Thickness units.Length
	// Pairs is how many pairs hold an edge; 0 means 2.
	Pairs int
	// Inset is how far a magnet's rim lies from the board's edge; 0 means 1/4
	// in, or 6 mm where plans are metric (common practice, no published source).
	Inset units.Length
}

// Given reports whether there are any.
func (m Magnets) Given() bool { return m != Magnets{} }

// Fill fills in what is left 0, if there are any, for plans in the notation.
func (m *Magnets) Fill(n units.Notation) {
	if !m.Given() {
		return
	}
	if m.Pairs == 0 {
		m.Pairs = 2
	}
	m.Inset = cmp.Or(m.Inset, n.Choose(units.Inch/4, 6*units.Millimetre))
}

// Check returns what is wrong with them once defaults are filled in, with lengths
// written in the notation, or nil. The error is a *check.Error.
func (m Magnets) Check(n units.Notation) error {
	if !m.Given() {
		return nil
	}
	var bad check.List
	bad.In(n)
	bad.Length("diameter", m.Diameter)
	bad.Length("thickness", m.Thickness)
	bad.Allowance("inset", m.Inset)
	if m.Pairs < 0 || m.Pairs > mostPairs {
		bad.Malformed("pairs", check.OutOfRange, strconv.Itoa(m.Pairs), "0 for the default of 2, or up to "+strconv.Itoa(mostPairs))
	}
	return bad.Err()
}
