package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/quote"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Fitting is something put on a panel: what it is, where it sits and what it
// is made of.
type Fitting struct {
	// Name tells the fitting apart from others and is how another one stands
	// on it. It may be empty where nothing does.
	Name string
	// Kind is what it is: [Mat], [Frame], [Ornament] or [Folded].
	Kind Kind
	// Size gives its width, its height or both by relation to what is there; the
	// zero value leaves them to the kind.
	Size place.Sizing
	// Panel is the board it sits on; the zero Role is the form's main panel.
	Panel boards.Role
	// Outside puts it on the outside of that board.
	Outside bool
	// StandsOn is the name of the fitting it stands on instead of the panel
	// itself. The other one must come before it in Spec.Fittings.
	StandsOn string
	// Place is where it sits there.
	Place place.Place
	// Stock is the name of the material: one of Spec.Stocks, or the name of
	// the case's board, covering or liner. Empty means the one called "card", which
	// is [stock.DefaultCard] unless the Spec has a material of that name.
	Stock string
	// WrongSide shows the wrong side of the material, which must then be
	// two-sided.
	WrongSide bool
}

// A Kind is one kind of fitting. The kinds are a closed family of plain,
// comparable values; each says its pieces, its footprint, its height and what
// it holds.
type Kind interface {
	// String names the kind in words of the trade.
	String() string
	// fit checks the values of the kind and works out the fitting. It adds
	// violations under the path of the fitting and reports whether there were
	// none.
	fit(f *fitter) bool
	// work writes what hands do to make the fitting and to put it in its place,
	// and notes with what it is filled in the end.
	work(o *order, f *Fitted)
}

// A defaulter is a kind with defaults of its own.
type defaulter interface {
	// withUsual returns the kind with the defaults filled in that do not depend on
	// anything else, on rulers.
	withUsual(rule.Rulers) Kind
}

// A holder is a kind that holds something.
type holder interface {
	// holds returns what it is asked to hold, the zero Content for nothing.
	holds() pocket.Content
}

// Content returns the content with a size of its own that the fitting is asked to
// hold, and whether there is one: none where the picture follows from the size by
// relation, or where the fitting holds whatever goes in.
func (f Fitting) Content() (pocket.Content, bool) {
	kind, ok := plain(f.Kind)
	if !ok {
		return pocket.Content{}, false
	}
	h, ok := kind.(holder)
	if !ok {
		return pocket.Content{}, false
	}
	c := h.holds()
	if c.Size == (units.Size{}) {
		return pocket.Content{}, false
	}
	return c, true
}

// A Fitted is a fitting as it sits in the plan: what its kind tells about it,
// once for everyone who wants to know.
type Fitted struct {
	plan    *Plan
	name    string // as its user gave it
	kind    Kind   // plain, with what follows by relation
	index   int    // in the Spec
	panel   boards.Role
	outside bool       // of the board
	wrong   bool       // cut with the wrong side up
	nth     uint16     // of those that would be called the same, from 1; 0 alone
	on      uint16     // which of the surfaces of the fitting it stands on
	first   int32      // place of its first piece among those of the plan
	cut     int32      // how many pieces it has there
	rect    units.Rect // on the row, or on the outside of the board
	base    int        // index of the fitting it stands on, −1 for the panel
	warned  int32      // how many of the plan's warnings stand before those of its design
	record
}

// Name returns the fitting's name, as its user gave it.
func (f Fitted) Name() string { return f.name }

// Kind returns what the fitting is, as a plain value; sizes by relation are those
// that were worked out.
func (f Fitted) Kind() Kind { return f.kind }

// Index returns its place in Spec.Fittings.
func (f Fitted) Index() int { return f.index }

// Label returns what the fitting is called in texts: its name, at most 64 characters
// of it, or that of its kind; several without a name are counted in the order of
// Spec.Fittings, as in "first frame".
func (f Fitted) Label() string { return counted(f.nth, label(f.name, f.kind)) }

// Panel returns the board on which it sits.
func (f Fitted) Panel() boards.Role { return f.panel }

// Outside reports whether it sits on the outside of that board.
func (f Fitted) Outside() bool { return f.outside }

// Rect returns the footprint when everything is folded shut, contents that
// stand out of it included, measured from the upper left corner of the row of
// boards as it lies open, seen from inside. What is glued there is less: see
// [Fitted.Placed]. For a fitting on the outside the X axis runs the same way, so
// that the rectangle lies over the board it sits on.
func (f Fitted) Rect() units.Rect { return f.rect }

// Height returns how far the fitting stands up from what it sits on, empty or
// with what it holds, without adhesive.
func (f Fitted) Height(full bool) units.Length {
	if full {
		return f.full
	}
	return f.empty
}

// StandsOn returns the place in [Plan.Fittings] of the fitting it stands on
// and whether it stands on one.
func (f Fitted) StandsOn() (index int, ok bool) { return f.base, f.base >= 0 }

// Design returns the folded design of a [Folded] fitting, and whether it is
// one.
func (f Fitted) Design() (pocket.Design, bool) {
	return f.design, f.folded()
}

func (f *Fitted) folded() bool { return f.design.Kind() != nil }

// A fitter works out one fitting.
type fitter struct {
	*Fitted // what is told; it sits in the plan once it has its place
	b       *builder
	given   *Fitting // of the Spec, or with what follows by relation
	stock   *stock.Stock
	want    wanted // its sides by relation
	// The fields of a pocket's kind that took the room at hand.
	handed *[2]string
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

func (f *fitter) ruler() units.Ruler       { return f.b.spec.Rulers.Fitting }
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

//go:noinline
func fittingPath(index int) string { return check.Index("fittings", index) }

// length checks a field that must be a length in the bounds of a plan. Where 0
// stands for a default, explicitly none is said to be no length either.
func (f *fitter) length(field string, l units.Length) {
	switch {
	case check.InBounds(l):
	case l == units.None:
		f.b.bad.Malformed(f.at(field), check.NotPositive, "none", "a length from 0.01 mm to 10 m, or 0 for the default")
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

func (b *builder) checkFitting(index int, f *Fitting) bool {
	before := b.bad.Len()
	at := func(field string) string { return fittingPath(index) + field }
	switch kind, ok := plain(f.Kind); {
	case ok && b.planned != nil:
		// It is plain already, and the plan that is refitted is others' to read.
	case ok:
		f.Kind = kind
	case f.Kind == nil:
		b.bad.Malformed(at(".kind"), check.Missing, "no kind", "one of the kinds of fittings")
	default:
		b.bad.Malformed(at(".kind"), check.Unknown, "a kind of another package, or a nil pointer", "one of the kinds of fittings")
		f.Kind = nil
	}
	switch {
	case !f.Panel.Known():
		b.bad.Malformed(at(".panel"), check.Unknown, count(int(f.Panel)), b.panelNames())
	case !b.hasPanel(f.Panel):
		b.bad.Malformed(at(".panel"), check.Unknown, f.Panel.String()+" of the form "+b.spec.Form.String(), b.panelNames())
	}
	if f.StandsOn != "" && (f.Panel != boards.MainPanel || f.Outside) {
		b.bad.Malformed(at(".standson"), check.Conflict, check.Quote(f.StandsOn)+" with a panel of its own", "no panel and no outside: it is where what it stands on is")
	}
	if err := f.Place.Check(b.notation()); err != nil { // else the path is not put together
		b.soundAt(at(".place"), err)
	}
	return b.bad.Len() == before
}

// fittings works out every fitting in order. Those that are wrong in themselves
// are left out of the checks against each other.
func (b *builder) fittings() {
	given := b.spec.Fittings
	if len(given) > MaxFittings {
		b.bad.Malformed("fittings", check.TooMany, count(len(given)), "at most "+count(MaxFittings))
		return
	}
	if len(given) == 0 {
		return
	}
	if b.plan.fitted == nil {
		b.plan.fitted = make([]Fitted, 0, len(given))
		b.records = newStore(len(given))
	}
	b.relate()
	// The fittings that stand, by their place in the Spec; −1 where one failed.
	var places [MaxFittings]int16
	pockets := 0
	for i := range given {
		places[i] = -1
		fit := b.fitOne(i)
		if fit != nil && fit.folded() {
			if pockets += fit.design.Pockets(); pockets > MaxPockets {
				b.bad.Malformed("fittings", check.TooMany, "more than "+count(MaxPockets)+" pockets in all", "at most "+count(i)+", or fewer pockets in them: up to "+count(MaxPockets))
				return
			}
		}
		if fit != nil && b.sit(i, fit, places[:i]) {
			places[i] = int16(len(b.plan.fitted) - 1)
		}
	}
	b.clearance()
	b.mouths()
}

// fitOne works one fitting out, without its place; nil where something is wrong
// with it. What it returns is overwritten by the next call.
func (b *builder) fitOne(i int) *fitter {
	f := &b.spec.Fittings[i]
	before := b.bad.Len()
	sound := b.checkFitting(i, f)
	for j := range i {
		if f.Name != "" && b.spec.Fittings[j].Name == f.Name {
			b.bad.Malformed(fittingPath(i)+".name", check.Conflict, "the name "+check.Quote(f.Name)+" again", "a name of its own")
			break
		}
	}
	paper := b.stock(f.Stock)
	switch {
	case paper == nil:
		paper = new(stock.Stock)
		b.bad.Malformed(fittingPath(i)+".stock", check.Unknown, check.Quote(f.Stock), "the name of one of the stocks")
		sound = false
	case f.WrongSide && !paper.TwoSided:
		b.bad.Malformed(fittingPath(i)+".wrongside", check.Conflict, "the wrong side of "+check.Quote(paper.Name), "no wrong side, or a stock that is two-sided")
		sound = false
	}
	want, ok := b.wants(i)
	sound = sound && ok
	out := b.fitter
	out.begin(b, i)
	out.stock, out.want = paper, want
	if !ok && f.Kind != nil {
		b.formOf(out)
	}
	sound = f.Kind != nil && ok && out.filled() && out.given.Kind.fit(out) && sound
	b.bad.About(before, out.label)
	if !sound {
		b.foot(i, nil)
		return nil
	}
	out.bySize()
	b.foot(i, out)
	return out
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

// sit finds the place of a fitting, checks that it is free and reports whether
// there is such a place.
func (b *builder) sit(index int, f *fitter, places []int16) bool {
	before := b.bad.Len()
	defer func() { b.bad.About(before, f.label) }()
	role := f.given.Panel
	if role == boards.MainPanel {
		role = b.plan.shape.Main
	}
	out := f.Fitted
	out.kind, out.panel, out.cut = f.given.Kind, role, int32(len(b.plan.pieces))-out.first
	area := b.plan.panelArea(role, f.given.Outside).Grow(-b.spec.Clearance)
	on := "the panel"
	if name := f.given.StandsOn; name != "" {
		base := b.standing(name, index, places)
		if base < 0 {
			if b.under(index) < 0 { // what is wrong with one that is there is said there
				b.bad.Malformed(f.at(".standson"), check.Unknown, check.Quote(name), "nothing, or "+b.earlier(index))
			}
			return false
		}
		under := &b.plan.fitted[base]
		out.base = base
		out.panel = under.panel
		out.outside = under.outside
		on = under.Label()
		area = under.carrier
		if area.Empty() {
			area = under.rect
		}
	}
	out.rect = f.given.Place.Within(area, f.footprint, f.ruler())
	if f.given.Place.Lined() && !b.lineUp(f, out, area, on, places) {
		return false
	}
	if out.base < 0 && !f.given.Place.Lined() {
		out.rect = b.settled(f.index, b.plan.index(role), out.rect, area)
	}
	if b.inside(f, out.rect, area, on) && out.base >= 0 {
		b.stands(f, out)
	}
	b.apart(f, out, area)
	if out.outside {
		out.turnedOver(out.rect.Size().W)
	}
	out.moved(out.rect.Min)
	b.records.keep(&out.record)
	b.plan.fitted = b.plan.fitted[:len(b.plan.fitted)+1]
	return true
}

// notUnder says that what a fitting stands on is not there.
func (b *builder) notUnder(i int) {
	b.bad.Malformed(fittingPath(i)+".standson", check.Unknown, check.Quote(b.spec.Fittings[i].StandsOn), b.earlier(i))
}

// earlier says what would do where a fitting must name one before it.
func (b *builder) earlier(i int) string {
	for j := range i {
		if b.spec.Fittings[j].Name != "" {
			return "the name of a fitting before this one"
		}
	}
	return "no name: no fitting before this one has one"
}

// standing returns the place in the plan of the fitting with a name.
func (b *builder) standing(name string, index int, places []int16) int {
	for j := range index {
		if b.spec.Fittings[j].Name == name && places[j] >= 0 {
			return int(places[j])
		}
	}
	return -1
}

// Label returns what fitting i is called in texts, as [Fitted.Label]: its name on one
// line, at most 64 characters of it, or that of its kind; several without a name are counted,
// as in "first frame". It is empty where the fitting has neither, or there is none.
func (s Spec) Label(i int) string { return s.label(i) }

func (s *Spec) label(i int) string {
	if i < 0 || i >= len(s.Fittings) {
		return ""
	}
	return counted(s.nth(i), label(s.Fittings[i].Name, s.Fittings[i].Kind))
}

// nth counts fitting i among those that would be called the same, from 1; it is 0
// if there is no other, or if it has a name of its own.
func (s *Spec) nth(i int) uint16 {
	all := s.Fittings
	if all[i].Name != "" {
		return 0
	}
	name, n, before := label(all[i].Name, all[i].Kind), 0, uint16(0)
	for j := range all {
		if label(all[j].Name, all[j].Kind) == name {
			n++
			if j <= i {
				before++
			}
		}
	}
	if n == 1 {
		return 0
	}
	return before
}

// counted is a name with its place among several, if there are.
func counted(nth uint16, name string) string {
	if nth == 0 || name == "" {
		return name
	}
	return ordinal(int(nth)-1) + " " + name
}

// label is what a fitting of a name and a kind is called in texts.
func label(name string, kind Kind) string {
	switch {
	case name != "":
		return quote.Clip(name, quote.Most)
	case kind != nil:
		if k, ok := taken(kind); ok { // a nil pointer, and what only embeds a kind, may have no name to tell
			return k.String()
		}
	}
	return ""
}

// apart checks that a fitting overlaps no earlier one, unless it stands on it.
func (b *builder) apart(f *fitter, out *Fitted, area units.Rect) {
	want := ""
	for j := range b.plan.fitted {
		o := &b.plan.fitted[j]
		shared := o.rect.Intersect(out.rect)
		if shared.Empty() || !b.isBeside(out, j) {
			continue
		}
		if b.bad.Len() >= check.MaxViolations {
			b.bad.Add(check.Violation{}) // of many pairs most are counted only: nobody reads what would do
			continue
		}
		if want == "" {
			want = b.beside(f, out, area)
		}
		n := b.notation()
		s := shared.Size()
		b.bad.Add(check.Violation{
			Path: f.at(".place"), Code: Overlaps, Fault: check.Impossible,
			Got:  "an overlap of " + n.Text(s.W) + " x " + n.Text(s.H) + " with " + quote.Clip(o.Label(), check.MaxText),
			Want: want, By: min(s.W, s.H),
		})
	}
}
