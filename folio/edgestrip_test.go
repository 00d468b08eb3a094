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

// An edgeStrip is one as one measures it: how it is cut, where it lies, and how far
// the liner lies over it at the left and at the right.
type edgeStrip struct {
	piece folio.Piece
	lies  folio.Placed
	laps  [2]units.Length
}

// edgeStrips lists the edge strips of a plan.
func edgeStrips(p *folio.Plan) (all []edgeStrip) {
	pieces := slices.Collect(p.Pieces())
	_, liners := lain(p)
	for l := range p.Placed() {
		i, _ := l.Piece()
		if pieces[i].Role() != stock.EdgeStripPiece {
			continue
		}
		s := edgeStrip{piece: pieces[i], lies: l}
		for _, over := range liners {
			meets := over.Intersect(l.Rect())
			if meets.Empty() {
				continue
			}
			if meets.Min.X == l.Rect().Min.X {
				s.laps[0] = meets.Size().W
			} else if meets.Max.X == l.Rect().Max.X {
				s.laps[1] = meets.Size().W
			}
		}
		all = append(all, s)
	}
	return all
}

// With a gap of 1 mm, boards of 2 mm and an inset of 3 mm a strip that lies 3 mm under the
// liner at both sides is 1 + 2 x (2 + 3 + 3) = 17 mm wide, and covers 13 mm of the row; it
// is as high as the liner, 170 - 2 x 3 mm. It is of the covering, with its right side up.
func TestEdgeStrips(t *testing.T) {
	for _, c := range []struct {
		lining rule.LiningRule
		panels int
	}{{rule.LiningAuto, 4}, {rule.LiningRuns, 6}, {rule.LiningPanels, 4}} {
		s := toAndFro(c.panels)
		s.Lining.Rule, s.Covering.OneWay = c.lining, true
		planned := mustPlan(s)
		w, h := planned.AsMade()
		made, err := planned.Refit(refit.Measured{Width: w.Length() + 2*mm, Height: h.Length()})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range []*folio.Plan{planned, made} {
			row, gaps, all := slices.Collect(p.Boards()), slices.Collect(p.Gaps()), edgeStrips(p)
			if len(all) != c.panels/2-1 {
				t.Fatalf("%v: %d strips of %d panels", c.lining, len(all), c.panels)
			}
			for k, e := range all {
				left, right, gap := row[2*k+1].Rect(), row[2*k+2].Rect(), gaps[2*k+1].Rect().Size().W
				if want := "edge strip right of the " + row[2*k+1].Name(); e.piece.Name() != want || e.piece.Stock() != planned.Spec().Covering.Name || !e.piece.OneWay() || e.piece.Caliper() != mm/5 ||
					e.piece.Up() != work.RightSide || e.piece.Grain() != stock.GrainParallel || e.piece.Quantity() != 1 {
					t.Errorf("%v: %+v", want, e.piece)
				}
				least := gap + 2*(2*mm+3*mm) + (left.Max.X - (e.lies.Rect().Min.X + e.laps[0])) + (e.lies.Rect().Max.X - e.laps[1] - right.Min.X)
				if got := e.piece.Size(); got.W < least || got.W >= least+mm || p == planned && got != (units.Size{W: 17 * mm, H: 164 * mm}) {
					t.Errorf("%v: %s is cut %v over a gap of %v, want %v wide", c.lining, e.piece.Name(), got, gap, least)
				}
				r := e.lies.Rect()
				if r.Size().W != e.piece.Size().W-4*mm || r.Size().H != e.piece.Size().H || e.laps[0] < 3*mm || e.laps[1] < 3*mm || (e.laps[0]-e.laps[1]).Abs() > units.Nanometre {
					t.Errorf("%v: %s lies at %v, %v under the liner", c.lining, e.piece.Name(), r, e.laps)
				}
				if a, b := e.lies.Boards(); a != 2*k+1 || b != 2*k+2 {
					t.Errorf("boards %d and %d", a, b)
				}
			}
			if err := makertest.Follow(makerJob(p, planned)); err != nil {
				t.Errorf("%v: %v", c.lining, err)
			}
		}
		changed := 0
		for ch := range made.Changes() {
			if ch.What() == refit.ChangedPiece && strings.HasPrefix(ch.Name(), "edge strip") {
				if changed++; ch.From().Size() != (units.Size{W: 17 * mm, H: 164 * mm}) || ch.To().Size().W < 18*mm || slices.Collect(made.Pieces())[ch.Index()].Size() != ch.To().Size() {
					t.Errorf("%v: %v", c.lining, ch)
				}
			}
		}
		if changed != c.panels/2-1 {
			t.Errorf("%v: %d strips changed", c.lining, changed)
		}
	}
}

// The strips are glued on when the case has been measured, and the liner over them when
// they are dry.
func TestEdgeStripsComeBeforeTheLiner(t *testing.T) {
	done := doneTo(mustPlan(toAndFro(4)), "")
	at := 0
	for _, want := range []string{
		"From covering cut the edge strip right of the second panel 17 x 164 mm",
		"Glue the edge strip right of the second panel on the inside of the second panel: 11 mm beyond the right edge and 3 mm from the head edge of the board. At hinge 2 from the left fold the outsides together and work the edge strip right of the second panel while wet round both edges",
		"Let the edge strip dry under a weight",
		"cut the liner from the first panel",
	} {
		k := strings.Index(done[at:], want)
		if k < 0 {
			t.Fatalf("no %q in order in\n%s", want, done)
		}
		at += k
	}
}

// Asked for none there is none, and a warning says what shows; lined board by board the
// hinges between insides show all the same, if there are any.
func TestNoEdgeStrips(t *testing.T) {
	s := toAndFro(4)
	s.Lining.Lap = units.None
	p := mustPlan(s)
	if len(edgeStrips(p)) > 0 || !strings.Contains(warnings(p), "without edge strips the wrong side of the wrap and the boards' edges show there") {
		t.Errorf("%d strips, %s", len(edgeStrips(p)), warnings(p))
	}
	if p.Spec().Lining.Lap != units.None {
		t.Errorf("the Spec says %v", p.Spec().Lining.Lap)
	}
	if err := makertest.Follow(makerJob(p, p)); err != nil {
		t.Error(err)
	}
	s.Lining = rule.Lining{Rule: rule.LiningPanels}
	if text := warnings(mustPlan(s)); !strings.Contains(text, "shows in the hinges where insides come together,") {
		t.Error(text)
	}
	s.Lining.Lap = units.None
	if text := warnings(mustPlan(s)); !strings.Contains(text, "shows in the hinges,") {
		t.Error(text)
	}
	s.Lining = rule.Lining{Rule: rule.LiningOnePiece}
	if len(edgeStrips(mustPlan(s))) > 0 {
		t.Error("a strip under a liner in one piece")
	}
	if len(edgeStrips(mustPlan(plainCase()))) > 0 {
		t.Error("a strip where insides come together")
	}
}

// Where outsides come together round a spine board, one strip goes over it if two would
// meet on it, and over one that is too narrow for a liner of its own.
func TestEdgeStripsOverASpine(t *testing.T) {
	for _, c := range []struct {
		wide   units.Length
		strips int
	}{{4 * mm, 1}, {11 * mm, 1}, {12 * mm, 1}, {13 * mm, 2}, {30 * mm, 2}} {
		s := plainCase()
		s.Form, s.Spine, s.Lining.Rule = boards.OwnRow, rule.Spine{Width: 20 * mm}, rule.LiningRuns
		m, v := boards.Joint{Fold: score.Mountain}, boards.Joint{}
		s.Row = boards.Row{Joints: []boards.Joint{v, v, m, m}, Boards: []boards.Board{
			{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2}, {Role: boards.Spine2, Width: c.wide}, {Role: boards.Panel3}}}
		p, err := folio.Build(s)
		if err != nil {
			t.Errorf("%v: %v", c.wide, err)
			continue
		}
		all := edgeStrips(p)
		if len(all) != c.strips {
			t.Errorf("a spine of %v: %d strips", c.wide, len(all))
			continue
		}
		if err := makertest.Follow(makerJob(p, p)); err != nil {
			t.Errorf("%v: %v", c.wide, err)
		}
		if c.strips == 1 {
			var over units.Length // the spine and both gaps
			for g := range p.Gaps() {
				if r := g.Rect(); r.Min.X > 200*mm {
					over += r.Size().W
				}
			}
			if got, want := all[0].piece.Size().W, over+c.wide+4*2*mm+4*3*mm; got < want || got >= want+mm {
				t.Errorf("a spine of %v: a strip of %v, want %v", c.wide, got, want)
			}
		}
	}
}

// Where the spine board came out so wide that two strips go where one was planned, or so narrow that
// one goes where two were, the changes name what is wanted by its place among the pieces, and
// what no more is by none.
func TestEdgeStripsComeAndGo(t *testing.T) {
	for _, wide := range [][2]units.Length{{12 * mm, 13 * mm}, {13 * mm, 12 * mm}} {
		s := plainCase()
		s.Form, s.Spine, s.Lining.Rule = boards.OwnRow, rule.Spine{Width: 20 * mm}, rule.LiningRuns
		m, v := boards.Joint{Fold: score.Mountain}, boards.Joint{}
		s.Row = boards.Row{Joints: []boards.Joint{v, v, m, m}, Boards: []boards.Board{
			{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2}, {Role: boards.Spine2, Width: wide[0]}, {Role: boards.Panel3}}}
		p := mustBuild(t, s)
		var panels []units.Length
		for b := range p.Boards() {
			panels = append(panels, b.Size().W)
		}
		panels[3] = wide[1]
		w, h := p.AsMade()
		made, err := p.Refit(refit.Measured{Width: w.Length() + wide[1] - wide[0], Height: h.Length(), Panels: panels})
		if err != nil {
			t.Fatal(err)
		}
		gone, come := 0, 0
		pieces := slices.Collect(made.Pieces())
		for c := range made.Changes() {
			switch {
			case c.What() != refit.ChangedPiece:
			case c.To().Empty():
				if gone++; c.Index() != -1 {
					t.Errorf("%v: %v is piece %d", wide, c, c.Index())
				}
			case c.Index() < 0 || pieces[c.Index()].Size() != c.To().Size() || pieces[c.Index()].Name() != c.Name():
				t.Errorf("%v: %v is piece %d", wide, c, c.Index())
			case c.From().Empty():
				come++
			}
		}
		if was, is := len(edgeStrips(p)), len(edgeStrips(made)); gone != was || come != is || was == is {
			t.Errorf("%v: %d strips come and %d go, of %d and %d", wide, come, gone, is, was)
		}
	}
}

// A lap must leave the strip under the liner: of one too long it is said how long it may
// be, and that does.
func TestEdgeStripPastTheLiner(t *testing.T) {
	s := toAndFro(4)
	s.Lining.Rule, s.Lining.Lap = rule.LiningPanels, 200*mm
	v, ok := refusal(s, "lining.lap", folio.TooWide)
	if !ok || v.Limit < 110*mm || v.Limit > 120*mm-6*mm {
		t.Fatalf("%+v", v)
	}
	s.Lining.Lap = v.Limit
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	if err := makertest.Follow(makerJob(p, p)); err != nil {
		t.Error(err)
	}
	// On a narrow panel none does but no strip.
	s.Row = boards.Row{Joints: []boards.Joint{{Fold: score.Mountain}, {}}, Boards: []boards.Board{
		{Role: boards.Panel1, Width: 7 * mm, Rule: boards.WidthFixed}, {Role: boards.Panel2}, {Role: boards.Panel3}}}
	s.Lining.Lap = 0
	if v, ok := refusal(s, "lining.lap", folio.TooWide); !ok || !strings.HasPrefix(v.Want, "none") {
		t.Errorf("%+v, %v", v, builds(s))
	}
	s.Lining.Lap = units.None
	if err := builds(s); err != nil {
		t.Error(err)
	}
	// 6.01 mm and two steps, less two insets of 3 mm, leave the shortest lap, as the strip may
	// lie half a step further on, and the liner end a step before.
	s.Rulers.Board, s.Rulers.Wrap, s.Rulers.Liner = everyNanometre, everyNanometre, everyNanometre
	s.Placing, s.Lining.Lap = 0, mm
	for least, want := range map[units.Length]check.Bound{units.Shortest: check.AtMost, units.Shortest - nm: check.NoBound} {
		s.Row.Boards[0].Width = 6*mm + 2*nm + least
		if v, ok := refusal(s, "lining.lap", folio.TooWide); !ok || v.Bound != want || want == check.AtMost && v.Limit != least {
			t.Errorf("a board of %v: %+v, %v", s.Row.Boards[0].Width, v, builds(s))
		}
	}
	s.Row.Boards[0].Width, s.Lining.Lap = 6*mm+2*nm+units.Shortest, units.Shortest
	if err := builds(s); err != nil {
		t.Error(err)
	}
}

// Down both edges a strip of 0.2 mm takes 0.4 mm of the gap. Less lets it go round the
// edges all the same, but the boards do not lie flat open.
func TestEdgeStripsInANarrowGap(t *testing.T) {
	s := plainCase()
	s.Form, s.Spine, s.Rulers.Gap = boards.OwnRow, rule.Spine{Width: 20 * mm}, everyNanometre
	v := boards.Joint{}
	for gap, want := range map[units.Length]bool{400 * units.Micrometre: false, 400*units.Micrometre - nm: true} {
		m := boards.Joint{Fold: score.Mountain, Hinge: rule.Hinge{Rule: rule.HingeFixed, Width: gap, Crease: rule.CreaseAtEdge}}
		s.Row = boards.Row{Joints: []boards.Joint{v, v, m, m}, Boards: []boards.Board{
			{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2}, {Role: boards.Spine2, Width: 30 * mm}, {Role: boards.Panel3}}}
		s.Lining.Rule = rule.LiningRuns
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		if warned(p, folio.WarnStrained) != want {
			t.Errorf("a gap of %v: %s", gap, warnings(p))
		}
		for w := range p.Warnings() {
			if w.Code == folio.WarnStrained && (w.Got != gap || w.Want != 400*units.Micrometre || !strings.Contains(w.Text, " panel, which takes 0.4 mm, and the gap is 0.399999 mm") && !strings.Contains(w.Text, " spine, which takes 0.4 mm")) {
				t.Errorf("%+v", w)
			}
		}
		if err := makertest.Follow(makerJob(p, p)); err != nil {
			t.Error(err)
		}
		// Each of the four gaps came out 0.1 mm narrower.
		made, err := p.Refit(refit.Measured{Width: p.OpenWidth().Length() - 400*units.Micrometre, Height: p.OpenHeight().Length()})
		if err != nil {
			t.Fatal(err)
		}
		told := 0
		for w := range made.Warnings() {
			if w.Code == folio.WarnStrained && w.Path == "measured.width" && w.Got == gap-100*units.Micrometre {
				told++
			}
		}
		if told != 2 {
			t.Errorf("a gap of %v that came out narrower: %s", gap, warnings(made))
		}
	}
}

// A lap off the ruler comes out wider: 1 + 2 x (2 + 3 + 2.7) = 16.4 mm is cut 17 mm wide,
// 0.3 mm more at either side.
func TestEdgeStripsLapOffTheRuler(t *testing.T) {
	s := toAndFro(4)
	s.Lining.Lap = 2700 * units.Micrometre
	if text := warnings(mustPlan(s)); !strings.Contains(text, "the lap of the edge strips of 2.7 mm is moved to 3 mm, with the strips on the ruler") {
		t.Error(text)
	}
	// Off every graduation the laps at the two sides may differ by a nanometre: told are
	// the least and the greatest that there are.
	uneven := 0
	for k := range units.Length(8) {
		s.Rulers.Wrap, _ = units.NewRuler(mm/2+k, units.MetricDecimal)
		s.Lining.Lap = 2700*units.Micrometre + k*k
		p := mustPlan(s)
		least, greatest := units.Longest, -units.Longest
		for _, e := range edgeStrips(p) {
			least, greatest = min(least, e.laps[0], e.laps[1]), max(greatest, e.laps[0], e.laps[1])
		}
		n := p.Notation()
		to := n.Text(least)
		if least < greatest {
			to += ", or up to " + n.Text(greatest)
			uneven++
		}
		if text := warnings(p); least < s.Lining.Lap || !strings.Contains(text, " is moved to "+to+", with the strips on the ruler") {
			t.Errorf("laps of %v to %v: %s", least, greatest, text)
		}
	}
	if uneven == 0 {
		t.Error("all laps are alike")
	}
	// Where outsides come together nowhere there is no strip, and nothing is moved.
	s = plainCase()
	s.Lining.Rule, s.Lining.Lap = rule.LiningPanels, 2700*units.Micrometre
	if text := warnings(mustPlan(s)); strings.Contains(text, "lap") {
		t.Error(text)
	}
}

// A strip comes out of a sheet of the covering as wide as it is cut when the row is made:
// over 1 mm and 0.5 mm that the boards may be off, 2 + 3 + 50 mm at either side, and half a
// step of the liner's ruler by which its edge lies further in, which is 112.5 mm, or 113 on
// the ruler. The side papers take less.
func TestEdgeStripsOfASheet(t *testing.T) {
	s := toAndFro(4)
	s.Placing, s.Lining.Lap, s.Quarter = mm/2, 50*mm, rule.Quarter{Rule: rule.QuarterAlways, Reach: 60 * mm}
	s.SpineCovering = stock.Stock{Name: "cloth", Caliper: mm / 5}
	for wide, small := range map[units.Length]bool{113 * mm: false, 113*mm - nm: true} {
		s.Covering.Sheets = sheetOf(wide, 240*mm)
		if _, err := folio.Build(s); refusedWith(err, "covering.sheets", folio.SheetSmall) != small || !small && err != nil {
			t.Errorf("a sheet of %v: %v", wide, err)
		}
	}
}

// A maker objects when a strip is missing, is not worked round the edges, or another one
// than the plan's; and when the liner is glued on before it.
func TestEdgeStripsAreMissed(t *testing.T) {
	p := mustPlan(toAndFro(4))
	for name, c := range map[string]struct {
		change func(*makertest.Job)
		want   string
	}{
		"not glued on": {func(j *makertest.Job) {
			j.Steps = slices.DeleteFunc(j.Steps, func(s work.Step) bool { return strings.Contains(s.Text(units.Format{}), "edge strip") })
			for i := range j.Steps {
				j.Steps[i].Number, j.Steps[i].After = i+1, nil
				if i > 0 {
					j.Steps[i].After = []int{i}
				}
			}
		}, "are bare at gap 1"},
		"another lap": {func(j *makertest.Job) { j.Lap += units.Nanometre }, "under the liner at its"},
		"left flat":   {func(j *makertest.Job) { rubbed(j, nil) }, "goes round the edges"},
		"elsewhere":   {func(j *makertest.Job) { rubbed(j, []int{0}) }, "goes round the edges"},
	} {
		j := makerJob(p, p)
		c.change(&j)
		if err := makertest.Follow(j); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// rubbed works the strips of a job down in other gaps.
func rubbed(j *makertest.Job, deep []int) {
	for i := range j.Steps {
		for k, a := range j.Steps[i].Do {
			if r, ok := a.(work.Rub); ok && j.Pieces[r.What.Index].Role == makertest.Edging {
				r.Deep = deep
				j.Steps[i].Do[k] = r
			}
		}
	}
}

// At a joint with outsides together a strip lies on the turn-ins at head and tail, and is
// counted with them where insides meet: twice the covering of 0.2 mm, up to 6 mm from the
// edge of the board.
func TestEdgeStripsAreThick(t *testing.T) {
	p := mustPlan(toAndFro(4))
	gap := slices.Collect(p.Gaps())[1].Rect()
	found := 0
	for h := range p.Heights(false) {
		if r := h.Rect(); r.Size().H == 164*mm {
			if !h.TurnIn() || h.Outside() || h.Height() != mm/5 || r.Size().W != 6*mm || r.Max.X != gap.Min.X && r.Min.X != gap.Max.X {
				t.Errorf("%v of %v", r, h.Height())
			}
			found++
		}
	}
	if found != 2 {
		t.Errorf("a strip lies on %d boards", found)
	}
}
