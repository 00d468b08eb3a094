package propose

import (
	"slices"
	"strconv"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/folio/closing"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// An option is one way to hold a thing, tried and measured.
type option struct {
	thing  int
	way    Holder
	turned bool
	pooled bool // all copies in one fitting
	number int  // how many fittings
	each   int  // how many copies in each
	box    box
	cards  units.Area // what the pieces of one take
}

// content is what one copy is, as it lies.
func (s *searcher) content(o *option) pocket.Content {
	c := s.request.Things[o.thing].Content
	if o.turned {
		c = c.Turned()
	}
	return c
}

// fittingOf returns the fitting of an option on a board. Strips open to the spine.
func (s *searcher) fittingOf(o *option, on *leaf) folio.Fitting {
	c := s.content(o)
	f := folio.Fitting{Panel: on.role, Stock: s.stock}
	switch o.way {
	case Corners:
		f.Kind = folio.Folded{Kind: pocket.Corners{Content: c}}
	case Frame:
		f.Kind = folio.Frame{Picture: c}
	case Mat:
		f.Kind = folio.Mat{Picture: c}
	case Slip:
		f.Kind = folio.Folded{Kind: pocket.Slip{Content: c, Count: o.each}}
	case Gusset:
		f.Kind = folio.Folded{Kind: pocket.Gusset{Content: c, Count: o.each}}
	case GussetRun:
		f.Kind = folio.Folded{Kind: pocket.GussetRun{Content: c, Pockets: o.each}}
	case Accordion:
		f.Kind = folio.Folded{Kind: pocket.FoldedAccordion{Content: c, Panels: o.each}}
	case FoldedFlap:
		f.Kind = folio.Folded{Kind: pocket.FoldedStrip{Content: c, Count: o.each, OwnSpine: true, OpensRight: on.toSpine() > 0}}
	}
	return f
}

// options tries every way to hold a thing, and notes why what is left out is.
func (s *searcher) options(thing int) {
	t := &s.request.Things[thing]
	n := max(t.Count, 1)
	for w := Holder(0); w < ways; w++ {
		if cause, ok := s.unwanted(t, w); ok {
			s.out = append(s.out, RuledOut{Thing: thing, Way: w, Why: Reason{Cause: cause, Thing: thing, Way: w, Count: n, Name: t.Content.Name}})
			continue
		}
		had, why := false, Reason{}
		for _, pooled := range [...]bool{false, true} {
			if cause, ok := unkept(t, w, pooled, n); !ok {
				if cause != NoCause && why.Cause == NoCause {
					why = Reason{Cause: cause, Thing: thing, Way: w, Count: n, Name: t.Content.Name}
				}
				continue
			}
			for _, turned := range [...]bool{false, true} {
				if turned && (t.Upright || t.Content.Size.W == t.Content.Size.H) {
					continue
				}
				o := option{thing: thing, way: w, turned: turned, pooled: pooled, number: n, each: 1}
				if pooled {
					o.number, o.each = 1, n
				}
				if r, ok := s.try(&o); !ok {
					why = r
					continue
				}
				had = true
				if s.plainerTakes(&o) {
					s.spare[thing] = append(s.spare[thing], o)
				} else {
					s.all[thing] = append(s.all[thing], o)
				}
			}
		}
		if !had {
			s.out = append(s.out, RuledOut{Thing: thing, Way: w, Why: why})
		}
	}
}

// plainerTakes reports whether the same copies, turned alike, go into a pocket that is
// less work: gussets are for what a slip pocket does not take, and not made to save a
// graduation or two of the cover.
func (s *searcher) plainerTakes(o *option) bool {
	return o.way == Gusset && slices.ContainsFunc(s.all[o.thing], func(p option) bool {
		return p.way == Slip && p.pooled == o.pooled && p.turned == o.turned
	})
}

// takeSpare lets the ways that a plainer one made needless be tried too, and reports
// whether there are any.
func (s *searcher) takeSpare() bool {
	any := false
	for i, list := range s.spare {
		s.all[i], s.spare[i], any = append(s.all[i], list...), nil, any || len(list) > 0
	}
	return any
}

// unwanted says which wish a way to hold a thing goes against, and whether one.
func (s *searcher) unwanted(t *Thing, w Holder) (Cause, bool) {
	switch {
	case slices.Contains(s.request.Without, w):
		return Unwanted, true
	case w == Mat && !t.Sticks:
		return WouldStick, true
	case t.Sight == InView && !w.InView():
		return WouldHide, true
	case t.Sight == TuckedAway && w.InView():
		return WouldShow, true
	}
	return NoCause, false
}

// unkept reports whether so many copies may be kept so, and which wish that goes
// against: none where it is no way to keep them.
func unkept(t *Thing, w Holder, pooled bool, n int) (Cause, bool) {
	row := w == GussetRun || w == Accordion
	switch {
	case n == 1 && (row || pooled):
		if row {
			return OneIsNoRow, false
		}
		return NoCause, false
	case row && !pooled, w.InView() && pooled:
		return NoCause, false
	case n > 1 && t.Keeping == Together && !pooled:
		return WouldPart, false
	case t.Keeping == Apart && pooled && !row:
		return WouldPool, false
	}
	return NoCause, true
}

// try works one fitting out on a cover that is larger than any, and measures it.
func (s *searcher) try(o *option) (Reason, bool) {
	spec := s.bare
	spec.Cover = units.Size{W: s.ample(), H: s.ample()}
	s.deepen(&spec, s.ample(), s.roomy)
	spec.Fittings = append(spec.Fittings, s.fittingOf(o, &s.leaves[s.trial]))
	why := Reason{Thing: o.thing, Way: o.way, Count: o.each, Name: s.request.Things[o.thing].Content.Name}
	p, err := s.build(spec)
	if err != nil {
		why.Cause, why.Detail = CannotBe, first(err)
		return why, false
	}
	if w, ok := unwise(p); ok {
		why.Cause, why.Detail = Unwise, w.Text
		for f := range p.Fittings() { // the last is the one tried, which the reason names
			if f.Index() == len(spec.Fittings)-1 {
				why.Detail = strings.TrimPrefix(w.Text, f.Label()+": ")
			}
		}
		return why, false
	}
	t, _ := p.TightestOf(closing.BetweenCovers, true) // that a case does not shut was said
	for f := range p.Fittings() {
		if f.Index() < len(s.bare.Fittings) {
			continue
		}
		size := f.Rect().Size()
		o.box = box{w: size.W, h: size.H, count: o.number, height: t.Stack().Length()}
		for _, spot := range f.Spots() {
			_, mouth := spot.Mouth()
			o.box.mouth = o.box.mouth || mouth
		}
		for _, piece := range f.Pieces() {
			if piece.Stock() == s.stock {
				o.cards = o.cards.Plus(piece.Size().Area().Times(int64(piece.Quantity())))
			}
		}
	}
	c := s.content(o)
	o.box.bulk, _ = c.Thickness.Times(int64(o.each))
	return why, true
}

// nameOf tells a fitting apart: what it is for, which of several, and where two
// things have one name, which thing.
func (s *searcher) nameOf(o *option, n int) string {
	name := fittingName(o, s.content(o), n)
	for i := range s.request.Things {
		if i != o.thing && s.request.Things[i].Content.Name == s.request.Things[o.thing].Content.Name {
			return name + " (" + strconv.Itoa(o.thing+1) + ")"
		}
	}
	return name
}

// fittingName tells a fitting apart: its way, what for, and which of several.
func fittingName(o *option, c pocket.Content, n int) string {
	what := c.Name
	if what == "" {
		what = "content"
	}
	name := o.way.String()
	if o.number > 1 {
		name += " " + strconv.Itoa(n)
	}
	return name + " for the " + what
}
