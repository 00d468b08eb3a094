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
	// SoftGate is door, back, door with no boards between them: the doors meet
	// over the middle of the back.
	SoftGate
	// ThreePanels is three panels with a spine between each two: the first folds
	// over the second, and the third over that.
	ThreePanels
	// TwoFlaps is cover, spine, cover with a flap behind a spine at either fore
	// edge: the left one folds in over the left cover before that turns, the
	// right one closes over the front.
	TwoFlaps
	// FourPanelZ is four panels with no boards between them, folded to and fro:
	// insides, outsides and again insides come together.
	FourPanelZ
	// OwnRow is the row in Spec.Row.
	OwnRow
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
	case SoftGate:
		return "soft-spined gate"
	case ThreePanels:
		return "three panels, one over the other"
	case TwoFlaps:
		return "cover, spine, cover, two flaps"
	case FourPanelZ:
		return "Z of four panels"
	case OwnRow:
		return "row of its own"
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
	LeftFlap               // on the fore edge of the left cover
	Spine3                 // a third spine
	Spine4                 // a fourth one
	Panel1                 // of a row of like boards, from the left
	Panel2                 // the second one
	Panel3                 // the third one
	Panel4                 // the fourth one
	Panel5                 // the fifth one
	Panel6                 // the sixth one
	Panel7                 // the seventh one
	Panel8                 // the eighth one
	Panel9                 // the ninth one
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
	case LeftFlap:
		return "left flap"
	case Spine3:
		return "third spine"
	case Spine4:
		return "fourth spine"
	}
	if r >= Panel1 && r < roleEnd {
		return [...]string{"first panel", "second panel", "third panel", "fourth panel", "fifth panel", "sixth panel", "seventh panel", "eighth panel", "ninth panel"}[r-Panel1]
	}
	return "no such board"
}

// Spine reports whether the board is a spine board, which the covering of a
// quarter style runs over.
func (r Role) Spine() bool { return r == Spine1 || r == Spine2 || r == Spine3 || r == Spine4 }

// Roles returns the boards of the form, left to right.
func (f Form) Roles() []Role {
	s := f.shape()
	out := make([]Role, s.n)
	for i := range out {
		out[i] = s.role(i)
	}
	return out
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
	crease      [2]units.Length // of a soft joint: from the boards on its left and right to its creases
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

// Least returns the narrowest gap that still closes, see [LeastGap], with the
// turn-ins that lie in it at head and tail. A gap by a published rule that does
// not count those may be narrower, with a warning.
func (g Gap) Least() units.Length { return g.least }

// Angle returns by how many degrees from flat the hinge turns when closed.
func (g Gap) Angle() int { return g.angle }

// Rect returns where the gap lies on the row: as planned, or as measured after
// [Plan.Refit].
func (g Gap) Rect() units.Rect { return g.rect }
