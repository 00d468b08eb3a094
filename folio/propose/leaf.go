package propose

import (
	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/units"
)

// A leaf is a board of the row that lies when the folio is shut: what carries
// fittings.
type leaf struct {
	role        boards.Role
	rule        boards.WidthRule
	shares      int          // how many boards share the width of the cover
	width       units.Length // of a board that has its own
	gap         units.Length // between boards that share
	inset       units.Size   // of the board, beyond what may be covered of it, at the least
	more        units.Size   // by how much that is more on some covers
	left, right bool         // whether the row goes on there
}

// leavesOf lists the boards of a row that lie, left to right.
func leavesOf(spec folio.Spec) []leaf {
	row := spec.Row.Boards
	if len(row) == 0 {
		row = spec.Form.Row().Boards
	}
	shares := 0
	var all []leaf
	for i, b := range row {
		if b.Role.Spine() {
			continue
		}
		l := leaf{role: b.Role, rule: b.Rule, left: i > 0, right: i+1 < len(row)}
		switch {
		case b.Rule == boards.WidthFixed, b.Rule == boards.WidthDefault && b.Width != 0:
			l.rule, l.width = boards.WidthFixed, b.Width
		case b.Rule == boards.WidthHalf && spec.FlapWidth != 0:
			l.rule, l.width = boards.WidthFixed, spec.FlapWidth
		case b.Rule == boards.WidthHalf:
			l.shares = 2
		case b.Rule == boards.WidthShared:
			shares++
			l.gap = max(spec.DoorGap, 0)
		default:
			l.rule, l.shares = boards.WidthCover, 1
		}
		all = append(all, l)
	}
	for i := range all {
		if all[i].rule == boards.WidthShared {
			all[i].shares = shares
		}
	}
	return all
}

// board returns how wide the board is with a cover of a width.
func (l *leaf) board(cover units.Length, r units.Ruler) units.Length {
	if l.rule == boards.WidthFixed {
		return r.Up(l.width)
	}
	w, _ := (cover - l.gap).Scale(1, int64(l.shares), units.Down)
	return r.Down(w)
}

// coverFor returns the narrowest cover with which the board is so wide, 0 where any
// does, and whether there is one.
func (l *leaf) coverFor(wide units.Length, r units.Ruler) (units.Length, bool) {
	if l.rule == boards.WidthFixed {
		return 0, wide <= r.Up(l.width)
	}
	w, ok := r.Up(wide).Times(int64(l.shares))
	return r.Up(w + l.gap), ok
}

// like reports whether two boards are always as wide.
func (l *leaf) like(o *leaf) bool {
	return l.rule == o.rule && l.shares == o.shares && l.width == o.width && l.inset == o.inset && l.more == o.more
}

// toSpine returns which way the back of the folio lies from a board at the end
// of the row: 1 to the right, −1 to the left, 0 where the row goes on both ways.
func (l *leaf) toSpine() int {
	switch {
	case l.left == l.right:
		return 0
	case l.right:
		return 1
	}
	return -1
}

// around returns the smallest cover with which one of the boards takes what is so
// wide and high.
func (s *searcher) around(w, h units.Length) units.Size {
	least := units.Longest
	for i := range s.leaves {
		if cover, ok := s.aroundOn(i, w); ok {
			least = min(least, cover)
		}
	}
	return units.Size{W: least, H: s.ruler.Up(h + s.extra)}
}

// aroundOn returns the narrowest cover with which a board takes what is so wide.
func (s *searcher) aroundOn(i int, w units.Length) (units.Length, bool) {
	l := &s.leaves[i]
	cover, ok := l.coverFor(w+l.inset.W+2*s.margin, s.ruler)
	return max(cover, s.narrowest), ok
}

// surelyOn returns the narrowest cover with which a board takes what is so wide
// whatever the spine.
func (s *searcher) surelyOn(i int, w units.Length) (units.Length, bool) {
	return s.aroundOn(i, w+s.leaves[i].more.W)
}

// panels are what may be covered of each board, at the most.
func (s *searcher) panels(cover units.Size) []units.Size {
	out := make([]units.Size, len(s.leaves))
	for i := range s.leaves {
		l := &s.leaves[i]
		out[i] = units.Size{W: l.board(cover.W, s.ruler), H: cover.H}.Plus(-l.inset.W, -l.inset.H)
	}
	return out
}

// largest returns the most that lies on a board within the limits, or on the roomy
// one.
func (s *searcher) largest() units.Size {
	var most units.Size
	for _, p := range s.panels(s.mostCover()) {
		most = most.Max(p.Plus(-2*s.margin, -2*s.margin))
	}
	return most
}

// deepen sets what leaves the room between insides, and under what lies over an
// outside.
func (s *searcher) deepen(spec *folio.Spec, spine, under units.Length) {
	if s.soft {
		spec.Spine.Contents = spine
	} else {
		spec.Spine.Width = spine
	}
	if s.layered {
		spec.Closing.UnderFlap = max(under, s.full.Closing.UnderFlap)
	}
}

// widen is deepen with the least room there may be under what lies over an outside.
func (s *searcher) widen(spec *folio.Spec, spine units.Length) {
	s.deepen(spec, spine, s.full.Closing.UnderFlap)
}

// underFor returns the least room under what lies over an outside for what is so thick.
func (s *searcher) underFor(stack units.Length) units.Length {
	return s.ruler.Up(max(0, stack+s.ease+s.slacker))
}

// thickOf returns how thick the closed folio is with a spine and so much room under
// what lies over an outside.
func (s *searcher) thickOf(spine, under units.Length) units.Length {
	return s.thick + s.bySpine*spine + s.byUnder*max(under, s.full.Closing.UnderFlap)
}

// thinOf is thickOf with the least room there may be.
func (s *searcher) thinOf(spine units.Length) units.Length {
	return s.thickOf(spine, s.full.Closing.UnderFlap)
}

// spineWithin returns the widest spine with which the closed folio is no thicker.
func (s *searcher) spineWithin(thick units.Length) units.Length {
	spine, _ := (thick - s.thinOf(0)).Scale(1, int64(s.bySpine), units.Down)
	return s.ruler.Down(spine)
}
