package main

import (
	"fmt"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// inches is the case of the crew's folio: as large as the frame of a 5 x 7 in
// print of the boat asks for, with a liner's inset round it.
func inches() folio.Spec {
	return folio.Spec{
		Title:    "Eastwater Rowing Club, the women's eight, spring to autumn",
		Cover:    units.MustParseSize("6 x 8 in"),
		Spine:    folio.Spine{Width: units.MustParse("5/8 in")},
		Board:    folio.Stock{Name: "greyboard", Caliper: units.MustParse("0.08 in")},
		Covering: folio.Stock{Name: "river paper", Sheets: sheets("18 x 24 in")},
		Liner:    folio.Stock{Name: "plain paper", Sheets: sheets("17 x 11 in")},
		Stocks: []folio.Stock{{
			Name: "blue card", Caliper: 12 * units.Thou, TwoSided: true, Sheets: sheets("17 x 22 in"),
		}},
		Fittings: []folio.Fitting{{
			Name: "badge", Panel: folio.LeftCover, Outside: true,
			Kind: folio.Ornament{Size: units.MustParseSize("1 1/4 x 1 1/4 in"), Thickness: units.Inch / 32},
		}},
	}
}

// millimetres is the same folio for a maker with a metric ruler.
func millimetres() folio.Spec {
	const mm = units.Millimetre
	s := inches()
	s.Rulers.Main = units.WholeMillimetres
	s.Cover = units.Size{W: 152 * mm, H: 204 * mm}
	s.Spine.Width = 16 * mm
	s.Board.Caliper = 2 * mm
	s.Covering.Caliper, s.Liner.Caliper = 160*units.Micrometre, 160*units.Micrometre
	s.Covering.Sheets = sheets("500 x 700 mm")
	s.Liner.Sheets = sheets("420 x 297 mm")
	s.Stocks[0].Caliper = 300 * units.Micrometre
	s.Stocks[0].Sheets = sheets("450 x 640 mm")
	s.Fittings[0].Kind = folio.Ornament{Size: units.Size{W: 32 * mm, H: 32 * mm}, Thickness: mm}
	return s
}

func sheets(size string) []folio.Sheet {
	return []folio.Sheet{{Size: units.MustParseSize(size)}}
}

// furnish gives a case its fittings, as large as its panels take them: on the
// left a folded strip with the club's card in its pocket and a print on its
// flap, on the right a framed print. What the covers are too small for is left
// out and named.
func furnish(s folio.Spec) (folio.Spec, []string, error) {
	bare, err := folio.Build(s)
	if err != nil {
		return s, nil, err
	}
	var left []string
	add := func(f folio.Fitting) {
		t := s
		t.Fittings = append(append([]folio.Fitting(nil), s.Fittings...), f)
		if _, err := folio.Build(t); err != nil {
			left = append(left, fmt.Sprintf("the %s: %v", f.Name, err))
			return
		}
		s = t
	}
	// A frame's rails show 3/8 in round a print besides what laps it.
	round := 3 * units.Inch / 8
	if bare.Notation() == units.MetricDecimal {
		round = 9 * units.Millimetre
	}
	panel, _ := bare.Panel(folio.LeftCover, false)
	room := panel.Size()
	add(folio.Fitting{
		Name: "strip", Panel: folio.LeftCover, Stock: "blue card",
		Kind: folio.Folded{Kind: pocket.FoldedStrip{
			Content: pocket.IDCard().Turned(), Base: room.W,
			Strip: units.Size{W: s.Stocks[0].Sheets[0].Size.W, H: room.H},
		}},
	})
	if print, ok := largestPrint(bare, folio.LeftCover, round/2); ok {
		add(folio.Fitting{Name: "mat", StandsOn: "strip", Kind: folio.Mat{Picture: print}})
	}
	if print, ok := largestPrint(bare, folio.RightCover, round); ok {
		add(folio.Fitting{Name: "frame", Panel: folio.RightCover, Stock: "blue card", Kind: folio.Frame{Picture: print}})
	}
	return s, left, nil
}

// largestPrint returns the largest usual print that a panel takes with so much
// round it.
func largestPrint(p *folio.Plan, r folio.Role, round units.Length) (pocket.Content, bool) {
	room := p.LargestPicture(r, round, 0)
	var best pocket.Content
	for u := range pocket.UsualContents() {
		c := u.Content
		if !strings.HasPrefix(c.Name, "photo") || metric(c) != (p.Notation() == units.MetricDecimal) {
			continue
		}
		if c.Size.FitsIn(room) && c.Size.Area().Compare(best.Size.Area()) > 0 {
			best = c
		}
	}
	return best, best != pocket.Content{}
}

func metric(c pocket.Content) bool { return strings.HasSuffix(c.Name, "mm") }
