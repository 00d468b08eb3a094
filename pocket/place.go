package pocket

import (
	"iter"

	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Capacity is the largest that a place takes: a width and height as it
// lies, with ease already taken off, and how thick all that lies there may be
// together. Count is how many things the place was designed for.
type Capacity struct {
	Size      units.Size
	Thickness units.Length
	Count     int
}

// A Place is where contents lie in a closed pocket: Rect in the closed
// footprint, as large as the capacity; Clear is the clear width and height
// that the capacity came from. Pocket counts from 0; places of an accordion
// lie one over the other and share a Rect.
type Place struct {
	Pocket   int
	Rect     units.Rect
	Clear    units.Size
	Capacity Capacity
	// Mouth is the edge of the closed footprint towards which the pocket is
	// open; where contents are mounted it says nothing.
	Mouth score.Edge
	// Mounted says that contents are laid on from above: glued, or held by
	// their corners.
	Mounted bool
	// Hidden says that something of the design lies over the contents when it
	// is closed.
	Hidden bool
}

// Places walks the places for contents, first pocket first.
func (d Design) Places() iter.Seq[Place] {
	return func(yield func(Place) bool) {
		for i := range d.pockets {
			p := d.places[0]
			if i < len(d.places) {
				p = d.places[i]
			}
			p.Pocket = i
			p.Hidden = p.Hidden || i >= len(d.places) // behind the first
			if !yield(p) {
				return
			}
		}
	}
}

// Pockets returns how many places for contents there are.
func (d Design) Pockets() int { return d.pockets }

// Accepts returns nil if the content goes into a place as it lies, one of it
// on its own. The error is a *[check.Error] with the paths size.w, size.h and
// thickness: each says how much is too much and the least clear room that
// would do.
func (d Design) Accepts(c Content) error { return d.AcceptsMany(c, 1) }

// AcceptsMany is [Design.Accepts] for n equal contents one on another in one
// place.
func (d Design) AcceptsMany(c Content, n int) error {
	var l check.List
	l.Size("size", c.Size)
	l.Allowance("thickness", c.Thickness)
	if n < 1 || n > maxCount {
		l.Malformed("count", check.OutOfRange, itoa(n), "a count from 1 to "+itoa(maxCount))
	}
	if d.pockets == 0 {
		l.Impossible("content", check.TooLarge, c.Name, "nothing: this holds no content")
	}
	if err := l.Err(); err != nil {
		return err
	}
	var nearest error
	least := 0
	for i := range d.places {
		var l check.List
		d.tooLarge(&l, d.places[i], c, n)
		if l.Len() == 0 {
			return nil
		}
		if nearest == nil || l.Len() < least {
			nearest, least = l.Err(), l.Len()
		}
	}
	return nearest
}

func (d Design) tooLarge(l *check.List, p Place, c Content, n int) {
	r := d.ruler
	say := func(path string, got, limit units.Length, room string, clear units.Length) {
		if got <= limit {
			return
		}
		do := r.Up(clear + got - limit)
		l.Long(path, check.TooLarge, r.Notation(), got, limit,
			"("+r.Notation().Text(got-limit)+" too much); "+room+" "+r.Notation().Text(do)+" would do")
	}
	say("size.w", c.Size.W, p.Capacity.Size.W, "a clear width of", p.Clear.W)
	say("size.h", c.Size.H, p.Capacity.Size.H, "a clear height of", p.Clear.H)
	say("thickness", times(n, c.Thickness), p.Capacity.Thickness, "room for", p.Capacity.Thickness)
}

// HowMany returns how many of the content one place takes, one on another: 0
// if it does not go in. A content without thickness counts as often as the
// place was designed for.
func (d Design) HowMany(c Content) int {
	if d.Accepts(c) != nil {
		return 0
	}
	most := 0
	for _, p := range d.places {
		if !c.Size.FitsIn(p.Capacity.Size) || c.Thickness > p.Capacity.Thickness {
			continue
		}
		if c.Thickness == 0 {
			most = max(most, p.Capacity.Count)
			continue
		}
		n := p.Capacity.Thickness.Nanometres() / c.Thickness.Nanometres()
		most = max(most, int(min(n, maxCount)))
	}
	return most
}
