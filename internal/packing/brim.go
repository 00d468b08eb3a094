package packing

import (
	"math/bits"
	"slices"
)

const (
	brimFirst  = 4       // the part of all steps that the first sheet may take
	brimKeep   = 2       // sets that a rectangle keeps
	brimOften  = 3       // how often that is doubled for the last sheet
	brimEach   = 100_000 // steps of a search for each piece of the last sheet
	brimOne    = 1 << 20 // the unit of what follows
	brimChance = 3 << 10 // what a piece may count for more by chance
)

// brimLean is what the largest piece counts for more than its area, in turn. Would areas
// alone count, the best sets of most rectangles were of the smallest pieces, all of the
// same ones, and no two of them would go together.
var brimLean = [...]int64{10 << 10, 3 << 10, 30 << 10}

// brim hunts for a layout with a sheet less where many pieces go on few sheets. All of
// them but the last are filled to the brim, one after the other, with a set of pieces
// that leaves next to nothing: as long as there is much to choose from there are such
// sets. So what may be lost is all lost on the last sheet. Of sets that leave about as
// much one of large pieces is taken, and a little is left to chance. Most often a search
// begins with an empty last sheet, else with the best set of what is left; twice as many
// of them are kept every second, fourth and eighth time.
func (v *solver) brim(limit int64) {
	from := v.mt.steps
	some := v.assorted(limit)
	for try := 0; some != nil && !v.done() && v.m.ordinary > 2 && !v.mt.spent(limit); try++ {
		need, _ := v.t.stores()
		var full []stacked
		for len(full) < v.m.ordinary-2 {
			end := limit
			if try == 0 && len(full) == 0 {
				end = from + (limit-from)/brimFirst
			}
			b, ok := v.fullest(some, need, brimKeep, brimLean[try%len(brimLean)], end)
			if v.mt.spent(end) {
				return
			}
			if !ok {
				break
			}
			b.outOf(need)
			full = append(full, stacked{b, 1})
		}
		if len(full) < v.m.ordinary-2 {
			continue
		}
		if s := v.lastSheet(some, need, try, limit); len(s.pool) == 0 && v.offer(v.together(full, s)) {
			v.bounds(10_000)
		}
	}
}

// fullest is a sheet with the most area of what is needed that is found to go on one;
// an empty one and false if that is little, or if limit ended it.
func (v *solver) fullest(some *assortment, need []int, keep int, lean, limit int64) (b bin, ok bool) {
	t, k := v.t, &v.t.kinds[0]
	b.clear(0)
	large := int64(1)
	for q := range t.parts {
		large = max(large, t.parts[q].score)
	}
	price := make([]int64, len(t.parts))
	for q := range price {
		area := float64(t.parts[q].score)
		more := int64(area/float64(large)*brimOne)*lean/brimOne + int64(v.chance.below(brimChance))
		price[q] = int64(area/float64(k.score)*priceScale) * (brimOne + more) / brimOne
	}
	if !some.fill(need, price, keep, priceScale/20*19, limit) {
		return b, false
	}
	for _, r := range some.kept[some.whole()] {
		if c := some.bin(r.at); c.used > b.used {
			b = c
		}
	}
	return b, b.used > 0
}

// lastSheet searches how to lay what is needed on one sheet.
func (v *solver) lastSheet(some *assortment, need []int, try int, limit int64) *search {
	var b bin
	b.clear(0)
	if often := min(bits.TrailingZeros(uint(try+1)), brimOften); often > 0 {
		b, _ = v.fullest(some, need, brimKeep<<often, brimLean[try%len(brimLean)], limit)
	}
	still, n := slices.Clone(need), 0
	for _, c := range need {
		n += c
	}
	b.outOf(still)
	s := v.newSearch(still, make([]int, len(v.t.kinds)))
	s.grow(0)
	s.bins[0].copyFrom(&b)
	s.r, s.limit = rng(v.chance.next()|1), limit
	s.run(min(limit, v.mt.steps+int64(brimEach*n)))
	return s
}
