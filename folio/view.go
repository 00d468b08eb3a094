package folio

import (
	"iter"

	"boardwrap.example/internal/word"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A View is a way to look at the open folio, or at its covering laid flat. All
// that a plan says about places is said in the first.
type View uint8

// Views.
const (
	// ViewInside is the row itself: seen from inside, X counted from the left
	// edge of the leftmost board, Y from the head edge of the boards.
	ViewInside View = iota
	// ViewOutside is the row turned over left to right: seen from outside, X
	// counted from what is the left edge then, which is the right one inside.
	ViewOutside
	// ViewWrap is the covering laid flat with its wrong side up: X and Y
	// counted from the upper left corner of the whole covering.
	ViewWrap
	// ViewCover is the inside with X and Y counted from the upper left corner
	// of the open cover, with the covering at its edges as measured. As planned
	// it is the inside.
	ViewCover
)

var views = word.List{What: "view", Words: []string{ViewInside: "inside", ViewOutside: "outside", ViewWrap: "wrap", ViewCover: "cover"}}

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

// View returns the transform from the row to a view: as planned, or as measured
// after [Plan.Refit]. A view that is none of the constants is the inside.
func (p *Plan) View(v View) Transform {
	switch v {
	case ViewOutside:
		return Transform{over: true, by: units.Point{X: p.row().W}}
	case ViewWrap:
		corner := p.wrapCorner()
		return Transform{by: units.Point{X: -corner.X, Y: -corner.Y}}
	case ViewCover:
		return Transform{by: units.Point{X: p.edge.left, Y: p.edge.ends}}
	}
	return Transform{}
}

// A Slab is a board as it comes to lie in the closed folio, seen in section from
// the head. The main panel lies below with its inside up and, where there is a
// spine, its spine at the left. X is counted to the right from the wrong side of
// the covering at the back of the spine, of a soft spine from where the back
// ends; Y is counted up from the wrong side of the covering under the main
// panel. The covering itself lies outside of 0.
type Slab struct {
	board         int
	from          units.Length // its left edge on the row
	at            units.Point  // where that comes to lie in the section, at its inner face
	along, inside way          // of the row, and away from the inner face
	width, thick  units.Length
}

// A way is a direction in a section.
type way uint8

const (
	toRight way = iota
	toLeft
	upwards
	downwards
)

// from returns the place that lies a distance from another.
func (w way) from(p units.Point, by units.Length) units.Point {
	switch w {
	case toLeft:
		p.X -= by
	case upwards:
		p.Y += by
	case downwards:
		p.Y -= by
	default:
		p.X += by
	}
	return p
}

// to returns how far q lies from p in the direction.
func (w way) to(p, q units.Point) units.Length {
	switch w {
	case toLeft:
		return p.X - q.X
	case upwards:
		return q.Y - p.Y
	case downwards:
		return p.Y - q.Y
	}
	return q.X - p.X
}

// Board returns the board's place in the row, from 0 at the left.
func (s Slab) Board() int { return s.board }

// Rect returns where the board lies in the section.
func (s Slab) Rect() units.Rect {
	left := s.Point(s.from, 0)
	right := s.Point(s.from+s.width, -s.thick)
	return units.Rect{
		Min: units.Point{X: min(left.X, right.X), Y: min(left.Y, right.Y)},
		Max: units.Point{X: max(left.X, right.X), Y: max(left.Y, right.Y)},
	}
}

// Upright reports whether the board stands up, as a spine does.
func (s Slab) Upright() bool { return s.along >= upwards }

// Point returns where a place on the board comes to lie in the section: x is
// counted on the row as it lies open, height from the inner face of the board,
// without its liner, negative towards the outside.
func (s Slab) Point(x, height units.Length) units.Point {
	return s.inside.from(s.along.from(s.at, x-s.from), height)
}

// Place turns Point round: it returns the x on the row and the height over the
// board's inner face of a place in the section.
func (s Slab) Place(p units.Point) (x, height units.Length) {
	return s.from + s.along.to(s.at, p), s.inside.to(s.at, p)
}

// Section walks the boards as they come to lie in the closed folio, left to
// right as they lie open, and reports whether it shuts, see [Plan.Closed]. Where
// a bend makes sizes irrational they are rounded down.
func (p *Plan) Section() (iter.Seq[Slab], bool) {
	s, ok := p.hinged()
	if !ok {
		return func(func(Slab) bool) {}, false
	}
	return func(yield func(Slab) bool) {
		for i := range p.boards {
			if !yield(s.slab(i)) {
				return
			}
		}
	}, true
}

// slab returns a board of the closed folio in section.
func (s shut) slab(i int) Slab {
	p, f := s.p, &s.p.folded
	t := p.spec.Board.Caliper
	z := s.lies(units.Down)
	var left units.Length // from the back of a spine left of the main panel
	if f.main > 0 && !f.up(f.main-1) {
		left = -z.at[f.main-1]
	}
	b := &p.boards[i]
	slab := Slab{board: i, from: b.rect.Min.X, width: b.rect.Size().W, thick: t}
	lies := func(x, y units.Length, along, inside way) Slab {
		slab.at, slab.along, slab.inside = units.Point{X: left + x, Y: y}, along, inside
		return slab
	}
	height := func(k int) units.Length {
		up := s.passage(f.main, k)
		return up.length(units.Down)
	}
	if k := f.lies(i); k >= 0 {
		if f.up(k) {
			return lies(z.x[k][0], height(k)+t, toRight, upwards)
		}
		return lies(z.x[k][1], height(k)-t, toLeft, downwards)
	}
	fold := f.lies(i - 1)
	hinge, _ := s.joints(fold)
	y, along := height(fold)+hinge.in(units.Down), upwards
	if f.rank[fold+1] < f.rank[fold] {
		y, along = height(fold)-hinge.in(units.Down), downwards
	}
	// The board stands on the side that the fold closes, or with outsides together on
	// the other.
	if f.up(fold) == p.valley(fold) {
		return lies(z.at[fold]-t, y, along, toLeft)
	}
	return lies(z.at[fold]+t, y, along, toRight)
}
