package propose

import (
	"boardwrap.example/score"
)

// A Budget bounds the work of a search.
type Budget struct {
	// Steps of work: some for each shape of a cover's part that is laid beside
	// another one, and [StepsOfFitting] for a fitting worked out in a trial plan. A
	// step is in the order of ten nanoseconds on a desk machine of the 2020s. 0 means
	// [DefaultSteps]. Each form to choose among has an equal share, of that each
	// aim, and some plain folio is tried for each in any case, but for forms that a
	// Stopper which has ended leaves no time to begin.
	Steps int64
}

const (
	// DefaultSteps is the budget of the zero [Budget]: in the order of a second.
	DefaultSteps int64 = 100_000_000
	// StepsOfFitting is what a fitting in a trial plan counts.
	StepsOfFitting = 1000
)

// A meter counts the work of one search, and ends it.
type meter struct {
	until score.Stopper
	left  int64
	done  int64
}

// spend takes steps off the budget.
func (m *meter) spend(steps int) {
	m.left -= int64(steps)
	m.done += int64(steps)
}

// over reports whether the search has to end.
func (m *meter) over() bool { return m.left <= 0 || m.until.Err() != nil }

// stepsToLay is the budget of laying everything in a plan in which each thing has
// a spot of its own: it finds that at once, and where the folio does not close
// over it, trying every other way is not worth more.
const stepsToLay = 1000
