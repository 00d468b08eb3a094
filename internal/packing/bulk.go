package packing

import "slices"

// bulk fills sheets as patterns until few enough pieces are left to move them
// one by one. It takes what it lays from counts and returns the sheets and the
// stock still open.
func (v *solver) bulk(counts []int) ([]stacked, []int) {
	t := v.t
	open := make([]int, len(t.kinds))
	for i, k := range t.kinds {
		open[i] = k.n
	}
	var out []stacked
	left := t.total
	for left > directMost {
		ki := v.nextKind(counts, open)
		if ki < 0 {
			break
		}
		var b bin
		b.clear(int32(ki))
		if !v.thick(&b, counts) {
			break
		}
		held := b.held(len(t.parts))
		times := open[ki]
		for q, n := range held {
			if n > 0 {
				times = min(times, counts[q]/n)
			}
		}
		for q, n := range held {
			counts[q] -= n * times
			left -= n * times
		}
		open[ki] -= times
		out = append(out, stacked{b, times})
	}
	return out, open
}

// nextKind picks the stock to open: First before other, then the largest that
// can hold something.
func (v *solver) nextKind(counts, open []int) int {
	t := v.t
	best := -1
	for i := range t.kinds {
		k := &t.kinds[i]
		if open[i] == 0 {
			continue
		}
		if best >= 0 {
			b := &t.kinds[best]
			if b.first && !k.first || b.first == k.first && (b.score > k.score || b.score == k.score && b.cost <= k.cost) {
				continue
			}
		}
		for q := range t.parts {
			p := &t.parts[q]
			if counts[q] > 0 && (k.holds(p.w, p.h) || p.turn && k.holds(p.h, p.w)) {
				best = i
				break
			}
		}
	}
	return best
}

// held counts the parts on a sheet.
func (b *bin) held(parts int) []int {
	n := make([]int, parts)
	for i := range b.nodes {
		if b.nodes[i].dir == leaf {
			n[b.nodes[i].piece]++
		}
	}
	return n
}

// thick fills one sheet, large pieces first: rows of equal pieces where many
// go on a sheet, else each at its best spot.
func (v *solver) thick(b *bin, counts []int) bool {
	t := v.t
	by := make([]int, 0, len(counts))
	for q, n := range counts {
		if n > 0 {
			by = append(by, q)
		}
	}
	slices.SortStableFunc(by, func(x, y int) int {
		switch a, c := t.parts[x].score, t.parts[y].score; {
		case a > c:
			return -1
		case a < c:
			return 1
		}
		return 0
	})
	k := &t.kinds[b.kind]
	var r rng = 1
	for _, q := range by {
		p := &t.parts[q]
		for n := counts[q]; n > 0; n-- {
			if t.shift == 0 && k.score-b.used < p.score {
				break
			}
			if b.count > 2*directMost {
				return b.count > 0
			}
			at := spot{score: noScore}
			v.steps += int64(2 * len(b.nodes))
			t.seek(b, 0, p.w, p.h, false, &at, &r, 0)
			if p.turn {
				t.seek(b, 0, p.h, p.w, true, &at, &r, 0)
			}
			if at.score == noScore {
				break
			}
			w, h := p.w, p.h
			if at.turned {
				w, h = h, w
			}
			b.insert(at.node, at.dir, int32(q), w, h, at.turned, p.score)
			b.refresh(k)
		}
	}
	return b.count > 0
}
