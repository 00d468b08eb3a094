package makertest

import (
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// A Lying is something that lies on the base when all is done: a part of a paper
// between its folds, or what is not cut.
type Lying struct {
	Kind        work.ObjectKind
	Index, Copy int
	Drawn       units.Rect   // round it, on the drawing of its piece
	Rect        units.Rect   // round it, in the row or in the footprint
	Thick       units.Length // its caliper, of several contents in one place that of one
	shape       region       // in the row or in the footprint
}

// Covers reports whether it lies everywhere in an area.
func (l Lying) Covers(r units.Rect) bool { return rectRegion(r).minus(l.shape).empty() }

// Made carries the order of work out as [Follow] does and returns what lies on
// the base at the end, from bottom to top. What stands upright is left out.
func Made(j Job) ([]Lying, error) {
	t, err := run(&j, j.Steps)
	if err != nil {
		return nil, err
	}
	home := t.row
	if t.under != nil {
		home = t.under.body
	}
	to := t.home()
	var all []Lying
	for _, f := range home.stack {
		if f.stands || f.of == t.under {
			continue
		}
		l := Lying{Kind: f.of.kind, Index: f.of.index, Copy: f.of.copy, Drawn: f.area.rect(), Rect: t.inRow(f.shape.rect()), Thick: f.of.caliper,
			shape: asDrawn.moved(units.Point{X: -to.X, Y: -to.Y}).region(f.shape)}
		if f.of.plan != nil {
			l.Thick = f.of.plan.Caliper
		} else if o := t.other(f.of); o != nil {
			l.Thick = o.Thickness
		}
		all = append(all, l)
	}
	return all, nil
}
