package score

import (
	"strconv"

	"boardwrap.example/internal/word"
	"boardwrap.example/units/check"
)

// A Fold is the kind of a fold, seen from the face of the sheet.
type Fold uint8

// Kinds of fold.
const (
	Valley   Fold = iota // the two faces meet
	Mountain             // the two backs meet
)

var foldWords = word.List{What: "fold", Words: []string{Valley: "valley", Mountain: "mountain"}}

// String returns "valley" or "mountain".
func (f Fold) String() string { return foldWords.String(uint8(f)) }

// AppendText appends the text of [Fold.String]. The error matches
// units.ErrUnknown.
func (f Fold) AppendText(dst []byte) ([]byte, error) { return foldWords.Append(dst, uint8(f)) }

// MarshalText returns the text of [Fold.String], with the error of
// [Fold.AppendText].
func (f Fold) MarshalText() ([]byte, error) { return foldWords.Marshal(uint8(f)) }

// UnmarshalText reads what [Fold.String] writes. The error matches
// units.ErrSyntax.
func (f *Fold) UnmarshalText(text []byte) error { return word.Unmarshal(foldWords, f, text) }

// Other returns the other kind: the fold as it is seen from the back.
func (f Fold) Other() Fold {
	if f == Valley {
		return Mountain
	}
	return Valley
}

// Repeat returns n folds of one kind; none if n is not positive, and no more
// than [MaxPanels], which are too many for any strip.
func Repeat(n int, f Fold) []Fold {
	out := make([]Fold, min(max(n, 0), MaxPanels))
	for i := range out {
		out[i] = f
	}
	return out
}

// Alternate returns n folds to and fro, as in an accordion; none if n is not
// positive, and no more than [MaxPanels], which are too many for any strip.
func Alternate(n int, first Fold) []Fold {
	out := make([]Fold, min(max(n, 0), MaxPanels))
	for i := range out {
		out[i] = first
		first = first.Other()
	}
	return out
}

// ParseFolds reads one letter a fold, V or M in either case, with or without
// spaces: "VMV".
func ParseFolds(s string) ([]Fold, error) {
	folds := make([]Fold, 0, len(s))
	for i, r := range s {
		switch r {
		case 'V', 'v':
			folds = append(folds, Valley)
		case 'M', 'm':
			folds = append(folds, Mountain)
		case ' ':
		default:
			var list check.List
			list.Malformed("folds", check.Unknown, strconv.QuoteRune(r)+" at "+strconv.Itoa(i), "V or M")
			return nil, list.Err()
		}
	}
	return folds, nil
}

// A Side is one of the two sides of a sheet.
type Side uint8

// Sides.
const (
	Face Side = iota // towards the maker when the sheet lies flat
	Back             // away from the maker
)

var sideWords = word.List{What: "side", Words: []string{Face: "face", Back: "back"}}

// String returns "face" or "back".
func (s Side) String() string { return sideWords.String(uint8(s)) }

// AppendText appends the text of [Side.String]. The error matches
// units.ErrUnknown.
func (s Side) AppendText(dst []byte) ([]byte, error) { return sideWords.Append(dst, uint8(s)) }

// MarshalText returns the text of [Side.String], with the error of
// [Side.AppendText].
func (s Side) MarshalText() ([]byte, error) { return sideWords.Marshal(uint8(s)) }

// UnmarshalText reads what [Side.String] writes. The error matches
// units.ErrSyntax.
func (s *Side) UnmarshalText(text []byte) error { return word.Unmarshal(sideWords, s, text) }

// Other returns the other side.
func (s Side) Other() Side {
	if s == Face {
		return Back
	}
	return Face
}
