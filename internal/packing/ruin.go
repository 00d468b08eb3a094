package packing

import (
	"math/bits"

	"boardwrap.example/internal/inorder"
)

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

// dissolve gives up the ordinary sheet with the least on it.
func (s *search) dissolve() bool {
	e := -1
	s.m.work(int64(len(s.bins)) + 1)
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
