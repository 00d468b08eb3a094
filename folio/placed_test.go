package folio_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// placedPlans are plans of every form, in quarter style too, with what is fitted on each
// side and with what stands on something else.
func placedPlans(t *testing.T) (all []*folio.Plan) {
	for form := boards.SpineBoard; form <= boards.OwnRow; form++ {
		for _, quarter := range []bool{false, true} {
			s := orderedIn(form)
			s.Cover = units.Size{W: 153 * mm, H: 207 * mm}
			if quarter {
				s.SpineCovering = stock.Stock{Name: "cloth", Caliper: mm / 3}
			}
			badge := folio.Ornament{Size: units.Size{W: 31 * mm, H: 23 * mm}, Thickness: mm / 5}
			if s.Stocks = []stock.Stock{{Name: "manila", Caliper: mm / 4}}; form == boards.SoftSpine {
				s.Spine.Stiffener = "manila"
			}
			s.Fittings = []folio.Fitting{
				{Name: "mat", Kind: folio.Mat{Size: units.Size{W: 67 * mm, H: 81 * mm}}, Place: place.Place{Across: place.Right, Along: place.Tail, Offset: units.Point{X: 7 * mm, Y: 9 * mm}}},
				{Name: "badge", Kind: badge, Outside: true, Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: 11 * mm, Y: 13 * mm}}},
				{Name: "on it", Kind: badge, StandsOn: "mat"},
			}
			if p, err := folio.Build(s); err == nil {
				all = append(all, p)
			} else if !quarter {
				t.Errorf("%v: %v", form, err)
			}
		}
	}
	return all
}

// Whatever lies on the row lies at the boards that are told, from the leftmost to the
// rightmost: it reaches beyond them by no more than is turned in.
func TestPlacedLieAtTheirBoards(t *testing.T) {
	between := 0
	for _, p := range placedPlans(t) {
		rects := []units.Rect{}
		for b := range p.Boards() {
			rects = append(rects, b.Rect())
		}
		for q := range p.Placed() {
			first, last := q.Boards()
			if first < 0 || first > last || last >= len(rects) {
				t.Errorf("%v: %v lies at boards %d to %d", p.Spec().Form, q.Rect(), first, last)
				continue
			}
			const turned = 40 * mm
			if r := q.Rect(); r.Min.X < rects[first].Min.X-turned || r.Max.X > rects[last].Max.X+turned || r.Max.X <= rects[first].Min.X || r.Min.X >= rects[last].Max.X {
				t.Errorf("%v: %v lies at boards %d to %d, %v to %v", p.Spec().Form, r, first, last, rects[first], rects[last])
			}
			if r := q.Rect(); first < last && !r.Overlaps(rects[first]) && !r.Overlaps(rects[last]) {
				between++ // the stiffener of a soft spine
			}
		}
	}
	if between == 0 {
		t.Error("nothing lies between boards")
	}
}

// What is laid on the row, or on a board of it, lies where it is told to from the edges of
// its base, before and after it was measured: at the outside, too, where left stays left.
func TestBasesAreWhereThingsAreMeasuredFrom(t *testing.T) {
	tried := map[work.BaseKind]int{}
	for _, planned := range placedPlans(t) {
		made, err := planned.Refit(refit.Measured{Width: planned.OpenWidth().Length() + mm, Height: planned.OpenHeight().Length() + mm/2})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range []*folio.Plan{planned, made} {
			for s := range p.Steps() {
				for _, a := range s.Do {
					mark, ok := a.(work.Lay)
					if !ok || mark.What.Kind != work.Piece {
						continue
					}
					area, ok := p.Base(mark.On)
					if !ok {
						continue
					}
					at := mark.At.Rect(mark.Size, area.Size()).Moved(area.Min)
					placed := slices.Collect(p.Placed())
					if !slices.ContainsFunc(placed, func(q folio.Placed) bool {
						i, n := q.Piece()
						return i == mark.What.Index && n == max(mark.What.Copy, 0) && q.Rect() == at
					}) {
						t.Errorf("%v: %s is laid at %v", p.Spec().Form, mark.What.Name, at)
					}
					tried[mark.On.Kind]++
				}
			}
			for _, none := range []work.Base{{Kind: work.OnPiece}, {Kind: work.OnBoard, Index: -1}, {Kind: work.OnBoard, Index: 99}, {Kind: work.Under}, {Kind: work.OnBought}} {
				if area, ok := p.Base(none); ok || area != (units.Rect{}) {
					t.Errorf("%+v is no part of a row, and is at %v", none, area)
				}
			}
		}
	}
	if tried[work.OnRow] == 0 || tried[work.OnBoard] == 0 {
		t.Errorf("tried: %v", tried)
	}
	if _, ok := new(folio.Plan).Base(work.Base{Kind: work.OnRow}); ok {
		t.Error("the zero plan has a row")
	}
}

// A mat of which a side by relation leaves nothing, however narrow its reveal is, is refused by what
// is taken off that side.
func TestNothingIsLeftOfASide(t *testing.T) {
	for _, tall := range []bool{false, true} {
		s := plainCase()
		panel, _ := mustBuild(t, s).Panel(boards.MainPanel, false)
		f := folio.Fitting{Kind: folio.Mat{Reveal: 3 * mm, Picture: pocket.Content{Name: "print", Thickness: mm / 4}}}
		path, code := "fittings[0].size.w.less", folio.TooWide
		if f.Size = (place.Sizing{W: place.Relation{Of: place.OfPanel, Less: panel.Size().W - mm}, H: place.By(place.OfPanel)}); tall {
			f.Size = place.Sizing{W: place.By(place.OfPanel), H: place.Relation{Of: place.OfPanel, Less: panel.Size().H - mm}}
			path, code = "fittings[0].size.h.less", folio.TooTall
		}
		s.Fittings = []folio.Fitting{f}
		_, err := folio.Build(s)
		bad, _ := errors.AsType[*check.Error](err)
		if v := slices.Collect(bad.All()); len(v) != 1 || !strings.HasPrefix(v[0].Path, path) || v[0].Code != code {
			t.Errorf("tall %v: %v", tall, err)
		}
	}
}

// A cover that came out too narrow is told by what lies between its covers where that can
// be lower or left out, however low it is beside the turn-ins that it lies on: what is told
// is no more than there is, and doing it makes the folio close where it does without.
func TestAsMadeTheFittingIsToBlame(t *testing.T) {
	built := func(thick ...units.Length) *folio.Plan {
		s := plainCase()
		s.Spine, s.Covering.Caliper = rule.Spine{Width: 5 * mm}, 9*mm/10
		for i, h := range thick {
			f := folio.Fitting{Name: "badge", Panel: boards.RightCover, Kind: folio.Ornament{Size: units.Size{W: 40 * mm, H: 40 * mm}, Thickness: h}, Place: place.Place{Across: place.Right, Along: place.Head}}
			if i > 0 {
				f = folio.Fitting{Name: "ribbon", StandsOn: "badge", Kind: f.Kind}
			}
			s.Fittings = append(s.Fittings, f)
		}
		return mustBuild(t, s)
	}
	closes := func(p *folio.Plan) bool {
		for w := range p.Warnings() {
			if w.Code == folio.NotClosing {
				return false
			}
		}
		return true
	}
	ways := map[string]int{}
	bare := built()
	for _, thick := range [][]units.Length{{mm / 2}, {3 * mm / 2}, {mm / 2, mm / 2}} {
		low := built(thick...)
		for less := units.Length(0); less < 9*mm; less += mm / 10 {
			m := refit.Measured{Width: bare.OpenWidth().Length() + mm - less, Height: bare.OpenHeight().Length()}
			without, err := bare.Refit(m)
			if err != nil {
				break // too far off
			}
			with, err := low.Refit(m)
			if err == nil {
				if closes(without) && !closes(with) {
					t.Errorf("%v, %v less: with it that it does not close is only warned about", thick, less)
				}
				continue
			}
			bad, ok := errors.AsType[*check.Error](err)
			v := slices.Collect(bad.All())
			if !ok || len(v) != 1 || v[0].Code != folio.NotClosing || !strings.HasPrefix(v[0].Path, "fittings[") {
				t.Errorf("%v, %v less: %v", thick, less, err)
				continue
			}
			switch want := strings.TrimSuffix(v[0].Want, ", with hinges creased further out"); {
			case want == "nothing there", strings.HasSuffix(want, "in all, or none"):
				ways[want[len(want)-5:]]++
			default:
				text, _, _ := strings.Cut(strings.TrimPrefix(want, "something there that is lower by "), " than ")
				lower, err := units.Parse(text)
				if err != nil {
					t.Fatalf("%q: %v", want, err)
				}
				ways["lower"]++
				i := len(thick) - 1
				again := slices.Clone(thick)
				if again[i] -= lower; again[i] <= 0 {
					t.Errorf("%v, %v less: %s", thick, less, want)
				} else if q, err := built(again...).Refit(m); err != nil || !closes(q) {
					t.Errorf("%v, %v less: with %v: %v", thick, less, again, err)
				}
			}
		}
	}
	if len(ways) < 3 {
		t.Errorf("what would do: %v", ways)
	}
}
