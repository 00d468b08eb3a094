package makertest

import (
	"errors"
	"fmt"
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// fix sticks a thing down in its place.
func (t *table) fix(p *paper, a work.Fix) error {
	if a.What.Copy == work.All && p.plan != nil && p.plan.Quantity > 1 {
		return fmt.Errorf("%d copies of %s are stuck down in one place", p.plan.Quantity, p)
	}
	on, err := t.base(a.On)
	if err != nil {
		return err
	}
	if a.Up == score.Back && (p.kind == work.Content || p.kind == work.Bought) {
		return fmt.Errorf("%s is stuck down by its face", p)
	}
	move, size, err := p.toLie(a, on.below)
	if err != nil {
		return err
	}
	if size.Size() != a.Size {
		return fmt.Errorf("%s is %v where it is measured; said %v", p, size.Size(), a.Size)
	}
	r, err := on.at(a.At, size.Size())
	if err != nil {
		return err
	}
	if a.Lines {
		if on.on == nil || a.On.Kind != work.OnPiece {
			return fmt.Errorf("%s is laid by lines, and no lines are drawn on a %v", p, a.On.Kind)
		}
		if err := t.byLines(on.on, r); err != nil {
			return err
		}
	} else if err := t.marked(p, a.On, on.on); err != nil {
		return err
	}
	if p.plan != nil && p.plan.Role == BoardRole && t.wet(p, always) {
		return fmt.Errorf("%s is laid down while what is glued to it is wet", p)
	}
	if err := t.byMarks(p, a.On, r); err != nil {
		return err
	}
	move = move.moved(units.Point{X: on.rect.Min.X + r.Min.X - size.Min.X, Y: on.rect.Min.Y + r.Min.Y - size.Min.Y})
	to := t.baseName(a.On, on)
	if p.kind == work.Magnet { // it is round
		t.note("fix %s %v %v", p, to, r)
	} else {
		t.note("fix %s %v %v", p, to, move)
	}
	if p.body == on.body {
		if move != asDrawn {
			return fmt.Errorf("%s is stuck down already", p)
		}
	} else if err := t.bring(p, on, move); err != nil {
		return err
	}
	if err := t.press(p, a, on); err != nil || p.kind != work.Magnet {
		return err
	}
	// Sunk, it lies no higher than the board.
	p.body.stack = slices.DeleteFunc(p.body.stack, func(f *facet) bool { return f.of == p })
	return nil
}

// baseName says what something is stuck down on: a board that is by itself yet is
// the piece that it is cut as.
func (t *table) baseName(b work.Base, on place) string {
	switch {
	case on.on != nil:
		return on.on.String()
	case b.Kind == work.OnBoard && !t.measured:
		at := t.job.Row[b.Index]
		return t.find(work.Piece, at.Piece, at.Copy).String()
	}
	return b.Kind.String()
}

// marked objects where nobody has marked the place of what goes into the
// folio, and laid it dry, on a board or on another fitting. A lining is only laid dry,
// and so is what covers the outside.
func (t *table) marked(p *paper, on work.Base, base *paper) error {
	fitting := p.kind == work.Bought || p.kind == work.Piece && p.plan.Role == Fitting
	if !fitting && (p.kind != work.Piece || p.plan.Role != Liner && p.plan.Role != Covering) {
		return nil
	}
	if on.Kind == work.OnPiece && !(fitting && t.ofAnother(p, base)) {
		return nil
	}
	marked, laid := !fitting, !fitting && t.goesDown(p)
	for _, m := range t.marks {
		if m.what == p.thing() {
			marked, laid = marked || !m.laid, laid || m.laid
		}
	}
	if !marked || !laid {
		return fmt.Errorf("%s is stuck down: its place marked %t, laid dry %t", p, marked, laid)
	}
	return nil
}

// goesDown reports whether a paper is cut wider than it is to lie, as it goes down the
// edges of boards: that it cannot be laid dry.
func (t *table) goesDown(p *paper) bool {
	return slices.ContainsFunc(t.job.Want, func(w Placed) bool {
		return w.Piece == p.index && w.Copy == p.copy && w.Panel == work.All && w.Rect.Size().W < p.size.W
	})
}

// ofAnother reports whether a piece is one of another fitting than a thing is.
func (t *table) ofAnother(p, base *paper) bool {
	fitting := p.index
	if p.kind == work.Piece {
		fitting = p.plan.Fitting
	}
	return base.plan != nil && base.plan.Role == Fitting && base.plan.Fitting != fitting
}

// toLie returns the move that brings a thing to lie as an action says, but for
// its place, and where what is measured of it lies then. A thing lies as it has
// been left; only a piece by itself, without folds, is laid down with the side
// up that is asked for. On the outside it lies turned over, as seen from inside.
func (p *paper) toLie(a work.Fix, below bool) (pose, units.Rect, error) {
	facets, measured, ok := p.panel(a.Panel)
	if !ok {
		return pose{}, units.Rect{}, fmt.Errorf("%s has no panel %d that lies flat", p, a.Panel)
	}
	if a.Quarters < 0 || a.Quarters > 3 || a.Up > score.Back {
		return pose{}, units.Rect{}, fmt.Errorf("%s is turned %d quarters", p, a.Quarters)
	}
	if a.Quarters%2 == 1 && p.plan != nil && (p.plan.Role == Liner || p.plan.Role == Edging) {
		return pose{}, units.Rect{}, fmt.Errorf("%s is turned a quarter, and its grain runs across", p)
	}
	lead := facets[0]
	if i := slices.IndexFunc(facets, func(f *facet) bool { return !f.turned }); i >= 0 && a.Panel == work.All {
		lead = facets[i]
	}
	move := turned(score.Face, a.Quarters)
	if lead.lies.up() != a.Up {
		if len(p.body.stack) > 1 {
			return pose{}, units.Rect{}, fmt.Errorf("%s lies with its %v up; said %v", p, lead.lies.up(), a.Up)
		}
		move = pose{a: -1, d: 1}.then(move)
	}
	if below {
		move = move.then(pose{a: -1, d: 1})
	}
	var r units.Rect
	if a.Panel == work.All {
		for _, f := range facets {
			r = r.Union(f.lies.then(move).region(f.area).rect())
		}
	} else {
		r = move.rect(measured)
	}
	return move, r, nil
}

// press presses what takes the adhesive on to the base.
func (t *table) press(p *paper, a work.Fix, on place) error {
	p.fixed = true
	if p.kind == work.Magnet {
		if err := t.inHole(p, on); err != nil {
			return err
		}
	}
	var glued []touch
	var err error
	if err := p.flatAs(a.Flat); err != nil {
		return err
	}
	if len(a.Areas) > 0 {
		glued, err = p.areas(a.Areas, nil)
		for i := range glued {
			glued[i].up = on.below
		}
	} else {
		glued = t.touching(p, on)
	}
	if err != nil {
		return err
	}
	if len(glued) == 0 {
		return fmt.Errorf("%s: nothing of it lies on its base", p)
	}
	for _, g := range glued {
		if err := t.stickTo(g, on, a.By, len(a.Areas) > 0); err != nil {
			return fmt.Errorf("%s: %w", p, err)
		}
	}
	return nil
}

// flatAs objects where areas are said to be measured on a flat piece of another size.
func (p *paper) flatAs(flat units.Size) error {
	if flat != (units.Size{}) && flat != p.size {
		return fmt.Errorf("%s is %v as it was cut; said %v", p, p.size, flat)
	}
	return nil
}

// A touch is what of a facet is to be stuck to something, in its body, and
// whether it is its upper side there.
type touch struct {
	facet *facet
	where region
	up    bool
}

// areas returns the facets with areas on the drawing. A side given says which
// side of them it is; otherwise it is the one towards the base.
func (p *paper) areas(areas []units.Rect, side *score.Side) ([]touch, error) {
	var out []touch
	for _, a := range areas {
		if a.Empty() {
			return nil, fmt.Errorf("%s: an empty area takes adhesive", p)
		}
		left := rectRegion(a)
		for _, f := range p.facets {
			on := f.area.and(left)
			if on.empty() {
				continue
			}
			left = left.minus(on)
			if f.stands {
				return nil, fmt.Errorf("%s: adhesive on a part that stands up", p)
			}
			g := touch{facet: f, where: f.lies.region(on)}
			if side != nil {
				g.up = f.lies.up() == *side
			}
			out = append(out, g)
		}
		if !left.empty() {
			return nil, fmt.Errorf("%s: adhesive at %v lies off the paper", p, a)
		}
	}
	return out, nil
}

// touching returns all of a thing and of what it carries that lies on the base:
// what is lowest.
func (t *table) touching(p *paper, on place) []touch {
	papers := t.carried(p, on)
	var packet []*facet
	for _, f := range p.body.stack {
		if slices.Contains(papers, f.of) && !f.stands {
			packet = append(packet, f)
		}
	}
	if on.below {
		slices.Reverse(packet)
	}
	var out []touch
	z := heights(packet)
	// What hangs from something higher, as a film in a frame, touches nothing.
	hangs := func(i int) bool {
		return packet[i].of != p && slices.ContainsFunc(t.bonds, func(b *bond) bool {
			other := b.b
			if b.b == packet[i] {
				other = b.a
			} else if b.a != packet[i] {
				return false
			}
			k := slices.Index(packet, other)
			return k > i && z[k] > z[i]+packet[i].of.caliper
		})
	}
	for i := range packet {
		if z[i] != 0 || hangs(i) {
			continue
		}
		g := touch{facet: packet[i], where: packet[i].shape, up: on.below}
		for _, under := range packet[:i] {
			g.where = g.where.minus(under.shape)
		}
		for _, b := range t.bonds { // a board that lies on one strip goes on a second with the rest
			if (b.a == g.facet || b.b == g.facet) && b.faces(g) {
				g.where = g.where.minus(b.at())
			}
		}
		if !g.where.empty() {
			out = append(out, g)
		}
	}
	return out
}

// stickTo sticks a part to what lies next to it on that side. All of it must
// lie on something, or as much of it as does.
func (t *table) stickTo(g touch, on place, by work.Adhesive, all bool) error {
	left := g.where
	some := false
	for _, f := range g.facet.of.body.beyond(g.facet, g.up) {
		if f.stands {
			continue
		}
		meets := left.and(f.shape)
		if meets.empty() {
			continue
		}
		if f.of != on.on && t.lifted(f, g.facet) && (on.on == nil || !t.isPartOf(g.facet, f, on.on)) {
			continue
		}
		if err := t.mayStick(g.facet, f, on, meets); err != nil {
			return err
		}
		left = left.minus(f.shape)
		some = true
		t.bind(g.facet, f, meets, by, all && by == work.Glue)
		if left.empty() {
			return nil
		}
	}
	if all || !some {
		return errors.New("adhesive where no paper meets paper")
	}
	return nil
}

// mayStick objects where a part meets something else than it is to be stuck
// to, or something that is still wet there.
func (t *table) mayStick(g, f *facet, on place, meets region) error {
	switch {
	case on.on != nil:
		if (f.of != on.on || len(on.facet) > 0 && !slices.Contains(on.facet, f)) && !t.isPartOf(g, f, on.on) && !t.inNotch(g, f, on.on, meets) {
			return fmt.Errorf("adhesive meets %s, not %s", f.of, on.on)
		}
	case f.of.plan == nil || f.of.plan.Role == Fitting:
		return fmt.Errorf("adhesive meets %s, not the case", f.of)
	case g.of.plan != nil && g.of.plan.Role == Fitting && !g.inUse(meets.rect()).In(on.rect) && !t.onCover(g, meets):
		return errors.New("adhesive beyond the edges of the board")
	}
	for _, b := range t.bonds {
		if !b.wet || b.step == t.step.Number || b.a == g || b.b == g {
			continue
		}
		if b.turned && (b.a.of == f.of || b.b.of == f.of) || (b.a == f || b.b == f) && b.at().overlaps(meets) {
			return fmt.Errorf("%s is still wet where it is covered", f.of)
		}
	}
	return nil
}

// onCover reports whether a tab may reach over hinges, and stays on the cover.
func (t *table) onCover(g *facet, meets region) bool {
	return t.row != nil && slices.Contains(t.job.Tabbed, g.fitting()) && g.inUse(meets.rect()).In(t.cover())
}

// isPartOf reports whether something of a piece's fitting sticks to it, so that what
// is put on that from outside the fitting has it before it as the piece: a content or a
// mat on it, the film in its window.
func (t *table) isPartOf(g, f *facet, p *paper) bool {
	if p.plan == nil || f.of == p || g.fitting() == p.plan.Fitting || f.of.plan != nil && f.of.plan.Role != Fitting || f.fitting() != p.plan.Fitting {
		return false
	}
	return slices.ContainsFunc(t.bonds, func(b *bond) bool { return b.a.of == f.of && b.b.of == p || b.a.of == p && b.b.of == f.of })
}

// inNotch reports whether what goes into a piece's fitting lies bare in a notch, or what
// is behind it in the fitting or the case beside or above that, and the plan warns of it.
func (t *table) inNotch(g, f *facet, p *paper, meets region) bool {
	if p.plan == nil || g.fitting() == p.plan.Fitting || !slices.Contains(t.job.Covering, g.fitting()) || !meets.rect().In(shapeOf(p.facets).rect()) {
		return false
	}
	return f.of.kind == work.Piece && (f.of.plan == nil || f.of.plan.Role != Fitting) || f.fitting() == p.plan.Fitting
}

// stick glues a part of a folded piece to what it lies on or under.
func (t *table) stick(p *paper, s work.Stick) error {
	if s.Side > score.Back {
		return fmt.Errorf("%s has no side %d", p, s.Side)
	}
	on, err := t.base(s.To)
	if err != nil {
		return err
	}
	if on.body != p.body {
		return fmt.Errorf("%s does not lie on %s", p, s.To.Name)
	}
	if err := p.flatAs(s.Flat); err != nil {
		return err
	}
	side := s.Side
	areas, err := p.areas([]units.Rect{s.Area}, &side)
	if err != nil {
		return err
	}
	if on.on == p && s.To.Panel == work.All {
		on.facet = nil
	}
	for _, g := range areas {
		if slices.ContainsFunc(t.bonds, func(b *bond) bool {
			return (b.a == g.facet && b.onA.overlaps(g.facet.lies.undone().region(g.where)) || b.b == g.facet && b.onB.overlaps(g.facet.lies.undone().region(g.where))) && b.faces(g)
		}) {
			return fmt.Errorf("%s is stuck down there already", p)
		}
		if err := t.stickTo(g, on, s.By, true); err != nil {
			return fmt.Errorf("%s: %w", p, err)
		}
	}
	t.note("stick %s %v", p, s.Area)
	return nil
}

// faces reports whether a bond is on the side of a part that is to be stuck.
func (b *bond) faces(g touch) bool {
	other := b.b
	if other == g.facet {
		other = b.a
	}
	return slices.Contains(g.facet.of.body.beyond(g.facet, g.up), other)
}
