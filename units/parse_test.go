package units_test

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/units"
)

const in, ft, mm, cm, m, um = units.Inch, units.Foot, units.Millimetre, units.Centimetre, units.Metre, units.Micrometre

var accepted = []struct {
	text string
	want units.Length
}{
	{"4 1/2 in", 9 * in / 2},
	{`4-1/2"`, 9 * in / 2},
	{`4 1/2"`, 9 * in / 2},
	{`4½"`, 9 * in / 2},
	{"4½″", 9 * in / 2},
	{"4 ½ in", 9 * in / 2},
	{"4-½ in", 9 * in / 2},
	{"4½”", 9 * in / 2},
	{"4½''", 9 * in / 2},
	{"4½′′", 9 * in / 2},
	{"½ in", in / 2},
	{"⅜″", 3 * in / 8},
	{"⅒ in", in / 10},
	{"⅕ in", in / 5},
	{"⅓ ft", 4 * in},
	{"⅔ ft", 8 * in},
	{"1⅚ ft", 22 * in},
	{".5in", in / 2},
	{"0.5 in", in / 2},
	{"4. in", 4 * in},
	{"1/2 in", in / 2},
	{"11/2 in", 11 * in / 2},
	{"1⁄2 in", in / 2},
	{"4 1⁄2 in", 9 * in / 2},
	{"4\u00a05⁄16″", 69 * in / 16},
	{"4 0/2 in", 4 * in},
	{"15/64 in", 15 * in / 64},
	{"1/25400000 in", 1},
	{"4.5 inches", 9 * in / 2},
	{"1 inch", in},
	{"6 in.", 6 * in},
	{`1' 2 1/2"`, 29 * in / 2},
	{`1'2 1/2"`, 29 * in / 2},
	{`1'-2 1/2"`, 29 * in / 2},
	{`1' - 2 1/2"`, 29 * in / 2},
	{"1′ 2½″", 29 * in / 2},
	{"1’ 2½”", 29 * in / 2},
	{"2 ft 6 in", 30 * in},
	{"2 ft. 6 in.", 30 * in},
	{`10'6"`, 126 * in}, // carpenters' and sellers' ways to write feet
	{"10'6", 126 * in},
	{"10' 6 1/2", 253 * in / 2},
	{"1' 2", 14 * in},
	{"1'-2", 14 * in},
	{"1′2½", 29 * in / 2},
	{"10'0", 120 * in},
	{"2 FT 6 IN", 30 * in},
	{"1 IN", in},
	{"4 In.", 4 * in},
	{"4 MM", 4 * mm},
	{"1 CM", cm},
	{"2 Inches", 2 * in},
	{"2 M", 2 * m},
	{"24 pt", 24 * units.Thou}, // the caliper of board
	{"24 PT.", 24 * units.Thou},
	{"1 point", units.Thou},
	{"98 points", 98 * units.Thou},
	{"30 pts", 30 * units.Thou},
	{"62.5 pt", in / 16},
	{"31 thou", 31 * units.Thou},
	{"10 mil", 10 * units.Thou},
	{"10 mils", 10 * units.Thou},
	{"2 centimetres", 2 * cm},
	{"1 centimeter", cm},
	{"1 metre", m},
	{"2 meters", 2 * m},
	{"17 micrometres", 17 * um},
	{"1 micrometer", um},
	{"3 nanometers", 3},
	{"none", units.None},
	{" None ", units.None},
	{"2ft6in", 30 * in},
	{`3' .5"`, 73 * in / 2},
	{"1 foot", ft},
	{"3 feet", 3 * ft},
	{"1 1/2 ft", 18 * in},
	{"1.5'", 18 * in},
	{`0' 11 63/64"`, 767 * in / 64},
	{"114.3 mm", 1143 * mm / 10},
	{"114,3 mm", 1143 * mm / 10}, // ISO 80000-1: a comma or a point
	{"11,43cm", 1143 * mm / 10},
	{"4,50 in", 9 * in / 2},
	{"0,125 in", in / 8}, // no thousands begin with 0, nor have four figures in front
	{"1250,125 mm", 1250125 * um},
	{"0,0635 in", 635 * in / 10000},
	{"1,2500 in", 5 * in / 4},
	{`1' 2,5"`, 29 * in / 2},
	{"1'2,5", 29 * in / 2},
	{"12,7 pt", 127 * units.Thou / 10},
	{"11.43cm", 1143 * mm / 10},
	{"0.1143 m", 1143 * mm / 10},
	{"250 µm", mm / 4}, // the micro sign
	{"250 μm", mm / 4}, // the Greek letter
	{"250um", mm / 4},
	{"17 nm", 17},
	{"1/4 mm", mm / 4},
	{"1 millimetre", mm},
	{"2 millimetres", 2 * mm},
	{"2 millimeters", 2 * mm},
	{"1 millimeter", mm},
	{"  12\u202fmm\t", 12 * mm},
	{"12\u2009mm", 12 * mm},
	{"-3 mm", -3 * mm},
	{"−3 mm", -3 * mm},
	{"- 3 mm", -3 * mm},
	{"+3 mm", 3 * mm},
	{"-0 mm", 0},
	{`-1' 2"`, -14 * in},
	{"007 mm", 7 * mm},
	{"1.50000000000000000000000000000000 mm", 3 * mm / 2},
	{"0.000001 mm", 1},
	{"9223372036854775807 nm", math.MaxInt64},
	{"9223372036854.775807 mm", math.MaxInt64},
	{"-9223372036854.775808 mm", math.MinInt64},
	{"-9223372036854775808 nm", math.MinInt64},
}

func TestParseAccepts(t *testing.T) {
	for _, c := range accepted {
		got, err := units.Parse(c.text)
		if err != nil || got != c.want {
			t.Errorf("Parse(%q) = %v, %v; want %v", c.text, got, err, c.want)
		}
		// A unit in the text wins over the caller's.
		if got, err := units.ParseIn(c.text, units.Micrometre); err != nil || got != c.want {
			t.Errorf("ParseIn(%q, µm) = %v, %v; want %v", c.text, got, err, c.want)
		}
		if got := units.MustParse(c.text); got != c.want {
			t.Errorf("MustParse(%q) = %v; want %v", c.text, got, c.want)
		}
	}
}

var refused = []struct {
	text   string
	at     int
	reason string // part of what the error says
}{
	{"", 0, "number"},
	{"   ", 3, "number"},
	{"in", 0, "number"},
	{"mm 4", 0, "number"},
	{"-", 1, "number"},
	{"--4 in", 1, "number"},
	{"+-4 in", 1, "number"},
	{".", 0, "number"},
	{". in", 0, "number"},
	{"/2 in", 0, "number"},
	{"4", 1, "unit"},
	{"4 1/2", 5, "unit"},
	{"4½", 3, "unit"},
	{"4 furlong", 2, "unit"},
	{"4 inn", 2, "unit"},
	{"4 mmm", 2, "unit"},
	{"1e3 mm", 1, "unit"},
	{"0x10 mm", 1, "unit"},
	{"4 1/2 1/2 in", 6, "follow"},
	{"4 .5 in", 2, "follow"},
	{"4⁄½ in", 4, "below the line"},
	{"4/½ in", 2, "below the line"},
	{"½⁄4 in", 2, "complete"},
	{"4½½ in", 3, "complete"},
	{"4½/2 in", 3, "complete"},
	{"4½.5 in", 3, "complete"},
	{"4.½ in", 2, "complete"},
	{"½4 in", 2, "complete"},
	{"1/2/3 in", 3, "complete"},
	{"1/2.5 in", 3, "complete"},
	{"1/2½ in", 3, "complete"},
	{"4.5.6 in", 3, "complete"},
	{"4.5/6 in", 3, "complete"},
	{"4 2/2 in", 2, "below one"},
	{"4 11/8 in", 2, "below one"},
	{"1/0 in", 2, "0 below"},
	{"4 1/0 in", 4, "0 below"},
	{"1/ in", 2, "below the line"},
	{"1/-2 in", 2, "below the line"},
	{"4 1/ in", 4, "below the line"},
	{"4 3 in", 2, "fraction must follow"},
	{"1 000 mm", 2, "fraction must follow"},
	{"4-6 in", 2, "fraction must follow"},
	{"4 6.5 in", 2, "fraction must follow"},
	{"1,000 mm", 1, "thousands or decimals"},
	{"999,125 in", 3, "thousands or decimals"},
	{"1,000,000 mm", 1, "thousands or decimals"},
	{"1,000.5 mm", 1, "thousands or decimals"},
	{"1,50.5 mm", 4, "complete"},
	{"1,5,5 mm", 3, "complete"},
	{"10, 5 mm", 2, "decimals"},
	{"10,mm", 2, "decimals"},
	{"10 ,5 mm", 3, "follow"},
	{",5 mm", 0, "number"},
	{"1/2,5 in", 3, "complete"},
	{"4 1/2,5 in", 5, "complete"},
	{"4,1/2 in", 3, "complete"},
	{"1'2,250", 3, "thousands or decimals"},
	{"1.000,5 mm", 5, "complete"},
	{"1/3 in", 0, "whole number of nanometres"},
	{"1/128 in", 0, "whole number of nanometres"},
	{"0.0000001 in", 0, "whole number of nanometres"},
	{"  0.0000001 mm", 2, "whole number of nanometres"},
	{"1.5 nm", 0, "whole number of nanometres"},
	{"0.00000000000000001 m", 0, "digits"},
	{"1.2345678901234567 m", 0, "digits"},
	{"0.000000000001 m", 0, "whole number of nanometres"}, // twelve decimals are read
	{"0.0000000000001 m", 0, "digits"},
	{"99999999999999999999 mm", 0, "digits"},
	{"4 1/99999999999999999999 in", 4, "digits"},
	{"1/1000000001 in", 0, "digits"},
	{"9223372036854775808 nm", 0, "too long"},
	{"-9223372036854775809 nm", 1, "too long"},
	{"9223372037 m", 0, "too long"},
	{"18446744073709551615 1/2 in", 0, "too long"},
	{`30260408257' 11"`, 0, "too long"},
	{`1' -2"`, 3, "follow"},
	{`1'- 2"`, 2, "follow"},
	{"~4 1/2 in", 0, "rounded"},
	{" ≈4½″", 1, "rounded"},
	{"4 in 3 mm", 5, "follow"},
	{"4 mm x", 5, "follow"},
	{"4 in²", 4, "follow"},
	{"4 in x 6 in", 5, "follow"},
	{`1' 12"`, 3, "fewer than 12"},
	{`1' 99/8"`, 3, "fewer than 12"},
	{`1' 2 mm`, 5, "only inches"},
	{`1'000`, 5, "only inches"}, // a thousand, to some
	{`1'234`, 5, "only inches"},
	{`1' 12`, 3, "fewer than 12"},
	{`1' 2 x`, 5, "follow"},
	{"4 kpt", 2, "unit"},
	{"4 milli", 2, "unit"},
	{"4 ptx", 4, "follow"},
	{"4 MMM", 2, "unit"},
	{"none mm", 5, "follow"},
	{"nonesuch", 4, "unit"},
	{"-none", 1, "number"},
	{`1' 2'`, 4, "only inches"},
	{`1'000 mm`, 6, "only inches"},
	{`1.5' 2"`, 0, "whole number"},
	{`1/2' 2"`, 0, "whole number"},
	{`1' 2½½"`, 6, "complete"},
	{"4\x00in", 1, "follow"},
	{"4\xffin", 1, "follow"},
	{"\xff", 0, "number"},
	{"４ mm", 0, "number"}, // full-width digit
	{"٤ mm", 0, "number"}, // Arabic-Indic digit
	{"NaN mm", 0, "number"},
	{"Inf mm", 0, "number"},
	{"4\nin", 1, "follow"},
}

func TestParseRefuses(t *testing.T) {
	for _, c := range refused {
		l, err := units.Parse(c.text)
		var pe *units.ParseError
		if !errors.As(err, &pe) {
			t.Errorf("Parse(%q) = %v, %v; want a ParseError", c.text, l, err)
			continue
		}
		if l != 0 || pe.Input != c.text || pe.Offset != c.at || !strings.Contains(pe.Problem, c.reason) {
			t.Errorf("Parse(%q) = %v at byte %d: %s; want byte %d: %s", c.text, l, pe.Offset, pe.Problem, c.at, c.reason)
		}
		checkQuotes(t, pe)
	}
}

func checkQuotes(t *testing.T, pe *units.ParseError) {
	t.Helper()
	text := pe.Error()
	if !strings.Contains(text, strconv.Quote(pe.Input)) || !strings.Contains(text, "at byte "+strconv.Itoa(pe.Offset)) || !strings.Contains(text, pe.Problem) {
		t.Errorf("the error does not quote the input, the place and the problem: %s", text)
	}
	if pe.Offset < len(pe.Input) && !strings.Contains(text, strconv.Quote(pe.Input[pe.Offset:])) {
		t.Errorf("the error does not show what stands at the place: %s", text)
	}
}

func TestParseErrorOfAnything(t *testing.T) {
	long := strings.Repeat("7", 100_000) + " in"
	_, err := units.Parse(long)
	if err == nil || len(err.Error()) > 400 {
		t.Errorf("an error of %d bytes", len(err.Error()))
	}
	for _, offset := range []int{-5, 0, 3, 4, 99} {
		e := &units.ParseError{Input: "4 in", Offset: offset, Problem: "nothing"}
		if !strings.Contains(e.Error(), `"4 in"`) {
			t.Errorf("%s", e)
		}
	}
}

func TestBareNumbersNeedTheirCaller(t *testing.T) {
	for _, c := range []struct {
		text string
		unit units.Length
		want units.Length
	}{{"4 1/2", in, 9 * in / 2}, {"114.3", mm, 1143 * mm / 10}, {"-½", in, -in / 2}, {"4", 0, 0}, {"3", -mm, -3 * mm}} {
		got, err := units.ParseIn(c.text, c.unit)
		if (err == nil) != (c.unit != 0) || got != c.want {
			t.Errorf("ParseIn(%q, %v) = %v, %v; want %v", c.text, c.unit, got, err, c.want)
		}
	}
	for _, c := range refused {
		if _, err := units.ParseIn(c.text, in); err == nil && !slices.Contains([]string{"4", "4 1/2", "4½"}, c.text) {
			t.Errorf("ParseIn(%q, in) is accepted", c.text)
		}
	}
}

func TestMustParsePanics(t *testing.T) {
	for name, f := range map[string]func(){
		"MustParse":     func() { units.MustParse("4") },
		"MustParseSize": func() { units.MustParseSize("4 x 6") },
	} {
		func() {
			defer func() {
				if _, ok := recover().(*units.ParseError); !ok {
					t.Errorf("%s does not panic with its error", name)
				}
			}()
			f()
		}()
	}
}

func TestParseSize(t *testing.T) {
	size := units.Size{W: 9 * in / 2, H: 25 * in / 4}
	for _, text := range []string{
		"4 1/2 x 6 1/4 in", `4 1/2" x 6 1/4"`, "4½″ × 6¼″", "4½×6¼″", "4.5x6.25in", "4 1/2 by 6 1/4 in", "4-1/2 X 6-1/4 in",
		"4 1/2 in x 6 1/4", `4½" × 6¼`, "114.3 mm x 158.75", "4 1/2 IN X 6 1/4 IN", "4 1/2 BY 6 1/4 IN", "4500 x 6250 thou",
		"114.3 x 158.75 mm", "11.43 cm x 158.75 mm", "114.3mmx158.75mm", "4.5inx6.25in", "4.5 inby 6.25 in", " 4½ x 6¼ in ",
	} {
		if got, err := units.ParseSize(text); err != nil || got != size {
			t.Errorf("ParseSize(%q) = %v, %v; want %v", text, got, err, size)
		}
		// Texts with a unit mean the same to every caller.
		if got, err := units.ParseSizeIn(text, mm); err != nil || got != size {
			t.Errorf("ParseSizeIn(%q, mm) = %v, %v; want %v", text, got, err, size)
		}
		if got := units.MustParseSize(text); got != size {
			t.Errorf("MustParseSize(%q) = %v", text, got)
		}
	}
	for text, want := range map[string]units.Size{
		"-4 x 6 in":     {W: -4 * in, H: 6 * in},
		"2 x 3 ft":      {W: 2 * ft, H: 3 * ft},
		`1' 2" x 3' 4"`: {W: 14 * in, H: 40 * in},
		"0x10 mm":       {W: 0, H: 10 * mm},
		"4mx6m":         {W: 4 * m, H: 6 * m},
		"250 x 300 µm":  {W: 250 * um, H: 300 * um},
		"1 x 2 cm":      {W: cm, H: 2 * cm},
		"2 ft x 3":      {W: 2 * ft, H: 3 * ft},
		"10'6 x 3'":     {W: 126 * in, H: 3 * ft},
		"none x 3 mm":   {W: units.None, H: 3 * mm},
		"3 mm x none":   {W: 3 * mm, H: units.None},
	} {
		if got, err := units.ParseSize(text); err != nil || got != want {
			t.Errorf("ParseSize(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
	if got, err := units.ParseSizeIn("4 1/2 x 6 1/4", in); err != nil || got != size {
		t.Errorf("ParseSizeIn of bare numbers = %v, %v; want %v", got, err, size)
	}
}

func TestParseSizeRefuses(t *testing.T) {
	for _, c := range []struct {
		text   string
		at     int
		reason string
	}{
		{"", 0, "number"},
		{"4 in", 4, "x between"},
		{"4 x", 3, "number"},
		{"x 6 in", 0, "number"},
		{"4 x 6", 1, "unit"},
		{"4 furlong x 6 in", 2, "unit"},
		{"4 x 6 furlong", 6, "follow"},
		{"4 x 6 in x 8 in", 9, "follow"},
		{`2 x 3' 6"`, 1, "unit"},
		{`3' 6" x 2`, 9, "unit"},
		{"3'6 x 2", 7, "unit"},
		{"none x 2", 8, "unit"},
		{"2 x none", 1, "unit"},
		{"4 x ~6 in", 4, "rounded"},
		{"~4 x 6 in", 0, "rounded"},
		{"1/3 x 6 in", 0, "whole number of nanometres"},
		{"4 x 1/3 in", 4, "whole number of nanometres"},
		{"4 * 6 in", 2, "x between"},
		{"4 1/2 6 in", 6, "x between"},
	} {
		got, err := units.ParseSize(c.text)
		var pe *units.ParseError
		if !errors.As(err, &pe) {
			t.Errorf("ParseSize(%q) = %v, %v; want a ParseError", c.text, got, err)
			continue
		}
		if got != (units.Size{}) || pe.Input != c.text || pe.Offset != c.at || !strings.Contains(pe.Problem, c.reason) {
			t.Errorf("ParseSize(%q) = %v at byte %d: %s; want byte %d: %s", c.text, got, pe.Offset, pe.Problem, c.at, c.reason)
		}
		checkQuotes(t, pe)
	}
}

func TestLengthVectors(t *testing.T) {
	var file struct {
		Vectors []struct {
			A, B, Source string
			NM           int64
		}
	}
	readVectors(t, "lengths.json", &file)
	for _, v := range file.Vectors {
		for _, text := range []string{v.A, v.B} {
			if got, err := units.Parse(text); err != nil || int64(got) != v.NM {
				t.Errorf("%s = %d nm, %v; want %d (%s)", text, got, err, v.NM, v.Source)
			}
		}
	}
	if len(file.Vectors) == 0 {
		t.Error("no vectors")
	}
}

// ISO 216:2007: each size is the one before with its long side halved, the
// half cut down to the millimetre.
func TestISO216(t *testing.T) {
	var file struct {
		Series []struct {
			Name, First, Source string
			Sizes               []string
		}
	}
	readVectors(t, "iso216.json", &file)
	if len(file.Series) != 2 {
		t.Fatalf("%d series", len(file.Series))
	}
	for _, s := range file.Series {
		size := units.MustParseSize(s.First)
		for n, text := range s.Sizes {
			if want := units.MustParseSize(text); size != want {
				t.Errorf("%s%d = %v; want %v (%s)", s.Name, n, size, want, s.Source)
			}
			size = units.Size{W: units.WholeMillimetres.Down(size.H.Half(units.Down)), H: size.W}
		}
	}
}

func TestSizesPublishedTwice(t *testing.T) {
	var file struct {
		Vectors []struct{ Name, Inches, Metric, Step, Source string }
	}
	readVectors(t, "sizes.json", &file)
	if len(file.Vectors) == 0 {
		t.Fatal("no vectors")
	}
	for _, v := range file.Vectors {
		var r units.Ruler
		if err := r.UnmarshalText([]byte(v.Step)); err != nil {
			t.Fatal(err)
		}
		s := units.MustParseSize(v.Inches)
		got := units.Size{W: r.Nearest(s.W), H: r.Nearest(s.H)}
		if got != units.MustParseSize(v.Metric) {
			t.Errorf("%s: %s is %v; want %s (%s)", v.Name, v.Inches, got, v.Metric, v.Source)
		}
	}
}
