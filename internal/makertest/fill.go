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
	into := t.row
	shift := t.rowAt
	if t.under != nil {
		into, shift = t.under.body, units.Point{X: t.under.facets[0].lies.x, Y: t.under.facets[0].lies.y}
	} else if err := t.findRow(); err != nil {
		return err
	} else {
		into, shift = t.row, t.rowAt
	}
	spot := o.Place.Moved(shift)
	f := p.facets[0]
	f.area = rectRegion(units.RectAt(units.Point{}, spot.Size()))
	f.put(asDrawn.moved(spot.Min))
	p.fixed = true
	if !a.Corners {
		t.note("insert %s %v", p, a.From)
	}
	if p.kind == work.Block {
		into.stack = append(into.stack, f)
		into.papers = append(into.papers, p)
		p.body = into
		return nil
	}
	if a.Into.Kind != work.PartFitting || a.Into.Index != a.What.Index {
		return fmt.Errorf("%s is put into fitting %d", p, a.Into.Index)
	}
	for _, q := range into.papers {
		if q.plan != nil && q.plan.Role == Fitting && q.plan.Fitting == a.Into.Index && t.wet(q, any_) {
			return fmt.Errorf("%s is put into %s, which is wet", p, q)
		}
	}
	if !o.Way.Empty() {
		if err := t.wayFree(into, o.Way.Moved(shift), a.Into.Index); err != nil {
			return fmt.Errorf("%s: %w", p, err)
		}
	}
	var all []error
	for k := len(into.stack); k > 0; k-- {
		err := t.slips(into, k, rectRegion(spot.Grow(-touchWidth)), a, o)
		if err == nil {
			into.stack = slices.Insert(into.stack, k, f)
			into.papers = append(into.papers, p)
			p.body = into
			return nil
		}
		if err != errNothingOver {
			all = append(all, fmt.Errorf("over %d layers %w", k, err))
		}
	}
	if len(all) == 0 {
		all = append(all, errNothingOver)
	}
	return fmt.Errorf("%s does not go in: %w", p, errors.Join(all...))
}

// touchWidth is so little that what a content only touches is not in its way.
const touchWidth = 5 * units.Micrometre

// wayFree objects where another fitting stands in the way in.
func (t *table) wayFree(b *body, way units.Rect, fitting int) error {
	for _, f := range b.stack {
		if f.of.plan != nil && f.of.plan.Role == Fitting && f.of.plan.Fitting != fitting && f.shape.overlaps(rectRegion(way)) {
			return fmt.Errorf("%s stands in the way in", f.of)
		}
	}
	return nil
}

var errNothingOver = fmt.Errorf("nothing lies over its place")

// slips reports why a content does not go in over the first k layers, or does
// not stay there.
func (t *table) slips(b *body, k int, spot region, a work.Insert, o *Other) error {
	own := func(f *facet) bool {
		return f.of.plan != nil && f.of.plan.Role == Fitting && f.of.plan.Fitting == a.Into.Index
	}
	over := slices.ContainsFunc(b.stack[k:], func(f *facet) bool { return own(f) && f.shape.overlaps(spot) })
	if !over {
		return errNothingOver
	}
	way := sweep(spot, a.From)
	if a.Corners {
		way = spot
	}
	if t.taken(b, k, spot) {
		return fmt.Errorf("another content is there")
	}
	if why := t.blocked(b, k, way, own, t.leavesOf(b)); why != "" {
		return fmt.Errorf("the way in from the %v is shut by %s", a.From, why)
	}
	if a.Corners {
		// Only the corners are under something: the middles of the edges lie free.
		r := spot.rect()
		for _, m := range [...]units.Point{{X: (r.Min.X + r.Max.X) / 2, Y: r.Min.Y}, {X: (r.Min.X + r.Max.X) / 2, Y: r.Max.Y},
			{X: r.Min.X, Y: (r.Min.Y + r.Max.Y) / 2}, {X: r.Max.X, Y: (r.Min.Y + r.Max.Y) / 2}} {
			middle := rectRegion(units.Rect{Min: m, Max: m}.Grow(touchWidth)).and(spot)
			if slices.ContainsFunc(b.stack[k:], func(f *facet) bool { return own(f) && f.shape.overlaps(middle) }) {
				return errors.New("not only its corners are under something")
			}
		}
		return cornersHeld(b.stack[k:], own, r)
	}
	for _, e := range [...]score.Edge{score.Head, score.Tail, score.Left, score.Right} {
		if e != a.From && !slices.Contains(o.Open, e) && t.blocked(b, k, sweep(spot, e), own, nil) == "" {
			return fmt.Errorf("it is open at the %v too", e)
		}
	}
	return nil
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

// cornersHeld objects where something lies over a content and not over one of
// its corners.
func cornersHeld(over []*facet, own func(*facet) bool, spot units.Rect) error {
	held := map[*paper]bool{}
	for _, x := range [...]units.Length{spot.Min.X, spot.Max.X - 2*touchWidth} {
		for _, y := range [...]units.Length{spot.Min.Y, spot.Max.Y - 2*touchWidth} {
			tip := rectRegion(units.RectAt(units.Point{X: x, Y: y}, units.Size{W: 2 * touchWidth, H: 2 * touchWidth}))
			for _, f := range over {
				held[f.of] = held[f.of] || own(f) && tip.minus(f.shape).empty()
			}
		}
	}
	for _, f := range over {
		if own(f) && f.shape.overlaps(rectRegion(spot)) && !held[f.of] {
			return fmt.Errorf("%s lies over none of its corners", f.of)
		}
	}
	return nil
}

// taken reports whether a content lies next to a spot over the first k layers.
func (t *table) taken(b *body, k int, spot region) bool {
	content := func(f *facet) bool { return f.of.kind == work.Content && !f.stands }
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

// blocked says what holds the first k layers and the rest together within an
// area, as far as parts of a fitting have to do with it. The fold of a leaf that
// may be opened meanwhile does not.
func (t *table) blocked(b *body, k int, way region, own func(*facet) bool, leaves []map[*facet]bool) string {
	lower := map[*facet]bool{}
	for _, f := range b.stack[:k] {
		lower[f] = true
	}
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

// within reports whether a crease runs through an area.
func (c *crease) within(way region) bool {
	l := c.line
	if l.From, l.To = c.from, c.to; l.From >= l.To {
		return false
	}
	const d = 1000 // nanometres on either side of the fold
	r := units.Rect{Min: units.Point{X: l.At - d, Y: l.From}, Max: units.Point{X: l.At + d, Y: l.To}}
	if l.Axis == score.Level {
		r = units.Rect{Min: units.Point{X: l.From, Y: l.At - d}, Max: units.Point{X: l.To, Y: l.At + d}}
	}
	return c.a.lies.region(rectRegion(r)).overlaps(way)
}
