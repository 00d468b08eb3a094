package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/quote"
	"boardwrap.example/pocket"
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
		area = under.ground()
	}
	out.rect = f.given.Place.Within(area, f.footprint, f.ruler())
	if f.given.Place.Lined() && !b.lineUp(f, out, area, on, places) {
		return false
	}
	if out.base < 0 && !f.given.Place.Lined() {
		out.rect = b.settled(f.index, b.plan.index(role), out.rect, area)
	}
	inside := b.inside(f, out.rect, area, on)
	if !f.footprint.FitsIn(area.Size()) {
		return false // how it lies to others depends on what mends it
	}
	if inside && out.base >= 0 {
		inside = b.stands(f, out)
	}
	if inside {
		b.tabs(f, out)
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

// apart checks that a fitting overlaps no earlier one, unless it stands on it.
func (b *builder) apart(f *fitter, out *Fitted, area units.Rect) {
	want, mine := "", out.reach(out.rect)
	for j := range b.plan.fitted {
		o := &b.plan.fitted[j]
		over := o.reach(o.rect)
		shared := over.Intersect(mine)
		if shared.Empty() || !b.isBeside(out, j) {
			continue
		}
		if b.bad.Len() >= check.MaxViolations {
			b.bad.Add(check.Violation{}) // of many pairs most are counted only: nobody reads what would do
			continue
		}
		if b.tabsOver(f, out, o, over) {
			continue
		}
		if want == "" {
			want = b.beside(f, out, area)
		}
		n := b.notation()
		s := shared.Size()
		b.bad.Add(check.Violation{
			Path: f.at(".place"), Code: Overlaps, Nature: check.Impossible,
			Got:  "an overlap of " + n.Text(s.W) + " x " + n.Text(s.H) + " with " + quote.Clip(o.Label(), check.MaxText),
			Want: want, By: min(s.W, s.H),
		})
	}
}
