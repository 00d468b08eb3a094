package packing

import "math/bits"

// search is the state of ruin and recreate: sheets in the making and the parts
// (indices, with repeats) that have no place yet.
type search struct {
	t    *task
	bins []bin
	pool []int32
	away []int // copies by part that take no part: too many to find room for
	open []int // sheets of each kind not in bins
	r    rng

	dear []int64 // by part: what a piece in the pool counts for more, in areas of its own
	fine int64   // extra cost of each piece in the pool
	note func()  // called after each accepted step

	m     *meter
	limit int64 // of m: no placing beyond it

	some []int32 // if not empty, the only sheets to place on
	memo memo
	keep *contents // collects what sheets hold

	loose []int32 // of fromSheets
	calm  bool    // of run: what it goes on from is not to be lost

	// undo
	saved     []bin
	savedAt   []int32
	nSaved    int
	savedPool []int32
	mark      []bool // by bin: saved in this round
	failed    []bool // by part: known not to fit in this round
}

func newSearch(t *task, m *meter) *search {
	s := &search{t: t, r: 0x9E3779B97F4A7C15, m: m, limit: noLimit}
	s.failed = make([]bool, len(t.parts))
	s.dear = make([]int64, len(t.parts))
	for _, k := range t.kinds {
		s.open = append(s.open, k.n)
	}
	return s
}

const noLimit = int64(1) << 62

func (s *search) save(i int32) {
	if s.mark[i] {
		return
	}
	s.mark[i] = true
	if s.nSaved == len(s.saved) {
		s.saved = append(s.saved, bin{})
		s.savedAt = append(s.savedAt, 0)
	}
	s.saved[s.nSaved].copyFrom(&s.bins[i])
	s.m.work(4 + int64(len(s.bins[i].nodes))/2)
	s.savedAt[s.nSaved] = i
	s.nSaved++
}

func (s *search) begin() {
	for len(s.mark) < len(s.bins) {
		s.mark = append(s.mark, false)
	}
	s.savedPool = append(s.savedPool[:0], s.pool...)
}

func (s *search) commit() {
	for i := 0; i < s.nSaved; i++ {
		s.mark[s.savedAt[i]] = false
	}
	s.nSaved = 0
}

//go:noinline
func (s *search) revert() {
	for i := 0; i < s.nSaved; i++ {
		at := s.savedAt[i]
		s.bins[at], s.saved[i] = s.saved[i], s.bins[at]
		s.mark[at] = false
	}
	s.nSaved = 0
	s.pool = append(s.pool[:0], s.savedPool...)
}

// lonely is what a sheet's free area counts for: squared, so that free area is
// driven together.
//
//go:noinline
func (s *search) lonely(b *bin) int64 {
	k := &s.t.kinds[b.kind]
	f := max(0, k.score-b.used)
	hi, lo := bits.Mul64(uint64(f), uint64(f))
	q, _ := bits.Div64(hi, lo, uint64(k.score))
	return int64(q)
}

// cost of the whole state; the search makes it small.
func (s *search) cost() int64 {
	c := s.poolCost(s.pool)
	for i := range s.bins {
		c -= s.lonely(&s.bins[i])
	}
	return c
}

// change is what the round since begin did to the cost, with pool left out.
func (s *search) change(pool []int32) int64 {
	c := s.poolCost(pool) - s.poolCost(s.savedPool)
	for i := 0; i < s.nSaved; i++ {
		c += s.lonely(&s.saved[i]) - s.lonely(&s.bins[s.savedAt[i]])
	}
	return c
}

//go:noinline
func (s *search) poolCost(pool []int32) int64 {
	c := int64(0)
	for _, q := range pool {
		c += s.t.parts[q].score*(4*dearOne+s.dear[q])/dearOne + s.fine
	}
	return c
}

// empty throws everything in bin i into the pool.
func (s *search) empty(i int32) {
	s.save(i)
	b := &s.bins[i]
	for x := range b.nodes {
		if b.nodes[x].dir == leaf {
			for n := b.nodes[x].copies(); n > 0; n-- {
				s.pool = append(s.pool, b.nodes[x].piece)
			}
		}
	}
	b.clear(b.kind)
	s.touch(b)
}

// cutOut throws the subtree at node x of bin i into the pool.
func (s *search) cutOut(i int32, x int32) {
	s.save(i)
	b := &s.bins[i]
	var leaves []int32
	leaves = b.leaves(x, leaves)
	for _, l := range leaves {
		q, n := b.nodes[l].piece, b.nodes[l].copies()
		for i := 0; i < n; i++ {
			s.pool = append(s.pool, q)
		}
		b.remove(l, n, s.t.parts[q].score)
	}
	b.refresh(&s.t.kinds[b.kind])
	s.touch(b)
	s.m.work(int64(2 * len(b.nodes)))
}

// leaves appends the leaves under x.
func (b *bin) leaves(x int32, to []int32) []int32 {
	if b.nodes[x].dir == leaf {
		return append(to, x)
	}
	for c := b.nodes[x].down; c >= 0; c = b.nodes[c].next {
		to = b.leaves(c, to)
	}
	return to
}

// place puts part q at the best spot of all bins, or says that there is none.
func (s *search) place(q int32, noise int) bool {
	p := &s.t.parts[q]
	best := spot{score: noScore}
	work := int64(0)
	try := func(i int32) {
		b := &s.bins[i]
		if s.t.kinds[b.kind].most-b.used < p.score {
			return
		}
		if noise == 0 || s.memo.spots == nil {
			work += s.seek(b, i, p, &best, noise)
			return
		}
		at := s.memo.at(i, q)
		if at.state != b.state {
			at.state, at.spot = b.state, spot{score: noScore}
			work += s.seek(b, i, p, &at.spot, noise)
		}
		if at.score < best.score {
			best = at.spot
		}
	}
	if len(s.some) > 0 {
		work += int64(len(s.some))/4 + 1
		for _, i := range s.some {
			try(i)
		}
	} else {
		work += int64(len(s.bins))/4 + 1
		for i := range s.bins {
			try(int32(i))
		}
	}
	s.m.work(work)
	if best.score == noScore {
		return false
	}
	s.put(q, best)
	return true
}

// seek is that of the task, for the ways in which part p may lie.
func (s *search) seek(b *bin, i int32, p *part, best *spot, noise int) int64 {
	work := int64(0)
	if b.root < 0 || p.w <= b.gapX || p.h <= b.gapY {
		work += s.t.seek(b, i, p.w, p.h, false, best, &s.r, noise)
	}
	if p.turn && (b.root < 0 || p.h <= b.gapX || p.w <= b.gapY) {
		work += s.t.seek(b, i, p.h, p.w, true, best, &s.r, noise)
	}
	return work
}

func (s *search) put(q int32, at spot) {
	p := &s.t.parts[q]
	w, h := p.w, p.h
	if at.turned {
		w, h = h, w
	}
	s.save(at.bin)
	b := &s.bins[at.bin]
	b.insert(at.node, at.dir, q, w, h, at.turned, p.score)
	b.refresh(&s.t.kinds[b.kind])
	s.touch(b)
	s.m.work(int64(len(b.nodes)))
}

// take goes on from what the round has made.
func (s *search) take() {
	if s.keep != nil {
		for _, i := range s.savedAt[:s.nSaved] {
			s.keep.add(s.m, &s.bins[i])
		}
	}
	s.commit()
	if s.note != nil {
		s.note()
	}
}

// lawful reports whether what the round has made keeps the longest cut.
func (s *search) lawful() bool {
	for _, i := range s.savedAt[:s.nSaved] {
		b := &s.bins[i]
		if !b.legal(&s.t.kinds[b.kind]) {
			return false
		}
	}
	return true
}
