package pocket

import (
	"iter"

	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Capacity is the largest that a place takes: a width and height as it
// lies, with ease already taken off, and how thick all that lies there may be
// together. Count is how many things the place was designed for. It is plain data.
type Capacity struct {
	Size      units.Size   // as it lies, its ease taken off
	Thickness units.Length // of all that lies there together
	Count     int          // of what it was designed for, at least 1
}

// A Spot is where contents lie in a closed pocket. Spots of an accordion lie
// one over the other.
type Spot struct {
	rect units.Rect
	// clear is of a place that stands, which no ease is taken off, where it lies with its
	// leaf turned, from the left and the head: it must not take more memory.
	clear    units.Size
	capacity Capacity
	mouth    score.Edge
	mounted  bool
	corners  bool
	hidden   bool
	stands   bool
}

// Rect returns the place in the closed footprint, as large as its capacity.
func (p Spot) Rect() units.Rect { return p.rect }

// Turned returns where a place on a leaf that stands up lies in the footprint, and beyond
// it, once all leaves are turned to the right; of all other places it is Rect.
func (p Spot) Turned() units.Rect {
	if !p.stands {
		return p.rect
	}
	return units.RectAt(units.Point{X: p.clear.W, Y: p.clear.H}, p.capacity.Size)
}

// Clear returns the clear width and height that the capacity came from.
func (p Spot) Clear() units.Size {
	if p.stands {
		return p.capacity.Size
	}
	return p.clear
}

// Capacity returns the most that goes in.
func (p Spot) Capacity() Capacity { return p.capacity }

// Mouth returns the edge of the closed footprint towards which the pocket is
// open; where contents are mounted it says nothing.
func (p Spot) Mouth() score.Edge { return p.mouth }

// Mounted reports whether contents are laid on from above: glued, or held by
// their corners.
func (p Spot) Mounted() bool { return p.mounted }

// ByCorners reports whether the corners of contents go under something that holds
// them there.
func (p Spot) ByCorners() bool { return p.corners }

// Hidden reports whether something of the design lies over the contents when it
// is closed.
func (p Spot) Hidden() bool { return p.hidden }

// WayIn returns what contents pass over in the closed footprint as they go in:
// from the edge with the mouth to the end of the place. Mounted contents are
// laid on from above.
func (d Design) WayIn(p Spot) units.Rect {
	r := p.rect
	if p.mounted {
		return r
	}
	switch p.mouth {
	case score.Head:
		r.Min.Y = 0
	case score.Left:
		r.Min.X = 0
	case score.Right:
		r.Max.X = d.of().closed.W
	}
	return r
}

// Spots walks the places for contents, first pocket first.
func (d Design) Spots() iter.Seq2[int, Spot] {
	w := d.of()
	return func(yield func(int, Spot) bool) {
		for i := range int(w.pockets) {
			p := w.places[0]
			if i < len(w.places) {
				p = w.places[i]
			}
			p.hidden = p.hidden || i >= len(w.places) // behind the first
			if !yield(i, p) {
				return
			}
		}
	}
}

// Pockets returns how many places for contents there are.
func (d Design) Pockets() int { return int(d.of().pockets) }

// Accepts returns nil if the content goes into a place as it lies, one of it
// on its own. The error is a *[check.Error] with the paths size.w, size.h and
// thickness: each says how much is too much and the least clear room that
// would do.
func (d Design) Accepts(c Content) error { return d.AcceptsMany(c, 1) }

// AcceptsMany is [Design.Accepts] for n equal contents one on another in one
// place.
func (d Design) AcceptsMany(c Content, n int) error {
	w := d.of()
	var l check.List
	l.Size("size", c.Size)
	l.Allowance("thickness", c.Thickness)
	if n < 1 || n > maxCount {
		l.Malformed("count", check.OutOfRange, itoa(n), "a count from 1 to "+itoa(maxCount))
	}
	if w.pockets == 0 {
		l.Impossible("content", check.TooLarge, c.Name, "nothing: this holds no content")
	}
	if err := l.Err(); err != nil {
		return err
	}
	d.tooLarge(&l, &w.places[0], c, n) // the others hold as much
	return l.Err()
}

func (d Design) tooLarge(l *check.List, p *Spot, c Content, n int) {
	r := d.of().ruler
	say := func(path string, got, limit units.Length, room string, clear units.Length) {
		if got <= limit {
			return
		}
		do := r.Up(clear + got - limit)
		l.Long(path, check.TooLarge, r.Notation(), got, limit,
			"("+r.Notation().Bound(got-limit, units.Up)+" too much); "+room+" "+r.Notation().Bound(do, units.Up)+" would do")
	}
	say("size.w", c.Size.W, p.capacity.Size.W, "a clear width of", p.Clear().W)
	say("size.h", c.Size.H, p.capacity.Size.H, "a clear height of", p.Clear().H)
	say("thickness", times(n, c.Thickness), p.capacity.Thickness, "room for", p.capacity.Thickness)
}

// HowMany returns how many of the content one place takes, one on another: 0
// if it does not go in. A content without thickness counts as often as the
// place was designed for.
func (d Design) HowMany(c Content) int {
	if d.Accepts(c) != nil {
		return 0
	}
	most := d.of().places[0].capacity
	if c.Thickness == 0 {
		return most.Count
	}
	return int(min(most.Thickness.Nanometres()/c.Thickness.Nanometres(), maxCount))
}
