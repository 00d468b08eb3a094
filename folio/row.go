package folio

import "boardwrap.example/units"

// A Form is a row of boards, left to right as seen inside.
type Form uint8

// Forms of case.
const (
	// SpineBoard is cover, spine, cover.
	SpineBoard Form = iota
	// SoftSpine is two covers with no board between them: the wrap alone
	// goes round the back.
	SoftSpine
	// ForeEdgeFlap is cover, spine, cover, a second spine and a flap that
	// closes over the front. The second spine is wider by what it goes round
	// besides: the front board, its covering, the flap's own liner and
	// Closing.UnderFlap (derived).
	ForeEdgeFlap
	// DoubleSpineGate is door, spine, back, second spine, door: the doors meet
	// over the middle of the back.
	DoubleSpineGate
	formEnd
)

// String returns the form in words.
func (f Form) String() string {
	switch f {
	case SpineBoard:
		return "cover, spine, cover"
	case SoftSpine:
		return "two covers, soft spine"
	case ForeEdgeFlap:
		return "cover, spine, cover, fore-edge flap"
	case DoubleSpineGate:
		return "double-spine gate"
	}
	return "no such form"
}

// A Role is the part that a board plays in its row; it also names the panel
// on that board. The zero Role stands for the form's main panel: the right
// cover, or the back of a gate.
type Role uint8

// Roles of boards.
const (
	MainPanel  Role = iota // the right cover, or the back of a gate
	LeftCover              // seen from inside; the front of the closed folio
	Spine1                 // the spine; of a gate, the left one
	RightCover             // what the folio is turned on to when it closes
	Spine2                 // the second spine, before the flap or the right door
	Flap                   // closes over the front cover
	LeftDoor               // of a gate
	Back                   // of a gate, between its spines
	RightDoor              // of a gate
	roleEnd
)

// String returns the name of the board.
func (r Role) String() string {
	switch r {
	case MainPanel:
		return "main panel"
	case LeftCover:
		return "left cover"
	case Spine1:
		return "spine"
	case RightCover:
		return "right cover"
	case Spine2:
		return "second spine"
	case Flap:
		return "flap"
	case LeftDoor:
		return "left door"
	case Back:
		return "back"
	case RightDoor:
		return "right door"
	}
	return "no such board"
}

// Spine reports whether the board is a spine board, which the covering of a
// quarter style runs over.
func (r Role) Spine() bool { return r == Spine1 || r == Spine2 }

// Roles returns the boards of the form, left to right.
func (f Form) Roles() []Role {
	switch f {
	case SoftSpine:
		return []Role{LeftCover, RightCover}
	case ForeEdgeFlap:
		return []Role{LeftCover, Spine1, RightCover, Spine2, Flap}
	case DoubleSpineGate:
		return []Role{LeftDoor, Spine1, Back, Spine2, RightDoor}
	}
	return []Role{LeftCover, Spine1, RightCover}
}

// main returns the board that MainPanel stands for.
func (f Form) main() Role {
	if f == DoubleSpineGate {
		return Back
	}
	return RightCover
}

// A Board is one board of the row.
type Board struct {
	role          Role
	piece, copy   int
	width, height *units.Working // as planned
	planned       units.Length   // its left edge on the row as planned
	rect          units.Rect     // on the row as it is
	left, right   units.Length   // from its edges to the panel's
}

// Role returns the part the board plays.
func (b Board) Role() Role { return b.role }

// Piece returns the place in [Plan.Pieces] of the piece that becomes the board,
// and which copy of it, counted from 0.
func (b Board) Piece() (index, copy int) { return b.piece, b.copy }

// Size returns the width and the height to cut the board to, whatever was
// measured.
func (b Board) Size() units.Size {
	return units.Size{W: of(b.width).Length(), H: of(b.height).Length()}
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
	left, right Role
	planned     *units.Working
	least       units.Length
	angle       int
	rect        units.Rect
}

// Between returns the boards on both sides.
func (g Gap) Between() (left, right Role) { return g.left, g.right }

// Width returns how wide the gap is: as planned, or as it came out after
// [Plan.Refit].
func (g Gap) Width() units.Length { return g.rect.Size().W }

// Planned returns the width to lay the boards apart, with its working, whatever
// was measured.
func (g Gap) Planned() units.Working { return of(g.planned) }

// Least returns the narrowest gap that still closes, see [LeastGap].
func (g Gap) Least() units.Length { return g.least }

// Angle returns by how many degrees from flat the hinge turns when closed.
func (g Gap) Angle() int { return g.angle }

// Rect returns where the gap lies on the row: as planned, or as measured after
// [Plan.Refit].
func (g Gap) Rect() units.Rect { return g.rect }
