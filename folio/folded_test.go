package folio_test

import (
	"errors"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Every kind of package pocket can be placed as a fitting: its pieces, its
// workings and its steps come with the plan, and its footprint lies on the
// panel.
func TestEveryKindIsPlaced(t *testing.T) {
	card := pocket.Content{Name: "card", Size: units.Size{W: 80 * mm, H: 50 * mm}, Thickness: mm / 2}
	kinds := []pocket.Kind{
		pocket.Slip{Content: card}, pocket.Corners{Content: card}, pocket.Flap{Content: card},
		pocket.FoldedStrip{Content: card}, pocket.Gusset{Content: card}, pocket.GussetRun{Content: card},
		pocket.FoldedAccordion{Content: card}, pocket.Concertina{Content: card}, pocket.Pleat{Content: card},
	}
	n := 0
	for range pocket.Kinds() {
		n++
	}
	if n != len(kinds) {
		t.Fatalf("%d kinds here, %d in package pocket", len(kinds), n)
	}
	for _, k := range kinds {
		spec := folio.Spec{
			Cover: units.Size{W: 260 * mm, H: 260 * mm}, Spine: rule.Spine{Width: 80 * mm},
			Rulers:   rule.Rulers{Main: units.WholeMillimetres},
			Fittings: []folio.Fitting{{Name: "holder", Kind: folio.Folded{Kind: k}}},
		}
		p, err := folio.Build(spec)
		if err != nil {
			t.Errorf("%s: %v", k.Name(), err)
			continue
		}
		pieces, steps := 0, 0
		for pc := range p.Pieces() {
			if pc.Part() == "holder" {
				pieces++
			}
		}
		for s := range p.Steps() {
			if s.For.Name == "holder" {
				steps++
			}
		}
		area, _ := p.Panel(boards.RightCover, false)
		for f := range p.Fittings() {
			if !f.Rect().In(area) || f.Rect().Empty() || f.Height(false) <= 0 {
				t.Errorf("%s lies at %v on %v, %v high", k.Name(), f.Rect(), area, f.Height(false))
			}
		}
		if pieces == 0 || steps < 3 {
			t.Errorf("%s: %d pieces, %d steps", k.Name(), pieces, steps)
		}
		for f := range p.Fittings() {
			all := f.Rect().Size()
			for _, by := range [...]units.Length{mm, 30 * mm, min(all.W, all.H) - mm} { // by more than the content is large, too
				refusedOn(t, spec, all, by)
			}
		}
	}
}

// refusedOn tries a fitting on a plate that is too narrow or too low for it by a length: it
// is told how large it is in all, or how much smaller a field of it would have to be.
func refusedOn(t *testing.T, s folio.Spec, footprint units.Size, by units.Length) {
	t.Helper()
	on := func(plate units.Size) folio.Spec {
		s := s
		s.Fittings = []folio.Fitting{{Name: "plate", Kind: folio.Ornament{Size: plate, Thickness: mm}}, s.Fittings[0]}
		s.Fittings[1].StandsOn = "plate"
		return s
	}
	wide, low := on(footprint.Plus(-by, 0)), on(footprint.Plus(0, -by))
	for code, c := range map[check.Code]struct {
		spec folio.Spec
		all  units.Length
	}{folio.TooWide: {wide, footprint.W}, folio.TooTall: {low, footprint.H}} {
		n := units.MetricDecimal
		var bad *check.Error
		errors.As(builds(c.spec), &bad)
		if bad.Len() != 1 {
			t.Fatalf("%v: %v", c.spec.Fittings[1].Kind, bad)
		}
		for v := range bad.All() {
			told := v.Got == n.Text(c.all)+" in all" && strings.Contains(v.Want, n.Text(c.all-by)+" ")
			if v.Code != code || v.Bound == check.NoBound && !told || v.Bound != check.NoBound && v.By != by {
				t.Errorf("%v, of which %v are to go on %v: %v", c.spec.Fittings[1].Kind, c.all, c.all-by, v)
			}
		}
	}
}

// A concertina guard stands on the spine board, and a pocket that is none is one
// violation.
func TestFoldedOnTheSpine(t *testing.T) {
	s := folio.Spec{Cover: units.MustParseSize("120 x 170 mm")}
	s.Spine.Width, s.Rulers.Main = 25*units.Millimetre, units.WholeMillimetres
	s.Fittings = []folio.Fitting{{Panel: boards.Spine1, Kind: folio.Folded{Kind: pocket.Concertina{Content: pocket.IDCard(), Leaves: 4, OnSpine: true}}}}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	for f := range p.Fittings() {
		if f.Rect().Size().W > 25*units.Millimetre {
			t.Errorf("it takes %v of the spine", f.Rect())
		}
	}
	type embeds struct{ pocket.Slip }
	for _, k := range []pocket.Kind{(*pocket.Slip)(nil), embeds{}, &embeds{}} {
		s.Fittings = []folio.Fitting{{Kind: folio.Folded{Kind: k}}}
		var list *check.Error
		if _, err := folio.Build(s); !errors.As(err, &list) || list.Len() != 1 {
			t.Errorf("%v; want one violation", err)
		}
	}
}
