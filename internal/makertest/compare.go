package makertest

import (
	"errors"
	"fmt"
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// compare says all in which what lies on the table differs from the plan.
func (t *table) compare() error {
	var all []error
	bad := func(format string, args ...any) {
		all = append(all, &Objection{Why: fmt.Sprintf(format, args...)})
	}
	say := func(err error) {
		if err != nil {
			bad("%s", err)
		}
	}
	for i, p := range t.job.Pieces {
		made := 0
		for _, q := range t.papers {
			if q.kind == work.Piece && q.index == i {
				made++
			}
		}
		if made != p.Quantity {
			bad("%d x %s (piece %d) have been cut; wanted %d", made, p.Name, i, p.Quantity)
		}
	}
	home := t.row
	if t.under != nil {
		home = t.under.body
		say(t.asThick())
	} else if err := t.findRow(); err != nil {
		say(err)
	} else {
		home = t.row
		if !t.measured {
			say(t.edgesCovered())
			say(t.coveringsLie())
		}
		if !t.closed {
			bad("the folio has not been closed")
		}
		if !t.refitted {
			bad("nobody said what to do with what the cover measures")
		}
		say(t.boardsInside())
		say(t.roundEdges())
	}
	for _, o := range t.job.Others {
		p := t.find(o.Kind, o.Index, o.Copy)
		if p == nil || !p.fixed || p.body != home {
			bad("%v %d, copy %d, is not in", o.Kind, o.Index, o.Copy)
		} else if r := t.inRow(shapeOf(p.facets).rect()); r != o.Place && (!r.In(o.Place) || r.Size() != o.Size) {
			bad("%s lies at %v; planned %v", p, r, o.Place)
		}
	}
	for _, p := range t.papers {
		say(p.finished(t, home))
	}
	for _, b := range t.bonds {
		if b.wet {
			bad("%s is wet", b.a.of)
			break
		}
	}
	for _, m := range t.marks {
		if !m.used {
			bad("a place has been marked for %s and not used", m.what)
		}
	}
	for _, w := range t.job.Want {
		say(t.compareOne(w, home))
	}
	for _, p := range t.papers {
		if p.plan != nil && p.plan.Role != BoardRole && !slices.ContainsFunc(t.job.Want, func(w Placed) bool { return w.Piece == p.index && w.Copy == p.copy }) {
			bad("nobody says where %s is to lie", p)
		}
	}
	if home != nil {
		say(t.insideCover(home))
		say(t.rightSides(home))
	}
	return errors.Join(all...)
}

// shut objects where a part still lies open that is folded back in use: laid open
// again, it lies elsewhere than planned; and where one was creased to a right angle, and no
// wall stands there in use.
func (t *table) shut(p *paper) error {
	for _, c := range p.creases {
		switch {
		case c.kept == nil || !c.real():
		case !t.liesAsWanted(p):
			return fmt.Errorf("%s lies open at %v", p, c.line.At)
		case !c.kept.Flat:
			return fmt.Errorf("%s is creased to a right angle at %v, and no wall stands there", p, c.line.At)
		}
	}
	return nil
}

// liesAsWanted reports whether a paper lies as planned.
func (t *table) liesAsWanted(p *paper) bool {
	return !slices.ContainsFunc(t.job.Want, func(w Placed) bool {
		return p.kind == work.Piece && w.Piece == p.index && w.Copy == p.copy && t.compareOne(w, p.body) != nil
	})
}

// finished objects where a piece is not as planned, or was never used.
func (p *paper) finished(t *table, home *body) error {
	if p.body != home {
		return fmt.Errorf("%s has not been used", p)
	}
	for _, d := range p.drawn {
		if !d.used {
			return fmt.Errorf("%s: nothing lies along the %v line at %v", p, d.axis, d.at)
		}
	}
	for _, h := range p.holes {
		if !h.used {
			return fmt.Errorf("%s: nothing is in the hole at %v", p, h.rect)
		}
	}
	if p.upright != nil {
		return fmt.Errorf("%s stands up at %v", p, p.upright.line.At)
	}
	if err := t.shut(p); err != nil {
		return err
	}
	if p.plan == nil {
		return nil
	}
	if err := t.rubbedIn(p); err != nil {
		return err
	}
	if len(p.opened) != len(p.plan.Openings) || len(p.notched) != len(p.plan.Notches) {
		return fmt.Errorf("%s lacks an opening or a notch", p)
	}
	if err := p.gluedAsPlanned(t); err != nil {
		return err
	}
	for _, l := range p.plan.Lines {
		l.Line = full(l.Line, p.size)
		if !slices.Contains(p.folded, l.Line) {
			return fmt.Errorf("%s has not been folded at %v", p, l.At)
		}
		if l.Scored && !slices.ContainsFunc(p.scored, func(s scored) bool { return s.line == l.Line }) {
			return fmt.Errorf("%s has not been scored at %v", p, l.At)
		}
	}
	if p.plan.Role != Covering && p.plan.Role != Strip && p.board < 0 && !p.whole().same(p.plan.final()) {
		return fmt.Errorf("%s is not cut to its outline", p)
	}
	return nil
}

// gluedAsPlanned objects where glue lies elsewhere than planned, or is missing.
// It does not matter on which of two papers it was brushed.
func (p *paper) gluedAsPlanned(t *table) error {
	for _, side := range [...]score.Side{score.Face, score.Back} {
		planned := p.planForGlue(side)
		left := planned
		for _, b := range t.bonds {
			if b.a.of == p && b.sideA == side {
				left = left.minus(b.onA)
			}
			if b.b.of == p && b.sideB == side {
				left = left.minus(b.onB)
			}
		}
		if !left.empty() {
			return fmt.Errorf("%s has taken no glue on its %v at %v", p, side, left.rect())
		}
	}
	if len(p.plan.Glue) == 0 {
		return nil
	}
	// All of a part that lies on the base may be stuck to it as well.
	for _, b := range t.bonds {
		if !b.told || b.a.of != p && b.b.of != p || t.allStuck(b.a, b.sideA) || t.allStuck(b.b, b.sideB) {
			continue
		}
		more := b.onA.minus(b.a.of.planForGlue(b.sideA))
		if !more.empty() && !b.onB.minus(b.b.of.planForGlue(b.sideB)).empty() {
			return fmt.Errorf("%s and %s have taken glue at %v, which is not planned", b.a.of, b.b.of, more.rect())
		}
	}
	return nil
}

// allStuck reports whether all of a part is stuck down on one side.
func (t *table) allStuck(f *facet, side score.Side) bool {
	left := f.area
	for _, b := range t.bonds {
		if b.a == f && b.sideA == side {
			left = left.minus(b.onA)
		}
		if b.b == f && b.sideB == side {
			left = left.minus(b.onB)
		}
	}
	return left.empty()
}

// planForGlue returns what takes glue by the plan on one side.
func (p *paper) planForGlue(side score.Side) region {
	var planned region
	if p.plan == nil || len(p.plan.Glue) == 0 {
		return nil
	}
	for _, g := range p.plan.Glue {
		if g.Side == side {
			planned = append(planned, rectPoly(g.Area))
		}
	}
	return planned
}

// compareOne compares where one piece lies with the plan.
func (t *table) compareOne(w Placed, home *body) error {
	p := t.find(work.Piece, w.Piece, w.Copy)
	if p == nil || p.body != home || p.plan.Role == Covering || p.plan.Role == Strip {
		return nil // said elsewhere
	}
	facets, r, ok := p.panel(work.All)
	if w.Panel >= 0 && w.Panel < len(p.plan.Panels) {
		facets, r, ok = p.within(p.plan.Panels[w.Panel])
	}
	if !ok {
		return fmt.Errorf("%s has no panel %d that lies flat", p, w.Panel)
	}
	if got := t.inRow(r); got != w.Rect {
		return fmt.Errorf("%s, panel %d, lies at %v; planned %v", p, w.Panel, got, w.Rect)
	}
	if up := facets[0].lies.up(); (w.Panel != work.All || len(facets) == 1) && up != w.Up {
		return fmt.Errorf("%s, panel %d, lies with its %v up; planned the %v", p, w.Panel, up, w.Up)
	}
	if len(w.Polygon) > 0 {
		var shape region
		for _, f := range facets {
			shape = append(shape, f.shape...)
		}
		shift := t.inRow(units.Rect{}).Min
		if !asDrawn.moved(shift).region(shape).same(polygon(w.Polygon)) {
			return fmt.Errorf("%s, panel %d, has another outline than planned", p, w.Panel)
		}
	}
	if t.under == nil {
		first := slices.IndexFunc(home.stack, func(f *facet) bool { return f.of.board >= 0 })
		if outside := slices.Index(home.stack, facets[0]) < first; outside != w.Outside && p.board < 0 {
			return fmt.Errorf("%s lies on the wrong side of the boards", p)
		}
	}
	return nil
}

// boardsInside objects where a board is bare on the inside or the outside.
func (t *table) boardsInside() error {
	if t.job.Unlined {
		return nil
	}
	for _, b := range t.job.Row {
		p := t.find(work.Piece, b.Piece, b.Copy)
		if p == nil {
			return nil
		}
		for _, above := range [...]bool{true, false} {
			if left := t.bare(p.facets[0], above); !left.empty() {
				return fmt.Errorf("%s is bare on its inside %t: %v", p, above, t.inRow(left.rect()))
			}
		}
	}
	return nil
}

// bare returns what of a board nothing covers on one side. As measured, the
// covering has gone with the board that it is stuck to: with its left edge and, if
// it is not just as wide as planned, at the right with its right one.
func (t *table) bare(board *facet, above bool) region {
	b := t.job.Row[board.of.board]
	left := board.shape
	for _, g := range t.row.beyond(board, above) {
		shape := g.shape
		if t.measured && g.of.covering() {
			near := units.Point{X: b.Made.Min.X - b.Laid.Min.X, Y: b.Made.Min.Y - b.Laid.Min.Y}
			far := units.Point{X: b.Made.Max.X - b.Laid.Max.X, Y: b.Made.Max.Y - b.Laid.Max.Y}
			left = left.minus(asDrawn.moved(far).region(shape))
			shape = asDrawn.moved(near).region(shape)
		}
		if left = left.minus(shape); left.empty() {
			break
		}
	}
	return left
}

// covering reports whether a paper covers the boards.
func (p *paper) covering() bool {
	return p.plan != nil && (p.plan.Role == Covering || p.plan.Role == Strip)
}

// insideCover objects where something stands out of the cover, or of the
// footprint.
func (t *table) insideCover(home *body) error {
	var cover units.Rect
	if t.under != nil {
		cover = t.under.facets[0].shape.rect()
	} else {
		cover = t.cover()
	}
	for _, f := range home.stack {
		if f.of.plan != nil && (f.of.plan.Role == Covering || f.of.plan.Role == Strip) {
			continue
		}
		if r := f.shape.rect(); !f.stands && !r.In(cover) {
			return fmt.Errorf("%s stands out of the cover: %v", f.of, t.inRow(r))
		}
	}
	return nil
}

// rightSides objects where the wrong side of one-sided paper shows unwarned.
func (t *table) rightSides(home *body) error {
	leaves := t.leavesOf(home)
	for _, f := range home.stack {
		if f.of.plan == nil || f.of.board >= 0 || f.stands || slices.Contains(t.job.WrongSides, f.of.index) ||
			slices.Contains(t.job.Covering, f.fitting()) { // seen through a notch at most, and warned of
			continue
		}
		s := t.stock(f.of.plan.Stock)
		covering := f.of.plan.Role == Covering || f.of.plan.Role == Strip
		if s == nil || s.TwoSided || covering && t.job.Unlined {
			continue
		}
		for _, above := range [...]bool{true, false} {
			side := score.Face
			if (f.lies.up() == score.Face) != above {
				side = score.Back
			}
			right := (side == score.Face) == (f.of.plan.Up == work.RightSide)
			if !right && t.shows(home, leaves, f, above) {
				return fmt.Errorf("%s shows its wrong side", f.of)
			}
		}
	}
	return nil
}
