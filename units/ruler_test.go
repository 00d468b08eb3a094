package units_test

import (
	"errors"
	"math"
	"math/big"
	"slices"
	"testing"

	"boardwrap.example/units"
)

// manyRulers are the usual rulers and odd ones of each notation.
func manyRulers(t testing.TB) []units.Ruler {
	rulers := []units.Ruler{
		0, units.Eighths, units.Sixteenths, units.ThirtySeconds, units.SixtyFourths, units.Thousandths,
		units.WholeMillimetres, units.HalfMillimetres, units.TenthMillimetres,
		units.InchFraction.Exact(), units.InchDecimal.Exact(),
	}
	for _, c := range []struct {
		step units.Length
		n    units.Notation
	}{
		{1, units.MetricDecimal}, {7, units.MetricDecimal}, {units.Longest, units.MetricDecimal}, {units.Inch / 16, units.MetricDecimal},
		{units.Inch / 127, units.InchFraction}, {units.Inch / 10, units.InchFraction}, {units.Inch, units.InchFraction},
		{2 * units.Inch, units.InchFraction}, {393 * units.Inch, units.InchFraction},
		{127, units.InchDecimal}, {units.Inch / 8, units.InchDecimal}, {units.Inch, units.InchDecimal}, {12 * units.Inch, units.InchDecimal},
		{units.Inch * 3 / 2, units.InchDecimal},
	} {
		r, err := units.NewRuler(c.step, c.n)
		if err != nil {
			t.Fatalf("NewRuler(%d, %d): %v", c.step, c.n, err)
		}
		if r.Step() != c.step || r.Notation() != c.n || !r.Valid() {
			t.Errorf("NewRuler(%d, %d) has step %d, notation %d, valid %t", c.step, c.n, r.Step(), r.Notation(), r.Valid())
		}
		rulers = append(rulers, r)
	}
	return rulers
}

// There is one exact ruler of each notation, however it is come by, and on it a
// length has one text.
func TestOneExactRuler(t *testing.T) {
	for _, n := range []units.Notation{units.InchFraction, units.InchDecimal} {
		r, err := units.NewRuler(1, n)
		if err != nil || r != n.Exact() || !r.Valid() || r.Step() != 1 {
			t.Errorf("NewRuler(1, %v) = %v, %v", n, r, err)
		}
	}
	l := 91 * units.Inch / 10_000
	for r, want := range map[units.Ruler]string{units.InchFraction.Exact(): "0.0091 in", units.InchDecimal.Exact(): "0.0091 in", 0: "0.23114 mm"} {
		if got := r.Text(l); got != want {
			t.Errorf("%v on %v; want %s", got, r, want)
		}
	}
	if r, err := units.NewRuler(1, units.MetricDecimal); err != nil || r == 0 || r.Text(l) != "0.23114 mm" || r.Text(1) != "0.000001 mm" {
		t.Errorf("%v, %v", r, err)
	}
	for _, r := range []units.Ruler{1 | 1<<56, 1 | 2<<56} { // made by hand
		if r.Valid() {
			t.Errorf("Ruler(%d) is valid, another exact one", r)
		}
	}
}

// What goes with the notation: inches with both that are of inches.
func TestChoose(t *testing.T) {
	for n, want := range map[units.Notation]units.Length{units.MetricDecimal: 3 * units.Millimetre, units.InchFraction: units.Inch / 8, units.InchDecimal: units.Inch / 8} {
		if got := n.Choose(units.Inch/8, 3*units.Millimetre); got != want {
			t.Errorf("%v: %v, want %v", n, got, want)
		}
	}
}

func TestNewRulerRefuses(t *testing.T) {
	for _, c := range []struct {
		step units.Length
		n    units.Notation
		why  string
	}{
		{0, units.MetricDecimal, "no step"},
		{-units.Millimetre, units.MetricDecimal, "negative"},
		{units.Longest + 1, units.MetricDecimal, "too long"},
		{math.MaxInt64, units.InchFraction, "too long"},
		{units.Millimetre, units.Notation(3), "unknown notation"},
		{units.Inch * 3 / 2, units.InchFraction, "1 1/2 in neither divides an inch nor is a multiple of it"},
		{units.Inch * 3 / 16, units.InchFraction, "3/16 in does not divide an inch"},
		{units.Inch / 64, units.Notation(255), "unknown notation"},
		{126, units.InchDecimal, "no whole number of millionths"},
		{units.Millimetre, units.InchDecimal, "1/25.4 in has no end in decimals"},
	} {
		if r, err := units.NewRuler(c.step, c.n); r != 0 || !errors.Is(err, units.ErrRuler) {
			t.Errorf("NewRuler(%d, %d) = %v, %v; want ErrRuler: %s", c.step, c.n, r, err, c.why)
		}
	}
}

func TestRoundIsExact(t *testing.T) {
	least, most := big.NewInt(math.MinInt64), big.NewInt(math.MaxInt64)
	for _, r := range append(manyRulers(t), units.Ruler(-1), units.Ruler(1<<62)) {
		step := int64(r.Step())
		lengths := slices.Clone(interesting)
		for _, l := range interesting {
			// Graduations, halves and their neighbours, and steps off the ends.
			g := l / step * step
			lengths = append(lengths, g, g+step/2, g-step/2, g+(step+1)/2, g-(step+1)/2, g+1, g-1, math.MaxInt64-step, math.MinInt64+step,
				math.MaxInt64-step/2, math.MinInt64+step/2)
		}
		for _, l := range lengths {
			exact := big.NewRat(l, step)
			for _, d := range directions {
				want := new(big.Int).Mul(roundRat(exact, d), big.NewInt(step))
				if want.Cmp(least) < 0 {
					want = least
				}
				if want.Cmp(most) > 0 {
					want = most
				}
				got := r.Round(units.Length(l), d)
				if int64(got.To) != want.Int64() {
					t.Fatalf("%d on a step of %d, %v: %d; want %v", l, step, d, got.To, want)
				}
				if got.From != units.Length(l) || got.Ruler != r || got.Direction != d {
					t.Fatalf("Round forgot its question: %+v", got)
				}
				if got.Exact() != exact.IsInt() || exact.IsInt() != r.Has(units.Length(l)) {
					t.Fatalf("%d on a step of %d: Exact %t, Has %t", l, step, got.Exact(), r.Has(units.Length(l)))
				}
			}
			l := units.Length(l)
			if r.Up(l) != r.Round(l, units.Up).To || r.Down(l) != r.Round(l, units.Down).To || r.Nearest(l) != r.Round(l, units.Nearest).To {
				t.Fatalf("Up, Down and Nearest of %d disagree with Round", l)
			}
		}
	}
}

func TestHalvesGoAwayFromZero(t *testing.T) {
	for _, c := range []struct{ from, to string }{
		{"4 1/32 in", "4 1/16 in"}, {"-4 1/32 in", "-4 1/16 in"}, {"1/32 in", "1/16 in"}, {"-1/32 in", "-1/16 in"}, {"4 1/64 in", "4 in"}, {"-4 1/64 in", "-4 in"},
	} {
		if got := units.Sixteenths.Nearest(units.MustParse(c.from)); got != units.MustParse(c.to) {
			t.Errorf("%s on sixteenths is %v; want %s", c.from, got, c.to)
		}
	}
	if r := units.Sixteenths.Round(units.MustParse("4 1/32 in"), units.Up); r.Exact() || r.Residue() != units.Inch/32 {
		t.Errorf("residue %v, exact %t", r.Residue(), r.Exact())
	}
}

func TestFinerEndsAtAGraduation(t *testing.T) {
	for _, c := range []struct{ from, to units.Ruler }{
		{units.Eighths, units.Sixteenths}, {units.Sixteenths, units.ThirtySeconds}, {units.ThirtySeconds, units.SixtyFourths},
		{units.SixtyFourths, units.SixtyFourths}, // 1/128 in is no whole number of nanometres
		{units.WholeMillimetres, units.HalfMillimetres}, {units.HalfMillimetres, units.TenthMillimetres},
		{0, 0},
	} {
		if got := c.from.Finer(); got != c.to {
			t.Errorf("finer than %v is %v; want %v", c.from, got, c.to)
		}
	}
	for _, r := range manyRulers(t) {
		if f := r.Finer(); !f.Valid() || f != r && f.Step()*2 != r.Step() && (f.Step()*5 != r.Step() || r.Notation() != units.MetricDecimal) {
			t.Errorf("finer than %v is %v", r, f)
		}
	}
	// In millimetres they are as short to write as can be: one figure, 1 or 5.
	for r, step := units.WholeMillimetres, units.Millimetre; step > 1; {
		for _, parts := range []units.Length{2, 5} {
			if r, step = r.Finer(), step/parts; r.Step() != step {
				t.Errorf("%v comes next, want %v", r.Step(), step)
			}
		}
	}
}

func TestSplits(t *testing.T) {
	var file struct {
		Vectors []struct {
			Total, Ruler, Source string
			N                    int
			Parts                []string
		}
	}
	readVectors(t, "splits.json", &file)
	if len(file.Vectors) == 0 {
		t.Fatal("no vectors")
	}
	for _, v := range file.Vectors {
		var r units.Ruler
		if err := r.UnmarshalText([]byte(v.Ruler)); err != nil {
			t.Fatal(err)
		}
		var want []units.Length
		for _, p := range v.Parts {
			want = append(want, units.MustParse(p))
		}
		got, err := r.Split(units.MustParse(v.Total), v.N)
		if err != nil || !slices.Equal(got, want) {
			t.Errorf("%s into %d on %v = %v, %v; want %v (%s)", v.Total, v.N, r, got, err, want, v.Source)
		}
	}
}

// checkSplit holds a split against its rule in rational numbers.
func checkSplit(r units.Ruler, total units.Length, n int, parts []units.Length) string {
	if len(parts) != n {
		return "wrong number of parts"
	}
	step, at := big.NewRat(int64(r.Step()), 1), new(big.Rat)
	half := new(big.Rat).Quo(step, big.NewRat(2, 1))
	for i, p := range parts {
		if p <= 0 {
			return "a part without length"
		}
		at.Add(at, new(big.Rat).SetInt64(int64(p)))
		if i == n-1 {
			break
		}
		if !new(big.Rat).Quo(at, step).IsInt() {
			return "an inner edge off the ruler"
		}
		share := new(big.Rat).SetFrac(big.NewInt(int64(i+1)), big.NewInt(int64(n)))
		share.Mul(share, new(big.Rat).SetInt64(int64(total)))
		off := new(big.Rat).Sub(at, share)
		if off.Cmp(half) > 0 || off.Cmp(new(big.Rat).Neg(half)) <= 0 {
			return "an edge off by more than half a step, or a half downwards"
		}
	}
	if at.Cmp(new(big.Rat).SetInt64(int64(total))) != 0 {
		return "parts do not add up"
	}
	return ""
}

func TestSplitAtTheEnds(t *testing.T) {
	for _, r := range manyRulers(t) {
		for _, total := range []units.Length{r.Step(), 2 * r.Step(), 7*r.Step() + r.Step()/2, math.MaxInt64 - 1, math.MaxInt64} {
			for _, n := range []int{1, 2, 3, 7, 1000} {
				parts, err := r.Split(total, n)
				if total/units.Length(n) < r.Step() {
					if !errors.Is(err, units.ErrSplit) || parts != nil {
						t.Errorf("%v into %d on %v: %v, %v; want ErrSplit", total, n, r, parts, err)
					}
					continue
				}
				if err != nil {
					t.Errorf("%v into %d on %v: %v", total, n, r, err)
				} else if wrong := checkSplit(r, total, n, parts); wrong != "" {
					t.Errorf("%v into %d on %v: %s: %v", total, n, r, wrong, parts)
				}
			}
		}
	}
	for _, c := range []struct {
		total units.Length
		n     int
	}{{units.Inch, 0}, {units.Inch, -1}, {0, 1}, {-units.Inch, 2}, {math.MinInt64, 2}, {units.Longest, 1_000_001}, {math.MaxInt64, math.MaxInt}} {
		if parts, err := units.Ruler(0).Split(c.total, c.n); !errors.Is(err, units.ErrSplit) || parts != nil {
			t.Errorf("%d into %d: %d parts, %v; want ErrSplit", c.total, c.n, len(parts), err)
		}
	}
}

func TestDirectionTexts(t *testing.T) {
	for d, want := range map[units.Direction]string{units.Nearest: "nearest", units.Up: "up", units.Down: "down", 9: "unknown direction"} {
		if d.String() != want {
			t.Errorf("direction %d is %q", d, d)
		}
	}
}

// The fine ruler of a notation is finer than paper is cut, and its lengths have a text of
// that notation that reads back as the same.
func TestFineRuler(t *testing.T) {
	for _, n := range []units.Notation{units.MetricDecimal, units.InchFraction, units.InchDecimal} {
		r := n.Fine()
		if r.Notation() != n || r.Step() < units.Millimetre/100 || r.Step() > units.Millimetre/2 {
			t.Errorf("%v: %v", n, r)
		}
		for i := range units.Length(64) {
			if l := i * r.Step(); units.MustParse(n.Text(l)) != l {
				t.Errorf("%v reads as %v", n.Text(l), l)
			}
		}
	}
}
