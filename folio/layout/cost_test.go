package layout_test

import (
	"encoding/json"
	"errors"
	"math"
	"os"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/layout"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// wraps is a job of which only the wraps are laid out: 12 x 8 1/4 in for the
// first folio (margins 7/8 and 1 in), 11 x 7 1/4 for the second (cover 4 x 5
// 1/4: open 9 1/4, with margins of 7/8 and 1 in).
func wraps(t testing.TB, copies []int, kind layout.SheetKind) layout.Job {
	job := layout.Job{
		Materials: []layout.Material{{Name: "marbled paper", Sheets: []layout.SheetKind{kind}}},
		Except:    []string{"chipboard", "cream paper", "card"},
	}
	for i, n := range copies {
		s := keepsakeSpec()
		s.Fittings = nil
		if i == 1 {
			s.Cover = inches("4 x 5 1/4")
			s.Covering.Sheets = []folio.Sheet{{Size: inches("11 x 12"), Grain: folio.GrainAlongHeight}}
		}
		job.Folios = append(job.Folios, layout.Folio{Plan: build(t, s), Copies: n})
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
			kind := sheets(c.Sheet, layout.Unlimited, folio.GrainAlongHeight)
			kind.Price = money(c.Price)
			l := lay(t, wraps(t, c.Copies, kind))
			costing := layout.Costing{Minutes: c.Minutes, Rate: money(c.Rate), Fee: money(c.Fee), Margin: c.Margin, RoundTo: c.RoundTo}
			if c.Fee == 0 {
				costing.Fee = layout.Money{}
			}
			if c.Less {
				costing.Sheets = layout.LessOffcuts
			}
			if c.Supply > 0 {
				costing.Supplies = []layout.Supply{{Name: "paste", Price: money(c.Supply), Contents: c.Contents, Amounts: c.Amounts}}
			}
			for _, p := range c.Asked {
				costing.Prices = append(costing.Prices, money(p))
			}
			costs, err := l.Costs(costing)
			if err != nil {
				t.Fatal(err)
			}
			i := 0
			for ch := range costs.Charges() {
				if i >= len(c.Charges) || ch.Amount() != money(c.Charges[i]) {
					t.Errorf("charge %d: %v, want %v", i, ch, c.Charges)
				}
				i++
			}
			if i != len(c.Charges) || costs.Total() != money(c.Total) {
				t.Errorf("%d charges, total %v, want %d", i, costs.Total(), c.Total)
			}
			i = 0
			for f := range costs.Folios() {
				if f.Total() != money(c.Totals[i]) || f.Each().Amount() != money(c.Each[i]) || f.Price().Amount() != money(c.Prices[i]) || f.Margin() != c.Margins[i] {
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
	kind := sheets("12 x 12", layout.Unlimited, folio.GrainAlongHeight)
	kind.Price = money(120)
	l := lay(t, wraps(t, []int{1, 2}, kind))
	_, err := l.Costs(layout.Costing{
		Sheets:   7,
		Supplies: []layout.Supply{{Name: "paste", Price: money(-1), Contents: 0, Amounts: []int64{1, 2, 3}}, {Contents: 1, Amounts: []int64{-1}}},
		Minutes:  []int{-1, 2_000_000}, Rate: layout.Money{Minor: 1, Currency: layout.Currency{Code: "EUR", Decimals: 2}},
		Fee: layout.Money{Minor: math.MaxInt64, Currency: money(0).Currency}, Margin: 10_000, RoundTo: -1, Prices: []layout.Money{money(-1), money(1)},
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
	// The largest amounts that pass one by one: a sum that does not fit is an
	// error, not a wrong figure.
	_, err = l.Costs(layout.Costing{Supplies: []layout.Supply{{Name: "gold", Price: money(layout.MostPrice), Contents: 1, Amounts: []int64{1_000_000_000_000}}}})
	if !errors.As(err, &bad) {
		t.Errorf("gold beyond measure: %v", err)
	}
}

// A job without folios: all of it is loose, and a fee has no folio to bear it.
func TestLooseCosts(t *testing.T) {
	kind := sheets("12 x 12", layout.Unlimited, 0)
	kind.Price = money(70)
	l := lay(t, hand(layout.Material{Sheets: []layout.SheetKind{kind}}, piece("6 x 6", 5, folio.GrainAny, layout.QuarterTurn)))
	c, err := l.Costs(layout.Costing{Fee: money(300)})
	if err != nil || c.Total() != money(440) || c.Loose() != money(440) {
		t.Fatalf("total %v, loose %v, %v", c.Total(), c.Loose(), err)
	}
	if _, ok := c.BreakEven(); ok {
		t.Error("nothing sold breaks even")
	}
}

func TestOneMore(t *testing.T) {
	kind := sheets("12 x 17", layout.Unlimited, folio.GrainAlongHeight)
	kind.Price = money(200)
	// Two wraps of 12 x 8 1/4 come out of each sheet.
	for copies, want := range map[int]int{1: 0, 2: 1, 3: 0, 4: 1} {
		d, err := layout.OneMore(t.Context(), wraps(t, []int{copies}, kind), 0, layout.Budget{})
		if err != nil || d.Bought != want || d.Price != money(200*int64(want)) || !d.Certain {
			t.Errorf("one more than %d: %+v, %v", copies, d, err)
		}
	}
	if _, err := layout.OneMore(t.Context(), wraps(t, []int{1}, kind), 1, layout.Budget{}); err == nil {
		t.Error("one more of no folio")
	}
}

func TestHowMany(t *testing.T) {
	kind := sheets("12 x 17", 3, folio.GrainAlongHeight)
	job := wraps(t, []int{1}, kind)
	y, err := layout.HowMany(t.Context(), job, 0, layout.Budget{})
	if err != nil || y != (layout.Yield{Copies: 6, Most: true, Limit: "marbled paper"}) {
		t.Errorf("%+v, %v", y, err)
	}
	// Five of the other folio take the better part of it: 8 1/4 + 7 1/4 go
	// on one sheet, so two sheets hold 4 of the other and the third one each.
	job = wraps(t, []int{1, 5}, kind)
	y, err = layout.HowMany(t.Context(), job, 0, layout.Budget{})
	if err != nil || y.Copies != 1 || !y.Most {
		t.Errorf("beside five others: %+v, %v", y, err)
	}
	job.Materials[0].Sheets[0].Count = layout.Unlimited
	if y, err = layout.HowMany(t.Context(), job, 0, layout.Budget{}); err != nil || !y.Unlimited {
		t.Errorf("unlimited: %+v, %v", y, err)
	}
	// Unlimited sheets that are too small do not help.
	job = wraps(t, []int{1}, kind)
	job.Materials[0].Sheets = append(job.Materials[0].Sheets, sheets("8 x 8", layout.Unlimited, folio.GrainAlongHeight))
	if y, err = layout.HowMany(t.Context(), job, 0, layout.Budget{}); err != nil || y.Copies != 6 || y.Unlimited {
		t.Errorf("small ones unlimited: %+v, %v", y, err)
	}
	// Too small altogether is an error that says so.
	job.Materials[0].Sheets = job.Materials[0].Sheets[1:]
	job.Materials[0].Sheets[0].Count = 4
	_, err = layout.HowMany(t.Context(), job, 0, layout.Budget{})
	var bad *check.Error
	if !errors.As(err, &bad) {
		t.Fatalf("a wrap out of 8 x 8: %v", err)
	}
	if _, ok := bad.Find("", layout.SheetSmall); !ok {
		t.Error(err)
	}
}

func TestSavings(t *testing.T) {
	ctx, within := t.Context(), layout.Tolerance{Width: units.Inch / 4, Height: units.Inch / 2, Margin: true, Panels: true, Quarter: true}
	find := func(list []layout.Saving, c layout.Change) (layout.Saving, bool) {
		for _, s := range list {
			if s.Change() == c {
				return s, true
			}
		}
		return layout.Saving{}, false
	}
	// Wraps of 12 x 8 1/4 in on sheets of 12 x 16: one a sheet. Two go when
	// the wrap is 8 in high: 1/4 in less of cover, or an ideal margin of 7/8.
	kind := sheets("12 x 16", layout.Unlimited, folio.GrainAlongHeight)
	kind.Price = money(150)
	job := wraps(t, []int{10}, kind)
	list, whole, err := layout.Savings(ctx, job, within, layout.Budget{})
	if err != nil || !whole {
		t.Fatal(whole, err)
	}
	s, ok := find(list, layout.Lower)
	if by, _ := s.By(); !ok || by.Length() != 6*units.Inch || s.Sheets() != 5 || s.Price() != money(750) || !s.Certain() {
		t.Errorf("lower covers: %v, %d sheets, %v, certain %v", by, s.Sheets(), s.Price(), s.Certain())
	}
	s, ok = find(list, layout.SmallerMargin)
	if by, _ := s.By(); !ok || by.Length() != 7*units.Inch/8 || s.Sheets() != 5 || !s.Certain() {
		t.Errorf("smaller margin: %v, %d sheets", by, s.Sheets())
	}
	// The plan that comes with a saving really saves as much.
	try := job
	try.Folios = []layout.Folio{{Plan: s.Plan(), Copies: 10}}
	if l := lay(t, try); l.Bought() != 5 {
		t.Errorf("the smaller margin takes %d sheets", l.Bought())
	}
	// Each change that saves is told once: less of it saves nothing, and more
	// of it saves no more. Both together save what the height alone does.
	if len(list) != 3 || list[0].Change() != layout.Lower || list[1].Change() != layout.SmallerBoth || list[2].Change() != layout.SmallerMargin {
		for _, s := range list {
			by, _ := s.By()
			t.Log(s.Change(), by, s.Sheets())
		}
		t.Errorf("%d savings", len(list))
	}
	if _, ok := find(list, layout.Narrower); ok {
		t.Error("narrower covers save nothing here")
	}
	// Of two copies one sheet is saved, by no more of a change than of ten.
	pair := job.More(0, -8)
	if list, _, err = layout.Savings(ctx, pair, within, layout.Budget{}); err != nil {
		t.Fatal(err)
	}
	s, ok = find(list, layout.Lower)
	if by, _ := s.By(); !ok || by.Length() != 6*units.Inch || s.Sheets() != 1 || len(list) != 3 {
		t.Errorf("lower covers of two: %v, %d sheets, %d savings", by, s.Sheets(), len(list))
	}
	// Without tolerance there is nothing.
	if list, _, err := layout.Savings(ctx, job, layout.Tolerance{}, layout.Budget{}); err != nil || len(list) != 0 {
		t.Errorf("%d savings without tolerance, %v", len(list), err)
	}
	// A refitted folio is left alone.
	made, err := job.Folios[0].Plan.Refit(folio.Measured{Width: units.MustParse("10 3/8 in"), Height: units.MustParse("6 1/4 in")})
	if err != nil {
		t.Fatal(err)
	}
	try.Folios[0].Plan = made
	if list, _, err := layout.Savings(ctx, try, within, layout.Budget{}); err != nil || len(list) != 0 {
		t.Errorf("%d savings for a made-up cover, %v", len(list), err)
	}
	if _, _, err := layout.Savings(ctx, job, layout.Tolerance{Width: -1}, layout.Budget{}); err == nil {
		t.Error("a negative tolerance")
	}
}

// Liners of 10 x 6 in on sheets of 10 x 12: two a sheet. A liner a board is
// 4 1/4 x 6 in twice (the spine's is bare or its own piece): more go on one.
func TestSavingsByPanels(t *testing.T) {
	job := keepsakeJob(t, 12)
	job.Except = []string{"chipboard", "marbled paper", "card"}
	job.Materials = []layout.Material{{Name: "cream paper", Sheets: []layout.SheetKind{sheets("10 x 9", layout.Unlimited, folio.GrainAlongHeight)}}}
	list, _, err := layout.Savings(t.Context(), job, layout.Tolerance{Panels: true}, layout.Budget{})
	if err != nil {
		t.Fatal(err)
	}
	panels := build(t, func() folio.Spec { s := keepsakeSpec(); s.Lining.Rule = folio.LiningPanels; return s }())
	job2 := job
	job2.Folios = []layout.Folio{{Plan: panels, Copies: 12}}
	a, b := lay(t, job).Bought(), lay(t, job2).Bought()
	if a-b > 0 != (len(list) == 1) || len(list) == 1 && list[0].Sheets() != a-b {
		t.Errorf("%d and %d sheets, savings %v", a, b, list)
	}
}
