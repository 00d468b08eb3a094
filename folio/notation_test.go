package folio_test

import (
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// metric is a case in millimetres with everything left to its defaults.
func metric() folio.Spec {
	return folio.Spec{
		Cover: units.Size{W: 120 * mm, H: 170 * mm}, Spine: rule.Spine{Width: 25 * mm},
		Rulers: rule.Rulers{Main: units.WholeMillimetres},
	}
}

// Defaults follow the notation of the ruler; what is published stays as it is
// published. The metric ones are common practice, no published source, but for
// the square (University of Brighton, Hard Cover for Multi-section: 3 mm).
func TestDefaultsByNotation(t *testing.T) {
	inch, millimetre := folio.Spec{}, metric()
	inch.Form, millimetre.Form = boards.DoubleSpineGate, boards.DoubleSpineGate
	if got := inch.WithDefaults().Block; got != (boards.Block{}) {
		t.Errorf("without a block it is %v", got)
	}
	page := units.Size{W: 148 * mm, H: 210 * mm}
	block := func(s folio.Spec) folio.Spec {
		s.Block.Page, s.Magnets.Diameter = page, 8*mm
		return s.WithDefaults()
	}
	in, mil := block(inch), block(millimetre)
	for name, c := range map[string]struct {
		of          func(folio.Spec) units.Length
		inch, metre units.Length
	}{
		"ideal margin":     {func(s folio.Spec) units.Length { return s.Margin.Ideal }, units.Inch, 25 * mm},
		"least margin":     {func(s folio.Spec) units.Length { return s.Margin.Least }, units.Inch / 2, 13 * mm},
		"tolerated margin": {func(s folio.Spec) units.Length { return s.Margin.Tolerated }, units.Inch / 4, 6 * mm},
		"inset":            {func(s folio.Spec) units.Length { return s.Lining.Inset }, units.Inch / 8, 3 * mm},
		"lap of strips":    {func(s folio.Spec) units.Length { return s.Lining.Lap }, units.Inch / 8, 3 * mm},
		"quarter lap":      {func(s folio.Spec) units.Length { return s.Quarter.Lap }, units.Inch / 8, 3 * mm},
		"door gap":         {func(s folio.Spec) units.Length { return s.DoorGap }, units.Inch / 16, 2 * mm},
		"ease":             {func(s folio.Spec) units.Length { return s.Closing.Ease }, units.Inch / 32, mm},
		"tape":             {func(s folio.Spec) units.Length { return s.Closing.Adhesive.TapeWidth }, units.Inch / 4, 6 * mm},
		"square":           {func(s folio.Spec) units.Length { return s.Block.Square }, units.Inch / 8, 3 * mm},
		"board":            {func(s folio.Spec) units.Length { return s.Board.Caliper }, units.Inch / 16, mm + mm/2},
		"covering":         {func(s folio.Spec) units.Length { return s.Covering.Caliper }, 63 * units.Inch / 10000, 16 * mm / 100},
		"liner":            {func(s folio.Spec) units.Length { return s.Liner.Caliper }, 63 * units.Inch / 10000, 16 * mm / 100},
		"magnet's rim":     {func(s folio.Spec) units.Length { return s.Magnets.Inset }, units.Inch / 4, 6 * mm},
	} {
		if got := c.of(in); got != c.inch {
			t.Errorf("%s is %v in inches, want %v", name, got, c.inch)
		}
		if got := c.of(mil); got != c.metre {
			t.Errorf("%s is %v in millimetres, want %v", name, got, c.metre)
		}
	}
	millimetre.Margin.Rule = rule.MarginInch
	if got := millimetre.WithDefaults().Margin.Ideal; got != units.Inch {
		t.Errorf("the published inch is %v in millimetres", got)
	}
	millimetre.Hinge.Rule = rule.HingeFrenchJoint
	millimetre.Form = boards.SpineBoard
	for g := range mustBuild(t, millimetre).Gaps() {
		if got := g.Planned().Rounded().From; got != units.Inch/8 {
			t.Errorf("a French joint is %v in millimetres, before it is put on the ruler", got)
		}
	}
}

// Cover 120 x 170 mm, spine 25, board 1.5: gaps of 3. By hand: margins 25; lines at
// 25 and 195 from the head, at 25, 145, 148, 173, 176 and 296 from the left; a wrap
// of 321 x 220.
func TestMetricLines(t *testing.T) {
	p := mustBuild(t, metric())
	var level, upright []units.Length
	for l := range p.Placement() {
		if l.Upright() {
			upright = append(upright, l.At()/mm)
		} else {
			level = append(level, l.At()/mm)
		}
		if l.At()%mm != 0 {
			t.Errorf("a line at %v, which is no whole millimetre", l.At())
		}
	}
	same := func(got []units.Length, want ...units.Length) bool {
		for i := range got {
			if len(got) != len(want) || got[i] != want[i] {
				return false
			}
		}
		return true
	}
	if !same(level, 25, 195) || !same(upright, 25, 145, 148, 173, 176, 296) || p.Wrap().Size() != (units.Size{W: 321 * mm, H: 220 * mm}) {
		t.Errorf("lines at %v and %v on a wrap of %v", level, upright, p.Wrap().Size())
	}
	for w := range p.Warnings() {
		t.Errorf("a plain metric case warns: %v", w)
	}
}

// Whatever the rulers are, a maker who cuts the wrap and draws the lines where a
// plan says ends with what the plan says: what is measured lies on the ruler
// where the sheet allows it, margins and row add up to the wrap, and no corner is
// bare.
func TestLinesOnTheRuler(t *testing.T) {
	free := 0
	proptest.Run(t, 1500, func(props *gopter.Properties) {
		props.Property("lines on the ruler, sums that add up, no bare corner", prop.ForAll(holds(func(p *folio.Plan) string {
			s := p.Spec()
			r := s.Rulers.Wrap
			one := r == s.Rulers.Board && r == s.Rulers.Gap
			w := p.Wrap()
			for _, a := range []folio.Extent{w.Across(), w.Along()} {
				if a.LimitedBy() == rule.LimitIdeal && one {
					free++
					if !r.Has(a.Near().Length()) || !r.Has(a.Far().Length()) || !r.Has(a.Blank().Length()) {
						return "a margin off the ruler with sheets of any size"
					}
					if a.Near().Length() < s.Margin.Ideal || a.Near().Length() >= s.Margin.Ideal+r.Step() {
						return "the margin is not the ideal on the ruler"
					}
				}
			}
			if w.Across().Near().Length()+p.OpenWidth().Length()+w.Across().Far().Length() != w.Size().W ||
				w.Along().Near().Length()+p.OpenHeight().Length()+w.Along().Far().Length() != w.Size().H {
				return "margins and row do not add up to the wrap"
			}
			for _, c := range w.Corners() {
				if !r.Has(c.Leg().Length()) {
					return "a mitre's leg is off the ruler"
				}
				x, y := w.Across().Near().Length(), w.Along().Near().Length()
				if c.Corner() == 1 || c.Corner() == 2 {
					x = w.Across().Far().Length()
				}
				if c.Corner() >= 2 {
					y = w.Along().Far().Length()
				}
				if past := x + y - c.Leg().Length(); past < s.Board.Caliper+s.Covering.Caliper || past != c.Reach().Length() {
					return "cut where the plan says, the mitre passes the corner at " + past.String()
				}
			}
			return ""
		}), anySpec()))
	})
	if free < proptest.Cases(500) {
		t.Errorf("only %d margins left free", free)
	}
}

// 2 mm board, covering 0.16 mm, mitre of one caliper: √2 x 2 = 2.83, on the
// ruler 3 for an edge of 2.16. Sheets of 12 in leave margins off the ruler, and
// still no bare corner.
func TestMitreToPrintedLines(t *testing.T) {
	s := metric()
	s.Board.Caliper = 2 * mm
	s.Mitre.Rule = rule.MitreOneCaliper
	for _, sheet := range []units.Size{{}, units.MustParseSize("12 x 12 in")} {
		s.Covering.Sheets = nil
		if sheet != (units.Size{}) {
			s.Covering.Sheets = []stock.Sheet{{Size: sheet}}
		}
		p := mustBuild(t, s)
		for _, c := range p.Wrap().Corners() {
			if c.Reach().Length() < 2160*units.Micrometre || c.Leg().Length()%mm != 0 {
				t.Errorf("sheet %v: leg %v passes at %v", sheet, c.Leg().Length(), c.Reach().Length())
			}
		}
	}
}

// A given size that is no graduation is moved up to one, with a warning that
// says from what to what: 4 1/2 in is 114.3 mm, 114 mm is 4.488 in.
func TestMovedToTheRuler(t *testing.T) {
	s := metric()
	s.Form = boards.ForeEdgeFlap
	s.Cover = units.MustParseSize("4 1/2 x 6 1/4 in")
	s.Spine.Width = units.Inch
	s.FlapWidth = 3 * units.Inch
	s.Hinge.Width = units.Inch / 4
	got := map[string][2]units.Length{}
	for w := range mustBuild(t, s).Warnings() {
		if w.Code == folio.WarnRuler {
			got[w.Path] = [2]units.Length{w.Got, w.Want}
		}
	}
	for path, want := range map[string][2]units.Length{
		"cover.w": {1143 * mm / 10, 115 * mm}, "cover.h": {15875 * mm / 100, 159 * mm}, "spine.width": {254 * mm / 10, 26 * mm},
		"flapwidth": {762 * mm / 10, 77 * mm}, "hinge.width": {635 * mm / 100, 7 * mm},
	} {
		if got[path] != want {
			t.Errorf("%s is moved from %v to %v, want %v to %v", path, got[path][0], got[path][1], want[0], want[1])
		}
	}
	inch := folio.Spec{Cover: units.Size{W: 114 * mm, H: 159 * mm}, Spine: rule.Spine{Width: units.Inch}}
	n := 0
	for w := range mustBuild(t, inch).Warnings() {
		if w.Code == folio.WarnRuler {
			n++
			if w.Path == "cover.w" && (w.Want != units.MustParse("4 1/2 in") || w.Text != "the cover width of ~4.4882 in is moved to 4 1/2 in, as the ruler has steps of 1/16 in") {
				t.Errorf("%+v", w)
			}
		}
	}
	if n != 2 {
		t.Errorf("%d sizes moved, want width and height", n)
	}
}

// What a warning says to be lacking, or taken, is never less than that in a notation
// that has no exact text for it, and what there is never more: by the numbers that the
// warning has besides its words.
func TestLackingIsRoundedUp(t *testing.T) {
	said := map[check.Code]*regexp.Regexp{
		folio.WarnDoors:     regexp.MustCompile(`leave (?P<got>\S+ in) between their boards, and their covered edges take (?P<want>\S+ in)$`),
		folio.WarnHingeEnds: regexp.MustCompile(`with them it takes (?P<want>\S+ in),`),
		folio.WarnMagnets:   regexp.MustCompile(`stay (?P<more>\S+ in) apart`),
		folio.WarnPassing:   regexp.MustCompile(`: (?P<got>\S+ in) between them is too little, (?P<want>\S+ in) would do`),
		folio.MarginSmall:   regexp.MustCompile(`leaves (?P<got>\S+ in) of the wrap to turn in, less than`),
		folio.WarnStrained:  regexp.MustCompile(`takes (?:up to )?(?P<want>\S+ in)(?: round both edges, over a gap of|, and the gap is) (?P<got>\S+ in):`),
		folio.GapNarrow:     regexp.MustCompile(`its hinge closes only from (?P<want>\S+ in)$`),
	}
	made := func(s *folio.Spec, _ units.Length) { // as little as there may be, and then out by a little
		s.Margin = rule.Margin{Ideal: 9 * mm, Least: 9 * mm, Tolerated: 9 * mm}
		s.Hinge.Width = 2400 * units.Micrometre
	}
	told := map[check.Code]int{}
	for _, c := range append(edges(), edge{code: folio.MarginSmall, set: made}) {
		re := said[c.code]
		if re == nil {
			continue
		}
		for k := range units.Length(24) {
			s, further := plainCase(), k*1371*nm
			if c.wrong < c.fine {
				further = -further
			}
			c.set(&s, c.wrong+further)
			s.Liner.Caliper += k * 137 * nm
			s.Rulers = rule.Rulers{Main: units.InchFraction.Exact(), Board: everyNanometre, Gap: everyNanometre, Wrap: everyNanometre, Liner: everyNanometre, Fitting: everyNanometre}
			p, err := folio.Build(s)
			if err != nil {
				continue
			}
			warnings := slices.Collect(p.Warnings())
			for _, out := range [...]units.Length{-1, 1} {
				if q, err := p.Refit(refit.Measured{Width: p.OpenWidth().Length() + out*(mm+k*1371*nm), Height: p.OpenHeight().Length() + mm}); c.code == folio.MarginSmall && err == nil {
					warnings = slices.AppendSeq(warnings, q.Warnings())
				}
			}
			for _, w := range warnings {
				re := said[w.Code]
				if re == nil {
					continue
				}
				m := re.FindStringSubmatch(w.Text)
				if m == nil {
					t.Fatalf("%s: %s", w.Code, w.Text)
				}
				for i, name := range re.SubexpNames() {
					if name == "" {
						continue
					}
					at := units.MustParse(strings.TrimPrefix(m[i], "~"))
					if name == "got" && at > w.Got || name == "want" && at < w.Want || name == "more" && at < w.Got {
						t.Errorf("%s, %v, %v: %s of %s", w.Code, w.Got, w.Want, name, w.Text)
					}
					told[w.Code]++
				}
			}
		}
	}
	for code := range said {
		if told[code] < 12 {
			t.Errorf("%s is told %d times", code, told[code])
		}
	}
}

// So is what a refusal says: a sheet leaves 2.13 mm, 0.083858 in, where more than 2.2 mm,
// 0.086614 in, goes round the board's edge.
func TestWhatASheetLeavesIsRoundedDown(t *testing.T) {
	s := plainCase()
	s.Margin = rule.Margin{Ideal: 25 * mm, Least: 2 * mm, Tolerated: 2 * mm}
	s.Rulers = all(everyNanometre)
	s.Rulers.Main = units.InchFraction.Exact()
	s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: 277*mm + 4260*units.Micrometre, H: 220 * mm}, Grain: stock.GrainAlongHeight}}
	if v, ok := refusal(s, "covering.sheets", folio.TurnInNarrow); !ok || v.Got != "a sheet that leaves 0.0838 in to turn in" || !strings.Contains(v.Want, "more than 0.0867 in goes round") {
		t.Errorf("%+v: %v", v, builds(s))
	}
}

// Whatever is wrong with a folio that is planned in inches is told in inches: at every
// length that it can be given, and at every edge.
func TestWhatIsWrongIsToldInInches(t *testing.T) {
	metric, seen := regexp.MustCompile(`[0-9] ?(mm|cm|m)\b`), 0
	try := func(what string, s folio.Spec) {
		s.Rulers = rule.Rulers{Main: units.InchFraction.Exact()}
		bad, ok := builds(s).(*check.Error)
		if !ok {
			return
		}
		for v := range bad.All() {
			if seen++; metric.MatchString(v.Got) || metric.MatchString(v.Want) {
				t.Errorf("%s: %v", what, v)
			}
		}
	}
	numbersIn(reflect.ValueOf(fullCase()), "", func(path string, v reflect.Value) {
		if v.Type() != reflect.TypeFor[units.Length]() {
			return
		}
		for _, l := range []units.Length{units.None, -nm, units.Shortest - nm, units.Longest + nm} {
			s := fullCase()
			if err := mendtest.At(reflect.ValueOf(&s).Elem(), path, func(v reflect.Value) { v.SetInt(int64(l)) }); err != nil {
				t.Fatal(err)
			}
			try(path, s)
		}
	})
	for _, e := range edges() {
		s := plainCase()
		e.set(&s, e.wrong)
		try(e.name, s)
	}
	if seen < 400 {
		t.Errorf("only %d violations", seen)
	}
}
