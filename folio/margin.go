package folio

import (
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
)

// An Extent is the wrap along one direction: a margin, the boards with their
// gaps, a margin. The three tile the blank exactly.
type Extent struct {
	blank, near, far *units.Working
	open             units.Length
	limit            rule.Limit
}

// Blank returns the side of the wrap with its working.
func (a Extent) Blank() units.Working { return of(a.blank) }

// Near returns the margin at the left edge or at the head.
func (a Extent) Near() units.Working { return of(a.near) }

// Far returns the margin at the right edge or at the tail.
func (a Extent) Far() units.Working { return of(a.far) }

// Smaller returns the smaller of the two margins.
//
//go:noinline
func (a Extent) Smaller() units.Length {
	if a.near == nil {
		return 0
	}
	return min(a.near.Length(), a.far.Length())
}

// LimitedBy says what kept the margin from being wider.
func (a Extent) LimitedBy() rule.Limit { return a.limit }

// marginTotal returns both margins together: as much as the sheet allows up to twice
// the ideal, with the blank on the ruler.
func marginTotal(m rule.Margin, open, sheet units.Length, r units.Ruler) (units.Length, rule.Limit) {
	blank := r.Up(open + 2*m.Ideal)
	if sheet == 0 || blank <= sheet {
		return blank - open, rule.LimitIdeal
	}
	// The sheet's own side needs no cut, so it counts whole even where it is
	// no graduation.
	return sheet - open, rule.LimitSheet
}

// marginSplit says how the first margin comes from half of both: rounded on which
// ruler and in which direction, down if that keeps every bound that the half
// keeps, else up if what is left then does, else not at all (ruler 0).
func marginSplit(m rule.Margin, total units.Length, r units.Ruler) (units.Ruler, units.Direction) {
	half := total.Half(units.Down)
	keeps := func(least units.Length) bool {
		for _, bound := range [...]units.Length{m.Least, m.Tolerated} {
			if least < bound && bound <= half {
				return false
			}
		}
		return true
	}
	switch {
	case keeps(r.Down(half)):
		return r, units.Down
	case keeps(total - r.Up(half)):
		return r, units.Up
	}
	return 0, units.Down
}

// marginBest returns the way to lay a sheet that leaves the widest margins: first
// the smaller of the two axes, then both together, then the smaller sheet, and then
// more of it across, so that the order of the sheets decides nothing of the margins.
func marginBest(m rule.Margin, open units.Size, s stock.Stock, grain stock.GrainRule) (best lie, ok bool) {
	var bestLow, bestSum units.Length
	lies(&s, grain, func(l lie) bool {
		w := min(l.size.W-open.W, 2*m.Ideal)
		h := min(l.size.H-open.H, 2*m.Ideal)
		low, sum := min(w, h), w+h
		if low < 2*m.Tolerated {
			return true
		}
		better := !ok || low > bestLow || low == bestLow && sum > bestSum
		if !better && low == bestLow && sum == bestSum {
			more := l.size.Area().Compare(best.size.Area())
			better = more < 0 || more == 0 && w > best.size.W-open.W
		}
		if better {
			best, bestLow, bestSum, ok = l, low, sum, true
		}
		return true
	})
	return best, ok
}
