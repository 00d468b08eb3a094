package packing_test

import (
	"context"
	"errors"
	"slices"
	"testing"

	"boardwrap.example/internal/packing"
)

// Each limit of a problem is taken at it, and refused above it and far above.
func TestLimits(t *testing.T) {
	for name, c := range map[string]struct {
		most  int64
		field string
		set   func(p *packing.Problem, n int64)
	}{
		"MaxSide of an item":  {packing.MaxSide, "Items[0].W", func(p *packing.Problem, n int64) { p.Items[0].W = n }},
		"MaxSide of a sheet":  {packing.MaxSide, "Stock[0].H", func(p *packing.Problem, n int64) { p.Stock[0].H = n }},
		"MaxSide of the trim": {packing.MaxSide, "Stock[0].Trim", func(p *packing.Problem, n int64) { p.Stock[0].Trim = n }},
		"MaxSide of the kerf": {packing.MaxSide, "Kerf", func(p *packing.Problem, n int64) { p.Kerf = n }},
		"MaxSide of a cut":    {packing.MaxSide, "LongestCut", func(p *packing.Problem, n int64) { p.LongestCut = n }},
		"MaxSide of offcuts":  {packing.MaxSide, "KeepLong", func(p *packing.Problem, n int64) { p.KeepLong = n }},
		"MaxPieces of one":    {packing.MaxPieces, "Items[0].Copies", func(p *packing.Problem, n int64) { p.Items[0].Copies = int(n) }},
		"MaxPieces in all": {packing.MaxPieces, "sum of Copies", func(p *packing.Problem, n int64) {
			p.Items = slices.Repeat(p.Items, 20)
			for i := range p.Items {
				p.Items[i].Copies = int(n / 20)
			}
			p.Items[0].Copies += int(n % 20)
		}},
		"MaxKinds of items":  {packing.MaxKinds, "len(Items)", func(p *packing.Problem, n int64) { p.Items = slices.Repeat(p.Items, int(n)) }},
		"MaxKinds of sheets": {packing.MaxKinds, "len(Stock)", func(p *packing.Problem, n int64) { p.Stock = slices.Repeat(p.Stock, int(n)) }},
		"MaxCost":            {packing.MaxCost, "Stock[0].Cost", func(p *packing.Problem, n int64) { p.Stock[0].Cost = n }},
	} {
		for _, n := range []int64{c.most, c.most + 1, 10 * c.most} {
			p := packing.Problem{Items: []packing.Item{{W: 1, H: 1, Copies: 1}}, Stock: []packing.Stock{{W: 2, H: 2, Count: 1}}}
			c.set(&p, n)
			err := p.Validate()
			var fs packing.Faults
			refused := errors.As(err, &fs) && slices.ContainsFunc(fs, func(f packing.Fault) bool { return f.Field == c.field && f.Max == c.most })
			if refused != (n > c.most) {
				t.Errorf("%s: %d: %v", name, n, err)
			}
			if n > c.most {
				if r, err := packing.Solve(context.Background(), p, packing.Budget{}); r != nil || err == nil {
					t.Errorf("%s: %d is laid out", name, n)
				}
			}
		}
	}
}
