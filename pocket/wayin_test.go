package pocket_test

import (
	"errors"
	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A content goes in over its mouth: the way in reaches from the place to that
// edge of the footprint and is as wide as the place.
func TestWayIn(t *testing.T) {
	card := pocket.IDCard()
	for _, k := range []pocket.Kind{
		pocket.Slip{Content: card}, pocket.Corners{Content: card}, pocket.FoldedStrip{Content: card.Turned()},
		pocket.FoldedStrip{Content: card.Turned(), OpensRight: true}, pocket.Gusset{Content: card}, pocket.GussetRun{Content: card},
		pocket.FoldedAccordion{Content: card}, pocket.Concertina{Content: card}, pocket.Pleat{Content: card},
	} {
		d, err := pocket.Make(k, pocket.Paper{}, units.WholeMillimetres)
		if err != nil {
			t.Errorf("%s: %v", k.Name(), err)
			continue
		}
		for i, p := range d.Spots() {
			way, r, whole := d.WayIn(p), p.Rect(), units.RectAt(units.Point{}, d.Closed())
			want := r
			if !p.Mounted() {
				switch p.Mouth() {
				case score.Head:
					want.Min.Y = whole.Min.Y
				case score.Tail:
					want.Max.Y = whole.Max.Y
				case score.Left:
					want.Min.X = whole.Min.X
				case score.Right:
					want.Max.X = whole.Max.X
				}
			}
			if way != want || !r.In(way) {
				t.Errorf("%s, place %d: %v, want %v", k.Name(), i, way, want)
			}
			// Who puts something on a pocket counts on that.
			if _, flap := d.Carrier(); !p.Mounted() && p.Mouth() != score.Head && !flap {
				t.Errorf("%s, place %d: a mouth at the %v, and no flap over it", k.Name(), i, p.Mouth())
			}
		}
	}
}

// A groove appends what it writes.
func TestGrooveAppended(t *testing.T) {
	if got, err := pocket.GrooveInside.AppendText([]byte("x ")); string(got) != "x inside" || err != nil {
		t.Errorf("%q, %v", got, err)
	}
	if got, err := pocket.Groove(7).AppendText([]byte("x ")); string(got) != "x " || !errors.Is(err, units.ErrUnknown) {
		t.Errorf("%q, %v", got, err)
	}
}
