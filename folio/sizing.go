package folio

import (
	"errors"
	"slices"

	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/word"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A footing is what is known of a fitting's size apart from its place.
type footing struct {
	state   footingState
	size    units.Size // of the footprint
	carrier units.Size // of what others stand on
	part    string     // what that is called, where it is not all of it
	design  pocket.Design
}

// A footingState says how far a fitting's size has been worked out.
type footingState uint8

const (
	footingOpen  footingState = iota
	footingFound              // worked out
	footingLarge              // likewise, and larger than what it lies on; that is said where it is placed
	footingWrong              // it cannot be, which is said where it is worked out for good
	footingRound              // it follows from itself; that is said
)

// relate makes room for what sizes by relation and even places need, where there
// are any, and finds the sizes that follow from themselves. What shares its ground
// evenly is worked out at once, as each needs the sizes of all.
func (b *builder) relate() {
	given := b.spec.Fittings
	even := func(f *Fitting) bool { return f.Place.Across == place.Even || f.Place.Along == place.Even }
	none := true
	for i := range given {
		f := &given[i]
		none = none && !even(f) && f.Size.Empty()
	}
	if b.fixed = none; none {
		return
	}
	b.footings = make([]footing, len(given))
	b.circles()
	for i := range given {
		if even(&given[i]) {
			b.footingOf(i)
		}
	}
}

// follows returns the fittings from which the size of one follows by relation,
// −1 for none.
func (b *builder) follows(i int) (all [3]int) {
	f := &b.spec.Fittings[i]
	all = [3]int{-1, -1, -1}
	for k, r := range [...]*place.Relation{&f.Size.W, &f.Size.H} {
		switch r.Of {
		case place.OfFitting:
			all[k] = b.named(r.Fitting)
		case place.OfGround:
			all[2] = b.under(i)
		}
	}
	return all
}

// circles finds the sizes that follow from each other in a circle, and says of
// each circle once what it is. What follows from one cannot be worked out either.
func (b *builder) circles() {
	var seen, on [MaxFittings]bool
	var path [MaxFittings]int // no longer than there are fittings
	var visit func(i, depth int)
	visit = func(i, depth int) {
		seen[i], on[i], path[depth] = true, true, i
		for _, j := range b.follows(i) {
			switch {
			case j < 0:
				continue
			case on[j]:
				b.circle(path[:depth+1], j)
			case !seen[j]:
				visit(j, depth+1)
			}
		}
		on[i] = false
	}
	for i := range b.spec.Fittings {
		if !seen[i] {
			visit(i, 0)
		}
	}
}

// circle says that a path of fittings comes back to one of them. It is told from
// the first of them in the Spec.
func (b *builder) circle(path []int, back int) {
	path = path[slices.Index(path, back):]
	first := slices.Index(path, slices.Min(path))
	text := ""
	for k := range path {
		i := path[(first+k)%len(path)]
		b.footings[i].state = footingRound
		text += b.spec.label(i) + ", which follows from "
	}
	i, next := path[first], path[(first+1)%len(path)]
	side := ".size.w.of"
	if all := b.follows(i); all[0] != next && b.spec.Fittings[i].Size.W.Of != place.OfGround {
		side = ".size.h.of"
	}
	label := b.spec.label(i)
	b.bad.Add(check.Violation{Path: fittingPath(i) + side, Of: label, Code: Circular, Nature: check.Malformed,
		Got: text + label, Want: "panel, or one of them with a size of its own"})
}

// wants works out the sides that a fitting has by relation, and reports whether
// there was nothing wrong.
func (b *builder) wants(i int) (w wanted, ok bool) {
	s := &b.spec.Fittings[i].Size
	if b.fixed || s.Empty() {
		return w, true
	}
	before := b.bad.Len()
	path := fittingPath(i) + ".size"
	if !s.Picture.Known() {
		b.bad.Malformed(path+".picture", check.Unknown, count(int(s.Picture)), word.OneOf[place.PictureRule]())
	}
	if s.W == (place.Relation{}) && s.H == (place.Relation{}) && s.Picture.Known() && s.Picture != place.PictureAny {
		b.bad.Malformed(path+".picture", check.Conflict, s.Picture.String()+" and no relation", "nothing, or a relation for width or height")
	}
	b.soundAt(path+".proportions", s.Proportions.Check())
	if s.Proportions != (place.Proportions{}) {
		switch {
		case s.Picture != place.PictureAny:
			b.bad.Malformed(path+".picture", check.Conflict, s.Picture.String()+" and proportions", "any size, or no proportions")
		case s.W == (place.Relation{}) && s.H == (place.Relation{}):
			b.bad.Malformed(path+".w.of", check.Missing, "proportions and no relation", "panel, ground or fitting")
		}
	}
	b.soundAt(path+".w", s.W.Check(b.notation()))
	b.soundAt(path+".h", s.H.Check(b.notation()))
	if b.bad.Len() > before || len(b.plan.boards) == 0 || b.footings == nil {
		return w, false
	}
	if name := b.spec.Fittings[i].StandsOn; name != "" && b.under(i) < 0 {
		b.notUnder(i)
		return w, false
	}
	w.picture, w.proportions = s.Picture, s.Proportions
	ok = true
	if s.W.Of != place.OfNothing {
		w.w = b.by(i, &s.W, path+".w", "width for the ", false)
		ok = w.w != nil
	}
	if s.H.Of != place.OfNothing {
		w.h = b.by(i, &s.H, path+".h", "height for the ", true)
		ok = ok && w.h != nil
	}
	return w, ok
}

// by works one relation out; nil where that cannot be.
func (b *builder) by(i int, r *place.Relation, path, label string, tall bool) *units.Working {
	var at *footing
	what := ""
	switch j := b.under(i); {
	case r.Of == place.OfFitting:
		if j = b.named(r.Fitting); j < 0 {
			b.bad.Malformed(path+".fitting", check.Unknown, check.Quote(r.Fitting), "the name of one of the fittings")
			return nil
		}
		at, what = b.footingOf(j), b.spec.label(j)
	case r.Of == place.OfGround && j >= 0:
		at, what = b.footingOf(j), b.spec.label(j)
	}
	var whole units.Size
	var clearance units.Length
	switch {
	case at == nil:
		role, outside, ok := b.seatOf(i)
		if !ok {
			return nil // said of the one that stands on nothing, or nowhere
		}
		whole, clearance, what = b.plan.panelArea(role, outside).Size(), b.spec.Clearance, "panel"
	case at.state != footingFound:
		return nil // what is wrong with it is said there
	case r.Of == place.OfGround:
		whole, what = at.carrier, at.part+what
	default:
		whole = at.size
	}
	length := whole.W
	if tall != r.Turned {
		length = whole.H
	}
	return b.shared(i, r, path, label+b.spec.label(i), tall, r.Terms(what, length, clearance))
}

// shared adds the terms of a relation up and shares the sum; nil where nothing is
// left of it, or too much.
func (b *builder) shared(i int, r *place.Relation, path, label string, tall bool, terms []units.Term) *units.Working {
	ruler, n, shares := b.spec.Rulers.Fitting, b.notation(), max(r.Shares, 1)
	w := b.ledger.Share(label, shares, ruler, r.Direction(), terms...)
	l := w.Length()
	if check.InBounds(l) {
		return b.note(w)
	}
	if l > units.Longest {
		b.bad.Impossible(path+".more", check.TooLarge, n.Text(l)+" in all", "at most "+n.Bound(units.Longest, units.Down))
		return nil
	}
	got := "nothing of the " + terms[0].Label // what lies round it takes all of it, or more
	if terms[0].Length > 0 {
		got = n.Text(terms[0].Length) + " of " + terms[0].Label
	}
	least := ruler.Up(ruler.Up(units.Shortest) + borderOf(&b.spec.Fittings[i], &b.spec.Rulers))
	b.lessOff(i, r, &w, tall, axisTextOf(tall).code, least, terms[0].Length+times(least, shares)-w.Total(), got, "or nothing is left for the "+b.spec.label(i))
	return nil
}

// borderOf is what a kind takes of a side by relation beside its picture, 0 if that
// follows from something wrong.
func borderOf(f *Fitting, r *rule.Rulers) units.Length {
	if kind, ok := f.Kind.(bordered); ok {
		if border := kind.border(f.Size.Picture, r); check.InBounds(border) {
			return border
		}
	}
	return 0
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
	}
	want, ok := b.wants(i)
	out := b.fitter
	out.begin(b, i)
	out.stock, out.want, out.border = paper, want, borderOf(f, &b.spec.Rulers)
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

// footingOf returns what is known of a fitting's size; where it has not been
// worked out yet, it is on trial: nothing of that stays in the plan.
func (b *builder) footingOf(i int) *footing {
	at := &b.footings[i]
	if at.state == footingOpen {
		bad := b.bad
		b.trial(func() { b.fitOne(i) })
		b.bad = bad
	}
	return at
}

// trial does something of which nothing stays in the plan.
func (b *builder) trial(do func()) {
	p := b.plan
	pieces, workings, warnings, small := len(p.pieces), len(p.workings), len(p.warnings), b.small
	do()
	b.small = small
	p.pieces, p.workings, p.warnings = p.pieces[:pieces], p.workings[:workings], p.warnings[:warnings]
}

// A filler is a kind whose size can be given by relation.
type filler interface {
	// filling returns the kind with the sizes that make its footprint the one
	// that is wanted, and reports whether there are any. It adds violations as
	// fit does.
	filling(f *fitter) (Kind, bool)
}

// filled gives the kind the sizes that it has by relation, and reports whether
// there was nothing wrong.
func (f *fitter) filled() bool {
	if !f.want.any() {
		return true
	}
	kind, ok := f.given.Kind.(filler)
	if !ok {
		f.b.bad.Malformed(f.at(".size"), check.Conflict, "a relation for a "+f.given.Kind.String(), "the sizes of the kind")
		return false
	}
	given := *f.given
	given.Kind, ok = kind.filling(f)
	f.given = &given
	return ok
}

// formOf says what cannot be read of a kind that has no size because something is
// wrong with its relation, or with the case.
func (b *builder) formOf(f *fitter) {
	free := exactly(&b.ledger, "any size", b.notation(), units.T("", units.Metre))
	size := &f.given.Size
	both := size.Proportions != (place.Proportions{})
	if size.W != (place.Relation{}) || both {
		f.want.w = &free
	}
	if size.H != (place.Relation{}) || both {
		f.want.h = &free
	}
	f.want.picture = size.Picture
	bad := b.bad
	b.trial(func() { _ = f.filled() && f.given.Kind.fit(f) })
	found := b.bad
	b.bad = bad
	all, ok := errors.AsType[*check.Error](found.Err())
	if !ok {
		return
	}
	n := 0
	for v := range all.All() {
		if n++; n > bad.Len() && v.Nature == check.Malformed {
			b.bad.Add(v)
		}
	}
}

// foot keeps what is known of a fitting's size now; nil is a fitting that cannot
// be.
func (b *builder) foot(i int, f *fitter) {
	if b.footings == nil || b.footings[i].state == footingRound {
		return
	}
	if f == nil {
		b.footings[i].state = footingWrong
		return
	}
	b.footings[i] = footing{state: footingFound, size: f.footprint, carrier: f.footprint, design: f.design}
	if room, ok := b.roomOf(i); ok && !f.footprint.FitsIn(room) {
		b.footings[i].state = footingLarge
	}
	if !f.carrier.Empty() {
		b.footings[i].carrier = f.carrier.Size()
		if len(f.surfaces) == 1 {
			b.footings[i].part = f.surfaces[0].name + " of the "
		}
	}
}
