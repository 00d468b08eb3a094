package packing

import (
	"context"
	"slices"
)

// directMost is the number of pieces up to which pieces are moved one by one;
// beyond it most sheets are filled as patterns, once and for all.
const directMost = 1000

// Solve lays out p. The error is nil or [Faults]; that pieces are left without
// a place is not an error, see [Result.Short].
func Solve(ctx context.Context, p Problem, budget Budget) (*Result, error) {
	if err := p.Validate(); err != nil {
		return nil, err
	}
	limit := budget.Steps
	if limit <= 0 {
		limit = DefaultSteps
	}
	v := &solver{t: newTask(p), ctx: ctx, limit: limit}
	if v.t.mixed() {
		v.reserve = limit / 8
	}
	v.limit -= v.reserve
	v.solve()
	return v.result(), nil
}

// solver holds the best layout so far.
type solver struct {
	t            *task
	ctx          context.Context
	limit, steps int64
	reserve      int64 // steps kept for settle

	best    []stacked
	short   []int // copies left out, by part
	m       measure
	proofs  []*worth
	cols    *columns
	bySize  []int // parts, largest first
	lower   int   // proven bound on ordinary sheets
	exact   bool
	allShow bool // proved that no layout places more pieces
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
	sheets = slices.DeleteFunc(sheets, func(s stacked) bool { return s.b.count == 0 })
	m := v.measure(sheets, short)
	if v.best != nil && !m.less(v.m) && (m != v.m || v.t.settings(sheets) >= v.t.settings(v.best)) {
		return false
	}
	if sheets == nil {
		sheets = []stacked{}
	}
	v.best, v.short, v.m = sheets, short, m
	return true
}

// stopped reports whether the context is done.
func (v *solver) stopped() bool { return v.ctx.Err() != nil }

// bounds works out lower anew for the number of pieces placed.
func (v *solver) bounds(most int64) {
	placed := v.t.total - v.m.short
	b, _, n := v.t.dualBound(placed, most)
	v.steps += n / 4
	v.lower = b
	for _, w := range v.proofs {
		b, _ := v.t.bound(w, placed)
		v.lower = max(v.lower, b)
	}
	if v.m.short == 0 {
		v.allShow = true
		return
	}
	_, v.allShow, n = v.t.dualBound(placed+1, most)
	v.steps += n / 4
	for _, w := range v.proofs {
		if _, ok := v.t.bound(w, placed+1); !ok {
			v.allShow = true
		}
	}
}

// priced tries to lift the bound by column generation.
func (v *solver) priced(most int64) {
	t := v.t
	if v.m.short > 0 || len(t.parts) > 300 || len(v.proofs) > 0 {
		return
	}
	g := t.newGrid(gridExact, gridMost)
	if g == nil || g.work()*40 > most {
		for n := 320; ; n = n * 3 / 4 {
			if n < 40 {
				return
			}
			if g = t.newGrid(gridRough, n); g.work()*40 <= most {
				break
			}
		}
	}
	need := make([]int, len(t.parts))
	for q, p := range t.parts {
		need[q] = p.n
	}
	c := newColumns(t, g, need)
	c.run(v.ctx, v.m.ordinary, most)
	v.steps += c.steps
	if c.proof != nil {
		v.proofs = append(v.proofs, c.proof)
		v.lower = max(v.lower, c.lower)
	}
}

func (v *solver) solve() {
	t := v.t
	if t.total == 0 || len(t.kinds) == 0 {
		v.offer(nil, make([]int, len(t.parts)))
		v.allShow = true
		return
	}
	counts, open := t.stores()
	fixed := v.bulk(nil, counts, open)
	v.direct(fixed, counts, open)
	v.bounds(max(20_000, v.limit/16))
	if t.total > 4*len(t.parts) && t.total > 50 && !v.done() {
		counts, still := t.stores()
		if some := v.rounded(counts, still); some != nil {
			some = v.bulk(some, counts, still)
			if v.direct(some, counts, still) {
				fixed, open = some, still
			}
			v.bounds(max(20_000, v.limit/16))
		}
	}
	if t.total <= MaxExact {
		if !v.settled() {
			v.handful()
		}
	} else {
		if !v.done() {
			v.priced((v.limit - v.steps) / 2)
		}
		if !v.done() {
			v.improve(fixed, open)
		}
		v.settle()
	}
	v.gather()
}

// done reports whether the number of sheets is proved fewest.
func (v *solver) done() bool { return v.allShow && v.m.ordinary == v.lower }

// settled reports whether nothing of the measure can be better.
func (v *solver) settled() bool {
	if !v.done() {
		return false
	}
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

// handful is exact.
func (v *solver) handful() {
	e := newExact(v.ctx, v.t, v.limit-v.steps)
	sheets, left, ok := e.solve()
	v.steps += e.steps
	if !ok {
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
	s := newSearch(v.ctx, v.t, v.limit)
	s.open = slices.Clone(open)
	for q, n := range counts {
		for ; n > 0; n-- {
			s.pool = append(s.pool, int32(q))
		}
	}
	s.steps = v.steps
	return s
}

// together joins fixed sheets and a search's into a layout.
func (v *solver) together(fixed []stacked, s *search) ([]stacked, []int) {
	out := slices.Clone(fixed)
	for i := range s.bins {
		if s.bins[i].count > 0 {
			var b bin
			b.copyFrom(&s.bins[i])
			out = append(out, stacked{b, 1})
		}
	}
	short := make([]int, len(v.t.parts))
	copy(short, s.away)
	for _, q := range s.pool {
		short[q]++
	}
	return out, short
}

// direct makes the quick layouts, and says whether one is the best so far.
func (v *solver) direct(fixed []stacked, counts, open []int) (better bool) {
	from := v.steps
	for how := 0; how < 5; how++ {
		s := v.newSearch(counts, open)
		s.fill(how)
		v.steps = s.steps
		if v.offer(v.together(fixed, s)) {
			better = true
		}
		if v.steps-from > v.limit/40 || v.stopped() {
			break
		}
	}
	return better
}

// resume makes a search out of the best layout, sheets after the fixed ones.
func (v *solver) resume(fixed []stacked, open []int) *search {
	s := v.newSearch(nil, open)
	for _, k := range v.best[len(fixed):] {
		for i := 0; i < k.times; i++ {
			s.open[k.b.kind]--
			s.grow(k.b.kind)
			s.bins[len(s.bins)-1].copyFrom(&k.b)
		}
	}
	most := max(4, 2*directMost/len(v.t.parts))
	s.away = make([]int, len(v.t.parts))
	for q, n := range v.short {
		s.away[q] = max(0, n-most)
		for n -= s.away[q]; n > 0; n-- {
			s.pool = append(s.pool, int32(q))
		}
	}
	return s
}

// improve removes and re-inserts pieces with one sheet fewer as the goal.
func (v *solver) improve(fixed []stacked, open []int) {
	if len(fixed) == 0 {
		v.hunt(fixed, open, v.limit)
		return
	}
	// Many short runs from different starts do better than a long one where
	// most sheets stand fixed.
	fixed, open = slices.Clone(fixed), slices.Clone(open)
	var r rng = 99
	slice := (v.limit-v.steps)/24 + 1
	for try := 0; v.steps < v.limit && !v.stopped() && !v.done(); try++ {
		if v.cols == nil || try%3 != 1 {
			v.hunt(fixed, open, min(v.limit, v.steps+slice))
			if v.done() || len(fixed) == 0 {
				return
			}
			fixed = v.free(fixed, open)
			continue
		}
		w := &solver{t: v.t, ctx: v.ctx, limit: min(v.limit, v.steps+2*slice), steps: v.steps, lower: v.lower, proofs: v.proofs, cols: v.cols}
		counts, still := v.t.stores()
		some := w.dive(&r, 30+r.below(60), counts, still)
		left := 0
		for _, n := range counts {
			left += n
		}
		if left > directMost {
			v.steps = w.steps + slice/2
			continue
		}
		w.direct(some, counts, still)
		w.allShow = w.m.short == 0
		if w.m.short <= v.m.short && !w.done() {
			w.hunt(some, still, w.limit)
		}
		v.steps = max(v.steps, w.steps) + 1
		if v.offer(w.best, w.short) {
			v.bounds(v.limit / 16)
			fixed = nil
			_, open = v.t.stores()
			n := 0
			for n < len(v.best) && n < len(some) {
				fixed = append(fixed, v.best[n])
				open[v.best[n].b.kind] -= v.best[n].times
				n++
			}
		}
	}
}

// free makes some of the fixed sheets movable again: one of each pattern, until
// there are many pieces.
func (v *solver) free(fixed []stacked, open []int) []stacked {
	moved := 0
	for i := range v.best[len(fixed):] {
		moved += v.best[len(fixed)+i].b.count
	}
	room := max(40, min(directMost-moved, moved/2))
	var kept, freed []stacked
	for i := range fixed {
		f := fixed[i]
		n := 0
		if room > 0 && f.b.count <= directMost/2 {
			n = 1
			room -= f.b.count
		}
		if n > 0 {
			freed = append(freed, stacked{f.b, 1})
			open[f.b.kind]++
			f.times--
		}
		if f.times > 0 {
			kept = append(kept, f)
		}
	}
	// Next time others first.
	if n := len(freed); n < len(kept) {
		kept = slices.Concat(kept[n:], kept[:n])
	}
	v.best = slices.Concat(kept, v.best[len(fixed):], freed)
	return kept
}

// hunt is improve with the fixed sheets left as they are.
func (v *solver) hunt(fixed []stacked, open []int, limit int64) {
	s := v.resume(fixed, open)
	s.limit = limit
	defer func() { v.steps = s.steps }()
	if v.m.short > 0 {
		// All stock is in use: place more pieces first.
		for _, k := range v.t.kinds {
			s.fine = max(s.fine, 8*k.score)
		}
		least := len(s.pool)
		s.note = func() {
			if len(s.pool) < least {
				least = len(s.pool)
				v.offer(v.together(fixed, s))
				v.bounds(20_000)
			}
		}
		if !s.run(limit) {
			return
		}
		s.fine, s.note = 0, nil
		v.offer(v.together(fixed, s))
		v.bounds(v.limit / 16)
	}
	// First stock that is still closed may save an ordinary sheet.
	for i, k := range v.t.kinds {
		for k.first && s.open[i] > 0 && len(s.bins) < 4*len(v.best)+16 {
			s.open[i]--
			s.grow(int32(i))
		}
	}
	for !v.done() && !s.spent() {
		if !s.dissolve() {
			return
		}
		if !s.run(limit) {
			return
		}
		v.offer(v.together(fixed, s))
	}
}

// dissolve gives up the ordinary sheet with the least on it.
func (s *search) dissolve() bool {
	e := -1
	for i := range s.bins {
		if s.t.kinds[s.bins[i].kind].first {
			continue
		}
		if e < 0 || s.bins[i].used < s.bins[e].used {
			e = i
		}
	}
	if e < 0 {
		return false
	}
	n := len(s.bins)
	s.bins[e], s.bins[n-1] = s.bins[n-1], s.bins[e]
	s.begin()
	s.empty(int32(n - 1))
	s.commit()
	s.open[s.bins[n-1].kind]++
	s.bins = s.bins[:n-1]
	return true
}

// result puts the best layout into words.
func (v *solver) result() *Result {
	t := v.t
	r := &Result{Used: make([]int, len(t.p.Stock)), Cost: v.m.cost, Ordinary: v.m.ordinary,
		Bound: min(v.lower, v.m.ordinary), Steps: v.steps, Stopped: v.stopped()}
	r.Proved = v.done()
	slices.SortStableFunc(v.best, func(a, b stacked) int { return int(a.b.kind - b.b.kind) })
	for i := range v.best {
		s := t.sheet(&v.best[i].b, v.best[i].times)
		r.Used[s.Stock] += s.Times
		r.Sheets = append(r.Sheets, s)
	}
	r.Sheets = same(r.Sheets)
	for i := range r.Sheets {
		r.Areas.add(&r.Sheets[i])
	}
	for q, n := range v.short {
		if n > 0 {
			r.Short = append(r.Short, Short{Item: t.parts[q].item, Copies: n, Fits: true})
		}
	}
	for _, s := range t.unfit {
		r.Short = append(r.Short, t.need(s))
	}
	slices.SortFunc(r.Short, func(a, b Short) int { return a.Item - b.Item })
	return r
}

// same makes equal sheets one that is cut more often.
func same(sheets []Sheet) []Sheet {
	var out []Sheet
	for _, s := range sheets {
		found := false
		for i := range out {
			o := &out[i]
			if o.Stock == s.Stock && slices.Equal(o.Nodes, s.Nodes) {
				o.Times += s.Times
				found = true
				break
			}
		}
		if !found {
			out = append(out, s)
		}
	}
	return out
}

func (a *Areas) add(s *Sheet) {
	n := uint64(s.Times)
	var piece, off Area
	for _, d := range s.Nodes {
		switch d.Use {
		case Piece:
			piece = piece.Add(mulArea(d.W, d.H))
		case Offcut:
			off = off.Add(mulArea(d.W, d.H))
		}
	}
	all := mulArea(s.Nodes[0].W, s.Nodes[0].H)
	a.Stock = a.Stock.Add(all.Times(n))
	a.Pieces = a.Pieces.Add(piece.Times(n))
	a.Offcuts = a.Offcuts.Add(off.Times(n))
	a.Waste = a.Waste.Add(all.Sub(piece).Sub(off).Times(n))
}

// need works out the least sheet for an item that fits none.
func (t *task) need(s Short) Short {
	it := t.p.Items[s.Item]
	s.NeedW, s.NeedH = it.W, it.H
	if !it.Turn {
		return s
	}
	// Which way round is the smaller step from some sheet?
	over := func(w, h int64) int64 {
		least := int64(-1)
		for _, k := range t.p.Stock {
			o := max(0, w-(k.W-2*k.Trim)) + max(0, h-(k.H-2*k.Trim))
			if least < 0 || o < least {
				least = o
			}
		}
		return least
	}
	if over(it.H, it.W) < over(it.W, it.H) {
		s.NeedW, s.NeedH, s.Turned = it.H, it.W, true
	}
	return s
}
