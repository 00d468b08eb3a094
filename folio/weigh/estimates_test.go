package weigh_test

import (
	"math"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/weigh"
	"boardwrap.example/internal/foliotest"
	"boardwrap.example/units"
)

// item returns the only item of a weight with a name.
func item(t *testing.T, w weigh.Weight, name string) weigh.Entry {
	t.Helper()
	var out weigh.Entry
	for i := range w.Entries() {
		if i.Name() == name && out.Name() != "" {
			t.Errorf("%s twice", name)
		}
		if i.Name() == name {
			out = i
		}
	}
	if out.Name() == "" {
		t.Fatalf("no %s", name)
	}
	return out
}

// block is a folio round pages of that size and thickness.
func block(t *testing.T, side, thick units.Length) *folio.Plan {
	t.Helper()
	s := foliotest.Weighed()
	s.Cover, s.Spine, s.Fittings = units.Size{}, rule.Spine{}, nil
	s.Block = boards.Block{Page: units.Size{W: side, H: side}, Thickness: thick}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Of unknown grammage but 0.0091 in thick, paper is index of 110 lb, 200 g/m² (US
// Government Paper Specification Standards No. 11, 1999); of 0.1 mm it has the
// share 0.1/0.23114 of that, 86.528 g/m².
func TestPaperByItsCaliper(t *testing.T) {
	for _, c := range []struct {
		caliper units.Length
		want    units.Grammage
	}{{91 * units.Inch / 10_000, 200_000}, {mm / 10, 86_528}} {
		s := foliotest.Weighed()
		s.Liner.Caliper, s.Liner.Grammage = c.caliper, 0
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		i := item(t, of(t, p, weigh.Options{Estimate: true}), "liner")
		if i.Grammage() != c.want || i.Certainty() != weigh.Estimated || i.Mass() != c.want.Mass(i.Area()) {
			t.Errorf("paper of %v: %v, %v, %v; want %d mg/m²", c.caliper, i.Grammage(), i.Certainty(), i.Mass(), c.want)
		}
	}
}

// However little it is, what was given is known: a milligram a square metre, of
// which 300 mm² of a spine have 0.3 µg, rounded to none, and a microgram of an
// ornament or of a block.
func TestLeastThatIsKnown(t *testing.T) {
	s := foliotest.Weighed()
	s.Cover.H, s.Spine.Width, s.Board.Grammage = 100*mm, 3*mm, 1
	s.Fittings = s.Fittings[1:]
	s.Fittings[0].Kind = folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Mass: units.Microgram}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	w := of(t, p, weigh.Options{Estimate: true})
	// Two covers have 0.01 m² each, so 10 µg.
	for name, want := range map[string]units.Mass{"spine board": 0, "cover board": 20, "ornament": 1} {
		if i := item(t, w, name); i.Mass() != want*units.Microgram || i.Certainty() != weigh.Known {
			t.Errorf("%s: %d µg, %v; want %d", name, i.Mass(), i.Certainty(), want)
		}
	}
	b := item(t, of(t, block(t, 100*mm, 10*mm), weigh.Options{Filled: true, Block: units.Microgram}), "block")
	if b.Mass() != units.Microgram || b.Certainty() != weigh.Known {
		t.Errorf("a block of a microgram: %d µg, %v", b.Mass(), b.Certainty())
	}
}

// A mass is exact up to the most that a number of micrograms holds, and that beyond
// it: at 25 000 kg/m³ a square metre has 25 000 µg for each nanometre, so that a
// million blocks of 368 934 881 nm have 9 223 372 025 000 000 000 µg, and those a
// nanometre thicker more than 2⁶³ - 1.
func TestMostThatIsWeighed(t *testing.T) {
	for thick, want := range map[units.Length]units.Mass{368_934_881: 9_223_372_025_000_000_000, 368_934_882: math.MaxInt64} {
		w := of(t, block(t, units.Metre, thick), weigh.Options{Filled: true, Copies: weigh.MostCopies, Density: weigh.MostDensity})
		if i := item(t, w, "block"); i.Mass() != want || i.Certainty() != weigh.Estimated || i.Quantity() != 1_000_000 {
			t.Errorf("%d nm: %d µg, %v; want %d", thick, i.Mass(), i.Certainty(), want)
		}
		// With 2000 t of boards round them it is more in either case.
		if all, _ := w.Total(); all != math.MaxInt64 {
			t.Errorf("%d nm: %d µg in all", thick, all)
		}
	}
}

// What has no name is a content, and what is a nanometre thick is not without a
// thickness: the default is 1.4 mg/m² a nanometre, to whole mg/m² 1 for one and 14 for
// ten, of which 9 600 mm² have 9.6 and 134.4 µg.
func TestContentWithoutAName(t *testing.T) {
	for thick, want := range map[units.Length]units.Mass{0: 0, 1: 10, 10: 134} {
		s := foliotest.Weighed()
		mat := s.Fittings[0].Kind.(folio.Mat)
		mat.Picture.Name, mat.Picture.Thickness = "", thick
		s.Fittings[0].Kind = mat
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		certainty := weigh.Estimated
		if thick == 0 {
			certainty = weigh.Unknown
		}
		if i := item(t, of(t, p, weigh.Options{Filled: true}), "content"); i.Mass() != want || i.Certainty() != certainty || i.Part() != "mat" {
			t.Errorf("%d nm: %d µg, %v, of %s; want %d, %v", thick, i.Mass(), i.Certainty(), i.Part(), want, certainty)
		}
	}
}
