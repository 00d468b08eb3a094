package layout_test

import (
	"context"
	"fmt"

	"boardwrap.example/folio"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
)

// Eight folios, of which only the wraps are cut here, from sheets at 1.20 each.
func ExampleLay() {
	plan, err := folio.Build(folio.Spec{
		Cover:    units.MustParseSize("4 3/8 x 6 3/8 in"),
		Spine:    rule.Spine{Width: units.Inch},
		Covering: stock.Stock{Name: "marbled paper", Sheets: []stock.Sheet{{Size: units.MustParseSize("12 x 18 in"), Grain: stock.GrainAlongHeight}}},
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
	for s := range laid.Steps() {
		fmt.Printf("%d. %s\n", s.Number(), s.Text(units.Format{}))
	}
	// Output:
	// marbled paper: 4 sheets, proved fewest: true
	// 1. Take 4 sheets of marbled paper, 12 x 18 in.
	// 2. From the head edge set 8 3/8 in, cut 2 times each: 8 x wrap; 4 x offcut 12 x 1 1/4 in to keep.
}

// What is left of a sheet is the next job's offcut.
func ExampleLayout_Left() {
	job := layout.Job{
		Ruler:  units.Sixteenths,
		Pieces: []layout.LoosePiece{{Name: "mat", Material: "card", Size: units.MustParseSize("5 x 7 in"), Quantity: 2}},
		Materials: []layout.Material{{Name: "card", Sheets: []layout.SheetKind{
			{Size: units.MustParseSize("12 x 18 in"), Grain: stock.GrainAlongHeight, Count: 3},
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
	// 2 12 x 18 in along the height false
	// 1 12 x 11 in along the height true
	// 1 2 x 7 in along the height true
}

func ExampleSavings() {
	plan, err := folio.Build(folio.Spec{
		Cover:    units.MustParseSize("4 3/8 x 6 3/8 in"),
		Spine:    rule.Spine{Width: units.Inch},
		Covering: stock.Stock{Name: "marbled paper", Sheets: []stock.Sheet{{Size: units.MustParseSize("12 x 16 in"), Grain: stock.GrainAlongHeight}}},
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
		for change, working := range s.Adjustments() {
			fmt.Println(change, "saves", s.Sheets(), "sheets:", working)
		}
	}
	// Output:
	// a smaller margin saves 5 sheets: ideal margin 13/16 in = as it is 1 in - 3/16 in
}
