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

// An order is what a step rests on.
type order struct {
	before map[int]bool // the numbers of all steps that must be done before
}

// Follow carries the order of work out and returns what there is to object to:
// the first thing that cannot be done, or all that differs from the plan at the
// end.
func Follow(j Job) error {
	_, err := run(&j, j.Steps)
	return err
}

// FollowEarly is for steps that can be done in any order, which must be told
// apart by what they rest on. It carries out step k as soon as what it rests on is done, and then
// all others as they come. Where one of these cannot be got at for what lies under a weight
// since, that is let dry first.
func FollowEarly(j Job, k int) error {
	if k < 0 || k >= len(j.Steps) {
		return nil
	}
	orders, err := ordersOf(j.Steps)
	if err != nil {
		return err
	}
	t, err := runEarly(&j, k, orders)
	if err == nil || !t.weighted {
		return err
	}
	dries := func(s work.Step) bool { return s.Task == work.TaskDry && orders[s.Number].before[j.Steps[k].Number] }
	if d := slices.IndexFunc(j.Steps, dries); d > 0 {
		_, err = runEarly(&j, d, orders)
	}
	return err
}

// runEarly carries out step k with what it rests on, and then all others.
func runEarly(j *Job, k int, orders map[int]*order) (*table, error) {
	first := orders[j.Steps[k].Number].before
	var early, late []work.Step
	for i, s := range j.Steps {
		if i == k || first[s.Number] {
			early = append(early, s)
		} else {
			late = append(late, s)
		}
	}
	return run(j, append(early, late...))
}

// FollowMeanwhile carries out step k, which does not rest on step dry, while what that lets
// dry is wet: all before that, what k rests on, step k, and then the others as they come.
func FollowMeanwhile(j Job, dry, k int) error {
	orders, err := ordersOf(j.Steps)
	if err != nil {
		return err
	}
	first := orders[j.Steps[k].Number].before
	early, late := slices.Clone(j.Steps[:dry]), []work.Step(nil)
	for i, s := range j.Steps[dry:] {
		if dry+i == k || first[s.Number] {
			early = append(early, s)
		} else {
			late = append(late, s)
		}
	}
	_, err = run(&j, append(early, late...))
	return err
}

// ordersOf works out what steps rest on, and objects where that is none of the
// steps before.
func ordersOf(steps []work.Step) (map[int]*order, error) {
	orders := map[int]*order{}
	for i, s := range steps {
		if s.Number != i+1 {
			return nil, &Objection{s.Number, fmt.Sprintf("numbered %d where %d comes next", s.Number, i+1)}
		}
		if len(s.Do) == 0 {
			return nil, &Objection{s.Number, "nothing to do"}
		}
		o := &order{map[int]bool{}}
		last := 0
		for _, a := range s.After {
			before, ok := orders[a]
			if !ok || a <= last {
				return nil, &Objection{s.Number, fmt.Sprintf("rests on step %d", a)}
			}
			last = a
			o.before[a] = true
			for b := range before.before {
				o.before[b] = true
			}
		}
		orders[s.Number] = o
	}
	return orders, nil
}

func run(j *Job, steps []work.Step) (*table, error) {
	orders, err := ordersOf(j.Steps)
	if err != nil {
		return nil, err
	}
	t := &table{job: j, grain: j.GrainFound}
	if len(j.Row) == 0 {
		t.under = newPaper(work.Piece, -1, 0, j.Closed)
		t.under.name = "base"
		t.under.facets[0].cut(rectRegion(units.RectAt(units.Point{}, j.Closed).Grow(j.Around)))
		t.under.body.under = true
		t.under.fixed = true
	}
	for i := range steps {
		t.step, t.now = &steps[i], orders[steps[i].Number]
		for _, a := range steps[i].Do {
			if err := t.do(a); err != nil {
				return t, &Objection{steps[i].Number, err.Error()}
			}
			if _, ok := a.(work.Insert); !ok { // which changes no leaves
				t.leaves = nil
			}
		}
	}
	return t, t.compare()
}

func (t *table) note(format string, args ...any) {
	t.trace = append(t.trace, fmt.Sprintf(format, args...))
}

// do carries out one action.
func (t *table) do(a work.Action) error {
	switch a := a.(type) {
	case work.FindGrain:
		return t.findGrain(a)
	case work.Cut:
		return t.cut(a)
	case work.Open:
		return t.each(a.What, func(p *paper) error { return t.open(p, a) })
	case work.NotchOut:
		return t.each(a.What, func(p *paper) error { return t.notch(p, a) })
	case work.Trim:
		return t.each(a.What, func(p *paper) error { return t.trim(p, a) })
	case work.ScoreAt:
		return t.each(a.What, func(p *paper) error { return t.score(p, a) })
	case work.FoldAt:
		return t.each(a.What, func(p *paper) error { return t.fold(p, a) })
	case work.TurnOver:
		return t.each(a.What, func(p *paper) error { return t.turnOver(p, a.Again) })
	case work.Draw:
		return t.draw(a)
	case work.MarkPlace:
		return t.markPlace(a)
	case work.Lay:
		return t.each(a.What, func(p *paper) error { return t.lay(p, a) })
	case work.Put:
		return t.each(a.What, func(p *paper) error { return t.putDown(p, a) })
	case work.Sink:
		return t.each(a.What, func(p *paper) error { return t.sink(p, a) })
	case work.TryPair:
		return t.tryPair(a)
	case work.Fix:
		return t.each(a.What, func(p *paper) error { return t.fix(p, a) })
	case work.Stick:
		return t.each(a.What, func(p *paper) error { return t.stick(p, a) })
	case work.TurnIn:
		return t.each(a.What, func(p *paper) error { return t.turnIn(p, a) })
	case work.Tuck:
		return t.each(a.What, func(p *paper) error { return t.tuck(p, a) })
	case work.Rub:
		return t.each(a.What, func(p *paper) error { return t.rub(p, a) })
	case work.Dry:
		return t.dry(a)
	case work.Measure:
		return t.measure(a)
	case work.Refit:
		return t.refit(a)
	case work.Insert:
		return t.insert(a)
	case work.Close:
		return t.close(a)
	}
	return fmt.Errorf("no maker knows how to do %T", a)
}

// find returns the thing that is meant, if it exists.
func (t *table) find(kind work.ThingKind, index, copy int) *paper {
	for _, p := range t.papers {
		if p.kind == kind && p.index == index && p.copy == copy {
			return p
		}
	}
	return nil
}

// each does something with the thing that is meant, or with every copy of it.
func (t *table) each(w work.Thing, do func(*paper) error) error {
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
func (t *table) hold(w work.Thing) (*paper, error) {
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

func label(w work.Thing) string {
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
		if b.joins(Liner, BoardRole, Covering, Strip) {
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
