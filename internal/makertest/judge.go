package makertest

import (
	"slices"

	"boardwrap.example/pocket/work"
)

// A Judge says what becomes of changes of one order of work.
type Judge struct {
	job   Job
	trace []string
}

// A Verdict says what becomes of a changed order of work.
type Verdict uint8

// Verdicts.
const (
	// Objected: a maker objects.
	Objected Verdict = iota
	// Same: the same is done in other words, as when the middle of something
	// is measured from the other edge, or in another order that does as well.
	Same
	// Unnoticed: something else is done, and nobody objects.
	Unnoticed
)

// NewJudge returns a judge of changes of a job, to which there must be no
// objection as it is.
func NewJudge(j Job) (*Judge, error) {
	t, err := run(&j, j.Steps)
	if err != nil {
		return nil, err
	}
	slices.Sort(t.trace)
	return &Judge{j, t.trace}, nil
}

// Of carries out other steps for the same job.
func (g *Judge) Of(steps []work.Step) Verdict {
	j := g.job
	j.Steps = steps
	t, err := run(&j, steps)
	if err != nil {
		return Objected
	}
	slices.Sort(t.trace)
	if slices.Equal(t.trace, g.trace) {
		return Same
	}
	return Unnoticed
}
