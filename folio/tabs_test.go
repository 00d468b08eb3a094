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
	"boardwrap.example/internal/makertest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// onNarrowSpine is a log of so many leaves that stands on a spine, of covers of 120 x
// 170 mm with hinges of 4 mm.
func onNarrowSpine(spine units.Length, k pocket.Concertina) folio.Spec {
	k.Content, k.OnSpine = pocket.Content{Name: "tide table", Size: units.Size{W: 80 * mm, H: 110 * mm}, Thickness: mm / 5}, true
	return folio.Spec{
		Cover: units.Size{W: 120 * mm, H: 170 * mm}, Spine: rule.Spine{Width: spine}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Hinge: rule.Hinge{Width: 4 * mm}, Stocks: []stock.Stock{{Name: "card", Caliper: mm / 4, TwoSided: true}},
		Fittings: []folio.Fitting{{Name: "log", Panel: boards.Spine1, Kind: folio.Folded{Kind: k}}},
	}
}

// rubs counts the gaps into which tabs are rubbed, and returns the job of a maker who
// is not told to.
func rubs(j makertest.Job) (n int, untold makertest.Job) {
	j.Steps = slices.Clone(j.Steps)
	for i, s := range j.Steps {
		if s.For.Kind != work.PartFitting {
			continue
		}
		j.Steps[i].Do = slices.DeleteFunc(slices.Clone(s.Do), func(a work.Action) bool {
			r, ok := a.(work.Rub)
			if ok {
				n += len(r.Gaps)
			}
			return ok
		})
	}
	return n, j
}

// On a narrow spine hands are told of every gap that a tab crosses, the maker minds where
// they are not, and the tabs that the warning names end on the spine.
func TestTabsOnNarrowSpines(t *testing.T) {
	told, joined := 0, 0
	for i, spine := range []units.Length{11 * mm, 15 * mm, 22 * mm, 40 * mm} {
		for n, k := range []pocket.Concertina{{Leaves: 1}, {Leaves: 3, Land: mm}, {Leaves: 2, Tab: 25 * mm}, {Leaves: 12, Fold: 4 * mm}} {
			s := onNarrowSpine(spine, k)
			s.Closing.Adhesive = closing.AdhesiveFilm{Glue: (i+n)%2 == 0}
			s.Stocks[0].Sheets = []stock.Sheet{{Size: units.Size{W: 92 * mm, H: 120 * mm}}} // more than five folds of a guard are joined
			planned, err := folio.Build(s)
			if err != nil {
				if n < 3 || spine > 15*mm {
					t.Errorf("a spine of %v, %d leaves: %v", spine, k.Leaves, err)
				}
				continue
			}
			made, err := planned.Refit(refit.Measured{Width: planned.OpenWidth().Length() + mm, Height: planned.OpenHeight().Length() + mm/2})
			if err != nil {
				t.Fatal(err)
			}
			for f := range planned.Fittings() {
				d, _ := f.Design()
				for range d.Splices() {
					joined++
				}
			}
			for _, p := range [...]*folio.Plan{planned, made} {
				what := fmt.Sprintf("a spine of %v, %d leaves", spine, k.Leaves)
				j := makerJob(p, planned)
				if err := makertest.Follow(j); err != nil {
					t.Errorf("%s: %v", what, err)
					continue
				}
				n, untold := rubs(j)
				told += n
				err := makertest.Follow(untold)
				if (err != nil) != (n > 0) || err != nil && !strings.Contains(err.Error(), "has not been rubbed down") {
					t.Errorf("%s, rubbed into %d gaps: untold the maker says %v", what, n, err)
				}
				if warned := warnedOf(p, folio.WarnTabs, "fittings[0].kind.kind.tab"); warned != (n > 0) {
					t.Errorf("%s, rubbed into %d gaps: warned %t", what, n, warned)
				}
			}
			for w := range planned.Warnings() {
				if w.Code != folio.WarnTabs || w.Want == 0 {
					continue
				}
				if k.Tab = w.Want; warnedOf(mustBuild(t, onNarrowSpine(spine, k)), folio.WarnTabs, "") {
					t.Errorf("a spine of %v: tabs of %v reach over its hinges", spine, w.Want)
				}
			}
		}
	}
	if told < 20 || joined == 0 {
		t.Errorf("rubbed into %d gaps, %d joints in all", told, joined)
	}
}

// Where a tab lies on a board it adds the paper and the film under it, and over a gap, down
// into which it is rubbed, nothing: inside and outside, and as the folio is shut.
func TestTabsAreThick(t *testing.T) {
	const thick = mm/4 + 100*units.Micrometre // the card and its tape
	for _, outside := range []bool{false, true} {
		s := onNarrowSpine(11*mm, pocket.Concertina{Leaves: 2, Tab: 25 * mm})
		s.Fittings[0].Outside = outside
		s.Closing.Adhesive.Caliper = 100 * units.Micrometre
		p := mustBuild(t, s)
		at := func(x units.Length) (sum units.Length) {
			for h := range p.Heights(false) {
				if r := h.Rect(); !h.TurnIn() && h.Outside() == outside && r.Min.X <= x && x < r.Max.X {
					b, _ := p.Board(h.Panel())
					if !r.In(b.Rect()) {
						t.Errorf("a height at %v, on the %v", r, h.Panel())
					}
					sum += h.Height()
				}
			}
			return sum
		}
		var folds units.Rect // of 1.5 mm with the leaves, of which four layers take 1 mm
		for f := range p.Fittings() {
			folds = f.Rect()
		}
		left, right := folds.Min.X-25*mm, folds.Min.X+mm+25*mm
		if outside { // there it is seen from the other side: its folds begin at the right
			left, right = folds.Max.X-mm-25*mm, folds.Max.X+25*mm
		}
		for x, want := range map[units.Length]units.Length{left - 1: 0, left: thick, 120*mm - 1: thick, 120 * mm: 0, 124*mm - 1: 0, 124 * mm: thick,
			135*mm - 1: thick, 135 * mm: 0, 139*mm - 1: 0, 139 * mm: thick, right - 1: thick, right: 0} {
			if got := at(x); got != want {
				t.Errorf("outside %t: %v high at %v, want %v", outside, got, x, want)
			}
		}
	}
}

// The tabs of a guard that stands on a mat stick to the mat, as the maker wants it, and those
// that would reach beyond it are refused with the widest that do not.
func TestTabsStickToWhatTheyStandOn(t *testing.T) {
	refused := 0
	for _, wide := range []units.Length{9 * mm, 21 * mm, 22 * mm, 34 * mm} {
		for _, tab := range []units.Length{0, 4 * mm, 16 * mm} {
			s := onNarrowSpine(40*mm, pocket.Concertina{Leaves: 2, Tab: tab})
			log := s.Fittings[0]
			log.Panel, log.StandsOn = boards.MainPanel, "mat"
			s.Fittings = []folio.Fitting{{Name: "mat", Panel: boards.Spine1, Kind: folio.Mat{Size: units.Size{W: wide, H: 130 * mm}}}, log}
			what := fmt.Sprintf("tabs of %v on a mat %v wide", tab, wide)
			_, err := folio.Build(s)
			var bad *check.Error
			if errors.As(err, &bad) {
				v, ok := bad.Find("fittings[1].kind.kind.tab", folio.OffPanel)
				if !ok || v.Limit <= 0 {
					t.Errorf("%s: %v", what, err)
					continue
				}
				refused++
				widest := func(tab units.Length) error {
					k := log.Kind.(folio.Folded)
					c := k.Kind.(pocket.Concertina)
					c.Tab = tab
					k.Kind = c
					s.Fittings[1].Kind = k
					_, err := folio.Build(s)
					return err
				}
				if err := widest(v.Limit + mm); err == nil {
					t.Errorf("%s: refused, and at most %v, and %v go too", what, v.Limit, v.Limit+mm)
				}
				if err := widest(v.Limit); err != nil {
					t.Errorf("%s: %v", what, err)
					continue
				}
			} else if err != nil {
				t.Fatal(err)
			}
			p := mustBuild(t, s)
			var at [2]units.Rect
			for f := range p.Fittings() {
				at[f.Index()] = f.Reach()
			}
			if !at[1].In(at[0]) {
				t.Errorf("%s: the guard reaches over %v, the mat lies at %v", what, at[1], at[0])
			}
			if err := makertest.Follow(makerJob(p, p)); err != nil {
				t.Errorf("%s: %v", what, err)
			}
		}
	}
	if refused != 6 {
		t.Errorf("refused %d times", refused)
	}

	// At the left edge of the mat no tab at all would lie on it.
	s := onNarrowSpine(40*mm, pocket.Concertina{Leaves: 2, Tab: 4 * mm})
	log := s.Fittings[0]
	log.Panel, log.StandsOn, log.Place = boards.MainPanel, "mat", place.Place{Across: place.Left}
	s.Fittings = []folio.Fitting{{Name: "mat", Panel: boards.Spine1, Kind: folio.Mat{Size: units.Size{W: 21 * mm, H: 130 * mm}}}, log}
	_, err := folio.Build(s)
	var bad *check.Error
	if !errors.As(err, &bad) || bad.Len() != 1 {
		t.Fatalf("at the edge of the mat: %v", err)
	}
	if v, ok := bad.Find("fittings[1].kind.kind.tab", folio.OffPanel); !ok || v.Nature != check.Impossible || v.Bound != check.NoBound {
		t.Errorf("at the edge of the mat: %v", err)
	}
	s.Fittings[1].Place = place.Place{}
	mustBuild(t, s)
	// As far from it as the shortest length, a tab of that would.
	for more := range units.Length(2) {
		s.Rulers = all(everyNanometre)
		s.Fittings[1].Place = place.Place{Across: place.Left, Offset: units.Point{X: units.Shortest - more}}
		if v, ok := refusal(s, "fittings[1].kind.kind.tab", folio.OffPanel); !ok || (v.Bound == check.AtMost) != (more == 0) || more == 0 && v.Limit != units.Shortest {
			t.Errorf("%v from the edge of the mat: %v", units.Shortest-more, builds(s))
		}
	}
}

// A guard at either edge of its spine is told of tabs that end there, but for the outside of
// a spine board, where it may lie so near to the edge that none would: a wider one would do.
func TestTabsAtTheEdgeOfASpine(t *testing.T) {
	for _, across := range []place.Align{place.Left, place.Right} {
		for n, from := range []units.Length{0, 1, units.Shortest - 1, units.Shortest, 3 * mm} {
			s := onNarrowSpine(22*mm, pocket.Concertina{Leaves: 2})
			s.Rulers = all(everyNanometre)
			log := &s.Fittings[0]
			log.Outside, log.Place = true, place.Place{Across: across, Offset: units.Point{X: from}}
			var board units.Rect
			for b := range mustBuild(t, s).Boards() {
				if b.Role() == boards.Spine1 {
					board = b.Rect()
				}
			}
			told := 0
			for w := range mustBuild(t, s).Warnings() {
				if w.Code != folio.WarnTabs {
					continue
				}
				told++
				if (w.Want == 0) != strings.HasSuffix(w.Text, "or take a wider one") || across == place.Right && (w.Want == 0) != (n < 3) {
					t.Errorf("%v from the %v edge: %v", from, across, w)
				}
				if w.Want == 0 {
					continue
				}
				k := log.Kind.(folio.Folded).Kind.(pocket.Concertina)
				k.Tab = w.Want
				log.Kind = folio.Folded{Kind: k}
				for f := range mustBuild(t, s).Fittings() {
					if r := f.Reach(); r.Min.X != board.Min.X && r.Max.X != board.Max.X || r.Min.X < board.Min.X || r.Max.X > board.Max.X {
						t.Errorf("%v from the %v edge: tabs of %v reach over %v of a spine at %v", from, across, w.Want, r, board)
					}
				}
			}
			if told != 1 {
				t.Errorf("%v from the %v edge: told %d times", from, across, told)
			}
		}
	}
}

// Outside there are no hinges to rub tabs down into, as the covering lies over them: nothing
// is said of that. Where outsides come together in narrow hinges, tabs inside would have to go
// round the edges of the boards: they are refused, and those that end before are not.
func TestTabsOnOtherFaces(t *testing.T) {
	s := onNarrowSpine(11*mm, pocket.Concertina{Leaves: 2, Tab: 25 * mm})
	s.Fittings[0].Outside = true
	p := mustBuild(t, s)
	j := makerJob(p, p)
	if n, _ := rubs(j); n != 0 || !warnedOf(p, folio.WarnTabs, "fittings[0].kind.kind.tab") {
		t.Errorf("outside, rubbed into %d hinges, or no word of them", n)
	}
	if err := makertest.Follow(j); err != nil {
		t.Errorf("outside: %v", err)
	}
	for _, c := range []struct {
		gap, tab units.Length
		fits     bool
	}{{4400 * units.Micrometre, 25 * mm, true}, {4399 * units.Micrometre, 25 * mm, false}, {4399 * units.Micrometre, 5 * mm, true}} {
		s := plainCase()
		s.Form, s.Spine, s.Lining.Rule, s.Hinge.Width, s.Rulers.Gap = boards.OwnRow, rule.Spine{Width: 40 * mm}, rule.LiningPanels, c.gap, everyNanometre
		s.Row = boards.Row{Joints: make([]boards.Joint, 4), Boards: []boards.Board{
			{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2}, {Role: boards.Spine2, Width: 20 * mm}, {Role: boards.Panel3},
		}}
		s.Row.Joints[2].Fold, s.Row.Joints[3].Fold = score.Mountain, score.Mountain
		build := func(tab units.Length) (*folio.Plan, error) {
			s.Fittings = onNarrowSpine(20*mm, pocket.Concertina{Leaves: 2, Tab: tab}).Fittings
			s.Fittings[0].Panel = boards.Spine2
			return folio.Build(s)
		}
		p, err := build(c.tab)
		if !c.fits {
			var bad *check.Error
			if !errors.As(err, &bad) {
				t.Fatalf("tabs of %v over %v: %v", c.tab, c.gap, err)
			}
			v, _ := bad.Find("fittings[0].kind.kind.tab", folio.OffPanel)
			if p, err = build(v.Limit); err == nil {
				_, err = build(v.Limit + 1)
				if err == nil {
					t.Errorf("more than %v would do", v.Limit)
				}
				err = nil
			}
		}
		if err != nil {
			t.Fatalf("tabs of %v over %v: %v", c.tab, c.gap, err)
		}
		if err := makertest.Follow(makerJob(p, p)); err != nil {
			t.Errorf("tabs of %v over %v: %v", c.tab, c.gap, err)
		}
	}
}

// What only a tab of a guard lies over on a mat is covered as well: a picture that begins 10 mm
// from the edge of the mat, with folds from 5 to 6 mm and the right tab beside them.
func TestTabsCoverPictures(t *testing.T) {
	for tab, covers := range map[units.Length]bool{4 * mm: false, 4*mm + nm: true} {
		s := onNarrowSpine(40*mm, pocket.Concertina{Leaves: 2, Tab: tab})
		s.Rulers = all(everyNanometre)
		log := s.Fittings[0]
		log.Panel, log.StandsOn, log.Place = boards.MainPanel, "mat", place.Place{Across: place.Left, Offset: units.Point{X: 5 * mm}}
		s.Fittings = []folio.Fitting{{Name: "mat", Panel: boards.Spine1, Kind: folio.Mat{Picture: content(units.Size{W: 14 * mm, H: 100 * mm}), Reveal: 10 * mm}}, log}
		if got := warnedOf(mustBuild(t, s), folio.WarnCovered, "fittings[1].place"); got != covers {
			t.Errorf("tabs of %v: covered %t", tab, got)
		}
	}
}

// In every form with spine boards a maker makes a guard on each of them, with tabs that end on
// it and with such as reach over its hinges, where the plan does not refuse those.
func TestTabsInEveryForm(t *testing.T) {
	followed := map[boards.Form]int{}
	for _, form := range []boards.Form{boards.SpineBoard, boards.ForeEdgeFlap, boards.DoubleSpineGate, boards.ThreePanels, boards.TwoFlaps} {
		for _, role := range form.Roles() {
			for _, tab := range []units.Length{5 * mm, 25 * mm} {
				s := onNarrowSpine(30*mm, pocket.Concertina{Leaves: 2, Tab: tab})
				s.Form, s.Cover.W, s.Hinge, s.Fittings[0].Panel = form, 220*mm, rule.Hinge{}, role
				p, err := folio.Build(s)
				if !role.Spine() || err != nil {
					continue
				}
				if err := makertest.Follow(makerJob(p, p)); err != nil {
					t.Errorf("%v, on the %v, tabs of %v: %v", form, role, tab, err)
				}
				followed[form]++
			}
		}
		if followed[form] < 2 {
			t.Errorf("%v: followed %d", form, followed[form])
		}
	}
}
