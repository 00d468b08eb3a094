package folio

import (
	"iter"

	"boardwrap.example/folio/boards"
	"boardwrap.example/internal/quote"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

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

// ground returns what others stand on, where they lie.
func (f *Fitted) ground() units.Rect {
	if f.carrier.Empty() {
		return f.rect
	}
	return f.carrier
}

func (f *Fitted) folded() bool { return f.design.Kind() != nil }

// Layers walks what the fitting adds to the height of the open folio, part by
// part.
func (f Fitted) Layers() iter.Seq[Layer] { return walk(f.layers) }

// Spots walks where contents go, each with its number in the fitting.
func (f Fitted) Spots() iter.Seq2[int, Spot] { return walk2(f.spots) }

// Loads walks what the fitting weighs besides its pieces.
func (f Fitted) Loads() iter.Seq[Load] { return walk(f.loads) }

// Surfaces walks where other fittings may stand, what lies higher after what
// it lies on.
func (f Fitted) Surfaces() iter.Seq[Surface] { return walk(f.surfaces) }

// Placed walks where the pieces lie on the row, each copy by itself, and of
// folded pieces each panel.
func (f Fitted) Placed() iter.Seq[Placed] {
	return func(yield func(Placed) bool) {
		f.placed(yield)
	}
}

// Pieces walks the pieces of the fitting, each with its place in [Plan.Pieces].
func (f Fitted) Pieces() iter.Seq2[int, Piece] {
	return func(yield func(int, Piece) bool) {
		for i, p := range f.pieces() {
			if !yield(int(f.first)+i, p) {
				return
			}
		}
	}
}

// pieces returns the pieces of the fitting.
func (f *Fitted) pieces() []Piece {
	if f.cut == 0 {
		return nil
	}
	return f.plan.pieces[f.first : f.first+f.cut]
}

// folds returns a panel of what is folded.
//
//go:noinline
func (f *Fitted) folds(i int) (on pocket.Panel) {
	for n, p := range f.design.Panels() {
		if n == i {
			on = p
		}
	}
	return on
}

// called returns what a surface is called, with its place among several of one name.
//
//go:noinline
func (f *Fitted) called(surface int) string {
	nth, alike := 0, 0
	for i := range f.surfaces {
		if f.surfaces[i].name == f.surfaces[surface].name {
			if alike++; i <= surface {
				nth = alike
			}
		}
	}
	if alike == 1 {
		nth = 0
	}
	return counted(uint16(nth), f.surfaces[surface].name)
}

// seen returns a rectangle on the row as one sees it who looks at the fitting
// itself, from the corner of its footprint: at the outside with the folio turned
// over.
func (f *Fitted) seen(r units.Rect) units.Rect {
	r = r.Moved(units.Point{X: -f.rect.Min.X, Y: -f.rect.Min.Y})
	if f.outside {
		r = overIn(r, f.rect.Size().W)
	}
	return r
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

//go:noinline
func fittingPath(index int) string { return check.Index("fittings", index) }
