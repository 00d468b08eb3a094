package pocket

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// pocketsDefault is the number of pockets where nothing says how many.
const pocketsDefault = 3

// pocketsFor returns how many pockets a spine takes: the most with which the
// full design is no thicker, by bisection, for a pocket more is never thinner.
// It is at least 1, so that the design itself says what is wrong; without a
// spine it is the default.
func pocketsFor(spine units.Length, design func(n int) (Design, error)) int {
	if spine <= 0 {
		return pocketsDefault
	}
	low, high := 1, maxPockets
	for low < high {
		mid := (low + high + 1) / 2
		if d, err := design(mid); err == nil && d.full <= spine {
			low = mid
		} else {
			high = mid - 1
		}
	}
	return low
}

// number checks how many pockets, leaves or pleats there are to be.
func (m *maker) number(path string, n int) int {
	switch {
	case n < 0:
		m.Malformed(path, check.Negative, itoa(n), "0 for the default or a count up to "+itoa(maxPockets))
	case n > maxPockets:
		m.Malformed(path, check.TooMany, itoa(n), "at most "+itoa(maxPockets))
	default:
		return n
	}
	return 1
}

// fitSpine checks that the full design fits the spine: layers times caliper
// and contents, where they are thickest.
func (m *maker) fitSpine(spine units.Length) {
	if spine <= 0 {
		return
	}
	if full := greatest(m.d.stack, m.d.paper.Caliper, true); full > spine {
		m.Short("spine", check.TooSmall, m.n, spine, m.r.Up(full), "for "+itoa(m.d.pockets)+" of them when full")
	}
}
