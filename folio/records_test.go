package folio_test

import (
	"fmt"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// sized is a kind with how large and how thick its content is.
type sized struct {
	kind, mouth    int
	w, h, t        int64 // in hundredths of a millimetre, off the ruler
	count, corners int
	right, outside bool
}

func anySized() gopter.Gen {
	return proptest.Map(gopter.CombineGens(gen.IntRange(0, 13), gen.IntRange(0, 3), gen.Int64Range(1500, 7000), gen.Int64Range(1500, 9000), gen.Int64Range(0, 90),
		gen.IntRange(1, 3), gen.IntRange(0, 2), gen.Bool(), gen.Bool()), func(v []any) sized {
		return sized{v[0].(int), v[1].(int), v[2].(int64), v[3].(int64), v[4].(int64), v[5].(int), v[6].(int), v[7].(bool), v[8].(bool)}
	})
}

// fitting makes a fitting of any kind for its content.
func (s sized) fitting() folio.Fitting {
	c := pocket.Content{Name: "crew list", Size: units.Size{W: units.Length(s.w) * mm / 100, H: units.Length(s.h) * mm / 100}, Thickness: units.Length(s.t) * mm / 100}
	fold := func(k pocket.Kind) folio.Kind { return folio.Folded{Kind: k} }
	var k folio.Kind
	switch s.kind {
	case 0:
		k = folio.Mat{Picture: c}
	case 1:
		k = folio.Mat{Size: c.Size}
	case 2:
		k = folio.Frame{Picture: c, Mouth: score.Edge(s.mouth)}
	case 3:
		k = folio.Frame{Picture: c, Mouth: score.Edge(s.mouth), Film: "film"}
	case 4:
		k = folio.Ornament{Size: c.Size, Thickness: c.Thickness, Mass: units.Gram}
	case 5:
		k = fold(pocket.Slip{Content: c, Count: s.count})
	case 6:
		k = fold(pocket.Slip{Content: c, Build: pocket.FoldedFoot})
	case 7:
		k = fold(pocket.Corners{Content: c, Corners: []int{1, 2, 4}[s.corners]})
	case 8:
		k = fold(pocket.Flap{Content: c, Hinge: score.Edge(s.mouth)})
	case 9:
		k = fold(pocket.FoldedStrip{Content: c, OpensRight: s.right})
	case 10:
		k = fold(pocket.Gusset{Content: c, Count: s.count})
	case 11:
		k = fold(pocket.GussetRun{Content: c, Pockets: s.count})
	case 12:
		k = fold(pocket.FoldedAccordion{Content: c, Panels: s.count})
	default:
		k = fold(pocket.Pleat{Content: c, Pleats: s.count})
	}
	return folio.Fitting{Name: "crew", Kind: k, Outside: s.outside, Stock: "two-sided card"}
}

// What a fitting tells holds together: papers lie in the footprint and the
// footprint on the panel; contents lie in their spots; what is there when empty
// is there when full; pieces that are not folded are placed as often as they are
// cut, in their size.
func TestRecordsHoldTogether(t *testing.T) {
	seen := map[string]int{}
	proptest.Run(t, 1500, func(p *gopter.Properties) {
		p.Property("a fitting's record holds together", prop.ForAll(func(s sized) string {
			f := s.fitting()
			plan, err := folio.Build(folio.Spec{
				Cover: units.Size{W: 140 * mm, H: 180 * mm}, Spine: rule.Spine{Width: 90 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
				Stocks:   []stock.Stock{{Name: "two-sided card", Caliper: 230 * units.Micrometre, TwoSided: true}, {Name: "film", Caliper: mm / 10}},
				Fittings: []folio.Fitting{f},
			})
			if err != nil {
				seen["refused"]++
				return ""
			}
			seen[f.Kind.String()]++
			for fitted := range plan.Fittings() {
				if bad := holdsTogether(plan, fitted); bad != "" {
					return bad
				}
			}
			return ""
		}, anySized()))
	})
	if len(seen) < 11 || seen["refused"] > 100 {
		t.Errorf("lopsided: %v", seen)
	}
}

func holdsTogether(plan *folio.Plan, f folio.Fitted) string {
	panel, _ := plan.Panel(f.Panel(), f.Outside())
	if !f.Rect().In(panel) {
		return fmt.Sprintf("the footprint %v leaves the panel %v", f.Rect(), panel)
	}
	whole := map[int]int{}
	sizes, quantity := map[int]units.Size{}, map[int]int{}
	for i, q := range f.Pieces() {
		if at, fitted := q.Fitting(); at != 0 || !fitted || q.Part() != "crew" || q.Caliper() <= 0 || q.Size().Empty() || q.Quantity() < 1 {
			return fmt.Sprintf("piece %d: %q of %q, %v thick, %d of %v", i, q.Name(), q.Part(), q.Caliper(), q.Quantity(), q.Size())
		}
		sizes[i], quantity[i] = q.Size(), q.Quantity()
	}
	for q := range f.Placed() {
		i, copy := q.Piece()
		if !q.Rect().In(f.Rect()) || q.Outside() != f.Outside() {
			return fmt.Sprintf("piece %d lies at %v, outside %v", i, q.Rect(), q.Outside())
		}
		if _, folded := q.Panel(); !folded {
			whole[i]++
			if q.Rect().Size() != sizes[i] || copy < 0 || copy >= quantity[i] {
				return fmt.Sprintf("piece %d of %v lies as %v, copy %d", i, sizes[i], q.Rect().Size(), copy)
			}
		}
	}
	if _, folded := f.Design(); !folded {
		for i, n := range quantity {
			if whole[i] != n {
				return fmt.Sprintf("piece %d is placed %d times and cut %d times", i, whole[i], n)
			}
		}
	}
	for l := range f.Layers() {
		if l.Height(false) < 0 || l.Height(true) < l.Height(false) || l.Held() && l.Height(false) != 0 || !l.Held() && l.Height(true) != l.Height(false) || !l.Rect().In(f.Rect()) || l.Name() == "" {
			return fmt.Sprintf("layer %q at %v: %v, full %v", l.Name(), l.Rect(), l.Height(false), l.Height(true))
		}
	}
	for _, s := range f.Spots() {
		c, given := s.Content()
		if !s.Lies().In(s.Rect()) || !s.Rect().In(f.Rect()) || given && s.Lies().Size() != c.Size || !s.Capacity().Size.FitsIn(s.Clear()) {
			return fmt.Sprintf("%v lies at %v in %v, capacity %v", c.Size, s.Lies(), s.Rect(), s.Capacity())
		}
		if given && (!c.Size.FitsIn(s.Capacity().Size) || c.Thickness > s.Capacity().Thickness) {
			return fmt.Sprintf("the spot for %v takes %v", c, s.Capacity())
		}
		if _, slips := s.Mouth(); slips && s.WayIn().In(f.Rect()) {
			return fmt.Sprintf("the way in, %v, does not lead out of %v", s.WayIn(), f.Rect())
		}
	}
	for s := range f.Surfaces() {
		if !s.Rect().In(f.Rect()) || s.Height() > f.Height(false) || s.Name() == "" {
			return fmt.Sprintf("surface %q at %v, %v high", s.Name(), s.Rect(), s.Height())
		}
	}
	return ""
}
