package layout

import (
	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/word"
	"boardwrap.example/units"
)

// An Adjustment is one way to change a folio so that it takes less.
type Adjustment uint8

// Adjustments.
const (
	Narrower      Adjustment = iota // the covers narrower
	Lower                           // the covers lower
	SmallerMargin                   // the ideal margin smaller
	LinerInPanels                   // the liner a piece a board
	InQuarter                       // covered in quarter style
	InOnePiece                      // covered in one piece
)

var changes = word.List{What: "change", Words: []string{
	Narrower: "narrower covers", Lower: "lower covers", SmallerMargin: "a smaller margin",
	LinerInPanels: "the liner a piece a board", InQuarter: "quarter style", InOnePiece: "a wrap in one piece",
}}

// String returns the change in words, as in "narrower covers".
func (c Adjustment) String() string { return changes.String(uint8(c)) }

// AppendText appends the text of [Adjustment.String]. The error matches
// units.ErrUnknown.
func (c Adjustment) AppendText(dst []byte) ([]byte, error) { return changes.Append(dst, uint8(c)) }

// MarshalText returns the text of [Adjustment.String], with the error of
// [Adjustment.AppendText].
func (c Adjustment) MarshalText() ([]byte, error) { return changes.Marshal(uint8(c)) }

// UnmarshalText reads what [Adjustment.String] writes. The error matches
// units.ErrSyntax.
func (c *Adjustment) UnmarshalText(text []byte) error { return word.Unmarshal(changes, c, text) }

// ways is how many ways there are to change a folio: two of the changes are the
// two directions of one.
const ways = 5

// An alteration is by how many steps a folio is changed in each way: of the main
// ruler for a length, 0 or 1 for a style.
type alteration [ways]int16

// within reports whether a changes nothing more than b does.
func (a alteration) within(b alteration) bool {
	for w := range a {
		if a[w] > b[w] {
			return false
		}
	}
	return true
}

// mostLengths is how many steps a length may shrink at most.
const mostLengths = 256

// An alterer changes one folio.
type alterer struct {
	spec    folio.Spec
	step    units.Length
	changes [ways]Adjustment
	most    alteration
	plans   map[alteration]*folio.Plan // nil for what cannot be built
}

// newAlterer returns false for a folio that was refitted to its made-up cover.
func newAlterer(plan *folio.Plan, t Tolerance) (*alterer, bool) {
	if _, measured := plan.Measured(); measured {
		return nil, false
	}
	a := &alterer{spec: plan.Spec(), plans: map[alteration]*folio.Plan{},
		changes: [ways]Adjustment{Narrower, Lower, SmallerMargin, LinerInPanels, InQuarter}}
	a.step = a.spec.Rulers.Main.Step()
	steps := func(l units.Length) int16 { return int16(max(0, min(l/a.step, mostLengths))) }
	if (a.spec.Block.Page == units.Size{}) {
		a.most[Narrower], a.most[Lower] = steps(t.Width), steps(t.Height)
	}
	if t.Margin {
		a.most[SmallerMargin] = steps(a.spec.Margin.Ideal - a.spec.Margin.Least)
	}
	if t.Panels && plan.LiningStyle() != rule.LiningPanels {
		a.most[LinerInPanels] = 1
	}
	if t.Quarter {
		a.most[InQuarter] = 1
		if plan.Wrap().Quarter() {
			a.changes[InQuarter] = InOnePiece
		}
	}
	return a, true
}

// apply changes the Spec.
func (a *alterer) apply(by alteration) folio.Spec {
	s := a.spec
	length := func(w Adjustment) units.Length {
		l, _ := a.step.Times(int64(by[w]))
		return l
	}
	s.Cover.W -= length(Narrower)
	s.Cover.H -= length(Lower)
	s.Margin.Ideal -= length(SmallerMargin)
	if by[LinerInPanels] > 0 {
		s.Lining.Rule = rule.LiningPanels
	}
	if by[InQuarter] > 0 {
		s.Quarter.Rule = rule.QuarterAlways
		if a.changes[InQuarter] == InOnePiece {
			s.Quarter.Rule = rule.QuarterNever
		}
	}
	return s
}

// build returns the folio as changed, nil where it cannot be built.
func (a *alterer) build(by alteration) *folio.Plan {
	p, known := a.plans[by]
	if !known {
		p, _ = folio.Build(a.apply(by))
		a.plans[by] = p
	}
	return p
}

// working says what the length that a way changes becomes, as a sum of what it
// was and what it loses; the zero Working for a style.
func (a *alterer) working(w int, by alteration) units.Working {
	var from units.Length
	var label string
	switch Adjustment(w) {
	case Narrower:
		from, label = a.spec.Cover.W, "cover width"
	case Lower:
		from, label = a.spec.Cover.H, "cover height"
	case SmallerMargin:
		from, label = a.spec.Margin.Ideal, "ideal margin"
	default:
		return units.Working{}
	}
	l, _ := a.step.Times(int64(by[w]))
	return units.Sum(label, a.spec.Rulers.Main.Notation().Exact(), units.Nearest, units.T("as it is", from), units.N(-1, "", l))
}
