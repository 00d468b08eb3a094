package work

import (
	"boardwrap.example/internal/word"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// An Object is something that hands hold: so many copies of a piece, or one of
// the things that are not cut.
type Object struct {
	Kind ObjectKind // what it is
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

// An ObjectKind says what an [Object] is.
type ObjectKind uint8

// Kinds of object.
const (
	Piece   ObjectKind = iota // something cut from sheet
	Content                   // something held: a photograph, a card, a note
	Block                     // what the covers are built around
	Bought                    // an ornament, a ribbon
	Magnet                    // one of those that hold the folio shut
)

var things = word.List{What: "thing", Words: []string{"piece", "content", "block", "bought", "magnet"}}

// String returns the kind in one word.
func (k ObjectKind) String() string { return things.String(uint8(k)) }

// AppendText appends the text of [ObjectKind.String] to dst. The error matches
// units.ErrUnknown.
func (k ObjectKind) AppendText(dst []byte) ([]byte, error) { return things.Append(dst, uint8(k)) }

// MarshalText returns the kind as String does. The error matches units.ErrUnknown.
func (k ObjectKind) MarshalText() ([]byte, error) { return things.Marshal(uint8(k)) }

// UnmarshalText reads what MarshalText wrote. The error matches
// units.ErrSyntax.
func (k *ObjectKind) UnmarshalText(text []byte) error { return word.Unmarshal(things, k, text) }

// A Base is what something is laid on or fixed to.
type Base struct {
	Kind BaseKind // what it is
	// Index is the board's place in the row, from 0 at the left, or the place of
	// the piece, or of what is bought, as in [Object].
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
	// OnBought is something bought that is in its place already; its edges are
	// those of the least rectangle around it.
	OnBought
)

var bases = word.List{What: "base", Words: []string{"piece", "board", "outside", "row", "under", "bought"}}

// String returns the kind in one word.
func (k BaseKind) String() string { return bases.String(uint8(k)) }

// AppendText appends the text of [BaseKind.String] to dst. The error matches
// units.ErrUnknown.
func (k BaseKind) AppendText(dst []byte) ([]byte, error) { return bases.Append(dst, uint8(k)) }

// MarshalText returns the kind as String does. The error matches units.ErrUnknown.
func (k BaseKind) MarshalText() ([]byte, error) { return bases.Marshal(uint8(k)) }

// UnmarshalText reads what MarshalText wrote. The error matches
// units.ErrSyntax.
func (k *BaseKind) UnmarshalText(text []byte) error { return word.Unmarshal(bases, k, text) }

// An At says where something lies on its base, as hands measure it: from an
// edge of the base to the same edge of the object. A negative distance reaches
// beyond the base's edge.
type At struct {
	Across score.Edge   // Left or Right
	X      units.Length // from the base's edge to the object's
	Along  score.Edge   // Head or Tail
	Y      units.Length // from the base's edge to the object's
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

// A Source is what a piece is cut from.
type Source struct {
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

var grains = word.List{What: "grain", Words: []string{"either way", "along the height", "along the width"}}

// String returns the direction in words.
func (g Grain) String() string { return grains.String(uint8(g)) }

// AppendText appends the text of [Grain.String] to dst. The error matches
// units.ErrUnknown.
func (g Grain) AppendText(dst []byte) ([]byte, error) { return grains.Append(dst, uint8(g)) }

// MarshalText returns the direction as String does. The error matches units.ErrUnknown.
func (g Grain) MarshalText() ([]byte, error) { return grains.Marshal(uint8(g)) }

// UnmarshalText reads what MarshalText wrote. The error matches
// units.ErrSyntax.
func (g *Grain) UnmarshalText(text []byte) error { return word.Unmarshal(grains, g, text) }

// A PaperSide is one of the two sides of a material.
type PaperSide uint8

// Sides of a material.
const (
	RightSide PaperSide = iota // the decorated, better or only side
	WrongSide                  // the other one
)

var paperSides = word.List{What: "side", Words: []string{"right side", "wrong side"}}

// String returns "right side" or "wrong side".
func (s PaperSide) String() string { return paperSides.String(uint8(s)) }

// AppendText appends the text of [PaperSide.String] to dst. The error matches
// units.ErrUnknown.
func (s PaperSide) AppendText(dst []byte) ([]byte, error) { return paperSides.Append(dst, uint8(s)) }

// MarshalText returns the side as String does. The error matches units.ErrUnknown.
func (s PaperSide) MarshalText() ([]byte, error) { return paperSides.Marshal(uint8(s)) }

// UnmarshalText reads what MarshalText wrote. The error matches
// units.ErrSyntax.
func (s *PaperSide) UnmarshalText(text []byte) error {
	return word.Unmarshal(paperSides, s, text)
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

var adhesives = word.List{What: "adhesive", Words: []string{"glue", "double-sided tape", "its own adhesive"}}

// String returns the adhesive in words.
func (a Adhesive) String() string { return adhesives.String(uint8(a)) }

// AppendText appends the text of [Adhesive.String] to dst. The error matches
// units.ErrUnknown.
func (a Adhesive) AppendText(dst []byte) ([]byte, error) { return adhesives.Append(dst, uint8(a)) }

// MarshalText returns the adhesive as String does. The error matches units.ErrUnknown.
func (a Adhesive) MarshalText() ([]byte, error) { return adhesives.Marshal(uint8(a)) }

// UnmarshalText reads what MarshalText wrote. The error matches
// units.ErrSyntax.
func (a *Adhesive) UnmarshalText(text []byte) error {
	return word.Unmarshal(adhesives, a, text)
}

// A Way is the way in which a part of a piece turns over a score as the piece
// lies before the maker.
type Way uint8

// Ways to turn.
const (
	Towards Way = iota // up, towards the maker, over what stays on the table
	Away               // down, away from the maker, under it
)

var ways = word.List{What: "way", Words: []string{"towards you", "away from you"}}

// String returns "towards you" or "away from you".
func (w Way) String() string { return ways.String(uint8(w)) }

// AppendText appends the text of [Way.String] to dst. The error matches
// units.ErrUnknown.
func (w Way) AppendText(dst []byte) ([]byte, error) { return ways.Append(dst, uint8(w)) }

// MarshalText returns the way as String does. The error matches units.ErrUnknown.
func (w Way) MarshalText() ([]byte, error) { return ways.Marshal(uint8(w)) }

// UnmarshalText reads what MarshalText wrote. The error matches
// units.ErrSyntax.
func (w *Way) UnmarshalText(text []byte) error { return word.Unmarshal(ways, w, text) }

// Edges returns the areas of a thing that a band of adhesive of the given width
// covers along its four edges, in its own coordinates: head, tail, left, right. Of
// something less than two bands across it is one length along the middle, and all
// of what is narrower than the band.
func Edges(s units.Size, w units.Length) []units.Rect {
	rect := func(x, y, dx, dy units.Length) units.Rect {
		return units.RectAt(units.Point{X: x, Y: y}, units.Size{W: dx, H: dy})
	}
	switch short := min(s.W, s.H); {
	case short < w:
		return []units.Rect{rect(0, 0, s.W, s.H)}
	case short < 2*w && s.W <= s.H:
		return []units.Rect{rect((s.W - w).Half(units.Down), 0, w, s.H)}
	case short < 2*w:
		return []units.Rect{rect(0, (s.H - w).Half(units.Down), s.W, w)}
	}
	areas := append(make([]units.Rect, 0, 4), rect(0, 0, s.W, w), rect(0, s.H-w, s.W, w))
	if between := s.H - 2*w; between > 0 {
		areas = append(areas, rect(0, w, w, between), rect(s.W-w, w, w, between))
	}
	return areas
}
