package packing

import (
	"context"
	"math/rand"
	"slices"
	"testing"

	"boardwrap.example/internal/proptest"
)

// inStrips makes so many sheets' worth of strips as high as a sheet, cut up at
// random so that nothing is left over, and lists which come from which sheet.
func inStrips(r *rand.Rand, sheets, each int) (p Problem, from [][]int) {
	const wide = 1000
	p.Stock = []Stock{{W: wide, H: 10, Count: Unlimited, Cost: 1}}
	for range sheets {
		left := int64(wide)
		var of []int
		for i := each; i > 1; i-- {
			w := 1 + r.Int63n(2*left/int64(i)-1)
			left -= w
			of = append(of, len(p.Items))
			p.Items = append(p.Items, Item{W: w, H: 10, Copies: 1})
		}
		of = append(of, len(p.Items))
		p.Items = append(p.Items, Item{W: left, H: 10, Copies: 1})
		from = append(from, of)
	}
	return p, from
}

// keep puts what strips are on a sheet into what was seen; false if they do not
// fit.
func keep(v *solver, of []int) bool {
	counts := make([]int, len(v.t.parts))
	for _, q := range of {
		counts[q]++
	}
	var b bin
	b.clear(0)
	v.thickBy(&b, counts, of, true)
	return b.count == len(of) && v.seen.force(v.mt, &b)
}

func weaver(p Problem) *solver {
	v := newSolver(context.Background(), p, noLimit/4)
	v.begin()
	v.seen = &contents{seen: map[uint64]bool{}}
	return v
}

// held counts the copies on the sheets of a search and without a place.
func held(t *task, s *search) []int {
	n := make([]int, len(t.parts))
	for i := range s.bins {
		for _, h := range s.bins[i].contents() {
			n[h.part] += h.n
		}
	}
	for _, q := range s.pool {
		n[q]++
	}
	return n
}

// Sheets that were seen at different times, among many that lead nowhere, are
// put together again.
func TestWovenFindsWhatWasSeen(t *testing.T) {
	r := rand.New(rand.NewSource(14))
	for range proptest.Cases(20) {
		sheets := 3 + r.Intn(6)
		p, from := inStrips(r, sheets, 3+r.Intn(4))
		v := weaver(p)
		for wrong := 60; wrong > 0; {
			of := r.Perm(len(p.Items))[:2+r.Intn(4)]
			if keep(v, of) {
				wrong--
			}
		}
		for _, i := range r.Perm(sheets) {
			keep(v, from[i]) // unless it was by chance
		}
		counts, _ := v.t.stores()
		c := v.newCover(counts)
		if !c.run(true, noLimit) || c.lp.value() < float64(sheets)-1e-3 || c.lp.value() > float64(sheets)+1e-3 {
			t.Errorf("the program takes %v sheets of %d", c.lp.value(), sheets)
		}
		v.lower = 0 // as if nothing were proved
		s := v.woven(sheets, noLimit)
		if s == nil {
			if !v.done() {
				t.Error("no start")
			}
			continue
		}
		if len(s.pool) > 0 || len(s.bins) != sheets {
			t.Errorf("%d pieces without a place on %d sheets, cut from %d", len(s.pool), len(s.bins), sheets)
		}
		if got := held(v.t, s); !slices.Equal(got, counts) {
			t.Errorf("%v copies of %v", got, counts)
		}
	}
}

// Whatever was seen, a start holds every piece once, on a sheet or without a
// place, and no sheet holds more than fits.
func TestStartHoldsEveryPieceOnce(t *testing.T) {
	r := rand.New(rand.NewSource(15))
	twice := 0
	for range proptest.Cases(40) {
		p, _ := inStrips(r, 3+r.Intn(4), 3)
		p.Items[0].Copies = 2
		v := weaver(p)
		for range 40 {
			keep(v, r.Perm(len(p.Items))[:1+r.Intn(4)])
		}
		sheets := 2 + r.Intn(3)
		chosen := r.Perm(len(v.seen.bins))[:min(len(v.seen.bins), sheets)]
		all := map[int]int{}
		for _, at := range chosen {
			for _, h := range v.seen.lists[at] {
				if all[h.part] += h.n; all[h.part] > v.t.parts[h.part].n {
					twice++
				}
			}
		}
		s := v.start(chosen, sheets)
		counts, _ := v.t.stores()
		if got := held(v.t, s); !slices.Equal(got, counts) || len(s.bins) != sheets {
			t.Errorf("%v copies of %v on %d sheets of %d", got, counts, len(s.bins), sheets)
		}
		for i := range s.bins {
			wide := int64(0)
			for _, h := range s.bins[i].contents() {
				wide += p.Items[h.part].W * int64(h.n)
			}
			if wide > 1000 {
				t.Errorf("strips of %d on a sheet of 1000", wide)
			}
		}
	}
	if twice == 0 {
		t.Error("nothing was on two sheets")
	}
}

// What was seen is kept once, unless it is too little, and where it is too much
// the older half goes.
func TestContents(t *testing.T) {
	r := rand.New(rand.NewSource(16))
	p, from := inStrips(r, 4, 3)
	v := weaver(p)
	for _, of := range from {
		first := keep(v, of)
		slices.Reverse(of)
		if again := keep(v, of); !first || again {
			t.Errorf("kept %v, again %v", first, again)
		}
	}
	v.seen.least = 1 << 40
	if v.seen.add(v.mt, &v.best[0].b) || v.seen.force(v.mt, &bin{}) {
		t.Error("too little is kept")
	}
	nodes := 0
	for i := range v.seen.bins {
		nodes += len(v.seen.bins[i].nodes)
	}
	if v.seen.nodes != nodes {
		t.Errorf("%d nodes, counted %d", nodes, v.seen.nodes)
	}
	first, last := v.seen.lists[0], v.seen.lists[3]
	if v.seen.thin(nil) || len(v.seen.bins) != 4 {
		t.Error("what is little goes")
	}
	v.seen.nodes = mostNodes + 1
	if !v.seen.thin([]int{-1, 3, 0}) || len(v.seen.bins) != 3 || !slices.Equal(v.seen.lists[0], first) || !slices.Equal(v.seen.lists[2], last) || v.seen.nodes >= nodes {
		t.Errorf("%v are left, %d nodes", v.seen.lists, v.seen.nodes)
	}
	// What went comes again, what stayed does not.
	v.seen.least = 0
	for i, of := range from {
		if again := keep(v, of); again != (i == 1) {
			t.Errorf("sheet %d: kept again %v", i, again)
		}
	}
	if len(v.seen.bins) != 4 || len(v.seen.names) != 4 || v.seen.nodes != nodes {
		t.Errorf("%d of 4 sheets, %d nodes of %d", len(v.seen.bins), v.seen.nodes, nodes)
	}
}

// Weaving ends at its limit, and never with more sheets.
func TestWeaveEnds(t *testing.T) {
	r := rand.New(rand.NewSource(17))
	better := 0
	for n := range proptest.Cases(24) {
		p, from := inStrips(r, 4+r.Intn(3), 4)
		v := weaver(p)
		before := v.m.ordinary
		if before == len(from) {
			continue
		}
		for _, of := range from {
			keep(v, of)
		}
		limit := v.mt.steps + []int64{2_000_000, 1_000_000, 100_000, 20_000}[n%4]
		v.settleOn()
		v.weave(limit)
		if v.m.ordinary > before || v.m.short > 0 || v.mt.steps > limit+limit/4+100_000 {
			t.Errorf("%d sheets, %d before; %d steps with a limit of %d", v.m.ordinary, before, v.mt.steps, limit)
		}
		if v.m.ordinary == len(from) {
			better++
		}
	}
	if better == 0 {
		t.Error("no layout became better")
	}
}

// Whether so many of the contents seen hold all pieces is found out as by trying
// all choices of them, and what is picked does hold them.
func TestPickTriesAll(t *testing.T) {
	r := rand.New(rand.NewSource(18))
	found := [2]int{}
	for range proptest.Cases(60) {
		sheets := 2 + r.Intn(3)
		p, from := inStrips(r, sheets, 2+r.Intn(3))
		if r.Intn(3) == 0 {
			p.Items[0].Copies = 2
			p.Items[0].W = 1 + p.Items[0].W/2
		}
		v := weaver(p)
		for range 12 {
			keep(v, r.Perm(len(p.Items))[:1+r.Intn(4)])
		}
		for _, of := range from {
			if r.Intn(6) > 0 {
				keep(v, of)
			}
		}
		counts, _ := v.t.stores()
		c := v.newCover(counts)
		if !c.run(false, noLimit) {
			t.Fatal("the program does not come to its end")
		}
		var try func(left []int, sheets int) bool
		try = func(left []int, sheets int) bool {
			if !slices.ContainsFunc(left, func(n int) bool { return n > 0 }) {
				return true
			}
			for _, list := range v.seen.lists {
				if sheets == 0 {
					return false
				}
				rest := slices.Clone(left)
				for _, h := range list {
					rest[h.part] -= h.n
				}
				if try(rest, sheets-1) {
					return true
				}
			}
			return false
		}
		want := try(slices.Clone(counts), sheets)
		if c.pick(sheets, v.mt.steps) != nil {
			t.Error("picked without a step")
		}
		got := c.pick(sheets, noLimit)
		if want != (got != nil) || len(got) > sheets {
			t.Errorf("%d sheets: picked %v, there is a choice: %v", sheets, got, want)
		}
		if got != nil {
			found[0]++
			for _, at := range got {
				for _, h := range v.seen.lists[at] {
					counts[h.part] -= h.n
				}
			}
			if slices.ContainsFunc(counts, func(n int) bool { return n > 0 }) {
				t.Errorf("left over: %v", counts)
			}
		} else {
			found[1]++
		}
	}
	if proptest.Cases(60) >= 30 && (found[0] < 5 || found[1] < 5) {
		t.Errorf("%d found, %d not", found[0], found[1])
	}
}

// What is fitted together of what was seen holds all pieces on so many sheets, and
// it is found where sheets were cut up for it, if not at once. On a sheet less than
// the area takes it is given up.
func TestFitFindsWhatWasSeen(t *testing.T) {
	r := rand.New(rand.NewSource(22))
	tries, cases := 0, proptest.Cases(30)
	for range cases {
		sheets := 3 + r.Intn(6)
		p, from := inStrips(r, sheets, 3+r.Intn(3))
		twice := r.Intn(3) == 0 && p.Items[0].W > 1
		if twice {
			p.Items[0].Copies, p.Items[0].W = 2, p.Items[0].W/2
		}
		v := weaver(p)
		for range 60 {
			keep(v, r.Perm(len(p.Items))[:1+r.Intn(4)])
		}
		if twice {
			from[0] = append(from[0], 0)
		}
		for _, of := range from {
			keep(v, of)
		}
		counts, _ := v.t.stores()
		c := v.newCover(counts)
		if !c.run(false, noLimit) {
			t.Fatal("the program does not come to its end")
		}
		seen, runs := len(v.seen.bins), c.runs
		if c.fit(sheets, v.mt.steps) != nil {
			t.Error("fitted without a step")
		}
		if c.fit(sheets-1, noLimit) != nil {
			t.Error("less than the area holds all")
		}
		var chosen []int
		for n := 0; n < 20 && chosen == nil; n++ {
			chosen = c.fit(sheets, noLimit)
			tries++
		}
		if len(chosen) == 0 || len(chosen) > sheets {
			t.Errorf("%v chosen for %d sheets", chosen, sheets)
		}
		if c.runs != runs || len(v.seen.bins) != seen || c.lp.m != len(counts) {
			t.Error("the program, or what was seen, is another")
		}
		for _, at := range chosen {
			for _, h := range v.seen.lists[at] {
				counts[h.part] -= h.n
			}
		}
		if slices.ContainsFunc(counts, func(n int) bool { return n > 0 }) {
			t.Errorf("left over: %v", counts)
		}
	}
	if tries > 3*cases {
		t.Errorf("%d tries in %d cases", tries, cases)
	}
}

// What narrow leaves out can be on none of so many sheets: trying all choices comes
// to none that holds it.
func TestNarrowKeepsWhatMayBeChosen(t *testing.T) {
	r := rand.New(rand.NewSource(23))
	out := 0
	for range proptest.Cases(40) {
		sheets := 2 + r.Intn(2)
		p, from := inStrips(r, sheets, 2+r.Intn(2))
		v := weaver(p)
		for range 10 {
			keep(v, r.Perm(len(p.Items))[:1+r.Intn(3)])
		}
		for _, of := range from {
			keep(v, of)
		}
		counts, _ := v.t.stores()
		c := v.newCover(counts)
		if !c.run(false, noLimit) {
			t.Fatal("the program does not come to its end")
		}
		used := map[int]bool{}
		var try func(left, chosen []int)
		try = func(left, chosen []int) {
			if !slices.ContainsFunc(left, func(n int) bool { return n > 0 }) {
				for _, i := range chosen {
					used[i] = true
				}
				return
			}
			if len(chosen) == sheets {
				return
			}
			for i, list := range v.seen.lists {
				rest := slices.Clone(left)
				for _, h := range list {
					rest[h.part] -= h.n
				}
				try(rest, append(slices.Clone(chosen), i))
			}
		}
		try(counts, nil)
		if !c.narrow(sheets) || c.narrow(sheets-1) {
			t.Error("the program takes another number of sheets than were cut up")
		}
		for i := range v.seen.lists {
			if !slices.Contains(c.some, i) {
				if out++; used[i] {
					t.Errorf("%v may be on one of %d sheets", v.seen.lists[i], sheets)
				}
			}
		}
	}
	if out == 0 {
		t.Error("nothing is left out")
	}
}

// What enrich makes can be cut, holds nothing more often than it is there, and gains
// what it must to be on one of so many sheets; it costs no more than its limit and a
// little.
func TestEnrichMakesWhatMayBeChosen(t *testing.T) {
	r := rand.New(rand.NewSource(24))
	more := 0
	for range proptest.Cases(20) {
		p := Problem{Stock: []Stock{{W: 40, H: 40, Count: Unlimited, Cost: 1}}}
		for n := 20 + r.Intn(20); n > 0; n-- {
			p.Items = append(p.Items, Item{W: 3 + r.Int63n(30), H: 3 + r.Int63n(30), Copies: 1 + r.Intn(2), Turn: r.Intn(2) == 0})
		}
		v := weaver(p)
		counts, _ := v.t.stores()
		c := v.newCover(counts)
		c.enrich(v.m.ordinary, noLimit)
		if len(v.seen.bins) > 0 {
			t.Error("made without a grid")
		}
		v.strict = v.t.newGrid(v.mt, gridExact, gridMost, noLimit)
		c.run(true, v.mt.steps+2_000_000)
		from, before := len(v.seen.bins), v.mt.steps
		c.enrich(v.m.ordinary, before+100_000)
		if took := v.mt.steps - before; took > 400_000 {
			t.Errorf("%d steps", took)
		}
		for i := from; i < len(v.seen.bins); i++ {
			more++
			b := &v.seen.bins[i]
			if root := &b.nodes[b.root]; root.w > 40 || root.h > 40 {
				t.Errorf("%d × %d on a sheet of 40 × 40", root.w, root.h)
			}
			for _, h := range b.contents() {
				if h.n > counts[h.part] {
					t.Errorf("%d of part %d, there are %d", h.n, h.part, counts[h.part])
				}
			}
			if c.gain(v.seen.lists[i], c.lp.prices()) < 1-c.spare(v.m.ordinary) {
				t.Errorf("%v gains too little", v.seen.lists[i])
			}
		}
	}
	if more == 0 {
		t.Error("nothing was made")
	}
}

// A dive for what was seen chooses no more than so many sheets, most often all
// that were cut up, and a start of what it chose holds every piece.
func TestDiveFindsWhatWasSeen(t *testing.T) {
	r := rand.New(rand.NewSource(19))
	whole, cases := 0, proptest.Cases(30)
	for n := range cases {
		sheets := 3 + r.Intn(5)
		p, from := inStrips(r, sheets, 3+r.Intn(3))
		v := weaver(p)
		for range 40 {
			keep(v, r.Perm(len(p.Items))[:2+r.Intn(3)])
		}
		for _, of := range from {
			keep(v, of)
		}
		if n%2 == 0 {
			v.strict = v.t.newGrid(v.mt, gridExact, gridMost, noLimit)
		}
		counts, _ := v.t.stores()
		c := v.newCover(counts)
		c.run(true, noLimit)
		v.lower = 0 // as if nothing were proved
		chosen := c.dive(sheets, v.mt.steps+20_000_000)
		if len(chosen) > sheets {
			t.Errorf("%d sheets of %d", len(chosen), sheets)
		}
		s := v.start(chosen, sheets)
		if got := held(v.t, s); !slices.Equal(got, counts) || len(s.bins) != sheets {
			t.Errorf("%v copies of %v on %d sheets of %d", got, counts, len(s.bins), sheets)
		}
		if len(s.pool) == 0 {
			whole++
		}
		// On a sheet less there is no room for all.
		v.lower = 0
		if s := v.woven(sheets-1, v.mt.steps+2_000_000); s != nil {
			if got := held(v.t, s); !slices.Equal(got, counts) || len(s.bins) != sheets-1 || len(s.pool) == 0 {
				t.Errorf("%v copies of %v on %d sheets of %d", got, counts, len(s.bins), sheets-1)
			}
		} else if !v.done() {
			t.Error("no start")
		}
	}
	if whole < cases/2 {
		t.Errorf("%d of %d", whole, cases)
	}
}

// Going through the sets that a sheet holds comes to as many sheets as dynamic
// programming over all subsets.
func TestListedIsExact(t *testing.T) {
	r := rand.New(rand.NewSource(20))
	better := 0
	for range proptest.Cases(30) {
		p := Problem{Stock: []Stock{{W: 40, H: 40, Count: Unlimited, Cost: 1}}, Kerf: int64(r.Intn(2))}
		for n := 13 - r.Intn(2); n > 0; n-- {
			p.Items = append(p.Items, Item{W: 5 + r.Int63n(28), H: 5 + r.Int63n(28), Copies: 1, Turn: r.Intn(3) == 0})
		}
		v, u := newSolver(context.Background(), p, noLimit/4), newSolver(context.Background(), p, noLimit/4)
		counts, open := v.t.stores()
		v.offer(v.finish(nil, counts, open), counts) // the plain layout alone
		before := v.m.ordinary
		v.bounds(10_000)
		u.begin()
		u.handful(noLimit)
		if v.listed(v.mt.steps) {
			t.Error("listed without a step")
		}
		e := newExact(v.t, v.mt, noLimit)
		e.boxes()
		for _, large := range []Area{{Hi: 1}, {Lo: 1 << 58}} {
			w := &worth{part: make([]Area, len(v.t.parts)), cap: []Area{{Lo: 9}}}
			w.part[0] = large
			c := v.newCovering(e)
			n := len(c.worths)
			c.price(w)
			if c.price(&worth{cap: []Area{large}}); len(c.worths) != n {
				t.Error("numbers that are too large to be added up are used")
			}
		}
		if !v.listed(noLimit) || v.m.ordinary != u.m.ordinary || v.m.short > 0 {
			t.Errorf("%d sheets, by dynamic programming %d: %+v", v.m.ordinary, u.m.ordinary, p)
		}
		if v.m.ordinary < before {
			better++
		}
	}
	if proptest.Cases(30) >= 10 && better == 0 {
		t.Error("no layout became better")
	}
}

// Whatever the pieces, what is woven holds each of them once, in no more sheets
// than before, and a start of one sheet less holds them too, or leaves them out.
func TestWeaveOfAnyPieces(t *testing.T) {
	r := rand.New(rand.NewSource(21))
	starts := 0
	for range proptest.Cases(30) {
		p := Problem{Stock: []Stock{{W: 20, H: 20, Count: Unlimited, Cost: 1}}}
		for n := 24 + r.Intn(12); n > 0; n-- {
			p.Items = append(p.Items, Item{W: 3 + r.Int63n(15), H: 3 + r.Int63n(15), Copies: 1 + r.Intn(2), Turn: r.Intn(3) == 0})
		}
		v := weaver(p)
		before := v.m.ordinary
		v.lower = 0 // as if nothing were proved
		keep(v, []int{0})
		v.seen.nodes = mostNodes + 1 // some of it goes
		v.settleOn()
		v.weave(v.mt.steps + 2_000_000)
		counts, _ := v.t.stores()
		laid := make([]int, len(counts))
		for i := range v.best {
			for _, h := range v.best[i].b.contents() {
				laid[h.part] += h.n * v.best[i].times
			}
		}
		if v.m.ordinary > before || !slices.Equal(laid, counts) {
			t.Errorf("%d sheets, %d before; %v copies of %v", v.m.ordinary, before, laid, counts)
		}
		v.strict = nil // nothing is proved
		c := v.newCover(counts)
		c.run(true, v.mt.steps+1_000_000)
		s := v.start(c.dive(v.m.ordinary-1, v.mt.steps+1_000_000), v.m.ordinary-1)
		if len(s.pool) > 0 {
			starts++
		}
		if got := held(v.t, s); !slices.Equal(got, counts) || len(s.bins) != v.m.ordinary-1 {
			t.Errorf("%v copies of %v on %d sheets", got, counts, len(s.bins))
		}
	}
	if proptest.Cases(30) >= 15 && starts == 0 {
		t.Error("no start leaves a piece out")
	}
}
