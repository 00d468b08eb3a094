package score

import "strconv"

// A Turn is the way in which a part of the strip is turned over a score.
type Turn uint8

// Turns.
const (
	AsScored Turn = iota // the way that the kind of the score asks for
	Towards              // up, towards the maker, over what lies on the table
	Away                 // down, away from the maker, under it
)

// String returns "as scored", "towards you" or "away from you".
func (t Turn) String() string {
	switch t {
	case AsScored:
		return "as scored"
	case Towards:
		return "towards you"
	case Away:
		return "away from you"
	}
	return "unknown turn"
}

// A Step is one fold, as a maker makes it: the first panel stays on the table
// face up, and what lies beyond the score is turned over it, with all that is
// folded on to it already.
//
// Layers that lie in the way are folded along if they have a score in the same
// place, as when a strip folded in half is folded again; otherwise they block
// the fold.
type Step struct {
	Score int
	Turn  Turn
}

// String returns "fold at score 2 towards you", counting from 1.
func (s Step) String() string {
	return "fold at score " + strconv.Itoa(s.Score+1) + " " + s.Turn.String()
}

// A Made is a step that was carried out: which way it turned and which scores
// it folded, in rising order; more than one when layers were folded along.
type Made struct {
	Step   Step
	Scores []int
}
