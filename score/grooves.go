package score

import (
	"iter"
	"slices"

	"boardwrap.example/internal/word"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Grooves is a scoring board: grooves at equal distances from a fence. The
// sheet is pushed against the fence with one end, and can be scored only where
// a groove is; after a half turn, the other end against the fence, the grooves
// lie elsewhere on it.
type Grooves struct {
	Pitch  units.Length // from groove to groove, above 0
	Origin units.Length // from the fence to the first groove; 0 means a pitch
	Reach  units.Length // from the fence to the last groove; 0 means as far as the sheet
	NoTurn bool         // keep the left end at the fence
}

// An End is the end of the strip that lies against the fence.
type End uint8

// Ends.
const (
	NoEnd    End = iota // neither: the score is on no groove
	LeftEnd             // the left end
	RightEnd            // the right end: the sheet is turned
)

var endWords = word.List{What: "end", Words: []string{NoEnd: "no end", LeftEnd: "left end", RightEnd: "right end"}}

// String returns "no end", "left end" or "right end".
func (e End) String() string { return endWords.String(uint8(e)) }

// AppendText appends the text of [End.String]. The error matches
// units.ErrUnknown.
func (e End) AppendText(dst []byte) ([]byte, error) { return endWords.Append(dst, uint8(e)) }

// MarshalText returns the text of [End.String], with the error of
// [End.AppendText].
func (e End) MarshalText() ([]byte, error) { return endWords.Marshal(uint8(e)) }

// UnmarshalText reads what [End.String] writes. The error matches
// units.ErrSyntax.
func (e *End) UnmarshalText(text []byte) error { return word.Unmarshal(endWords, e, text) }

// NoWider is an order between two panels: Panel is to be no wider than Than.
type NoWider struct {
	Panel int // the panel that is to be no wider, counted from 0
	Than  int // the panel that it is compared with, counted from 0
}

// A Snap is what became of one score. It is plain data.
type Snap struct {
	Score   int           // counted from 0 from the left end
	From    units.Length  // where it was asked for, from the left end
	To      units.Length  // where it lies now, from the left end
	End     End           // the end against the fence
	Groove  int           // the groove, counted from 0 at the fence; -1 without
	Working units.Working // of To: grooves from the fence
}

// Residue returns To − From: how far the score was moved to the right,
// negative if to the left.
func (s Snap) Residue() units.Length { return s.To - s.From }

// A Snapped is a strip whose scores were put on grooves.
type Snapped struct {
	strip Strip
	snaps []Snap
}

// Equal reports whether the same scores were put in the same places.
func (s Snapped) Equal(t Snapped) bool {
	return s.strip.Equal(t.strip) && slices.EqualFunc(s.snaps, t.snaps, func(a, b Snap) bool {
		return a.Working.Equal(b.Working) && a.Score == b.Score && a.From == b.From && a.To == b.To && a.End == b.End && a.Groove == b.Groove
	})
}

// Strip returns the strip as it will be scored. It is as long as the one asked
// for.
func (s Snapped) Strip() Strip { return s.strip }

// Snaps walks the scores from left to right.
func (s Snapped) Snaps() iter.Seq2[int, Snap] { return slices.All(s.snaps) }

// Turned reports whether any score is made with the right end at the fence.
func (s Snapped) Turned() bool {
	return slices.ContainsFunc(s.snaps, func(s Snap) bool { return s.End == RightEnd })
}

// OffGroove returns the scores that lie on no groove.
func (s Snapped) OffGroove() []int {
	var out []int
	for _, n := range s.snaps {
		if n.End == NoEnd {
			out = append(out, n.Score)
		}
	}
	return out
}

// Largest returns the greatest distance that a score was moved.
func (s Snapped) Largest() units.Length {
	var most units.Length
	for _, n := range s.snaps {
		most = max(most, n.Residue().Abs())
	}
	return most
}

func (g Grooves) check(list *check.List) {
	list.Length("grooves.pitch", g.Pitch)
	list.Allowance("grooves.origin", g.Origin)
	list.Allowance("grooves.reach", g.Reach)
}

func (g Grooves) origin() units.Length {
	if g.Origin == 0 {
		return g.Pitch
	}
	return g.Origin
}

// near returns the grooves no further than half a pitch from a place on a
// sheet: none, one, or two if it lies midway.
func (g Grooves) near(at, length units.Length) []int {
	k := int((at - g.origin()) / g.Pitch)
	var out []int
	for n := k - 1; n <= k+1; n++ {
		x := g.at(n)
		if n >= 0 && x < length && (g.Reach == 0 || x <= g.Reach) && 2*(x-at).Abs() <= g.Pitch {
			out = append(out, n)
		}
	}
	return out
}

// at returns the place of a groove from the fence.
func (g Grooves) at(n int) units.Length { return g.origin() + times(n, g.Pitch) }
