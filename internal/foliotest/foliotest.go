// Package foliotest holds what the tests of several rooms build and ask of a folio.
package foliotest

import (
	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/makertest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// Weighed is a folio of which everything is known: boards of 1000 g/m², papers
// of 100 g/m² and no thickness to speak of, a card of 300 g/m².
func Weighed() folio.Spec {
	const mm, g = units.Millimetre, units.GramPerSquareMetre
	return folio.Spec{
		Cover: units.Size{W: 100 * mm, H: 150 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Board: stock.Stock{Caliper: 2 * mm, Grammage: 1000 * g}, Covering: stock.Stock{Caliper: mm / 10, Grammage: 100 * g},
		Liner: stock.Stock{Caliper: mm / 10, Grammage: 100 * g}, Lining: rule.Lining{Inset: 3 * mm},
		Margin: rule.Margin{Ideal: 15 * mm}, Stocks: []stock.Stock{{Name: "card 300", Caliper: mm / 3, Grammage: 300 * g}},
		Fittings: []folio.Fitting{
			{Name: "mat", Kind: folio.Mat{Picture: pocket.Content{Name: "card", Size: units.Size{W: 80 * mm, H: 120 * mm}, Thickness: mm / 2}, Reveal: 5 * mm}, Stock: "card 300"},
			{Name: "badge", Outside: true, Panel: boards.LeftCover, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: mm, Mass: 3 * units.Gram}},
		},
	}
}

// MakerStock is what a maker finds of a material of a plan.
func MakerStock(p *folio.Plan, name string) makertest.Stock {
	s, ok := p.Stock(name)
	out := makertest.Stock{Name: name, Caliper: s.Caliper, TwoSided: s.TwoSided || !ok, OneWay: s.OneWay}
	for _, sheet := range s.Sheets {
		grain := work.GrainEither
		switch sheet.Grain {
		case stock.GrainAlongHeight:
			grain = work.GrainAlongHeight
		case stock.GrainAlongWidth:
			grain = work.GrainAlongWidth
		}
		out.Sheets = append(out.Sheets, makertest.Sheet{Size: sheet.Size, Grain: grain})
	}
	return out
}
