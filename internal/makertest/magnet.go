package makertest

import (
	"fmt"

	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// A hole takes a magnet.
type hole struct {
	rect    units.Rect // round it, on the board
	depth   units.Length
	outside bool
	used    bool
	magnet  *paper
}

func (t *table) sink(p *paper, s work.Sink) error {
	if p.plan == nil || p.plan.Role != BoardRole {
		return fmt.Errorf("%s is bored into", p)
	}
	r := units.RectAt(units.Point{X: s.Middle.X - s.Diameter/2, Y: s.Middle.Y - s.Diameter/2}, units.Size{W: s.Diameter, H: s.Diameter})
	switch f := p.facets[0]; {
	case s.Diameter <= 0 || s.Depth <= 0 || s.Depth > p.caliper:
		return fmt.Errorf("%s: a hole of %v, %v deep", p, s.Diameter, s.Depth)
	case !r.In(units.RectAt(units.Point{}, p.size)):
		return fmt.Errorf("%s: the hole at %v lies off it", p, s.Middle)
	case !f.lies.region(rectRegion(r)).minus(p.body.exposed(f, !s.Outside)).empty():
		return fmt.Errorf("%s is bored into where it is covered", p)
	}
	for _, h := range p.holes {
		if h.rect.Overlaps(r) {
			return fmt.Errorf("%s is bored into twice", p)
		}
	}
	t.note("sink %s %v", p, r)
	p.holes = append(p.holes, &hole{rect: r, depth: s.Depth, outside: s.Outside})
	return nil
}

func (t *table) tryPair(a work.TryPair) error {
	if a.One == a.Other {
		return fmt.Errorf("%s is held to itself", label(a.One))
	}
	for _, w := range [...]work.Object{a.One, a.Other} {
		p, err := t.hold(w)
		if err != nil {
			return err
		}
		if p.fixed || w.Kind != work.Magnet {
			return fmt.Errorf("%s cannot be tried", p)
		}
		p.tried = true
	}
	t.note("try")
	return nil
}

// inHole objects where a magnet does not go into a hole made for it.
func (t *table) inHole(p *paper, on place) error {
	if !p.tried {
		return fmt.Errorf("%s has not been tried with the one that it meets", p)
	}
	r := p.facets[0].shape.rect()
	for _, q := range p.body.papers {
		for _, h := range q.holes {
			if q.facets[0].lies.rect(h.rect) == r && !h.used && h.depth >= p.caliper && h.outside == on.below {
				h.used, h.magnet = true, p
				return nil
			}
		}
	}
	return fmt.Errorf("%s lies at %v, where no hole has been made for it", p, t.inRow(r))
}

// putDown puts something in its place without adhesive.
func (t *table) putDown(p *paper, a work.Put) error {
	if p.fixed {
		return fmt.Errorf("%s is put down twice", p)
	}
	on, err := t.base(a.On)
	if err != nil {
		return err
	}
	if size := shapeOf(p.facets).rect().Size(); size != a.Size {
		return fmt.Errorf("%s is %v; said %v", p, size, a.Size)
	}
	r, err := on.at(a.At, a.Size)
	if err != nil {
		return err
	}
	if err := t.byMarks(p, a.On, r); err != nil {
		return err
	}
	from := shapeOf(p.facets).rect().Min
	move := asDrawn.moved(units.Point{X: on.rect.Min.X + r.Min.X - from.X, Y: on.rect.Min.Y + r.Min.Y - from.Y})
	if p.body == on.body {
		return fmt.Errorf("%s is put down twice", p)
	}
	p.fixed = true
	t.note("put %s %v", p, move)
	return t.bring(p, on, move)
}
