package pocket_test

import (
	"testing"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

func benchmarks() []struct {
	name string
	kind pocket.Kind
} {
	card := pocket.IDCard()
	strip := pocket.FoldedStrip{Strip: units.Size{W: 12 * units.Inch, H: 6 * units.Inch}}
	strip.Scores = [4]units.Length{31 * units.Inch / 8, 63 * units.Inch / 8, 21 * units.Inch / 2}
	return []struct {
		name string
		kind pocket.Kind
	}{
		{"Slip", pocket.Slip{Content: card}},
		{"Corner", pocket.Corners{Content: card}},
		{"Flap", pocket.Flap{Content: card}},
		{"FoldedStrip", pocket.FoldedStrip{Content: card}},
		{"FoldedStripByScores", strip},
		{"Gusset", pocket.Gusset{Content: card, Count: 8}},
		{"GussetRun5", pocket.GussetRun{Content: card, Pockets: 5}},
		{"FoldedAccordion6", pocket.FoldedAccordion{Content: card, Panels: 6}},
		{"FoldedAccordion100", pocket.FoldedAccordion{Content: card, Panels: 100}},
		{"FoldedAccordionForSpine", pocket.FoldedAccordion{Content: card, Spine: units.Inch}},
		{"Concertina5", pocket.Concertina{Content: card, Leaves: 5}},
		{"Pleat3", pocket.Pleat{Content: card}},
	}
}

var sink pocket.Design

func BenchmarkDesign(b *testing.B) {
	for _, k := range benchmarks() {
		b.Run(k.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				d, err := k.kind.Design(pocket.Paper{}, units.Sixteenths)
				if err != nil {
					b.Fatal(err)
				}
				sink = d
			}
		})
	}
}

func BenchmarkAccepts(b *testing.B) {
	d, err := benchmarks()[0].kind.Design(pocket.Paper{}, units.Sixteenths)
	if err != nil {
		b.Fatal(err)
	}
	card := pocket.IDCard()
	b.ReportAllocs()
	for b.Loop() {
		if d.Accepts(card) != nil {
			b.Fatal("refused")
		}
	}
}

func BenchmarkHeights(b *testing.B) {
	d, err := benchmarks()[3].kind.Design(pocket.Paper{}, units.Sixteenths)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		for range d.Heights(true) {
		}
	}
}

// A plan designs its pockets anew for every Spec, so designing must stay cheap.
func TestFewAllocations(t *testing.T) {
	if proptest.Cases(100) < 100 {
		t.Skip("the race detector and WebAssembly allocate more")
	}
	ceiling := map[string]float64{"Slip": 12, "Corner": 75 /* its slants meet: score works out exactly that they leave one piece */, "Flap": 9, "FoldedStrip": 6, "FoldedStripByScores": 4, "Gusset": 30, "Pleat3": 12}
	for _, k := range benchmarks() {
		most, ok := ceiling[k.name]
		if !ok {
			continue
		}
		if got := testing.AllocsPerRun(100, func() { sink, _ = k.kind.Design(pocket.Paper{}, units.Sixteenths) }); got > most {
			t.Errorf("%s takes %v allocations; the ceiling is %v", k.name, got, most)
		}
	}
}
