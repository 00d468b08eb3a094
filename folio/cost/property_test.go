package cost_test

import (
	"context"
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
)

// genBasis makes a basis for two folios.
func genBasis() gopter.Gen {
	cents := gen.Int64Range(0, 5_000)
	return proptest.Map(gopter.CombineGens(cents, cents, cents, gen.Int64Range(1, 1000), gen.Int64Range(0, 100), gen.Int64Range(0, 100),
		gen.IntRange(0, 90), gen.IntRange(0, 90), gen.IntRange(0, 9000), gen.Int64Range(0, 100), gen.Bool()), func(v []any) cost.Basis {
		c := cost.Basis{
			Supplies: []cost.Supply{{Name: "paste", Price: usd(v[0].(int64)), Contents: v[3].(int64), Amounts: []int64{v[4].(int64), v[5].(int64)}}},
			Minutes:  []int{v[6].(int), v[7].(int)}, Rate: usd(v[1].(int64)), Fee: usd(v[2].(int64)), Margin: v[8].(int), RoundTo: v[9].(int64),
		}
		if v[10].(bool) {
			c.Sheets = cost.LessOffcuts
		}
		return c
	})
}

func TestCostProperties(t *testing.T) {
	kind := sheets("12 x 17", layout.Unlimited, stock.GrainAlongHeight)
	p := gopter.NewProperties(proptest.Parameters(1000))
	base := wraps(t, []int{1, 1}, kind)
	base.Pieces = []layout.LoosePiece{{Name: "card", Material: "marbled paper", Size: inches("2 x 3"), Grain: stock.GrainAny}}
	p.Property("charges, shares, prices and break-even hold together", prop.ForAll(func(a, b, loose int, price int64, basis cost.Basis) string {
		job := base.More(0, a-1).More(1, b-1)
		job.Pieces[0].Quantity = loose
		job.Materials[0].Sheets[0].Price = usd(price)
		l, err := layout.Lay(context.Background(), job, layout.Budget{Steps: 50_000})
		if err != nil {
			return err.Error()
		}
		c, err := cost.Of(l, basis)
		if err != nil {
			return err.Error()
		}
		sum := int64(0)
		for ch := range c.Charges() {
			sum += ch.Amount().Minor
			// Each charge again, in rational numbers.
			each, times, over := ch.Terms()
			want := new(big.Rat).Mul(big.NewRat(each.Minor, over), big.NewRat(times, 1))
			if part, whole := ch.Portion(); whole.Sign() > 0 {
				want.Mul(want, new(big.Rat).Quo(ratOf(part), ratOf(whole)))
			}
			over1 := new(big.Rat).Sub(big.NewRat(ch.Amount().Minor, 1), want)
			if over1.Sign() < 0 || over1.Cmp(big.NewRat(1, 1)) >= 0 {
				return "not rounded up by less than a cent: " + ch.String()
			}
		}
		if sum != c.Total().Minor {
			return "the charges do not add up to the total"
		}
		all, copies, income := c.Loose().Minor, int64(0), int64(0)
		for f := range c.Folios() {
			n := int64(f.Copies())
			copies += n
			own := int64(0)
			for s := range f.Shares() {
				own += s.Amount().Minor
				each, _, _ := s.Terms()
				part, whole := s.Portion()
				if whole.Sign() > 0 {
					off := new(big.Rat).Mul(big.NewRat(each.Minor, 1), new(big.Rat).Quo(ratOf(part), ratOf(whole)))
					off.Sub(off, big.NewRat(s.Amount().Minor, 1)).Abs(off)
					if off.Cmp(big.NewRat(1, 1)) >= 0 {
						return "a share is off by a cent or more: " + s.String()
					}
				}
			}
			if own != f.Total().Minor {
				return "the shares of a folio do not add up to its total"
			}
			all += own
			each := f.Each().Amount().Minor
			if each*n < own || (each-1)*n >= own && own > 0 {
				return "the cost of one is not the total over the copies, rounded up"
			}
			price := f.Price().Amount().Minor
			if price > 0 && f.Margin() < basis.Margin || price < each {
				return fmt.Sprintf("price %d leaves %d, wanted %d", price, f.Margin(), basis.Margin)
			}
			if basis.RoundTo > 1 && price%basis.RoundTo != 0 {
				return "the price is off its step"
			}
			income += price * n
		}
		if all != c.Total().Minor {
			return "the folios and the loose pieces do not add up to the total"
		}
		if n, ok := c.BreakEven(); true {
			if want, sure := sellOff(c, basis.Fee.Minor); ok != sure || ok && n != want {
				return fmt.Sprintf("break-even %d, %v; selling one by one %d, %v", n, ok, want, sure)
			}
		}
		if n, ok := c.Recovers(); ok != (income >= c.Total().Minor) || ok && n > copies {
			return fmt.Sprintf("recovers with %d of %d, %v", n, copies, ok)
		}
		return ""
	}, gen.IntRange(1, 6), gen.IntRange(0, 6), gen.IntRange(0, 3), gen.Int64Range(0, 900), genBasis()))
	p.TestingRun(t)
}

// sellOff sells batch after batch, in each the folios that bring least first,
// until the fee has come in.
func sellOff(c *cost.BatchCost, fee int64) (n int64, ok bool) {
	var brings []int64
	for f := range c.Folios() {
		own := f.Total().Minor
		for s := range f.Shares() {
			if s.Label() == "share of fee" {
				own -= s.Amount().Minor
			}
		}
		copies := int64(f.Copies())
		b := f.Price().Amount().Minor - (own+copies-1)/copies
		if b <= 0 {
			return 0, false
		}
		for range copies {
			brings = append(brings, b)
		}
	}
	slices.Sort(brings)
	for fee > 0 {
		fee -= brings[n%int64(len(brings))]
		n++
	}
	return n, len(brings) > 0
}

// ratOf reads an area's exact text.
func ratOf(a units.Area) *big.Rat {
	r, _ := new(big.Rat).SetString(strings.TrimSuffix(a.String(), " mm²"))
	return r
}
