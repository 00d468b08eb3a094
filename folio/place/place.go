// Package place says where fittings go and how large they are by what is there already,
// as data.
package place

import (
	"boardwrap.example/internal/word"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// An Align says to which edge of its panel, of what it stands on or of another
// fitting a fitting is put. The zero Align is the middle.
type Align uint8

// Alignments across and along.
const (
	Middle Align = iota // across or along
	Left                // across only
	Right               // across only
	Head                // along only
	Tail                // along only
	// Before is beside another fitting, on its left or towards the head.
	Before
	// After is beside another fitting, on its right or towards the tail.
	After
	// Even shares what is left over with all others on the same panel, or
	// the same fitting, that are aligned so, in their order in Spec.Fittings:
	// the margins at both ends and the gaps between are equal, but for a step of
	// the ruler.
	Even
)

var aligns = word.List{What: "alignment", Words: []string{
	Middle: "middle", Left: "left", Right: "right", Head: "head", Tail: "tail",
	Before: "before", After: "after", Even: "even"}}

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

// A Place says where a fitting sits: aligned across and along its panel, or
// what it stands on, and then moved by Offset. Moving is away from the edge, or
// from the fitting, that it is aligned to; from the middle, and where it is even,
// it is to the right and towards the tail. Left with Head makes Offset
// plain coordinates from the panel's upper left corner. Left and right are those of
// the open folio seen from inside, also for what sits on the outside.
type Place struct {
	// Across is Middle, Left, Right or Even, and with
	// AcrossOf Before or After too.
	Across Align
	// Along is Middle, Head, Tail or Even, and with AlongOf
	// Before or After too.
	Along Align
	// AcrossOf is the name of a fitting before this one, on the same side of
	// the same board, with which it is lined up across: left edges, right edges
	// or the middles of both, or beside it. Empty is the panel, or what it stands
	// on.
	AcrossOf string
	// AlongOf is the name of a fitting before this one, on any board, with which
	// it is lined up along.
	AlongOf string
	// Offset moves it from there, up to 10 m either way.
	Offset units.Point
}

// axis is a place on one axis.
type axis struct {
	align, near, far Align
	of               string
	offset           units.Length
}

func (p *Place) across() axis { return axis{p.Across, Left, Right, p.AcrossOf, p.Offset.X} }
func (p *Place) along() axis  { return axis{p.Along, Head, Tail, p.AlongOf, p.Offset.Y} }

// back reports whether the offset moves it to the left, or towards the head.
func (a axis) back() bool { return a.align == a.far || a.align == Before }

// Check returns what is wrong with a place once defaults are filled in, with lengths
// written in the notation, or nil. The error is a *check.Error.
func (p *Place) Check(n units.Notation) error {
	var bad check.List
	bad.In(n)
	p.across().check(&bad, "across", "offset.x")
	p.along().check(&bad, "along", "offset.y")
	return bad.Err()
}

// check lists what is wrong with it, at the paths of its alignment and its offset.
func (a axis) check(bad *check.List, field, offset string) {
	switch a.align {
	case Middle, a.near, a.far:
	case Before, After:
		if a.of == "" {
			bad.Malformed(field, check.Missing, "a place "+a.align.String()+" nothing", a.near.String()+", middle or "+a.far.String()+", or the name of a fitting that it lies "+a.align.String())
		}
	case Even:
		if a.of != "" {
			bad.Malformed(field+"of", check.Conflict, check.Quote(a.of)+" and an even place", "no name, or another alignment")
		}
	default:
		bad.Malformed(field, check.Unknown, a.align.String(), "middle, "+a.near.String()+", "+a.far.String()+" or even, or before or after another fitting")
	}
	if a.offset > units.Longest || a.offset < -units.Longest {
		bad.Malformed(offset, check.OutOfRange, bad.Text(a.offset), bad.Reach())
	}
}

// Lined reports whether it is lined up with another fitting, or evenly with others.
func (p *Place) Lined() bool {
	return p.AcrossOf != "" || p.AlongOf != "" || p.Across == Even || p.Along == Even
}

// Within returns the rectangle of size s placed in the area; what is put in the
// middle is rounded down on the ruler.
func (p Place) Within(area units.Rect, s units.Size, r units.Ruler) units.Rect {
	room := area.Size()
	x := p.across().start(room.W, s.W, r)
	y := p.along().start(room.H, s.H, r)
	return units.RectAt(area.Min.Plus(units.Point{X: x, Y: y}), s)
}

// Start returns how far from the beginning of a length, across or along, something on
// it begins; what is put in the middle is rounded down on the ruler.
func (p *Place) Start(along bool, length, size units.Length, r units.Ruler) units.Length {
	return p.axis(along).start(length, size, r)
}

// Back reports whether the offset moves it to the left, or along towards the head.
func (p *Place) Back(along bool) bool { return p.axis(along).back() }

func (p *Place) axis(along bool) axis {
	if along {
		return p.along()
	}
	return p.across()
}

// start is how far from the beginning of a length something on it begins.
func (a axis) start(length, size units.Length, r units.Ruler) units.Length {
	switch a.align {
	case a.near:
		return a.offset
	case a.far:
		return length - size - a.offset
	case Before:
		return -size - a.offset
	case After:
		return length + a.offset
	}
	return r.Down((length - size).Half(units.Down)) + a.offset
}
