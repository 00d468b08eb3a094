package packing_test

import (
	"math/rand"
	"testing"

	"boardwrap.example/internal/packing"
	"boardwrap.example/internal/proptest"
)

// cutUp cuts a w × h rectangle at random, edge to edge, into n pieces (fewer if
// no side is left to cut) that leave nothing over.
func cutUp(r *rand.Rand, w, h int64, n int) [][2]int64 {
	parts := [][2]int64{{w, h}}
	for tries := 0; len(parts) < n && tries < 50*n; tries++ {
		i := r.Intn(len(parts))
		p := parts[i]
		if r.Intn(2) == 0 && p[0] > 1 {
			a := 1 + r.Int63n(p[0]-1)
			parts[i] = [2]int64{a, p[1]}
			parts = append(parts, [2]int64{p[0] - a, p[1]})
		} else if p[1] > 1 {
			a := 1 + r.Int63n(p[1]-1)
			parts[i] = [2]int64{p[0], a}
			parts = append(parts, [2]int64{p[0], p[1] - a})
		}
	}
	return parts
}

// zeroWaste is a problem whose optimum is known: m whole sheets, cut up.
func zeroWaste(r *rand.Rand, m, each int, side int64) packing.Problem {
	w, h := side/2+r.Int63n(side/2+1), side/2+r.Int63n(side/2+1)
	p := packing.Problem{Stock: []packing.Stock{{W: w, H: h, Count: packing.Unlimited}}}
	for i := 0; i < m; i++ {
		for _, s := range cutUp(r, w, h, each) {
			p.Items = append(p.Items, packing.Item{W: s[0], H: s[1], Copies: 1, Turn: r.Intn(2) == 0})
		}
	}
	r.Shuffle(len(p.Items), func(i, j int) { p.Items[i], p.Items[j] = p.Items[j], p.Items[i] })
	return p
}

// Twelve pieces or fewer: the exact search must find the zero-waste layout,
// in small units and in nanometres alike.
func TestZeroWasteHandful(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	for n := 0; n < proptest.Cases(20); n++ {
		m := 1 + r.Intn(3)
		side := int64(40)
		if n%2 == 1 {
			side = 10_000_000_000
		}
		p := zeroWaste(r, m, packing.MaxExact/m, side)
		res := solve(t, p, packing.DefaultSteps)
		if res.Ordinary != m || !res.Proved || len(res.Short) > 0 {
			t.Errorf("case %d: %d sheets (proved %v, %d short), cut from %d: %+v", n, res.Ordinary, res.Proved, len(res.Short), m, p)
		}
		if zero := (packing.Area{}); res.Areas.Waste != zero || res.Areas.Offcuts != zero {
			t.Errorf("case %d: waste %v, offcuts %v", n, res.Areas.Waste, res.Areas.Offcuts)
		}
	}
}

// Larger sets: the bound is never above the known optimum and, area being
// what it is, never below it either; the search stays within one sheet of it.
func TestZeroWasteMany(t *testing.T) {
	r := rand.New(rand.NewSource(6))
	steps := int64(2_000_000)
	if proptest.Long {
		steps = 10_000_000
	}
	for n := 0; n < 12; n++ {
		m := 3 + r.Intn(8)
		p := zeroWaste(r, m, 4+r.Intn(4), 1000)
		res := solve(t, p, steps)
		if res.Bound != m {
			t.Errorf("case %d: bound %d, optimum %d", n, res.Bound, m)
		}
		if res.Ordinary > m+1 {
			t.Errorf("case %d: %d sheets, cut from %d", n, res.Ordinary, m)
		}
	}
}

// Whole sheets cut up alike, many times over.
func TestZeroWasteBatch(t *testing.T) {
	r := rand.New(rand.NewSource(8))
	for n := 0; n < 20; n++ {
		p := packing.Problem{Stock: []packing.Stock{{W: 300, H: 200, Count: packing.Unlimited}}}
		m := 0
		for i := 1 + r.Intn(3); i > 0; i-- {
			times := 20 + r.Intn(80)
			m += times
			for _, s := range cutUp(r, 300, 200, 4) {
				p.Items = append(p.Items, packing.Item{W: s[0], H: s[1], Copies: times})
			}
		}
		res := solve(t, p, packing.DefaultSteps/4)
		if res.Ordinary != m || !res.Proved {
			t.Errorf("case %d: %d sheets (proved %v), cut from %d: %+v", n, res.Ordinary, res.Proved, m, p)
		}
	}
}

// Batches of many patterns, too many to be found again in so few steps: the
// bound is the number of sheets that were cut up, whatever the search reaches,
// and more steps never give more sheets.
func TestZeroWasteBatchOfManyPatterns(t *testing.T) {
	r := rand.New(rand.NewSource(10))
	for n := 0; n < 6; n++ {
		p := packing.Problem{Stock: []packing.Stock{{W: 997, H: 701, Count: packing.Unlimited, Cost: 1}}}
		m := 0
		for i := 3 + r.Intn(3); i > 0; i-- {
			times := 20 + r.Intn(40)
			m += times
			for _, s := range cutUp(r, 997, 701, 7) {
				p.Items = append(p.Items, packing.Item{W: s[0], H: s[1], Copies: times, Turn: n%2 == 0})
			}
		}
		before := 1 << 30
		for _, steps := range []int64{100_000, 1_200_000} {
			res := prove(t, p, steps)
			if res.Bound != m || res.Ordinary < m || res.Ordinary > before || len(res.Short) > 0 || res.Proved != (res.Ordinary == m) {
				t.Errorf("case %d, %d steps: %d sheets, %d before, bound %d, proved %v, %+v short; cut from %d",
					n, steps, res.Ordinary, before, res.Bound, res.Proved, res.Short, m)
			}
			before = res.Ordinary
		}
	}
}
