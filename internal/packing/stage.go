package packing

// directMost is the number of pieces up to which pieces are moved one by one;
// beyond it most sheets are filled as patterns, once and for all.
const directMost = 1000

// begin makes a layout; it reports whether there is more to be done.
func (v *solver) begin() bool {
	t := v.t
	if t.total == 0 || len(t.kinds) == 0 {
		v.offer(nil, make([]int, len(t.parts)))
		v.allShow = true
		return false
	}
	v.first()
	v.bounds(10_000)
	return v.more()
}

// next goes through the next stage, each as long as all before it or longer. What
// a stage does depends on the stage and not on the budget, so that a run does
// all that a run with a smaller budget does, and then more. It reports whether
// there is more to be done.
func (v *solver) next() bool {
	if v.mt.steps < v.end && v.stage(v.end) || v.end > noLimit/8 {
		return false
	}
	v.end, v.by = v.end*v.by, 7-v.by
	return v.more()
}

// more reports whether a run goes on; if not, it drives what is left over
// together.
func (v *solver) more() bool {
	if !v.mt.spent(noLimit) && !v.settled() {
		return true
	}
	v.gather(noLimit)
	return false
}

// stageOne is where the first stage ends; others end at 5, 10, 50, 100 … times
// that, one of them at DefaultSteps.
const stageOne int64 = 10_000

// stage works on until the meter shows end, and reports whether nothing is
// left to be done.
func (v *solver) stage(end int64) bool {
	t := v.t
	from := v.mt.steps
	long := end - from
	v.bounds(max(10_000, long/16))
	if v.settled() {
		return false
	}
	v.variants(from + long/8)
	search := end - long/20
	if t.mixed() {
		search -= long / 8
	}
	if t.total > 4*len(t.parts) && t.total > 50 && !v.done() {
		v.batch(from + long/3)
	}
	listable := !v.tried && v.listable()
	switch {
	case v.tried:
	case listable && long >= listSoon && !v.done():
		v.list(from + long/2)
		listable = false
	case !listable && t.total <= tryExact:
		v.handful(from + long/2)
	}
	if !v.done() {
		share := int64(3)
		if end <= pricedLate { // a search does more in few steps
			share = 16
		}
		v.priced(v.mt.steps + (search-v.mt.steps)/share)
	}
	if listable { // the rest is for listing, which finds later what a search finds soon
		search -= (search - from) / 2
	}
	if !v.done() {
		v.improve(search)
	}
	if listable && !v.done() {
		v.list(v.mt.steps + long/2)
	}
	done := v.done() && (t.total > tryExact || v.tried)
	before := v.m
	v.settle(end - long/20)
	if v.m != before {
		v.idle = 0
	}
	v.idle++
	v.gather(end)
	// What is cheaper may still be found where sheets differ in cost.
	return done && (!t.mixed() || v.exact || v.settled() || v.idle > 3 && long > 1_000_000)
}

// variants makes layouts in the other ways to fill.
func (v *solver) variants(limit int64) {
	if v.t.total > v.t.movable() || int64(v.t.total)*int64(len(v.best))/8 > limit-v.mt.steps {
		return
	}
	for ; v.how < 5 && !v.mt.spent(limit); v.how++ {
		counts, open := v.t.stores()
		s := v.newSearch(counts, open)
		if s.fill(v.how, noLimit) {
			v.offer(v.together(nil, s))
		}
	}
}

// batch lays many copies of few kinds by column generation.
func (v *solver) batch(limit int64) {
	counts, open := v.t.stores()
	some := v.rounded(limit, counts, open)
	if some == nil {
		return
	}
	some = v.bulk(some, counts, open, noLimit)
	for how := 0; how < 5 && (how == 0 || !v.mt.spent(limit)); how++ {
		s := v.newSearch(counts, open)
		if !s.fill(how, noLimit) {
			return
		}
		if v.offer(v.together(some, s)) {
			v.fixed, v.open = some, open
		}
	}
	v.bounds(10_000)
}

// priced tries to lift the bound by column generation.
func (v *solver) priced(limit int64) {
	t := v.t
	if v.m.short > 0 || len(t.parts) > 300 {
		return
	}
	if g := v.finer((limit - v.mt.steps) / 30); g != nil {
		need := make([]int, len(t.parts))
		for q, p := range t.parts {
			need[q] = p.n
		}
		v.pricing = newColumns(t, v.mt, g, need)
	} else if v.pricing == nil || !v.pricing.over {
		return
	}
	c := v.pricing
	c.known = v.lower
	c.run(v.m.ordinary, limit)
	if c.proof != nil && c.lower >= v.lower {
		v.proofs = append(v.proofs, c.proof)
		v.lift(c.lower, c.proof)
	}
}

// finer returns a grid that proves more than the one priced on so far, if a run
// of it takes no more than each steps.
func (v *solver) finer(each int64) *grid {
	have := 0
	if v.pricing != nil {
		if v.pricing.g.sort == gridExact {
			return nil
		}
		have = len(v.pricing.g.xs) * 3 / 2
	}
	if g := v.t.newGrid(v.mt, gridExact, gridMost, each); g != nil {
		return g
	}
	for n := 320; n >= max(40, have); n = n * 3 / 4 {
		if g := v.t.newGrid(v.mt, gridRough, n, each); g != nil {
			return g
		}
	}
	return nil
}

// pricedLate is the end of the last stage of which little goes into prices.
const pricedLate = 500 * stageOne

// listSoon is the length from which on a stage lists first.
const listSoon = 1_000_000

// tryExact is the number of pieces up to which the exact search is tried.
const tryExact = 16

// handful is exact. What does not come to an end before limit is tried again in
// the next stage.
func (v *solver) handful(limit int64) {
	e := newExact(v.t, v.mt, limit)
	sheets, left, ok := e.solve()
	v.tried = ok || !v.mt.spent(limit)
	if !ok || v.mt.spent(noLimit) { // what comes now would not count
		return
	}
	var out []stacked
	for _, s := range sheets {
		out = append(out, stacked{e.tree(s), 1})
	}
	short := make([]int, len(v.t.parts))
	for i, q := range e.parts {
		if left>>i&1 != 0 {
			short[q]++
		}
	}
	v.offer(out, short)
	v.lower = v.m.ordinary
	v.exact, v.allShow = true, true
}
