package rule_test

import (
	"encoding"
	"errors"
	"math"
	"strings"
	"testing"

	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// firstUnknown returns the first number that is none of an enumeration.
func firstUnknown[T interface {
	~uint8
	encoding.TextMarshaler
}](t *testing.T) T {
	t.Helper()
	for n := T(0); n < 100; n++ {
		if _, err := n.MarshalText(); err != nil {
			return n
		}
	}
	t.Fatal("there is no end of them")
	return 0
}

// said looks for a code at a path.
func said(err error, path string, code check.Code) bool {
	var bad *check.Error
	if !errors.As(err, &bad) {
		return false
	}
	_, ok := bad.Find(path, code)
	return ok
}

// What is one beyond the last of an enumeration is unknown, the last one is not; and
// what is wrong is told as the plan writes lengths.
func TestEndsOfRules(t *testing.T) {
	hinge, crease, mitre, margin := firstUnknown[rule.HingeRule](t), firstUnknown[rule.CreasePlace](t), firstUnknown[rule.MitreRule](t), firstUnknown[rule.MarginRule](t)
	lining, quarter := firstUnknown[rule.LiningRule](t), firstUnknown[rule.QuarterRule](t)
	metric, far := units.MetricDecimal, units.Longest+1
	for _, c := range []struct {
		path   string
		check  func(last bool) error
		length func(n units.Notation) error
	}{
		{"rule", func(last bool) error {
			h := rule.Hinge{Rule: hinge, Angle: 90}
			if last {
				h.Rule--
			}
			return h.Check(metric)
		}, func(n units.Notation) error { return rule.Hinge{Rule: rule.HingeFixed, Width: far, Angle: 90}.Check(n) }},
		{"crease", func(last bool) error {
			h := rule.Hinge{Rule: rule.HingeTwoCalipers, Crease: crease, Angle: 90}
			if last {
				h.Crease--
			}
			return h.Check(metric)
		}, func(n units.Notation) error {
			return rule.Hinge{Rule: rule.HingeTwoCalipers, Crease: rule.CreaseAtOffset, Offset: far, Angle: 90}.Check(n)
		}},
		{"rule", func(last bool) error {
			m := rule.Mitre{Rule: mitre}
			if last {
				m.Rule--
			}
			return m.Check(metric)
		}, func(n units.Notation) error { return rule.Mitre{Rule: rule.MitreFixed, Distance: far}.Check(n) }},
		{"rule", func(last bool) error {
			m := rule.Margin{Rule: margin, Ideal: mm, Least: mm, Tolerated: mm}
			if last {
				m.Rule--
			}
			return m.Check(metric)
		}, func(n units.Notation) error { return rule.Margin{Ideal: mm, Least: 2 * mm, Tolerated: mm}.Check(n) }},
		{"rule", func(last bool) error {
			l := rule.Lining{Rule: lining, Inset: mm}
			if last {
				l.Rule--
			}
			return l.Check(metric)
		}, func(n units.Notation) error { return rule.Lining{Inset: far}.Check(n) }},
		{"rule", func(last bool) error {
			q := rule.Quarter{Rule: quarter, Lap: mm}
			if last {
				q.Rule--
			}
			return q.Check(metric)
		}, func(n units.Notation) error { return rule.Quarter{Lap: far}.Check(n) }},
	} {
		if err := c.check(false); !said(err, c.path, check.Unknown) {
			t.Errorf("one beyond the last: %v", err)
		}
		if err := c.check(true); said(err, c.path, check.Unknown) {
			t.Errorf("the last one: %v", err)
		}
		for n, want := range map[units.Notation]string{units.InchFraction: " in", units.MetricDecimal: " mm"} {
			if err := c.length(n); err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("in %v: %v", n, err)
			}
		}
	}
}

// Each length by itself is checked, and margins in their order only if each can be.
func TestEachLengthIsChecked(t *testing.T) {
	n := units.MetricDecimal
	for _, c := range []struct {
		err  error
		path string
		code check.Code // "" for nothing wrong
	}{
		{rule.Hinge{Rule: rule.HingeFixed, Angle: 90}.Check(n), "width", check.NotPositive},
		{rule.Hinge{Rule: rule.HingeTwoCalipers, Crease: rule.CreaseAtOffset, Offset: -1, Angle: 90}.Check(n), "offset", check.Negative},
		{rule.Hinge{Rule: rule.HingeTwoCalipers, Width: 1, Angle: 90}.Check(n), "width", check.Conflict},
		{rule.Hinge{Rule: rule.HingeTwoCalipers, Width: -1, Angle: 90}.Check(n), "width", check.Conflict},
		{rule.Hinge{Rule: rule.HingeTwoCalipers, Offset: 1, Angle: 90}.Check(n), "offset", check.Conflict},
		{rule.Hinge{Rule: rule.HingeTwoCalipers, Offset: -1, Angle: 90}.Check(n), "offset", check.Conflict},
		{rule.Hinge{Rule: rule.HingeTwoCalipers, Angle: 0}.Check(n), "angle", check.OutOfRange},
		{rule.Mitre{Rule: rule.MitreEighth, Distance: 1}.Check(n), "distance", check.Conflict},
		{rule.Mitre{Rule: rule.MitreEighth, Distance: -1}.Check(n), "distance", check.Conflict},
		{rule.Mitre{Rule: rule.MitreEighth}.Check(n), "distance", ""},
		{rule.Margin{Ideal: mm, Least: mm, Tolerated: mm}.Check(n), "least", ""},
		{rule.Margin{Ideal: mm, Least: mm, Tolerated: mm}.Check(n), "tolerated", ""},
		{rule.Margin{Ideal: mm, Least: -1, Tolerated: mm}.Check(n), "tolerated", ""},
		{rule.Margin{Ideal: -1, Least: mm, Tolerated: mm}.Check(n), "least", ""},
		{rule.Margin{Ideal: -1, Least: mm, Tolerated: 2 * mm}.Check(n), "tolerated", ""},
		{rule.Margin{Ideal: mm, Least: 2 * mm, Tolerated: -1}.Check(n), "least", ""},
		{rule.Quarter{Reach: -1, Lap: mm}.Check(n), "reach", check.Negative},
		{rule.Quarter{Reach: mm}.Check(n), "lap", check.NotPositive},
	} {
		if c.code == "" {
			var bad *check.Error
			if errors.As(c.err, &bad) {
				for v := range bad.All() {
					if v.Path == c.path {
						t.Error(v)
					}
				}
			}
		} else if !said(c.err, c.path, c.code) {
			t.Errorf("want %s at %s: %v", c.code, c.path, c.err)
		}
	}
	if err := (rule.Hinge{Rule: rule.HingeTwoCalipers, Width: mm, Angle: 90}).Check(n); err == nil || !strings.Contains(err.Error(), "want no width, or the rule "+rule.HingeFixed.String()) {
		t.Errorf("a width and a rule: %v", err)
	}
	r := rule.Rulers{}
	r.Fill()
	wide, err := units.NewRuler(units.Metre+1, units.MetricDecimal)
	if err == nil {
		r.Gap = wide
		if err := r.Check(); !said(err, "gap", check.Unknown) {
			t.Errorf("steps of more than a metre: %v", err)
		}
	}
	r.Gap = -1
	if err := r.Check(); !said(err, "gap", check.Unknown) {
		t.Errorf("no ruler: %v", err)
	}
}

// Outside 1 to 180 degrees there is no gap, nor about one crease at 180; above 90
// the tangent of the half rules at a board's edge.
func TestLeastGapAtTheEnds(t *testing.T) {
	for _, c := range []struct {
		angle  int
		crease rule.CreasePlace
		want   float64 // of a board of 2 mm, in mm; below 0 there is none
	}{
		{0, rule.CreaseTwo, -1}, {-1, rule.CreaseRound, -1}, {181, rule.CreaseTwo, -1}, {180, rule.CreaseAtEdge, -1}, {180, rule.CreaseMidGap, -1}, {90, firstUnknown[rule.CreasePlace](t), -1},
		{1, rule.CreaseAtEdge, 2 * math.Sin(math.Pi/180)}, {180, rule.CreaseTwo, 4}, {180, rule.CreaseRound, 2 * math.Pi},
		{89, rule.CreaseAtEdge, 2 * math.Sin(89*math.Pi/180)}, {90, rule.CreaseAtEdge, 2}, {91, rule.CreaseAtEdge, 2 * math.Tan(91*math.Pi/360)},
		{179, rule.CreaseAtEdge, 2 * math.Tan(179*math.Pi/360)},
	} {
		got, ok := rule.LeastGap(2*mm, c.angle, c.crease, 0)
		switch {
		case c.want < 0:
			if got != 0 || ok {
				t.Errorf("%d degrees creased %v: %v, %v", c.angle, c.crease, got, ok)
			}
		case !ok || math.Abs(got.Millimetres()-c.want) > 2e-6 || got.Millimetres() < c.want-1e-9:
			t.Errorf("%d degrees creased %v: %v, %v, want %.6f mm", c.angle, c.crease, got, ok, c.want)
		}
	}
	if got, ok := rule.LeastGap(0, 60, rule.CreaseAtOffset, mm); got != 0 || !ok {
		t.Errorf("what has no caliper wants a gap of %v, %v", got, ok)
	}
	for angle := 1; angle < 180; angle++ {
		edge, _ := rule.LeastGap(2*mm, angle, rule.CreaseAtEdge, 0)
		for _, offset := range []units.Length{0, -1, -mm} {
			if at, _ := rule.LeastGap(2*mm, angle, rule.CreaseAtOffset, offset); at != edge {
				t.Errorf("%d degrees: creased %v from the edge %v, at it %v", angle, offset, at, edge)
			}
		}
	}
	// At an offset x from the edge: t sin + x (1 − cos), above 90 degrees x + t tan of the half.
	for _, c := range []struct {
		angle  int
		offset units.Length
		want   float64
	}{{60, mm / 2, 2*math.Sin(math.Pi/3) + 0.25}, {90, mm / 2, 2.5}, {91, mm / 2, 0.5 + 2*math.Tan(91*math.Pi/360)}, {120, 1, 1e-6 + 2*math.Tan(math.Pi/3)}, {120, -1, 2 * math.Tan(math.Pi/3)}, {60, 1, 2*math.Sin(math.Pi/3) + 0.5e-6}} {
		got, ok := rule.LeastGap(2*mm, c.angle, rule.CreaseAtOffset, c.offset)
		if !ok || got.Millimetres() < c.want-1e-9 || got.Millimetres() > c.want+2.1e-6 {
			t.Errorf("%d degrees creased %v from the edge: %v, %v, want %.6f mm", c.angle, c.offset, got, ok, c.want)
		}
	}
}

// By hand, each term with a length of its own: 20 + 2 × 2 + 2 × 0.3 − 2 × 1.05 mm.
func TestSpineAndContents(t *testing.T) {
	exact := units.MetricDecimal.Exact()
	w := rule.SpineFor(20*mm, 2*mm, 3*mm/10, 105*mm/100, exact)
	if got := w.Length(); got != 225*mm/10 {
		t.Errorf("a spine of %v, want 22.5 mm", got)
	}
	back := rule.ContentsFor(w.Length(), 2*mm, 3*mm/10, 105*mm/100, exact)
	if got := back.Length(); got != 20*mm {
		t.Errorf("contents of %v, want 20 mm", got)
	}
	if got := rule.SpineFor(20*mm+1, 2*mm, 0, 0, units.WholeMillimetres).Length(); got != 25*mm {
		t.Errorf("a spine of %v, want 25 mm, rounded up", got)
	}
	if got := rule.ContentsFor(25*mm-1, 2*mm, 0, 0, units.WholeMillimetres).Length(); got != 20*mm {
		t.Errorf("contents of %v, want 20 mm, rounded down", got)
	}
	// One and a half of an odd caliper, in two terms, is not below it.
	var sum units.Length
	for _, term := range rule.HingeOneAndHalfCalipers.Terms(2*mm+1, 0, 0, 0) {
		sum += units.Length(term.Count) * term.Length
	}
	if sum != 3*mm+2 {
		t.Errorf("one and a half calipers of 2.000001 mm are %d nm", sum)
	}
}
