package packing

import "boardwrap.example/internal/inorder"

// An amount is a number of copies of a part.
type amount struct{ part, n int }

// times is how often the pieces on the sheet are there.
//
//go:noinline
func (b *bin) times(counts []int, most int) int {
	for _, h := range b.contents() {
		most = min(most, counts[h.part]/h.n)
	}
	return most
}

// contents lists the parts on a sheet, by rising part.
func (b *bin) contents() []amount {
	var all []amount
	for i := range b.nodes {
		if n := &b.nodes[i]; n.dir == leaf {
			all = append(all, amount{int(n.piece), n.copies()})
		}
	}
	inorder.Sort(all, func(x, y amount) int { return x.part - y.part })
	to := all[:0]
	for _, h := range all {
		if n := len(to); n > 0 && to[n-1].part == h.part {
			to[n-1].n += h.n
			continue
		}
		to = append(to, h)
	}
	return to
}

// ranked returns 0 … n−1 in the order of a key, largest first.
func ranked(n int, key func(q int) int64) []int {
	by := make([]int, n)
	for q := range by {
		by[q] = q
	}
	inorder.Sort(by, func(x, y int) int {
		switch a, c := key(x), key(y); {
		case a > c:
			return -1
		case a < c:
			return 1
		}
		return 0
	})
	return by
}

// ranked is the parts, largest first.
func (v *solver) ranked() []int {
	if v.bySize == nil {
		v.bySize = ranked(len(v.t.parts), func(q int) int64 { return v.t.parts[q].score })
	}
	return v.bySize
}

// thickBy fills one sheet in blocks of equal pieces, parts in the order of by;
// single lays pieces one by one. It reports false if nothing fits.
func (v *solver) thickBy(b *bin, counts, by []int, single bool) bool {
	t := v.t
	k := &t.kinds[b.kind]
	var r rng = 1
	for _, q := range by {
		p := &t.parts[q]
		v.mt.work(1)
		for n := counts[q]; n > 0; {
			if k.most-b.used < p.score {
				break
			}
			if len(b.nodes) > 4*directMost || v.mt.spent(noLimit) {
				return b.count > 0
			}
			at := spot{score: noScore}
			work := t.seek(b, 0, p.w, p.h, false, &at, &r, 0)
			if p.turn {
				work += t.seek(b, 0, p.h, p.w, true, &at, &r, 0)
			}
			v.mt.work(work)
			if at.score == noScore {
				break
			}
			v.mt.work(int64(len(b.nodes)))
			if single {
				n -= t.block(b, at, int32(q), 1)
			} else {
				n -= t.block(b, at, int32(q), n)
			}
		}
	}
	return b.count > 0
}

// block puts as many of n equal pieces at a spot as stand there without making
// the row or column thicker than one piece does, and returns how many.
func (t *task) block(b *bin, at spot, q int32, n int) int {
	k := &t.kinds[b.kind]
	w, h := t.parts[q].w, t.parts[q].h
	if at.turned {
		w, h = h, w
	}
	// Room along the row or column, and across it.
	var nx, ny int64
	if at.node < 0 {
		nx, ny = k.w/w, k.h/h
	} else if o := &b.nodes[at.node]; at.dir == row {
		nx, ny = (o.aw-o.w)/w, max(1, o.h/h)
	} else {
		nx, ny = max(1, o.w/w), (o.ah-o.h)/h
	}
	switch k.mode { // a strip is no thicker than the longest cut
	case cutRows:
		ny = min(ny, max(1, k.limit/h))
	case cutCols:
		nx = min(nx, max(1, k.limit/w))
	}
	m := int64(n)
	if at.dir == row && at.node >= 0 {
		ny = min(ny, m)
		nx = min(nx, m/ny)
	} else {
		nx = min(nx, m)
		ny = min(ny, m/nx)
	}
	if k.mode != cutFree && nx*ny > 1 {
		fits := func(nx, ny int64) bool {
			if at.node < 0 {
				return k.holds(nx*w, ny*h)
			}
			return t.lawful(b, at.node, at.dir, nx*w, ny*h)
		}
		switch {
		case fits(nx, ny):
		case fits(nx, 1):
			ny = 1
		case fits(1, ny):
			nx = 1
		default:
			nx, ny = 1, 1
		}
	}
	l := b.insert(at.node, at.dir, q, nx*w, ny*h, at.turned, t.parts[q].score*nx*ny)
	b.nodes[l].nx, b.nodes[l].ny = int32(nx), int32(ny)
	b.count += int(nx*ny) - 1
	b.refresh(k)
	return int(nx * ny)
}

// stores returns all pieces by part and all sheets by kind.
//
//go:noinline
func (t *task) stores() (counts, open []int) {
	for _, p := range t.parts {
		counts = append(counts, p.n)
	}
	for _, k := range t.kinds {
		open = append(open, k.n)
	}
	return
}

// outOf takes what is on a sheet out of what is needed.
//
//go:noinline
func (b *bin) outOf(need []int) {
	for _, h := range b.contents() {
		need[h.part] -= h.n
	}
}
