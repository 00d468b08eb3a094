package folio_test

import (
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// besideBlock is a gate with a block so thick on its back, 10 mm from the edges of that, and
// a badge so thick on the right door, so far from its hinge: when shut it lies beside the block.
func besideBlock(crease rule.CreasePlace, from, block, badge units.Length) folio.Spec {
	s := folio.Spec{
		Form: boards.DoubleSpineGate, Block: boards.Block{Page: units.Size{W: 90 * mm, H: 130 * mm}, Square: 10 * mm, Thickness: block}, Spine: rule.Spine{Width: 18 * mm},
		Board: stock.Stock{Caliper: 2 * mm}, Liner: stock.Stock{Caliper: mm / 10}, Covering: stock.Stock{Caliper: mm / 5},
		Rulers: rule.Rulers{Main: nanometres()}, Mitre: rule.Mitre{Distance: 5 * mm}, Closing: closing.Allowance{Ease: units.None},
		Lining: rule.Lining{Inset: mm}, Clearance: units.Micrometre, Hinge: rule.Hinge{Rule: rule.HingeLeast, Crease: crease},
		Fittings: []folio.Fitting{{Name: "badge", Panel: boards.RightDoor, Kind: folio.Ornament{Size: units.Size{W: 3 * mm, H: 20 * mm}, Thickness: badge},
			Place: place.Place{Along: place.Head, Across: place.Left, Offset: units.Point{X: from, Y: 40 * mm}}}},
	}
	if crease == rule.CreaseAtOffset {
		s.Hinge.Offset = mm / 3
	}
	return s
}

// What passes a block is warned of where it meets it on the way, by a motion that knows
// nothing of circles; as far from it as would do it passes, and so it does if it is as much
// lower as is said, or the block is.
func TestPassingABlock(t *testing.T) {
	met := 0
	for crease := rule.CreaseAtEdge; crease <= rule.CreaseRound; crease++ {
		passing := func(from, block, badge units.Length) (w check.Warning, meets bool) {
			p := mustBuild(t, besideBlock(crease, from, block, badge))
			for o := range p.Warnings() {
				if o.Code == folio.WarnPassing {
					w = o
				}
			}
			return w, collides(t, p, filledAt(p, 50*mm, 1e-4), 200) != ""
		}
		from, block, badge := 5*mm, 9*mm, 8*mm
		first, meets := passing(from, block, badge)
		if meets != (first.Code != "") {
			t.Errorf("%v: meets %v, warned %v", crease, meets, first)
		}
		if !meets {
			continue
		}
		met++
		before, text, _ := strings.Cut(first.Text, ", or either of them lower by ")
		lower, err := units.Parse(text)
		if err != nil || !strings.Contains(before, "badge touches the block, beside which it comes to lie: ") || first.Path != "fittings[0].place" {
			t.Fatalf("%v: %v", crease, first)
		}
		more := first.Want - first.Got
		for what, at := range map[string][3]units.Length{
			"further from it": {from - more, block, badge}, "the block lower": {from, block - lower, badge}, "the badge lower": {from, block, badge - lower},
		} {
			if w, meets := passing(at[0], at[1], at[2]); meets || w.Code != "" {
				t.Errorf("%v, %s: meets %v, warned %v", crease, what, meets, w)
			}
		}
	}
	if met < 2 {
		t.Errorf("only %d met", met)
	}
}

// A block whose thickness nobody gives is a size to build a cover around, and nothing else:
// boards and gaps are those of a cover of that size.
func TestBlockWithoutThickness(t *testing.T) {
	for _, contents := range []units.Length{mm / 10, 5 * mm, 12 * mm} {
		for _, form := range []boards.Form{boards.SpineBoard, boards.SoftSpine, boards.ForeEdgeFlap, boards.DoubleSpineGate} {
			s := plainCase()
			s.Form, s.Spine = form, rule.Spine{Contents: contents}
			if form == boards.SoftSpine {
				s.Hinge = rule.Hinge{}
			}
			around := s
			around.Cover, around.Block = units.Size{}, boards.Block{Page: units.Size{W: s.Cover.W - 3*mm, H: s.Cover.H - 6*mm}, Square: 3 * mm}
			want, got := slices.Collect(widths(mustBuild(t, s))), slices.Collect(widths(mustBuild(t, around)))
			if !slices.Equal(want, got) {
				t.Errorf("%v, contents of %v: boards and gaps of %v, around a page %v", form, contents, want, got)
			}
		}
	}
}
