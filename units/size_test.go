package units_test

import (
	"image"
	"testing"

	"boardwrap.example/units"
)

func rect(x0, y0, x1, y1 int) units.Rect {
	return units.Rect{Min: units.Point{X: units.Length(x0), Y: units.Length(y0)}, Max: units.Point{X: units.Length(x1), Y: units.Length(y1)}}
}

// TestRectAsImageRectangle compares with image.Rectangle, empty rectangles
// included.
func TestRectAsImageRectangle(t *testing.T) {
	var all [][4]int
	for x0 := range 4 {
		for y0 := range 4 {
			for x1 := range 4 {
				for y1 := range 4 {
					all = append(all, [4]int{x0, y0, x1, y1})
				}
			}
		}
	}
	same := func(r units.Rect, s image.Rectangle) bool {
		return r.Empty() == s.Empty() && (r.Empty() || r == rect(s.Min.X, s.Min.Y, s.Max.X, s.Max.Y))
	}
	for _, a := range all {
		r, ir := rect(a[0], a[1], a[2], a[3]), image.Rectangle{Min: image.Pt(a[0], a[1]), Max: image.Pt(a[2], a[3])}
		if r.Empty() != ir.Empty() || r.Size() != (units.Size{W: units.Length(ir.Dx()), H: units.Length(ir.Dy())}) {
			t.Errorf("%v: empty %t, size %v", ir, r.Empty(), r.Size())
		}
		if !same(r.Moved(units.Point{X: 2, Y: -1}), ir.Add(image.Pt(2, -1))) {
			t.Errorf("%v moved: %v", ir, r.Moved(units.Point{X: 2, Y: -1}))
		}
		if !r.Empty() {
			for d := -3; d <= 3; d++ {
				if !same(r.Grow(units.Length(d)), ir.Inset(-d)) {
					t.Errorf("%v grown by %d: %v; want %v", ir, d, r.Grow(units.Length(d)), ir.Inset(-d))
				}
			}
			if units.RectAt(r.Min, r.Size()) != r {
				t.Errorf("RectAt(%v)", r)
			}
		}
		for _, b := range all {
			s, is := rect(b[0], b[1], b[2], b[3]), image.Rectangle{Min: image.Pt(b[0], b[1]), Max: image.Pt(b[2], b[3])}
			if !same(r.Intersect(s), ir.Intersect(is)) || r.Intersect(s).Empty() && r.Intersect(s) != (units.Rect{}) {
				t.Errorf("%v ∩ %v = %v", ir, is, r.Intersect(s))
			}
			if !same(r.Union(s), ir.Union(is)) {
				t.Errorf("%v ∪ %v = %v", ir, is, r.Union(s))
			}
			if r.Overlaps(s) != ir.Overlaps(is) {
				t.Errorf("%v overlaps %v: %t", ir, is, r.Overlaps(s))
			}
			// image.Rectangle.In says false for an area in an empty one too.
			if r.In(s) != ir.In(is) {
				t.Errorf("%v in %v: %t; want %t", ir, is, r.In(s), ir.In(is))
			}
		}
	}
}

func TestGrowBelowNothing(t *testing.T) {
	r := rect(10, 10, 20, 40).Grow(-10)
	if !r.Empty() || r.Min.X != 15 || r.Max.X != 15 || r.Min.Y != 20 || r.Max.Y != 30 {
		t.Errorf("10 × 30 less 10 on each side: %v", r)
	}
}

func TestSizes(t *testing.T) {
	s, u := units.MustParseSize("4 1/2 x 6 1/4 in"), units.MustParseSize("6 x 5 in")
	for what, ok := range map[string]bool{
		"turned":         s.Turned() == units.MustParseSize("6 1/4 x 4 1/2 in"),
		"grown":          s.Grow(-in/8) == units.MustParseSize("4 1/4 x 6 in"),
		"grown back":     s.Grow(in).Grow(-in) == s,
		"plus":           s.Plus(in, 0) == units.MustParseSize("5 1/2 x 6 1/4 in"),
		"max":            s.Max(u) == units.MustParseSize("6 x 6 1/4 in"),
		"min":            s.Min(u) == units.MustParseSize("4 1/2 x 5 in"),
		"fits itself":    s.FitsIn(s),
		"does not fit":   !s.FitsIn(u) && !s.FitsTurned(u),
		"fits turned":    !units.MustParseSize("5 x 6 in").FitsIn(u) && units.MustParseSize("5 x 6 in").FitsTurned(u),
		"empty":          units.Size{}.Empty() && units.Size{W: in}.Empty() && units.Size{W: in, H: -1}.Empty() && !s.Empty(),
		"below nothing":  s.Grow(-3 * in).Empty(),
		"area":           units.MustParseSize("1 x 1 in").Area().String() == "645.16 mm²", // NIST SP 811, appendix B.8
		"point":          units.Point{X: 1, Y: 2}.Plus(units.Point{X: 3, Y: -4}) == units.Point{X: 4, Y: -2},
		"empty in empty": units.Rect{}.In(units.Rect{}),
	} {
		if !ok {
			t.Error(what)
		}
	}
}
