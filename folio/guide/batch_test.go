package guide_test

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stick"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/money"
)

// regatta is a batch of two folios with prices of their sheets.
func regatta(t *testing.T) (*layout.Layout, money.Currency) {
	t.Helper()
	usd, _ := money.CurrencyOf("USD")
	return theRegatta(), usd
}

var theRegatta = sync.OnceValue(func() *layout.Layout {
	small := crewSpec()
	small.Cover, small.Fittings = units.MustParseSize("5 x 6 in"), nil
	big, little := sampleOf("big", crewSpec()).plan, sampleOf("little", small).plan
	usd, _ := money.CurrencyOf("USD")
	job := layout.Job{Folios: []layout.Folio{{Name: "big", Plan: big, Copies: 3}, {Name: "little", Plan: little, Copies: 2}},
		Pieces: []layout.LoosePiece{{Name: "price card", Material: "blue card", Size: units.MustParseSize("2 x 3 in"), Quantity: 4, Grain: stock.GrainAny}}}
	for i, m := range layout.MaterialsOf(big, little) {
		if len(m.Sheets) == 0 {
			job.Except = append(job.Except, m.Name)
			continue
		}
		for k := range m.Sheets {
			m.Sheets[k].Price = money.Amount{Minor: int64(50 * (i + 1)), Currency: usd}
		}
		job.Materials = append(job.Materials, m)
	}
	l, err := layout.Lay(context.Background(), job, layout.Budget{Steps: 200_000})
	if err != nil {
		panic(err)
	}
	return l
})

// Pieces are for the folio by its name in the job, else by its title, else by its number, or
// wanted by hand.
func TestWhatPiecesAreFor(t *testing.T) {
	plain := crewSpec()
	plain.Title = ""
	titled, untitled := build(t, crewSpec()), build(t, plain)
	job := layout.Job{
		Folios: []layout.Folio{{Name: "bow pair", Plan: titled, Copies: 1}, {Plan: titled, Copies: 1}, {Plan: untitled, Copies: 1}},
		Pieces: []layout.LoosePiece{{Name: "price card", Material: "river paper", Size: units.MustParseSize("2 x 3 in"), Quantity: 4, Grain: stock.GrainAny}},
	}
	for _, m := range layout.MaterialsOf(titled, untitled) {
		if m.Name == "river paper" {
			job.Materials = append(job.Materials, m)
		} else {
			job.Except = append(job.Except, m.Name)
		}
	}
	l, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 1})
	if err != nil {
		t.Fatal(err)
	}
	var of []string
	for _, row := range tables(guide.CuttingBook(l, guide.PrintOptions{}))["Piece"].Rows {
		of = append(of, row[1])
	}
	if want := []string{"bow pair", titled.Spec().Title, "folio 3", "by hand"}; !slices.Equal(of, want) {
		t.Errorf("pieces are for %q, want %q", of, want)
	}
}

// priced is what the regatta's folios cost.
func priced(t *testing.T) *cost.BatchCost {
	t.Helper()
	l, usd := regatta(t)
	b, err := cost.Of(l, cost.Basis{Minutes: []int{40, 30}, Rate: money.Amount{Minor: 1200, Currency: usd}, Fee: money.Amount{Minor: 2000, Currency: usd}, Margin: 2500, RoundTo: 50})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// tables returns the tables of a document by their first heading.
func tables(doc *guide.Document) map[string]guide.Table {
	out := map[string]guide.Table{}
	for s := range doc.Sections() {
		for _, b := range s.Blocks {
			if t, ok := b.(guide.Table); ok && t.Head != nil {
				out[t.Head[0]] = t
			}
		}
	}
	return out
}

// The cutting book has everything that is wanted, every step in order with what
// it says, a picture where a sheet is taken, and every offcut.
func TestCuttingBook(t *testing.T) {
	l, _ := regatta(t)
	doc := guide.CuttingBook(l, guide.PrintOptions{})
	var want [][]string
	f := units.Format{Ruler: units.InchFraction.Exact()}
	wanted := 0
	for w := range l.Pieces() {
		wanted += w.Quantity()
	}
	listed := 0
	for _, row := range tables(doc)["Piece"].Rows {
		n := 0
		fmt.Sscan(row[3], &n)
		listed += n
	}
	if listed != wanted || wanted < 20 {
		t.Errorf("%d pieces are listed, %d are wanted", listed, wanted)
	}
	list := ticks(doc)
	for s := range l.Steps() {
		if len(list) == 0 {
			t.Fatal("steps are missing")
		}
		k := list[0]
		list = list[1:]
		if k.Figure != nil && k.Figure.Picture.Printed().H > 110*mm { // two go on a page
			t.Errorf("step %d: a picture comes out %v high", k.Number, k.Figure.Picture.Printed().H)
		}
		if k.Number != s.Number() || k.Text != s.Text(f) || (k.Figure != nil) != s.Takes() || (len(k.Cautions) > 0) != (s.Care() != "") {
			t.Errorf("step %d: %+v", s.Number(), k)
		}
	}
	for m := range l.Materials() {
		for o := range m.Offcuts() {
			want = append(want, []string{m.Name(), f.Size(o.Size())})
		}
	}
	for _, row := range tables(doc)["Offcut of"].Rows {
		want = slices.DeleteFunc(want, func(w []string) bool { return w[0] == row[0] && w[1] == row[2] })
	}
	if len(want) > 0 {
		t.Errorf("offcuts that are not listed: %q", want)
	}
	left := map[string]int{}
	for m := range l.Materials() {
		for o := range m.Offcuts() {
			left[m.Name()+", "+f.Size(o.Size())] += o.Count()
		}
	}
	for _, row := range tables(doc)["Offcut of"].Rows {
		if n, err := strconv.Atoi(row[1]); err != nil || n != left[row[0]+", "+row[2]] || n == 0 {
			t.Errorf("%q; %d are left", row, left[row[0]+", "+row[2]])
		}
		delete(left, row[0]+", "+row[2])
	}
}

// Figures line up at the right, and only figures: in the tables of a batch the columns
// that do are those of numbers, sizes and amounts.
func TestColumnsOfFigures(t *testing.T) {
	l, _ := regatta(t)
	costs := priced(t)
	read := 0
	for _, doc := range []*guide.Document{guide.CuttingBook(l, guide.PrintOptions{}), guide.ShoppingList(l, guide.PrintOptions{}), guide.PriceList(costs, guide.PrintOptions{})} {
		for _, tb := range tables(doc) {
			for _, row := range tb.Rows {
				for i, cell := range row {
					figure := cell != "" && cell[0] >= '0' && cell[0] <= '9'
					if read++; figure != (i >= len(row)-tb.Figures) && cell != "" {
						t.Errorf("%q, of which %d line up at the right: %q", tb.Head, tb.Figures, cell)
					}
				}
			}
		}
	}
	if read < 40 {
		t.Errorf("only %d cells", read)
	}
}

// What is at hand is not bought, nor what is not needed.
func TestNothingIsBoughtForNothing(t *testing.T) {
	kind := func(size string, n int, offcut bool) layout.SheetKind {
		return layout.SheetKind{Size: units.MustParseSize(size), Count: n, Offcut: offcut}
	}
	l, err := layout.Lay(t.Context(), layout.Job{
		Pieces: []layout.LoosePiece{{Name: "tag", Material: "card", Quantity: 5, Size: units.MustParseSize("50 x 80 mm")}, {Name: "chart", Material: "card", Quantity: 1, Size: units.MustParseSize("200 x 280 mm")}, {Name: "label", Material: "paper", Quantity: 2, Size: units.MustParseSize("30 x 40 mm")}},
		Materials: []layout.Material{
			{Name: "card", Sheets: []layout.SheetKind{kind("90 x 260 mm", 1, true), kind("210 x 297 mm", 10, false), kind("700 x 1000 mm", 10, false)}},
			{Name: "paper", Sheets: []layout.SheetKind{kind("100 x 100 mm", 1, true), kind("210 x 297 mm", 5, false)}},
		},
	}, layout.Budget{Steps: 20_000})
	if err != nil {
		t.Fatal(err)
	}
	hand, bought := 0, 0
	want := map[string]int{}
	for m := range l.Materials() {
		for k, n := range m.Used() {
			if k.Offcut {
				hand += n
			} else if n > 0 {
				want[m.Name()+" "+k.Size.String()] = n
				bought += n
			}
		}
	}
	if hand < 1 || bought < 1 || bought != l.Bought() {
		t.Fatalf("%d offcuts at hand are used, %d sheets bought", hand, bought)
	}
	rows := tables(guide.ShoppingList(l, guide.PrintOptions{}))["Material"].Rows
	for _, row := range rows {
		if n, err := strconv.Atoi(row[1]); err != nil || want[row[0]+" "+units.MustParseSize(row[2]).String()] != n {
			t.Errorf("%q; want %v", row, want)
		}
	}
	if len(rows) != len(want) {
		t.Errorf("%q; want %v", rows, want)
	}
}

// Of a folio of which none are made nothing is bought, whether that is said or not.
func TestNothingIsBoughtForNone(t *testing.T) {
	p := build(t, crewSpec())
	list := func(copies ...int) string {
		job := layout.Job{Materials: []layout.Material{{Name: "river paper", Sheets: []layout.SheetKind{{Size: units.MustParseSize("18 x 24 in"), Count: layout.Unlimited}}}}, Except: []string{"greyboard", "plain paper", "blue card", "foam"}}
		for _, n := range copies {
			job.Folios = append(job.Folios, layout.Folio{Plan: p, Copies: n})
		}
		l, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 10_000})
		if err != nil {
			t.Fatal(err)
		}
		return string(guide.ShoppingList(l, guide.PrintOptions{}).AppendPlain(nil))
	}
	want := list(2)
	for _, none := range []int{0, layout.NoCopies} {
		if got := list(2, none); got != want || !strings.Contains(got, "tape") {
			t.Errorf("of two and %d: %s", none, got)
		}
	}
}

// The shopping list has the sheets that are bought with their prices, and the
// adhesive of all copies, rounded up.
func TestShoppingList(t *testing.T) {
	l, _ := regatta(t)
	got := tables(guide.ShoppingList(l, guide.PrintOptions{}))
	sheets := 0
	for _, row := range got["Material"].Rows {
		n, cents, each := 0, 0, 0
		fmt.Sscan(row[1], &n)
		sheets += n
		fmt.Sscan(strings.ReplaceAll(row[4], ".", ""), &cents)
		fmt.Sscan(strings.ReplaceAll(row[3], ".", ""), &each)
		if each == 0 || cents != n*each {
			t.Errorf("%q", row)
		}
	}
	if sheets != l.Bought() {
		t.Errorf("%d sheets; the layout buys %d", sheets, l.Bought())
	}
	// One tape width, one kind of glue, by the needs of each.
	var tape units.Length
	var glue units.Area
	for i, f := range l.Job().Folios {
		n := int64(3 - i)
		needs := stick.Of(f.Plan)
		glue = glue.Plus(needs.Glue().Times(n))
		for k := range needs.Tapes() {
			tape += k.Length().Length() * units.Length(n)
		}
	}
	rows := got["Adhesive, without waste"].Rows
	if len(rows) != 2 {
		t.Fatalf("%q", rows)
	}
	listed, err := units.Parse(rows[0][1])
	if err != nil || listed < tape || listed >= tape+inch {
		t.Errorf("%s of tape for %v", rows[0][1], tape)
	}
	area := 0
	fmt.Sscan(rows[1][1], &area)
	if a := glue.SquareInches(); float64(area) < a || float64(area) >= a+1 {
		t.Errorf("%s of glue for %.2f sq in", rows[1][1], a)
	}
	metric := tables(guide.ShoppingList(l, guide.PrintOptions{Format: units.Format{Ruler: units.WholeMillimetres, Second: units.Sixteenths}}))["Adhesive, without waste"].Rows
	fmt.Sscan(metric[1][1], &area)
	if a := glue.SquareMillimetres() / 100; float64(area) < a || float64(area) >= a+1 || !strings.Contains(metric[1][1], " sq in)") {
		t.Errorf("%s of glue for %.2f cm²", metric[1][1], a)
	}
	if l, err := units.Parse(strings.Split(metric[0][1], " (")[0]); err != nil || l%units.Centimetre != 0 || l < tape || l >= tape+units.Centimetre {
		t.Errorf("%s of tape for %v", metric[0][1], tape)
	}
}

// Where no sheet has a price the shopping list has no room for any.
func TestShoppingListWithoutPrices(t *testing.T) {
	usd, _ := money.CurrencyOf("USD")
	bare := crewSpec()
	bare.Fittings = nil // takes glue and no tape
	job := layout.Job{Folios: []layout.Folio{{Plan: build(t, crewSpec()), Copies: 1}}, Except: []string{"greyboard", "plain paper", "blue card", "foam"}}
	for _, price := range []int64{0, 250} {
		sheet := layout.SheetKind{Size: units.MustParseSize("18 x 24 in"), Count: layout.Unlimited}
		if price > 0 {
			sheet.Price = money.Amount{Minor: price, Currency: usd}
		}
		job.Materials = []layout.Material{{Name: "river paper", Sheets: []layout.SheetKind{sheet}}}
		l, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 10_000})
		if err != nil {
			t.Fatal(err)
		}
		want := []string{"Material", "How many", "Sheet"}
		if price > 0 {
			want = append(want, "Price of one", "Together")
		}
		list := tables(guide.ShoppingList(l, guide.PrintOptions{}))
		if got := list["Material"]; !slices.Equal(got.Head, want) || len(got.Rows) != 1 || len(got.Rows[0]) != len(want) {
			t.Errorf("a price of %d: %q, %q", price, got.Head, got.Rows)
		}
		if got := list["Adhesive, without waste"].Rows; len(got) != 2 { // one copy takes adhesive too
			t.Errorf("adhesive: %q", got)
		}
	}
	// Two folios that take tape of one width have it in one line.
	job.Folios = append(job.Folios, job.Folios[0])
	twice, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 10_000})
	if err != nil {
		t.Fatal(err)
	}
	if got := tables(guide.ShoppingList(twice, guide.PrintOptions{}))["Adhesive, without waste"].Rows; len(got) != 2 {
		t.Errorf("adhesive of two alike: %q", got)
	}
	job.Folios = job.Folios[:1]
	job.Folios[0].Plan = build(t, bare)
	l, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 10_000})
	if err != nil {
		t.Fatal(err)
	}
	if got := tables(guide.ShoppingList(l, guide.PrintOptions{}))["Adhesive, without waste"].Rows; len(got) != 1 || !strings.Contains(got[0][0], "glue") {
		t.Errorf("adhesive without fittings: %q", got)
	}
}

// A sheet that is bought alone is on the list as a hundred are, and where nothing is cut
// of it, being what is wanted, the book has no section that says nothing.
func TestOneSheet(t *testing.T) {
	size := units.MustParseSize("18 x 24 in")
	for _, n := range []int{1, 2, 100} {
		l, err := layout.Lay(t.Context(), layout.Job{Pieces: []layout.LoosePiece{{Name: "chart", Material: "river paper", Size: size, Quantity: n}},
			Materials: []layout.Material{{Name: "river paper", Sheets: []layout.SheetKind{{Size: size, Count: layout.Unlimited}}}}}, layout.Budget{Steps: 10_000})
		if err != nil {
			t.Fatal(err)
		}
		if got := tables(guide.ShoppingList(l, guide.PrintOptions{}))["Material"].Rows; len(got) != 1 || got[0][1] != strconv.Itoa(n) {
			t.Errorf("%d sheets: %q", n, got)
		}
		for s := range guide.CuttingBook(l, guide.PrintOptions{}).Sections() {
			if len(s.Blocks) == 0 {
				t.Errorf("%d sheets: nothing is said of %q", n, s.Title)
			}
		}
	}
}

// Who has no layout is told for how many pieces a sheet of which size is needed, of each
// material that has one: all pieces of it together are those of the plan.
func TestSheetsWithoutALayout(t *testing.T) {
	told := 0
	for _, s := range samples() {
		want := map[string]int{}
		for piece := range s.plan.Pieces() {
			if size := piece.Source().Size; !size.Empty() {
				if piece.Source().Turned {
					size = size.Turned()
				}
				want[units.Format{Ruler: s.plan.Notation().Exact()}.Size(size)] += piece.Quantity()
			}
		}
		got := map[string]int{}
		for _, row := range tables(guide.HandOut(s.plan, guide.PrintOptions{}))["Material"].Rows {
			n, err := strconv.Atoi(row[2])
			if any := row[3] == "any size that holds it"; any != (row[2] == "") || !any && err != nil {
				t.Errorf("%s: %q", s.name, row)
			}
			if n > 0 {
				got[row[3]] += n
				told++
			}
		}
		if !maps.Equal(got, want) {
			t.Errorf("%s: %v; want %v", s.name, got, want)
		}
	}
	if told < 4 {
		t.Errorf("only %d kinds of sheet are told", told)
	}
}

// The price list has the prices on its first page and no cost there; what the
// batch takes adds up on the maker's.
func TestPriceList(t *testing.T) {
	_, usd := regatta(t)
	costs := priced(t)
	doc := guide.PriceList(costs, guide.PrintOptions{})
	first := ""
	for s := range doc.Sections() {
		if s.Page {
			break
		}
		first += fmt.Sprint(s.Blocks)
	}
	for f := range costs.Folios() {
		if !strings.Contains(first, f.Price().Amount().String()) || strings.Contains(first, f.Each().Amount().String()) {
			t.Errorf("the first page says %s", first)
		}
	}
	i := 0
	for f := range costs.Folios() {
		row := tables(doc)["Folio"].Rows[i]
		if want := fmt.Sprintf("%d.%02d %%", f.Margin()/100, f.Margin()%100); row[4] != want || row[1] != fmt.Sprint(f.Copies()) {
			t.Errorf("%q; want %s", row, want)
		}
		i++
	}
	text := strings.Join(strings.Fields(string(doc.AppendPlain(nil))), " ")
	fee, paid := costs.BreakEven()
	all, back := costs.Recovers()
	if !paid || !back || !strings.Contains(text, fmt.Sprintf("has come in when %d are made and sold.", fee)) || !strings.Contains(text, fmt.Sprintf("has come in when %d of it are sold.", all)) {
		t.Errorf("the fee comes in with %d, %t, all with %d, %t: %s", fee, paid, all, back, text)
	}
	sum := money.Amount{}
	rows := tables(doc)["What the batch takes"].Rows
	for _, row := range rows[:len(rows)-1] {
		a, err := money.Parse(row[1], usd)
		if err != nil {
			t.Fatal(err)
		}
		if sum, err = sum.Plus(a); err != nil {
			t.Fatal(err)
		}
	}
	if total := rows[len(rows)-1][1]; sum.String() != total || total != costs.Total().String() {
		t.Errorf("charges of %s add up to %s", total, sum)
	}
}

// Without a fee, and of what costs nothing, no fee and no cost comes in; one
// folio is sold, two are.
func TestPriceListCounts(t *testing.T) {
	l, usd := regatta(t)
	for _, c := range []struct {
		on       cost.Basis
		has, not string
	}{
		// At 5.82 and 2.11 USD four bring 2 x 2.11 + 2 x 5.82 = 15.86 of 16.50 USD.
		{cost.Basis{Margin: 2500}, "has come in when 5 of it are sold.", "The fee"},
		{cost.Basis{Margin: 2500, Fee: money.Amount{Minor: 1, Currency: usd}}, "The fee has come in when 1 is made and sold.", "1 are"},
		{cost.Basis{Prices: []money.Amount{{Minor: 1_000_000, Currency: usd}}}, "has come in when 1 of it is sold.", "The fee"},
	} {
		b, err := cost.Of(l, c.on)
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(string(guide.PriceList(b, guide.PrintOptions{}).AppendPlain(nil))), " ")
		if !strings.Contains(text, c.has) || strings.Contains(text, c.not) {
			t.Errorf("%+v: %s; want %q and not %q", c.on, text, c.has, c.not)
		}
	}
}

// What cannot be cut is said.
func TestLacks(t *testing.T) {
	p := build(t, crewSpec())
	job := layout.Job{Folios: []layout.Folio{{Name: "crew", Plan: p, Copies: 4}}, Except: []string{"greyboard", "foam", "blue card", "plain paper"},
		Materials: []layout.Material{{Name: "river paper", Sheets: []layout.SheetKind{{Size: units.MustParseSize("18 x 24 in"), Count: 1}}}}}
	l, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 10_000})
	if err == nil || l == nil {
		t.Fatal("nothing lacks")
	}
	if text := string(guide.CuttingBook(l, guide.PrintOptions{}).AppendPlain(nil)); !strings.Contains(text, "WHAT LACKS A SHEET\n  - 2 wraps, 15 x 10 in, of river paper") {
		t.Error(text)
	}
}

// Documents that are bound stay whole and begin on pages of their own.
func TestBind(t *testing.T) {
	p := build(t, crewSpec())
	a, b := guide.HandOut(p, guide.PrintOptions{Paper: guide.Letter}), guide.Templates(p, guide.PrintOptions{Paper: guide.A4})
	doc := guide.Bind("Both", nil, a, b)
	if doc.Paper() != guide.Letter || doc.Title() != "Both" {
		t.Errorf("%v, %q", doc.Paper(), doc.Title())
	}
	n, begin := 0, 0
	for s := range doc.Sections() {
		n++
		if s.Title == b.Title() && s.Page {
			begin++
		}
	}
	for range a.Sections() {
		n--
	}
	for range b.Sections() {
		n--
	}
	if n != 1 || begin != 1 {
		t.Errorf("%d sections more, %d begin", n, begin)
	}
}
