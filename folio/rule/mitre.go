package rule

import (
	"strconv"

	"boardwrap.example/internal/word"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A MitreRule is a published distance, measured at right angles, from the
// board's corner to the 45° cut across the wrap's corner, in terms of the
// board's caliper t.
type MitreRule uint8

// Mitre rules.
const (
	MitreDefault            MitreRule = iota // MitreOneAndHalfCalipers
	MitreOneCaliper                          // t (S. J. Vaughn, Printing and Bookbinding for Schools, 1912)
	MitreOneAndHalfCalipers                  // 1.5 t: 3 mm on 2 mm board (University of Brighton, corner-cutter jig)
	MitreEighth                              // 1/8 in (J. H. Adams, 1908)
	MitreFixed                               // the distance given in Mitre.Distance
	mitreEnd
)

// String returns the rule in words.
func (r MitreRule) String() string {
	switch r {
	case MitreDefault:
		return "default"
	case MitreOneCaliper:
		return "1 caliper"
	case MitreOneAndHalfCalipers:
		return "1.5 calipers"
	case MitreEighth:
		return "1/8 in"
	case MitreFixed:
		return "fixed"
	}
	return "no such rule"
}

// Known reports whether it is one of the constants.
func (r MitreRule) Known() bool { return r < mitreEnd }

// AppendText appends the text of [MitreRule.String]. The error matches
// units.ErrUnknown.
func (r MitreRule) AppendText(dst []byte) ([]byte, error) { return word.Append(dst, r, "mitre rule") }

// MarshalText returns the text of [MitreRule.String], with the error of
// [MitreRule.AppendText].
func (r MitreRule) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText reads what [MitreRule.String] writes. The error matches
// units.ErrSyntax.
func (r *MitreRule) UnmarshalText(text []byte) error { return word.Read(r, "mitre rule", text) }

// A Mitre says how near to the board's corner the wrap's corner is cut off.
type Mitre struct {
	Rule MitreRule // how far from the board's corner
	// Distance goes with MitreFixed, and is then above 0; setting it alone chooses
	// MitreFixed. It is the least: what hands measure for it goes on the ruler, so the
	// cut is a little farther off.
	Distance units.Length
}

// Fill chooses the rule where none is given.
func (m *Mitre) Fill() {
	if m.Rule == MitreDefault {
		m.Rule = MitreOneAndHalfCalipers
		if m.Distance != 0 {
			m.Rule = MitreFixed
		}
	}
}

// Check returns what is wrong with it once defaults are filled in, with lengths
// written in the notation, or nil. The error is a *check.Error.
func (m Mitre) Check(n units.Notation) error {
	var bad check.List
	bad.In(n)
	switch {
	case m.Rule >= mitreEnd:
		bad.Malformed("rule", check.Unknown, strconv.Itoa(int(m.Rule)), word.OneOf[MitreRule]())
	case m.Rule == MitreFixed:
		bad.Length("distance", m.Distance)
	case m.Distance != 0:
		bad.Malformed("distance", check.Conflict, bad.Text(m.Distance)+" with the rule "+m.Rule.String(), "no distance, or the rule MitreFixed")
	}
	return bad.Err()
}
