package cost_test

import (
	"testing"

	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/edgetest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

// What is documented is taken, and what lies beyond it is not.
func TestEdgesOfCodes(t *testing.T) {
	kind := sheets("12 x 12", layout.Unlimited, stock.GrainAlongHeight)
	kind.Price = usd(100)
	l := lay(t, wraps(t, []int{1, 1}, kind))
	edge := func(name, path string, code check.Code, fine, wrong units.Length, set func(*cost.Basis, int64)) edgetest.Edge {
		return edgetest.Edge{Name: name, Path: path, Code: code, Fine: fine, Wrong: wrong, Try: edgetest.Refused(func(v units.Length) error {
			b := cost.Basis{Supplies: []cost.Supply{{Name: "glue", Price: usd(1), Contents: 1_000_000_000_000, Amounts: []int64{1}}}}
			set(&b, int64(v))
			_, err := cost.Of(l, b)
			return err
		})}
	}
	minor := func(v int64) money.Amount { return money.Amount{Minor: v, Currency: usd(0).Currency} }
	edges := []edgetest.Edge{
		edge("rule for sheets", "sheets", check.Unknown, 1, 2, func(b *cost.Basis, v int64) { b.Sheets = cost.SheetRule(v) }),
		edge("supplies", "supplies", check.TooMany, 1000, 1001, func(b *cost.Basis, v int64) {
			b.Supplies = make([]cost.Supply, v)
			for i := range b.Supplies {
				b.Supplies[i].Contents = 1
			}
		}),
		edge("a pack of nothing", "supplies[0].contents", check.OutOfRange, 1, 0, func(b *cost.Basis, v int64) { b.Supplies[0].Contents = v }),
		edge("a pack of less", "supplies[0].contents", check.Negative, 1, -1, func(b *cost.Basis, v int64) { b.Supplies[0].Contents = v }),
		edge("a pack of a million million", "supplies[0].contents", check.OutOfRange, 1_000_000_000_000, 1_000_000_000_001, func(b *cost.Basis, v int64) { b.Supplies[0].Contents = v }),
		edge("less than nothing used", "supplies[0].amounts[0]", check.Negative, 0, -1, func(b *cost.Basis, v int64) { b.Supplies[0].Amounts[0] = v }),
		edge("amounts for each folio", "supplies[0].amounts", check.OutOfRange, 2, 3, func(b *cost.Basis, v int64) { b.Supplies[0].Amounts = make([]int64, v) }),
		edge("price below nothing", "supplies[0].price", check.Negative, 0, -1, func(b *cost.Basis, v int64) { b.Supplies[0].Price = minor(v) }),
		edge("minutes", "minutes[0]", check.OutOfRange, 1_000_000, 1_000_001, func(b *cost.Basis, v int64) { b.Minutes = []int{int(v)} }),
		edge("minutes for each folio", "minutes", check.OutOfRange, 2, 3, func(b *cost.Basis, v int64) { b.Minutes = make([]int, v) }),
		edge("rate", "rate", check.OutOfRange, money.Most, money.Most+1, func(b *cost.Basis, v int64) { b.Rate = minor(v) }),
		edge("fee", "fee", check.Negative, 0, -1, func(b *cost.Basis, v int64) { b.Fee = minor(v) }),
		edge("fee in another currency", "fee.currency", check.Conflict, 2, 3, func(b *cost.Basis, v int64) {
			b.Fee = money.Amount{Minor: 1, Currency: money.Currency{Code: "USD", Decimals: uint8(v)}}
		}),
		edge("margin", "margin", check.OutOfRange, 9999, 10_000, func(b *cost.Basis, v int64) { b.Margin = int(v) }),
		edge("margin below nothing", "margin", check.Negative, 0, -1, func(b *cost.Basis, v int64) { b.Margin = int(v) }),
		edge("rounded to", "roundto", check.Negative, 0, -1, func(b *cost.Basis, v int64) { b.RoundTo = v }),
		edge("prices for each folio", "prices", check.OutOfRange, 2, 3, func(b *cost.Basis, v int64) { b.Prices = make([]money.Amount, v) }),
		edge("an asked price", "prices[0]", check.OutOfRange, money.Most, money.Most+1, func(b *cost.Basis, v int64) { b.Prices = []money.Amount{minor(v)} }),
	}
	edges = append(edges, edgetest.Edge{Name: "no layout", Path: "layout", Code: check.Missing, Fine: 1, Wrong: 0, Try: edgetest.Refused(func(v units.Length) error {
		_, err := cost.Of([]*layout.Layout{nil, l}[v], cost.Basis{})
		return err
	})})
	edgetest.Run(t, edges)
	edgetest.EveryCode(t, edges, 5)
}
