package pocket

import (
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
	Content  Content
	Count    int
	Ease     Ease
	StandOut units.Length // as for a Slip
	Depth    Share        // as for a Slip
	At       GussetAt
	// Opening is how far the pocket must open; 0 is what its contents are
	// thick and 1/8 in or 3 mm, or as far as Half lets it.
	Opening units.Length
	// Half is the width of a half panel; 0 is half the opening, but at least
	// 1/4 in or 6 mm (common practice, no published source).
	Half  units.Length
	Tab   units.Length // glue tabs of side gussets, or the glued sides with a foot gusset; 0 is 3/8 in or 10 mm
	Place units.Size   // room at hand for the pocket and what stands out; zero takes what is needed
	Notch Notch
}

// Name returns "gusset pocket".
func (g Gusset) Name() string { return "gusset pocket" }

// A fan is the opening of gussets with the defaults filled in.
type fan struct{ opening, half, tab units.Length }

// fan checks the fields that gussets share and works out how far they open.
func (m *maker) fan(h hold, opening, half, tab units.Length) fan {
	ok := m.Allowance("opening", opening)
	ok = m.Allowance("half", half) && ok
	ok = m.Allowance("tab", tab) && ok
	if !ok {
		return fan{}
	}
	f := fan{opening, half, m.or(tab, 3*in/8, 10*mm)}
	least := m.or(0, in/4, 6*mm)
	switch {
	case f.opening != 0:
	case !h.given && f.half != 0:
		f.opening = 2 * f.half
	case !h.given:
		f.opening = 2 * least
	default:
		f.opening = m.sum("opening", units.Up, units.T("contents", h.stack), units.T("play", m.or(0, in/8, 3*mm))).Length()
	}
	if f.opening < h.stack {
		m.Short("opening", check.TooSmall, m.n, f.opening, m.r.Up(h.stack), "for the contents")
	}
	if f.half == 0 {
		f.half = max(least, m.share("half panel", Share{1, 2}, units.Up, units.T("opening", f.opening)).Length())
	}
	if f.opening > 2*f.half {
		m.Short("half", check.TooSmall, m.n, f.half, m.r.Up(f.opening.Half(units.Up)), "to open to "+m.text(f.opening))
	}
	return f
}

// Design works the pocket out. With side gussets, clear width = leaf − 2 w,
// the room between the folds when the pocket lies flat.
func (g Gusset) Design(p Paper, r units.Ruler) (Design, error) {
	m := newMaker(g, p, r)
	h := m.hold(g.Content, g.Count, g.Ease)
	depth := m.depth(g.Depth, g.StandOut)
	if g.At > FootGusset {
		m.Malformed("at", check.Unknown, itoa(int(g.At)), "side gussets or a foot gusset")
	}
	atHand := g.Place != units.Size{}
	if atHand {
		m.Size("place", g.Place)
	} else if !h.given {
		m.Malformed("content", check.Missing, "neither content nor place", "a content to hold or a place to fill")
	}
	if m.Len() > 0 {
		return m.finish()
	}
	f := m.fan(h, g.Opening, g.Half, g.Tab)
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
	if g.At == SideGussets && !m.atMost("tab", f.tab, w.Half(units.Down), "half the leaf") {
		return m.finish()
	}
	width := m.exact("leaf width", units.T("leaf", w))
	high := m.exact("sheet height", units.T("back", tall), units.N(2, "half of the foot", foot), units.T("front", d))
	draw := score.Drawing{Lines: []score.Line{{Axis: score.Level, At: tall, Fold: score.Valley}}}
	if foot > 0 {
		draw.Lines = append(draw.Lines,
			score.Line{Axis: score.Level, At: tall + foot, Fold: score.Mountain},
			score.Line{Axis: score.Level, At: tall + 2*foot, Fold: score.Valley})
	}
	if g.At == FootGusset {
		draw.Glue = []score.Glue{
			{Area: rect(0, tall+2*foot, f.tab, d)}, {Area: rect(w-f.tab, tall+2*foot, f.tab, d)},
		}
	}
	m.notch(g.Notch, &draw, score.Tail, (w - l.clear.W).Half(units.Down), l.clear.W, d)
	at := m.piece("back and front", 1, width, high, draw)
	m.d.closed, m.d.open = units.Size{W: w, H: tall}, units.Size{W: w, H: tall}
	m.d.half = f.half
	back, front := rect(0, 0, w, tall), rect(0, tall-d, w, d)
	m.panel("back", at, rect(0, 0, w, tall), back)
	m.panel("front", at, rect(0, tall+2*foot, w, d), front)
	m.lay(back, 1)
	m.lay(front, 1)
	m.lay(rect(0, tall-foot, w, foot), 2)
	if g.At == SideGussets {
		// They end where the foot's fold stands up.
		d := d - foot
		strip := m.exact("gusset width", units.N(2, "half panel", f.half), units.N(2, "tab", f.tab))
		deep := m.exact("gusset height", units.T("depth", l.depth), units.N(-1, "half of the foot", foot))
		at := m.piece("side gusset", 2, strip, deep, score.Drawing{
			Lines: []score.Line{
				{Axis: score.Upright, At: f.tab, Fold: score.Mountain},
				{Axis: score.Upright, At: f.tab + f.half, Fold: score.Valley},
				{Axis: score.Upright, At: f.tab + 2*f.half, Fold: score.Mountain},
			},
			Tabs: []score.Tab{{Edge: score.Left, Depth: f.tab}, {Edge: score.Right, Depth: f.tab}},
		})
		m.panel("half panel", at, rect(f.tab, 0, f.half, d), rect(0, tall-l.depth, f.half, d))
		m.layGussets(w, tall-l.depth, d, f, 2)
	}
	m.hasPlace(l.at, l.clear, l.most, f.opening, h.count)
	m.fill(l.at, fullOf(h, f))
	m.warnGrip(g.Notch, l.most.H, d)
	return m.finish()
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
	foot := w.foot
	ease := w.depth.ease(w.hold)
	if w.given {
		need := m.sum("leaf width needed", units.Up, units.T("content", w.content.Size.W), units.T("ease", w.hold.ease.W),
			units.T("thickness", walls), units.N(2, sideLabel, side)).Length()
		l.width = need
		if w.place.W != 0 {
			l.width = w.place.W
			if l.width < need {
				m.Short("place.w", check.TooSmall, m.n, l.width, need, "for the content with ease and "+sideLabel+"s")
			}
		}
		tall := m.sum("leaf height needed", units.Up, units.T("content", w.content.Size.H), units.T("ease", ease), units.T("foot gusset", foot)).Length()
		l.height = tall
		if w.place.H != 0 {
			l.height = w.place.H
			if l.height < tall {
				m.Short("place.h", check.TooSmall, m.n, l.height, tall, "for the content and the foot")
			}
		}
	} else {
		l.width, l.height = w.place.W, w.place.H
	}
	l.clear.W = m.exact("clear width", units.T("leaf", l.width), units.N(-2, sideLabel, side)).Length()
	l.clear.H = m.exact("clear height", units.T("leaf", l.height), units.N(-1, "foot gusset", foot)).Length()
	l.most = units.Size{W: l.clear.W - w.hold.ease.W - walls, H: l.clear.H - ease}
	okW := m.room("place.w", l.width, l.most.W, "so that facing gussets do not meet and something can be held")
	okH := !w.depth.whole() || m.room("place.h", l.height, l.most.H, "for the foot and something to hold")
	if !okW || !okH {
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

func (g Gusset) steps(d *Design, t *teller) {
	for _, p := range d.pieces {
		cutPiece(t, p)
		cutNotches(t, p)
		tellScores(d, t, p)
	}
	front, _ := d.Panel("front")
	if g.At == FootGusset {
		t.say("Fold the two half panels of ").len(d.half).say(" inwards at the foot, so that the front, ").len(front.Size().H).say(" deep, lies on the back.").done(Fold)
		t.say("Glue the front down along both sides and leave the head open.").done(Glue)
	} else {
		t.say("Fold each side gusset along its middle, the fold inwards, and its tabs outwards.").done(Fold)
		t.say("Fold the front, ").len(front.Size().H).say(" deep, up over the back, the foot's middle standing inwards where it has one.").done(Fold)
		t.say("Glue the tabs of the gussets inside the edges of back and front.").done(Glue)
	}
	t.say("It opens to ").len(2 * d.half).say("; the clear width is ").len(d.places[0].Clear.W).say(".").done(Fit)
}
