package rule

import "boardwrap.example/internal/word"

// Turning says which edges of the wrap are turned in first.
type Turning uint8

// Orders of turning in.
const (
	HeadAndTailFirst Turning = iota // then the sides
	SidesFirst                      // then head and tail
	turningEnd
)

// String returns the order in words.
func (t Turning) String() string {
	if t == SidesFirst {
		return "sides first"
	}
	return "head and tail first"
}

// Known reports whether it is one of the constants.
func (t Turning) Known() bool { return t < turningEnd }

// AppendText appends the text of [Turning.String]. The error matches
// units.ErrUnknown.
func (t Turning) AppendText(dst []byte) ([]byte, error) {
	return word.Append(dst, t, "order of turning in")
}

// MarshalText returns the text of [Turning.String], with the error of
// [Turning.AppendText].
func (t Turning) MarshalText() ([]byte, error) { return t.AppendText(nil) }

// UnmarshalText reads what [Turning.String] writes. The error matches
// units.ErrSyntax.
func (t *Turning) UnmarshalText(text []byte) error { return word.Read(t, "order of turning in", text) }
