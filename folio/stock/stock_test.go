package stock_test

import (
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

const mm = units.Millimetre

// A caliper that is given brings no mass with it: a board of another thickness has
// another mass.
func TestFill(t *testing.T) {
	board := stock.DefaultBoard(units.InchFraction)
	for _, c := range []struct {
		given, want stock.Stock
	}{
		{stock.Stock{}, board},
		{stock.Stock{Grammage: units.GramPerSquareMetre}, stock.Stock{Name: "board", Caliper: board.Caliper, Grammage: units.GramPerSquareMetre}},
		{stock.Stock{Name: "grey", Caliper: 2 * mm}, stock.Stock{Name: "grey", Caliper: 2 * mm}},
	} {
		got := c.given
		if got.Fill(&board); !got.Same(&c.want) || got.Name != c.want.Name {
			t.Errorf("%v filled in: %v, want %v", c.given, got, c.want)
		}
	}
	// US Government Paper Specification Standards No. 11, 1999: 80 lb text and 110 lb
	// index; 1/16 in of chipboard is common practice, no published source.
	for name, c := range map[string]struct {
		got      stock.Stock
		caliper  units.Length
		grammage units.Grammage
	}{
		"board": {board, units.Inch / 16, 1016 * units.GramPerSquareMetre}, "covering": {stock.DefaultCovering(units.InchFraction), 63 * units.Inch / 10000, 120 * units.GramPerSquareMetre},
		"liner": {stock.DefaultLiner(units.InchFraction), 63 * units.Inch / 10000, 120 * units.GramPerSquareMetre}, "card": {stock.DefaultCard(units.InchFraction), 91 * units.Inch / 10000, 200 * units.GramPerSquareMetre},
		// 1.5 mm of greyboard at 640 g/m² a millimetre, and the papers to a hundredth.
		"metric board": {stock.DefaultBoard(units.MetricDecimal), mm + mm/2, 960 * units.GramPerSquareMetre}, "metric covering": {stock.DefaultCovering(units.MetricDecimal), 16 * mm / 100, 120 * units.GramPerSquareMetre},
		"metric liner": {stock.DefaultLiner(units.MetricDecimal), 16 * mm / 100, 120 * units.GramPerSquareMetre}, "metric card": {stock.DefaultCard(units.MetricDecimal), 23 * mm / 100, 200 * units.GramPerSquareMetre},
	} {
		if "metric "+c.got.Name != name && c.got.Name != name || c.got.Caliper != c.caliper || c.got.Grammage != c.grammage {
			t.Errorf("%s: %v", name, c.got)
		}
	}
}

// Each field alone makes a stock something, and another material.
func TestEmptyAndSame(t *testing.T) {
	plain := stock.Stock{Caliper: mm, Grammage: 100 * units.GramPerSquareMetre}
	if !(stock.Stock{}).Empty() || !plain.Same(&plain) {
		t.Error("nothing is empty, and a material is itself")
	}
	for name, change := range map[string]func(*stock.Stock){
		"caliper": func(s *stock.Stock) { s.Caliper++ }, "grammage": func(s *stock.Stock) { s.Grammage++ },
		"one way": func(s *stock.Stock) { s.OneWay = true }, "two-sided": func(s *stock.Stock) { s.TwoSided = true },
		"sheets": func(s *stock.Stock) { s.Sheets = make([]stock.Sheet, 1) },
	} {
		some, other := stock.Stock{}, plain
		change(&some)
		change(&other)
		if some.Empty() || other.Same(&plain) || plain.Same(&other) {
			t.Errorf("%s: empty %t, the same %t", name, some.Empty(), other.Same(&plain))
		}
		// What sheets there are is no part of what it is.
		if can := name == "sheets"; other.CanBe(&plain) != can || plain.CanBe(&other) != can {
			t.Errorf("%s: can be one material %t", name, !can)
		}
	}
	unknown := stock.Stock{Caliper: mm} // its mass
	if unknown.Same(&plain) || !unknown.CanBe(&plain) || !plain.CanBe(&unknown) {
		t.Error("what is unknown can be as anything")
	}
	for _, s := range []stock.Stock{{Name: "a"}, {Sheets: make([]stock.Sheet, 1)}} {
		if s.Empty() {
			t.Errorf("%v is empty", s)
		}
	}
}

func TestCheck(t *testing.T) {
	sheet := stock.Sheet{Size: units.Size{W: 200 * mm, H: 300 * mm}, Grain: stock.GrainAlongHeight}
	many := func(n int) (list []stock.Sheet) {
		for range n {
			list = append(list, sheet)
		}
		return list
	}
	for _, c := range []struct {
		name string
		s    stock.Stock
		want []string
	}{
		{"paper", stock.Stock{Caliper: mm, Sheets: many(stock.MaxSheets)}, nil},
		{"the heaviest", stock.Stock{Caliper: mm, Grammage: 10_000 * units.GramPerSquareMetre}, nil},
		{"heavier", stock.Stock{Caliper: mm, Grammage: 10_000*units.GramPerSquareMetre + 1}, []string{"grammage: out-of-range"}},
		{"below nothing", stock.Stock{Caliper: mm, Grammage: -1}, []string{"grammage: out-of-range"}},
		{"no caliper", stock.Stock{}, []string{"caliper: not-positive"}},
		{"too many sheets", stock.Stock{Caliper: mm, Sheets: many(stock.MaxSheets + 1)}, []string{"sheets: too-many"}},
		{"a sheet of nothing, and one of no grain", stock.Stock{Caliper: mm, Sheets: []stock.Sheet{sheet, {Size: units.Size{W: mm}}, {Size: sheet.Size, Grain: 9}}},
			[]string{"sheets[1].size.h: not-positive", "sheets[2].grain: unknown"}},
		{"a sheet as narrow as nothing", stock.Stock{Caliper: mm, Sheets: []stock.Sheet{{Size: units.Size{H: mm}}}}, []string{"sheets[0].size.w: not-positive"}},
		{"a thousand sheets", stock.Stock{Caliper: mm, Sheets: many(1000)}, nil},
		{"one more", stock.Stock{Caliper: mm, Sheets: many(1001)}, []string{"sheets: too-many"}},
	} {
		var got []string
		if bad, ok := c.s.Check(units.MetricDecimal).(*check.Error); ok {
			for v := range bad.All() {
				got = append(got, v.Path+": "+string(v.Code))
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	if s := (stock.Stock{Caliper: mm}); !s.Sound() {
		t.Error("a caliper is enough")
	}
	for g, want := range map[units.Grammage]bool{0: true, 10_000 * units.GramPerSquareMetre: true, 10_000*units.GramPerSquareMetre + 1: false} {
		if s := (stock.Stock{Caliper: mm, Grammage: g}); s.Sound() != want {
			t.Errorf("%v is sound: %v", g, s.Sound())
		}
	}
	for n, want := range map[units.Notation]string{units.InchFraction: " in", units.MetricDecimal: " mm"} {
		if err := (stock.Stock{Caliper: units.Longest + 1}).Check(n); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("in %v: %v", n, err)
		}
	}
	if s := (stock.Stock{Caliper: mm, Grammage: -1}); s.Sound() {
		t.Error("a mass below nothing is not sound")
	}
}
