package rule

import (
	"strconv"

	"boardwrap.example/internal/word"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A QuarterRule says when the case is covered in two materials: a spine strip
// that reaches on to the covers, and side papers that lap it.
type QuarterRule uint8

// Quarter rules.
const (
	// QuarterNever covers in one piece.
	QuarterNever QuarterRule = iota
	// QuarterWhenNeeded covers in one piece unless no sheet takes it.
	QuarterWhenNeeded
	// QuarterAlways covers in quarter style.
	QuarterAlways
	quarterEnd
)

// String returns the rule in words.
func (r QuarterRule) String() string {
	switch r {
	case QuarterNever:
		return "never"
	case QuarterWhenNeeded:
		return "when no sheet takes the wrap"
	case QuarterAlways:
		return "always"
	}
	return "no such rule"
}

// Known reports whether it is one of the constants.
func (r QuarterRule) Known() bool { return r < quarterEnd }

// AppendText appends the text of [QuarterRule.String]. The error matches
// units.ErrUnknown.
func (r QuarterRule) AppendText(dst []byte) ([]byte, error) {
	return word.Append(dst, r, "quarter rule")
}

// MarshalText returns the text of [QuarterRule.String], with the error of
// [QuarterRule.AppendText].
func (r QuarterRule) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText reads what [QuarterRule.String] writes. The error matches
// units.ErrSyntax.
func (r *QuarterRule) UnmarshalText(text []byte) error { return word.Read(r, "quarter rule", text) }

// Quarter is covering in two materials.
type Quarter struct {
	Rule QuarterRule // whether it is covered so
	// Reach is how far the spine strip goes on to each cover; 0 means a fifth
	// of the narrower neighbour's width (H. Hebert, quarter-cloth case). Others
	// take 3/4 in (common practice, no published source).
	Reach units.Length
	// Lap is how far the side papers lie over the spine strip at least; rounding
	// may widen it by up to two steps of the ruler. 0 means 1/8 in
	// (S. J. Vaughn, Printing and Bookbinding for Schools, 1912), or 3 mm where
	// plans are metric (common practice, no published source).
	Lap units.Length
}

// Fill fills in what is left 0, for plans in the notation.
func (q *Quarter) Fill(n units.Notation) {
	if q.Lap == 0 {
		q.Lap = n.Choose(units.Inch/8, 3*units.Millimetre)
	}
}

// Check returns what is wrong with it once defaults are filled in, with lengths
// written in the notation, or nil. The error is a *check.Error.
func (q Quarter) Check(n units.Notation) error {
	var bad check.List
	bad.In(n)
	if q.Rule >= quarterEnd {
		bad.Malformed("rule", check.Unknown, strconv.Itoa(int(q.Rule)), word.OneOf[QuarterRule]())
	}
	bad.Allowance("reach", q.Reach)
	bad.Length("lap", q.Lap)
	return bad.Err()
}
