package packing

import (
	"boardwrap.example/internal/inorder"
	"cmp"
	"slices"
)

// A picker looks for so many of the contents seen that hold all pieces, by going
// through them. The prices of the program say how much may be wasted: what a
// sheet falls short of its price, and what is on two sheets at once, add up to
// what the program falls short of the number of sheets, whichever are picked. So
// there is little to go through where that is little.
type picker struct {
	c      *cover
	pi     []float64
	left   []int   // of need, by part
	order  []int   // parts, those on fewest contents first
	with   [][]int // by part: contents that hold it, least waste first
	chosen []int
	limit  int64
}

// pick returns contents for so many sheets, nil if there are none that it finds
// before limit.
func (c *cover) pick(sheets int, limit int64) []int {
	mt := c.v.mt
	p := &picker{c: c, pi: slices.Clone(c.lp.prices()), left: slices.Clone(c.need), with: make([][]int, len(c.need)), limit: limit}
	spare := float64(sheets) + 1e-6
	for i, q := range c.rows {
		spare -= float64(p.pi[i] * float64(c.need[q]))
	}
	if spare < 0 {
		return nil
	}
	key := make([]int64, len(c.of.lists))
	for i, list := range c.of.lists {
		waste := 1 - c.gain(list, p.pi)
		if waste > spare {
			continue
		}
		// Those that waste about as much come in an order by chance, another each time,
		// so that a search that does not come to its end is not the same again.
		key[i] = int64(waste*(1<<20))<<8 + int64(c.v.chance.below(1<<14))
		for _, h := range list {
			if c.row[h.part] >= 0 {
				p.with[h.part] = append(p.with[h.part], i)
			}
		}
		mt.work(int64(4 * len(list)))
	}
	mt.work(int64(len(key)))
	for _, list := range p.with {
		inorder.Sort(list, func(a, b int) int { return cmp.Compare(key[a], key[b]) })
	}
	p.order = ranked(len(c.need), func(q int) int64 { return -int64(len(p.with[q])) })
	if !p.lay(sheets, spare) {
		return nil
	}
	return p.chosen
}

// lay picks for what is left, and reports whether it came to the end of it.
func (p *picker) lay(sheets int, spare float64) bool {
	c := p.c
	first := -1
	for _, q := range p.order {
		if c.row[q] >= 0 && p.left[q] > 0 {
			first = q
			break
		}
	}
	if first < 0 {
		return true
	}
	if sheets == 0 {
		return false
	}
	c.v.mt.work(8)
	for _, i := range p.with[first] {
		list := c.of.lists[i]
		waste := 1.0
		for _, h := range list {
			if r := c.row[h.part]; r >= 0 {
				waste -= float64(p.pi[r] * float64(min(h.n, p.left[h.part])))
			}
		}
		if c.v.mt.work(int64(len(list))); c.v.mt.spent(p.limit) {
			return false
		}
		if waste > spare {
			continue
		}
		taken := make([]int, len(list))
		for j, h := range list {
			taken[j] = min(h.n, p.left[h.part])
			p.left[h.part] -= taken[j]
		}
		p.chosen = append(p.chosen, i)
		if p.lay(sheets-1, spare-waste) {
			return true
		}
		p.chosen = p.chosen[:len(p.chosen)-1]
		for j, h := range list {
			p.left[h.part] += taken[j]
		}
	}
	return false
}
