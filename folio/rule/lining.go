package rule

import (
	"strconv"

	"boardwrap.example/internal/word"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A LiningRule says whether the inside is lined in one piece.
type LiningRule uint8

// Lining rules.
const (
	// LiningAuto lines in one piece, or one a run of boards where one piece would
	// hold boards open whose outsides come together, or one a board when no sheet
	// is wide enough.
	LiningAuto LiningRule = iota
	// LiningOnePiece lines all boards in one sheet. Where outsides come together over a
	// gap too narrow for it to go round both edges, it must be worked to the bottom of
	// that, and is cut two board calipers wider (derived).
	LiningOnePiece
	// LiningPanels lines each board with a piece of its own and keeps off the
	// hinges, as some binders do (F. O. Bean, Bookbinding for Beginners,
	// 1914).
	LiningPanels
	// LiningRuns lines each run of boards between joints at which outsides come
	// together with a piece of its own: round the edges there a flat liner would
	// be too short (derived). Edge strips cover what it leaves bare.
	LiningRuns
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
	case LiningRuns:
		return "a piece a run of boards"
	}
	return "no such rule"
}

// Known reports whether it is one of the constants.
func (r LiningRule) Known() bool { return r < liningEnd }

// AppendText appends the text of [LiningRule.String]. The error matches
// units.ErrUnknown.
func (r LiningRule) AppendText(dst []byte) ([]byte, error) { return word.Append(dst, r, "lining rule") }

// MarshalText returns the text of [LiningRule.String], with the error of
// [LiningRule.AppendText].
func (r LiningRule) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText reads what [LiningRule.String] writes. The error matches
// units.ErrSyntax.
func (r *LiningRule) UnmarshalText(text []byte) error { return word.Read(r, "lining rule", text) }

// Lining says how the inside is lined.
type Lining struct {
	Rule LiningRule // in one piece or board by board
	// Inset is how far the liner's edge lies inside the cover's. 0 means 1/8
	// in a side, so that the liner is 1/4 in less than the finished cover both
	// ways (Bean 1914; S. J. Vaughn, Printing and Bookbinding for Schools,
	// 1912), or 3 mm where plans are metric (common practice, no published
	// source).
	Inset units.Length
	// Lap is how far edge strips lie under the liner at least. Where outsides come
	// together and the liner does not go over the joint, a strip of the covering goes
	// round the edges of both boards, which else show there, bare, as the fold is a
	// back of the shut folio; so also where boards are lined one by one, as it is the
	// hinges between insides that those keep off (common practice, no published
	// source). 0 means 1/8 in, by which side papers lap a spine strip (Vaughn 1912),
	// or 3 mm where plans are metric, [units.None] no strips.
	Lap units.Length
}

// Fill fills in what is left 0, for plans in the notation.
func (l *Lining) Fill(n units.Notation) {
	if l.Inset == 0 {
		l.Inset = n.Choose(units.Inch/8, 3*units.Millimetre)
	}
	if l.Lap == 0 {
		l.Lap = n.Choose(units.Inch/8, 3*units.Millimetre)
	}
}

// Check returns what is wrong with it once defaults are filled in, with lengths
// written in the notation, or nil. The error is a *check.Error.
func (l Lining) Check(n units.Notation) error {
	var bad check.List
	bad.In(n)
	if l.Rule >= liningEnd {
		bad.Malformed("rule", check.Unknown, strconv.Itoa(int(l.Rule)), word.OneOf[LiningRule]())
	}
	bad.Length("inset", l.Inset)
	bad.Allowance("lap", l.Lap)
	return bad.Err()
}
