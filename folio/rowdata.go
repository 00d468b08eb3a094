package folio

import (
	"slices"

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
// then lies on what. With the calipers of board, covering and liner in those
// layers follows how much each spine and each soft joint goes round, and how
// wide a gap must be so that an edge inside it clears it (derived).
type Row struct {
	// Boards are the boards, left to right, at most [MaxBoards], each with a role
	// of its own.
	Boards []RowBoard
	// Joints lie between each two boards, left to right. None at all stand for
	// joints that all have the hinge of Spec.Hinge and bring insides together.
	Joints []Joint
	// Main is the board that stays on the table with its inside up while the
	// others turn over it; [MainPanel] stands for it. Left open, it is the widest
	// of those with which the row shuts, and of several the one furthest right.
	Main Role
}

// A RowBoard is one board of a Row.
type RowBoard struct {
	Role  Role         // what it is, and what fittings call its panel
	Rule  WidthRule    // how wide it is
	Width units.Length // with WidthFixed, rounded up on the ruler of boards; setting it alone chooses WidthFixed
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
	Hinge Hinge
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
	WidthFixed  // RowBoard.Width
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

// AppendText appends the text of [WidthRule.String]. The error matches
// units.ErrUnknown.
func (r WidthRule) AppendText(dst []byte) ([]byte, error) {
	return appendWord(dst, r, widthEnd, "width rule")
}

// MarshalText returns the text of [WidthRule.String], with the error of
// [WidthRule.AppendText].
func (r WidthRule) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText reads what [WidthRule.String] writes. The error matches
// units.ErrSyntax.
func (r *WidthRule) UnmarshalText(text []byte) error {
	return unmarshal(r, widthEnd, "width rule", text)
}

// Row returns the row of boards that the form stands for. A Spec of that row
// makes the same plans as one of the form. OwnRow and an unknown form have no
// boards here.
func (f Form) Row() Row {
	if f >= OwnRow {
		return Row{}
	}
	s := f.shape()
	return Row{Boards: slices.Clone(s.boards[:s.n]), Joints: slices.Clone(s.joints[:s.n-1]), Main: s.main}
}

// A shape is a row without lists to allocate.
type shape struct {
	n      int
	boards [MaxBoards]RowBoard
	joints [MaxBoards - 1]Joint
	main   Role
}

// shape returns the row that the form stands for; an unknown one is refused
// elsewhere.
func (f Form) shape() shape {
	row := func(main Role, boards ...RowBoard) shape {
		s := shape{main: main, n: len(boards)}
		copy(s.boards[:], boards)
		return s
	}
	switch f {
	case SoftSpine:
		return row(RightCover, RowBoard{Role: LeftCover}, RowBoard{Role: RightCover})
	case ForeEdgeFlap:
		return row(RightCover, RowBoard{Role: LeftCover}, RowBoard{Role: Spine1}, RowBoard{Role: RightCover},
			RowBoard{Role: Spine2}, RowBoard{Role: Flap, Rule: WidthHalf, Over: LeftCover})
	case DoubleSpineGate:
		return row(Back, RowBoard{Role: LeftDoor, Rule: WidthShared}, RowBoard{Role: Spine1}, RowBoard{Role: Back},
			RowBoard{Role: Spine2}, RowBoard{Role: RightDoor, Rule: WidthShared})
	case SoftGate:
		return row(Back, RowBoard{Role: LeftDoor, Rule: WidthShared}, RowBoard{Role: Back}, RowBoard{Role: RightDoor, Rule: WidthShared})
	case ThreePanels:
		return row(Panel2, RowBoard{Role: Panel1}, RowBoard{Role: Spine1}, RowBoard{Role: Panel2},
			RowBoard{Role: Spine2}, RowBoard{Role: Panel3, Over: Panel1})
	case TwoFlaps:
		s := row(RightCover, RowBoard{Role: LeftFlap, Rule: WidthHalf}, RowBoard{Role: Spine2}, RowBoard{Role: LeftCover, Over: LeftFlap},
			RowBoard{Role: Spine1}, RowBoard{Role: RightCover}, RowBoard{Role: Spine3}, RowBoard{Role: Flap, Rule: WidthHalf, Over: LeftCover})
		for i := range s.n - 1 {
			s.joints[i].Hinge.Rule = HingeLeast
		}
		return s
	case FourPanelZ:
		s := row(Panel4, RowBoard{Role: Panel1}, RowBoard{Role: Panel2}, RowBoard{Role: Panel3}, RowBoard{Role: Panel4})
		s.joints[1].Fold = score.Mountain
		return s
	}
	return row(RightCover, RowBoard{Role: LeftCover}, RowBoard{Role: Spine1}, RowBoard{Role: RightCover})
}

// role returns what a board is.
func (s *shape) role(i int) Role { return s.boards[i].Role }

// index returns the place of a board in the row, −1 where there is none.
func (s *shape) index(r Role) int {
	if r == MainPanel {
		r = s.main
	}
	for i := range s.n {
		if s.boards[i].Role == r {
			return i
		}
	}
	return -1
}

// stands reports whether a board stands on edge when the folio is shut.
func (s *shape) stands(i int) bool { return s.boards[i].Role.Spine() }

// rule returns the rule for the width of a board.
func (s *shape) rule(i int) WidthRule {
	switch r := s.boards[i].Rule; {
	case r == WidthDefault && s.boards[i].Width != 0:
		return WidthFixed
	case r == WidthDefault && s.stands(i):
		return WidthAround
	case r == WidthDefault:
		return WidthCover
	default:
		return r
	}
}

// soft reports whether no spine board is on either side of a joint.
func (s *shape) soft(joint int) bool { return !s.stands(joint) && !s.stands(joint+1) }

// spined reports whether there is a spine board.
func (s *shape) spined() bool {
	for i := range s.n {
		if s.stands(i) {
			return true
		}
	}
	return false
}

// ruled returns how many boards have a rule for their width.
func (s *shape) ruled(r WidthRule) int {
	n := 0
	for i := range s.n {
		if s.rule(i) == r {
			n++
		}
	}
	return n
}

// shape returns the row of the Spec: its own, or that of its form. What is beyond
// the limits is refused elsewhere.
func (s *Spec) shape() shape {
	if !s.Row.given() {
		out := s.Form.shape()
		for i := range out.n - 1 {
			out.joints[i].Hinge = s.Hinge
		}
		return out
	}
	out := shape{n: min(len(s.Row.Boards), MaxBoards), main: s.Row.Main}
	copy(out.boards[:], s.Row.Boards)
	copy(out.joints[:], s.Row.Joints)
	return out
}

// given reports whether a row is.
func (r Row) given() bool { return len(r.Boards) > 0 }

// fillRow fills in the hinges of the row.
func (s *Spec) fillRow() {
	own := s.Row.given()
	if own && s.Form == SpineBoard {
		s.Form = OwnRow
	}
	row := s.shape()
	if n := len(s.Row.Boards); own && len(s.Row.Joints) == 0 && n >= 2 && n <= MaxBoards {
		s.Row.Joints = make([]Joint, n-1)
	}
	for i := 0; own && i < min(len(s.Row.Joints), row.n-1); i++ {
		h, soft := &s.Row.Joints[i].Hinge, row.soft(i)
		if *h == (Hinge{}) && !(soft && row.spined()) {
			*h = s.Hinge
		}
		h.fill(soft, HingeTwoCalipers)
	}
	usual := HingeTwoCalipers
	if s.Form == TwoFlaps {
		usual = HingeLeast // a flap lies inside the other one's fold
	}
	s.Hinge.fill(!row.spined(), usual)
}

// lying returns how many boards of the row lie on each other when it is shut.
func (s *Spec) lying() int {
	row, n := s.shape(), 0
	for i := range row.n {
		if !row.stands(i) {
			n++
		}
	}
	return n
}

// layered reports whether the outside of a board may come to lie on another one.
func (s *shape) layered() bool {
	n := 0
	for i := range s.n {
		if s.boards[i].Over != MainPanel || i < s.n-1 && s.joints[i].Fold == score.Mountain {
			return true
		}
		if !s.stands(i) && s.rule(i) != WidthShared {
			n++
		}
	}
	return n > 2
}
