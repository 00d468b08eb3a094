package check_test

import (
	"errors"
	"fmt"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// All that is wrong comes at once, for a person and for a program.
func Example() {
	var list check.List
	list.Length("cover.w", 0)
	list.Long("fittings[2].picture", "too-wide", units.InchFraction, 5*units.Inch, 17*units.Inch/4, "on this panel")
	err := list.Err()
	fmt.Println(err)

	var all *check.Error
	if errors.As(err, &all) {
		for v := range all.All() {
			fmt.Println(v.Path, v.Code, v.Nature, v.By)
		}
	}

	// Output:
	// 2 things must be changed:
	//   cover.w: not-positive: got 0 mm; want a length from 0.01 mm to 10 m
	//   fittings[2].picture: too-wide: got 5 in; want at most 4 1/4 in on this panel
	// cover.w not-positive malformed 0.01 mm
	// fittings[2].picture too-wide impossible 19.05 mm
}

// A package that uses another puts its own path in front.
func ExampleList_Under() {
	var inner check.List
	inner.Length("w", -units.Inch)

	var outer check.List
	outer.Under(check.Index("strips", 1), inner.Err())
	fmt.Println(outer.Err())
	// Output: strips[1].w: not-positive: got -25.4 mm; want a length from 0.01 mm to 10 m
}

func ExampleViolation_Words() {
	var list check.List
	list.Long("fittings[2].picture", "too-wide", units.InchFraction, 5*units.Inch, 17*units.Inch/4, "on this panel")
	var all *check.Error
	if errors.As(list.Err(), &all) {
		for v := range all.All() {
			fmt.Println("left out:", v.Words())
		}
	}
	// Output: left out: too wide: got 5 in; want at most 4 1/4 in on this panel
}
