package layout_test

import (
	"context"
	"fmt"

	"boardwrap.example/folio"
	"boardwrap.example/folio/layout"
	"boardwrap.example/units"
)

// Eight folios, of which only the wraps are cut here, from sheets at 1.20 each.
func ExampleLay() {
	plan, err := folio.Build(folio.Spec{
		Cover:    units.MustParseSize("4 1/2 x 6 1/4 in"),
		Spine:    folio.Spine{Width: units.Inch},
		Covering: folio.Stock{Name: "marbled paper", Sheets: []folio.Sheet{{Size: units.MustParseSize("12 x 18 in"), Grain: folio.GrainAlongHeight}}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	job := layout.Job{
		Folios:    []layout.Folio{{Plan: plan, Copies: 8}},
		Materials: layout.MaterialsOf(plan),
		Except:    []string{"board", "liner"},
	}
	laid, err := layout.Lay(context.Background(), job, layout.Budget{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for m := range laid.Materials() {
		fmt.Println(m.Name()+":", m.Bought(), "sheets, proved fewest:", m.Proved())
	}
	for s := range laid.Steps(units.Format{}) {
		fmt.Printf("%d. %s\n", s.Number, s.Text)
	}
	// Output:
	// marbled paper: 4 sheets, proved fewest: true
	// 1. Take 4 sheets of marbled paper, 12 x 18 in.
	// 2. From the head edge set 16 1/2 in, cut each: 4 x part 12 x 16 1/2 in; 4 x offcut 12 x 1 1/2 in to keep.
	// 3. 4 parts 12 x 16 1/2 in: from the head edge set 8 1/4 in, cut each: 8 x wrap.
}

// What is left of a sheet is the next job's offcut.
func ExampleLayout_Left() {
	job := layout.Job{
		Ruler:  units.Sixteenths,
		Pieces: []layout.Piece{{Name: "mat", Material: "card", Size: units.MustParseSize("5 x 7 in"), Quantity: 2}},
		Materials: []layout.Material{{Name: "card", Sheets: []layout.SheetKind{
			{Size: units.MustParseSize("12 x 12 in"), Grain: folio.GrainAlongHeight, Count: 3},
		}}},
	}
	laid, err := layout.Lay(context.Background(), job, layout.Budget{})
	if err != nil {
		fmt.Println(err)
		return
	}
	inches := units.Format{Ruler: units.Sixteenths}
	for _, m := range laid.Left() {
		for _, s := range m.Sheets {
			fmt.Println(s.Count, inches.Size(s.Size), s.Grain, s.Offcut)
		}
	}
	// Output:
	// 2 12 x 12 in along the height false
	// 1 12 x 5 in along the height true
	// 1 2 x 7 in along the height true
}

func ExampleLayout_Costs() {
	usd, _ := layout.CurrencyOf("USD")
	price := func(cents int64) layout.Money { return layout.Money{Minor: cents, Currency: usd} }
	plan, err := folio.Build(folio.Spec{
		Cover: units.MustParseSize("4 1/2 x 6 1/4 in"),
		Spine: folio.Spine{Width: units.Inch},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	laid, err := layout.Lay(context.Background(), layout.Job{
		Folios: []layout.Folio{{Name: "crew folio", Plan: plan, Copies: 10}},
		Materials: []layout.Material{{Name: "covering", Sheets: []layout.SheetKind{
			{Size: units.MustParseSize("12 1/4 x 17 in"), Grain: folio.GrainAlongHeight, Count: layout.Unlimited, Price: price(180)},
		}}},
		Except: []string{"board", "liner"},
	}, layout.Budget{})
	if err != nil {
		fmt.Println(err)
		return
	}
	costs, err := laid.Costs(layout.Costing{
		Supplies: []layout.Supply{{Name: "paste", Price: price(640), Contents: 250, Measure: "g", Amounts: []int64{14}}},
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

func ExampleSavings() {
	plan, err := folio.Build(folio.Spec{
		Cover:    units.MustParseSize("4 1/2 x 6 1/4 in"),
		Spine:    folio.Spine{Width: units.Inch},
		Covering: folio.Stock{Name: "marbled paper", Sheets: []folio.Sheet{{Size: units.MustParseSize("12 x 16 in"), Grain: folio.GrainAlongHeight}}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	job := layout.Job{
		Folios:    []layout.Folio{{Plan: plan, Copies: 10}},
		Materials: layout.MaterialsOf(plan),
		Except:    []string{"board", "liner"},
	}
	savings, _, err := layout.Savings(context.Background(), job, layout.Tolerance{Height: units.Inch / 4, Margin: true}, layout.Budget{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range savings {
		by, _ := s.By()
		fmt.Println(s.Change(), "saves", s.Sheets(), "sheets:", by)
	}
	// Output:
	// lower covers saves 5 sheets: cover height 6 in = as it is 6 1/4 in - 1/4 in
	// a smaller margin saves 5 sheets: ideal margin 7/8 in = as it is 1 in - 1/8 in
}
