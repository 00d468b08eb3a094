package score_test

import (
	"context"
	"fmt"

	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A letter about the spring walk, folded to go into its envelope.
func Example() {
	letter, err := score.CFold(11*units.Inch, score.TuckIn{Ruler: units.ThirtySeconds})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, w := range letter.Workings() {
		fmt.Println(w)
	}
	folded, err := letter.Strip().Fold()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("lies", units.ThirtySeconds.Text(folded.Width()), "wide,", folded.MostLayers(), "layers")
	// Output:
	// panel 1 3 11/16 in = (length 11 in + tuck 1/16 in) / 3
	// panel 2 3 11/16 in = panel 1 3 11/16 in
	// panel 3 3 5/8 in = length 11 in - 2 x panel 1 3 11/16 in
	// lies 3 11/16 in wide, 3 layers
}

func ExampleStrip_FoldBy() {
	mm := units.Millimetre
	s, err := score.NewStrip([]units.Length{60 * mm, 60 * mm, 150 * mm}, score.Valley, score.Valley)
	if err != nil {
		fmt.Println(err)
		return
	}
	_, err = s.FoldBy(context.Background(), score.Turn{Score: 1}, score.Turn{Score: 0})
	fmt.Println(err)
	folded, err := s.FoldBy(context.Background(), score.Turn{Score: 0}, score.Turn{Score: 1})
	if err != nil {
		fmt.Println(err)
		return
	}
	for m := range folded.Made() {
		fmt.Println(m.Turn)
	}
	fmt.Println("from the bottom:", folded.Order())
	// Output:
	// turn 2, fold what lies beyond score 1 towards you: panel 1 lies in the way
	// fold what lies beyond score 1 towards you
	// fold what lies beyond score 2 away from you
	// from the bottom: [2 0 1]
}

func ExampleStrip_Turns() {
	mm := units.Millimetre
	s, err := score.NewStrip([]units.Length{40 * mm, 50 * mm, 30 * mm, 50 * mm}, score.Valley, score.Mountain, score.Valley)
	if err != nil {
		fmt.Println(err)
		return
	}
	turns, err := s.Turns()
	if err != nil {
		fmt.Println(err)
		return
	}
	folded, _ := s.FoldBy(context.Background(), turns...)
	for m := range folded.Made() {
		fmt.Println(m.Turn)
	}
	_, err = mustWith(s, score.Valley, score.Valley, score.Valley).Turns()
	fmt.Println(err)
	// Output:
	// fold what lies beyond score 1 towards you
	// fold what lies beyond score 2 towards you
	// fold what lies beyond score 3 towards you
	// the strip cannot be folded flat: scores 2 and 3 block each other
}

func mustWith(s score.Strip, folds ...score.Fold) score.Strip {
	w, err := s.With(folds...)
	if err != nil {
		panic(err)
	}
	return w
}

func ExampleStrip_Foldings() {
	s, err := score.Divide(9*units.Inch, 3, units.Eighths, score.Valley, score.Valley)
	if err != nil {
		fmt.Println(err)
		return
	}
	all, err := s.Foldings(context.Background(), 100)
	for _, f := range all {
		fmt.Println(f.Order())
	}
	fmt.Println(err)
	// Output:
	// [0 2 1]
	// [2 0 1]
	// <nil>
}

func ExampleGrooves_Snap() {
	in := units.Inch
	s, err := score.ScoredStrip(10*in, []units.Length{3*in + 3*in/32, 6*in + 3*in/8}, score.Valley, score.Valley)
	if err != nil {
		fmt.Println(err)
		return
	}
	got, err := score.Grooves{Pitch: in / 8}.Snap(s)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, n := range got.Snaps() {
		fmt.Println("score", i+1, "at", units.Eighths.Text(n.To), "from the", n.End, "moved by", units.ThirtySeconds.Text(n.Residue()))
	}
	// Output:
	// score 1 at 3 1/8 in from the left end moved by 1/32 in
	// score 2 at 6 3/8 in from the left end moved by 0 in
}

func ExampleFolding_Bays() {
	// A strip with a flap, a base, a pocket's front and a hem that is turned
	// in on the front's edge; the route card goes in on the face of the base.
	in := units.Inch
	s, err := score.ScoredStrip(10*in, []units.Length{3*in + in/8, 6*in + 3*in/8, 8*in + in/2}, score.Valley, score.Valley, score.Valley)
	if err != nil {
		fmt.Println(err)
		return
	}
	folded, err := s.FoldBy(context.Background(), score.Turn{Score: 2}, score.Turn{Score: 1}, score.Turn{Score: 0})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range folded.BaysOn(1, score.Face) {
		across := r.Under + r.Over - 1 // the one of the two that is not the base
		fmt.Println("base to", []string{"flap", "base", "front", "hem"}[across], "for", units.Eighths.Text(r.To-r.From))
	}
	// Output:
	// base to front for 5/8 in
	// base to hem for 1 1/2 in
	// base to flap for 1 1/8 in
}
