package trig_test

import (
	"math"
	"math/big"
	"testing"

	"boardwrap.example/internal/trig"
)

// A sine of a right angle is 1, one of 30 degrees a half, and the square of √2 is 2, to
// fifteen places.
func TestFraction(t *testing.T) {
	for _, c := range []struct {
		part float64
		want *big.Rat
	}{
		{math.Sin(math.Pi / 2), big.NewRat(1, 1)}, {math.Sin(math.Pi / 6), big.NewRat(1, 2)}, {math.Tan(math.Pi / 4), big.NewRat(1, 1)},
		{math.Tan(math.Pi), new(big.Rat)}, {-math.Cos(math.Pi), big.NewRat(1, 1)},
	} {
		num, den := trig.Fraction(c.part)
		if got := big.NewRat(num, den); got.Cmp(c.want) != 0 {
			t.Errorf("%v is %v, want %v", c.part, got, c.want)
		}
	}
	num, den := trig.Fraction(math.Sqrt2)
	root := big.NewRat(num, den)
	square, _ := new(big.Rat).Mul(root, root).Float64()
	if math.Abs(square-2) > 4e-15 {
		t.Errorf("the square of the root of 2 is %v", square)
	}
}
