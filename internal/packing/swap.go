package packing

// swapEvery is how many rounds of a search pass between two swaps. Rounds by chance
// seldom come by the one pair of pieces that goes better the other way round, and
// the more sheets there are, the more seldom.
const swapEvery = 8

// A swap puts a piece of another sheet, or one without a place, in the place of a
// smaller one, which takes the place of the larger.
type swap struct {
	gain     int64
	x, y     int32 // leaves; y is a place in the pool if from is −1
	from     int32 // the other sheet
	tx, ty   bool  // turned in their new places
	had, got int32 // the parts at x and at y
}

// swap makes the best swap that there is for sheet i, and reports whether there is
// one. What its pieces leave goes to larger ones, as far as free area is driven
// together by that.
func (s *search) swap(i int32) bool {
	best := s.fromPool(i)
	if best.gain == 0 {
		best = s.fromSheets(i)
	}
	if best.gain == 0 {
		return false
	}
	t := s.t
	s.begin()
	s.save(i)
	s.bins[i].put(t, best.x, best.got, best.ty)
	s.swapped(i)
	if best.from < 0 {
		s.pool[best.y] = best.had
		return true
	}
	s.save(best.from)
	s.bins[best.from].put(t, best.y, best.had, best.tx)
	s.swapped(best.from)
	return true
}

// fromPool seeks the swap with a piece without a place that makes the pool cheapest.
func (s *search) fromPool(i int32) (best swap) {
	b := &s.bins[i]
	free := s.t.kinds[b.kind].score - b.used
	for x := range b.nodes {
		n := &b.nodes[x]
		if n.dir != leaf || n.copies() > 1 {
			continue
		}
		had := &s.t.parts[n.piece]
		for y, q := range s.pool {
			p := &s.t.parts[q]
			if d := p.score - had.score; d <= 0 || d > free {
				continue
			}
			turned, ok := p.in(n.aw, n.ah)
			if gain := s.poolCost(s.pool[y:y+1]) - s.poolCost([]int32{n.piece}); ok && gain > best.gain {
				best = swap{gain: gain, x: int32(x), y: int32(y), from: -1, ty: turned, had: n.piece, got: q}
			}
		}
	}
	s.m.work(int64(len(b.nodes)*(len(s.pool)+1))/2 + 1)
	return best
}

// fromSheets seeks the swap with a piece on another sheet that drives most free area
// together: with d the difference of the pieces, the squares of the free areas grow
// by twice d·(theirs + d − ours).
func (s *search) fromSheets(i int32) (best swap) {
	t := s.t
	b := &s.bins[i]
	free := t.kinds[b.kind].score - b.used
	work := int64(len(s.bins) + len(b.nodes))
	s.loose = s.loose[:0]
	for x := range b.nodes {
		if n := &b.nodes[x]; n.dir == leaf && n.copies() == 1 && (n.w < n.aw || n.h < n.ah) {
			s.loose = append(s.loose, int32(x))
		}
	}
	for j := range s.bins {
		o := &s.bins[j]
		theirs := t.kinds[o.kind].score - o.used
		if int32(j) == i || free*theirs <= best.gain { // d is no more than free
			continue
		}
		work += int64(len(o.nodes) * (len(s.loose) + 1))
		for y := range o.nodes {
			m := &o.nodes[y]
			if m.dir != leaf || m.copies() > 1 {
				continue
			}
			for _, x := range s.loose {
				n := &b.nodes[x]
				had, got := &t.parts[n.piece], &t.parts[m.piece]
				d := got.score - had.score
				if d <= 0 || d > free || d*(theirs+d-free) <= best.gain {
					continue
				}
				ty, ok := got.in(n.aw, n.ah)
				if !ok {
					continue
				}
				if tx, ok := had.in(m.aw, m.ah); ok {
					best = swap{d * (theirs + d - free), x, int32(y), int32(j), tx, ty, n.piece, m.piece}
				}
			}
		}
	}
	s.m.work(work/4 + 1)
	return best
}

// in reports whether a piece fits in a place, and whether it must be turned for that.
func (p *part) in(w, h int64) (turned, ok bool) {
	if p.w <= w && p.h <= h {
		return false, true
	}
	return true, p.turn && p.h <= w && p.w <= h
}

// put puts another part in the place of leaf x; sizes are stale until refresh.
func (b *bin) put(t *task, x, q int32, turned bool) {
	n := &b.nodes[x]
	p := &t.parts[q]
	b.used += p.score - t.parts[n.piece].score
	n.piece, n.turned, n.w, n.h = q, turned, p.w, p.h
	if turned {
		n.w, n.h = p.h, p.w
	}
}

func (s *search) swapped(i int32) {
	b := &s.bins[i]
	b.refresh(&s.t.kinds[b.kind])
	s.touch(b)
	s.m.work(int64(len(b.nodes)))
}
