package folio_test

import (
	"errors"
	"fmt"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// From a cover and a spine to every piece.
func Example() {
	plan, err := folio.Build(folio.Spec{
		Cover: units.MustParseSize("6 x 8 in"),
		Spine: rule.Spine{Width: units.Inch},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	f := units.Format{Ruler: units.Sixteenths}
	for p := range plan.Pieces() {
		fmt.Println(p.Quantity(), p.Name(), f.Size(p.Size()))
	}
	// Output:
	// 2 cover board 6 x 8 in
	// 1 spine board 1 x 8 in
	// 1 wrap 15 1/4 x 10 in
	// 1 liner 13 x 7 3/4 in
}

// One design for every cover: a frame as large as its panel with rails of 1/2 in,
// and on the left a strip that fills the panel with a mat on its flap.
func ExampleFilling() {
	design := folio.Spec{
		Spine: rule.Spine{Width: units.Inch},
		Fittings: []folio.Fitting{
			{Name: "frame", Size: place.Filling(place.OfPanel, 0), Kind: folio.Frame{Picture: pocket.Content{Name: "boat"}}},
			{Name: "strip", Panel: boards.LeftCover, Size: place.Filling(place.OfPanel, 0),
				Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pocket.IDCard().Turned()}}},
			{Name: "mat", StandsOn: "strip", Size: place.Filling(place.OfGround, units.Inch/8), Kind: folio.Mat{}},
		},
	}
	for _, cover := range []string{"5 x 7 in", "6 x 8 in"} {
		design.Cover = units.MustParseSize(cover)
		plan, err := folio.Build(design)
		if err != nil {
			fmt.Println(err)
			return
		}
		for w := range plan.Workings() {
			if w.Label() == "picture width" || w.Label() == "width for the mat" {
				fmt.Println(w)
			}
		}
	}
	// Output:
	// picture width 4 in = opening 3 3/4 in + 2 x lap 1/8 in
	// width for the mat 4 3/8 in = flap of the strip 4 5/8 in - 2 x margin 1/8 in
	// picture width 5 in = opening 4 3/4 in + 2 x lap 1/8 in
	// width for the mat 5 3/8 in = flap of the strip 5 5/8 in - 2 x margin 1/8 in
}

// The cover came out 1/8 in wider than planned: the liner follows.
func ExamplePlan_Refit() {
	plan, err := folio.Build(folio.Spec{
		Cover: units.MustParseSize("6 x 8 in"),
		Spine: rule.Spine{Width: units.Inch},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	made, err := plan.Refit(refit.Measured{
		Width:  units.MustParse("13 3/8 in"),
		Height: units.MustParse("8 in"),
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for l := range made.Liner() {
		fmt.Println(l.Width())
		fmt.Println(l.Height())
	}
	// Output:
	// liner width 13 1/8 in = open width 13 3/8 in - 2 x inset 1/8 in
	// liner height 7 3/4 in = open height 8 in - 2 x inset 1/8 in
}

// A cover built around a block of leaves by published rules.
func ExampleBlock() {
	plan, err := folio.Build(folio.Spec{
		Block:  boards.Block{Page: units.MustParseSize("148 x 210 mm"), Thickness: 12 * units.Millimetre, Square: 3 * units.Millimetre, Setback: 5 * units.Millimetre},
		Spine:  rule.Spine{Rule: rule.SpineBlockAndBoards},
		Board:  stock.Stock{Name: "greyboard", Caliper: 2 * units.Millimetre},
		Hinge:  rule.Hinge{Rule: rule.HingeShoulder},
		Rulers: rule.Rulers{Main: units.WholeMillimetres},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for b := range plan.Boards() {
		fmt.Println(b.Role(), b.Width())
	}
	for g := range plan.Gaps() {
		fmt.Println(g.Planned())
	}
	// Output:
	// left cover cover width 146 mm = page 148 mm + square 3 mm - setback 5 mm
	// spine spine width 16 mm = block 12 mm + 2 x board caliper 2 mm
	// right cover cover width 146 mm = page 148 mm + square 3 mm - setback 5 mm
	// hinge gap 8 mm = shoulder 5 mm + board caliper 2 mm + movement 1 mm
	// hinge gap 8 mm = shoulder 5 mm + board caliper 2 mm + movement 1 mm
}

// A mat with a photograph, and what is wrong when it is too large.
func ExampleMat() {
	photo := pocket.Content{Name: "photograph", Size: units.MustParseSize("8 x 10 in")}
	_, err := folio.Build(folio.Spec{
		Cover:    units.MustParseSize("6 x 8 in"),
		Spine:    rule.Spine{Width: units.Inch},
		Fittings: []folio.Fitting{{Name: "crew", Kind: folio.Mat{Picture: photo}}},
	})
	var bad *check.Error
	if errors.As(err, &bad) {
		for v := range bad.All() {
			fmt.Println(v)
		}
	}
	// Output:
	// fittings[0].kind.picture.size.w ("crew"): too-wide: got 8 in; want at most 5 1/2 in wide on the panel
	// fittings[0].kind.picture.size.h ("crew"): too-tall: got 10 in; want at most 7 1/2 in high on the panel
}
