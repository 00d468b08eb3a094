package units_test

import (
	"errors"
	"math"
	"math/big"
	"testing"

	"boardwrap.example/units"
)

// interesting are lengths at which arithmetic likes to go wrong: the ends of
// int64, powers of two, signs, halves, and everyday sizes.
var interesting = []int64{
	math.MinInt64, math.MinInt64 + 1, -1 << 62, -10_000_000_000, -158_750_000, -25_400_001, -25_400_000, -12_700_000,
	-793_751, -793_750, -500_001, -500_000, -499_999, -3, -2, -1, 0, 1, 2, 3, 7, 396_875, 499_999, 500_000, 500_001,
	793_749, 793_750, 793_751, 1_000_000, 12_700_000, 25_399_999, 25_400_000, 114_300_000, 10_000_000_000,
	1 << 31, 1 << 32, 1<<53 + 1, 1 << 62, math.MaxInt64 - 1, math.MaxInt64,
}

var directions = []units.Direction{units.Nearest, units.Up, units.Down, units.Direction(77)}

// roundRat is the rule in rational numbers: Up to the least integer that is
// not smaller, Down to the greatest that is not larger, else to the nearest,
// halves away from zero.
func roundRat(r *big.Rat, d units.Direction) *big.Int {
	floor := new(big.Int).Div(r.Num(), r.Denom()) // Euclidean; the denominator is positive
	if r.IsInt() {
		return floor
	}
	ceil := new(big.Int).Add(floor, big.NewInt(1))
	switch d {
	case units.Up:
		return ceil
	case units.Down:
		return floor
	}
	rest := new(big.Rat).Sub(r, new(big.Rat).SetInt(floor))
	switch c := rest.Cmp(big.NewRat(1, 2)); {
	case c > 0, c == 0 && r.Sign() > 0:
		return ceil
	}
	return floor
}

func TestScaleIsExact(t *testing.T) {
	for _, l := range interesting {
		for _, num := range interesting {
			for _, den := range interesting {
				for _, d := range directions {
					got, exact := units.Length(l).Scale(num, den, d)
					if den == 0 {
						if got != 0 || exact {
							t.Fatalf("%d.Scale(%d, 0) = %d, %t; want 0, false", l, num, got, exact)
						}
						continue
					}
					r := new(big.Rat).SetFrac(new(big.Int).Mul(big.NewInt(l), big.NewInt(num)), big.NewInt(den))
					want := roundRat(r, d)
					if !want.IsInt64() {
						if got != 0 || exact {
							t.Fatalf("%d.Scale(%d, %d, %v) = %d, %t; want 0, false: out of range", l, num, den, d, got, exact)
						}
						continue
					}
					if int64(got) != want.Int64() || exact != r.IsInt() {
						t.Fatalf("%d.Scale(%d, %d, %v) = %d, %t; want %v, %t", l, num, den, d, got, exact, want, r.IsInt())
					}
				}
			}
		}
	}
}

func TestPlusAndTimesSayWhenTheyDoNotFit(t *testing.T) {
	for _, a := range interesting {
		for _, b := range interesting {
			sum := new(big.Int).Add(big.NewInt(a), big.NewInt(b))
			got, ok := units.Length(a).Plus(units.Length(b))
			if ok != sum.IsInt64() || ok && int64(got) != sum.Int64() || !ok && got != 0 {
				t.Errorf("%d.Plus(%d) = %d, %t; want %v", a, b, got, ok, sum)
			}
			product := new(big.Int).Mul(big.NewInt(a), big.NewInt(b))
			got, ok = units.Length(a).Times(b)
			if ok != product.IsInt64() || ok && int64(got) != product.Int64() || !ok && got != 0 {
				t.Errorf("%d.Times(%d) = %d, %t; want %v", a, b, got, ok, product)
			}
		}
	}
}

// checkOf compares Of with rational arithmetic; n is known exactly as r.
func checkOf[N units.Number](t *testing.T, n N, r *big.Rat, unit units.Length) {
	t.Helper()
	got, err := units.Of(n, unit)
	want := roundRat(new(big.Rat).Mul(r, new(big.Rat).SetInt64(int64(unit))), units.Nearest)
	switch {
	case !want.IsInt64():
		if !errors.Is(err, units.ErrRange) || got != 0 {
			t.Errorf("Of(%T %v, %d) = %d, %v; want ErrRange", n, n, unit, got, err)
		}
	case err != nil || int64(got) != want.Int64():
		t.Errorf("Of(%T %v, %d) = %d, %v; want %v", n, n, unit, got, err, want)
	}
}

type myInches int16

type myShare float64

func TestOfEveryNumberType(t *testing.T) {
	someUnits := []units.Length{units.Nanometre, units.Micrometre, units.Thou, units.Millimetre, units.Centimetre, units.Inch,
		units.Foot, units.Metre, units.Inch / 64, -units.Inch, 0, 1 << 62, math.MaxInt64, math.MinInt64}
	for _, unit := range someUnits {
		for _, i := range interesting {
			r := new(big.Rat).SetInt64(i)
			checkOf(t, i, r, unit)
			checkOf(t, int32(i), new(big.Rat).SetInt64(int64(int32(i))), unit)
			checkOf(t, int16(i), new(big.Rat).SetInt64(int64(int16(i))), unit)
			checkOf(t, int8(i), new(big.Rat).SetInt64(int64(int8(i))), unit)
			checkOf(t, int(i), new(big.Rat).SetInt64(int64(int(i))), unit)
			checkOf(t, myInches(i), new(big.Rat).SetInt64(int64(myInches(i))), unit)
			checkOf(t, uint8(i), new(big.Rat).SetInt64(int64(uint8(i))), unit)
			checkOf(t, uint16(i), new(big.Rat).SetInt64(int64(uint16(i))), unit)
			checkOf(t, uint32(i), new(big.Rat).SetInt64(int64(uint32(i))), unit)
			checkOf(t, uint64(i), new(big.Rat).SetUint64(uint64(i)), unit)
			checkOf(t, uint(i), new(big.Rat).SetUint64(uint64(uint(i))), unit)
			checkOf(t, uintptr(i), new(big.Rat).SetUint64(uint64(uintptr(i))), unit)
		}
		floats := []float64{0, math.Copysign(0, -1), 0.5, -0.5, 0.1, -0.1, 1.0 / 3, 4.5, 3.3701, 0x1p-1074, -0x1p-1022, 0x1p-30, 0x1p-60, 0x1p-63,
			0x1p-64, 0x1.8p-64, 0x1p-117, 0x1p-118, 1e-9, 5e-10, 0x1.fffffffffffffp-2, 0.49999999999999994 * 1e-6, 2.5e-6, -2.5e-6, 1.5e-6,
			1e6, 1e9, 9.2e18, 0x1p63, -0x1p63, -0x1.0000000000001p63, 0x1.fffffffffffffp62, 0x1p64, 1e19, 1e300, -1e300, math.MaxFloat64,
			123456.7890123, 9007199254740993, 363.1200787}
		for _, f := range floats {
			checkOf(t, f, new(big.Rat).SetFloat64(f), unit)
			checkOf(t, myShare(f), new(big.Rat).SetFloat64(f), unit)
			if f32 := float32(f); !math.IsInf(float64(f32), 0) {
				checkOf(t, f32, new(big.Rat).SetFloat64(float64(f32)), unit)
			}
		}
	}
}

func TestOfRefusesWhatIsNoNumber(t *testing.T) {
	inf := math.Inf(1)
	for _, unit := range []units.Length{0, 1, units.Inch, -units.Inch, math.MaxInt64} {
		for _, c := range []struct {
			f    float64
			want error
		}{{math.NaN(), units.ErrNotANumber}, {inf, units.ErrRange}, {-inf, units.ErrRange}} {
			if l, err := units.Of(c.f, unit); l != 0 || !errors.Is(err, c.want) {
				t.Errorf("Of(%v, %d) = %d, %v; want %v", c.f, unit, l, err, c.want)
			}
			if l, err := units.Of(float32(c.f), unit); l != 0 || !errors.Is(err, c.want) {
				t.Errorf("Of(float32 %v, %d) = %d, %v; want %v", c.f, unit, l, err, c.want)
			}
		}
	}
	if _, err := units.Inches(math.NaN()); !errors.Is(err, units.ErrNotANumber) {
		t.Errorf("Inches(NaN): %v", err)
	}
	if _, err := units.Millimetres(1e300); !errors.Is(err, units.ErrRange) {
		t.Errorf("Millimetres(1e300): %v", err)
	}
}

func TestInchesIsExactForSixtyFourths(t *testing.T) {
	for n := range 64 * 24 {
		got, err := units.Inches(float64(n) / 64)
		if want := units.Length(n) * (units.Inch / 64); err != nil || got != want {
			t.Fatalf("Inches(%d/64) = %d, %v; want %d", n, got, err, want)
		}
	}
}

func TestFractionIsExact(t *testing.T) {
	for _, unit := range []units.Length{units.Nanometre, units.Millimetre, units.Inch, units.Foot, -units.Inch, math.MinInt64} {
		for _, num := range interesting {
			for _, den := range interesting {
				checkFraction(t, num, den, new(big.Int).SetInt64(num), new(big.Int).SetInt64(den), unit)
				checkFraction(t, uint64(num), uint64(den), new(big.Int).SetUint64(uint64(num)), new(big.Int).SetUint64(uint64(den)), unit)
				checkFraction(t, int8(num), int8(den), big.NewInt(int64(int8(num))), big.NewInt(int64(int8(den))), unit)
			}
		}
	}
}

func checkFraction[N int8 | int64 | uint64](t *testing.T, num, den N, n, d *big.Int, unit units.Length) {
	t.Helper()
	got, err := units.Fraction(num, den, unit)
	if den == 0 {
		if got != 0 || !errors.Is(err, units.ErrNotANumber) {
			t.Errorf("Fraction(%d, 0) = %d, %v", num, got, err)
		}
		return
	}
	r := new(big.Rat).SetFrac(n, d)
	r.Mul(r, new(big.Rat).SetInt64(int64(unit)))
	fits := roundRat(r, units.Down).IsInt64()
	var want error
	switch {
	case !fits:
		want = units.ErrRange
	case !r.IsInt():
		want = units.ErrInexact
	}
	if !errors.Is(err, want) || err != nil && got != 0 {
		t.Errorf("Fraction(%d, %d, %d) = %d, %v; want %v", num, den, unit, got, err, want)
	}
	if err == nil && int64(got) != r.Num().Int64() {
		t.Errorf("Fraction(%d, %d, %d) = %d; want %v", num, den, unit, got, r)
	}
}

func TestDiagonalIsTheRoundedRoot(t *testing.T) {
	for _, a := range interesting {
		for _, b := range interesting {
			sum := new(big.Int).Mul(big.NewInt(a), big.NewInt(a))
			sum.Add(sum, new(big.Int).Mul(big.NewInt(b), big.NewInt(b)))
			floor := new(big.Int).Sqrt(sum)
			ceil := new(big.Int).Set(floor)
			if new(big.Int).Mul(floor, floor).Cmp(sum) != 0 {
				ceil.Add(ceil, big.NewInt(1))
			}
			// The nearest of the two: compare sum with (floor + 1/2)², which
			// no whole number can equal.
			nearest := ceil
			quarter := new(big.Int).Mul(floor, new(big.Int).Add(floor, big.NewInt(1)))
			if sum.Cmp(quarter) <= 0 {
				nearest = floor
			}
			for d, want := range map[units.Direction]*big.Int{units.Up: ceil, units.Down: floor, units.Nearest: nearest} {
				w := int64(math.MaxInt64)
				if want.IsInt64() {
					w = want.Int64()
				}
				if got := units.Diagonal(units.Length(a), units.Length(b), d); int64(got) != w {
					t.Errorf("Diagonal(%d, %d, %v) = %d; want %d", a, b, d, got, w)
				}
			}
		}
	}
	// Pythagoras.
	if d := units.Diagonal(3*units.Inch, 4*units.Inch, units.Up); d != 5*units.Inch {
		t.Errorf("3, 4, %v", d)
	}
}

func TestAbsHalfClamp(t *testing.T) {
	for _, l := range interesting {
		want := new(big.Int).Abs(big.NewInt(l))
		if !want.IsInt64() {
			want.SetInt64(math.MaxInt64)
		}
		if got := units.Length(l).Abs(); int64(got) != want.Int64() {
			t.Errorf("%d.Abs() = %d", l, got)
		}
		for _, d := range directions {
			if got, want := units.Length(l).Half(d), roundRat(big.NewRat(l, 2), d); int64(got) != want.Int64() {
				t.Errorf("%d.Half(%v) = %d; want %v", l, d, got, want)
			}
		}
		got := units.Length(l).Clamp(units.Shortest, units.Longest)
		if got < units.Shortest || got > units.Longest || units.Length(l) != got && units.Shortest <= units.Length(l) && units.Length(l) <= units.Longest {
			t.Errorf("%d.Clamp = %d", l, got)
		}
	}
}

func TestFloatsLeaveAsTheNearest(t *testing.T) {
	for _, l := range interesting {
		for name, c := range map[string]struct {
			got  float64
			unit units.Length
		}{"in": {units.Length(l).Inches(), units.Inch}, "mm": {units.Length(l).Millimetres(), units.Millimetre}} {
			want, _ := big.NewRat(l, int64(c.unit)).Float64()
			// A length above 2⁵³ nm (9,000 km) is rounded twice.
			if slack := math.Abs(want) * 0x1p-52; math.Abs(c.got-want) > slack || l > -1<<53 && l < 1<<53 && c.got != want {
				t.Errorf("%d in %s = %v; want %v", l, name, c.got, want)
			}
		}
		if units.Length(l).Nanometres() != l {
			t.Errorf("%d nm", l)
		}
	}
}
