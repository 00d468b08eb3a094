package makertest

import (
	"fmt"
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

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
