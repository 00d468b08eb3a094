package makertest

import (
	"errors"
	"fmt"
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// other returns what the plan says of something that is not cut.
func (t *table) other(p *paper) *Other {
	for i := range t.job.Others {
		if o := &t.job.Others[i]; o.Kind == p.kind && o.Index == p.index && o.Copy == p.copy {
			return o
		}
	}
	return nil
}

// insert puts something into its place: between layers that are not stuck
// together on the way in, and that hold it on the other sides.
func (t *table) insert(a work.Insert) error {
	if a.What.Kind == work.Piece || a.From > score.Right {
		return fmt.Errorf("%s is put in", label(a.What))
	}
	p, err := t.hold(a.What)
	if err != nil {
		return err
	}
	o := t.other(p)
	if p.fixed {
		return fmt.Errorf("%s is put in twice", p)
	}
	on, err := t.base(a.On)
	if err != nil {
		return err
	}
	if a.Size != o.Size {
		return fmt.Errorf("%s is %v; said %v", p, o.Size, a.Size)
	}
	spot, err := on.at(a.At, a.Size)
	if err != nil {
		return err
	}
	spot = spot.Moved(on.rect.Min)
	into := on.body
	f := p.facets[0]
	f.area = rectRegion(units.RectAt(units.Point{}, spot.Size()))
	f.put(asDrawn.moved(spot.Min))
	p.fixed, p.slipped = true, true
	p.caliper = o.Thickness * units.Length(max(a.Count, 1))
	if !a.Corners {
		t.note("insert %s %v", p, a.From)
	}
	if a.Into.Kind != work.PartFitting || a.Into.Index != a.What.Index {
		return fmt.Errorf("%s is put into fitting %d", p, a.Into.Index)
	}
	for _, q := range into.papers {
		if q.plan != nil && q.plan.Role == Fitting && q.plan.Fitting == a.Into.Index && t.wet(q, always) {
			return fmt.Errorf("%s is put into %s, which is wet", p, q)
		}
	}
	// At the outside the folio is turned over for it.
	if on.below {
		slices.Reverse(into.stack)
		a.From = turnedEdge(a.From)
	}
	stack, err := t.slipped(into, f, rectRegion(spot.Grow(-touchWidth)), a, o)
	if err != nil {
		return fmt.Errorf("%s does not go in: %w", p, err)
	}
	into.stack = stack
	if !o.Way.Empty() {
		if err := t.wayFree(into, f, rectRegion(o.Way.Moved(t.home())), a.Into.Index); err != nil {
			return fmt.Errorf("%s: %w", p, err)
		}
	}
	if on.below {
		slices.Reverse(into.stack)
	}
	into.papers = append(into.papers, p)
	p.body = into
	return nil
}

// boardUnder returns which board of the row the middle of a facet lies over, −1
// for none.
func (t *table) boardUnder(f *facet) int {
	r := f.shape.rect()
	middle := r.Min.X + r.Size().W/2
	return slices.IndexFunc(t.job.Row, func(b Board) bool {
		at := b.Laid
		if t.measured {
			at = b.Made
		}
		return at.Min.X+t.rowAt.X <= middle && middle < at.Max.X+t.rowAt.X
	})
}

// slipped returns the layers of a body with a content in its place.
func (t *table) slipped(b *body, content *facet, spot region, a work.Insert, o *Other) ([]*facet, error) {
	own := func(f *facet) bool {
		return f.of.plan != nil && f.of.plan.Role == Fitting && f.of.plan.Fitting == a.Into.Index
	}
	if a.Corners {
		return t.underCorners(b, content, spot, own)
	}
	var all []error
	for k := len(b.stack); k > 0; k-- {
		err := t.slips(b, k, spot, a, o, own)
		if err == nil {
			return slices.Insert(slices.Clone(b.stack), k, content), nil
		}
		if err != errNothingOver {
			all = append(all, fmt.Errorf("over %d layers %w", k, err))
		}
	}
	if len(all) == 0 {
		return nil, errNothingOver
	}
	return nil, errors.Join(all...)
}

// touchWidth is so little that what a content only touches is not in its way.
const touchWidth = units.Micrometre

// wayFree objects where another fitting stands in the way in of a content. One on
// another board is turned away with that, what the content's own stands on lies under
// the way, and what stands on that over it.
func (t *table) wayFree(b *body, content *facet, way region, fitting int) error {
	at := slices.Index(b.stack, content)
	ground := map[int]bool{fitting: true}
	for before := 0; before < len(ground); {
		before = len(ground)
		for k, f := range b.stack {
			for _, g := range b.stack[:k] {
				if f.of.plan != nil && ground[f.fitting()] && g.of.plan != nil && g.of.plan.Role == Fitting && t.sameSide(b, f, g) && overlap(f, g) {
					ground[g.fitting()] = true
				}
			}
		}
	}
	for k, f := range b.stack {
		if f.of.plan == nil || f.of.plan.Role != Fitting || ground[f.fitting()] || t.lifted(f, content) || !t.sameSide(b, f, content) || t.boardUnder(f) != t.boardUnder(content) {
			continue
		}
		in := f.shape.and(way)
		for _, over := range b.stack[min(at, k):k] {
			if over.of.plan != nil && over.fitting() == fitting {
				in = in.minus(over.shape)
			}
		}
		if !in.empty() {
			return fmt.Errorf("%s stands in the way in", f.of)
		}
	}
	return nil
}

var errNothingOver = fmt.Errorf("nothing lies over its place")

// slips reports why a content does not go in over the first k layers, or does
// not stay there.
func (t *table) slips(b *body, k int, spot region, a work.Insert, o *Other, own func(*facet) bool) error {
	if !slices.ContainsFunc(b.stack[k:], func(f *facet) bool { return own(f) && f.shape.overlaps(spot) }) {
		return errNothingOver
	}
	if t.taken(b, k, spot, a.Into.Index) {
		return errors.New("another content is there")
	}
	lower := map[*facet]bool{}
	for _, f := range b.stack[:k] {
		lower[f] = true
	}
	if why := t.blocked(b, lower, sweep(spot, a.From), own, t.leavesOf(b)); why != "" {
		return fmt.Errorf("the way in from the %v is shut by %s", a.From, why)
	}
	for _, e := range [...]score.Edge{score.Head, score.Tail, score.Left, score.Right} {
		if e != a.From && !slices.Contains(o.Open, e) && t.blocked(b, lower, sweep(spot, e), own, nil) == "" {
			return fmt.Errorf("it is open at the %v too", e)
		}
	}
	over := slices.IndexFunc(b.stack[k:], func(f *facet) bool { return own(f) && f.shape.overlaps(spot) })
	for _, under := range slices.Backward(b.stack[:k]) {
		if !under.shape.overlaps(spot) {
			continue
		}
		thick := o.Thickness * units.Length(max(a.Count, 1))
		if less := t.tight(b, b.stack[k+over], under, spot, a.From, thick); less > 0 {
			return fmt.Errorf("it is %v thick, and the walls round it are %v too short", thick, less)
		}
		break
	}
	return nil
}

// underCorners puts a content under corner pockets: each of them must lie over
// one of its corners and none over two, and its glue beside it.
func (t *table) underCorners(b *body, content *facet, spot region, own func(*facet) bool) ([]*facet, error) {
	for _, f := range b.stack {
		if own(f) && len(tipsUnder(spot, f)) > 1 {
			return nil, errors.New("not only its corners would be under something")
		}
	}
	over := map[*facet]bool{}
	var last *facet
	for _, p := range b.papers {
		if !own(p.facets[0]) || !shapeOf(p.facets).overlaps(spot) {
			continue
		}
		if why := t.cornerOver(b, p, spot, over); why != "" {
			return nil, fmt.Errorf("%s: %s", p, why)
		}
		last = p.facets[0]
	}
	if last == nil {
		return nil, errNothingOver
	}
	stack := layered(b.stack, []*facet{content}, func(k int) bool {
		f := b.stack[k]
		if !over[f] && slices.ContainsFunc(b.stack[k+1:], func(g *facet) bool { return over[g] && overlap(f, g) }) {
			return true // that is what the corners lie on
		}
		if over[f] {
			return false
		}
		// A leaf that is lifted for it lies over it again, unless it lies under what
		// the content lies on.
		return !t.lifted(f, last) || !t.sameSide(b, f, last) ||
			slices.ContainsFunc(b.stack[k+1:], func(g *facet) bool { return !over[g] && !t.lifted(g, last) && overlap(f, g) })
	})
	if stack == nil {
		return nil, errors.New("it does not go between the layers")
	}
	return stack, nil
}

// tipsUnder lists the corners of a place that lie under a facet.
func tipsUnder(spot region, f *facet) []units.Point {
	r := spot.rect()
	var tips []units.Point
	for _, x := range [...]units.Length{r.Min.X, r.Max.X - 2*touchWidth} {
		for _, y := range [...]units.Length{r.Min.Y, r.Max.Y - 2*touchWidth} {
			at := units.Point{X: x, Y: y}
			if rectRegion(units.RectAt(at, units.Size{W: 2 * touchWidth, H: 2 * touchWidth})).minus(f.shape).empty() {
				tips = append(tips, at)
			}
		}
	}
	return tips
}

// cornerOver notes which parts of a corner pocket lie over a content, or says
// why none do.
func (t *table) cornerOver(b *body, p *paper, spot region, over map[*facet]bool) string {
	var parts []*facet
	for _, f := range b.stack {
		if f.of == p {
			parts = append(parts, f)
		}
	}
	own := func(f *facet) bool { return f.of == p }
	why := "it lies over none of its corners"
	for i := range parts {
		lower := map[*facet]bool{}
		for _, f := range b.stack {
			lower[f] = f.of != p
		}
		for _, f := range parts[:i] {
			lower[f] = true
		}
		if !slices.ContainsFunc(parts[i:], func(f *facet) bool { return len(tipsUnder(spot, f)) > 0 }) {
			continue
		}
		if why = t.blocked(b, lower, spot, own, nil); why != "" {
			continue
		}
		for _, f := range parts[i:] {
			over[f] = true
		}
		return ""
	}
	return why
}

// turnedEdge returns the edge at which an edge lies when everything is turned
// over, left to right.
func turnedEdge(e score.Edge) score.Edge {
	if e == score.Left || e == score.Right {
		return opposite(e)
	}
	return e
}

// sweep returns what a spot passes over when it leaves towards an edge.
func sweep(spot region, e score.Edge) region {
	r := spot.rect()
	const far = 20 * units.Metre
	switch e {
	case score.Head:
		r.Min.Y -= far
	case score.Tail:
		r.Max.Y += far
	case score.Left:
		r.Min.X -= far
	default:
		r.Max.X += far
	}
	return rectRegion(r)
}

// taken reports whether a content of a fitting lies next to a spot over the first k
// layers.
func (t *table) taken(b *body, k int, spot region, fitting int) bool {
	content := func(f *facet) bool { return f.of.kind == work.Content && f.of.index == fitting && !f.stands }
	for _, f := range b.stack[k:] {
		if f.shape.overlaps(spot) {
			if content(f) {
				return true
			}
			break
		}
	}
	for i := k - 1; i >= 0; i-- {
		if f := b.stack[i]; f.shape.overlaps(spot) {
			return content(f)
		}
	}
	return false
}

// blocked says what holds the lower layers and the rest together within an
// area, as far as parts of a fitting have to do with it. The fold of a leaf that
// may be opened meanwhile does not.
func (t *table) blocked(b *body, lower map[*facet]bool, way region, own func(*facet) bool, leaves []map[*facet]bool) string {
	for _, d := range t.bonds {
		if d.a.of.body == b && (own(d.a) || own(d.b)) && lower[d.a] != lower[d.b] && d.at().overlaps(way) {
			return "what is stuck down of " + d.a.of.String()
		}
	}
	for _, p := range b.papers {
		for _, c := range p.creases {
			opens := slices.ContainsFunc(leaves, func(leaf map[*facet]bool) bool { return leaf[c.a] != leaf[c.b] })
			if own(c.a) && lower[c.a] != lower[c.b] && !opens && !c.a.stands && !c.b.stands && c.within(way) {
				return "a fold of " + p.String()
			}
		}
	}
	return ""
}
