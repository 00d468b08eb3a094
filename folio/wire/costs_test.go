package wire_test

import (
	"encoding/json"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units"
	"boardwrap.example/units/money"
)

// Two folios at 25 minutes and 12.00 USD an hour take 10.00 USD of labour; at a
// margin of half the price, a price is twice the cost.
func TestCostsDocument(t *testing.T) {
	p, err := folio.Build(folio.Spec{Title: "Bow pair", Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.Inch}})
	if err != nil {
		t.Fatal(err)
	}
	usd, _ := money.CurrencyOf("USD")
	job := layout.Job{Folios: []layout.Folio{{Plan: p, Copies: 2}}, Materials: layout.MaterialsOf(p)}
	for i := range job.Materials {
		job.Materials[i].Sheets = []layout.SheetKind{{
			Size: units.MustParseSize("20 x 30 in"), Grain: stock.GrainAlongHeight, Count: layout.Unlimited, Price: money.Amount{Minor: 100, Currency: usd},
		}}
	}
	laid, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 10_000})
	if err != nil {
		t.Fatal(err)
	}
	b, err := cost.Of(laid, cost.Basis{Minutes: []int{25}, Rate: money.Amount{Minor: 1200, Currency: usd}, Margin: 5000})
	if err != nil {
		t.Fatal(err)
	}
	data, err := wire.AppendCosts(nil, b, wire.Options{})
	if err != nil {
		t.Fatal(err)
	}
	type charge struct {
		Label, Amount, Each, Text string
		Times, Over               int64
	}
	var doc struct {
		Costs struct {
			Total   string
			Charges []charge
			Folios  []struct {
				Name   string
				Copies int
				Total  string
				Each   charge
				Price  charge
			}
		}
	}
	if err := json.Unmarshal(data, &doc); err != nil {
		t.Fatal(err)
	}
	c := doc.Costs
	labour := c.Charges[len(c.Charges)-1]
	if labour.Label != "labour" || labour.Amount != "10.00 USD" || labour.Each != "12.00 USD" || labour.Times != 50 || labour.Over != 60 || labour.Text == "" {
		t.Errorf("labour: %+v", labour)
	}
	amount := func(text string) (a money.Amount) {
		if err := a.UnmarshalText([]byte(text)); err != nil {
			t.Fatal(err)
		}
		return a
	}
	each, price, total := amount(c.Folios[0].Each.Amount), amount(c.Folios[0].Price.Amount), amount(c.Total)
	var sum money.Amount
	for _, x := range c.Charges {
		sum.Minor += amount(x.Amount).Minor
	}
	if price.Minor != 2*each.Minor || sum.Minor != total.Minor || total.Minor <= 1000 || len(c.Folios) != 1 || c.Folios[0].Name != "Bow pair" || c.Folios[0].Copies != 2 {
		t.Errorf("%s", data)
	}
	some, err := wire.AppendCosts(nil, b, wire.Options{Only: []string{"folios.name"}})
	if err != nil || string(some) != `{"version":1,"costs":{"folios":[{"name":"Bow pair"}]}}` {
		t.Errorf("%v: %s", err, some)
	}
	if text := string(wire.CostsSchema()); !strings.Contains(text, `"breakEven"`) || !strings.Contains(text, `"boardwrap costs, version 1"`) {
		t.Error(text)
	}
}
