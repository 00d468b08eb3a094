package packing

// fill puts parts in the given order each on the best spot of the open sheets,
// opening another sheet when there is none. It reports false when limit or the
// Stopper ended it: the rest is in the pool.
func (s *search) fill(how int, limit int64) bool {
	s.order(how)
	left := s.pool[:0]
	done := true
	for i, q := range s.pool {
		if s.m.spent(limit) {
			left = append(left, s.pool[i:]...)
			done = false
			break
		}
		for len(s.mark) < len(s.bins)+1 {
			s.mark = append(s.mark, false)
		}
		if s.failed[q] || !s.place(q, 0) && !s.placeNew(q) {
			s.failed[q] = true
			left = append(left, q)
		}
	}
	s.pool = left
	for _, q := range left {
		s.failed[q] = false
	}
	s.commit()
	return done
}

// placeNew opens a sheet for part q: First stock before other, smaller First
// stock before larger, larger ordinary stock before smaller.
func (s *search) placeNew(q int32) bool {
	p := &s.t.parts[q]
	best := -1
	s.m.work(int64(len(s.t.kinds))/4 + 1)
	for i := range s.t.kinds {
		k := &s.t.kinds[i]
		if s.open[i] == 0 || !(k.holds(p.w, p.h) || p.turn && k.holds(p.h, p.w)) {
			continue
		}
		if best < 0 {
			best = i
			continue
		}
		b := &s.t.kinds[best]
		switch {
		case k.first != b.first:
			if k.first {
				best = i
			}
		case k.first:
			if k.score < b.score {
				best = i
			}
		case k.score > b.score || k.score == b.score && k.cost < b.cost:
			best = i
		}
	}
	if best < 0 {
		return false
	}
	s.open[best]--
	s.grow(int32(best))
	at := spot{score: noScore}
	i := int32(len(s.bins) - 1)
	s.t.seek(&s.bins[i], i, p.w, p.h, false, &at, &s.r, 0)
	if p.turn {
		s.t.seek(&s.bins[i], i, p.h, p.w, true, &at, &s.r, 0)
	}
	s.put(q, at)
	return true
}

// grow adds an empty sheet of a kind.
//
//go:noinline
func (s *search) grow(kind int32) {
	if len(s.bins) < cap(s.bins) {
		s.bins = s.bins[:len(s.bins)+1]
	} else {
		s.bins = append(s.bins, bin{})
	}
	s.bins[len(s.bins)-1].clear(kind)
	s.mark = append(s.mark, false)
}
