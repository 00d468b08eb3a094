package packing_test

import (
	"context"
	"math/rand"
	"runtime"
	"testing"
	"time"

	"boardwrap.example/internal/packing"
	"boardwrap.example/internal/proptest"
)

// worst are inputs meant to hang or to swell.
func worst() map[string]packing.Problem {
	r := rand.New(rand.NewSource(3))
	const m = 10_000_000_000 // 10 m in nm
	one := []packing.Stock{{W: m, H: m, Count: packing.Unlimited, Cost: 1}}
	odd := func(lo, hi int64) int64 { return lo + r.Int63n(hi-lo) }
	ps := map[string]packing.Problem{}

	p := packing.Problem{Stock: one}
	for i := 0; i < 1000; i++ {
		p.Items = append(p.Items, packing.Item{W: odd(m/100, m/2), H: odd(m/100, m/2), Copies: 1, Turn: true})
	}
	ps["1,000 different pieces"] = p

	p = packing.Problem{Stock: one}
	for i := 0; i < 1000; i++ {
		p.Items = append(p.Items, packing.Item{W: odd(m/100, m/30), H: odd(m/100, m/30), Copies: 1, Turn: true})
	}
	ps["1,000 small pieces, one sheet"] = p

	ps["piece equal to the sheet"] = packing.Problem{Stock: one,
		Items: []packing.Item{{W: m, H: m, Copies: 100_000}, {W: 1, H: m, Copies: 3}}}
	ps["1-unit strips"] = packing.Problem{Stock: []packing.Stock{{W: 1000, H: 1000, Count: packing.Unlimited}},
		Items: []packing.Item{{W: 1, H: 1000, Copies: 100_000, Turn: true}, {W: 7, H: 3, Copies: 1}}}
	ps["100,000 tiny copies on one sheet"] = packing.Problem{Stock: one, Items: []packing.Item{{W: 3, H: 5, Copies: 100_000, Turn: true}}}
	ps["most pieces, tiny"] = packing.Problem{Stock: one, Items: []packing.Item{{W: 1, H: 1, Copies: packing.MaxPieces}}}
	ps["most pieces, two sizes, long strip"] = packing.Problem{Stock: []packing.Stock{{W: m, H: 7, Count: packing.Unlimited}},
		Items: []packing.Item{{W: 3, H: 5, Copies: packing.MaxPieces / 2, Turn: true}, {W: 2, H: 2, Copies: packing.MaxPieces / 2}}}

	p = packing.Problem{Stock: one, Kerf: 3_000_017}
	for i := 0; i < 40; i++ {
		p.Items = append(p.Items, packing.Item{W: odd(m/20, m/2), H: odd(m/20, m/2), Copies: 2500, Turn: i%2 == 0})
	}
	ps["100,000 copies of 40 odd sizes"] = p

	p = packing.Problem{Stock: one}
	for i := 0; i < packing.MaxKinds; i++ {
		p.Items = append(p.Items, packing.Item{W: odd(m/20, m), H: odd(m/20, m), Copies: 50, Turn: true})
	}
	ps["most kinds, 50 of each"] = p

	p = packing.Problem{Kerf: 1, LongestCut: m / 2}
	for i := 0; i < packing.MaxKinds; i++ {
		p.Stock = append(p.Stock, packing.Stock{W: odd(m/20, m), H: odd(m/20, m), Count: r.Intn(3), Cost: r.Int63n(1000), First: i%2 == 0, Trim: r.Int63n(m / 50)})
	}
	for i := 0; i < 300; i++ {
		p.Items = append(p.Items, packing.Item{W: odd(m/20, m), H: odd(m/20, m), Copies: 3, Turn: true})
	}
	ps["most kinds of stock"] = p
	q := p
	q.Items = p.Items[:4]
	ps["most kinds of stock, 12 pieces"] = q

	p = packing.Problem{Stock: []packing.Stock{{W: m, H: m / 10, Count: packing.Unlimited}}, LongestCut: m / 10}
	for i := 0; i < 500; i++ {
		p.Items = append(p.Items, packing.Item{W: odd(m/100, m/11), H: odd(m/100, m/11), Copies: 2, Turn: true})
	}
	ps["1,000 pieces off a roll"] = p
	p.Items = nil
	for i := 0; i < 3; i++ {
		p.Items = append(p.Items, packing.Item{W: odd(m/1000, m/500), H: odd(m/1000, m/500), Copies: 30_000, Turn: true})
	}
	ps["90,000 small pieces off a roll"] = p
	ps["not enough stock"] = packing.Problem{Stock: []packing.Stock{{W: m, H: m, Count: 2}},
		Items: []packing.Item{{W: m / 3, H: m / 3, Copies: 100_000}, {W: m / 7, H: m / 9, Copies: 1000, Turn: true}, {W: 2 * m, H: 1, Copies: 5}}}
	ps["nothing"] = packing.Problem{}
	ps["no stock"] = packing.Problem{Items: []packing.Item{{W: 1, H: 1, Copies: 1}}}
	ps["no items"] = packing.Problem{Stock: one}
	return ps
}

// Each comes back whole at a budget of one step and at a middling one, checked.
func TestWorstInputsComeBack(t *testing.T) {
	for name, p := range worst() {
		t.Run(name, func(t *testing.T) {
			large := int64(500_000)
			switch {
			case proptest.Long:
				large = 30_000_000
			case !proptest.Whole:
				large = 200_000
			}
			for _, steps := range []int64{1, large} {
				t0 := time.Now()
				r := solve(t, p, steps)
				var m runtime.MemStats
				runtime.ReadMemStats(&m)
				t.Logf("budget %d: %d steps, %d sheets, bound %d, %d patterns, %d short, %v, %d MiB from the system", steps, r.Steps, r.Ordinary, r.Bound,
					len(r.Sheets), len(r.Short), time.Since(t0).Round(time.Millisecond), m.Sys>>20)
			}
		})
	}
}

// A context that is done ends the search at once, with a layout.
func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	p := worst()["1,000 different pieces"]
	r, err := packing.Solve(ctx, p, packing.Budget{Steps: 1 << 50})
	if err != nil || !r.Stopped || len(r.Sheets) == 0 {
		t.Fatalf("error %v, stopped %v, %d sheets", err, r.Stopped, len(r.Sheets))
	}
}
