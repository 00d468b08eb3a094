package layout

import (
	"iter"
	"slices"

	"boardwrap.example/internal/cutorder"
	"boardwrap.example/internal/inorder"
	"boardwrap.example/internal/packing"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// CareTrimmer is the caution of a step at a trimmer or guillotine: barrier and
// latch follow an OSHA interpretation letter of 30 June 1976, the rest is
// common practice. It is the usual one and not a substitute for the tool's
// manual and the rules that hold where the work is done.
const CareTrimmer = "Trimmer: finger barrier in place, fingers behind it, no stack thicker than the manual allows, latch the blade when idle. The maker's judgement, the tool's manual and local rules come first."

// CareStack is the caution of a step that cuts parts in a stack; common
// practice, no published source.
const CareStack = "Stack: no thicker than the cutter's manual allows, knocked up square against two edges and held down by the cutter's own clamp, never by hand; try one of it first, for a stack that creeps cuts the lower sheets askew. " + CareTrimmer

// A CutStep is one numbered step of cutting: either it takes sheets in hand, or it
// makes cuts at one setting of the fence to parts that are cut alike.
type CutStep struct {
	l      *Layout
	m      *Laid
	number int
	take   int // the sheet in Laid.sheets that it takes, −1 for none
	cuts   int
	axis   score.Axis
	at     units.Length
	refs   []cutorder.Ref
	turn   bool
	same   bool
}

// Number counts the steps from 1, without a gap.
func (s CutStep) Number() int { return s.number }

// Material is the name of what is cut.
func (s CutStep) Material() string { return s.made().m.material.Name }

// made returns a step of some layout: of the zero CutStep one that takes no sheet of
// nothing.
func (s CutStep) made() CutStep {
	if s.m == nil {
		s.l, s.m = &Layout{}, &Laid{sheets: []LaidSheet{{nodes: make([]packing.Node, 1)}}}
	}
	return s
}

// Takes reports whether the step takes sheets in hand, without a cut.
func (s CutStep) Takes() bool { return s.take >= 0 }

// Sheets walks the numbers of the sheets that the parts come from, rising.
func (s CutStep) Sheets() iter.Seq[int] { return slices.Values(s.sheets()) }

func (s CutStep) sheets() []int {
	s = s.made()
	if s.take >= 0 {
		return []int{s.m.sheets[s.take].number}
	}
	var list []int
	for _, r := range s.refs {
		list = append(list, s.m.sheets[r.Sheet].number)
	}
	return inorder.Set(list)
}

// CutsOn walks the parts of a sheet that the step cuts in two, by their places
// in [LaidSheet.Parts], in the order in which they are cut; the sheet is told by its
// number.
func (s CutStep) CutsOn(number int) iter.Seq[int] {
	return func(yield func(int) bool) {
		for _, r := range s.refs {
			sheet := &s.m.sheets[r.Sheet]
			if sheet.number != number {
				continue
			}
			at := r.Node
			for range s.cuts {
				if !yield(at) {
					return
				}
				at = sheet.nodes[at].B
			}
		}
	}
}

// Part is the size of the part in hand before it is cut: all parts of a step are
// alike.
func (s CutStep) Part() units.Size { return s.part().rect.Size() }

func (s CutStep) part() CutPart {
	s = s.made()
	if s.take >= 0 {
		return s.m.sheets[s.take].part(0)
	}
	return s.m.sheets[s.refs[0].Sheet].part(s.refs[0].Node)
}

// Parts is how many parts there are, over all sheets that are cut alike.
func (s CutStep) Parts() int {
	s = s.made()
	if s.take >= 0 {
		return s.m.sheets[s.take].times
	}
	n := 0
	for _, r := range s.refs {
		n += s.m.sheets[r.Sheet].times
	}
	return n
}

// Stack is how many of the parts lie under the blade at once: 1 where each is
// cut by itself.
func (s CutStep) Stack() int { return max(1, min(s.made().m.stack, s.Parts())) }

// Turn says that the parts lie a quarter turn from how those of the step before
// lay; sheets that were just taken are laid as they need to lie.
func (s CutStep) Turn() bool { return s.turn }

// Edge is where the setting counts from: score.Left or score.Head of the part as
// its sheet lay at first.
func (s CutStep) Edge() score.Edge {
	if s.axis == score.Level {
		return score.Head
	}
	return score.Left
}

// Setting is that of the fence: what is cut off lies between the edge and the
// blade. It is 0 or less where a blade with a kerf only takes off the edge
// itself, and 0 for a step that takes sheets.
func (s CutStep) Setting() units.Length { return s.at }

// Same says that the fence stands as it did at the cuts before, whichever way
// the part lay.
func (s CutStep) Same() bool { return s.same }

// Cuts is how many cuts each part gets at this setting, one after another; 0 for
// a step that takes sheets.
func (s CutStep) Cuts() int { return s.cuts }

// Strokes is how often the blade comes down: for each cut of each stack of
// parts.
func (s CutStep) Strokes() int {
	stack := s.Stack()
	return s.cuts * ((s.Parts() + stack - 1) / stack)
}

// A Yielded is something that a step of cutting gives.
type Yielded struct {
	use    Use
	size   units.Size
	name   string
	sized  bool // the name alone does not tell it apart
	turned bool
	count  int
}

// Use says what becomes of it: a piece, a part to be cut, an offcut or waste.
func (y Yielded) Use() Use { return y.use }

// Size is its size as the sheet lies; 0 for waste, which is of any.
func (y Yielded) Size() units.Size { return y.size }

// Name is that of a piece, else empty.
func (y Yielded) Name() string { return y.name }

// Turned reports whether a piece lies a quarter turn round.
func (y Yielded) Turned() bool { return y.turned }

// Count is how many of it the step gives over all parts; of waste it is 0.
func (y Yielded) Count() int { return y.count }

// Gives walks what the step cuts off and what it leaves of the parts: pieces
// first, then parts to be cut, offcuts and waste.
func (s CutStep) Gives() iter.Seq[Yielded] { return slices.Values(s.gives()) }

func (s CutStep) gives() []Yielded {
	var list []Yielded
	index := map[Yielded]int{}
	add := func(y Yielded, n int) {
		at, seen := index[y]
		if !seen {
			at = len(list)
			index[y] = at
			list = append(list, y)
		}
		list[at].count += n
	}
	put := func(at, i int) {
		sheet := &s.m.sheets[at]
		p := sheet.part(i)
		switch p.use {
		case PieceUse:
			for _, sh := range sheet.sharesOf(i) {
				w := &s.l.wants[sh.want]
				add(Yielded{use: PieceUse, size: p.rect.Size(), name: w.name, sized: w.namesake, turned: p.turned}, sh.copies)
			}
		case Cut, Offcut:
			add(Yielded{use: p.use, size: p.rect.Size()}, sheet.times)
		case Waste:
			add(Yielded{}, 0)
		}
	}
	if s.take >= 0 {
		if s.part().use == PieceUse {
			put(s.take, 0)
		}
		return list
	}
	for _, r := range s.refs {
		at := r.Node
		for range s.cuts {
			n := &s.m.sheets[r.Sheet].nodes[at]
			if n.A >= 0 {
				put(r.Sheet, n.A)
			}
			at = n.B
		}
		if at >= 0 {
			put(r.Sheet, at)
		}
	}
	order := [...]int{PieceUse: 0, Cut: 1, Offcut: 2, Waste: 3}
	inorder.Sort(list, func(a, b Yielded) int { return order[a.use] - order[b.use] })
	return list
}

// Care is the caution that goes with the step; empty for a step without cuts.
func (s CutStep) Care() string {
	switch {
	case s.take >= 0:
		return ""
	case s.Stack() > 1:
		return CareStack
	case s.l.job.cutter(s.m.material).LongestCut > 0:
		return CareTrimmer
	}
	return work.CareBlade.Text()
}
