package folio_test

import (
	"boardwrap.example/internal/proptest"
	"math/rand/v2"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

func materialsSpec() folio.Spec {
	return folio.Spec{Cover: units.Size{W: 200 * mm, H: 260 * mm}, Spine: rule.Spine{Width: 25 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}}
}

// Hands know a material by its name alone: what the Spec calls card is the card, and
// no name stands for two thicknesses, whatever the names of the stocks are.
func TestOneNameOneMaterial(t *testing.T) {
	mat, pic := folio.Mat{Size: units.Size{W: 60 * mm, H: 80 * mm}}, content(units.Size{W: 60 * mm, H: 80 * mm})
	strip := func(caliper units.Length) folio.Kind {
		return folio.Folded{Kind: pocket.FoldedStrip{Strip: units.Size{W: 200 * mm, H: 90 * mm}, Mat: pocket.Mat{Size: units.Size{W: 50 * mm, H: 60 * mm}, Caliper: caliper}}}
	}
	frame := func(foam units.Length) folio.Kind { return folio.Frame{Picture: pic, Foam: foam} }
	named := func(name string, caliper units.Length) stock.Stock { return stock.Stock{Name: name, Caliper: caliper} }
	for name, c := range map[string]struct {
		change func(*folio.Spec)
		kinds  []folio.Kind
		want   map[string]units.Length // materials of fittings
	}{
		"none said":         {func(*folio.Spec) {}, []folio.Kind{mat}, map[string]units.Length{"card": 23 * mm / 100}},
		"a card of its own": {func(s *folio.Spec) { s.Stocks = []stock.Stock{named("card", 2*mm)} }, []folio.Kind{mat}, map[string]units.Length{"card": 2 * mm}},
		"a liner of card":   {func(s *folio.Spec) { s.Liner = named("card", mm/2) }, []folio.Kind{mat}, map[string]units.Length{"card": mm / 2}},
		"foams":             {func(*folio.Spec) {}, []folio.Kind{frame(2 * mm), frame(3 * mm)}, map[string]units.Length{"card": 23 * mm / 100, "foam": 2 * mm, "foam 3 mm thick": 3 * mm}},
		"the Spec's foam": {func(s *folio.Spec) { s.Stocks = []stock.Stock{named("foam", 2*mm)} }, []folio.Kind{frame(0), frame(3 * mm)},
			map[string]units.Length{"card": 23 * mm / 100, "foam": 2 * mm, "foam 3 mm thick": 3 * mm}},
		"another foam": {func(s *folio.Spec) { s.Stocks = []stock.Stock{named("foam", 5*mm), named("foam 3 mm thick", 4*mm)} }, []folio.Kind{frame(0), frame(3 * mm)},
			map[string]units.Length{"card": 23 * mm / 100, "foam 2 mm thick": 2 * mm, "foam 3 mm thick, of its own": 3 * mm}},
		"mats": {func(*folio.Spec) {}, []folio.Kind{strip(mm), strip(2 * mm), strip(0)},
			map[string]units.Length{"card": 23 * mm / 100, "mat 1 mm thick": mm, "mat 2 mm thick": 2 * mm}},
		"mats by chance called so": {func(s *folio.Spec) {
			s.Stocks = []stock.Stock{named("mat 1 mm thick", 3*mm), named("mat 2 mm thick", 2*mm)}
		}, []folio.Kind{strip(mm), strip(2 * mm)},
			map[string]units.Length{"card": 23 * mm / 100, "mat 1 mm thick, of its own": mm, "mat 2 mm thick": 2 * mm}},
		// Nanometres that no text shows are two materials too.
		"alike in a text": {func(s *folio.Spec) { s.Rulers.Main = units.Sixteenths }, []folio.Kind{strip(mm / 3), strip(mm/3 + 1)},
			map[string]units.Length{"card": 91 * units.Inch / 10000, "mat ~0.0131 in thick": mm / 3, "mat ~0.0131 in thick, of its own": mm/3 + 1}},
	} {
		s := materialsSpec()
		c.change(&s)
		for i, k := range c.kinds { // each has a board's side to itself
			f := folio.Fitting{Kind: k, Outside: i == 2}
			if i == 1 {
				f.Panel = boards.LeftCover
			}
			s.Fittings = append(s.Fittings, f)
		}
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(name, err)
		}
		got := map[string]units.Length{}
		for piece := range p.Pieces() {
			if known, ok := p.Stock(piece.Stock()); ok && known.Caliper != piece.Caliper() {
				t.Errorf("%s: %s of %s %v thick, which is %v", name, piece.Name(), piece.Stock(), piece.Caliper(), known.Caliper)
			}
			if _, of := piece.Fitting(); of {
				if was, seen := got[piece.Stock()]; seen && was != piece.Caliper() {
					t.Errorf("%s: %s is %v thick and %v", name, piece.Stock(), was, piece.Caliper())
				}
				got[piece.Stock()] = piece.Caliper()
			}
		}
		if len(got) != len(c.want) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
		for m, caliper := range c.want {
			if got[m] != caliper {
				t.Errorf("%s: %v, want %s %v thick", name, got, m, caliper)
			}
		}
	}
}

// Materials of one name are alike in all that is said of them, or refused; in which
// order their sheets are told does not matter.
func TestSheetsOfOneName(t *testing.T) {
	a, b := stock.Sheet{Size: units.Size{W: 500 * mm, H: 700 * mm}}, stock.Sheet{Size: units.Size{W: 640 * mm, H: 900 * mm}}
	paper := func(sheets ...stock.Sheet) stock.Stock {
		return stock.Stock{Name: "marbled", Caliper: mm / 10, Sheets: sheets}
	}
	for name, c := range map[string]struct {
		covering, liner []stock.Sheet
		further         []stock.Sheet
		paths           []string
	}{
		"alike":             {[]stock.Sheet{a, b}, []stock.Sheet{b, a, b}, []stock.Sheet{a, b}, nil},
		"others":            {[]stock.Sheet{a, b}, []stock.Sheet{a}, []stock.Sheet{a, b}, []string{"liner.name", "stocks[0].name"}},
		"any and some":      {nil, nil, []stock.Sheet{a}, []string{"stocks[0].name", "stocks[0].name"}},
		"some and one more": {[]stock.Sheet{a}, []stock.Sheet{a}, []stock.Sheet{a, b}, []string{"stocks[0].name", "stocks[0].name"}},
	} {
		s := materialsSpec()
		s.Covering, s.Liner, s.Stocks = paper(c.covering...), paper(c.liner...), []stock.Stock{paper(c.further...)}
		_, err := folio.Build(s)
		var paths []string
		if bad, ok := err.(*check.Error); ok {
			for v := range bad.All() {
				if v.Code == check.Conflict && v.Want == "a name of its own" {
					paths = append(paths, v.Path)
				}
			}
		}
		if !slices.Equal(paths, c.paths) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A name that is said three times is refused where it is said again, each time once.
func TestNameSaidAgain(t *testing.T) {
	s := materialsSpec()
	for range 3 {
		s.Stocks = append(s.Stocks, stock.Stock{Name: "felt", Caliper: mm})
	}
	var paths []string
	if bad, ok := builds(s).(*check.Error); ok {
		for v := range bad.All() {
			paths = append(paths, v.Path)
		}
	}
	if want := []string{"stocks[1].name", "stocks[2].name"}; !slices.Equal(paths, want) {
		t.Errorf("refused at %v, want %v", paths, want)
	}
}

// In which order the sheets of a material are told changes nothing of what is cut, and of
// several the best is taken: with one more the lesser of the margins is never less.
func TestOrderOfSheetsChangesNothing(t *testing.T) {
	rng := rand.New(rand.NewPCG(uint64(proptest.Seed()), 47))
	tell := func(p *folio.Plan) (sizes []units.Size, least units.Length) {
		for piece := range p.Pieces() {
			sizes = append(sizes, piece.Size())
		}
		w := p.Wrap()
		return sizes, min(w.Across().Near().Length(), w.Across().Far().Length(), w.Along().Near().Length(), w.Along().Far().Length())
	}
	built, gained := 0, 0
	for range proptest.Cases(400) {
		s := plainCase()
		s.Quarter.Rule = []rule.QuarterRule{rule.QuarterNever, rule.QuarterAlways}[rng.IntN(2)]
		across := 280 * mm
		if s.Quarter.Rule == rule.QuarterAlways {
			across = 100 * mm
		}
		var sheets []stock.Sheet
		least, widths, heights := 0, 60, 1
		if rng.IntN(2) == 0 { // of few sizes, so that some leave equally much
			least, widths, heights = 12, 2, 12
		}
		for range 3 {
			sheets = append(sheets, stock.Sheet{Grain: stock.SheetGrain(rng.IntN(3)), Size: units.Size{
				W: across + units.Length(least+rng.IntN(widths))*mm, H: 180*mm + units.Length(rng.IntN(60)/heights*heights)*mm}})
		}
		var want []units.Size
		var most units.Length
		for i, order := range [][]int{{0, 1, 2}, {2, 1, 0}, {1, 2, 0}, {0, 2, 1}, {0, 1}, {1, 2}, {0}, {2}} {
			s.Covering.Sheets = nil
			for _, k := range order {
				s.Covering.Sheets = append(s.Covering.Sheets, sheets[k])
			}
			p, err := folio.Build(s)
			if i == 0 && err != nil {
				break
			}
			if err != nil {
				continue
			}
			sizes, least := tell(p)
			switch {
			case i == 0:
				want, most = sizes, least
				built++
			case len(order) == 3 && !slices.Equal(sizes, want):
				t.Errorf("%v of %v: %v, in their order %v", order, sheets, sizes, want)
			case least > most:
				t.Errorf("%v of %v: margins of %v, with all of them %v", order, sheets, least, most)
			case least < most:
				gained++
			}
		}
	}
	if built < proptest.Cases(200) || gained < proptest.Cases(100) {
		t.Errorf("%d built, %d gained by one more sheet", built, gained)
	}
	// As much margin in all and the same at the least, once more of it across, once along:
	// of side papers 3 mm, in one piece, on a case that is open as wide as high, 4 mm.
	both := func(s folio.Spec, sheets ...stock.Sheet) (least units.Length) {
		s.Covering.Sheets = sheets
		first, least := tell(mustBuild(t, s))
		s.Covering.Sheets = []stock.Sheet{sheets[1], sheets[0]}
		if second, _ := tell(mustBuild(t, s)); !slices.Equal(first, second) {
			t.Errorf("of %v: %v, in the other order %v", sheets, first, second)
		}
		return least
	}
	sheet := func(w, h units.Length, g stock.SheetGrain) stock.Sheet {
		return stock.Sheet{Size: units.Size{W: w, H: h}, Grain: g}
	}
	s := plainCase()
	bare := func(a folio.Extent) units.Length {
		return a.Blank().Length() - a.Near().Length() - a.Far().Length()
	}
	w := mustBuild(t, s).Wrap()
	open := bare(w.Across())
	s.Cover.H += open - bare(w.Along())
	if least := both(s, sheet(open+40*mm, open+44*mm, stock.GrainAlongHeight), sheet(open+44*mm, open+40*mm, stock.GrainAlongHeight)); least != 20*mm {
		t.Errorf("a margin of %v; want half of 40 mm", least)
	}
	s = plainCase()
	s.Quarter.Rule = rule.QuarterAlways
	if least := both(s, sheet(121*mm, 217*mm, stock.GrainAlongHeight), sheet(214*mm, 124*mm, stock.GrainAlongWidth)); least != 22*mm {
		t.Errorf("a margin of %v; want what 214 mm leave at head and tail", least)
	}
}
