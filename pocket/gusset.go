package pocket

import (
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A GussetAt says which walls of a pocket have a gusset.
type GussetAt uint8

// Places of a gusset.
const (
	// SideGussets are two strips between front and back, one at each side.
	SideGussets GussetAt = iota
	// FootGusset is a gusset between front and back at the foot, from the
	// same sheet; the sides are glued.
	FootGusset
)

// A Gusset is a pocket with gussets, for contents that are thick. A gusset is
// two half panels with a fold between them that stands inwards; with half
// panels w it opens to 2w ([StandIn]).
type Gusset struct {
	Content  Content      // what it holds; none: the most that Place takes
	Count    int          // how many of it, one on another; 0 is 1
	Ease     Ease         // as for a Slip
	StandOut units.Length // as for a Slip; 0 leaves it to Depth
	Depth    Share        // as for a Slip; zero is 2/3
	At       GussetAt     // which walls open; the zero value is both sides
	// Opening is how far the pocket must open; 0 is what its contents are
	// thick and 1/8 in or 3 mm (common practice, no published source), or as far
	// as Half lets it.
	Opening units.Length
	// Half is the width of a half panel; 0 is half the opening, but at least
	// 1/4 in or 6 mm (common practice, no published source).
	Half units.Length
	// Tab is the depth of the glue tabs of side gussets, no more than a half
	// panel, or the width of the glued sides with a foot gusset; 0 is 3/8 in or
	// 10 mm (common practice, no published source), or a half panel where that is
	// less.
	Tab   units.Length
	Place units.Size // room at hand for the pocket and what stands out; zero takes what is needed
	Notch ThumbNotch // in the front's mouth
}

// Name returns "gusset pocket".
func (g Gusset) Name() string { return "gusset pocket" }

func (g Gusset) at(room units.Size, l *check.List) (Kind, [2]string) {
	fields := over(l, "place", &g.Place, room)
	return g, fields
}

func (g Gusset) holds() Content { return g.Content }

func (g *Gusset) held() *Content { return &g.Content }

func (g Gusset) filled(defaults) Gusset {
	g.Count, g.Depth = countOf(g.Count, g.Content), covers(g.Depth, g.StandOut)
	return g
}

// A fan is the opening of gussets with the defaults filled in.
type fan struct{ opening, half, tab units.Length }

// fan checks the fields that gussets share and works out how far they open.
// Where a leaf is glued to a half panel along glue beside the outer fold, that
// half panel is free by so much less: see [opensTo].
func (m *maker) fan(h hold, opening, half, tab, glue units.Length) fan {
	ok := m.allowance("opening", opening)
	ok = m.allowance("half", half) && ok
	ok = m.allowance("tab", tab) && ok
	if !ok {
		return fan{}
	}
	f := fan{opening, half, m.or(tab, 3*in/8, 10*mm)}
	least := m.or(0, in/4, 6*mm)
	switch {
	case f.opening != 0:
	case f.half != 0:
		f.opening = max(opensTo(f.half, glue), h.stack)
	case !h.given:
		f.opening = 2 * least
	default:
		f.opening = m.sum("opening", units.Up, units.T("contents", h.stack), units.T("play", m.or(0, in/8, 3*mm))).Length()
	}
	if f.opening < h.stack {
		m.Short("opening", check.TooSmall, m.n, f.opening, m.r.Up(h.stack), "for the contents")
	}
	need := halfFor(f.opening, glue)
	if f.half == 0 {
		f.half = max(least, m.sum("half panel", units.Up, units.T("least that opens so far", need)).Length())
	}
	if f.half < need {
		m.Short("half", check.TooSmall, m.n, f.half, m.r.Up(need), "to open to "+m.text(f.opening))
	}
	return f
}

// tabClear keeps the tabs of gussets clear of the contents: they are no deeper
// than a half panel.
func (m *maker) tabClear(f *fan, given units.Length) {
	if given == 0 {
		f.tab = min(f.tab, f.half)
	}
	m.atMost("tab", f.tab, f.half, ", which a half panel is wide, so that it stays clear of the contents")
}

// Design works the pocket out. With side gussets, clear width = leaf − 2 w,
// the room between the folds when the pocket lies flat.
func (g Gusset) Design(p Paper, r units.Ruler) (Design, error) { return g.designed(g, p, r) }

func (g Gusset) designed(own Kind, p Paper, r units.Ruler) (Design, error) {
	m := newLarge(own, p, r)
	m.ledger.Reserve(24)
	h := m.hold(g.Content, g.Count, g.Ease)
	depth := m.depth(g.Depth, g.StandOut)
	if g.At > FootGusset {
		m.Malformed("at", check.Unknown, itoa(int(g.At)), gussets.Want())
	}
	m.place(h, g.Place)
	if m.Len() > 0 {
		return m.finish()
	}
	f := m.fan(h, g.Opening, g.Half, g.Tab, 0)
	if g.At == SideGussets {
		m.tabClear(&f, g.Tab)
	}
	if m.Len() > 0 {
		return m.finish()
	}
	// The foot opens as far as the sides do. Up to two calipers one score
	// takes that.
	foot := f.half
	if g.At == SideGussets {
		foot = 0
		if f.opening > 2*m.d.paper.Caliper {
			foot = m.share("half of the foot", Share{1, 2}, units.Up, units.T("opening", f.opening)).Length()
		}
	}
	l := m.leaf(leafWish{hold: h, depth: depth, place: g.Place, sides: g.At == SideGussets, foot: foot, fan: f})
	if m.Len() > 0 {
		return m.finish()
	}
	w, tall, d := l.width, l.height, l.depth
	m.d.closed = units.Size{W: w, H: tall}
	m.d.half, m.d.opens = f.half, 2*f.half
	if foot > 0 {
		m.d.opens = min(m.d.opens, 2*foot)
	} else {
		m.d.opens = min(m.d.opens, f.opening)
	}
	m.expect(2, 6, 8)
	m.gussetSheet(g, l, f, foot)
	if g.At == SideGussets {
		m.sideGussets(l, f, foot)
	}
	m.hasPlace(l.at, l.clear, l.most, f.opening, h.count)
	m.fill(l.at, fullOf(h, f))
	m.warnGrip(g.Notch.none(), h.or(h.content.Size.H, l.most.H), d)
	return m.finish()
}

// gussetSheet makes back and front from one sheet, with the foot between them.
func (m *maker) gussetSheet(g Gusset, l leaf, f fan, foot units.Length) {
	w, tall, d := l.width, l.height, l.depth
	width := m.exact("leaf width", units.T("leaf", w))
	high := m.exact("sheet height", units.T("back", tall), units.N(2, "half of the foot", foot), units.T("front", d))
	draw := score.Draft{Lines: append(make([]score.Line, 0, 3), score.Line{Axis: score.Level, At: tall, Fold: score.Valley})}
	folds := append(make([]crease, 0, 6), crease{axis: score.Level, at: tall, moves: score.Tail})
	if foot > 0 {
		draw.Lines = append(draw.Lines,
			score.Line{Axis: score.Level, At: tall + foot, Fold: score.Mountain},
			score.Line{Axis: score.Level, At: tall + 2*foot, Fold: score.Valley})
		folds = append(folds,
			crease{axis: score.Level, at: tall + foot, moves: score.Tail},
			crease{axis: score.Level, at: tall + 2*foot, moves: score.Tail})
	}
	if g.At == FootGusset {
		// Each half panel is glued to the leaf that it lies on, so that neither
		// side is open at the foot: the first to the back, the second by the
		// front's own edge, whose rest meets the back.
		for _, x := range [...]units.Length{0, w - f.tab} {
			draw.Glue = append(draw.Glue,
				score.Glue{Area: rect(x, tall, f.tab, foot)}, score.Glue{Area: rect(x, tall+2*foot, f.tab, d)})
		}
	}
	m.notch(g.Notch, &draw, score.Tail, l.side, l.clear.W, d, 0)
	at := m.piece("back and front", 1, width, high, draw)
	p := &m.d.pieces[at]
	p.folds = folds
	back, front := rect(0, 0, w, tall), rect(0, tall-d, w, d)
	m.lay(back, 1)
	m.lay(front, 1)
	m.lay(rect(0, tall-foot, w, foot), 2)
	m.panel("back", at, 0, rect(0, 0, w, tall), back)
	last := m.panel("front", at, len(folds), rect(0, tall+2*foot, w, d), front)
	if g.At == SideGussets {
		last.lift = 5 - len(folds) // at the sides it lies on two tabs and two half panels
	}
}

func (g Gusset) seen(p panels, all []seen) []seen {
	all = p.sees(p.sees(all, "pocket front", "front", false), "back above the front", "back", false)
	if g.At == SideGussets { // the outer sides of the half panels
		all = p.sees(all, "gussets", "half panel", false)
	}
	return all
}

// sideGussets makes the two gussets at the sides. They end where the foot's
// fold stands up.
func (m *maker) sideGussets(l leaf, f fan, foot units.Length) {
	d := l.depth - foot
	strip := m.exact("gusset width", units.N(2, "half panel", f.half), units.N(2, "tab", f.tab))
	deep := m.exact("gusset height", units.T("depth", l.depth), units.N(-1, "half of the foot", foot))
	at := m.piece("side gusset", 2, strip, deep, score.Draft{
		Lines: []score.Line{
			{Axis: score.Upright, At: f.tab + f.half, Fold: score.Valley},
			{Axis: score.Upright, At: f.tab + 2*f.half, Fold: score.Mountain},
			{Axis: score.Upright, At: f.tab, Fold: score.Mountain},
		},
		Tabs: []score.Tab{{Edge: score.Left, Depth: f.tab}, {Edge: score.Right, Depth: f.tab}},
	})
	// The second half panel is turned over the first; then its tab over it,
	// and the other tab under the first.
	before := m.d.pieces[at-1].folds // with room for these
	m.d.pieces[at].folds = append(before,
		crease{axis: score.Upright, at: f.tab + f.half, moves: score.Right},
		crease{axis: score.Upright, at: f.tab + 2*f.half, moves: score.Right},
		crease{axis: score.Upright, at: f.tab, moves: score.Left, way: work.Away},
	)[len(before):]
	m.layGussets(l.width, l.height-l.depth, d, f, 2)
	for side := range 2 {
		for i := range 2 {
			closed := rect(0, l.height-l.depth, f.half, d)
			if side == 1 {
				closed = mirrored(closed, l.width)
			}
			half := m.panel("half panel", at, 1+i, rect(f.tab+times(i, f.half), 0, f.half, d), closed)
			half.copy, half.lift = side, 1 // on the back
		}
	}
}

// fullOf returns how thick the contents of a full gusset pocket are.
func fullOf(h hold, f fan) units.Length {
	if h.given {
		return h.stack
	}
	return f.opening
}

// layGussets lays side gussets into the closed stack: so many half panels at
// either side, and two tabs.
func (m *maker) layGussets(w, y, h units.Length, f fan, halves int) {
	m.lay(rect(0, y, f.half, h), halves)
	m.lay(rect(w-f.half, y, f.half, h), halves)
	m.lay(rect(0, y, f.tab, h), 2)
	m.lay(rect(w-f.tab, y, f.tab, h), 2)
}

// A leafWish is what the leaves of a gusset pocket have to do.
type leafWish struct {
	hold
	depth
	place units.Size
	sides bool         // gussets at the sides; otherwise the sides are glued
	foot  units.Length // how far a gusset at the foot stands up when flat
	fan
}

// A leaf is a leaf of a gusset pocket: how wide and high it is with what
// stands out, how deep the pocket is, and where contents lie.
type leaf struct {
	width, height, depth units.Length
	side                 units.Length // what a gusset or glue takes of each side
	clear, most          units.Size
	at                   units.Rect
}

// leaf works out the leaves.
func (m *maker) leaf(w leafWish) leaf {
	var l leaf
	// What the sides take, and what the foot takes when folded flat.
	side, sideLabel := w.half, "half panel"
	var walls units.Length
	if !w.sides {
		// The glued sides make a tube, as of a flat pocket.
		side, sideLabel, walls = w.tab, "glued side", w.opening
	}
	l.side = side
	foot := w.foot
	ease := w.depth.ease(w.hold)
	if w.given {
		need := m.need(w.place.W != 0, "leaf width needed", units.T("content", w.content.Size.W), units.T("ease", w.hold.ease.W),
			units.T("thickness", walls), units.N(2, sideLabel, side))
		l.width = need
		if w.place.W != 0 {
			l.width = w.place.W
			if l.width < need {
				m.Short("place.w", check.TooSmall, m.n, l.width, m.r.Up(need), "for the content with ease and "+sideLabel+"s")
			}
		}
		tall := m.need(w.place.H != 0, "leaf height needed", units.T("content", w.content.Size.H), units.T("ease", ease), units.T("foot gusset", foot))
		l.height = tall
		if w.place.H != 0 {
			l.height = w.place.H
			if l.height < tall {
				m.Short("place.h", check.TooSmall, m.n, l.height, m.r.Up(tall), "for the content and the foot")
			}
		}
	} else {
		l.width, l.height = w.place.W, w.place.H
	}
	l.clear.W = m.exact("clear width", units.T("leaf", l.width), units.N(-2, sideLabel, side)).Length()
	l.clear.H = m.exact("clear height", units.T("leaf", l.height), units.N(-1, "foot gusset", foot)).Length()
	l.most = units.Size{W: l.clear.W - w.hold.ease.W - walls, H: l.clear.H - ease}
	if !w.given {
		m.room("place.w", l.width, l.most.W, "so that facing gussets do not meet and something can be held")
		if w.depth.whole() {
			m.room("place.h", l.height, l.most.H, "for the foot and something to hold")
		}
	}
	if m.Len() > 0 {
		return l
	}
	held := l.clear.H
	if w.given {
		held = w.content.Size.H + ease
	}
	inside := w.depth.of(m, held, l.clear.H)
	path, field := "place.h", w.place.H
	if w.given {
		path, field = "content.size.h", w.content.Size.H
	}
	if !m.keeps(w.depth, inside, path, field, held) {
		return l
	}
	l.depth = inside + foot
	l.at = rect((l.width - l.most.W).Half(units.Down), l.height-foot-l.most.H, l.most.W, l.most.H)
	return l
}

func (g Gusset) steps(d *design, o *order) {
	sheet, front := o.one(0, 0), d.panels[1]
	back := o.on(0, 0)
	back.Name = "back panel" + o.apart() // not the back of the paper
	p := d.pieces[0]
	if g.At == FootGusset {
		half := d.half
		y := front.blank.Min.Y - 2*half
		var halves, fronts []units.Rect
		for _, a := range glueOf(p.blank) {
			if a.Min.Y == y {
				halves = append(halves, a)
			} else {
				fronts = append(fronts, a)
			}
		}
		o.fold(sheet, p.folds[0])
		o.stick(sheet, score.Face, back, halves...)
		o.dry("the foot", sheet)
		o.fold(sheet, p.folds[1:]...)
		o.stick(sheet, score.Face, back, fronts...)
	} else {
		gusset := d.pieces[1]
		o.fold(o.all(1), gusset.folds...)
		top := d.closed.H - front.closed.Size().H
		size := d.panels[2].closed.Size()
		tab, _ := tabsOf(gusset.blank)
		for side := range 2 {
			// Its outer edge, with the tabs' folds, is the drawing's left one.
			lies := work.Fix{What: o.one(1, side), On: back, At: work.At{Across: score.Left, Along: score.Head, Y: top},
				Areas: []units.Rect{tab}, Size: units.Size{W: max(size.W, tab.Size().W), H: size.H}}
			if side == 1 {
				lies.At.Across, lies.Quarters = score.Right, 2
			}
			o.fix(whole(lies))
		}
		o.dry("the gussets", sheet, o.all(1))
		o.fold(sheet, p.folds...)
		on := o.on(0, 0)
		on.Name = "front" + o.apart()
		for side := range 2 {
			_, tab := tabsOf(gusset.blank)
			o.stick(o.one(1, side), score.Face, on, tab)
		}
	}
	all := []work.Object{sheet}
	if g.At == SideGussets {
		all = append(all, o.all(1))
	}
	o.dry("the pocket", all...)
	o.base(whole(work.Fix{What: sheet, At: at(0, 0), Size: d.closed}))
	o.dry("the pocket", sheet)
	o.insert()
}

// tabsOf returns the areas of the tabs at the left and the right end of a
// strip.
func tabsOf(b score.Blank) (left, right units.Rect) {
	for _, t := range b.Tabs() {
		if t.Edge == score.Left {
			left = t.Area(b.Size())
		} else {
			right = t.Area(b.Size())
		}
	}
	return left, right
}
