package layout

import (
	"boardwrap.example/internal/stop"
	"boardwrap.example/score"

	"boardwrap.example/internal/packing"
	"boardwrap.example/units/check"
)

// A Budget bounds the work of a search.
type Budget struct {
	// Steps of work; a step is in the order of ten nanoseconds on a desk
	// machine of the 2020s. 0 means [DefaultSteps]. A plain layout is always
	// made, so that every budget gives a whole answer, and HowMany, OneMore and
	// Savings, which try several layouts, take at least 2,000,000. Where pieces may
	// be turned a quarter, up to as many steps again go into laying them as they
	// are, so that leave to turn them never costs a sheet. More steps never give a
	// layout with more pieces short, more bought sheets or, with as many, a higher
	// price.
	Steps int64
	// Report, if it is set, is called now and then while the search goes on, in
	// the goroutine of the search, and for the last time when it ends.
	Report func(Progress)
}

// DefaultSteps is the budget of the zero [Budget]: in the order of a second.
const DefaultSteps int64 = 100_000_000

// leastSearch is the least budget of HowMany, OneMore and Savings: some tens of
// milliseconds, in which small jobs get all their layouts.
const leastSearch int64 = 2_000_000

func (b Budget) check(bad *check.List) {
	if b.Steps < 0 {
		bad.Malformed("budget.steps", check.Negative, number(b.Steps), "0 for the default, or more")
	}
}

// Progress is how far a search is.
type Progress struct {
	share    float64
	material string
	best     int
	bound    int
}

// Share is the part of the budget that is used, from 0 to 1; it never falls. A
// search may end before all is used: the last report says 1.
func (p Progress) Share() float64 { return p.share }

// Material is what is being laid out, empty at the end.
func (p Progress) Material() string { return p.material }

// Best is the number of bought sheets of the best layout of the material so far,
// and whether there is one.
func (p Progress) Best() (sheets int, ok bool) { return p.best, p.best >= 0 }

// Bound is the proven lower bound on the bought sheets of the material so far.
func (p Progress) Bound() int { return p.bound }

// A meter counts down what a search may do.
type meter struct {
	until       score.Stopper
	total, left int64
	done        int64 // work, with what went beyond what was granted
	report      func(Progress)
	share       float64
	counting    bool // only the number of sheets is wanted, not how they are cut
}

func newMeter(until score.Stopper, b Budget, least int64) *meter {
	until = stop.Of(until)
	m := &meter{until: until, total: b.Steps, report: b.Report}
	if m.total == 0 {
		m.total = DefaultSteps
	}
	m.total = max(m.total, least)
	m.left = m.total
	return m
}

// spent reports whether the budget is used up or the Stopper has ended.
func (m *meter) spent() bool { return m.left <= 0 || m.until.Err() != nil }

// solve lays out a problem with at most so many steps.
func (m *meter) solve(p packing.Problem, name string, steps int64) (*packing.Result, error) {
	granted := max(1, min(steps, m.left))
	b := packing.Budget{Steps: granted, Count: m.counting}
	if m.report != nil {
		b.Report = func(p packing.Progress) {
			m.tell(float64(granted)*float64(p.Steps)/float64(p.Of), name, p.Best, p.Bound)
		}
	}
	r, err := packing.Solve(m.until, p, b)
	if err != nil {
		return nil, err
	}
	m.use(r.Steps, granted)
	m.tell(0, name, r.Ordinary, r.Bound)
	return r, nil
}

// use takes what was done off what is left, and no more than was granted: what
// is done beyond that does not shorten what comes after it.
func (m *meter) use(steps, granted int64) {
	m.done += steps
	m.left = max(0, m.left-min(steps, granted))
}

// tell reports how far the search is with some more steps underway.
func (m *meter) tell(underway float64, name string, best, bound int) {
	if m.report == nil {
		return
	}
	used := float64(m.total-m.left) + underway
	m.share = max(m.share, min(1, used/float64(m.total)))
	m.report(Progress{m.share, name, best, bound})
}

// end reports that the search is over.
func (m *meter) end() {
	if m.report != nil {
		m.report(Progress{1, "", -1, 0})
	}
}
