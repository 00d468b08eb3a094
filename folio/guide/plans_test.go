package guide_test

import (
	"iter"
	"slices"
	"sync"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

const inch = units.Inch

// A sample is a plan that hand-outs and pictures are made of in tests.
type sample struct {
	name string
	plan *folio.Plan
	seen *shelf
}

// samples are ten plans of all forms, small to huge, of a rowing crew.
func samples() []sample { return slices.Clone(tenPlans()) }

var tenPlans = sync.OnceValue(func() []sample {
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
	soft := folio.Spec{Title: "Tide tables", Form: boards.SoftSpine, Cover: units.MustParseSize("110 x 150 mm"), Spine: rule.Spine{Contents: 8 * mm, Stiffener: "liner"}}
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
		{Name: "corners", Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.Corners{Content: pocket.Content{Name: "chart", Size: units.MustParseSize("5 x 7 in")}}}},
	}
	return []sample{
		sampleOf("crew", crew), sampleOf("crew-mm", metric), sampleOf("plain", plain), sampleOf("quarter", quarter), sampleOf("soft", soft),
		sampleOf("flap", flap), sampleOf("gate", gate), sampleOf("tiny", tiny), sampleOf("huge", huge), sampleOf("pockets", pockets),
	}
})

// sampleOf builds a folio that can be built.
func sampleOf(name string, s folio.Spec) sample {
	p, err := folio.Build(s)
	if err != nil {
		panic(name + ": " + err.Error())
	}
	return sample{name, p, &shelf{}}
}

// A shelf keeps what many tests look at, so that it is drawn and read once.
type shelf struct {
	drawings []drawing
	shown    map[shelved]*shown
	layout   *layout.Layout
	handOut  *guide.Document
}

// A shelved is the place of a drawing, and with which of the options it is drawn.
type shelved struct{ drawing, option int }

// A shown is a picture as it was read; it has no reading where there is none.
type shown struct {
	drawing
	option int
	pic    guide.Picture
	svg    []byte
	*reading
}

// An eye looks at a picture of a plan by its name, and says what is wrong where none
// is to be seen.
type eye func(name string) (*reading, string)

// looking is an eye for a plan that nobody else looks at.
func looking(p *folio.Plan, o guide.Options) eye {
	list := drawings(p)
	return func(name string) (*reading, string) {
		i := slices.IndexFunc(list, func(d drawing) bool { return d.name == name })
		if i < 0 {
			return nil, name + " is none of the drawings"
		}
		return readPicture(list[i].draw(o))
	}
}

// show draws and reads a picture, the first time.
func (s sample) show(i, option int) *shown {
	if s.seen.drawings == nil {
		s.seen.drawings, s.seen.shown = drawings(s.plan), map[shelved]*shown{}
	}
	at := shelved{i, option}
	if s.seen.shown[at] == nil {
		v := &shown{drawing: s.seen.drawings[i], option: option}
		if pic, ok := v.draw(options[option]); ok {
			v.pic, v.svg = pic, pic.AppendSVG(nil)
			r, err := read(v.svg)
			if err != nil {
				panic(s.name + ", " + v.name + ": " + err.Error())
			}
			v.reading = r
		}
		s.seen.shown[at] = v
	}
	return s.seen.shown[at]
}

// look is an eye for the pictures of a sample.
func (s sample) look(option int) eye {
	return func(name string) (*reading, string) {
		s.show(0, option)
		i := slices.IndexFunc(s.seen.drawings, func(d drawing) bool { return d.name == name })
		if i < 0 || s.show(i, option).reading == nil {
			return nil, "no picture"
		}
		return s.show(i, option).reading, ""
	}
}

// pictures walks the pictures that there are of a sample, drawn with one of the options.
func (s sample) pictures(option int) iter.Seq[*shown] {
	return func(yield func(*shown) bool) {
		s.show(0, option)
		for i := range s.seen.drawings {
			if v := s.show(i, option); v.reading != nil && !yield(v) {
				return
			}
		}
	}
}

// laid returns the plan laid on its sheets, once for all tests.
func (s sample) laid(t testing.TB) *layout.Layout {
	t.Helper()
	if s.seen.layout == nil {
		s.seen.layout = laid(t, s.plan)
	}
	return s.seen.layout
}

// handOut returns the hand-out of a sample with its layout, made once for all tests.
func (s sample) handOut(t testing.TB) *guide.Document {
	t.Helper()
	if s.seen.handOut == nil {
		s.seen.handOut = guide.HandOut(s.plan, guide.PrintOptions{Layout: s.laid(t)})
	}
	return s.seen.handOut
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
