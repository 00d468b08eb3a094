package layout

import (
	"boardwrap.example/folio"
	"boardwrap.example/units"
)

// A Change is one way to change a folio.
type Change uint8

// Changes.
const (
	Narrower      Change = iota // the covers narrower
	Lower                       // the covers lower
	SmallerMargin               // the ideal margin smaller
	LinerInPanels               // the liner a piece a board
	InQuarter                   // covered in quarter style
	InOnePiece                  // covered in one piece
)

// String returns the change in words.
func (c Change) String() string {
	switch c {
	case Narrower:
		return "narrower covers"
	case Lower:
		return "lower covers"
	case SmallerMargin:
		return "a smaller margin"
	case LinerInPanels:
		return "the liner a piece a board"
	case InQuarter:
		return "quarter style"
	case InOnePiece:
		return "a wrap in one piece"
	}
	return "no such change"
}

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
	changes [ways]Change
	most    alteration
	plans   map[alteration]*folio.Plan // nil for what cannot be built
}

// newAlterer returns false for a folio that cannot be built again as it is: the
// Spec with its defaults filled in is another one, and nothing that is built
// from it can be compared.
func newAlterer(plan *folio.Plan, t Tolerance) (*alterer, bool) {
	if _, measured := plan.Measured(); measured {
		return nil, false
	}
	a := &alterer{spec: plan.Spec(), plans: map[alteration]*folio.Plan{},
		changes: [ways]Change{Narrower, Lower, SmallerMargin, LinerInPanels, InQuarter}}
	again, err := folio.Build(a.spec)
	if err != nil || !alike(again, plan) {
		return nil, false
	}
	a.step = a.spec.Rulers.Main.Step()
	steps := func(l units.Length) int16 { return int16(max(0, min(l/a.step, mostLengths))) }
	if (a.spec.Block.Page == units.Size{}) {
		a.most[Narrower], a.most[Lower] = steps(t.Width), steps(t.Height)
	}
	if t.Margin {
		a.most[SmallerMargin] = steps(a.spec.Margin.Ideal - a.spec.Margin.Least)
	}
	if t.Panels && plan.LiningStyle() != folio.LiningPanels {
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
	length := func(w Change) units.Length {
		l, _ := a.step.Times(int64(by[w]))
		return l
	}
	s.Cover.W -= length(Narrower)
	s.Cover.H -= length(Lower)
	s.Margin.Ideal -= length(SmallerMargin)
	if by[LinerInPanels] > 0 {
		s.Lining.Rule = folio.LiningPanels
	}
	if by[InQuarter] > 0 {
		s.Quarter.Rule = folio.QuarterAlways
		if a.changes[InQuarter] == InOnePiece {
			s.Quarter.Rule = folio.QuarterNever
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
	from, label := units.Length(0), ""
	switch Change(w) {
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
