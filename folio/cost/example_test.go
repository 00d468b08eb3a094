package cost_test

import (
	"context"
	"fmt"

	"boardwrap.example/folio"
	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/money"
)

func ExampleOf() {
	usd, _ := money.CurrencyOf("USD")
	price := func(cents int64) money.Amount { return money.Amount{Minor: cents, Currency: usd} }
	plan, err := folio.Build(folio.Spec{
		Cover: units.MustParseSize("4 1/4 x 6 in"),
		Spine: rule.Spine{Width: units.Inch},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	laid, err := layout.Lay(context.Background(), layout.Job{
		Folios: []layout.Folio{{Name: "crew folio", Plan: plan, Copies: 10}},
		Materials: []layout.Material{{Name: "covering", Sheets: []layout.SheetKind{
			{Size: units.MustParseSize("12 1/4 x 17 in"), Grain: stock.GrainAlongHeight, Count: layout.Unlimited, Price: price(180)},
		}}},
		Except: []string{"board", "liner"},
	}, layout.Budget{})
	if err != nil {
		fmt.Println(err)
		return
	}
	costs, err := cost.Of(laid, cost.Basis{
		Supplies: []cost.Supply{{Name: "paste", Price: price(640), Contents: 250, Measure: "g", Amounts: []int64{14}}},
		Minutes:  []int{25}, Rate: price(900),
		Fee:    price(4500),
		Margin: 3000, RoundTo: 50,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for c := range costs.Charges() {
		fmt.Println(c)
	}
	fmt.Println("total", costs.Total())
	for f := range costs.Folios() {
		fmt.Println(f.Name()+":", f.Each())
		fmt.Println(f.Price())
	}
	n, _ := costs.BreakEven()
	fmt.Println("the fee has come in with", n)
	// Output:
	// covering, 12 1/4 x 17 in 9.00 USD = 5 x 1.80 USD
	// paste 3.59 USD = 140 x 6.40 USD / 250, up
	// labour 37.50 USD = 250 x 9.00 USD / 60
	// fee 45.00 USD = 45.00 USD
	// total 95.09 USD
	// crew folio: cost of one 9.51 USD = 95.09 USD / 10, up
	// price 14.00 USD = 10000 x 9.51 USD / 7000, up on 0.50 USD
	// the fee has come in with 6
}
