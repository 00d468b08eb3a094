package pocket_test

import (
	"fmt"

	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// A walking club keeps its membership cards in slip pockets.
func Example() {
	design, err := pocket.Slip{Content: pocket.IDCard()}.Design(pocket.Paper{}, units.Sixteenths)
	if err != nil {
		fmt.Println(err)
		return
	}
	f := units.Format{Ruler: units.Sixteenths}
	for _, piece := range design.Pieces() {
		fmt.Println(piece.Name(), f.Size(piece.Blank().Size()))
	}
	for working := range design.Workings() {
		fmt.Println(working)
	}
	fmt.Println("closed", f.Size(design.Closed()))
	// Output:
	// pocket front 4 x 1 5/8 in
	// clear width 3 1/2 in = content ~3.3701 in + ease 1/8 in = ~3.4951 in, up on 1/16 in
	// height inside 2 3/16 in = content ~2.1252 in, up on 1/16 in
	// depth 1 3/8 in = 2 x content ~2.1252 in / 3 = ~1.4168 in, down on 1/16 in
	// front width 4 in = clear width 3 1/2 in + 2 x glued edge 1/4 in
	// front height 1 5/8 in = depth 1 3/8 in + glued foot 1/4 in
	// closed 4 x 2 7/16 in
}

// A strip for a rowing crew's route cards of 3 x 5 in: a base of 3 1/4 in, a flap 1/8 in
// narrower, a front of two thirds of the base, a hem of 1 1/2 in. There is a slip in
// passing on its sizes: the second score at 3 6/8 in instead of 6 3/8.
func ExampleFoldedStrip() {
	strip := pocket.FoldedStrip{Strip: units.MustParseSize("10 x 5 5/8 in")}
	for i, at := range []string{"3 1/8 in", "3 6/8 in", "8 1/2 in"} {
		strip.Scores[i] = units.MustParse(at)
	}
	_, err := strip.Design(pocket.Paper{}, units.Eighths)
	fmt.Println(err)

	strip.Scores[1] = units.MustParse("6 3/8 in")
	design, err := strip.Design(pocket.Paper{}, units.Eighths)
	if err != nil {
		fmt.Println(err)
		return
	}
	for step := range design.Steps() {
		fmt.Println(step.Text(units.Format{}))
	}
	// Output:
	// scores[1]: does-not-fold: got 3 3/4 in, which makes the pocket front 4 3/4 in wide, the base 5/8 in wide, the flap 3 1/8 in wide; want a score from 6 1/4 in to 7 in; the pocket front lies over the base and must not reach beyond the flap's fold; the flap closes over the base
	// Find the grain of paper and mark it: in every piece it runs along the height, parallel to the spine.
	// From paper cut the strip 10 x 5 5/8 in, grain along the height.
	// Turn the strip over, left to right. Score the back of the strip: 8 1/2 in, 6 3/8 in and 3 1/8 in from the edge at the right for valley folds, as seen from the face. Turn the strip back over, left to right.
	// Fold the strip at the score 8 1/2 in from the left edge: the part with its right edge up towards you, flat over the rest.
	// Stick the face of the strip to the pocket front, with glue on 1 1/2 in along the whole right edge, measured on the flat piece.
	// Let the hem dry.
	// Fold the strip at the score 6 3/8 in from the left edge: the part with its right edge up towards you, flat over the rest.
	// Stick the face of the strip to the base, with glue on 5/8 x 1/4 in at the head edge, 6 3/8 in from the left; and 5/8 x 1/4 in at the tail edge, 6 3/8 in from the left, measured on the flat piece.
	// Stick the back of the strip to the base, with glue on 1 1/2 x 1/4 in at the head right corner; and 1 1/2 x 1/4 in at the tail right corner, measured on the flat piece.
	// Let the pocket front dry.
	// Crease the strip and lay it open again, folding it at the score 3 1/8 in from the left edge: the part with its left edge up towards you, flat over the rest.
	// Mark lightly on the support the place of the base of the strip, 3 1/4 x 5 5/8 in: on the left and head edges of the place.
	// Lay the base of the strip dry on the support, to see that it goes: on the left and head edges of the place.
	// Glue the base of the strip on the support: on the left and head edges of the place.
	// Let the strip dry.
	// Fold the strip at the score 3 1/8 in from the left edge: the part with its left edge up towards you, flat over the rest.
}

// A rowing crew's race cards, eight pockets from sheets of 700 mm.
func ExampleFoldedAccordion() {
	card := pocket.Content{Name: "race card", Size: units.MustParseSize("125 x 90 mm"), Thickness: 300 * units.Micrometre}
	design, err := pocket.FoldedAccordion{Content: card, Panels: 8}.Design(
		pocket.Paper{Sheet: units.MustParseSize("700 x 500 mm")}, units.WholeMillimetres)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, piece := range design.Pieces() {
		fmt.Println(piece.Quantity(), "x", piece.Name(), piece.Blank().Size())
	}
	for joint := range design.Splices() {
		fmt.Println("joined at fold", joint.Fold(), "by a tab of", joint.Tab())
	}
	fmt.Println(design.Thickness(false), "empty,", design.Thickness(true), "full")
	// Output:
	// 1 x accordion strip A 680 x 150 mm
	// 1 x accordion strip B 412 x 150 mm
	// joined at fold 5 by a tab of 10 mm
	// 3.92938 mm empty, 6.32938 mm full
}

func ExampleDesign_Accepts() {
	design, _ := pocket.Slip{Content: pocket.IDCard()}.Design(pocket.Paper{}, units.Sixteenths)
	note, _ := pocket.UsualContent("note A7")
	fmt.Println(design.Accepts(note.Content))
	fmt.Println(design.Accepts(pocket.IDCard()))
	// Output:
	// size.h: too-large: got ~4.1339 in; want at most 2 3/16 in (1.9464 in too much); a clear height of 4 3/16 in would do
	// <nil>
}
