package makertest

import (
	"fmt"
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A thing is what a mark is for: it need not exist yet.
type thing struct {
	kind        work.ObjectKind
	index, copy int
}

func (p *paper) thing() thing { return thing{p.kind, p.index, p.copy} }

func (w thing) String() string { return fmt.Sprintf("%v %d, copy %d", w.kind, w.index, w.copy) }

// A mark is where something will lie, or where it has been laid dry.
type mark struct {
	what thing
	base work.Base
	rect units.Rect // from the base's upper left corner
	laid bool
	used bool
}

// at returns where a thing of the given size lies on a base, from its upper
// left corner.
func at(a work.At, thing, base units.Size) (units.Rect, error) {
	if a.Across != score.Left && a.Across != score.Right || a.Along != score.Head && a.Along != score.Tail {
		return units.Rect{}, fmt.Errorf("no place is measured from %v and %v", a.Across, a.Along)
	}
	p := units.Point{X: a.X, Y: a.Y}
	if a.Across == score.Right {
		p.X = base.W - thing.W - a.X
	}
	if a.Along == score.Tail {
		p.Y = base.H - thing.H - a.Y
	}
	return units.RectAt(p, thing), nil
}

// at returns where a thing lies on a base, from its upper left corner as it
// lies in its body. On a piece at the outside one measures with the folio turned
// over.
func (p place) at(a work.At, thing units.Size) (units.Rect, error) {
	size := p.rect.Size()
	r, err := at(a, thing, size)
	if p.turned {
		r.Min.X, r.Max.X = size.W-r.Max.X, size.W-r.Min.X
	}
	return r, err
}

// draw draws a line on a piece, by its drawing.
func (t *table) draw(d work.Draw) error {
	if d.On.Kind != work.OnPiece || d.On.Panel != work.All && d.On.Panel != 0 {
		return fmt.Errorf("a line is drawn on %v, which is no piece", d.On.Kind)
	}
	p := t.find(work.Piece, d.On.Index, d.On.Copy)
	if p == nil {
		return fmt.Errorf("the base %s does not exist yet", d.On.Name)
	}
	across := p.size.W
	if d.Axis == score.Level {
		across = p.size.H
	}
	switch {
	case d.Axis > score.Level || d.At <= 0 || d.At >= across:
		return fmt.Errorf("%s: the line at %v lies off it", p, d.At)
	case len(p.facets) > 1:
		return fmt.Errorf("%s is drawn on after it has been folded", p)
	case p.facets[0].lies.over():
		return fmt.Errorf("%s is drawn on while it lies on its face", p)
	}
	line := score.Line{Axis: d.Axis, At: d.At}
	for _, b := range t.bonds {
		if b.a.of == p && crosses(b.onA, full(line, p.size)) || b.b.of == p && crosses(b.onB, full(line, p.size)) {
			return fmt.Errorf("%s: a line is drawn where it is covered", p)
		}
	}
	if slices.ContainsFunc(p.drawn, func(o *drawn) bool { return o.axis == d.Axis && o.at == d.At }) {
		return fmt.Errorf("%s: the line at %v is drawn twice", p, d.At)
	}
	p.drawn = append(p.drawn, &drawn{axis: d.Axis, at: d.At, step: t.step.Number})
	t.note("line %s %v %v", p, d.Axis, d.At)
	return nil
}

// byLines objects where a thing does not lie on lines drawn for it: along each
// of its edges that lies on the paper.
func (t *table) byLines(on *paper, r units.Rect) error {
	corner := on.facets[0].shape.rect()
	size := corner.Size()
	for _, e := range [...]struct {
		axis    score.Axis
		at, end units.Length
	}{
		{score.Upright, r.Min.X, size.W}, {score.Upright, r.Max.X, size.W}, {score.Level, r.Min.Y, size.H}, {score.Level, r.Max.Y, size.H},
	} {
		if e.at <= 0 || e.at >= e.end {
			continue
		}
		i := slices.IndexFunc(on.drawn, func(d *drawn) bool { return d.axis == e.axis && d.at == e.at })
		if i < 0 {
			return fmt.Errorf("no %v line has been drawn at %v on %s", e.axis, e.at, on)
		}
		on.drawn[i].used = true
	}
	return nil
}

// sameBase reports whether two bases are one, whatever they are called.
func sameBase(a, b work.Base) bool {
	a.Name, b.Name = "", ""
	return a == b
}

// markPlace marks where something will lie, perhaps before it is cut.
func (t *table) markPlace(m work.MarkPlace) error {
	w := m.What
	if w.Kind == work.Piece && (w.Index < 0 || w.Index >= len(t.job.Pieces) || w.Copy >= t.job.Pieces[w.Index].Quantity || w.Copy < work.All) {
		return fmt.Errorf("a place is marked for %s, which there is not", label(w))
	}
	if w.Copy != work.All {
		return t.mark(thing{w.Kind, w.Index, w.Copy}, m.On, m.At, m.Size, false)
	}
	if w.Kind != work.Piece || t.job.Pieces[w.Index].Quantity != 1 {
		return fmt.Errorf("one place is marked for every %s", w.Name)
	}
	return t.mark(thing{w.Kind, w.Index, 0}, m.On, m.At, m.Size, false)
}

func (t *table) lay(p *paper, l work.Lay) error {
	for _, q := range t.carried(p, place{}) {
		if q.body == p.body && !p.fixed && t.wet(q, always) {
			return fmt.Errorf("%s is laid dry while %s is wet", p, q)
		}
	}
	return t.mark(p.thing(), l.On, l.At, l.Size, true)
}

func (t *table) mark(p thing, on work.Base, a work.At, size units.Size, laid bool) error {
	base, err := t.base(on)
	if err != nil {
		return err
	}
	r, err := base.at(a, size)
	if err != nil {
		return err
	}
	if q := t.find(p.kind, p.index, p.copy); q != nil && q.fixed && (q.body.row || q.body.under) {
		return fmt.Errorf("%s is marked or laid dry after it has been stuck down", p)
	}
	for _, m := range t.marks {
		if m.what != p || m.laid != laid && m.rect == r && sameBase(m.base, on) {
			continue
		}
		if m.laid == laid {
			return fmt.Errorf("%s is marked or laid twice", p)
		}
		return fmt.Errorf("%s has been marked at %v of its base, and is laid at %v", p, m.rect, r)
	}
	t.note("mark %s %v %v %t", p, on.Kind, r, laid)
	t.marks = append(t.marks, &mark{what: p, base: on, rect: r, laid: laid})
	return nil
}

// byMarks objects where a thing does not lie where it has been marked and laid
// dry.
func (t *table) byMarks(p *paper, on work.Base, r units.Rect) error {
	for _, m := range t.marks {
		if m.what != p.thing() {
			continue
		}
		if !sameBase(m.base, on) || m.rect != r {
			return fmt.Errorf("%s has been marked or laid at %v of its base, and is stuck down at %v", p, m.rect, r)
		}
		m.used = true
	}
	return nil
}
