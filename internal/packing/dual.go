package packing

import (
	"slices"

	"boardwrap.example/internal/inorder"
)

// Dual feasible functions. Each maps integers 0 … c to integers, is
// superadditive (f(x) + f(y) ≤ f(x + y)) and never falls, so that lengths that
// add up to no more than s have values that add up to no more than f(s), for
// every s ≤ c. Two of them, one for each axis, multiply to a worth of pieces
// (Fekete & Schepers, "A general framework for bounds for higher-dimensional
// orthogonal packing problems", Math. Methods of OR 60, 2004).
type dualFunc Function

func (f dualFunc) at(x int64) int64 {
	switch f.Shape {
	case Threshold:
		switch {
		case x < f.K:
			return 0
		case x > f.C-f.K:
			return f.C
		}
		return x
	case Steps:
		// (k+1)·x / c; c ≤ 2⁴¹ and k is small.
		q, r := (f.K+1)*x/f.C, (f.K+1)*x%f.C
		if r == 0 {
			return x * f.K
		}
		return q * f.C
	case Fold:
		switch {
		case 2*x < f.C:
			return 2 * (x / f.K)
		case 2*x == f.C:
			return f.C / f.K
		}
		return 2 * (f.C/f.K - (f.C-x)/f.K)
	}
	return x
}

// dualFuncs returns functions that suit the given lengths (sorted, distinct),
// no more than about most.
func dualFuncs(c int64, lengths []int64, most int) []dualFunc {
	fs := []dualFunc{{Plain, c, 1}}
	seen := map[dualFunc]bool{fs[0]: true}
	add := func(f dualFunc) {
		if !seen[f] && len(fs) < most {
			seen[f] = true
			fs = append(fs, f)
		}
	}
	for k := int64(1); k <= 12; k++ {
		add(dualFunc{Steps, c, k})
		add(dualFunc{Fold, c, max(1, (c+k)/(k+1))})
		add(dualFunc{Fold, c, c/(k+1) + 1})
	}
	step := max(1, 4*len(lengths)/max(1, most))
	for i := 0; i < len(lengths); i += step {
		x := lengths[i]
		for _, k := range []int64{x, x + 1} {
			if 2*k <= c {
				add(dualFunc{Threshold, c, k})
				add(dualFunc{Fold, c, k})
			}
		}
		if y := c - x; y > 0 && 2*x > c {
			add(dualFunc{Threshold, c, y + 1})
			add(dualFunc{Threshold, c, y})
			add(dualFunc{Fold, c, y + 1})
		}
	}
	return fs
}

// dualBound improves lower to the best bound of pairs of functions.
// It returns the bound for m pieces and what proves it, and what shows that m
// pieces do not fit the whole stock, if anything does; most is the work that it
// may charge.
func (t *task) dualBound(mt *meter, m int, most int64) (best int, why, impossible *worth) {
	if m == 0 || len(t.kinds) == 0 {
		return 0, nil, nil
	}
	limit := mt.steps + most
	cx, cy, xs, ys, turn := t.sides()
	square := cx == cy
	n := int64(len(t.parts) + len(t.kinds))
	count := 1
	if !mt.spent(limit) {
		count = 8
	}
	for count >= 8 && count < 160 && int64(count)*int64(count)*n/2 < most {
		count += 4
	}
	fx, fy := dualFuncs(cx, xs, count), dualFuncs(cy, ys, count)
	if turn && square {
		fx = dualFuncs(cx, inorder.Set(append(slices.Clone(xs), ys...)), count)
		fy = fx
	}
	w, h := func(p *part) int64 { return p.w }, func(p *part) int64 { return p.h }
	kw, kh := func(k *kind) int64 { return k.w }, func(k *kind) int64 { return k.h }
	// Values in floating point sort out the pairs that are worth an exact look.
	each := n
	if turn {
		each = n / 2
	}
	xw, xk := t.tabulate(mt, each, fx, w, kw)
	yh, yk := t.tabulate(mt, each, fy, h, kh)
	xh, yw := xw, yh
	if turn {
		xh, _ = t.tabulate(mt, n-each, fx, h, kw)
		yw, _ = t.tabulate(mt, n-each, fy, w, kh)
	}
	look := func(i, j int, both bool) {
		v := t.dualWorth(fx[i], fy[j], fx, fy, i, j, both)
		mt.work(4*n + int64(8*len(t.kinds)))
		b, ok := t.bound(v, m)
		if !ok {
			impossible = v
		}
		if b > best {
			best, why = b, v
		}
	}
	plain := len(t.kinds) == 1 && m == t.total
	// The areas first, whatever is left of the budget.
	if look(0, 0, false); mt.spent(limit) {
		return
	}
	for i := range fx {
		for j := range fy {
			mt.work(n/4 + 1)
			if !plain {
				look(i, j, false)
				if turn && square && j < i {
					look(i, j, true)
				}
				if mt.spent(limit) {
					return
				}
				continue
			}
			sum, sym := 0.0, 0.0
			cap := float64(xk[i][0] * yk[j][0])
			for q := range t.parts {
				p := &t.parts[q]
				a := float64(xw[i][q] * yh[j][q])
				if !p.turn {
					sum += float64(a * float64(p.n))
					if turn && square {
						sym += float64((a + float64(xw[j][q]*yh[i][q])) * float64(p.n))
					}
					continue
				}
				b := float64(xh[i][q] * yw[j][q])
				sum += float64(min(a, b) * float64(p.n))
				if square {
					sym += float64((a + float64(xw[j][q]*yh[i][q])) * float64(p.n))
				}
			}
			if sum > (float64(best)-1e-6)*cap {
				look(i, j, false)
			}
			if turn && square && j < i && sym > (float64(best)-1e-6)*(cap+float64(xk[j][0]*yk[i][0])) {
				look(i, j, true)
			}
			if mt.spent(limit) {
				return
			}
		}
	}
	return
}

// sides returns the largest sheet's sides, the lengths of the pieces along
// either axis, sorted, and whether some piece may turn.
func (t *task) sides() (cx, cy int64, xs, ys []int64, turn bool) {
	for _, k := range t.kinds {
		cx, cy = max(cx, k.w), max(cy, k.h)
	}
	for _, p := range t.parts {
		xs, ys = append(xs, p.w), append(ys, p.h)
		if p.turn {
			turn = true
			xs, ys = append(xs, p.h), append(ys, p.w)
		}
	}
	return cx, cy, inorder.Set(xs), inorder.Set(ys), turn
}

// tabulate returns the values of functions, as parts of that of the largest
// sheet, by function and part and by function and kind; each charges so many steps.
// It ends with the Stopper, whatever is missing then.
func (t *task) tabulate(mt *meter, each int64, fs []dualFunc, of func(p *part) int64, kind func(k *kind) int64) (parts, kinds [][]float64) {
	for _, f := range fs {
		if mt.work(each); mt.stopped {
			return parts, kinds
		}
		scale := 1 / float64(f.at(f.C))
		a, b := make([]float64, 0, len(t.parts)), make([]float64, 0, len(t.kinds))
		for j := range t.parts {
			a = append(a, float64(float64(f.at(min(f.C, of(&t.parts[j]))))*scale))
		}
		for j := range t.kinds {
			b = append(b, float64(float64(f.at(kind(&t.kinds[j])))*scale))
		}
		parts, kinds = append(parts, a), append(kinds, b)
	}
	return parts, kinds
}

// dualWorth is the exact worth f(x)·g(y); both adds g(x)·f(y), which a quarter
// turn on a square sheet leaves as it is. A piece that may turn is worth the
// less of its two ways to lie.
func (t *task) dualWorth(f, g dualFunc, fx, fy []dualFunc, i, j int, both bool) *worth {
	v := &worth{part: make([]Area, len(t.parts)), cap: make([]Area, len(t.kinds)), x: f, y: g, both: both}
	of := func(x, y int64) Area {
		a := mulArea(f.at(x), g.at(y))
		if both {
			a = a.Add(mulArea(fx[j].at(x), fy[i].at(y)))
		}
		return a
	}
	for q := range t.parts {
		p := &t.parts[q]
		set := false
		if p.w <= f.C && p.h <= g.C {
			v.part[q], set = of(p.w, p.h), true
		}
		if p.turn && p.h <= f.C && p.w <= g.C {
			if b := of(p.h, p.w); !set || b.Cmp(v.part[q]) < 0 {
				v.part[q] = b
			}
		}
	}
	for q := range t.kinds {
		v.cap[q] = of(t.kinds[q].w, t.kinds[q].h)
	}
	return v
}
