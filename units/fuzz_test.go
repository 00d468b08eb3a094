package units_test

import (
	"errors"
	"testing"

	"boardwrap.example/units"
)

// wellFormed checks the error of a reader: nothing was returned, and it says
// what and where.
func wellFormed(t *testing.T, text string, err error) {
	t.Helper()
	var pe *units.ParseError
	if !errors.As(err, &pe) {
		t.Fatalf("reading %q gives a %T", text, err)
	}
	if pe.Input != text || pe.Offset < 0 || pe.Offset > len(text) || pe.Problem == "" || pe.Error() == "" {
		t.Fatalf("reading %q gives %+v", text, pe)
	}
}

func addTexts(f *testing.F) {
	for _, c := range accepted {
		f.Add(c.text)
	}
	for _, c := range refused {
		f.Add(c.text)
	}
}

func FuzzParse(f *testing.F) {
	addTexts(f)
	f.Fuzz(func(t *testing.T, text string) {
		l, err := units.Parse(text)
		if err != nil {
			if l != 0 {
				t.Fatalf("an error and a length: %d, %v", l, err)
			}
			wellFormed(t, text, err)
			return
		}
		// What was read is written and read again, on every kind of ruler.
		for _, r := range []units.Ruler{0, units.SixtyFourths, units.Thousandths, units.HalfMillimetres} {
			checkText(t, l, r)
		}
		// A text with a unit means the same to every caller.
		if again, err := units.ParseIn(text, units.Micrometre); err != nil || again != l {
			t.Fatalf("ParseIn(%q) = %d, %v; Parse %d", text, again, err, l)
		}
		// Nothing is dropped: one more digit in front is another length, or an
		// error, unless the text starts with something else.
		if text[0] >= '1' && text[0] <= '9' {
			if more, err := units.Parse("9" + text); err == nil && more == l {
				t.Fatalf("%q and 9%q are both %d", text, text, l)
			}
		}
	})
}

func FuzzFormat(f *testing.F) {
	for _, l := range interesting {
		for _, r := range manyRulers(f) {
			f.Add(l, int64(r))
		}
		f.Add(l, l)
	}
	f.Fuzz(func(t *testing.T, l, r int64) {
		checkText(t, units.Length(l), units.Ruler(r))
		checkText(t, units.Ruler(r).Nearest(units.Length(l)), units.Ruler(r))
	})
}

func FuzzParseSize(f *testing.F) {
	addTexts(f)
	for _, text := range []string{"4 1/2 x 6 1/4 in", "4½″ × 6¼″", "-4 by 6 in", "4 x 6", `2 x 3' 6"`, "4 in x 6", "0x10 mm"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := units.ParseSize(text)
		if err != nil {
			if s != (units.Size{}) {
				t.Fatalf("an error and a size: %v, %v", s, err)
			}
			wellFormed(t, text, err)
			return
		}
		if again, err := units.ParseSizeIn(text, units.Micrometre); err != nil || again != s {
			t.Fatalf("ParseSizeIn(%q) = %v, %v; ParseSize %v", text, again, err, s)
		}
		for _, format := range []units.Format{{}, {Typographic: true}, {Ruler: units.SixtyFourths}, {Ruler: units.SixtyFourths, Typographic: true}} {
			back, err := units.ParseSize(format.Size(s))
			exact := format.Ruler.Has(s.W) && format.Ruler.Has(s.H)
			if exact != (err == nil) || exact && back != s {
				t.Fatalf("%v is written %q and read back as %v, %v", s, format.Size(s), back, err)
			}
		}
	})
}

func FuzzRuler(f *testing.F) {
	addTexts(f)
	for _, r := range manyRulers(f) {
		f.Add(r.String())
	}
	f.Fuzz(func(t *testing.T, text string) {
		var r units.Ruler
		if err := r.UnmarshalText([]byte(text)); err != nil {
			if r != 0 {
				t.Fatalf("an error and a ruler: %v, %v", r, err)
			}
			wellFormed(t, text, err)
			return
		}
		if !r.Valid() {
			t.Fatalf("%q makes an invalid ruler %d", text, r)
		}
		checkRuler(t, r)
	})
}
