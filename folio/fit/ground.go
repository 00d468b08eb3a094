package fit

import (
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// A ground is the free part of a panel: what lies there already, and how high
// the folio is filled over it when it is closed.
type ground struct {
	area    units.Rect
	taken   []units.Rect // footprints of fittings
	heights []height
	room    units.Length // for what is laid there with its mat; heights take from it
	limited bool         // by the closing
}

// A height is a rectangle of the panel, and how high it is filled by one thing.
type height struct {
	rect   units.Rect
	height units.Length
}

func (s *Survey) ground(role folio.Role, area units.Rect, film units.Length) ground {
	g := ground{area: area}
	for f := range s.plan.Fittings() {
		if f.Panel() == role && !f.Outside() {
			g.taken = append(g.taken, f.Rect())
		}
	}
	heights, room, ok := s.plan.Over(role, true)
	if !ok {
		return g
	}
	g.room, g.limited = room-s.ease-film-s.mat, true
	for h := range heights {
		if r := h.Rect().Intersect(area); !r.Empty() {
			g.heights = append(g.heights, height{r, h.Height()})
		}
	}
	return g
}

// free finds a free place for a content and the reveal round it.
func (s *Survey) free(room int, c pocket.Content) (units.Rect, bool) {
	if !sound(c) || !c.Size.FitsIn(s.rooms[room].size) {
		return units.Rect{}, false
	}
	mat := c.Size.Grow(s.reveal)
	mat = units.Size{W: s.ruler.Up(mat.W), H: s.ruler.Up(mat.H)}
	at, ok := s.panels[room].place(mat, c.Thickness)
	return middle(at, c.Size), ok
}

// place finds the place nearest to the head, and then to the left, where a
// rectangle meets nothing that lies there and nothing that leaves less than the
// thickness.
//
// If there is a place, then pushed to the head and to the left as far as it
// goes it touches, at its head, the panel's edge or the tail of something in the
// way, and at its left the panel's edge or the right edge of something.
func (g *ground) place(size units.Size, thickness units.Length) (units.Rect, bool) {
	if !size.FitsIn(g.area.Size()) {
		return units.Rect{}, false
	}
	inWay := append(slices.Clone(g.taken), g.full(thickness)...)
	slices.SortFunc(inWay, func(a, b units.Rect) int { return compare(a.Min.X, b.Min.X) })
	ys := make([]units.Length, 0, len(inWay)+1)
	ys = append(ys, g.area.Min.Y)
	for _, r := range inWay {
		ys = append(ys, max(r.Max.Y, g.area.Min.Y))
	}
	slices.Sort(ys)
	for _, y := range slices.Compact(ys) {
		if y+size.H > g.area.Max.Y {
			break
		}
		// From left to right, past everything that is in the way at this height.
		x := g.area.Min.X
		for _, r := range inWay {
			if r.Min.Y < y+size.H && y < r.Max.Y && r.Min.X < x+size.W {
				x = max(x, r.Max.X)
			}
		}
		if x+size.W <= g.area.Max.X {
			return units.RectAt(units.Point{X: x, Y: y}, size), true
		}
	}
	return units.Rect{}, false
}

func compare(a, b units.Length) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// full returns where something so thick has no room: level strips of the panel,
// cut where any height begins or ends, and in each the parts that are filled too
// high.
func (g *ground) full(thickness units.Length) []units.Rect {
	if !g.limited {
		return nil
	}
	limit := g.room - thickness
	if limit < 0 {
		return []units.Rect{g.area}
	}
	// Where everything together is not too high, nothing is.
	var sum units.Length
	for _, h := range g.heights {
		sum += h.height
	}
	if sum <= limit {
		return nil
	}
	ys := make([]units.Length, 0, 2*len(g.heights))
	for _, h := range g.heights {
		ys = append(ys, h.rect.Min.Y, h.rect.Max.Y)
	}
	slices.Sort(ys)
	ys = slices.Compact(ys)
	byX := make([]edge, 0, 2*len(g.heights))
	for _, h := range g.heights {
		byX = append(byX, edge{h.rect.Min.X, h.rect.Min.Y, h.rect.Max.Y, h.height}, edge{h.rect.Max.X, h.rect.Min.Y, h.rect.Max.Y, -h.height})
	}
	slices.SortFunc(byX, func(a, b edge) int { return compare(a.x, b.x) })
	var out []units.Rect
	last := 0 // where the parts of the strip above begin
	for i := 1; i < len(ys); i++ {
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
	return out
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
		return a.Min.X == b.Min.X && a.Max.X == b.Max.X && a.Max.Y == b.Min.Y
	})
}
