package fit

import (
	"context"
	"iter"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

const mm = units.Millimetre

// rowsByRule are a folio of each form, with what its boards may follow besides the
// cover, and rows with boards of a width of their own.
func rowsByRule() []folio.Spec {
	var out []folio.Spec
	for f := boards.SpineBoard; f < boards.OwnRow; f++ {
		out = append(out, folio.Spec{Form: f})
		switch f {
		case boards.SoftGate, boards.DoubleSpineGate:
			out = append(out, folio.Spec{Form: f, DoorGap: units.None}, folio.Spec{Form: f, DoorGap: 4 * mm})
		case boards.ForeEdgeFlap, boards.TwoFlaps:
			out = append(out, folio.Spec{Form: f, FlapWidth: 35 * mm})
		}
	}
	for _, flap := range []boards.Board{{Rule: boards.WidthFixed, Width: 33 * mm}, {Width: 33 * mm}} {
		flap.Role, flap.Over = boards.Flap, boards.LeftCover
		out = append(out, folio.Spec{Row: boards.Row{Main: boards.RightCover, Joints: make([]boards.Joint, 4), Boards: []boards.Board{
			{Role: boards.LeftCover}, {Role: boards.Spine1}, {Role: boards.RightCover, Rule: boards.WidthCover}, {Role: boards.Spine2}, flap,
		}}})
	}
	return out
}

// onNanometres is a Spec on a ruler of nanometres, on which nothing is rounded but to
// them.
func onNanometres(t *testing.T, s folio.Spec) folio.Spec {
	t.Helper()
	one, err := units.NewRuler(units.Nanometre, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	s.Rulers = rule.Rulers{Main: one}
	if s.FlapWidth != 0 || s.Form == boards.ForeEdgeFlap || s.Form == boards.TwoFlaps || s.Form == boards.ThreePanels || len(s.Row.Boards) > 0 {
		s.Closing = closing.Allowance{UnderFlap: 3 * mm}
	}
	s.Board, s.Lining = stock.Stock{Caliper: mm}, rule.Lining{Inset: 2 * mm}
	return s
}

// given reports whether a board has a width of its own.
func given(s folio.Spec, b boards.Board) bool {
	return b.Rule == boards.WidthFixed || b.Width != 0 || b.Rule == boards.WidthHalf && s.FlapWidth != 0
}

// sides walks false, and true too for a row with a spine: without one, nothing outside
// says how wide the joint is, and there is nothing for a label.
func sides(s folio.Spec) iter.Seq[bool] {
	return func(yield func(bool) bool) { _ = yield(false) && rowOf(s)[1].Role.Spine() && yield(true) }
}

// What a cover has at the least for a board so wide is the cover of which the board is
// just so wide: a nanometre less makes it narrower. A board that does not follow
// from the cover is as wide with any.
func TestCoverForByBuilding(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 8))
	for i, s := range rowsByRule() {
		s = onNanometres(t, s)
		width := func(role boards.Role, cover units.Length) units.Length {
			s := s
			s.Cover = units.Size{W: cover, H: 70 * mm}
			if rowOf(s)[1].Role.Spine() {
				s.Spine.Width = 16 * mm
			} else {
				s.Spine.Contents = 6 * mm
			}
			p, err := folio.Build(s)
			if err != nil {
				t.Fatalf("row %d, a cover of %v: %v", i, cover, err)
			}
			b, _ := p.Board(role)
			return b.Width().Length()
		}
		for _, b := range rowOf(s) {
			wide := 40*mm + units.Length(r.IntN(10_000_000))
			need := coverFor(s.WithDefaults(), b.Role, wide)
			switch {
			case b.Role.Spine() || given(s, b):
				if need != 0 || width(b.Role, 90*mm) != width(b.Role, 140*mm) {
					t.Errorf("row %d, %v: a cover of %v for what does not follow it", i, b.Role, need)
				}
			case width(b.Role, need) != wide || width(b.Role, need-1) >= wide:
				t.Errorf("row %d, %v: with a cover of %v it is %v, not %v", i, b.Role, need, width(b.Role, need), wide)
			}
		}
		if coverFor(s.WithDefaults(), boards.Panel8, 40*mm) != 0 {
			t.Errorf("row %d: a cover for a board that it has not got", i)
		}
	}
}

// rightAtFirst lays a plate on a panel of a row, inside or outside, and with a spine a
// label on that, all off the ruler, and returns the smallest folio for them, and the
// steps that eight plans of it take: a plan takes a step and one for each fitting.
func rightAtFirst(t *testing.T, r *rand.Rand, s folio.Spec, on boards.Role, outside, label bool) (Least, int64) {
	t.Helper()
	odd := func(l units.Length) units.Length { return l + units.Length(r.IntN(9_000_000)) }
	s.Closing.Ease, s.Clearance = units.None, odd(0)/4
	s.Fittings = []folio.Fitting{{Panel: on, Outside: outside, Kind: folio.Ornament{
		Size: units.Size{W: odd(50 * mm), H: odd(60 * mm)}, Thickness: odd(mm) / 4,
	}}}
	if label {
		// In the place of the plate a mat with its picture is as thick.
		o := s.Fittings[0].Kind.(folio.Ornament)
		s.Fittings[0].Kind = folio.Mat{Picture: pocket.Content{Size: o.Size.Grow(-4 * mm), Thickness: o.Thickness}, Reveal: 4 * mm}
		s.Fittings = append(s.Fittings, folio.Fitting{Panel: boards.Spine1, Kind: folio.Ornament{Size: units.Size{W: odd(22 * mm), H: odd(20 * mm)}, Thickness: mm / 8}})
	}
	l, err := Smallest(context.Background(), s, Budget{Steps: 1000})
	if err != nil {
		t.Fatalf("%+v: %v", s, err)
	}
	return l, int64(8 * (1 + len(s.Fittings)))
}

// Where one thing alone says how large the cover is, and the closing over it, or a label
// on it, how wide the spine, both are right at first, in eight plans: one with a roomy
// cover, one with the cover, one with a roomy spine, one with the spine, three that show
// that a step less of each does not do, and the folio. On a coarse ruler that is so where
// what is rounded besides does not ask for a wider spine, as a rule.
func TestRightAtFirst(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 9))
	coarse, err := units.NewRuler(700*units.Micrometre, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	tried, right := 0, 0
	for i, s := range rowsByRule() {
		s := onNanometres(t, s)
		for _, b := range rowOf(s) {
			if b.Role.Spine() || given(s, b) {
				continue
			}
			for outside := range sides(s) {
				for label := range sides(s) {
					l, want := rightAtFirst(t, r, s, b.Role, outside, label)
					narrower, lower, thinner := l.Proof()
					if l.Steps() != want || !l.Complete() || narrower == nil || lower == nil || thinner == nil {
						t.Errorf("row %d, on the %v, outside %t, with a label %t: %d steps, want %d; complete %t; narrower %v; lower %v; thinner %v",
							i, b.Role, outside, label, l.Steps(), want, l.Complete(), narrower, lower, thinner)
					}
					if b.Rule == boards.WidthHalf || b.Rule == boards.WidthShared {
						continue // of a coarse cover they are less
					}
					s.Rulers.Main = coarse
					if l, want = rightAtFirst(t, r, s, b.Role, outside, label); l.Steps() == want {
						right++
					}
					tried++
					s = onNanometres(t, s)
				}
			}
		}
	}
	if right < tried*2/3 {
		t.Errorf("on a coarse ruler %d of %d are right at first", right, tried)
	}
}

// The spine is right at first too where it goes round a pocket with all that it holds, and
// where a label on the second one says how wide both are: in eight plans, each of
// a step and one for each fitting.
func TestSpineRightAtFirst(t *testing.T) {
	ticket := pocket.Content{Name: "ticket", Size: units.Size{W: 40 * mm, H: 60 * mm}, Thickness: mm}
	full := folio.Fitting{Panel: boards.RightCover, Kind: folio.Folded{Kind: pocket.Slip{Content: ticket, Count: 9}}}
	plate := folio.Fitting{Panel: boards.RightCover, Kind: folio.Ornament{Size: units.Size{W: 50 * mm, H: 60 * mm}, Thickness: 3 * mm}}
	label := folio.Fitting{Panel: boards.Spine2, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: mm / 8}}
	// A second spine of a width of its own, which a roomy one would be too wide for: that
	// takes one plan more.
	flapped := boards.Row{Main: boards.RightCover, Joints: make([]boards.Joint, 4), Boards: []boards.Board{
		{Role: boards.LeftCover}, {Role: boards.Spine1}, {Role: boards.RightCover, Rule: boards.WidthCover}, {Role: boards.Spine2, Rule: boards.WidthFixed, Width: 30 * mm},
		{Role: boards.Flap, Rule: boards.WidthFixed, Width: 33 * mm, Over: boards.LeftCover},
	}}
	for name, s := range map[string]folio.Spec{
		"a full pocket": {Fittings: []folio.Fitting{full}}, "a label on a second spine": {Form: boards.ForeEdgeFlap, Fittings: []folio.Fitting{plate, label}},
		"a second spine of its own width": {Row: flapped, Fittings: []folio.Fitting{plate, label}},
	} {
		s = onNanometres(t, s)
		s.Closing.Ease = units.None
		l, err := Smallest(context.Background(), s, Budget{Steps: 1000})
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		plans := 8
		if len(s.Row.Boards) > 0 {
			plans++
		}
		if want := int64(plans * (1 + len(s.Fittings))); l.Steps() != want || !l.Complete() {
			t.Errorf("%s: %d steps, want %d; complete %t", name, l.Steps(), want, l.Complete())
		}
	}
	// A roomy spine takes 4.64 mm more of the second one:
	// a nanometre less, and it is found with one that is as much narrower.
	for short := range units.Length(3) {
		s := onNanometres(t, folio.Spec{Row: flapped, Fittings: []folio.Fitting{plate}})
		s.Row.Boards = slices.Clone(s.Row.Boards)
		s.Row.Boards[3].Width = units.Metre + 4640*units.Micrometre - short
		q := seeker{spine: true, meter: newMeter(context.Background(), Budget{}), ruler: s.Rulers.Main, given: s}
		if _, _, err := q.roomiest(); err != nil || q.wide != units.Metre-short {
			t.Errorf("%d nm too narrow: a roomy spine of %v, %v", short, q.wide, err)
		}
	}
	// What is too small elsewhere asks for no narrower spine: that is known from one plan.
	strip := folio.Fitting{Kind: folio.Folded{Kind: pocket.FoldedStrip{Strip: units.Size{W: 100 * mm, H: 60 * mm}, Content: pocket.IDCard()}}}
	q := seeker{spine: true, meter: newMeter(context.Background(), Budget{}), ruler: units.WholeMillimetres, given: folio.Spec{Fittings: []folio.Fitting{strip}}}
	_, _, err := q.roomiest()
	if bad, ok := err.(*check.Error); !ok || q.done != 2 || q.wide != units.Metre {
		t.Errorf("a strip that is too small: %v after %d steps", err, q.done)
	} else if _, ok := bad.Find("", check.TooSmall); !ok {
		t.Errorf("a strip that is too small: %v", err)
	}
	// On a ruler on which a metre is not, it is found as well.
	for _, ruler := range []units.Ruler{units.Sixteenths, units.Eighths, units.ThirtySeconds} {
		s := onNanometres(t, folio.Spec{Row: flapped, Fittings: []folio.Fitting{plate, label}})
		s.Rulers.Main = ruler
		l, err := Smallest(context.Background(), s, Budget{Steps: 1000})
		if err != nil || !l.Complete() || l.Plan().Spec().Spine.Width > 10*mm {
			t.Errorf("on %v: %+v, %v", ruler, l, err)
		}
	}
	// Where no spine is narrow enough for it, that is said: the second one is 5 mm wider
	// than it on whole millimetres.
	for _, wide := range []units.Length{2 * mm, 5 * mm} {
		s := onNanometres(t, folio.Spec{Row: flapped, Fittings: []folio.Fitting{plate}})
		s.Rulers.Main = units.WholeMillimetres
		s.Row.Boards = slices.Clone(s.Row.Boards)
		s.Row.Boards[3].Width = wide
		if l, err := Smallest(context.Background(), s, Budget{}); err == nil || !strings.Contains(err.Error(), "row.boards[3].width") {
			t.Errorf("a second spine of %v: %+v, %v", wide, l, err)
		}
	}
}

// A content that goes nowhere but on a panel, with what is round it there, is as large as
// the cover that holds it: a nanometre less either way does not. One that goes into a
// fitting of the Spec asks for no cover.
func TestOnPanelsByBuilding(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 10))
	for range 4 {
		print := pocket.Content{Name: "print", Size: units.Size{W: 60*mm + units.Length(r.IntN(9_000_000)), H: 90*mm + units.Length(r.IntN(9_000_000))}, Thickness: mm / 5}
		s := onNanometres(t, folio.Spec{Clearance: units.Length(r.IntN(2_000_000))})
		q := seeker{spine: true, meter: newMeter(context.Background(), Budget{}), given: s, contents: []pocket.Content{print, print}}
		p, as, err := q.roomiest()
		if err != nil {
			t.Fatal(err)
		}
		alone := q.onPanels(p, as.ways)
		if len(alone) != 2 || alone[0] != alone[1] {
			t.Fatalf("two prints on panels: %v", alone)
		}
		for _, c := range []struct {
			w, h units.Length
			does bool
		}{{0, 0, true}, {-1, 0, false}, {0, -1, false}} {
			if _, _, err := q.try(alone[0].Plus(c.w, c.h), 30*mm); (err == nil) != c.does {
				t.Errorf("%v for two prints of %v, and %v more: %v", alone[0], print.Size, c, err)
			}
		}
		// Both pockets are made for something larger, so that the panels are asked first.
		ticket := pocket.Content{Name: "ticket", Size: print.Size.Plus(mm, mm), Thickness: mm / 5}
		for i, on := range []boards.Role{boards.LeftCover, boards.RightCover} {
			q.given.Fittings = append(q.given.Fittings, folio.Fitting{Panel: on, Kind: folio.Folded{Kind: pocket.Slip{Content: ticket}}})
			q.last = nil
			if p, as, err = q.roomiest(); err != nil {
				t.Fatal(err)
			}
			if alone := q.onPanels(p, as.ways); len(alone) != 0 {
				t.Errorf("with %d pockets that take them: %v", i+1, alone)
			}
			// A pocket that comes after and does not take them is no matter.
			small := q
			small.last, small.given.Fittings = nil, append(q.given.Fittings[:i+1:i+1], folio.Fitting{Panel: boards.Spine1, Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard()}}})
			if p, as, err = small.roomiest(); err != nil {
				t.Fatal(err)
			}
			if alone := small.onPanels(p, as.ways); len(alone) != 0 {
				t.Errorf("with %d pockets that take them, and one that does not: %v", i+1, alone)
			}
		}
	}
}

// A trial plan takes a step, one for each fitting, and one for each content; with mats
// for what comes to lie on panels it is made again.
func TestStepsOfATrial(t *testing.T) {
	ticket := pocket.Content{Name: "ticket", Size: units.Size{W: 40 * mm, H: 60 * mm}, Thickness: mm / 5}
	pocketed := folio.Fitting{Kind: folio.Folded{Kind: pocket.Slip{Content: ticket}}}
	plate := folio.Fitting{Panel: boards.LeftCover, Outside: true, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: mm}}
	for _, c := range []struct {
		fittings []folio.Fitting
		contents int
		cover    units.Length
		steps    int64
	}{
		{nil, 0, 120 * mm, 1},
		{[]folio.Fitting{pocketed, plate}, 0, 120 * mm, 1 + 2},
		{[]folio.Fitting{pocketed, plate}, 1, 120 * mm, 1 + 2 + 1 + 1 + 2},     // in the pocket
		{[]folio.Fitting{pocketed, plate}, 2, 120 * mm, 1 + 2 + 2 + 1 + 2 + 1}, // one on the other panel
		{nil, 2, 120 * mm, 1 + 2 + 1 + 2},
		{nil, 3, 120 * mm, 1 + 3},                   // there is no third panel
		{[]folio.Fitting{plate}, 0, 20 * mm, 1 + 1}, // no such cover
	} {
		q := seeker{spine: true, meter: newMeter(context.Background(), Budget{}), given: folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres}, Fittings: c.fittings}}
		for range c.contents {
			q.contents = append(q.contents, ticket)
		}
		_, as, err := q.try(units.Size{W: c.cover, H: c.cover}, 20*mm)
		if q.done != c.steps || err == nil && len(as.ways) != c.contents {
			t.Errorf("%d fittings, %d contents: %d steps, want %d; %v", len(c.fittings), c.contents, q.done, c.steps, err)
		}
	}
}

// A trial that its budget ends before it is known is not said to be ruled out: six
// different tickets in six pockets, in any order, and two slabs that the folio does not
// close over.
func TestATrialThatIsNotFinished(t *testing.T) {
	ticket := func(i int) pocket.Content {
		return pocket.Content{Name: "ticket", Size: units.Size{W: 40*mm - units.Length(i), H: 50 * mm}, Thickness: mm / 5}
	}
	s := folio.Spec{Cover: units.Size{W: 250 * mm, H: 250 * mm}, Spine: rule.Spine{Width: 16 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}}
	slab := pocket.Content{Name: "slab", Size: units.Size{W: 200 * mm, H: 120 * mm}, Thickness: 7 * mm}
	contents := []pocket.Content{slab, slab}
	for i := range 6 {
		s.Fittings = append(s.Fittings, folio.Fitting{
			Panel: [...]boards.Role{boards.LeftCover, boards.RightCover}[i%2], Kind: folio.Folded{Kind: pocket.Slip{Content: ticket(0)}},
			Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: 10*mm + 70*mm*units.Length(i/2), Y: 10 * mm}},
		})
		contents = append(contents, ticket(i))
	}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		contents []pocket.Content
		unsure   bool
	}{{contents, true}, {contents[:1], false}, {contents[:2], false}} {
		q := seeker{meter: newMeter(context.Background(), Budget{Steps: 1}), trial: trialSteps, contents: c.contents}
		if ways, _ := q.all(Of(p)); q.unsure != c.unsure || q.done > trialSteps+100 || c.unsure && ways != nil {
			t.Errorf("%d contents: unsure %t after %d steps", len(c.contents), q.unsure, q.done)
		}
	}
}

// A trial takes off the budget what laying its contents took: with a budget of just so
// many steps they are not laid, with one more they are. With a folio that is as thick as
// can be each of the tickets has its pocket at once, in one as thin as can be they are
// sought places for.
func TestATrialCountsItsSearch(t *testing.T) {
	slab := pocket.Content{Name: "slab", Size: units.Size{W: 100 * mm, H: 60 * mm}, Thickness: 7 * mm}
	for _, c := range []struct {
		contents []pocket.Content
		sought   bool
	}{{[]pocket.Content{slab, slab}, true}, {[]pocket.Content{slab}, false}} {
		p, err := folio.Build(folio.Spec{Cover: units.Size{W: 140 * mm, H: 140 * mm}, Spine: rule.Spine{Width: 16 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}})
		if err != nil {
			t.Fatal(err)
		}
		q := seeker{meter: newMeter(context.Background(), Budget{}), trial: trialSteps, contents: c.contents}
		if _, err := q.all(Of(p)); err != nil || (q.done > 0) != c.sought || q.left != DefaultSteps-q.done {
			t.Fatalf("%d slabs: %d steps, %d left; %v", len(c.contents), q.done, q.left, err)
		}
		for more := range int64(2) {
			if steps := q.done + more; steps > 0 {
				if _, err := Of(p).All(context.Background(), Budget{Steps: steps}, c.contents...); unfinished(err) != (more == 0) {
					t.Errorf("%d slabs in %d steps, where a trial counts %d: %v", len(c.contents), steps, q.done, err)
				}
			}
		}
	}
}

// What does is kept as the best so far, with its cover and its spine, and is built again
// when it is asked for.
func TestWhatDoesIsKept(t *testing.T) {
	q := seeker{spine: true, meter: newMeter(context.Background(), Budget{}), given: folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres}},
		contents: []pocket.Content{{Name: "print", Size: units.Size{W: 60 * mm, H: 90 * mm}}}}
	for _, c := range []struct{ side, spine units.Length }{{200 * mm, 50 * mm}, {150 * mm, 20 * mm}} {
		if _, _, err := q.holds(units.Size{W: c.side, H: c.side}, c.spine); err != nil {
			t.Fatal(err)
		}
		p, ways, err := q.again()
		if err != nil || len(ways) != 1 || p.Spec().Cover.W != c.side || p.Spec().Spine.Width != c.spine || len(p.Spec().Fittings) != 1 {
			t.Errorf("a cover of %v with a spine of %v: %v", c.side, c.spine, err)
		}
	}
	if _, _, err := q.holds(units.Size{W: 50 * mm, H: 50 * mm}, 20*mm); err == nil {
		t.Error("a cover smaller than the print does")
	}
	if p, _, err := q.again(); err != nil || p.Spec().Cover.W != 150*mm {
		t.Errorf("after one that does not, the one before is gone: %v", err)
	}
}

// Trial plans take over what was worked out for the first that could be built: how its
// pockets are folded.
func TestTrialsTakeOver(t *testing.T) {
	s := folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres}, Cover: units.Size{W: 200 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 30 * mm}}
	for _, on := range []boards.Role{boards.LeftCover, boards.RightCover} {
		s.Fittings = append(s.Fittings, folio.Fitting{Panel: on, Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard()}}})
	}
	q := seeker{meter: newMeter(context.Background(), Budget{Steps: 1 << 40}), given: s}
	small := s
	small.Cover = units.Size{W: mm, H: mm}
	if _, err := q.build(small); err == nil {
		t.Fatal("a cover of a millimetre can be built")
	}
	if _, err := q.build(s); err != nil {
		t.Fatal(err)
	}
	again := testing.AllocsPerRun(20, func() { _, _ = q.build(s) })
	if anew := testing.AllocsPerRun(20, func() { _, _ = folio.Build(s) }); again >= anew*3/4 {
		t.Errorf("%v allocations for a trial plan, %v for one worked out anew", again, anew)
	}
}

// The bound for the liner: of a liner a piece a board the cover is wider than both insets;
// of one that goes on beyond the cover only higher.
func TestLeastForTheLiner(t *testing.T) {
	for _, c := range []struct {
		lining rule.LiningRule
		w      units.Length
	}{{rule.LiningPanels, 7 * mm}, {rule.LiningOnePiece, mm}, {rule.LiningAuto, mm}, {rule.LiningRuns, mm}} {
		s := folio.Spec{Cover: units.Size{W: 100 * mm, H: 100 * mm}, Spine: rule.Spine{Width: 20 * mm}, Lining: rule.Lining{Rule: c.lining, Inset: 3 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}}
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		q := seeker{ruler: units.WholeMillimetres, given: s}
		if low := q.least(p); low.W != c.w || low.H != 7*mm {
			t.Errorf("a liner %v: %v, want %v x 7 mm", c.lining, low, c.w)
		}
	}
}

// Where no trial may take what it needs any more, what was found before is not lost: if
// there was a folio at all, there is one.
func TestSmallestKeepsWhatItFound(t *testing.T) {
	const mm = units.Millimetre
	// Too thick to face each other in a soft spine of a given width, so that they must
	// be sought places for.
	s := folio.Spec{Form: boards.SoftSpine, Hinge: rule.Hinge{Rule: rule.HingeFixed, Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}}
	slab := pocket.Content{Name: "slab", Size: units.Size{W: 200 * mm, H: 120 * mm}, Thickness: 9 * mm}
	ticket := pocket.Content{Name: "ticket", Size: units.Size{W: 50 * mm, H: 40 * mm}, Thickness: mm / 10}
	contents := []pocket.Content{slab, slab}
	for i := range 4 {
		s.Fittings = append(s.Fittings, folio.Fitting{
			Panel: [...]boards.Role{boards.LeftCover, boards.RightCover}[i%2], Kind: folio.Folded{Kind: pocket.Slip{Content: ticket}},
			Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: 10*mm + 70*mm*units.Length(i/2), Y: 10 * mm}},
		})
		contents = append(contents, ticket)
	}
	sought := s // where the spine is to be found too
	sought.Hinge = rule.Hinge{}
	kept := map[bool]int{}
	for steps := int64(20); steps < 2000; steps += steps / 5 {
		given := s
		if steps%2 == 0 {
			given = sought
		}
		q := seeker{meter: newMeter(context.Background(), Budget{Steps: steps}), trial: 1, given: given, contents: contents}
		least, err := q.seek()
		if err != nil {
			t.Fatalf("%d steps: %v", steps, err)
		}
		spec := least.Plan().Spec()
		if tight, _ := least.Plan().Tightest(true); !tight.Eased() || len(least.Ways()) != len(contents) || len(spec.Fittings) != len(contents) {
			t.Errorf("%d steps: a cover of %v with %v", steps, spec.Cover, tight)
		}
		if spec.Cover == q.kept.cover && spec.Cover.W < units.Metre && q.unsure {
			kept[q.spine]++
		}
		if least.Complete() && q.unsure {
			t.Errorf("%d steps: complete, although a trial was not finished", steps)
		}
	}
	if kept[false] == 0 || kept[true] == 0 {
		t.Errorf("every trial was finished: %v", kept)
	}
	// Slabs that face each other even in a roomy cover must be sought places for there too:
	// where that was just done, the roomy folio is what there is.
	long := slab
	long.Size.W = 800 * mm
	roomy, ended := 0, 0
	for steps := int64(1); steps < 12; steps++ {
		bare := s
		bare.Fittings = nil
		q := seeker{meter: newMeter(context.Background(), Budget{Steps: steps}), trial: 1, given: bare, contents: []pocket.Content{long, long}}
		switch least, err := q.seek(); {
		case err == nil && len(least.Ways()) == 2:
			roomy++
		case unfinished(err) && roomy == 0:
			ended++
		default:
			t.Errorf("%d steps, after %d that were enough: %v", steps, roomy, err)
		}
	}
	if roomy == 0 || ended == 0 {
		t.Errorf("%d times there is a folio, %d times none", roomy, ended)
	}
}
