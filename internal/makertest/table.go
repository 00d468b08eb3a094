package makertest

import (
	"errors"
	"fmt"
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// An Objection is what a maker cannot do, or should not have been told to do.
type Objection struct {
	// Step is the number of the step, 0 for what is wrong at the end.
	Step int
	Why  string
}

// Error returns "step 3: why", or "at the end: why".
func (o *Objection) Error() string {
	if o.Step == 0 {
		return "at the end: " + o.Why
	}
	return fmt.Sprintf("step %d: %s", o.Step, o.Why)
}

// A table is what a maker works on.
type table struct {
	job    *Job
	papers []*paper
	under  *paper // what a pocket by itself lies on
	bonds  []*bond
	marks  []*mark
	step   *work.Step
	now    *order

	row      *body
	rowAt    units.Point // of the row's upper left corner in its body
	measured bool
	refitted bool
	grain    []string // stocks whose grain has been found
	closed   bool
	outsides []int // the gaps where outsides have come together as it was closed
	leaves   []map[*facet]bool
	trace    []string
	weighted bool // what was to be worked on lies under the weight of what dries at its other side
}

func (t *table) note(format string, args ...any) {
	t.trace = append(t.trace, fmt.Sprintf(format, args...))
}

// find returns the thing that is meant, if it exists.
func (t *table) find(kind work.ObjectKind, index, copy int) *paper {
	for _, p := range t.papers {
		if p.kind == kind && p.index == index && p.copy == copy {
			return p
		}
	}
	return nil
}

// each does something with the thing that is meant, or with every copy of it.
func (t *table) each(w work.Object, do func(*paper) error) error {
	if w.Copy != work.All {
		p, err := t.hold(w)
		if err != nil {
			return err
		}
		return do(p)
	}
	if w.Kind != work.Piece {
		return fmt.Errorf("every %s is meant", w.Kind)
	}
	var all []*paper
	for _, p := range t.papers {
		if p.kind == w.Kind && p.index == w.Index {
			all = append(all, p)
		}
	}
	if len(all) == 0 || len(all) != all[0].plan.Quantity {
		return fmt.Errorf("%s: %d are there", label(w), len(all))
	}
	for _, p := range all {
		if err := do(p); err != nil {
			return err
		}
	}
	return nil
}

// hold returns one thing. What is not cut is at hand from the beginning.
func (t *table) hold(w work.Object) (*paper, error) {
	if p := t.find(w.Kind, w.Index, w.Copy); p != nil {
		return p, nil
	}
	if w.Kind != work.Piece {
		for _, o := range t.job.Others {
			if o.Kind == w.Kind && o.Index == w.Index && o.Copy == w.Copy {
				p := newPaper(w.Kind, w.Index, w.Copy, o.Size)
				p.name, p.caliper = w.Name, o.Thickness
				t.papers = append(t.papers, p)
				return p, nil
			}
		}
	}
	return nil, fmt.Errorf("%s does not exist yet", label(w))
}

func label(w work.Object) string {
	return fmt.Sprintf("%s (%s %d, copy %d)", w.Name, w.Kind, w.Index, w.Copy)
}

func (p *paper) String() string {
	return fmt.Sprintf("%s (%s %d, copy %d)", p.name, p.kind, p.index, p.copy)
}

// A place is a base found on the table.
type place struct {
	body   *body
	rect   units.Rect // in the body
	on     *paper     // for a piece, or Under
	facet  []*facet
	below  bool // on the outside
	panel  bool // on a panel, under what lies over it
	turned bool // seen with the folio turned over
}

// base finds what something is laid on, if hands can get at it.
func (t *table) base(b work.Base) (place, error) {
	on, err := t.lookUp(b)
	if err == nil {
		err = t.pressed(on)
	}
	return on, err
}

// pressed objects where a place cannot be got at while something dries: a case whose
// lining is wet lies under a weight, and one with a fitting that is wet on one side is not
// turned over for the other.
func (t *table) pressed(on place) error {
	if t.row == nil || on.body != t.row {
		return nil
	}
	for _, b := range t.bonds {
		if !b.wet || b.step == t.step.Number || b.a.of.body != t.row {
			continue
		}
		if b.joins(Liner, BoardRole, Covering, Strip) || b.joins(Edging, BoardRole, Covering, Strip) {
			return fmt.Errorf("the case is worked on while its lining is wet and under a weight")
		}
		for _, p := range [...]*paper{b.a.of, b.b.of} {
			fitting := p.kind == work.Bought || p.plan != nil && p.plan.Role == Fitting
			if fitting && t.outside(p) != on.below {
				t.weighted = true
				return fmt.Errorf("the case is turned over while %s is wet and under a weight", p)
			}
		}
	}
	return nil
}

// lookUp finds what something is laid on.
func (t *table) lookUp(b work.Base) (place, error) {
	switch b.Kind {
	case work.Under:
		if t.under == nil {
			return place{}, errors.New("a folio has no base Under")
		}
		return place{body: t.under.body, rect: units.RectAt(t.home(), t.job.Closed), on: t.under, facet: t.under.facets}, nil
	case work.OnPiece:
		p := t.find(work.Piece, b.Index, b.Copy)
		if p == nil {
			return place{}, fmt.Errorf("the base %s does not exist yet", b.Name)
		}
		facets, rect, ok := p.panel(b.Panel)
		if !ok {
			return place{}, fmt.Errorf("%s has no panel %d that lies flat", p, b.Panel)
		}
		return place{body: p.body, rect: rect, on: p, facet: facets, panel: b.Panel != work.All, below: t.outside(p), turned: t.outside(p)}, nil
	case work.OnBought:
		p := t.find(work.Bought, b.Index, 0)
		if p == nil || !p.fixed {
			return place{}, fmt.Errorf("the base %s is not in its place yet", b.Name)
		}
		return place{body: p.body, rect: p.facets[0].shape.rect(), on: p, facet: p.facets, below: t.outside(p), turned: t.outside(p)}, nil
	case work.OnRow, work.OnBoard, work.OnOutside:
		return t.baseOnRow(b)
	}
	return place{}, fmt.Errorf("no such base: %d", b.Kind)
}

// outside reports whether a fitting lies at the outside of the boards.
func (t *table) outside(p *paper) bool {
	if p.body != t.row || p.kind != work.Bought && (p.plan == nil || p.plan.Role != Fitting) {
		return false
	}
	board := slices.IndexFunc(t.row.stack, func(f *facet) bool { return f.of.board >= 0 })
	return slices.Index(t.row.stack, p.facets[0]) < board
}

func (t *table) baseOnRow(b work.Base) (place, error) {
	if b.Kind != work.OnRow && (b.Index < 0 || b.Index >= len(t.job.Row)) {
		return place{}, fmt.Errorf("the row has no board %d", b.Index)
	}
	if b.Kind != work.OnRow && !t.measured {
		// A board may be by itself yet, and its edges are not covered.
		p := t.find(work.Piece, t.job.Row[b.Index].Piece, t.job.Row[b.Index].Copy)
		if p == nil {
			return place{}, fmt.Errorf("board %d is not cut yet", b.Index)
		}
		return place{body: p.body, rect: p.facets[0].shape.rect(), below: b.Kind == work.OnOutside}, nil
	}
	if err := t.findRow(); err != nil {
		return place{}, err
	}
	if b.Kind == work.OnRow {
		return place{body: t.row, rect: t.cover()}, nil
	}
	// The covering lies round the outer edges.
	r, cover := t.boardAt(b.Index), t.cover()
	r.Min.Y, r.Max.Y = cover.Min.Y, cover.Max.Y
	if b.Index == 0 {
		r.Min.X = cover.Min.X
	}
	if b.Index == len(t.job.Row)-1 {
		r.Max.X = cover.Max.X
	}
	return place{body: t.row, rect: r, below: b.Kind == work.OnOutside}, nil
}

// cover returns the cover from outer edge to outer edge, in the body of the
// row.
func (t *table) cover() units.Rect {
	if t.measured && !t.job.Cover.Empty() {
		return t.job.Cover.Moved(t.rowAt)
	}
	var r units.Rect
	for i := range t.job.Row {
		r = r.Union(t.boardAt(i))
	}
	return r
}

// boardAt returns where board i lies in the body of the row, as measured once
// it has been.
func (t *table) boardAt(i int) units.Rect {
	r := t.job.Row[i].Laid
	if t.measured {
		r = t.job.Row[i].Made
	}
	return r.Moved(t.rowAt)
}

// findRow finds the open case on the table: all boards must be held together
// and lie as planned.
func (t *table) findRow() error {
	if t.row != nil {
		return nil
	}
	if len(t.job.Row) == 0 {
		return errors.New("there is no row of boards")
	}
	var found *body
	var at units.Point
	for i, b := range t.job.Row {
		p := t.find(work.Piece, b.Piece, b.Copy)
		if p == nil {
			return fmt.Errorf("board %d is not cut yet", i)
		}
		r := p.facets[0].shape.rect()
		corner := units.Point{X: r.Min.X - b.Laid.Min.X, Y: r.Min.Y - b.Laid.Min.Y}
		switch {
		case i == 0:
			found, at = p.body, corner
		case p.body != found:
			return fmt.Errorf("board %d is not joined to the row yet", i)
		case corner != at:
			return fmt.Errorf("board %d lies at %v from the first; planned %v", i, corner, at)
		}
		if r.Size() != b.Laid.Size() {
			return fmt.Errorf("board %d is %v; planned %v", i, r.Size(), b.Laid.Size())
		}
		if p.facets[0].lies != asDrawn.moved(r.Min) {
			return fmt.Errorf("board %d is turned round or over", i)
		}
		p.board = i
	}
	t.row, t.rowAt = found, at
	found.row = true
	return nil
}

// home returns where the upper left corner of the row or of the footprint of a
// pocket lies in its body.
func (t *table) home() units.Point {
	if t.under != nil {
		return units.Point{X: t.under.facets[0].lies.x, Y: t.under.facets[0].lies.y}
	}
	return t.rowAt
}

// inRow takes a place in the body to the row or the footprint of a pocket.
func (t *table) inRow(r units.Rect) units.Rect {
	to := t.home()
	return r.Moved(units.Point{X: -to.X, Y: -to.Y})
}

// wet reports whether something has been glued to a paper and is not dry.
func (t *table) wet(p *paper, count func(*bond) bool) bool {
	return slices.ContainsFunc(t.bonds, func(b *bond) bool { return b.wet && (b.a.of == p || b.b.of == p) && count(b) })
}

// always counts every bond.
func always(*bond) bool { return true }

// at returns where a bond lies now.
func (b *bond) at() region { return b.a.lies.region(b.onA) }

// joins reports whether a bond joins a piece of one role to one of others.
func (b *bond) joins(one Role, others ...Role) bool {
	is := func(p, q *paper) bool {
		return p.plan != nil && q.plan != nil && p.plan.Role == one && slices.Contains(others, q.plan.Role)
	}
	return is(b.a.of, b.b.of) || is(b.b.of, b.a.of)
}

// bind sticks two facets together over an area of their body.
func (t *table) bind(a, b *facet, area region, by work.Adhesive, told bool) {
	sideA, sideB := a.lies.up(), b.lies.up()
	if stack := a.of.body.stack; slices.Index(stack, a) > slices.Index(stack, b) {
		sideA = sideA.Other()
	} else {
		sideB = sideB.Other()
	}
	t.bonds = append(t.bonds, &bond{
		sideA: sideA, sideB: sideB,
		a: a, b: b, onA: a.lies.undone().region(area), onB: b.lies.undone().region(area),
		wet: by == work.Glue, step: t.step.Number, told: told,
	})
}
