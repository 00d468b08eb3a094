package packing

import (
	"slices"
	"sort"
)

// grid is the guillotine knapsack: the greatest worth of pieces that can be
// cut from a rectangle when every kind of piece may be cut as often as one
// likes. It runs over normal patterns (sums of piece lengths) instead of every
// length: Cintra, Miyazawa, Wakabayashi & Xavier, EJOR 191, 2008, section 2.
//
// If there are too many sums, it runs over a coarse raster, pieces rounded
// down: then the worth is an upper bound still, but what it cuts may not fit
// (rough is set).
type grid struct {
	t      *task
	xs, ys []int64 // points, from 0
	rough  bool
	at     []place   // by part and way to lie
	loose  []int     // parts that rounding leaves without a size
	free   int64     // what all copies of loose parts are worth
	kx, ky []int     // by kind: index of its size
	upx    [][]int32 // upx[i][a]: index of what is left of xs[i] after cutting xs[a] off
	upy    [][]int32
	f      []int64 // worth by [y][x]
	base   []int64
	item   []int32 // the part worth base
}

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
	slices.SortStableFunc(by, func(a, b int) int {
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

// newGrid makes a grid with no more than limit points along an axis.
func (t *task) newGrid(limit int) *grid {
	g := &grid{t: t}
	var mx, my int64
	for _, k := range t.kinds {
		mx, my = max(mx, k.w), max(my, k.h)
	}
	var xl, yl []int64
	var xn, yn []int
	for _, p := range t.parts {
		xl, yl = append(xl, p.w), append(yl, p.h)
		xn, yn = append(xn, p.n), append(yn, p.n)
		if p.turn {
			xl, yl = append(xl, p.h), append(yl, p.w)
			xn, yn = append(xn, p.n), append(yn, p.n)
		}
	}
	toX := func(v int64) int64 { return v }
	toY := toX
	upX, upY := toX, toX
	g.xs, g.ys = points(xl, xn, mx, limit), points(yl, yn, my, limit)
	coarse := func(most int64) ([]int64, func(int64) int64, func(int64) int64) {
		n := int64(limit - 1)
		ps := make([]int64, limit)
		for i := range ps {
			ps[i] = int64(i)
		}
		// v·n/most rounded down; 128 bits are not needed: v < 2⁴², n < 2²⁰.
		f := func(v int64) int64 { return min(n, v*n/most) }
		return ps, f, f
	}
	if g.xs == nil {
		g.rough = true
		g.xs, toX, upX = coarse(mx)
	}
	if g.ys == nil {
		g.rough = true
		g.ys, toY, upY = coarse(my)
	}
	floor := func(ps []int64, v int64) int {
		return sort.Search(len(ps), func(i int) bool { return ps[i] > v }) - 1
	}
	for q, p := range t.parts {
		var ways []place
		if p.w <= mx && p.h <= my {
			ways = append(ways, place{int32(q), int32(floor(g.xs, toX(p.w))), int32(floor(g.ys, toY(p.h))), false})
		}
		if p.turn && p.h <= mx && p.w <= my {
			ways = append(ways, place{int32(q), int32(floor(g.xs, toX(p.h))), int32(floor(g.ys, toY(p.w))), true})
		}
		if slices.ContainsFunc(ways, func(w place) bool { return w.x == 0 || w.y == 0 }) {
			g.loose = append(g.loose, q)
			continue
		}
		g.at = append(g.at, ways...)
	}
	for _, k := range t.kinds {
		g.kx = append(g.kx, floor(g.xs, upX(k.w)))
		g.ky = append(g.ky, floor(g.ys, upY(k.h)))
	}
	halves := func(ps []int64) [][]int32 {
		up := make([][]int32, len(ps))
		for i := range ps {
			j := i
			for a := 1; a < len(ps) && 2*ps[a] <= ps[i]; a++ {
				for ps[j] > ps[i]-ps[a] {
					j--
				}
				up[i] = append(up[i], int32(j))
			}
		}
		return up
	}
	g.upx, g.upy = halves(g.xs), halves(g.ys)
	n := len(g.xs) * len(g.ys)
	g.f, g.base, g.item = make([]int64, n), make([]int64, n), make([]int32, n)
	return g
}

// work estimates the steps of one run.
func (g *grid) work() int64 {
	nx, ny := int64(len(g.xs)), int64(len(g.ys))
	return nx*ny*(nx+ny)/256 + nx*ny/4
}

// run works out f for the given prices by part.
func (g *grid) run(price []int64) {
	nx := len(g.xs)
	clear(g.base)
	g.free = 0
	for _, q := range g.loose {
		g.free += price[q] * int64(g.t.parts[q].n)
	}
	for i := range g.item {
		g.item[i] = -1
	}
	for i, p := range g.at {
		at := int(p.y)*nx + int(p.x)
		if v := price[p.part]; v > g.base[at] {
			g.base[at], g.item[at] = v, int32(i)
		}
	}
	for y := range g.ys {
		r := g.f[y*nx : y*nx+nx]
		copy(r, g.base[y*nx:y*nx+nx])
		if y > 0 {
			for x, v := range g.f[(y-1)*nx : y*nx] {
				r[x] = max(r[x], v)
			}
		}
		for a, up := range g.upy[y] {
			ra := g.f[(a+1)*nx : (a+1)*nx+nx]
			rb := g.f[int(up)*nx : int(up)*nx+nx]
			for x := range r {
				r[x] = max(r[x], ra[x]+rb[x])
			}
		}
		for x := 1; x < nx; x++ {
			v := max(r[x], r[x-1])
			for a, up := range g.upx[x] {
				v = max(v, r[a+1]+r[up])
			}
			r[x] = v
		}
	}
}

// best is the greatest worth on a sheet of a kind. Loose parts may all be on it.
func (g *grid) best(kind int) int64 { return g.f[g.ky[kind]*len(g.xs)+g.kx[kind]] + g.free }

// cut builds the tree of the best pattern of a kind.
func (g *grid) cut(kind int) bin {
	var b bin
	b.clear(int32(kind))
	b.root = g.trace(&b, g.kx[kind], g.ky[kind])
	b.refresh(&g.t.kinds[kind])
	return b
}

func (g *grid) trace(b *bin, x, y int) int32 {
	nx := len(g.xs)
	for {
		v := g.f[y*nx+x]
		switch {
		case v == 0:
			return -1
		case g.base[y*nx+x] == v:
			p := g.at[g.item[y*nx+x]]
			q := &g.t.parts[p.part]
			w, h := q.w, q.h
			if p.turned {
				w, h = h, w
			}
			b.used += q.score
			b.count++
			return b.alloc(node{w: w, h: h, up: -1, down: -1, next: -1, piece: p.part, dir: leaf, turned: p.turned})
		case x > 0 && g.f[y*nx+x-1] == v:
			x--
			continue
		case y > 0 && g.f[(y-1)*nx+x] == v:
			y--
			continue
		}
		for a, up := range g.upx[x] {
			if g.f[y*nx+a+1]+g.f[y*nx+int(up)] == v {
				return b.both(row, g.trace(b, a+1, y), g.trace(b, int(up), y))
			}
		}
		for a, up := range g.upy[y] {
			if g.f[(a+1)*nx+x]+g.f[int(up)*nx+x] == v {
				return b.both(col, g.trace(b, x, a+1), g.trace(b, x, int(up)))
			}
		}
		return -1 // not reached: one of the above gave v
	}
}

// both joins two trees of which one may be empty.
func (b *bin) both(d dir, x, y int32) int32 {
	switch {
	case x < 0:
		return y
	case y < 0:
		return x
	}
	return b.join(d, x, y)
}
