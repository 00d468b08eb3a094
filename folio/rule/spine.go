package rule

import (
	"boardwrap.example/internal/word"
	"boardwrap.example/units"
)

// A SpineRule is a published rule for the width of the spine board.
type SpineRule uint8

// Spine rules.
const (
	// SpineDefault is SpineContents.
	SpineDefault SpineRule = iota
	// SpineContents is contents + 2 × (board + liner): with the crease at the
	// spine board's edge the covers then close over the contents (derived).
	// Under a block lie the turn-ins as well, up to two of them on each other at
	// the corners of each cover; less than those it never goes round.
	SpineContents
	// SpineBlockAndBoards is block + 2 × board (A. W. Johnson, A Joint
	// Venture, Skin Deep 15, 2003; University of Brighton, Hard Cover for
	// Multi-section: block plus both boards).
	SpineBlockAndBoards
	// SpineBlockAndBoardsLess is block + 2 × board − 0.5 mm (Dingword, How to
	// calculate the hard cover size for a book block, 2012).
	SpineBlockAndBoardsLess
	// SpineBlock is the thickness of the block alone, for covers that lie
	// beside the spine.
	SpineBlock
	spineEnd
)

// String returns the rule in words.
func (r SpineRule) String() string {
	switch r {
	case SpineDefault:
		return "default"
	case SpineContents:
		return "contents + 2 x (board + liner)"
	case SpineBlockAndBoards:
		return "block + 2 x board"
	case SpineBlockAndBoardsLess:
		return "block + 2 x board - 0.5 mm"
	case SpineBlock:
		return "block"
	}
	return "no such rule"
}

// Known reports whether it is one of the constants.
func (r SpineRule) Known() bool { return r < spineEnd }

// AppendText appends the text of [SpineRule.String]. The error matches
// units.ErrUnknown.
func (r SpineRule) AppendText(dst []byte) ([]byte, error) { return word.Append(dst, r, "spine rule") }

// MarshalText returns the text of [SpineRule.String], with the error of
// [SpineRule.AppendText].
func (r SpineRule) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText reads what [SpineRule.String] writes. The error matches
// units.ErrSyntax.
func (r *SpineRule) UnmarshalText(text []byte) error { return word.Read(r, "spine rule", text) }

// A Spine says how wide the spine board is: by Width, or by a rule from the
// thickness of what the folio holds. A soft spine takes no Width.
type Spine struct {
	// Width is that of the spine board; 0 has it worked out by the rule.
	Width units.Length
	// Contents is the thickness of what lies between the covers; 0 means
	// that of the block.
	Contents units.Length
	// Rule says how the width follows from the contents; it goes without Width.
	Rule SpineRule
	// Stiffener names the stock of a strip that keeps a soft spine flat; empty
	// means none. Only two covers with a
	// soft spine take one.
	Stiffener string
}

// SpineFor returns the narrowest spine board on the ruler that leaves room for
// contents of the given thickness between two covers whose hinges crease at the
// given distance from it, rounded up: contents + 2 × (board + liner) − 2 ×
// crease. With the crease at the board's edge and no liner it is Johnson's rule
// (A. W. Johnson, A Joint Venture, Skin Deep 15, 2003: block plus both
// boards). Contents include the ease.
func SpineFor(contents, board, liner, crease units.Length, r units.Ruler) units.Working {
	return units.Sum("spine", r, units.Up, units.T("contents", contents), units.N(2, "board caliper", board),
		units.N(2, "liner caliper", liner), units.N(-2, "crease", crease))
}

// ContentsFor returns the thickness of what goes between two covers with the
// given spine board, rounded down on the ruler; it is what [rule.SpineFor] turns
// round.
func ContentsFor(spine, board, liner, crease units.Length, r units.Ruler) units.Working {
	return units.Sum("contents", r, units.Down, units.T("spine", spine), units.N(-2, "board caliper", board),
		units.N(-2, "liner caliper", liner), units.N(2, "crease", crease))
}
