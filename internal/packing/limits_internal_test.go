package packing

import (
	"context"
	"math/rand"
	"slices"
	"testing"
)

// Twelve pieces of which no two go on one sheet.
func twelve() *exact {
	p := Problem{Stock: []Stock{{W: 10, H: 10, Count: Unlimited}}}
	for range MaxExact {
		p.Items = append(p.Items, Item{W: 9, H: 9, Copies: 1})
	}
	return newExact(newTask(p), newMeter(context.Background(), noLimit), noLimit)
}

// The exhaustive search goes on as long as its boxes do not exceed what it may
// hold, and gives up beyond, be it by one box or by as many again. The boxes of a
// single piece that may not turn are one.
func TestMostBoxes(t *testing.T) {
	for held, goes := range map[int]bool{mostBoxes - 1: true, mostBoxes: false, 2 * mostBoxes: false} {
		p := Problem{Stock: []Stock{{W: 10, H: 10, Count: Unlimited}}, Items: []Item{{W: 3, H: 4, Copies: 1}}}
		e := newExact(newTask(p), newMeter(context.Background(), noLimit), noLimit)
		e.all = make([]box, held, held+1)
		if got := e.boxes(); got != goes || len(e.all) != held+1 {
			t.Errorf("with %d boxes it goes on: %v, with %d in the end", held, got, len(e.all))
		}
	}
}

// Strips are worked out as long as there is room for those of one more kind of
// sheet; then the search gives up.
func TestMostStacks(t *testing.T) {
	for kinds, goes := range map[int]bool{mostStacks >> MaxExact: true, mostStacks>>MaxExact + 1: false, 10 * mostStacks >> MaxExact: false} {
		e := twelve()
		if !e.boxes() {
			t.Fatal("it gives up")
		}
		k := e.t.kinds[0]
		k.mode, k.limit = cutRows, k.h
		for range kinds - 1 {
			e.stacks[new(kind)] = strips{}
		}
		st, got := e.stack(&k)
		if got != goes || got && (st.size[1] != 9 || st.size[3] != noScore || len(e.stacks)<<MaxExact > mostStacks) || !got && st.size != nil {
			t.Errorf("the strips of the %dth kind are worked out: %v", kinds, got)
		}
		if got { // what is there already is not asked for again
			if _, again := e.stack(&k); !again {
				t.Error("they are lost")
			}
		}
	}
}

// A grid holds up to so many worths: with as many points and copies it counts them,
// with one point more it does not, nor with very many.
func TestMostWorths(t *testing.T) {
	const all = mostWorths >> mostTokens
	for points, counted := range map[int]bool{all: true, all + 1: false, 10 * all: false} {
		p := Problem{Stock: []Stock{{W: 90, H: 90, Count: Unlimited}}, Items: []Item{{W: 10, H: 20, Copies: mostTokens}}}
		tk := newTask(p)
		g := tk.newGrid(newMeter(context.Background(), noLimit), gridExact, gridMost, noLimit)
		g.base = make([]int64, points)
		g.f = g.base
		if got := g.limit(0, noLimit); got != counted || len(g.f) > mostWorths || got != (g.tokens == mostTokens) {
			t.Errorf("%d points: counted %v, %d worths", points, got, len(g.f))
		}
	}
}

// A grid counts eight copies of a piece, and neither nine nor all there may be; what
// it counts not may be worth more in a bound, never less.
func TestMostTokens(t *testing.T) {
	for copies, counted := range map[int]bool{mostTokens: true, mostTokens + 1: false, MaxPieces: false} {
		p := Problem{Stock: []Stock{{W: 90, H: 90, Count: Unlimited}}, Items: []Item{{W: 10, H: 20, Copies: copies}}}
		tk := newTask(p)
		mt := newMeter(context.Background(), noLimit)
		g := tk.newGrid(mt, gridExact, gridMost, noLimit)
		if got := g.limit(0, noLimit); got != counted || got != (g.tokens == mostTokens) || !got && g.tokens != 0 {
			t.Errorf("%d copies are counted: %v, as %d", copies, got, g.tokens)
		}
		if g.run(mt, []int64{1}); g.best(0) < int64(min(copies, 36)) { // 4 rows of 9 upright
			t.Errorf("%d copies: a sheet holds %d", copies, g.best(0))
		}
	}
}

// Sheets are filled by hand for a cover as long as something comes of it, and no
// more often than so many times: with many pieces something still would. Without
// a grid nothing else is sought then.
func TestMostGuesses(t *testing.T) {
	for pieces, more := range map[int]bool{6: false, 60: true, 90: true} {
		r := rand.New(rand.NewSource(3))
		p := Problem{Stock: []Stock{{W: 1000, H: 1000, Count: Unlimited, Cost: 1}}}
		for range pieces {
			p.Items = append(p.Items, Item{W: 200 + r.Int63n(400), H: 200 + r.Int63n(400), Copies: 1, Turn: true})
		}
		v := weaver(p)
		counts, _ := v.t.stores()
		c := v.newCover(counts)
		if !c.run(true, noLimit) {
			t.Fatal("no end")
		}
		found := len(c.of.lists) // twelve in a round at most
		if got := c.guess(c.lp.prices()); got != more || found > 12*mostGuesses || more && found < mostGuesses {
			t.Errorf("%d pieces: %d contents, more is found: %v", pieces, found, got)
		}
	}
}

// What sheets held is kept up to so many nodes; with more the older half goes, and
// again until it is no more.
func TestMostNodes(t *testing.T) {
	for nodes, goes := range map[int]int{mostNodes: 0, mostNodes + 1: 1, 10 * mostNodes: 4} {
		const sheets = 64
		var c contents
		for i := range sheets {
			n := nodes / sheets
			if i == sheets-1 {
				n = nodes - (sheets-1)*n
			}
			c.bins = append(c.bins, bin{count: i + 1, nodes: make([]node, n)})
			c.lists, c.names = append(c.lists, []amount{{part: i, n: 1}}), append(c.names, uint64(i))
			c.nodes += n
		}
		times := 0
		for c.thin(nil) {
			times++
		}
		left := sheets >> goes
		if times != goes || c.nodes > mostNodes || len(c.bins) != left || len(c.lists) != left || c.bins[0].count != sheets-left+1 || c.lists[left-1][0].part != sheets-1 {
			t.Errorf("%d nodes: thinned %d times to %d of %d sheets", nodes, times, c.nodes, len(c.bins))
		}
	}
}

// Best spots are remembered up to so many; beyond it none are, and a search that
// remembered some forgets them.
func TestMostSpots(t *testing.T) {
	const parts = 512
	for spots, kept := range map[int]bool{mostSpots: true, mostSpots + parts: false, 10 * mostSpots: false} {
		tk := &task{parts: make([]part, parts)}
		s := &search{t: tk, m: newMeter(context.Background(), noLimit), bins: make([]bin, 3)}
		s.remember()
		s.bins = slices.Grow(s.bins, spots/parts)[:spots/parts]
		s.remember()
		if got := s.memo.spots != nil; got != kept || len(s.memo.spots) > mostSpots || got && len(s.memo.spots) != spots {
			t.Errorf("of %d spots %d are remembered", spots, len(s.memo.spots))
		}
	}
}

// Up to so many pieces all ways are gone through, so that the answer is proved;
// with one more and with ten times as many there is an answer all the same.
func TestMaxExact(t *testing.T) {
	for n, whole := range map[int]bool{MaxExact: true, MaxExact + 1: false, 10 * MaxExact: false} {
		// Sides of more than a third, so that a sheet holds four at most.
		p := Problem{Stock: []Stock{{W: 100, H: 100, Count: Unlimited}}}
		for i := range n {
			p.Items = append(p.Items, Item{W: int64(35 + 7*i%23), H: int64(37 + 11*i%19), Copies: 1, Turn: true})
		}
		r, err := Solve(context.Background(), p, Budget{Steps: 3_000_000})
		if err != nil {
			t.Fatal(err)
		}
		times := 0
		for _, s := range r.Sheets {
			times += s.Times
		}
		if whole && !r.Proved || r.Proved && r.Bound != times || len(r.Short) > 0 || times < (n+3)/4 {
			t.Errorf("%d pieces: %d sheets, at least %d, proved %v", n, times, r.Bound, r.Proved)
		}
	}
}

// What stays in the pool counts for more, up to a bound, however many copies of it
// there are, and for what it counted at first once it has been out long enough.
func TestWhatStaysInThePoolGetsDearer(t *testing.T) {
	k := newTask(Problem{Items: []Item{{W: MaxSide, H: MaxSide, Copies: 1000}, {W: 1, H: 1, Copies: 1}},
		Stock: []Stock{{W: MaxSide, H: MaxSide, Count: Unlimited}}})
	s := newSearch(k, newMeter(t.Context(), noLimit))
	for range 1000 {
		s.pool = append(s.pool, 0)
	}
	at := s.cost()
	for round := range 200 {
		s.remind()
		c := s.cost()
		if c < at || c == at && round == 0 {
			t.Fatalf("round %d: %d after %d", round, c, at)
		}
		at = c
	}
	if most := 20 * k.parts[0].score * int64(len(s.pool)); at > most || s.dear[1] != 0 {
		t.Errorf("counts for %d, at most %d; what is not in the pool for %d more", at, most, s.dear[1])
	}
	s.pool = s.pool[:0]
	for range 200 {
		s.remind()
	}
	if s.dear[0] >= dearOne {
		t.Errorf("%d of what it was dearer stays", s.dear[0])
	}
}
