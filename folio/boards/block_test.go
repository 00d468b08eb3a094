package boards_test

import (
	"testing"

	"boardwrap.example/folio/boards"
	"boardwrap.example/units"
)

// A block that is given has a square: 1/8 in (common practice, no published source),
// or 3 mm (University of Brighton, Hard Cover for Multi-section).
func TestSquares(t *testing.T) {
	page := units.Size{W: 148 * units.Millimetre, H: 210 * units.Millimetre}
	for _, c := range []struct {
		given  boards.Block
		n      units.Notation
		square units.Length
	}{
		{boards.Block{}, units.InchFraction, 0},
		{boards.Block{Page: page}, units.InchFraction, units.Inch / 8},
		{boards.Block{Page: page}, units.MetricDecimal, 3 * units.Millimetre},
		{boards.Block{Page: page, Square: 5}, units.MetricDecimal, 5},
		{boards.Block{Page: page, Square: units.None}, units.MetricDecimal, units.None},
	} {
		got := c.given
		if got.Fill(c.n); got.Square != c.square || got.Page != c.given.Page || got.Thickness != 0 || got.Setback != 0 {
			t.Errorf("%+v in %v became %+v, want a square of %v", c.given, c.n, got, c.square)
		}
		if c.given.Given() != (c.given.Page == page) {
			t.Errorf("%+v is given: %v", c.given, c.given.Given())
		}
	}
}
