package pocket_test

import (
	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// designsOf designs every kind for a card.
func designsOf(t *testing.T, c pocket.Content) map[string]pocket.Design {
	t.Helper()
	out := map[string]pocket.Design{}
	for _, k := range []pocket.Kind{
		pocket.Slip{Content: c}, pocket.Slip{Content: c, Build: pocket.FoldedFoot}, pocket.Corners{Content: c}, pocket.Flap{Content: c},
		pocket.FoldedStrip{Content: c}, pocket.FoldedStrip{Content: c, OpensRight: true}, pocket.Gusset{Content: c},
		pocket.GussetRun{Content: c}, pocket.FoldedAccordion{Content: c}, pocket.Concertina{Content: c}, pocket.Pleat{Content: c},
	} {
		d, err := k.Design(pocket.Paper{}, units.Sixteenths)
		if err != nil {
			t.Fatalf("%s: %v", k.Name(), err)
		}
		name := k.Name()
		if s, ok := k.(pocket.FoldedStrip); ok && s.OpensRight {
			name += ", right"
		}
		out[name] = d
	}
	return out
}

// What a full pocket has beyond an empty one is its filling, everywhere.
func TestFillingIsTheDifference(t *testing.T) {
	over := func(r units.Rect, p units.Point) bool {
		return r.Min.X <= p.X && p.X < r.Max.X && r.Min.Y <= p.Y && p.Y < r.Max.Y
	}
	for name, d := range designsOf(t, pocket.IDCard()) {
		for i := range units.Length(40) {
			for j := range units.Length(40) {
				p := units.Point{X: d.Closed().W / 40 * i, Y: d.Closed().H / 40 * j}
				var empty, full, filling units.Length
				for h := range d.Heights(false) {
					if over(h.Rect(), p) {
						empty += h.Height()
					}
				}
				for h := range d.Heights(true) {
					if over(h.Rect(), p) {
						full += h.Height()
					}
				}
				for h := range d.Filling() {
					if over(h.Rect(), p) {
						filling += h.Height()
					}
				}
				if full != empty+filling {
					t.Fatalf("%s at %v: %v empty, %v full, %v of filling", name, p, empty, full, filling)
				}
			}
		}
	}
}

func TestPlacesSayTheirMouth(t *testing.T) {
	for name, d := range designsOf(t, pocket.IDCard()) {
		if c, ok := d.Content(); !ok || c != pocket.IDCard() {
			t.Errorf("%s: designed for %v, %v", name, c, ok)
		}
		n := 0
		for _, p := range d.Spots() {
			mouth, mounted, hidden := score.Head, false, n > 0 && name != "pleats"
			switch name {
			case "folded strip":
				mouth, hidden = score.Left, true
			case "folded strip, right":
				mouth, hidden = score.Right, true
			case "corner pocket", "hinged leaf", "concertina guard":
				mounted = true
			}
			if p.Mouth() != mouth || p.Mounted() != mounted || p.Hidden() != hidden {
				t.Errorf("%s, pocket %d: mouth %v, mounted %v, hidden %v", name, n, p.Mouth(), p.Mounted(), p.Hidden())
			}
			n++
		}
	}
	d, err := pocket.Slip{Place: units.MustParseSize("4 x 5 in")}.Design(pocket.Paper{}, units.Sixteenths)
	if err != nil {
		t.Fatal(err)
	}
	if c, ok := d.Content(); ok {
		t.Errorf("designed for nothing, and says %v", c)
	}
}

// Cut with the other side up a design shows the other side, everywhere, and is
// otherwise the same.
func TestShowing(t *testing.T) {
	for name, d := range designsOf(t, pocket.IDCard()) {
		right, wrong := d.Showing(work.RightSide), d.Showing(work.WrongSide)
		if right.Paper().Up == wrong.Paper().Up || right.Closed() != wrong.Closed() || right.Thickness(true) != wrong.Thickness(true) {
			t.Errorf("%s: cut with the %v and the %v up", name, right.Paper().Up, wrong.Paper().Up)
		}
		for _, p := range d.Panels() {
			if right.Up(p) == wrong.Up(p) {
				t.Errorf("%s: the %s shows its %v either way", name, p.Name(), right.Up(p))
			}
		}
		// What is seen first is the first panel of a flap, the front of a pocket.
		for _, panel := range []string{"flap", "leaf", "front", "corner"} {
			if p, ok := d.Panel(panel); ok && right.Up(p) != work.RightSide {
				t.Errorf("%s: the %s shows its %v", name, panel, right.Up(p))
			}
		}
	}
}
