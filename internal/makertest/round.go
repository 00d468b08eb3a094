package makertest

import (
	"fmt"
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// rub rubs a paper down into the gaps that it lies across.
func (t *table) rub(p *paper, r work.Rub) error {
	if err := t.findRow(); err != nil {
		return err
	}
	if p.plan != nil && p.plan.Role == Fitting {
		return t.rubTab(p, r)
	}
	if p.body != t.row || !t.wet(p, always) {
		return fmt.Errorf("%s is rubbed down while it is not wet", p)
	}
	if p.plan != nil && p.plan.Role == Edging && !slices.Equal(r.Deep, r.Gaps) {
		return fmt.Errorf("%s goes round the edges at the gaps %v; said %v", p, r.Gaps, r.Deep)
	}
	if err := t.workDown(p, r.Deep); err != nil {
		return err
	}
	if gaps := t.gapsUnder(p); len(gaps) == 0 || !slices.Equal(gaps, r.Gaps) {
		return fmt.Errorf("%s lies across the gaps %v; said %v", p, gaps, r.Gaps)
	}
	p.rubbed, p.deep = true, append(p.deep, r.Deep...)
	t.note("rub %s", p)
	return nil
}

// rubTab rubs what has just been stuck down of a fitting into the gaps under it.
func (t *table) rubTab(p *paper, r work.Rub) error {
	now := func(b *bond) bool { return b.step == t.step.Number }
	if gaps := t.gapsStuck(p, now); len(gaps) == 0 || !slices.Equal(gaps, r.Gaps) || len(r.Deep) > 0 {
		return fmt.Errorf("%s has just been stuck down over the gaps %v; said %v, to the bottom of %v", p, gaps, r.Gaps, r.Deep)
	}
	p.into = append(p.into, r.Gaps...)
	t.note("rub %s %v", p, r.Gaps)
	return nil
}

// workDown works a wet paper down the edge of one board, over the covering in the gaps
// and up the edge of the next, from the left to the right: what lies beyond comes nearer
// by as much as stands against the edges.
func (t *table) workDown(p *paper, gaps []int) error {
	for _, g := range gaps {
		if g < 0 || g+1 >= len(t.job.Row) {
			return fmt.Errorf("the row has no gap %d", g)
		}
		if err := t.downInto(p, g); err != nil {
			return err
		}
	}
	if len(gaps) == 0 {
		return nil
	}
	// Laid flat it stuck elsewhere.
	t.bonds = slices.DeleteFunc(t.bonds, func(b *bond) bool {
		return b.wet && b.step == t.step.Number && (b.a.of == p || b.b.of == p)
	})
	on, err := t.lookUp(work.Base{Kind: work.OnRow})
	if err != nil {
		return err
	}
	for _, f := range p.facets {
		if f.stands {
			continue
		}
		if err := t.stickTo(touch{facet: f, where: f.shape}, on, work.Glue, false); err != nil {
			return fmt.Errorf("%s: %w", p, err)
		}
	}
	return nil
}

// downInto works a paper down into one gap.
func (t *table) downInto(p *paper, g int) error {
	gap, thick := t.gap(g), units.Length(0)
	for _, i := range [...]int{g, g + 1} {
		thick = t.find(work.Piece, t.job.Row[i].Piece, t.job.Row[i].Copy).caliper
	}
	at := slices.IndexFunc(p.facets, func(f *facet) bool {
		r := f.shape.rect()
		return !f.stands && r.Min.X < gap.Min.X && gap.Min.X < r.Max.X
	})
	if at < 0 {
		return fmt.Errorf("%s does not begin on the board left of gap %d", p, g)
	}
	f := p.facets[at]
	if f.lies != asDrawn.moved(units.Point{X: f.lies.x, Y: f.lies.y}) {
		return fmt.Errorf("%s lies turned where it is worked down", p)
	}
	if gap.Size().W < 2*p.caliper && !slices.Contains(t.job.Strained, p.index) {
		return fmt.Errorf("%s is twice %v in gap %d of %v", p, p.caliper, g, gap.Size().W)
	}
	from, wide, whole := gap.Min.X-f.lies.x, gap.Size().W, f.area.rect()
	var parts []*facet
	for _, s := range [...]struct {
		to, by units.Length
		stands bool
	}{{from, 0, false}, {from + thick, 0, true}, {from + thick + wide, thick, false}, {from + 2*thick + wide, 0, true}, {whole.Max.X, 2 * thick, false}} {
		if s.to <= whole.Min.X || s.to > whole.Max.X {
			return fmt.Errorf("%s does not reach round both edges at gap %d on to the board beyond", p, g)
		}
		area := f.area.and(rectRegion(units.Rect{Min: whole.Min, Max: units.Point{X: s.to, Y: whole.Max.Y}}))
		whole.Min.X = s.to
		part := &facet{of: p, area: area, stands: s.stands}
		part.put(f.lies.moved(units.Point{X: -s.by}))
		parts = append(parts, part)
	}
	p.facets = slices.Replace(p.facets, at, at+1, parts...)
	at = slices.Index(p.body.stack, f)
	p.body.stack = slices.Replace(p.body.stack, at, at+1, parts...)
	return nil
}

// roundEdges objects where outsides come together and the edges of the boards are bare:
// either a liner goes over them, or a strip goes round them, as high as the liner, which
// lies over both its ends.
func (t *table) roundEdges() error {
	var liners []*paper
	for _, p := range t.row.papers {
		if p.plan != nil && p.plan.Role == Liner {
			liners = append(liners, p)
		}
	}
	for _, g := range t.outsides {
		if t.job.Bare || slices.ContainsFunc(liners, func(p *paper) bool { return slices.Contains(t.gapsUnder(p), g) }) {
			continue
		}
		at := slices.IndexFunc(t.row.papers, func(p *paper) bool {
			return p.plan != nil && p.plan.Role == Edging && slices.Contains(p.deep, g)
		})
		if at < 0 {
			return fmt.Errorf("the edges of the boards are bare at gap %d, where outsides come together", g)
		}
		if err := t.underLiner(t.row.papers[at], liners); err != nil {
			return err
		}
	}
	return nil
}

// underLiner objects where a strip round edges is not as high as the liner, or lies less
// than its lap under it at one end.
func (t *table) underLiner(p *paper, liners []*paper) error {
	ends := [...]struct {
		board int
		edge  score.Edge
	}{{slices.Min(p.deep), score.Left}, {slices.Max(p.deep) + 1, score.Right}}
	strip := shapeOf(p.facets)
	for _, e := range ends {
		board, lap := t.boardAt(e.board), units.Length(0)
		for _, l := range liners {
			over := shapeOf(l.facets)
			meets := strip.and(over).and(rectRegion(board)).rect()
			if meets.Empty() {
				continue
			}
			if slices.Index(t.row.stack, l.facets[0]) < slices.Index(t.row.stack, p.facets[0]) {
				return fmt.Errorf("%s lies over %s", p, l)
			}
			if r, all := strip.rect(), over.rect(); r.Min.Y != all.Min.Y || r.Max.Y != all.Max.Y {
				return fmt.Errorf("%s lies %v, and %s %v", p, r, l, all)
			}
			if end := outward1(strip.rect(), e.edge, 0); end == outward1(meets, e.edge, 0) {
				lap = meets.Size().W
			}
		}
		if lap < t.job.Lap {
			return fmt.Errorf("%s lies %v under the liner at its %v; planned at least %v", p, lap, e.edge, t.job.Lap)
		}
	}
	return nil
}
