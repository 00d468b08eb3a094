package packing

// Beyond these weave does not know what to do, or a search alone does better.
const (
	weaveMost  = 200        // pieces
	weaveFull  = 12         // pieces on a sheet in the mean
	weaveEach  = 600        // steps for the square of the number of parts: about what a start takes
	weaveLeast = 20_000_000 // steps
	weaveOld   = 6          // times that a program goes on from where it was
)

// alike reports whether all pieces are laid, on one kind of sheets that can be cut
// freely, as many as are wanted, and there is some time to do better.
//
//go:noinline
func (v *solver) alike(long int64) bool {
	t := v.t
	k := &t.kinds[0]
	return len(t.kinds) == 1 && !k.first && k.mode == cutFree && k.n >= v.m.ordinary &&
		v.m.short == 0 && t.total <= weaveMost && long >= weaveLeast
}

// weaves reports whether weave is worth its while.
func (v *solver) weaves(long int64) bool {
	return v.alike(long) && v.t.total <= weaveFull*v.m.ordinary
}

// weave hunts for a layout with a sheet less, and now and then puts a new start
// together from all that sheets have held so far, by the program of a cover: what
// one search after the other comes by at different times may go together. The
// program also lifts the bound.
func (v *solver) weave(limit int64) {
	if v.seen == nil {
		v.seen = &contents{seen: map[uint64]bool{}}
	}
	from := v.mt.steps
	s := v.resume()
	if limit-from >= delveLeast {
		if next := v.delve(v.m.ordinary-1, from+(limit-from)/3*2); next != nil {
			s = next
		}
		from = v.mt.steps
	}
	long := limit - from
	rounds := min(4, long/max(1, weaveEach*v.t.square()))
	for round := int64(0); !v.done() && !v.mt.spent(limit); round++ {
		v.seen.least = v.enough()
		var used []int
		if v.cover != nil {
			used = v.cover.lp.name
		}
		if v.seen.thin(used) {
			v.cover = nil
		}
		s.keep = v.seen
		if len(s.bins) >= v.m.ordinary && !s.dissolve() {
			return
		}
		end := limit
		if round < rounds {
			end = from + long/(rounds+1)*(round+1)
		}
		s.limit = limit
		if s.run(end) && v.offer(v.together(nil, s)) {
			v.bounds(10_000)
			s = v.resume()
			continue
		}
		if v.mt.spent(limit) {
			return
		}
		if next := v.woven(v.m.ordinary-1, v.mt.steps+long/(rounds+1)/2); next != nil {
			s = next
		}
	}
}

// square is the square of the number of parts, which the work of a program grows
// with.
func (t *task) square() int64 { return int64(len(t.parts) * len(t.parts)) }

// enough is three quarters of what is on a sheet in the mean.
func (v *solver) enough() int64 {
	sum := int64(0)
	for _, p := range v.t.parts {
		sum += p.score * int64(p.n)
	}
	return sum / int64(v.m.ordinary) * 3 / 4
}

// woven puts a start of so many sheets together, of a few that one which leaves
// least out; nil if limit does not do, or if it proves that there is no use.
func (v *solver) woven(sheets int, limit int64) *search {
	from := v.mt.steps
	if v.strict == nil {
		v.strict = v.t.newGrid(v.mt, gridExact, gridMost, (limit-v.mt.steps)/30)
	} else {
		v.strict.reset()
	}
	if v.cover == nil || v.cover.runs > weaveOld {
		counts, _ := v.t.stores()
		v.cover = v.newCover(counts)
	}
	c := v.cover
	c.runs++
	end := c.run(true, v.mt.steps+(limit-v.mt.steps)/2)
	if v.done() || v.mt.spent(limit) {
		return nil
	}
	if end {
		if chosen := c.pick(sheets, v.mt.steps+(limit-v.mt.steps)/4); chosen != nil {
			return v.start(chosen, sheets)
		}
	}
	var best *search
	for try := 0; try < 8 && (best == nil || len(best.pool) > 0) && !v.mt.spent(limit); try++ {
		s := v.start(c.dive(sheets, limit), sheets)
		if best == nil || s.poolCost(s.pool) < best.poolCost(best.pool) {
			best = s
		}
	}
	if !end || best == nil || len(best.pool) == 0 || c.spare(sheets) < 0 {
		return best
	}
	limit = v.mt.steps + (limit-from)/2
	c.enrich(sheets, v.mt.steps+(limit-v.mt.steps)/8)
	for !v.mt.spent(limit) {
		if chosen := c.fit(sheets, limit); chosen != nil {
			return v.start(chosen, sheets)
		}
	}
	return best
}
