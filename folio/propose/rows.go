package propose

import (
	"cmp"
	"slices"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
)

// rows lays boxes out in plain level rows, the highest first, as many on each of the
// widest boards, or all on one where there are groups: for a folio to begin with,
// and for so many that not every layout can be looked at. It gives one candidate for
// each of some widths.
func (s *searcher) rows(boxes []box) []candidate {
	var all []shape
	for kind, b := range boxes {
		for range b.count {
			all = append(all, shape{w: b.w, h: b.h, kind: kind})
		}
	}
	inorder.Sort(all, func(a, b shape) int { return cmp.Compare(b.h, a.h) })
	gap := s.between
	var widest, least, most units.Length
	for _, b := range boxes {
		widest, least = max(widest, b.w), max(least, b.height)
		if b.mouth {
			gap = max(gap, s.grip)
		}
	}
	most = 2 * least
	limit := s.largest().W
	var out []candidate
	for across := 1; across <= len(all) && across <= 16; across++ {
		width, ok := (widest + gap).Times(int64(across))
		if width -= gap; !ok || width > limit && across > 1 {
			break
		}
		s.spend(2 * stepsOfShape * len(all))
		c := candidate{least: least, most: most}
		list := inRows(all, width, gap)
		c.parts = make([]*shape, len(s.leaves))
		on := s.widest()
		if slices.ContainsFunc(s.request.Things, func(t Thing) bool { return t.Group != "" }) {
			on = on[:1]
		}
		var w, h units.Length
		for i, leaf := range on {
			part := over(list[len(list)*i/len(on):len(list)*(i+1)/len(on)], gap)
			if c.parts[leaf] = part; part != nil {
				w, h = max(w, part.w), max(h, part.h)
			}
		}
		if c.cover.W, ok = s.surelyOn(on[0], w); !ok {
			continue
		}
		c.cover.H = s.ruler.Up(h + s.extra + s.more)
		out = append(out, c)
	}
	sortCovers(out)
	return out
}

// widest lists the boards as wide as the widest of the roomy case, the one on the
// table last, or first where it is alone.
func (s *searcher) widest() []int {
	best := s.main
	wide := func(i int) units.Length { return s.leaves[i].board(s.ample(), s.ruler) }
	for i := range s.leaves {
		if wide(i) > wide(best) {
			best = i
		}
	}
	var out []int
	for i := range s.leaves {
		if i != best && s.leaves[i].like(&s.leaves[best]) {
			out = append(out, i)
		}
	}
	return append(out, best)
}

// inRows fills rows of a width.
func inRows(all []shape, width, gap units.Length) []*shape {
	var list []*shape
	var row *shape
	for i := range all {
		one := &all[i]
		switch {
		case row == nil:
			row = one
		case row.w+gap+one.w <= width:
			row = &shape{w: row.w + gap + one.w, h: max(row.h, one.h), cut: upright, a: row, b: one}
		default:
			list, row = append(list, row), one
		}
	}
	return append(list, row)
}

// over lays rows one over the other; nil for none.
func over(list []*shape, gap units.Length) *shape {
	var all *shape
	for _, row := range list {
		if all == nil {
			all = row
			continue
		}
		all = &shape{w: max(all.w, row.w), h: all.h + gap + row.h, cut: level, a: all, b: row}
	}
	return all
}
