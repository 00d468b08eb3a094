package folio_test

import (
	"errors"
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
		pocket.Slip{Content: card}, pocket.Corner{Content: card}, pocket.Flap{Content: card},
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
		p, err := folio.Build(folio.Spec{
			Cover: units.Size{W: 260 * mm, H: 260 * mm}, Spine: rule.Spine{Width: 80 * mm},
			Rulers:   rule.Rulers{Main: units.WholeMillimetres},
			Fittings: []folio.Fitting{{Name: "holder", Kind: folio.Folded{Kind: k}}},
		})
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
