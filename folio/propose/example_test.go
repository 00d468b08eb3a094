package propose_test

import (
	"context"
	"fmt"

	"boardwrap.example/folio/propose"
	"boardwrap.example/units"
)

// The smallest folio for two prints of the boat and a member's card.
func ExampleFolios() {
	things, err := propose.ParseThings("2 photo 4 x 6 in in view, 1 ID-1 card")
	if err != nil {
		fmt.Println(err)
		return
	}
	answer, err := propose.Folios(context.Background(), propose.Request{Things: things}, propose.Budget{})
	if err != nil {
		fmt.Println(err)
		return
	}
	p, _ := answer.Of(propose.Smallest)
	f := units.Format{Ruler: units.Sixteenths}
	fmt.Println("cover", f.Size(p.Cover())+", no smaller one:", p.Complete())
	for held := range p.Held() {
		fmt.Println(held.Copies, things[held.Thing].Content.Name, "in", held.Way, "on the", held.Panel)
	}
	for out := range p.RuledOut() {
		if out.Thing == 1 && out.Way == propose.Frame {
			fmt.Println(out.Why.Text(answer.Notation()))
		}
	}
	// Output:
	// cover 4 7/8 x 9 7/16 in, no smaller one: true
	// 1 photo 4 x 6 in in corner pockets on the left cover
	// 1 photo 4 x 6 in in corner pockets on the right cover
	// 1 ID-1 card in corner pockets on the right cover
	// With a frame for the ID-1 card the cover would be 4 7/8 x 10 in instead of 4 7/8 x 9 7/16 in.
}

// A list as one says it.
func ExampleParseThings() {
	things, err := propose.ParseThings("6 photo 10 x 15 cm, 1 menu A5 tucked away")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, t := range things {
		fmt.Println(t.Count, t.Content.Name+":", t.Content.Size, t.Sight)
	}
	// Output:
	// 6 photo 10 x 15 cm: 101 x 152 mm either
	// 1 menu A5: 148 x 210 mm tucked away
}
