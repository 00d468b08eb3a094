package cost_test

import (
	"slices"
	"testing"

	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

// Each limit of the package is taken at it, and refused above it.
func TestLimits(t *testing.T) {
	kind := sheets("12 x 12", 40, stock.GrainAlongHeight)
	kind.Price = usd(150)
	l := lay(t, wraps(t, []int{4}, kind))
	try := func(change func(b *cost.Basis, n int64)) func(n int64) error {
		return func(n int64) error {
			b := cost.Basis{Supplies: []cost.Supply{{Name: "glue", Price: usd(900), Contents: 1000, Measure: "g", Amounts: []int64{12}}}}
			change(&b, n)
			_, err := cost.Of(l, b)
			return err
		}
	}
	mendtest.Limits(t, map[string]mendtest.Limit{
		"mostSupplies":           {At: 1000, Path: "supplies", Code: check.TooMany, Try: try(func(b *cost.Basis, n int64) { b.Supplies = slices.Repeat(b.Supplies, int(n)) })},
		"mostAmount of contents": {At: 1e12, Path: "supplies[0].contents", Code: check.OutOfRange, Try: try(func(b *cost.Basis, n int64) { b.Supplies[0].Contents = n })},
		"mostAmount of use":      {At: 1e12, Path: "supplies[0].amounts[0]", Code: check.OutOfRange, Try: try(func(b *cost.Basis, n int64) { b.Supplies[0].Amounts[0] = n })},
		"mostMinutes":            {At: 1e6, Path: "minutes[0]", Code: check.OutOfRange, Try: try(func(b *cost.Basis, n int64) { b.Minutes = []int{int(n)} })},
		"margin":                 {At: 9999, Path: "margin", Code: check.OutOfRange, Try: try(func(b *cost.Basis, n int64) { b.Margin = int(n) })},
		"money.Most":             {At: money.Most, Path: "fee", Code: check.OutOfRange, Try: try(func(b *cost.Basis, n int64) { b.Fee = usd(n) })},
		"money.Most of rounding": {At: money.Most, Path: "roundto", Code: check.OutOfRange, Try: try(func(b *cost.Basis, n int64) { b.RoundTo = n })},
	})
}
