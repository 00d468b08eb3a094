package boards

import (
	"slices"

	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/word"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// MaxBoards is how many boards a row may have.
const MaxBoards = 9

// A Row is a row of boards as data, seen from inside: what a [Form] stands for,
// or one of your own in Spec.Row. A board whose role is a spine stands on edge
// between two others when the folio is shut; all others lie on each other, and
// those at both ends of the row do. Two that lie side by side in the row without
// a spine between them are joined by the wrap alone, a soft spine.
//
// How the row shuts is worked out by folding it as a strip is folded, by one
// turn of half a circle at a time, everything beyond the joint with it (package
// score): whether it folds flat at all, in which order its boards turn, and what
// then lies on what. On the way no board lies on one that it does not lie on in the
// end: what is beyond a joint that turns later is held upright until then, as the
// last step says. With the calipers of board, covering and liner in those layers
// follows how much each spine and each soft joint goes round, and how wide a gap must
// be so that an edge inside it clears it (derived). What stands on boards counts
// against what it lies over in the end. Two things side by side, together taller than
// the room, may touch while the one is folded past the other: folio.WarnPassing says so.
type Row struct {
	// Boards are the boards, left to right, at most [MaxBoards], each with a role
	// of its own.
	Boards []Board
	// Joints lie between each two boards, left to right. None at all stand for
	// joints that all have the hinge of Spec.Hinge and bring insides together.
	Joints []Joint
	// Main is the board that stays on the table with its inside up while the
	// others turn over it; [MainPanel] stands for it. Left open, it is the widest
	// of those with which the row shuts, and of several the one furthest right, also
	// where a gap that is given is too narrow for what then lies inside.
	Main Role
}

// A Board is one board of a Row.
type Board struct {
	Role  Role         // what it is, and what fittings call its panel
	Rule  WidthRule    // how wide it is
	Width units.Length // with WidthFixed, and then above 0, rounded up on the ruler of boards; setting it alone chooses WidthFixed
	// Over is a board that this one lies over, at once or with others between,
	// when the folio is shut. Left open, the boards turn those nearest to Main
	// first, and of two as near the left one, wherever a row can shut in several
	// ways.
	Over Role
}

// A Joint joins two boards of a Row.
type Joint struct {
	// Fold says which faces come together at the joint: the insides of the
	// boards with a valley, the default, and their outsides with a mountain. The
	// two joints of a spine fold alike.
	Fold score.Fold
	// Hinge is the hinge; the zero Hinge stands for Spec.Hinge.
	Hinge rule.Hinge
}

// A WidthRule says how wide a board of a Row is.
type WidthRule uint8

// Width rules.
const (
	WidthDefault WidthRule = iota // of a spine WidthAround, of all others WidthCover
	WidthCover                    // as wide as the cover: Spec.Cover, or worked out from Spec.Block
	// WidthAround is, of a spine, what it goes round when the row is shut:
	// Spec.Spine between two insides, and with every board, covering, liner and
	// Closing.UnderFlap more that comes to lie between (derived).
	WidthAround
	WidthHalf   // Spec.FlapWidth, or half of the cover rounded down (common practice, no published source)
	WidthShared // an equal share of the cover less Spec.DoorGap, rounded down, among all boards of this rule
	WidthFixed  // Board.Width
	widthEnd
)

// String returns the rule in words.
func (r WidthRule) String() string {
	switch r {
	case WidthDefault:
		return "default"
	case WidthCover:
		return "cover"
	case WidthAround:
		return "what it goes round"
	case WidthHalf:
		return "half of the cover"
	case WidthShared:
		return "share of the cover"
	case WidthFixed:
		return "fixed"
	}
	return "no such rule"
}

// Known reports whether it is one of the constants.
func (r WidthRule) Known() bool { return r < widthEnd }

// AppendText appends the text of [WidthRule.String]. The error matches
// units.ErrUnknown.
func (r WidthRule) AppendText(dst []byte) ([]byte, error) { return word.Append(dst, r, "width rule") }

// MarshalText returns the text of [WidthRule.String], with the error of
// [WidthRule.AppendText].
func (r WidthRule) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText reads what [WidthRule.String] writes. The error matches
// units.ErrSyntax.
func (r *WidthRule) UnmarshalText(text []byte) error { return word.Read(r, "width rule", text) }

// Row returns the row of boards that the form stands for. A Spec of that row
// makes the same plans as one of the form. OwnRow and an unknown form have no
// boards here.
func (f Form) Row() Row {
	if f >= OwnRow {
		return Row{}
	}
	s := f.Shape()
	return Row{Boards: slices.Clone(s.Boards[:s.N]), Joints: slices.Clone(s.Joints[:s.N-1]), Main: s.Main}
}

// A Shape is a row of a few boards without lists, so that it is copied whole.
type Shape struct {
	N      int                  // how many boards it has; 0 is no row
	Boards [MaxBoards]Board     // the first N of them, left to right
	Joints [MaxBoards - 1]Joint // between each two of those
	Main   Role                 // the board that stays on the table
}

// Shape returns the row that the form stands for; for OwnRow and an unknown form
// that of SpineBoard.
func (f Form) Shape() (s Shape) {
	row := func(main Role, boards ...Board) { s.Main, s.N = main, copy(s.Boards[:], boards) }
	switch f {
	case SoftSpine:
		row(RightCover, Board{Role: LeftCover}, Board{Role: RightCover})
	case ForeEdgeFlap:
		row(RightCover, Board{Role: LeftCover}, Board{Role: Spine1}, Board{Role: RightCover},
			Board{Role: Spine2}, Board{Role: Flap, Rule: WidthHalf, Over: LeftCover})
	case DoubleSpineGate:
		row(Back, Board{Role: LeftDoor, Rule: WidthShared}, Board{Role: Spine1}, Board{Role: Back},
			Board{Role: Spine2}, Board{Role: RightDoor, Rule: WidthShared})
	case SoftGate:
		row(Back, Board{Role: LeftDoor, Rule: WidthShared}, Board{Role: Back}, Board{Role: RightDoor, Rule: WidthShared})
	case ThreePanels:
		row(Panel2, Board{Role: Panel1}, Board{Role: Spine1}, Board{Role: Panel2},
			Board{Role: Spine2}, Board{Role: Panel3, Over: Panel1})
	case TwoFlaps:
		row(RightCover, Board{Role: LeftFlap, Rule: WidthHalf}, Board{Role: Spine1}, Board{Role: LeftCover, Over: LeftFlap},
			Board{Role: Spine2}, Board{Role: RightCover}, Board{Role: Spine3}, Board{Role: Flap, Rule: WidthHalf, Over: LeftCover})
		for i := range s.N - 1 {
			s.Joints[i].Hinge.Rule = rule.HingeLeast
		}
	case FourPanelZ:
		row(Panel4, Board{Role: Panel1}, Board{Role: Panel2}, Board{Role: Panel3}, Board{Role: Panel4})
		s.Joints[1].Fold = score.Mountain
	default:
		row(RightCover, Board{Role: LeftCover}, Board{Role: Spine1}, Board{Role: RightCover})
	}
	return s
}

// Given reports whether it has boards.
func (r Row) Given() bool { return len(r.Boards) > 0 }
