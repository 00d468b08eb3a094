package packing

import "slices"

// bulk fills sheets as patterns, once and for all, while there are very many
// pieces and the meter is below limit. It takes what it lays from counts and
// open and returns the sheets.
func (v *solver) bulk(out []stacked, counts, open []int, limit int64) []stacked {
	left := 0
	for _, n := range counts {
		left += n
	}
	by := slices.Clone(v.ranked())
	for left > directMost && !v.mt.spent(limit) {
		by = slices.DeleteFunc(by, func(q int) bool { return counts[q] == 0 })
		s, ok := v.pattern(counts, open, by, false)
		if !ok {
			break
		}
		for _, h := range s.b.contents() {
			left -= h.n * s.times
			counts[h.part] -= h.n * s.times
		}
		open[s.b.kind] -= s.times
		out = append(out, s)
	}
	return out
}

// pattern fills a sheet with parts in the order of by and cuts it as often as
// the copies and the stock allow.
func (v *solver) pattern(counts, open, by []int, firstOnly bool) (stacked, bool) {
	t := v.t
	ki := v.nextKind(counts, open, by)
	if ki < 0 || firstOnly && !t.kinds[ki].first {
		return stacked{}, false
	}
	var b bin
	b.clear(int32(ki))
	if !v.thickBy(&b, counts, by, false) {
		return stacked{}, false
	}
	return stacked{b, b.times(counts, open[ki])}, true
}

// rounded lays the whole parts of a solution by column generation; nil if
// there is none, or none since the last.
func (v *solver) rounded(limit int64, counts, open []int) []stacked {
	t := v.t
	if len(t.parts) > 300 || v.cols != nil && !v.cols.over && v.cols.g.sort == gridExact {
		return nil
	}
	for _, k := range t.kinds {
		if k.mode != cutFree {
			return nil
		}
	}
	g, fine := v.grids(limit - v.mt.steps)
	if g == nil {
		return nil
	}
	// What First stock will take is left to the search.
	need, still := slices.Clone(counts), slices.Clone(open)
	for taken := 0; taken < directMost/2; {
		s, ok := v.pattern(need, still, v.ranked(), true)
		if !ok {
			break
		}
		for _, h := range s.b.contents() {
			need[h.part] -= h.n * s.times
			taken += h.n * s.times
		}
		still[s.b.kind] -= s.times
	}
	c := newColumns(t, v.mt, g, need)
	c.fine = fine
	c.v = v
	// The patterns so far are a start.
	if v.cols != nil {
		c.bins = append(c.bins, v.cols.bins[len(v.cols.rows):]...)
	}
	for i := range v.best[:min(len(v.best), directMost)] {
		c.bins = append(c.bins, v.best[i].b)
	}
	c.pool()
	for i := range t.kinds {
		c.open[i] = c.open[i] && open[i] > 0
	}
	c.run(noGoal, limit)
	if c.proof != nil {
		v.proofs = append(v.proofs, c.proof)
	}
	v.cols = c
	return c.whole(nil, need, counts, open)
}

// pool makes the patterns that are there a pool.
func (c *columns) pool() {
	c.pooled = len(c.bins)
	for i := len(c.rows); i < c.pooled; i++ {
		c.lists = append(c.lists, c.bins[i].contents())
	}
}

// whole lays the whole part of each pattern of the program, as far as pieces
// and stock go: off need and off counts.
func (c *columns) whole(out []stacked, need, counts, open []int) []stacked {
	for i, name := range c.lp.name {
		if name < 0 {
			continue
		}
		b := &c.bins[name]
		n := int(c.lp.x[i] + 1e-5)
		if b.kind < 0 || n <= 0 {
			continue
		}
		// Patterns may make more of a piece than is wanted: what is too many
		// is left out, and the room goes to the search.
		for n = min(n, open[b.kind]); n > 0; {
			if m := min(n, b.times(need, n)); m > 0 {
				out = c.lay(out, b, m, need, counts, open)
				n -= m
				continue
			}
			var less bin
			less.copyFrom(b)
			if !c.thin(&less, need) {
				break
			}
			b = &less
		}
	}
	return out
}

// thin takes pieces that are not needed off a sheet; false if none is left.
func (c *columns) thin(b *bin, need []int) bool {
	held := map[int]int{}
	for _, h := range b.contents() {
		held[h.part] = h.n
	}
	for x := range b.nodes {
		n := b.nodes[x]
		if n.dir != leaf || held[int(n.piece)] <= need[n.piece] {
			continue
		}
		held[int(n.piece)] -= n.copies()
		b.remove(int32(x), n.copies(), c.t.parts[n.piece].score)
	}
	c.mt.work(int64(8 * len(b.nodes)))
	if b.count == 0 {
		return false
	}
	b.refresh(&c.t.kinds[b.kind])
	return true
}

func (c *columns) lay(out []stacked, b *bin, n int, need, counts, open []int) []stacked {
	for _, h := range b.contents() {
		need[h.part] -= h.n * n
		counts[h.part] -= h.n * n
	}
	open[b.kind] -= n
	c.mt.work(int64(len(b.nodes) + len(out)))
	for i := range out {
		if slices.Equal(out[i].b.nodes, b.nodes) {
			out[i].times += n
			return out
		}
	}
	return append(out, stacked{*b, n})
}

// dive rounds one pattern after the other up, solving the program anew for
// what is left, until few pieces are left. It changes counts and open.
func (v *solver) dive(r *rng, few int, counts, open []int, limit int64) []stacked {
	t := v.t
	need := slices.Clone(v.cols.need)
	var out []stacked
	c := v.cols
	each := (limit - v.mt.steps) / 8
	for round := 0; !v.mt.spent(limit); round++ {
		out = c.whole(out, need, counts, open)
		left := 0
		for _, n := range need {
			left += n
		}
		if left <= few {
			break
		}
		if round == 0 {
			// The whole parts of the first solution stay, but for a few sheets
			// that give room to move.
			for n := r.below(4); n > 0 && len(out) > 0; n-- {
				i := r.below(len(out))
				f := &out[i]
				for _, h := range f.b.contents() {
					need[h.part] += h.n
					counts[h.part] += h.n
				}
				open[f.b.kind]++
				if f.times--; f.times == 0 {
					out = slices.Delete(out, i, i+1)
				}
			}
		}
		next := newColumns(t, v.mt, c.g, need)
		next.v = v
		next.bins = append(next.bins, v.cols.bins...)
		next.pool()
		for i := range t.kinds {
			next.open[i] = v.cols.open[i] && open[i] > 0
		}
		next.run(noGoal, v.mt.steps+each)
		c = next
		// Round up one of the fullest patterns that the pieces allow.
		at, top := -1, 0.0
		for i, name := range c.lp.name {
			if name < 0 || c.bins[name].kind < 0 {
				continue
			}
			b := &c.bins[name]
			x := float64(c.lp.x[i] * float64(16+r.below(8)))
			if x > top && open[b.kind] > 0 && b.times(need, 1) > 0 {
				at, top = name, x
			}
		}
		if at < 0 {
			break
		}
		out = c.lay(out, &c.bins[at], 1, need, counts, open)
	}
	return out
}

// gridMost is the number of points of an axis of the largest exact grid.
const gridMost = 640

// grids picks the grids for patterns that can be cut: an exact one alone if it
// is cheap, else a sparse one to begin with, and the exact one to end with if
// most steps allow that.
func (v *solver) grids(most int64) (g, fine *grid) {
	t := v.t
	exact := t.newGrid(v.mt, gridExact, gridMost, most/20)
	if exact != nil && exact.work()*80 <= most {
		return exact, nil
	}
	for n := 400; n > len(t.parts) && n >= 25; n = n * 3 / 4 {
		if g := t.newGrid(v.mt, gridSparse, n, most/65); g != nil {
			return g, exact
		}
	}
	return exact, nil
}

// noGoal as a goal never ends a run.
const noGoal = 1 << 30

// nextKind picks the stock to open: First before other, then the largest that
// can hold some of the parts in by.
func (v *solver) nextKind(counts, open, by []int) int {
	t := v.t
	best := -1
	work := int64(0)
	for i := range t.kinds {
		k := &t.kinds[i]
		if work++; open[i] == 0 {
			continue
		}
		if best >= 0 {
			b := &t.kinds[best]
			if b.first && !k.first || b.first == k.first && (b.score > k.score || b.score == k.score && b.cost <= k.cost) {
				continue
			}
		}
		for j := len(by) - 1; j >= 0; j-- { // small ones fit soonest
			p := &t.parts[by[j]]
			if work++; counts[by[j]] > 0 && (k.holds(p.w, p.h) || p.turn && k.holds(p.h, p.w)) {
				best = i
				break
			}
		}
	}
	v.mt.work(work/4 + 1)
	return best
}
