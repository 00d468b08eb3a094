package pocket

import (
	"iter"

	"boardwrap.example/internal/slab"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// Steps walks the order of work, from the first cut to contents in their
// places. Pieces are told by their place in [Design.Pieces], and what the
// pocket lies on is work.Under, with places measured from the edges of the
// closed footprint: every paper that is glued to it is fixed by a place of its
// own.
//
// What is cut from says the name and the sheet of the paper as far as the
// design knows them.
func (d Design) Steps() iter.Seq[work.Step] { return d.StepsIn(nil) }

// A Setting is what a design is made for, such as a folio in which it sits: the order
// of work is that of the design, told as part of the larger one.
type Setting interface {
	// First returns the place of the design's first piece among all pieces.
	First() int
	// Part returns what the steps make.
	Part() work.Part
	// Cut returns how a piece is cut, by its place among all pieces.
	Cut(piece int) work.Cut
	// Under returns what the pocket lies on, and where on it something of the given
	// size lies, by its place from the edges of the closed footprint.
	Under(at work.At, size units.Size) (work.Base, work.At)
	// Sticky returns what holds down contents and what is fixed to that, and the areas
	// of a rectangle of the given size that take it, in a list that nobody else keeps;
	// none stands for all of it.
	Sticky(size units.Size) (work.Adhesive, []units.Rect)
	// Crossed returns the places in the row of boards of the hinge gaps that something
	// lies across which is stuck down beside the closed footprint, as seen from the corner of
	// that; none where there is no gap.
	Crossed(r units.Rect) []int
}

// StepsIn walks the order of work of a design in its setting, whose own steps find the
// grain. Without a setting, nil, it is [Design.Steps].
func (d Design) StepsIn(s Setting) iter.Seq[work.Step] {
	w := d.of()
	return func(yield func(work.Step) bool) {
		if w.kind == nil {
			return
		}
		o := &order{d: w, made: d, in: s, yield: yield, actions: slab.Of[work.Action](mostly), numbers: slab.Of[int](mostly)}
		o.last, o.rests = o.few[:0], o.some[:0]
		if s != nil {
			o.first, o.part = s.First(), s.Part()
		} else {
			o.part = work.Part{Kind: work.PartFitting, Name: w.kind.Name()}
			o.grain()
		}
		o.cut()
		for i := range w.pieces {
			o.shape(i)
			o.score(i)
		}
		w.kind.steps(w, o)
	}
}
