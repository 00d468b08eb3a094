package fit

import (
	"boardwrap.example/internal/stop"
	"boardwrap.example/score"
	"strconv"

	"boardwrap.example/units/check"
)

// A Budget bounds the work of a search.
type Budget struct {
	// Steps of work; a step is a fitting or a content worked out in one trial
	// plan, in the order of some microseconds on a desk machine of the 2020s. 0
	// means [DefaultSteps]; less is refused.
	Steps int64
}

// DefaultSteps is the budget of the zero [Budget]: in the order of a second.
const DefaultSteps int64 = 100_000

// A meter counts the work of a search, and ends it.
type meter struct {
	until score.Stopper
	ended bool // the Stopper had ended when it was put aside
	left  int64
	done  int64
	rest  int // work of less than a step
}

// ofAStep is how many rectangles are looked at in a step of the budget.
const ofAStep = 1000

func (b Budget) check(bad *check.List) {
	if b.Steps < 0 {
		bad.Malformed("budget.steps", check.Negative, strconv.FormatInt(b.Steps, 10), "0 for the default, or more")
	}
}

func newMeter(until score.Stopper, b Budget) *meter {
	until = stop.Of(until)
	if b.Steps == 0 {
		b.Steps = DefaultSteps
	}
	return &meter{until: until, left: b.Steps}
}

// spend takes steps off the budget.
func (m *meter) spend(steps int) {
	m.left -= int64(steps)
	m.done += int64(steps)
}

// work takes so many rectangles that are looked at off the budget.
func (m *meter) work(rects int) {
	if m.rest += rects; m.rest >= ofAStep {
		m.spend(m.rest / ofAStep)
		m.rest %= ofAStep
	}
}

// over reports whether the search has to end: its budget is spent or its Stopper
// is done.
func (m *meter) over() bool { return m.ended || m.left <= 0 || m.until.Err() != nil }
