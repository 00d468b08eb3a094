package packing_test

import (
	"context"
	"fmt"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/packing"
	"boardwrap.example/internal/packing/cutcheck"
	"boardwrap.example/internal/proptest"
)

// Generators: by construction, small.

func genItem() gopter.Gen {
	return proptest.Map(gopter.CombineGens(gen.Int64Range(1, 14), gen.Int64Range(1, 14), gen.IntRange(0, 3), gen.Bool()), func(v []any) packing.Item {
		return packing.Item{W: v[0].(int64), H: v[1].(int64), Copies: v[2].(int), Turn: v[3].(bool)}
	})
}

func genStock() gopter.Gen {
	return proptest.Map(gopter.CombineGens(gen.Int64Range(6, 24), gen.Int64Range(6, 24), gen.IntRange(0, 4), gen.Int64Range(0, 9), gen.Bool(), gen.Int64Range(0, 1)), func(v []any) packing.Stock {
		return packing.Stock{W: v[0].(int64), H: v[1].(int64), Count: v[2].(int), Cost: v[3].(int64), First: v[4].(bool), Trim: v[5].(int64)}
	})
}

// genHandful makes problems of at most nine pieces.
func genHandful() gopter.Gen {
	return proptest.Map(gopter.CombineGens(gen.SliceOfN(3, genItem()), gen.SliceOfN(2, genStock()), gen.Int64Range(0, 2), gen.OneConstOf(int64(0), int64(9), int64(15))), func(v []any) packing.Problem {
		return packing.Problem{Items: v[0].([]packing.Item), Stock: v[1].([]packing.Stock), Kerf: v[2].(int64), LongestCut: v[3].(int64)}
	})
}

// genNoLimit is genHandful for a trimmer that cuts any length. With a longest
// cut a smaller piece or a larger sheet can be the end of a layout: a piece that
// was just as wide as the sheet needed no cut along it, and now does.
func genNoLimit() gopter.Gen {
	return proptest.Map(genHandful(), func(p packing.Problem) packing.Problem {
		p.LongestCut = 0
		return p
	})
}

// score is what answers are compared by, as far as it is exact.
func score(r *packing.Result) [3]int64 {
	short := int64(0)
	for _, s := range r.Short {
		short += int64(s.Copies)
	}
	return [3]int64{short, int64(r.Ordinary), r.Cost}
}

func worse(a, b [3]int64) bool {
	for i := range a {
		if a[i] != b[i] {
			return a[i] > b[i]
		}
	}
	return false
}

// In the exact range whatever gives more freedom never gives a worse answer at
// the same budget.
func TestMoreFreedomIsNeverWorse(t *testing.T) {
	const steps = 50_000_000
	run := func(p packing.Problem) (*packing.Result, error) {
		r, err := packing.Solve(context.Background(), p, packing.Budget{Steps: steps})
		if err != nil {
			return nil, err
		}
		if w := cutcheck.Check(p, r); len(w) > 0 {
			return nil, fmt.Errorf("%v", w)
		}
		return r, nil
	}
	never := func(change func(p *packing.Problem)) any {
		return func(p packing.Problem) (string, error) {
			a, err := run(p)
			if err != nil {
				return "", err
			}
			q := p
			q.Items = append([]packing.Item(nil), p.Items...)
			q.Stock = append([]packing.Stock(nil), p.Stock...)
			change(&q)
			b, err := run(q)
			if err != nil {
				return "", err
			}
			if worse(score(b), score(a)) {
				return fmt.Sprintf("%v became %v", score(a), score(b)), nil
			}
			return "", nil
		}
	}
	props := gopter.NewProperties(proptest.Parameters(60))
	for _, c := range []struct {
		label  string
		from   gopter.Gen
		change func(p *packing.Problem)
	}{
		{"one more sheet of the first kind", genHandful(), func(p *packing.Problem) { p.Stock[0].Count++ }},
		{"no end of the second kind", genHandful(), func(p *packing.Problem) { p.Stock[1].Count = packing.Unlimited }},
		{"another kind of stock", genHandful(), func(p *packing.Problem) {
			p.Stock = append(p.Stock, packing.Stock{W: 13, H: 17, Count: 2, Cost: 4})
		}},
		{"smaller pieces", genNoLimit(), func(p *packing.Problem) {
			for i := range p.Items {
				p.Items[i].W = max(1, p.Items[i].W-1)
			}
		}},
		{"larger sheets", genNoLimit(), func(p *packing.Problem) {
			for i := range p.Stock {
				p.Stock[i].W++
			}
		}},
		{"leave to turn", genHandful(), func(p *packing.Problem) {
			for i := range p.Items {
				p.Items[i].Turn = true
			}
		}},
		{"less trim", genNoLimit(), func(p *packing.Problem) {
			for i := range p.Stock {
				p.Stock[i].Trim = 0
			}
		}},
		{"a thinner kerf", genHandful(), func(p *packing.Problem) { p.Kerf = 0 }},
		{"a longer cut", genHandful(), func(p *packing.Problem) {
			if p.LongestCut > 0 {
				p.LongestCut += 3
			}
		}},
	} {
		props.Property(c.label, prop.ForAll(never(c.change), c.from))
	}
	props.TestingRun(t)
}

// What must hold of every answer, handful or not, at any budget.
func TestEveryAnswer(t *testing.T) {
	genMany := proptest.Map(gopter.CombineGens(gen.SliceOf(genItem()), gen.SliceOf(genStock()), gen.Int64Range(0, 2), gen.OneConstOf(int64(0), int64(11)), gen.Int64Range(1, 300_000)), func(v []any) answered {
		p := packing.Problem{Items: v[0].([]packing.Item), Stock: v[1].([]packing.Stock), Kerf: v[2].(int64), LongestCut: v[3].(int64), KeepShort: 2, KeepLong: 4}
		r, err := packing.Solve(context.Background(), p, packing.Budget{Steps: v[4].(int64)})
		return answered{p, r, err}
	})
	props := gopter.NewProperties(proptest.Parameters(60))
	props.Property("no error, and the checker finds nothing", prop.ForAll(func(a answered) (string, error) {
		if a.err != nil {
			return "", a.err
		}
		if w := cutcheck.Check(a.p, a.r); len(w) > 0 {
			return fmt.Sprint(w), nil
		}
		return "", nil
	}, genMany))
	props.Property("a piece is short for want of a sheet that fits only if none fits", prop.ForAll(func(a answered) string {
		for _, s := range a.r.Short {
			it := a.p.Items[s.Item]
			fits := false
			for _, st := range a.p.Stock {
				w, h := st.W-2*st.Trim, st.H-2*st.Trim
				if st.Count != 0 && (it.W <= w && it.H <= h || it.Turn && it.H <= w && it.W <= h) {
					fits = true
				}
			}
			if s.Fits && !fits {
				return fmt.Sprintf("%+v is said to fit", s)
			}
			if !s.Fits && fits && a.p.LongestCut == 0 {
				return fmt.Sprintf("%+v is said not to fit", s)
			}
		}
		return ""
	}, genMany))
	props.TestingRun(t)
}

type answered struct {
	p   packing.Problem
	r   *packing.Result
	err error
}
