package packing

import "slices"

// cover is the linear program of the fewest sheets for what is needed, out of
// contents that were seen (Gilmore & Gomory 1965, each part at least as often as
// it is needed). As no part is on a sheet more often than it is there, it comes
// closer to the truth than columns does.
type cover struct {
	v     *solver
	of    *contents
	need  []int
	rows  []int // part by row
	row   []int // row by part, −1 for none
	lp    *master
	from  int   // contents from this number on are all looked at
	some  []int // those of a smaller number that are
	good  []int // contents that gained when they were looked at last
	at    int   // where to look on
	runs  int   // how often it was worked out
	dived bool  // it is that of a dive
}

func (v *solver) newCover(need []int) *cover {
	c := &cover{v: v, of: v.seen, need: need, row: make([]int, len(need))}
	var d, unit []float64
	var names []int
	for q, n := range need {
		c.row[q] = -1
		if n > 0 {
			c.row[q] = len(c.rows)
			c.rows = append(c.rows, q)
			d = append(d, float64(n)+float64(float64(len(d)+1)*1e-7))
			unit, names = append(unit, 1), append(names, -1)
		}
	}
	c.lp = newMaster(d, unit, names)
	v.mt.work(int64(len(d)*len(d))/8 + int64(len(need)))
	return c
}

// gain is what contents are worth at prices pi, in sheets.
//
//go:noinline
func (c *cover) gain(list []amount, pi []float64) float64 {
	gain := 0.0
	for _, h := range list {
		if r := c.row[h.part]; r >= 0 {
			gain += float64(pi[r] * float64(min(h.n, c.need[h.part])))
		}
	}
	return gain
}

// column is contents as a column of the program.
func (c *cover) column(list []amount) []float64 {
	a := make([]float64, c.lp.m)
	for _, h := range list {
		if r := c.row[h.part]; r >= 0 {
			a[r] = float64(min(h.n, c.need[h.part]))
		}
	}
	return a
}

// run works the program out. With more it makes contents that were not seen yet,
// and takes the bounds that its prices prove. It reports false if limit ended it.
func (c *cover) run(more bool, limit int64) bool {
	mt := c.v.mt
	m := int64(c.lp.m)
	for tries := 0; ; {
		mt.work(m*m/8 + m + 16)
		if mt.spent(limit) {
			return false
		}
		pi := c.lp.prices()
		if at := c.surplus(pi); at >= 0 {
			if !c.lp.exceed(at) {
				return false
			}
			continue
		}
		best := c.look(pi)
		switch {
		case best >= 0:
			if !c.lp.enter(c.column(c.of.lists[best]), best) {
				return false
			}
		case more && tries < mostGuesses && c.guess(pi):
			tries++
		case !more || !c.priced(pi, limit):
			return true
		}
	}
}

// mostGuesses is how often a program looks for contents by hand.
const mostGuesses = 40

// surplus is the row whose price is most negative, −1 for none.
func (c *cover) surplus(pi []float64) int {
	low, at := -1e-9, -1
	for i, p := range pi {
		if p < low {
			low, at = p, i
		}
	}
	return at
}

// guess fills sheets by hand, dear pieces for their area first, and reports
// whether it came by something that gains.
func (c *cover) guess(pi []float64) bool {
	t, v := c.v.t, c.v
	keys := make([]int64, len(t.parts))
	found := false
	for try := 0; try < 12; try++ {
		for q := range keys {
			keys[q] = 0
			r := c.row[q]
			if r < 0 || pi[r] <= 0 {
				continue
			}
			if try < 6 {
				dear := float64(pi[r] / float64(t.parts[q].score))
				keys[q] = int64(float64(dear*float64(t.kinds[0].score))*1e6) / 64 * int64(64+v.chance.below(1+try*4))
			} else {
				keys[q] = int64(pi[r]*1e6) * int64(64+v.chance.below(1+(try-6)*6))
			}
		}
		var b bin
		b.clear(0)
		v.thickBy(&b, c.need, ranked(len(keys), func(q int) int64 { return keys[q] }), true)
		if b.count > 0 && c.gain(b.contents(), pi) > 1+1e-6 {
			found = c.of.force(v.mt, &b) || found
		}
	}
	return found
}

// priced looks for the best contents at prices pi, each piece no more often than
// it is there: where the grid comes by a pattern that holds one too often, it has
// it count the copies of the dearest of these. It takes the bound that the prices
// prove, and reports whether it found contents that gain.
func (c *cover) priced(pi []float64, limit int64) bool {
	v, t, g := c.v, c.v.t, c.v.strict
	if g == nil {
		return false
	}
	price := make([]int64, len(t.parts))
	for i, q := range c.rows {
		if p := pi[i]; p > 0 { // a number
			price[q] = int64(min(p, priceMost) * priceScale)
		}
	}
	for !v.mt.spent(limit) && g.run(v.mt, price) {
		w := &worth{part: make([]Area, len(t.parts)), cap: []Area{{Lo: uint64(g.best(0))}}, priced: true, once: slices.Clone(g.once)}
		for q, p := range price {
			w.part[q] = Area{Lo: uint64(p)}
		}
		if n, ok := t.bound(w, t.total); ok && n > v.lower {
			v.proofs = append(v.proofs, w)
			if v.lift(n, w); v.done() {
				return false
			}
		}
		b := g.cut(0)
		dear := -1
		for _, h := range b.contents() {
			if h.n > c.need[h.part] && (dear < 0 || price[h.part] > price[dear]) {
				dear = h.part
			}
		}
		v.drop(&b, c.need)
		if b.count > 0 && c.gain(b.contents(), pi) > 1+1e-7 {
			return c.of.force(v.mt, &b)
		}
		if dear < 0 || c.dived || !g.limit(dear, (limit-v.mt.steps)/8) {
			return false
		}
	}
	return false
}

// dive picks contents for so many sheets: those of which the program takes the
// most, and goes on with what is left.
func (c *cover) dive(sheets int, limit int64) (chosen []int) {
	v := c.v
	c = c.branch(nearly)
	for len(chosen) < sheets && c.lp.m > 0 {
		if len(chosen) > 0 {
			if v.strict != nil {
				v.strict.reset()
			}
			if !c.run(true, v.mt.steps+(limit-v.mt.steps)/int64(1+sheets-len(chosen))) && v.mt.spent(limit) {
				break
			}
		}
		at, top := -1, 0.0
		whole := len(chosen)
		for i, name := range c.lp.name {
			if name < 0 {
				continue
			}
			if c.lp.x[i] > 0.999 && len(chosen) < sheets {
				chosen = append(chosen, name)
			} else if x := float64(c.lp.x[i] * float64(24+v.chance.below(16))); x > top {
				at, top = name, x
			}
		}
		if len(chosen) == whole {
			if at < 0 {
				break
			}
			chosen = append(chosen, at)
		}
		for _, at := range chosen[whole:] {
			c.take(at)
		}
	}
	return chosen
}

// branch is a copy of a program to be gone on with, with the contents that gain no
// less than least, in sheets.
func (c *cover) branch(least float64) *cover {
	b := &cover{v: c.v, of: c.of, need: slices.Clone(c.need), rows: slices.Clone(c.rows), row: slices.Clone(c.row),
		lp: c.lp.clone(), some: c.near(least), from: len(c.of.lists), dived: true}
	c.v.mt.work(int64(c.lp.m*c.lp.m)/8 + 1)
	return b
}

// take leaves what is on contents out of what is needed.
func (c *cover) take(at int) {
	for _, h := range c.of.lists[at] {
		n := min(c.need[h.part], h.n)
		if n == 0 {
			continue
		}
		c.need[h.part] -= n
		c.v.mt.work(int64(c.lp.m*c.lp.m)/8 + 1)
		r := c.row[h.part]
		if c.need[h.part] > 0 {
			c.lp.lessen(r, float64(n))
			continue
		}
		c.lp.drop(r)
		c.rows = slices.Delete(c.rows, r, r+1)
		c.row[h.part] = -1
		for i, q := range c.rows[r:] {
			c.row[q] = r + i
		}
	}
}

// drop takes pieces that are not needed off a sheet.
func (v *solver) drop(b *bin, need []int) {
	held := map[int32]int{}
	v.mt.work(int64(2*len(b.nodes)) + 1)
	for x := range b.nodes {
		n := b.nodes[x]
		if n.dir != leaf {
			continue
		}
		if held[n.piece]+n.copies() <= need[n.piece] {
			held[n.piece] += n.copies()
			continue
		}
		b.remove(int32(x), n.copies(), v.t.parts[n.piece].score)
	}
	b.refresh(&v.t.kinds[b.kind])
}

// nearly is what contents gain, in sheets, that go into a dive.
const nearly = 0.95

// near lists those of the contents that gain no less than least.
func (c *cover) near(least float64) []int {
	pi := c.lp.prices()
	var some []int
	work := int64(0)
	add := func(i int) {
		work += int64(len(c.of.lists[i]))
		if c.gain(c.of.lists[i], pi) >= least {
			some = append(some, i)
		}
	}
	for _, i := range c.some {
		add(i)
	}
	for i := c.from; i < len(c.of.lists); i++ {
		add(i)
	}
	c.v.mt.work(work/8 + 1)
	return some
}

// enoughGain is the number of contents that gain at which a look at them ends.
const enoughGain = 64

// look returns the contents that gain most of those that gained when they were
// looked at last. If none does any more it looks at others, from where it ended on,
// until enough of them gain; −1 if none of all does.
func (c *cover) look(pi []float64) int {
	best, top, work := -1, 1+1e-6, int64(0)
	for _, i := range c.good {
		work += int64(len(c.of.lists[i]))
		if g := c.gain(c.of.lists[i], pi); g > top {
			best, top = i, g
		}
	}
	if best < 0 {
		c.good = c.good[:0]
		n := len(c.some) + len(c.of.lists) - c.from
		for k := 0; k < n && len(c.good) < enoughGain; k++ {
			if c.at++; c.at >= n {
				c.at = 0
			}
			i := c.from + c.at - len(c.some)
			if c.at < len(c.some) {
				i = c.some[c.at]
			}
			work += int64(len(c.of.lists[i]))
			if g := c.gain(c.of.lists[i], pi); g > 1+1e-6 {
				c.good = append(c.good, i)
				if g > top {
					best, top = i, g
				}
			}
		}
	}
	c.v.mt.work(work/8 + 1)
	return best
}
