package score_test

import (
	"errors"
	"slices"
	"strconv"
	"testing"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"
)

func anyRuler() gopter.Gen {
	return gen.OneConstOf(units.Ruler(0), units.ThirtySeconds, units.Sixteenths, units.WholeMillimetres, units.HalfMillimetres, units.Thousandths)
}

func lengths(low, high units.Length) gopter.Gen {
	return proptest.Map(gen.Int64Range(low.Nanometres(), high.Nanometres()), func(n int64) units.Length {
		l, _ := units.Nanometre.Times(n)
		return l
	})
}

// tucks leave room in a length of 200 mm or more.
func tucks() gopter.Gen {
	return proptest.Map(gopter.CombineGens(gen.OneGenOf(gen.Const(units.Length(0)), lengths(1, 3*mm)), lengths(0, mm), anyRuler()), func(v []any) score.TuckIn {
		return score.TuckIn{Less: v[0].(units.Length), Caliper: v[1].(units.Length), Ruler: v[2].(units.Ruler)}
	})
}

// tuckOf is how much narrower a panel that folds in has to be.
func tuckOf(t score.TuckIn) units.Length {
	if t.Less > 0 {
		return t.Less
	}
	return max(units.Inch/16, 2*t.Caliper)
}

func sound(p score.Pattern, err error, length units.Length) string {
	if err != nil {
		return err.Error()
	}
	if p.Strip().Length() != length {
		return "the panels do not add up"
	}
	for i, w := range p.Workings() {
		if w.Length() != p.Strip().Panel(i) {
			return "a working says another length"
		}
	}
	if !p.Strip().FoldsFlat() {
		return "it does not fold flat"
	}
	f, err := p.Fold()
	if err != nil {
		return err.Error()
	}
	if !f.Strip().Equal(p.Strip()) || !complete(f) {
		return "its turns fold it otherwise"
	}
	return ""
}

func TestPatternProperties(t *testing.T) {
	properties(t, func(p *gopter.Properties) {
		p.Property("roll: sums, folds, each panel narrower by the tuck, all but the last on the ruler", prop.ForAll(
			func(length units.Length, n int, tuck score.TuckIn) string {
				pattern, err := score.Roll(length, n, tuck)
				if fault := sound(pattern, err, length); fault != "" {
					return fault
				}
				s := pattern.Strip()
				for i := 1; i < s.Len(); i++ {
					if i < s.Len()-1 && !tuck.Ruler.Has(s.Panel(i)) {
						return "a panel off the ruler"
					}
					if i == 1 && s.Len() > 2 && s.Panel(1) != s.Panel(0) {
						return "the outer panels differ"
					}
					if i > 1 && s.Panel(i-1)-s.Panel(i) < tuckOf(tuck) {
						return "a panel is too wide to fold in"
					}
				}
				// As even as they can be: each within a step of its exact share, the
				// last within two.
				step, sum := tuck.Ruler.Step(), units.Length(0)
				up := tuck.Ruler.Up(tuckOf(tuck))
				for i := 2; i < n; i++ {
					sum += units.Length(i-1) * up
				}
				for i, panel := range s.Panels() {
					share, _ := (length + sum).Scale(1, int64(n), units.Down)
					off, most := (panel - (share - units.Length(max(i-1, 0))*up)).Abs(), step
					if i == n-1 {
						most = 2 * step
					}
					if off > most+1 {
						return "panel " + strconv.Itoa(i) + " is off its share by " + off.String()
					}
				}
				return ""
			},
			lengths(200*mm, 2000*mm), gen.IntRange(2, 7), tucks()))
		p.Property("gate: leaves clear half the middle by the tuck", prop.ForAll(
			func(length units.Length, tuck score.TuckIn) string {
				pattern, err := score.Gate(length, tuck)
				if fault := sound(pattern, err, length); fault != "" {
					return fault
				}
				s := pattern.Strip()
				if s.Panel(0) != s.Panel(2) || s.Panel(1)-2*s.Panel(0) < 2*tuckOf(tuck) || !tuck.Ruler.Has(s.Panel(0)) {
					return "the leaves are too wide, unequal or off the ruler"
				}
				return ""
			},
			lengths(200*mm, 2000*mm), tucks()))
		p.Property("double gate: both halves wider than the leaves by the tuck", prop.ForAll(
			func(length units.Length, tuck score.TuckIn) string {
				pattern, err := score.DoubleGate(length, tuck)
				if fault := sound(pattern, err, length); fault != "" {
					return fault
				}
				s := pattern.Strip()
				if s.Panel(0) != s.Panel(3) || min(s.Panel(1), s.Panel(2))-s.Panel(0) < tuckOf(tuck) {
					return "the leaves are too wide"
				}
				return ""
			},
			lengths(200*mm, 2000*mm), tucks()))
		p.Property("double parallel: the inner panels narrower than the outer by the tuck", prop.ForAll(
			func(length units.Length, tuck score.TuckIn) string {
				pattern, err := score.DoubleParallel(length, tuck)
				if fault := sound(pattern, err, length); fault != "" {
					return fault
				}
				s := pattern.Strip()
				if s.Panel(2) != s.Panel(3) || min(s.Panel(0), s.Panel(1))-s.Panel(2) < tuckOf(tuck) {
					return "the inner panels are too wide"
				}
				return ""
			},
			lengths(200*mm, 2000*mm), tucks()))
		p.Property("accordion: all equal to a step of the ruler", prop.ForAll(
			func(length units.Length, n int, r units.Ruler) string {
				pattern, err := score.Accordion(length, n, r, score.Mountain)
				if fault := sound(pattern, err, length); fault != "" {
					return fault
				}
				for _, panel := range pattern.Strip().Panels() {
					// Each edge is off by half a step at most, the right end
					// by what the length is off the ruler.
					share, _ := length.Scale(1, int64(n), units.Down)
					if (panel - share).Abs() > r.Step()+1 {
						return "an unequal panel"
					}
				}
				return ""
			},
			lengths(200*mm, 2000*mm), gen.IntRange(1, 40), anyRuler()))
		p.Property("the length that an error asks for is the least that will do", prop.ForAll(
			func(n int, tuck score.TuckIn, which int) string {
				make := func(l units.Length) (score.Pattern, error) {
					switch which {
					case 0:
						return score.Gate(l, tuck)
					case 1:
						return score.DoubleGate(l, tuck)
					case 2:
						return score.DoubleParallel(l, tuck)
					}
					return score.Roll(l, n, tuck)
				}
				short := units.Shortest
				_, err := make(short)
				if err == nil {
					return "10 µm are divided"
				}
				if e := new(check.Error); errors.As(err, &e) {
					if _, none := e.Find("tuck.less", check.TooLarge); none {
						// Said only where not even 10 m would do.
						if _, err := make(units.Longest); err == nil {
							return "10 m would do"
						}
						return ""
					}
				}
				v := violation(t, err, "length", check.TooSmall)
				if v.By != v.Limit-short {
					return "by how much is wrong"
				}
				pattern, err := make(v.Limit)
				if fault := sound(pattern, err, v.Limit); fault != "" {
					return fault
				}
				for less := range units.Length(5) {
					if _, err := make(v.Limit - 1 - less*tuck.Ruler.Step()/3); err == nil {
						return "less would do"
					}
				}
				return ""
			},
			gen.IntRange(3, 64), tucks(), gen.IntRange(0, 3)))
	})
}

// TestPatternLayers: which panels lie inside, from the printers' names for the
// folds. Panel 0 is at the bottom, face up.
func TestPatternLayers(t *testing.T) {
	tuck := score.TuckIn{Ruler: units.HalfMillimetres}
	get := func(p score.Pattern, err error) score.Pattern {
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	for _, c := range []struct {
		name   string
		p      score.Pattern
		layers []int
	}{
		{"C-fold", get(score.CFold(297*mm, tuck)), []int{0, 2, 1}},
		{"roll", get(score.Roll(297*mm, 4, tuck)), []int{0, 2, 3, 1}},
		// Leaf 0 with half 1 over it; half 2, with leaf 3 on its face, is
		// turned under them, so that both leaves lie inside.
		{"double gate", get(score.DoubleGate(297*mm, tuck)), []int{2, 3, 0, 1}},
		{"double parallel", get(score.DoubleParallel(297*mm, tuck)), []int{0, 3, 2, 1}},
		{"accordion", get(score.Accordion(297*mm, 4, tuck.Ruler, score.Valley)), []int{0, 1, 2, 3}},
	} {
		f, err := c.p.Fold()
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := f.Order(); !slices.Equal(got, c.layers) {
			t.Errorf("%s: layers %v, want %v", c.name, got, c.layers)
		}
	}
	gate := get(score.Gate(297*mm, tuck))
	f, err := gate.Fold()
	if err != nil {
		t.Fatal(err)
	}
	if f.MostLayers() != 2 || f.Width() != gate.Strip().Panel(1) {
		t.Errorf("gate: %d layers, %v wide", f.MostLayers(), f.Width())
	}
}

func TestPatternErrors(t *testing.T) {
	bad := score.TuckIn{Less: -1, Caliper: 11 * units.Metre, Ruler: -1}
	_, err := score.Roll(0, 1, bad)
	violation(t, err, "length", check.NotPositive)
	violation(t, err, "panels", check.OutOfRange)
	violation(t, err, "tuck.less", check.Negative)
	violation(t, err, "tuck.caliper", check.OutOfRange)
	violation(t, err, "tuck.ruler", check.Unknown)
	violation(t, second(score.Roll(mm, 65, score.TuckIn{})), "panels", check.OutOfRange)
	violation(t, second(score.Gate(-mm, score.TuckIn{})), "length", check.NotPositive)
	violation(t, second(score.DoubleGate(-mm, score.TuckIn{})), "length", check.NotPositive)
	violation(t, second(score.DoubleParallel(-mm, score.TuckIn{})), "length", check.NotPositive)
	violation(t, second(score.Accordion(mm, 0, 0, score.Valley)), "parts", check.NotPositive)
	violation(t, second(score.CFold(mm, score.TuckIn{Less: 10 * units.Metre})), "tuck.less", check.TooLarge)
	violation(t, second(score.CFold(mm, score.TuckIn{})), "length", check.TooSmall)
}

func TestWorkingPrints(t *testing.T) {
	p, err := score.CFold(11*units.Inch, score.TuckIn{Ruler: units.ThirtySeconds})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"panel 1 3 11/16 in = (length 11 in + tuck 1/16 in) / 3",
		"panel 2 3 11/16 in = panel 1 3 11/16 in",
		"panel 3 3 5/8 in = length 11 in - 2 x panel 1 3 11/16 in",
	}
	for i, w := range p.Workings() {
		if w.String() != want[i] {
			t.Errorf("%q, want %q", w, want[i])
		}
	}
}

// 100 mm in three on whole millimetres: scores at 33.3 and 66.7, on 33 and 67.
func TestWorkingsOfAnAccordion(t *testing.T) {
	p, err := score.Accordion(100*mm, 3, units.WholeMillimetres, score.Valley)
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"panel 1 33 mm = score 1 33 mm", "panel 2 34 mm = score 2 67 mm - score 1 33 mm", "panel 3 33 mm = length 100 mm - score 2 67 mm"}
	for i, w := range p.Workings() {
		if w.String() != want[i] {
			t.Errorf("%q, want %q", w, want[i])
		}
	}
}
