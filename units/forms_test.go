package units_test

import (
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/big"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
)

// formed is a value with a text form.
type formed interface {
	comparable
	fmt.Stringer
	encoding.TextAppender
	encoding.TextMarshaler
}

// agree says where the text forms of a value part, or where it is not read
// back: from its text, from JSON, by its Parse function.
func agree[T formed, P interface {
	*T
	encoding.TextUnmarshaler
}](v T, parse func(string) (T, error)) string {
	text := v.String()
	marshalled, err := v.MarshalText()
	if err != nil || string(marshalled) != text {
		return fmt.Sprintf("MarshalText %q, %v; String %q", marshalled, err, text)
	}
	appended, err := v.AppendText([]byte("a "))
	if err != nil || string(appended) != "a "+text {
		return fmt.Sprintf("AppendText %q, %v; String %q", appended, err, text)
	}
	var back T
	if err := P(&back).UnmarshalText(marshalled); err != nil || back != v {
		return fmt.Sprintf("%q is read back as %v, %v", text, back, err)
	}
	var asJSON T
	line, err := json.Marshal(v)
	if err2 := json.Unmarshal(line, &asJSON); err != nil || err2 != nil || asJSON != v {
		return fmt.Sprintf("JSON %s is read back as %v, %v, %v", line, asJSON, err, err2)
	}
	if parse != nil {
		if read, err := parse(text); err != nil || read != v {
			return fmt.Sprintf("%q is parsed as %v, %v", text, read, err)
		}
	}
	return ""
}

func anyInt64() gopter.Gen {
	return gen.OneGenOf(gen.Int64(), gen.Int64Range(-1000, 1000), gen.OneConstOf(int64(math.MinInt64), int64(math.MinInt64+1), int64(math.MaxInt64), int64(1e6), int64(-1e12)))
}

func TestTextFormsAgree(t *testing.T) {
	proptest.Run(t, 2000, func(p *gopter.Properties) {
		p.Property("a length", prop.ForAll(func(n int64) string { return agree(units.Length(n), units.Parse) }, anyInt64()))
		p.Property("a size", prop.ForAll(func(w, h int64) string {
			return agree(units.Size{W: units.Length(w), H: units.Length(h)}, units.ParseSize)
		}, anyInt64(), anyInt64()))
		p.Property("an area", prop.ForAll(func(w, h, n int64) string {
			return agree(units.Length(w).By(units.Length(h)).Times(n), units.ParseArea)
		}, anyInt64(), anyInt64(), gen.Int64Range(-3, 3)))
		p.Property("a mass", prop.ForAll(func(n int64) string { return agree(units.Mass(n), units.ParseMass) }, anyInt64()))
		p.Property("a grammage", prop.ForAll(func(n int64) string { return agree(units.Grammage(n), units.ParseGrammage) }, anyInt64()))
	})
	for _, d := range []units.Direction{units.Nearest, units.Up, units.Down} {
		if wrong := agree(d, nil); wrong != "" {
			t.Error(wrong)
		}
	}
	for _, n := range []units.Notation{units.MetricDecimal, units.InchFraction, units.InchDecimal} {
		if wrong := agree(n, nil); wrong != "" {
			t.Error(wrong)
		}
	}
	for b := units.Bond; b <= units.Tag; b++ {
		if wrong := agree(b, nil); wrong != "" {
			t.Error(wrong)
		}
	}
	// The words are part of what is stored, so they do not change.
	words := fmt.Sprint(units.Nearest, units.Up, units.Down, units.MetricDecimal, units.InchFraction, units.InchDecimal,
		units.Bond, units.Text, units.Cover, units.Index, units.Bristol, units.Tag)
	if want := "nearest up down millimetres inch fractions inch decimals bond text cover index bristol tag"; words != want {
		t.Errorf("%s; want %s", words, want)
	}
}

func TestUnknownWords(t *testing.T) {
	if _, err := units.Direction(9).MarshalText(); !errors.Is(err, units.ErrUnknown) {
		t.Error(err)
	}
	if _, err := units.Notation(9).AppendText(nil); !errors.Is(err, units.ErrUnknown) {
		t.Error(err)
	}
	if _, err := units.BasicSize(9).MarshalText(); !errors.Is(err, units.ErrUnknown) || units.BasicSize(9).String() != "unknown basic size" {
		t.Error(err)
	}
	d := units.Down
	if err := d.UnmarshalText([]byte("sideways")); !errors.Is(err, units.ErrSyntax) || d != units.Down {
		t.Errorf("%v, %v", d, err)
	}
}

// lowestArea is the lowest area there is, −2¹²⁷ nm².
func TestLowestAreaIsReadBack(t *testing.T) {
	lowest := units.Length(math.MinInt64).By(units.Length(1) << 62).Times(2)
	if want := new(big.Int).Neg(new(big.Int).Lsh(big.NewInt(1), 126)); bigArea(t, lowest).Cmp(want) != 0 {
		t.Fatalf("%v", lowest)
	}
	for _, a := range []units.Area{lowest, lowest.Times(2), lowest.Times(-1).Plus(lowest.Times(-1).Minus(units.Nanometre.By(1)))} {
		if wrong := agree(a, units.ParseArea); wrong != "" {
			t.Error(wrong)
		}
	}
	for _, text := range []string{"170141183460469231731687303.715884105728 mm²", "-170141183460469231731687303.715884105729 mm²", "340282366920938463463374607.431768211455 mm²", "170141183460469231732 m²", "99999999999999999999999999999999999999999 mm²"} {
		if a, err := units.ParseArea(text); !errors.Is(err, units.ErrRange) || a != (units.Area{}) {
			t.Errorf("%s is read as %v, %v", text, a, err)
		}
	}
}

func TestParseOthers(t *testing.T) {
	g := units.GramPerSquareMetre
	for text, want := range map[string]units.Mass{
		"12.5 g": 12_500_000, "0.2 kg": 200 * units.Gram, "350 mg": 350 * units.Milligram, "7 µg": 7, "7 ug": 7, "-3g": -3 * units.Gram, "1/2 g": units.Gram / 2,
		"1 lb": 453_592_370, "1 oz": 28_349_523, "16 oz": 453_592_370, "3 1/2 oz": 99_223_331, "3.5 OZ": 99_223_331, "2 pounds": 907_184_740, "1 Kilogram": units.Kilogram, "0.5 lbs": 226_796_185,
	} {
		if got, err := units.ParseMass(text); err != nil || got != want {
			t.Errorf("ParseMass(%q) = %d, %v; want %d", text, got, err, want)
		}
	}
	for text, want := range map[string]units.Grammage{
		"120 g/m²": 120 * g, "120 g/m2": 120 * g, "120gsm": 120 * g, "92.5 GSM": 92_500, "120 g/m^2": 120 * g,
		"65 lb cover": units.BasisWeight(65*units.Pound, units.Cover.Size()), "65# Cover": units.BasisWeight(65*units.Pound, units.Cover.Size()),
		"80 lb text": units.BasisWeight(80*units.Pound, units.Text.Size()), "110 lbs index": units.BasisWeight(110*units.Pound, units.Index.Size()), "20 lb. bond": units.BasisWeight(20*units.Pound, units.Bond.Size()),
	} {
		if got, err := units.ParseGrammage(text); err != nil || got != want {
			t.Errorf("ParseGrammage(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
	for text, want := range map[string]units.Area{
		"12.5 mm²": (mm / 2).By(25 * mm), "1 m2": m.By(m), "1 sq in": in.By(in), "0.5 in²": in.By(in / 2), "3 cm²": cm.By(3 * cm), "-2 mm^2": mm.By(-2 * mm), "0 mm²": {}, "0.000000000001 mm²": units.Nanometre.By(1), "1.500000000000000000000000 mm²": mm.By(3 * mm / 2), "007 mm2": mm.By(7 * mm),
	} {
		if got, err := units.ParseArea(text); err != nil || got != want {
			t.Errorf("ParseArea(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
}

// Every error says which kind it is, to a program and by errors.Is.
func TestParseErrorsMatch(t *testing.T) {
	parse := func(s string) error { _, err := units.Parse(s); return err }
	size := func(s string) error { _, err := units.ParseSize(s); return err }
	mass := func(s string) error { _, err := units.ParseMass(s); return err }
	area := func(s string) error { _, err := units.ParseArea(s); return err }
	grammage := func(s string) error { _, err := units.ParseGrammage(s); return err }
	for _, c := range []struct {
		read func(string) error
		text string
		code units.ParseCode
		is   error
	}{
		{parse, "1/3 in", units.Inexact, units.ErrInexact}, {parse, "~4 in", units.Inexact, units.ErrInexact}, {parse, "0.0000000000001 m", units.Inexact, units.ErrInexact},
		{parse, "9223372037 m", units.BeyondLimits, units.ErrRange}, {parse, "99999999999999999999 mm", units.BeyondLimits, units.ErrRange},
		{parse, "4", units.NoUnit, units.ErrSyntax}, {parse, "4 furlong", units.NoUnit, units.ErrSyntax}, {parse, "", units.BadSyntax, units.ErrSyntax}, {parse, "1,500 mm", units.BadSyntax, units.ErrSyntax}, {parse, "1.5/2 in", units.BadSyntax, units.ErrSyntax}, {parse, "4 1/2 3 in", units.BadSyntax, units.ErrSyntax}, {parse, "1/2½ in", units.BadSyntax, units.ErrSyntax},
		{size, "4 x 1/3 in", units.Inexact, units.ErrInexact}, {size, "4 in", units.BadSyntax, units.ErrSyntax}, {size, "4 x 6", units.NoUnit, units.ErrSyntax},
		{mass, "0.0000001 g", units.Inexact, units.ErrInexact}, {mass, "9223372036855 g", units.BeyondLimits, units.ErrRange}, {mass, "4", units.NoUnit, units.ErrSyntax}, {mass, "4 stone", units.NoUnit, units.ErrSyntax}, {mass, "4 gg", units.NoUnit, units.ErrSyntax}, {mass, "4 g x", units.BadSyntax, units.ErrSyntax}, {mass, "~4 g", units.Inexact, units.ErrInexact}, {mass, "1.0000000000000000001 oz", units.Inexact, units.ErrInexact}, {mass, "", units.BadSyntax, units.ErrSyntax},
		{grammage, "120", units.NoUnit, units.ErrSyntax}, {grammage, "120 g", units.NoUnit, units.ErrSyntax}, {grammage, "65 lb", units.NoUnit, units.ErrSyntax}, {grammage, "65 lb poster", units.NoUnit, units.ErrSyntax}, {grammage, "0.0001 gsm", units.Inexact, units.ErrInexact}, {grammage, "-65 lb cover", units.BeyondLimits, units.ErrRange}, {grammage, "99999999999999999 gsm", units.BeyondLimits, units.ErrRange}, {grammage, "65 lb covers", units.BadSyntax, units.ErrSyntax},
		{area, "4", units.NoUnit, units.ErrSyntax}, {area, "1/2 mm²", units.NoUnit, units.ErrSyntax}, {area, "0.0000000000001 mm²", units.Inexact, units.ErrInexact}, {area, ". mm²", units.BadSyntax, units.ErrSyntax}, {area, "4.5.6 mm²", units.NoUnit, units.ErrSyntax},
	} {
		err := c.read(c.text)
		var pe *units.ParseError
		if !errors.As(err, &pe) || pe.Code != c.code || pe.Input != c.text {
			t.Errorf("%q: %v, %+v; want %s", c.text, err, pe, c.code)
		}
		for _, is := range []error{units.ErrSyntax, units.ErrInexact, units.ErrRange} {
			if errors.Is(err, is) != (is == c.is) {
				t.Errorf("%q: errors.Is(%v, %v) is %t", c.text, err, is, is != c.is)
			}
		}
	}
}

// A maker who cuts by the text must get the size: what a size is written as on
// any ruler reads back to it, or is marked as rounded. Sides are on and off
// every ruler, so that one may need another unit than the other.
func TestEverySizeIsReadBack(t *testing.T) {
	mixed := 0
	proptest.Run(t, 10000, func(p *gopter.Properties) {
		p.Property("a size is read back from every format, or marked and refused", prop.ForAll(func(w, h onRuler, r units.Ruler, typographic, bare, exact bool) string {
			if exact {
				r = r.Notation().Exact()
			}
			f, s := units.Format{Ruler: r, Typographic: typographic, Bare: bare}, units.Size{W: w.l, H: h.l}
			text := f.Size(s)
			unit := units.Length(0)
			if bare {
				unit = in
				if r.Notation() == units.MetricDecimal {
					unit = mm
				}
			}
			back, err := units.ParseSizeIn(text, unit)
			if strings.ContainsAny(text, "~≈") {
				if err == nil || r.Has(s.W) && r.Has(s.H) {
					return text + " is marked as rounded"
				}
				return ""
			}
			if strings.Contains(text, "mm") && (strings.Contains(text, "in") || strings.Contains(text, "″")) {
				mixed++
			}
			if err != nil || back != s {
				return text + " is read back as " + back.String()
			}
			return ""
		}, anyOnRuler(t), anyOnRuler(t), anyRuler(t), gen.Bool(), gen.Bool(), gen.Bool()))
	})
	if mixed < proptest.Cases(10000)/200 {
		t.Errorf("only %d texts of two units", mixed)
	}
	s := units.Size{W: 9 * in / 2, H: 110 * mm}
	for f, want := range map[units.Format]string{
		{Ruler: units.InchFraction.Exact()}:                                "4 1/2 in x 110 mm",
		{Ruler: units.InchDecimal.Exact()}:                                 "4.5 in x 110 mm",
		{Ruler: units.InchFraction.Exact(), Bare: true}:                    "4 1/2 in x 110 mm",
		{Ruler: units.InchFraction.Exact(), Typographic: true}:             "4½″ × 110\u00a0mm",
		{Ruler: units.InchFraction.Exact(), Typographic: true, Bare: true}: "4½″ × 110\u00a0mm",
		{Ruler: units.Sixteenths}:                                          "4 1/2 x ~4 5/16 in",
	} {
		if got := f.Size(s); got != want {
			t.Errorf("%+v: %q; want %q", f, got, want)
		}
		if got, want := f.Size(s.Turned()), strings.Replace(want, "4 1/2 in x 110 mm", "110 mm x 4 1/2 in", 1); strings.HasPrefix(want, "110") && got != want {
			t.Errorf("%+v turned: %q; want %q", f, got, want)
		}
	}
}

func FuzzForms(f *testing.F) {
	for _, c := range accepted {
		f.Add(c.text)
	}
	for _, text := range []string{"12.5 g", "3 1/2 oz", "120 g/m²", "65 lb cover", "12.5 mm²", "-0.5 in²", "nearest", "1/16 in", "none x 3 mm", "170141183460469231731687303.715884105727 mm²"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		var (
			l units.Length
			s units.Size
			a units.Area
			m units.Mass
			g units.Grammage
			r units.Ruler
			d units.Direction
			n units.Notation
			b units.BasicSize
		)
		for _, v := range []interface {
			encoding.TextUnmarshaler
			encoding.TextMarshaler
		}{&l, &s, &a, &m, &g, &r, &d, &n, &b} {
			err := v.UnmarshalText([]byte(text))
			if err != nil {
				if !errors.Is(err, units.ErrSyntax) && !errors.Is(err, units.ErrRange) && !errors.Is(err, units.ErrInexact) || len(err.Error()) > 1000 {
					t.Fatalf("%T of %q: %v", v, text, err)
				}
				continue
			}
			// What was read is written and read again to the same text.
			once, err := v.MarshalText()
			if err != nil {
				t.Fatalf("%T of %q: %v", v, text, err)
			}
			if err := v.UnmarshalText(once); err != nil {
				t.Fatalf("%T of %q is written %q and not read: %v", v, text, once, err)
			}
			if twice, _ := v.MarshalText(); !cmp.Equal(once, twice) {
				t.Fatalf("%T of %q is written %q, then %q", v, text, once, twice)
			}
		}
	})
}
