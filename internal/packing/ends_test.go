package packing_test

import (
	"context"
	"fmt"
	"math/rand"
	"runtime"
	"slices"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/packing"
	"boardwrap.example/internal/packing/cutcheck"
	"boardwrap.example/internal/proptest"
)

// most is the work that a run may do at most with a budget: what
// [packing.Budget] promises.
func most(p packing.Problem, steps int64) int64 {
	n := int64(len(p.Items) + len(p.Stock))
	for _, it := range p.Items {
		n += int64(it.Copies)
	}
	steps = max(steps, packing.LeastSteps)
	if slices.ContainsFunc(p.Items, func(it packing.Item) bool { return it.Turn }) {
		steps *= 2
	}
	return 2*steps + 200*n
}

// ended says what is wrong with a run: too much work, or a wrong layout.
func ended(p packing.Problem, steps int64, r *packing.Result) string {
	if m := most(p, steps); r.Steps > m {
		return fmt.Sprintf("%d steps of work with a budget of %d: more than %d", r.Steps, steps, m)
	}
	if w := cutcheck.Check(p, r); len(w) > 0 {
		return fmt.Sprint(w)
	}
	return ""
}

// Thousands of labels and a few tags, cut with a short trimmer.
func TestLabelsAndTagsEnd(t *testing.T) {
	top := packing.DefaultSteps / 100
	if proptest.Long {
		top = packing.DefaultSteps
	}
	for _, longest := range []int64{0, 700, 773, 900, 1000} {
		p := packing.Problem{
			LongestCut: longest,
			Stock:      []packing.Stock{{W: 673, H: 1000, Count: packing.Unlimited, Cost: 1}},
			Items:      []packing.Item{{W: 30, H: 27, Copies: 2458, Turn: true}, {W: 51, H: 121, Copies: 2, Turn: true}},
		}
		before := 1 << 30
		for steps := int64(1); steps <= top; steps *= 100 {
			r := solve(t, p, steps)
			if w := ended(p, steps, r); w != "" {
				t.Errorf("longest cut %d: %s", longest, w)
			}
			if r.Ordinary > before || len(r.Short) > 0 {
				t.Errorf("longest cut %d: %d sheets with %d steps, %d with fewer", longest, r.Ordinary, steps, before)
			}
			before = r.Ordinary
		}
	}
}

// A run is a job with a budget, cancelled from the start or not.
type run struct {
	p      packing.Problem
	steps  int64
	cancel bool
}

// genLabels makes jobs of few kinds, some of them by the thousand, with and
// without a longest cut, on one to three kinds of sheets; budgets are spread
// evenly over the orders from 1 to the most.
func genLabels(orders int) gopter.Gen {
	item := gopter.CombineGens(gen.Int64Range(5, 300), gen.Int64Range(5, 300), gen.IntRange(0, 3), gen.IntRange(1, 3000), gen.Bool())
	items := proptest.Map(item, func(v []any) packing.Item {
		n := v[3].(int)
		if v[2].(int) > 0 {
			n = 1 + n%5
		}
		return packing.Item{W: v[0].(int64), H: v[1].(int64), Copies: n, Turn: v[4].(bool)}
	})
	sheet := gopter.CombineGens(gen.Int64Range(200, 1200), gen.Int64Range(200, 1200), gen.IntRange(0, 6), gen.Int64Range(0, 9), gen.IntRange(0, 5), gen.Int64Range(0, 3))
	sheets := proptest.Map(sheet, func(v []any) packing.Stock {
		s := packing.Stock{W: v[0].(int64), H: v[1].(int64), Count: packing.Unlimited, Cost: v[3].(int64), First: v[4].(int) == 0, Trim: v[5].(int64)}
		if v[2].(int) == 0 {
			s.Count = int(v[3].(int64))
		}
		return s
	})
	all := gopter.CombineGens(gen.SliceOfN(4, items), gen.SliceOfN(3, sheets), gen.IntRange(1, 4), gen.IntRange(1, 3),
		gen.OneConstOf(int64(0), int64(300), int64(773)), gen.Int64Range(0, 2), gen.IntRange(0, orders), gen.Int64Range(1, 9), gen.IntRange(0, 4))
	return proptest.Map(all, func(v []any) run {
		r := run{steps: v[7].(int64), cancel: v[8].(int) == 0}
		for i := v[6].(int); i > 0; i-- {
			r.steps *= 10
		}
		items, sheets := v[0].([]packing.Item), v[1].([]packing.Stock)
		r.p = packing.Problem{Items: items[:min(len(items), v[2].(int))], Stock: sheets[:min(len(sheets), v[3].(int))],
			LongestCut: v[4].(int64), Kerf: v[5].(int64)}
		return r
	})
}

// Every run ends within a multiple of its budget, whatever the job; a cancelled
// one lays what it can at once.
func TestEveryRunEnds(t *testing.T) {
	orders := 5
	if proptest.Long {
		orders = 8
	}
	proptest.Run(t, 250, func(ps *gopter.Properties) {
		ps.Property("within a multiple of the budget", prop.ForAll(func(r run) (string, error) {
			ctx, cancel := context.WithCancel(context.Background())
			defer cancel()
			if r.cancel {
				cancel()
			}
			steps := min(r.steps, packing.DefaultSteps)
			res, err := packing.Solve(ctx, r.p, packing.Budget{Steps: steps})
			if err != nil {
				return "", err
			}
			if r.cancel {
				if !res.Stopped {
					return "cancelled, but not said to be stopped", nil
				}
				steps = 1
			}
			return ended(r.p, steps, res), nil
		}, genLabels(orders)))
	})
}

// cancelledAt is a context that is done at the n-th look at it.
type cancelledAt struct {
	context.Context
	n int
}

func (c *cancelledAt) Err() error {
	if c.n--; c.n < 0 {
		return context.Canceled
	}
	return nil
}

// Between two looks at the context lies little work: wherever a run is when its
// context ends, it stops soon after, with everything laid.
func TestStopsWhereverItIs(t *testing.T) {
	more := 7
	if proptest.Long {
		more = 1
	}
	for name, p := range worst() {
		if !proptest.Long && len(p.Items)+len(p.Stock) >= packing.MaxKinds {
			continue // half a second each
		}
		r := run{p: p}
		var last *packing.Result
		for looks := 0; looks < 60; looks += 1 + looks*more {
			res, err := packing.Solve(&cancelledAt{context.Background(), looks}, p, packing.Budget{Steps: 1 << 40})
			if err != nil {
				t.Fatal(err)
			}
			if !res.Stopped {
				break
			}
			// A look is taken every 32,768 steps.
			if w := ended(r.p, int64(looks)<<15, res); w != "" {
				t.Errorf("%s, cancelled at look %d: %s", name, looks, w)
			}
			if last != nil && worse(score(res), score(last)) {
				t.Errorf("%s, cancelled at look %d: %v, earlier %v", name, looks, score(res), score(last))
			}
			last = res
		}
	}
}

// manyKinds is the largest sort of job: n pieces of kinds kinds over ten kinds
// of sheets.
func manyKinds(n, kinds int) packing.Problem {
	r := rand.New(rand.NewSource(11))
	p := packing.Problem{Kerf: 1}
	for i := 0; i < 10; i++ {
		p.Stock = append(p.Stock, packing.Stock{W: 500 + r.Int63n(700), H: 500 + r.Int63n(700), Count: packing.Unlimited, Cost: 50 + r.Int63n(50)})
	}
	for i := 0; i < kinds; i++ {
		p.Items = append(p.Items, packing.Item{W: 20 + r.Int63n(400), H: 20 + r.Int63n(400), Copies: n / kinds, Turn: i%2 == 0})
	}
	return p
}

// 100,000 pieces, cancelled: complete, and within 256 MiB all allocations
// together.
func TestCancelledLargeJobStaysSmall(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	p := manyKinds(100_000, 10_000)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	r, err := packing.Solve(ctx, p, packing.Budget{Steps: 1})
	runtime.ReadMemStats(&after)
	if err != nil {
		t.Fatal(err)
	}
	if n := (after.TotalAlloc - before.TotalAlloc) >> 20; n > 256 {
		t.Errorf("%d MiB allocated", n)
	}
	if w := ended(p, 1, r); w != "" {
		t.Error(w)
	}
	if !r.Stopped || len(r.Short) > 0 {
		t.Errorf("stopped %v, %d kinds short", r.Stopped, len(r.Short))
	}
}

// The same job with more budget never gives less, in anything that is compared
// before the offcut.
func TestMoreBudgetIsNeverWorse(t *testing.T) {
	orders := 5
	if proptest.Long {
		orders = 6
	}
	proptest.Run(t, 50, func(ps *gopter.Properties) {
		ps.Property("more budget is never worse", prop.ForAll(func(r run) (string, error) {
			var last *packing.Result
			top := int64(1)
			for i := 0; i < orders; i++ {
				top *= 10
			}
			for steps := r.steps%9 + 1; steps <= top; steps *= 5 {
				res, err := packing.Solve(context.Background(), r.p, packing.Budget{Steps: steps})
				if err != nil {
					return "", err
				}
				if last != nil && worse(score(res), score(last)) {
					return fmt.Sprintf("%v with %d steps, %v with fewer", score(res), steps, score(last)), nil
				}
				last = res
			}
			return "", nil
		}, genLabels(orders)))
	})
}

// Leave to turn never gives less than the same pieces as they lie, and the run
// that uses it never less than a cheaper one: on labels by the thousand, on few
// and on many different pieces, some of which only fit when they are turned, at
// any budget.
func TestTurnsAreNeverWorse(t *testing.T) {
	orders := 5
	if proptest.Long {
		orders = 6
	}
	different := gopter.CombineGens(proptest.List(5, 60, genItem()), proptest.List(1, 2, genStock()), gen.IntRange(0, 2), gen.OneConstOf(int64(0), int64(9), int64(15)))
	mixed := proptest.Map(different, func(v []any) run {
		p := packing.Problem{Items: v[0].([]packing.Item), Stock: v[1].([]packing.Stock), Kerf: int64(v[2].(int)), LongestCut: v[3].(int64)}
		if v[2].(int) > 0 {
			p.Stock[0].Count = packing.Unlimited
		}
		return run{p: p}
	})
	may, met := 0, 0
	never := func(r run) (string, error) {
		fixed := r.p
		fixed.Items = slices.Clone(r.p.Items)
		for i := range fixed.Items {
			fixed.Items[i].Turn = false
		}
		top := int64(1)
		for range orders {
			top *= 10
		}
		var last *packing.Result
		for steps := r.steps%9 + 1; steps <= top; steps *= 7 {
			a, err := packing.Solve(context.Background(), fixed, packing.Budget{Steps: steps})
			if err != nil {
				return "", err
			}
			b, err := packing.Solve(context.Background(), r.p, packing.Budget{Steps: steps})
			if err != nil {
				return "", err
			}
			if w := ended(r.p, steps, b); w != "" {
				return w, nil
			}
			if may++; worse(score(a), score(b)) {
				met++
			}
			if worse(score(b), score(a)) {
				return fmt.Sprintf("%v with leave to turn, %v as they lie, with %d steps", score(b), score(a), steps), nil
			}
			if last != nil && worse(score(b), score(last)) {
				return fmt.Sprintf("%v with %d steps, %v with fewer", score(b), steps, score(last)), nil
			}
			last = b
		}
		return "", nil
	}
	proptest.Run(t, 40, func(ps *gopter.Properties) {
		ps.Property("labels", prop.ForAll(never, genLabels(orders)))
		ps.Property("different pieces", prop.ForAll(never, mixed))
	})
	if met < may/20 {
		t.Errorf("turns did good in %d of %d runs", met, may)
	}
}

// Progress rises, ends at the end, and never says more than the result; of a run
// with turns it is that of both runs.
func TestReport(t *testing.T) {
	in := load(t, "classes.json")[40]
	for turned, of := range []int64{3_000_000, 6_000_000} {
		var seen []packing.Progress
		r, err := packing.Solve(context.Background(), in.problem(turned), packing.Budget{Steps: 3_000_000, Report: func(p packing.Progress) { seen = append(seen, p) }})
		if err != nil {
			t.Fatal(err)
		}
		if n := len(seen); n < 2 || n > 300 {
			t.Errorf("%s: %d reports", direction[turned], n)
		}
		for i, p := range seen {
			if i > 0 && (p.Steps < seen[i-1].Steps || p.Bound < seen[i-1].Bound || seen[i-1].Best >= 0 && p.Best > seen[i-1].Best) {
				t.Errorf("%s: report %d is %+v after %+v", direction[turned], i, p, seen[i-1])
			}
			if p.Of != of || p.Best >= 0 && p.Best < r.Ordinary || p.Bound > r.Bound || p.Steps > p.Of {
				t.Errorf("%s: report %d is %+v; the result has %d sheets, bound %d", direction[turned], i, p, r.Ordinary, r.Bound)
			}
		}
		if p := seen[len(seen)-1]; p.Best != r.Ordinary || p.Bound != r.Bound {
			t.Errorf("%s: the last report is %+v", direction[turned], p)
		}
	}
}

// FuzzSolve makes a problem out of bytes: six for a kind of piece, four for a
// kind of sheet.
func FuzzSolve(f *testing.F) {
	f.Add([]byte{30, 27, 255, 9, 1, 0, 51, 121, 2, 0, 1, 0}, []byte{67, 100, 0, 0}, uint16(77), uint8(0), uint32(90_000), false)
	f.Add([]byte{3, 5, 200, 200, 0, 0}, []byte{9, 9, 3, 1, 20, 7, 0, 2}, uint16(12), uint8(1), uint32(1), true)
	f.Fuzz(func(t *testing.T, items, stock []byte, longest uint16, kerf uint8, steps uint32, cancel bool) {
		p := packing.Problem{LongestCut: int64(longest), Kerf: int64(kerf % 4)}
		for ; len(items) >= 6 && len(p.Items) < 20; items = items[6:] {
			p.Items = append(p.Items, packing.Item{W: 1 + int64(items[0]), H: 1 + int64(items[1]), Copies: int(items[2]) + int(items[3]%8)*256, Turn: items[4]%2 == 1})
		}
		for ; len(stock) >= 4 && len(p.Stock) < 8; stock = stock[4:] {
			p.Stock = append(p.Stock, packing.Stock{W: 10 * (1 + int64(stock[0])), H: 10 * (1 + int64(stock[1])), Count: int(stock[2]) - 1, Cost: int64(stock[3] >> 4), First: stock[3]%4 == 1, Trim: int64(stock[3] / 4 % 4)})
		}
		ctx, stop := context.WithCancel(context.Background())
		defer stop()
		if cancel {
			stop()
		}
		budget := int64(steps % 2_000_000)
		r, err := packing.Solve(ctx, p, packing.Budget{Steps: max(1, budget)})
		if err != nil {
			t.Fatal(err)
		}
		if w := ended(p, budget, r); w != "" {
			t.Error(w)
		}
	})
}

// What a spent budget cuts short may by luck be better than what a slightly
// larger one comes by; it does not count.
func TestCutShortDoesNotCount(t *testing.T) {
	p := packing.Problem{Kerf: 2, Stock: []packing.Stock{{W: 298, H: 896, Count: packing.Unlimited, Cost: 4, Trim: 1}},
		Items: []packing.Item{{W: 217, H: 262, Copies: 2648, Turn: true}, {W: 26, H: 223, Copies: 1}, {W: 93, H: 249, Copies: 1, Turn: true}}}
	before := 1 << 30
	for steps := packing.LeastSteps; steps < 60_000; steps += 500 {
		r := solve(t, p, steps)
		if r.Ordinary > before {
			t.Errorf("%d sheets with %d steps, %d with fewer", r.Ordinary, steps, before)
		}
		before = r.Ordinary
	}
}
