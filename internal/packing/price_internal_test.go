package packing

import (
	"context"
	"math/rand"
	"testing"

	"boardwrap.example/internal/proptest"
)

// A tryer finds out by trying every cut whether pieces come out of a rectangle.
type tryer struct {
	pieces []Item
	known  map[[3]int64]bool
}

func (b *tryer) fits(set, w, h int64) bool {
	if set == 0 {
		return true
	}
	key := [3]int64{set, w, h}
	if ok, known := b.known[key]; known {
		return ok
	}
	ok := false
	if set&(set-1) == 0 {
		i := 0
		for 1<<i != set {
			i++
		}
		p := b.pieces[i]
		ok = p.W <= w && p.H <= h || p.Turn && p.H <= w && p.W <= h
	}
	for s := (set - 1) & set; s > 0 && !ok; s = (s - 1) & set {
		for x := int64(1); x < w && !ok; x++ {
			ok = b.fits(s, x, h) && b.fits(set&^s, w-x, h)
		}
		for y := int64(1); y < h && !ok; y++ {
			ok = b.fits(s, w, y) && b.fits(set&^s, w, h-y)
		}
	}
	b.known[key] = ok
	return ok
}

// With all copies counted a grid says what the best pattern is worth that holds
// no piece too often, found here by trying every subset and every cut; and what
// it cuts is such a pattern.
func TestGridThatCountsCopies(t *testing.T) {
	r := rand.New(rand.NewSource(12))
	less := 0
	for n := proptest.Cases(60); n > 0; n-- {
		p := Problem{Stock: []Stock{{W: 4 + r.Int63n(7), H: 4 + r.Int63n(7), Count: Unlimited}}}
		b := &tryer{known: map[[3]int64]bool{}}
		var price, each []int64
		for left := 2 + r.Intn(4); left > 0; {
			it := Item{W: 1 + r.Int63n(5), H: 1 + r.Int63n(4), Copies: min(left, 1+r.Intn(2)), Turn: r.Intn(2) == 0}
			left -= it.Copies
			p.Items = append(p.Items, it)
			price = append(price, r.Int63n(100))
			for range it.Copies {
				b.pieces, each = append(b.pieces, it), append(each, price[len(price)-1])
			}
		}
		want := int64(0)
		for set := int64(1); set < 1<<len(b.pieces); set++ {
			worth := int64(0)
			for i, v := range each {
				worth += v * (set >> i & 1)
			}
			if worth > want && b.fits(set, p.Stock[0].W, p.Stock[0].H) {
				want = worth
			}
		}
		tk := newTask(p)
		if len(tk.parts) != len(p.Items) {
			continue // one fits nothing
		}
		mt := newMeter(context.Background(), noLimit)
		g := tk.newGrid(mt, gridExact, gridMost, noLimit)
		g.run(mt, price)
		loose := g.best(0)
		for q := range tk.parts {
			if !g.limit(q, noLimit) {
				t.Fatalf("%+v: part %d is not counted", p, q)
			}
		}
		if g.limit(0, noLimit) {
			t.Errorf("%+v: a part is counted twice", p)
		}
		g.run(mt, price)
		if got := g.best(0); got != want {
			t.Fatalf("%+v at %v: %d, by trying %d", p, price, got, want)
		}
		if loose > want {
			less++
		}
		cut := g.cut(0)
		worth := int64(0)
		for _, h := range cut.contents() {
			worth += price[h.part] * int64(h.n)
			if h.n > p.Items[h.part].Copies {
				t.Fatalf("%+v at %v: %d of part %d are cut", p, price, h.n, h.part)
			}
		}
		if worth != want {
			t.Errorf("%+v at %v: what is cut is worth %d of %d", p, price, worth, want)
		}
		g.reset()
		g.run(mt, price)
		if got := g.best(0); got != loose {
			t.Errorf("%+v at %v: %d when nothing is counted any more, %d before", p, price, got, loose)
		}
	}
	if less < proptest.Cases(60)/4 {
		t.Errorf("the copies mattered in %d cases", less)
	}
}

// A grid counts no more copies than it can.
func TestGridCountsNoMoreThanItCan(t *testing.T) {
	p := Problem{Stock: []Stock{{W: 90, H: 90, Count: Unlimited}}, Items: []Item{{W: 10, H: 20, Copies: mostTokens - 1}, {W: 13, H: 7, Copies: 2}, {W: 3, H: 2, Copies: 1}}}
	tk := newTask(p)
	mt := newMeter(context.Background(), noLimit)
	g := tk.newGrid(mt, gridExact, gridMost, noLimit)
	before := g.work()
	if !g.limit(0, noLimit) || g.limit(1, noLimit) || g.limit(2, 2*g.work()) || !g.limit(2, noLimit) {
		t.Errorf("%d copies of %v are counted", g.tokens, g.once)
	}
	if got, want := g.work(), before*6561; got != want { // 3 to the 8th
		t.Errorf("a run takes %d steps, expected %d", got, want)
	}
}

// A grid stops when the context is done, however much it counts; and of pieces
// that are worth nothing it cuts none.
func TestGridStops(t *testing.T) {
	p := Problem{Stock: []Stock{{W: 40, H: 40, Count: Unlimited}}, Items: []Item{{W: 10, H: 20, Copies: 5}, {W: 13, H: 7, Copies: 1}}}
	tk := newTask(p)
	ctx, cancel := context.WithCancel(context.Background())
	for _, counted := range []bool{false, true} {
		live := newMeter(ctx, noLimit)
		g := tk.newGrid(live, gridExact, gridMost, noLimit)
		if counted && !g.limit(0, noLimit) {
			t.Fatal("five copies are not counted")
		}
		if !g.run(live, []int64{0, 0}) {
			t.Error("it stops by itself")
		}
		if b := g.cut(0); b.count != 0 || b.root >= 0 {
			t.Errorf("%d pieces worth nothing are cut", b.count)
		}
		stopped := newMeter(ctx, noLimit)
		stopped.stopped = true
		if g.run(stopped, []int64{1, 1}) {
			t.Error("it does not stop")
		}
	}
	cancel()
	if tk.newGrid(newMeter(ctx, noLimit), gridExact, gridMost, noLimit) != nil {
		t.Error("a grid is made when there is no time for it")
	}
}
