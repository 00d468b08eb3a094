package score

import (
	"boardwrap.example/internal/word"
	"boardwrap.example/units"
)

// Creep returns how far the fore-edge of a nested sheet stands out beyond that
// of the outermost one: sheet k, counted from 1 from outside, stands out k − 1
// calipers. 16 sheets of 0.005 in make 0.075 in (Color Vision Printing, "Saddle
// stitch creep"). A sheet number below 1 counts as 1, one beyond a million as
// that, and a caliper beyond 0 to 10 m is brought into it.
func Creep(caliper units.Length, sheet int) units.Working {
	return units.Sum("creep", 0, units.Nearest, units.N(nested(sheet)-1, "caliper", caliper.Clamp(0, units.Longest)))
}

func nested(sheet int) int { return min(max(sheet, 1), 1_000_000) }

// NestedLeaf returns how wide a leaf of a nested sheet has to be for its
// fore-edge to lie flush with that of the outermost sheet, which is width wide:
// its creep less, rounded down on the ruler. It is negative where so many sheets
// leave none. Values out of range are brought into it as by [Creep].
func NestedLeaf(width, caliper units.Length, sheet int, r units.Ruler) units.Working {
	return units.Sum("leaf", r, units.Down, units.T("outermost leaf", width.Clamp(0, units.Longest)), units.N(1-nested(sheet), "caliper", caliper.Clamp(0, units.Longest)))
}

// DoubleScoreFrom is how many calipers thick a stack may be that one score
// goes round; round a thicker one two scores are needed (common practice, no
// published source).
const DoubleScoreFrom = 2

// DoubleScore says whether a fold round a stack needs two scores in place of
// one, and how far apart: as far as the stack is thick, rounded up on the ruler
// so that it is not squeezed. The stack is what lies inside the fold: layers x
// caliper and enclosures, as [Folding.Around] finds it. It takes two scores once the stack is
// thicker than [DoubleScoreFrom] calipers of the sheet that goes round it.
func DoubleScore(stack, caliper units.Length, r units.Ruler) (apart units.Working, needed bool) {
	stack, caliper = max(stack, 0), caliper.Clamp(0, units.Longest)
	return units.Sum("scores apart", r, units.Up, units.T("stack", stack)), stack > DoubleScoreFrom*caliper
}

// A Bend is paper bent round a radius.
type Bend struct {
	Caliper units.Length // of the sheet; 0 is one without thickness
	Inside  units.Length // radius on the inside; 0 is a sharp fold
	Degrees int          // from flat: 0 is no bend, 180 is folded back on itself
	// Neutral is where in the sheet the length does not change, in thousandths
	// of the caliper from the inside. 0 means 500, the mid-plane. No published
	// value exists for paper; measure it on the stock at hand.
	Neutral int
}

// MidPlane is the default of [Bend.Neutral].
const MidPlane = 500

// pi is π·10¹³. The bend length of the greatest bend there is, a full turn of
// 10 m radius, is off by less than 10⁻³ nm with it.
const pi = 31_415_926_535_898

// Length returns how much of the sheet the bend takes up, the length of its
// neutral line: (inside + neutral·caliper)·angle, rounded to the nearest
// nanometre. A sharp fold of 180° takes π/2 calipers. Values out of range are
// brought into it: lengths to 0...10 m, the angle to 0...360 degrees, Neutral
// to 0...1000.
func (b Bend) Length() units.Length {
	neutral := min(max(b.Neutral, 0), 1000)
	if neutral == 0 {
		neutral = MidPlane
	}
	inside := b.Inside.Clamp(0, units.Longest)
	caliper := b.Caliper.Clamp(0, units.Longest)
	degrees := min(max(b.Degrees, 0), 360)
	radius := 1000*inside + times(neutral, caliper) // in thousandths
	l, _ := times(degrees, radius).Scale(pi, 180_000*10_000_000_000_000, units.Nearest)
	return l
}

// Working returns [Bend.Length] as a working of one term.
func (b Bend) Working(label string) units.Working {
	return units.Sum(label, 0, units.Nearest, units.T("bend", b.Length()))
}

// Channel returns the width of the channel that a creasing rule is pressed
// into, at the least (rounded down on the ruler) and at the most (rounded up):
// 1.3 to 1.5 calipers and the width of the rule (common practice for board, no
// published source). Lengths beyond 0 to 10 m are brought into it.
func Channel(caliper, rule units.Length, r units.Ruler) (least, most units.Working) {
	caliper, rule = caliper.Clamp(0, units.Longest), rule.Clamp(0, units.Longest)
	var g units.Ledger
	least = g.Share("channel at least", 10, r, units.Down, units.N(13, "caliper", caliper), units.N(10, "rule", rule))
	most = g.Share("channel at most", 10, r, units.Up, units.N(15, "caliper", caliper), units.N(10, "rule", rule))
	return least, most
}

// A FoldGrain is how the grain of a sheet runs to a fold.
type FoldGrain uint8

// Ways of the grain.
const (
	GrainUnknown FoldGrain = iota // taken as across
	GrainWith                     // along the fold line: the fold is made with the grain
	GrainAcross                   // at right angles to the fold line
)

var foldGrainWords = word.List{What: "grain to the fold", Words: []string{GrainUnknown: "unknown grain", GrainWith: "with the grain", GrainAcross: "across the grain"}}

// String returns "unknown grain", "with the grain" or "across the grain".
func (g FoldGrain) String() string { return foldGrainWords.String(uint8(g)) }

// AppendText appends the text of [FoldGrain.String]. The error matches
// units.ErrUnknown.
func (g FoldGrain) AppendText(dst []byte) ([]byte, error) {
	return foldGrainWords.Append(dst, uint8(g))
}

// MarshalText returns the text of [FoldGrain.String], with the error of
// [FoldGrain.AppendText].
func (g FoldGrain) MarshalText() ([]byte, error) { return foldGrainWords.Marshal(uint8(g)) }

// UnmarshalText reads what [FoldGrain.String] writes. The error matches
// units.ErrSyntax.
func (g *FoldGrain) UnmarshalText(text []byte) error { return word.Unmarshal(foldGrainWords, g, text) }

// Heavy says from which grammage on a sheet is scored before it is folded. The
// figures in print run from 115 to 200 g/m², most of them about 150 to 170. The
// zero value means the two ends of the usual range: 170 g/m² with the grain and
// 150 across it, where paper breaks sooner (the choice of the two is common
// practice, no published source).
type Heavy struct {
	With   units.Grammage // from which on it is scored with the grain; 0 is 170 g/m²
	Across units.Grammage // and across the grain; 0 is 150 g/m²
}

// Advice says how to make a fold. It is plain data.
type Advice struct {
	Score bool // score before folding
	// From is the grammage from which on a sheet like this is scored.
	From units.Grammage
	// TurnSheet is set where the fold runs across the grain or the grain is not
	// known: with the grain a fold is flatter and breaks less.
	TurnSheet bool
}

// Advise says whether to score a sheet before folding it.
func Advise(g units.Grammage, grain FoldGrain, heavy Heavy) Advice {
	if heavy.With <= 0 {
		heavy.With = 170 * units.GramPerSquareMetre
	}
	if heavy.Across <= 0 {
		heavy.Across = 150 * units.GramPerSquareMetre
	}
	a := Advice{From: heavy.Across, TurnSheet: true}
	if grain == GrainWith {
		a = Advice{From: heavy.With}
	}
	a.Score = g >= a.From
	return a
}
