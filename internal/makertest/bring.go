package makertest

import (
	"fmt"
	"slices"

	"boardwrap.example/pocket/work"
)

// carried returns a thing with all that is stuck to it and not to the base.
func (t *table) carried(p *paper, on place) []*paper {
	all := []*paper{p}
	if p.plan != nil && p.plan.Role == BoardRole {
		return all
	}
	for i := 0; i < len(all); i++ {
		for _, b := range t.bonds {
			for _, pair := range [...][2]*paper{{b.a.of, b.b.of}, {b.b.of, b.a.of}} {
				if pair[0] == all[i] && !slices.Contains(all, pair[1]) && !(pair[1] == on.on || pair[1].board >= 0 || pair[1] == t.under) {
					all = append(all, pair[1])
				}
			}
		}
	}
	return all
}

// bring brings two bodies together. The one with the boards, or the one that
// lies on what a pocket is made for, stays where it is.
func (t *table) bring(p *paper, on place, move pose) error {
	held := func(b *body) bool {
		is := func(role Role) bool {
			return slices.ContainsFunc(b.papers, func(q *paper) bool { return q.plan != nil && q.plan.Role == role })
		}
		return b.row || b.under || is(BoardRole) && (is(Covering) || is(Strip))
	}
	if held(p.body) {
		if held(on.body) && on.body.row == p.body.row {
			return fmt.Errorf("%s is stuck down already", p)
		}
		on.body.move(move.undone())
	} else {
		p.body.move(move)
	}
	switch {
	case on.panel:
		return t.putBetween(p, on)
	case on.below:
		rest, leaves := t.aside(p, on)
		join(p.body, on.body, slices.Concat(leaves, p.body.stack, rest))
	default:
		rest, leaves := t.aside(p, on)
		join(on.body, p.body, slices.Concat(rest, p.body.stack, leaves))
	}
	return nil
}

// aside tells leaves that lie open over the place of a thing, on its side of the
// boards, from the rest: they are lifted and come to lie over it.
func (t *table) aside(p *paper, on place) (rest, leaves []*facet) {
	if !on.body.row && !on.body.under || p.body.row {
		return on.body.stack, nil
	}
	shape := shapeOf(p.facets)
	lifted := map[*facet]bool{}
	for _, leaf := range t.leavesOf(on.body) {
		if slices.ContainsFunc(on.facet, func(f *facet) bool { return leaf[f] }) {
			continue // that is what it goes on
		}
		over := false
		for f := range leaf {
			over = over || f.shape.overlaps(shape) && f.of != on.on
		}
		for f := range leaf {
			lifted[f] = lifted[f] || over
		}
	}
	board := slices.IndexFunc(on.body.stack, func(f *facet) bool { return f.of.board >= 0 })
	for i, f := range on.body.stack {
		if lifted[f] && (i < board) == on.below {
			leaves = append(leaves, f)
		} else {
			rest = append(rest, f)
		}
	}
	return rest, leaves
}

// putBetween puts a thing right over a panel, under what lies over that. At the
// outside the folio is turned over for it.
func (t *table) putBetween(p *paper, on place) error {
	thing := slices.Clone(p.body.stack)
	turn := func() {
		if on.below {
			slices.Reverse(on.body.stack)
			slices.Reverse(thing)
		}
	}
	turn()
	// Another fitting goes over all there is, of the one that it stands on too.
	own := thing[0].fitting() == on.facet[0].fitting()
	held := slices.Clone(on.facet) // with what lies under it, and under that
	for _, f := range slices.Backward(on.body.stack) {
		at := slices.Index(on.body.stack, f)
		if !slices.Contains(held, f) && slices.ContainsFunc(held, func(g *facet) bool { return slices.Index(on.body.stack, g) > at && overlap(f, g) }) {
			held = append(held, f)
		}
	}
	stack := between(on.body.stack, thing, on.facet, !own, func(f *facet) bool {
		return f.fitting() != thing[0].fitting() && t.lifted(f, on.facet[0], held...) && t.sameSide(on.body, f, on.facet[0])
	})
	if stack == nil {
		return fmt.Errorf("%s does not go in there between the layers", p)
	}
	join(on.body, p.body, stack)
	err := t.liftable(thing, p)
	if on.below {
		slices.Reverse(p.body.stack)
	}
	return err
}

// liftable objects where what lies over a thing that has been put in cannot be
// lifted for that: it is stuck to what lies under it there.
func (t *table) liftable(thing []*facet, p *paper) error {
	stack := p.body.stack
	shape := shapeOf(thing)
	above := map[*facet]bool{} // over any part of the thing
	for i, f := range stack {
		above[f] = slices.ContainsFunc(stack[:i], func(g *facet) bool { return slices.Contains(thing, g) && g.shape.overlaps(f.shape) })
	}
	for _, b := range t.bonds {
		if b.a.of.body == p.body && above[b.a] != above[b.b] && b.at().overlaps(shape) &&
			!slices.Contains(thing, b.a) && !slices.Contains(thing, b.b) && b.a.shape.overlaps(shape) && b.b.shape.overlaps(shape) {
			return fmt.Errorf("%s is put in where %s is stuck down over its place", p, b.a.of)
		}
	}
	return nil
}

// lifted reports whether what lies in the way is of a leaf that lies open there and
// is lifted for the work, without what it is in the way of and what is held besides.
func (t *table) lifted(f, g *facet, held ...*facet) bool {
	if f.of.kind == work.Content && !t.stuck(f) { // with what it lies on
		under := f.of.body.restsOn(f)
		return under != nil && t.lifted(under, g, held...)
	}
	if b := f.of.body; !b.row && !b.under || f.of == t.under || f.of.plan != nil && f.of.plan.Role != Fitting || f.of == g.of {
		return false
	}
	return slices.ContainsFunc(t.leavesOf(f.of.body), func(leaf map[*facet]bool) bool {
		return leaf[f] && !leaf[g] && !slices.ContainsFunc(held, func(h *facet) bool { return leaf[h] })
	})
}
