package packing

import (
	"slices"

	"boardwrap.example/internal/inorder"
)

// settle makes a layout cheaper without more sheets: what is on a sheet may go
// on a cheaper one, and First sheets may be spared.
func (v *solver) settle(limit int64) {
	if !v.t.mixed() || v.settled() {
		return
	}
	v.spare(limit)
	v.cheapen(limit)
}

// left is the stock that a layout leaves.
func (v *solver) left(sheets []stacked) []int {
	_, open := v.t.stores()
	for i := range sheets {
		open[sheets[i].b.kind] -= sheets[i].times
	}
	return open
}

// cheapen moves the contents of sheets to cheaper stock.
func (v *solver) cheapen(limit int64) {
	t := v.t
	by := make([]int, len(t.kinds))
	for i := range by {
		by[i] = i
	}
	inorder.Sort(by, func(a, b int) int {
		switch x, y := t.kinds[a].cost, t.kinds[b].cost; {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	sheets := slices.Clone(v.best)
	open := v.left(sheets)
	for i := 0; i < len(sheets); i++ {
		from := &t.kinds[sheets[i].b.kind]
		for _, to := range by {
			k := &t.kinds[to]
			if v.mt.work(1); k.cost >= from.cost || v.mt.spent(limit) {
				break
			}
			if open[to] == 0 || k.first != from.first && !k.first {
				continue
			}
			b, ok := v.moved(&sheets[i].b, to, limit)
			if !ok {
				continue
			}
			n := min(open[to], sheets[i].times)
			open[to] -= n
			open[sheets[i].b.kind] += n
			rest := stacked{sheets[i].b, sheets[i].times - n}
			sheets[i] = stacked{b, n}
			if rest.times > 0 {
				sheets = append(sheets, rest)
			}
			break
		}
	}
	v.offer(sheets, v.short)
}

// moved lays the contents of a sheet on one of another kind, if it can.
func (v *solver) moved(b *bin, kind int, limit int64) (bin, bool) {
	t := v.t
	k := &t.kinds[kind]
	v.mt.work(int64(3*len(b.nodes)) + 1)
	var c bin
	c.copyFrom(b)
	c.kind = int32(kind)
	if r := &c.nodes[c.root]; r.w <= k.w && r.h <= k.h {
		if c.refresh(k); c.legal(k) {
			return c, true
		}
	}
	if b.used > k.score+k.score/64 || b.count > directMost/4 {
		return c, false
	}
	counts := make([]int, len(t.parts))
	for _, h := range b.contents() {
		p := &t.parts[h.part]
		if !k.holds(p.w, p.h) && !(p.turn && k.holds(p.h, p.w)) {
			return c, false
		}
		counts[h.part] = h.n
	}
	open := make([]int, len(t.kinds))
	s := v.newSearch(counts, open)
	s.grow(int32(kind))
	pool := slices.Clone(s.pool)
	for how := 0; how < 6; how++ {
		s.pool = append(s.pool[:0], pool...)
		s.bins[0].clear(int32(kind))
		s.fill(how, limit)
		if len(s.pool) == 0 {
			return s.bins[0], true
		}
	}
	if s.run(min(limit, v.mt.steps+int64(2000*b.count))) {
		return s.bins[0], true
	}
	return c, false
}

// spare tries to do without each First sheet in turn, dearest first, and
// without more of anything else.
func (v *solver) spare(limit int64) {
	t := v.t
	var tried []int32
	for v.m.first > 0 && !v.mt.spent(limit) {
		v.mt.work(int64(len(v.best)) + 1)
		at := -1
		for i := range v.best {
			b := &v.best[i].b
			k := &t.kinds[b.kind]
			if !k.first || slices.Contains(tried, b.kind) || b.count > directMost/4 {
				continue
			}
			if at < 0 || k.cost > t.kinds[v.best[at].b.kind].cost {
				at = i
			}
		}
		if at < 0 {
			return
		}
		kind := v.best[at].b.kind
		// Few enough sheets to search over.
		var fixed, loose []stacked
		pieces := 0
		for i, s := range v.best {
			if i == at {
				loose = append(loose, stacked{s.b, 1})
				s.times--
			}
			for s.times > 0 && pieces+s.b.count <= directMost/2 {
				loose = append(loose, stacked{s.b, 1})
				pieces += s.b.count
				s.times--
			}
			if s.times > 0 {
				fixed = append(fixed, s)
			}
		}
		s := v.newSearch(nil, make([]int, len(t.kinds)))
		s.away = v.short
		for i := range loose {
			if loose[i].b.kind == kind && loose[i].b.count == v.best[at].b.count && len(s.pool) == 0 {
				for _, h := range loose[i].b.contents() {
					for ; h.n > 0; h.n-- {
						s.pool = append(s.pool, int32(h.part))
					}
				}
				continue
			}
			s.grow(loose[i].b.kind)
			s.bins[len(s.bins)-1].copyFrom(&loose[i].b)
		}
		ok := s.run(v.mt.steps + (limit-v.mt.steps)/8 + 1)
		if !ok || !v.offer(v.together(fixed, s)) {
			tried = append(tried, kind)
		}
	}
}

// gather drives what is left over together, so that the largest offcut grows
// while the sheets stay as they are.
func (v *solver) gather(limit int64) {
	t := v.t
	moved := 0
	var fixed []stacked
	s := v.newSearch(nil, make([]int, len(t.kinds)))
	for i := range v.best {
		b := &v.best[i]
		if b.times > 1 || moved+b.b.count > directMost/2 {
			fixed = append(fixed, *b)
			continue
		}
		moved += b.b.count
		s.grow(b.b.kind)
		s.bins[len(s.bins)-1].copyFrom(&b.b)
	}
	if moved == 0 {
		return
	}
	s.away = v.short
	end := min(limit, v.mt.steps+int64(10_000*moved))
	s.remember()
	cur := s.cost()
	best := v.m.offcut
	for !v.mt.spent(end) {
		v.mt.work(16 + int64(2*len(s.bins)))
		s.begin()
		s.ruin()
		if !s.recreate(64, -noLimit) { // whatever is left out is too much
			s.revert()
			continue
		}
		c := s.cost()
		top := Area{}
		empty := false
		for i := range s.bins {
			if a := s.bins[i].offcut(&t.kinds[s.bins[i].kind]); s.bins[i].count > 0 && a.Cmp(top) > 0 {
				top = a
			}
			empty = empty || s.bins[i].count == 0
		}
		if top.Cmp(best) > 0 || empty {
			if v.offer(v.together(fixed, s)) {
				best = v.m.offcut
			}
		}
		if c <= cur {
			cur = c
			s.commit()
		} else {
			s.revert()
		}
		if empty {
			break
		}
	}
}
