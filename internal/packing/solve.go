package packing

import (
	"boardwrap.example/internal/stop"
	"slices"
)

// directMost is the number of pieces up to which pieces are moved one by one;
// beyond it most sheets are filled as patterns, once and for all.
const directMost = 1000

// Solve lays out p. The error is nil or [Faults]; that pieces are left without
// a place is not an error, see [Result.Short].
func Solve(until stop.Stopper, p Problem, budget Budget) (*Result, error) {
	if err := p.Validate(); err != nil {
		return nil, err
	}
	limit := budget.Steps
	if limit <= 0 {
		limit = DefaultSteps
	}
	limit = max(limit, LeastSteps)
	c := &course{v: newSolver(until, p, limit)}
	if slices.ContainsFunc(c.v.t.parts, func(q part) bool { return q.turn }) {
		c.unturned(until, p, limit)
	}
	c.report(budget.Report)
	c.run()
	if budget.Report != nil {
		budget.Report(c.progress())
	}
	r := c.v.result()
	if !budget.Count {
		c.v.write(r)
	}
	r.Steps, r.Stopped = c.steps(), c.stopped()
	return r, nil
}

func newSolver(until stop.Stopper, p Problem, limit int64) *solver {
	return &solver{t: newTask(p), mt: newMeter(until, limit), end: stageOne, by: 5, chance: 77}
}

// solver holds the best layout so far.
type solver struct {
	t  *task
	mt *meter

	best    []stacked
	short   []int // copies left out, by part
	m       measure
	fixed   []stacked // the leading sheets of best that improve leaves alone
	open    []int     // sheets by kind that fixed leaves
	proofs  []*worth
	cols    *columns  // of a batch
	pricing *columns  // for the bound
	bySize  []int     // parts, largest first
	seen    *contents // of weave
	cover   *cover    // of weave
	strict  *grid     // of weave
	chance  rng       // of weave
	begun   *search   // a hunt to be gone on with
	beam    int       // the next bias of a beam
	how     int       // the next way to fill
	tries   int       // of improve
	r       rng       // of improve
	lower   int       // proven bound on ordinary sheets
	why     *worth    // proves lower
	noMore  *worth    // proves that no more pieces can be placed
	idle    int       // stages in which settle found nothing
	tried   bool      // the exact search, as far as it goes
	exact   bool      // it came to its end
	size    int       // sets of pieces that a sheet holds, where going through them proves lower
	allShow bool      // proved that no layout places more pieces
	end, by int64     // of the next stage, and how much longer the one after it is
}

// stacked is a sheet that is cut a number of times.
type stacked struct {
	b     bin
	times int
}

// measure is what layouts are compared by.
type measure struct {
	short    int
	ordinary int
	cost     int64
	first    int
	offcut   Area // the largest leftover along a whole side of a sheet
}

func (a measure) less(b measure) bool {
	switch {
	case a.short != b.short:
		return a.short < b.short
	case a.ordinary != b.ordinary:
		return a.ordinary < b.ordinary
	case a.cost != b.cost:
		return a.cost < b.cost
	case a.first != b.first:
		return a.first < b.first
	}
	return a.offcut.Cmp(b.offcut) > 0
}

func (v *solver) measure(sheets []stacked, short []int) measure {
	var m measure
	v.mt.work(int64(len(sheets)+len(short))/4 + 1)
	for _, n := range short {
		m.short += n
	}
	for i := range sheets {
		k := &v.t.kinds[sheets[i].b.kind]
		m.cost += k.cost * int64(sheets[i].times)
		if a := sheets[i].b.offcut(k); a.Cmp(m.offcut) > 0 {
			m.offcut = a
		}
		if k.first {
			m.first += sheets[i].times
		} else {
			m.ordinary += sheets[i].times
		}
	}
	return m
}

// offer takes a layout if it is better than the best, and says whether it is.
// The sheets are the solver's from then on.
func (v *solver) offer(sheets []stacked, short []int) bool {
	if v.best != nil && v.mt.spent(noLimit) {
		// What was cut short is not what a larger budget comes by, so it does
		// not count: more budget must never give less.
		return false
	}
	sheets = slices.DeleteFunc(sheets, func(s stacked) bool { return s.b.count == 0 })
	m := v.measure(sheets, short)
	if v.best != nil && !m.less(v.m) && (m != v.m || !v.calmer(sheets)) {
		return false
	}
	if sheets == nil {
		sheets = []stacked{}
	}
	v.best, v.short, v.m = sheets, short, m
	return true
}

// calmer reports whether sheets need fewer settings than the best layout.
func (v *solver) calmer(sheets []stacked) bool {
	nodes := 0
	for i := range sheets {
		nodes += len(sheets[i].b.nodes)
	}
	v.mt.work(int64(2 * settingsEach * nodes))
	now, ok := v.t.settings(v.mt, sheets)
	if !ok {
		return false
	}
	before, ok := v.t.settings(v.mt, v.best)
	return ok && now < before
}

// bounds works out lower anew for the number of pieces placed, for about most
// steps.
func (v *solver) bounds(most int64) {
	placed := v.t.total - v.m.short
	b, why, _ := v.t.dualBound(v.mt, placed, most)
	v.lift(b, why)
	for _, w := range v.proofs {
		b, _ := v.t.bound(w, placed)
		v.lift(b, w)
	}
	if v.m.short == 0 {
		v.allShow = true
		return
	}
	_, _, v.noMore = v.t.dualBound(v.mt, placed+1, most)
	for _, w := range v.proofs {
		if _, ok := v.t.bound(w, placed+1); !ok {
			v.noMore = w
		}
	}
	v.allShow = v.noMore != nil
}

// lift takes a better bound and what proves it.
func (v *solver) lift(b int, why *worth) {
	if b > v.lower {
		v.lower, v.why = b, why
	}
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

// pricedLate is the end of the last stage of which little goes into prices.
const pricedLate = 500 * stageOne

// listSoon is the length from which on a stage lists first.
const listSoon = 1_000_000

// done reports whether the number of sheets is proved fewest.
func (v *solver) done() bool { return v.allShow && v.m.ordinary == v.lower }

// settled reports whether nothing of the measure can be better.
//
//go:noinline
func (v *solver) settled() bool { return v.done() && v.cheapest() }

// cheapest reports whether no layout of as many ordinary sheets can cost less or
// spare a First sheet.
//
//go:noinline
func (v *solver) cheapest() bool {
	least := int64(-1)
	for _, k := range v.t.kinds {
		if k.first && v.m.first > 0 {
			return false
		}
		if !k.first && (least < 0 || k.cost < least) {
			least = k.cost
		}
	}
	return v.m.ordinary == 0 || v.m.cost == least*int64(v.m.ordinary)
}

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

// newSearch starts a search over the given copies and open stock.
func (v *solver) newSearch(counts, open []int) *search {
	s := newSearch(v.t, v.mt)
	s.open = slices.Clone(open)
	for q, n := range counts {
		for ; n > 0; n-- {
			s.pool = append(s.pool, int32(q))
		}
	}
	v.mt.work(int64(len(s.pool)+len(open)+len(v.t.parts))/4 + 1)
	return s
}

// together joins fixed sheets and a search's into a layout.
func (v *solver) together(fixed []stacked, s *search) ([]stacked, []int) {
	out := slices.Clone(fixed)
	nodes := 0
	for i := range s.bins {
		if s.bins[i].count > 0 {
			var b bin
			b.copyFrom(&s.bins[i])
			nodes += len(b.nodes)
			out = append(out, stacked{b, 1})
		}
	}
	short := make([]int, len(v.t.parts))
	copy(short, s.away)
	for _, q := range s.pool {
		short[q]++
	}
	v.mt.work(int64(nodes+len(short)+len(fixed))/4 + 1)
	return out, short
}
