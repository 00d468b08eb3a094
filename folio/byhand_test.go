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
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
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
	for _, more := range []units.Length{0, 1, 2, 3, 4, 5, 6, 7, 8, mm, 3 * mm} {
		q, err := p.Refit(refit.Measured{Width: p.OpenWidth().Length() + 2*s.Covering.Caliper + more, Height: p.OpenHeight().Length()})
		if err != nil {
			t.Fatal(more, err)
		}
		var row units.Rect
		for b := range q.Boards() {
			row = row.Union(b.Rect())
		}
		for in := range q.TurnIns() {
			if in.Depth() <= 0 || in.Outline().Bounds().Empty() {
				t.Errorf("%v longer: %v deep at the %v, %v", more, in.Depth(), in.Edge(), in.Outline())
			}
			for i, at := range in.Outline().Corners() {
				if at.X < row.Min.X || at.X > row.Max.X || at.Y < row.Min.Y || at.Y > row.Max.Y {
					t.Errorf("%v longer: corner %d of the turn-in at the %v, %v, lies outside the boards, %v", more, i, in.Edge(), at, row)
				}
			}
		}
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
		if !ok || v.Bound != check.AtMost || v.Limit+v.By != s.Lining.Inset {
			t.Errorf("%v more at the sides: %v by %v", more, err, v.By)
			continue
		}
		s.Lining.Inset = v.Limit
		if _, err := mustBuild(t, s).Refit(m); err != nil {
			t.Errorf("%v more at the sides: an inset of %v does not do: %v", more, v.Limit, err)
		}
	}
}
