package packing

import (
	"slices"
	"sort"

	"boardwrap.example/internal/inorder"
)

// grid is the guillotine knapsack: the greatest worth of pieces that can be
// cut from a rectangle when every kind of piece may be cut as often as one
// likes. It runs over normal patterns (sums of piece lengths) instead of every
// length: Cintra, Miyazawa, Wakabayashi & Xavier, EJOR 191, 2008, section 2.
// There are three sorts:
//
//   - exact: all normal patterns and all cuts. The worth proves bounds, and the
//     patterns can be cut.
//   - rough: an even raster, pieces rounded down. The worth is an upper bound,
//     so it proves bounds, but the patterns may not fit a sheet.
//   - sparse: sums of few pieces, and cuts as long as a piece only. The
//     patterns can be cut, but better ones may be missed; it proves nothing.
type grid struct {
	t      *task
	sort   gridSort
	mx, my int64   // the largest sheet's sides
	xs, ys []int64 // points, from 0
	at     []place // by part and way to lie
	loose  []int   // parts that rounding leaves without a size
	free   int64   // what all copies of loose parts are worth
	kx, ky []int   // by kind: index of its size
	upx    [][]two // by point of x: the parts that it can be cut in
	upy    [][]two
	// f is the worth by [set][y][x]: of the tokens, those in the set may be used.
	f    []int64
	base []int64 // by [y][x]
	item []int32 // the place worth base
	cuts int64
	// Of the parts in once no more copies are cut from a sheet than there are:
	// each copy is a token, and token is the set of them by part. It multiplies
	// the work by three for each token.
	once   []int
	token  []uint16
	tokens int
	of     []place // the places of their parts
	price  []int64 // of the last run
}

// A grid may count so many copies, and hold so many worths.
const (
	mostTokens = 8
	mostWorths = 1 << 22
)

// limit has a grid count the copies of a part; false if that would make a run
// longer than most steps.
func (g *grid) limit(q int, most int64) bool {
	n := g.t.parts[q].n
	if g.token[q] != 0 || n > mostTokens-g.tokens {
		return false
	}
	more := g.work()
	for range n {
		more *= 3
	}
	if more > most || len(g.base)<<(g.tokens+n) > mostWorths {
		return false
	}
	g.token[q] = (1<<n - 1) << g.tokens
	g.tokens += n
	g.once = append(g.once, q)
	for _, p := range g.at {
		if int(p.part) == q {
			g.of = append(g.of, p)
		}
	}
	g.f = make([]int64, len(g.base)<<g.tokens)
	return true
}

type gridSort uint8

const (
	gridExact gridSort = iota
	gridRough
	gridSparse
)

// two are the indices of the points of two parts.
type two struct{ a, b int32 }

type place struct {
	part   int32
	x, y   int32
	turned bool
}

// points returns the sums of lengths[i] × (0 … copies[i]) up to most, or nil if
// there are more than limit.
func points(lengths []int64, copies []int, most int64, limit int) []int64 {
	by := make([]int, len(lengths))
	for i := range by {
		by[i] = i
	}
	inorder.Sort(by, func(a, b int) int {
		return int((lengths[b]-lengths[a])>>63 | 1)
	})
	ps := []int64{0}
	for _, i := range by {
		for n := 0; n < copies[i]; n++ {
			if int64(n+1)*lengths[i] > most {
				break
			}
			// Merge ps with ps + length.
			next := make([]int64, 0, len(ps)*2)
			a, b := 0, 0
			for a < len(ps) || b < len(ps) {
				var v int64
				switch {
				case b == len(ps) || a < len(ps) && ps[a] <= ps[b]+lengths[i]:
					v = ps[a]
					a++
				default:
					v = ps[b] + lengths[i]
					b++
				}
				if v <= most && (len(next) == 0 || next[len(next)-1] != v) {
					next = append(next, v)
				}
			}
			if len(next) > limit {
				return nil
			}
			if len(next) == len(ps) {
				break
			}
			ps = next
		}
	}
	return ps
}

// few returns sums of lengths, of one, two, three … lengths while there are no
// more than limit of them.
func few(lengths []int64, most int64, limit int) []int64 {
	lengths = inorder.Set(slices.Clone(lengths))
	all, level := []int64{0}, []int64{0}
	for len(level) > 0 {
		var next []int64
		for _, v := range level {
			for _, l := range lengths {
				if v+l > most {
					break
				}
				next = append(next, v+l)
			}
		}
		next = inorder.Set(next)
		sum := inorder.Set(slices.Concat(all, next))
		if len(sum) > limit && len(all) > 1 {
			// Part of the next level: evenly spread.
			if room := limit - len(all); room > 0 {
				for i := 0; i < room; i++ {
					all = append(all, next[i*len(next)/room])
				}
				all = inorder.Set(all)
			}
			return all
		}
		if len(sum) == len(all) {
			break
		}
		all, level = sum, next
	}
	return all
}

// newGrid makes a grid of a sort with about limit points along an axis at
// most; nil if an exact one would have more, or if a run of it would take more
// than most steps.
func (t *task) newGrid(mt *meter, sort gridSort, limit int, most int64) *grid {
	g := &grid{t: t, sort: sort}
	for _, k := range t.kinds {
		g.mx, g.my = max(g.mx, k.w), max(g.my, k.h)
	}
	xl, yl, ok := g.axes(limit)
	mt.work(int64(len(g.xs)+len(g.ys)+len(xl))*int64(1+len(xl)/32) + 1)
	if !ok {
		return nil
	}
	if sort == gridSparse {
		xl, yl = inorder.Set(xl), inorder.Set(yl)
		g.cuts = int64(len(g.ys)*len(g.xs)) * int64(len(xl)+len(yl)) / 2
	} else {
		g.cuts = halfCount(g.xs)*int64(len(g.ys)) + halfCount(g.ys)*int64(len(g.xs))
	}
	if g.work() > most || mt.stopped {
		return nil
	}
	g.places()
	if sort == gridSparse {
		g.upx, g.upy = g.single(g.xs, xl), g.single(g.ys, yl)
	} else {
		g.upx, g.upy = g.halves(g.xs), g.halves(g.ys)
	}
	g.cuts = 0
	for _, u := range g.upx {
		g.cuts += int64(len(u) * len(g.ys))
	}
	for _, u := range g.upy {
		g.cuts += int64(len(u) * len(g.xs))
	}
	n := len(g.xs) * len(g.ys)
	g.f, g.base, g.item = make([]int64, n), make([]int64, n), make([]int32, n)
	g.token = make([]uint16, len(t.parts))
	mt.work(g.work()/8 + int64(n)/8)
	return g
}

// axes chooses the points, and returns the lengths of the pieces along either
// axis; false if there would be more than limit points.
func (g *grid) axes(limit int) (xl, yl []int64, ok bool) {
	var xn, yn []int
	add := func(w, h int64, n int) {
		if w <= g.mx && h <= g.my {
			xl, yl, xn, yn = append(xl, w), append(yl, h), append(xn, n), append(yn, n)
		}
	}
	for _, p := range g.t.parts {
		add(p.w, p.h, p.n)
		if p.turn {
			add(p.h, p.w, p.n)
		}
	}
	switch g.sort {
	case gridExact:
		if g.xs = points(xl, xn, g.mx, limit); g.xs != nil {
			g.ys = points(yl, yn, g.my, limit)
		}
		return xl, yl, g.xs != nil && g.ys != nil
	case gridSparse:
		g.xs, g.ys = few(xl, g.mx, limit), few(yl, g.my, limit)
	case gridRough:
		for i := int64(0); i < int64(limit); i++ {
			g.xs, g.ys = append(g.xs, i), append(g.ys, i)
		}
	}
	return xl, yl, true
}

// onX and onY are lengths in the units of the points.
func (g *grid) onX(v int64) int64 { return g.raster(v, g.mx, len(g.xs)) }
func (g *grid) onY(v int64) int64 { return g.raster(v, g.my, len(g.ys)) }

func (g *grid) raster(v, most int64, points int) int64 {
	if g.sort != gridRough {
		return v
	}
	n := int64(points - 1)
	return min(n, v*n/most) // v < 2⁴² and n < 2²⁰: no overflow
}

// places finds where pieces and sheets lie on the grid.
func (g *grid) places() {
	for q, p := range g.t.parts {
		var ways []place
		if p.w <= g.mx && p.h <= g.my {
			ways = append(ways, place{int32(q), floor(g.xs, g.onX(p.w)), floor(g.ys, g.onY(p.h)), false})
		}
		if p.turn && p.h <= g.mx && p.w <= g.my {
			ways = append(ways, place{int32(q), floor(g.xs, g.onX(p.h)), floor(g.ys, g.onY(p.w)), true})
		}
		if slices.ContainsFunc(ways, func(w place) bool { return w.x == 0 || w.y == 0 }) {
			g.loose = append(g.loose, q)
			continue
		}
		g.at = append(g.at, ways...)
	}
	for _, k := range g.t.kinds {
		g.kx = append(g.kx, int(floor(g.xs, g.onX(k.w))))
		g.ky = append(g.ky, int(floor(g.ys, g.onY(k.h))))
	}
}

// halfCount is the number of all cuts that halves will find.
func halfCount(ps []int64) int64 {
	n, a := 0, 0
	for i := range ps {
		for a+1 < len(ps) && 2*ps[a+1] <= ps[i] {
			a++
		}
		n += a
	}
	return int64(n)
}

// floor is the index of the last point that is no more than v.
//
//go:noinline
func floor(ps []int64, v int64) int32 {
	return int32(sort.Search(len(ps), func(i int) bool { return ps[i] > v }) - 1)
}

// halves are all cuts, the smaller part first.
func (g *grid) halves(ps []int64) [][]two {
	up := make([][]two, len(ps))
	for i := range ps {
		j := i
		for a := 1; a < len(ps) && 2*ps[a] <= ps[i]; a++ {
			for ps[j] > ps[i]-ps[a] {
				j--
			}
			up[i] = append(up[i], two{int32(a), int32(j)})
		}
	}
	return up
}

// single are the cuts as long as a piece.
func (g *grid) single(ps, lengths []int64) [][]two {
	lengths = inorder.Set(slices.Clone(lengths))
	up := make([][]two, len(ps))
	for i := range ps {
		for _, l := range lengths {
			if l >= ps[i] {
				break
			}
			if b := floor(ps, ps[i]-l); b > 0 {
				up[i] = append(up[i], two{floor(ps, l), b})
			}
		}
	}
	return up
}

// work estimates the steps of one run.
func (g *grid) work() int64 {
	one := g.cuts/32 + int64(len(g.f)>>g.tokens)/4 + 1
	for range g.tokens {
		one *= 3
	}
	return one
}

// reset has a grid count no copies.
func (g *grid) reset() {
	clear(g.token)
	g.tokens, g.once, g.of = 0, nil, nil
	g.f = g.f[:len(g.base)]
}

// run works out f for the given prices by part; false if the Stopper ended it.
func (g *grid) run(mt *meter, price []int64) bool {
	nx := len(g.xs)
	clear(g.base)
	g.free, g.price = 0, price
	for _, q := range g.loose {
		g.free += price[q] * int64(g.t.parts[q].n)
	}
	for i := range g.item {
		g.item[i] = -1
	}
	for i, p := range g.at {
		at := int(p.y)*nx + int(p.x)
		if v := price[p.part]; v > g.base[at] && g.token[p.part] == 0 {
			g.base[at], g.item[at] = v, int32(i)
		}
	}
	each := g.work()/int64(len(g.ys)) + 1
	sets := 1 << g.tokens
	rows := make([][]int64, sets)
	for y := range g.ys {
		for set := range rows {
			rows[set] = g.row(set, y)
			if set&15 == 15 {
				if mt.work(16 * each / int64(sets)); mt.stopped {
					return false
				}
			}
			g.start(set, y)
			for _, c := range g.upy[y] {
				r := rows[set]
				for a := set; ; a = (a - 1) & set {
					ra, rb := g.row(a, int(c.a)), g.row(set&^a, int(c.b))
					ra, rb = ra[:len(r)], rb[:len(r)]
					for x := range r {
						r[x] = max(r[x], ra[x]+rb[x])
					}
					if a == 0 {
						break
					}
				}
			}
			if set == 0 {
				g.along(rows[0])
			} else {
				g.split(rows, set)
			}
		}
		if sets < 16 {
			if mt.work(each); mt.stopped {
				return false
			}
		}
	}
	return true
}

// row is the worth with a set of tokens at a point of y.
//
//go:noinline
func (g *grid) row(set, y int) []int64 {
	nx := len(g.xs)
	from := set*len(g.base) + y*nx
	return g.f[from : from+nx]
}

// start puts in a row what single pieces are worth, and the row below it.
func (g *grid) start(set, y int) {
	nx := len(g.xs)
	r := g.row(set, y)
	copy(r, g.base[y*nx:y*nx+nx])
	if set > 0 {
		for _, p := range g.of {
			if int(p.y) == y && int(g.token[p.part])&set != 0 {
				r[p.x] = max(r[p.x], g.price[p.part])
			}
		}
	}
	if y > 0 {
		for x, v := range g.row(set, y-1) {
			r[x] = max(r[x], v)
		}
	}
}

// along cuts a row across, where there are no tokens.
func (g *grid) along(r []int64) {
	for x := 1; x < len(r); x++ {
		v := max(r[x], r[x-1])
		for _, c := range g.upx[x] {
			v = max(v, r[c.a]+r[c.b])
		}
		r[x] = v
	}
}

// split cuts a row across, and shares the tokens out.
func (g *grid) split(rows [][]int64, set int) {
	r := rows[set]
	for x := 1; x < len(r); x++ {
		v := max(r[x], r[x-1])
		for a := set; ; a = (a - 1) & set {
			ra, rb := rows[a], rows[set&^a]
			for _, c := range g.upx[x] {
				v = max(v, ra[c.a]+rb[c.b])
			}
			if a == 0 {
				break
			}
		}
		r[x] = v
	}
}

// best is the greatest worth on a sheet of a kind. Loose parts may all be on it.
//
//go:noinline
func (g *grid) best(kind int) int64 {
	return g.row(1<<g.tokens-1, g.ky[kind])[g.kx[kind]] + g.free
}

// cut builds the tree of the best pattern of a kind.
func (g *grid) cut(kind int) bin {
	var b bin
	b.clear(int32(kind))
	if set := 1<<g.tokens - 1; g.row(set, g.ky[kind])[g.kx[kind]] > 0 {
		b.root = g.trace(&b, set, g.kx[kind], g.ky[kind])
	}
	b.refresh(&g.t.kinds[kind])
	return b
}

// trace builds the tree of what a rectangle is worth, which is not nothing: no
// part of it is then worth nothing, for the other would be found before.
func (g *grid) trace(b *bin, set, x, y int) int32 {
	for {
		v := g.row(set, y)[x]
		if p := g.lone(set, x, y, v); p != nil {
			q := &g.t.parts[p.part]
			w, h := q.w, q.h
			if p.turned {
				w, h = h, w
			}
			b.used += q.score
			b.count++
			return b.alloc(node{w: w, h: h, up: -1, down: -1, next: -1, piece: p.part, dir: leaf, turned: p.turned})
		}
		switch {
		case x > 0 && g.row(set, y)[x-1] == v:
			x--
			continue
		case y > 0 && g.row(set, y-1)[x] == v:
			y--
			continue
		}
		for a := set; ; a = (a - 1) & set {
			for _, c := range g.upx[x] {
				if g.row(a, y)[c.a]+g.row(set&^a, y)[c.b] == v {
					return b.join(row, g.trace(b, a, int(c.a), y), g.trace(b, set&^a, int(c.b), y))
				}
			}
			for _, c := range g.upy[y] {
				if g.row(a, int(c.a))[x]+g.row(set&^a, int(c.b))[x] == v {
					return b.join(col, g.trace(b, a, x, int(c.a)), g.trace(b, set&^a, x, int(c.b)))
				}
			}
			if a == 0 {
				return -1 // not reached: one of the above gave v
			}
		}
	}
}

// lone returns the place of a piece at a point that is worth v by itself, if
// there is one.
func (g *grid) lone(set, x, y int, v int64) *place {
	at := y*len(g.xs) + x
	if g.base[at] == v {
		return &g.at[g.item[at]]
	}
	for i := range g.of {
		p := &g.of[i]
		if int(p.x) == x && int(p.y) == y && int(g.token[p.part])&set != 0 && g.price[p.part] == v {
			return p
		}
	}
	return nil
}
