package folio

import (
	"iter"

	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A Piece is one thing that has to be cut, as it lies while the folio is built:
// width across, height along the spine. Its fields can only be read, so that a
// piece always agrees with its working.
type Piece struct {
	name, part, stock string
	role              stock.PieceRole
	across            bool // folded along its width, so the grain need not follow the height
	grain             stock.GrainRule
	oneWay            bool
	up                work.PaperSide
	mitred            uint8 // its mitred corners, a bit each
	fitting           int16 // 1 + its index in the Spec, 0 for the case
	quantity          int
	caliper           units.Length // 0 where it is not known
	width, height     *units.Working
	sheet             lie         // what it is cut from; its size is zero where any size can be had
	blank             score.Blank // the zero Blank if plain
	mitres            *mitring    // of the wrap
	opening           *units.Rect // a window, nil without
}

// Name says what the piece is, as in "cover board" or "mat".
func (p Piece) Name() string { return p.name }

// Part says what the piece belongs to: "case", "wrap", "liner", with which edge strips
// are made, or the name of a fitting.
func (p Piece) Part() string { return p.part }

// Stock is the name of its material.
func (p Piece) Stock() string { return p.stock }

// Fitting returns the place in [Plan.Fittings] of the fitting that it belongs to,
// and false for a piece of the case.
func (p Piece) Fitting() (index int, ok bool) { return int(p.fitting) - 1, p.fitting > 0 }

// Size returns width and height.
func (p Piece) Size() units.Size {
	return units.Size{W: lengthOf(p.width), H: lengthOf(p.height)}
}

// Width returns the width with its working.
func (p Piece) Width() units.Working { return of(p.width) }

// Height returns the height with its working.
func (p Piece) Height() units.Working { return of(p.height) }

// Quantity returns how many are needed for one folio.
func (p Piece) Quantity() int { return p.quantity }

// Grain returns how the grain must run: GrainParallel is along the height. A
// piece whose folds run along its width may have it either way, as its folds
// and the spine ask for different ones.
func (p Piece) Grain() stock.GrainRule { return p.grain }

// OneWay reports whether the pattern must stay upright, so that the piece must
// not be turned on its sheet.
func (p Piece) OneWay() bool { return p.oneWay }

// Role says what the piece is for.
func (p Piece) Role() stock.PieceRole { return p.role }

// Up returns the side of the material that lies up when the piece lies as it is
// drawn, which is as it lies in the open folio seen from inside: the wrong side
// of a wrap, as its boards are glued on that, and the right side of a liner.
func (p Piece) Up() work.PaperSide { return p.up }

// Source returns the sheet that the piece would be cut from by itself, as it lies
// for the cut. Its index is the place in the Sheets of its stock, −1 where the
// stock can be had in any size or is none of the Spec's.
func (p Piece) Source() work.Source {
	if p.sheet.size.Empty() {
		return work.Source{Stock: p.stock, Index: -1}
	}
	return work.Source{Stock: p.stock, Index: int(p.sheet.index), Size: p.sheet.size, Turned: p.sheet.turned}
}

// Caliper returns how thick its material is, 0 where that is not known.
func (p Piece) Caliper() units.Length { return p.caliper }

// Blank returns the piece with its score lines, glue areas and notches, and
// whether it has any.
func (p Piece) Blank() (score.Blank, bool) {
	return p.blank, !p.plain()
}

// plain reports whether nothing is folded, scored or cut by a blank.
func (p Piece) plain() bool { return p.blank.Size() == units.Size{} }

// CornerCuts walks the mitres to be cut off the piece.
func (p Piece) CornerCuts() iter.Seq[CornerCut] {
	return func(yield func(CornerCut) bool) {
		for c := score.HeadLeft; c <= score.TailLeft; c++ {
			if p.mitred>>c&1 > 0 && !yield(CornerCut{c, p.mitres, p.Size()}) {
				return
			}
		}
	}
}

// Openings walks the windows to be cut out, from the piece's upper left corner.
func (p Piece) Openings() iter.Seq[units.Rect] {
	return func(yield func(units.Rect) bool) {
		if p.opening != nil {
			yield(*p.opening)
		}
	}
}

// slanted reports whether a corner of the piece is cut off.
func (p *Piece) slanted() bool {
	for range p.blank.Slants() {
		return true
	}
	return false
}

// Area returns the area of one of the piece: its rectangle less mitred corners,
// windows, and everything that is cut off or out of a folded one. Half triangles
// and rounds are taken to a few square nanometres more, so that the area is not
// less than what is there.
func (p Piece) Area() units.Area {
	if !p.plain() {
		return p.blank.Area(units.Up)
	}
	a := p.Size().Area()
	for c := range score.Corner(4) {
		if p.mitred>>c&1 > 0 {
			leg := p.mitres.legs[c]
			a = a.Minus(leg.By(leg.Half(units.Down)))
		}
	}
	if p.opening != nil {
		a = a.Minus(p.opening.Size().Area())
	}
	return a
}
