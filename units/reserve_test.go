package units_test

import (
	"testing"

	"boardwrap.example/units"
)

// Who knows how many terms there will be takes one allocation for them.
func TestReserve(t *testing.T) {
	const terms = 40
	if n := testing.AllocsPerRun(100, func() {
		var g units.Ledger
		g.Reserve(terms)
		for range terms / 2 {
			g.Sum("two", units.Sixteenths, units.Up, units.T("one", units.Inch), units.T("other", units.Inch))
		}
	}); n > 2 {
		t.Errorf("%v allocations", n)
	}
	var g units.Ledger
	g.Reserve(1)
	first := g.Sum("first", units.Sixteenths, units.Up, units.T("a", units.Inch))
	g.Reserve(100)
	g.Sum("second", units.Sixteenths, units.Up, units.T("b", 2*units.Inch))
	for term := range first.Terms() {
		if term != units.T("a", units.Inch) {
			t.Errorf("more room changed %v", first)
		}
	}
}

// Corners on a straight line are no corners, wherever the walk begins.
func TestStraightCornersGo(t *testing.T) {
	const mm = units.Millimetre
	at := func(x, y units.Length) units.Point { return units.Point{X: x * mm, Y: y * mm} }
	square := []units.Point{at(0, 0), at(5, 0), at(10, 0), at(10, 4), at(10, 10), at(6, 10), at(0, 10), at(0, 3)}
	for k := range square {
		turned := append(append([]units.Point(nil), square[k:]...), square[:k]...)
		p, err := units.NewPolygon(turned...)
		if err != nil || p.Len() != 4 {
			t.Errorf("from corner %d: %v, %d corners", k, err, p.Len())
			continue
		}
		if r, ok := p.Rect(); !ok || r.Size() != (units.Size{W: 10 * mm, H: 10 * mm}) {
			t.Errorf("from corner %d: %v", k, r)
		}
	}
}
