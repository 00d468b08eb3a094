package guide_test

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strconv"
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

// Bound documents follow the title: the first on its page, each other from a page of its
// own on, and what begins a page by itself still does.
func TestBoundDocumentsBeginPages(t *testing.T) {
	p := build(t, crewSpec())
	docs := []*guide.Document{guide.Templates(p, guide.PrintOptions{}), guide.HandOut(p, guide.PrintOptions{}), guide.Templates(p, guide.PrintOptions{})}
	want := []bool{false} // the title
	for i, d := range docs {
		first := true
		for s := range d.Sections() {
			want = append(want, s.Page || first && i > 0)
			first = false
		}
	}
	var got []bool
	for s := range guide.Bind("Bench", docs...).Sections() {
		got = append(got, s.Page)
	}
	if !slices.Equal(got, want) {
		t.Errorf("pages begin at %v; want %v", got, want)
	}
}

// The pieces by hand are told of where they cost something; what is sold below its cost has
// a margin below nothing.
func TestPriceListOfLittle(t *testing.T) {
	_, usd := regatta(t)
	p := build(t, crewSpec())
	job := layout.Job{Folios: []layout.Folio{{Name: "crew", Plan: p, Copies: 2}}, Except: []string{"greyboard", "foam", "blue card", "plain paper"},
		Materials: []layout.Material{{Name: "river paper", Sheets: []layout.SheetKind{{Size: units.MustParseSize("18 x 24 in"), Count: layout.Unlimited, Price: money.Amount{Minor: 1000, Currency: usd}}}}}}
	for _, byHand := range []bool{false, true} {
		if byHand {
			job.Pieces = []layout.LoosePiece{{Name: "label", Material: "river paper", Size: units.MustParseSize("9 x 9 in"), Quantity: 2}}
		}
		l, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 10_000})
		if err != nil {
			t.Fatal(err)
		}
		b, err := cost.Of(l, cost.Basis{Prices: []money.Amount{{Minor: 300, Currency: usd}}})
		if err != nil {
			t.Fatal(err)
		}
		doc := guide.PriceList(b, guide.PrintOptions{})
		if said := strings.Contains(string(doc.AppendPlain(nil)), "pieces by hand"); said != byHand || byHand != (b.Loose().Minor > 0) {
			t.Errorf("pieces by hand %t, %v: told of %t", byHand, b.Loose(), said)
		}
		for f := range b.Folios() {
			below := -f.Margin()
			if want := fmt.Sprintf("-%d.%02d %%", below/100, below%100); below <= 0 || tables(doc)["Folio"].Rows[0][4] != want {
				t.Errorf("%q; want %s", tables(doc)["Folio"].Rows, want)
			}
		}
	}
}

// Of what costs nothing no cost comes in, with however many that are sold.
func TestWhatCostsNothing(t *testing.T) {
	_, usd := regatta(t)
	job := layout.Job{Folios: []layout.Folio{{Name: "crew", Plan: build(t, crewSpec()), Copies: 2}}, Except: []string{"greyboard", "foam", "blue card", "plain paper"},
		Materials: []layout.Material{{Name: "river paper", Sheets: []layout.SheetKind{{Size: units.MustParseSize("18 x 24 in"), Count: layout.Unlimited}}}}}
	l, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 10_000})
	if err != nil {
		t.Fatal(err)
	}
	b, err := cost.Of(l, cost.Basis{Prices: []money.Amount{{Minor: 300, Currency: usd}}})
	if err != nil {
		t.Fatal(err)
	}
	if text := string(guide.PriceList(b, guide.PrintOptions{}).AppendPlain(nil)); b.Total().Minor != 0 || strings.Contains(text, "has come in") {
		t.Errorf("of %v: %s", b.Total(), text)
	}
}

// Offcuts at hand are told apart from whole sheets; of a material of which enough is at hand
// nothing is said of what to buy, and on the shopping list it does not stand. A price is
// there where it is known.
func TestWhatIsAtHandIsNotBought(t *testing.T) {
	_, usd := regatta(t)
	p := build(t, crewSpec())
	job := layout.Job{Folios: []layout.Folio{{Plan: p, Copies: 1}}, Except: []string{"greyboard", "foam"}}
	for _, m := range layout.MaterialsOf(p) {
		switch m.Name {
		case "river paper":
			m.Sheets[0].Price = money.Amount{Minor: 450, Currency: usd}
		case "plain paper":
			m.Sheets = []layout.SheetKind{{Size: units.MustParseSize("15 x 11 in"), Grain: stock.GrainAlongHeight, Count: 1, Offcut: true}}
		case "blue card":
		default:
			continue
		}
		job.Materials = append(job.Materials, m)
	}
	l, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 10_000})
	if err != nil {
		t.Fatal(err)
	}
	for m := range l.Materials() {
		if (m.Bought() == 0) != (m.Name() == "plain paper") {
			t.Fatalf("%d of %s are bought", m.Bought(), m.Name())
		}
	}
	for _, doc := range []*guide.Document{guide.HandOut(p, guide.PrintOptions{Layout: l}), guide.CuttingBook(l, guide.PrintOptions{})} {
		buy := map[string]string{} // by material
		for s := range doc.Sections() {
			for _, b := range s.Blocks {
				if list, ok := b.(guide.Texts); ok {
					for _, line := range list {
						if name, rest, ok := strings.Cut(line, ": "); ok && strings.Contains(rest, " to buy") {
							buy[name] = rest
						}
					}
				}
			}
		}
		if buy["River paper"] == "" || buy["Blue card"] == "" || buy["Plain paper"] != "" {
			t.Errorf("%s: to buy are %q", doc.Title(), buy)
		}
		text := string(doc.AppendPlain(nil))
		if strings.Count(text, "plain paper, offcuts at hand") != 1 || strings.Contains(text, "river paper, offcuts") {
			t.Errorf("%s: offcuts are not told apart", doc.Title())
		}
	}
	rows := map[string][]string{}
	for _, row := range tables(guide.ShoppingList(l, guide.PrintOptions{}))["Material"].Rows {
		rows[row[0]] = row
	}
	if paper, card := rows["river paper"], rows["blue card"]; rows["plain paper"] != nil || len(paper) != 5 || len(card) != 5 || paper[3] != "4.50 USD" || card[3] != "" || card[4] != "" {
		t.Errorf("the shopping list has %q", rows)
	}
}

// Where sheets are cut alike for pieces of several names, each place says so that gives some
// of both.
func TestAndOthers(t *testing.T) {
	piece := func(name string, side string) layout.LoosePiece {
		return layout.LoosePiece{Name: name, Material: "card", Quantity: 2, Size: units.MustParseSize(side)}
	}
	l, err := layout.Lay(t.Context(), layout.Job{Pieces: []layout.LoosePiece{piece("tag", "40 x 60 mm"), piece("badge", "40 x 60 mm"), piece("label", "30 x 60 mm"), piece("label", "30 x 60 mm")},
		Materials: []layout.Material{{Name: "card", Sheets: []layout.SheetKind{{Size: units.MustParseSize("71 x 61 mm"), Count: layout.Unlimited}}}}}, layout.Budget{Steps: 10_000})
	if err != nil {
		t.Fatal(err)
	}
	pic, ok := guide.Sheet(l, 1, guide.Options{})
	r, bad := readPicture(pic, ok)
	if bad != "" {
		t.Fatal(bad)
	}
	several := 0
	for s := range l.Sheets() {
		for place := range s.Places() {
			names := map[string]bool{}
			for w := range place.Pieces() {
				names[w.Name()] = true
			}
			if len(names) > 1 {
				several++
			}
			if !slices.ContainsFunc(r.texts, func(x readText) bool {
				name, _, _ := strings.Cut(x.s, " ")
				return names[name] && strings.Contains(x.s, "and others") == (len(names) > 1)
			}) {
				t.Errorf("nothing names %v", names)
			}
		}
	}
	if several == 0 {
		t.Error("no place fits pieces of two names")
	}
}

// In a column of figures stand numbers and lengths, or nothing; in the one before it words
// do, in whichever row: in hand-outs, also of what is made already, and for a family.
func TestColumnsOfFiguresOfFolios(t *testing.T) {
	forms := everyForm()
	made := forms[len(forms)-1].plan // the cover as it came out
	family, err := fit.FamilyOf(t.Context(), crewSpec(), units.MustParseSize("6 x 8 in"), units.MustParseSize("8 x 10 in"))
	if err != nil {
		t.Fatal(err)
	}
	figure := regexp.MustCompile(`^([-~≈]?\d.*|any size that holds it|–|stays open|photo .*|none|)$`)
	seen := 0
	for _, doc := range []*guide.Document{guide.HandOut(made, guide.PrintOptions{}), samples()[0].handOut(t), samples()[3].handOut(t), guide.FamilySheet(family, guide.PrintOptions{})} {
		for s := range doc.Sections() {
			for _, b := range s.Blocks {
				table, ok := b.(guide.Table)
				if !ok || table.Head == nil {
					continue
				}
				seen++
				first := len(table.Head) - table.Figures
				words := first == 1 && len(table.Rows) > 0 // the first tells what the row is about
				for _, row := range table.Rows {
					for i, cell := range row {
						if i >= first && !figure.MatchString(cell) {
							t.Errorf("%s, %s: %q stands in a column of figures", doc.Title(), s.Title, cell)
						}
					}
					words = words || !figure.MatchString(row[first-1])
				}
				if !words || table.Figures == 0 {
					t.Errorf("%s, %s: of %q the last %d are figures", doc.Title(), s.Title, table.Head, table.Figures)
				}
			}
		}
	}
	if seen < 12 {
		t.Errorf("only %d tables", seen)
	}
}

// Thicknesses are told in decimals in both notations, however coarse the rulers of the other
// lengths are: thousandths of an inch beside hundredths of a millimetre.
func TestThicknessesInBothNotations(t *testing.T) {
	s := folio.Spec{Cover: units.MustParseSize("150 x 200 mm"), Spine: rule.Spine{Width: 12 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Board: stock.Stock{Caliper: 2*mm + mm/4}}
	for _, c := range []struct {
		f    units.Format
		want string
	}{
		{units.Format{}, "2.25 mm thick"},
		{units.Format{Second: units.Sixteenths}, "2.25 mm (~0.089 in) thick"}, // 2.25 / 25.4 = 0.0886
		{units.Format{Ruler: units.Sixteenths}, "board, 2.25 mm thick"},       // no decimals of an inch are as long
		{units.Format{Ruler: units.Sixteenths, Second: units.WholeMillimetres}, "~0.0886 in (2.25 mm) thick"},
	} {
		text := strings.Join(strings.Fields(string(guide.HandOut(build(t, s), guide.PrintOptions{Format: c.f}).AppendPlain(nil))), " ")
		if !strings.Contains(strings.ReplaceAll(text, "\u00a0", " "), c.want) {
			_, rest, _ := strings.Cut(text, "WHAT TO BUY")
			t.Errorf("%+v: nothing is %s: %.600s", c.f, c.want, rest)
		}
	}
}

// The sheet of a family tells how many of a piece one folio takes, and of a photograph that
// lies turned in its room that it does.
func TestFamilyOfPieces(t *testing.T) {
	s := folio.Spec{Spine: rule.Spine{Width: 12 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Fittings: []folio.Fitting{
		{Name: "corners", Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.Corners{Corners: 2, Content: pocket.Content{Name: "card", Size: units.MustParseSize("60 x 40 mm")}}}}}}
	covers := []units.Size{units.MustParseSize("120 x 170 mm"), units.MustParseSize("170 x 120 mm"), units.MustParseSize("150 x 200 mm"), units.MustParseSize("200 x 150 mm")}
	family, err := fit.FamilyOf(t.Context(), s, covers...)
	if err != nil {
		t.Fatal(err)
	}
	doc := guide.FamilySheet(family, guide.PrintOptions{})
	pieces, turned, upright := tables(doc)["Pieces for a cover of"], 0, 0
	for i, r := range family.Rows() {
		for piece := range r.Plan().Pieces() {
			if piece.Name() != "corner" {
				continue
			}
			name := strconv.Itoa(piece.Quantity()) + " x corner, corners"
			if !slices.ContainsFunc(pieces.Rows, func(row []string) bool {
				return row[0] == name && row[i+1] == units.Format{Ruler: units.MetricDecimal.Exact()}.Size(piece.Size())
			}) {
				t.Errorf("%v: %q tells nothing of %s", r.Cover(), pieces.Rows, name)
			}
		}
		photo := tables(doc)["Cover"].Rows[i]
		told := photo[len(photo)-1]
		size, err := units.ParseSize(strings.TrimSuffix(strings.TrimPrefix(told, "photo "), ", turned"))
		if err != nil {
			t.Fatalf("%v: %q", r.Cover(), told)
		}
		if strings.HasSuffix(told, ", turned") {
			size = size.Turned()
			turned++
		} else {
			upright++
		}
		// It goes on a panel as it is told, and as it lies otherwise on none.
		goes := false
		for b := range r.Plan().Boards() {
			for _, outside := range []bool{false, true} {
				if area, ok := r.Plan().Panel(b.Role(), outside); ok {
					goes = goes || size.W <= area.Size().W && size.H <= area.Size().H
				}
			}
		}
		if !goes {
			t.Errorf("%v: %s goes on no panel", r.Cover(), told)
		}
	}
	if turned == 0 || upright == 0 {
		t.Errorf("%d photographs lie turned, %d do not", turned, upright)
	}
}

// Of round lengths the bar of a family's drawing is the longest that is drawn no longer than
// 45 mm: of a wrap that is drawn 90 mm high and is 200 mm high, just that long for 100 mm.
func TestBarOfAFamily(t *testing.T) {
	s := folio.Spec{Spine: rule.Spine{Width: 12 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Margin: rule.Margin{Ideal: 20 * mm}}
	for _, c := range []struct {
		cover, bar string
	}{{"60 x 160 mm", "100 mm"}, {"60 x 161 mm", "100 mm"}, {"60 x 159 mm", "50 mm"}, {"300 x 200 mm", "200 mm"}} {
		family, err := fit.FamilyOf(t.Context(), s, units.MustParseSize(c.cover))
		if err != nil {
			t.Fatal(err)
		}
		html := guide.FamilySheet(family, guide.PrintOptions{}).AppendHTML(nil)
		if i, j := bytes.Index(html, []byte(">"+strings.ReplaceAll(c.bar, " ", "\u00a0")+"</text>")), bytes.Index(html, []byte(">"+c.bar+"</text>")); i < 0 && j < 0 {
			t.Errorf("the bar of %s is not %s long: %s", c.cover, c.bar, barText.FindStringSubmatch(string(html)))
		}
	}
}
