package folio

import (
	"boardwrap.example/internal/quote"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// WarnTabs warns of a guard on a narrow spine.
const WarnTabs check.Code = "tabs-over-hinge" // a guard's tabs reach over hinges, down into which they are rubbed

// Reach returns the part of the row that nothing else may lie on: the footprint, and
// of a guard that stands on a spine its tabs on either side of that too, which may lie on
// the boards beside the spine.
func (f Fitted) Reach() units.Rect { return f.reach(f.rect) }

// reach returns what it reaches over with its footprint at a place.
//
//go:noinline
func (f *Fitted) reach(r units.Rect) units.Rect {
	tab, folds := f.design.Tabs()
	far := max(0, folds+tab-r.Size().W)
	if f.outside {
		tab, far = far, tab
	}
	r.Min.X -= tab
	r.Max.X += far
	return r
}

// tabbed reports whether it has tabs that may lie on other boards than its own.
//
//go:noinline
func tabbed(f *Fitted) bool {
	tab, _ := f.design.Tabs()
	return tab > 0
}

// tabs checks that the tabs of a guard stay on the cover, or on what it stands on, and
// warns where they reach over a hinge.
func (b *builder) tabs(f *fitter, out *Fitted) {
	tab, _ := out.design.Tabs()
	p, r := b.plan, out.reach(out.rect)
	// beyond is how far tabs reach out of a stretch of the row.
	beyond := func(from, to units.Length) units.Length { return max(from-r.Min.X, r.Max.X-to) }
	first, last := p.boards[0].role, p.boards[len(p.boards)-1].role
	from, to, on := p.panelArea(first, out.outside).Min.X, p.panelArea(last, out.outside).Max.X, "the cover"
	if out.base >= 0 {
		under := &p.fitted[out.base]
		s := under.surfaces[out.on].rect
		from, to, on = s.Min.X, s.Max.X, quote.Clip(under.Label(), check.MaxText)
	}
	if by := beyond(from, to); by > 0 {
		b.shorter(f, OffPanel, tab, tab-by, "reaches beyond "+on)
		return
	}
	if tab == 0 || out.base >= 0 {
		return
	}
	board := &p.boards[p.index(out.panel)]
	by := beyond(board.rect.Min.X, board.rect.Max.X)
	if b.hingeFull(f, out, r) || b.roundEdges(f, out, r) || by <= 0 {
		return
	}
	w := check.Warning{Path: f.at(tabField), Code: WarnTabs, Got: tab, Want: f.ruler().Down(tab - by)}
	instead := "a wider one"
	if w.Want >= units.Shortest {
		instead = "tabs of " + b.notation().Text(w.Want) + ", which end on it"
	} else {
		w.Want = 0
	}
	over := "rub them down into those as they are stuck down"
	if out.outside {
		over = "there they bend and wear with the covering"
	}
	w.Text = f.label + " has tabs that reach over the hinges of the " + board.name + ": " + over + ", or take " + instead
	b.warn(w)
}

// hingeFull refuses tabs that are thicker than what a hinge leaves between the board
// beside it and the spine board that stands there, unless they end further from it.
func (b *builder) hingeFull(f *fitter, out *Fitted, r units.Rect) bool {
	p := b.plan
	s, ok := p.hinged()
	fold := p.foldAt(out.panel)
	if !ok || fold < 0 || out.outside == p.valley(fold) {
		return false
	}
	tab, _ := out.design.Tabs()
	board, base := &p.boards[p.index(out.panel)].rect, p.face(!out.outside)
	left, right := s.joints(fold)
	most, room := tab, units.Longest
	for side, lacks := range [...]units.Length{base - left.in(units.Down) - (r.Min.X - board.Min.X), base - right.in(units.Down) - (board.Max.X - r.Max.X)} {
		if beside := s.outOf(fold, side, units.Down) - base; lacks > 0 && beside < f.stock.Caliper+f.film() {
			most, room = min(most, tab-lacks), min(room, max(beside, 0))
		}
	}
	if most == tab {
		return false
	}
	b.shorter(f, GapNarrow, tab, most, "is thicker than the "+b.notation().Bound(room, units.Down)+" that the hinge leaves for it")
	return true
}

// roundEdges refuses tabs over a hinge at which outsides come together, and which is too
// narrow to be rubbed down into: as that folds they would have to go round the boards' edges.
func (b *builder) roundEdges(f *fitter, out *Fitted, r units.Rect) bool {
	p := b.plan
	tab, _ := out.design.Tabs()
	var by units.Length
	for i := range p.gaps {
		gap := &p.gaps[i].rect
		switch {
		case out.outside || !p.strains(i):
		case gap.Min.X >= out.rect.Max.X:
			by = max(by, r.Max.X-gap.Min.X)
		default:
			by = max(by, gap.Max.X-r.Min.X)
		}
	}
	if by > 0 {
		b.shorter(f, OffPanel, tab, tab-by, "holds the boards open whose outsides come together")
	}
	return by > 0
}

const tabField = ".kind.kind.tab"

// tabsOver says of a guard, of which only the tabs lie over another fitting, which tabs
// would not, and reports whether it is one.
func (b *builder) tabsOver(f *fitter, out, other *Fitted, over units.Rect) bool {
	tab, _ := out.design.Tabs()
	if tab == 0 || out.rect.Overlaps(over) {
		return false
	}
	r := out.reach(out.rect)
	by := r.Max.X - over.Min.X
	if over.Max.X <= out.rect.Min.X {
		by = over.Max.X - r.Min.X
	}
	b.shorter(f, Overlaps, tab, tab-by, "lies over "+quote.Clip(other.Label(), check.MaxText))
	return true
}

// shorter says which tabs of a guard would do, or that none do where it is.
//
//go:noinline
func (b *builder) shorter(f *fitter, code check.Code, tab, most units.Length, or string) {
	if most >= units.Shortest {
		b.bad.Long(f.at(tabField), code, b.notation(), tab, most, "or it "+or)
	} else {
		b.bad.Impossible(f.at(tabField), code, b.notation().Text(tab)+", so that it "+or, "another place")
	}
}
