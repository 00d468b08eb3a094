// Package stop says when searches end. They ask for no more than that: package context
// would bring the clock and the calendar into every program that searches.
package stop

// A Stopper says when a search has to end, as score.Stopper does, which every
// context.Context is: Err returns why, and nil as long as it may go on.
type Stopper interface{ Err() error }

// Never ends nothing.
type Never struct{}

// Err returns nil.
func (Never) Err() error { return nil }

// Of is the Stopper that is given, or Never where there is none.
func Of(s Stopper) Stopper {
	if s == nil {
		return Never{}
	}
	return s
}
