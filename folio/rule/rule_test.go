package rule_test

import (
	"slices"
	"testing"

	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

const in = units.Inch

// What the rules say for board of 2 mm, a liner of 0.1 mm and contents of 8 mm:
// Adam 1903, Johnson 2003, Bailey 1916, Reese, University of Brighton; the last as
// derived, twice the board and the liner round the contents.
func TestHingeRules(t *testing.T) {
	for r, want := range map[rule.HingeRule]units.Length{
		rule.HingeOneCaliper: 2 * mm, rule.HingeOneAndHalfCalipers: 3 * mm, rule.HingeTwoCalipers: 4 * mm,
		rule.HingeNarrowGroove: 3 * mm, rule.HingeFlatBackGroove: 9 * mm, rule.HingeFrenchJoint: in / 8, rule.HingeFiveThirtySeconds: 5 * in / 32,
		rule.HingeShoulder: 8 * mm, rule.HingeRoundContents: 12*mm + mm/5, rule.HingeFixed: 7 * mm,
	} {
		terms := r.Terms(2*mm, mm/10, 8*mm, 7*mm)
		if got := units.Sum("hinge", 0, units.Nearest, terms[:]...).Length(); got != want {
			t.Errorf("%v: %v, want %v", r, got, want)
		}
	}
	terms := rule.HingeOneAndHalfCalipers.Terms(3, 0, 0, 0)
	if got := units.Sum("hinge", 0, units.Nearest, terms[:]...).Length(); got != 5 {
		t.Errorf("1.5 times 3 nm is %d nm, and the gap is never less", got)
	}
}

// The defaults: Collins 1918, Vaughn 1912, Adam 1903, Bean 1914, Dingword 2012, and
// common practice.
func TestDefaults(t *testing.T) {
	for _, c := range []struct {
		rule     rule.MarginRule
		notation units.Notation
		want     [3]units.Length
	}{
		{rule.MarginDefault, units.InchFraction, [3]units.Length{in, in / 2, in / 4}},
		{rule.MarginDefault, units.MetricDecimal, [3]units.Length{25 * mm, 13 * mm, 6 * mm}},
		{rule.MarginInch, units.MetricDecimal, [3]units.Length{in, 13 * mm, 6 * mm}},
		{rule.MarginThreeQuarters, units.InchFraction, [3]units.Length{3 * in / 4, in / 2, in / 4}},
		{rule.MarginTenToFifteen, units.MetricDecimal, [3]units.Length{15 * mm, 10 * mm, 6 * mm}},
		{rule.MarginHalf, units.MetricDecimal, [3]units.Length{in / 2, in / 2, 6 * mm}},
		{rule.MarginSeventeen, units.InchFraction, [3]units.Length{17 * mm, in / 2, in / 4}},
	} {
		m := rule.Margin{Rule: c.rule}
		m.Fill(c.notation)
		if got := [3]units.Length{m.Ideal, m.Least, m.Tolerated}; got != c.want {
			t.Errorf("%v in %v: %v, want %v", c.rule, c.notation, got, c.want)
		}
		again := m
		if again.Fill(c.notation); again != m {
			t.Errorf("%v: filled in twice is %v", c.rule, again)
		}
	}
	narrow := rule.Margin{Ideal: 5 * mm}
	narrow.Fill(units.MetricDecimal)
	if narrow.Least != 5*mm || narrow.Tolerated != 5*mm {
		t.Errorf("an ideal of 5 mm leaves least %v and tolerated %v", narrow.Least, narrow.Tolerated)
	}
	for n, want := range map[units.Notation]units.Length{units.InchFraction: in / 8, units.MetricDecimal: 3 * mm} {
		l, q := rule.Lining{}, rule.Quarter{}
		l.Fill(n)
		q.Fill(n)
		if l.Inset != want || l.Lap != want || q.Lap != want {
			t.Errorf("%v: inset %v, laps %v and %v, want %v", n, l.Inset, l.Lap, q.Lap, want)
		}
	}
	plain, own := rule.Mitre{}, rule.Mitre{Distance: mm}
	plain.Fill()
	own.Fill()
	if plain.Rule != rule.MitreOneAndHalfCalipers || own.Rule != rule.MitreFixed {
		t.Errorf("mitres: %v, and with a distance %v", plain.Rule, own.Rule)
	}
	for _, c := range []struct {
		given rule.Hinge
		soft  bool
		want  rule.Hinge
	}{
		{rule.Hinge{}, false, rule.Hinge{Rule: rule.HingeTwoCalipers, Angle: 90}},
		{rule.Hinge{}, true, rule.Hinge{Rule: rule.HingeRoundContents, Angle: 180, Crease: rule.CreaseTwo}},
		{rule.Hinge{Width: mm}, false, rule.Hinge{Rule: rule.HingeFixed, Width: mm, Angle: 90}},
		{rule.Hinge{Rule: rule.HingeShoulder, Crease: rule.CreaseRound, Angle: 120}, true, rule.Hinge{Rule: rule.HingeShoulder, Crease: rule.CreaseRound, Angle: 120}},
	} {
		got := c.given
		if got.Fill(c.soft, rule.HingeTwoCalipers); got != c.want {
			t.Errorf("%v, soft %t: %v, want %v", c.given, c.soft, got, c.want)
		}
	}
}

func TestSpines(t *testing.T) {
	if got := rule.SpineFor(51*in/100, in/16, 0, 0, units.Sixteenths).Length(); got != 11*in/16 {
		t.Errorf("a spine for 0.51 in is %v, want 11/16 in, rounded up", got)
	}
	// University of Brighton, Hard Cover for Multi-section: block plus both boards.
	if got := rule.SpineFor(20*mm, 2*mm, 0, 0, units.WholeMillimetres).Length(); got != 24*mm {
		t.Errorf("the spine of a block of 20 mm is %v, want 24 mm", got)
	}
	if got := rule.ContentsFor(24*mm, 2*mm, mm/10, mm, units.WholeMillimetres).Length(); got != 21*mm {
		t.Errorf("24 - 4 - 0.2 + 2 leaves %v, want 21 mm, rounded down", got)
	}
}

func TestChecks(t *testing.T) {
	filled := rule.Margin{}
	filled.Fill(units.MetricDecimal)
	wide, strict := filled, filled
	wide.Least = wide.Ideal + 1
	strict.Tolerated = strict.Least + 1
	for _, c := range []struct {
		name string
		err  error
		want []string
	}{
		{"margin", filled.Check(units.MetricDecimal), nil},
		{"least above ideal", wide.Check(units.MetricDecimal), []string{"least: too-large"}},
		{"tolerated above least", strict.Check(units.MetricDecimal), []string{"tolerated: too-large"}},
		{"margin of nothing", rule.Margin{Rule: 99}.Check(units.MetricDecimal), []string{"rule: unknown", "ideal: not-positive", "least: not-positive", "tolerated: not-positive"}},
		{"hinge", rule.Hinge{Rule: rule.HingeTwoCalipers, Angle: 180}.Check(units.InchFraction), nil},
		{"hinge at its ends", rule.Hinge{Rule: rule.HingeFixed, Width: mm, Crease: rule.CreaseAtOffset, Offset: mm, Angle: 1}.Check(units.InchFraction), nil},
		{"angles", rule.Hinge{Rule: rule.HingeTwoCalipers, Angle: 181}.Check(units.InchFraction), []string{"angle: out-of-range"}},
		{"unknown hinge", rule.Hinge{Rule: 99, Crease: 99}.Check(units.InchFraction), []string{"rule: unknown", "crease: unknown", "angle: out-of-range"}},
		{"width and rule", rule.Hinge{Rule: rule.HingeTwoCalipers, Width: mm, Offset: mm, Angle: 90}.Check(units.InchFraction), []string{"width: conflict", "offset: conflict"}},
		{"mitre", rule.Mitre{Rule: rule.MitreFixed, Distance: mm}.Check(units.InchFraction), nil},
		{"mitre of none", rule.Mitre{Rule: rule.MitreFixed}.Check(units.InchFraction), []string{"distance: not-positive"}},
		{"mitre twice", rule.Mitre{Rule: rule.MitreEighth, Distance: mm}.Check(units.InchFraction), []string{"distance: conflict"}},
		{"unknown mitre", rule.Mitre{Rule: 99}.Check(units.InchFraction), []string{"rule: unknown"}},
		{"lining", rule.Lining{Inset: mm}.Check(units.InchFraction), nil},
		{"lining of none", rule.Lining{Rule: 99}.Check(units.InchFraction), []string{"rule: unknown", "inset: not-positive"}},
		{"quarter", rule.Quarter{Lap: mm}.Check(units.InchFraction), nil},
		{"quarter below nothing", rule.Quarter{Rule: 99, Reach: -1, Lap: -1}.Check(units.InchFraction), []string{"rule: unknown", "reach: negative", "lap: not-positive"}},
	} {
		var got []string
		if bad, ok := c.err.(*check.Error); ok {
			for v := range bad.All() {
				got = append(got, v.Path+": "+string(v.Code))
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// A ruler that is not given is the main one, and the main one is 1/16 in, which is
// what handwork measures to (S. L. Reese, Basic Drop-Spine Box).
func TestRulers(t *testing.T) {
	r := rule.Rulers{Gap: units.WholeMillimetres}
	r.Fill()
	if want := (rule.Rulers{Main: units.Sixteenths, Board: units.Sixteenths, Gap: units.WholeMillimetres, Wrap: units.Sixteenths, Liner: units.Sixteenths, Fitting: units.Sixteenths}); r != want {
		t.Errorf("filled in they are %+v, want %+v", r, want)
	}
	if err := r.Check(); err != nil {
		t.Error(err)
	}
	widest, err := units.NewRuler(units.Metre, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	r.Wrap = widest
	if err := r.Check(); err != nil {
		t.Errorf("a ruler with steps of a metre: %v", err)
	}
	for i, role := range []*units.Ruler{&r.Main, &r.Board, &r.Gap, &r.Wrap, &r.Liner, &r.Fitting} {
		*role = units.Ruler(-1 - i)
		var paths []string
		if bad, ok := r.Check().(*check.Error); ok {
			for v := range bad.All() {
				paths = append(paths, v.Path)
			}
		}
		if want := []string{"main", "board", "gap", "wrap", "liner", "fitting"}[:i+1]; !slices.Equal(paths, want) {
			t.Errorf("%q are wrong, want %q", paths, want)
		}
	}
	// What follows from the main one is not said again.
	all := rule.Rulers{Main: -1}
	all.Fill()
	if bad, ok := all.Check().(*check.Error); !ok || bad.Len() != 1 {
		t.Errorf("of a main ruler that cannot be: %v", bad)
	}
}

// A third of what is small, on the ruler and never more than it; what is tolerated by
// default, on the ruler and never less than it; and the default where that is no more.
func TestMarginsOfSmallCovers(t *testing.T) {
	const mm = units.Millimetre
	var usual rule.Margin
	usual.Fill(units.MetricDecimal)
	coarse := func(step units.Length) units.Ruler {
		r, err := units.NewRuler(step, units.MetricDecimal)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	for _, c := range []struct {
		side, step, ideal units.Length // 0 where the default stands
	}{
		{side: 3 * usual.Tolerated, step: mm, ideal: usual.Tolerated},
		{side: 3*usual.Tolerated + 6*mm, step: mm, ideal: usual.Tolerated + 2*mm},
		{side: 3*usual.Tolerated + 6*mm - 3, step: mm, ideal: usual.Tolerated + mm}, // a nanometre less than a graduation
		{side: 3*usual.Tolerated + 5*mm, step: mm, ideal: usual.Tolerated + mm},
		{side: 3 * mm, step: mm, ideal: usual.Tolerated},
		{side: 3 * mm, step: usual.Tolerated + 1, ideal: usual.Tolerated + 1},
		{side: 3 * mm, step: usual.Tolerated - 1, ideal: 2 * (usual.Tolerated - 1)}, // nearest would be one graduation
		{side: 3 * usual.Ideal, step: mm},
		{side: 3*usual.Ideal - 1, step: mm, ideal: usual.Ideal - mm},
	} {
		got, small := rule.Margin{}.ForSmallCover(c.side, coarse(c.step), units.MetricDecimal)
		if got.Ideal != c.ideal || small != (c.ideal != 0) {
			t.Errorf("%v on a ruler of %v: margin %v, small %v; want %v", c.side, c.step, got.Ideal, small, c.ideal)
		}
	}
}
