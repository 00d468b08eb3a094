package packing

import (
	"boardwrap.example/internal/inorder"
	"math/bits"
)

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

// What a piece that stays in the pool counts for grows, so that a search turns to
// others instead of coming back to the same pool: every dearEvery rounds by its area,
// of which a sixteenth goes again each time (after the penalties of Voudouris &
// Tsang, EJOR 113, 1999).
const (
	dearOne   = 16
	dearMost  = 16 * dearOne
	dearEvery = 64 // rounds
)

// remind makes what is in the pool dearer.
func (s *search) remind() {
	for _, q := range s.pool {
		s.dear[q] = min(s.dear[q]+dearOne, dearMost)
	}
	for q, d := range s.dear {
		s.dear[q] = d - d/16
	}
	s.m.work(int64(len(s.pool)+len(s.dear)+len(s.bins)) + 1)
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

// roomy picks a bin that has something in it, the one with the most free area
// of a few.
func (s *search) roomy(tries int) int32 {
	best := int32(-1)
	free := int64(-1)
	for ; tries > 0; tries-- {
		i := int32(s.r.below(len(s.bins)))
		b := &s.bins[i]
		if f := s.t.kinds[b.kind].score - b.used; b.count > 0 && f > free {
			best, free = i, f
		}
	}
	return best
}

// ruin takes some pieces out.
func (s *search) ruin() {
	want := 3 + s.r.below(14)
	for tries := 0; want > 0 && tries < 12; tries++ {
		i := s.roomy(1 + s.r.below(3))
		if i < 0 {
			continue
		}
		b := &s.bins[i]
		if b.count <= want && !s.r.chance(1, 3) {
			want -= b.count
			s.empty(i)
			continue
		}
		x := int32(s.r.below(len(b.nodes)))
		s.m.work(4 + int64(len(b.nodes))/8)
		if b.nodes[x].dir == dead {
			continue
		}
		// Not too much at once: go down until it is small enough.
		n := len(b.leaves(x, nil))
		for n > want {
			c := b.nodes[x].down
			for j := s.r.below(8); j > 0; j-- {
				if c = b.nodes[c].next; c < 0 {
					c = b.nodes[x].down
				}
			}
			x = c
			n = len(b.leaves(x, nil))
		}
		want -= n
		s.cutOut(i, x)
	}
}

// order sorts the pool in one of several ways.
func (s *search) order(how int) {
	parts := s.t.parts
	s.m.work(int64(len(s.pool)))
	for i := len(s.pool) - 1; i > 0; i-- {
		j := s.r.below(i + 1)
		s.pool[i], s.pool[j] = s.pool[j], s.pool[i]
	}
	key := func(q int32) int64 { return 0 }
	switch how {
	case 0:
		key = func(q int32) int64 { return parts[q].score }
	case 1:
		key = func(q int32) int64 { return max(parts[q].w, parts[q].h) }
	case 2:
		key = func(q int32) int64 { return parts[q].h }
	case 3:
		key = func(q int32) int64 { return parts[q].w }
	case 4:
		key = func(q int32) int64 { return min(parts[q].w, parts[q].h) }
	case 5:
		return
	}
	inorder.Sort(s.pool, func(a, b int32) int {
		ka, kb := key(a), key(b)
		switch {
		case ka > kb:
			return -1
		case ka < kb:
			return 1
		}
		return int(a - b)
	})
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

// recreate puts back what it can. It gives up, and reports false, as soon as what is
// left out makes the round cost more than most.
func (s *search) recreate(noise int, most int64) bool {
	s.some = s.some[:0]
	if len(s.bins) > allBins {
		// What was ruined, and a few others.
		s.some = append(s.some, s.savedAt[:s.nSaved]...)
		for n := 8; n > 0; n-- {
			s.some = append(s.some, int32(s.r.below(len(s.bins))))
		}
	}
	how := 0
	if s.r.chance(1, 4) {
		how = s.r.below(7)
	}
	s.order(how)
	left := s.pool[:0]
	ok := true
	for _, q := range s.pool {
		if s.failed[q] || s.m.spent(s.limit) || !s.place(q, noise) {
			s.failed[q] = true
			left = append(left, q)
			// What is put on sheets from here on makes nothing cheaper.
			s.m.work(int64(len(left)+s.nSaved)/4 + 1)
			if s.change(left) > most {
				ok = false
				break
			}
		}
	}
	s.pool = left
	for _, q := range left {
		s.failed[q] = false
	}
	s.some = s.some[:0]
	return ok
}

// allBins is the number of sheets up to which a piece may go on any of them in
// each round of a search.
const allBins = 40

// run searches until the pool is empty or limit is reached, and reports whether
// the pool is empty.
func (s *search) run(limit int64) bool {
	s.remember()
	clear(s.dear)
	var mean int64
	for _, p := range s.t.parts {
		mean += p.score
	}
	mean = max(1, mean/int64(len(s.t.parts)))
	start := s.m.steps
	for round := 1; len(s.pool) > 0 && len(s.bins) > 0 && !s.m.spent(limit); round++ {
		s.m.work(16 + int64(len(s.pool)))
		s.begin()
		s.ruin()
		// The threshold falls to nothing over the run.
		left := (limit - s.m.steps) * 256 / max(1, limit-start)
		hot := heat
		if s.calm {
			hot = heatCalm
		}
		temp := mean * int64(hot) * max(0, left) >> 16
		most := s.r.expo(temp)
		ok := s.recreate(64, most)
		if ok && s.change(s.pool) <= most {
			s.take()
		} else {
			s.revert()
		}
		if round%swapEvery == 0 && s.swap(int32(s.r.below(len(s.bins)))) {
			if s.change(s.pool) < 0 && s.lawful() {
				s.take()
			} else {
				s.revert()
			}
		}
		if round%dearEvery == 0 && len(s.bins) <= allBins { // beyond, a round sees few of them
			s.remind()
		}
	}
	return len(s.pool) == 0
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

// heat is the mean threshold at the start of a run, in 1/256 of the mean piece, and
// heatCalm that where it goes on from what a run before has come to.
const (
	heat     = 32
	heatCalm = 8
)

// expo returns about an exponentially distributed number of mean t.
func (r *rng) expo(t int64) int64 {
	x := uint32(r.next() >> 32)
	n := bits.LeadingZeros32(x | 1)
	frac := int64(uint32(x<<uint(n))>>23) & 255 // 0 … 255 within the octave
	// −log₂ u ≈ n + 1 − frac/256, and ln 2 ≈ 177/256.
	return t * (int64(n+1)*256 - frac) >> 8 * 177 >> 8
}
