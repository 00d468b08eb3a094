package propose

import (
	"slices"

	"boardwrap.example/units"
)

// rows lays boxes out in plain level rows, the highest first, half of the rows on
// each cover, or all on one where there are groups: for a folio to begin with, and
// for so many that not every layout can be looked at. It gives one candidate for
// each of some widths.
func (s *searcher) rows(boxes []box) []candidate {
	var all []shape
	for kind, b := range boxes {
		for range b.count {
			all = append(all, shape{w: b.w, h: b.h, kind: kind})
		}
	}
	slices.SortStableFunc(all, func(a, b shape) int { return compare(b.h, a.h) })
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
		half := len(list) / 2
		if slices.ContainsFunc(s.request.Things, func(t Thing) bool { return t.Group != "" }) {
			half = 0
		}
		c.left, c.right = over(list[:half], gap), over(list[half:], gap)
		w, h := c.right.w, c.right.h
		if c.left != nil {
			w, h = max(w, c.left.w), max(h, c.left.h)
		}
		c.cover = s.around(w, h)
		out = append(out, c)
	}
	sortCovers(out)
	return out
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
