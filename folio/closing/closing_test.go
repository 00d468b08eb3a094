package closing_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio/closing"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

const (
	in = units.Inch
	mm = units.Millimetre
)

// Defaults are the values of common practice, in the notation of the plan; no
// source is published.
func TestDefaults(t *testing.T) {
	for _, c := range []struct {
		name   string
		n      units.Notation
		given  closing.Allowance
		filled closing.Allowance
	}{
		{"inches", units.InchFraction, closing.Allowance{},
			closing.Allowance{Ease: in / 32, Adhesive: closing.AdhesiveFilm{Caliper: mm / 10, TapeWidth: in / 4}}},
		{"millimetres", units.MetricDecimal, closing.Allowance{},
			closing.Allowance{Ease: mm, Adhesive: closing.AdhesiveFilm{Caliper: mm / 10, TapeWidth: 6 * mm}}},
		{"glue is no film", units.MetricDecimal, closing.Allowance{Adhesive: closing.AdhesiveFilm{Glue: true}},
			closing.Allowance{Ease: mm, Adhesive: closing.AdhesiveFilm{Glue: true, TapeWidth: 6 * mm}}},
		{"what is given stays", units.MetricDecimal, closing.Allowance{Ease: units.None, UnderFlap: 2 * mm, Adhesive: closing.AdhesiveFilm{Caliper: units.None, TapeWidth: mm}},
			closing.Allowance{Ease: units.None, UnderFlap: 2 * mm, Adhesive: closing.AdhesiveFilm{Caliper: units.None, TapeWidth: mm}}},
	} {
		got := c.given
		if got.Fill(c.n); got != c.filled {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.filled)
		}
	}
	none, two := closing.Magnets{}, closing.Magnets{Diameter: 8 * mm, Thickness: mm}
	none.Fill(units.InchFraction)
	two.Fill(units.InchFraction)
	if none.Given() || none != (closing.Magnets{}) {
		t.Errorf("no magnets became %+v", none)
	}
	if want := (closing.Magnets{Diameter: 8 * mm, Thickness: mm, Pairs: 2, Inset: in / 4}); !two.Given() || two != want {
		t.Errorf("magnets are %+v, want %+v", two, want)
	}
	metric := closing.Magnets{Diameter: 8 * mm, Thickness: mm, Pairs: 1}
	if metric.Fill(units.MetricDecimal); metric.Pairs != 1 || metric.Inset != 6*mm {
		t.Errorf("metric magnets are %+v, want 6 mm from the edge", metric)
	}
}

func TestChecks(t *testing.T) {
	tape := closing.AdhesiveFilm{TapeWidth: mm}
	magnets := func(pairs int, inset units.Length) closing.Magnets {
		return closing.Magnets{Diameter: mm, Thickness: mm, Pairs: pairs, Inset: inset}
	}
	n := units.MetricDecimal
	for _, c := range []struct {
		name string
		err  error
		want []string
	}{
		{"nothing to leave", closing.Allowance{Adhesive: tape}.Check(n), nil},
		{"most of everything", closing.Allowance{Ease: units.Longest, UnderFlap: units.Longest, Adhesive: closing.AdhesiveFilm{Caliper: units.Longest, TapeWidth: units.Longest}}.Check(n), nil},
		{"less than nothing", closing.Allowance{Ease: -1, UnderFlap: -1, Adhesive: closing.AdhesiveFilm{Caliper: -1}}.Check(n),
			[]string{"ease: negative", "adhesive.caliper: negative", "adhesive.tapewidth: not-positive", "underflap: negative"}},
		{"too much", closing.Allowance{Ease: units.Longest + 1, Adhesive: tape}.Check(n), []string{"ease: out-of-range"}},
		{"no magnets", closing.Magnets{}.Check(n), nil},
		{"a pair", magnets(1, 0).Check(n), nil},
		{"the usual pairs", magnets(0, 0).Check(n), nil},
		{"a hundred pairs", magnets(100, mm).Check(n), nil},
		{"more", magnets(101, mm).Check(n), []string{"pairs: out-of-range"}},
		{"fewer than none", magnets(-1, -1).Check(n), []string{"inset: negative", "pairs: out-of-range"}},
		{"only pairs", closing.Magnets{Pairs: 2}.Check(n), []string{"diameter: not-positive", "thickness: not-positive"}},
	} {
		var got []string
		if bad := (*check.Error)(nil); errors.As(c.err, &bad) {
			for v := range bad.All() {
				got = append(got, v.Path+": "+string(v.Code))
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// What is wrong is told as the plan writes lengths.
func TestTextsOfChecks(t *testing.T) {
	for n, want := range map[units.Notation]string{units.InchFraction: " in", units.MetricDecimal: " mm"} {
		for _, err := range []error{
			closing.Allowance{Ease: 11 * units.Metre, Adhesive: closing.AdhesiveFilm{TapeWidth: mm}}.Check(n),
			closing.Magnets{Diameter: 11 * units.Metre, Thickness: mm}.Check(n),
		} {
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("in %v it says %v", n, err)
			}
		}
	}
}
