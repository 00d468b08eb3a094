package pocket_test

import (
	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// Four corners hold a card: each has its right angle at a corner of the footprint, and
// half the area of its square.
func TestCornersAreTriangles(t *testing.T) {
	d, err := pocket.Corner{Content: pocket.Content{Size: units.Size{W: 60 * mm, H: 90 * mm}}, Leg: 20 * mm}.Design(pocket.Paper{}, units.WholeMillimetres)
	if err != nil {
		t.Fatal(err)
	}
	found := map[units.Point]bool{}
	for _, p := range d.Panels() {
		out := p.Outline()
		if out.Len() != 3 || out.Bounds() != p.Closed() || out.DoubleArea().Compare(p.Closed().Size().Area()) != 0 {
			t.Errorf("the corner at %v has the outline %v", p.Closed(), out)
		}
		size := d.Closed()
		for _, c := range []units.Point{{}, {X: size.W}, {Y: size.H}, {X: size.W, Y: size.H}} {
			level, upright := false, false
			for a, b := range out.Edges() {
				level = level || (a == c || b == c) && a.Y == b.Y
				upright = upright || (a == c || b == c) && a.X == b.X
			}
			found[c] = found[c] || level && upright
		}
	}
	for c, ok := range found {
		if !ok {
			t.Errorf("no right angle at %v", c)
		}
	}
	if len(found) != 4 {
		t.Errorf("%d corners", len(found))
	}
}
