package stock

import "boardwrap.example/internal/word"

// A PieceRole says what a piece is for.
type PieceRole uint8

// Roles of pieces.
const (
	FittingPiece   PieceRole = iota // a part of a fitting
	BoardPiece                      // a board of the case
	CoveringPiece                   // the wrap, or a side paper of quarter style
	StripPiece                      // a spine strip of quarter style
	LinerPiece                      // the liner, or a panel of it
	FoamPiece                       // a strip of foam under a fitting
	FilmPiece                       // a window film
	StiffenerPiece                  // the strip that keeps a soft spine flat
	EdgeStripPiece                  // a strip round the edges of boards whose outsides come together
)

var roles = word.List{What: "role", Words: []string{
	FittingPiece: "fitting", BoardPiece: "board", CoveringPiece: "covering", StripPiece: "strip", LinerPiece: "liner", FoamPiece: "foam", FilmPiece: "film",
	StiffenerPiece: "stiffener", EdgeStripPiece: "edge strip"}}

// String returns the role in a word.
func (r PieceRole) String() string { return roles.String(uint8(r)) }

// AppendText appends the text of [PieceRole.String]. The error matches
// units.ErrUnknown.
func (r PieceRole) AppendText(dst []byte) ([]byte, error) { return roles.Append(dst, uint8(r)) }

// MarshalText returns the text of [PieceRole.String], with the error of
// [PieceRole.AppendText].
func (r PieceRole) MarshalText() ([]byte, error) { return roles.Marshal(uint8(r)) }

// UnmarshalText reads what [PieceRole.String] writes. The error matches
// units.ErrSyntax.
func (r *PieceRole) UnmarshalText(text []byte) error { return word.Unmarshal(roles, r, text) }
