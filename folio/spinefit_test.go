package folio_test

import (
	"errors"
	"math/rand/v2"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/planetest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Whether a folio closes over what stands on its spines and covers, checked
// by folding everything as rectangles about the creases and looking for
// overlaps, in cross-section: all fittings are equally tall.
func TestSpineFittingsByFolding(t *testing.T) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 5))
	closed, not, beside := 0, 0, 0
	for trial := range 1500 {
		form := [...]boards.Form{boards.SpineBoard, boards.ForeEdgeFlap, boards.DoubleSpineGate}[trial%3]
		s := folio.Spec{
			Form: form, Cover: units.Size{W: 66 * mm, H: 60 * mm}, Spine: rule.Spine{Width: units.Length(23+r.IntN(20)) * mm},
			Board: stock.Stock{Caliper: 2 * mm}, Liner: stock.Stock{Caliper: mm / 4}, Covering: stock.Stock{Caliper: mm / 2},
			Rulers: rule.Rulers{Main: units.WholeMillimetres}, Lining: rule.Lining{Inset: 3 * mm}, Mitre: rule.Mitre{Distance: 3 * mm},
			Margin: rule.Margin{Rule: rule.MarginTenToFifteen}, Hinge: rule.Hinge{Width: 5 * mm},
			Closing: closing.Allowance{Ease: units.None, Adhesive: closing.AdhesiveFilm{Caliper: units.None}},
		}
		switch form {
		case boards.ForeEdgeFlap:
			s.Closing.UnderFlap = units.Length(r.IntN(8)) * mm
		case boards.DoubleSpineGate:
			s.DoorGap = 2 * mm
		}
		s.Hinge.Crease = [...]rule.CreasePlace{rule.CreaseAtEdge, rule.CreaseMidGap, rule.CreaseTwo, rule.CreaseRound}[r.IntN(4)]
		switch s.Hinge.Crease { // for the turn-ins between the boards
		case rule.CreaseMidGap:
			s.Hinge.Width = 7 * mm
		case rule.CreaseRound:
			s.Hinge.Width = 6 * mm
		}
		for _, role := range form.Roles() {
			if r.IntN(3) == 0 {
				continue
			}
			size := units.Size{W: units.Length(2+r.IntN(12)) * mm, H: 20 * mm}
			// Odd micrometres, so that nothing just touches.
			thick := units.Length(1+r.IntN(12))*mm + units.Length(1+2*r.IntN(400))*units.Micrometre
			across := [...]place.Align{place.Left, place.Middle, place.Right}[r.IntN(3)]
			if role == boards.Spine1 || role == boards.Spine2 {
				across = place.Middle
			}
			outside := role == boards.LeftCover && form == boards.ForeEdgeFlap && r.IntN(2) == 0
			s.Fittings = append(s.Fittings, folio.Fitting{
				Panel: role, Outside: outside, Kind: folio.Ornament{Size: size, Thickness: thick}, Place: place.Place{Across: across},
			})
		}
		// The same folio, wide enough to be built, tells where everything lies;
		// the spine is then set to what it is.
		p, err := folio.Build(s)
		closes, why := err == nil, err
		if err != nil {
			var bad *check.Error
			errors.As(err, &bad)
			if _, ok := bad.Find("", folio.NotClosing); !ok {
				t.Fatal(err)
			}
			bare := s
			bare.Fittings = nil
			if p, err = folio.Build(bare); err != nil {
				t.Fatal(err)
			}
		} else {
			tight, _ := p.Tightest(true)
			closes = tight.Closes()
			if tight.Meeting() == closing.BesideSpine {
				beside++
			}
		}
		if want := !clash(p, s.Fittings); want != closes {
			t.Fatalf("trial %d, %v: closes %v, by folding %v: %v\n%+v", trial, form, closes, want, why, s.Fittings)
		}
		if closes {
			closed++
		} else {
			not++
		}
	}
	if closed < 300 || not < 300 || beside < 50 {
		t.Errorf("lopsided trials: %d close, %d do not, %d tightest beside a spine", closed, not, beside)
	}
}

// clash folds the row of a plan with fittings and reports an overlap of
// anything with anything.
func clash(p *folio.Plan, fittings []folio.Fitting) bool {
	row := rowOf(p)
	c, _ := p.Closed()
	shut := row.shutBy(c.Bend(), c.Crease().Millimetres())
	const e = 1e-4
	block := func(x0, x1, z0, z1 float64) []vec {
		return []vec{shut.place(x0+e, z0+e), shut.place(x1-e, z0+e), shut.place(x1-e, z1-e), shut.place(x0+e, z1-e)}
	}
	type part struct {
		outline []vec
		fitting bool
	}
	var all []part
	for role, b := range row.boards {
		// The liner on top; the covering below, which goes round the outer
		// edges of the first and the last board.
		x0, x1 := b[0], b[1]
		if role == boards.LeftCover || role == boards.LeftDoor {
			x0 -= row.c
		}
		if role == boards.Flap || role == boards.RightDoor {
			x1 += row.c
		}
		all = append(all, part{block(x0, x1, -row.c, row.t+row.l), false})
	}
	things := map[faceOf][]slab{}
	for _, f := range fittings {
		k := f.Kind.(folio.Ornament)
		area, _ := p.Panel(f.Panel, f.Outside)
		spare := area.Size().W - k.Size.W
		x := area.Min.X
		switch f.Place.Across {
		case place.Right:
			x += spare
		case place.Middle:
			x += units.WholeMillimetres.Down(spare / 2)
		}
		left, at := row.boards[f.Panel][0], faceOf{f.Panel, f.Outside}
		things[at] = append(things[at], slab{x.Millimetres() - left, (x + k.Size.W).Millimetres() - left, 20, 40, k.Thickness})
	}
	// Turn-ins at the fore edges lie under the liner and under what stands there.
	m := modelOf(p, things)
	for f, list := range m.faces {
		for _, c := range grid(list, m.things[f]) {
			h := c.height.Millimetres()
			switch {
			case c.y1 < 30 || c.y0 > 30 || h == 0: // another cross-section
			case f.outside && c.thing:
				all = append(all, part{block(c.x0, c.x1, -h, -row.c), true})
			case !f.outside:
				all = append(all, part{block(c.x0, c.x1, row.t+row.l, row.t+row.l+h), true})
			}
		}
	}
	for i := range all {
		for j := range i {
			if !all[i].fitting && !all[j].fitting {
				continue // boards against boards is the hinge rule's business
			}
			if planetest.Overlap(all[i].outline, all[j].outline) {
				return true
			}
		}
	}
	return false
}

// A bar on a second spine reaches as far past the front cover's edge as it and its board are
// thick, less the gap. Of what is stacked on the front cover, above the bar or below it, that
// counts which begins within that, and lies beside the bar along the spine, by a nanometre, and
// nothing else. By hand, creased at the spine boards' edges: below it are S − board − liner −
// the turn-in, above it a − S − covering, each less the stack.
func TestStacksByTheFrontCoversEdge(t *testing.T) {
	const bar, plate, medal = 18 * mm, 3 * mm, 2 * mm
	spec := func(above bool, x, y units.Length) folio.Spec {
		s := plainCase()
		s.Rulers, s.Form, s.Closing.UnderFlap, s.Closing.Ease = all(everyNanometre), boards.ForeEdgeFlap, 40*mm, units.None
		s.Closing.Adhesive.Caliper = units.None
		from := 7 * mm // and the inset of the liner
		if above {
			from = 31 * mm
		}
		put := func(name string, on string, role boards.Role, size units.Size, thick, x, y units.Length) {
			s.Fittings = append(s.Fittings, folio.Fitting{Name: name, Panel: role, StandsOn: on, Outside: name == "plate" && above, Kind: folio.Ornament{Size: size, Thickness: thick},
				Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: x, Y: y}}})
		}
		put("bar", "", boards.Spine2, units.Size{W: 6 * mm, H: 40 * mm}, bar, from, 60*mm)
		put("plate", "", boards.LeftCover, units.Size{W: 60 * mm, H: 120 * mm}, plate, 0, 20*mm)
		put("medal", "plate", boards.MainPanel, units.Size{W: 5 * mm, H: 10 * mm}, medal, x, y)
		return s
	}
	for _, above := range []bool{false, true} {
		var at map[string]units.Rect
		lies := func(p *folio.Plan) {
			at = map[string]units.Rect{}
			for f := range p.Fittings() {
				at[f.Name()] = f.Rect()
			}
		}
		p := mustBuild(t, spec(above, 0, 0))
		lies(p)
		s, front := p.Spec(), rowOf(p).boards[boards.LeftCover][0]
		base := s.Board.Caliper + s.Liner.Caliper
		reach := base + bar - s.Hinge.Width - (at["plate"].Min.X - units.Length(front*1e6)) // along the plate
		head, tail := at["bar"].Min.Y-at["plate"].Min.Y-10*mm, at["bar"].Max.Y-at["plate"].Min.Y
		for _, c := range []struct {
			x, y   units.Length
			counts bool
		}{
			{0, head + 20*mm, true}, {reach - 1, head + 20*mm, true}, {reach, head + 20*mm, false},
			{0, head, false}, {0, head + 1, true}, {0, tail - 1, true}, {0, tail, false},
		} {
			p := mustBuild(t, spec(above, c.x, c.y))
			lies(p)
			spine, _ := p.Board(boards.Spine2)
			a := at["bar"].Min.X - spine.Rect().Min.X
			want := s.Spine.Width - base - s.Covering.Caliper - (a + 6*mm) - plate
			if above {
				want = a - s.Spine.Width - s.Covering.Caliper - plate
			}
			if c.counts {
				want -= medal
			}
			if tight, ok := p.TightestOf(closing.BesideSpine, true); !ok || tight.Left().Length() != want {
				t.Errorf("above %v, a medal %v from the edge and %v from the head of the plate: %v left, want %v", above, c.x, c.y, tight.Left(), want)
			}
		}
	}
}

// Straight across from a second spine lies the front cover's edge, by hand a gap less its covering
// from the back of the spine: a bar there may reach so far with board and liner, and lies against
// the spine beyond the covers of 120 mm then; a nanometre thicker it has no room at all. Lower on
// the spine it has.
func TestBarAcrossFromTheFrontCoversEdge(t *testing.T) {
	spec := func(at, thick units.Length) folio.Spec {
		s := plainCase()
		s.Rulers, s.Form, s.Closing.UnderFlap, s.Closing.Ease = all(everyNanometre), boards.ForeEdgeFlap, 40*mm, units.None
		s.Closing.Adhesive.Caliper = units.None
		s.Fittings = []folio.Fitting{{Name: "bar", Panel: boards.Spine2, Kind: folio.Ornament{Size: units.Size{W: 6 * mm, H: 40 * mm}, Thickness: thick},
			Place: place.Place{Across: place.Left, Along: place.Middle, Offset: units.Point{X: at}}}}
		return s
	}
	s := plainCase()
	most := s.Hinge.Width - s.Covering.Caliper - s.Board.Caliper - s.Liner.Caliper
	const edge = 19 * mm // and an inset of 3: the front cover lies from 23 to 25
	if tight, ok := mustBuild(t, spec(edge, most)).TightestOf(closing.BesideSpine, true); !ok || tight.Left().Length() < 120*mm {
		t.Errorf("a bar of %v: %v", most, tight)
	}
	if v := only(builds(spec(edge, most+1))); v.Code != folio.NotClosing || v.Path != "fittings" {
		t.Errorf("a bar a nanometre thicker: %v", builds(spec(edge, most+1)))
	}
	if err := builds(spec(9*mm, most+1)); err != nil {
		t.Errorf("below the edge: %v", err)
	}
}

// Contents that are given as a thickness alone are no fitting, nor any other thing of the plan.
func TestContentsAreNoFitting(t *testing.T) {
	s := plainCase()
	s.Spine = rule.Spine{Contents: 8 * mm}
	stood(&s, mm)
	tight, _ := mustBuild(t, s).Tightest(true)
	n := 0
	for th := range tight.Things() {
		n++
		if i, ok := th.Fitting(); ok || i != -1 || th.Name() != "contents" || th.Height() != 8*mm {
			t.Errorf("%v: %d, %v", th, i, ok)
		}
	}
	if n != 1 {
		t.Errorf("%v", tight)
	}
}

// Closed, a bar on the spine reaches so far over both covers, and what is too high there is told
// of where it lies under the bar, and nowhere else: of a plate that reaches further along both
// ways, the part that the bar is over.
func TestTightUnderABar(t *testing.T) {
	for _, role := range []boards.Role{boards.LeftCover, boards.RightCover} {
		s := plainCase()
		s.Rulers, s.Closing.Ease, s.Closing.Adhesive.Caliper = all(everyNanometre), units.None, units.None
		bar := folio.Fitting{Name: "bar", Panel: boards.Spine1, Kind: folio.Ornament{Size: units.Size{W: 3 * mm, H: 40*mm + 1}, Thickness: 20*mm + 1}, Place: place.Place{Along: place.Head, Offset: units.Point{Y: 30 * mm}}}
		plate := folio.Fitting{Name: "plate", Panel: role, Kind: folio.Ornament{Size: units.Size{W: 90 * mm, H: 80 * mm}, Thickness: 6 * mm}, Place: place.Place{Along: place.Head, Offset: units.Point{Y: 50 * mm}}}
		if plate.Place.Across = place.Right; role == boards.RightCover {
			plate.Place.Across = place.Left
		}
		s.Fittings = []folio.Fitting{bar, plate}
		p := mustBuild(t, s)
		tight, ok := p.TightestOf(closing.BesideSpine, true)
		var want units.Rect
		board, _ := p.Board(role)
		for f := range p.Fittings() {
			if f.Name() == "bar" {
				// From the spine's wrong side, its board, liner and height, less the gap.
				want = board.Rect()
				reach := s.Board.Caliper + s.Liner.Caliper + 20*mm + 1 - s.Hinge.Width
				if want.Min.Y, want.Max.Y = f.Rect().Min.Y, f.Rect().Max.Y; role == boards.LeftCover {
					want.Min.X = want.Max.X - reach
				} else {
					want.Max.X = want.Min.X + reach
				}
				continue
			}
			want = want.Intersect(f.Rect())
		}
		got, on := tight.Place()
		if !ok || on != role || got != want {
			t.Errorf("%v: %v at %v on the %v, want %v", role, tight, got, on, want)
		}
	}
}

// What stands in the middle of a spine board gains at each side half of what that is made
// wider: the spine that would do does, and a millimetre less does not.
func TestSpineForWhatStandsOnIt(t *testing.T) {
	badge := func(name string, role boards.Role, across place.Align, size units.Size, thick units.Length) folio.Fitting {
		return folio.Fitting{Name: name, Panel: role, Kind: folio.Ornament{Size: size, Thickness: thick}, Place: place.Place{Across: across, Along: place.Middle}}
	}
	s := plainCase()
	s.Closing.Ease, s.Spine.Width = mm, 26*mm // the middle lies on the ruler
	s.Fittings = []folio.Fitting{
		badge("bar", boards.Spine1, place.Middle, units.Size{W: 8 * mm, H: 30 * mm}, 9*mm),
		badge("stone", boards.RightCover, place.Left, units.Size{W: 20 * mm, H: 30 * mm}, 12*mm),
	}
	v := only(builds(s))
	named := asks(t, v.Want)
	if v.Code != folio.NotClosing || len(named) != 1 {
		t.Fatalf("%v", builds(s))
	}
	for less, does := range map[units.Length]bool{0: true, mm: false} {
		s.Spine.Width = named[0] - less
		p, err := folio.Build(s)
		if ok := err == nil && !warned(p, folio.WarnEase); ok != does {
			t.Errorf("a spine of %v: %v", s.Spine.Width, err)
		}
	}
}

// The spine board that would do leaves the ease beside what stands on it wherever that is
// put, and none narrower does; what stands in the middle is laid there by its ruler, which
// takes up to a step of one side. At an edge no width helps on that side.
func TestSpineThatWouldDoBeside(t *testing.T) {
	met := map[string]int{}
	finest, err := units.NewRuler(units.Nanometre, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	for n := range 360 {
		across, ruler := [...]place.Align{place.Middle, place.Left, place.Right}[n%3], [...]units.Ruler{units.WholeMillimetres, units.HalfMillimetres}[n/3%2]
		s := folio.Spec{
			Cover: units.Size{W: 120 * mm, H: 160 * mm}, Spine: rule.Spine{Width: units.Length(26+n/6%10) * mm},
			Rulers:  rule.Rulers{Main: units.WholeMillimetres, Fitting: ruler},
			Closing: closing.Allowance{Ease: 10*mm + units.Length(n%7)*mm/10},
			Fittings: []folio.Fitting{{Panel: boards.Spine1, Place: place.Place{Across: across},
				Kind: folio.Ornament{Size: units.Size{W: 12*mm + units.Length(n%11)*mm/4, H: 40 * mm}, Thickness: 14 * mm}}},
		}
		if n%5 == 4 { // a nanometre less than leaves a graduation on either side
			s.Rulers.Board, s.Spine.Width = finest, s.Spine.Width-units.Nanometre
		}
		if across != place.Middle {
			s.Fittings[0].Place.Offset.X = 4 * mm
		}
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(n, err)
		}
		tight, ok := p.TightestOf(closing.BesideSpine, false)
		if !ok || tight.Eased() {
			met["eased"]++
			continue
		}
		// At the other side it may have become tighter than there.
		does := func(spine units.Length) (does, elsewhere bool) {
			s := s
			s.Spine.Width = spine
			p, err := folio.Build(s)
			if err != nil {
				return false, false
			}
			wider, ok := p.TightestOf(closing.BesideSpine, false)
			_, was := tight.Place()
			_, is := wider.Place()
			return !ok || wider.Eased(), across != place.Middle && is != was
		}
		would := tight.WouldDo().Length()
		if would == s.Spine.Width {
			met["no width"]++
			if eased, _ := does(would + 60*mm); eased {
				t.Errorf("%d, %v by %v: no spine is said to be better than %v, and a wider one does", n, across, ruler, would)
			}
			continue
		}
		met[across.String()]++
		for _, more := range [...]units.Length{0, mm, 2 * mm} {
			if eased, elsewhere := does(would + more); !eased && !elsewhere {
				t.Errorf("%d, %v by %v: of %v a spine of %v would do, and one of %v does not", n, across, ruler, s.Spine.Width, would, would+more)
			}
		}
		less := would - mm
		if across == place.Middle {
			less -= ruler.Step() // one before that may do as it happens to fall on the ruler
		}
		if eased, elsewhere := does(less); eased && !elsewhere {
			t.Errorf("%d, %v by %v: a spine of %v is said to be the narrowest, and %v does", n, across, ruler, would, less)
		}
	}
	if met["middle"] < 20 || met["left"]+met["right"] < 20 || met["no width"] < 20 {
		t.Errorf("lopsided: %v", met)
	}
}

// Of two meetings that are equally tight the one between the covers is told of, which comes
// before that under the flap, with room and without.
func TestEquallyTightMeetings(t *testing.T) {
	s := folio.Spec{
		Form: boards.ForeEdgeFlap, Cover: units.Size{W: 100 * mm, H: 120 * mm}, Spine: rule.Spine{Width: 20 * mm}, Board: stock.Stock{Caliper: 2 * mm}, Covering: stock.Stock{Caliper: mm / 5}, Rulers: rule.Rulers{Main: everyNanometre},
		Closing: closing.Allowance{Ease: mm, UnderFlap: 6 * mm, Adhesive: closing.AdhesiveFilm{Caliper: units.None}},
	}
	p := mustBuild(t, s)
	plate := func(name string, on boards.Role, outside bool, m closing.Meeting, left units.Length) folio.Fitting {
		tight, ok := p.TightestOf(m, true)
		if !ok {
			t.Fatalf("nothing is %v", m)
		}
		return folio.Fitting{Name: name, Panel: on, Outside: outside, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: tight.Room().Length() - left},
			Place: place.Place{Across: place.Middle, Along: place.Middle}}
	}
	for _, left := range []units.Length{mm, mm / 2, -9 * mm} {
		s.Fittings = []folio.Fitting{plate("plate", boards.MainPanel, false, closing.BetweenCovers, left), plate("badge", boards.LeftCover, true, closing.UnderFlap, left+mm/5)} // on which a turn-in of the flap lies
		q, err := folio.Build(s)
		if left < 0 {
			if v := only(err); !strings.Contains(v.Got, "between the covers") {
				t.Errorf("%v left: %v", left, err)
			}
			continue
		} else if err != nil {
			t.Errorf("%v left: %v", left, err)
			continue
		}
		tight, ok := q.Tightest(true)
		under, _ := q.TightestOf(closing.UnderFlap, true)
		if !ok || tight.Meeting() != closing.BetweenCovers || tight.Left().Length() != left || under.Left().Length() != left {
			t.Errorf("%v left: %v, %v", left, tight, under)
		}
		for w := range q.Warnings() {
			if w.Code == folio.WarnEase && !strings.Contains(w.Text, "between the covers") {
				t.Errorf("%v left: %v", left, w)
			}
		}
	}
}

// A bar as far from both covers is as tight at both sides. Laid from one edge of its panel
// no width of the spine helps on that side, and on the other one all of it does, which is
// what is told of: from the left edge as from the right one. So it is of two bars on two
// spines that leave as much.
func TestSpineForWhatIsAsTightAtBothSides(t *testing.T) {
	spec := folio.Spec{
		Cover: units.Size{W: 100 * mm, H: 120 * mm}, Spine: rule.Spine{Width: 30 * mm}, Board: stock.Stock{Caliper: 2 * mm},
		Rulers: rule.Rulers{Main: units.WholeMillimetres}, Closing: closing.Allowance{Ease: 9 * mm},
	}
	bar := func(on boards.Role, across place.Align, thick units.Length) folio.Fitting {
		area, _ := mustBuild(t, spec).Panel(on, false)
		return folio.Fitting{Name: "bar", Panel: on, Kind: folio.Ornament{Size: units.Size{W: area.Size().W - 10*mm, H: 40 * mm}, Thickness: thick},
			Place: place.Place{Across: across, Offset: units.Point{X: 5 * mm}}}
	}
	for _, across := range []place.Align{place.Left, place.Right} {
		s := spec
		s.Fittings = []folio.Fitting{bar(boards.Spine1, across, 8*mm)}
		tight, ok := mustBuild(t, s).TightestOf(closing.BesideSpine, true)
		want := (30*mm + 9*mm - tight.Left().Length() + mm - 1) / mm * mm
		if got := tight.WouldDo().Length(); !ok || tight.Eased() || got != want {
			t.Errorf("laid from the %v: a spine of %v would do, want %v, which is 30 mm and what is lacking: %v", across, got, want, tight)
		}
	}
	// In the middle a half of what the spine gains is on each side: on 30 mm, of which the
	// bar leaves 10 mm of its panel, the one that would do is wider by twice what is lacking.
	spec.Form = boards.DoubleSpineGate
	for _, middle := range []int{0, 1} {
		s := spec
		s.Fittings = []folio.Fitting{bar(boards.Spine1, place.Left, 8*mm), bar(boards.Spine2, place.Right, 8*mm)}
		s.Fittings[1].Name, s.Fittings[middle].Place = "other bar", place.Place{}
		tight, ok := mustBuild(t, s).TightestOf(closing.BesideSpine, true)
		least := 30*mm + 2*(9*mm-tight.Left().Length())
		if got := tight.WouldDo().Length(); !ok || got < least || got > least+2*mm {
			t.Errorf("spine %d holds the bar in its middle: %v would do, want %v and what the ruler takes: %v", middle+1, got, least, tight)
		}
	}
}
