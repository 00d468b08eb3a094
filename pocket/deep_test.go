package pocket_test

import (
	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// A pocket that takes all of a content of 82.3 mm with its ease, and a glued foot of
// 6 mm, is 83 + 6 mm high on a ruler of millimetres; where there is no room for
// that, as high as the place.
func TestDeepAsThePlace(t *testing.T) {
	for place, want := range map[units.Length]units.Length{
		88*mm + 300*um: 88*mm + 300*um, 88*mm + 400*um: 88*mm + 400*um, 88*mm + 900*um: 88*mm + 900*um, 89 * mm: 89 * mm, 90 * mm: 89 * mm,
	} {
		s := pocket.Slip{Content: sized(50*mm, 80*mm+300*um), Ease: loose, Depth: all, Place: units.Size{W: 100 * mm, H: place}}
		d, err := s.Design(pocket.Paper{}, units.WholeMillimetres)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range d.Pieces() {
			if got := p.Blank().Size().H; got != want {
				t.Errorf("on a place %v high the %s is %v high; want %v", place, p.Name(), got, want)
			}
		}
	}
}
