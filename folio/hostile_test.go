package folio_test

import (
	"fmt"
	"runtime"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// hostile are Specs at the limits that a stranger may send: as many fittings,
// stocks and sheets as there may be, and of each kind as many pockets, leaves and
// pleats.
func hostile() map[string]folio.Spec {
	card := pocket.Content{Size: units.Size{W: 20 * mm, H: 20 * mm}}
	kinds := map[string]folio.Kind{
		"mats":      folio.Mat{Picture: card},
		"frames":    folio.Frame{Picture: card, Rail: 8 * mm, Lap: 3 * mm},
		"ornaments": folio.Ornament{Size: card.Size, Thickness: mm / 10},
	}
	for k := range pocket.Kinds() {
		kinds[k.Name()] = folio.Folded{Kind: pocket.Holding(k, func(c *pocket.Content) { *c = card })}
	}
	kinds["long gusset runs"] = folio.Folded{Kind: pocket.GussetRun{Content: card, Pockets: 500, Half: mm, Tab: mm, Glue: mm, Land: mm}}
	kinds["long concertinas"] = folio.Folded{Kind: pocket.Concertina{Content: card, Leaves: 500, Fold: mm}}
	kinds["long pleats"] = folio.Folded{Kind: pocket.Pleat{Content: card, Pleats: 500, Visible: mm, Fold: mm}}
	kinds["long accordions"] = folio.Folded{Kind: pocket.FoldedAccordion{Content: card, Panels: 500}}
	specs := map[string]folio.Spec{}
	for name, kind := range kinds {
		s := folio.Spec{Cover: units.Size{W: 3 * units.Metre, H: 3 * units.Metre}, Spine: rule.Spine{Width: units.Metre}, Rulers: rule.Rulers{Main: units.WholeMillimetres}}
		n := folio.MaxFittings
		if strings.HasPrefix(name, "long ") {
			n = folio.MaxPockets / 500
			more := s
			more.Fittings = slices.Repeat([]folio.Fitting{{Kind: kind}}, folio.MaxFittings)
			specs["too many "+name] = more
		}
		for i := range n {
			x, y := units.Length(i%16)*180*mm, units.Length(i/16)*180*mm
			s.Fittings = append(s.Fittings, folio.Fitting{Kind: kind, Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: x, Y: y}}})
		}
		specs[name] = s
	}
	bad := slices.Repeat([]stock.Sheet{{Size: units.Size{W: -mm, H: -mm}}}, stock.MaxSheets)
	s := good()
	for i := range folio.MaxStocks {
		k := stock.Stock{Name: fmt.Sprint("card ", i), Caliper: mm / 4}
		for range stock.MaxSheets / 10 {
			k.Sheets = append(k.Sheets, stock.Sheet{Size: units.Size{W: 600 * mm, H: 800 * mm}})
		}
		s.Stocks = append(s.Stocks, k)
	}
	specs["stocks"] = s
	s = good()
	for i := range folio.MaxStocks { // two million violations
		s.Stocks = append(s.Stocks, stock.Stock{Name: fmt.Sprint("card ", i), Caliper: mm / 4, Sheets: bad})
	}
	specs["stocks of bad sheets"] = s
	s = folio.Spec{Cover: units.Size{W: 120 * mm, H: 170 * mm}, Spine: rule.Spine{Width: 25 * mm}}
	s.Fittings = slices.Repeat([]folio.Fitting{{Name: strings.Repeat("x", 1<<20), Kind: folio.Mat{Picture: pocket.IDCard()}}}, folio.MaxFittings)
	specs["long names, all in one place"] = s
	return specs
}

// Whatever a stranger sends costs at most 256 MiB in building it, refitting it,
// writing its order of work and gathering what is drawn. What it costs in time is
// measured by BenchmarkHostile: at most a second.
func TestHostileSpecsAreBounded(t *testing.T) {
	built := 0
	for name, s := range hostile() {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		if askedForAll(s) {
			built++
		}
		runtime.ReadMemStats(&after)
		if used := after.TotalAlloc - before.TotalAlloc; used > 256<<20 {
			t.Errorf("%s: %d MiB", name, used>>20)
		}
	}
	if built < 8 {
		t.Errorf("only %d can be built: the sample says little", built)
	}
}

// askedForAll builds a Spec and asks for all that is drawn and done.
func askedForAll(s folio.Spec) bool {
	p, err := folio.Build(s)
	if err != nil {
		_ = err.Error()
		return false
	}
	// A millimetre out, or nothing would have to be fitted again.
	if q, err := p.Refit(refit.Measured{Width: p.OpenWidth().Length() + mm, Height: p.OpenHeight().Length() + mm}); err == nil {
		p = q
	}
	n := 0
	for st := range p.Steps() {
		n += len(st.Text(units.Format{}))
	}
	for f := range p.Fittings() {
		for range f.Pieces() {
			n++
		}
		for range f.Placed() {
			n++
		}
	}
	for _, full := range []bool{false, true} {
		for range p.Heights(full) {
			n++
		}
		p.Tightest(full)
		p.Overall(full)
	}
	for range p.Workings() {
		n++
	}
	return n > 0
}

func BenchmarkHostile(b *testing.B) {
	for name, s := range hostile() {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				askedForAll(s)
			}
		})
	}
}
