// Package boards describes rows of boards as data: what each board is called, how wide it
// is and how it is joined to the next, and the forms of case that such rows make.
package boards

import "boardwrap.example/internal/word"

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

// Known reports whether it is one of the constants.
func (f Form) Known() bool { return f < formEnd }

// AppendText appends the text of [Form.String]. The error matches
// units.ErrUnknown.
func (f Form) AppendText(dst []byte) ([]byte, error) { return word.Append(dst, f, "form") }

// MarshalText returns the text of [Form.String], with the error of
// [Form.AppendText].
func (f Form) MarshalText() ([]byte, error) { return f.AppendText(nil) }

// UnmarshalText reads what [Form.String] writes. The error matches
// units.ErrSyntax.
func (f *Form) UnmarshalText(text []byte) error { return word.Read(f, "form", text) }

// Roles returns the boards of the form, left to right.
func (f Form) Roles() []Role {
	s := f.Shape()
	out := make([]Role, s.N)
	for i := range out {
		out[i] = s.Boards[i].Role
	}
	return out
}
