package pocket

import (
	"boardwrap.example/internal/word"
	"boardwrap.example/score"
)

// A Groove says on which side of a fold the groove of its score lies; the bead
// that a scoring tool leaves lies on the other side. Books differ, so that it
// is a choice.
type Groove uint8

// Sides of a groove.
const (
	// GrooveOutside scores the outside of the fold, so that it folds away from
	// the groove and the bead lies inside (common practice, no published
	// source).
	GrooveOutside Groove = iota
	// GrooveInside scores the inside of the fold, so that it folds into the
	// groove.
	GrooveInside
)

var grooves = word.List{What: "side of a groove", Words: []string{GrooveOutside: "outside", GrooveInside: "inside"}}

// String returns "outside" or "inside".
func (g Groove) String() string { return grooves.String(uint8(g)) }

// AppendText appends the text of [Groove.String]. The error matches
// units.ErrUnknown.
func (g Groove) AppendText(dst []byte) ([]byte, error) { return grooves.Append(dst, uint8(g)) }

// MarshalText returns the text of [Groove.String], with the error of
// [Groove.AppendText].
func (g Groove) MarshalText() ([]byte, error) { return grooves.Marshal(uint8(g)) }

// UnmarshalText reads what [Groove.String] writes. The error matches
// units.ErrSyntax.
func (g *Groove) UnmarshalText(text []byte) error { return word.Unmarshal(grooves, g, text) }

// side returns the side of the drawing that is scored for a fold: inside a
// valley the faces meet.
func (g Groove) side(f score.Fold) score.Side {
	if (f == score.Valley) == (g == GrooveInside) {
		return score.Face
	}
	return score.Back
}
