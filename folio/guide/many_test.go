package guide_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"boardwrap.example/folio/closing"

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
			if len(svg) > 600_000 {
				t.Errorf("%s of the %s takes %d bytes", d.name, s.Fittings[0].Name, len(svg))
			}
		}
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
