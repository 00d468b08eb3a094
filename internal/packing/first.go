package packing

import (
	"boardwrap.example/internal/inorder"
)

// first makes a layout of all that finds a place: a plain one, which neither
// budget nor Stopper cuts short, and then a better one. What the better one may
// charge depends on the problem alone; the rest of it is plain. It counts only
// if it comes to its end, so that a larger budget never gives less.
func (v *solver) first() {
	counts, open := v.t.stores()
	v.offer(v.finish(nil, counts, open), counts)
	if v.mt.spent(noLimit) {
		return
	}
	counts, open = v.t.stores()
	limit := v.mt.steps + 20_000 + int64(50*v.t.total)
	fixed := v.bulk(nil, counts, open, v.mt.steps+10_000+int64(25*v.t.total))
	left := 0
	for _, n := range counts {
		left += n
	}
	if left <= directMost {
		s := v.newSearch(counts, open)
		s.fill(0, limit)
		for i := range s.bins {
			fixed = append(fixed, stacked{s.bins[i], 1})
		}
		copy(open, s.open)
		clear(counts)
		for _, q := range s.pool {
			counts[q]++
		}
	}
	if !v.mt.spent(noLimit) {
		v.offer(v.finish(fixed, counts, open), counts)
	}
}

// near is how many of the sheets that finish opened last it looks at for
// another piece.
const near = 2

// finish lays what is left in a time that grows with the number of kinds of
// pieces and of sheets used, not with its square: equal pieces in blocks, each
// kind on the sheets opened last or on a new one. It takes what it lays from
// counts and open. Neither budget nor Stopper ends it.
func (v *solver) finish(out []stacked, counts, open []int) []stacked {
	t := v.t
	pref := t.preferred()
	var late []int // in out
	for _, q := range v.ranked() {
		last := -1
		for counts[q] > 0 {
			for _, i := range late {
				if out[i].times == 1 && len(out[i].b.nodes) < 24 {
					counts[q] -= v.add(&out[i].b, q, counts[q], 24)
				}
			}
			if counts[q] == 0 {
				break
			}
			ki := v.holder(q, last, pref, open)
			if ki < 0 {
				break
			}
			last = ki
			b := bin{nodes: make([]node, 0, 16)} // or it grows, step by step
			b.clear(int32(ki))
			n := v.add(&b, q, counts[q], 256)
			times := min(counts[q]/n, open[ki])
			counts[q] -= n * times
			open[ki] -= times
			out = append(out, stacked{b, times})
			if late = append(late, len(out)-1); len(late) > near {
				late = late[1:]
			}
		}
	}
	return out
}

// holder picks the kind of a new sheet for part q: the last one again if that
// is ordinary, else the first of the preferred ones.
func (v *solver) holder(q, last int, pref, open []int) int {
	p := &v.t.parts[q]
	holds := func(ki int) bool {
		k := &v.t.kinds[ki]
		return open[ki] > 0 && (k.holds(p.w, p.h) || p.turn && k.holds(p.h, p.w))
	}
	if last >= 0 && !v.t.kinds[last].first && holds(last) {
		return last
	}
	for i, ki := range pref {
		if holds(ki) {
			v.mt.work(int64(i)/4 + 1)
			return ki
		}
	}
	v.mt.work(int64(len(pref))/4 + 1)
	return -1
}

// preferred orders the kinds of sheets: First before other, smaller First
// before larger, larger ordinary before smaller.
func (t *task) preferred() []int {
	by := make([]int, len(t.kinds))
	for i := range by {
		by[i] = i
	}
	inorder.Sort(by, func(a, b int) int {
		ka, kb := &t.kinds[a], &t.kinds[b]
		switch {
		case ka.first != kb.first:
			if ka.first {
				return -1
			}
			return 1
		case ka.score != kb.score:
			if (ka.score < kb.score) == ka.first {
				return -1
			}
			return 1
		}
		return int((ka.cost-kb.cost)>>63) | int(min(1, max(0, ka.cost-kb.cost)))
	})
	return by
}

// add lays up to n of part q on a sheet while it has fewer than most nodes,
// and returns how many.
func (v *solver) add(b *bin, q, n, most int) int {
	t := v.t
	p := &t.parts[q]
	k := &t.kinds[b.kind]
	var r rng = 1
	laid := 0
	for laid < n && len(b.nodes) < most {
		if k.most-b.used < p.score {
			break
		}
		at := spot{score: noScore}
		work := t.seek(b, 0, p.w, p.h, false, &at, &r, 0)
		if p.turn {
			work += t.seek(b, 0, p.h, p.w, true, &at, &r, 0)
		}
		v.mt.work(work + int64(len(b.nodes)))
		if at.score == noScore {
			break
		}
		laid += t.block(b, at, int32(q), n-laid)
	}
	return laid
}
