package folio

import (
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A fitter works out one fitting.
type fitter struct {
	*Fitted // what is told; it sits in the plan once it has its place
	b       *builder
	given   *Fitting // of the Spec, or with what follows by relation
	stock   *stock.Stock
	want    wanted       // its sides by relation
	border  units.Length // what the kind takes of such a side beside its picture
	handed  *handed      // a pocket's kind that took the room at hand
	// Set by fit, relative to the footprint.
	footprint units.Size
	wide      side           // what decides on the footprint's width
	tall      side           // and on its height
	up        work.PaperSide // the side of the material that lies up where pieces are cut
	label     string
}

// A side says which field decides on a side of a footprint.
type side struct {
	field string
	given units.Length // what the field is; 0 where the side follows from more than it
	more  units.Length // by which the footprint is larger, on the ruler
	exact bool         // the footprint is not put on the ruler
	// The relation that gives the side, with its working; nil where it is none.
	relation *place.Relation
	working  *units.Working
	// around is what goes round the field at both sides, and what it is there;
	// empty where nothing does.
	around string
	by     units.Length
}

// A handed is a pocket's kind before it took the room at hand, and the fields that did.
type handed struct {
	_      [0]func() // none are compared
	kind   pocket.Kind
	fields [2]string
}

// begin takes up fitting i of the Spec, with nothing known of it but what that says.
// Field by field: both are large to be put together elsewhere and copied.
func (f *fitter) begin(b *builder, i int) {
	given := &b.spec.Fittings[i]
	*f = fitter{}
	f.Fitted, f.b, f.given = b.next(), b, given
	*f.Fitted = Fitted{}
	f.plan, f.name, f.nth, f.index, f.base = b.plan, given.Name, b.spec.nth(i), i, -1
	f.outside, f.wrong, f.first = given.Outside, given.WrongSide, int32(len(b.plan.pieces))
	f.record = b.records.blank()
	f.label = counted(f.nth, label(given.Name, given.Kind))
	if given.WrongSide {
		f.up = work.WrongSide
	}
}

// next returns where the next fitting of the plan is written.
func (b *builder) next() *Fitted {
	if all := b.plan.fitted; len(all) < cap(all) {
		return &all[:len(all)+1][len(all)]
	}
	return new(Fitted) // of a folio that has no case, it is only checked
}

//go:noinline
func (f *fitter) ruler() units.Ruler { return f.b.spec.Rulers.Fitting }

//go:noinline
func (f *fitter) notation() units.Notation { return f.b.notation() }

// film is the thickness of the adhesive.
func (f *fitter) film() units.Length { return f.b.spec.Closing.Adhesive.Caliper }

// piece adds a piece of the fitting, in its stock unless the piece says
// another, and returns its place.
func (f *fitter) piece(p *Piece) int {
	if p.stock == "" {
		p.stock, p.caliper = f.stock.Name, f.stock.Caliper
	}
	of := f.stock
	if p.stock != f.given.Stock {
		of = f.b.stock(p.stock)
	}
	p.part, p.up, p.fitting = f.label, f.up, int16(f.index+1)
	return f.b.pieceFor(p, p.Size(), of)
}

// thick names a material that no stock of the Spec is named for, by its thickness:
// two thicknesses are two materials, and hands must know which.
func (f *fitter) thick(name string, caliper units.Length) string {
	name += " " + f.notation().Text(caliper) + " thick"
	for f.taken(name, caliper) {
		name += ", of its own"
	}
	return name
}

// taken reports whether a name stands for a material of another thickness.
func (f *fitter) taken(name string, caliper units.Length) bool {
	for i := range f.b.plan.pieces {
		if p := &f.b.plan.pieces[i]; p.stock == name && p.caliper != caliper {
			return true
		}
	}
	s := f.b.stock(name)
	return s != nil && s.Caliper != caliper
}

// lay puts a copy of a piece where it lies.
//
//go:noinline
func (f *fitter) lay(piece, copy int, r units.Rect) {
	f.lain = append(f.lain, laying(piece, copy, r))
}

//go:noinline
func (f *fitter) sum(label string, d units.Direction, terms ...units.Term) *units.Working {
	return f.b.sum(label, f.ruler(), d, terms...)
}

// comesTo warns of a given length of a fitting that is no graduation of the ruler
// where sizes that are put on that make it others.
//
//go:noinline
func (f *fitter) comesTo(field, what, cut string, given units.Length, made ...units.Length) {
	r := f.ruler()
	if r.Has(given) { // else the path is not put together
		return
	}
	least, greatest := made[0], made[0]
	for _, l := range made[1:] {
		least, greatest = min(least, l), max(greatest, l)
	}
	f.b.comesTo(f.at(field), what, cut, r, given, least, greatest)
}

// grip is how much of the row must stay free at a mouth, so that contents can be
// got in and out: 1/4 in, or 6 mm where plans are metric (common practice, no
// published source).
func grip(n units.Notation) units.Length {
	return n.Choose(units.Inch/4, 6*units.Millimetre)
}

// wayIn returns the way from a spot to a grip beyond the footprint's edge, over
// the spot's mouth.
func wayIn(spot units.Rect, footprint units.Size, mouth score.Edge, grip units.Length) units.Rect {
	switch mouth {
	case score.Head:
		spot.Min.Y, spot.Max.Y = -grip, spot.Min.Y
	case score.Tail:
		spot.Min.Y, spot.Max.Y = spot.Max.Y, footprint.H+grip
	case score.Left:
		spot.Min.X, spot.Max.X = -grip, spot.Min.X
	case score.Right:
		spot.Min.X, spot.Max.X = spot.Max.X, footprint.W+grip
	}
	return spot
}

// at returns the path of a field of the fitting. Paths are put together only
// where something is wrong.
//
//go:noinline
func (f *fitter) at(field string) string { return "fittings[" + count(f.index) + "]" + field }

// length checks a field that must be a length in the bounds of a plan. Where 0
// stands for a default, explicitly none is said to be no length either.
func (f *fitter) length(field string, l units.Length) {
	switch {
	case check.InBounds(l):
	case l == units.None:
		f.b.bad.Malformed(f.at(field), check.NotPositive, "none", f.b.bad.Between()+", or 0 for the default")
	default:
		f.b.bad.Length(f.at(field), l)
	}
}

// allowance checks a field that may be 0 as well, or explicitly none.
func (f *fitter) allowance(field string, l units.Length) {
	if l != 0 && l != units.None && !check.InBounds(l) {
		f.b.bad.Allowance(f.at(field), l)
	}
}

// size checks both sides of a field as length does.
func (f *fitter) size(field string, s units.Size) {
	if !check.InBounds(s.W) || !check.InBounds(s.H) {
		f.b.bad.Size(f.at(field), s)
	}
}

// content checks something held.
func (f *fitter) content(field string, c pocket.Content) {
	if !check.InBounds(c.Size.W) || !check.InBounds(c.Size.H) {
		f.b.bad.Size(f.at(field+".size"), c.Size)
	}
	if c.Thickness < 0 || c.Thickness > units.Longest {
		f.b.bad.Allowance(f.at(field+".thickness"), c.Thickness)
	}
}
