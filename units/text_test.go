package units_test

import (
	"encoding"
	"errors"
	"math"
	"strings"
	"testing"

	"boardwrap.example/units"
)

// Both text types agree with the encoding interfaces.
var (
	_ encoding.TextAppender    = units.Length(0)
	_ encoding.TextMarshaler   = units.Length(0)
	_ encoding.TextUnmarshaler = new(units.Length)
	_ encoding.TextAppender    = units.Size{}
	_ encoding.TextMarshaler   = units.Size{}
	_ encoding.TextUnmarshaler = new(units.Size)
	_ encoding.TextAppender    = units.Area{}
	_ encoding.TextMarshaler   = units.Area{}
	_ encoding.TextUnmarshaler = new(units.Area)
	_ encoding.TextAppender    = units.Mass(0)
	_ encoding.TextMarshaler   = units.Mass(0)
	_ encoding.TextUnmarshaler = new(units.Mass)
	_ encoding.TextAppender    = units.Grammage(0)
	_ encoding.TextMarshaler   = units.Grammage(0)
	_ encoding.TextUnmarshaler = new(units.Grammage)
	_ encoding.TextAppender    = units.Ruler(0)
	_ encoding.TextMarshaler   = units.Ruler(0)
	_ encoding.TextUnmarshaler = new(units.Ruler)
)

func TestFormats(t *testing.T) {
	tenth, err := units.NewRuler(in/10, units.InchFraction)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		l           units.Length
		r           units.Ruler
		ascii, typo string
	}{
		{9 * in / 2, units.Sixteenths, "4 1/2 in", "4½″"},
		{in / 2, units.Sixteenths, "1/2 in", "½″"},
		{4 * in, units.Sixteenths, "4 in", "4″"},
		{0, units.Sixteenths, "0 in", "0″"},
		{-9 * in / 2, units.Sixteenths, "-4 1/2 in", "−4½″"},
		{-in / 8, units.Eighths, "-1/8 in", "−⅛″"},
		{69 * in / 16, units.Sixteenths, "4 5/16 in", "4\u00a05⁄16″"},
		{in / 16, units.Sixteenths, "1/16 in", "1⁄16″"},
		{in / 64, units.SixtyFourths, "1/64 in", "1⁄64″"},
		{4*in + in/64, units.Sixteenths, "~4 in", "≈4″"},
		{4*in + in/32, units.Sixteenths, "~4 1/16 in", "≈4\u00a01⁄16″"},
		{-4*in - in/32, units.Sixteenths, "~-4 1/16 in", "≈−4\u00a01⁄16″"},
		{1, units.Eighths, "~0 in", "≈0″"},
		{-1, units.Eighths, "~0 in", "≈0″"},
		{3 * in / 10, tenth, "3/10 in", "3⁄10″"},
		{9 * in / 2, units.Thousandths, "4.5 in", "4.5″"},
		{units.Thou, units.Thousandths, "0.001 in", "0.001″"},
		{-3370 * units.Thou, units.Thousandths, "-3.37 in", "−3.37″"},
		{units.Thou / 2, units.Thousandths, "~0.001 in", "≈0.001″"},
		{9 * in / 2, units.InchFraction.Exact(), "4 1/2 in", "4½″"},
		{units.Thou, units.InchFraction.Exact(), "0.001 in", "0.001″"},
		{-mm, units.InchFraction.Exact(), "-1 mm", "−1\u00a0mm"},
		{9 * in / 2, units.InchDecimal.Exact(), "4.5 in", "4.5″"},
		{-mm, units.InchDecimal.Exact(), "-1 mm", "−1\u00a0mm"},
		{1143 * mm / 10, units.WholeMillimetres, "~114 mm", "≈114\u00a0mm"},
		{1143 * mm / 10, units.TenthMillimetres, "114.3 mm", "114.3\u00a0mm"},
		{1143 * mm / 10, 0, "114.3 mm", "114.3\u00a0mm"},
		{-1, 0, "-0.000001 mm", "−0.000001\u00a0mm"},
		{math.MaxInt64, 0, "9223372036854.775807 mm", "9223372036854.775807\u00a0mm"},
		{math.MinInt64 + 1, 0, "-9223372036854.775807 mm", "−9223372036854.775807\u00a0mm"},
		{units.None, 0, "none", "none"},
		{units.None, units.Sixteenths, "none", "none"},
	} {
		if got := (units.Format{Ruler: c.r}).Text(c.l); got != c.ascii {
			t.Errorf("%d on %v = %q; want %q", c.l, c.r, got, c.ascii)
		}
		if got := (units.Format{Ruler: c.r, Typographic: true}).Text(c.l); got != c.typo {
			t.Errorf("%d on %v = %q; want %q", c.l, c.r, got, c.typo)
		}
		if got := c.r.Text(c.l); got != c.ascii {
			t.Errorf("%v.Text(%d) = %q; want %q", c.r, c.l, got, c.ascii)
		}
		checkText(t, c.l, c.r)
	}
}

// checkText holds what a Format promises: a text without a mark is exact and
// is read back to the same length, a marked one is refused.
func checkText(t *testing.T, l units.Length, r units.Ruler) {
	t.Helper()
	for _, f := range []units.Format{{Ruler: r}, {Ruler: r, Typographic: true}, {Ruler: r, Bare: true}, {Ruler: r, Typographic: true, Bare: true}} {
		text := f.Text(l)
		if got := string(f.Append([]byte("before "), l)); got != "before "+text {
			t.Errorf("Append gives %q, Text %q", got, text)
		}
		unit := units.Length(0)
		if f.Bare {
			unit = in
			if !r.Valid() || r.Notation() == units.MetricDecimal {
				unit = mm
			}
		}
		marked := strings.HasPrefix(text, "~") || strings.HasPrefix(text, "≈")
		got, err := units.ParseIn(text, unit)
		exact := r.Has(l) || !r.Valid() && r.Notation() != units.MetricDecimal || l == units.None
		switch {
		case marked == exact:
			t.Errorf("%d on a step of %d is written %q", l, r.Step(), text)
		case marked && err == nil:
			t.Errorf("%q is marked as rounded and yet read", text)
		case !marked && (err != nil || got != l):
			t.Errorf("%d on a step of %d is written %q and read back as %d, %v", l, r.Step(), text, got, err)
		}
		if !f.Typographic && strings.IndexFunc(text, func(r rune) bool { return r > '~' }) >= 0 {
			t.Errorf("%q is not ASCII", text)
		}
	}
}

func TestEveryTextIsReadBack(t *testing.T) {
	rulers := append(manyRulers(t), units.Ruler(-1), units.Ruler(1<<62), units.Ruler(2<<56|3), units.Ruler(1<<56|3))
	for _, r := range rulers {
		for _, l := range interesting {
			checkText(t, units.Length(l), r)
			checkText(t, r.Nearest(units.Length(l)), r)
		}
	}
}

// A second ruler says the same once more; each text is that of its own ruler.
func TestSecondRuler(t *testing.T) {
	size := units.MustParseSize("4 1/2 x 6 5/16 in")
	for _, c := range []struct {
		f          units.Format
		text, both string
	}{
		{units.Format{Ruler: units.Sixteenths, Second: units.TenthMillimetres}, "4 1/2 in (114.3 mm)", "4 1/2 x 6 5/16 in (114.3 x ~160.3 mm)"},
		{units.Format{Ruler: units.TenthMillimetres, Second: units.Eighths, Typographic: true}, "114.3\u00a0mm (4½″)", "114.3\u00a0mm × ≈160.3\u00a0mm (4½″ × ≈6⅜″)"},
		{units.Format{Ruler: units.Sixteenths, Second: units.TenthMillimetres, Bare: true}, "4 1/2 (114.3)", "4 1/2 x 6 5/16 (114.3 x ~160.3)"},
	} {
		if got := c.f.Text(size.W); got != c.text {
			t.Errorf("%q; want %q", got, c.text)
		}
		if got := c.f.Size(size); got != c.both {
			t.Errorf("%q; want %q", got, c.both)
		}
	}
	if got := (units.Format{Second: units.Eighths}).Text(units.None); got != "none" {
		t.Errorf("none is %q", got)
	}
}

func TestSizeTexts(t *testing.T) {
	s := units.MustParseSize("4 1/2 x 6 5/16 in")
	for _, c := range []struct {
		f    units.Format
		want string
	}{
		{units.Format{Ruler: units.Sixteenths}, "4 1/2 x 6 5/16 in"},
		{units.Format{Ruler: units.Sixteenths, Typographic: true}, "4½″ × 6\u00a05⁄16″"},
		{units.Format{Ruler: units.Sixteenths, Bare: true}, "4 1/2 x 6 5/16"},
		{units.Format{Ruler: units.Eighths}, "4 1/2 x ~6 3/8 in"},
		{units.Format{}, "114.3 x 160.3375 mm"},
		{units.Format{Typographic: true}, "114.3\u00a0mm × 160.3375\u00a0mm"},
		{units.Format{Typographic: true, Bare: true}, "114.3 × 160.3375"},
	} {
		got := c.f.Size(s)
		if got != c.want || string(c.f.AppendSize([]byte("a "), s)) != "a "+c.want {
			t.Errorf("%q; want %q", got, c.want)
		}
		unit := units.Length(0)
		if c.f.Bare {
			unit = mm
			if c.f.Ruler != 0 {
				unit = in
			}
		}
		back, err := units.ParseSizeIn(got, unit)
		if strings.Contains(got, "~") {
			if err == nil {
				t.Errorf("%q is marked as rounded and yet read", got)
			}
		} else if err != nil || back != s {
			t.Errorf("%q is read back as %v, %v", got, back, err)
		}
	}
	if got := s.String(); got != "114.3 x 160.3375 mm" {
		t.Errorf("String is %q", got)
	}
	for _, w := range interesting {
		for _, h := range interesting {
			s := units.Size{W: units.Length(w), H: units.Length(h)}
			if back, err := units.ParseSize(s.String()); err != nil || back != s {
				t.Fatalf("%q is read back as %v, %v", s, back, err)
			}
		}
	}
}

func TestTextFormsOfLengthAgree(t *testing.T) {
	for _, i := range interesting {
		l := units.Length(i)
		marshalled, err := l.MarshalText()
		if err != nil || string(marshalled) != l.String() {
			t.Errorf("MarshalText(%d) = %q, %v; String %q", i, marshalled, err, l)
		}
		appended, err := l.AppendText([]byte("x"))
		if err != nil || string(appended) != "x"+l.String() {
			t.Errorf("AppendText(%d) = %q, %v; String %q", i, appended, err, l)
		}
		back := units.Length(42)
		if err := back.UnmarshalText(marshalled); err != nil || back != l {
			t.Errorf("UnmarshalText(%q) = %d, %v", marshalled, back, err)
		}
	}
	for _, c := range accepted {
		var l units.Length
		if err := l.UnmarshalText([]byte(c.text)); err != nil || l != c.want {
			t.Errorf("UnmarshalText(%q) = %v, %v; want %v", c.text, l, err, c.want)
		}
	}
	for _, c := range refused {
		l := units.Length(42)
		var pe *units.ParseError
		if err := l.UnmarshalText([]byte(c.text)); !errors.As(err, &pe) || l != 42 {
			t.Errorf("UnmarshalText(%q) = %v, %v; want a ParseError and the length left alone", c.text, l, err)
		}
	}
}

func TestTextFormsOfRulerAgree(t *testing.T) {
	texts := map[string]units.Ruler{}
	for _, r := range manyRulers(t) {
		checkRuler(t, r)
		if other, ok := texts[r.String()]; ok {
			t.Errorf("%q is the text of two rulers: %d and %d", r, r, other)
		}
		texts[r.String()] = r
	}
	for r, want := range map[units.Ruler]string{
		0: "exact", units.InchFraction.Exact(): "exact inch fractions", units.InchDecimal.Exact(): "exact inch decimals", units.Eighths: "1/8 in", units.Sixteenths: "1/16 in", units.ThirtySeconds: "1/32 in", units.SixtyFourths: "1/64 in",
		units.Thousandths: "0.001 in", units.WholeMillimetres: "1 mm", units.HalfMillimetres: "0.5 mm", units.TenthMillimetres: "0.1 mm",
		-1: "invalid ruler", 1 << 62: "invalid ruler", 2<<56 | 3: "invalid ruler",
	} {
		if r.String() != want {
			t.Errorf("%q; want %q", r, want)
		}
	}
	for _, r := range []units.Ruler{-1, 1 << 62, 2<<56 | 3, 3 << 56, 3<<56 | 1, units.Ruler(units.Longest) + 1} {
		if r.Valid() {
			t.Errorf("ruler %d is valid", r)
		}
		if text, err := r.MarshalText(); text != nil || !errors.Is(err, units.ErrRuler) {
			t.Errorf("MarshalText of an invalid ruler = %q, %v", text, err)
		}
		if text, err := r.AppendText([]byte("x")); string(text) != "x" || !errors.Is(err, units.ErrRuler) {
			t.Errorf("AppendText of an invalid ruler = %q, %v", text, err)
		}
	}
}

func checkRuler(t *testing.T, r units.Ruler) {
	t.Helper()
	marshalled, err := r.MarshalText()
	if err != nil || string(marshalled) != r.String() {
		t.Errorf("MarshalText(%d) = %q, %v; String %q", r, marshalled, err, r)
	}
	appended, err := r.AppendText([]byte("x"))
	if err != nil || string(appended) != "x"+r.String() {
		t.Errorf("AppendText(%d) = %q, %v; String %q", r, appended, err, r)
	}
	back := units.Ruler(42)
	if err := back.UnmarshalText(marshalled); err != nil || back != r {
		t.Errorf("UnmarshalText(%q) = %d, %v; want %d", marshalled, back, err, r)
	}
}

func TestRulerReadsWhatAPersonWrites(t *testing.T) {
	whole, _ := units.NewRuler(in, units.InchFraction)
	for text, want := range map[string]units.Ruler{
		`1/16"`: units.Sixteenths, "1⁄16″": units.Sixteenths, "⅛ in": units.Eighths, "⅛ in.": units.Eighths, "1/64 inch": units.SixtyFourths,
		`0.001"`: units.Thousandths, ".001 inches": units.Thousandths, "0.05 cm": units.HalfMillimetres, "½ mm": units.HalfMillimetres, `1"`: whole,
		"500 µm": units.HalfMillimetres,
	} {
		var r units.Ruler
		if err := r.UnmarshalText([]byte(text)); err != nil || r != want {
			t.Errorf("%q is %v, %v; want %v", text, r, err, want)
		}
	}
	for text, at := range map[string]int{
		"": 0, "Exact": 0, "exact ": 0, "0 mm": 0, "-1 mm": 1, "1/16": 4, "1 ft": 0, `1' 2"`: 0, "11 m": 0, "3/16 in": 0, "0.0001 mm": -1, "1/16 in, 1/8 in": 7, "~1 mm": 0,
	} {
		r := units.Ruler(42)
		err := r.UnmarshalText([]byte(text))
		var pe *units.ParseError
		switch {
		case at < 0:
			if err != nil {
				t.Errorf("%q: %v", text, err)
			}
		case !errors.As(err, &pe) || r != 42:
			t.Errorf("%q is %v, %v; want a ParseError and the ruler left alone", text, r, err)
		case pe.Offset != at:
			t.Errorf("%q is refused at byte %d; want %d: %v", text, pe.Offset, at, err)
		default:
			checkQuotes(t, pe)
		}
	}
}
