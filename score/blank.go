package score

import (
	"cmp"
	"iter"
	"slices"

	"boardwrap.example/internal/inorder"
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

// A Corner is one of the four corners of a blank.
type Corner uint8

// Corners.
const (
	HeadLeft  Corner = iota // at the left end of the head
	HeadRight               // at the right end of the head
	TailLeft                // at the left end of the tail
	TailRight               // at the right end of the tail
)

var cornerWords = word.List{What: "corner", Words: []string{"head left", "head right", "tail left", "tail right"}}

// String returns "head left", "head right", "tail left" or "tail right".
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

// A Drawing is what a [Blank] is made from: plain data with places measured
// from the left edge and from the head, face up.
type Drawing struct {
	Size    units.Size // of the sheet before anything is cut off or out; both sides above 0
	Lines   []Line     // scores
	CutOuts []CutOut   // openings, and waste that is no notch or slant
	Notches []Notch    // out of the edges
	Slants  []Slant    // off the corners
	Glue    []Glue     // areas that take adhesive, besides tabs
	Tabs    []Tab      // that take adhesive along an edge
}

// clone returns a copy that shares no slices with d.
func (d Drawing) clone() Drawing {
	return Drawing{
		Size: d.Size, Lines: slices.Clone(d.Lines), CutOuts: slices.Clone(d.CutOuts), Notches: slices.Clone(d.Notches),
		Slants: slices.Clone(d.Slants), Glue: slices.Clone(d.Glue), Tabs: slices.Clone(d.Tabs),
	}
}

// A Blank is a cut sheet with its score lines, cut-outs, notches, glue areas
// and tabs, checked by [NewBlank]. Blanks cannot be changed.
type Blank struct {
	_ [0]func() // blanks are compared by Equal
	d *Drawing  // nil of the zero Blank
}

// drawing returns what the blank was made from, which nobody may change.
func (b Blank) drawing() *Drawing {
	if b.d == nil {
		return &Drawing{}
	}
	return b.d
}

// NewBlank checks a drawing and returns the blank. The error lists everything
// that is wrong: a line off the sheet or on another one, a cut-out, notch, slant,
// glue area or tab that reaches beyond the edges, cuts that share an area, cuts
// that leave no paper or more than one piece of it, glue twice in one place or
// where there is no paper. Partial lines come back with From and To filled in.
func NewBlank(d Drawing) (Blank, error) {
	own := d.own() // what the caller keeps of d may lie on its stack
	if err := checkDrawing(own); err != nil {
		return Blank{}, err
	}
	return Blank{d: own}, nil
}

// fewParts is a drawing with room for a few lines and glue areas, kept together to take
// one allocation.
type fewParts struct {
	Drawing
	lines [3]Line
	glue  [5]Glue
}

// own returns a copy that shares no slices with d.
func (d *Drawing) own() *Drawing {
	if n, m := len(d.Lines), len(d.Glue); n > 0 && m > 0 && n <= len(fewParts{}.lines) && m <= len(fewParts{}.glue) && len(d.CutOuts)+len(d.Notches)+len(d.Slants)+len(d.Tabs) == 0 {
		few := &fewParts{Drawing: Drawing{Size: d.Size}}
		few.Lines = few.lines[:copy(few.lines[:], d.Lines):n]
		few.Glue = few.glue[:copy(few.glue[:], d.Glue):m]
		return &few.Drawing
	}
	own := d.clone()
	return &own
}

// StripBlank returns the blank of a strip whose scores run along an axis from
// edge to edge: with Upright scores the strip is the width of the blank and
// across its height, with Level scores the other way round.
func StripBlank(s Strip, axis Axis, across units.Length) (Blank, error) {
	d := Drawing{Size: units.Size{W: s.Length(), H: across}}
	if axis == Level {
		d.Size = d.Size.Turned()
	}
	for _, sc := range s.Scores() {
		d.Lines = append(d.Lines, Line{Axis: axis, At: sc.At, Fold: sc.Fold})
	}
	return NewBlank(d)
}

// Equal reports whether two blanks were made from the same drawing.
func (b Blank) Equal(c Blank) bool {
	p, q := b.drawing(), c.drawing()
	return p.Size == q.Size && slices.Equal(p.Lines, q.Lines) && slices.Equal(p.CutOuts, q.CutOuts) && slices.Equal(p.Notches, q.Notches) &&
		slices.Equal(p.Slants, q.Slants) && slices.Equal(p.Glue, q.Glue) && slices.Equal(p.Tabs, q.Tabs)
}

// Size returns the size of the sheet that the blank is cut from.
func (b Blank) Size() units.Size { return b.drawing().Size }

// Drawing returns a copy of what the blank was made from.
func (b Blank) Drawing() Drawing { return b.drawing().clone() }

// Lines walks the score lines in the order given.
func (b Blank) Lines() iter.Seq2[int, Line] { return slices.All(b.drawing().Lines) }

// CutOuts walks the cut-outs in the order given.
func (b Blank) CutOuts() iter.Seq2[int, CutOut] { return slices.All(b.drawing().CutOuts) }

// Notches walks the notches in the order given.
func (b Blank) Notches() iter.Seq2[int, Notch] { return slices.All(b.drawing().Notches) }

// Slants walks the slants in the order given.
func (b Blank) Slants() iter.Seq2[int, Slant] { return slices.All(b.drawing().Slants) }

// Outline returns the edge of the blank as it is cut and the openings within it:
// its size less notches, slants, tapers of tabs, and cut-outs. Cut-outs that reach
// the edge are part of the outline, and those that touch make one opening. A
// quarter of a round stands there as twelve chords with their corners on it, to
// the nanometre, so that paper is shown for up to 1/460 of its radius where the
// round is cut. It is worked out anew at each call.
func (b Blank) Outline() (edge units.Polygon, openings []units.Polygon) {
	all := cuts(b.drawing(), func(cutList, int) bool { return true })
	pieces, openings := outline(b.drawing().Size, shapes(b.drawing(), all))
	if len(pieces) == 0 { // the zero Blank
		return units.Polygon{}, nil
	}
	return pieces[0], openings
}

// Part returns the outline of what of the blank lies in a rectangle on it, as a
// panel between its lines does, from the corner of the rectangle, and the openings
// that lie within it; one that reaches its edge is a recess of the outline. Where
// cuts part it, it is the largest part. Points where a slant or a round meets the
// rectangle's edge are rounded to the nanometre. It is the zero Polygon where no
// paper is in the rectangle, or part of it does not lie on the blank.
func (b Blank) Part(r units.Rect) (edge units.Polygon, openings []units.Polygon) {
	if r.Empty() || !r.In(units.RectAt(units.Point{}, b.drawing().Size)) {
		return units.Polygon{}, nil
	}
	var inside []units.Polygon
	for _, c := range cuts(b.drawing(), func(cutList, int) bool { return true }) {
		if !c.box.Overlaps(r) {
			continue
		}
		if q := within(c.shape(b.drawing()), r); !q.Empty() {
			inside = append(inside, q)
		}
	}
	pieces, openings := outline(r.Size(), inside)
	var most units.Area
	for _, p := range pieces {
		if a := p.DoubleArea(); edge.Empty() || a.Compare(most) > 0 {
			edge, most = p, a
		}
	}
	return edge, slices.DeleteFunc(openings, func(o units.Polygon) bool {
		for _, c := range o.Corners() {
			return !edge.Contains(c)
		}
		return true
	})
}

// Area returns how much paper the blank is: its size less all that is cut off
// and out of it. Where nothing is round it is exact but for half a square
// nanometre, rounded in direction d. A round counts as a true one, and as π has
// no end, Down is then never above the area and Up never below it, and no
// direction is off by more than 200 nm².
func (b Blank) Area(d units.Direction) units.Area {
	twice := b.drawing().Size.Area().Times(2)
	var rounds units.Area // squares about the quarter rounds, of which π/4 counts
	for _, n := range b.drawing().Notches {
		if n.Round { // half of an oval of the width by twice the depth
			rounds = rounds.Plus(n.Width.By(n.Depth))
		} else {
			twice = twice.Minus(n.Width.By(n.Depth).Times(2))
		}
	}
	for _, t := range b.drawing().Slants {
		twice = twice.Minus(t.Along.By(t.Down))
	}
	for _, t := range b.drawing().Tabs {
		twice = twice.Minus(t.Taper.By(t.Depth).Times(2))
	}
	for _, c := range b.drawing().CutOuts {
		corners := c.Radius.By(c.Radius).Times(4)
		twice = twice.Minus(c.Area.Size().Area().Minus(corners).Times(2))
		rounds = rounds.Plus(corners)
	}
	// π/4 lies between quarterPi and the next number above it.
	var less units.Area
	if d == units.Up {
		less, _ = rounds.Scale(quarterPi, piUnit, units.Down)
	} else if rounds.Sign() > 0 {
		less, _ = rounds.Scale(quarterPi+1, piUnit, units.Up)
	}
	area, _ := twice.Minus(less.Times(2)).Scale(1, 2, d)
	return area
}

// quarterPi is π/4 times piUnit, rounded down.
const (
	quarterPi = 785_398_163_397_448_309
	piUnit    = 1_000_000_000_000_000_000
)

// Glue walks the glue areas in the order given.
func (b Blank) Glue() iter.Seq2[int, Glue] { return slices.All(b.drawing().Glue) }

// Tabs walks the tabs in the order given.
func (b Blank) Tabs() iter.Seq2[int, Tab] { return slices.All(b.drawing().Tabs) }

// Strip returns the blank as a strip: its lines along the axis that run from
// edge to edge, in rising order. Partial lines do not fold the whole strip and
// are left out.
func (b Blank) Strip(axis Axis) (Strip, error) {
	length, across := b.drawing().Size.W, b.drawing().Size.H
	if axis == Level {
		length, across = across, length
	}
	var lines []Line
	for _, l := range b.drawing().Lines {
		if l.Axis == axis && l.From == 0 && l.To == across {
			lines = append(lines, l)
		}
	}
	inorder.Sort(lines, func(a, b Line) int { return cmp.Compare(a.At, b.At) })
	at := make([]units.Length, len(lines))
	folds := make([]Fold, len(lines))
	for i, l := range lines {
		at[i], folds[i] = l.At, l.Fold
	}
	return ScoredStrip(length, at, folds...)
}

// Whole reports whether a line of the blank runs from edge to edge.
func (b Blank) Whole(l Line) bool {
	return l.From == 0 && l.To == acrossOf(b.drawing().Size, l.Axis)
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
