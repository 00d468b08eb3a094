package pocket_test

import (
	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// What has no middle on a nanometre lies half a nanometre nearer to the left or to
// the head, and is made.
func TestOddNanometres(t *testing.T) {
	paper := pocket.Paper{Caliper: mm / 4, TwoSided: true}
	// A half panel of 6 mm at each side, and an ease of 2.000001 mm in the middle.
	d, err := pocket.Gusset{Content: sized(50*mm, 80*mm), Ease: pocket.Ease{W: 2*mm + nm, H: 2 * mm}}.Design(paper, units.TenthMillimetres)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range d.Places() {
		// The width needed goes up to a tenth, 64.1, so the clear width is 52.1, and
		// 50.099999 are free.
		if r := p.Rect(); r.Min.X != 7*mm || r.Max.X != 57*mm+mm/10-nm {
			t.Errorf("the content lies from %d to %d", r.Min.X, r.Max.X)
		}
	}
	// A notch of 10.000001 mm in a strip 94 mm high begins at 41.9999995 mm, and half
	// of it is 5.0000005, which is as round as it can be.
	d, err = pocket.FoldedStrip{Content: sized(50*mm, 80*mm), Ease: loose, Notch: pocket.Notch{Width: 10*mm + nm, Depth: 6 * mm}}.Design(paper, units.TenthMillimetres)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range d.Pieces() {
		for _, c := range p.Blank().Drawing().CutOuts {
			if c.Area.Min.Y != 41999999 || c.Area.Max.Y != 52*mm || c.Radius != 5*mm {
				t.Errorf("the notch lies from %d to %d, its corners %d round", c.Area.Min.Y, c.Area.Max.Y, c.Radius)
			}
		}
	}
}

// A strip of 251 mm alone: of its hem, no more than an eighth of it, 31.375, 31 mm
// are on the ruler; a flap 3 mm narrower than the base and a front of two thirds of
// it are 2 2/3 bases less 3 mm, so that a base is 3/8 of 223 mm, 83.6, to the nearest
// millimetre. The hem is what is left.
func TestStripAloneIsDivided(t *testing.T) {
	d, err := pocket.FoldedStrip{Strip: units.Size{W: 251 * mm, H: 100 * mm}}.Design(pocket.Paper{Caliper: mm / 4, TwoSided: true}, units.WholeMillimetres)
	if err != nil {
		t.Fatal(err)
	}
	want := []units.Length{81 * mm, 84 * mm, 56 * mm, 30 * mm}
	i := 0
	for _, p := range d.Panels() {
		if w := p.Blank().Size().W; i >= len(want) || w != want[i] {
			t.Errorf("%s is %v wide", p.Name(), w)
		}
		i++
	}
	if i != len(want) {
		t.Errorf("%d panels", i)
	}
}
