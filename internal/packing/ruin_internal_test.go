package packing

import (
	"context"
	"math/rand"
	"slices"
	"testing"
)

// A round that is given up would have cost more than it may, had it come to its end;
// one that is not comes to the same as without a limit.
func TestGivenUpRoundsCostTooMuch(t *testing.T) {
	r := rand.New(rand.NewSource(21))
	gone, kept := 0, 0
	for range 40 {
		p := Problem{Stock: []Stock{{W: 100, H: 100, Count: Unlimited, Cost: 1}}}
		for range 30 {
			p.Items = append(p.Items, Item{W: 10 + r.Int63n(60), H: 10 + r.Int63n(60), Copies: 1, Turn: r.Intn(2) == 0})
		}
		seed, rounds, most := rng(r.Uint64()|1), r.Intn(20), r.Int63n(4000)
		ruined := func() *search {
			v := newSolver(context.Background(), p, noLimit/4)
			v.first()
			v.settleOn()
			s := v.resume()
			s.r = seed
			s.dissolve()
			s.remember()
			for i := 0; i <= rounds; i++ {
				s.begin()
				s.ruin()
				if i < rounds {
					s.recreate(64, noLimit)
					s.commit()
				}
			}
			return s
		}
		a, b := ruined(), ruined()
		ok := a.recreate(64, most)
		if !b.recreate(64, noLimit) {
			t.Fatal("given up without a limit")
		}
		c := b.change(b.pool)
		switch {
		case !ok:
			if gone++; c <= most {
				t.Errorf("given up at %d, it would have cost %d", most, c)
			}
		case c != a.change(a.pool) || !slices.Equal(a.pool, b.pool):
			t.Errorf("it costs %d, without a limit %d", a.change(a.pool), c)
		default:
			kept++
		}
	}
	if gone < 5 || kept < 5 {
		t.Errorf("%d rounds given up, %d not: the sample is too tame", gone, kept)
	}
}

// The settings that are counted are those of all cuts, with blocks of equal pieces,
// a kerf, a trim and a longest cut too.
func TestSettingsAreThoseOfAllCuts(t *testing.T) {
	r := rand.New(rand.NewSource(22))
	blocks := 0
	for range 60 {
		p := Problem{Kerf: r.Int63n(3), LongestCut: []int64{0, 150}[r.Intn(2)], Stock: []Stock{{W: 200, H: 150, Count: Unlimited, Trim: r.Int63n(5)}}}
		for range 1 + r.Intn(4) {
			p.Items = append(p.Items, Item{W: 5 + r.Int63n(60), H: 5 + r.Int63n(60), Copies: 1 + r.Intn(900), Turn: true})
		}
		v := newSolver(context.Background(), p, LeastSteps)
		v.first()
		seen := map[int64]bool{}
		for i := range v.best {
			for _, n := range v.best[i].b.nodes {
				if n.dir == leaf && n.copies() > 2 {
					blocks++
				}
			}
			for _, n := range v.t.sheet(&v.best[i].b, 1).Nodes {
				if n.Use == CutX || n.Use == CutY {
					seen[n.At] = true
				}
			}
		}
		if n, ok := v.t.settings(v.mt, v.best); !ok || n != len(seen) {
			t.Errorf("%d settings, all cuts are made with %d: %+v", n, len(seen), p)
		}
	}
	if blocks < 60 {
		t.Errorf("%d blocks: the sample is too tame", blocks)
	}
}

// lookedAt counts how often a context is looked at, and is done from one of them on.
type lookedAt struct {
	context.Context
	looks, end int
}

func (c *lookedAt) Err() error {
	if c.looks++; c.looks > c.end {
		return context.Canceled
	}
	return nil
}

// To count the settings of ten thousand sheets takes as long as a stop may take in all:
// the context is looked at in the course of it, wherever it ends nothing more is
// counted, and then the one layout is not taken for the calmer one.
func TestSettingsLookAtTheContext(t *testing.T) {
	p := Problem{Stock: []Stock{{W: 1000, H: 1000, Count: Unlimited}}}
	for i := range int64(10_000) {
		p.Items = append(p.Items, Item{W: 501 + i%100, H: 501 + i/100, Copies: 1})
	}
	v := newSolver(context.Background(), p, noLimit)
	v.first() // a piece a sheet, each with settings of its own
	other := slices.Repeat(v.best[:1], len(v.best))
	for end, calm := range map[int]bool{1: false, 5: false, 1 << 30: true} {
		ctx := &lookedAt{context.Background(), 0, end}
		v.mt = newMeter(ctx, noLimit)
		if got := v.calmer(other); got != calm || v.mt.stopped == calm {
			t.Errorf("done at look %d: calmer %v, stopped %v", end, got, v.mt.stopped)
		}
		// One at the start, one as the work is charged, and then one in 32,768 steps of it.
		least := 2 + 2*settingsEach*len(v.best)/between
		if calm && ctx.looks < least || !calm && ctx.looks != end+1 {
			t.Errorf("done at look %d: %d looks, at least %d are due", end, ctx.looks, least)
		}
	}
}

// Where a hunt on many sheets does not come to its end, the next stage goes on from what
// it has come to, on a sheet less than the best layout, and loses no piece by that. On few
// sheets, or with pieces that stay as they are, there is a new start.
func TestHuntsAreGoneOnWith(t *testing.T) {
	for pieces, on := range map[int]bool{300: true, 100: false} {
		r := rand.New(rand.NewSource(31))
		p := Problem{Stock: []Stock{{W: 100, H: 100, Count: Unlimited, Cost: 1}}}
		for range pieces {
			p.Items = append(p.Items, Item{W: 10 + r.Int63n(70), H: 20 + r.Int63n(70), Copies: 1, Turn: true})
		}
		v := newSolver(context.Background(), p, noLimit)
		v.begin()
		v.improve(1_000_000)
		first := v.begun
		if (first != nil) != on {
			t.Fatalf("%d pieces on %d sheets: gone on with %v", pieces, v.m.ordinary, first != nil)
		}
		if !on {
			continue
		}
		for end := int64(2_000_000); end <= 8_000_000; end *= 2 {
			s, sheets := v.begun, v.m.ordinary
			held := append([]int32(nil), s.pool...)
			for i := range s.bins {
				for _, h := range s.bins[i].contents() {
					held = append(held, slices.Repeat([]int32{int32(h.part)}, h.n)...)
				}
			}
			if slices.Sort(held); len(s.bins) != sheets-1 || len(held) != pieces || len(slices.Compact(held)) != pieces {
				t.Errorf("%d pieces on %d sheets, the best has %d", len(held), len(s.bins), sheets)
			}
			v.improve(end)
			if v.m.ordinary == sheets && v.begun != s {
				t.Errorf("to %d steps: another start, with no sheet less", end)
			}
			if v.begun == nil || v.m.short > 0 {
				t.Fatalf("to %d steps: nothing to go on with, %d short", end, v.m.short)
			}
		}
	}
}
