package score

import (
	"strconv"

	"boardwrap.example/units/check"
)

// A Fold is the kind of a fold, seen from the face of the sheet.
type Fold uint8

// Kinds of fold.
const (
	Valley   Fold = iota // the two faces meet
	Mountain             // the two backs meet
)

// String returns "valley" or "mountain".
func (f Fold) String() string {
	switch f {
	case Valley:
		return "valley"
	case Mountain:
		return "mountain"
	}
	return "unknown fold"
}

// Other returns the other kind: the fold as it is seen from the back.
func (f Fold) Other() Fold {
	if f == Valley {
		return Mountain
	}
	return Valley
}

// Repeat returns n folds of one kind; none if n is not positive.
func Repeat(n int, f Fold) []Fold {
	out := make([]Fold, max(n, 0))
	for i := range out {
		out[i] = f
	}
	return out
}

// Alternate returns n folds to and fro, as in an accordion; none if n is not
// positive.
func Alternate(n int, first Fold) []Fold {
	out := make([]Fold, max(n, 0))
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
	Back
)

// String returns "face" or "back".
func (s Side) String() string {
	switch s {
	case Face:
		return "face"
	case Back:
		return "back"
	}
	return "unknown side"
}

// Other returns the other side.
func (s Side) Other() Side {
	if s == Face {
		return Back
	}
	return Face
}
