package packing

import (
	"math/bits"
	"slices"
)

// exact finds, for a handful of pieces, every least box in which each subset
// of them can be cut, and from that the best split into sheets, by dynamic
// programming over subsets.
type exact struct {
	t     *task
	parts []int32 // by piece
	n     int
	tmp   []box

	// By subset: boxes of which none is within another, from all[from] on. Most
	// subsets have none where pieces are large.
	from []int32
	many []int32
	all  []box

	m      *meter
	limit  int64 // of m
	stacks map[*kind]strips
}

// What the search may hold in memory; beyond it gives up.
const (
	mostBoxes  = 1 << 21
	mostLayers = 1 << 25 // entries in all layers
	mostStacks = 1 << 22 // entries in all strips
)

// box is a least box and how it comes about.
type box struct {
	w, h   int64
	sub    uint32 // subset of the first half; 0 for a single piece
	a, b   int32  // boxes of the halves
	dir    dir
	turned bool
}

func newExact(t *task, m *meter, limit int64) *exact {
	e := &exact{t: t, m: m, limit: limit, stacks: map[*kind]strips{}}
	for q, p := range t.parts {
		for i := 0; i < p.n; i++ {
			e.parts = append(e.parts, int32(q))
		}
	}
	e.n = len(e.parts)
	return e
}

// spend counts work, four units a step, and says whether to go on.
func (e *exact) spend(n int64) bool {
	e.m.work(n/4 + 1)
	return !e.m.spent(e.limit)
}

// front is the boxes of a subset.
func (e *exact) front(m int) []box {
	at := e.from[m]
	return e.all[at : at+e.many[m]]
}

// boxes finds the fronts; it reports false if the budget did not do.
func (e *exact) boxes() bool {
	full := 1 << e.n
	if !e.spend(int64(full) / 8) {
		return false
	}
	e.from, e.many = make([]int32, full), make([]int32, full)
	var mw, mh int64
	for _, k := range e.t.kinds {
		mw, mh = max(mw, k.w), max(mh, k.h)
	}
	for m := 1; m < full; {
		low := m & -m
		rest := m ^ low
		e.tmp = e.tmp[:0]
		work := int64(4)
		if rest == 0 {
			p := &e.t.parts[e.parts[bits.TrailingZeros(uint(m))]]
			e.add(box{w: p.w, h: p.h})
			if p.turn {
				e.add(box{w: p.h, h: p.w, turned: true})
			}
		} else if e.many[rest] > 0 {
			work += e.halves(m, mw, mh)
		}
		e.from[m], e.many[m] = int32(len(e.all)), int32(len(e.tmp))
		e.all = append(e.all, e.tmp...)
		if !e.spend(work) || len(e.all) > mostBoxes {
			return false
		}
		if len(e.tmp) == 0 {
			// What holds these pieces and smaller bits has none either.
			m += low
		} else {
			m++
		}
	}
	return true
}

// halves puts the boxes of a subset, cut in two, into tmp, and returns the work.
func (e *exact) halves(m int, mw, mh int64) int64 {
	low := m & -m
	rest := m ^ low
	work := int64(1)
	// Every split in two; the half with the lowest piece comes first.
	for s := rest; ; {
		s = (s - 1) & rest
		a, b := e.front(s|low), e.front(rest&^s)
		work += 1 + int64(len(a)*len(b))
		for i := range a {
			for j := range b {
				x, y := &a[i], &b[j]
				if w, h := x.w+y.w, max(x.h, y.h); w <= mw && h <= mh {
					e.add(box{w: w, h: h, sub: uint32(s | low), a: int32(i), b: int32(j), dir: row})
				}
				if w, h := max(x.w, y.w), x.h+y.h; w <= mw && h <= mh {
					e.add(box{w: w, h: h, sub: uint32(s | low), a: int32(i), b: int32(j), dir: col})
				}
			}
		}
		if s == 0 {
			return work
		}
	}
}

// add keeps tmp free of boxes that hold another. Boxes that fit no kind go.
func (e *exact) add(n box) {
	fits := false
	for i := range e.t.kinds {
		if n.w <= e.t.kinds[i].w && n.h <= e.t.kinds[i].h {
			fits = true
			break
		}
	}
	if !fits {
		return
	}
	for i := range e.tmp {
		if e.tmp[i].w <= n.w && e.tmp[i].h <= n.h {
			return
		}
	}
	keep := e.tmp[:0]
	for _, o := range e.tmp {
		if n.w > o.w || n.h > o.h {
			keep = append(keep, o)
		}
	}
	e.tmp = append(keep, n)
}

// strips are the subsets that a kind too long to cut freely can hold, and how:
// for each subset the last strip of a stack, and its box.
type strips struct {
	size []int64 // least stack; noScore for none
	last []uint16
	box  []int32
}

// stack works out strips for a kind of mode cutRows or cutCols; false if the
// budget did not do.
func (e *exact) stack(k *kind) (strips, bool) {
	if st, ok := e.stacks[k]; ok {
		return st, true
	}
	full := 1 << e.n
	if (len(e.stacks)+1)*full > mostStacks {
		return strips{}, false
	}
	st := strips{make([]int64, full), make([]uint16, full), make([]int32, full)}
	one := make([]int64, full) // least size of a single strip
	for m := 1; m < full; m++ {
		one[m], st.size[m] = noScore, noScore
		for i, f := range e.front(m) {
			w, h := f.w, f.h
			if k.mode == cutCols {
				w, h = h, w
			}
			kw := k.w
			if k.mode == cutCols {
				kw = k.h
			}
			single := f.sub == 0
			if w <= kw && (h <= k.limit || single && w == kw && k.whole) && h < one[m] {
				one[m], st.box[m] = h, int32(i)
			}
		}
	}
	long := k.h
	if k.mode == cutCols {
		long = k.w
	}
	for m := 1; m < full; m++ {
		low := m & -m
		rest := m ^ low
		work := int64(0)
		for s := rest; ; s = (s - 1) & rest {
			work++
			strip := s | low
			if one[strip] < noScore {
				if v := one[strip] + st.size[m^strip]; v <= long && v < st.size[m] {
					st.size[m], st.last[m] = v, uint16(strip)
				}
			}
			if s == 0 {
				break
			}
		}
		if !e.spend(work) {
			return strips{}, false
		}
	}
	e.stacks[k] = st
	return st, true
}

// shape returns, for a kind, which subsets it can hold; false if the budget did
// not do.
func (e *exact) shape(k *kind) ([]bool, bool) {
	holds := make([]bool, 1<<e.n)
	holds[0] = true
	if k.mode == cutRows || k.mode == cutCols {
		st, ok := e.stack(k)
		if !ok {
			return nil, false
		}
		for m := 1; m < len(holds); m++ {
			holds[m] = st.size[m] < noScore
		}
		return holds, e.spend(int64(len(holds)))
	}
	for m := 1; m < len(holds); m++ {
		for i := range e.front(m) {
			f := &e.front(m)[i]
			if f.w <= k.w && f.h <= k.h && (k.mode == cutFree || f.sub == 0 && f.w == k.w && f.h == k.h) {
				holds[m] = true
				break
			}
		}
	}
	return holds, e.spend(int64(len(holds)) * 4)
}

// weigh packs what a sheet counts for into one number: ordinary sheets, then
// cost, then First sheets.
func (k *kind) weigh() int64 {
	if k.first {
		return k.cost<<5 | 1
	}
	return 1<<52 | k.cost<<5
}

// split is a layout: the subset on each sheet.
type split struct {
	kind int
	set  int
}

// solve returns the best split, the pieces it leaves out, and whether it is
// proved the best.
func (e *exact) solve() (best []split, left int, ok bool) {
	if !e.boxes() {
		return nil, 0, false
	}
	full := 1 << e.n
	const inf = noScore
	val := make([]int64, full)
	for m := 1; m < full; m++ {
		val[m] = inf
	}
	// One layer for each sheet that may be used; from says which subset the
	// layer's sheet holds. A kind with enough sheets needs one layer only.
	type layer struct {
		kind int
		from []uint16
		many bool
	}
	var layers []layer
	for ki := range e.t.kinds {
		k := &e.t.kinds[ki]
		holds, ok := e.shape(k)
		if !ok {
			return nil, 0, false
		}
		many := k.n >= e.n
		for sheet := 0; sheet < k.n; sheet++ {
			if (len(layers)+1)*full > mostLayers {
				return nil, 0, false
			}
			next, from := slices.Clone(val), make([]uint16, full)
			src := val
			if many {
				src = next
			}
			// The first layer may take the lowest piece first.
			changed, ok := e.layer(holds, src, next, from, k.weigh(), len(layers) == 0 && many)
			if !ok {
				return nil, 0, false
			}
			if !changed {
				break
			}
			val = next
			layers = append(layers, layer{ki, from, many})
			if many {
				break
			}
		}
	}
	at, count := 0, -1
	for m := 0; m < full; m++ {
		if val[m] >= inf {
			continue
		}
		c := 0
		for x := m; x > 0; x &= x - 1 {
			c++
		}
		if c > count || c == count && val[m] < val[at] {
			at, count = m, c
		}
	}
	left = (full - 1) &^ at
	for i := len(layers) - 1; i >= 0; i-- {
		for l := &layers[i]; l.from[at] != 0; {
			best = append(best, split{l.kind, int(l.from[at])})
			at &^= int(l.from[at])
			if !l.many {
				break
			}
		}
	}
	return best, left, true
}

// layer puts one more sheet of a kind on every subset: next becomes the better
// of itself and src without the sheet's subset; from says which that is. With
// low the sheet holds the lowest piece.
func (e *exact) layer(holds []bool, src, next []int64, from []uint16, weigh int64, low bool) (changed, ok bool) {
	for m := 1; m < len(holds); m++ {
		must := 0
		if low {
			must = m & -m
		}
		rest := m &^ must
		work := int64(0)
		for s := rest; ; s = (s - 1) & rest {
			work++
			if set := s | must; set > 0 && holds[set] && src[m^set]+weigh < next[m] {
				next[m], from[m] = src[m^set]+weigh, uint16(set)
				changed = true
			}
			if s == 0 {
				break
			}
		}
		if !e.spend(work) {
			return false, false
		}
	}
	return changed, true
}

// tree puts the pieces of a set on a sheet of a kind, so that the largest
// offcut is as large as any box of theirs leaves it.
func (e *exact) tree(s split) bin {
	var b bin
	b.clear(int32(s.kind))
	k := &e.t.kinds[s.kind]
	switch k.mode {
	case cutRows, cutCols:
		st, _ := e.stack(k) // is there already
		d := col
		if k.mode == cutCols {
			d = row
		}
		var kids []int32
		for m := s.set; m > 0; m &^= int(st.last[m]) {
			kids = append(kids, e.grow(&b, int(st.last[m]), st.box[st.last[m]]))
		}
		b.root = kids[0]
		for _, c := range kids[1:] {
			b.root = b.join(d, b.root, c)
		}
	default:
		at := -1
		var most Area
		for i, f := range e.front(s.set) {
			if f.w > k.w || f.h > k.h {
				continue
			}
			a, o := mulArea(k.w-f.w, k.h), mulArea(k.w, k.h-f.h)
			if o.Cmp(a) > 0 {
				a = o
			}
			if at < 0 || a.Cmp(most) > 0 {
				at, most = i, a
			}
		}
		b.root = e.grow(&b, s.set, int32(at))
	}
	b.refresh(k)
	return b
}

// grow builds the tree of box i of a set.
func (e *exact) grow(b *bin, set int, i int32) int32 {
	f := &e.front(set)[i]
	if f.sub == 0 {
		p := 0
		for 1<<p != set {
			p++
		}
		q := e.parts[p]
		b.used += e.t.parts[q].score
		b.count++
		return b.alloc(node{w: f.w, h: f.h, up: -1, down: -1, next: -1, piece: q, dir: leaf, turned: f.turned})
	}
	x := e.grow(b, int(f.sub), f.a)
	y := e.grow(b, set&^int(f.sub), f.b)
	return b.join(f.dir, x, y)
}

// join sets two trees without parents in a row or column; rows within rows
// become one.
func (b *bin) join(d dir, x, y int32) int32 {
	j := b.alloc(node{up: -1, down: -1, next: -1, piece: -1, dir: d})
	for _, c := range [2]int32{y, x} {
		first, last := c, c
		if b.nodes[c].dir == d {
			first = b.nodes[c].down
			for last = first; b.nodes[last].next >= 0; last = b.nodes[last].next {
				b.nodes[last].up = j
			}
			b.release(c)
		}
		b.nodes[last].up = j
		b.nodes[last].next = b.nodes[j].down
		b.nodes[j].down = first
	}
	return j
}
