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

// The units are those of the SI Brochure (9th edition, tables 5 and 7, and the
// prefixes in table 7) and of NIST SP 811, appendix B.8; the bounds those of
// their doc.
func TestLengthsOfUnits(t *testing.T) {
	for name, c := range map[string]struct {
		l    units.Length
		want int64 // nanometres
	}{
		"µm": {units.Micrometre, 1e3}, "mm": {units.Millimetre, 1e6}, "cm": {units.Centimetre, 1e7}, "m": {units.Metre, 1e9},
		"thou": {units.Thou, 25_400}, "in": {units.Inch, 25_400_000}, "ft": {units.Foot, 304_800_000},
		"10 µm": {units.Shortest, 10_000}, "10 m": {units.Longest, 10_000_000_000},
	} {
		if c.l.Nanometres() != c.want {
			t.Errorf("%s is %d nm; want %d", name, c.l.Nanometres(), c.want)
		}
	}
	for text, got := range map[string]func() (units.Length, error){
		"3 mm": func() (units.Length, error) { return units.Millimetres(3) }, "0.5 mm": func() (units.Length, error) { return units.Millimetres(0.5) },
		"3 in": func() (units.Length, error) { return units.Inches(3) }, "0.5 in": func() (units.Length, error) { return units.Inches(0.5) },
	} {
		if l, err := got(); err != nil || l != units.MustParse(text) {
			t.Errorf("%v, %v; want %s", l, err, text)
		}
	}
}

// Floating-point numbers from 2⁴⁹ on, where a number's last binary place passes
// the units place, are whole and stay what they are.
func TestOfLargeFloats(t *testing.T) {
	for places := 49; places < 63; places++ {
		for _, d := range []float64{0, 1 << 20} {
			f := math.Ldexp(1, places) + d
			if l, err := units.Of(f, units.Nanometre); err != nil || l != units.Length(int64(f)) {
				t.Errorf("%v nm: %d, %v", f, l, err)
			}
			if l, err := units.Of(-f, -units.Nanometre); err != nil || l != units.Length(int64(f)) {
				t.Errorf("minus %v times minus 1 nm: %d, %v", f, l, err)
			}
		}
	}
}

// wide returns a random whole number of up to so many bits, of either sign.
func wide(rng *rand.Rand, bits int) *big.Int {
	n := new(big.Int)
	for range 4 {
		n.Lsh(n, 64).Or(n, new(big.Int).SetUint64(rng.Uint64()))
	}
	n.Rsh(n, uint(256-rng.IntN(bits)))
	if rng.IntN(2) == 0 {
		n.Neg(n)
	}
	return n
}

// areaOf makes an area of any size below 2¹²⁷ from products of lengths.
func areaOf(n *big.Int) units.Area {
	high, low := new(big.Int), new(big.Int)
	high.QuoRem(n, big.NewInt(1<<62), low)
	top, middle := new(big.Int), new(big.Int)
	top.QuoRem(high, big.NewInt(1<<62), middle)
	const side = units.Length(1 << 62)
	return side.By(side).Times(top.Int64()).Plus(side.By(units.Length(middle.Int64()))).Plus(units.Length(low.Int64()).By(1))
}

// An area is scaled as rational numbers are, also where the product takes all
// of 192 bits and where the result only just fits or does not.
func TestAreaScaleIsExact(t *testing.T) {
	rng := rand.New(rand.NewPCG(uint64(proptest.Seed()), 1))
	limit := new(big.Int).Lsh(big.NewInt(1), 127)
	fitted, near := 0, 0
	for i := range 40_000 {
		n := wide(rng, 127)
		num, den := wide(rng, 63).Int64(), wide(rng, 63).Int64()
		if i%2 == 0 { // a result within a few of the largest area
			n.Sub(limit, big.NewInt(1+rng.Int64N(4)))
			den = 1 + rng.Int64N(1<<20)
			num = den
			if rng.IntN(2) == 0 {
				n.Quo(n, big.NewInt(2))
				num = 2 * den
			}
			if rng.IntN(3) == 0 {
				num++
			}
		}
		for _, d := range directions {
			got, exact := areaOf(n).Scale(num, den, d)
			if den == 0 {
				if got != (units.Area{}) || exact {
					t.Fatalf("by nothing: %v, %t", got, exact)
				}
				continue
			}
			r := new(big.Rat).SetFrac(new(big.Int).Mul(n, big.NewInt(num)), big.NewInt(den))
			want := roundRat(r, d)
			if want.CmpAbs(limit) >= 0 {
				if got != (units.Area{}) || exact {
					t.Fatalf("%v × %d / %d, direction %v: %v, %t; want what does not fit", n, num, den, d, got, exact)
				}
				near++
				continue
			}
			fitted++
			if bigArea(t, got).Cmp(want) != 0 || exact != r.IsInt() {
				t.Fatalf("%v × %d / %d, direction %v: %v, %t; want %v", n, num, den, d, got, exact, want)
			}
		}
	}
	// A half below 2⁶⁴, 2·2⁶⁴ and so on, where rounding carries into the upper
	// half of the area.
	for k := range int64(3) {
		odd := new(big.Int).Lsh(big.NewInt(k+1), 65)
		odd.Sub(odd, big.NewInt(1))
		for _, d := range directions {
			if got, _ := areaOf(odd).Scale(1, 2, d); bigArea(t, got).Cmp(roundRat(new(big.Rat).SetFrac(odd, big.NewInt(2)), d)) != 0 {
				t.Errorf("half of %v, direction %v: %v", odd, d, got)
			}
		}
	}
	if fitted < 20_000 || near < 5000 {
		t.Errorf("%d fitted, %d did not", fitted, near)
	}
}

// The mass of an area is grammage times area in rational numbers, to the
// nearest microgram, or the largest mass: mg/m² times nm² is 10⁻¹⁵ µg.
func TestMassOfWideAreas(t *testing.T) {
	rng := rand.New(rand.NewPCG(uint64(proptest.Seed()), 2))
	limit := big.NewInt(math.MaxInt64)
	for i := range 20_000 {
		n, g := wide(rng, 127), wide(rng, 63)
		if i%2 == 0 && g.Sign() > 0 { // a product about 2¹²⁸
			n.Lsh(big.NewInt(1), 128)
			n.Quo(n, g).Add(n, big.NewInt(rng.Int64N(3)))
			if n.BitLen() > 126 {
				continue
			}
		}
		want := roundRat(new(big.Rat).SetFrac(new(big.Int).Mul(n, g), big.NewInt(1e15)), units.Nearest)
		if want.CmpAbs(limit) > 0 {
			want = new(big.Int).Mul(limit, big.NewInt(int64(want.Sign())))
		}
		if got := units.Grammage(g.Int64()).Mass(areaOf(n)); int64(got) != want.Int64() {
			t.Fatalf("%v mg/m² of %v nm²: %d µg; want %v", g, n, got, want)
		}
	}
}

// A basis weight is the ream's mass by the area of its 500 sheets in rational
// numbers, to the nearest mg/m², halves up; nothing where that does not fit.
func TestBasisWeightIsExact(t *testing.T) {
	rng := rand.New(rand.NewPCG(uint64(proptest.Seed()), 3))
	compare := func(ream int64, w, h int64) {
		t.Helper()
		area := new(big.Int).Mul(big.NewInt(w), big.NewInt(h))
		// µg to mg by 1000, nm² to m² by 10¹⁸, 500 sheets.
		r := new(big.Rat).SetFrac(new(big.Int).Mul(big.NewInt(ream), big.NewInt(2_000_000_000_000)), area)
		want := roundRat(r, units.Nearest)
		if !want.IsInt64() || !area.IsUint64() || ream <= 0 {
			want = new(big.Int)
		}
		if got := units.BasisWeight(units.Mass(ream), units.Size{W: units.Length(w), H: units.Length(h)}); int64(got) != want.Int64() {
			t.Errorf("a ream of %d µg of %d by %d nm: %d mg/m²; want %v", ream, w, h, got, want)
		}
	}
	for range 20_000 {
		compare(rng.Int64N(100_000_000_000)+1, rng.Int64N(1_500_000_000)+1, rng.Int64N(1_500_000_000)+1)
		compare(rng.Int64()>>rng.IntN(62), 1+rng.Int64()>>(rng.IntN(31)+31), 1+rng.Int64()>>(rng.IntN(31)+31))
	}
	compare(1<<62, 500_000, 1_000_000) // 2⁶⁴
	compare(1<<62-1, 500_000, 1_000_000)
	compare(1<<61, 500_000, 1_000_000)           // 2⁶³
	compare(1<<61-1, 500_000, 1_000_000)         // the largest but one
	compare(math.MaxInt64, 1_000_000, 2_000_000) // the largest
	compare(0, 1_000_000, 1_000_000)
	compare(1, 2_000_000, 2_000_000) // a half
	compare(1, 1_414_214, 1_414_214) // just under one
}

// Where the graduation asked for lies beyond the ends of int64 the result is
// the end: 2⁶³ is a graduation of 2³³ nm, and −2⁶³ − 1 one of 27 nm, since it
// is divided by 27.
func TestRoundAtTheEnds(t *testing.T) {
	up, err := units.NewRuler(1<<33, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	down, err := units.NewRuler(27, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	for back := range units.Length(3) {
		l := math.MaxInt64 - back
		if got := up.Round(l, units.Up); got.To != math.MaxInt64 || got.Exact() {
			t.Errorf("%d up: %+v", l, got)
		}
	}
	for _, l := range []units.Length{math.MinInt64, math.MinInt64 + 1, math.MinInt64 + 25} {
		if got := down.Round(l, units.Down); got.To != math.MinInt64 || got.Exact() {
			t.Errorf("%d down: %+v", l, got)
		}
	}
	if got := down.Round(math.MinInt64+26, units.Down); got.To != math.MinInt64+26 || !got.Exact() {
		t.Errorf("a graduation: %+v", got)
	}
}

// Equal says what == says, for every field that a Rounded has.
func TestRoundedEqual(t *testing.T) {
	a := units.Sixteenths.Round(1000, units.Up)
	for name, b := range map[string]units.Rounded{
		"length": units.Sixteenths.Round(1001, units.Up), "direction": units.Sixteenths.Round(1000, units.Down),
		"ruler": units.Eighths.Round(1000, units.Up),
	} {
		if a.Equal(b) || !b.Equal(b) {
			t.Errorf("another %s: %+v and %+v", name, a, b)
		}
	}
	if !a.Equal(units.Sixteenths.Round(1000, units.Up)) {
		t.Error("the same are not equal")
	}
}

// Width and height are kept apart.
func TestSizeAxes(t *testing.T) {
	a, b := units.Size{W: 3, H: 40}, units.Size{W: 5, H: 20}
	for name, c := range map[string]struct{ got, want units.Size }{
		"plus": {a.Plus(100, 1000), units.Size{W: 103, H: 1040}},
		"max":  {a.Max(b), units.Size{W: 5, H: 40}}, "max turned": {b.Max(a), units.Size{W: 5, H: 40}},
		"min": {a.Min(b), units.Size{W: 3, H: 20}}, "min turned": {b.Min(a), units.Size{W: 3, H: 20}},
	} {
		if c.got != c.want {
			t.Errorf("%s: %v; want %v", name, c.got, c.want)
		}
	}
	for s, want := range map[units.Size]bool{{W: 1, H: 1}: false, {W: 0, H: 1}: true, {W: 1, H: 0}: true, {W: -1, H: 1}: true, {W: 1, H: -1}: true} {
		if s.Empty() != want {
			t.Errorf("%v empty: %t", s, s.Empty())
		}
	}
}

// A ledger's sum is its terms added up, and a number of shares below one counts
// as one.
func TestLedgerSums(t *testing.T) {
	var g units.Ledger
	mm := units.Millimetre
	terms := []units.Term{units.T("board", 120*mm), units.N(-2, "inset", 3*mm)}
	if got := g.Sum("liner", units.WholeMillimetres, units.Down, terms...); got.Length() != 114*mm || got.Shares() != 1 {
		t.Errorf("%v", got)
	}
	for _, n := range []int{1, 0, -3} {
		if got := g.Share("liner", n, units.WholeMillimetres, units.Down, terms...); got.Length() != 114*mm || got.Shares() != 1 {
			t.Errorf("in %d: %v", n, got)
		}
	}
	if got := g.Share("half", 2, units.WholeMillimetres, units.Down, terms...); got.Length() != 57*mm || got.Shares() != 2 {
		t.Errorf("%v", got)
	}
}

// Workings as a person reads them, written by hand from the doc of
// Working.AppendLine.
func TestWorkingLinesByHand(t *testing.T) {
	mm, in := units.Millimetre, units.Inch
	var g units.Ledger
	for want, w := range map[string]units.Working{
		"a 3 mm = board 3 mm + 0 x gap 2 mm":                                     units.Sum("a", 0, units.Up, units.T("board", 3*mm), units.N(0, "gap", 2*mm)),
		"b 3 mm = 0 x gap 2 mm + board 3 mm":                                     units.Sum("b", 0, units.Up, units.N(0, "gap", 2*mm), units.T("board", 3*mm)),
		"g 8 mm = cover 10 mm - board 2 mm":                                      units.Sum("g", 0, units.Up, units.T("cover", 10*mm), units.N(-1, "board", 2*mm)),
		"c 24 mm = 12 x leaf 2 mm":                                               units.Sum("c", 0, units.Up, units.N(12, "leaf", 2*mm)),
		"d 0.000003 mm = leaf 0.000005 mm / 2 = ~0.000003 mm, up on 0.000001 mm": g.Share("d", 2, 0, units.Up, units.T("leaf", 5)),
		"e 3/8 in = leaf 1 in / 3 = ~0.3333 in, up on 1/16 in":                   g.Share("e", 3, units.Sixteenths, units.Up, units.T("leaf", in)),
		"f 5/16 in = leaf 1 in / 3 = ~0.3333 in, nearest on 1/16 in":             g.Share("f", 3, units.Sixteenths, units.Nearest, units.T("leaf", in)),
	} {
		if got := w.String(); got != want {
			t.Errorf("%q; want %q", got, want)
		}
	}
	for l, want := range map[units.Length]string{254: "0.00001 in", 127: "0.000005 in", in / 64: "1/64 in", in / 128: "0.007812 in"} {
		if l == in/128 { // 0.0078125 in: seven decimals
			want = "~0.0078 in"
		}
		if got := units.InchFraction.Text(l); got != want {
			t.Errorf("%d nm: %q; want %q", l, got, want)
		}
	}
}

// Numbers at the ends of what a uint64 and a length hold are read, and refused
// just beyond; nothing wraps round to a length that was never written.
func TestParseAtTheEnds(t *testing.T) {
	for text, want := range map[string]units.Length{
		"9223372036854775807 nm":     math.MaxInt64,
		"9223372036854775807 0/2 nm": math.MaxInt64,
		"30260406945' 0\"":           30_260_406_945 * units.Foot,
		"1000000000/1000000000 in":   units.Inch,
		" -4 in":                     -4 * units.Inch,
	} {
		if got, err := units.Parse(text); err != nil || got != want {
			t.Errorf("%s: %d, %v; want %d", text, got, err, want)
		}
	}
	for text, problem := range map[string]string{
		"9223372036854775808 nm":     "too long",
		"9223372036854775809 0/2 nm": "too long", // twice that is 2 more than 2⁶⁴
		"18446744073709551616 nm":    "too many digits",
		"1844674407370955161.6 nm":   "more digits than can be kept exactly", // ten times that is 2⁶⁴
		"1700000000000000000.5 nm":   "not a whole number of nanometres",
		"1844674407370955160.5 nm":   "not a whole number of nanometres",
		"30260406945' 1\"":           "too long",
		"1000000001/1000000001 in":   "too many digits in a fraction",
	} {
		got, err := units.Parse(text)
		if e := new(units.ParseError); !errors.As(err, &e) || !strings.HasPrefix(e.Problem, problem) || got != 0 {
			t.Errorf("%s: %d, %v; want an error that says %s", text, got, err, problem)
		}
	}
	// What rounds up to 2⁶⁴ nm is too long, whatever it would be in a uint64.
	rng := rand.New(rand.NewPCG(uint64(proptest.Seed()), 4))
	tried := 0
	for range 200_000 {
		den := int64(units.Inch) - 1 - rng.Int64N(1_000_000)
		num := new(big.Int).Lsh(big.NewInt(den), 64)
		num.Quo(num, big.NewInt(int64(units.Inch)))
		if !num.IsUint64() {
			continue
		}
		value := new(big.Rat).SetFrac(new(big.Int).Mul(num, big.NewInt(int64(units.Inch))), big.NewInt(den))
		if roundRat(value, units.Nearest).BitLen() < 65 {
			continue
		}
		tried++
		text := num.String() + "/" + big.NewInt(den).String() + " in"
		if _, err := units.Parse(text); err == nil || !strings.Contains(err.Error(), "too long") {
			t.Fatalf("%s: %v", text, err)
		}
	}
	if tried == 0 {
		t.Error("none was tried")
	}
	if got, err := units.ParseIn("5", -units.Nanometre); err != nil || got != -5 {
		t.Errorf("five times minus one nanometre: %d, %v", got, err)
	}
	if got, err := units.ParseSize(" -4 in x -6 in"); err != nil || got != (units.Size{W: -4 * units.Inch, H: -6 * units.Inch}) {
		t.Errorf("%v, %v", got, err)
	}
}

// Errors as a person reads them, with the place after ten bytes and at the
// first one.
func TestParseErrorsByHand(t *testing.T) {
	for text, want := range map[string]string{
		"4 1/2 in wide":    `units: cannot read "4 1/2 in wide" at byte 9 ("wide"): nothing may follow here`,
		"114.3 mm wide":    `units: cannot read "114.3 mm wide" at byte 9 ("wide"): nothing may follow here`,
		"1000.300 mm wide": `units: cannot read "1000.300 mm wide" at byte 12 ("wide"): nothing may follow here`,
		"wide":             `units: cannot read "wide" at byte 0 ("wide"): a number must stand here`,
		"1'-x":             `units: cannot read "1'-x" at byte 2 ("-x"): nothing may follow here`,
		`1' -2"`:           `units: cannot read "1' -2\"" at byte 3 ("-2\""): nothing may follow here`,
	} {
		_, err := units.Parse(text)
		if err == nil || err.Error() != want {
			t.Errorf("%v; want %s", err, want)
		}
	}
	// An offset outside the text, which nobody but a caller can make, shows no
	// place.
	for _, at := range []int{-1, 4, 5} {
		want := `units: cannot read "4 in" at byte ` + big.NewInt(int64(at)).String() + ": nothing"
		if got := (&units.ParseError{Input: "4 in", Offset: at, Problem: "nothing"}).Error(); got != want {
			t.Errorf("%s; want %s", got, want)
		}
	}
	// A letter behind a unit makes another word of it, whichever letter; a sign
	// does not.
	for text, unit := range map[string]bool{"4 ina": false, "4 inc": false, "4 inz": false, "4 inA": false, "4 inC": false, "4 inZ": false, "4 in`": true, "4 in{": true, "4 in@": true, "4 in[": true} {
		_, err := units.Parse(text)
		e := new(units.ParseError)
		if !errors.As(err, &e) {
			t.Fatalf("%s: %v", text, err)
		}
		if at, problem := 2, "a unit must stand here"; !unit && (e.Offset != at || !strings.HasPrefix(e.Problem, problem)) {
			t.Errorf("%s: %v; want byte %d: %s", text, err, at, problem)
		}
		if at, problem := 4, "nothing may follow here"; unit && (e.Offset != at || e.Problem != problem) {
			t.Errorf("%s: %v; want byte %d: %s", text, err, at, problem)
		}
	}
}

// A grammage that is no whole number of milligrams is refused with the nearest
// one that is.
func TestGrammageSaysTheNearest(t *testing.T) {
	for text, nearest := range map[string]string{"1/3 g/m²": "0.333 g/m²", "2/3 gsm": "0.667 g/m²", "80.0004 g/m2": "80 g/m²", "80.0006 g/m2": "80.001 g/m²"} {
		got, err := units.ParseGrammage(text)
		if e := new(units.ParseError); !errors.As(err, &e) || !strings.HasSuffix(e.Problem, "the nearest is "+nearest) || got != 0 {
			t.Errorf("%s: %v, %v; want an error that says %s", text, got, err, nearest)
		}
	}
}
