package packing

import "slices"

// A beam lays one piece after the other on so many sheets, each cut into strips,
// those into rows and those into pieces, and keeps the best of all layouts of as many
// pieces (after Libralesso & Fontan, EJOR 291, 2021). What it cannot lay a search
// fits in: where many small pieces go on few sheets, that comes closer than a search
// from anywhere else.
type beam struct {
	t      *task
	m      *meter
	k      *kind
	sheets int
	width  int     // layouts kept
	bias   float64 // the more, the sooner large pieces come
	spare  float64 // area that may be lost
	ways   []way
	dice   []uint64 // by piece
	at     []front
	level  [][]put // by pieces laid
	cand   []candidate
}

// way is how a part can lie. Its pieces are numbered from first on.
type way struct {
	w, h     int64
	part     int32
	first, n int
	turned   bool
}

// front is a layout in the making: the strip in hand is from x1 to x2, its last row
// from y1 to y2, and the last piece of that ends at x3.
type front struct {
	edge
	set  [4]uint64 // pieces laid
	hash uint64    // of set
	area float64   // of its pieces
}

type edge struct {
	x1, x2, x3, y1, y2 int64
	sheet              int
	flip               bool // y goes along x: strips lie
}

// put is a piece more on a layout of the level before.
type put struct {
	from int32
	way  int16
	how  uint8
}

type candidate struct {
	put
	lost float64 // what it is judged by
}

// How a piece is put.
const (
	inRow uint8 = iota
	newRow
	newStrip
	newSheet
	newFlipped
)

func (v *solver) newBeam(sheets int) *beam {
	k := &v.t.kinds[0]
	b := &beam{t: v.t, m: v.mt, k: k, sheets: sheets, spare: float64(float64(sheets) * k.size())}
	r := rng(4711)
	for q := range v.t.parts {
		p := &v.t.parts[q]
		b.ways = append(b.ways, way{p.w, p.h, int32(q), len(b.dice), p.n, false})
		if p.turn {
			b.ways = append(b.ways, way{p.h, p.w, int32(q), len(b.dice), p.n, true})
		}
		for range p.n {
			b.dice = append(b.dice, r.next())
		}
		b.spare -= float64(float64(p.n) * float64(float64(p.w)*float64(p.h)))
	}
	return b
}

// mostWidth bounds the layouts that a beam keeps.
const mostWidth = 1 << 14

// afford has a beam keep as many layouts as so many steps are about enough for.
func (b *beam) afford(steps int64) {
	b.width = int(min(steps/(2*int64(len(b.ways)*len(b.dice))), mostWidth))
}

// next is an edge with a piece more; false if it does not go there.
func (b *beam) next(e edge, y *way, how uint8) (edge, bool) {
	if how >= newSheet {
		e = edge{sheet: e.sheet + 1, flip: how == newFlipped}
	}
	w, h, pw, ph := b.k.w, b.k.h, y.w, y.h
	if e.flip {
		w, h, pw, ph = h, w, ph, pw
	}
	switch how {
	case newRow:
		e.y1, e.x3 = e.y2, e.x1
	case newStrip:
		e.x1, e.x3, e.y1, e.y2 = e.x2, e.x2, 0, 0
	}
	e.x3 += pw
	e.x2 = max(e.x2, e.x3)
	e.y2 = max(e.y2, e.y1+ph)
	return e, e.x2 <= w && e.y2 <= h
}

// behind is the area behind an edge.
func (b *beam) behind(e *edge) float64 {
	h := b.k.h
	if e.flip {
		h = b.k.w
	}
	return float64(float64(e.sheet)*b.k.size()) + float64(float64(e.x1)*float64(h)) +
		float64(float64(e.x2-e.x1)*float64(e.y1)) + float64(float64(e.x3-e.x1)*float64(e.y2-e.y1))
}

// size is the area of a sheet.
func (k *kind) size() float64 { return float64(float64(k.w) * float64(k.h)) }

// free is a piece of a way that is not laid, −1 for none.
func (f *front) free(y *way) int {
	for p := y.first; p < y.first+y.n; p++ {
		if f.set[p>>6]>>(p&63)&1 == 0 {
			return p
		}
	}
	return -1
}

// run lays pieces until no layout goes on, and reports false if limit ended it.
func (b *beam) run(limit int64) bool {
	b.at = append(b.at[:0], front{edge: edge{sheet: -1, x1: b.k.w, x2: b.k.w, x3: b.k.w, y1: b.k.h, y2: b.k.h}})
	b.level = b.level[:0]
	for len(b.level) < len(b.dice) {
		b.cand = b.cand[:0]
		worst := 1e300
		for i := range b.at {
			if b.m.spent(limit) {
				return false
			}
			worst = b.grow(i, worst)
		}
		if len(b.cand) == 0 {
			break
		}
		b.keep()
	}
	return true
}

// grow finds what can be put on layout i, if it is judged better than the worst of
// those that are to be kept.
func (b *beam) grow(i int, worst float64) float64 {
	f := &b.at[i]
	work, fits := int64(16), false
	for how := inRow; how <= newFlipped; how++ {
		if how == newSheet && (fits || f.sheet+1 == b.sheets) {
			break
		}
		for j := range b.ways {
			y := &b.ways[j]
			if f.free(y) < 0 {
				continue
			}
			work++
			e, ok := b.next(f.edge, y, how)
			if !ok {
				continue
			}
			fits = true
			used := b.behind(&e)
			area := f.area + float64(float64(y.w)*float64(y.h))
			if used-area > b.spare {
				continue
			}
			lost := (float64((used-area)/used) + b.bias) / area
			if lost >= worst {
				continue
			}
			if b.cand = append(b.cand, candidate{put{int32(i), int16(j), how}, lost}); len(b.cand) == 8*b.width {
				worst = b.best(4 * b.width)
				work += int64(8 * b.width)
			}
		}
	}
	b.m.work(work)
	return worst
}

// best has the n best candidates come first, leaves the others out, and returns what
// the worst of them is judged by.
func (b *beam) best(n int) float64 {
	c := b.cand
	for lo, hi := 0, len(c)-1; n < len(b.cand) && lo < hi; {
		mid, i, j := c[(lo+hi)/2].lost, lo, hi
		for i <= j {
			for c[i].lost < mid {
				i++
			}
			for c[j].lost > mid {
				j--
			}
			if i <= j {
				c[i], c[j] = c[j], c[i]
				i, j = i+1, j-1
			}
		}
		switch {
		case n <= j+1:
			hi = j
		case n > i:
			lo = i
		default:
			lo = hi
		}
	}
	b.cand = c[:min(n, len(c))]
	worst := 0.0
	for i := range b.cand {
		worst = max(worst, b.cand[i].lost)
	}
	return worst
}

// keep makes the best candidates the layouts of the next level, each once.
func (b *beam) keep() {
	seen := map[uint64]bool{}
	b.m.work(int64(16 * len(b.cand)))
	b.best(4 * b.width)
	once := b.cand[:0]
	for _, c := range b.cand {
		g := b.after(c.put)
		h := g.hash
		for _, x := range [...]int64{g.x1, g.x2, g.x3, g.y1, g.y2, int64(g.sheet)} {
			h = (h ^ uint64(x)) * 1099511628211 // FNV-1a
		}
		if g.flip {
			h++
		}
		if !seen[h] {
			seen[h] = true
			once = append(once, c)
		}
	}
	b.cand = once
	b.best(b.width)
	var at []front
	var level []put
	for _, c := range b.cand {
		at, level = append(at, b.after(c.put)), append(level, c.put)
	}
	b.at, b.level = at, append(b.level, level)
}

// after is the layout that a piece is put on, with it.
func (b *beam) after(u put) front {
	g := b.at[u.from]
	y := &b.ways[u.way]
	g.edge, _ = b.next(g.edge, y, u.how)
	p := g.free(y)
	g.set[p>>6] |= 1 << (p & 63)
	g.hash ^= b.dice[p]
	g.area += float64(float64(y.w) * float64(y.h))
	return g
}

// layout makes the sheets of layout i of the last level.
func (b *beam) layout(i int) []bin {
	var way []put
	for n := len(b.level) - 1; n >= 0; n-- {
		u := b.level[n][i]
		way, i = append(way, u), int(u.from)
	}
	slices.Reverse(way)
	var bins []bin
	var o *bin
	of := [3]int32{-1, -1, -1} // the nodes of the sheet, of its last strip and of the last row of that
	var dirs [3]dir            // in which they are put together
	add := func(d int, x int32) {
		if of[d] >= 0 {
			x = o.join(dirs[d], of[d], x)
		}
		of[d] = x
	}
	shut := func(d int) {
		for i := 2; i > d; i-- {
			if of[i] >= 0 {
				add(i-1, of[i])
				of[i] = -1
			}
		}
		if o != nil {
			o.root = of[0]
		}
	}
	for _, u := range way {
		switch u.how {
		case newRow:
			shut(1)
		case newStrip:
			shut(0)
		case newSheet, newFlipped:
			shut(0)
			bins = append(bins, bin{})
			o = &bins[len(bins)-1]
			o.clear(0)
			of[0], dirs = -1, [3]dir{row, col, row}
			if u.how == newFlipped {
				dirs = [3]dir{col, row, col}
			}
		}
		y := &b.ways[u.way]
		o.used += b.t.parts[y.part].score
		o.count++
		add(2, o.alloc(node{w: y.w, h: y.h, up: -1, down: -1, next: -1, piece: y.part, dir: leaf, turned: y.turned}))
	}
	shut(0)
	for i := range bins {
		bins[i].refresh(b.k)
	}
	b.m.work(int64(20 * len(way)))
	return bins
}

// beams reports whether lay is worth its while: where many pieces go on few sheets,
// so that weave does not know what to do.
func (v *solver) beams(long int64) bool {
	return v.alike(long) && v.t.total > weaveFull*v.m.ordinary && v.m.ordinary > 1
}

// biases are tried in turn.
var biases = [...]float64{0.01, 0.03, 0.003, 0.1, 0}

// Of the time of lay, beams take so many parts, and what comes after each of them half
// as much.
const beamParts = 8

// lay hunts for a layout with a sheet less from where beams end.
func (v *solver) lay(limit int64) {
	part := (limit - v.mt.steps) / beamParts
	each := int64(60_000 * v.t.total)
	for tries := 0; tries < 4 && !v.done() && !v.mt.spent(limit); tries++ {
		b := v.newBeam(v.m.ordinary - 1)
		if b.afford(part); b.width == 0 || b.spare < 0 {
			return
		}
		b.bias = biases[v.beam%len(biases)]
		v.beam++
		if !b.run(v.mt.steps + 2*part) {
			continue
		}
		order := ranked(len(b.at), func(i int) int64 { return int64(b.at[i].area / b.k.size() * priceScale) })
		end := v.mt.steps + part/2
		for _, i := range order {
			if v.mt.spent(end) {
				break
			}
			s := v.onward(b.layout(i), b.sheets)
			if s.run(min(limit, v.mt.steps+each)) && v.offer(v.together(nil, s)) {
				v.bounds(10_000)
				break
			}
		}
	}
}
