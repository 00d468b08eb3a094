package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/units"
)

// A Board is one board of the row.
type Board struct {
	role          boards.Role
	copy          int16 // of the piece
	piece         int32
	name          string
	width, height *units.Working // as planned
	planned       units.Length   // its left edge on the row as planned
	rect          units.Rect     // on the row as it is
	left, right   units.Length   // from its edges to the panel's
}

// Role returns the part the board plays.
func (b Board) Role() boards.Role { return b.role }

// Name returns what the board is called in the plan: its role, and of several
// spines which one it is.
func (b Board) Name() string { return b.name }

// Piece returns the place in [Plan.Pieces] of the piece that becomes the board,
// and which copy of it, counted from 0.
func (b Board) Piece() (index, copy int) { return int(b.piece), int(b.copy) }

// Size returns the width and the height to cut the board to, whatever was
// measured.
func (b Board) Size() units.Size {
	return units.Size{W: lengthOf(b.width), H: lengthOf(b.height)}
}

// Width returns the width to cut, with its working.
func (b Board) Width() units.Working { return of(b.width) }

// Height returns the height to cut, with its working.
func (b Board) Height() units.Working { return of(b.height) }

// Rect returns where the board lies on the row: as planned, or as measured
// after [Plan.Refit].
func (b Board) Rect() units.Rect { return b.rect }

// A Gap is the hinge gap between two boards.
type Gap struct {
	left, right boards.Role
	angle       int16
	planned     *units.Working
	least       units.Length
	crease      [2]units.Length // of a soft joint: from the boards on its left and right to its creases
	rect        units.Rect
}

// Between returns the boards on both sides.
func (g Gap) Between() (left, right boards.Role) { return g.left, g.right }

// Width returns how wide the gap is: as planned, or as it came out after
// [Plan.Refit].
func (g Gap) Width() units.Length { return g.rect.Size().W }

// Planned returns the width to lay the boards apart, with its working, whatever
// was measured.
func (g Gap) Planned() units.Working { return of(g.planned) }

// Least returns the narrowest gap that still closes, see [rule.LeastGap], with the
// turn-ins that lie in it at head and tail. A gap by a published rule that does
// not count those may be narrower, with a warning.
func (g Gap) Least() units.Length { return g.least }

// Angle returns by how many degrees from flat the hinge turns when closed.
func (g Gap) Angle() int { return int(g.angle) }

// Rect returns where the gap lies on the row: as planned, or as measured after
// [Plan.Refit].
func (g Gap) Rect() units.Rect { return g.rect }
