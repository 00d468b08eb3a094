package cost_test

import (
	"errors"
	"slices"
	"testing"

	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

// costOf costs so many wraps, each out of a sheet of 12 x 12 in at a price in cents.
func costOf(t *testing.T, copies []int, price int64, on cost.Basis) *cost.BatchCost {
	t.Helper()
	kind := sheets("12 x 12", layout.Unlimited, stock.GrainAlongHeight)
	kind.Price = usd(price)
	b, err := cost.Of(lay(t, wraps(t, copies, kind)), on)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// When fees and costs have come in, at the cents where that changes. Of 2.00 for two
// sheets the first folio takes 99 of 178.75 parts, 1.10, the second 0.90.
func TestComesIn(t *testing.T) {
	for _, c := range []struct {
		name                       string
		copies                     []int
		asked                      []int64
		fee, breakEven, recovers   int64
		feeComesIn, everythingDoes bool
	}{
		{"five batches of one bring 2.00 each", []int{1}, []int64{300}, 1000, 5, 1, true, false},
		{"each brings a cent", []int{1}, []int64{101}, 3, 3, 1, true, false},
		{"a cent after the first", []int{2}, []int64{300}, 201, 2, 2, true, true},
		{"a cent after all of those that bring least", []int{1, 1}, []int64{310, 300}, 201, 2, 2, true, true},
		{"the cheapest are counted first", []int{2, 2}, []int64{300, 100}, 0, 0, 3, true, true},
		{"the cheapest bring all", []int{2, 1}, []int64{150, 400}, 0, 0, 2, true, true},
		{"the cheapest bring all but a cent", []int{2, 1}, []int64{150, 400}, 1, 1, 3, true, true},
		{"all bring all but a cent", []int{1}, []int64{100}, 1, 0, 1, false, false},
	} {
		on := cost.Basis{Fee: usd(c.fee)}
		for _, a := range c.asked {
			on.Prices = append(on.Prices, usd(a))
		}
		b := costOf(t, c.copies, 100, on)
		if n, ok := b.BreakEven(); n != c.breakEven || ok != c.feeComesIn {
			t.Errorf("%s: the fee with %d, %v; want %d, %v", c.name, n, ok, c.breakEven, c.feeComesIn)
		}
		if n, ok := b.Recovers(); n != c.recovers || ok != c.everythingDoes {
			t.Errorf("%s: everything with %d, %v; want %d, %v", c.name, n, ok, c.recovers, c.everythingDoes)
		}
	}
	// A hundred times the price is lost, more than that, and more than can be counted.
	for _, minutes := range []int{101, 102, 1_000_000} {
		on := cost.Basis{Minutes: []int{minutes}, Rate: usd(60), Prices: []money.Amount{usd(1)}}
		if minutes == 1_000_000 {
			on.Rate = usd(money.Most)
		}
		for f := range costOf(t, []int{1}, 0, on).Folios() {
			if f.Margin() != -1_000_000 {
				t.Errorf("of a cent for what costs %v are left %d", f.Each().Amount(), f.Margin())
			}
		}
	}
}

// Amounts that do not fit are said so, and make no break-even: a price is ten
// thousand times the cost where all but a ten-thousandth is margin.
func TestBeyondMeasure(t *testing.T) {
	gold := func(each int64) cost.Basis {
		return cost.Basis{Margin: 9999, Fee: usd(1), Supplies: []cost.Supply{{Name: "gold", Price: usd(1_000_000_000_000), Contents: 1, Amounts: []int64{each}}}}
	}
	for _, c := range []struct {
		copies []int
		each   int64 // 1e12 cents
		fits   bool
	}{{[]int{1}, 900, true}, {[]int{10}, 90, true}, {[]int{10}, 100, false}, {[]int{1, 1}, 450, true}, {[]int{1, 1}, 500, false}} {
		if n, ok := costOf(t, c.copies, 0, gold(c.each)).BreakEven(); ok != c.fits || n != map[bool]int64{true: 1}[c.fits] {
			t.Errorf("%v copies at %d: %d, %v", c.copies, c.each, n, ok)
		}
	}
	kind := sheets("12 x 12", layout.Unlimited, stock.GrainAlongHeight)
	kind.Price = usd(1)
	l := lay(t, wraps(t, []int{1}, kind))
	for each, label := range map[int64]string{1000: "Crew folio", 10_000_000: "gold"} {
		_, err := cost.Of(l, gold(each))
		var bad *check.Error
		if !errors.As(err, &bad) || bad.Len() != 1 {
			t.Errorf("%d: %v", each, err)
			continue
		}
		for v := range bad.All() {
			if v.Code != check.OutOfRange || v.Got != label+": money: amount out of range" {
				t.Errorf("%d: %v", each, v)
			}
		}
	}
	// What fits is told exactly, though each x times does not fit.
	b := costOf(t, []int{1}, 0, cost.Basis{Supplies: []cost.Supply{{Name: "gold", Price: usd(1_000_000_000_000), Contents: 1_000_000_000_000, Amounts: []int64{1_000_000_000_000}}}})
	if got := lines(b.Charges()); got[1] != "gold 10000000000.00 USD = 1000000000000 x 10000000000.00 USD / 1000000000000" {
		t.Errorf("%q", got)
	}
}

func lines(charges func(func(cost.Charge) bool)) (out []string) {
	for c := range charges {
		out = append(out, c.String())
	}
	return out
}

// Every charge says what it is, how it was rounded and what of the whole it is: the
// second case of costs.json, with a price as asked.
func TestWorkings(t *testing.T) {
	b := costOf(t, []int{0, 1}, 100, cost.Basis{})
	for f := range b.Folios() {
		if f.Index() != 1 || f.Name() != "Crew folio" || f.Copies() != 1 {
			t.Errorf("%d %q: %d copies, only the second has any", f.Index(), f.Name(), f.Copies())
		}
	}
	b = costOf(t, []int{2, 1}, 100, cost.Basis{Minutes: []int{20, 30}, Rate: usd(1000), Fee: usd(1000), Prices: []money.Amount{usd(1500)}})
	for c := range b.Charges() {
		if c.Rounding() != "up" {
			t.Errorf("%v is rounded %s", c, c.Rounding())
		}
	}
	folios := slices.Collect(b.Folios())
	want := []string{"share of marbled paper 2.13 USD of 3.00 USD", "share of labour 6.66 USD of 11.67 USD", "share of fee 6.66 USD of 10.00 USD"}
	if got := lines(folios[0].Shares()); !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
	counts := [][2]int64{{}, {40, 70}, {2, 3}}
	i := 0
	for s := range folios[0].Shares() {
		if s.Rounding() != "shared" {
			t.Errorf("%v is rounded %s", s, s.Rounding())
		}
		if _, times, over := s.Terms(); times != 1 || over != 1 {
			t.Errorf("%v is charged %d / %d times", s, times, over)
		}
		one := units.Nanometre.By(units.Nanometre)
		if part, whole := s.Portion(); i > 0 && (part != one.Times(counts[i][0]) || whole != one.Times(counts[i][1])) {
			t.Errorf("%v is %v of %v, want %v", s, part, whole, counts[i])
		}
		i++
	}
	p := folios[0].Price()
	if each, times, over := p.Terms(); p.String() != "price as asked 15.00 USD = 15.00 USD" || each != usd(1500) || times != 1 || over != 1 || p.Rounding() != "up" {
		t.Errorf("%v, %v x %d / %d, %s", p, each, times, over, p.Rounding())
	}
}

// Each material is shared among its own pieces: of two sheets of marbled paper at 1.00
// two wraps take 198 and a strip by hand 33 square inches, 1.71 and 0.29; a sheet of
// card at 0.50 goes by hand. A sheet at hand costs nothing, in the currency of the
// others; one that is not used is not charged.
func TestSharesByMaterial(t *testing.T) {
	kind := sheets("12 x 12", layout.Unlimited, stock.GrainAlongHeight)
	kind.Price = usd(100)
	job := wraps(t, []int{2}, kind)
	card := sheets("10 x 10", layout.Unlimited, 0)
	card.Price = usd(50)
	offcut, dear := sheets("3 x 3", 1, 0), sheets("20 x 20", 5, 0)
	offcut.Offcut, dear.Price = true, usd(9000)
	job.Materials = append(job.Materials, layout.Material{Name: "tag board", Sheets: []layout.SheetKind{offcut, dear, card}})
	job.Pieces = []layout.LoosePiece{
		{Name: "strip", Material: "marbled paper", Size: inches("3 x 11"), Quantity: 1, Grain: stock.GrainAny},
		{Name: "sign", Material: "tag board", Size: inches("9 x 9"), Quantity: 1, Grain: stock.GrainAny},
		{Name: "label", Material: "tag board", Size: inches("3 x 3"), Quantity: 1, Grain: stock.GrainAny},
	}
	b, err := cost.Of(lay(t, job), cost.Basis{})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"marbled paper, 12 x 12 in 2.00 USD = 2 x 1.00 USD", "tag board, 3 x 3 in offcut 0.00 USD = 0.00 USD", "tag board, 10 x 10 in 0.50 USD = 0.50 USD"}
	if got := lines(b.Charges()); !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
	for f := range b.Folios() {
		if f.Total() != usd(171) {
			t.Errorf("two wraps take %v", f.Total())
		}
		if got := lines(f.Shares()); !slices.Equal(got, []string{"share of marbled paper 1.71 USD of 2.00 USD", "share of tag board 0.00 USD of 0.50 USD"}) {
			t.Errorf("%q", got)
		}
	}
	if b.Loose() != usd(29+50) {
		t.Errorf("by hand %v", b.Loose())
	}
}
