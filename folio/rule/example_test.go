package rule_test

import (
	"fmt"

	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

// The narrowest gap that lets 2 mm boards close to a right angle.
func ExampleLeastGap() {
	for _, c := range []rule.CreasePlace{rule.CreaseAtEdge, rule.CreaseTwo, rule.CreaseMidGap} {
		gap, _ := rule.LeastGap(2*units.Millimetre, 90, c, 0)
		fmt.Println(units.HalfMillimetres.Up(gap), "creased", c)
	}
	// Output:
	// 2 mm creased at the board's edge
	// 3 mm creased at both edges
	// 4 mm creased at mid-gap
}
