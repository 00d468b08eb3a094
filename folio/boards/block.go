package boards

import (
	"cmp"

	"boardwrap.example/units"
)

// A Block is what a cover is built around: a sewn block, a stack of cards, a
// pad. It takes the place of Spec.Cover.
type Block struct {
	// Page is the width and height of one leaf; the zero Size means that there is
	// no block.
	Page units.Size
	// Thickness is that of the whole block; the spine is worked out from it
	// unless Spine says otherwise, and only then it may be 0.
	Thickness units.Length
	// Square is how far the cover stands past the block at head, tail and
	// fore edge. 0 means 1/8 in (common practice, no published source), or 3 mm
	// where plans are metric (University of Brighton, Hard Cover for
	// Multi-section), [units.None] flush.
	Square units.Length
	// Setback is how far the board starts from the block's back, to leave room
	// for the joint: 5 mm in the Brighton worksheet, where the board is 2 mm
	// narrower than the page. The default is 0.
	Setback units.Length
}

// Given reports whether there is one.
func (b Block) Given() bool { return b.Page != units.Size{} }

// Fill fills in what is left 0, for plans in the notation.
func (b *Block) Fill(n units.Notation) {
	if b.Given() {
		b.Square = cmp.Or(b.Square, n.Choose(units.Inch/8, 3*units.Millimetre))
	}
}
