package units_test

import (
	"encoding/json"
	"math"
	"math/big"
	"os"
	"strings"
	"testing"

	"boardwrap.example/units"
)

// bigArea reads an area's text, which is exact, back into square nanometres.
func bigArea(t *testing.T, a units.Area) *big.Int {
	t.Helper()
	r, ok := new(big.Rat).SetString(strings.TrimSuffix(a.String(), " mm²"))
	if !ok {
		t.Fatalf("area %q is no number", a)
	}
	r.Mul(r, new(big.Rat).SetInt64(1e12))
	if !r.IsInt() {
		t.Fatalf("area %q is no whole number of square nanometres", a)
	}
	return r.Num()
}

// wrap reduces n to a signed number of 128 bits.
func wrap(n *big.Int) *big.Int {
	m := new(big.Int).Lsh(big.NewInt(1), 128)
	n = new(big.Int).Mod(n, m)
	if n.Bit(127) == 1 {
		n.Sub(n, m)
	}
	return n
}

func TestAreaIsExact(t *testing.T) {
	for _, a := range interesting {
		for _, b := range interesting {
			ab := units.Length(a).By(units.Length(b))
			want := new(big.Int).Mul(big.NewInt(a), big.NewInt(b))
			if got := bigArea(t, ab); got.Cmp(want) != 0 {
				t.Fatalf("%d by %d = %v; want %v", a, b, got, want)
			}
			if got := ab.Sign(); got != want.Sign() {
				t.Errorf("sign of %d by %d = %d", a, b, got)
			}
			ratio := new(big.Rat).SetFrac(want, big.NewInt(1e12))
			mm2, _ := ratio.Float64()
			closeTo(t, "mm²", ab.SquareMillimetres(), mm2)
			closeTo(t, "in²", ab.SquareInches(), mm2/25.4/25.4)
			closeTo(t, "m²", ab.SquareMetres(), mm2/1e6)
			for _, c := range interesting {
				other := units.Length(c).By(units.Length(a))
				wantOther := new(big.Int).Mul(big.NewInt(c), big.NewInt(a))
				if got, sum := bigArea(t, ab.Plus(other)), wrap(new(big.Int).Add(want, wantOther)); got.Cmp(sum) != 0 {
					t.Fatalf("%v + %v = %v", want, wantOther, got)
				}
				if got, diff := bigArea(t, ab.Minus(other)), wrap(new(big.Int).Sub(want, wantOther)); got.Cmp(diff) != 0 {
					t.Fatalf("%v − %v = %v", want, wantOther, got)
				}
				if got := ab.Compare(other); got != want.Cmp(wantOther) {
					t.Fatalf("%v compared with %v = %d", want, wantOther, got)
				}
				if p := new(big.Int).Mul(want, big.NewInt(c)); p.BitLen() < 127 {
					if got := bigArea(t, ab.Times(c)); got.Cmp(p) != 0 {
						t.Fatalf("%v × %d = %v", want, c, got)
					}
				}
			}
		}
	}
}

func closeTo(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-15*8*math.Abs(want) {
		t.Errorf("%s: %v; want %v", what, got, want)
	}
}

func TestQuotient(t *testing.T) {
	sheet, piece := units.Size{W: 12 * units.Inch, H: 12 * units.Inch}.Area(), units.Size{W: 3 * units.Inch, H: 4 * units.Inch}.Area()
	if got := sheet.Quotient(piece); got != 12 {
		t.Errorf("a 12 × 12 sheet over 3 × 4: %v; want 12", got)
	}
	if got := sheet.Quotient(units.Area{}); got != 0 {
		t.Errorf("over nothing: %v; want 0", got)
	}
}

func TestMassIsExact(t *testing.T) {
	for _, a := range interesting {
		for _, b := range interesting {
			for _, g := range interesting {
				got := units.Grammage(g).Mass(units.Length(a).By(units.Length(b)))
				n := new(big.Int).Mul(big.NewInt(a), big.NewInt(b))
				n.Mul(n, big.NewInt(g))
				want := roundRat(new(big.Rat).SetFrac(n, big.NewInt(1e15)), units.Nearest)
				switch {
				case want.Cmp(big.NewInt(math.MaxInt64)) > 0:
					want.SetInt64(math.MaxInt64)
				case want.Cmp(big.NewInt(-math.MaxInt64)) < 0:
					want.SetInt64(-math.MaxInt64)
				}
				if int64(got) != want.Int64() {
					t.Fatalf("%d mg/m² of %d × %d = %d µg; want %v", g, a, b, got, want)
				}
			}
		}
	}
	// The least product of 128 bits whose quotient does not fit 64.
	if got := units.Grammage(1e15).Mass(units.Length(1 << 32).By(1 << 32)); got != math.MaxInt64 {
		t.Errorf("2⁶⁴ × 10¹⁵: %d", got)
	}
	// A square metre at 1 g/m² weighs 1 g: the definition of the unit.
	if got := units.GramPerSquareMetre.Mass(units.Metre.By(units.Metre)); got != units.Gram {
		t.Errorf("1 m² at 1 g/m² = %v", got)
	}
}

func TestBasisWeights(t *testing.T) {
	var file struct {
		Vectors []struct {
			Size, Sheet, Computed, Source string
			Pounds, Nominal               int64
		}
	}
	readVectors(t, "basis.json", &file)
	sizes := map[string]units.BasicSize{}
	for b := units.Bond; b <= units.Tag; b++ {
		sizes[b.String()] = b
	}
	if len(sizes) != len(file.Vectors)-1 { // cover stands there twice
		t.Errorf("%d basic sizes, %d vectors", len(sizes), len(file.Vectors))
	}
	for _, v := range file.Vectors {
		b, ok := sizes[v.Size]
		if !ok {
			t.Errorf("no basic size %q", v.Size)
			continue
		}
		if want := units.MustParseSize(v.Sheet); b.Size() != want {
			t.Errorf("%v is %v; want %v (%s)", b, b.Size(), want, v.Source)
		}
		got := units.BasisWeight(units.Mass(v.Pounds)*units.Pound, b.Size())
		if v.Computed != "" {
			want, _ := new(big.Rat).SetString(v.Computed)
			off := new(big.Rat).Sub(big.NewRat(int64(got), 1000), want)
			// Ours is rounded to 0.001, the published to 0.0001.
			if off.Abs(off).Cmp(big.NewRat(11, 20000)) > 0 {
				t.Errorf("%d lb %v = %v; want %s (%s)", v.Pounds, b, got, v.Computed, v.Source)
			}
		}
		if v.Nominal != 0 {
			if share := float64(got) / float64(v.Nominal*1000); share < 1-0.015 || share > 1+0.015 {
				t.Errorf("%d lb %v = %v; nominal %d g/m² (%s)", v.Pounds, b, got, v.Nominal, v.Source)
			}
		}
	}
}

// The formula g/m² = lb × 45359237/32258 ÷ (w·h in in²) of PrintWiki,
// "Grammage", in rational numbers.
func TestBasisWeightFollowsTheFormula(t *testing.T) {
	for b := units.Bond; b <= units.Tag; b++ {
		w, h := b.Size().W, b.Size().H
		square := new(big.Rat).Mul(big.NewRat(int64(w), int64(units.Inch)), big.NewRat(int64(h), int64(units.Inch)))
		for lb := int64(1); lb < 400; lb++ {
			r := new(big.Rat).Mul(big.NewRat(lb, 1), big.NewRat(45359237, 32258))
			r.Quo(r, square)
			want := roundRat(r.Mul(r, big.NewRat(1000, 1)), units.Nearest)
			if got := units.BasisWeight(units.Mass(lb)*units.Pound, b.Size()); int64(got) != want.Int64() {
				t.Fatalf("%d lb %v = %d mg/m²; want %v", lb, b, got, want)
			}
		}
	}
}

func TestBasisWeightOfNothing(t *testing.T) {
	letter := units.MustParseSize("8 1/2 x 11 in")
	for name, got := range map[string]units.Grammage{
		"no ream":        units.BasisWeight(0, letter),
		"negative ream":  units.BasisWeight(-units.Pound, letter),
		"no sheet":       units.BasisWeight(units.Pound, units.Size{}),
		"negative sheet": units.BasisWeight(units.Pound, units.Size{W: -units.Inch, H: -units.Inch}),
		"a field":        units.BasisWeight(units.Pound, units.Size{W: 10 * units.Metre, H: 10 * units.Metre}),
		"a grain":        units.BasisWeight(math.MaxInt64, units.Size{W: 1, H: 1}),
		"unknown size":   units.BasisWeight(units.Pound, units.BasicSize(200).Size()),
	} {
		if got != 0 {
			t.Errorf("%s: %v; want 0", name, got)
		}
	}
}

func TestMassTexts(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{(12*units.Gram + 500*units.Milligram).String(), "12.5 g"},
		{units.Mass(-1).String(), "-0.000001 g"},
		{units.Kilogram.String(), "1000 g"},
		{units.Mass(math.MinInt64).String(), "-9223372036854.775808 g"},
		{(120 * units.GramPerSquareMetre).String(), "120 g/m²"},
		{units.Grammage(175_767).String(), "175.767 g/m²"},
		{units.Grammage(-60).String(), "-0.06 g/m²"},
		{units.Cover.String(), "cover"},
		{units.BasicSize(9).String(), "unknown basic size"},
		{units.Inch.By(units.Inch).String(), "645.16 mm²"}, // NIST SP 811, appendix B.8: square inch
		{units.Area{}.String(), "0 mm²"},
	} {
		if c.got != c.want {
			t.Errorf("%q; want %q", c.got, c.want)
		}
	}
	// NIST SP 811, appendix B.8: the pound is 453.59237 g and 16 ounces.
	if units.Pound.Ounces() != 16 || units.Pound.Grams() != 453.59237 {
		t.Errorf("a pound is %v oz, %v g", units.Pound.Ounces(), units.Pound.Grams())
	}
	if d := units.Pound - 16*units.Ounce; d < -8 || d > 8 {
		t.Errorf("16 ounces and a pound differ by %v", d)
	}
}

// readVectors reads a file of testdata.
func readVectors(t *testing.T, name string, to any) {
	t.Helper()
	data, err := os.ReadFile("testdata/" + name)
	if err == nil {
		err = json.Unmarshal(data, to)
	}
	if err != nil {
		t.Fatal(err)
	}
}
