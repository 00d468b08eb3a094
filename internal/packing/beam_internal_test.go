package packing

import (
	"cmp"
	"context"
	"math/rand"
	"slices"
	"testing"

	"boardwrap.example/internal/proptest"
)

// threeStages cuts sheets up in strips, those in rows and those in pieces, so that
// nothing is left over, upright or lying.
func threeStages(r *rand.Rand, sheets, strips, rows, each int, turn bool) Problem {
	const side = 60
	p := Problem{Stock: []Stock{{W: side, H: side, Count: Unlimited, Cost: 1}}}
	for range sheets {
		lying := r.Intn(2) == 0
		for _, w := range parted(r, side, strips) {
			for _, h := range parted(r, side, rows) {
				for _, x := range parted(r, w, each) {
					it := Item{W: x, H: h, Copies: 1, Turn: turn}
					if lying != (turn && r.Intn(2) == 0) {
						it.W, it.H = it.H, it.W
					}
					p.Items = append(p.Items, it)
				}
			}
		}
	}
	r.Shuffle(len(p.Items), func(i, j int) { p.Items[i], p.Items[j] = p.Items[j], p.Items[i] })
	return p
}

// parted is a length in up to so many parts.
func parted(r *rand.Rand, length int64, most int) (parts []int64) {
	for n := min(int64(most), length); n > 1; n-- {
		x := 1 + r.Int63n(length-n+1)
		parts = append(parts, x)
		length -= x
	}
	return append(parts, length)
}

func beamOf(p Problem, sheets, width int) *beam {
	v := newSolver(context.Background(), p, noLimit/4)
	b := v.newBeam(sheets)
	b.width = width
	return b
}

// A beam that keeps nearly every layout finds whatever comes of strips, rows and pieces,
// even if nothing is left over.
func TestBeamFindsWhatIsCutInThreeStages(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	for n := proptest.Cases(60); n > 0; n-- {
		sheets := 1 + r.Intn(2)
		p := threeStages(r, sheets, 1+r.Intn(2), 1+r.Intn(2), 2, n%2 == 0)
		b := beamOf(p, sheets, 3000)
		if b.spare != 0 {
			t.Fatalf("%v is left over", b.spare)
		}
		if !b.run(noLimit) || len(b.level) != len(p.Items) {
			t.Fatalf("%d of %d pieces are laid: %+v", len(b.level), len(p.Items), p)
		}
	}
}

// Whatever is kept, at each level, is a layout of as many pieces, each once, in
// straight-through cuts of no more than the sheets, and loses no more than it may.
func TestBeamKeepsLayouts(t *testing.T) {
	r := rand.New(rand.NewSource(4))
	ended := 0
	for n := proptest.Cases(100); n > 0; n-- {
		p := Problem{Kerf: int64(r.Intn(2)), Stock: []Stock{{W: 20 + int64(r.Intn(5)), H: 20, Count: Unlimited, Cost: 1}}}
		for range 5 + r.Intn(15) {
			p.Items = append(p.Items, Item{W: 1 + r.Int63n(14), H: 1 + r.Int63n(14), Copies: 1 + r.Intn(2), Turn: r.Intn(3) > 0})
		}
		b := beamOf(p, 1+r.Intn(3), 1+r.Intn(20))
		b.bias = float64(r.Intn(3)) / 50
		b.spare = max(b.spare, float64(100*r.Intn(9)))
		b.run(noLimit)
		ended += len(b.level) * 100 / b.t.total
		for i := range b.at {
			bins := b.layout(i)
			counts, pieces, area := make([]int, len(b.t.parts)), 0, int64(0)
			for j := range bins {
				bins[j].refresh(b.k)
				if o := &bins[j]; o.nodes[o.root].w > b.k.w || o.nodes[o.root].h > b.k.h {
					t.Fatalf("a sheet is too full: %+v", p)
				}
				used := int64(0)
				for _, h := range bins[j].contents() {
					counts[h.part] += h.n
					pieces += h.n
					q := &b.t.parts[h.part]
					area += q.w * q.h * int64(h.n)
					used += q.score * int64(h.n)
				}
				if used != bins[j].used {
					t.Fatal("the area of the pieces on a sheet is another")
				}
			}
			for q, c := range counts {
				if c > b.t.parts[q].n {
					t.Fatalf("%d copies of part %d: %+v", c, q, p)
				}
			}
			if f := &b.at[i]; len(bins) > b.sheets || pieces != len(b.level) || float64(area) != f.area || b.behind(&f.edge)-f.area > b.spare {
				t.Fatalf("%d pieces on %d sheets, %d levels: %+v", pieces, len(bins), len(b.level), p)
			}
		}
	}
	if cases := proptest.Cases(100); ended < 30*cases {
		t.Errorf("beams end after %d %% of the pieces", ended/cases)
	}
}

// The best candidates are those that sorting finds.
func TestBeamKeepsTheBest(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	for n := proptest.Cases(400); n > 0; n-- {
		b := &beam{}
		for range 1 + r.Intn(60) {
			b.cand = append(b.cand, candidate{lost: float64(r.Intn(1 + r.Intn(40)))})
		}
		want := slices.Clone(b.cand)
		byLost := func(x, y candidate) int { return cmp.Compare(x.lost, y.lost) }
		slices.SortFunc(want, byLost)
		most := 1 + r.Intn(70)
		want = want[:min(most, len(want))]
		worst := b.best(most)
		slices.SortFunc(b.cand, byLost)
		if !slices.Equal(b.cand, want) || worst != want[len(want)-1].lost {
			t.Fatalf("of the best %d candidates %v is kept, worst %v; not %v", most, b.cand, worst, want)
		}
	}
}

// From what a beam ends with a search comes to a sheet less, where one from the
// best layout does not in as many steps.
func TestLayFindsASheetLess(t *testing.T) {
	r := rand.New(rand.NewSource(6))
	won, lost := 0, 0
	cases := proptest.Cases(12)
	for range cases {
		p := threeStages(r, 2, 3, 3, 3, false)
		const steps = 4_000_000
		v, u := newSolver(context.Background(), p, noLimit/4), newSolver(context.Background(), p, noLimit/4)
		v.begin()
		u.begin()
		v.settleOn()
		u.settleOn()
		if v.lay(v.mt.steps + steps); v.m.ordinary == 2 {
			won++
		}
		if n := v.mt.steps; n > 2*steps {
			t.Errorf("%d steps of %d", n, steps)
		}
		if u.hunt(u.mt.steps + steps); u.m.ordinary == 2 {
			lost++
		}
	}
	t.Logf("%d from beams, %d without, of %d", won, lost, cases)
	if won*3 < cases || won <= 2*lost {
		t.Errorf("%d come to two sheets from beams, %d without, of %d", won, lost, cases)
	}
}

// A beam keeps as many layouts as the steps are enough for, up to a bound.
func TestMostWidth(t *testing.T) {
	b := beamOf(threeStages(rand.New(rand.NewSource(7)), 2, 3, 3, 3, true), 2, 0)
	each := 2 * int64(len(b.ways)*len(b.dice))
	for steps, want := range map[int64]int{each - 1: 0, each: 1, each*mostWidth - 1: mostWidth - 1, each * mostWidth: mostWidth,
		each*mostWidth + each: mostWidth, noLimit: mostWidth} {
		if b.afford(steps); b.width != want {
			t.Errorf("for %d steps it keeps %d layouts, not %d", steps, b.width, want)
		}
	}
}
