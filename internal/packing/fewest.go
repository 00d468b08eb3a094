package packing

import (
	"boardwrap.example/internal/inorder"
	"math/bits"
	"slices"
)

// trySets is the number of pieces up to which the sets of pieces that one sheet
// holds are listed, where all sheets are alike. There are few where pieces are
// large.
const trySets = 20

// listable reports whether list is worth a try.
func (v *solver) listable() bool {
	t := v.t
	k := &t.kinds[0]
	return t.total > MaxExact && t.total <= trySets && v.m.short == 0 &&
		len(t.kinds) == 1 && !k.first && k.mode == cutFree && k.n >= v.m.ordinary
}

// list finds the fewest sheets by going through the sets of pieces that one sheet
// holds. What does not come to an end before limit is tried again in the next
// stage.
func (v *solver) list(limit int64) { v.tried = v.listed(limit) || !v.mt.spent(limit) }

// listed is list; it reports whether it came to an end.
func (v *solver) listed(limit int64) bool {
	e := newExact(v.t, v.mt, limit)
	if !e.boxes() {
		return false
	}
	c := v.newCovering(e)
	for v.m.ordinary > v.lower {
		found, ok := c.try(v.m.ordinary - 1)
		if !ok || v.mt.spent(noLimit) { // what comes now would not count
			return false
		}
		if !found {
			v.lower, v.size = v.m.ordinary, e.boxed()
			return true
		}
		var out []stacked
		for _, set := range c.chosen {
			out = append(out, stacked{e.tree(split{0, set}), 1})
		}
		v.offer(out, make([]int, len(v.t.parts)))
		v.bounds(10_000)
	}
	return true
}

// boxed is the number of subsets that a sheet holds.
func (e *exact) boxed() int {
	n := 0
	for _, m := range e.many {
		if m > 0 {
			n++
		}
	}
	return n
}

// covering looks for a number of sheets that hold all pieces: the first piece
// that has no sheet yet goes on one, with as much of what is left as goes with
// it.
type covering struct {
	e      *exact
	first  []int   // pieces in the order in which they are laid
	with   [][]int // by piece: the sets held in which it is the first
	worths []prices
	failed []uint8 // by set of pieces left: one more than the sheets that do not do
	chosen []int
}

// prices are those of a worth, by piece.
type prices struct {
	of  []int64
	cap int64
}

func (v *solver) newCovering(e *exact) *covering {
	c := &covering{e: e, with: make([][]int, e.n), failed: make([]uint8, 1<<e.n)}
	c.first = ranked(e.n, func(i int) int64 { return v.t.parts[e.parts[i]].score })
	rank := make([]int, e.n)
	for r, i := range c.first {
		rank[i] = r
	}
	used := map[int]int64{}
	for m := 1; m < len(e.many); m++ {
		if e.many[m] == 0 {
			continue
		}
		low := -1
		for s := uint(m); s != 0; s &= s - 1 {
			i := bits.TrailingZeros(s)
			used[m] += v.t.parts[e.parts[i]].score
			if low < 0 || rank[i] < rank[low] {
				low = i
			}
		}
		c.with[low] = append(c.with[low], m)
		e.m.work(8)
	}
	for _, list := range c.with {
		inorder.Sort(list, func(a, b int) int { return int(used[b] - used[a]) })
	}
	for _, w := range append(slices.Clone(v.proofs), v.why) {
		if w != nil {
			c.price(w)
		}
	}
	return c
}

// price has a worth bound what the sheets that are left can hold, if its numbers
// are small enough to be added up.
func (c *covering) price(w *worth) {
	const most = 1 << 57 // trySets times that is less than 2⁶³
	p := prices{cap: int64(w.cap[0].Lo)}
	if w.cap[0].Hi > 0 || w.cap[0].Lo > most {
		return
	}
	for _, q := range c.e.parts {
		if a := w.part[q]; a.Hi > 0 || a.Lo > most {
			return
		}
		p.of = append(p.of, int64(w.part[q].Lo))
	}
	c.worths = append(c.worths, p)
}

// try looks for so many sheets; ok is false if the budget did not do.
func (c *covering) try(sheets int) (found, ok bool) {
	c.chosen = c.chosen[:0]
	return c.lay(len(c.failed)-1, sheets)
}

// lay lays the pieces of rest on so many sheets.
func (c *covering) lay(rest, sheets int) (found, ok bool) {
	if rest == 0 {
		return true, true
	}
	if sheets <= 0 || int(c.failed[rest]) > sheets || c.tooMuch(rest, sheets) {
		return false, true
	}
	at := 0
	for rest>>c.first[at]&1 == 0 {
		at++
	}
	work := int64(16)
	for _, set := range c.with[c.first[at]] {
		if work++; set&^rest != 0 || !c.full(set, rest) {
			continue
		}
		if work += 64; !c.e.spend(work) {
			return false, false
		}
		work = 0
		c.chosen = append(c.chosen, set)
		if found, ok := c.lay(rest&^set, sheets-1); found || !ok {
			return found, ok
		}
		c.chosen = c.chosen[:len(c.chosen)-1]
	}
	c.failed[rest] = uint8(sheets + 1)
	return false, c.e.spend(work)
}

// full reports whether nothing else of rest goes on a sheet with set.
func (c *covering) full(set, rest int) bool {
	for s := uint(rest &^ set); s != 0; s &= s - 1 {
		if c.e.many[set|int(s&-s)] > 0 {
			return false
		}
	}
	return true
}

// tooMuch reports whether rest is worth more than so many sheets hold.
func (c *covering) tooMuch(rest, sheets int) bool {
	for i := range c.worths {
		p := &c.worths[i]
		room := p.cap * int64(sheets)
		for s := uint(rest); s != 0; s &= s - 1 {
			room -= p.of[bits.TrailingZeros(s)]
		}
		if room < 0 {
			return true
		}
	}
	return false
}
