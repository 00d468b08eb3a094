package makertest

import (
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A paper is one thing on the table: a copy of a piece, or something that is
// not cut.
type paper struct {
	kind        work.ObjectKind
	index, copy int
	name        string
	plan        *Piece    // nil for what is not cut
	cutFor      work.Part // and as what it was cut
	cutAs       string
	caliper     units.Length
	size        units.Size
	facets      []*facet
	body        *body
	scored      []scored
	folded      []score.Line // that have been folded or creased
	notched     []score.Notch
	opened      []score.CutOut
	drawn       []*drawn
	fixed       bool
	slipped     bool // a content that has been put in and lies loose
	tucked      []score.Corner
	trimmed     []score.Corner
	trimmedTo   region // what has been trimmed off
	board       int    // its place in the row, −1 for none
	creases     []*crease
	upright     *folding // part of it stands at a right angle by now
	turned      []score.Edge
	edges       [4]region // what stands against the edges of a board, on its drawing
	rubbed      bool
	into        []int // the gaps into which a tab of it has been rubbed
	deep        []int // the gaps in which it has been worked to the bottom
	holes       []*hole
	tried       bool // a magnet, with the one that it meets
}

type scored struct {
	line score.Line
	on   score.Side
}

// A drawn line is one to lay things by.
type drawn struct {
	axis score.Axis
	at   units.Length
	used bool
	step int
}

// A facet is a part of a paper between its folds.
type facet struct {
	of     *paper
	area   region // on the drawing
	lies   pose
	stands bool   // at a right angle
	flap   bool   // turned in
	turned bool   // by a fold
	shape  region // where it lies
}

// put says where a facet lies.
func (f *facet) put(p pose) {
	f.lies = p
	f.shape = p.region(f.area)
}

// inUse returns where a place on a part is when the folds of its strip stand up.
func (f *facet) inUse(r units.Rect) units.Rect {
	if p := f.of.plan; p != nil && p.Stands > 0 && f.area.rect().Max.X == f.of.size.W {
		return r.Moved(units.Point{X: p.Stands})
	}
	return r
}

// cut changes the area of a facet.
func (f *facet) cut(r region) {
	f.area = r
	f.shape = f.lies.region(r)
}

// A body is everything that is held together, its facets in layers from bottom
// to top.
type body struct {
	stack  []*facet
	papers []*paper
	row    bool // it holds the boards of the case
	under  bool // it lies on what a pocket is made for
}

// A bond is where two facets stick together.
type bond struct {
	a, b   *facet
	onA    region // on the drawing of a
	onB    region // on the drawing of b
	sideA  score.Side
	sideB  score.Side
	turned bool // an edge turned in
	told   bool // where the adhesive goes has been told
	wet    bool
	step   int
}

func newPaper(kind work.ObjectKind, index, copy int, size units.Size) *paper {
	p := &paper{kind: kind, index: index, copy: copy, size: size, board: -1}
	f := &facet{of: p, area: rectRegion(units.RectAt(units.Point{}, size))}
	f.put(asDrawn)
	p.facets = []*facet{f}
	p.body = &body{stack: []*facet{f}, papers: []*paper{p}}
	return p
}

// whole returns all that is left of the paper on its drawing.
func (p *paper) whole() region {
	var all region
	for _, f := range p.facets {
		all = append(all, f.area...)
	}
	return all
}

// shape returns where facets lie, without those that stand.
func shapeOf(facets []*facet) region {
	var all region
	for _, f := range facets {
		if !f.stands {
			all = append(all, f.shape...)
		}
	}
	return all
}

// panel returns the facets of a paper in one of its panels as steps count them,
// all of them for All, and the measured rectangle as they lie together. Panels
// lie between the scores that begin at the head, from left to right; without
// any, between those from left to right, from head to tail.
func (p *paper) panel(i int) ([]*facet, units.Rect, bool) {
	if i == work.All {
		flat := slices.DeleteFunc(slices.Clone(p.facets), func(f *facet) bool { return f.stands })
		return flat, shapeOf(flat).rect(), len(flat) > 0
	}
	var uprights, levels []units.Length
	if p.plan != nil {
		for _, l := range p.plan.Lines {
			switch {
			case l.From != 0:
			case l.Axis == score.Upright:
				uprights = append(uprights, l.At)
			default:
				levels = append(levels, l.At)
			}
		}
	}
	r := units.RectAt(units.Point{}, p.size)
	at, end := append(uprights, 0, p.size.W), &r.Max.X
	from := &r.Min.X
	if len(uprights) == 0 && len(levels) > 0 {
		at, from, end = append(levels, 0, p.size.H), &r.Min.Y, &r.Max.Y
	}
	slices.Sort(at)
	if i < 0 || i+1 >= len(at) {
		return nil, units.Rect{}, false
	}
	*from, *end = at[i], at[i+1]
	return p.within(r)
}

// within returns the facets of a paper within a rectangle of its drawing, and
// where that lies. They must lie flat together.
func (p *paper) within(r units.Rect) ([]*facet, units.Rect, bool) {
	var in []*facet
	for _, f := range p.facets {
		if !f.stands && !f.flap && f.area.overlaps(rectRegion(r)) {
			in = append(in, f)
		}
	}
	if len(in) == 0 || slices.ContainsFunc(in, func(f *facet) bool { return f.lies != in[0].lies }) {
		return nil, units.Rect{}, false
	}
	return in, in[0].lies.rect(r), true
}

// move moves everything in a body; turned over, its layers change ends.
func (b *body) move(by pose) {
	for _, p := range b.papers {
		for _, f := range p.facets {
			f.put(f.lies.then(by))
		}
	}
	if by.over() {
		slices.Reverse(b.stack)
	}
}

// join makes one body of two with their layers in the given order. The one
// that holds the boards stays what it is, as does bottom otherwise.
func join(bottom, top *body, stack []*facet) {
	into, other := bottom, top
	if top.row || top.under && !bottom.row {
		into, other = top, bottom
	}
	into.stack = stack
	into.papers = append(into.papers, other.papers...)
	into.row = into.row || other.row
	into.under = into.under || other.under
	for _, p := range other.papers {
		p.body = into
	}
}

// between returns the layers of a body with others put in right over some of
// its facets, and under what lies over those, or on top; over all else, but for what is
// lifted.
// It returns nothing where that cannot be.
func between(stack, thing, over []*facet, top bool, lifted func(*facet) bool) []*facet {
	return layered(stack, thing, func(k int) bool {
		if slices.Contains(over, stack[k]) || slices.ContainsFunc(stack[k+1:], func(f *facet) bool { return slices.Contains(over, f) && overlap(f, stack[k]) }) {
			return true // that is what it goes on, and what lies under that
		}
		above := slices.ContainsFunc(stack[:k], func(f *facet) bool { return slices.Contains(over, f) && overlap(f, stack[k]) })
		return (top || !above) && !lifted(stack[k])
	})
}

// overlap reports whether one facet lies over the other; what stands lies over nothing.
func overlap(f, g *facet) bool { return !f.stands && !g.stands && f.shape.overlaps(g.shape) }

// layered returns the layers of a body with others put in over those of them
// that are under, and under the rest, where they overlap; nothing where that
// cannot be.
func layered(stack, thing []*facet, under func(k int) bool) []*facet {
	all := slices.Concat(stack, thing)
	n := len(all)
	next := make([][]int, n) // the facets that lie on each one
	count := make([]int, n)
	on := func(low, high int) { next[low] = append(next[low], high); count[high]++ }
	for i := range n {
		for k := range i {
			switch {
			case !overlap(all[i], all[k]):
			case i < len(stack) || k >= len(stack) || under(k):
				on(k, i)
			default:
				on(i, k)
			}
		}
	}
	var out []*facet
	for len(out) < n {
		i := slices.Index(count, 0)
		if i < 0 {
			return nil
		}
		count[i] = -1
		out = append(out, all[i])
		for _, k := range next[i] {
			count[k]--
		}
	}
	return out
}

// exposed returns what of a facet lies open to one side.
func (b *body) exposed(f *facet, above bool) region {
	r := f.shape
	for _, g := range b.beyond(f, above) {
		r = r.minus(g.shape)
		if len(r) == 0 {
			break
		}
	}
	return r
}

// beyond returns the facets that lie over a facet, or under it, the nearest
// first.
func (b *body) beyond(f *facet, above bool) []*facet {
	i := slices.Index(b.stack, f)
	if above {
		return b.stack[i+1:]
	}
	under := slices.Clone(b.stack[:i])
	slices.Reverse(under)
	return under
}

// restsOn returns what a loose content lies on, towards the boards: nothing of it
// comes along when what lies over it is lifted.
func (b *body) restsOn(f *facet) *facet {
	board := slices.IndexFunc(b.stack, func(g *facet) bool { return g.of.board >= 0 })
	for _, g := range b.beyond(f, slices.Index(b.stack, f) < board) {
		if g.of.kind != work.Content && overlap(f, g) {
			return g
		}
	}
	return nil
}

// heights returns how high each facet of a packet lies over what the packet
// lies on, or hangs under what it is stuck below: a facet lies on the highest
// that it overlaps.
func heights(stack []*facet) []units.Length {
	z := make([]units.Length, len(stack))
	for i, f := range stack {
		for k, g := range stack[:i] {
			if overlap(f, g) {
				z[i] = max(z[i], z[k]+g.of.caliper)
			}
		}
	}
	return z
}

// fitting returns the place of the fitting that a part belongs to.
func (f *facet) fitting() int {
	if f.of.plan != nil {
		return f.of.plan.Fitting
	}
	return f.of.index
}
