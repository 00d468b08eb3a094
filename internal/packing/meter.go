package packing

import "boardwrap.example/internal/stop"

// A meter counts the steps of a run, all of its parts together, and looks at
// the Stopper now and then. Whatever loops in this package charges it, so that
// nothing goes on for ever.
type meter struct {
	until   stop.Stopper
	steps   int64
	end     int64 // of the whole run
	next    int64 // when to look at the Stopper
	since   int64 // past steps since the last look in their course
	stopped bool  // the Stopper has ended
	tell    func(m *meter)
}

// between is the number of steps between two looks at the Stopper.
const between = 1 << 15

func newMeter(until stop.Stopper, end int64) *meter {
	m := &meter{until: until, end: end}
	m.look()
	return m
}

// work charges n steps.
//
//go:noinline
func (m *meter) work(n int64) {
	if m.steps += n; m.steps >= m.next {
		m.look()
	}
}

// past says that n steps that were charged at once before are done now, so that the
// Stopper is looked at in their course too. It reports whether the Stopper has ended.
//
//go:noinline
func (m *meter) past(n int64) bool {
	if m.since += n; m.since >= between {
		m.since = 0
		m.stopped = m.stopped || m.until.Err() != nil
	}
	return m.stopped
}

func (m *meter) look() {
	m.next = m.steps + between
	if !m.stopped && m.until.Err() != nil {
		m.stopped = true
	}
	if m.tell != nil {
		m.tell(m)
	}
}

// spent reports whether limit or the whole budget is used up, or the Stopper
// is done.
//
//go:noinline
func (m *meter) spent(limit int64) bool {
	return m.stopped || m.steps >= limit || m.steps >= m.end
}
