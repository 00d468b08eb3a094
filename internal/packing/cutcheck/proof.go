package cutcheck

import (
	"math/big"
	"slices"

	"boardwrap.example/internal/packing"
)

// CheckProof returns what is wrong with the proofs of r: one that is missing
// though something is said to be proved, or that does not prove it, or pieces
// left out of it that are said to fit no sheet, but do. It works in integers and
// shares nothing with the solver.
func CheckProof(p packing.Problem, r *packing.Result) []string {
	c := &checker{p: p, r: r}
	v := newVerifier(c)
	v.unfit()
	if r.Bound > 0 {
		if r.Proof == nil {
			c.say("bound %d without a proof", r.Bound)
		} else if n := v.least(r.Proof, v.placed); n < r.Bound || r.Proof.Bound != r.Bound {
			c.say("bound %d, the proof of %d shows %d", r.Bound, r.Proof.Bound, n)
		}
	}
	if r.Proved && r.Ordinary > 0 && r.Bound != r.Ordinary {
		c.say("proved, but bound %d and %d sheets", r.Bound, r.Ordinary)
	}
	if r.Proved && v.placed < v.total {
		if r.NoMore == nil {
			c.say("proved, but not that no more than %d of %d pieces find a place", v.placed, v.total)
		} else if v.possible(r.NoMore, v.placed+1) {
			c.say("%d of %d pieces are placed; that no more can be is not shown", v.placed, v.total)
		}
	}
	return c.wrong
}

// A verifier knows the sizes with the kerf put on: pieces and sheets grow by
// one kerf, and a cut takes nothing.
type verifier struct {
	*checker
	items         []packing.Item  // kerf included, no copies of those that fit nothing
	stock         []packing.Stock // kerf included, trim taken off, no sheets that are no use
	placed, total int
	tried         *subsets
}

func newVerifier(c *checker) *verifier {
	v := &verifier{checker: c}
	for _, s := range c.p.Stock {
		if l := c.p.LongestCut; l > 0 && s.W > l && s.H > l && s.Trim > 0 {
			s.Count = 0 // it must be trimmed and cannot be cut
		}
		s.W, s.H = s.W-2*s.Trim+c.p.Kerf, s.H-2*s.Trim+c.p.Kerf
		if s.W <= c.p.Kerf || s.H <= c.p.Kerf {
			s.Count = 0
		}
		v.stock = append(v.stock, s)
	}
	gone := map[int]int{}
	for _, s := range c.r.Short {
		if s.Fits {
			gone[s.Item] = s.Copies
		} else {
			gone[s.Item] = -1
		}
	}
	for i, it := range c.p.Items {
		it.W, it.H = it.W+c.p.Kerf, it.H+c.p.Kerf
		if gone[i] < 0 {
			it.Copies = 0
		}
		v.items = append(v.items, it)
		v.total += it.Copies
		v.placed += it.Copies - max(0, gone[i])
	}
	return v
}

// unfit looks for items that are said to fit no sheet, and are so in no proof,
// though one could be cut from a sheet that is there.
func (v *verifier) unfit() {
	for _, s := range v.r.Short {
		if s.Fits {
			continue
		}
		it := v.items[s.Item]
		if s.Copies != v.p.Items[s.Item].Copies {
			v.say("item %d fits nothing, but only %d of %d are short", s.Item, s.Copies, v.p.Items[s.Item].Copies)
		}
		lone := [][]sized{nil, {{it.W, it.H, true}}}
		if it.Turn {
			lone[1] = append(lone[1], sized{it.H, it.W, true})
		}
		for i, st := range v.stock {
			if st.Count != 0 && v.holding(i, lone)[1] {
				v.say("item %d is said to fit nothing, but fits stock %d", s.Item, i)
			}
		}
	}
}

// worths returns what one copy of each item is worth by a proof, and what a
// sheet of each stock holds at most; nil if the proof is no proof.
func (v *verifier) worths(p *packing.Proof) (items, caps []*big.Int) {
	if p.Price != nil {
		return v.priced(p)
	}
	for _, f := range []packing.Function{p.X, p.Y} {
		if f.C < 1 || f.K < 1 || f.Shape > packing.Fold {
			v.say("no function: %+v", f)
			return nil, nil
		}
	}
	of := func(w, h int64) *big.Int {
		n := new(big.Int).Mul(value(p.X, w), value(p.Y, h))
		if p.Both {
			n.Add(n, new(big.Int).Mul(value(p.Y, w), value(p.X, h)))
		}
		return n
	}
	for _, s := range v.stock {
		if s.Count == 0 {
			caps = append(caps, new(big.Int))
			continue
		}
		if s.W > p.X.C || s.H > p.Y.C || p.Both && (s.W > p.Y.C || s.H > p.X.C) {
			v.say("a function of the proof ends before a sheet does")
			return nil, nil
		}
		caps = append(caps, of(s.W, s.H))
	}
	for _, it := range v.items {
		var least *big.Int
		for way := 0; way < 2; way++ {
			w, h := it.W, it.H
			if way == 1 {
				w, h = h, w
			}
			if way == 1 && !it.Turn || w > p.X.C || h > p.Y.C {
				continue // it cannot lie like this
			}
			if n := of(w, h); least == nil || n.Cmp(least) < 0 {
				least = n
			}
		}
		if least == nil {
			least = new(big.Int)
		}
		items = append(items, least)
	}
	return items, caps
}

// value is f(x), written from the papers that the shapes are from.
func value(f packing.Function, x int64) *big.Int {
	n := func(v int64) *big.Int { return big.NewInt(v) }
	switch f.Shape {
	case packing.Threshold:
		if 2*f.K > f.C || x > f.C-f.K { // only thresholds up to a half are superadditive
			if 2*f.K > f.C {
				return n(0)
			}
			return n(f.C)
		}
		if x < f.K {
			return n(0)
		}
	case packing.Steps:
		part := new(big.Int).Mul(n(f.K+1), n(x))
		q, r := new(big.Int).QuoRem(part, n(f.C), new(big.Int))
		if r.Sign() == 0 {
			return part.Mul(n(x), n(f.K))
		}
		return q.Mul(q, n(f.C))
	case packing.Fold:
		whole := f.C / f.K
		if 2*x > f.C {
			return n(2*whole - 2*((f.C-x)/f.K))
		}
		if 2*x == f.C {
			return n(whole)
		}
		return n(2 * (x / f.K))
	}
	return n(x)
}

// least is the least number of ordinary sheets that hold m pieces by a proof.
func (v *verifier) least(p *packing.Proof, m int) int {
	if p.Root > 0 {
		if s := v.try(p); s != nil {
			return s.fewest(m)
		}
		return -1
	}
	need, caps := v.needs(p, m)
	if need == nil {
		return -1
	}
	type lot struct {
		cap   *big.Int
		count int
	}
	var ordinary []lot
	for i, s := range v.stock {
		n := s.Count
		if n < 0 || n > v.total {
			n = v.total
		}
		if s.First {
			need.Sub(need, new(big.Int).Mul(caps[i], big.NewInt(int64(n))))
			continue
		}
		ordinary = append(ordinary, lot{caps[i], n})
	}
	slices.SortFunc(ordinary, func(a, b lot) int { return b.cap.Cmp(a.cap) })
	sheets := 0
	for _, l := range ordinary {
		for ; l.count > 0 && need.Sign() > 0; l.count-- {
			need.Sub(need, l.cap)
			sheets++
		}
	}
	return sheets
}

// possible reports whether a proof leaves it open that the whole stock holds m
// pieces.
func (v *verifier) possible(p *packing.Proof, m int) bool {
	if p.Root > 0 {
		s := v.try(p)
		return s == nil || s.fewest(m) >= 0
	}
	need, caps := v.needs(p, m)
	if need == nil {
		return true
	}
	for i, s := range v.stock {
		n := s.Count
		if n < 0 || n > v.total {
			n = v.total
		}
		need.Sub(need, new(big.Int).Mul(caps[i], big.NewInt(int64(n))))
	}
	return need.Sign() <= 0
}

// needs is what the m pieces that are worth least are worth together.
func (v *verifier) needs(p *packing.Proof, m int) (need *big.Int, caps []*big.Int) {
	items, caps := v.worths(p)
	if items == nil {
		return nil, nil
	}
	by := make([]int, len(items))
	for i := range by {
		by[i] = i
	}
	slices.SortFunc(by, func(a, b int) int { return items[a].Cmp(items[b]) })
	need = new(big.Int)
	for _, i := range by {
		n := min(m, v.items[i].Copies)
		m -= n
		need.Add(need, new(big.Int).Mul(items[i], big.NewInt(int64(n))))
	}
	return need, caps
}
