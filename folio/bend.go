package folio

import (
	"math"

	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/trig"
	"boardwrap.example/units"
)

// A bent is the way in which one hinge is bent.
type bent struct {
	bend   rule.CreasePlace
	soft   bool
	mid    bool            // in the middle of its gap, of the widest further out than x
	x      units.Length    // from the spine board's edge, or from both creases' least places at a soft joint
	gap    units.Length    // the narrowest of all that are planned alike decides on room, the widest on width
	wide   units.Length    // the widest
	beside [2]units.Length // of a soft joint, from the boards' edges to the least places of its creases
}

// across returns the gap that counts where less is more cautious, or more.
func (b *bent) across(d units.Direction) units.Length {
	if d == units.Up {
		return b.wide
	}
	return b.gap
}

// in returns what a hinge at a spine board adds to the thickness beyond it.
func (b *bent) in(d units.Direction) units.Length {
	switch b.bend {
	case rule.CreaseTwo:
		return portion(b.across(d), math.Sqrt2/2, d)
	case rule.CreaseRound:
		return portion(b.across(d), 2/math.Pi, d)
	}
	if b.mid && d == units.Up {
		return b.wide.Half(units.Up)
	}
	return b.x
}

// out returns what a hinge adds to the width beyond the board on one side of its
// fold.
func (b *bent) out(side int, d units.Direction) units.Length {
	switch {
	case b.soft && b.bend == rule.CreaseRound:
		return portion(b.across(d), 1/math.Pi, d)
	case b.soft:
		return b.beside[side] + b.x
	case b.bend == rule.CreaseTwo || b.bend == rule.CreaseRound || b.mid && d == units.Up: // of mid-gap the one half is the other
		return b.in(d)
	}
	return b.across(d) - b.x
}

// span returns what a soft joint spans, from one wrong side of the covering to the
// other.
func (b *bent) span(d units.Direction) units.Length {
	if b.bend == rule.CreaseRound {
		return portion(b.across(d), 2/math.Pi, d)
	}
	return b.across(d) - b.beside[0] - b.beside[1] - 2*b.x
}

// wider returns how much wider a gap must be for its hinge to reach so much
// further past the board.
func (b *bent) wider(h rule.Hinge, by units.Length) units.Length {
	switch {
	case b.bend == rule.CreaseTwo && !b.soft:
		return portion(by, math.Sqrt2, units.Up)
	case b.bend == rule.CreaseRound:
		return portion(by, halfPi, units.Up)
	case h.Crease == rule.CreaseMidGap:
		return 2 * by
	}
	return by
}

const halfPi = math.Pi / 2

func portion(l units.Length, f float64, d units.Direction) units.Length {
	num, den := trig.Fraction(f)
	part, _ := l.Scale(num, den, d)
	return part
}

// creased returns what a hinge at a spine board adds to the span, and what to the
// width beyond the board that lies.
func creased(h rule.Hinge, gap units.Length) (in, out units.Length) {
	switch h.Crease {
	case rule.CreaseMidGap:
		in = gap.Half(units.Down)
	case rule.CreaseAtOffset:
		in = min(h.Offset, gap)
	case rule.CreaseTwo:
		in = portion(gap, math.Sqrt2/2, units.Down)
		return in, in
	case rule.CreaseRound:
		in = portion(gap, 2/math.Pi, units.Down)
		return in, in
	}
	return in, gap - in
}

// gapFor returns a gap with which a hinge comes so far beyond the board that lies.
func gapFor(h rule.Hinge, out units.Length) units.Length {
	switch h.Crease {
	case rule.CreaseMidGap:
		return 2 * out
	case rule.CreaseAtOffset:
		return out + h.Offset
	case rule.CreaseTwo:
		return portion(out, math.Sqrt2, units.Up)
	case rule.CreaseRound:
		return portion(out, halfPi, units.Up)
	}
	return out
}

// roundBack returns half the circle over a width, rounded up.
func roundBack(across units.Length) units.Length { return portion(across, halfPi, units.Up) }
