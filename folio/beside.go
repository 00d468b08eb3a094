package folio

import (
	"cmp"
	"slices"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
)

// mostBeside bounds how many pairs of rectangles are looked at in one plan for places
// that are free.
const mostBeside = 1 << 18

// beside says what would do where a fitting lies over others: the nearest place in its
// area that is free of all that were there before, as an offset from its upper left
// corner, on the ruler of fittings.
func (b *builder) beside(f *fitter, out *Fitted, area units.Rect) string {
	const other = "a place beside it, or standing on it"
	if b.planned != nil { // what is settled there goes by the plan
		return other
	}
	var taken []units.Rect
	for j := range b.plan.fitted {
		o := &b.plan.fitted[j]
		if b.isBeside(out, j) {
			taken = append(taken, o.reach(o.rect))
		}
	}
	size, ruler := f.footprint, f.ruler()
	from := units.Point{X: out.rect.Min.X - area.Min.X, Y: out.rect.Min.Y - area.Min.Y}
	// The nearest place lies as near as the ruler says, or at an edge: of what lies there, or of
	// what may be covered.
	xs, ys := []units.Length{ruler.Nearest(from.X)}, []units.Length{ruler.Nearest(from.Y)}
	edges := func(after, before units.Rect) {
		xs = append(xs, ruler.Up(after.Max.X-area.Min.X), ruler.Down(before.Min.X-area.Min.X-size.W))
		ys = append(ys, ruler.Up(after.Max.Y-area.Min.Y), ruler.Down(before.Min.Y-area.Min.Y-size.H))
	}
	for _, r := range taken {
		edges(r, r)
	}
	on := b.carriers(out.base, area)
	for _, r := range on {
		edges(units.Rect{Max: r.Min}, units.Rect{Min: r.Max})
	}
	last := area.Size().Plus(-size.W, -size.H)
	nearest := func(list []units.Length, from, last units.Length) []units.Length {
		there := list[:0]
		for _, l := range list {
			if l >= 0 && l <= last {
				there = append(there, l)
			}
		}
		inorder.Sort(there, func(a, b units.Length) int {
			return cmp.Or(cmp.Compare((a-from).Abs(), (b-from).Abs()), cmp.Compare(a, b))
		})
		return slices.Compact(there)
	}
	best, found := units.Point{}, false
	way := func(p units.Point) units.Length { return (p.X - from.X).Abs() + (p.Y - from.Y).Abs() }
	for _, y := range nearest(ys, from.Y, last.H) {
		for _, x := range nearest(xs, from.X, last.W) {
			p := units.Point{X: x, Y: y}
			if found && way(p) >= way(best) {
				break
			}
			if b.besides >= mostBeside {
				break
			}
			b.besides += int32(len(taken))
			r := units.RectAt(area.Min.Plus(p), size)
			all := out.reach(r)
			if out.base >= 0 {
				r = all // its tabs stick there too
			}
			if !slices.ContainsFunc(taken, all.Overlaps) && slices.ContainsFunc(on, r.In) {
				best, found = p, true
			}
		}
	}
	n := b.notation()
	switch {
	case found:
		return "a place beside it, such as left and head with an offset of " + n.Text(best.X) + " and " + n.Text(best.Y) + ", or standing on it"
	case b.besides >= mostBeside:
		return other
	}
	return "standing on it, or another panel: no place beside it is as large"
}

// carriers returns the rectangles of which one must carry all of what stands on a fitting,
// or on nothing in its area.
func (b *builder) carriers(base int, area units.Rect) []units.Rect {
	if base < 0 {
		return []units.Rect{area}
	}
	var on []units.Rect
	for _, s := range b.plan.fitted[base].surfaces {
		on = append(on, s.rect)
	}
	return on
}

// isBeside reports whether an earlier fitting lies on the same side of the same board, or
// with its tabs may, and is none of those that a fitting stands on.
func (b *builder) isBeside(f *Fitted, other int) bool {
	o := &b.plan.fitted[other]
	return (o.panel == f.panel || tabbed(o) || tabbed(f)) && o.outside == f.outside && f.base != other && (f.base < 0 || !b.plan.over(f.base, other))
}
