package folio_test

import (
	"cmp"
	"errors"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/makertest"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A cover of 4 1/2 x 6 1/4 in with a spine of 1 in has a zone of 1 1/4 in
// between its covers. A fifth of the board's width (H. Hebert, quarter-cloth
// case) is 9/10 in, 15/16 in on the ruler; side papers lap the strip by 1/8 in
// (S. J. Vaughn, Printing and Bookbinding for Schools, 1912). By hand: strip
// 1 1/4 + 2 x 15/16 = 3 1/8 in; side paper 4 1/2 - 9/10 + 1/8 + 1 = 4.725 in,
// 4 3/4 on the ruler; both 8 1/4 in high.
func TestQuarterStyle(t *testing.T) {
	want := map[string]units.Size{
		"spine strip":                   units.MustParseSize("3 1/8 x 8 1/4 in"),
		"side paper of the left cover":  units.MustParseSize("4 3/4 x 8 1/4 in"),
		"side paper of the right cover": units.MustParseSize("4 3/4 x 8 1/4 in"),
	}
	s := good()
	s.Covering.Sheets = []stock.Sheet{{Size: units.MustParseSize("6 x 9 in")}}
	if _, err := folio.Build(s); !refusedWith(err, "covering.sheets", folio.SheetSmall) {
		t.Fatalf("no sheet takes the wrap, and quarter style was not asked for: %v", err)
	}
	s.Quarter.Rule = rule.QuarterWhenNeeded
	plan, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	warned := false
	for w := range plan.Warnings() {
		warned = warned || w.Code == folio.WarnQuarter
	}
	if !warned || !plan.Wrap().Quarter() {
		t.Error("quarter style out of need comes without a warning")
	}
	at := map[string][]units.Length{}
	for w := range plan.Wrap().Pieces() {
		p := w.Piece()
		at[p.Name()] = append(at[p.Name()], w.X())
		if p.Size() != want[p.Name()] {
			t.Errorf("%s is %v, want %v", p.Name(), p.Size(), want[p.Name()])
		}
		cuts := 0
		for range p.CornerCuts() {
			cuts++
		}
		if mitres := map[bool]int{true: 0, false: 2}[w.Strip()]; cuts != mitres {
			t.Errorf("%s has %d mitres, want %d", p.Name(), cuts, mitres)
		}
	}
	left, right := at["side paper of the left cover"], at["side paper of the right cover"]
	if len(at["spine strip"]) != 1 || len(left) != 1 || len(right) != 1 {
		t.Fatalf("pieces at %v", at)
	}
	// Whole covering 12 1/4 in: margin 1, cover 4 1/2 less the reach.
	if x := at["spine strip"][0]; x != units.MustParse("4 9/16 in") {
		t.Errorf("the strip begins at %v, want 1 + 4 1/2 - 15/16 = 4 9/16 in", x)
	}
	if left[0] != 0 || right[0] != units.MustParse("7 1/2 in") {
		t.Errorf("the side papers begin at %v and %v, want 0 and 12 1/4 - 4 3/4 = 7 1/2 in", left, right)
	}

	// With a sheet that takes the wrap, quarter style is not needed.
	s.Covering.Sheets = append(s.Covering.Sheets, stock.Sheet{Size: units.MustParseSize("12 x 12 in")})
	if plan, err = folio.Build(s); err != nil || plan.Wrap().Quarter() {
		t.Errorf("quarter style although a sheet takes the wrap (%v)", err)
	}
	s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: 3 * units.Inch / 4}
	if plan, err = folio.Build(s); err != nil || !plan.Wrap().Quarter() {
		t.Fatalf("no quarter style on request (%v)", err)
	}
	for w := range plan.Wrap().Pieces() {
		if got, want := w.Piece().Size().W, units.MustParse("2 3/4 in"); w.Strip() && got != want {
			t.Errorf("with a reach of 3/4 in the strip is %v wide, want %v", got, want)
		}
	}
}

// A gate has two zones, and the paper of its back laps both strips.
func TestQuarterStyleOfAGate(t *testing.T) {
	plan, err := folio.Build(folio.Spec{
		Form: boards.DoubleSpineGate, Cover: units.MustParseSize("8 x 6 in"), Spine: rule.Spine{Width: units.Inch},
		Quarter: rule.Quarter{Rule: rule.QuarterAlways, Reach: 3 * units.Inch / 4},
	})
	if err != nil {
		t.Fatal(err)
	}
	strips, widths := 0, []units.Length{}
	for w := range plan.Wrap().Pieces() {
		if w.Strip() {
			strips++
		} else {
			widths = append(widths, w.Piece().Size().W)
		}
	}
	// Doors (8 - 1/16)/2 = 3 31/32, down to 3 15/16: 3 15/16 - 3/4 + 1/8 + 1;
	// back 8 - 2 x 3/4 + 2 x 1/8.
	want := []units.Length{units.MustParse("4 5/16 in"), units.MustParse("6 3/4 in"), units.MustParse("4 5/16 in")}
	if strips != 2 || len(widths) != 3 || widths[0] != want[0] || widths[1] != want[1] || widths[2] != want[2] {
		t.Errorf("%d strips, side papers %v wide; want 2 and %v", strips, widths, want)
	}
}

// Boards 99, 20, 200, 20 and 99 mm wide with gaps of 4: the strips reach 99/5 = 19.8,
// on the ruler 20, so the second begins 20 left of the right edge of the back. All
// boards lie on lines, the back on both strips, and on the second only when it has dried
// on the first. The paper of the back laps each by 3 mm or more, and lies on the ruler:
// 200 - 2 x 19.8 + 2 x 3 = 166.4, so 167 wide, 17 from the left edge.
func TestTwoStripsByLines(t *testing.T) {
	s := flat()
	s.Form, s.Cover.W, s.Quarter.Rule = boards.DoubleSpineGate, 200*mm, rule.QuarterAlways
	var on [2][]units.Length // where boards begin on each strip
	lines := map[int]map[units.Length]bool{}
	dried := false
	for step := range mustBuild(t, s).Steps() {
		for _, a := range step.Do {
			switch a := a.(type) {
			case work.Draw:
				if lines[a.On.Copy] == nil {
					lines[a.On.Copy] = map[units.Length]bool{}
				}
				lines[a.On.Copy][a.At] = true
			case work.Dry:
				dried = len(on[0]) > 0
			case work.Fix:
				switch a.On.Kind {
				case work.OnPiece:
					if k := a.On.Copy; !a.Lines || !lines[k][a.At.X+a.Size.W] && !lines[k][a.At.X] || k == 1 && !dried {
						t.Errorf("step %d: %v", step.Number, step.Text(units.Format{Ruler: units.WholeMillimetres}))
					}
					on[a.On.Copy] = append(on[a.On.Copy], a.At.X)
				case work.OnOutside:
					if strings.HasSuffix(a.What.Name, "spine strip") || a.On.Name == "back" && (a.At.Across != score.Left || a.At.X != 17*mm || a.Size.W != 167*mm) {
						t.Errorf("%s lies %v from the %v edge, %v wide", a.What.Name, a.At.X, a.At.Across, a.Size.W)
					}
				}
			}
		}
	}
	if want := [2][]units.Length{{-79 * mm, 24 * mm, 48 * mm}, {-180 * mm, 24 * mm, 48 * mm}}; !slices.Equal(on[0], want[0]) || !slices.Equal(on[1], want[1]) {
		t.Errorf("boards lie at %v; want %v", on, want)
	}
}

// Side papers are glued where they lie in the plan, told from an edge of their board that they
// do not go over, also where the sheets leave less margin at head and tail than at the fore
// edges, or less there.
func TestSidePapersGoWhereTheyLie(t *testing.T) {
	for _, form := range []boards.Form{boards.SpineBoard, boards.SoftSpine, boards.ForeEdgeFlap, boards.DoubleSpineGate, boards.TwoFlaps} {
		for _, less := range []units.Size{{}, {W: 4 * mm}, {H: 8 * mm}} {
			s := flat()
			s.Form, s.Cover.W, s.Quarter.Rule = form, 200*mm, rule.QuarterAlways
			if form == boards.SoftSpine {
				s.Spine = rule.Spine{Contents: 20 * mm}
			}
			for piece := range mustBuild(t, s).Pieces() {
				if piece.Role() == stock.CoveringPiece {
					size := piece.Size()
					size.H -= less.H
					for range piece.CornerCuts() { // two, at a fore edge
						size.W -= less.W / 2
					}
					s.Covering.Sheets = append(s.Covering.Sheets, stock.Sheet{Size: size})
				}
			}
			p := mustBuild(t, s)
			lies, on := map[[2]int]units.Rect{}, slices.Collect(p.Boards())
			for at := range p.Placed() {
				i, copy := at.Piece()
				lies[[2]int{i, copy}] = at.Rect()
			}
			papers := 0
			for step := range p.Steps() {
				for _, a := range step.Do {
					a, ok := a.(work.Fix)
					if !ok || a.On.Kind != work.OnOutside {
						continue
					}
					papers++
					board, want := on[a.On.Index].Rect(), lies[[2]int{a.What.Index, a.What.Copy}]
					got := a.At.Rect(a.Size, board.Size())
					got.Min, got.Max = got.Min.Plus(board.Min), got.Max.Plus(board.Min)
					if got != want || a.At.X < 0 || a.At.Along != score.Head {
						t.Errorf("%v, sheets less by %v: %s goes to %v, and lies at %v: %v", form, less, a.What.Name, got, want, a.At)
					}
				}
			}
			if papers < 2 {
				t.Errorf("%v: %d side papers", form, papers)
			}
		}
	}
}

// A strip of two covers of 200 mm that reaches on to each by all but a hundredth of a
// millimetre comes out, on the ruler, as wide as the row: 200 + 4 + 20 + 4 + 200. Lines
// are drawn on it where boards begin and end, but for the edges of the strip itself.
func TestStripUpToTheBoardsEdges(t *testing.T) {
	s := flat()
	s.Cover.W, s.Spine = 200*mm, rule.Spine{Width: 20 * mm}
	s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: 200*mm - units.Shortest}
	s.Margin = rule.Margin{Ideal: 8 * mm, Least: 8 * mm, Tolerated: 8 * mm} // the side papers are 4 mm wide on the boards
	p := mustBuild(t, s)
	var lines []units.Length
	for step := range p.Steps() {
		for _, a := range step.Do {
			if a, ok := a.(work.Draw); ok && a.Axis == score.Upright {
				lines = append(lines, a.At)
			}
		}
	}
	slices.Sort(lines)
	if want := []units.Length{200 * mm, 204 * mm, 224 * mm, 228 * mm}; !slices.Equal(lines, want) {
		t.Errorf("lines at %v; want %v", lines, want)
	}
}

// Where a side paper laps the strip at head and tail, both lie on each other; a
// spine goes round those of both covers, if the contents are no thicker. Boards of
// 2 mm, liners of 0.1, a side paper of 0.1 on a strip of 0.5: 4.2 mm, and 1.2 for two
// laps; in one material of 0.1 mm, 0.4 for two mitred corners.
func TestSpineGoesRoundLaps(t *testing.T) {
	for style, want := range map[rule.QuarterRule]units.Length{rule.QuarterAlways: 5400 * units.Micrometre, rule.QuarterNever: 4600 * units.Micrometre} {
		s := plainCase()
		s.Covering.Caliper, s.Rulers.Board = mm/10, everyNanometre
		s.SpineCovering = stock.Stock{Name: "cloth", Caliper: mm / 2}
		s.Spine, s.Quarter.Rule = rule.Spine{Contents: 3 * mm / 10}, style
		for b := range mustBuild(t, s).Boards() {
			if got := b.Rect().Size().W; b.Role() == boards.Spine1 && got != want {
				t.Errorf("%v: the spine is %v wide, want %v", style, got, want)
			}
		}
	}
}

// A side paper has the name of the one board that it covers, so that hands lay no
// other there, whatever the form.
func TestSidePapersAreNamed(t *testing.T) {
	for form, want := range map[boards.Form][]string{
		boards.SpineBoard:  {"left cover", "right cover"},
		boards.ThreePanels: {"first panel", "second panel", "third panel"},
		boards.TwoFlaps:    {"left flap", "left cover", "right cover", "flap"},
	} {
		p, err := folio.Build(folio.Spec{Form: form, Cover: units.Size{W: 150 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 20 * mm}, Quarter: rule.Quarter{Rule: rule.QuarterAlways}})
		if err != nil {
			t.Fatal(form, err)
		}
		var got []string
		for piece := range p.Pieces() {
			if board, ok := strings.CutPrefix(piece.Name(), "side paper of the "); ok {
				got = append(got, board)
			}
		}
		if !slices.Equal(got, want) {
			t.Errorf("%v: side papers of %q; want %q", form, got, want)
		}
	}
}

// Where spine strips are not all alike each is called by its place, however many there
// are and whichever of them are alike: the maker objects to two of one name.
func TestSpineStripsAreToldApart(t *testing.T) {
	for _, form := range []boards.Form{boards.TwoFlaps, boards.DoubleSpineGate, boards.ForeEdgeFlap} {
		p := mustBuild(t, folio.Spec{Form: form, Cover: units.MustParseSize("150 x 210 mm"), Spine: rule.Spine{Width: 20 * mm},
			Quarter: rule.Quarter{Rule: rule.QuarterAlways}, Rulers: rule.Rulers{Main: units.WholeMillimetres}})
		if err := makertest.Follow(makerJob(p, p)); err != nil {
			t.Errorf("%v: %v", form, err)
		}
		lined := map[string]bool{}
		for s := range p.Steps() {
			for _, a := range s.Do {
				if turn, ok := a.(work.TurnIn); ok && turn.Edge == score.Head && strings.HasSuffix(turn.What.Name, "spine strip") {
					if lined[turn.What.Name] {
						t.Errorf("%v: two strips are called %s", form, turn.What.Name)
					}
					lined[turn.What.Name] = true
				}
			}
		}
		if len(lined) < 2 {
			t.Errorf("%v has %v", form, lined)
		}
	}
}

// Nothing is left for a side paper on a board that is narrower than a graduation: no reach
// would do, so that a wider board is asked for. Where some reach would do, that is asked for.
func TestReachOnANarrowBoard(t *testing.T) {
	s := flat()
	s.Form, s.FlapWidth = boards.ForeEdgeFlap, 4*mm
	s.Quarter, s.Margin = rule.Quarter{Rule: rule.QuarterAlways, Reach: mm}, rule.Margin{Ideal: 15 * mm, Least: 15 * mm, Tolerated: 10 * mm}
	s.Rulers = rule.Rulers{Main: units.TenthMillimetres}
	s.Rulers.Wrap, _ = units.NewRuler(5*mm, units.MetricDecimal)
	v, ok := refusal(s, "quarter.reach", folio.TooWide)
	if !ok || v.Bound != check.NoBound || !strings.HasPrefix(v.Want, "wider boards, ") {
		t.Errorf("%v", builds(s))
	}
	s.FlapWidth, s.Quarter.Reach = 12*mm, 11*mm
	if v, ok = refusal(s, "quarter.reach", folio.TooWide); !ok || v.Bound != check.AtMost || v.Limit != 10*mm {
		t.Errorf("%v", builds(s))
	}
	s.Quarter.Reach = v.Limit
	if v, ok = refusal(s, "quarter.reach", folio.TooWide); ok {
		t.Errorf("with what would do: %v", v)
	}
	// Of a flap two lengths wide one may be covered.
	s.FlapWidth, s.Rulers.Board, s.Rulers.Wrap = 2*units.Shortest, everyNanometre, everyNanometre
	s.Quarter.Reach = mm
	if v, ok = refusal(s, "quarter.reach", folio.TooWide); !ok || v.Limit != units.Shortest {
		t.Errorf("%v", builds(s))
	}
}

// Of a case whose strips leave no side paper nothing is said that rests on margins which no
// sheet would leave: mitres meet from 89 mm on, and the sheets leave 20.
func TestNoMarginsWithoutSidePapers(t *testing.T) {
	s := plainCase()
	s.Margin.Ideal, s.Covering.Sheets = 95*mm, sheetOf(115*mm, 210*mm)
	s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: 30 * mm}
	mustBuild(t, s)
	s.Quarter.Reach = 121 * mm
	var bad *check.Error
	if _, err := folio.Build(s); !errors.As(err, &bad) || bad.Len() != 1 || !refusedWith(err, "quarter.reach", folio.TooWide) {
		t.Errorf("want the reach refused and nothing else: %v", err)
	}
}

// What the sheets leave at the ends is put down to a graduation where that keeps the margin that
// is tolerated, and the usual least where the sheets leave as much.
func TestMarginsAtTheEndsOnTheRuler(t *testing.T) {
	s := plainCase()
	s.Quarter.Rule = rule.QuarterAlways
	s.SpineCovering = stock.Stock{Name: "cloth", Caliper: s.Covering.Caliper}
	var wide units.Length // of a side paper with 25 mm
	for w := range mustPlan(s).Wrap().Pieces() {
		if !w.Strip() {
			wide = w.Piece().Size().W
		}
	}
	tenth := mm / 10
	for _, c := range []struct{ tolerated, least, leaves, margin units.Length }{
		{60, 130, 60, 60}, {60, 130, 65, 60}, {60, 130, 135, 130}, {60, 130, 129, 120}, {60, 130, 130, 130}, {61, 130, 65, 65}, {61, 130, 71, 70}, {60, 130, 249, 240},
		{60, 135, 134, 130}, {60, 135, 135, 135}, {60, 135, 139, 139}, {60, 130, 251, 250},
	} {
		s.Margin.Tolerated, s.Margin.Least = c.tolerated*tenth, c.least*tenth
		s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: wide - 25*mm + c.leaves*tenth, H: 300 * mm}, Grain: stock.GrainAlongHeight}}
		if across := mustPlan(s).Wrap().Across(); across.Near().Length() != c.margin*tenth || across.Far().Length() != c.margin*tenth {
			t.Errorf("%v of which %v are tolerated: margins of %v", c.leaves*tenth, s.Margin.Tolerated, across.Near())
		}
	}
}

// However reach and lap lie between graduations, papers lap the strips by no less than the lap.
func TestPapersLapTheStripsOffTheRuler(t *testing.T) {
	for n := range units.Length(60) {
		s := plainCase()
		s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: 20*mm + n%10*mm/10, Lap: 3*mm + n/10*mm/6}
		s.SpineCovering = stock.Stock{Name: "cloth", Caliper: s.Covering.Caliper}
		parts := slices.SortedFunc(mustPlan(s).Wrap().Pieces(), func(a, b folio.WrapPiece) int { return cmp.Compare(a.X(), b.X()) })
		for i, next := range parts[1:] {
			if lap := parts[i].X() + parts[i].Piece().Size().W - next.X(); lap < s.Quarter.Lap {
				t.Errorf("a reach of %v, a lap of %v: %s and %s lap by %v", s.Quarter.Reach, s.Quarter.Lap, parts[i].Piece().Name(), next.Piece().Name(), lap)
			}
		}
	}
}

// Sheets of both materials that are too small are told at once, and done at once the
// widest strip and the widest paper come out of them, whatever is cut first.
func TestSheetsOfBothMaterialsAreToldAtOnce(t *testing.T) {
	for f := range boards.OwnRow {
		s := folio.Spec{Form: f, Cover: units.Size{W: 137 * mm, H: 181 * mm}, Spine: rule.Spine{Contents: 4 * mm}, Quarter: rule.Quarter{Rule: rule.QuarterAlways}, Rulers: rule.Rulers{Main: units.HalfMillimetres}}
		small := []stock.Sheet{{Size: units.Size{W: 30 * mm, H: 40 * mm}}}
		s.Covering.Sheets, s.SpineCovering = small, stock.Stock{Name: "cloth", Sheets: small}
		var bad *check.Error
		if !errors.As(builds(s), &bad) {
			t.Fatalf("%v is cut from sheets of 30 x 40 mm", f)
		}
		_, strip := bad.Find("spinecovering.sheets", folio.SheetSmall)
		_, paper := bad.Find("covering.sheets", folio.SheetSmall)
		if s, ok := obeyed(s, bad); !strip || !paper || !ok || builds(s) != nil {
			t.Errorf("%v: %v\n  done: %v", f, bad, builds(s))
		}
	}
}
