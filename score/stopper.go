package score

// A Stopper says when a search has to end: Err returns why, and nil as long as it may
// go on. Every context.Context is one; a nil Stopper never ends anything.
type Stopper interface {
	// Err returns why the search has to end, or nil.
	Err() error
}

// ended asks a Stopper.
func ended(s Stopper) error {
	if s == nil {
		return nil
	}
	return s.Err()
}
