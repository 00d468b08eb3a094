package packing

import (
	"slices"

	"boardwrap.example/internal/inorder"
)

// improve removes and re-inserts pieces with one sheet fewer as the goal.
func (v *solver) improve(limit int64) {
	v.settleOn()
	if len(v.fixed) == 0 {
		if v.weaves(limit - v.mt.steps) {
			v.weave(limit)
		} else {
			if v.beams(limit - v.mt.steps) {
				v.brim(v.mt.steps + (limit-v.mt.steps)/2)
				v.lay(limit)
			}
			v.hunt(limit)
		}
		return
	}
	// Many short runs from different starts do better than a long one where
	// most sheets stand fixed.
	slice := (limit-v.mt.steps)/12 + 1
	for !v.mt.spent(limit) && !v.done() {
		v.tries++
		from := v.mt.steps
		if v.cols == nil || v.tries%3 != 2 {
			v.hunt(min(limit, from+slice))
			if v.done() || len(v.fixed) == 0 {
				return
			}
			v.free()
		} else {
			v.plunge(min(limit, from+2*slice))
		}
		if v.mt.steps-from < slice/4 {
			// Nothing to move: the time is not waited for, but it ends.
			v.mt.work(slice / 4)
		}
	}
}

// settleOn chooses the sheets to leave alone: what is cut more than once, and
// the fullest of the others if there are many pieces.
func (v *solver) settleOn() {
	t := v.t
	_, v.open = t.stores()
	v.fixed = nil
	v.mt.work(int64(len(v.best)) + 1)
	most := t.movable()
	if t.total-v.m.short <= most {
		return
	}
	free := func(s *stacked) int64 {
		k := &t.kinds[s.b.kind]
		return (k.score - s.b.used) * 4096 / k.score
	}
	inorder.Sort(v.best, func(a, b stacked) int {
		switch {
		case (a.times > 1) != (b.times > 1):
			if a.times > 1 {
				return -1
			}
			return 1
		case a.times > 1:
			return 0
		}
		return int(free(&a) - free(&b))
	})
	at := len(v.best)
	for moved := 0; at > 0; at-- {
		s := &v.best[at-1]
		if moved += s.b.count; s.times > 1 || moved > most/2 {
			break
		}
	}
	for _, s := range v.best[:at] {
		v.fixed = append(v.fixed, s)
		v.open[s.b.kind] -= s.times
	}
}

// movable is how many pieces are moved one by one. Where most are different
// there are no patterns to be cut again and again, and all are.
func (t *task) movable() int {
	if t.total <= 2*len(t.parts) {
		return 2 * MaxKinds
	}
	return directMost
}

// plunge rounds the program of a batch up, pattern by pattern, and hunts on
// from there.
func (v *solver) plunge(limit int64) {
	if v.r == 0 {
		v.r = 99
	}
	w := &solver{t: v.t, mt: v.mt, lower: v.lower, why: v.why, proofs: v.proofs, cols: v.cols, bySize: v.bySize}
	counts, open := v.t.stores()
	w.fixed = w.dive(&v.r, 30+v.r.below(60), counts, open, limit)
	left := 0
	for _, n := range counts {
		left += n
	}
	if left > directMost {
		return
	}
	w.open = open
	for how := 0; how < 5 && (how == 0 || !v.mt.spent(limit)); how++ {
		s := w.newSearch(counts, open)
		if !s.fill(how, noLimit) {
			break
		}
		w.offer(w.together(w.fixed, s))
	}
	if w.best == nil {
		return
	}
	w.allShow = w.m.short == 0
	if w.m.short <= v.m.short && !w.done() {
		w.hunt(limit)
	}
	if v.offer(w.best, w.short) {
		v.bounds(10_000)
		v.fixed, v.open = w.fixed, w.open
	}
}

// large reports whether a hunt is gone on with in the next stage: it is far from its end
// where there are many pieces, all of them move, and all sheets are alike.
func (v *solver) large() bool {
	return v.t.total > weaveMost && len(v.fixed) == 0 && v.m.short == 0 && !v.t.mixed()
}

// free makes some of the fixed sheets movable again: one of each pattern, until
// there are many pieces.
func (v *solver) free() {
	moved := 0
	for i := range v.best[len(v.fixed):] {
		moved += v.best[len(v.fixed)+i].b.count
	}
	v.mt.work(int64(2*len(v.best)) + 1)
	room := max(40, min(directMost-moved, moved/2))
	var kept, freed []stacked
	for _, f := range v.fixed {
		if room > 0 && f.b.count <= directMost/2 {
			room -= f.b.count
			freed = append(freed, stacked{f.b, 1})
			v.open[f.b.kind]++
			f.times--
		}
		if f.times > 0 {
			kept = append(kept, f)
		}
	}
	// Next time others first.
	if n := len(freed); n < len(kept) {
		kept = slices.Concat(kept[n:], kept[:n])
	}
	v.best = slices.Concat(kept, v.best[len(v.fixed):], freed)
	v.fixed = kept
}

// hunt is improve with the fixed sheets left as they are.
func (v *solver) hunt(limit int64) {
	s := v.begun
	if v.begun = nil; s != nil && len(s.bins) == v.m.ordinary-1 {
		s.calm, s.limit = true, limit
		if !s.run(limit) {
			v.begun = s
			return
		}
		s.calm = false
		v.offer(v.together(nil, s))
	} else {
		s = v.resume()
		s.limit = limit
	}
	if v.m.short > 0 {
		// All stock is in use: place more pieces first.
		for _, k := range v.t.kinds {
			s.fine = max(s.fine, 8*k.score)
		}
		least := len(s.pool)
		s.note = func() {
			if len(s.pool) < least {
				least = len(s.pool)
				v.offer(v.together(v.fixed, s))
			}
		}
		if !s.run(limit) {
			v.bounds(10_000)
			return
		}
		s.fine, s.note = 0, nil
		v.offer(v.together(v.fixed, s))
		v.bounds(10_000)
	}
	// First stock that is still closed may save an ordinary sheet.
	for i, k := range v.t.kinds {
		for k.first && s.open[i] > 0 && len(s.bins) < 4*len(v.best)+16 {
			s.open[i]--
			s.grow(int32(i))
		}
	}
	v.mt.work(int64(len(v.t.kinds)) + 1)
	for !v.done() && !v.mt.spent(limit) {
		if !s.dissolve() {
			return
		}
		if !s.run(limit) {
			if v.large() && len(s.bins) > allBins && len(s.bins) == v.m.ordinary-1 {
				v.begun = s
			}
			return
		}
		v.offer(v.together(v.fixed, s))
	}
}
