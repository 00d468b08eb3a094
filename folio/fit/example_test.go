package fit_test

import (
	"context"
	"fmt"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// The smallest folio for two photographs, with the proof.
func ExampleSmallest() {
	photo, _ := pocket.UsualContent("photo 4 x 6 in")
	least, err := fit.Smallest(context.Background(), folio.Spec{}, fit.Budget{}, photo.Content, photo.Content)
	if err != nil {
		fmt.Println(err)
		return
	}
	s := least.Plan().Spec()
	f := units.Format{Ruler: units.Sixteenths}
	fmt.Println("cover", f.Size(s.Cover)+", spine", f.Text(s.Spine.Width))
	narrower, _, _ := least.Proof()
	fmt.Println("narrower:", narrower)
	// Output:
	// cover 4 1/2 x 6 1/2 in, spine 1/4 in
	// narrower: contents: not-held: got 2 contents and room for 0 of them in a cover of 4 7/16 in x 6 1/2 in; want none of them, a fitting for each that finds no room, or a larger cover
}

// The folio for those two photographs in three sizes.
func ExampleFamilyOf() {
	covers := fit.ScaledCovers(units.MustParseSize("4 1/2 x 6 1/2 in"), units.Sixteenths, 100, 75, 100, 150)
	family, err := fit.FamilyOf(context.Background(), folio.Spec{Spine: rule.Spine{Width: units.Inch / 2}}, covers...)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, row := range family.Table() {
		fmt.Println(row[0], "|", row[2], "|", row[3])
	}
	// Output:
	// cover | open | wrap
	// 3 3/8 in x 4 7/8 in | 7 1/2 in x 4 7/8 in | 9 1/2 in x 6 7/8 in
	// 4 1/2 in x 6 1/2 in | 9 3/4 in x 6 1/2 in | 11 3/4 in x 8 1/2 in
	// 6 3/4 in x 9 3/4 in | 14 1/4 in x 9 3/4 in | 16 1/4 in x 11 3/4 in
}
