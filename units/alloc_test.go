package units_test

import (
	"testing"

	"boardwrap.example/units"
)

func TestNoAllocs(t *testing.T) {
	buf := make([]byte, 0, 256)
	text := []byte("4 1/2 in")
	l := 9 * in / 2
	size := units.Size{W: l, H: 25 * in / 4}
	w := units.Sum("liner width", units.Sixteenths, units.Down, units.T("open width", 83*in/8), units.N(-2, "inset", in/8))
	var r units.Ruler
	sizeText, long := []byte("4 1/2 x 6 1/4 in"), []byte("4 1/2 inches                             ")
	polygon := units.RectAt(units.Point{}, size).Polygon()
	for name, f := range map[string]func(){
		"Parse fraction":    func() { sink, _ = units.Parse("4 1/2 in") },
		"Parse sign":        func() { sink, _ = units.Parse("4½″") },
		"Parse decimal":     func() { sink, _ = units.Parse("114.3 mm") },
		"Parse feet":        func() { sink, _ = units.Parse(`1' 2 1/2"`) },
		"ParseSize":         func() { sinkSize, _ = units.ParseSize("4 1/2 x 6 1/4 in") },
		"Format.Append":     func() { units.Format{Ruler: units.Sixteenths}.Append(buf, l) },
		"typographic":       func() { units.Format{Ruler: units.Sixteenths, Typographic: true}.Append(buf, l+1) },
		"second ruler":      func() { units.Format{Second: units.Sixteenths}.Append(buf, l+1) },
		"Format.AppendSize": func() { units.Format{}.AppendSize(buf, size) },
		"Notation.Append":   func() { units.InchFraction.Append(buf, l, false) },
		"Length.AppendText": func() { _, _ = l.AppendText(buf) },
		"Ruler.AppendText":  func() { _, _ = units.Sixteenths.AppendText(buf) },
		"Working.AppendLine": func() {
			w.AppendLine(buf, false)
		},
		"Length.UnmarshalText":    func() { _ = sink.UnmarshalText(text) },
		"Ruler.UnmarshalText":     func() { _ = r.UnmarshalText(text[2:]) },
		"Size.UnmarshalText":      func() { _ = sinkSize.UnmarshalText(sizeText) },
		"Mass.UnmarshalText":      func() { _ = sinkMass.UnmarshalText([]byte("3 1/2 oz")) },
		"Area.UnmarshalText":      func() { _ = sinkArea.UnmarshalText([]byte("12.5 mm²")) },
		"Grammage.UnmarshalText":  func() { _ = sinkGrammage.UnmarshalText([]byte("65 lb cover")) },
		"Direction.UnmarshalText": func() { _ = sinkDirection.UnmarshalText([]byte("down")) },
		"Direction.AppendText":    func() { _, _ = units.Down.AppendText(buf) },
		"ParseMass":               func() { sinkMass, _ = units.ParseMass("12.5 g") },
		"Polygon.Contains":        func() { _ = polygon.Contains(units.Point{X: l, Y: l}) },
		"Polygon.Area":            func() { sinkArea = polygon.Area(units.Down) },
		"Area.Append":             func() { size.Area().Append(buf) },
		"Mass.Append":             func() { units.Gram.Append(buf) },
		"Round":                   func() { sink = units.Sixteenths.Round(l+1, units.Up).To },
		"Scale":                   func() { sink, _ = l.Scale(2, 3, units.Nearest) },
		"Of integer":              func() { sink, _ = units.Of(7, in) },
		"Of float":                func() { sink, _ = units.Of(7.3, in) },
		"Fraction":                func() { sink, _ = units.Fraction(1, 8, in) },
		"Diagonal":                func() { sink = units.Diagonal(l, 2*l, units.Up) },
		"Grammage.Mass":           func() { sinkMass = (120 * units.GramPerSquareMetre).Mass(size.Area()) },
		"BasisWeight":             func() { _ = units.BasisWeight(65*units.Pound, units.Cover.Size()) },
	} {
		if n := testing.AllocsPerRun(100, f); n != 0 {
			t.Errorf("%s: %v allocations; want 0", name, n)
		}
	}
	// What returns a string or a slice allocates that and nothing else.
	for name, f := range map[string]func(){
		"Text":                         func() { sinkText = units.Sixteenths.Text(l) },
		"Split":                        func() { sinkParts, _ = units.Sixteenths.Split(size.H, 4) },
		"a text of more than 32 bytes": func() { _ = sink.UnmarshalText(long) },
	} {
		if n := testing.AllocsPerRun(100, f); n > 1 {
			t.Errorf("%s: %v allocations; want at most 1", name, n)
		}
	}
	var g units.Ledger
	if n := testing.AllocsPerRun(64, func() {
		g.Sum("liner width", units.Sixteenths, units.Down, units.T("open width", 83*in/8), units.N(-2, "inset", in/8))
	}); n > 0 { // two allocations for 65 sums make 0 on average
		t.Errorf("Ledger.Sum: %v allocations a working", n)
	}
}

var (
	sink     units.Length
	sinkSize units.Size
	sinkMass units.Mass
	sinkText string

	sinkArea      units.Area
	sinkGrammage  units.Grammage
	sinkDirection units.Direction

	sinkParts []units.Length
)

func BenchmarkParse(b *testing.B) {
	for _, text := range []string{"4 1/2 in", "4½″", "114.3 mm", `1' 2 1/2"`} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				sink, _ = units.Parse(text)
			}
		})
	}
}

func BenchmarkParseSize(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		sinkSize, _ = units.ParseSize("4 1/2 x 6 1/4 in")
	}
}

func BenchmarkAppend(b *testing.B) {
	buf := make([]byte, 0, 64)
	for _, c := range []struct {
		name string
		f    units.Format
	}{
		{"fraction", units.Format{Ruler: units.Sixteenths}},
		{"typographic", units.Format{Ruler: units.Sixteenths, Typographic: true}},
		{"decimal", units.Format{Ruler: units.Thousandths}},
		{"metric", units.Format{}},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				buf = c.f.Append(buf[:0], 9*in/2)
			}
		})
	}
}

func BenchmarkRound(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		sink = units.Sixteenths.Up(114_300_001)
	}
}

func BenchmarkSplit(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		sinkParts, _ = units.WholeMillimetres.Split(297*mm, 7)
	}
}

func BenchmarkWorking(b *testing.B) {
	open, inset := units.T("open width", 83*in/8), units.N(-2, "inset", in/8)
	b.Run("sum", func(b *testing.B) {
		b.ReportAllocs()
		var g units.Ledger
		for b.Loop() {
			sink = g.Sum("liner width", units.Sixteenths, units.Down, open, inset).Length()
		}
	})
	b.Run("line", func(b *testing.B) {
		b.ReportAllocs()
		w := units.Sum("liner width", units.Sixteenths, units.Down, open, inset)
		buf := make([]byte, 0, 160)
		for b.Loop() {
			buf = w.AppendLine(buf[:0], false)
		}
	})
}
