package packing

// resume makes a search out of the best layout, sheets after the fixed ones.
func (v *solver) resume() *search {
	s := v.newSearch(nil, v.open)
	for _, k := range v.best[len(v.fixed):] {
		for i := 0; i < k.times; i++ {
			s.open[k.b.kind]--
			s.grow(k.b.kind)
			s.bins[len(s.bins)-1].copyFrom(&k.b)
			v.mt.work(int64(len(k.b.nodes))/2 + 1)
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

// start makes a search of chosen contents.
func (v *solver) start(chosen []int, sheets int) *search {
	var bins []bin
	for _, at := range chosen {
		bins = append(bins, v.seen.bins[at])
	}
	return v.onward(bins, sheets)
}

// onward makes a search of so many sheets that begins with those of bins; what is on
// two of them goes off the second.
func (v *solver) onward(bins []bin, sheets int) *search {
	still, open := v.t.stores()
	open[0] -= sheets
	s := v.newSearch(nil, open)
	for i := range bins {
		s.grow(0)
		b := &s.bins[i]
		b.copyFrom(&bins[i])
		v.drop(b, still)
		b.outOf(still)
	}
	for len(s.bins) < sheets {
		s.grow(0)
	}
	for q, n := range still {
		for ; n > 0; n-- {
			s.pool = append(s.pool, int32(q))
		}
	}
	v.mt.work(int64(20 * v.t.total))
	s.r = rng(v.chance.next() | 1)
	s.begin()
	s.recreate(16, noLimit)
	s.commit()
	return s
}
