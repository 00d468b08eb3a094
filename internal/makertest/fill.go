package makertest

import (
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
	t.note("insert %s %v", p, a.From)
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
	why := fmt.Errorf("%s: nothing of fitting %d lies over its place", p, a.Into.Index)
	for k := len(into.stack); k > 0; k-- {
		err := t.slips(into, k, f.shape, a)
		if err == nil {
			into.stack = slices.Insert(into.stack, k, f)
			into.papers = append(into.papers, p)
			p.body = into
			return nil
		}
		if err != errNothingOver {
			why = fmt.Errorf("%s: %w", p, err)
		}
	}
	return why
}

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
func (t *table) slips(b *body, k int, spot region, a work.Insert) error {
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
	if why := t.blocked(b, k, way, own); why != "" {
		return fmt.Errorf("the way in from the %v is shut by %s", a.From, why)
	}
	if a.Corners {
		return nil
	}
	for _, e := range [...]score.Edge{score.Head, score.Tail, score.Left, score.Right} {
		if e != a.From && t.blocked(b, k, sweep(spot, e), own) == "" {
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

// blocked says what holds the first k layers and the rest together within an
// area, as far as parts of a fitting have to do with it.
func (t *table) blocked(b *body, k int, way region, own func(*facet) bool) string {
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
			if own(c.a) && lower[c.a] != lower[c.b] && !c.a.stands && !c.b.stands && c.within(way) {
				return "a fold of " + p.String()
			}
		}
	}
	return ""
}

// within reports whether a crease runs through an area.
func (c crease) within(way region) bool {
	a0, a1 := extent(c.a.area, c.line)
	b0, b1 := extent(c.b.area, c.line)
	l := c.line
	l.From, l.To = max(a0, b0, l.From), min(a1, b1, l.To)
	if l.From >= l.To {
		return false
	}
	const d = 1000 // nanometres on either side of the fold
	r := units.Rect{Min: units.Point{X: l.At - d, Y: l.From}, Max: units.Point{X: l.At + d, Y: l.To}}
	if l.Axis == score.Level {
		r = units.Rect{Min: units.Point{X: l.From, Y: l.At - d}, Max: units.Point{X: l.To, Y: l.At + d}}
	}
	return c.a.lies.region(rectRegion(r)).overlaps(way)
}
