package fit_test

import (
	"context"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// beside is a folio with a bar near the fold, and with a badge a millimetre beside it
// when it is shut.
func beside(badge units.Length) folio.Spec {
	block := func(name string, on boards.Role, side place.Align, from, thick units.Length) folio.Fitting {
		return folio.Fitting{Name: name, Panel: on, Kind: folio.Ornament{Size: units.Size{W: 8 * mm, H: 20 * mm}, Thickness: thick},
			Place: place.Place{Along: place.Head, Across: side, Offset: units.Point{X: from, Y: 10 * mm}}}
	}
	return folio.Spec{
		Cover: units.Size{W: 120 * mm, H: 150 * mm}, Spine: rule.Spine{Width: 20 * mm}, Hinge: rule.Hinge{Rule: rule.HingeLeast},
		Board: stock.Stock{Caliper: 2 * mm}, Liner: stock.Stock{Caliper: mm / 10}, Covering: stock.Stock{Caliper: mm / 5},
		Rulers: rule.Rulers{Main: units.WholeMillimetres}, Closing: closing.Allowance{Ease: units.None}, Lining: rule.Lining{Inset: mm}, Clearance: units.Micrometre, Margin: rule.Margin{Ideal: 25 * mm},
		Fittings: []folio.Fitting{block("bar", boards.LeftCover, place.Right, 2*mm, 9*mm), block("badge", boards.RightCover, place.Left, 11*mm, badge)},
	}
}

// touches reports whether a plan warns that something touches in passing.
func touches(p *folio.Plan) bool {
	for w := range p.Warnings() {
		if w.Code == folio.WarnPassing {
			return true
		}
	}
	return false
}

// Two blocks a millimetre apart, together thicker than the room, cannot
// pass each other: the corner of the one comes further on its circle about the crease
// than that. The smallest folio with them says so in its warnings, and so does the
// largest; with one of them much thinner they say nothing.
func TestSearchesTellWhatTouchesInPassing(t *testing.T) {
	for thick, want := range map[units.Length]bool{8 * mm: true, 2 * mm: false} {
		s := beside(thick)
		least, err := fit.Smallest(context.Background(), s, fit.Budget{})
		if err != nil {
			t.Fatal(err)
		}
		if got := touches(least.Plan()); got != want {
			t.Errorf("%v thick, the smallest: warned %v", thick, got)
		}
		s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: 320 * mm, H: 230 * mm}}}
		most, err := fit.Largest(context.Background(), s, units.Size{W: 4 * mm, H: 5 * mm})
		if err != nil {
			t.Fatal(err)
		}
		if got := touches(most.Plan()); got != want {
			t.Errorf("%v thick, the largest: warned %v", thick, got)
		}
	}
}

// Where a content that does not go over the bar comes to lie beside it, the plan
// with it there says that it touches the bar on the way; one that is thin lies where it
// does not. The plan is one more mat, on that panel, and around what lies there; as
// measured it is still.
func TestBerthsTellWhatTouchesInPassing(t *testing.T) {
	s := beside(mm)
	s.Fittings, s.Spine.Width = s.Fittings[:1], 40*mm
	s.Fittings[0].Kind = folio.Ornament{Size: units.Size{W: 8 * mm, H: 20 * mm}, Thickness: 24 * mm}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	width, height := p.AsMade()
	as := refit.Measured{Width: width.Length(), Height: height.Length()}
	measured, err := p.Refit(as)
	if err != nil {
		t.Fatal(err)
	}
	for thick, want := range map[units.Length]bool{15 * mm: true, mm: false} {
		c := pocket.Content{Name: "medal", Size: units.Size{W: 16 * mm, H: 20 * mm}, Thickness: thick}
		for _, p := range []*folio.Plan{p, measured} {
			survey := fit.Of(p)
			var on fit.Berth
			for w := range survey.Where(context.Background(), fit.Budget{}, c) {
				if w.Room().Panel() == boards.RightCover {
					on = w
				}
			}
			with, err := survey.With(on)
			if err != nil {
				t.Fatal(err)
			}
			if got := touches(with); got != want {
				t.Errorf("%v thick, at %v: warned %v", thick, on.Rect(), got)
			}
			for f := range with.Fittings() {
				if f.Index() == 1 && (f.Panel() != boards.RightCover || !on.Rect().In(f.Rect())) {
					t.Errorf("the mat lies on the %v at %v, round what lies at %v", f.Panel(), f.Rect(), on.Rect())
				}
			}
			was, _ := p.Measured()
			if is, _ := with.Measured(); !cmp.Equal(was, is) {
				t.Errorf("measured %v, with a mat %v", was, is)
			}
			all, err := survey.All(context.Background(), fit.Budget{}, c, c)
			if err != nil {
				t.Fatal(err)
			}
			if with, err = survey.With(all...); err != nil || touches(with) != want {
				t.Errorf("%v thick, one on each cover: %v", thick, err)
			}
			if _, err := survey.With(on, on); err == nil {
				t.Error("the same place was taken twice")
			}
		}
	}
}
