package packing

// spot is a place where a piece can join a tree.
type spot struct {
	bin    int32
	node   int32 // -1: the sheet is empty
	dir    dir
	turned bool
	score  int64
}

const noScore = int64(1) << 62

// seek finds the best spot for a w × h piece in b, if any beats the score in
// best. noise > 0 shakes scores by up to that many 1/256 parts. It returns the
// steps that it took.
func (t *task) seek(b *bin, bi int32, w, h int64, turned bool, best *spot, r *rng, noise int) int64 {
	k := &t.kinds[b.kind]
	if b.root < 0 {
		if k.holds(w, h) {
			s := t.loose(k.w-w, h) + t.loose(k.h-h, w)
			if s < best.score {
				*best = spot{bi, -1, row, turned, s}
			}
		}
		return 1
	}
	sh := t.shift
	work := int64(len(b.nodes))
	try := work // for each try of an insertion on a copy
	if k.mode == cutFree {
		try = 0
	}
	for x := range b.nodes {
		n := &b.nodes[x]
		if n.dir == dead {
			continue
		}
		if n.opts&optRow != 0 && n.w+w <= n.aw && h <= n.ah {
			// Beside n: heights differ by d, and aw−n.w−w is left over.
			var s int64
			if h <= n.h {
				s = ((n.h - h) >> sh) * (w >> sh)
			} else {
				s = ((h - n.h) >> sh) * (n.w >> sh)
			}
			s += (((n.aw - n.w - w) >> sh) * (h >> sh)) >> 1
			s = shake(s, r, noise)
			if s < best.score {
				if work += 2 * try; t.lawful(b, int32(x), row, w, h) {
					*best = spot{bi, int32(x), row, turned, s}
				}
			}
		}
		if n.opts&optCol != 0 && n.h+h <= n.ah && w <= n.aw {
			var s int64
			if w <= n.w {
				s = ((n.w - w) >> sh) * (h >> sh)
			} else {
				s = ((w - n.w) >> sh) * (n.h >> sh)
			}
			s += (((n.ah - n.h - h) >> sh) * (w >> sh)) >> 1
			s = shake(s, r, noise)
			if s < best.score {
				if work += 2 * try; t.lawful(b, int32(x), col, w, h) {
					*best = spot{bi, int32(x), col, turned, s}
				}
			}
		}
	}
	return work
}

func (t *task) loose(gap, side int64) int64 { return ((gap >> t.shift) * (side >> t.shift)) >> 2 }

func shake(s int64, r *rng, noise int) int64 {
	if noise == 0 {
		return s
	}
	return s + s*int64(r.below(noise))>>8
}

// lawful checks the longest cut by trying the insertion on a copy.
func (t *task) lawful(b *bin, x int32, d dir, w, h int64) bool {
	k := &t.kinds[b.kind]
	if k.mode == cutFree {
		return true
	}
	c := &t.trial
	c.copyFrom(b)
	c.insert(x, d, 0, w, h, false, 0)
	c.refresh(k)
	return c.legal(k)
}
