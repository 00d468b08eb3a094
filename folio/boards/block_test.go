package boards_test

import (
	"testing"

	"boardwrap.example/folio/boards"
	"boardwrap.example/units"
)

// The square is 1/8 in by common practice, without a published source, and 3 mm in
// the University of Brighton's Hard Cover for Multi-section.
func TestBlockDefaults(t *testing.T) {
	page := units.Size{W: 100 * units.Millimetre, H: 140 * units.Millimetre}
	for _, c := range []struct {
		n            units.Notation
		given, want  units.Length
		of           units.Size
		isThereABody bool
	}{
		{units.InchFraction, 0, units.Inch / 8, page, true},
		{units.MetricDecimal, 0, 3 * units.Millimetre, page, true},
		{units.MetricDecimal, units.None, units.None, page, true},
		{units.MetricDecimal, units.Millimetre, units.Millimetre, page, true},
		{units.MetricDecimal, 0, 0, units.Size{}, false},
	} {
		b := boards.Block{Page: c.of, Square: c.given}
		if b.Fill(c.n); b.Square != c.want || b.Given() != c.isThereABody {
			t.Errorf("a square of %v in %v became %v, want %v", c.given, c.n, b.Square, c.want)
		}
	}
}
