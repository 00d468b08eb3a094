package units_test

import (
	"errors"
	"math/big"
	"strings"
	"testing"

	"boardwrap.example/units"
)

// Every name of a unit is so long as NIST SP 811 says, or so many thousandths of
// an inch, in any letters, with a space before it and without.
func TestNamesOfUnits(t *testing.T) {
	nanometres := map[int64]string{
		1:             "nm nanometre nanometres nanometer nanometers",
		1_000:         "µm μm um micrometre micrometres micrometer micrometers",
		1_000_000:     "mm millimetre millimetres millimeter millimeters",
		10_000_000:    "cm centimetre centimetres centimeter centimeters",
		1_000_000_000: "m metre metres meter meters",
		25_400:        "thou mil mils pt pt. pts point points",
		25_400_000:    "in in. inch inches \" ″ ” '' ′′",
		304_800_000:   "ft ft. foot feet ' ′ ’",
	}
	for want, names := range nanometres {
		for _, name := range strings.Fields(names) {
			for _, text := range []string{"3 " + name, "3" + name, "3 " + upper(name), " 3  " + name + " "} {
				if l, err := units.Parse(text); err != nil || l.Nanometres() != 3*want {
					t.Errorf("%q is %d nm, %v; want %d", text, l.Nanometres(), err, 3*want)
				}
			}
		}
	}
	for text, want := range map[string]units.Mass{
		"2 g": 2_000_000, "2 grams": 2_000_000, "2 grammes": 2_000_000, "1 gram": 1_000_000, "1 gramme": 1_000_000, "2 kg": 2_000_000_000, "1 kilogram": 1_000_000_000, "2 kilograms": 2_000_000_000,
		"2 mg": 2_000, "1 milligram": 1_000, "2 milligrams": 2_000, "2 µg": 2, "2 μg": 2, "2 ug": 2, "1 microgram": 1, "2 micrograms": 2,
		// 1 lb = 453.59237 g, 1 oz a sixteenth of it (NIST SP 811).
		"100000 lb": 45_359_237_000_000, "1 lb.": 453_592_370, "2 lbs": 907_184_740, "1 pound": 453_592_370, "2 pounds": 907_184_740,
		"16 oz": 453_592_370, "16 oz.": 453_592_370, "1 ounce": 28_349_523, "2 ounces": 56_699_046,
		// A third of it is 151.1974566… g, a seventh 64.79891 g.
		"1/3 lb": 151_197_457, "2/3 pound": 302_394_913, "1/7 lb": 64_798_910,
	} {
		if m, err := units.ParseMass(text); err != nil || m != want {
			t.Errorf("%q is %d µg, %v; want %d", text, int64(m), err, int64(want))
		}
	}
	for _, text := range []string{"2", "g", "1/3 g", "2 gr", "9999999999999 kg"} {
		if m, err := units.ParseMass(text); err == nil || m != 0 {
			t.Errorf("%q is %v, %v", text, m, err)
		}
	}
	for text, want := range map[string]units.Grammage{
		"120 g/m²": 120_000, "120g/m2": 120_000, "120 g/m^2": 120_000, "120 gsm": 120_000, " 120  GSM ": 120_000, "0.001 g/m²": 1, "-0.001 g/m²": -1,
		"65 lb cover": 175_767, "65 lb  cover": 175_767, "65# cover": 175_767, "65 lbs Cover": 175_767, // 175.7674 g/m² (PrintWiki, "Basic size")
	} {
		if g, err := units.ParseGrammage(text); err != nil || g != want {
			t.Errorf("%q is %d mg/m², %v; want %d", text, int64(g), err, int64(want))
		}
	}
	for g, want := range map[units.Grammage]string{-1: "-0.001 g/m²", 0: "0 g/m²", 1: "0.001 g/m²", -120_500: "-120.5 g/m²"} {
		if g.String() != want {
			t.Errorf("%d mg/m² is written %q", int64(g), g)
		}
	}
}

// upper writes the letters of a name in upper case, those of the metric prefix
// micro left alone.
func upper(name string) string {
	return strings.Map(func(r rune) rune {
		if 'a' <= r && r <= 'z' {
			return r - 'a' + 'A'
		}
		return r
	}, name)
}

// Areas of as many digits as there are come back as they were written, or are
// refused where 128 bits do not hold them.
func TestAreasOfManyDigits(t *testing.T) {
	most := new(big.Int).Sub(new(big.Int).Lsh(big.NewInt(1), 127), big.NewInt(1)) // square nanometres
	for _, digits := range []string{"1", "9", "12", "17", "42", "340282366920938463463374607431768211455", "170141183460469231731687303715884105727", "170141183460469231731687303715884105728"} {
		for zeros := range 30 {
			text := digits + strings.Repeat("0", zeros)
			n, _ := new(big.Int).SetString(text, 10)
			n.Mul(n, big.NewInt(1_000_000_000_000)) // mm²
			a, err := units.ParseArea(text + " mm²")
			if n.Cmp(most) > 0 {
				if err == nil || !errors.Is(err, units.ErrRange) || a != (units.Area{}) {
					t.Errorf("%s mm²: %v, %v", text, a, err)
				}
				continue
			}
			if err != nil || a.String() != text+" mm²" {
				t.Errorf("%s mm² is read as %v, %v", text, a, err)
			}
		}
	}
}

// All lists of four points of a grid of 3 by 3 and of five of a grid of 3 by 2,
// where most edges lie on or along one another.
func TestPolygonsOfSmallGrids(t *testing.T) {
	for _, g := range []struct{ w, h, corners int }{{3, 3, 4}, {3, 2, 5}} {
		n, all := g.w*g.h, 1
		for range g.corners {
			all *= n
		}
		for k := range all {
			var c []units.Point
			for rest := k; len(c) < g.corners; rest /= n {
				c = append(c, pt(int64(rest%n%g.w), int64(rest%n/g.w)))
			}
			_, err := units.NewPolygon(c...)
			corners := bare(c)
			if sound := len(corners) >= 3 && !crossesByRationals(corners); sound != (err == nil) {
				t.Fatalf("%v: %v", c, err)
			}
		}
	}
}

// A rectangle is a polygon as far as polygons reach, and has its own corners.
func TestRectanglesAsPolygons(t *testing.T) {
	if units.Farthest != 1_000_000*units.Metre {
		t.Errorf("corners may lie %v from 0; documented 1000 km", units.Farthest)
	}
	far, mm := units.Farthest, units.Millimetre
	for r, want := range map[units.Rect]bool{
		{Min: units.Point{X: mm, Y: 2 * mm}, Max: units.Point{X: 4 * mm, Y: 8 * mm}}: true,
		{Min: units.Point{X: -far, Y: -far}, Max: units.Point{X: far, Y: far}}:       true,
		{Min: units.Point{X: -far - 1}, Max: units.Point{X: mm, Y: mm}}:              false,
		{Min: units.Point{Y: -far - 1}, Max: units.Point{X: mm, Y: mm}}:              false,
		{Max: units.Point{X: far + 1, Y: mm}}:                                        false,
		{Max: units.Point{X: mm, Y: far + 1}}:                                        false,
		{Max: units.Point{X: mm}}:                                                    false,
	} {
		p := r.Polygon()
		if (p.Len() == 4) != want || p.Len() != 4 && p.Len() != 0 {
			t.Errorf("%v has %d corners", r, p.Len())
			continue
		}
		if want {
			made, err := units.NewPolygon(r.Min, units.Point{X: r.Max.X, Y: r.Min.Y}, r.Max, units.Point{X: r.Min.X, Y: r.Max.Y})
			if err != nil || !made.Equal(p) || p.Bounds() != r {
				t.Errorf("%v: %v, %v", r, p, err)
			}
		}
	}
	if got := units.InchFraction.BoundSize(units.Size{W: units.Inch, H: 2 * units.Inch}, units.Up); got != "1 x 2 in" {
		t.Error(got)
	}
	if got := units.InchFraction.BoundSize(units.Size{W: 100 * mm, H: 2 * units.Inch}, units.Up); got != "3.9371 x 2 in" {
		t.Error(got)
	}
}

// What an error says would be read instead, is, and is as near as can be: half a
// nanometre.
func TestNearestIsRead(t *testing.T) {
	for num := int64(1); num < 200; num++ {
		for _, den := range []int64{3, 7, 11, 13, 96, 1000, 1023} {
			text := big.NewRat(num, den).RatString() + " in"
			l, err := units.Parse(text)
			exact := new(big.Rat).Mul(big.NewRat(num, den), big.NewRat(25_400_000, 1))
			if err == nil {
				if exact.Cmp(big.NewRat(l.Nanometres(), 1)) != 0 {
					t.Errorf("%s is read as %v", text, l)
				}
				continue
			}
			var pe *units.ParseError
			_, nearest, ok := strings.Cut(err.Error(), "the nearest is ")
			if !errors.As(err, &pe) || pe.Code != units.Inexact || !ok {
				t.Errorf("%s: %v", text, err)
				continue
			}
			n, err := units.Parse(nearest)
			off := new(big.Rat).Sub(exact, big.NewRat(n.Nanometres(), 1))
			if err != nil || off.Abs(off).Cmp(big.NewRat(1, 2)) > 0 {
				t.Errorf("%s: the nearest is said to be %s, %v", text, nearest, err)
			}
		}
	}
}
