package view_test

import (
	"testing"

	"boardwrap.example/folio/view"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// By hand: a row 100 wide turned over, and one moved by 7 and 9.
func TestTransforms(t *testing.T) {
	rect := func(x0, y0, x1, y1 units.Length) units.Rect {
		return units.Rect{Min: units.Point{X: x0, Y: y0}, Max: units.Point{X: x1, Y: y1}}
	}
	triangle := func(a, b, c units.Point) units.Polygon {
		p, err := units.NewPolygon(a, b, c)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	of := triangle(units.Point{X: 10, Y: 20}, units.Point{X: 40, Y: 20}, units.Point{X: 40, Y: 60})
	for _, c := range []struct {
		name        string
		t           view.Transform
		over        bool
		point       units.Point // where 10, 20 is seen
		rect        units.Rect  // where 10, 20 to 40, 60 is
		shape       units.Polygon
		left, right score.Edge
	}{
		{"as it is", view.Transform{}, false, units.Point{X: 10, Y: 20}, rect(10, 20, 40, 60), of, score.Left, score.Right},
		{"moved", view.Moved(units.Point{X: 7, Y: 9}), false, units.Point{X: 17, Y: 29}, rect(17, 29, 47, 69),
			triangle(units.Point{X: 17, Y: 29}, units.Point{X: 47, Y: 29}, units.Point{X: 47, Y: 69}), score.Left, score.Right},
		{"turned over", view.TurnedOver(100), true, units.Point{X: 90, Y: 20}, rect(60, 20, 90, 60),
			triangle(units.Point{X: 90, Y: 20}, units.Point{X: 60, Y: 20}, units.Point{X: 60, Y: 60}), score.Right, score.Left},
	} {
		from, in := units.Point{X: 10, Y: 20}, rect(10, 20, 40, 60)
		if got := c.t.Point(from); got != c.point {
			t.Errorf("%s: a point is seen at %v, want %v", c.name, got, c.point)
		}
		if got := c.t.Rect(in); got != c.rect {
			t.Errorf("%s: a rectangle is seen at %v, want %v", c.name, got, c.rect)
		}
		if got := c.t.Polygon(of); !got.Equal(c.shape) {
			t.Errorf("%s: a shape is seen at %v, want %v", c.name, got, c.shape)
		}
		if c.t.Over() != c.over || c.t.Edge(score.Left) != c.left || c.t.Edge(score.Right) != c.right || c.t.Edge(score.Head) != score.Head || c.t.Edge(score.Tail) != score.Tail {
			t.Errorf("%s: over %v, the left edge is the %v one, the right the %v one", c.name, c.t.Over(), c.t.Edge(score.Left), c.t.Edge(score.Right))
		}
		if back := c.t.Inverse(); back.Point(c.point) != from || back.Rect(c.rect) != in || back.Over() != c.over {
			t.Errorf("%s: back, a point is at %v and a rectangle at %v", c.name, back.Point(c.point), back.Rect(c.rect))
		}
	}
}
