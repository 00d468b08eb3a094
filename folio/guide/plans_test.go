package guide_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

const inch = units.Inch

// A sample is a plan that hand-outs are made of in tests.
type sample struct {
	name string
	plan *folio.Plan
}

// samples are ten plans of all forms, small to huge, of a rowing crew.
func samples(t testing.TB) []sample {
	t.Helper()
	crew := crewSpec()
	metric := crewSpec()
	metric.Rulers.Main = units.WholeMillimetres
	metric.Cover, metric.Spine.Width = units.MustParseSize("152 x 204 mm"), 16*mm
	metric.Covering.Sheets = []stock.Sheet{{Size: units.MustParseSize("500 x 700 mm"), Grain: stock.GrainAlongHeight}}
	metric.Liner.Sheets, metric.Stocks[0].Sheets = nil, nil
	metric.Fittings = metric.Fittings[:1]
	plain := folio.Spec{Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: 5 * inch / 8}}
	quarter := plain
	quarter.Title, quarter.Quarter.Rule, quarter.Lining.Rule = "Log of the lifeboat", rule.QuarterAlways, rule.LiningPanels
	quarter.SpineCovering = stock.Stock{Name: "book cloth", Caliper: 12 * units.Thou}
	soft := folio.Spec{Title: "Tide tables", Form: boards.SoftSpine, Cover: units.MustParseSize("110 x 150 mm"), Spine: rule.Spine{Contents: 3 * mm}}
	soft.Rulers.Main = units.HalfMillimetres
	flap := plain
	flap.Title, flap.Form, flap.Magnets = "Race cards", boards.ForeEdgeFlap, closing.Magnets{Diameter: 3 * inch / 8, Thickness: inch / 32}
	flap.Board.Caliper = inch / 16
	gate := folio.Spec{Title: "The boathouse, before and after", Form: boards.DoubleSpineGate, Cover: units.MustParseSize("10 x 8 in"), Spine: rule.Spine{Width: inch / 2}}
	gate.Fittings = []folio.Fitting{{Name: "plan of the house", Kind: folio.Mat{Picture: pocket.Content{Name: "plan", Size: units.MustParseSize("7 x 5 in")}}}}
	tiny := folio.Spec{Title: "Cox's notes", Cover: units.MustParseSize("2 x 3 in"), Spine: rule.Spine{Width: inch / 4}, Board: stock.Stock{Caliper: inch / 32}}
	huge := folio.Spec{Title: "The club's chart of the estuary", Cover: units.MustParseSize("900 x 1200 mm"), Spine: rule.Spine{Width: 40 * mm}, Board: stock.Stock{Name: "greyboard", Caliper: 3 * mm}}
	huge.Rulers.Main = units.WholeMillimetres
	pockets := folio.Spec{Title: "Cards of twelve crews", Cover: units.MustParseSize("8 x 10 in"), Spine: rule.Spine{Width: 3 * inch / 2}}
	pockets.Fittings = []folio.Fitting{
		{Name: "crew cards", Panel: boards.RightCover, Kind: folio.Folded{Kind: pocket.GussetRun{Content: pocket.IDCard(), Pockets: 3}}},
		{Name: "corners", Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.Corner{Content: pocket.Content{Name: "chart", Size: units.MustParseSize("5 x 7 in")}}}},
	}
	list := []sample{
		{"crew", build(t, crew)}, {"crew-mm", build(t, metric)}, {"plain", build(t, plain)}, {"quarter", build(t, quarter)},
		{"soft", build(t, soft)}, {"flap", build(t, flap)}, {"gate", build(t, gate)}, {"tiny", build(t, tiny)}, {"huge", build(t, huge)},
		{"pockets", build(t, pockets)},
	}
	return list
}

// crewSpec is the folio of a crew: a card in a folded strip, a framed print.
func crewSpec() folio.Spec {
	return folio.Spec{
		Title:    "Eastwater Rowing Club, the women's eight",
		Cover:    units.MustParseSize("6 x 8 in"),
		Spine:    rule.Spine{Width: 5 * inch / 8},
		Board:    stock.Stock{Name: "greyboard", Caliper: 80 * units.Thou},
		Covering: stock.Stock{Name: "river paper", Sheets: []stock.Sheet{{Size: units.MustParseSize("18 x 24 in"), Grain: stock.GrainAlongHeight}}},
		Liner:    stock.Stock{Name: "plain paper", Sheets: []stock.Sheet{{Size: units.MustParseSize("17 x 11 in"), Grain: stock.GrainAlongHeight}}},
		Stocks:   []stock.Stock{{Name: "blue card", Caliper: 12 * units.Thou, TwoSided: true, Sheets: []stock.Sheet{{Size: units.MustParseSize("17 x 22 in"), Grain: stock.GrainAlongHeight}}}},
		Fittings: []folio.Fitting{
			{Name: "badge", Panel: boards.LeftCover, Outside: true, Kind: folio.Ornament{Size: units.MustParseSize("1 1/4 x 1 1/4 in"), Thickness: inch / 32}},
			{Name: "strip", Panel: boards.LeftCover, Stock: "blue card", Kind: folio.Folded{Kind: pocket.FoldedStrip{
				Content: pocket.IDCard().Turned(), Base: 23 * inch / 4, Strip: units.MustParseSize("17 x 7 3/4 in")}}},
			{Name: "frame", Panel: boards.RightCover, Stock: "blue card", Kind: folio.Frame{Picture: pocket.Content{Name: "photo 5 x 7 in", Size: units.MustParseSize("5 x 7 in"), Thickness: 260 * units.Micrometre}, Mouth: score.Head}},
		},
	}
}

// laid lays a plan on its sheets; what has none is left out.
func laid(t testing.TB, p *folio.Plan) *layout.Layout {
	t.Helper()
	job := layout.Job{Folios: []layout.Folio{{Plan: p, Copies: 1}}}
	for _, m := range layout.MaterialsOf(p) {
		if len(m.Sheets) > 0 {
			job.Materials = append(job.Materials, m)
		} else {
			job.Except = append(job.Except, m.Name)
		}
	}
	l, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 200_000})
	if err != nil {
		t.Fatal(err)
	}
	return l
}
