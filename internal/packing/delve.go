package packing

import "slices"

// A delver looks for a layout of a number of sheets by dives into the program of a
// cover: contents that it takes are laid, and for what is left it is worked out anew,
// with contents that are made for that. Where it takes more than the sheets that are
// left, whatever is made, others are laid instead; where that was so too often, another
// dive begins. What was made stays, so that each dive goes faster than those before.
type delver struct {
	v      *solver
	some   *assortment
	limit  int64
	brief  bool // programs are worked out no further than they need be
	misses int  // that a dive may still make
	chosen []int
	best   []int // the most that was laid in a dive
}

const (
	delveLeast  = 200_000_000 // steps: with less a search alone does better
	delveMisses = 8           // of a dive
	delveTries  = 2           // at a place of a dive
	// A rectangle keeps so many sets, and where nothing is found twice as many, but no
	// more than these in a dive and where one begins.
	keptFirst = 2
	keptDive  = 4
	keptRoot  = 16
)

// delve hunts for a layout of so many sheets, and returns a search that begins with it,
// or with the most that was laid of one; nil if nothing was.
func (v *solver) delve(sheets int, limit int64) *search {
	some := v.assorted(limit)
	if some == nil {
		return nil
	}
	if v.cover == nil {
		counts, _ := v.t.stores()
		v.cover = v.newCover(counts)
	}
	c := v.cover
	d := &delver{v: v, some: some, limit: limit}
	for !v.mt.spent(limit) {
		if d.refine(c, sheets, float64(sheets), keptRoot); c.spare(sheets) < 0 {
			break
		}
		d.brief, d.misses, d.chosen = !d.brief, delveMisses, nil
		if d.lay(c.branch(1-c.spare(sheets)), sheets, 0) {
			return v.start(d.chosen, sheets)
		}
	}
	if d.best == nil {
		return nil
	}
	return v.start(d.best, sheets)
}

// assorted is an assortment for sheets; nil where there are too many lengths for one.
//
//go:noinline
func (v *solver) assorted(limit int64) *assortment {
	if v.strict == nil {
		v.strict = v.t.newGrid(v.mt, gridExact, gridMost, (limit-v.mt.steps)/1000)
	}
	g := v.strict
	if g == nil || len(g.xs)*len(g.ys) > mostKept/keptRoot {
		return nil
	}
	g.reset()
	return newAssortment(v.t, v.mt, g)
}

// lay lays what a program needs on so many sheets, if it finds how; the program may take
// enough of them.
func (d *delver) lay(c *cover, sheets int, enough float64) bool {
	if c.lp.m == 0 {
		return true
	}
	d.refine(c, sheets, enough, keptDive)
	if d.v.mt.spent(d.limit) {
		return false
	}
	spare := c.spare(sheets)
	if spare < 0 {
		d.misses--
		return false
	}
	if len(d.chosen) > len(d.best) {
		d.best = slices.Clone(d.chosen)
	}
	enough = 0
	if d.brief { // to have most of what is to spare now
		enough = float64(sheets-1) - float64(spare*0.75)
	}
	var tried []int
	for len(tried) < delveTries && d.misses > 0 {
		at := c.unsure(tried)
		if at < 0 {
			return false
		}
		tried, d.chosen = append(tried, at), append(d.chosen, at)
		b := c.branch(1 - spare)
		b.take(at)
		if d.lay(b, sheets-1, enough) {
			return true
		}
		d.chosen = d.chosen[:len(d.chosen)-1]
	}
	return false
}

// refine works a program out for so many sheets that are left, with contents that are
// made for it, until it takes no more than enough or no more are found. Where it seems to
// take more than what is left, it is given up.
func (d *delver) refine(c *cover, left int, enough float64, most int) {
	v, t := d.v, d.v.t
	price := make([]int64, len(t.parts))
	near := make([]float64, c.lp.m) // smoothed prices (Wentges 1997)
	var center []float64
	for keep, smooth, low := keptFirst, true, 0.0; c.run(false, d.limit) && c.lp.value() > enough; {
		pi := c.lp.prices()
		worth := 0.0
		clear(price)
		for i, q := range c.rows {
			near[i] = max(0, min(pi[i], priceMost))
			if smooth && center != nil {
				near[i] = float64(center[i]*0.7) + float64(near[i]*0.3)
			}
			worth += float64(near[i] * float64(c.need[q]))
			// Of sets that are worth the same the fuller is the better.
			fuller := float64(t.parts[q].score) / float64(200*t.kinds[0].score)
			price[q] = int64((near[i] + fuller) * priceScale)
		}
		if !d.some.fill(c.need, price, keep, priceScale, d.limit) {
			return
		}
		found := false
		for i, r := range d.some.kept[d.some.whole()] {
			b := d.some.bin(r.at)
			list := b.contents()
			// Were this the best of all, the program would take no less than that.
			if value := worth / c.gain(list, near); i == 0 && value > low {
				low, center = value, slices.Clone(near)
			}
			found = c.gain(list, pi) > 1+1e-6 && v.seen.force(v.mt, &b) || found
		}
		switch {
		case most < keptRoot && low > float64(left)+0.02:
			return
		case found:
			smooth = true
		case smooth:
			smooth = false
		case keep < most && c.spare(left) < 0:
			keep *= 2
		default:
			return
		}
	}
}
