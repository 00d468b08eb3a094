package folio

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A LiningRule says whether the inside is lined in one piece.
type LiningRule uint8

// Lining rules.
const (
	// LiningAuto lines in one piece, or one a board when no sheet is wide
	// enough.
	LiningAuto LiningRule = iota
	// LiningOnePiece lines across the spine in one sheet.
	LiningOnePiece
	// LiningPanels lines each board with a piece of its own and keeps off the
	// hinges, as some binders do (F. O. Bean, Bookbinding for Beginners,
	// 1914).
	LiningPanels
	liningEnd
)

// String returns the rule in words.
func (r LiningRule) String() string {
	switch r {
	case LiningAuto:
		return "one piece where a sheet allows it"
	case LiningOnePiece:
		return "one piece"
	case LiningPanels:
		return "a piece a board"
	}
	return "no such rule"
}

// Lining says how the inside is lined.
type Lining struct {
	Rule LiningRule // in one piece or board by board
	// Inset is how far the liner's edge lies inside the cover's. 0 means 1/8
	// in a side, so that the liner is 1/4 in less than the finished cover both
	// ways (Bean 1914; S. J. Vaughn, Printing and Bookbinding for Schools,
	// 1912), or 3 mm where plans are metric (common practice, no published
	// source).
	Inset units.Length
}

func (l *Lining) fill(n units.Notation) {
	if l.Inset == 0 {
		l.Inset = usual(n, units.Inch/8, 3*units.Millimetre)
	}
}

func (l Lining) check(bad *check.List) bool {
	before := bad.Len()
	if l.Rule >= liningEnd {
		bad.Malformed("lining.rule", check.Unknown, count(int(l.Rule)), oneOf(liningEnd))
	}
	bad.Length("lining.inset", l.Inset)
	return bad.Len() == before
}

// Turning says which edges of the wrap are turned in first.
type Turning uint8

// Orders of turning in.
const (
	HeadAndTailFirst Turning = iota // then the sides
	SidesFirst                      // then head and tail
)

// String returns the order in words.
func (t Turning) String() string {
	if t == SidesFirst {
		return "sides first"
	}
	return "head and tail first"
}

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

func (q *Quarter) fill(n units.Notation) {
	if q.Lap == 0 {
		q.Lap = usual(n, units.Inch/8, 3*units.Millimetre)
	}
}

func (q Quarter) check(bad *check.List) bool {
	before := bad.Len()
	if q.Rule >= quarterEnd {
		bad.Malformed("quarter.rule", check.Unknown, count(int(q.Rule)), oneOf(quarterEnd))
	}
	bad.Allowance("quarter.reach", q.Reach)
	bad.Length("quarter.lap", q.Lap)
	return bad.Len() == before
}
