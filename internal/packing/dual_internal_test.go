package packing

import "testing"

// Superadditive and never falling: the two properties that the proof of the
// bound rests on, tried on every pair of lengths.
func TestDualFunctionsAreSuperadditive(t *testing.T) {
	for c := int64(1); c <= 40; c++ {
		var lengths []int64
		for x := int64(1); x <= c; x++ {
			lengths = append(lengths, x)
		}
		for _, f := range dualFuncs(c, lengths, 10_000) {
			if f.at(0) != 0 || f.at(c) <= 0 {
				t.Fatalf("%+v: f(0) = %d, f(c) = %d", f, f.at(0), f.at(c))
			}
			for x := int64(0); x <= c; x++ {
				for y := int64(0); x+y <= c; y++ {
					if f.at(x)+f.at(y) > f.at(x+y) {
						t.Fatalf("%+v: f(%d) + f(%d) > f(%d)", f, x, y, x+y)
					}
				}
			}
		}
	}
}
