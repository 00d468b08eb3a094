package packing_test

import (
	"math/bits"
	"math/rand"
	"testing"

	"boardwrap.example/internal/packing"
	"boardwrap.example/internal/proptest"
)

// brute tries every cut at every unit, in the words of the Problem: nothing is
// folded into sizes, no normal patterns, no slicing trees. It is slow and
// plain, to hold the exact search against.
type brute struct {
	p      packing.Problem
	pieces []int // item by piece
	memo   map[[6]int]bool
}

// cuttable reports whether the part from (x0, y0) to (x1, y1) of a sheet of
// stock s can be cut up so that every piece of set comes out.
func (b *brute) cuttable(s int, x0, y0, x1, y1 int, set uint) bool {
	if set == 0 {
		return true
	}
	st := b.p.Stock[s]
	w, h, trim := int64(x1-x0), int64(y1-y0), int(st.Trim)
	if bits.OnesCount(set) == 1 && x0 >= trim && y0 >= trim && x1 <= int(st.W)-trim && y1 <= int(st.H)-trim {
		it := b.p.Items[b.pieces[bits.TrailingZeros(set)]]
		if it.W == w && it.H == h || it.Turn && it.H == w && it.W == h {
			return true
		}
	}
	key := [6]int{s, x0, y0, x1<<8 | y1, int(set), 0}
	if v, ok := b.memo[key]; ok {
		return v
	}
	b.memo[key] = false
	k := int(b.p.Kerf)
	try := func(lo, hi int, part func(from, to int, set uint) bool) bool {
		for at := lo - k; at < hi; at++ { // the kerf is at … at+k
			a := set
			for {
				okA := a == 0 || at > lo && part(lo, at, a)
				if r := set &^ a; okA && (r == 0 || at+k < hi && part(at+k, hi, r)) &&
					(at > lo || at+k > lo) && (at > lo || at+k < hi) && !(k == 0 && at == lo) {
					return true
				}
				if a == 0 {
					break
				}
				a = (a - 1) & set
			}
		}
		return false
	}
	ok := false
	if l := b.p.LongestCut; l == 0 || h <= l {
		ok = try(x0, x1, func(from, to int, set uint) bool {
			return to-from < x1-x0 && b.cuttable(s, from, y0, to, y1, set)
		})
	}
	if l := b.p.LongestCut; !ok && (l == 0 || w <= l) {
		ok = try(y0, y1, func(from, to int, set uint) bool {
			return to-from < y1-y0 && b.cuttable(s, x0, from, x1, to, set)
		})
	}
	b.memo[key] = ok
	return ok
}

// best returns the least (pieces short, ordinary sheets, cost).
func (b *brute) best() [3]int64 {
	full := uint(1)<<len(b.pieces) - 1
	left := make([]int, len(b.p.Stock))
	for i, s := range b.p.Stock {
		left[i] = s.Count
		if s.Count < 0 {
			left[i] = len(b.pieces)
		}
	}
	best := [3]int64{1 << 40}
	var walk func(set uint, ordinary, cost int64)
	walk = func(set uint, ordinary, cost int64) {
		v := [3]int64{int64(bits.OnesCount(set)), ordinary, cost}
		for i := range v {
			if v[i] != best[i] {
				if v[i] < best[i] {
					best = v
				}
				break
			}
		}
		for i, s := range b.p.Stock {
			if left[i] == 0 {
				continue
			}
			left[i]--
			for a := set; a > 0; a = (a - 1) & set {
				if b.cuttable(i, 0, 0, int(s.W), int(s.H), a) {
					o := ordinary
					if !s.First {
						o++
					}
					walk(set&^a, o, cost+s.Cost)
				}
			}
			left[i]++
		}
	}
	walk(full, 0, 0)
	return best
}

// Small random problems with kerf, trim, longest cut, short and mixed stock:
// the exact search and the plain one agree on pieces short, sheets and cost.
func TestExactAgreesWithTryingEveryCut(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	cases := proptest.Cases(60)
	seen := [4]int{}
	for n := 0; n < cases; n++ {
		p := packing.Problem{Kerf: int64(r.Intn(2))}
		if r.Intn(2) == 0 {
			p.LongestCut = int64(3 + r.Intn(6))
		}
		for i := 1 + r.Intn(2); i > 0; i-- {
			p.Stock = append(p.Stock, packing.Stock{W: int64(3 + r.Intn(6)), H: int64(3 + r.Intn(6)), Count: r.Intn(4) - 1,
				Cost: int64(r.Intn(4)), First: r.Intn(3) == 0, Trim: int64(r.Intn(3) / 2)})
		}
		pieces := []int{}
		for len(pieces) < 4 {
			p.Items = append(p.Items, packing.Item{W: int64(1 + r.Intn(5)), H: int64(1 + r.Intn(5)), Copies: 1 + r.Intn(2), Turn: r.Intn(2) == 0})
			for i := 0; i < p.Items[len(p.Items)-1].Copies; i++ {
				pieces = append(pieces, len(p.Items)-1)
			}
		}
		b := &brute{p, pieces, map[[6]int]bool{}}
		want := b.best()
		res := solve(t, p, packing.DefaultSteps)
		short := int64(0)
		for _, s := range res.Short {
			short += int64(s.Copies)
		}
		got := [3]int64{short, int64(res.Ordinary), res.Cost}
		if got != want || !res.Proved {
			t.Errorf("case %d: (short, sheets, cost) = %v, proved %v, want %v: %+v", n, got, res.Proved, want, p)
		}
		for i, v := range []bool{short > 0, p.Kerf > 0, p.LongestCut > 0, res.Ordinary > 1} {
			if v {
				seen[i]++
			}
		}
	}
	for i, n := range seen {
		if n < cases/20 {
			t.Errorf("only %d cases of sort %d: the generator is too tame", n, i)
		}
	}
}
