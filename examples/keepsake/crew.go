package main

import (
	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// inches is the case of the crew's folio: as large as the frame of a 5 x 7 in
// print of the boat asks for, with a liner's inset round it.
func inches() folio.Spec {
	return folio.Spec{
		Title:    "Eastwater Rowing Club, the women's eight, spring to autumn",
		Cover:    units.MustParseSize("6 x 8 in"),
		Spine:    rule.Spine{Width: units.MustParse("5/8 in")},
		Board:    stock.Stock{Name: "greyboard", Caliper: units.MustParse("0.08 in")},
		Covering: stock.Stock{Name: "river paper", Sheets: sheets("18 x 24 in")},
		Liner:    stock.Stock{Name: "plain paper", Sheets: sheets("17 x 11 in")},
		Stocks: []stock.Stock{{
			Name: "blue card", Caliper: 12 * units.Thou, TwoSided: true, Sheets: sheets("17 x 22 in"),
		}},
		Fittings: []folio.Fitting{{
			Name: "badge", Panel: boards.LeftCover, Outside: true,
			Kind: folio.Ornament{Size: units.MustParseSize("1 1/4 x 1 1/4 in"), Thickness: units.Inch / 32},
		}},
	}
}

// furnish gives the case its fittings: on the left a folded strip with the club's
// card in its pocket and a print on its flap, on the right a framed print of the
// boat. They are as large as their panels take them, so that one design serves
// every cover.
func furnish(s folio.Spec) folio.Spec {
	margin := units.Inch / 8 // of the flap round the mat
	if s.Rulers.Main == units.WholeMillimetres {
		margin = 3 * units.Millimetre
	}
	s.Fittings = append(s.Fittings, folio.Fitting{
		Name: "strip", Panel: boards.LeftCover, Stock: "blue card", Size: place.Filling(place.OfPanel, 0),
		Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pocket.IDCard().Turned()}},
	}, folio.Fitting{
		Name: "mat", StandsOn: "strip", Size: largestPrint(place.OfGround, margin), Kind: folio.Mat{},
	}, folio.Fitting{
		Name: "frame", Panel: boards.RightCover, Stock: "blue card", Size: largestPrint(place.OfPanel, 0), Kind: folio.Frame{},
	})
	return s
}

// largestPrint sizes what holds the largest print that can be had, with a margin
// round it on what it is measured by.
func largestPrint(m place.Yardstick, margin units.Length) place.Sizing {
	s := place.Filling(m, margin)
	s.Picture = place.PictureUsual
	return s
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

func sheets(size string) []stock.Sheet {
	return []stock.Sheet{{Size: units.MustParseSize(size)}}
}
