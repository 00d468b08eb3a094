package folio

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A MarginRule is a published width for what the wrap turns in.
type MarginRule uint8

// Margin rules. Each sets the ideal; the least and the tolerated margin are 1/2
// in and 1/4 in, or 13 mm and 6 mm where plans are metric (common practice, no
// published source), unless the rule or the maker says otherwise.
const (
	MarginDefault       MarginRule = iota // MarginInch, or 25 mm where plans are metric (common practice, no published source)
	MarginInch                            // 1 in (A. F. Collins, Handicraft for Boys, 1918)
	MarginThreeQuarters                   // 3/4 in (S. J. Vaughn, Printing and Bookbinding for Schools, 1912)
	MarginTenToFifteen                    // ideal 15 mm, least 10 mm (P. Adam, Practical Bookbinding, 1903)
	MarginHalf                            // 1/2 in (F. O. Bean, Bookbinding for Beginners, 1914)
	MarginSeventeen                       // 17 mm (Dingword, How to calculate the hard cover size for a book block, 2012)
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

// A Margin is the policy for what the wrap turns in over the boards' edges:
// as much as the sheet allows up to Ideal, with a warning below Least, and
// refused below Tolerated. Lengths that are set replace those of the rule; 0
// takes those of the rule. Where the sheet allows it the ideal is put on the
// ruler, upwards, so that the lines to lay the boards by lie on it.
type Margin struct {
	Rule      MarginRule   // the rule for lengths that are 0
	Ideal     units.Length // what is turned in where the sheet allows it
	Least     units.Length // below it there is a warning
	Tolerated units.Length // below it no wrap is cut
}

func (m *Margin) fill(n units.Notation) {
	ideal, least, tolerated := units.Inch, usual(n, units.Inch/2, 13*units.Millimetre), usual(n, units.Inch/4, 6*units.Millimetre)
	switch m.Rule {
	case MarginDefault:
		ideal = usual(n, ideal, 25*units.Millimetre)
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

func (m Margin) check(bad *check.List) bool {
	before := bad.Len()
	if m.Rule >= marginEnd {
		bad.Malformed("margin.rule", check.Unknown, count(int(m.Rule)), oneOf(marginEnd))
	}
	ok := bad.Length("margin.ideal", m.Ideal)
	ok = bad.Length("margin.least", m.Least) && ok
	ok = bad.Length("margin.tolerated", m.Tolerated) && ok
	if ok && m.Least > m.Ideal {
		bad.Long("margin.least", check.TooLarge, bad.Notation(), m.Least, m.Ideal, "as the ideal margin is")
	}
	if ok && m.Tolerated > m.Least {
		bad.Long("margin.tolerated", check.TooLarge, bad.Notation(), m.Tolerated, m.Least, "as the least margin is")
	}
	return bad.Len() == before
}

// A Limit says what kept a margin from being wider.
type Limit uint8

// Limits of a margin.
const (
	LimitIdeal Limit = iota // nothing: it is the ideal
	LimitSheet              // the side of the sheet
)

// String returns "ideal" or "sheet".
func (l Limit) String() string {
	if l == LimitSheet {
		return "sheet"
	}
	return "ideal"
}

// An Axis is the wrap along one direction: a margin, the boards with their
// gaps, a margin. The three tile the blank exactly.
type Axis struct {
	blank, near, far *units.Working
	open             units.Length
	sheet            units.Length // side of the sheet, 0 when any can be had
	limit            Limit
}

// Blank returns the side of the wrap with its working.
func (a Axis) Blank() units.Working { return of(a.blank) }

// Near returns the margin at the left edge or at the head.
func (a Axis) Near() units.Working { return of(a.near) }

// Far returns the margin at the right edge or at the tail.
func (a Axis) Far() units.Working { return of(a.far) }

// Smaller returns the smaller of the two margins.
func (a Axis) Smaller() units.Length { return min(of(a.near).Length(), of(a.far).Length()) }

// LimitedBy says what kept the margin from being wider.
func (a Axis) LimitedBy() Limit { return a.limit }

// total returns both margins together: as much as the sheet allows up to twice
// the ideal, with the blank on the ruler.
func (m Margin) total(open, sheet units.Length, r units.Ruler) (units.Length, Limit) {
	blank := r.Up(open + 2*m.Ideal)
	if sheet == 0 || blank <= sheet {
		return blank - open, LimitIdeal
	}
	// The sheet's own side needs no cut, so it counts whole even where it is
	// no graduation.
	return sheet - open, LimitSheet
}

// split says how the first margin comes from half of both: rounded on which
// ruler and in which direction, down if that keeps every bound that the half
// keeps, else up if what is left then does, else not at all (ruler 0).
func (m Margin) split(total units.Length, r units.Ruler) (units.Ruler, units.Direction) {
	half := total.Half(units.Down)
	keeps := func(least units.Length) bool {
		for _, bound := range [...]units.Length{m.Least, m.Tolerated} {
			if least < bound && bound <= half {
				return false
			}
		}
		return true
	}
	switch {
	case keeps(r.Down(half)):
		return r, units.Down
	case keeps(total - r.Up(half)):
		return r, units.Up
	}
	return 0, units.Down
}

// best returns the way to lay a sheet that leaves the widest margins: first
// the smaller of the two axes, then both together, then the smaller sheet.
func (m Margin) best(open units.Size, s Stock, grain GrainRule) (best lie, ok bool) {
	var bestLow, bestSum units.Length
	s.lies(grain, func(l lie) bool {
		w := min(l.size.W-open.W, 2*m.Ideal)
		h := min(l.size.H-open.H, 2*m.Ideal)
		low, sum := min(w, h), w+h
		if low < 2*m.Tolerated {
			return true
		}
		better := !ok || low > bestLow || low == bestLow && sum > bestSum
		if !better && low == bestLow && sum == bestSum {
			better = l.size.Area().Compare(best.size.Area()) < 0
		}
		if better {
			best, bestLow, bestSum, ok = l, low, sum, true
		}
		return true
	})
	return best, ok
}
