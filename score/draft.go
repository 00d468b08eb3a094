package score

import (
	"slices"

	"boardwrap.example/internal/word"
	"boardwrap.example/units"
)

// An Axis is the way a score line runs on a blank.
type Axis uint8

// Axes.
const (
	Upright Axis = iota // from head to tail; its place counts from the left edge
	Level               // from left to right; its place counts from the head
)

var axisWords = word.List{What: "axis", Words: []string{Upright: "upright", Level: "level"}}

// String returns "upright" or "level".
func (a Axis) String() string { return axisWords.String(uint8(a)) }

// AppendText appends the text of [Axis.String]. The error matches
// units.ErrUnknown.
func (a Axis) AppendText(dst []byte) ([]byte, error) { return axisWords.Append(dst, uint8(a)) }

// MarshalText returns the text of [Axis.String], with the error of
// [Axis.AppendText].
func (a Axis) MarshalText() ([]byte, error) { return axisWords.Marshal(uint8(a)) }

// UnmarshalText reads what [Axis.String] writes. The error matches
// units.ErrSyntax.
func (a *Axis) UnmarshalText(text []byte) error { return word.Unmarshal(axisWords, a, text) }

// An Edge is one of the four edges of a blank.
type Edge uint8

// Edges.
const (
	Head  Edge = iota // the upper edge
	Tail              // the lower edge
	Left              // the left edge
	Right             // the right edge
)

var edgeWords = word.List{What: "edge", Words: []string{Head: "head", Tail: "tail", Left: "left", Right: "right"}}

// String returns "head", "tail", "left" or "right".
func (e Edge) String() string { return edgeWords.String(uint8(e)) }

// AppendText appends the text of [Edge.String]. The error matches
// units.ErrUnknown.
func (e Edge) AppendText(dst []byte) ([]byte, error) { return edgeWords.Append(dst, uint8(e)) }

// MarshalText returns the text of [Edge.String], with the error of
// [Edge.AppendText].
func (e Edge) MarshalText() ([]byte, error) { return edgeWords.Marshal(uint8(e)) }

// UnmarshalText reads what [Edge.String] writes. The error matches
// units.ErrSyntax.
func (e *Edge) UnmarshalText(text []byte) error { return word.Unmarshal(edgeWords, e, text) }

// A Line is a score line on a blank. It runs from From to To along its axis;
// with both 0 it runs from edge to edge.
type Line struct {
	Axis     Axis         // the way it runs
	At       units.Length // from the left edge (Upright) or from the head (Level), above 0
	From, To units.Length // from the head (Upright) or from the left edge (Level); both 0 from edge to edge
	Fold     Fold         // as seen from the face
}

// A CutOut is an opening in a blank, such as a window or the waste beside a
// tab. A radius rounds its corners; half the shorter side makes a round end,
// and in a square a circle. A cut-out may reach the edges of the blank.
type CutOut struct {
	Area   units.Rect   // the rectangle about it, not empty
	Radius units.Length // of its corners; 0 leaves them square
}

// A Notch is taken out of an edge, as for a thumb. It is a half round (or half
// oval) if Round, otherwise a rectangle.
type Notch struct {
	Edge   Edge         // that it is taken out of
	Middle units.Length // from the left edge (Head, Tail) or from the head (Left, Right), at least half of Width, so above 0
	Width  units.Length // along the edge, above 0
	Depth  units.Length // into the blank, above 0
	Round  bool         // half round, not square
}

// A Corner is one of the four corners of a blank, or of a piece.
type Corner uint8

// Corners, clockwise from the upper left.
const (
	HeadLeft  Corner = iota // at the left end of the head
	HeadRight               // at the right end of the head
	TailRight               // at the right end of the tail
	TailLeft                // at the left end of the tail
)

var cornerWords = word.List{What: "corner", Words: []string{"head left", "head right", "tail right", "tail left"}}

// String returns "head left", "head right", "tail right" or "tail left".
func (c Corner) String() string { return cornerWords.String(uint8(c)) }

// AppendText appends the text of [Corner.String]. The error matches
// units.ErrUnknown.
func (c Corner) AppendText(dst []byte) ([]byte, error) { return cornerWords.Append(dst, uint8(c)) }

// MarshalText returns the text of [Corner.String], with the error of
// [Corner.AppendText].
func (c Corner) MarshalText() ([]byte, error) { return cornerWords.Marshal(uint8(c)) }

// UnmarshalText reads what [Corner.String] writes. The error matches
// units.ErrSyntax.
func (c *Corner) UnmarshalText(text []byte) error { return word.Unmarshal(cornerWords, c, text) }

// A Slant is a corner cut off by one straight cut.
type Slant struct {
	Corner Corner       // that goes
	Along  units.Length // how much of the head or tail edge goes, above 0
	Down   units.Length // how much of the left or right edge goes, above 0
}

// A Glue is an area that takes adhesive.
type Glue struct {
	Area units.Rect // where the adhesive goes, not empty
	Side Side       // that takes the adhesive
}

// A Tab is a glue tab along an edge, Depth deep and running from From to To
// along it; with both 0 it is as long as the edge. Taper is cut off obliquely
// at both ends of its outer edge. Where a tab is shorter than the edge, the
// waste beside it is a [CutOut] of its own.
type Tab struct {
	Edge     Edge         // that it runs along
	Depth    units.Length // from the edge into the blank, above 0
	From, To units.Length // from the left edge (Head, Tail) or from the head (Left, Right); both 0 for the whole edge
	Taper    units.Length // how much of the outer edge goes at either end; 0 leaves it square
	Side     Side         // that takes the adhesive
}

// A Draft is what a [Blank] is made from: plain data with places measured
// from the left edge and from the head, face up.
type Draft struct {
	Size    units.Size // of the sheet before anything is cut off or out; both sides above 0
	Lines   []Line     // scores
	CutOuts []CutOut   // openings, and waste that is no notch or slant
	Notches []Notch    // out of the edges
	Slants  []Slant    // off the corners
	Glue    []Glue     // areas that take adhesive, besides tabs
	Tabs    []Tab      // that take adhesive along an edge
}

// clone returns a copy that shares no slices with d.
func (d Draft) clone() Draft {
	return Draft{
		Size: d.Size, Lines: slices.Clone(d.Lines), CutOuts: slices.Clone(d.CutOuts), Notches: slices.Clone(d.Notches),
		Slants: slices.Clone(d.Slants), Glue: slices.Clone(d.Glue), Tabs: slices.Clone(d.Tabs),
	}
}

// fewParts is a draft with room for a few lines and glue areas, kept together to take
// one allocation.
type fewParts struct {
	Draft
	lines [3]Line
	glue  [5]Glue
}

// own returns a copy that shares no slices with d.
func (d *Draft) own() *Draft {
	if n, m := len(d.Lines), len(d.Glue); n > 0 && m > 0 && n <= len(fewParts{}.lines) && m <= len(fewParts{}.glue) && len(d.CutOuts)+len(d.Notches)+len(d.Slants)+len(d.Tabs) == 0 {
		few := &fewParts{Draft: Draft{Size: d.Size}}
		few.Lines = few.lines[:copy(few.lines[:], d.Lines):n]
		few.Glue = few.glue[:copy(few.glue[:], d.Glue):m]
		return &few.Draft
	}
	own := d.clone()
	return &own
}

// Area returns the rectangle that the tab covers on the blank.
func (t Tab) Area(blank units.Size) units.Rect {
	return edgeRect(blank, t.Edge, t.From, t.To, t.Depth)
}

// Area returns the rectangle round the notch on the blank.
func (n Notch) Area(blank units.Size) units.Rect {
	from := n.Middle - n.Width.Half(units.Down)
	return edgeRect(blank, n.Edge, from, from+n.Width, n.Depth)
}

// edgeRect returns the rectangle along an edge from from to to and depth deep.
func edgeRect(s units.Size, e Edge, from, to, depth units.Length) units.Rect {
	switch e {
	case Tail:
		return units.Rect{Min: units.Point{X: from, Y: s.H - depth}, Max: units.Point{X: to, Y: s.H}}
	case Left:
		return units.Rect{Min: units.Point{X: 0, Y: from}, Max: units.Point{X: depth, Y: to}}
	case Right:
		return units.Rect{Min: units.Point{X: s.W - depth, Y: from}, Max: units.Point{X: s.W, Y: to}}
	}
	return units.Rect{Min: units.Point{X: from, Y: 0}, Max: units.Point{X: to, Y: depth}}
}

func edgeLength(s units.Size, e Edge) (along, into units.Length) {
	if e == Head || e == Tail {
		return s.W, s.H
	}
	return s.H, s.W
}

// acrossOf returns how long an edge-to-edge line is, that is, the side of the
// blank that it runs along.
func acrossOf(s units.Size, a Axis) units.Length {
	if a == Level {
		return s.W
	}
	return s.H
}
