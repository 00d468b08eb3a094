package place

import (
	"boardwrap.example/internal/word"
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

// Known reports whether it is one of the constants.
func (r PictureRule) Known() bool { return r < pictureEnd }

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
