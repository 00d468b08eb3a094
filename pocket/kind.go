package pocket

import (
	"iter"

	"boardwrap.example/units"
)

// A Kind is a way to hold something, or to hinge it: one of the types of this
// package, listed by [Kinds]. Its values are plain and comparable.
type Kind interface {
	// Name returns the name of the kind in the words of the trade.
	Name() string
	// Design works the kind out in the given paper, on the ruler that pieces
	// are measured with. The error is a *check.Error with all violations, and
	// the design is then the zero Design.
	Design(Paper, units.Ruler) (Design, error)

	steps(*Design, *teller)
}

// Kinds walks the zero values of all kinds, in a fixed order.
func Kinds() iter.Seq[Kind] {
	return func(yield func(Kind) bool) {
		for _, k := range [...]Kind{
			Slip{}, Corner{}, Flap{}, FoldedStrip{}, Gusset{}, GussetRun{}, FoldedAccordion{}, Concertina{}, Pleat{},
		} {
			if !yield(k) {
				return
			}
		}
	}
}
