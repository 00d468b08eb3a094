package closing

import "boardwrap.example/internal/word"

// A Meeting is a pair of faces that come to lie on each other when the folio is
// closed.
type Meeting uint8

// Meetings.
const (
	// BetweenCovers is the left cover, or both doors, on the right cover or
	// the back.
	BetweenCovers Meeting = iota
	// UnderFlap is the flap on the outside of the front cover.
	UnderFlap
	// BesideSpine is what stands on a spine board, against the covers at its
	// side and what they carry, or what it comes to lie against straight across.
	BesideSpine
	// AtForeEdge is an edge that lies inside a fold against what stands there: the
	// fore edge of the front cover against the second spine board of a fore-edge
	// flap.
	AtForeEdge
	// BetweenOutsides is one outside on another, where a row is folded to and fro.
	BetweenOutsides
)

var meetings = word.List{What: "meeting", Words: []string{BetweenCovers: "between the covers", UnderFlap: "under the flap", BesideSpine: "beside the spine", AtForeEdge: "at the fore edge", BetweenOutsides: "between the outsides"}}

// String returns it in words.
func (m Meeting) String() string { return meetings.String(uint8(m)) }

// AppendText appends the text of [Meeting.String]. The error matches
// units.ErrUnknown.
func (m Meeting) AppendText(dst []byte) ([]byte, error) { return meetings.Append(dst, uint8(m)) }

// MarshalText returns the text of [Meeting.String], with the error of
// [Meeting.AppendText].
func (m Meeting) MarshalText() ([]byte, error) { return meetings.Marshal(uint8(m)) }

// UnmarshalText reads what [Meeting.String] writes. The error matches
// units.ErrSyntax.
func (m *Meeting) UnmarshalText(text []byte) error { return word.Unmarshal(meetings, m, text) }
