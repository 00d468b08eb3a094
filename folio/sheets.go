package folio

import (
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
)

// Limits on the lists of a Spec, so that no input takes unbounded time or
// memory; a longer list is refused with check.TooMany.
const (
	MaxStocks   = 1000 // further stocks
	MaxFittings = 256  // fittings
	MaxPockets  = 1000 // pockets, pleats, panels and leaves of all that is folded, together
)

// A lie is one way to lay a sheet before the maker.
type lie struct {
	size   units.Size
	index  int32 // in Stock.Sheets
	turned bool
}

// lies yields the ways in which the sheets may lie for a piece with the given
// grain, unturned first.
func lies(s *stock.Stock, grain stock.GrainRule, yield func(lie) bool) {
	for i, sheet := range s.Sheets {
		upright := grain == stock.GrainAny || sheet.Grain != stock.GrainAlongWidth
		turned := (grain == stock.GrainAny || sheet.Grain != stock.GrainAlongHeight) && !s.OneWay
		if upright && !yield(lie{sheet.Size, int32(i), false}) {
			return
		}
		if turned && sheet.Size.W != sheet.Size.H && !yield(lie{sheet.Size.Turned(), int32(i), true}) {
			return
		}
		if turned && !upright && sheet.Size.W == sheet.Size.H && !yield(lie{sheet.Size, int32(i), true}) {
			return
		}
	}
}

// holds reports whether a piece of the given size comes out of one of the
// sheets, and which is the smallest.
//
//go:noinline
func holds(s *stock.Stock, size units.Size, grain stock.GrainRule) (best lie, ok bool) {
	lies(s, grain, func(l lie) bool {
		if size.FitsIn(l.size) && (!ok || l.size.Area().Compare(best.size.Area()) < 0) {
			best, ok = l, true
		}
		return true
	})
	return best, ok
}
