package weigh_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/weigh"
	"boardwrap.example/internal/foliotest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

const mm = units.Millimetre

// of weighs a plan with options that are sound.
func of(t *testing.T, p *folio.Plan, o weigh.Options) weigh.Weight {
	t.Helper()
	w, err := weigh.Of(p, o)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// Worked by hand: areas in m² times grammages.
func TestWeightByHand(t *testing.T) {
	p, err := folio.Build(foliotest.Weighed())
	if err != nil {
		t.Fatal(err)
	}
	leg := p.Wrap().Corners()[0].Leg().Length().Millimetres()
	want := map[string]float64{
		"cover board": 2 * 0.100 * 0.150 * 1000,
		"spine board": 0.020 * 0.150 * 1000,
		// Open 100 + 4 + 20 + 4 + 100 = 228; four triangles come off.
		"wrap":     (258*180 - 2*leg*leg) / 1e6 * 100,
		"liner":    0.222 * 0.144 * 100,
		"mat":      0.090 * 0.130 * 300,
		"ornament": 3,
		// 0.5 mm at 1400 g/m² per mm.
		"card": 0.080 * 0.120 * 700,
	}
	total := 0.0
	for part := range of(t, p, weigh.Options{Filled: true}).Entries() {
		w, ok := want[part.Name()]
		if !ok {
			t.Errorf("%s was not expected", part.Name())
		}
		if got := part.Mass().Grams(); math.Abs(got-w) > 1e-5 {
			t.Errorf("%s weighs %v g, want %v", part.Name(), got, w)
		}
		delete(want, part.Name())
		total += w
	}
	if len(want) > 0 {
		t.Errorf("missing: %v", want)
	}
	mass, certainty := of(t, p, weigh.Options{Filled: true}).Total()
	if math.Abs(mass.Grams()-total) > 1e-4 || certainty != weigh.Estimated {
		t.Errorf("total %v, %v; want %v g, estimated", mass, certainty, total)
	}
	empty, certainty := of(t, p, weigh.Options{}).Total()
	if certainty != weigh.Known || math.Abs(mass.Grams()-empty.Grams()-6.72) > 1e-5 {
		t.Errorf("empty %v, %v", empty, certainty)
	}
}

// A grammage that is not known is never nothing in silence.
func TestUnknownWeight(t *testing.T) {
	s := foliotest.Weighed()
	s.Board.Grammage = 0
	s.Fittings[1].Kind = folio.Ornament{Size: units.Size{W: mm, H: mm}}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	unknown := map[string]bool{}
	for part := range of(t, p, weigh.Options{}).Unknown() {
		unknown[part.Name()] = true
		if part.Mass() != 0 {
			t.Errorf("%s has a mass of %v", part.Name(), part.Mass())
		}
	}
	if len(unknown) != 3 || !unknown["cover board"] || !unknown["spine board"] || !unknown["ornament"] {
		t.Errorf("unknown: %v", unknown)
	}
	if _, c := of(t, p, weigh.Options{}).Total(); c != weigh.Unknown {
		t.Errorf("the total is %v", c)
	}
	// Estimated: 2 mm at 640 g/m² per mm.
	for part := range of(t, p, weigh.Options{Estimate: true}).Entries() {
		if part.Name() == "spine board" && (part.Certainty() != weigh.Estimated || part.Grammage() != 1280*units.GramPerSquareMetre) {
			t.Errorf("spine board: %v at %v", part.Certainty(), part.Grammage())
		}
	}
}

// A plastic card of ISO/IEC 7810 ID-1 weighs about 5 g (from memory).
func TestWeightOfACard(t *testing.T) {
	s := foliotest.Weighed()
	s.Fittings = []folio.Fitting{{Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard().Turned()}}, Stock: "card 300"}}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	found := false
	for part := range of(t, p, weigh.Options{Filled: true}).Entries() {
		if part.Name() == "ID-1 card" {
			found = true
			if g := part.Mass().Grams(); g < 4.7 || g > 5.2 {
				t.Errorf("it weighs %v g", g)
			}
		}
	}
	if !found {
		t.Error("the card was not weighed")
	}
}

// Official nominal basis weights (US Government Paper Specification Standards
// No. 11, 1999): index 110 is 200 g/m², text 80 is 120 g/m², cover 65 is 175
// g/m², within 1.5 %. A folio weighs that much more or less, whichever of the
// two its papers are given by.
func TestBasisWeightsWithinTolerance(t *testing.T) {
	for _, c := range []struct {
		pounds  units.Mass
		basic   units.BasicSize
		nominal units.Grammage
	}{
		{110, units.Index, 200}, {80, units.Text, 120}, {65, units.Cover, 175},
	} {
		exact := units.BasisWeight(c.pounds*units.Pound, c.basic.Size())
		var mass [2]float64
		for i, g := range []units.Grammage{exact, c.nominal * units.GramPerSquareMetre} {
			s := foliotest.Weighed()
			s.Liner.Grammage = g
			p, err := folio.Build(s)
			if err != nil {
				t.Fatal(err)
			}
			for part := range of(t, p, weigh.Options{}).Entries() {
				if part.Name() == "liner" {
					mass[i] = part.Mass().Grams()
				}
			}
		}
		if off := math.Abs(mass[0]/mass[1] - 1); off > 0.015 {
			t.Errorf("%v %d lb: %v g by the pound, %v g by the nominal grammage", c.basic, c.pounds, mass[0], mass[1])
		}
	}
}

// What is estimated is so to the nearest mg/m²: 640 g/m² for a millimetre of board
// are 0.64 mg/m² for a nanometre, and two covers are 0.03 m².
func TestEstimatesAreRounded(t *testing.T) {
	for caliper, want := range map[units.Length]units.Mass{
		2*mm + 1: 38_400_030 * units.Microgram, // 1280000.64 mg/m², so 1280001
		2*mm + 2: 38_400_030 * units.Microgram, // 1280001.28
		2*mm + 3: 38_400_060 * units.Microgram, // 1280001.92
	} {
		s := foliotest.Weighed()
		s.Board.Caliper, s.Board.Grammage = caliper, 0
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		for part := range of(t, p, weigh.Options{Estimate: true}).Entries() {
			if part.Name() == "cover board" && part.Mass() != want {
				t.Errorf("boards of %d nm weigh %d µg, want %d", caliper, part.Mass(), want)
			}
		}
	}
}

// A sheet of ISO 216 A4 of 80 g/m² weighs 5 g: A0 is a square metre, and A4 a
// sixteenth of it (ISO 216:2007, whose sides are rounded to the millimetre).
func TestWeightOfA4(t *testing.T) {
	a4 := units.Size{W: 210 * mm, H: 297 * mm}
	if g := (80 * units.GramPerSquareMetre).Mass(a4.Area()).Grams(); math.Abs(g-5) > 0.012 {
		t.Errorf("A4 weighs %v g", g)
	}
}

// Options have bounds; what is beyond them is refused and not bent.
func TestOptionsRefused(t *testing.T) {
	p, err := folio.Build(foliotest.Weighed())
	if err != nil {
		t.Fatal(err)
	}
	for path, o := range map[string]weigh.Options{
		"copies": {Copies: math.MaxInt}, "density": {Density: -1}, "block": {Block: -units.Gram},
	} {
		_, err := weigh.Of(p, o)
		var bad *check.Error
		if !errors.As(err, &bad) || bad.Len() != 1 {
			t.Errorf("%+v: %v", o, err)
		} else if _, ok := bad.Find(path, ""); !ok {
			t.Errorf("%+v: %v", o, err)
		}
	}
	if _, err := weigh.Of(p, weigh.Options{Copies: -1}); err == nil {
		t.Error("less than one copy was weighed")
	}
	one, _ := of(t, p, weigh.Options{}).Total()
	many, _ := of(t, p, weigh.Options{Copies: weigh.MostCopies}).Total()
	if many != one*weigh.MostCopies {
		t.Errorf("a million weigh %v, one %v", many, one)
	}
}

// Certainties have texts that read back.
func TestCertaintyTexts(t *testing.T) {
	for _, c := range []weigh.Certainty{weigh.Known, weigh.Estimated, weigh.Unknown} {
		text, err := c.MarshalText()
		var back weigh.Certainty
		if err != nil || back.UnmarshalText(text) != nil || back != c || string(text) != c.String() {
			t.Errorf("%v: %q, %v, back %v", uint8(c), text, err, back)
		}
	}
	if _, err := weigh.Certainty(9).MarshalText(); err == nil {
		t.Error("a ninth certainty")
	}
	var c weigh.Certainty
	if err := c.UnmarshalText([]byte("perhaps")); err == nil {
		t.Error("perhaps")
	}
}

// What is unknown is said.
func ExampleOf() {
	mm := units.Millimetre
	medal := folio.Ornament{Size: units.Size{W: 24 * mm, H: 24 * mm}, Thickness: 2 * mm}
	plan, err := folio.Build(folio.Spec{
		Cover: units.Size{W: 110 * mm, H: 160 * mm}, Spine: rule.Spine{Width: 16 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Board: stock.Stock{Caliper: 2 * mm}, // of a grammage that nobody has said
		Fittings: []folio.Fitting{
			{Name: "spring medal", Panel: boards.LeftCover, Kind: medal},
			{Name: "autumn medal", Kind: medal, Place: place.Place{Along: place.Tail}},
		},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	weight, err := weigh.Of(plan, weigh.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	_, certainty := weight.Total()
	fmt.Println("total:", certainty)
	for part := range weight.Unknown() {
		fmt.Println(part.Quantity(), part.Name(), "of", part.Part())
	}
	// Output:
	// total: unknown
	// 2 cover board of case
	// 1 spine board of case
	// 1 ornament of spring medal
	// 1 ornament of autumn medal
}

// A block is as heavy as it is said to be; a content whose thickness nobody gave
// weighs nobody knows what, and so does foam, which no caliper tells the mass of.
func TestWhatIsKnownOfContents(t *testing.T) {
	s := foliotest.Weighed()
	s.Cover, s.Spine = units.Size{}, rule.Spine{}
	s.Block = boards.Block{Page: units.Size{W: 100 * mm, H: 150 * mm}, Thickness: 10 * mm}
	s.Stocks[0].Grammage = 0
	s.Fittings = []folio.Fitting{
		{Name: "frame", Panel: boards.LeftCover, Kind: folio.Frame{Picture: pocket.Content{Name: "print", Size: units.Size{W: 60 * mm, H: 90 * mm}}, Lap: 3 * mm, Rail: 12 * mm, FoamWidth: 6 * mm, Ease: mm}},
	}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	met := map[string]bool{}
	for part := range of(t, p, weigh.Options{Filled: true, Estimate: true, Block: 50 * units.Gram}).Entries() {
		met[part.Name()] = true
		switch {
		case part.Name() == "block" && (part.Mass() != 50*units.Gram || part.Certainty() != weigh.Known):
			t.Errorf("the block weighs %v, %v", part.Mass(), part.Certainty())
		case part.Name() == "print" && part.Certainty() != weigh.Unknown:
			t.Errorf("the print is %v", part.Certainty())
		case strings.Contains(part.Name(), "foam") && part.Certainty() != weigh.Unknown:
			t.Errorf("%s is %v", part.Name(), part.Certainty())
		case strings.Contains(part.Name(), "foam"):
			met["foam"] = true
		}
	}
	if !met["block"] || !met["print"] || !met["foam"] {
		t.Errorf("parts: %v", met)
	}
	// Else it is estimated: 0.015 m², 10 mm at 1400 g/m² each.
	blocks := 0
	for part := range of(t, p, weigh.Options{Filled: true}).Entries() {
		if part.Name() != "block" {
			continue
		}
		if blocks++; part.Mass() != 210*units.Gram || part.Certainty() != weigh.Estimated || part.Quantity() != 1 {
			t.Errorf("the block is estimated at %v, %v, %d of it", part.Mass(), part.Certainty(), part.Quantity())
		}
	}
	if blocks != 1 {
		t.Errorf("%d blocks", blocks)
	}
}
