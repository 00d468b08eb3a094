package fit

import (
	"iter"
	"slices"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// places walks where a content may lie on a panel: the first place, which does for the
// last content, and then every place that something which comes after could
// leave it, pushed as far as it goes. Two
// contents that lie clear of each other stay so when both are pushed to the head
// and to one side; one of them is then held by nothing but what was there, and so
// on with the rest.
func (t *together) places(grounds []ground, r Room, c pocket.Content) iter.Seq[units.Rect] {
	return func(yield func(units.Rect) bool) {
		at := slices.IndexFunc(grounds, func(g ground) bool { return g.role == r.panel })
		l := t.s.load(c)
		first, ok := grounds[at].place(t.m, l)
		if !ok || !yield(units.RectAt(first.Min.Plus(l.in), c.Size)) {
			return
		}
		for p := range grounds[at].corners(t.m, l) {
			if p != first.Min && !yield(units.RectAt(p.Plus(l.in), c.Size)) {
				return
			}
		}
	}
}

// corners walks the places of a load's upper left corner where it is held at its
// head or tail, and at its left or right, by something or by the panel's edge.
func (g *ground) corners(m *meter, l load) iter.Seq[units.Point] {
	return func(yield func(units.Point) bool) {
		blocked := g.blocked(m, l)
		last := g.area.Max.Plus(units.Point{X: -l.mat.W, Y: -l.mat.H})
		xs, ys := []units.Length{g.area.Min.X, last.X}, []units.Length{g.area.Min.Y, last.Y}
		add := func(r units.Rect, in units.Point, size units.Size) {
			xs = append(xs, r.Max.X-in.X, r.Min.X-in.X-size.W)
			ys = append(ys, r.Max.Y-in.Y, r.Min.Y-in.Y-size.H)
		}
		for _, r := range g.taken {
			add(r, units.Point{}, l.mat)
		}
		for i := range g.fillers {
			f := &g.fillers[i]
			add(f.part, units.Point{}, l.mat)
			add(f.part, l.in, l.picture)
			for _, h := range f.heights {
				add(h.rect, units.Point{}, l.mat)
				add(h.rect, l.in, l.picture)
			}
		}
		within := func(list []units.Length, low, high units.Length) []units.Length {
			list = slices.DeleteFunc(list, func(v units.Length) bool { return v < low || v > high })
			return inorder.Set(list)
		}
		xs, ys = within(xs, g.area.Min.X, last.X), within(ys, g.area.Min.Y, last.Y)
		for _, y := range ys {
			for _, x := range xs {
				if m.work(1 + len(blocked)); m.over() {
					return
				}
				if p := (units.Point{X: x, Y: y}); free(blocked, p) && !yield(p) {
					return
				}
			}
		}
	}
}
