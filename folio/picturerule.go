package folio

import (
	"boardwrap.example/internal/word"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// A PictureRule says what pictures a mat or a frame may take whose size is given
// by relation.
type PictureRule uint8

// Picture rules.
const (
	// PictureAny takes the picture as large as goes: it is printed or trimmed
	// to that size.
	PictureAny PictureRule = iota
	// PictureUsual takes the largest of the prints that can be had ([pocket.Prints]),
	// upright; mat or frame are made to it, and are then smaller than the
	// relation lets them be.
	PictureUsual
	// PictureUsualLying takes it after a quarter turn.
	PictureUsualLying
	pictureEnd
)

var pictures = word.List{What: "picture rule", Words: []string{
	PictureAny: "any size", PictureUsual: "usual print", PictureUsualLying: "usual print, lying"}}

// String returns the rule in words.
func (r PictureRule) String() string { return pictures.String(uint8(r)) }

// AppendText appends the text of [PictureRule.String]. The error matches
// units.ErrUnknown.
func (r PictureRule) AppendText(dst []byte) ([]byte, error) { return pictures.Append(dst, uint8(r)) }

// MarshalText returns the text of [PictureRule.String], with the error of
// [PictureRule.AppendText].
func (r PictureRule) MarshalText() ([]byte, error) { return pictures.Marshal(uint8(r)) }

// UnmarshalText reads what [PictureRule.String] writes. The error matches
// units.ErrSyntax.
func (r *PictureRule) UnmarshalText(text []byte) error { return word.Unmarshal(pictures, r, text) }

// print returns the largest print of a notation that is no larger than most and
// the least one there is, and whether there is one.
func (r PictureRule) print(n units.Notation, most units.Size) (best, least pocket.Content, ok bool) {
	for c := range pocket.Prints(n) {
		if r == PictureUsualLying {
			c = c.Turned()
		}
		area := c.Size.Area()
		if least.Size.Empty() || area.Compare(least.Size.Area()) < 0 {
			least = c
		}
		if c.Size.FitsIn(most) && (!ok || area.Compare(best.Size.Area()) > 0) {
			best, ok = c, true
		}
	}
	return best, least, ok
}
