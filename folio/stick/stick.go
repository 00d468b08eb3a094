// Package stick says what adhesive a folio takes: how much double-sided tape of
// which width, which strips of foam, and over what area glue. It reads the order
// of work and nothing else: what is stuck there is counted here.
//
//	needs := stick.Of(plan)
//	for tape := range needs.Tapes() {
//		fmt.Println(tape.Width(), tape.Length())
//	}
//
// Waste is not counted.
package stick

import (
	"cmp"
	"iter"
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/inorder"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// A Tape is how much double-sided tape of one width a folio takes.
type Tape struct {
	width  units.Length
	length units.Working
}

// Width returns the width of the tape.
func (t Tape) Width() units.Length { return t.width }

// Length returns how much of it there is; its terms say for what.
func (t Tape) Length() units.Working { return t.length }

// A Foam is a strip of self-adhesive foam.
type Foam struct {
	part     work.Part
	size     units.Size
	quantity int
}

// Part returns what it is for.
func (f Foam) Part() work.Part { return f.part }

// Size returns the size of one, as it lies.
func (f Foam) Size() units.Size { return f.size }

// Quantity returns how many are of that size, at least 1.
func (f Foam) Quantity() int { return f.quantity }

// A Glued is an area that is glued, that of everything of one part together.
type Glued struct {
	part work.Part
	area units.Area
}

// Part returns what it is for.
func (g Glued) Part() work.Part { return g.part }

// Area returns the area; 1 cm² is 100 mm².
func (g Glued) Area() units.Area { return g.area }

// Needs are what a folio takes, as far as it is not made already: the covering and the liner glued all over,
// fittings taped or glued where their paper lies, as Spec.Closing.Adhesive says,
// what is folded glued where its steps say so, foam that sticks by itself.
type Needs struct {
	tapes []Tape
	foam  []Foam
	glued []Glued
}

// Tapes walks the tape by width, the widest first.
func (n Needs) Tapes() iter.Seq[Tape] { return slices.Values(n.tapes) }

// Foam walks the foam strips in the order in which they are stuck on.
func (n Needs) Foam() iter.Seq[Foam] { return slices.Values(n.foam) }

// Glued walks the areas of glue, part by part in the order of work.
func (n Needs) Glued() iter.Seq[Glued] { return slices.Values(n.glued) }

// Glue returns the sum of the glued areas; 1 cm² is 100 mm².
func (n Needs) Glue() units.Area {
	var sum units.Area
	for _, g := range n.glued {
		sum = sum.Plus(g.area)
	}
	return sum
}

// Of works out the adhesive.
//
// An area for tape has tape along its four edges; where it is less than two
// widths across, one length along its middle; where it is less than one width
// across, one length of tape cut as narrow as it is; of an area as long as the tape is
// wide, one length laid across. A piece of the covering is pasted all over, once, whatever is laid on
// it or turned in of it. Of a plan that was refitted to the cover as measured the case
// is made: what holds it together is not counted.
func Of(p *folio.Plan) Needs {
	if p == nil {
		return Needs{}
	}
	s := sticker{made: p.Made(stock.CoveringPiece), width: p.Spec().Closing.Adhesive.TapeWidth, pasted: map[[2]int]bool{}}
	for piece := range p.Pieces() {
		s.pieces = append(s.pieces, piece)
	}
	for step := range p.Steps() {
		for _, a := range step.Do {
			s.action(step.For, a)
		}
	}
	inorder.Sort(s.tapes, func(a, b taped) int { return cmp.Compare(b.width, a.width) })
	var g units.Ledger
	for _, t := range s.tapes {
		s.out.tapes = append(s.out.tapes, Tape{t.width, g.Sum("tape", p.Notation().Exact(), units.Nearest, t.terms...)})
	}
	return s.out
}

// A sticker gathers what sticks.
type sticker struct {
	made   bool         // the case, no part of which is taped
	width  units.Length // of the tape
	pieces []folio.Piece
	pasted map[[2]int]bool // pieces of the covering, by place and copy
	out    Needs
	tapes  []taped
}

// taped is a width of tape with the terms of its length.
type taped struct {
	width units.Length
	terms []units.Term
}

func (s *sticker) action(part work.Part, a work.Action) {
	switch a := a.(type) {
	case work.Stick:
		s.stick(part, a.By, a.Area.Size())
	case work.Fix:
		s.fix(part, a)
	}
}

func (s *sticker) fix(part work.Part, f work.Fix) {
	switch {
	case f.On.Kind == work.OnPiece && s.paste(f.On.Index, f.On.Copy):
	case f.What.Kind == work.Piece && s.paste(f.What.Index, f.What.Copy):
	case f.By == work.SelfSticky:
		if f.What.Kind == work.Piece && s.pieces[f.What.Index].Role() == stock.FoamPiece {
			s.foam(part, f.Size)
		}
	case len(f.Areas) == 0:
		s.stick(part, f.By, f.Size)
	default:
		for _, r := range f.Areas {
			s.stick(part, f.By, r.Size())
		}
	}
}

// paste counts a piece of the covering once, and reports whether it is one.
func (s *sticker) paste(piece, copy int) bool {
	q := s.pieces[piece]
	if r := q.Role(); r != stock.CoveringPiece && r != stock.StripPiece {
		return false
	}
	if at := [2]int{piece, copy}; !s.pasted[at] {
		s.pasted[at] = true
		s.glue(work.Part{Kind: work.PartWrap, Name: "wrap"}, q.Area())
	}
	return true
}

func (s *sticker) foam(part work.Part, size units.Size) {
	for i := range s.out.foam {
		if f := &s.out.foam[i]; f.part == part && f.size == size {
			f.quantity++
			return
		}
	}
	s.out.foam = append(s.out.foam, Foam{part, size, 1})
}

func (s *sticker) glue(part work.Part, a units.Area) {
	if s.made && (part.Kind == work.PartWrap || part.Kind == work.PartMagnets) {
		return
	}
	for i := range s.out.glued {
		if g := &s.out.glued[i]; g.part == part {
			g.area = g.area.Plus(a)
			return
		}
	}
	s.out.glued = append(s.out.glued, Glued{part, a})
}

// stick fixes a rectangle with tape or glue.
func (s *sticker) stick(part work.Part, by work.Adhesive, size units.Size) {
	long, short, w := max(size.W, size.H), min(size.W, size.H), s.width
	switch {
	case by == work.Glue:
		s.glue(part, size.Area())
	case long == w: // across it, nothing is cut narrower
		s.tape(w, part, 1, short)
	case short < 2*w:
		s.tape(min(short, w), part, 1, long)
	default:
		s.tape(w, part, 2, long)
		if between := short - 2*w; between > 0 {
			s.tape(w, part, 2, between)
		}
	}
}

// tape adds lengths of tape of a width.
func (s *sticker) tape(width units.Length, part work.Part, n int, length units.Length) {
	i := slices.IndexFunc(s.tapes, func(t taped) bool { return t.width == width })
	if i < 0 {
		i = len(s.tapes)
		s.tapes = append(s.tapes, taped{width: width})
	}
	t := &s.tapes[i]
	for k := range t.terms {
		if o := &t.terms[k]; o.Label == part.Name && o.Length == length {
			o.Count += n
			return
		}
	}
	t.terms = append(t.terms, units.N(n, part.Name, length))
}
