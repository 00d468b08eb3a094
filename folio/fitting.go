package folio

import (
	"iter"

	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
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
	// Panel is the board it sits on; the zero Role is the form's main panel.
	Panel Role
	// Outside puts it on the outside of that board.
	Outside bool
	// StandsOn is the name of the fitting it stands on instead of the panel
	// itself. The other one must come before it in Spec.Fittings.
	StandsOn string
	// Place is where it sits there.
	Place Place
	// Stock is the name of the material: one of Spec.Stocks, or the name of
	// the case's board, covering or liner. Empty means [DefaultCard].
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
}

// A Fitted is a fitting as it sits in the plan.
type Fitted struct {
	fitting  Fitting
	index    int // in the Spec
	panel    Role
	rect     units.Rect // on the row, or on the outside of the board
	empty    units.Length
	full     units.Length
	holdings []Holding
	surfaces []units.Rect
	strips   []units.Rect
	base     int            // index of the fitting it stands on, −1 for the panel
	design   *pocket.Design // nil unless folded
}

// Name returns the fitting's name.
func (f Fitted) Name() string { return f.fitting.Name }

// Kind returns what the fitting is.
func (f Fitted) Kind() Kind { return f.fitting.Kind }

// Panel returns the board on which it sits.
func (f Fitted) Panel() Role { return f.panel }

// Outside reports whether it sits on the outside of that board.
func (f Fitted) Outside() bool { return f.fitting.Outside }

// Rect returns the footprint when everything is folded shut, measured from the
// upper left corner of the row of boards as it lies open, seen from inside.
// For a fitting on the outside the X axis runs the same way, so that the
// rectangle lies over the board it sits on.
func (f Fitted) Rect() units.Rect { return f.rect }

// Height returns how far the fitting stands up from what it sits on, empty or
// with what it holds.
func (f Fitted) Height(full bool) units.Length {
	if full {
		return f.full
	}
	return f.empty
}

// StandsOn returns the place in [Plan.Fittings] of the fitting it stands on
// and whether it stands on one.
func (f Fitted) StandsOn() (index int, ok bool) { return f.base, f.base >= 0 }

// Holdings walks what the fitting holds.
func (f Fitted) Holdings() iter.Seq[Holding] { return walk(f.holdings) }

// Strips walks where the foam strips under a [Frame] lie on the row: the two
// beside its mouth, then the far one. Other fittings have none.
func (f Fitted) Strips() iter.Seq[units.Rect] { return walk(f.strips) }

// Design returns the folded design of a [Folded] fitting, and whether it is
// one.
func (f Fitted) Design() (pocket.Design, bool) {
	if f.design == nil {
		return pocket.Design{}, false
	}
	return *f.design, true
}

// A Holding is what a fitting holds and the room it has for it.
type Holding struct {
	Content pocket.Content
	// Room is the clear width and height, Rect where that lies on the row.
	Room units.Size
	Rect units.Rect
}

// A fitter works out one fitting.
type fitter struct {
	b     *builder
	index int // in the Spec
	given Fitting
	stock Stock
	// Set by fit.
	footprint   units.Size
	empty, full units.Length
	holdings    []Holding    // rects relative to the footprint
	surfaces    []units.Rect // where others may stand, relative to the footprint
	strips      []units.Rect // foam under it, relative to the footprint
	design      *pocket.Design
}

func (f *fitter) ruler() units.Ruler       { return f.b.spec.Rulers.Fitting }
func (f *fitter) notation() units.Notation { return f.b.notation() }

// piece adds a piece of the fitting in its stock.
func (f *fitter) piece(p Piece) {
	p.part = f.given.Name
	if p.part == "" {
		p.part = f.given.Kind.String()
	}
	if p.stock == "" {
		p.stock = f.stock.Name
	}
	if f.given.WrongSide {
		p.up = work.WrongSide
	}
	p.fitting = f.index + 1
	f.b.piece(p)
}

func (f *fitter) sum(label string, d units.Direction, terms ...units.Term) units.Working {
	return f.b.sum(label, f.ruler(), d, terms...)
}

// at returns the path of a field of the fitting. Paths are put together only
// where something is wrong.
func (f *fitter) at(field string) string { return fittingPath(f.index) + field }

func fittingPath(index int) string { return check.Index("fittings", index) }

// length checks a field that must be a length in the bounds of a plan.
func (f *fitter) length(field string, l units.Length) bool {
	return check.InBounds(l) || f.b.bad.Length(f.at(field), l)
}

// allowance checks a field that may be 0 as well.
func (f *fitter) allowance(field string, l units.Length) bool {
	return l == 0 || check.InBounds(l) || f.b.bad.Allowance(f.at(field), l)
}

// size checks both sides of a field as length does.
func (f *fitter) size(field string, s units.Size) bool {
	return check.InBounds(s.W) && check.InBounds(s.H) || f.b.bad.Size(f.at(field), s)
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
	if f.Kind == nil {
		b.bad.Malformed(at(".kind"), check.Missing, "no kind", "one of Mat, Frame, Ornament or Folded")
	}
	switch {
	case f.Panel >= roleEnd:
		b.bad.Malformed(at(".panel"), check.Unknown, count(int(f.Panel)), "one of the Role constants")
	case !b.hasPanel(f.Panel):
		b.bad.Malformed(at(".panel"), check.Unknown, f.Panel.String()+" of the form "+b.spec.Form.String(), "a board that the form has")
	}
	if f.StandsOn != "" && (f.Panel != MainPanel || f.Outside) {
		b.bad.Malformed(at(".standson"), check.Conflict, check.Quote(f.StandsOn)+" with a panel of its own", "no panel and no outside: it is where what it stands on is")
	}
	if !f.Place.sound() {
		f.Place.check(&b.bad, at(".place"))
	}
	return b.bad.Len() == before
}

// fittings works out every fitting in order. Those that are wrong in themselves
// are left out of the checks against each other.
func (b *builder) fittings() {
	given := b.spec.Fittings
	if len(given) > mostFittings {
		b.bad.Malformed("fittings", check.TooMany, count(len(given)), "at most "+count(mostFittings))
		return
	}
	b.plan.fitted = make([]Fitted, 0, len(given))
	// The fittings that stand, by their place in the Spec; −1 where one failed.
	var places [mostFittings]int
	for i := range given {
		places[i] = -1
		if fit := b.fitOne(i); fit != nil && b.sit(i, fit, places[:i]) {
			places[i] = len(b.plan.fitted) - 1
		}
	}
}

// fitOne works one fitting out, without its place; nil where something is wrong
// with it.
func (b *builder) fitOne(i int) *fitter {
	f := &b.spec.Fittings[i]
	sound := b.checkFitting(i, f)
	for j := range i {
		if f.Name != "" && b.spec.Fittings[j].Name == f.Name {
			b.bad.Malformed(fittingPath(i)+".name", check.Conflict, "the name "+check.Quote(f.Name)+" again", "a name of its own")
			break
		}
	}
	stock, ok := b.stock(f.Stock)
	switch {
	case !ok:
		b.bad.Malformed(fittingPath(i)+".stock", check.Unknown, check.Quote(f.Stock), "the name of one of the stocks")
		sound = false
	case f.WrongSide && !stock.TwoSided:
		b.bad.Malformed(fittingPath(i)+".wrongside", check.Conflict, "the wrong side of "+check.Quote(stock.Name), "a stock that is two-sided")
		sound = false
	}
	fit := &fitter{b: b, index: i, given: *f, stock: stock}
	if f.Kind == nil || !f.Kind.fit(fit) || !sound {
		return nil
	}
	return fit
}

// sit finds the place of a fitting, checks that it is free and reports whether
// there is such a place.
func (b *builder) sit(index int, f *fitter, places []int) bool {
	role := f.given.Panel
	if role == MainPanel {
		role = b.spec.Form.main()
	}
	out := Fitted{
		fitting: f.given, index: f.index, panel: role, empty: f.empty, full: f.full,
		design: f.design, base: -1,
	}
	area := b.plan.panelArea(role, f.given.Outside).Grow(-b.spec.Clearance)
	on := "the panel"
	if name := f.given.StandsOn; name != "" {
		base := b.standing(name, index, places)
		if base < 0 {
			b.bad.Malformed(f.at(".standson"), check.Unknown, check.Quote(name), "the name of a fitting before this one")
			return false
		}
		under := b.plan.fitted[base]
		out.base = base
		out.panel = under.panel
		out.fitting.Outside = under.fitting.Outside
		on = under.label()
		area = under.rect
		if len(under.surfaces) > 0 {
			area = under.surfaces[0]
		}
	}
	out.rect = f.given.Place.within(area, f.footprint, f.ruler())
	b.inside(f.index, out.rect, area, on)
	for j := range b.plan.fitted {
		b.apart(f.index, &out, j)
	}
	for _, h := range f.holdings {
		h.Rect = h.Rect.Moved(out.rect.Min)
		out.holdings = append(out.holdings, h)
	}
	for _, s := range f.strips {
		out.strips = append(out.strips, s.Moved(out.rect.Min))
	}
	for _, s := range f.surfaces {
		out.surfaces = append(out.surfaces, s.Moved(out.rect.Min))
	}
	b.plan.fitted = append(b.plan.fitted, out)
	return true
}

// standing returns the place in the plan of the fitting with a name.
func (b *builder) standing(name string, index int, places []int) int {
	for j := range index {
		if b.spec.Fittings[j].Name == name && places[j] >= 0 {
			return places[j]
		}
	}
	return -1
}

// label is what the fitting is called in texts.
func (f Fitted) label() string {
	if f.fitting.Name != "" {
		return f.fitting.Name
	}
	return f.fitting.Kind.String()
}

// inside checks that a footprint stays in its area.
func (b *builder) inside(index int, r, area units.Rect, on string) {
	size, room, n := r.Size(), area.Size(), b.notation()
	switch {
	case size.W > room.W:
		b.bad.Long(fittingPath(index)+".width", TooWide, n, size.W, room.W, "on "+on)
	case r.Min.X < area.Min.X:
		b.bad.Long(fittingPath(index)+".place.offset.x", OffPanel, n, area.Min.X-r.Min.X, 0, "beyond the left edge of "+on)
	case r.Max.X > area.Max.X:
		b.bad.Long(fittingPath(index)+".place.offset.x", OffPanel, n, r.Max.X-area.Max.X, 0, "beyond the right edge of "+on)
	}
	switch {
	case size.H > room.H:
		b.bad.Long(fittingPath(index)+".height", TooTall, n, size.H, room.H, "on "+on)
	case r.Min.Y < area.Min.Y:
		b.bad.Long(fittingPath(index)+".place.offset.y", OffPanel, n, area.Min.Y-r.Min.Y, 0, "beyond the head edge of "+on)
	case r.Max.Y > area.Max.Y:
		b.bad.Long(fittingPath(index)+".place.offset.y", OffPanel, n, r.Max.Y-area.Max.Y, 0, "beyond the tail edge of "+on)
	}
}

// apart checks that a fitting does not overlap an earlier one, unless it stands
// on it.
func (b *builder) apart(index int, f *Fitted, other int) {
	o := &b.plan.fitted[other]
	if o.panel != f.panel || o.fitting.Outside != f.fitting.Outside {
		return
	}
	for base := f.base; base >= 0; base = b.plan.fitted[base].base {
		if base == other {
			return
		}
	}
	if shared := o.rect.Intersect(f.rect); !shared.Empty() {
		n := b.notation()
		s := shared.Size()
		b.bad.Add(check.Violation{
			Path: fittingPath(index) + ".place", Code: Overlaps, Fault: check.Impossible,
			Got:  "an overlap of " + n.Text(s.W) + " x " + n.Text(s.H) + " with " + o.label(),
			Want: "a place beside it, or StandsOn",
			By:   min(s.W, s.H),
		})
	}
}
