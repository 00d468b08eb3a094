package folio_test

import (
	"context"
	"errors"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Whatever things are called, each text about them is one line of UTF-8 without
// control characters or overrides of direction (Unicode Standard Annex 9, 2.1 to 2.5),
// and no name makes it much longer.
func TestNamesInTexts(t *testing.T) {
	for _, name := range []string{"crew\r\nTAKE CARE\u2028of it", "a\x00\x1b[31m\u0085", "\u202egnol \u2066x\u2069", "\xff\xed\xa0\x80", strings.Repeat("a very long name ", 6_000)} {
		said := 0
		is := func(what, text string) {
			said++
			bad := strings.IndexFunc(text, func(r rune) bool {
				return unicode.IsControl(r) || r == '\u2028' || r >= '\u202a' && r <= '\u202e' || r >= '\u2066' && r <= '\u2069'
			})
			if bad >= 0 || !utf8.ValidString(text) || len(text) > 2_000 {
				t.Errorf("of %.20q, %s: %.300q", name, what, text)
			}
		}
		wrong := func(what string, err error) {
			var all *check.Error
			if !errors.As(err, &all) {
				t.Errorf("%s: %v", what, err)
				return
			}
			for v := range all.All() {
				is(what, v.Error())
			}
		}
		content := pocket.Content{Name: name, Size: units.MustParseSize("2 x 3 in")}
		s := folio.Spec{
			Title: name, Cover: units.MustParseSize("8 x 10 in"), Spine: rule.Spine{Width: units.Inch},
			Board: stock.Stock{Name: "board " + name}, Covering: stock.Stock{Name: "covering " + name}, Liner: stock.Stock{Name: "liner " + name},
			Stocks: []stock.Stock{{Name: name, Caliper: units.Inch / 64, Sheets: []stock.Sheet{{Size: units.MustParseSize("30 x 40 in")}}}},
			Fittings: []folio.Fitting{
				{Name: name, Kind: folio.Mat{Picture: content}, Stock: name},
				{Name: "label", StandsOn: name, Kind: folio.Ornament{Size: units.MustParseSize("1 x 1 in")}},
				{Name: name + "2", Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.Slip{Content: content}}, Stock: name},
			},
		}
		plan := mustBuild(t, s)
		for step := range plan.Steps() {
			is("a step", step.Text(units.Format{}))
		}
		for w := range plan.Warnings() {
			is("a warning", w.String())
		}
		for f := range plan.Fittings() {
			is("a fitting", f.Label())
		}
		for w := range plan.Workings() {
			is("a working", w.String())
		}
		sheets := []layout.SheetKind{{Size: units.MustParseSize("40 x 60 in"), Count: layout.Unlimited}}
		job := layout.Job{Folios: []layout.Folio{{Plan: plan, Copies: 2}}, Pieces: []layout.LoosePiece{{Name: name, Material: name, Size: units.MustParseSize("3 x 4 in"), Quantity: 2}}}
		for _, m := range layout.MaterialsOf(plan) {
			m.Sheets = sheets
			job.Materials = append(job.Materials, m)
		}
		laid, err := layout.Lay(context.Background(), job, layout.Budget{Steps: 1})
		if err != nil {
			t.Fatal(err)
		}
		for step := range laid.Steps() {
			is("a cut", step.Text(units.Format{}))
		}
		for w := range laid.Warnings() {
			is("a warning of the layout", w.String())
		}
		priced, err := cost.Of(laid, cost.Basis{Supplies: []cost.Supply{{Name: name, Contents: 1}}})
		if err != nil {
			t.Fatal(err)
		}
		for c := range priced.Charges() {
			is("a charge", c.String())
		}
		job.Materials[0].Sheets = []layout.SheetKind{{Size: units.MustParseSize("9 x 12 in"), Count: 1}}
		_, err = layout.Lay(context.Background(), job, layout.Budget{Steps: 1})
		wrong("a job", err)
		for what, change := range map[string]func(*folio.Spec){
			"a name again":    func(s *folio.Spec) { s.Fittings = append(s.Fittings, s.Fittings[0], s.Fittings[0]) },
			"no such name":    func(s *folio.Spec) { s.Fittings[0].Stock, s.Fittings[1].StandsOn = "no "+name, "no "+name },
			"one over other":  func(s *folio.Spec) { s.Fittings[2].Panel = boards.MainPanel },
			"a smaller cover": func(s *folio.Spec) { s.Cover.W = 2 * units.Inch },
			"a small sheet":   func(s *folio.Spec) { s.Stocks[0].Sheets = []stock.Sheet{{Size: units.MustParseSize("1 x 1 in")}} },
		} {
			other := plan.Spec()
			change(&other)
			_, err := folio.Build(other)
			wrong(what, err)
			for _, m := range fit.Misfits(other, err) {
				is("a misfit", m.String())
			}
		}
		if said < 80 {
			t.Errorf("only %d texts", said)
		}
	}
}

// However long names are, sentences stay short: of a megabyte each, of fittings and what
// they hold, no step's text has more than some 64 characters a time. The names themselves
// are kept whole.
func TestNamesInSentences(t *testing.T) {
	long := strings.Repeat("n", 1<<20)
	s := metric()
	s.Cover, s.Spine.Width = units.Size{W: 700 * mm, H: 700 * mm}, 60*mm
	print := pocket.Content{Name: long + "c", Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: mm / 10}
	for i := range 64 {
		var k folio.Kind = folio.Ornament{Size: print.Size, Thickness: mm / 10}
		switch i % 4 {
		case 1:
			k = folio.Mat{Picture: print}
		case 2:
			k = folio.Folded{Kind: pocket.Slip{Content: print}}
		case 3:
			k = folio.Frame{Picture: print}
		}
		s.Fittings = append(s.Fittings, folio.Fitting{Name: long + string(rune('0'+i)), Kind: k, Place: place.Place{Across: place.Left, Along: place.Head,
			Offset: units.Point{X: units.Length(i%8) * 80 * mm, Y: units.Length(i/8) * 80 * mm}}})
	}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	told := false
	for step := range p.Steps() {
		text := step.Text(units.Format{Ruler: units.WholeMillimetres})
		if len(text) > 4096 {
			t.Fatalf("a step of %d characters: %.200s", len(text), text)
		}
		told = told || strings.Contains(text, "nnn...")
	}
	if !told {
		t.Error("no step tells a name")
	}
	for f := range p.Fittings() {
		if len(f.Name()) != len(long)+1 || len(f.Label()) > 64 {
			t.Fatalf("a name of %d, told as %d characters", len(f.Name()), len(f.Label()))
		}
	}
}
