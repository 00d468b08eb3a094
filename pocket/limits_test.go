package pocket_test

import (
	"testing"

	"boardwrap.example/internal/mendtest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A spine that would take thousands gets as many as there may be, and no more.
func TestSpineWithoutEnd(t *testing.T) {
	k := pocket.Concertina{Leaf: units.Size{W: 20 * mm, H: 30 * mm}, Fold: mm, OnSpine: true, Spine: units.Longest}
	if n := design(t, k, pocket.Paper{Caliper: mm / 10}, units.WholeMillimetres).Pockets(); n != 500 {
		t.Errorf("%d leaves stand on a spine of 10 m", n)
	}
}

// A tab for joints is of no matter where nothing is joined.
func TestTabOfNoJoint(t *testing.T) {
	for _, k := range []pocket.Kind{
		pocket.FoldedAccordion{Panel: units.Size{W: 70 * mm, H: 100 * mm}, Panels: 4, JointTab: 90 * mm},
		pocket.Concertina{Leaf: units.Size{W: 70 * mm, H: 100 * mm}, Leaves: 4, JointTab: 90 * mm},
		pocket.GussetRun{Place: units.Size{W: 120 * mm, H: 90 * mm}, Pockets: 4, JointTab: 90 * mm},
	} {
		if _, err := k.Design(pocket.Paper{}, units.WholeMillimetres); err != nil {
			t.Errorf("%s: %v", k.Name(), err)
		}
	}
}

// Each limit of the package is taken at it, and refused above it.
func TestLimits(t *testing.T) {
	designed := func(k pocket.Kind, p pocket.Paper) error {
		_, err := k.Design(p, units.TenthMillimetres)
		return err
	}
	thin := pocket.Paper{Caliper: units.Shortest}
	leaf := pocket.Content{Size: units.Size{W: 20 * units.Millimetre, H: 20 * units.Millimetre}}
	mendtest.Limits(t, map[string]mendtest.Limit{
		"maxCount": {At: 1000, Path: "count", Code: check.TooMany, Try: func(n int64) error {
			return designed(pocket.Slip{Content: leaf, Count: int(n)}, thin)
		}},
		"maxPockets of a run": {At: 500, Path: "pockets", Code: check.TooMany, Try: func(n int64) error {
			return designed(pocket.GussetRun{Content: leaf, Pockets: int(n), Half: units.Millimetre, Tab: units.Millimetre, Glue: units.Millimetre}, thin)
		}},
		"maxPockets of pleats": {At: 500, Path: "pleats", Code: check.TooMany, Try: func(n int64) error {
			return designed(pocket.Pleat{Content: leaf, Pleats: int(n), Visible: units.Millimetre, Fold: units.Millimetre}, thin)
		}},
		"maxPockets of a concertina": {At: 500, Path: "leaves", Code: check.TooMany, Try: func(n int64) error {
			return designed(pocket.Concertina{Content: leaf, Leaves: int(n), Fold: units.Millimetre}, thin)
		}},
		"maxPockets of an accordion": {At: 500, Path: "panels", Code: check.TooMany, Try: func(n int64) error {
			return designed(pocket.FoldedAccordion{Content: leaf, Panels: int(n)}, thin)
		}},
		"maxGrammage": {At: 10_000 * int64(units.GramPerSquareMetre), Path: "paper.grammage", Code: check.OutOfRange, Try: func(n int64) error {
			return designed(pocket.Slip{Content: leaf}, pocket.Paper{Grammage: units.Grammage(n), Caliper: units.Millimetre / 10})
		}},
		"parts of a share": {At: 1_000_000, Path: "depth", Code: check.OutOfRange, Try: func(n int64) error {
			return designed(pocket.Slip{Content: leaf, Depth: pocket.Share{Part: int(n) / 2, Of: int(n)}}, thin)
		}},
		"units.Longest": {At: int64(units.Longest), Path: "glue", Code: check.OutOfRange, Try: func(n int64) error {
			return designed(pocket.Slip{Content: leaf, Glue: units.Length(n)}, thin)
		}, Also: func(err error) error { // it is too wide then, but the field is sound
			for _, v := range violationsOf(err) {
				if v.Path == "glue" {
					return err
				}
			}
			return nil
		}},
	})
}
