package work

import (
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A Thing is something that hands hold: so many copies of a piece, or one of
// the things that are not cut.
type Thing struct {
	Kind ThingKind
	// Index is the place of a piece among the pieces of the plan, or of the
	// design for the steps of a pocket by itself; the place of the fitting
	// in the plan for a content or a bought part; 0 for the block.
	Index int
	// Copy tells copies of a piece apart, from 0; [All] means every one of
	// them, alike. For a content it is the spot it goes to.
	Copy int
	// Name is what it is called in a sentence, without an article.
	Name string
}

// All stands for every copy of a piece.
const All = -1

// A ThingKind says what a [Thing] is.
type ThingKind uint8

// Kinds of thing.
const (
	Piece   ThingKind = iota // something cut from sheet
	Content                  // something held: a photograph, a card, a note
	Block                    // what the covers are built around
	Bought                   // an ornament, a ribbon
	Magnet
)

var things = [...]string{"piece", "content", "block", "bought", "magnet"}

// String returns the kind in one word.
func (k ThingKind) String() string { return named(things[:], int(k), "no such thing") }

// MarshalText returns the kind as String does, or an error for none of the
// constants.
func (k ThingKind) MarshalText() ([]byte, error) { return marshal(things[:], int(k), "thing") }

// UnmarshalText reads what MarshalText wrote.
func (k *ThingKind) UnmarshalText(text []byte) error { return unmarshal(things[:], text, "thing", k) }

// A Base is what something is laid on or fixed to.
type Base struct {
	Kind BaseKind
	// Index is the board's place in the row, from 0 at the left, or the piece's
	// place as in [Thing].
	Index int
	// Copy is the copy of the piece.
	Copy int
	// Panel is the panel of a folded piece that is meant, between its scores:
	// counted from 0, from the drawing's left edge where its scores are
	// upright, from the head where they are level. What is laid on it lies
	// right over it, under what was folded over it. [All] means the piece as
	// it lies.
	Panel int
	// Name is what it is called in a sentence, without an article.
	Name string
}

// A BaseKind says what a [Base] is.
type BaseKind uint8

// Kinds of base.
const (
	// OnPiece is a piece, on the side that lies up.
	OnPiece BaseKind = iota
	// OnBoard is the inside of a board of the open case, from the board's
	// own edges as covered.
	OnBoard
	// OnOutside is the outside of a board, seen from the inside: left is the
	// left of the open row.
	OnOutside
	// OnRow is the inside of the whole open case, from its outer edges.
	OnRow
	// Under is what a pocket by itself is going to lie on; its edges are those
	// of the closed footprint.
	Under
)

var bases = [...]string{"piece", "board", "outside", "row", "under"}

// String returns the kind in one word.
func (k BaseKind) String() string { return named(bases[:], int(k), "no such base") }

// MarshalText returns the kind as String does, or an error for none of the
// constants.
func (k BaseKind) MarshalText() ([]byte, error) { return marshal(bases[:], int(k), "base") }

// UnmarshalText reads what MarshalText wrote.
func (k *BaseKind) UnmarshalText(text []byte) error { return unmarshal(bases[:], text, "base", k) }

// An At says where something lies on its base, as hands measure it: from an
// edge of the base to the same edge of the thing. A negative distance reaches
// beyond the base's edge.
type At struct {
	Across score.Edge   // Left or Right
	X      units.Length // from the base's edge to the thing's
	Along  score.Edge   // Head or Tail
	Y      units.Length // from the base's edge to the thing's
}

// Rect returns where a thing of the given size lies on a base of the given
// size, measured from the base's upper left corner.
func (a At) Rect(thing, base units.Size) units.Rect {
	p := units.Point{X: a.X, Y: a.Y}
	if a.Across == score.Right {
		p.X = base.W - thing.W - a.X
	}
	if a.Along == score.Tail {
		p.Y = base.H - thing.H - a.Y
	}
	return units.RectAt(p, thing)
}

// A Sheet is what a piece is cut from.
type Sheet struct {
	// Stock is the name of the material.
	Stock string
	// Index is the sheet's place in the stock's list of sheets, −1 where the
	// material can be had in any size.
	Index int
	// Size is the sheet as it lies for the cut, with any turn made; zero where
	// any size can be had.
	Size units.Size
	// Turned says that the sheet lies a quarter turn from how it is listed.
	Turned bool
}

// A Grain is the direction of the grain in a piece.
type Grain uint8

// Directions of the grain in a piece.
const (
	GrainEither      Grain = iota // it may run either way
	GrainAlongHeight              // from head to tail
	GrainAlongWidth               // from left to right
)

var grains = [...]string{"either way", "along the height", "along the width"}

// String returns the direction in words.
func (g Grain) String() string { return named(grains[:], int(g), "no such grain") }

// MarshalText returns the direction as String does, or an error for none of the
// constants.
func (g Grain) MarshalText() ([]byte, error) { return marshal(grains[:], int(g), "grain") }

// UnmarshalText reads what MarshalText wrote.
func (g *Grain) UnmarshalText(text []byte) error { return unmarshal(grains[:], text, "grain", g) }

// A PaperSide is one of the two sides of a material.
type PaperSide uint8

// Sides of a material.
const (
	RightSide PaperSide = iota // the decorated, better or only side
	WrongSide
)

var paperSides = [...]string{"right side", "wrong side"}

// String returns "right side" or "wrong side".
func (s PaperSide) String() string { return named(paperSides[:], int(s), "no such side") }

// MarshalText returns the side as String does, or an error for none of the
// constants.
func (s PaperSide) MarshalText() ([]byte, error) { return marshal(paperSides[:], int(s), "side") }

// UnmarshalText reads what MarshalText wrote.
func (s *PaperSide) UnmarshalText(text []byte) error {
	return unmarshal(paperSides[:], text, "side", s)
}

// Other returns the other side.
func (s PaperSide) Other() PaperSide { return s ^ 1 }

// An Adhesive is what holds something down.
type Adhesive uint8

// Adhesives.
const (
	Glue       Adhesive = iota // wet glue or paste, brushed on
	Tape                       // double-sided tape
	SelfSticky                 // the thing sticks by itself, as foam does
)

var adhesives = [...]string{"glue", "double-sided tape", "its own adhesive"}

// String returns the adhesive in words.
func (a Adhesive) String() string { return named(adhesives[:], int(a), "no such adhesive") }

// MarshalText returns the adhesive as String does, or an error for none of the
// constants.
func (a Adhesive) MarshalText() ([]byte, error) { return marshal(adhesives[:], int(a), "adhesive") }

// UnmarshalText reads what MarshalText wrote.
func (a *Adhesive) UnmarshalText(text []byte) error {
	return unmarshal(adhesives[:], text, "adhesive", a)
}

// A Corner is one of the four corners of a piece.
type Corner uint8

// Corners, clockwise from the upper left.
const (
	HeadLeft Corner = iota
	HeadRight
	TailRight
	TailLeft
)

var corners = [...]string{"head left", "head right", "tail right", "tail left"}

// String returns the corner in words.
func (c Corner) String() string { return named(corners[:], int(c), "no such corner") }

// MarshalText returns the corner as String does, or an error for none of the
// constants.
func (c Corner) MarshalText() ([]byte, error) { return marshal(corners[:], int(c), "corner") }

// UnmarshalText reads what MarshalText wrote.
func (c *Corner) UnmarshalText(text []byte) error { return unmarshal(corners[:], text, "corner", c) }

// A Way is the way in which a part of a piece turns over a score as the piece
// lies before the maker.
type Way uint8

// Ways to turn.
const (
	Towards Way = iota // up, towards the maker, over what stays on the table
	Away               // down, away from the maker, under it
)

var ways = [...]string{"towards you", "away from you"}

// String returns "towards you" or "away from you".
func (w Way) String() string { return named(ways[:], int(w), "no such way") }

// MarshalText returns the way as String does, or an error for none of the
// constants.
func (w Way) MarshalText() ([]byte, error) { return marshal(ways[:], int(w), "way") }

// UnmarshalText reads what MarshalText wrote.
func (w *Way) UnmarshalText(text []byte) error { return unmarshal(ways[:], text, "way", w) }
