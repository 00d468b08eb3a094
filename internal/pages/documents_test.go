package pages

import (
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/money"
)

// A document is one to be looked at, with a name for messages.
type document struct {
	name string
	*guide.Document
}

// evil is a name that would like to be something else.
const evil = "<script>alert(1)</script><!-- ]]> --></style></title><b onclick=x> &amp; &nosuch; \"' `c` *b* _i_ ~~s~~ [a](http://x.example) ![p](x.png) <http://y.example> | http://z.example www.w.example a@b.example # h\n## two\n- three\n1. four\n> five\n```\n~~~\n\t$x$\x00\u202e\ufffe"

// documents are hand-outs of small, usual and huge folios, on every paper, in
// inches, millimetres and both; templates, families and the papers of a batch.
func documents(t *testing.T) []document {
	t.Helper()
	crew := crewSpec()
	hostile := crewSpec()
	hostile.Title, hostile.Covering.Name = evil, evil+" paper"
	hostile.Fittings[0].Name = evil + " frame"
	hostile.Fittings[0].Kind = folio.Frame{Picture: pocket.Content{Name: evil, Size: units.MustParseSize("5 x 7 in")}}
	tiny := folio.Spec{Title: "Cox's notes", Cover: units.MustParseSize("2 x 3 in"), Spine: rule.Spine{Width: units.Inch / 4}, Board: stock.Stock{Caliper: units.Inch / 32}}
	huge := folio.Spec{Title: "The club's chart of the estuary", Cover: units.MustParseSize("900 x 1200 mm"), Spine: rule.Spine{Width: 40 * units.Millimetre}}
	huge.Rulers.Main = units.WholeMillimetres
	huge.Fittings = []folio.Fitting{{Name: "chart", Panel: boards.RightCover, Kind: folio.Mat{Picture: pocket.Content{Name: "chart", Size: units.MustParseSize("700 x 1000 mm")}}}}
	long := crewSpec()
	long.Title = strings.Repeat("Eastwaterrowingclub", 12)
	long.Fittings[0].Name = strings.Repeat("frame", 40)
	both := units.Format{Second: units.TenthMillimetres, Typographic: true}
	plan, large := build(t, crew), build(t, huge)
	pockets := crewSpec()
	pockets.Spine.Width, pockets.Fittings = 3*units.Inch/2, []folio.Fitting{
		{Name: "cards", Panel: boards.RightCover, Kind: folio.Folded{Kind: pocket.GussetRun{Content: pocket.IDCard(), Pockets: 3}}},
		{Name: "corners", Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.Corners{Content: pocket.Content{Name: "chart", Size: units.MustParseSize("4 x 6 in")}}}},
	}
	full := build(t, pockets)
	list := []document{
		{"crew", guide.HandOut(plan, guide.PrintOptions{Layout: laid(t, plan)})},
		{"crew on A4, both", guide.HandOut(plan, guide.PrintOptions{Paper: guide.A4, Format: both, Layout: laid(t, plan)})},
		{"crew on letter", guide.HandOut(plan, guide.PrintOptions{Paper: guide.Letter})},
		{"pockets on letter", guide.HandOut(full, guide.PrintOptions{Paper: guide.Letter})},
		{"hostile", guide.HandOut(build(t, hostile), guide.PrintOptions{Layout: laid(t, build(t, hostile)), Notes: []string{"- a", "+ b", "= c", "12. d", "3) e", "# f", "> g", "    h", evil}})},
		{"long names", guide.HandOut(build(t, long), guide.PrintOptions{Paper: guide.A4})},
		{"tiny on A4", guide.HandOut(build(t, tiny), guide.PrintOptions{Paper: guide.A4})},
		{"huge on letter", guide.HandOut(large, guide.PrintOptions{Paper: guide.Letter})},
		{"templates on A4", guide.Templates(full, guide.PrintOptions{Paper: guide.A4})},
		{"templates on letter", guide.Templates(large, guide.PrintOptions{Paper: guide.Letter})},
		{"nothing", guide.HandOut(nil, guide.PrintOptions{})},
	}
	family, err := fit.FamilyOf(t.Context(), crew, fit.ScaledCovers(crew.Cover, units.Eighths, 100, 80, 100, 120, 150, 400)...)
	if err != nil {
		t.Fatal(err)
	}
	list = append(list, document{"family on A4", guide.FamilySheet(family, guide.PrintOptions{Paper: guide.A4})})
	batch := laid(t, plan)
	usd, _ := money.CurrencyOf("USD")
	costs, err := cost.Of(batch, cost.Basis{Minutes: []int{30}, Rate: money.Amount{Minor: 900, Currency: usd}, Margin: 3000, RoundTo: 50})
	if err != nil {
		t.Fatal(err)
	}
	o := guide.PrintOptions{Paper: guide.Letter}
	return append(list, document{"batch on letter", guide.Bind("Regatta day", guide.ShoppingList(batch, o), guide.CuttingBook(batch, o), guide.PriceList(costs, o))})
}

func crewSpec() folio.Spec {
	sheet := func(size string) []stock.Sheet {
		return []stock.Sheet{{Size: units.MustParseSize(size), Grain: stock.GrainAlongHeight}}
	}
	return folio.Spec{
		Title:    "Eastwater Rowing Club, the women's eight",
		Cover:    units.MustParseSize("6 x 8 in"),
		Spine:    rule.Spine{Width: 5 * units.Inch / 8},
		Covering: stock.Stock{Name: "river paper", Sheets: sheet("18 x 24 in")},
		Liner:    stock.Stock{Name: "plain paper", Sheets: sheet("17 x 11 in")},
		Stocks:   []stock.Stock{{Name: "blue card", Caliper: 12 * units.Thou, TwoSided: true, Sheets: sheet("17 x 22 in")}},
		Fittings: []folio.Fitting{
			{Name: "frame", Panel: boards.RightCover, Stock: "blue card", Kind: folio.Frame{Picture: pocket.Content{Name: "photo 5 x 7 in", Size: units.MustParseSize("5 x 7 in")}}},
			{Name: "strip", Panel: boards.LeftCover, Stock: "blue card", Kind: folio.Folded{Kind: pocket.FoldedStrip{
				Content: pocket.IDCard().Turned(), Base: 23 * units.Inch / 4, Strip: units.MustParseSize("17 x 7 3/4 in")}}},
		},
	}
}

func build(t *testing.T, s folio.Spec) *folio.Plan {
	t.Helper()
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// laid lays a plan on its sheets; what has none is left out.
func laid(t *testing.T, p *folio.Plan) *layout.Layout {
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
