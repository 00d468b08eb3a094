package rule

import (
	"strconv"

	"boardwrap.example/internal/word"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A MarginRule is a published width for what the wrap turns in.
type MarginRule uint8

// Margin rules. Each sets the ideal; the least and the tolerated margin are 1/2
// in and 1/4 in, or 13 mm and 6 mm where plans are metric (common practice, no
// published source), unless the rule or the maker says otherwise.
const (
	// MarginInch, or 25 mm where plans are metric (common practice, no published
	// source), and on a small cover at most a third of its smaller side as it lies open
	// (our own choice: what is turned in must not meet inside).
	MarginDefault       MarginRule = iota
	MarginInch                     // 1 in (A. F. Collins, Handicraft for Boys, 1918)
	MarginThreeQuarters            // 3/4 in (S. J. Vaughn, Printing and Bookbinding for Schools, 1912)
	MarginTenToFifteen             // ideal 15 mm, least 10 mm (P. Adam, Practical Bookbinding, 1903)
	MarginHalf                     // 1/2 in (F. O. Bean, Bookbinding for Beginners, 1914)
	MarginSeventeen                // 17 mm (Dingword, How to calculate the hard cover size for a book block, 2012)
	marginEnd
)

// String returns the rule in words.
func (r MarginRule) String() string {
	switch r {
	case MarginDefault:
		return "default"
	case MarginInch:
		return "1 in"
	case MarginThreeQuarters:
		return "3/4 in"
	case MarginTenToFifteen:
		return "10 to 15 mm"
	case MarginHalf:
		return "1/2 in"
	case MarginSeventeen:
		return "17 mm"
	}
	return "no such rule"
}

// Known reports whether it is one of the constants.
func (r MarginRule) Known() bool { return r < marginEnd }

// AppendText appends the text of [MarginRule.String]. The error matches
// units.ErrUnknown.
func (r MarginRule) AppendText(dst []byte) ([]byte, error) { return word.Append(dst, r, "margin rule") }

// MarshalText returns the text of [MarginRule.String], with the error of
// [MarginRule.AppendText].
func (r MarginRule) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText reads what [MarginRule.String] writes. The error matches
// units.ErrSyntax.
func (r *MarginRule) UnmarshalText(text []byte) error { return word.Read(r, "margin rule", text) }

// A Margin is the policy for what the wrap turns in over the boards' edges:
// as much as the sheet allows up to Ideal, with a warning below Least, and
// refused below Tolerated. Lengths that are set replace those of the rule; 0
// takes those of the rule. Where the sheet allows it the ideal is put on the
// ruler, upwards, so that the lines to lay the boards by lie on it.
type Margin struct {
	Rule      MarginRule   // the rule for lengths that are 0
	Ideal     units.Length // what is turned in where the sheet allows it; 0 is that of the rule
	Least     units.Length // below it there is a warning; 0 is that of the rule
	Tolerated units.Length // below it no wrap is cut; 0 is that of the rule
}

// Fill fills in what is left 0, for plans in the notation.
func (m *Margin) Fill(n units.Notation) {
	ideal, least, tolerated := units.Inch, n.Choose(units.Inch/2, 13*units.Millimetre), n.Choose(units.Inch/4, 6*units.Millimetre)
	switch m.Rule {
	case MarginDefault:
		ideal = n.Choose(ideal, 25*units.Millimetre)
	case MarginThreeQuarters:
		ideal = 3 * units.Inch / 4
	case MarginTenToFifteen:
		ideal, least = 15*units.Millimetre, 10*units.Millimetre
	case MarginHalf:
		ideal = units.Inch / 2
	case MarginSeventeen:
		ideal = 17 * units.Millimetre
	}
	if m.Ideal == 0 {
		m.Ideal = ideal
	}
	if m.Least == 0 {
		m.Least = min(least, m.Ideal)
	}
	if m.Tolerated == 0 {
		m.Tolerated = min(tolerated, m.Least)
	}
}

// ForSmallCover returns the margin, as it was given, filled in for a cover whose smaller
// side, as it lies open, is so small that the default would be more than a third of it,
// and whether it is. The third is put on the ruler, downwards, and is at least what is
// given of the rest and the default of what is tolerated.
func (m Margin) ForSmallCover(side units.Length, r units.Ruler, n units.Notation) (narrower Margin, small bool) {
	if m.Rule != MarginDefault || m.Ideal != 0 {
		return Margin{}, false
	}
	usual := Margin{}
	usual.Fill(n)
	m.Ideal = max(r.Down(side/3), m.Least, m.Tolerated, r.Up(usual.Tolerated))
	if m.Ideal >= usual.Ideal {
		return Margin{}, false
	}
	m.Fill(n)
	return m, true
}

// Check returns what is wrong with it once defaults are filled in, with lengths
// written in the notation, or nil. The error is a *check.Error.
func (m Margin) Check(n units.Notation) error {
	var bad check.List
	bad.In(n)
	if m.Rule >= marginEnd {
		bad.Malformed("rule", check.Unknown, strconv.Itoa(int(m.Rule)), word.OneOf[MarginRule]())
	}
	ok := bad.Length("ideal", m.Ideal)
	ok = bad.Length("least", m.Least) && ok
	ok = bad.Length("tolerated", m.Tolerated) && ok
	if ok && m.Least > m.Ideal {
		bad.Long("least", check.TooLarge, bad.Notation(), m.Least, m.Ideal, "as the ideal margin is")
	}
	if ok && m.Tolerated > m.Least {
		bad.Long("tolerated", check.TooLarge, bad.Notation(), m.Tolerated, m.Least, "as the least margin is")
	}
	return bad.Err()
}
