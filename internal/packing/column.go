package packing

import "slices"

// columns is column generation (Gilmore & Gomory 1965) over a set of copies.
type columns struct {
	t    *task
	g    *grid
	need []int // copies by part; parts without need take no part
	rows []int // part by row
	row  []int // row by part, −1 for none
	bins []bin
	// pooled is the number of leading bins, after those of the start, that
	// may be worth a look before new ones are made.
	pooled int
	lists  [][]amount // contents of the pooled ones, if known
	v      *solver
	mt     *meter
	r      rng
	lp     *master
	fine   *grid  // exact, to go on with when a sparse grid finds no more
	open   []bool // by kind: may be used
	lower  int    // certified bound for all pieces of the task
	known  int    // one that is known already; 0 to go on to the end
	proof  *worth // what proves it
	over   bool   // could not go on to the end
}

// Prices are suggested as fractions of a sheet and made integers. Any integers
// prove something, so they may be cut off: a grid of 640 × 640 points then adds
// up to less than 2⁵⁴.
const (
	priceScale = 1 << 32
	priceMost  = 4
)

// newColumns sets up the program with one pattern of equal pieces a part.
func newColumns(t *task, mt *meter, g *grid, need []int) *columns {
	c := &columns{t: t, mt: mt, g: g, need: need, row: make([]int, len(need)), r: 5, open: make([]bool, len(t.kinds))}
	for i, k := range t.kinds {
		c.open[i] = !k.first
	}
	var d, unit []float64
	var names []int
	for q, n := range need {
		c.row[q] = -1
		if n == 0 {
			continue
		}
		c.row[q] = len(c.rows)
		c.rows = append(c.rows, q)
		b := c.equal(q)
		names = append(names, len(c.bins))
		c.bins = append(c.bins, b)
		unit = append(unit, float64(max(1, b.count)))
		d = append(d, float64(n)+float64(float64(len(d)+1)*1e-7))
	}
	c.lp = newMaster(d, unit, names)
	mt.work(int64(len(d)*len(d))/8 + int64(len(need)))
	return c
}

// run generates columns until none is worth more than its sheet, the bound
// reaches goal, or the meter shows limit.
func (c *columns) run(goal int, limit int64) {
	t := c.t
	c.over = false
	v := &worth{part: make([]Area, len(t.parts)), cap: make([]Area, len(t.kinds)), priced: true}
	price := make([]int64, len(t.parts))
	center := make([]float64, len(c.rows)) // smoothed prices
	var bestLow float64
	have := false
	for {
		c.mt.work(c.pivot())
		if c.mt.spent(limit) {
			c.over = true
			return
		}
		pi := c.lp.prices()
		if in, ok := c.surplus(pi); !ok {
			c.over = true
			return
		} else if in || c.reuse(pi) {
			continue
		}
		value := c.lp.value()
		// Smoothing (Wentges 1997) first, the true prices if that finds nothing.
		for smooth := have; ; smooth = false {
			c.suggest(price, pi, center, smooth)
			if !c.g.run(c.mt, price) {
				c.over = true
				return
			}
			kind := -1
			for i := range t.kinds {
				v.cap[i] = Area{Lo: uint64(c.g.best(i))}
				if c.open[i] && (kind < 0 || c.g.best(i) > c.g.best(kind)) {
					kind = i
				}
			}
			if kind < 0 {
				c.over = true
				return
			}
			worthAll := 0.0
			for q := range t.parts {
				v.part[q] = Area{Lo: uint64(price[q])}
				worthAll += float64(float64(price[q]) * float64(c.need[q]))
			}
			if c.g.sort != gridSparse {
				c.certify(v)
			}
			low := worthAll / float64(c.g.best(kind))
			if !have || low > bestLow {
				bestLow, have = low, true
				for i, q := range c.rows {
					center[i] = float64(price[q]) / priceScale
				}
			}
			if c.lower >= goal {
				return
			}
			b := c.g.cut(kind)
			a, gain := c.column(&b, pi)
			if gain > 1+1e-7 {
				c.bins = append(c.bins, b)
				if !c.lp.enter(a, len(c.bins)-1) {
					c.over = true
					return
				}
				break
			}
			if !smooth {
				// Only the exact grid can tell whether this is the end.
				if c.g.sort == gridSparse && c.fine == nil && c.guess(pi) {
					break
				}
				if c.g.sort == gridSparse && c.fine != nil {
					c.g, c.fine = c.fine, nil
					have = false
					break
				}
				return
			}
		}
		// What is left of the value cannot lift the bound any more.
		if float64(max(c.lower, c.known)) >= value-1e-6 && c.fine == nil {
			return
		}
	}
}

// suggest makes prices integers, half-way to a centre if they are smoothed.
func (c *columns) suggest(price []int64, pi, center []float64, smooth bool) {
	for i, q := range c.rows {
		p := pi[i]
		if smooth {
			p = float64(center[i]*0.7) + float64(p*0.3)
		}
		if !(p > 0) { // nor if it is not a number
			p = 0
		}
		price[q] = int64(min(p, priceMost) * priceScale)
	}
}

// surplus brings a surplus whose price is negative in, if there is one; it
// reports false if it cannot.
func (c *columns) surplus(pi []float64) (in, ok bool) {
	low, at := -1e-9, -1
	for i, p := range pi {
		if p < low {
			low, at = p, i
		}
	}
	if at < 0 {
		return false, true
	}
	return true, c.lp.exceed(at)
}

// guess fills sheets by hand, dear pieces for their area first, and brings the
// best in if it gains enough: a sparse grid misses rows of many small pieces.
func (c *columns) guess(pi []float64) bool {
	t := c.t
	kind := -1
	for i := range t.kinds {
		if c.open[i] && (kind < 0 || t.kinds[i].score > t.kinds[kind].score) {
			kind = i
		}
	}
	var best bin
	var col []float64
	top := 1 + 1e-6
	keys := make([]int64, len(t.parts))
	for try := 0; try < 12; try++ {
		for q := range keys {
			keys[q] = 0
			if r := c.row[q]; r >= 0 && pi[r] > 0 {
				dear := float64(pi[r] / float64(t.parts[q].score))
				keys[q] = int64(dear*float64(t.kinds[kind].score)*1e6) / 64 * int64(64+c.r.below(1+try*4))
				if try >= 6 {
					keys[q] = int64(pi[r]*1e6) * int64(64+c.r.below(1+(try-6)*6))
				}
			}
		}
		var b bin
		b.clear(int32(kind))
		c.v.thickBy(&b, c.need, ranked(len(keys), func(q int) int64 { return keys[q] }), try%2 == 0)
		if b.count == 0 {
			continue
		}
		if a, gain := c.column(&b, pi); gain > top {
			best, col, top = b, a, gain
		}
	}
	if col == nil {
		return false
	}
	c.bins = append(c.bins, best)
	return c.lp.enter(col, len(c.bins)-1)
}

// certify takes the bound that a worth proves, if it is better.
func (c *columns) certify(v *worth) {
	if b, ok := c.t.bound(v, c.t.total); ok && b > c.lower {
		c.lower = b
		c.proof = &worth{part: slices.Clone(v.part), cap: slices.Clone(v.cap), priced: true}
		if c.g.sort == gridRough {
			c.proof.raster = len(c.g.xs)
		}
	}
}

// equal builds a sheet of as many pieces of part q as a block holds, in the
// kind and way to lie that hold the most.
func (c *columns) equal(q int) bin {
	t := c.t
	p := &t.parts[q]
	var b bin
	b.clear(-1)
	b.root = -1
	var nx, ny, most int64
	turned := false
	for i := range t.kinds {
		k := &t.kinds[i]
		for way := 0; way < 2; way++ {
			w, h := p.w, p.h
			if way == 1 {
				w, h = h, w
			}
			if !c.open[i] || way == 1 && !p.turn || w > k.w || h > k.h || k.mode != cutFree {
				continue
			}
			if n := (k.w / w) * (k.h / h); n > most {
				most, nx, ny, turned = n, k.w/w, k.h/h, way == 1
				b.kind = int32(i)
			}
		}
	}
	if b.kind < 0 {
		return b
	}
	n := int64(c.need[q])
	nx = min(nx, n)
	ny = min(ny, max(1, n/nx))
	w, h := p.w, p.h
	if turned {
		w, h = h, w
	}
	b.root = b.alloc(node{w: nx * w, h: ny * h, up: -1, down: -1, next: -1, piece: int32(q), dir: leaf,
		turned: turned, nx: int32(nx), ny: int32(ny)})
	b.used, b.count = p.score*nx*ny, int(nx*ny)
	b.refresh(&t.kinds[b.kind])
	return b
}

// column is the bin as a column of the program, and what it gains at prices pi.
func (c *columns) column(b *bin, pi []float64) ([]float64, float64) {
	a := make([]float64, c.lp.m)
	gain := 0.0
	for x := range b.nodes {
		if n := &b.nodes[x]; n.dir == leaf {
			if r := c.row[n.piece]; r >= 0 {
				k := float64(n.copies())
				a[r] += k
				gain += float64(pi[r] * k)
			}
		}
	}
	return a, gain
}

// reuse brings the best pattern of the pool in, if one gains enough.
func (c *columns) reuse(pi []float64) bool {
	best, top := -1, 1+1e-6
	work := int64(0)
	for i := len(c.rows); i < c.pooled; i++ {
		b := &c.bins[i]
		if b.kind < 0 || !c.open[b.kind] {
			continue
		}
		var gain float64
		if c.lists != nil {
			gain = c.gain(c.lists[i-len(c.rows)], pi)
			work += int64(len(c.lists[i-len(c.rows)]))
		} else {
			gain = c.gain(b.contents(), pi)
			work += int64(8 * len(b.nodes))
		}
		if gain > top {
			best, top = i, gain
		}
	}
	c.mt.work(work/8 + 1)
	if best < 0 {
		return false
	}
	col, _ := c.column(&c.bins[best], pi)
	return c.lp.enter(col, best)
}

// pivot is about what bringing a column in takes.
func (c *columns) pivot() int64 { return int64(c.lp.m*c.lp.m)/8 + int64(c.lp.m) + 16 }

// gain is what contents are worth at prices pi.
func (c *columns) gain(list []amount, pi []float64) float64 {
	gain := 0.0
	for _, h := range list {
		if r := c.row[h.part]; r >= 0 {
			gain += float64(pi[r] * float64(h.n))
		}
	}
	return gain
}
