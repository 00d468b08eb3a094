package guide_test

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"boardwrap.example/folio/closing"
	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// Pictures of hundreds of parts leave out what nobody could tell apart, and say
// so: they stay small enough to be opened, and their words apart.
func TestManyParts(t *testing.T) {
	s := folio.Spec{Cover: units.Size{W: 1500 * mm, H: 1500 * mm}, Spine: rule.Spine{Width: 900 * mm}, Stocks: []stock.Stock{{Name: "thin", Caliper: mm / 50}}}
	pockets := s
	pockets.Fittings = []folio.Fitting{{Name: "run", Stock: "thin", Kind: folio.Folded{Kind: pocket.GussetRun{Content: pocket.IDCard(), Pockets: 500}}}}
	strip := s
	strip.Fittings = []folio.Fitting{{Name: "accordion", Stock: "thin", Kind: folio.Folded{Kind: pocket.FoldedAccordion{Content: pocket.IDCard(), Panels: 500}}}}
	mats := s
	for i := range 100 {
		mats.Fittings = append(mats.Fittings, folio.Fitting{Name: fmt.Sprintf("mat %d", i), Kind: folio.Mat{Picture: pocket.Content{Size: units.Size{W: 90 * mm, H: 90 * mm}}},
			Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: units.Length(i%10) * 110 * mm, Y: units.Length(i/10) * 110 * mm}}})
	}
	fit := guide.Options{Fit: units.Size{W: 180 * mm, H: 120 * mm}}
	for _, s := range []folio.Spec{pockets, strip, mats} {
		p := build(t, s)
		list := drawings(p)
		for _, d := range append(list[:8:8], list[len(list)-2:]...) {
			pic, ok := d.draw(fit)
			if !ok {
				continue
			}
			svg := pic.AppendSVG(nil)
			r, err := read(svg)
			if err != nil {
				t.Fatal(err)
			}
			if bad := r.overlaps(); bad != "" {
				t.Errorf("%s of the %s: %s", d.name, s.Fittings[0].Name, bad)
			}
			left := slices.ContainsFunc(r.texts, func(x readText) bool { return x.s == "layers between are left out" })
			if d.name == "inside" && left != (len(s.Fittings) == 1) {
				t.Errorf("inside with the %s: layers are said to be left out: %t", s.Fittings[0].Name, left)
			}
			if len(svg) > 600_000 {
				t.Errorf("%s of the %s takes %d bytes", d.name, s.Fittings[0].Name, len(svg))
			}
		}
	}
}

// A guard of a hundred leaves lies in more layers than are followed: its steps show it as it
// is scored, by its name, with all its folds or as many as there is room for.
func TestMoreLeavesThanAreFollowed(t *testing.T) {
	s := folio.Spec{Cover: units.Size{W: 160 * mm, H: 210 * mm}, Spine: rule.Spine{Width: 300 * mm}, Stocks: []stock.Stock{{Name: "tissue", Caliper: mm / 50}}}
	s.Fittings = []folio.Fitting{{Name: "leaves", Stock: "tissue", Kind: folio.Folded{Kind: pocket.Concertina{
		Content: pocket.Content{Size: units.Size{W: 60 * mm, H: 90 * mm}, Thickness: mm / 50}, Leaves: 100, Fold: 5 * mm, Tab: 10 * mm}}}}
	p := build(t, s)
	all, pieces, steps, shown := slices.Collect(p.Steps()), slices.Collect(p.Pieces()), guide.StepsOf(p), 0
	for _, i := range []int{len(all) / 2, len(all) - 3} {
		fix, ok := all[i].Do[0].(work.Fix)
		if !ok || fix.On.Kind != work.OnPiece {
			continue
		}
		shown++
		r, bad := readPicture(steps.Draw(all[i].Number, guide.Options{}))
		if bad != "" {
			t.Fatal(bad)
		}
		if bad := r.overlaps(); bad != "" {
			t.Errorf("step %d: %s", all[i].Number, bad)
		}
		if !slices.ContainsFunc(r.texts, func(x readText) bool { return strings.Contains(x.s, pieces[fix.On.Index].Name()) }) || len(r.of(strconv.Itoa(fix.On.Index), "", "", "")) < 60 {
			t.Errorf("step %d does not show the %s", all[i].Number, pieces[fix.On.Index].Name())
		}
	}
	if shown == 0 {
		t.Error("no leaf is glued")
	}
}

// A picture is written into the room that is given for it without any more.
func TestWritingTakesNoRoomOfItsOwn(t *testing.T) {
	pic, _ := guide.Inside(build(t, crewSpec()), guide.Options{})
	dst := pic.AppendSVG(nil)
	if n := testing.AllocsPerRun(20, func() { dst = pic.AppendSVG(dst[:0]) }); n > 1 {
		t.Errorf("%v allocations", n)
	}
}

// A magnet is flat and round: the step that glues magnets in draws each as a
// circle, every point of which lies half the diameter from its middle, to the
// nanometres that chords are rounded to. The middles of four quarters are one.
func TestMagnetsAreRound(t *testing.T) {
	s := crewSpec()
	s.Fittings, s.Magnets = nil, closing.Magnets{Diameter: 8 * mm, Thickness: mm, Pairs: 2}
	p := build(t, s)
	quarters := 0
	for step := range p.Steps() {
		if !slices.ContainsFunc(step.Do, func(a work.Action) bool { f, ok := a.(work.Fix); return ok && f.What.Kind == work.Magnet }) {
			continue
		}
		pic, ok := guide.Step(p, step.Number, guide.Options{})
		r, err := read(pic.AppendSVG(nil))
		if !ok || err != nil {
			t.Fatal(ok, err)
		}
		for _, l := range r.lines {
			if l.kind != "new" || l.legend {
				continue
			}
			quarters++
			first, last := l.pts[0], l.pts[len(l.pts)-1]
			// A quarter's middle lies across the square from where its tangents meet.
			ends := [...]point{{first.x, last.y}, {last.x, first.y}}
			if !slices.ContainsFunc(ends[:], func(c point) bool {
				return !slices.ContainsFunc(l.pts, func(q point) bool {
					return math.Abs(math.Hypot(float64(q.x-c.x), float64(q.y-c.y))-float64(4*mm)) > 20
				})
			}) {
				t.Errorf("%v is no quarter of a circle 8 mm across", l.pts)
			}
		}
	}
	if quarters != 4*4 {
		t.Errorf("%d quarters of circles for 4 magnets", quarters)
	}
}

// Magnets on the outside of a cover are told, and drawn, as one looks at the
// outside: as far from the left as they lie from the right seen from inside.
func TestMagnetsOutside(t *testing.T) {
	s := crewSpec()
	s.Fittings, s.Form, s.Magnets = nil, boards.ForeEdgeFlap, closing.Magnets{Diameter: 8 * mm, Thickness: mm, Pairs: 1}
	p := build(t, s)
	cover, _ := p.Board(boards.LeftCover)
	fastening, _ := p.Magnets()
	var want units.Length
	for m := range fastening.Places() {
		if m.Outside() {
			want = cover.Rect().Max.X - m.Middle().X - 4*mm
		}
	}
	seen := 0
	for step := range p.Steps() {
		if step.For.Kind != work.PartMagnets {
			continue
		}
		pic, _ := guide.Step(p, step.Number, guide.Options{})
		r, err := read(pic.AppendSVG(nil))
		if err != nil {
			t.Fatal(err)
		}
		var board readLine // of the cover's outline
		for _, l := range r.lines {
			if l.legend || len(l.pts) < 5 {
				continue
			}
			left, right := l.pts[0].x, l.pts[0].x
			for _, q := range l.pts {
				left, right = min(left, q.x), max(right, q.x)
			}
			switch wide := right - left; {
			case wide == int64(cover.Size().W):
				board = l
			case board.pts != nil && wide <= int64(4*mm)+1 && left == board.pts[0].x+int64(want):
				seen++
			}
		}
	}
	if seen < 2 { // two quarters of the hole, of the magnet
		t.Errorf("no magnet %v from the left edge of the outside", want)
	}
}

// Boards that are cut alike get holes at other places, so each is drawn by itself, by
// its own name: bored in what is drawn are just the magnets of that board.
func TestMagnetsOfEachBoard(t *testing.T) {
	for _, form := range []boards.Form{boards.SpineBoard, boards.DoubleSpineGate, boards.TwoFlaps} {
		s := crewSpec()
		s.Fittings, s.Form, s.Covering.Sheets, s.Magnets = nil, form, nil, closing.Magnets{Diameter: 8 * mm, Thickness: mm, Pairs: 2}
		p := build(t, s)
		// Four quarters make a hole: of each, how far left of its board's edge.
		want := map[string]map[units.Length]int{}
		fastening, _ := p.Magnets()
		for m := range fastening.Places() {
			b, _ := p.Board(m.Panel())
			x := m.Middle().X - b.Rect().Min.X
			if m.Outside() {
				x = b.Rect().Max.X - m.Middle().X
			}
			if want[b.Name()] == nil {
				want[b.Name()] = map[units.Length]int{}
			}
			want[b.Name()][hundredths(x-4*mm)] += 2
			want[b.Name()][hundredths(x)] += 2
		}
		for step := range p.Steps() {
			if step.For.Kind != work.PartMagnets || step.Task == work.TaskDry {
				continue
			}
			pic, _ := guide.Step(p, step.Number, guide.Options{})
			r, err := read(pic.AppendSVG(nil))
			if err != nil {
				t.Fatal(err)
			}
			got := map[string]map[units.Length]int{}
			for _, board := range r.lines {
				if board.legend || board.kind != "there" || len(board.pts) != 5 {
					continue
				}
				around := extent(board.pts)
				name := ""
				for _, w := range r.texts {
					if _, known := want[w.s]; known && w.box.meets(around) {
						name = w.s
					}
				}
				for _, l := range r.lines {
					e := extent(l.pts)
					if l.legend || l.kind != "knife" && l.kind != "new" || len(l.pts) < 4 || e.x0 < around.x0 || e.x1 > around.x1 || e.y0 < around.y0 || e.y1 > around.y1 {
						continue
					}
					if got[name] == nil {
						got[name] = map[units.Length]int{}
					}
					got[name][hundredths(units.Length(e.x0-around.x0))]++
				}
			}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("%v, step %d (-want +got):\n%s", form, step.Number, diff)
			}
		}
	}
}

// hundredths rounds to a hundredth of a millimetre, finer than holes differ.
func hundredths(l units.Length) units.Length { return (l + mm/200) / (mm / 100) }

// extent is the least box about points.
func extent(pts []point) box {
	b := box{pts[0].x, pts[0].y, pts[0].x, pts[0].y}
	for _, q := range pts {
		b.x0, b.y0, b.x1, b.y1 = min(b.x0, q.x), min(b.y0, q.y), max(b.x1, q.x), max(b.y1, q.y)
	}
	return b
}

// Steps are drawn as each is by itself, in any order and by several at once, and their
// order of work is worked out once: a picture more takes no list of all steps.
func TestStepsOfAPlan(t *testing.T) {
	s := folio.Spec{Cover: units.Size{W: 200 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 20 * mm}}
	for i := range 8 {
		s.Fittings = append(s.Fittings, folio.Fitting{Kind: folio.Mat{Size: units.Size{W: 15 * mm, H: 15 * mm}},
			Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: units.Length(i) * 20 * mm}}})
	}
	p := build(t, s)
	all, steps := slices.Collect(p.Steps()), guide.StepsOf(p)
	want := make([]string, len(all))
	for i, s := range all {
		pic, ok := guide.Step(p, s.Number, guide.Options{})
		if want[i] = string(pic.AppendSVG(nil)); !ok {
			t.Fatalf("step %d is not drawn", s.Number)
		}
	}
	var done sync.WaitGroup
	for range 2 {
		done.Go(func() {
			for i := range slices.Backward(all) {
				if pic, _ := steps.Draw(all[i].Number, guide.Options{}); string(pic.AppendSVG(nil)) != want[i] {
					t.Errorf("step %d is drawn otherwise among others", all[i].Number)
				}
			}
		})
	}
	done.Wait()
	for _, none := range []guide.Steps{{}, guide.StepsOf(nil), guide.StepsOf(new(folio.Plan))} {
		if _, ok := none.Draw(1, guide.Options{}); ok {
			t.Error("a step of no plan")
		}
	}
	if _, ok := steps.Draw(len(all)+1, guide.Options{}); ok {
		t.Error("a step beyond the last")
	}
	last := all[len(all)-1].Number
	alone := testing.AllocsPerRun(3, func() { guide.Step(p, last, guide.Options{}) })
	order := testing.AllocsPerRun(3, func() { _ = slices.Collect(p.Steps()) })
	if one := testing.AllocsPerRun(3, func() { steps.Draw(last, guide.Options{}) }); one > alone-order {
		t.Errorf("%.0f allocations a picture, %.0f with the order of work, which takes %.0f", one, alone, order)
	}
}
