package cost_test

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"os"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

func inches(text string) units.Size { return units.MustParseSize(text + " in") }

func usd(cents int64) money.Amount {
	return money.Amount{Minor: cents, Currency: money.Currency{Code: "USD", Decimals: 2}}
}

func sheets(size string, n int, grain stock.SheetGrain) layout.SheetKind {
	return layout.SheetKind{Size: inches(size), Count: n, Grain: grain}
}

func lay(t testing.TB, job layout.Job) *layout.Layout {
	t.Helper()
	l, err := layout.Lay(context.Background(), job, layout.Budget{Steps: 5_000_000})
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// wraps is a job of which only the wraps are laid out: 12 x 8 1/4 in for the
// first folio (margins 7/8 and 1 in), 11 x 7 1/4 for the second (cover 4 x 5
// 1/4: open 9 1/4, with margins of 7/8 and 1 in).
func wraps(t testing.TB, copies []int, kind layout.SheetKind) layout.Job {
	job := layout.Job{
		Materials: []layout.Material{{Name: "marbled paper", Sheets: []layout.SheetKind{kind}}},
		Except:    []string{"chipboard", "cream paper", "card"},
	}
	for i, n := range copies {
		s := folio.Spec{
			Title: "Crew folio", Cover: inches("4 1/2 x 6 1/4"), Spine: rule.Spine{Width: units.Inch},
			Board:    stock.Stock{Name: "chipboard", Caliper: units.Inch / 16},
			Covering: stock.Stock{Name: "marbled paper", Sheets: []stock.Sheet{{Size: inches("12 x 12")}}},
			Liner:    stock.Stock{Name: "cream paper"},
		}
		if i == 1 {
			s.Cover = inches("4 x 5 1/4")
			s.Covering.Sheets = []stock.Sheet{{Size: inches("11 x 12"), Grain: stock.GrainAlongHeight}}
		}
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		job.Folios = append(job.Folios, layout.Folio{Plan: p, Copies: n})
	}
	return job
}

func TestCostsByHand(t *testing.T) {
	data, err := os.ReadFile("testdata/costs.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Cases []struct {
			Name                               string
			Copies                             []int
			Sheet                              string
			Price, Supply, Contents, Rate, Fee int64
			Amounts, Asked                     []int64
			Minutes                            []int
			Margin                             int
			RoundTo                            int64
			Less, NoBreakEven                  bool
			Charges, Totals, Each, Prices      []int64
			Margins                            []int
			Total, BreakEven, Recovers         int64
		}
	}
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	for _, c := range file.Cases {
		t.Run(c.Name, func(t *testing.T) {
			kind := sheets(c.Sheet, layout.Unlimited, stock.GrainAlongHeight)
			kind.Price = usd(c.Price)
			l := lay(t, wraps(t, c.Copies, kind))
			costing := cost.Basis{Minutes: c.Minutes, Rate: usd(c.Rate), Fee: usd(c.Fee), Margin: c.Margin, RoundTo: c.RoundTo}
			if c.Fee == 0 {
				costing.Fee = money.Amount{}
			}
			if c.Less {
				costing.Sheets = cost.LessOffcuts
			}
			if c.Supply > 0 {
				costing.Supplies = []cost.Supply{{Name: "paste", Price: usd(c.Supply), Contents: c.Contents, Amounts: c.Amounts}}
			}
			for _, p := range c.Asked {
				costing.Prices = append(costing.Prices, usd(p))
			}
			costs, err := cost.Of(l, costing)
			if err != nil {
				t.Fatal(err)
			}
			i := 0
			for ch := range costs.Charges() {
				if i >= len(c.Charges) || ch.Amount() != usd(c.Charges[i]) {
					t.Errorf("charge %d: %v, want %v", i, ch, c.Charges)
				}
				i++
			}
			if i != len(c.Charges) || costs.Total() != usd(c.Total) {
				t.Errorf("%d charges, total %v, want %d", i, costs.Total(), c.Total)
			}
			i = 0
			for f := range costs.Folios() {
				if f.Total() != usd(c.Totals[i]) || f.Each().Amount() != usd(c.Each[i]) || f.Price().Amount() != usd(c.Prices[i]) || f.Margin() != c.Margins[i] {
					t.Errorf("folio %d: total %v, each %v, price %v, margin %d", i, f.Total(), f.Each(), f.Price(), f.Margin())
				}
				i++
			}
			if n, ok := costs.BreakEven(); ok == c.NoBreakEven || n != c.BreakEven {
				t.Errorf("break-even %d, %v", n, ok)
			}
			if n, ok := costs.Recovers(); !ok || n != c.Recovers {
				t.Errorf("recovers %d, %v", n, ok)
			}
		})
	}
}

func TestCostingErrors(t *testing.T) {
	kind := sheets("12 x 12", layout.Unlimited, stock.GrainAlongHeight)
	kind.Price = usd(120)
	l := lay(t, wraps(t, []int{1, 2}, kind))
	_, err := cost.Of(l, cost.Basis{
		Sheets:   7,
		Supplies: []cost.Supply{{Name: "paste", Price: usd(-1), Contents: 0, Amounts: []int64{1, 2, 3}}, {Contents: 1, Amounts: []int64{-1}}},
		Minutes:  []int{-1, 2_000_000}, Rate: money.Amount{Minor: 1, Currency: money.Currency{Code: "EUR", Decimals: 2}},
		Fee: money.Amount{Minor: math.MaxInt64, Currency: usd(0).Currency}, Margin: 10_000, RoundTo: -1, Prices: []money.Amount{usd(-1), usd(1)},
	})
	var bad *check.Error
	if !errors.As(err, &bad) {
		t.Fatal(err)
	}
	for path, code := range map[string]check.Code{
		"sheets": check.Unknown, "supplies[0].price": check.Negative, "supplies[0].contents": check.OutOfRange, "supplies[0].amounts": check.OutOfRange,
		"supplies[1].amounts[0]": check.Negative, "minutes[0]": check.Negative, "minutes[1]": check.OutOfRange, "rate.currency": check.Conflict,
		"fee": check.OutOfRange, "margin": check.OutOfRange, "roundto": check.Negative, "prices[0]": check.Negative,
	} {
		if _, ok := bad.Find(path, code); !ok {
			t.Errorf("no %s at %s in\n%v", code, path, err)
		}
	}
	for _, v := range []struct{ path, want string }{{"prices[0]", "0 or more"}, {"minutes[0]", "from 0 to 1000000"}, {"roundto", "from 0 to 1099511627776"}, {"margin", "from 0 to 9999"}} {
		if got, _ := bad.Find(v.path, ""); got.Want != v.want {
			t.Errorf("%s: want %s", v.path, got.Want)
		}
	}
	// Two entries are one too many for one folio.
	_, err = cost.Of(lay(t, wraps(t, []int{1}, kind)), cost.Basis{Minutes: []int{1, 2}})
	if !errors.As(err, &bad) || bad.Len() != 1 {
		t.Errorf("minutes of two folios for one: %v", err)
	}
	// The largest amounts that pass one by one: a sum that does not fit is an
	// error, not a wrong figure.
	_, err = cost.Of(l, cost.Basis{Supplies: []cost.Supply{{Name: "gold", Price: usd(money.Most), Contents: 1, Amounts: []int64{1_000_000_000_000}}}})
	if !errors.As(err, &bad) {
		t.Errorf("gold beyond measure: %v", err)
	}
}

// A job without folios: all of it is loose, and a fee has no folio to bear it.
func TestLooseCosts(t *testing.T) {
	kind := sheets("12 x 12", layout.Unlimited, 0)
	kind.Price = usd(70)
	l := lay(t, layout.Job{
		Pieces:    []layout.LoosePiece{{Name: "card", Material: "paper", Size: inches("6 x 6"), Quantity: 5, Grain: stock.GrainAny}},
		Materials: []layout.Material{{Name: "paper", Sheets: []layout.SheetKind{kind}}},
	})
	c, err := cost.Of(l, cost.Basis{Fee: usd(300)})
	if err != nil || c.Total() != usd(440) || c.Loose() != usd(440) {
		t.Fatalf("total %v, loose %v, %v", c.Total(), c.Loose(), err)
	}
	if n, ok := c.BreakEven(); ok || n != 0 {
		t.Error("nothing sold breaks even")
	}
}

func BenchmarkOf(b *testing.B) {
	l := lay(b, wraps(b, []int{50, 50}, sheets("12 x 17", layout.Unlimited, stock.GrainAlongHeight)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := cost.Of(l, cost.Basis{Minutes: []int{30}, Rate: usd(900), Fee: usd(4500), Margin: 3000}); err != nil {
			b.Fatal(err)
		}
	}
}

// Of two folios one costs nothing: it brings nothing either, so all of them are
// made before the others have brought in what they cost, 3 cents. For 3 cents one
// of those does.
func TestAFolioThatCostsNothing(t *testing.T) {
	l := lay(t, wraps(t, []int{2, 3}, sheets("12 x 12", layout.Unlimited, stock.GrainAlongHeight)))
	for _, c := range []struct {
		asked []money.Amount
		want  int64
	}{{nil, 5}, {[]money.Amount{{}, usd(3)}, 3}} {
		b, err := cost.Of(l, cost.Basis{Minutes: []int{0, 1}, Rate: usd(60), Prices: c.asked})
		if err != nil {
			t.Fatal(err)
		}
		if n, ok := b.Recovers(); !ok || n != c.want || b.Total() != usd(3) {
			t.Errorf("asked %v: %d folios, %v, bring in %v; want %d", c.asked, n, ok, b.Total(), c.want)
		}
		for f := range b.Folios() {
			// What has no price leaves nothing of it; 2 of 3 cents are 66.66 %.
			if want := map[money.Amount]int{usd(0): 0, usd(1): 0, usd(3): 6666}[f.Price().Amount()]; f.Margin() != want {
				t.Errorf("asked %v: of %v are left %d", c.asked, f.Price().Amount(), f.Margin())
			}
		}
	}
}

// All of a price is left where nothing is spent on the folio, though it is a cent.
func TestAllIsLeft(t *testing.T) {
	l := lay(t, wraps(t, []int{1}, sheets("12 x 12", layout.Unlimited, stock.GrainAlongHeight)))
	b, err := cost.Of(l, cost.Basis{Prices: []money.Amount{usd(1)}})
	if err != nil {
		t.Fatal(err)
	}
	for f := range b.Folios() {
		if f.Margin() != 10_000 {
			t.Errorf("%d hundredths of a per cent are left", f.Margin())
		}
	}
}

// What is paid for says so where it is at hand anyway.
func TestOffcutsAreCalledSo(t *testing.T) {
	job := wraps(t, []int{1}, sheets("12 x 12", 1, stock.GrainAlongHeight))
	job.Materials[0].Sheets[0].Offcut = true
	b, err := cost.Of(lay(t, job), cost.Basis{})
	if err != nil {
		t.Fatal(err)
	}
	said := 0
	for c := range b.Charges() {
		if strings.HasSuffix(c.Label(), "12 x 12 in offcut") {
			said++
		}
	}
	if said != 1 {
		t.Errorf("%d charges of offcuts", said)
	}
}
