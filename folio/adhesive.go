package folio

import (
	"iter"

	"boardwrap.example/units"
)

// A Tape is how much double-sided tape of one width a folio takes. The terms of
// the length say where it goes.
type Tape struct {
	Width  units.Length
	Length units.Working
}

// A Foam is a foam strip to be cut, and how many of it.
type Foam struct {
	Part     string
	Size     units.Size
	Quantity int
}

// A Glued is an area that is glued all over, that of all the pieces of a part
// together.
type Glued struct {
	Part string
	Area units.Area
}

// Sticking is the adhesive that a folio takes: the wrap and the liner are glued
// all over, fittings are taped along their edges or glued all over as
// Spec.Closing.Adhesive says, frames stand on self-adhesive foam. Waste is not
// counted.
type Sticking struct {
	tapes []Tape
	foam  []Foam
	glued []Glued
}

// Tapes walks the tape by width, the widest first.
func (s Sticking) Tapes() iter.Seq[Tape] { return walk(s.tapes) }

// Foam walks the foam strips in the order of the pieces.
func (s Sticking) Foam() iter.Seq[Foam] { return walk(s.foam) }

// Glued walks the areas of glue: wrap, liner, fittings.
func (s Sticking) Glued() iter.Seq[Glued] { return walk(s.glued) }

// Glue returns the sum of the glued areas; 1 cm² is 100 mm².
func (s Sticking) Glue() units.Area {
	var sum units.Area
	for _, g := range s.glued {
		sum = sum.Plus(g.Area)
	}
	return sum
}

// A sticker gathers what sticks.
type sticker struct {
	adhesive Adhesive
	out      Sticking
	tapes    []taped
}

// taped is a width of tape with the terms of its length.
type taped struct {
	width units.Length
	terms []units.Term
}

// Sticking works out the adhesive.
//
// A taped rectangle has tape along its four edges; where it is less than two
// widths across, one length along its middle; where it is less than one width
// across, one length of tape as narrow as it is.
func (p *Plan) Sticking() Sticking {
	s := sticker{adhesive: p.spec.Closing.Adhesive}
	for i := range p.pieces {
		piece := &p.pieces[i]
		switch {
		case piece.fitting == 0 && piece.role != BoardPiece:
			s.glue(piece.part, piece.Area().Times(int64(piece.quantity)))
		case piece.role == FoamPiece:
			s.out.foam = append(s.out.foam, Foam{piece.part, piece.Size(), piece.quantity})
		case piece.blank != nil:
			for range piece.quantity {
				for _, g := range piece.blank.Glue() {
					s.stick(piece.part, g.Area.Size())
				}
				for _, tab := range piece.blank.Tabs() {
					long := tab.To - tab.From
					if tab.From == 0 && tab.To == 0 {
						long = piece.width.Length()
						if upright(tab.Edge) {
							long = piece.height.Length()
						}
					}
					s.stick(piece.part, units.Size{W: long, H: tab.Depth})
				}
			}
		}
	}
	for i := range p.fitted {
		f := &p.fitted[i]
		for _, b := range f.bonds {
			name := f.Label()
			if b.name != "" {
				name += ", " + b.name
			}
			if b.glue {
				s.glue(name, b.size.Area().Minus(b.hole))
			} else {
				s.stick(name, b.size)
			}
		}
	}
	var g units.Ledger
	exact := p.Notation().Exact()
	for len(s.tapes) > 0 {
		widest := 0
		for i := range s.tapes {
			if s.tapes[i].width > s.tapes[widest].width {
				widest = i
			}
		}
		t := s.tapes[widest]
		s.tapes = append(s.tapes[:widest], s.tapes[widest+1:]...)
		s.out.tapes = append(s.out.tapes, Tape{t.width, g.Sum("tape", exact, units.Nearest, t.terms...)})
	}
	return s.out
}

func (s *sticker) glue(part string, a units.Area) {
	if last := len(s.out.glued) - 1; last >= 0 && s.out.glued[last].Part == part {
		s.out.glued[last].Area = s.out.glued[last].Area.Plus(a)
		return
	}
	s.out.glued = append(s.out.glued, Glued{part, a})
}

// stick fixes a rectangle with tape or glue.
func (s *sticker) stick(part string, size units.Size) {
	long, short, w := max(size.W, size.H), min(size.W, size.H), s.adhesive.TapeWidth
	switch {
	case short <= 0:
	case s.adhesive.Glue:
		s.glue(part, size.Area())
	case short < w:
		s.tape(short, units.T(part, long))
	case short < 2*w:
		s.tape(w, units.T(part, long))
	default:
		s.tape(w, units.N(2, part+", long edges", long))
		if between := short - 2*w; between > 0 {
			s.tape(w, units.N(2, part+", between them", between))
		}
	}
}

func (s *sticker) tape(width units.Length, t units.Term) {
	for i := range s.tapes {
		if s.tapes[i].width == width {
			s.tapes[i].terms = merge(s.tapes[i].terms, t)
			return
		}
	}
	s.tapes = append(s.tapes, taped{width, []units.Term{t}})
}
