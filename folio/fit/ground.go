package fit

import (
	"cmp"
	"slices"

	"boardwrap.example/folio/boards"
	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
)

// A ground is the free part of a panel: what lies there already, and how high
// the folio is filled over it when it is closed.
type ground struct {
	role    boards.Role
	area    units.Rect
	taken   []units.Rect // what fittings reach over
	fillers []filler     // none where the folio does not shut
}

// A filler says how high a part of a panel may be filled: of the room between the
// faces, over what lies on both of them, or of what is left beside a thing on a
// spine, over what lies on the panel itself. The ease is taken off.
type filler struct {
	part    units.Rect
	room    units.Length
	facing  []boards.Role // whose insides take part in it
	heights []height
}

// A height is a rectangle of the panel, and how high it is filled by one thing.
type height struct {
	rect   units.Rect
	height units.Length
}

func (s *Survey) ground(role boards.Role, area units.Rect) ground {
	g := ground{role: role, area: area}
	var own []height
	for f := range s.plan.Fittings() {
		if r := f.Reach(); !f.Outside() && r.Overlaps(area) {
			g.taken = append(g.taken, r)
		}
	}
	for o := range s.plan.Overheads(role, true) {
		part := o.Part().Intersect(area)
		if part.Empty() {
			continue
		}
		all := filler{part: part, room: o.Room() - s.ease, facing: o.Facing()}
		for h := range o.Heights() {
			if r := h.Rect().Intersect(area); !r.Empty() {
				all.heights = append(all.heights, height{r, h.Height()})
			}
		}
		g.fillers = append(g.fillers, all)
	}
	for h := range s.plan.Heights(true) {
		if r := h.Rect().Intersect(area); h.Panel() == role && !h.Outside() && !r.Empty() {
			own = append(own, height{r, h.Height()})
		}
	}
	for part, room := range s.plan.Beside(role, true) {
		if part = part.Intersect(area); !part.Empty() {
			g.fillers = append(g.fillers, filler{part: part, room: room - s.ease, heights: own})
		}
	}
	return g
}

// with is the ground with more on it: on a panel, itself or one that faces it.
func (g *ground) with(r units.Rect, h units.Length, on boards.Role) {
	if r = r.Intersect(g.area); r.Empty() || h == 0 {
		return
	}
	for i := range g.fillers {
		if f := &g.fillers[i]; on == g.role || slices.Contains(f.facing, on) {
			f.heights = append(slices.Clip(f.heights), height{r, h})
		}
	}
}

// A load is a mat with a picture in its middle: how large both are, where the
// picture lies on the mat, and how high each of them stands with its film.
type load struct {
	mat, picture units.Size
	in           units.Point
	low, high    units.Length // of the mat alone, and with its picture
}

// under is where the mat lies under a picture.
func (l load) under(picture units.Rect) units.Rect {
	return units.RectAt(picture.Min.Plus(units.Point{X: -l.in.X, Y: -l.in.Y}), l.mat)
}

// blocked returns where the upper left corner of a load cannot lie: inside any of
// the rectangles, whose edges are free. Of a search that is over it is not all.
func (g *ground) blocked(m *meter, l load) []units.Rect {
	var out []units.Rect
	add := func(r units.Rect, in units.Point, size units.Size) {
		out = append(out, units.Rect{
			Min: units.Point{X: r.Min.X - in.X - size.W, Y: r.Min.Y - in.Y - size.H},
			Max: units.Point{X: r.Max.X - in.X, Y: r.Max.Y - in.Y},
		})
	}
	for _, r := range g.taken {
		add(r, units.Point{}, l.mat)
	}
	for i := range g.fillers {
		mats, _ := g.fillers[i].full(m, l.low)
		for _, r := range mats {
			add(r, units.Point{}, l.mat)
		}
		pictures, _ := g.fillers[i].full(m, l.high)
		for _, r := range pictures {
			add(r, l.in, l.picture)
		}
	}
	inorder.Sort(out, func(a, b units.Rect) int { return cmp.Compare(a.Min.X, b.Min.X) })
	return out
}

// free reports whether a corner lies in none of what is blocked.
func free(blocked []units.Rect, at units.Point) bool {
	return !slices.ContainsFunc(blocked, func(r units.Rect) bool {
		return r.Min.X < at.X && at.X < r.Max.X && r.Min.Y < at.Y && at.Y < r.Max.Y
	})
}

// place finds the place nearest to the head, and then to the left, where a load
// lies clear of everything.
//
// If there is a place, then pushed to the head and to the left as far as it goes
// it is held, at its head and at its left, by the panel's edge or by something in
// the way.
func (g *ground) place(m *meter, l load) (units.Rect, bool) {
	if !l.mat.FitsIn(g.area.Size()) {
		return units.Rect{}, false
	}
	blocked := g.blocked(m, l)
	last := g.area.Max.Plus(units.Point{X: -l.mat.W, Y: -l.mat.H})
	ys := make([]units.Length, 0, len(blocked)+1)
	ys = append(ys, g.area.Min.Y)
	for _, r := range blocked {
		if r.Max.Y <= last.Y {
			ys = append(ys, max(g.area.Min.Y, r.Max.Y))
		}
	}
	for _, y := range inorder.Set(ys) {
		if m.work(1 + len(blocked)); m.over() {
			break
		}
		// From left to right, past everything that is in the way at this height.
		x := g.area.Min.X
		for _, r := range blocked {
			if r.Min.X >= x {
				break
			}
			if r.Min.Y < y && y < r.Max.Y {
				x = max(x, r.Max.X)
			}
		}
		if x <= last.X {
			return units.RectAt(units.Point{X: x, Y: y}, l.mat), true
		}
	}
	return units.Rect{}, false
}

// takes reports whether a rectangle may be filled so much higher.
func (g *ground) takes(m *meter, r units.Rect, high units.Length) bool {
	for i := range g.fillers {
		f := &g.fillers[i]
		on := filler{part: f.part.Intersect(r), room: f.room}
		if on.part.Empty() {
			continue
		}
		m.work(len(f.heights))
		for _, h := range f.heights {
			if h.rect.Overlaps(on.part) {
				on.heights = append(on.heights, h)
			}
		}
		if full, ok := on.full(m, high); !ok || len(full) > 0 {
			return false
		}
	}
	return true
}

// full returns where something so high has no room: level strips of the part, cut
// where any height begins or ends, and in each what is filled too high. It reports
// false where the meter ended it.
func (f *filler) full(m *meter, high units.Length) ([]units.Rect, bool) {
	limit := f.room - high
	if limit < 0 {
		return []units.Rect{f.part}, true
	}
	// Where everything together is not too high, nothing is.
	var sum units.Length
	for _, h := range f.heights {
		sum += h.height
	}
	if sum <= limit {
		return nil, true
	}
	ys := make([]units.Length, 0, 2*len(f.heights))
	byX := make([]edge, 0, 2*len(f.heights))
	for _, h := range f.heights {
		r := h.rect.Intersect(f.part)
		if r.Empty() {
			continue
		}
		ys = append(ys, r.Min.Y, r.Max.Y)
		byX = append(byX, edge{r.Min.X, r.Min.Y, r.Max.Y, h.height}, edge{r.Max.X, r.Min.Y, r.Max.Y, -h.height})
	}
	ys = inorder.Set(ys)
	inorder.Sort(byX, func(a, b edge) int { return cmp.Compare(a.x, b.x) })
	var out []units.Rect
	last := 0 // where the parts of the strip above begin
	for i := 1; i < len(ys); i++ {
		if m.work(1 + len(byX)); m.over() {
			return nil, false
		}
		from := len(out)
		out = strip(out, byX, ys[i-1], ys[i], limit)
		// A strip that is filled as the one above makes it longer.
		if same(out[last:from], out[from:]) {
			for k := last; k < from; k++ {
				out[k].Max.Y = ys[i]
			}
			out = out[:from]
		} else {
			last = from
		}
	}
	return out, true
}

// An edge is where a height begins, or ends with its negative, from left to
// right.
type edge struct {
	x, from, to units.Length
	height      units.Length
}

// strip appends the parts of a level strip that are filled higher than the
// limit.
func strip(out []units.Rect, byX []edge, from, to, limit units.Length) []units.Rect {
	var sum, start units.Length
	for i := 0; i < len(byX); {
		x, before := byX[i].x, sum > limit
		for ; i < len(byX) && byX[i].x == x; i++ {
			if e := byX[i]; e.from < to && from < e.to {
				sum += e.height
			}
		}
		switch now := sum > limit; {
		case before && !now:
			out = append(out, units.Rect{Min: units.Point{X: start, Y: from}, Max: units.Point{X: x, Y: to}})
		case !before && now:
			start = x
		}
	}
	return out
}

// same reports whether two strips, the second right under the first, are filled
// alike.
func same(above, below []units.Rect) bool {
	return slices.EqualFunc(above, below, func(a, b units.Rect) bool {
		return a.Min.X == b.Min.X && a.Max.X == b.Max.X
	})
}
