package pocket

import (
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A crease is how a piece is folded at a score, as the maker makes it: which part
// turns and which way, as the piece lies by then.
type crease struct {
	at    units.Length
	to    units.Length // where the line ends, if it does not run from edge to edge
	axis  score.Axis
	moves score.Edge
	way   work.Way
	end   end
}

// An end says how a fold is left.
type end uint8

const (
	flat     end = iota // folded flat
	closing             // creased and laid open; it is folded flat in use
	creased             // creased and laid open; it lies flat in use too
	upright             // creased and laid open; it stands at a right angle in use
	standing            // folded at a right angle
)

// wall reports whether a fold is one of the two at either side of a wall.
func (e end) wall() bool { return e == upright || e == standing }

func (f crease) action(t work.Object) work.FoldAt {
	return work.FoldAt{What: t, Axis: f.axis, At: f.at, To: f.to, Moves: f.moves, Way: f.way, Open: f.end != flat && f.end != standing, Flat: !f.end.wall()}
}
