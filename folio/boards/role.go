package boards

import "boardwrap.example/internal/word"

// A Role is the part that a board plays in its row; it also names the panel
// on that board. The zero Role stands for the form's main panel: the right
// cover, or the back of a gate.
type Role uint8

// Roles of boards.
const (
	MainPanel  Role = iota // the right cover, or the back of a gate
	LeftCover              // seen from inside; the front of the closed folio
	Spine1                 // the spine, or of several in a form the first from the left
	RightCover             // what the folio is turned on to when it closes
	Spine2                 // the second from the left
	Flap                   // closes over the front cover
	LeftDoor               // of a gate
	Back                   // of a gate, between its spines
	RightDoor              // of a gate
	LeftFlap               // on the fore edge of the left cover
	Spine3                 // the third one
	Spine4                 // the fourth one
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

// Known reports whether it is one of the constants.
func (r Role) Known() bool { return r < roleEnd }

// AppendText appends the text of [Role.String]. The error matches
// units.ErrUnknown.
func (r Role) AppendText(dst []byte) ([]byte, error) { return word.Append(dst, r, "board") }

// MarshalText returns the text of [Role.String], with the error of
// [Role.AppendText].
func (r Role) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText reads what [Role.String] writes. The error matches
// units.ErrSyntax.
func (r *Role) UnmarshalText(text []byte) error { return word.Read(r, "board", text) }
