package score

import (
	"strconv"

	"boardwrap.example/internal/word"
)

// A TurnWay is the way in which a part of the strip is turned over a score.
type TurnWay uint8

// Turns.
const (
	AsScored TurnWay = iota // the way that the kind of the score asks for
	Towards                 // up, towards the maker, over what lies on the table
	Away                    // down, away from the maker, under it
)

var wayWords = word.List{What: "way", Words: []string{AsScored: "as scored", Towards: "towards you", Away: "away from you"}}

// String returns "as scored", "towards you" or "away from you".
func (t TurnWay) String() string { return wayWords.String(uint8(t)) }

// AppendText appends the text of [TurnWay.String]. The error matches
// units.ErrUnknown.
func (t TurnWay) AppendText(dst []byte) ([]byte, error) { return wayWords.Append(dst, uint8(t)) }

// MarshalText returns the text of [TurnWay.String], with the error of
// [TurnWay.AppendText].
func (t TurnWay) MarshalText() ([]byte, error) { return wayWords.Marshal(uint8(t)) }

// UnmarshalText reads what [TurnWay.String] writes. The error matches
// units.ErrSyntax.
func (t *TurnWay) UnmarshalText(text []byte) error { return word.Unmarshal(wayWords, t, text) }

// A TurnedPart is the part of a strip that is turned over a score.
type TurnedPart uint8

// Parts, on either side of the score along the strip, whichever way it lies by
// then.
const (
	Beyond TurnedPart = iota // the panels after the score
	Before                   // the panels before it, the first one among them
)

var partWords = word.List{What: "part", Words: []string{Beyond: "beyond", Before: "before"}}

// String returns "beyond" or "before".
func (p TurnedPart) String() string { return partWords.String(uint8(p)) }

// AppendText appends the text of [TurnedPart.String]. The error matches
// units.ErrUnknown.
func (p TurnedPart) AppendText(dst []byte) ([]byte, error) { return partWords.Append(dst, uint8(p)) }

// MarshalText returns the text of [TurnedPart.String], with the error of
// [TurnedPart.AppendText].
func (p TurnedPart) MarshalText() ([]byte, error) { return partWords.Marshal(uint8(p)) }

// UnmarshalText reads what [TurnedPart.String] writes. The error matches
// units.ErrSyntax.
func (p *TurnedPart) UnmarshalText(text []byte) error { return word.Unmarshal(partWords, p, text) }

// Other returns the other part.
func (p TurnedPart) Other() TurnedPart {
	if p == Beyond {
		return Before
	}
	return Beyond
}

// A Turn is one fold, as a maker makes it. One part of the strip stays on the
// table as it lies, at first all of it face up, and the other part is turned
// over the score, with all that is folded on to it already. The way is the
// maker's: towards is over what stays, on the side that looks up by then.
//
// Layers that lie in the way are folded along if they have a score in the same
// place, as when a strip folded in half is folded again; otherwise they block
// the fold.
type Turn struct {
	Score int        // counted from 0 from the left end
	Way   TurnWay    // in which the part is turned
	Part  TurnedPart // that is turned; the other one stays
}

// String returns "fold what lies beyond score 2 towards you", counting from 1.
func (s Turn) String() string {
	return "fold what lies " + s.Part.String() + " score " + strconv.Itoa(s.Score+1) + " " + s.Way.String()
}

// A Made is a turn that was carried out: which way it turned and which scores
// it folded, in rising order; more than one when layers were folded along. It is
// plain data.
type Made struct {
	Turn   Turn  // with the way that it took
	Scores []int // in rising order
}

// turnsOf returns the turns that fold scores in the given order, none of which
// is folded along with another. Which way a fold turns depends on whether the
// panel before it lies face up by then, that is, on how many scores between it
// and the first panel are folded, and on how the first panel lies: it is turned
// over with each part before a score.
func turnsOf(s Strip, order []motionAt) []Turn {
	turns := make([]Turn, len(order))
	// sums is a binary indexed tree (P. M. Fenwick, 1994): it counts the folds
	// below a score in few steps, so that long strips stay fast.
	sums := make([]int, len(s.folds)+1)
	over := false // the first panel lies face down
	for i, m := range order {
		folded := 0
		for k := m.score; k > 0; k &= k - 1 {
			folded += sums[k]
		}
		turns[i] = Turn{m.score, Away, m.part}
		if (s.folds[m.score] == Valley) == (folded%2 == 0) != over {
			turns[i].Way = Towards
		}
		for k := m.score + 1; k < len(sums); k += k & -k {
			sums[k]++
		}
		over = over != (m.part == Before)
	}
	return turns
}
