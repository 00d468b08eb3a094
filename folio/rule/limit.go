package rule

import "boardwrap.example/internal/word"

// A Limit says what kept a margin from being wider.
type Limit uint8

// Limits of a margin.
const (
	LimitIdeal Limit = iota // nothing: it is the ideal
	LimitSheet              // the side of the sheet
)

var limits = word.List{What: "limit", Words: []string{LimitIdeal: "ideal", LimitSheet: "sheet"}}

// String returns "ideal" or "sheet".
func (l Limit) String() string { return limits.String(uint8(l)) }

// AppendText appends the text of [Limit.String]. The error matches
// units.ErrUnknown.
func (l Limit) AppendText(dst []byte) ([]byte, error) { return limits.Append(dst, uint8(l)) }

// MarshalText returns the text of [Limit.String], with the error of
// [Limit.AppendText].
func (l Limit) MarshalText() ([]byte, error) { return limits.Marshal(uint8(l)) }

// UnmarshalText reads what [Limit.String] writes. The error matches
// units.ErrSyntax.
func (l *Limit) UnmarshalText(text []byte) error { return word.Unmarshal(limits, l, text) }
