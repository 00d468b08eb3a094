package pocket

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// StandIn returns how far the fold of a gusset stands in from the edge when
// the pocket is opened: with two half panels w and an opening h that is
// √(w² − (h/2)²), rounded to a whole nanometre in the given direction
// (nearest: halves up). A gusset opens to at most 2w; beyond that, and for a
// negative opening or a half panel that is not above 0, it returns 0 and
// false.
//
// The two half panels and the opening make an isosceles triangle with legs w
// and base h, whose height it is.
func StandIn(half, opening units.Length, d units.Direction) (units.Length, bool) {
	if half <= 0 || half > units.Longest || opening < 0 || opening > 2*half {
		return 0, false
	}
	// (2s)² + h² = (2w)²: the root is found by comparing squares.
	goal := (2 * half).By(2 * half).Minus(opening.By(opening))
	var low units.Length // low² ≤ s² throughout
	high := half
	for low < high {
		mid := low + (high - low + 1).Half(units.Down)
		if (2 * mid).By(2*mid).Compare(goal) <= 0 {
			low = mid
		} else {
			high = mid - 1
		}
	}
	exact := (2 * low).By(2*low) == goal
	switch {
	case exact || d == units.Down:
	case d == units.Up:
		low++
	case (2*low + 1).By(2*low+1).Compare(goal) <= 0:
		low++
	}
	return low, true
}

// opensTo returns how far a gusset opens of which one half panel is free by its
// whole width w and the other, glued to its leaf along g beside the outer fold,
// by w − g; rounded down to a nanometre. Stretched, the two and the glue make a
// right triangle: (2w − g)² = h² + g², so that h² = 4w (w − g). Without glue it
// is 2w.
func opensTo(half, glue units.Length) units.Length {
	if glue >= half {
		return 0
	}
	goal := (2 * half).By(2 * (half - glue))
	return most(2*half, func(h units.Length) bool { return h.By(h).Compare(goal) <= 0 })
}

// halfFor returns the least half panel that opens so far, rounded up to a
// nanometre: the other way round than [opensTo].
func halfFor(opening, glue units.Length) units.Length {
	goal := opening.By(opening)
	// The greatest one that does not open so far, and one more.
	return 1 + most(opening+glue+1, func(w units.Length) bool { return w <= glue && opening > 0 || (2*w).By(2*(w-glue)).Compare(goal) < 0 })
}

// most returns the greatest length from 0 to high for which ok holds, which
// must hold for all that are less.
func most(high units.Length, ok func(units.Length) bool) units.Length { return mostOf(0, high, ok) }

// mostOf is most for lengths from low on.
func mostOf(low, high units.Length, ok func(units.Length) bool) units.Length {
	for low < high {
		mid := low + (high - low + 1).Half(units.Down)
		if ok(mid) {
			low = mid
		} else {
			high = mid - 1
		}
	}
	return low
}

// Gusset returns the width of a gusset's half panel, 0 if the design has no
// gusset.
func (d Design) Gusset() units.Length { return d.of().half }

// Opening returns how far each pocket opens at least, as its gussets and their
// glue let it; 0 if the design has no gusset.
func (d Design) Opening() units.Length { return d.of().opens }

// StandIn returns how far the folds of the gussets stand in at most when each
// pocket is opened so far, rounded up to a nanometre. The error says how far the
// gusset opens.
func (d Design) StandIn(opening units.Length) (units.Length, error) {
	w := d.of()
	if opening <= w.opens {
		if s, ok := StandIn(w.half, opening, units.Up); ok {
			return s, nil
		}
	}
	var l check.List
	switch {
	case w.half == 0:
		l.Impossible("opening", check.TooLarge, opening.String(), "0: this has no gusset")
	case opening < 0:
		l.Malformed("opening", check.Negative, opening.String(), "0 or more")
	default:
		l.Long("opening", check.TooLarge, w.ruler.Notation(), opening, w.opens,
			"; half panels of "+w.ruler.Notation().Text(w.ruler.Up(opening.Half(units.Up)))+" would do")
	}
	return 0, l.Err()
}
