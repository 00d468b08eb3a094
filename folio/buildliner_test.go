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
}
