package pocket

import (
	"cmp"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// pocketsDefault is the number of pockets where nothing says how many.
const pocketsDefault = 3

// pocketsFor returns how many pockets a spine takes: the most with which the
// full design is no thicker, for a pocket more is never thinner. It doubles the
// number until that fails and bisects from there. It is at least 1, so that the
// design itself says what is wrong; without a spine it is the default.
func pocketsFor(spine units.Length, design func(n int) (Design, error)) int {
	if spine <= 0 {
		return pocketsDefault
	}
	fits := func(n int) bool {
		d, err := design(n)
		w := d.of()
		return err == nil && cmp.Or(w.across, w.full) <= spine
	}
	low, high := 1, 2
	for high <= maxPockets && fits(high) {
		low, high = high, 2*high
	}
	high = min(high, maxPockets+1) // fails, or is too many
	for high-low > 1 {
		if mid := (low + high) / 2; fits(mid) {
			low = mid
		} else {
			high = mid
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
		m.Short("spine", check.TooSmall, m.n, spine, m.r.Up(full), "for "+itoa(int(m.d.pockets))+" of them when full")
	}
}
