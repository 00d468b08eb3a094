package folio

import (
	"boardwrap.example/internal/word"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// An Align says to which edge of its panel, or of what it stands on, a fitting
// is put. The zero Align is the middle.
type Align uint8

// Alignments across and along.
const (
	AlignMiddle Align = iota // across or along
	AlignLeft                // across only
	AlignRight               // across only
	AlignHead                // along only
	AlignTail                // along only
)

var aligns = word.List{What: "alignment", Words: []string{
	AlignMiddle: "middle", AlignLeft: "left", AlignRight: "right", AlignHead: "head", AlignTail: "tail"}}

// String returns the alignment in words.
func (a Align) String() string { return aligns.String(uint8(a)) }

// AppendText appends the text of [Align.String]. The error matches
// units.ErrUnknown.
func (a Align) AppendText(dst []byte) ([]byte, error) { return aligns.Append(dst, uint8(a)) }

// MarshalText returns the text of [Align.String], with the error of
// [Align.AppendText].
func (a Align) MarshalText() ([]byte, error) { return aligns.Marshal(uint8(a)) }

// UnmarshalText reads what [Align.String] writes. The error matches
// units.ErrSyntax.
func (a *Align) UnmarshalText(text []byte) error { return word.Unmarshal(aligns, a, text) }

// A Place says where a fitting sits: aligned across and along its panel and
// then moved by Offset. Moving is away from the edge it is aligned to; from the
// middle it is to the right and towards the tail. AlignLeft with AlignHead
// makes Offset plain coordinates from the panel's upper left corner.
type Place struct {
	// Across is AlignMiddle, AlignLeft or AlignRight.
	Across Align
	// Along is AlignMiddle, AlignHead or AlignTail.
	Along Align
	// Offset moves it from there, up to 10 m either way.
	Offset units.Point
}

// sound reports whether check would find nothing.
func (p Place) sound() bool {
	return p.Across <= AlignRight && (p.Along == AlignMiddle || p.Along == AlignHead || p.Along == AlignTail) &&
		p.Offset.X.Abs() <= units.Longest && p.Offset.Y.Abs() <= units.Longest
}

func (p Place) check(bad *check.List, path string) bool {
	before := bad.Len()
	if p.Across > AlignRight {
		bad.Malformed(path+".across", check.Unknown, p.Across.String(), "middle, left or right")
	}
	if p.Along != AlignMiddle && p.Along != AlignHead && p.Along != AlignTail {
		bad.Malformed(path+".along", check.Unknown, p.Along.String(), "middle, head or tail")
	}
	for _, o := range [...]struct {
		axis string
		l    units.Length
	}{{".offset.x", p.Offset.X}, {".offset.y", p.Offset.Y}} {
		if o.l > units.Longest || o.l < -units.Longest {
			bad.Malformed(path+o.axis, check.OutOfRange, bad.Text(o.l), bad.Text(-units.Longest)+" to "+bad.Text(units.Longest))
		}
	}
	return bad.Len() == before
}

// within returns the rectangle of size s placed in the area; what is put in the
// middle is rounded down on the ruler.
func (p Place) within(area units.Rect, s units.Size, r units.Ruler) units.Rect {
	room := area.Size()
	x := along(p.Across == AlignLeft, p.Across == AlignRight, room.W-s.W, p.Offset.X, r)
	y := along(p.Along == AlignHead, p.Along == AlignTail, room.H-s.H, p.Offset.Y, r)
	return units.RectAt(area.Min.Plus(units.Point{X: x, Y: y}), s)
}

func along(near, far bool, spare, offset units.Length, r units.Ruler) units.Length {
	switch {
	case near:
		return offset
	case far:
		return spare - offset
	}
	return r.Down(spare.Half(units.Down)) + offset
}
