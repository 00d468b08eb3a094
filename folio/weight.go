package folio

import (
	"iter"
	"math"

	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// Weighing says what is weighed.
type Weighing struct {
	// Filled counts what the fittings hold, and the block.
	Filled bool
	// Copies is how many folios; 0 means 1.
	Copies int
	// Estimate weighs a stock of unknown grammage by its caliper: board at 640
	// g/m² per mm, the middle of one maker's table for greyboard (a weak
	// source), anything else at the bulk of 110 lb index, 200 g/m² and 0.0091
	// in (US Government Paper Specification Standards No. 11, 1999).
	Estimate bool
	// Density is that of contents, in g/m² per mm of thickness, which is
	// kg/m³; 0 means 1400, about that of a plastic card (from memory), which
	// is more than paper has: the mass of contents is an estimate that is
	// rather too high.
	Density int64
	// Block is the mass of the block; 0 has it estimated like contents.
	Block units.Mass
}

// Certainty says how a mass is known.
type Certainty uint8

// Certainties.
const (
	Known     Certainty = iota // from a grammage or a mass that was given
	Estimated                  // from a thickness
	Unknown                    // not at all: the mass is 0 and missing from the total
)

// String returns the certainty in words.
func (c Certainty) String() string {
	switch c {
	case Known:
		return "known"
	case Estimated:
		return "estimated"
	case Unknown:
		return "unknown"
	}
	return "no such certainty"
}

// A Weighed is one part of a weight. Quantity counts all copies, Area and
// Grammage are those of a single one, and Mass is that of all, worked out from
// the mass of a single one to the nearest microgram. Area is 0 for what is not
// cut from sheet.
type Weighed struct {
	Name, Part, Stock string
	Quantity          int
	Area              units.Area
	Grammage          units.Grammage
	Mass              units.Mass
	Certainty         Certainty
}

// A Weight is the weight of a folio, part by part. Adhesive is not in it.
type Weight struct{ parts []Weighed }

// Parts walks the parts: pieces in their order, ornaments, contents.
func (w Weight) Parts() iter.Seq[Weighed] { return walk(w.parts) }

// Unknown walks the parts whose mass is missing from the total.
func (w Weight) Unknown() iter.Seq[Weighed] {
	return func(yield func(Weighed) bool) {
		for _, part := range w.parts {
			if part.Certainty == Unknown && !yield(part) {
				return
			}
		}
	}
}

// Total returns the sum of what is known or estimated, and the least certain
// of all parts: with Unknown the total is too low.
func (w Weight) Total() (units.Mass, Certainty) {
	total, c := units.Mass(0), Known
	for _, part := range w.parts {
		if part.Mass > math.MaxInt64-total {
			total = math.MaxInt64
		} else {
			total += part.Mass
		}
		c = max(c, part.Certainty)
	}
	return total, c
}

// Bulk in mg/m² per mm.
const (
	boardBulk = 640_000
	plastic   = 1400
)

// byCaliper returns the grammage of a material so thick, with a bulk of num
// mg/m² for every den of thickness, to the nearest mg/m².
func byCaliper(caliper units.Length, num int64, den units.Length) units.Grammage {
	g, _ := caliper.Scale(num, den.Nanometres(), units.Nearest)
	return units.Grammage(g.Nanometres())
}

// Weigh works out the weight: the area of every piece, less what is cut out of
// it or off its corners, times the grammage of its stock. A stock of unknown
// grammage, an ornament of unknown mass and a content without thickness are
// parts with the certainty Unknown, never silently nothing.
func (p *Plan) Weigh(o Weighing) Weight {
	copies := max(o.Copies, 1)
	w := Weight{make([]Weighed, 0, len(p.pieces)+len(p.fitted))}
	add := func(part Weighed, each units.Mass) {
		part.Quantity *= copies
		if part.Certainty != Unknown && each > 0 {
			if n := units.Mass(part.Quantity); n > math.MaxInt64/each {
				part.Mass = math.MaxInt64
			} else {
				part.Mass = n * each
			}
		}
		w.parts = append(w.parts, part)
	}
	for i := range p.pieces {
		piece := &p.pieces[i]
		part := Weighed{Name: piece.name, Part: piece.part, Stock: piece.stock, Quantity: piece.quantity, Area: piece.Area()}
		stock, ok := p.spec.material(piece.stock)
		part.Grammage = stock.Grammage
		switch {
		case ok && stock.Grammage > 0:
		case piece.role != FoamPiece && o.Estimate:
			part.Certainty = Estimated
			if stock.Name == p.spec.Board.Name {
				part.Grammage = byCaliper(stock.Caliper, boardBulk, units.Millimetre)
			} else {
				card := DefaultCard()
				part.Grammage = byCaliper(max(stock.Caliper, piece.caliper), int64(card.Grammage), card.Caliper)
			}
		default:
			part.Certainty = Unknown
		}
		add(part, part.Grammage.Mass(part.Area))
	}
	for i := range p.fitted {
		f := &p.fitted[i]
		for _, l := range f.loads {
			if l.held {
				continue
			}
			part := Weighed{Name: l.name, Part: f.Label(), Quantity: l.count}
			if l.mass <= 0 {
				part.Certainty = Unknown
			}
			add(part, l.mass)
		}
	}
	if !o.Filled {
		return w
	}
	density := o.Density
	if density <= 0 {
		density = plastic
	}
	content := func(part string, c pocket.Content, quantity int) {
		name := c.Name
		if name == "" {
			name = "content"
		}
		in := Weighed{Name: name, Part: part, Quantity: quantity, Area: c.Size.Area(), Certainty: Estimated}
		if c.Thickness <= 0 {
			in.Certainty = Unknown
		}
		in.Grammage = byCaliper(c.Thickness, min(density, 100_000)*int64(units.GramPerSquareMetre), units.Millimetre)
		add(in, in.Grammage.Mass(in.Area))
	}
	if b := p.spec.Block; b.given() {
		if o.Block > 0 {
			add(Weighed{Name: "block", Part: "block", Quantity: 1, Area: b.Page.Area()}, o.Block)
		} else {
			content("block", pocket.Content{Name: "block", Size: b.Page, Thickness: b.Thickness}, 1)
		}
	}
	for i := range p.fitted {
		f := &p.fitted[i]
		for _, l := range f.loads {
			if l.held {
				content(f.Label(), l.content, l.count)
			}
		}
	}
	return w
}

// Area returns the area of one of the piece: its rectangle less mitred corners,
// slants, windows, cut-outs and notches. Round edges and half triangles are taken to
// the square nanometre or a little more, so that the area is not less than
// what is there by more than that.
func (p Piece) Area() units.Area {
	a := p.Size().Area()
	for _, c := range p.cuts {
		leg := c.leg.Length()
		a = a.Minus(leg.By(leg.Half(units.Down)))
	}
	for _, o := range p.openings {
		a = a.Minus(o.Size().Area())
	}
	for _, s := range p.slants {
		a = a.Minus((p.width.Length() - s.From.X).By(s.To.Y.Half(units.Down)))
	}
	if p.blank == nil {
		return a
	}
	for _, c := range p.blank.CutOuts() {
		r := c.Radius
		// Four quarter circles leave (4 − π) r² of their square.
		a = a.Minus(c.Area.Size().Area()).Plus(r.By(portion(r, 4-math.Pi, units.Up)))
	}
	for _, n := range p.blank.Notches() {
		depth := n.Depth
		if n.Round {
			depth = portion(depth, math.Pi/4, units.Down) // half an ellipse
		}
		a = a.Minus(n.Width.By(depth))
	}
	return a
}
