package folio

import (
	"iter"

	"boardwrap.example/folio/view"
	"boardwrap.example/units"
)

// View returns the transform from the row to a view: as planned, or as measured
// after [Plan.Refit]. A view that is none of the constants is the inside.
func (p *Plan) View(v view.View) view.Transform {
	switch v {
	case view.Outside:
		return view.TurnedOver(p.row().W)
	case view.Wrap:
		corner := p.wrapCorner()
		return view.Moved(units.Point{X: -corner.X, Y: -corner.Y})
	case view.Cover:
		return view.Moved(units.Point{X: p.edge.left, Y: p.edge.ends})
	}
	return view.Transform{}
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
func (s *shut) slab(i int) Slab {
	p, f := s.p, &s.p.folded
	t := p.spec.Board.Caliper
	z := s.lies()
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
	if k := f.lies(i); k >= 0 {
		if f.up(k) {
			return lies(z.x[k][0], s.level(k)+t, toRight, upwards)
		}
		return lies(z.x[k][1], s.level(k)-t, toLeft, downwards)
	}
	fold := f.lies(i - 1)
	at := s.upright(fold)
	y, along := at[0], upwards
	if f.rank[fold+1] < f.rank[fold] {
		y, along = at[1], downwards
	}
	// The board stands on the side that the fold closes, or with outsides together on
	// the other.
	if f.up(fold) == p.valley(fold) {
		return lies(z.at[fold]-t, y, along, toLeft)
	}
	return lies(z.at[fold]+t, y, along, toRight)
}
