package pocket_test

import (
	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Four corners hold a card: each has its right angle at a corner of the footprint, and
// half the area of its square.
func TestCornersAreTriangles(t *testing.T) {
	d, err := pocket.Corners{Content: pocket.Content{Size: units.Size{W: 60 * mm, H: 90 * mm}}, Leg: 20 * mm}.Design(pocket.Paper{}, units.WholeMillimetres)
	if err != nil {
		t.Fatal(err)
	}
	found := map[units.Point]bool{}
	for _, p := range d.Panels() {
		out := d.Outline(p)
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

// A thumb notch is cut into the mouth of a pocket: of the panel that lies over the
// content half a circle is missing in the middle of the edge at which the content
// goes in, wherever folds bring that edge, and nothing of its other edges.
func TestNotchesAreAtTheMouth(t *testing.T) {
	c, n := pocket.Content{Size: units.Size{W: 60 * mm, H: 90 * mm}}, pocket.ThumbNotch{Width: 16 * mm, Depth: 8 * mm}
	for _, test := range []struct {
		kind  pocket.Kind
		panel string
		mouth score.Edge
	}{
		{pocket.Slip{Content: c, Notch: n}, "front", score.Head},
		{pocket.Slip{Content: c, Notch: n, Build: pocket.FoldedFoot}, "front", score.Head},
		{pocket.Gusset{Content: c, Notch: n}, "front", score.Head},
		{pocket.GussetRun{Content: c, Notch: n, Pockets: 2}, "leaf", score.Head},
		{pocket.FoldedAccordion{Content: c, Notch: n, Panels: 4}, "foot", score.Head},
		{pocket.FoldedStrip{Content: c, Notch: n, Hem: 20 * mm}, "pocket front", score.Left},
		{pocket.FoldedStrip{Content: c, Notch: n, Hem: 20 * mm, OpensRight: true}, "pocket front", score.Right},
	} {
		d, err := test.kind.Design(pocket.Paper{Caliper: mm / 5, TwoSided: true}, units.WholeMillimetres)
		if err != nil {
			t.Errorf("%s: %v", test.kind.Name(), err)
			continue
		}
		met := 0
		for _, p := range d.Panels() {
			if p.Name() != test.panel {
				continue
			}
			met++
			out, r := d.Outline(p), p.Closed()
			if out.Bounds() != r {
				t.Errorf("the %s of the %s lies at %v; want %v", p.Name(), test.kind.Name(), out.Bounds(), r)
			}
			mid := units.Point{X: (r.Min.X + r.Max.X) / 2, Y: (r.Min.Y + r.Max.Y) / 2}
			for e, q := range map[score.Edge]units.Point{
				score.Head: {X: mid.X, Y: r.Min.Y + mm}, score.Tail: {X: mid.X, Y: r.Max.Y - mm},
				score.Left: {X: r.Min.X + mm, Y: mid.Y}, score.Right: {X: r.Max.X - mm, Y: mid.Y},
			} {
				if out.Contains(q) == (e == test.mouth) {
					t.Errorf("the %s of the %s is %v; its mouth is at the %v", p.Name(), test.kind.Name(), out, test.mouth)
				}
			}
			// Half a circle 16 mm across has 100.53 mm², what is cut by chords a little less.
			cut := r.Size().Area().Minus(out.Area(units.Nearest)).Quotient(mm.By(mm))
			if cut < 100 || cut > 100.54 {
				t.Errorf("of the %s of the %s %.2f mm² are missing", p.Name(), test.kind.Name(), cut)
			}
		}
		if met == 0 {
			t.Errorf("no %s of the %s", test.panel, test.kind.Name())
		}
	}
}
