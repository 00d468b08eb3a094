package guide_test

import (
	"fmt"

	"boardwrap.example/folio"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

// A picture goes into a file of its own, or into a page at the size at which its
// words can be read.
func ExamplePicture() {
	p, err := folio.Build(folio.Spec{
		Cover: units.MustParseSize("150 x 210 mm"), Spine: rule.Spine{Width: units.MustParse("18 mm")},
		Rulers: rule.Rulers{Main: units.WholeMillimetres},
	})
	if err != nil {
		panic(err)
	}
	pic, ok := guide.Wrap(p, guide.Options{Fit: units.MustParseSize("170 x 120 mm")})
	fmt.Println(ok, pic.Title())
	fmt.Println(pic.Description())
	page := pic.AppendEmbedded([]byte("<figure>"), "wrap")
	fmt.Println(string(page[:47]))
	fmt.Println(pic.Printed().FitsIn(units.MustParseSize("170 x 120 mm")))
	// Output:
	// true Boards on the wrap
	// The covering laid flat, wrong side up, 374 x 260 mm, with the boards on it.
	// <figure><svg xmlns="http://www.w3.org/2000/svg"
	// true
}

// Every step of the order of work has a picture of its own, described by its
// sentence.
func ExampleStep() {
	p, err := folio.Build(folio.Spec{Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.MustParse("5/8 in")}})
	if err != nil {
		panic(err)
	}
	for s := range p.Steps() {
		if pic, ok := guide.Step(p, s.Number, guide.Options{}); ok && s.Number == 5 {
			fmt.Println(pic.Title() + ": " + pic.Description())
		}
	}
	// Output:
	// Step 5: Glue on the wrap, each on its lines: the left cover 1 in from the left edge, the spine 7 1/8 in from the left edge and the right cover 7 7/8 in from the left edge; 1 in from the head edge.
}
