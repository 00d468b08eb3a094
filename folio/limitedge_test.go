package folio_test

import (
	"errors"
	"iter"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// unruledCase is plainCase with every length off the ruler: odd numbers of
// nanometres or primes of micrometres.
func unruledCase(n int) folio.Spec {
	s := plainCase()
	odd := func(l *units.Length, by ...units.Length) { *l += by[n%len(by)] }
	odd(&s.Cover.W, 7919, 104_729, 3)
	odd(&s.Cover.H, 15_485_863%1_000_000, 1, 611_953)
	odd(&s.Spine.Width, 1, 350_377, 99_991)
	odd(&s.Board.Caliper, 1, 2, 17_389)
	odd(&s.Covering.Caliper, 2, 1, 1009)
	odd(&s.Liner.Caliper, 1, 4001, 2)
	odd(&s.Hinge.Width, 48_611, 1, 2)
	odd(&s.Margin.Ideal, 1, 27_644_437%1_000_000, 2)
	odd(&s.Lining.Inset, 1, 2, 86_028_121%1_000_000)
	for i, l := range []*units.Length{&s.Cover.W, &s.Cover.H, &s.Spine.Width, &s.Board.Caliper, &s.Covering.Caliper, &s.Liner.Caliper, &s.Margin.Ideal} {
		*l += units.Length(n/3) * units.Length(1009+2*i*n)
	}
	return s
}

// looseLimits says how far beyond what would do is wrong again, where that is more
// than a nanometre, and why.
var looseLimits = map[string]units.Length{
	"nothing to turn in":                              units.Shortest, // what is turned in is a length
	"nothing to turn in of a row as wide as expected": units.Shortest, // likewise
	"set back":                          units.Shortest,             // and so is a board's width
	"width of a cover":                  units.Shortest,             // above nothing it is said otherwise
	"liner short of the turn-in":        2 * nm,                     // half of a step, and a nanometre that is lapped
	"does not close":                    9 * mm,                     // an ease, a step of the ruler, and gaps of 7 mm creased further out
	"picture too low for an opening":    5980*units.Micrometre + nm, // another lap would do for a lower one
	"picture too narrow for an opening": 5980*units.Micrometre + nm, // likewise
	"too wide by another's height":      mm,                         // on the ruler
	"edge shows in the window":          mm,                         // on the ruler
}

// What a violation says would do does, to the nanometre, with every length off the
// ruler; and a nanometre beyond that does not.
func TestLimitsAtTheEdge(t *testing.T) {
	met := map[string]bool{}
	for _, e := range append(edges(), fittingEdges()...) {
		if max(e.fine.Abs(), e.wrong.Abs()) < 1000 {
			continue // a number, no length
		}
		for n := range 6 {
			for _, far := range [...]units.Length{1, 999_983, 7_368_787} {
				if e.wrong < e.fine {
					far = -far
				}
				s := unruledCase(n)
				e.set(&s, e.wrong+far)
				met[e.name] = atTheEdge(t, e, s) || met[e.name]
			}
		}
	}
	coarse := 0
	// On coarse rulers, a different one for each role, it does too; how much more
	// would do is as the steps fall.
	for _, e := range slices.Concat(edges(), moreLimits(), finelyRead()) {
		if max(e.fine.Abs(), e.wrong.Abs()) < 1000 && e.code != "" {
			continue
		}
		for n := range 9 {
			s := unruledCase(n)
			far := units.Length(7_368_787) + 99_991*units.Length(n)
			if e.wrong < e.fine {
				far = -far
			}
			e.set(&s, e.wrong+far)
			s.Rulers = rule.Rulers{Main: units.WholeMillimetres, Board: units.ThirtySeconds, Gap: units.HalfMillimetres, Wrap: units.Sixteenths, Liner: units.ThirtySeconds, Fitting: units.Sixteenths}
			for v := range violations(t, e, s) {
				if v.Bound == check.NoBound {
					continue
				}
				coarse++
				if found := mendtest.Try(s, v, nil, builds); found.Outcome != mendtest.Mended {
					t.Errorf("%s: %s", e.name, found.Text)
				}
			}
		}
	}
	if coarse < 300 {
		t.Errorf("only %d limits were tried on coarse rulers", coarse)
	}
	limits := 0
	for _, e := range append(edges(), fittingEdges()...) {
		if met[e.name] {
			limits++
		}
		if _, loose := looseLimits[e.name]; loose && !met[e.name] {
			t.Errorf("%s has no limit", e.name)
		}
	}
	if limits < 40 {
		t.Errorf("only %d limits were tried", limits)
	}
}

// moreLimits are further things that are wrong and have a limit.
func moreLimits() []edge {
	print := pocket.Content{Name: "print", Thickness: mm / 5}
	fitted := func(f folio.Fitting) func(*folio.Spec, units.Length) {
		return func(s *folio.Spec, _ units.Length) { s.Fittings = []folio.Fitting{f} }
	}
	by := func(less units.Length) place.Sizing {
		r := place.Relation{Of: place.OfPanel, Less: less}
		return place.Sizing{W: r, H: r}
	}
	own := func(width units.Length) func(*folio.Spec, units.Length) {
		return func(s *folio.Spec, _ units.Length) {
			s.Row, s.Spine.Width = boards.ForeEdgeFlap.Row(), 21*mm+1
			for i := range s.Row.Boards {
				if s.Row.Boards[i].Role == boards.Spine2 {
					s.Row.Boards[i].Width = width
				}
			}
		}
	}
	return []edge{
		{name: "rails leave no opening", set: fitted(folio.Fitting{Size: by(20*mm + 1), Kind: folio.Frame{Picture: print, Rail: 60*mm + 1}})},
		{name: "lap leaves no opening", set: fitted(folio.Fitting{Size: place.Sizing{W: by(20*mm + 1).W, H: by(20*mm + 1).H, Picture: place.PictureUsual}, Kind: folio.Frame{Picture: print, Rail: 3 * mm, Lap: 40*mm + 1}})},
		{name: "reveal leaves no picture", set: fitted(folio.Fitting{Size: by(20*mm + 1), Kind: folio.Mat{Picture: print, Reveal: 60*mm + 1}})},
		{name: "reveal round a picture", set: fitted(folio.Fitting{Kind: folio.Mat{Picture: content(units.Size{W: 20*mm + 1, H: 30*mm + 1}), Reveal: 60*mm + 1}})},
		{name: "reveal round a picture of even sides", set: fitted(folio.Fitting{Kind: folio.Mat{Picture: content(units.Size{W: 20*mm + 2, H: 30*mm + 2}), Reveal: 60*mm + 1}})},
		{name: "a margin leaves nothing", set: fitted(folio.Fitting{Size: place.Filling(place.OfPanel, 60*mm+1), Kind: folio.Mat{}})},
		{name: "frame too wide", set: fitted(folio.Fitting{Kind: folio.Frame{Picture: content(units.Size{W: 110*mm + 1, H: 90*mm + 1})}})},
		{name: "ornament too wide", set: fitted(folio.Fitting{Kind: folio.Ornament{Size: units.Size{W: 130*mm + 1, H: 9*mm + 1}, Thickness: mm}})},
		{name: "slip too wide", set: fitted(folio.Fitting{Stock: "card", Kind: folio.Folded{Kind: pocket.Slip{Content: content(units.Size{W: 130*mm + 1, H: 90*mm + 1})}}})},
		{name: "slip too high", set: fitted(folio.Fitting{Stock: "card", Kind: folio.Folded{Kind: pocket.Slip{Content: content(units.Size{W: 60*mm + 1, H: 190*mm + 1})}}})},
		{name: "a strip at hand too wide", set: fitted(folio.Fitting{Stock: "card", Kind: folio.Folded{Kind: pocket.FoldedStrip{Strip: units.Size{W: 700*mm + 1, H: 90*mm + 1}}}})},
		{name: "too large by relation with more", set: fitted(folio.Fitting{Size: place.Sizing{W: place.Relation{Of: place.OfPanel, More: 7*mm + 1}, H: by(9*mm + 1).W}, Kind: folio.Mat{}})},
		{name: "shares too large", set: fitted(folio.Fitting{Size: place.Sizing{W: place.Relation{Of: place.OfPanel, Shares: 3, More: 300*mm + 1}, H: by(9*mm + 1).W}, Kind: folio.Mat{}})},
		{name: "spine of a row too narrow", set: own(9*mm + 1)},
		{name: "a wider spine of a row too narrow", set: own(22*mm + 1)},
		{name: "nothing to turn in with gaps that come out wider", set: func(s *folio.Spec, _ units.Length) {
			s.Margin, s.Placing = rule.Margin{Ideal: 2*mm + 1}, mm/2+1
			s.Row.Boards, s.Form = nil, boards.SoftSpine
			s.Spine, s.Hinge = rule.Spine{Contents: 9*mm + 1}, rule.Hinge{}
		}},
		{name: "sheets too narrow for a strip", set: func(s *folio.Spec, _ units.Length) {
			s.Stocks[0].Sheets = []stock.Sheet{{Size: units.Size{W: 60*mm + 1, H: 300*mm + 1}, Grain: stock.GrainAlongHeight}}
			s.Fittings = []folio.Fitting{{Stock: "card", Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard().Turned()}}}}
		}},
		{name: "sheets too low for a strip", set: func(s *folio.Spec, _ units.Length) {
			s.Stocks[0].Sheets = []stock.Sheet{{Size: units.Size{W: 300*mm + 1, H: 40*mm + 1}, Grain: stock.GrainAlongHeight}}
			s.Fittings = []folio.Fitting{{Stock: "card", Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard().Turned()}}}}
		}},
		{name: "doors", set: func(s *folio.Spec, _ units.Length) { s.Form, s.DoorGap = boards.DoubleSpineGate, 140*mm+1 }},
		{name: "quarter too far", set: func(s *folio.Spec, _ units.Length) {
			s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: 130*mm + 1}
		}},
		{name: "quarter too far on a cover between", set: func(s *folio.Spec, _ units.Length) {
			s.Form, s.Quarter = boards.ForeEdgeFlap, rule.Quarter{Rule: rule.QuarterAlways, Reach: 62*mm + 1}
			s.FlapWidth = 100 * mm
		}},
		{name: "panels", set: func(s *folio.Spec, _ units.Length) { s.Lining = rule.Lining{Rule: rule.LiningPanels, Inset: 70*mm + 1} }},
		{name: "a mitre", set: func(s *folio.Spec, _ units.Length) { s.Mitre.Distance = 90*mm + 1 }},
		{name: "margins of a narrow row", set: func(s *folio.Spec, _ units.Length) {
			s.Cover.W, s.Cover.H, s.Margin.Ideal = 40*mm+1, 250*mm+1, 110*mm+1
		}},
		{name: "margins of a low row", set: func(s *folio.Spec, _ units.Length) { s.Cover.W, s.Cover.H, s.Margin.Ideal = 240*mm+1, 40*mm+1, 45*mm+1 }},
		{name: "soft spine", set: func(s *folio.Spec, _ units.Length) {
			s.Form, s.Spine, s.Hinge = boards.SoftSpine, rule.Spine{Contents: 3*mm + 1}, rule.Hinge{}
			stood(s, 12*mm+1)
		}},
		{name: "soft spine of a width", set: func(s *folio.Spec, _ units.Length) {
			s.Form, s.Spine, s.Hinge = boards.SoftSpine, rule.Spine{Contents: 3*mm + 1}, rule.Hinge{Width: 9*mm + 1}
			stood(s, 12*mm+1)
		}},
		{name: "round soft spine", set: func(s *folio.Spec, _ units.Length) {
			s.Form, s.Spine, s.Hinge = boards.SoftSpine, rule.Spine{Contents: 3*mm + 1}, rule.Hinge{Crease: rule.CreaseRound, Width: 19*mm + 1}
			stood(s, 22*mm+1)
		}},
		{name: "contents of a spine", set: func(s *folio.Spec, _ units.Length) {
			s.Spine = rule.Spine{Contents: 3*mm + 1}
			stood(s, 22*mm+1)
		}},
		{name: "a soft joint in a row with a spine", set: func(s *folio.Spec, _ units.Length) {
			s.Spine, s.Hinge = rule.Spine{Width: 20*mm + 1, Contents: 3*mm + 1}, rule.Hinge{}
			s.Row = boards.Row{
				Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2}, {Role: boards.Panel3, Rule: boards.WidthHalf}},
				Joints: []boards.Joint{{Fold: score.Mountain}, {Fold: score.Mountain}, {Fold: score.Valley, Hinge: rule.Hinge{Rule: rule.HingeLeast}}},
			}
			stood(s, 30*mm+1)
			s.Fittings[0].Panel = boards.Panel3
		}},
		{name: "under a flap", set: func(s *folio.Spec, _ units.Length) {
			flapped(s)
			stood(s, 12*mm+1)
			s.Fittings[0].Panel, s.Fittings[0].Outside = boards.LeftCover, true
		}},
		{name: "a fore edge", set: func(s *folio.Spec, _ units.Length) {
			flapped(s)
			s.Hinge = rule.Hinge{Width: 3*mm + 1}
			s.Covering.Caliper = mm + 1
		}},
	}
}

// atTheEdge reports whether what is wrong has a limit.
func atTheEdge(t *testing.T, e edge, s folio.Spec) bool {
	t.Helper()
	v, refused := refusal(s, e.path, e.code)
	if !refused || v.Bound == check.NoBound {
		return false
	}
	at := func(l units.Length) bool {
		s := mendtest.Copy(s)
		if err := mendtest.At(reflect.ValueOf(&s).Elem(), v.Path, func(f reflect.Value) { f.SetInt(int64(l)) }); err != nil {
			t.Fatal(err)
		}
		_, refused := refusal(s, e.path, e.code)
		return refused
	}
	beyond := max(looseLimits[e.name], nm)
	if v.Bound == check.AtLeast {
		beyond = -beyond
	}
	if at(v.Limit) {
		t.Errorf("%s: what would do does not: %v", e.name, v)
	}
	if !at(v.Limit + beyond) {
		t.Errorf("%s: what is %v beyond what would do does too: %v", e.name, beyond.Abs(), v)
	}
	return true
}

// readCases are all that is wrong and asks for a length or a size.
func readCases() []edge {
	small := []stock.Sheet{{Size: units.MustParseSize("60 x 70 mm")}}
	cases := append(edges(), fittingEdges()...)
	for _, more := range []struct {
		name string
		set  func(*folio.Spec)
	}{
		{"no sheet for boards", func(s *folio.Spec) { s.Board.Sheets = small }},
		{"no sheet for the wrap", func(s *folio.Spec) { s.Covering.Sheets = small }},
		{"no sheet for the liner", func(s *folio.Spec) { s.Liner.Sheets, s.Lining.Rule = small, rule.LiningOnePiece }},
		{"no sheet for the liner's panels", func(s *folio.Spec) { s.Liner.Sheets, s.Lining.Rule = small, rule.LiningPanels }},
		{"no sheet for side papers", func(s *folio.Spec) {
			s.Covering.Sheets, s.Quarter.Rule = small, rule.QuarterAlways
			s.SpineCovering = stock.Stock{Name: "cloth", Caliper: mm / 3}
		}},
		{"no sheet for strips", func(s *folio.Spec) {
			s.SpineCovering, s.Quarter.Rule = stock.Stock{Name: "cloth", Caliper: mm / 3, Sheets: small}, rule.QuarterAlways
		}},
		{"no sheet for a strip that is folded", func(s *folio.Spec) {
			s.Stocks[0].Sheets = small
			s.Fittings = []folio.Fitting{{Stock: "card", Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard().Turned()}}}}
		}},
		{"no sheet for a mat", func(s *folio.Spec) {
			s.Stocks[0].Sheets = small
			s.Fittings = []folio.Fitting{{Stock: "card", Kind: folio.Mat{Size: units.Size{W: 80*mm + 1, H: 90*mm + 1}}}}
		}},
		{"a hinge by a rule", func(s *folio.Spec) { s.Hinge, s.Liner.Caliper = rule.Hinge{Rule: rule.HingeOneCaliper}, 3*mm+1 }},
		{"a mitre by a rule", func(s *folio.Spec) { s.Mitre, s.Covering.Caliper = rule.Mitre{Rule: rule.MitreOneCaliper}, 3*mm+1 }},
		{"a mitre too far by a rule", func(s *folio.Spec) {
			s.Mitre = rule.Mitre{Rule: rule.MitreEighth}
			s.Margin = rule.Margin{Ideal: 2*mm + 300_001, Least: 2*mm + 1, Tolerated: 2 * mm}
			s.Board.Caliper = mm
		}},
		{"no room for a print", func(s *folio.Spec) {
			size := place.Filling(place.OfPanel, 50*mm+1)
			size.Picture = place.PictureUsual
			s.Fittings = []folio.Fitting{{Kind: folio.Mat{Picture: pocket.Content{Name: "print"}}, Size: size}}
		}},
		{"a quarter that goes too far", func(s *folio.Spec) { s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: 130*mm + 1} }},
		{"on a spine", func(s *folio.Spec) {
			s.Spine.Width = 40*mm + 1
			s.Fittings = []folio.Fitting{{Panel: boards.Spine1, Kind: folio.Ornament{Size: units.Size{W: 38*mm + 1, H: 30 * mm}, Thickness: 26*mm + 1}}}
		}},
		{"a soft spine", func(s *folio.Spec) {
			s.Form, s.Spine, s.Hinge = boards.SoftSpine, rule.Spine{Contents: 3*mm + 1}, rule.Hinge{}
			stood(s, 12*mm+1)
		}},
		{"under a flap", func(s *folio.Spec) {
			flapped(s)
			stood(s, 12*mm+1)
			s.Fittings[0].Panel, s.Fittings[0].Outside = boards.LeftCover, true
		}},
	} {
		cases = append(cases, edge{name: more.name, set: func(s *folio.Spec, _ units.Length) { more.set(s) }})
	}
	return append(cases, finelyRead()...)
}

// finelyRead are things that are wrong by lengths a good half of a ten-thousandth of an
// inch apart, so that some are nearest to the one above and some to the one below.
func finelyRead() []edge {
	var cases []edge
	for k := range units.Length(6) {
		fine := 1 + 142_857*k
		add := func(name string, set func(*folio.Spec)) {
			cases = append(cases, edge{name: name, set: func(s *folio.Spec, _ units.Length) { set(s) }})
		}
		thick := func(s *folio.Spec, panel boards.Role) {
			stood(s, 22*mm+fine)
			s.Fittings[0].Panel = panel
		}
		add("a spine board of a width of its own", func(s *folio.Spec) {
			s.Row = boards.SpineBoard.Row()
			s.Row.Boards[1].Width, s.Spine = 12*mm+1, rule.Spine{Contents: 3 * mm}
			thick(s, boards.RightCover)
		})
		add("a soft spine by a published rule", func(s *folio.Spec) {
			s.Form, s.Spine, s.Hinge = boards.SoftSpine, rule.Spine{Contents: 3 * mm}, rule.Hinge{Rule: rule.HingeFlatBackGroove}
			thick(s, boards.RightCover)
		})
		add("a fold as wide as the spine elsewhere", func(s *folio.Spec) {
			own := rule.Hinge{Rule: rule.HingeLeast}
			s.Row = boards.Row{
				Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2}, {Role: boards.Panel3}, {Role: boards.Panel4}},
				Joints: []boards.Joint{{Hinge: own}, {Hinge: own}, {Fold: score.Mountain, Hinge: own}, {Hinge: own}},
			}
			s.Hinge, s.Spine.Width = rule.Hinge{}, 9*mm+1
			thick(s, boards.Panel4)
		})
		add("a relation that leaves nothing", func(s *folio.Spec) {
			s.Fittings = []folio.Fitting{mat(30*mm, mm), {Kind: folio.Mat{}, Size: place.Sizing{
				W: place.Relation{Of: place.OfPanel, Less: 20 * mm}, H: place.Relation{Of: place.OfFitting, Fitting: "mat", Shares: 190 + int(7*k)}}}}
		})
		add("beside the spine", func(s *folio.Spec) {
			s.Form, s.Closing.UnderFlap = boards.ForeEdgeFlap, 26*mm
			s.Fittings = []folio.Fitting{{Panel: boards.Spine2, Kind: folio.Ornament{Size: units.Size{W: 6*mm + 1, H: 40 * mm}, Thickness: 8*mm + 1},
				Place: place.Place{Across: place.Left, Offset: units.Point{X: 19*mm + fine}}}}
		})
		add("a picture by relation", func(s *folio.Spec) {
			s.Lining.Inset += fine
			by := place.Relation{Of: place.OfPanel, More: 40 * mm}
			s.Fittings = []folio.Fitting{{Kind: folio.Mat{}, Size: place.Sizing{W: by, Proportions: place.Proportions{W: 2, H: 3}}}}
		})
	}
	return cases
}

// past is a value off the ruler well past the edge, another one for each n; where the
// edge is a nanometre or so there is nothing past it that is as wrong.
func (e edge) past(n int) units.Length {
	far := units.Length(999_983) + 99_991*units.Length(n)
	switch {
	case max(e.fine.Abs(), e.wrong.Abs()) < 1000:
		far = 0
	case e.wrong < e.fine:
		far = -far
	}
	return e.wrong + far
}

// Off the ruler, too, what is read in a plan in inches, most of it rounded for
// reading, does: at least is never read as less, nor at most as more.
func TestWhatIsReadDoes(t *testing.T) {
	came := map[mendtest.Outcome]int{}
	for _, e := range readCases() {
		for n := range 12 {
			s := unruledCase(n)
			s.Rulers = rule.Rulers{Main: units.Sixteenths, Board: units.TenthMillimetres, Gap: units.HalfMillimetres, Wrap: units.TenthMillimetres, Liner: units.HalfMillimetres, Fitting: units.TenthMillimetres}
			e.set(&s, e.past(n))
			for v := range violations(t, e, s) {
				found := mendtest.Try(s, v, []any{folio.Mat{Size: units.Size{W: 20 * mm, H: 20 * mm}}, "card"}, builds)
				if came[found.Outcome]++; found.Outcome == mendtest.NotDone || found.Outcome == mendtest.Astray {
					t.Errorf("%s: %s", e.name, found.Text)
				}
			}
		}
	}
	// 10 m are 393.70078... in.
	for side, set := range map[string]func(*folio.Spec){
		"cover.w": func(s *folio.Spec) { s.Cover.W = 4_999*mm + 1 },
		"cover.h": func(s *folio.Spec) { s.Cover.H = units.Longest - 1 },
	} {
		s := unruledCase(0)
		s.Rulers = rule.Rulers{Main: units.Sixteenths, Board: units.TenthMillimetres}
		set(&s)
		v, ok := refusal(s, side, check.TooLarge)
		if !ok || !strings.HasSuffix(v.Want, " for 393.7007 in of it") {
			t.Errorf("%s: %v", side, builds(s))
		} else if found := mendtest.Try(s, v, nil, builds); found.Outcome != mendtest.Mended {
			t.Errorf("%s: %s", side, found.Text)
		}
	}
	if came[mendtest.Mended] < 800 {
		t.Errorf("only %d were mended", came[mendtest.Mended])
	}
}

// builds is what is wrong with a Spec, if anything is.
func builds(s folio.Spec) error {
	_, err := folio.Build(s)
	return err
}

// violations are those of an edge's Spec. An edge of no code is always refused.
func violations(t *testing.T, e edge, s folio.Spec) iter.Seq[check.Violation] {
	t.Helper()
	var bad *check.Error
	if errors.As(builds(s), &bad) {
		return bad.All()
	}
	if e.code == "" {
		t.Errorf("%s is fine", e.name)
	}
	return func(func(check.Violation) bool) {}
}

// refusal returns the violation of a code at a path.
func refusal(s folio.Spec, path string, code check.Code) (check.Violation, bool) {
	var bad *check.Error
	if !errors.As(builds(s), &bad) {
		return check.Violation{}, false
	}
	return bad.Find(path, code)
}

// asked finds what a text asks for: at least or at most a length or a size.
var asked = regexp.MustCompile(`at (least|most) (~?[0-9][0-9 ./]*(?: (?:in|mm))?(?: x ~?[0-9][0-9 ./]*)? (?:in|mm))`)

// asks reads what a text asks for, each side of a size by itself, negative for at most.
func asks(t *testing.T, text string) (all []units.Length) {
	t.Helper()
	for _, m := range asked.FindAllStringSubmatch(text, -1) {
		sides := strings.Split(m[2], " x ")
		unit := m[2][len(m[2])-3:]
		for _, side := range sides {
			if !strings.HasSuffix(side, " in") && !strings.HasSuffix(side, " mm") {
				side += unit
			}
			if strings.Contains(side, "~") {
				t.Errorf("%q asks for a length that is rounded either way", text)
				side = strings.TrimPrefix(side, "~")
			}
			l, err := units.Parse(side)
			if err != nil {
				t.Fatalf("%s: %v", text, err)
			}
			if m[1] == "most" {
				l = -l
			}
			all = append(all, l)
		}
	}
	return all
}

// What is asked for is told in an inch plan as a length that is no less than the exact
// one, which a metric plan of the same sizes tells to the nanometre, if it is the least,
// and no more if it is the most; and it is the next ten-thousandth.
func TestBoundsAreToldOnTheirSide(t *testing.T) {
	told, rounded := map[string]bool{}, 0
	for _, e := range append(readCases(), moreLimits()...) {
		for n := range 8 {
			s := unruledCase(n)
			s.Rulers = rule.Rulers{Main: everyNanometre, Board: everyNanometre, Gap: everyNanometre, Wrap: everyNanometre, Liner: everyNanometre, Fitting: everyNanometre}
			e.set(&s, e.past(n))
			for v := range violations(t, e, s) {
				if v.Bound == check.NoBound {
					continue
				}
				if found := mendtest.Try(s, v, nil, builds); found.Outcome != mendtest.Mended {
					t.Errorf("%s: %s", e.name, found.Text)
				}
			}
			next, stop := iter.Pull(violations(t, e, s))
			s = s.WithDefaults() // or an inch plan has others
			s.Rulers.Main = units.Sixteenths
			for v := range violations(t, e, s) {
				exact, ok := next()
				if !ok || exact.Path != v.Path || exact.Code != v.Code {
					break // another one, as what is not given is another
				}
				in, mm := asks(t, v.Want), asks(t, exact.Want)
				if len(in) != len(mm) {
					t.Errorf("%s: %q and %q", e.name, v.Want, exact.Want)
					continue
				}
				for i := range in {
					d := in[i] - mm[i]
					if d.Abs() > units.Inch/1000 {
						continue // likewise
					}
					if told[e.name] = true; d != 0 {
						rounded++
					}
					if d < 0 || d >= units.Inch/10_000 {
						t.Errorf("%s: %q is %v off %q", e.name, v.Want, d, exact.Want)
					}
				}
			}
			stop()
		}
	}
	if len(told) < 70 || rounded < 600 {
		t.Errorf("only %d ask for something, and %d lengths were rounded", len(told), rounded)
	}
}

// A sheet that is too small for a piece of a fitting names that fitting, the first one too.
func TestSmallSheetsNameTheirFitting(t *testing.T) {
	card := pocket.Content{Name: "rota", Size: units.Size{W: 61 * mm, H: 83 * mm}}
	for _, kind := range []folio.Kind{folio.Mat{Picture: card}, folio.Frame{Picture: card}, folio.Folded{Kind: pocket.Slip{Content: card}}} {
		s := plainCase()
		s.Stocks = []stock.Stock{{Name: "tinted", Caliper: mm / 5, Sheets: []stock.Sheet{{Size: units.Size{W: 20 * mm, H: 30 * mm}}}}}
		s.Fittings = []folio.Fitting{{Name: "rota", Panel: boards.RightCover, Stock: "tinted", Kind: kind}}
		v, ok := refusal(s, "stocks[0].sheets", folio.SheetSmall)
		if !ok || !strings.Contains(v.Error(), `("rota")`) {
			t.Errorf("%v, %v", v, builds(s))
		}
	}
}
