package refit

import "boardwrap.example/internal/word"

// A Changed says what a change of a plan is about.
type Changed uint8

// What can change when a plan is refitted.
const (
	ChangedBoard   Changed = iota // where a board lies, and how large it came out
	ChangedGap                    // where a gap lies, and how wide it came out
	ChangedLiner                  // the size of a piece of the liner and where it lies
	ChangedPiece                  // the size of a piece of a fitting
	ChangedFitting                // where a fitting lies
)

var changed = word.List{What: "change", Words: []string{ChangedBoard: "board", ChangedGap: "gap", ChangedLiner: "liner", ChangedPiece: "piece", ChangedFitting: "fitting"}}

// String returns it in words.
func (c Changed) String() string { return changed.String(uint8(c)) }

// AppendText appends the text of [Changed.String]. The error matches
// units.ErrUnknown.
func (c Changed) AppendText(dst []byte) ([]byte, error) { return changed.Append(dst, uint8(c)) }

// MarshalText returns the text of [Changed.String], with the error of
// [Changed.AppendText].
func (c Changed) MarshalText() ([]byte, error) { return changed.Marshal(uint8(c)) }

// UnmarshalText reads what [Changed.String] writes. The error matches
// units.ErrSyntax.
func (c *Changed) UnmarshalText(text []byte) error { return word.Unmarshal(changed, c, text) }
