package packing

import (
	"boardwrap.example/internal/inorder"
)

// A worth prices every part (for each copy) and says how much worth at most
// goes on one sheet of each kind, whatever the layout. Any worth gives a lower
// bound on the number of sheets; all of it is integer arithmetic.
type worth struct {
	part []Area // by part
	cap  []Area // by kind

	// Where it comes from.
	x, y   dualFunc
	both   bool
	priced bool
	raster int   // of prices: points along an axis of a rough grid
	once   []int // of prices: parts of which the copies are counted
}

// bound returns the least number of ordinary sheets that can hold m of the
// pieces by this worth, and whether the whole stock can hold them at all.
func (t *task) bound(v *worth, m int) (int, bool) {
	// The m pieces worth least.
	var need Area
	if m == t.total {
		for i, p := range t.parts {
			need = need.Add(v.part[i].Times(uint64(p.n)))
		}
	} else {
		by := make([]int, len(t.parts))
		for i := range by {
			by[i] = i
		}
		inorder.Sort(by, func(a, b int) int { return v.part[a].Cmp(v.part[b]) })
		for _, i := range by {
			n := min(m, t.parts[i].n)
			need = need.Add(v.part[i].Times(uint64(n)))
			m -= n
		}
	}
	var rest []int
	for i, k := range t.kinds {
		if !k.first {
			rest = append(rest, i)
			continue
		}
		have := v.cap[i].Times(uint64(k.n))
		if have.Cmp(need) >= 0 {
			return 0, true
		}
		need = need.Sub(have)
	}
	if need == (Area{}) {
		return 0, true
	}
	inorder.Sort(rest, func(a, b int) int { return v.cap[b].Cmp(v.cap[a]) })
	n := 0
	for _, i := range rest {
		c, have := v.cap[i], t.kinds[i].n
		if c.Times(uint64(have)).Cmp(need) < 0 {
			need = need.Sub(c.Times(uint64(have)))
			n += have
			continue
		}
		lo, hi := 1, have
		for lo < hi {
			mid := lo + (hi-lo)/2
			if c.Times(uint64(mid)).Cmp(need) >= 0 {
				hi = mid
			} else {
				lo = mid + 1
			}
		}
		return n + lo, true
	}
	return n, false
}
