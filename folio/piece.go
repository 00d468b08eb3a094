package folio

import (
	"iter"

	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A Face is the side of a material that shows.
type Face uint8

// Faces.
const (
	RightSide Face = iota
	WrongSide
)

// String returns "right side" or "wrong side".
func (f Face) String() string {
	if f == WrongSide {
		return "wrong side"
	}
	return "right side"
}

// A Piece is one thing that has to be cut, as it lies while the folio is built:
// width across, height along the spine. Its fields can only be read, so that a
// piece always agrees with its working.
type Piece struct {
	name, part, stock string
	fitting           int // 1 + its index in the Spec, 0 for the case
	width, height     units.Working
	across            bool // folded along its width, so the grain need not follow the height
	quantity          int
	grain             GrainRule
	oneWay            bool
	face              Face
	blank             *score.Blank // nil if plain
	cuts              []CornerCut
	openings          []units.Rect
}

// Name says what the piece is, as in "cover board" or "mat".
func (p Piece) Name() string { return p.name }

// Part says what the piece belongs to: "case", "wrap", "liner", or the name of
// a fitting.
func (p Piece) Part() string { return p.part }

// Stock is the name of its material.
func (p Piece) Stock() string { return p.stock }

// Fitting is the path of the fitting in the Spec, empty for the case.
func (p Piece) Fitting() string {
	if p.fitting == 0 {
		return ""
	}
	return fittingPath(p.fitting - 1)
}

// Size returns width and height.
func (p Piece) Size() units.Size { return units.Size{W: p.width.Length(), H: p.height.Length()} }

// Width returns the width with its working.
func (p Piece) Width() units.Working { return p.width }

// Height returns the height with its working.
func (p Piece) Height() units.Working { return p.height }

// Quantity returns how many are needed for one folio.
func (p Piece) Quantity() int { return p.quantity }

// Grain returns how the grain must run: GrainParallel is along the height. A
// piece whose folds run along its width may have it either way, as its folds
// and the spine ask for different ones.
func (p Piece) Grain() GrainRule { return p.grain }

// OneWay reports whether the pattern must stay upright, so that the piece must
// not be turned on its sheet.
func (p Piece) OneWay() bool { return p.oneWay }

// Face returns the side of the material that shows.
func (p Piece) Face() Face { return p.face }

// Blank returns the piece with its score lines, glue areas and notches, and
// whether it has any.
func (p Piece) Blank() (score.Blank, bool) {
	if p.blank == nil {
		return score.Blank{}, false
	}
	return *p.blank, true
}

// CornerCuts walks the mitres to be cut off the piece.
func (p Piece) CornerCuts() iter.Seq[CornerCut] { return walk(p.cuts) }

// Openings walks the windows to be cut out, from the piece's upper left corner.
func (p Piece) Openings() iter.Seq[units.Rect] { return walk(p.openings) }
