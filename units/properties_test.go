package units_test

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
)

// runs returns the settings of every property here: 2,000 cases.
func runs() *gopter.Properties { return gopter.NewProperties(proptest.Parameters(2000)) }

// anyLength is any length within the bounds of a plan, of either sign.
func anyLength() gopter.Gen {
	return proptest.Map(gen.Int64Range(-int64(units.Longest), int64(units.Longest)), func(n int64) units.Length { return units.Length(n) })
}

// anyRuler is one of the usual or odd rulers.
func anyRuler(t *testing.T) gopter.Gen {
	rulers := manyRulers(t)
	return proptest.Map(gen.IntRange(0, len(rulers)-1), func(i int) units.Ruler { return rulers[i] })
}

// nearGraduation is a length a few nanometres off a graduation or a half one,
// where rounding turns over; with the ruler it belongs to.
type onRuler struct {
	r units.Ruler
	l units.Length
}

func anyOnRuler(t *testing.T) gopter.Gen {
	return proptest.Map(gopter.CombineGens(anyRuler(t), gen.Int64Range(-2000, 2000), gen.Int64Range(-3, 3), anyLength(), gen.Bool()),
		func(v []any) onRuler {
			r := v[0].(units.Ruler)
			if v[4].(bool) {
				return onRuler{r, v[3].(units.Length)}
			}
			return onRuler{r, r.Step()*units.Length(v[1].(int64))/2 + units.Length(v[2].(int64))}
		})
}

func TestRoundingProperties(t *testing.T) {
	p := runs()
	p.Property("the result is a graduation", prop.ForAll(func(c onRuler) bool {
		return c.r.Has(c.r.Up(c.l)) && c.r.Has(c.r.Down(c.l)) && c.r.Has(c.r.Nearest(c.l))
	}, anyOnRuler(t)))
	p.Property("up is not below, and less than a step away", prop.ForAll(func(c onRuler) bool {
		up := c.r.Up(c.l)
		return up >= c.l && up-c.l < c.r.Step()
	}, anyOnRuler(t)))
	p.Property("down is not above, and less than a step away", prop.ForAll(func(c onRuler) bool {
		down := c.r.Down(c.l)
		return down <= c.l && c.l-down < c.r.Step()
	}, anyOnRuler(t)))
	p.Property("the nearest is at most half a step away", prop.ForAll(func(c onRuler) bool {
		return 2*(c.r.Nearest(c.l)-c.l).Abs() <= c.r.Step()
	}, anyOnRuler(t)))
	p.Property("rounding mirrors at zero", prop.ForAll(func(c onRuler) bool {
		return c.r.Up(-c.l) == -c.r.Down(c.l) && c.r.Nearest(-c.l) == -c.r.Nearest(c.l)
	}, anyOnRuler(t)))
	p.Property("rounding twice is rounding once", prop.ForAll(func(c onRuler) bool {
		return c.r.Up(c.r.Up(c.l)) == c.r.Up(c.l) && c.r.Down(c.r.Up(c.l)) == c.r.Up(c.l)
	}, anyOnRuler(t)))
	p.Property("order is kept", prop.ForAll(func(c onRuler, more int64) bool {
		m := c.l + units.Length(more)
		return c.r.Up(c.l) <= c.r.Up(m) && c.r.Down(c.l) <= c.r.Down(m) && c.r.Nearest(c.l) <= c.r.Nearest(m)
	}, anyOnRuler(t), gen.Int64Range(0, 50_000_000)))
	p.Property("Exact says whether the length was on the ruler", prop.ForAll(func(c onRuler) bool {
		r := c.r.Round(c.l, units.Up)
		return r.Exact() == c.r.Has(c.l) && r.From+r.Residue() == r.To
	}, anyOnRuler(t)))
	p.TestingRun(t)
}

type split struct {
	r     units.Ruler
	total units.Length
	n     int
}

// anySplit is a split that can be made: at least a step for every part.
func anySplit(t *testing.T) gopter.Gen {
	return proptest.Map(gopter.CombineGens(anyRuler(t), gen.IntRange(1, 60), gen.Int64Range(0, 100_000), gen.Int64Range(0, 100_000)),
		func(v []any) split {
			r, n := v[0].(units.Ruler), v[1].(int)
			over := units.Length(v[2].(int64)) * r.Step() / 100 // hundredths of a step
			return split{r, r.Step()*units.Length(n) + over + units.Length(v[3].(int64))%r.Step(), n}
		})
}

func TestSplitProperties(t *testing.T) {
	p := runs()
	p.Property("parts add up, edges stand at the nearest graduations", prop.ForAll(func(s split) string {
		parts, err := s.r.Split(s.total, s.n)
		if err != nil {
			return err.Error()
		}
		return checkSplit(s.r, s.total, s.n, parts)
	}, anySplit(t)))
	p.Property("parts of a graduation differ by no more than a step and are never less than one", prop.ForAll(func(s split) bool {
		parts, err := s.r.Split(s.r.Down(s.total), s.n)
		if err != nil {
			return false
		}
		low, high := parts[0], parts[0]
		for _, part := range parts {
			low, high = min(low, part), max(high, part)
		}
		return high-low <= s.r.Step() && low >= s.r.Step()
	}, anySplit(t)))
	p.TestingRun(t)
}

// anyWorking is a sum or a share of up to six terms.
func anyWorking(t *testing.T) gopter.Gen {
	term := proptest.Map(gopter.CombineGens(gen.OneConstOf("cover", "gap", "turn-in", "inset", ""), gen.IntRange(-6, 6), anyLength(), anyRuler(t)),
		func(v []any) units.Term {
			return units.N(v[1].(int), v[0].(string), v[3].(units.Ruler).Nearest(v[2].(units.Length)))
		})
	return proptest.Map(gopter.CombineGens(proptest.List(0, 6, term), gen.IntRange(1, 9), anyRuler(t), gen.OneConstOf(units.Nearest, units.Up, units.Down)),
		func(v []any) units.Working {
			return new(units.Ledger).Share("width", v[1].(int), v[2].(units.Ruler), v[3].(units.Direction), v[0].([]units.Term)...)
		})
}

func TestWorkingProperties(t *testing.T) {
	p := runs()
	p.Property("adding the terms gives the result", prop.ForAll(func(w units.Working) string { return addUp(w) }, anyWorking(t)))
	p.Property("the line holds result, terms and rounding", prop.ForAll(func(w units.Working) string {
		if wrong := printed(w, false); wrong != "" {
			return wrong
		}
		return printed(w, true)
	}, anyWorking(t)))
	p.TestingRun(t)
}

func TestTextProperties(t *testing.T) {
	p := runs()
	p.Property("a length is read back from every format, or marked and refused", prop.ForAll(func(c onRuler) bool {
		checkText(t, c.l, c.r)
		return !t.Failed()
	}, anyOnRuler(t)))
	p.Property("a mixed fraction means whole plus part", prop.ForAll(func(whole, sixteenths int64) bool {
		// Written by rational arithmetic, not by the package.
		r := big.NewRat(sixteenths, 16)
		text := big.NewInt(whole).String() + " " + r.Num().String() + "/" + r.Denom().String() + " in"
		l, err := units.Parse(text)
		return err == nil && l == units.Length(whole)*units.Inch+units.Length(sixteenths)*(units.Inch/16)
	}, gen.Int64Range(0, 390), gen.Int64Range(1, 15)))
	p.Property("decimals mean what they say", prop.ForAll(func(n int64) bool {
		r := big.NewRat(n, 1_000_000)
		l, err := units.Parse(r.FloatString(6) + " mm")
		return err == nil && int64(l) == n
	}, gen.Int64Range(-int64(units.Longest), int64(units.Longest))))
	p.TestingRun(t)
}

func TestDiagonalProperties(t *testing.T) {
	p := runs()
	p.Property("the squares bracket the sum", prop.ForAll(func(a, b units.Length) bool {
		sum := a.By(a).Plus(b.By(b))
		down, up := units.Diagonal(a, b, units.Down), units.Diagonal(a, b, units.Up)
		return down.By(down).Compare(sum) <= 0 && up.By(up).Compare(sum) >= 0 && up-down <= 1
	}, anyLength(), anyLength()))
	p.TestingRun(t)
}

// A bound as it is told, read back, is on the side that keeps it, no more than a
// ten-thousandth of an inch off, and has no mark of a rounded text.
func TestBoundsAreToldOnTheRightSide(t *testing.T) {
	p := runs()
	p.Property("what is told keeps the bound", prop.ForAll(func(n int64, notation uint8) string {
		l, in := units.Length(n), units.Notation(notation)
		up, err := units.Parse(in.Bound(l, units.Up))
		down, err2 := units.Parse(in.Bound(l, units.Down))
		if err != nil || err2 != nil || up < l || down > l || up-down > units.Thou/10 {
			return fmt.Sprint(up, err, down, err2)
		}
		if in == units.MetricDecimal && up != down {
			return "millimetres are exact"
		}
		return ""
	}, gen.Int64Range(-11_000_000_000, 11_000_000_000), gen.UInt8Range(0, 2)))
	p.TestingRun(t)
}
