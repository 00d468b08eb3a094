package folio_test

import (
	"fmt"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
)

// clubFolio is a folio for a walking club's summer: a medal on each cover.
func clubFolio(spine units.Length) folio.Spec {
	medal := folio.Ornament{Size: units.Size{W: 40 * units.Millimetre, H: 40 * units.Millimetre}, Thickness: 5 * units.Millimetre}
	return folio.Spec{
		Cover:  units.Size{W: 120 * units.Millimetre, H: 160 * units.Millimetre},
		Spine:  rule.Spine{Width: spine},
		Board:  stock.Stock{Name: "greyboard", Caliper: 2 * units.Millimetre},
		Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Lining: rule.Lining{Inset: 3 * units.Millimetre},
		Fittings: []folio.Fitting{
			{Name: "spring medal", Panel: boards.LeftCover, Kind: medal},
			{Name: "autumn medal", Panel: boards.RightCover, Kind: medal},
		},
	}
}

// Will it close, and if not, what would do?
func ExamplePlan_Tightest() {
	if _, err := folio.Build(clubFolio(10 * units.Millimetre)); err != nil {
		fmt.Println(err)
	}
	plan, err := folio.Build(clubFolio(16 * units.Millimetre))
	if err != nil {
		fmt.Println(err)
		return
	}
	tight, _ := plan.Tightest(true)
	fmt.Println(tight)
	fmt.Println(tight.Stack())
	fmt.Println(tight.WouldDo())
	// Output:
	// spine.width: not-closing: got spring medal 5.1 mm and autumn medal 5.1 mm, together 10.2 mm, in a room of 5.68 mm between the covers: 4.52 mm too thick, at 40 mm to 80 mm from the left and 60 mm to 100 mm from the head of the right cover; want a spine of at least 16 mm
	// spring medal 5.1 mm and autumn medal 5.1 mm, together 10.2 mm, in a room of 11.68 mm between the covers: 1.48 mm left
	// stack 10.2 mm = spring medal 5.1 mm + autumn medal 5.1 mm
	// spine that would do 16 mm = spine 16 mm + stack 10.2 mm + ease 1 mm - room 11.68 mm = 15.52 mm, up on 1 mm
}

// A hand-made hinge lies between two creases, so a spine gives a range.
func ExamplePlan_ClosedRange() {
	plan, err := folio.Build(clubFolio(16 * units.Millimetre))
	if err != nil {
		fmt.Println(err)
		return
	}
	least, most, _ := plan.ClosedRange()
	fmt.Println(least.Room())
	fmt.Println(most.Room())
	// Output:
	// room between the covers 11.68 mm = spine 16 mm + 2 x crease 0 mm - 2 x board caliper 2 mm - 2 x liner caliper 0.16 mm
	// room between the covers 15.04 mm = spine 16 mm + 2 x crease 1.68 mm - 2 x board caliper 2 mm - 2 x liner caliper 0.16 mm
}
