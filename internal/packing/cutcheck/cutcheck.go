// Package cutcheck checks a packing.Result against its Problem: the layout, and
// the proofs of what is said about it. It shares nothing with the solver but
// the types of the two, and knows nothing of how a layout was found.
package cutcheck

import (
	"fmt"
	"math/big"
	"sort"

	"boardwrap.example/internal/packing"
)

// Check returns everything that is wrong with r as an answer to p: pieces
// missing or too many, outside the sheet or its trim, overlapping, turned
// without leave, a part that is no edge-to-edge cut of the part before, a cut
// that is too long, more sheets than there are, sums that do not add up.
func Check(p packing.Problem, r *packing.Result) []string {
	c := &checker{p: p, r: r}
	c.run()
	return c.wrong
}

type checker struct {
	p     packing.Problem
	r     *packing.Result
	wrong []string

	placed                 []int64
	stock, pieces, offcuts *big.Int
}

func (c *checker) say(format string, args ...any) {
	if len(c.wrong) < 50 {
		c.wrong = append(c.wrong, fmt.Sprintf(format, args...))
	}
}

func area(w, h int64) *big.Int { return new(big.Int).Mul(big.NewInt(w), big.NewInt(h)) }

func (c *checker) run() {
	p, r := c.p, c.r
	c.placed = make([]int64, len(p.Items))
	c.stock, c.pieces, c.offcuts = new(big.Int), new(big.Int), new(big.Int)
	used := make([]int64, len(p.Stock))
	for i, s := range r.Sheets {
		if s.Stock < 0 || s.Stock >= len(p.Stock) {
			c.say("sheet %d: no such stock %d", i, s.Stock)
			return
		}
		if s.Times < 1 {
			c.say("sheet %d: cut %d times", i, s.Times)
		}
		used[s.Stock] += int64(s.Times)
		c.sheet(i, s)
	}
	for i, it := range p.Items { // each piece has been found to be of its item's size
		c.pieces.Add(c.pieces, new(big.Int).Mul(area(it.W, it.H), big.NewInt(c.placed[i])))
	}
	ordinary, cost := int64(0), int64(0)
	if len(r.Used) != len(p.Stock) {
		c.say("Used has %d entries for %d kinds of stock", len(r.Used), len(p.Stock))
		return
	}
	for i, s := range p.Stock {
		if s.Count != packing.Unlimited && used[i] > int64(s.Count) {
			c.say("stock %d: %d used of %d", i, used[i], s.Count)
		}
		if int64(r.Used[i]) != used[i] {
			c.say("stock %d: Used says %d, the sheets %d", i, r.Used[i], used[i])
		}
		if !s.First {
			ordinary += used[i]
		}
		cost += used[i] * s.Cost
	}
	if int64(r.Ordinary) != ordinary {
		c.say("Ordinary is %d, the sheets say %d", r.Ordinary, ordinary)
	}
	if r.Cost != cost {
		c.say("Cost is %d, the sheets say %d", r.Cost, cost)
	}
	if r.Bound > r.Ordinary {
		c.say("bound %d above the %d sheets used", r.Bound, r.Ordinary)
	}
	if r.Proved && r.Bound != r.Ordinary {
		c.say("proved, but bound %d and %d sheets", r.Bound, r.Ordinary)
	}
	last := -1
	for _, s := range r.Short {
		if s.Item <= last || s.Item >= len(p.Items) || s.Copies < 1 {
			c.say("odd shortage %+v", s)
			return
		}
		last = s.Item
		c.placed[s.Item] += int64(s.Copies)
	}
	for i, it := range p.Items {
		if c.placed[i] != int64(it.Copies) {
			c.say("item %d: %d placed or short, %d wanted", i, c.placed[i], it.Copies)
		}
	}
	same := func(name string, a packing.Area, b *big.Int) {
		v := new(big.Int).SetUint64(a.Hi)
		v.Lsh(v, 64).Add(v, new(big.Int).SetUint64(a.Lo))
		if v.Cmp(b) != 0 {
			c.say("area of %s is %v, the sheets say %v", name, v, b)
		}
	}
	same("stock", r.Areas.Stock, c.stock)
	same("pieces", r.Areas.Pieces, c.pieces)
	same("offcuts", r.Areas.Offcuts, c.offcuts)
	same("waste", r.Areas.Waste, c.stock.Sub(c.stock, c.pieces).Sub(c.stock, c.offcuts))
}

type rect struct{ x, y, w, h int64 }

func (c *checker) sheet(i int, s packing.Sheet) {
	st := c.p.Stock[s.Stock]
	times := big.NewInt(int64(s.Times))
	add := func(to *big.Int, w, h int64) { to.Add(to, new(big.Int).Mul(area(w, h), times)) }
	add(c.stock, st.W, st.H)
	if len(s.Nodes) == 0 {
		c.say("sheet %d: no parts", i)
		return
	}
	if n := s.Nodes[0]; n.X != 0 || n.Y != 0 || n.W != st.W || n.H != st.H {
		c.say("sheet %d: the first part is not the sheet: %+v", i, n)
	}
	parent := make([]int, len(s.Nodes))
	for j := range parent {
		parent[j] = -1
	}
	var laid []rect
	for j, n := range s.Nodes {
		if n.W <= 0 || n.H <= 0 {
			c.say("sheet %d part %d: no size: %+v", i, j, n)
		}
		if j > 0 && parent[j] < 0 {
			c.say("sheet %d part %d: cut from nothing before it", i, j)
		}
		child := func(k int, want rect) {
			if want.w <= 0 || want.h <= 0 {
				if k != -1 {
					c.say("sheet %d part %d: child %d where nothing is left", i, j, k)
				}
				return
			}
			if k <= j || k >= len(s.Nodes) || parent[k] >= 0 {
				c.say("sheet %d part %d: bad child %d", i, j, k)
				return
			}
			parent[k] = j
			m := s.Nodes[k]
			if (rect{m.X, m.Y, m.W, m.H}) != want {
				c.say("sheet %d part %d: child %d is %+v, the cut gives %+v", i, j, k, m, want)
			}
		}
		switch n.Use {
		case packing.CutX, packing.CutY:
			long, across := n.H, n.W
			if n.Use == packing.CutY {
				long, across = n.W, n.H
			}
			if c.p.LongestCut > 0 && long > c.p.LongestCut {
				c.say("sheet %d part %d: cut of %d, longest %d", i, j, long, c.p.LongestCut)
			}
			if n.At+c.p.Kerf < 0 || n.At > across || c.p.Kerf == 0 && (n.At == 0 || n.At == across) {
				c.say("sheet %d part %d: cut at %d outside the part", i, j, n.At)
			}
			rest := n.At + c.p.Kerf
			if n.Use == packing.CutX {
				child(n.A, rect{n.X, n.Y, n.At, n.H})
				child(n.B, rect{n.X + rest, n.Y, n.W - rest, n.H})
			} else {
				child(n.A, rect{n.X, n.Y, n.W, n.At})
				child(n.B, rect{n.X, n.Y + rest, n.W, n.H - rest})
			}
			continue
		case packing.Piece:
			if n.Item < 0 || n.Item >= len(c.p.Items) {
				c.say("sheet %d part %d: no such item %d", i, j, n.Item)
				return
			}
			it := c.p.Items[n.Item]
			w, h := it.W, it.H
			if n.Turned {
				w, h = h, w
				if !it.Turn {
					c.say("sheet %d part %d: item %d turned", i, j, n.Item)
				}
			}
			if n.W != w || n.H != h {
				c.say("sheet %d part %d: item %d is %d × %d, the part %d × %d", i, j, n.Item, w, h, n.W, n.H)
			}
			if n.X < st.Trim || n.Y < st.Trim || n.X+n.W > st.W-st.Trim || n.Y+n.H > st.H-st.Trim {
				c.say("sheet %d part %d: item %d in the trim", i, j, n.Item)
			}
			c.placed[n.Item] += int64(s.Times)
			laid = append(laid, rect{n.X, n.Y, n.W, n.H})
		case packing.Offcut:
			if min(n.W, n.H) < c.p.KeepShort || max(n.W, n.H) < c.p.KeepLong {
				c.say("sheet %d part %d: offcut %d × %d is too small", i, j, n.W, n.H)
			}
			add(c.offcuts, n.W, n.H)
		case packing.Waste:
		default:
			c.say("sheet %d part %d: use %d", i, j, n.Use)
		}
		if n.A != -1 || n.B != -1 {
			c.say("sheet %d part %d: uncut but with children", i, j)
		}
	}
	c.overlaps(i, laid)
}

// overlaps compares each piece with those whose x ranges begin before it ends.
// Beyond some thousands of pieces on one sheet it leaves the proof to the tree
// of cuts, whose parts cannot overlap.
func (c *checker) overlaps(i int, laid []rect) {
	if len(laid) > 5000 {
		return
	}
	sort.Slice(laid, func(a, b int) bool { return laid[a].x < laid[b].x })
	for a := range laid {
		for b := a + 1; b < len(laid) && laid[b].x < laid[a].x+laid[a].w; b++ {
			if laid[a].y < laid[b].y+laid[b].h && laid[b].y < laid[a].y+laid[a].h {
				c.say("sheet %d: pieces overlap: %+v %+v", i, laid[a], laid[b])
			}
		}
	}
}
