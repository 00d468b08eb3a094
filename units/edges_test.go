package units_test

import (
	"errors"
	"math"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
)

// The numeric values of the fractions that Unicode has one sign for, from the
// Unicode Character Database, UnicodeData.txt, field 8 (from memory).
var unicodeFractions = map[string]*big.Rat{
	"½": big.NewRat(1, 2), "⅓": big.NewRat(1, 3), "⅔": big.NewRat(2, 3), "¼": big.NewRat(1, 4), "¾": big.NewRat(3, 4),
	"⅕": big.NewRat(1, 5), "⅖": big.NewRat(2, 5), "⅗": big.NewRat(3, 5), "⅘": big.NewRat(4, 5), "⅙": big.NewRat(1, 6),
	"⅚": big.NewRat(5, 6), "⅐": big.NewRat(1, 7), "⅛": big.NewRat(1, 8), "⅜": big.NewRat(3, 8), "⅝": big.NewRat(5, 8),
	"⅞": big.NewRat(7, 8), "⅑": big.NewRat(1, 9), "⅒": big.NewRat(1, 10),
}

// Each sign is read as its value of a foot and of an inch, or refused where
// that is no whole number of nanometres; and what can be a graduation of inches
// is written with the sign.
func TestUnicodeFractions(t *testing.T) {
	written := 0
	for sign, value := range unicodeFractions {
		for text, unit := range map[string]units.Length{sign + " in": units.Inch, sign + " ft": units.Foot, "2" + sign + " in": units.Inch} {
			want := new(big.Rat).Mul(value, big.NewRat(int64(unit), 1))
			if text[0] == '2' {
				want.Add(want, big.NewRat(2*int64(unit), 1))
			}
			got, err := units.Parse(text)
			switch {
			case !want.IsInt():
				// The error says what would be nearest.
				nearest := "the nearest is " + new(big.Rat).Quo(want, big.NewRat(int64(units.Millimetre), 1)).FloatString(6) + " mm"
				if e := new(units.ParseError); !errors.As(err, &e) || !strings.HasSuffix(e.Problem, nearest) {
					t.Errorf("%s: %v, %v; want an error that says %s", text, got, err, nearest)
				}
			case err != nil || int64(got) != want.Num().Int64():
				t.Errorf("%s: %v, %v; want %v nm", text, got, err, want)
			}
		}
		step := new(big.Rat).Mul(big.NewRat(int64(units.Inch), 1), big.NewRat(1, value.Denom().Int64()))
		if !step.IsInt() {
			continue
		}
		r, err := units.NewRuler(units.Length(step.Num().Int64()), units.InchFraction)
		if err != nil {
			t.Fatal(err)
		}
		written++
		l := r.Step() * units.Length(value.Num().Int64())
		if got := (units.Format{Ruler: r, Typographic: true}).Text(l); got != sign+"″" {
			t.Errorf("%v of an inch is written %s; want %s″", value, got, sign)
		}
	}
	if written != 12 { // with the denominators 2, 4, 5, 8 and 10
		t.Errorf("%d signs were written", written)
	}
}

// A floating-point number of units is rounded once, from its exact value: tried
// with products that lie one unit of the last binary place below a half, at a
// half, and one above, for divisors on both sides of 2⁶⁴.
func TestOfFloatNearAHalf(t *testing.T) {
	rng := rand.New(rand.NewPCG(uint64(proptest.Seed()), 0))
	two := func(n uint) *big.Int { return new(big.Int).Lsh(big.NewInt(1), n) }
	tried := 0
	for range 4000 {
		mantissa := rng.Uint64N(1<<52) | 1<<52 | 1
		places := 40 + rng.UintN(60) // the number is mantissa / 2^places
		modulus := two(places)
		inverse := new(big.Int).ModInverse(new(big.Int).SetUint64(mantissa), modulus)
		for d := int64(-1); d <= 1; d++ {
			// mantissa · unit ≡ half + d, so that the nearest is down, away from
			// zero and up.
			unit := new(big.Int).Add(two(places-1), big.NewInt(d))
			unit.Mul(unit, inverse).Mod(unit, modulus)
			if !unit.IsInt64() || unit.Sign() == 0 {
				continue
			}
			f := math.Ldexp(float64(mantissa), -int(places))
			want := roundRat(new(big.Rat).Mul(new(big.Rat).SetInt(unit), new(big.Rat).SetFloat64(f)), units.Nearest)
			if !want.IsInt64() {
				continue
			}
			tried++
			for _, sign := range []float64{1, -1} {
				got, err := units.Of(sign*f, units.Length(unit.Int64()))
				if err != nil || int64(got) != int64(sign)*want.Int64() {
					t.Fatalf("%v × %d nm: %d, %v; want %d", sign*f, unit, got, err, want)
				}
			}
		}
	}
	if tried < 1000 {
		t.Errorf("only %d were tried", tried)
	}
}

// A million parts are made, one more are refused, as the doc of Split says.
func TestSplitMost(t *testing.T) {
	var r units.Ruler
	parts, err := r.Split(3_000_000, 1_000_000)
	if err != nil || len(parts) != 1_000_000 || parts[0] != 3 || parts[len(parts)-1] != 3 {
		t.Errorf("%d parts, %v", len(parts), err)
	}
	if _, err := r.Split(3_000_000, 1_000_001); !errors.Is(err, units.ErrSplit) {
		t.Errorf("a million and one parts: %v", err)
	}
}

// A working that begins with what is taken away has no sum before it.
func TestWorkingBeginsWithMinus(t *testing.T) {
	mm := units.Millimetre
	w := units.Sum("rest", units.WholeMillimetres, units.Nearest, units.N(-1, "board", 2*mm), units.N(-2, "gap", 3*mm), units.T("cover", 20*mm))
	if got, want := w.String(), "rest 12 mm = - board 2 mm - 2 x gap 3 mm + cover 20 mm"; got != want {
		t.Errorf("%q; want %q", got, want)
	}
}
