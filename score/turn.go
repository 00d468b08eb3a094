package score

import (
	"strconv"

	"boardwrap.example/internal/word"
)

// A Way is the way in which a part of the strip is turned over a score.
type Way uint8

// Turns.
const (
	AsScored Way = iota // the way that the kind of the score asks for
	Towards             // up, towards the maker, over what lies on the table
	Away                // down, away from the maker, under it
)

var wayWords = word.List{What: "way", Words: []string{AsScored: "as scored", Towards: "towards you", Away: "away from you"}}

// String returns "as scored", "towards you" or "away from you".
func (t Way) String() string { return wayWords.String(uint8(t)) }

// AppendText appends the text of [Way.String]. The error matches
// units.ErrUnknown.
func (t Way) AppendText(dst []byte) ([]byte, error) { return wayWords.Append(dst, uint8(t)) }

// MarshalText returns the text of [Way.String], with the error of
// [Way.AppendText].
func (t Way) MarshalText() ([]byte, error) { return wayWords.Marshal(uint8(t)) }

// UnmarshalText reads what [Way.String] writes. The error matches
// units.ErrSyntax.
func (t *Way) UnmarshalText(text []byte) error { return word.Unmarshal(wayWords, t, text) }

// A Turn is one fold, as a maker makes it: the first panel stays on the table
// face up, and what lies beyond the score is turned over it, with all that is
// folded on to it already.
//
// Layers that lie in the way are folded along if they have a score in the same
// place, as when a strip folded in half is folded again; otherwise they block
// the fold.
type Turn struct {
	Score int // counted from 0 from the left end
	Way   Way // in which what lies beyond it is turned
}

// String returns "fold at score 2 towards you", counting from 1.
func (s Turn) String() string {
	return "fold at score " + strconv.Itoa(s.Score+1) + " " + s.Way.String()
}

// A Made is a turn that was carried out: which way it turned and which scores
// it folded, in rising order; more than one when layers were folded along.
type Made struct {
	Turn   Turn  // with the way that it took
	Scores []int // in rising order
}

// turnsOf returns the turns that fold scores in the given order, none of which
// is folded along with another. Which way a fold turns depends on whether the
// panel before it lies face up by then, that is, on how many scores between it
// and the first panel are folded.
func turnsOf(s Strip, order []int) []Turn {
	turns := make([]Turn, len(order))
	// sums is a binary indexed tree (P. M. Fenwick, 1994): it counts the folds
	// below a score in few steps, so that long strips stay fast.
	sums := make([]int, len(s.folds)+1)
	for i, sc := range order {
		folded := 0
		for k := sc; k > 0; k &= k - 1 {
			folded += sums[k]
		}
		turns[i] = Turn{sc, Away}
		if (s.folds[sc] == Valley) == (folded%2 == 0) {
			turns[i].Way = Towards
		}
		for k := sc + 1; k < len(sums); k += k & -k {
			sums[k]++
		}
	}
	return turns
}
