// Package weigh says what a folio weighs, entry by entry: empty or filled, one or
// many. What is not known is said, and never silently nothing.
//
//	weight, err := weigh.Of(plan, weigh.Options{Filled: true})
//	mass, certainty := weight.Total()
package weigh

import (
	"iter"
	"math"
	"slices"
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/word"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Options say what is weighed.
type Options struct {
	// Filled counts what the fittings hold, and the block.
	Filled bool
	// Copies is how many folios, up to [MostCopies]; 0 means 1.
	Copies int
	// Estimate weighs a stock of unknown grammage by its caliper: board at 640
	// g/m² per mm, the middle of one maker's table for greyboard (a weak
	// source), anything else but foam at the bulk of 110 lb index, 200 g/m² and
	// 0.0091 in (US Government Paper Specification Standards No. 11, 1999).
	Estimate bool
	// Density is that of contents, in g/m² per mm of thickness, which is
	// kg/m³, up to [MostDensity]; 0 means 1400, about that of a plastic card
	// (from memory), which is more than paper has: the mass of contents is an
	// estimate that is rather too high.
	Density int64
	// Block is the mass of the block, up to [folio.MostMass]; 0 has it estimated
	// like contents.
	Block units.Mass
}

// Limits of the options.
const (
	MostCopies  = 1_000_000 // folios that are weighed together
	MostDensity = 25_000    // kg/m³: more than any metal has
)

func (o Options) check(p *folio.Plan) error {
	var bad check.List
	if p == nil {
		bad.Malformed("plan", check.Missing, "no plan", "a plan made by folio.Build")
	}
	switch {
	case o.Copies < 0:
		bad.Malformed("copies", check.Negative, strconv.Itoa(o.Copies), "0 for one, or up to "+strconv.Itoa(MostCopies))
	case o.Copies > MostCopies:
		bad.Malformed("copies", check.TooMany, strconv.Itoa(o.Copies), "at most "+strconv.Itoa(MostCopies))
	}
	if o.Density < 0 || o.Density > MostDensity {
		bad.Malformed("density", check.OutOfRange, strconv.FormatInt(o.Density, 10), "0 for the default, or up to "+strconv.Itoa(MostDensity)+" kg/m³")
	}
	if o.Block < 0 || o.Block > folio.MostMass {
		bad.Malformed("block", check.OutOfRange, o.Block.String(), "0 to have it estimated, or up to "+folio.MostMass.String())
	}
	return bad.Err()
}

// Certainty says how a mass is known.
type Certainty uint8

// Certainties.
const (
	Known     Certainty = iota // from a grammage or a mass that was given
	Estimated                  // from a thickness
	Unknown                    // not at all: the mass is 0 and missing from the total
)

var certainties = word.List{What: "certainty", Words: []string{Known: "known", Estimated: "estimated", Unknown: "unknown"}}

// String returns "known", "estimated" or "unknown".
func (c Certainty) String() string { return certainties.String(uint8(c)) }

// AppendText appends the text of [Certainty.String]. The error matches
// units.ErrUnknown.
func (c Certainty) AppendText(dst []byte) ([]byte, error) { return certainties.Append(dst, uint8(c)) }

// MarshalText returns the text of [Certainty.String], with the error of
// [Certainty.AppendText].
func (c Certainty) MarshalText() ([]byte, error) { return certainties.Marshal(uint8(c)) }

// UnmarshalText reads what [Certainty.String] writes. The error matches
// units.ErrSyntax.
func (c *Certainty) UnmarshalText(text []byte) error { return word.Unmarshal(certainties, c, text) }

// An Entry is one entry of a weight.
type Entry struct {
	name, part, stock string
	quantity          int
	area              units.Area
	grammage          units.Grammage
	mass              units.Mass
	certainty         Certainty
}

// Name says what it is, as [folio.Piece.Name] does.
func (i Entry) Name() string { return i.name }

// Part says what it belongs to, as [folio.Piece.Part] does.
func (i Entry) Part() string { return i.part }

// Stock is the name of its material, empty for what is not cut.
func (i Entry) Stock() string { return i.stock }

// Quantity returns how many there are in all copies.
func (i Entry) Quantity() int { return i.quantity }

// Area returns the area of a single one, 0 for what is not flat.
func (i Entry) Area() units.Area { return i.area }

// Grammage returns the mass by area of a single one, 0 where none was used.
func (i Entry) Grammage() units.Grammage { return i.grammage }

// Mass returns that of all, worked out from the mass of a single one to the
// nearest microgram; 0 where it is unknown.
func (i Entry) Mass() units.Mass { return i.mass }

// Certainty returns how the mass is known.
func (i Entry) Certainty() Certainty { return i.certainty }

// A Weight is the weight of a folio, entry by entry. Adhesive is not in it.
type Weight struct{ entries []Entry }

// Entries walks the entries: pieces in their order, ornaments, contents.
func (w Weight) Entries() iter.Seq[Entry] { return slices.Values(w.entries) }

// Unknown walks the entries whose mass is missing from the total.
func (w Weight) Unknown() iter.Seq[Entry] {
	return func(yield func(Entry) bool) {
		for _, entry := range w.entries {
			if entry.certainty == Unknown && !yield(entry) {
				return
			}
		}
	}
}

// Total returns the sum of what is known or estimated, and the least certain
// of all entries: with Unknown the total is too low.
func (w Weight) Total() (units.Mass, Certainty) {
	total, c := units.Mass(0), Known
	for _, entry := range w.entries {
		if entry.mass > math.MaxInt64-total {
			total = math.MaxInt64
		} else {
			total += entry.mass
		}
		c = max(c, entry.certainty)
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

// Of works out the weight: the area of every piece, less what is cut out of it
// or off its corners, times the grammage of its stock. A stock of unknown
// grammage, an ornament of unknown mass and a content without thickness are
// entries with the certainty Unknown. The error is a *[check.Error] of the
// options, or of a plan that is nil.
func Of(p *folio.Plan, o Options) (Weight, error) {
	if err := o.check(p); err != nil {
		return Weight{}, err
	}
	spec := p.Spec()
	s := scales{copies: max(o.Copies, 1), density: o.Density, board: spec.Board.Name}
	if s.density == 0 {
		s.density = plastic
	}
	for piece := range p.Pieces() {
		s.piece(p, piece, o.Estimate)
	}
	for f := range p.Fittings() {
		for l := range f.Loads() {
			if l.Held() {
				continue
			}
			entry := Entry{name: l.Name(), part: f.Label(), quantity: l.Count()}
			if l.Mass() <= 0 {
				entry.certainty = Unknown
			}
			s.add(entry, l.Mass())
		}
	}
	if o.Filled {
		s.fill(p, spec.Block, o.Block)
	}
	return Weight{s.entries}, nil
}

// scales gather the entries of a weight.
type scales struct {
	copies  int
	density int64
	board   string // name of the stock of boards
	entries []Entry
}

func (s *scales) add(entry Entry, each units.Mass) {
	entry.quantity *= s.copies
	if entry.certainty != Unknown && each > 0 {
		if n := units.Mass(entry.quantity); n > math.MaxInt64/each {
			entry.mass = math.MaxInt64
		} else {
			entry.mass = n * each
		}
	}
	s.entries = append(s.entries, entry)
}

func (s *scales) piece(p *folio.Plan, piece folio.Piece, estimate bool) {
	entry := Entry{name: piece.Name(), part: piece.Part(), stock: piece.Stock(), quantity: piece.Quantity(), area: piece.Area()}
	material, known := p.Stock(piece.Stock())
	entry.grammage = material.Grammage
	switch {
	case known && material.Grammage > 0:
	case !estimate, piece.Role() == stock.FoamPiece, piece.Caliper() <= 0:
		entry.certainty = Unknown
	case piece.Stock() == s.board:
		entry.certainty, entry.grammage = Estimated, byCaliper(piece.Caliper(), boardBulk, units.Millimetre)
	default:
		card := stock.DefaultCard(units.InchFraction)
		entry.certainty, entry.grammage = Estimated, byCaliper(piece.Caliper(), int64(card.Grammage), card.Caliper)
	}
	s.add(entry, entry.grammage.Mass(entry.area))
}

// fill adds the block, with its mass if that is known, and what the fittings
// hold.
func (s *scales) fill(p *folio.Plan, block boards.Block, mass units.Mass) {
	switch {
	case block.Page == units.Size{}:
	case mass > 0:
		s.add(Entry{name: "block", part: "block", quantity: 1, area: block.Page.Area()}, mass)
	default:
		s.content("block", pocket.Content{Name: "block", Size: block.Page, Thickness: block.Thickness}, 1)
	}
	for f := range p.Fittings() {
		for l := range f.Loads() {
			if l.Held() {
				s.content(f.Label(), l.Content(), l.Count())
			}
		}
	}
}

func (s *scales) content(part string, c pocket.Content, quantity int) {
	in := Entry{name: c.Name, part: part, quantity: quantity, area: c.Size.Area(), certainty: Estimated}
	if in.name == "" {
		in.name = "content"
	}
	if c.Thickness <= 0 {
		in.certainty = Unknown
	}
	in.grammage = byCaliper(c.Thickness, s.density*int64(units.GramPerSquareMetre), units.Millimetre)
	s.add(in, in.grammage.Mass(in.area))
}
