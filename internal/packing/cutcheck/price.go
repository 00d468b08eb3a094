package cutcheck

import (
	"math/big"
	"slices"
	"sort"

	"boardwrap.example/internal/packing"
)

// mostPrice keeps sums of prices far from the end of an int64, and mostCounted
// the number of sets of counted copies small.
const (
	mostPrice   = 1 << 40
	mostCounted = 10
)

// priced works the caps of a proof by prices out anew: the most worth that can
// be cut from each sheet by cuts at the points that the proof is about.
func (v *verifier) priced(p *packing.Proof) (items, caps []*big.Int) {
	if len(p.Price) != len(v.items) || len(p.Cap) != len(v.stock) || p.Raster < 0 || p.Raster == 1 ||
		p.Raster > 0 && (p.Wide < 1 || p.High < 1) {
		v.say("a proof with %d prices, %d caps", len(p.Price), len(p.Cap))
		return nil, nil
	}
	for _, n := range p.Price {
		if n < 0 || n > mostPrice {
			v.say("a price of %d", n)
			return nil, nil
		}
		items = append(items, big.NewInt(n))
	}
	k := newKnapsack(v, p)
	if k == nil {
		return nil, nil
	}
	for i, s := range v.stock {
		n := int64(0)
		if s.Count != 0 {
			n = k.most(s)
		}
		if n > p.Cap[i] {
			v.say("stock %d: worth %d can be cut from a sheet, the proof says %d", i, n, p.Cap[i])
		}
		caps = append(caps, big.NewInt(max(n, p.Cap[i])))
	}
	return items, caps
}

// A knapsack is what can be cut from rectangles whose sides are points. Copies
// of some items are counted: each is a bit, and what can be cut depends on the
// set of those that may be used.
type knapsack struct {
	p      *packing.Proof
	xs, ys []int64
	best   [][][]int64 // by set, x and y
	bits   []int       // by item
	free   int64       // of what rounding leaves nothing of
}

// count gives the copies of the items in Once their bits.
func (k *knapsack) count(v *verifier) (sets int, ok bool) {
	k.bits = make([]int, len(v.items))
	sets = 1
	for _, i := range k.p.Once {
		if i < 0 || i >= len(v.items) || k.bits[i] != 0 || v.items[i].Copies > mostCounted {
			v.say("no copies to count: item %d", i)
			return 0, false
		}
		for range v.items[i].Copies {
			k.bits[i] |= sets
			sets *= 2
		}
		if sets > 1<<mostCounted {
			v.say("more than %d copies to count", mostCounted)
			return 0, false
		}
	}
	return sets, true
}

// newKnapsack returns nil, having said why, if the proof counts what it cannot.
func newKnapsack(v *verifier, p *packing.Proof) *knapsack {
	k := &knapsack{p: p}
	sets, ok := k.count(v)
	if !ok {
		return nil
	}
	var wide, high int64
	for _, s := range v.stock {
		if s.Count != 0 {
			wide, high = max(wide, s.W), max(high, s.H)
		}
	}
	if p.Raster == 0 {
		k.xs, k.ys = k.sums(v, wide, high, false), k.sums(v, high, wide, true)
	} else {
		for x := int64(0); x <= k.x(wide); x++ {
			k.xs = append(k.xs, x)
		}
		for y := int64(0); y <= k.y(high); y++ {
			k.ys = append(k.ys, y)
		}
	}
	for set := range sets {
		k.best = append(k.best, nil)
		for range k.xs {
			k.best[set] = append(k.best[set], make([]int64, len(k.ys)))
		}
	}
	for i, it := range v.items {
		k.lay(it, k.bits[i], p.Price[i], wide, high)
	}
	for set := range sets {
		k.fill(set)
	}
	return k
}

// lay puts an item where it fits on the points. One that rounding leaves
// nothing of may be on a sheet with all its copies.
func (k *knapsack) lay(it packing.Item, bits int, price, wide, high int64) {
	var spots [][2]int
	for way := 0; way < 2 && it.Copies > 0; way++ {
		w, h := it.W, it.H
		if way == 1 {
			w, h = h, w
		}
		if way == 1 && !it.Turn || w > wide || h > high {
			continue
		}
		a, b := at(k.xs, k.x(w)), at(k.ys, k.y(h))
		if k.xs[a] == 0 || k.ys[b] == 0 {
			k.free += price * int64(it.Copies)
			return
		}
		spots = append(spots, [2]int{a, b})
	}
	for _, s := range spots {
		for set := range k.best {
			if bits == 0 || set&bits != 0 {
				k.best[set][s[0]][s[1]] = max(k.best[set][s[0]][s[1]], price)
			}
		}
	}
}

// fill works out the best of every rectangle from those within it: a point
// less, or two parts, between which the counted copies are shared out.
func (k *knapsack) fill(set int) {
	for a := range k.xs {
		for b := range k.ys {
			v := k.best[set][a][b]
			if a > 0 {
				v = max(v, k.best[set][a-1][b])
			}
			if b > 0 {
				v = max(v, k.best[set][a][b-1])
			}
			// A share and the rest of the set, for each of the two parts.
			for share := 0; share <= set; share++ {
				if share&^set == 0 {
					v = max(v, k.parted(share, set&^share, a, b))
				}
			}
			k.best[set][a][b] = v
		}
	}
}

// parted is the most that two parts of a rectangle come to, the smaller with one
// set and the larger with the other.
func (k *knapsack) parted(small, large, a, b int) (v int64) {
	for c, d := 1, a; c <= d; c++ {
		for k.xs[c]+k.xs[d] > k.xs[a] {
			d--
		}
		if d < c {
			break
		}
		v = max(v, k.best[small][c][b]+k.best[large][d][b])
	}
	for c, d := 1, b; c <= d; c++ {
		for k.ys[c]+k.ys[d] > k.ys[b] {
			d--
		}
		if d < c {
			break
		}
		v = max(v, k.best[small][a][c]+k.best[large][a][d])
	}
	return v
}

func (k *knapsack) most(s packing.Stock) int64 {
	return k.best[len(k.best)-1][at(k.xs, k.x(s.W))][at(k.ys, k.y(s.H))] + k.free
}

// x and y are lengths in the units of the points.
func (k *knapsack) x(v int64) int64 { return k.scaled(v, k.p.Wide) }
func (k *knapsack) y(v int64) int64 { return k.scaled(v, k.p.High) }

func (k *knapsack) scaled(v, whole int64) int64 {
	if k.p.Raster == 0 {
		return v
	}
	n := new(big.Int).Mul(big.NewInt(v), big.NewInt(int64(k.p.Raster-1)))
	return n.Quo(n, big.NewInt(whole)).Int64()
}

// sums are all sums of lengths of pieces along one axis, each piece no more
// often than it has copies, up to most. A piece that may turn brings its other
// side too.
func (k *knapsack) sums(v *verifier, most, across int64, up bool) []int64 {
	have := map[int64]bool{0: true}
	add := func(long, short int64, copies int) {
		if long > most || short > across {
			return
		}
		for ; copies > 0; copies-- {
			var more []int64
			for s := range have {
				if s+long <= most && !have[s+long] {
					more = append(more, s+long)
				}
			}
			if len(more) == 0 {
				return
			}
			for _, s := range more {
				have[s] = true
			}
		}
	}
	for _, it := range v.items {
		long, short := it.W, it.H
		if up {
			long, short = short, long
		}
		add(long, short, it.Copies)
		if it.Turn {
			add(short, long, it.Copies)
		}
	}
	all := make([]int64, 0, len(have))
	for s := range have {
		all = append(all, s)
	}
	slices.Sort(all)
	return all
}

// at is the index of the last point that is not above v.
func at(points []int64, v int64) int {
	return sort.Search(len(points), func(i int) bool { return points[i] > v }) - 1
}
