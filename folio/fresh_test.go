package folio_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// An ornament lies on the board and holds nothing; a mat, a frame and a pocket tell
// the content that they are asked for, where there is one.
func TestWhatIsHeld(t *testing.T) {
	card := pocket.Content{Name: "boat ticket", Size: units.Size{W: 85 * mm, H: 54 * mm}}
	for name, c := range map[string]struct {
		kind folio.Kind
		want pocket.Content
	}{
		"no kind":               {},
		"ornament":              {kind: folio.Ornament{Size: card.Size, Thickness: mm}},
		"bare mat":              {kind: folio.Mat{Size: card.Size}},
		"mat round a picture":   {folio.Mat{Picture: card, Reveal: mm}, card},
		"frame":                 {folio.Frame{Picture: card}, card},
		"frame of any size":     {kind: folio.Frame{}},
		"slip":                  {folio.Folded{Kind: pocket.Slip{Content: card}}, card},
		"folded of no kind yet": {kind: folio.Folded{}},
	} {
		got, ok := folio.Fitting{Kind: c.kind}.Content()
		if ok != (c.want != pocket.Content{}) || got != c.want {
			t.Errorf("%s: %v, %v; want %v", name, got, ok, c.want)
		}
	}
}

// The door at the left of a gate, of half of 120 mm less 2 mm, holds a magnet of 6 mm
// just at its inner edge, 53 mm from the outer one, and so does that at the right.
func TestMagnetAtTheInnerEdge(t *testing.T) {
	for _, c := range []struct {
		inset   units.Length
		refused bool
	}{{53 * mm, false}, {53*mm + nm, true}} {
		s := plainCase()
		s.Form, s.DoorGap = boards.DoubleSpineGate, 2*mm
		s.Magnets = closing.Magnets{Diameter: 6 * mm, Thickness: mm, Pairs: 2, Inset: c.inset}
		_, err := folio.Build(s)
		if off := refusedWith(err, "magnets.diameter", folio.OffPanel); off != c.refused || (err != nil) != c.refused {
			t.Errorf("an inset of %v: %v", c.inset, err)
		}
	}
}

// However much longer the row came out than planned, a turn-in lies on the boards, has
// some depth, and begins nowhere outside them: where the mitre goes just past the
// boards' corner, by a nanometre less, and where nothing is left to turn in.
func TestTurnInsLieOnTheBoards(t *testing.T) {
	s := plainCase()
	s.Rulers.Wrap = everyNanometre
	s.Mitre.Distance = 1_555_635 // of which the root of 2 is 2.2 mm and less than a nanometre
	p := mustBuild(t, s)
	sides := map[bool]int{}
	for _, more := range []units.Length{0, 1, 2, 3, 4, 5, 6, 7, 8, mm, 3 * mm} {
		q, err := p.Refit(refit.Measured{Width: p.OpenWidth().Length() + 2*s.Covering.Caliper + more, Height: p.OpenHeight().Length()})
		if err != nil {
			t.Fatal(more, err)
		}
		var row units.Rect
		for b := range q.Boards() {
			row = row.Union(b.Rect())
		}
		n := 0
		for in := range q.TurnIns() {
			n++
			if in.Depth() <= 0 {
				t.Errorf("%v longer: %v deep at the %v", more, in.Depth(), in.Edge())
			}
			for i, at := range in.Outline().Corners() {
				if at.X < row.Min.X || at.X > row.Max.X || at.Y < row.Min.Y || at.Y > row.Max.Y {
					t.Errorf("%v longer: corner %d of the turn-in at the %v, %v, lies outside the boards, %v", more, i, in.Edge(), at, row)
				}
			}
		}
		sides[n == 4]++
	}
	// Margins of 3 mm leave 0.8 mm beyond the board and the covering on it, and a row
	// 2 mm longer takes 1 mm of that at either side: head and tail alone are turned in.
	s.Margin, s.Mitre = rule.Margin{Ideal: 3 * mm, Least: mm, Tolerated: mm}, rule.Mitre{}
	s.Lining.Inset, s.Rulers.Liner = mm/2, everyNanometre
	p = mustBuild(t, s)
	q, err := p.Refit(refit.Measured{Width: p.OpenWidth().Length() + 2*s.Covering.Caliper + 2*mm, Height: p.OpenHeight().Length()})
	if err != nil {
		t.Fatal(err)
	}
	var edges []score.Edge
	for in := range q.TurnIns() {
		edges = append(edges, in.Edge())
	}
	if want := []score.Edge{score.Head, score.Tail}; !slices.Equal(edges, want) {
		t.Errorf("turned in at %v, want %v", edges, want)
	}
}

// Doors that share the width of a cover, in a row that has no back, tell it as the
// cover's width, and those of a gate as the back's.
func TestDoorsTellWhatTheyShare(t *testing.T) {
	gate := boards.DoubleSpineGate.Row()
	none := boards.DoubleSpineGate.Row()
	for i := range none.Boards {
		if none.Boards[i].Role == boards.Back {
			none.Boards[i].Role, none.Main = boards.RightCover, boards.RightCover
		}
	}
	for what, row := range map[string]boards.Row{"back width": gate, "cover width": none} {
		s := plainCase()
		s.Row, s.DoorGap = row, 2*mm
		p := mustBuild(t, s)
		door, ok := p.Board(boards.LeftDoor)
		if !ok {
			t.Fatal("no door")
		}
		var first string
		for term := range door.Width().Terms() {
			first = term.Label
			break
		}
		if first != what || door.Width().Length() != 59*mm {
			t.Errorf("a door of %v by %q, want 59 mm by %q", door.Width(), first, what)
		}
	}
}

// Whatever is fixed to the wrap by lines has them drawn on it before, at its left edge
// and at its head; and what has lines there is fixed by them. So is a stiffener.
func TestFixedByTheLinesDrawn(t *testing.T) {
	for _, stiff := range []string{"", "card"} {
		s := plainCase()
		s.Form, s.Hinge = boards.SoftSpine, rule.Hinge{}
		s.Spine = rule.Spine{Contents: 20 * mm, Stiffener: stiff}
		var level, upright []units.Length
		fixed := 0
		for step := range mustBuild(t, s).Steps() {
			for _, a := range step.Do {
				switch a := a.(type) {
				case work.Draw:
					if a.Axis == score.Level {
						level = append(level, a.At)
					} else {
						upright = append(upright, a.At)
					}
				case work.Fix:
					if step.For.Kind != work.PartCase || a.At.Across != score.Left || a.At.Along != score.Head {
						continue
					}
					fixed++
					drawn := slices.Contains(upright, a.At.X) && slices.Contains(upright, a.At.X+a.Size.W) && slices.Contains(level, a.At.Y)
					if drawn != a.Lines || !drawn {
						t.Errorf("%s: by lines %v, drawn %v", a.What.Name, a.Lines, drawn)
					}
				}
			}
		}
		if want := 2 + len(stiff)/4; fixed != want {
			t.Errorf("%d things are fixed to the wrap, want %d", fixed, want)
		}
	}
}

// A part of the case is of one kind in every step for it: the wrap is no liner.
func TestPartsByKind(t *testing.T) {
	for _, quarter := range []rule.QuarterRule{rule.QuarterNever, rule.QuarterAlways} {
		s := plainCase()
		s.Quarter.Rule = quarter
		seen := map[string]bool{}
		kinds := map[string]work.PartKind{"case": work.PartCase, "wrap": work.PartWrap, "liner": work.PartLiner}
		for step := range mustBuild(t, s).Steps() {
			kind, ok := kinds[step.For.Name]
			if ok && step.For.Kind != kind {
				t.Errorf("%q is of kind %v, want %v", step.For.Name, step.For.Kind, kind)
			}
			seen[step.For.Name] = true
		}
		for name := range kinds {
			if !seen[name] {
				t.Errorf("no step is for the %s", name)
			}
		}
	}
}

// A pocket that cannot be folded is told once, whatever waits for its size: what is put
// evenly beside it, is as wide as it, or stands on it.
func TestNothingBlamedForWhatCannotBeFolded(t *testing.T) {
	card := pocket.Content{Name: "card", Size: units.Size{W: 60 * mm, H: 40 * mm}}
	even := place.Place{Across: place.Even, Along: place.Head}
	low := folio.Fitting{Name: "slip", Stock: "strip", Place: even, Kind: folio.Folded{Kind: pocket.Slip{Content: card}}}
	for name, other := range map[string]folio.Fitting{
		"even beside it": {Name: "tag", Place: even, Kind: folio.Mat{Size: units.Size{W: 10 * mm, H: 20 * mm}}},
		"as wide":        {Name: "tag", Place: place.Place{Along: place.Tail}, Kind: folio.Mat{}, Size: place.Sizing{W: place.Relation{Of: place.OfFitting, Fitting: "slip"}, H: place.Relation{Of: place.OfFitting, Fitting: "slip"}}},
		"on it":          {Name: "tag", StandsOn: "slip", Kind: folio.Mat{Size: units.Size{W: 10 * mm, H: 10 * mm}}},
		"in line":        {Name: "tag", Place: place.Place{Across: place.Left, Along: place.After, AlongOf: "slip"}, Kind: folio.Mat{Size: units.Size{W: 10 * mm, H: 10 * mm}}},
	} {
		s := related(low, other)
		s.Stocks = append(s.Stocks, stock.Stock{Name: "strip", Caliper: mm / 5, Sheets: sheetOf(500*mm, 20*mm)})
		_, err := folio.Build(s)
		var bad *check.Error
		if !errors.As(err, &bad) || bad.Len() != 1 || !refusedWith(err, "stocks[1].sheets", folio.SheetSmall) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Of the largest sheet at hand the side that is too small is named as long as it must
// be, the other as it is, and a sheet like that does, whichever side lacks.
func TestLargerSheet(t *testing.T) {
	card := pocket.Content{Name: "card", Size: units.Size{W: 60 * mm, H: 40 * mm}}
	with := func(sheet units.Size) folio.Spec {
		s := arranged(folio.Fitting{Name: "slip", Stock: "paper", Kind: folio.Folded{Kind: pocket.Slip{Content: card}}})
		s.Stocks = []stock.Stock{{Name: "paper", Caliper: mm / 5, Sheets: sheetOf(sheet.W, sheet.H)}}
		return s
	}
	blank := units.Size{}
	for pc := range mustBuild(t, with(units.Size{W: 500 * mm, H: 400 * mm})).Pieces() {
		if pc.Part() == "slip" {
			blank = pc.Size()
		}
	}
	if blank.W <= blank.H {
		t.Fatalf("a blank of %v", blank)
	}
	// Too low for its height, however long, and too short for its width.
	for _, sheet := range []units.Size{{W: 500 * mm, H: blank.H - mm}, {W: blank.W + mm, H: blank.H - mm}, {W: blank.W - mm, H: blank.H + mm}, {W: blank.W - mm, H: blank.W - 2*mm}} {
		for _, sheet := range []units.Size{sheet, sheet.Turned()} {
			v, ok := refusal(with(sheet), "stocks[0].sheets", folio.SheetSmall)
			told := asks(t, v.Want)
			if !ok || len(told) != 2 {
				t.Errorf("sheets of %v for a blank of %v: %v", sheet, blank, builds(with(sheet)))
				continue
			}
			would := units.Size{W: told[0], H: told[1]}
			if err := builds(with(would)); err != nil {
				t.Errorf("sheets of %v: %v does not do: %v", sheet, would, err)
			}
			longer := 0
			if would.Turned() != sheet && (would.W == sheet.H || would.H == sheet.W) {
				sheet = sheet.Turned()
			}
			for _, l := range []units.Length{would.W - sheet.W, would.H - sheet.H} {
				if l < 0 {
					t.Errorf("sheets of %v: %v is smaller", sheet, would)
				}
				if l > 0 {
					longer++
				}
			}
			if longer != 1 || builds(with(would.Plus(-nm, 0))) == nil && builds(with(would.Plus(0, -nm))) == nil {
				t.Errorf("sheets of %v: one side is too small for a blank of %v, and %v was asked for", sheet, blank, would)
			}
		}
	}
}

// What was measured wrong is told in the plan's own units; and a plan of nothing is
// refitted as little as it is built, whatever is measured.
func TestMeasuredInThePlansUnits(t *testing.T) {
	inch := folio.Spec{Cover: units.MustParseSize("5 x 7 in"), Spine: rule.Spine{Width: units.Inch}}
	for unit, s := range map[string]folio.Spec{" mm": plainCase(), " in": inch} {
		p := mustBuild(t, s)
		for _, m := range []refit.Measured{{Width: -5 * units.Inch, Height: 5 * units.Inch}, {Width: 5 * units.Inch, Height: 11 * units.Metre}} {
			_, err := p.Refit(m)
			var bad *check.Error
			if !errors.As(err, &bad) || bad.Len() != 1 {
				t.Errorf("%v", err)
				continue
			}
			for v := range bad.All() {
				if !strings.HasSuffix(v.Got, unit) {
					t.Errorf("%q is not told in%s", v.Got, unit)
				}
			}
		}
	}
	_, want := folio.Build(folio.Spec{})
	if want == nil {
		t.Fatal("nothing is built")
	}
	for _, m := range []refit.Measured{{}, {Width: 277 * mm, Height: 170 * mm}, {Width: -mm}, {Width: 277 * mm, Height: 170 * mm, Panels: []units.Length{mm}}} {
		if q, err := new(folio.Plan).Refit(m); q != nil || fmt.Sprint(err) != fmt.Sprint(want) {
			t.Errorf("%+v: %v, %v; want %v", m, q, err, want)
		}
	}
}

// A content that makes its pocket too large is told the largest at which it is not: on a
// panel of 110 x 160 mm, off the ruler by this and that.
func TestSmallerContents(t *testing.T) {
	for _, ruler := range []units.Ruler{units.WholeMillimetres, units.Sixteenths, units.HalfMillimetres} {
		for _, by := range []units.Length{0, nm, mm / 7, mm / 2, 9 * mm / 10} {
			for name, make := range map[string]func(pocket.Content) pocket.Kind{
				"slip":  func(c pocket.Content) pocket.Kind { return pocket.Slip{Content: c} },
				"strip": func(c pocket.Content) pocket.Kind { return pocket.FoldedStrip{Content: c} },
				"flap":  func(c pocket.Content) pocket.Kind { return pocket.Flap{Content: c} },
			} {
				for _, size := range []units.Size{{W: 130*mm + by, H: 60 * mm}, {W: 60 * mm, H: 190*mm + by}} {
					with := func(size units.Size) folio.Spec {
						s := arranged(folio.Fitting{Kind: folio.Folded{Kind: make(pocket.Content{Name: "card", Size: size, Thickness: mm / 3})}})
						s.Rulers = rule.Rulers{Main: units.WholeMillimetres, Fitting: ruler}
						return s
					}
					path, code := "fittings[0].kind.kind.content.size.w", folio.TooWide
					side := &size.W
					if size.H > size.W {
						path, code, side = "fittings[0].kind.kind.content.size.h", folio.TooTall, &size.H
					}
					v, ok := refusal(with(size), path, code)
					if !ok || v.Bound != check.AtMost {
						t.Errorf("%s of %v: %v", name, size, builds(with(size)))
						continue
					}
					if *side = v.Limit; builds(with(size)) != nil {
						t.Errorf("%s of %v: what would do does not: %v", name, size, builds(with(size)))
					}
				}
			}
		}
	}
}

// Doors of a back on a ruler of 8 mm: of 15 mm, which are 16 mm on it, nothing is left of
// two with anything between them, and no gap is asked for; of 20 mm, which are 24, they
// are 8 mm each with 8 mm between them at most.
func TestNoGapLeavesDoors(t *testing.T) {
	eights, err := units.NewRuler(8*mm, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ back, gap, most units.Length }{
		{15 * mm, 2 * mm, 0}, {15 * mm, 14 * mm, 0}, {20 * mm, 9 * mm, 8 * mm}, {16 * mm, mm, 0},
	} {
		s := plainCase()
		s.Form, s.Cover.W, s.DoorGap, s.Rulers.Board = boards.DoubleSpineGate, c.back, c.gap, eights
		v, ok := refusal(s, "doorgap", check.TooSmall)
		if !ok || v.Limit != c.most || (v.Bound == check.AtMost) != (c.most > 0) {
			t.Errorf("%v between doors of a back of %v: %+v, want at most %v; %v", c.gap, c.back, v, c.most, builds(s))
		}
	}
}

// A liner that laps its turn-ins as planned, and as measured does not: the inset that
// would do does, and the covering past the boards' edge, which lies at one side only where
// one cover alone measures more, is not counted on at the other.
func TestInsetThatWouldDoAsMeasured(t *testing.T) {
	for _, more := range [][2]units.Length{{0, 0}, {200 * units.Micrometre, 0}, {0, 200 * units.Micrometre}, {80 * units.Micrometre, 200 * units.Micrometre}} {
		s := plainCase()
		s.Rulers.Wrap, s.Rulers.Liner, s.Lining.Inset = everyNanometre, everyNanometre, 22700*units.Micrometre
		m := refit.Measured{Width: 280 * mm, Height: 170 * mm, Panels: []units.Length{120*mm + more[0], 25 * mm, 120*mm + more[1]}}
		_, err := mustBuild(t, s).Refit(m)
		var bad *check.Error
		if !errors.As(err, &bad) {
			t.Errorf("%v more at the sides: laps", more)
			continue
		}
		v, ok := bad.Find("lining.inset", folio.LapNone)
		if !ok || v.Bound != check.AtMost {
			t.Errorf("%v more at the sides: %v", more, err)
			continue
		}
		s.Lining.Inset = v.Limit
		if _, err := mustBuild(t, s).Refit(m); err != nil {
			t.Errorf("%v more at the sides: an inset of %v does not do: %v", more, v.Limit, err)
		}
	}
}
