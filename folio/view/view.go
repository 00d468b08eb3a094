// Package view maps places on the open folio to what is seen from one side or the other.
package view

import (
	"boardwrap.example/internal/word"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A View is a way to look at the open folio, or at its covering laid flat. All
// that a plan says about places is said in the first.
type View uint8

// Views.
const (
	// Inside is the row itself: seen from inside, X counted from the left
	// edge of the leftmost board, Y from the head edge of the boards.
	Inside View = iota
	// Outside is the row turned over left to right: seen from outside, X
	// counted from what is the left edge then, which is the right one inside.
	Outside
	// Wrap is the covering laid flat with its wrong side up: X and Y
	// counted from the upper left corner of the whole covering.
	Wrap
	// Cover is the inside with X and Y counted from the upper left corner
	// of the open cover, with the covering at its edges as measured. As planned
	// it is the inside.
	Cover
)

var views = word.List{What: "view", Words: []string{Inside: "inside", Outside: "outside", Wrap: "wrap", Cover: "cover"}}

// String returns it in words.
func (v View) String() string { return views.String(uint8(v)) }

// AppendText appends the text of [View.String]. The error matches
// units.ErrUnknown.
func (v View) AppendText(dst []byte) ([]byte, error) { return views.Append(dst, uint8(v)) }

// MarshalText returns the text of [View.String], with the error of
// [View.AppendText].
func (v View) MarshalText() ([]byte, error) { return views.Marshal(uint8(v)) }

// UnmarshalText reads what [View.String] writes. The error matches
// units.ErrSyntax.
func (v *View) UnmarshalText(text []byte) error { return word.Unmarshal(views, v, text) }

// A Transform maps places from one view to another: moved, or turned over left
// to right and moved. The zero Transform changes nothing. Transforms are
// comparable.
type Transform struct {
	over bool
	by   units.Point
}

// Moved returns the transform that moves by so much.
func Moved(by units.Point) Transform { return Transform{by: by} }

// TurnedOver returns the transform that turns what lies from 0 to a width over, left
// to right, in its place.
func TurnedOver(width units.Length) Transform {
	return Transform{over: true, by: units.Point{X: width}}
}

// Over reports whether the transform turns over left to right, so that what ran
// from left to right runs from right to left.
func (t Transform) Over() bool { return t.over }

// Point returns where a place is seen.
func (t Transform) Point(p units.Point) units.Point {
	if t.over {
		p.X = -p.X
	}
	return p.Plus(t.by)
}

// Rect returns where a rectangle is seen.
func (t Transform) Rect(r units.Rect) units.Rect {
	if t.over {
		r.Min.X, r.Max.X = -r.Max.X, -r.Min.X
	}
	return r.Moved(t.by)
}

// Polygon returns where an outline is seen.
func (t Transform) Polygon(p units.Polygon) units.Polygon {
	if t.over {
		p = p.Mirrored(0)
	}
	return p.Moved(t.by)
}

// Edge returns which edge of a thing one of its edges is seen as.
func (t Transform) Edge(e score.Edge) score.Edge {
	switch {
	case t.over && e == score.Left:
		return score.Right
	case t.over && e == score.Right:
		return score.Left
	}
	return e
}

// Inverse returns the transform that leads back.
func (t Transform) Inverse() Transform {
	if !t.over {
		t.by.X = -t.by.X
	}
	t.by.Y = -t.by.Y
	return t
}
