package folio_test

import (
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/makertest"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// toAndFro is so many panels of 120 x 170 mm folded to and fro, their boards 2 mm
// thick, the covering 0.2 and the liner 0.1, with an inset of 3 mm. With nothing
// between them outsides fold on each other over a gap of 1 mm.
func toAndFro(panels int) folio.Spec {
	s := plainCase()
	s.Form, s.Spine, s.Hinge = boards.OwnRow, rule.Spine{Contents: 10 * mm}, rule.Hinge{}
	s.Row = boards.FourPanelZ.Row()
	for i := len(s.Row.Boards); i < panels; i++ {
		s.Row.Boards = append(s.Row.Boards, boards.Board{Role: boards.Panel1 + boards.Role(i)})
		s.Row.Joints = append(s.Row.Joints, boards.Joint{})
		if i%2 == 0 {
			s.Row.Joints[i-1].Fold = score.Mountain
		}
	}
	s.Row.Main = boards.Panel1 + boards.Role(panels-1)
	return s
}

// lain says of each piece of the liner its name, and where it lies on the row.
func lain(p *folio.Plan) (names []string, at []units.Rect) {
	pieces := slices.Collect(p.Pieces())
	for l := range p.Placed() {
		if i, _ := l.Piece(); pieces[i].Role() == stock.LinerPiece {
			names, at = append(names, pieces[i].Name()), append(at, l.Rect())
		}
	}
	return names, at
}

// doneTo returns the sentences of the order of work in which the liner is handled.
func doneTo(p *folio.Plan, name string) string {
	var text []string
	for s := range p.Steps() {
		if s.For.Kind == work.PartLiner && strings.Contains(s.Text(units.Format{}), name) {
			text = append(text, s.Text(units.Format{}))
		}
	}
	return strings.Join(text, "\n")
}

// A row whose outsides come together is lined in pieces that end there, as round two
// boards' edges a liner takes 2 x (2 + 0.2) = 4.4 mm, and lies over 1 mm. Gaps between
// insides are 24.2 mm or so wide, by what the panels hold.
func TestLinedInRuns(t *testing.T) {
	for _, panels := range []int{4, 6} {
		planned := mustPlan(toAndFro(panels))
		if planned.LiningStyle() != rule.LiningRuns {
			t.Fatalf("%d panels: %v", panels, planned.LiningStyle())
		}
		w, h := planned.AsMade()
		made, err := planned.Refit(refit.Measured{Width: w.Length(), Height: h.Length()})
		if err != nil {
			t.Fatal(err)
		}
		wider, err := planned.Refit(refit.Measured{Width: w.Length() + mm, Height: h.Length()})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range []*folio.Plan{planned, made, wider} {
			var row []folio.Board
			for b := range p.Boards() {
				row = append(row, b)
			}
			names, at := lain(p)
			if len(at) != panels/2 {
				t.Fatalf("%d panels are lined in %q", panels, names)
			}
			for k, r := range at {
				first, last := row[2*k], row[2*k+1]
				if want := "liner from the " + first.Name() + " to the " + last.Name(); names[k] != want {
					t.Errorf("%s, want %s", names[k], want)
				}
				from, to := first.Rect().Min.X, last.Rect().Max.X
				if left, right := r.Min.X-from, to-r.Max.X; left < 2*mm || right < 2*mm || left > 4*mm || right > 4*mm {
					t.Errorf("%s lies %v and %v from the edges of its boards", names[k], left, right)
				}
				for i, b := range []folio.Board{first, last} {
					area, _ := p.Panel(b.Role(), false)
					if !area.In(r) || (area.Min.X-b.Rect().Min.X-(b.Rect().Max.X-area.Max.X)).Abs() > mm/5 { // the covering is at one edge
						t.Errorf("panel %d of %s: %v on %v of the board %v", i, names[k], area, r, b.Rect())
					}
				}
				var cut units.Term // what it is cut by, less the insets
				for piece := range p.Pieces() {
					if piece.Name() == names[k] {
						for cut = range piece.Width().Terms() {
							break
						}
					}
				}
				if over := strings.HasSuffix(cut.Label, " with the covering at its edge"); over != (cut.Length > to-from) || over != (p != planned && (k == 0 || k == len(at)-1)) {
					t.Errorf("%s is cut by %+v, over boards of %v", names[k], cut, to-from)
				}
				if done := doneTo(p, names[k]); !strings.Contains(done, "Rub the "+names[k]+" down into the hinge.") || strings.Contains(done, "outsides") {
					t.Error(done)
				}
			}
			if warned(p, folio.WarnPanels) || warned(p, folio.WarnStrained) {
				t.Errorf("%d panels: %v", panels, slices.Collect(p.Warnings()))
			}
			if err := makertest.Follow(makerJob(p, planned)); err != nil {
				t.Error(err)
			}
		}
		if panels == 6 { // the one in the middle is measured from the board that is near
			if done := doneTo(planned, "liner from the third panel"); !strings.Contains(done, "on the inside of the third panel, to see that it goes: 3 mm from the left edge") {
				t.Error(done)
			}
			if done := doneTo(planned, "liner from the fifth panel"); !strings.Contains(done, "3 mm from the right edge and 3 mm from the head edge of the cover") {
				t.Error(done)
			}
		}
		// The covering round the ends of the row moves no piece; gaps that come out wider do.
		_, from := lain(planned)
		for _, p := range []*folio.Plan{made, wider} {
			_, to := lain(p)
			moved := 0
			for k := range from {
				if from[k] != to[k] {
					moved++
				}
			}
			changed := 0
			for c := range p.Changes() {
				if c.What() == refit.ChangedLiner {
					if changed++; !strings.HasPrefix(c.Name(), "liner from the ") || c.From().Empty() || c.To().Empty() {
						t.Errorf("%d panels: %v", panels, c)
					}
				}
			}
			if changed != moved || (moved > 0) != (p == wider) {
				t.Errorf("%d panels: %d pieces of the liner changed, %d moved", panels, changed, moved)
			}
		}
	}
}

// What is as wide as the panel goes on it as it is expected to come out, too, wherever
// the piece of the liner ends and however far out of place boards are laid.
func TestLinedInRunsAsMade(t *testing.T) {
	for _, placing := range []units.Length{0, mm / 7, mm} {
		for _, panels := range []int{4, 6} {
			s := toAndFro(panels)
			s.Placing = placing
			bare := mustPlan(s)
			for k := range panels {
				role := boards.Panel1 + boards.Role(k)
				room, _ := bare.Panel(role, false)
				s.Fittings = []folio.Fitting{{Name: "chart", Panel: role, Kind: folio.Ornament{Size: room.Size(), Thickness: mm / 4}}}
				p := mustPlan(s)
				w, h := p.AsMade()
				if _, err := p.Refit(refit.Measured{Width: w.Length(), Height: h.Length()}); err != nil {
					t.Errorf("%d panels, laid out of place by %v, on the %v: %v", panels, placing, role, err)
				}
			}
		}
	}
}

// In one piece it goes to the bottom of the gap there, down the edge of one board of 2 mm
// and up that of the next, for which it is cut 4 mm wider than it lies; the step says it,
// and a warning what it takes. Without that it holds the boards open.
func TestLinedInOnePieceRoundOutsides(t *testing.T) {
	s := toAndFro(4)
	s.Lining.Rule = rule.LiningOnePiece
	p := mustPlan(s)
	if text := warnings(p); !warned(p, folio.WarnStrained) || warned(p, folio.WarnPanels) || !strings.Contains(text, "where outsides come together right of the second panel, the liner takes up to 4.4 mm round both edges, over a gap of 1 mm: it is cut 4 mm wider for each such gap, and holds the boards open unless") {
		t.Error(text)
	}
	if done := doneTo(p, "liner"); !strings.Contains(done, "At hinge 2 from the left fold the outsides together and work it while wet round both edges") {
		t.Error(done)
	}
	// Boards of 1.9 mm under 0.15 take 4.1 mm, in inches 0.16141…, 3.8 mm of it, 0.14960…, down
	// the edges: told as no less, and the gap of 1 mm, 0.03937…, as no wider.
	inches := s
	inches.Board.Caliper, inches.Covering.Caliper = 1900*units.Micrometre, 150*units.Micrometre
	inches = inches.WithDefaults()
	inches.Rulers.Main = units.Sixteenths
	if text := warnings(mustPlan(inches)); !strings.Contains(text, "takes up to 0.1615 in round both edges, over a gap of 0.0393 in: it is cut 0.1497 in wider") {
		t.Error(text)
	}
	if _, at := lain(p); at[0].Size().W != 505*mm || pieceCalled(p, "liner").W != 509*mm || p.OpenWidth().Length() != 511*mm {
		t.Errorf("the liner lies at %v and is cut %v", at, pieceCalled(p, "liner"))
	}
	// As made the row is 0.4 mm wider: the sheet must be as wide as the liner is cut then.
	s.Liner.Sheets = sheetOf(509*mm, 164*mm)
	if err := builds(s); err != nil {
		t.Error(err)
	}
	s.Liner.Sheets = sheetOf(509*mm-nm, 164*mm)
	if _, err := folio.Build(s); !refusedWith(err, "liner.sheets", folio.SheetSmall) {
		t.Error(err)
	}
	// Of two sheets it comes out of the one that takes what goes down the edges, too.
	s.Liner.Sheets = append(s.Liner.Sheets, sheetOf(600*mm, 164*mm)...)
	for piece := range mustPlan(s).Pieces() {
		if piece.Role() == stock.LinerPiece && piece.Source().Index != 1 {
			t.Errorf("it is cut out of %+v", piece.Source())
		}
	}
	// Round two such gaps, with boards of 2.3 mm, it is cut by 4 x 2.3 mm wider, less what is
	// over whole millimetres.
	six := toAndFro(6)
	six.Lining.Rule, six.Board.Caliper = rule.LiningOnePiece, 2300*units.Micrometre
	long := mustPlan(six)
	if cut, exact := pieceCalled(long, "liner").W, long.OpenWidth().Length()-6*mm+9200*units.Micrometre; cut > exact || cut <= exact-mm || cut%mm != 0 {
		t.Errorf("round two gaps it is cut %v, of %v", cut, exact)
	}
	// A gap that takes it going down one edge and up the other is as wide as two of it.
	for gap, strained := range map[units.Length]bool{600 * units.Micrometre: false, 600*units.Micrometre - nm: true} {
		s := s
		s.Liner.Caliper = 300 * units.Micrometre
		s.Rulers.Gap, s.Row.Joints = everyNanometre, slices.Clone(s.Row.Joints)
		s.Row.Joints[1].Hinge, s.Liner.Sheets = rule.Hinge{Rule: rule.HingeFixed, Width: gap, Crease: rule.CreaseAtEdge}, nil
		if text := warnings(mustPlan(s)); strings.Contains(text, "the liner goes down both edges in the gap right of the second panel, which takes 0.6 mm, and the gap is 0.599999 mm") != strained {
			t.Errorf("a gap of %v: %s", gap, text)
		}
	}
	j := makerJob(p, p)
	if err := makertest.Follow(j); err != nil {
		t.Fatal(err)
	}
	w, h := p.AsMade()
	made, err := p.Refit(refit.Measured{Width: w.Length() + mm, Height: h.Length()})
	if err != nil {
		t.Fatal(err)
	}
	if err := makertest.Follow(makerJob(made, p)); err != nil {
		t.Error(err)
	}
	for c := range made.Changes() {
		if c.What() == refit.ChangedLiner && (c.From().Size() != pieceCalled(p, "liner") || c.To().Size() != pieceCalled(made, "liner")) {
			t.Error(c)
		}
	}
	for _, c := range []struct {
		deep []int
		want string
	}{{nil, "holds the boards open at gap 1"}, {[]int{0, 1}, "worked to the bottom of gap 0, where insides"}} {
		for i, s := range j.Steps {
			for k, a := range s.Do {
				if r, ok := a.(work.Rub); ok {
					r.Deep = c.deep
					j.Steps[i].Do[k] = r
				}
			}
		}
		if err := makertest.Follow(j); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("worked down in %v: %v", c.deep, err)
		}
	}
}

// A sheet must take each run as wide as it may come out: over its two boards, the gap
// between them and the covering at one end, and as much more as the boards may be off at that
// gap, not at others. Less two insets that is on the ruler of the liner.
func TestSheetTakesTheWidestRun(t *testing.T) {
	for _, panels := range []int{4, 6} {
		s := toAndFro(panels)
		s.Lining.Rule, s.Rulers.Liner, s.Placing = rule.LiningRuns, everyNanometre, 700*units.Micrometre
		row := slices.Collect(mustPlan(s).Boards())
		var wide units.Length
		for i := 0; i < panels; i += 2 {
			wide = max(wide, row[i+1].Rect().Max.X-row[i].Rect().Min.X+mm/5+700*units.Micrometre-6*mm)
		}
		for less, small := range map[units.Length]bool{0: false, nm: true} {
			s.Liner.Sheets = sheetOf(wide-less, 200*mm)
			if _, err := folio.Build(s); refusedWith(err, "liner.sheets", folio.SheetSmall) != small || !small && err != nil {
				t.Errorf("%d panels, a sheet of %v: %v", panels, wide-less, err)
			}
		}
	}
}

// Where the gap is as wide as the way round both edges a liner in one piece goes round
// them as it lies, and it is still rubbed down; a sheet that takes no run makes a piece a
// board, and without outsides that meet a run is all of the row.
func TestLinedAsWideAsItTakes(t *testing.T) {
	for _, c := range []struct {
		gap   units.Length
		rule  rule.LiningRule
		sheet units.Length
		want  rule.LiningRule
	}{
		{4400 * units.Micrometre, rule.LiningAuto, 0, rule.LiningOnePiece},
		{4400*units.Micrometre - nm, rule.LiningAuto, 0, rule.LiningRuns},
		{4400 * units.Micrometre, rule.LiningRuns, 0, rule.LiningRuns},
		{mm, rule.LiningAuto, 400 * mm, rule.LiningRuns},
		{mm, rule.LiningAuto, 200 * mm, rule.LiningPanels},
	} {
		s := toAndFro(4)
		s.Rulers.Gap, s.Lining.Rule = everyNanometre, c.rule
		s.Row.Joints[1].Hinge = rule.Hinge{Rule: rule.HingeFixed, Width: c.gap}
		if c.sheet > 0 {
			s.Liner.Sheets = sheetOf(c.sheet, 200*mm)
		}
		p := mustPlan(s)
		if done := doneTo(p, "liner"); strings.Contains(done, "fold the outsides together and work it") {
			t.Errorf("%+v: %s", c, done) // it goes round as it lies, and there it would end short
		}
		if p.LiningStyle() != c.want || warned(p, folio.WarnStrained) {
			t.Errorf("%+v: %v, %s", c, p.LiningStyle(), warnings(p))
		}
		if err := makertest.Follow(makerJob(p, p)); err != nil {
			t.Errorf("%+v: %v", c, err)
		}
	}
	s := plainCase()
	s.Lining.Rule = rule.LiningRuns
	if names, _ := lain(mustPlan(s)); !slices.Equal(names, []string{"liner"}) || mustPlan(s).LiningStyle() != rule.LiningOnePiece {
		t.Errorf("%q", names)
	}
	s.Liner.Sheets = sheetOf(200*mm, 200*mm)
	if _, err := folio.Build(s); !refusedWith(err, "liner.sheets", folio.SheetSmall) {
		t.Error(err)
	}
}

// warnings returns the words of all warnings.
func warnings(p *folio.Plan) string {
	var text []string
	for w := range p.Warnings() {
		text = append(text, w.Text)
	}
	return strings.Join(text, "\n")
}

// A liner on whole millimetres lies in the middle of a row by nanometres, and what is left
// over odd is at one end: the lap of the turn-ins is told where the liner lies further in.
func TestTurnInLapIsTheLesser(t *testing.T) {
	laps := func(k units.Length) (lap, in [2]units.Length) {
		s := plainCase()
		s.Rulers.Board, s.Rulers.Gap, s.Rulers.Wrap = everyNanometre, everyNanometre, everyNanometre
		s.Cover.H, s.Spine.Width = s.Cover.H+k, s.Spine.Width+k
		p := mustBuild(t, s)
		sides, ends := p.TurnInLap()
		for l := range p.Liner() {
			in = [2]units.Length{(p.OpenWidth().Length() - l.Size().W + 1) / 2, (p.OpenHeight().Length() - l.Size().H + 1) / 2}
		}
		return [2]units.Length{sides.Length(), ends.Length()}, in
	}
	lap, in := laps(0)
	for k := range units.Length(5) {
		got, further := laps(k)
		for axis := range got {
			if got[axis]-lap[axis] != in[axis]-further[axis] {
				t.Errorf("axis %d, %d nm more: laps of %v and %v, the liner is %v and %v in", axis, k, lap[axis], got[axis], in[axis], further[axis])
			}
		}
	}
}

// A liner with an inset of 0.1 mm lies 0.1 mm beyond boards of a case that is covered with
// 0.2: what is placed on a board has all of it but 0.1 mm at the hinge.
func TestPanelUnderAWideLiner(t *testing.T) {
	s := plainCase()
	s.Lining.Inset, s.Rulers.Liner = mm/10, everyNanometre
	planned := mustPlan(s)
	w, h := planned.AsMade()
	made, err := planned.Refit(refit.Measured{Width: w.Length(), Height: h.Length()})
	if err != nil {
		t.Fatal(err)
	}
	if _, at := lain(made); at[0] != units.RectAt(units.Point{X: -mm / 10, Y: -mm / 10}, units.Size{W: 277*mm + mm/5, H: 170*mm + mm/5}) {
		t.Errorf("the liner lies at %v", at)
	}
	for r, from := range map[boards.Role]units.Length{boards.LeftCover: 0, boards.RightCover: 157*mm + mm/10} {
		if area, _ := made.Panel(r, false); area != units.RectAt(units.Point{X: from}, units.Size{W: 120*mm - mm/10, H: 170 * mm}) {
			t.Errorf("the %v has %v", r, area)
		}
	}
}

// A piece of the liner is laid from the edge that is near: one that ends at an end of the
// row from the edge of the case there, one in the middle from its own first board, with
// whichever that begins.
func TestLinerIsLaidFromNear(t *testing.T) {
	v, m := boards.Joint{Hinge: rule.Hinge{Rule: rule.HingeRoundContents}}, boards.Joint{Fold: score.Mountain, Hinge: rule.Hinge{Rule: rule.HingeRoundContents}}
	for name, joints := range map[string][]boards.Joint{
		"mv": {m, v}, "vmv": {v, m, v}, "mmv": {m, m, v}, "vmvm": {v, m, v, m}, "mvmv": {m, v, m, v},
	} {
		s := plainCase()
		s.Form, s.Spine, s.Hinge, s.Lining.Rule = boards.OwnRow, rule.Spine{Contents: 3 * mm}, rule.Hinge{}, rule.LiningRuns
		s.Row = boards.Row{Joints: joints}
		for i := range len(joints) + 1 {
			s.Row.Boards = append(s.Row.Boards, boards.Board{Role: boards.Panel1 + boards.Role(i)})
		}
		p, err := folio.Build(s)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		lies, rects, pieces := map[[2]int]folio.Placed{}, slices.Collect(p.Boards()), slices.Collect(p.Pieces())
		for at := range p.Placed() {
			i, copy := at.Piece()
			lies[[2]int{i, copy}] = at
		}
		runs := 0
		for step := range p.Steps() {
			for _, a := range step.Do {
				lay, ok := a.(work.Lay)
				at := lies[[2]int{lay.What.Index, lay.What.Copy}]
				if i, _ := at.Piece(); !ok || pieces[i].Role() != stock.LinerPiece {
					continue
				}
				first, last := at.Boards()
				left, right := first == 0, last == len(rects)-1
				base := units.RectAt(units.Point{}, units.Size{W: p.OpenWidth().Length(), H: p.OpenHeight().Length()})
				if first == last || !left && !right {
					base = rects[first].Rect()
				}
				if wholeCase := lay.On.Kind == work.OnRow; wholeCase != (first < last && (left || right)) || lay.On.Kind != work.OnRow && lay.On.Index != first {
					t.Errorf("%s: boards %d to %d are lined from %+v", name, first, last, lay.On)
				}
				if got := lay.At.Rect(lay.Size, base.Size()); got.Moved(base.Min) != at.Rect() {
					t.Errorf("%s: boards %d to %d: laid at %v, lies at %v", name, first, last, got.Moved(base.Min), at.Rect())
				}
				runs++
			}
		}
		if runs < 2 {
			t.Errorf("%s: %d runs", name, runs)
		}
	}
}

// Lined board by board, a flap must keep a step of the ruler inside its two insets of 3 mm, or
// nothing is left of its liner: what would do leaves it that.
func TestNothingLeftOnAFlap(t *testing.T) {
	for quarters := units.Length(20); quarters < 32; quarters++ {
		s := plainCase()
		s.Form, s.FlapWidth, s.Lining.Rule, s.Rulers.Board = boards.ForeEdgeFlap, quarters*mm/4, rule.LiningPanels, everyNanometre
		v, none := refusal(s, "lining.inset", folio.LinerNone)
		if short := s.FlapWidth < 7*mm; none != short {
			t.Errorf("a flap of %v: %v", s.FlapWidth, builds(s))
		}
		if !none {
			continue
		}
		s.Lining.Inset = v.Limit
		if v, none := refusal(s, "lining.inset", folio.LinerNone); none || 2*s.Lining.Inset < s.FlapWidth-mm-nm {
			t.Errorf("a flap of %v with an inset of %v: %v", s.FlapWidth, s.Lining.Inset, v)
		}
	}
	// Inside two of the shortest insets, 20 um, no ruler leaves anything; a nanometre more is
	// left by one that fine, and steps of 1 mm are said to be too coarse.
	for _, c := range []struct {
		flap  units.Length
		ruler units.Ruler
		path  string
		bound check.Bound
	}{
		{2 * units.Shortest, units.WholeMillimetres, "lining.inset", check.NoBound},
		{2 * units.Shortest, everyNanometre, "lining.inset", check.NoBound},
		{2*units.Shortest + nm, units.WholeMillimetres, "rulers.liner", check.NoBound},
		{2*units.Shortest + nm, everyNanometre, "lining.inset", check.AtMost},
		{mm + 2*units.Shortest - nm, units.WholeMillimetres, "rulers.liner", check.NoBound},
		{mm + 2*units.Shortest, units.WholeMillimetres, "lining.inset", check.AtMost},
	} {
		s := plainCase()
		s.Form, s.FlapWidth, s.Lining.Rule, s.Rulers.Board, s.Rulers.Liner = boards.ForeEdgeFlap, c.flap, rule.LiningPanels, everyNanometre, c.ruler
		v, none := refusal(s, c.path, folio.LinerNone)
		if !none || v.Bound != c.bound || v.Bound == check.AtMost && v.Limit != units.Shortest {
			t.Errorf("a flap of %v: %+v, %v", c.flap, v, builds(s))
		}
		if s.Lining.Inset = v.Limit; v.Bound == check.AtMost {
			if v, none := refusal(s, c.path, folio.LinerNone); none {
				t.Errorf("a flap of %v: %+v", c.flap, v)
			}
		}
	}
	// Where one piece or one a board are made, as the sheets allow, what would do leaves
	// something: half the height less a step of 1 mm in one piece, if a sheet takes it, and
	// else half a board.
	for wide, want := range map[units.Length]units.Length{200 * mm: 84500 * units.Micrometre, 108 * mm: 84500 * units.Micrometre, 108*mm - nm: 59500 * units.Micrometre, 60 * mm: 59500 * units.Micrometre} {
		s := plainCase()
		s.Liner.Sheets, s.Lining.Inset = []stock.Sheet{{Size: units.Size{W: wide, H: 200 * mm}, Grain: stock.GrainAlongHeight}}, 90*mm
		v, none := refusal(s, "lining.inset", folio.LinerNone)
		if !none || v.Limit != want {
			t.Errorf("a sheet of %v: %+v, want %v", wide, v, want)
		}
		s.Lining.Inset = v.Limit
		if v, none := refusal(s, "", folio.LinerNone); none {
			t.Errorf("a sheet of %v: %+v", wide, v)
		}
	}
	// Of a liner in one piece that is no matter of one board, be the row too narrow or too low.
	for _, cover := range []units.Size{{W: 20 * mm, H: 170 * mm}, {W: 170 * mm, H: 20 * mm}} {
		s := plainCase()
		s.Cover, s.Lining = cover, rule.Lining{Rule: rule.LiningOnePiece, Inset: 40 * mm}
		if v, none := refusal(s, "lining.inset", folio.LinerNone); !none || strings.Contains(v.Want, " on the ") {
			t.Errorf("a cover of %v: %+v, %v", cover, v, builds(s))
		}
	}
}
