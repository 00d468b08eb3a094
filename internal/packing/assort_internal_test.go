package packing

import (
	"context"
	"math/rand"
	"slices"
	"testing"

	"boardwrap.example/internal/proptest"
)

// assorted fills an assortment for one sheet at prices by part.
func assorted(t *testing.T, p Problem, need []int, price []int64, keep int, least int64) *assortment {
	t.Helper()
	tk := newTask(p)
	mt := newMeter(context.Background(), noLimit)
	s := newAssortment(tk, mt, tk.newGrid(mt, gridExact, gridMost, noLimit))
	if !s.fill(need, price, keep, least, noLimit) {
		t.Fatal("it stops by itself")
	}
	return s
}

// top is what the worthiest set of a sheet is worth, 0 if there is none.
func (s *assortment) top() int64 {
	if k := s.kept[s.whole()]; len(k) > 0 {
		return k[0].worth
	}
	return 0
}

// By hand: strips as wide as a sheet that is 10 high, 5, 4 and 1 high, worth 9, 3 and 2.
// With a strip of 5 only one time it takes all three, with two of them those, and where
// only one of the two is needed, again all three.
func TestAssortmentByHand(t *testing.T) {
	p := Problem{Stock: []Stock{{W: 10, H: 10, Count: Unlimited}},
		Items: []Item{{W: 10, H: 5, Copies: 1}, {W: 10, H: 4, Copies: 1}, {W: 10, H: 1, Copies: 1}}}
	price := []int64{9, 3, 2}
	for _, c := range []struct {
		copies, need int
		want         int64
	}{{1, 1, 14}, {2, 2, 18}, {2, 1, 14}, {2, 0, 5}} {
		p.Items[0].Copies = c.copies
		if got := assorted(t, p, []int{c.need, 1, 1}, price, 4, 1).top(); got != c.want {
			t.Errorf("%d of %d strips of 5 needed: worth %d, by hand %d", c.need, c.copies, got, c.want)
		}
	}
	if got := assorted(t, p, []int{2, 1, 1}, price, 4, 19).top(); got != 0 {
		t.Errorf("worth %d, though 19 is asked for and there is no more than 18", got)
	}
}

// An assortment that keeps many sets comes by the worthiest that a sheet holds, found
// here by trying every subset and every cut; one that keeps few by none that is worth
// more. What it comes by fits the sheet, is worth what it says, and holds no piece more
// often than it is needed.
func TestAssortmentIsAsByTrying(t *testing.T) {
	r := rand.New(rand.NewSource(31))
	equal, cases := 0, proptest.Cases(60)
	for range cases {
		p := Problem{Stock: []Stock{{W: 4 + r.Int63n(7), H: 4 + r.Int63n(7), Count: Unlimited}}}
		b := &tryer{known: map[[3]int64]bool{}}
		var price, each []int64
		var need []int
		for left := 2 + r.Intn(4); left > 0; {
			it := Item{W: 1 + r.Int63n(4), H: 1 + r.Int63n(4), Copies: 1 + r.Intn(3), Turn: r.Intn(2) == 0}
			p.Items = append(p.Items, it)
			price = append(price, 1+r.Int63n(100))
			need = append(need, r.Intn(min(left, it.Copies)+1))
			for range need[len(need)-1] {
				b.pieces, each = append(b.pieces, it), append(each, price[len(price)-1])
			}
			left -= max(1, need[len(need)-1])
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
		if len(newTask(p).parts) != len(p.Items) {
			continue // one fits nothing
		}
		if got := assorted(t, p, need, price, 64, 1).top(); got != want {
			t.Fatalf("%+v, %v needed at %v: %d, by trying %d", p, need, price, got, want)
		}
		s := assorted(t, p, need, price, 1+r.Intn(2), 1)
		if s.top() == want {
			equal++
		}
		all := s.kept[s.whole()]
		for i, k := range all {
			worth := int64(0)
			o := s.bin(k.at)
			for _, h := range o.contents() {
				worth += price[h.part] * int64(h.n)
				if h.n > need[h.part] {
					t.Errorf("%+v: %d of part %d, needed %d times", p, h.n, h.part, need[h.part])
				}
			}
			if n := &o.nodes[o.root]; worth != k.worth || worth > want || n.w > p.Stock[0].W || n.h > p.Stock[0].H {
				t.Errorf("%+v: worth %d, said to be %d of %d; %d × %d", p, worth, k.worth, want, n.w, n.h)
			}
			for _, other := range all[:i] {
				if other.worth < k.worth || s.all[other.at].of == s.all[k.at].of {
					t.Errorf("%+v: not in order, or twice the same", p)
				}
			}
		}
	}
	if equal < cases/2 {
		t.Errorf("of few sets the worthiest was among them in %d cases of %d", equal, cases)
	}
}

// To fill an assortment ends with its limit and with the context, and leaves the needs
// and prices that it is given.
func TestAssortmentStops(t *testing.T) {
	p, _ := inStrips(rand.New(rand.NewSource(32)), 2, 4)
	tk := newTask(p)
	mt := newMeter(context.Background(), noLimit)
	s := newAssortment(tk, mt, tk.newGrid(mt, gridExact, gridMost, noLimit))
	need, price := slices.Repeat([]int{1}, len(p.Items)), slices.Repeat([]int64{5}, len(p.Items))
	from := mt.steps
	if !s.fill(need, price, 2, 1, noLimit) {
		t.Fatal("it stops by itself")
	}
	took := mt.steps - from
	from = mt.steps
	if s.fill(need, price, 2, 1, mt.steps+took*3/4) || mt.steps-from >= took {
		t.Errorf("%d of %d steps, with a limit", mt.steps-from, took)
	}
	if slices.ContainsFunc(need, func(n int) bool { return n != 1 }) || slices.ContainsFunc(price, func(p int64) bool { return p != 5 }) {
		t.Error("needs or prices are others")
	}
	mt.stopped = true
	if s.fill(need, price, 2, 1, noLimit) {
		t.Error("it does not stop")
	}
}
