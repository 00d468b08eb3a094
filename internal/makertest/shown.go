package makertest

import (
	"slices"

	"boardwrap.example/pocket/work"
)

// shows reports whether any of one side of a facet can be seen: lying open, or
// when a leaf is opened that is held by one fold only.
func (t *table) shows(home *body, leaves []map[*facet]bool, f *facet, above bool) bool {
	left := f.shape
	for _, g := range home.beyond(f, above) {
		if g.stands || g.of.kind == work.Content && !t.stays(g) {
			continue // what is slipped in is taken out again
		}
		meets := left.and(g.shape)
		if meets.empty() {
			continue
		}
		if opens(leaves, f, g) {
			return true
		}
		if left = left.minus(g.shape); left.empty() {
			return false
		}
	}
	return true
}

// stuck reports whether anything sticks to a facet.
func (t *table) stuck(f *facet) bool {
	return slices.ContainsFunc(t.bonds, func(b *bond) bool { return b.a == f || b.b == f })
}

// stays reports whether anything sticks to a facet but what lies over a notch, which is
// warned of.
func (t *table) stays(f *facet) bool {
	return slices.ContainsFunc(t.bonds, func(b *bond) bool {
		return b.a == f && !slices.Contains(t.job.Covering, b.b.fitting()) || b.b == f && !slices.Contains(t.job.Covering, b.a.fitting())
	})
}

// opens reports whether one of two facets belongs to a leaf that opens and the
// other does not.
func opens(leaves []map[*facet]bool, f, g *facet) bool {
	for _, leaf := range leaves {
		if leaf[f] != leaf[g] {
			return true
		}
	}
	return false
}

// leavesOf returns the leaves of a body: what is held by one fold only.
func (t *table) leavesOf(home *body) []map[*facet]bool {
	if t.leaves != nil {
		return t.leaves
	}
	leaves := []map[*facet]bool{}
	for _, p := range home.papers {
		for i, c := range p.creases {
			if slices.ContainsFunc(p.creases[:i], func(d *crease) bool { return d.line == c.line }) {
				continue
			}
			if leaf := t.leaf(home, p, c); len(leaf) > 0 {
				leaves = append(leaves, leaf)
			}
		}
	}
	t.leaves = leaves
	return leaves
}

// leaf returns the facets that nothing but one fold of a paper holds.
func (t *table) leaf(home *body, p *paper, fold *crease) map[*facet]bool {
	next := map[*facet][]*facet{}
	tie := func(a, b *facet) { next[a], next[b] = append(next[a], b), append(next[b], a) }
	for _, b := range t.bonds {
		tie(b.a, b.b)
	}
	for _, q := range home.papers {
		if q.slipped && t.stuck(q.facets[0]) { // what sticks to it lies where it does
			if under := home.restsOn(q.facets[0]); under != nil {
				tie(q.facets[0], under)
			}
		}
		for _, c := range q.creases {
			if (q != p || c.line != fold.line) && c.real() {
				tie(c.a, c.b)
			}
		}
	}
	leaf := map[*facet]bool{}
	var todo []*facet
	for _, f := range home.stack {
		loose := f.of.plan == nil && f.of != t.under && len(next[f]) > 0 // stuck to something
		if !loose && (f.of.board >= 0 || f.of == t.under || f.of.plan == nil || f.of.plan.Role != Fitting) {
			todo = append(todo, f)
		} else {
			leaf[f] = true
		}
	}
	for len(todo) > 0 {
		f := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, g := range next[f] {
			if leaf[g] {
				delete(leaf, g)
				todo = append(todo, g)
			}
		}
	}
	return leaf
}

// sameSide reports whether two facets lie on one side of the boards, if there are
// any.
func (t *table) sameSide(b *body, f, g *facet) bool {
	board := slices.IndexFunc(b.stack, func(f *facet) bool { return f.of.board >= 0 })
	return (slices.Index(b.stack, f) < board) == (slices.Index(b.stack, g) < board)
}
