package packing

import (
	"slices"

	"boardwrap.example/internal/stop"
)

// Solve lays out p. The error is nil or [Faults]; that pieces are left without
// a place is not an error, see [Result.Short].
func Solve(until stop.Stopper, p Problem, budget Budget) (*Result, error) {
	if err := p.Validate(); err != nil {
		return nil, err
	}
	limit := budget.Steps
	if limit <= 0 {
		limit = DefaultSteps
	}
	limit = max(limit, LeastSteps)
	c := &course{v: newSolver(until, p, limit)}
	if slices.ContainsFunc(c.v.t.parts, func(q part) bool { return q.turn }) {
		c.unturned(until, p, limit)
	}
	c.report(budget.Report)
	c.run()
	if budget.Report != nil {
		budget.Report(c.progress())
	}
	r := c.v.result()
	if !budget.Count {
		c.v.write(r)
	}
	r.Steps, r.Stopped = c.steps(), c.stopped()
	return r, nil
}
