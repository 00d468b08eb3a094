package pocket

import (
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Build is how a slip pocket is closed at its foot.
type Build uint8

// Builds.
const (
	// ThreeGlued is one front glued along both sides and the foot on what
	// lies under it.
	ThreeGlued Build = iota
	// FoldedFoot is a front and a back from one sheet, folded at the foot and
	// glued along both sides.
	FoldedFoot
)

// A Slip is a flat pocket that is open at the head. It is designed from its
// content, from a place at hand, or for a content in such a place.
type Slip struct {
	Content Content // what it holds; none: the most that Place takes
	Count   int     // how many of it, one on another; 0 is 1
	Ease    Ease
	// StandOut is how far the content stands out of the mouth to be gripped.
	// 0 leaves that to Depth.
	StandOut units.Length
	// Depth is how much of the content's height the pocket covers; zero is
	// 2/3 (common practice, no published source). With 1/1 all of it goes in,
	// with its ease.
	Depth Share
	// Place is the room at hand for the pocket and what stands out of it;
	// zero takes what the content needs.
	Place units.Size
	Build Build
	Glue  units.Length // width of the glued edges; 0 is 1/4 in or 6 mm
	Notch Notch
}

// Name returns "slip pocket".
func (s Slip) Name() string { return "slip pocket" }

// Design works the pocket out. Clear width = content + ease; the front is as
// wide as that and two glued edges.
func (s Slip) Design(p Paper, r units.Ruler) (Design, error) {
	m := newMaker(s, p, r)
	h := m.hold(s.Content, s.Count, s.Ease)
	glue := m.or(s.Glue, in/4, 6*mm)
	m.Allowance("glue", s.Glue)
	if s.Build > FoldedFoot {
		m.Malformed("build", check.Unknown, itoa(int(s.Build)), "three glued edges or a folded foot")
	}
	atHand := s.Place != units.Size{}
	if atHand {
		m.Size("place", s.Place)
	} else if !h.given {
		m.Malformed("content", check.Missing, "neither content nor place", "a content to hold or a place to fill")
	}
	depth := m.depth(s.Depth, s.StandOut)
	if m.Len() > 0 {
		return m.finish()
	}
	foot := glue
	if s.Build == FoldedFoot {
		foot = 0
	}

	// Across the mouth.
	var clear, need units.Working
	if h.given {
		need = m.sum("clear width", units.Up, units.T("content", h.content.Size.W), units.T("ease", h.ease.W), units.T("thickness", h.walls))
	}
	if clear = need; atHand {
		clear = m.sum("clear width at hand", units.Down, units.T("place", s.Place.W), units.N(-2, "glued edge", glue))
		if h.given && clear.Length() < need.Length() {
			m.Short("place.w", check.TooSmall, m.n, s.Place.W, m.r.Up(need.Length()+2*glue), "for the content with ease and glued edges")
		}
	}
	// From the foot to the head.
	var inside, height units.Length
	switch {
	case atHand:
		height = s.Place.H
		whole := m.sum("height inside", units.Down, units.T("place", s.Place.H), units.N(-1, "glued foot", foot))
		inside = whole.Length()
		if h.given && inside < h.content.Size.H+depth.ease(h) {
			m.Short("place.h", check.TooSmall, m.n, s.Place.H, m.r.Up(h.content.Size.H+depth.ease(h)+foot), "for the content")
		}
	default:
		inside = m.sum("height inside", units.Up, units.T("content", h.content.Size.H), units.T("ease", depth.ease(h))).Length()
		height = inside + foot
	}
	okW := m.room("place.w", s.Place.W, clear.Length()-h.ease.W-h.walls, "for the glued edges, the ease and something to hold")
	okH := !depth.whole() || m.room("place.h", s.Place.H, inside-depth.ease(h), "for the glued foot and something to hold")
	if !okW || !okH || m.Len() > 0 {
		return m.finish()
	}
	held := inside
	if h.given {
		held = h.content.Size.H + depth.ease(h)
	}
	d := depth.of(m, held, inside)
	path, field := "place.h", s.Place.H
	if h.given {
		path, field = "content.size.h", h.content.Size.H
	}
	if !m.keeps(depth, d, path, field, held) {
		return m.finish()
	}

	width := m.exact("front width", units.T("clear width", clear.Length()), units.N(2, "glued edge", glue))
	w := width.Length()
	m.d.closed = units.Size{W: w, H: height}
	draw := score.Drawing{}
	var tall units.Working
	front := rect(0, height-foot-d, w, foot+d)
	switch s.Build {
	case FoldedFoot:
		tall = m.exact("sheet height", units.T("back", inside), units.T("front", d))
		draw.Lines = []score.Line{{Axis: score.Level, At: inside, Fold: score.Valley}}
		draw.Glue = []score.Glue{{Area: rect(0, inside, glue, d)}, {Area: rect(w-glue, inside, glue, d)}}
		m.notch(s.Notch, &draw, score.Tail, glue, clear.Length(), d)
		at := m.piece("pocket", 1, width, tall, draw)
		m.panel("back", at, rect(0, 0, w, inside), rect(0, 0, w, height))
		m.panel("front", at, rect(0, inside, w, d), front)
		m.lay(rect(0, 0, w, height), 1)
	default:
		tall = m.exact("front height", units.T("depth", d), units.T("glued foot", foot))
		draw.Glue = []score.Glue{
			{Area: rect(0, 0, glue, d), Side: score.Back}, {Area: rect(w-glue, 0, glue, d), Side: score.Back},
			{Area: rect(0, d, w, foot), Side: score.Back},
		}
		m.notch(s.Notch, &draw, score.Head, glue, clear.Length(), d)
		at := m.piece("pocket front", 1, width, tall, draw)
		m.panel("front", at, rect(0, 0, w, d+foot), front)
	}
	m.lay(front, 1)

	most := units.Size{W: clear.Length() - h.ease.W - h.walls, H: inside - depth.ease(h)}
	place := rect(glue+(clear.Length()-most.W).Half(units.Down), height-foot-most.H, most.W, most.H)
	m.hasPlace(place, units.Size{W: clear.Length(), H: inside}, most, h.capacity(), h.count)
	m.fill(place, h.filling())
	m.warnThick(h)
	m.warnGrip(s.Notch, most.H, d)
	m.d.open = m.d.closed
	return m.finish()
}

// hasPlace adds the place of one pocket that is open at the head, and returns
// it for what is otherwise.
func (m *maker) hasPlace(r units.Rect, clear, most units.Size, thick units.Length, count int) *Place {
	m.d.places = append(m.d.places, Place{Pocket: m.d.pockets, Rect: r, Clear: clear, Capacity: Capacity{most, thick, count}})
	m.d.pockets++
	return &m.d.places[len(m.d.places)-1]
}

func (m *maker) warnGrip(n Notch, content, depth units.Length) {
	if n.None && depth >= content {
		m.warn("notch", NoGrip, "contents go in all the way and there is no thumb notch to grip them by", 0, 0)
	}
}

// A depth is how deep a pocket is for what it holds.
type depth struct {
	share    Share
	standOut units.Length
}

// depth checks the two fields that say how deep a pocket is.
func (m *maker) depth(s Share, standOut units.Length) depth {
	s.check(&m.List, "depth")
	m.Allowance("standOut", standOut)
	if standOut != 0 && s != (Share{}) {
		m.Malformed("standOut", check.Conflict, m.text(standOut)+" and a depth of "+itoa(s.Part)+"/"+itoa(s.Of), "one of the two")
	}
	return depth{s.or(Share{2, 3}), standOut}
}

// whole reports whether contents go in all the way.
func (d depth) whole() bool { return d.standOut == 0 && d.share.Part == d.share.Of }

// ease returns the ease over the height, which only a pocket that covers its
// content needs.
func (d depth) ease(h hold) units.Length {
	if d.whole() {
		return h.ease.H
	}
	return 0
}

// of computes the depth for contents of the given height, ease included. It
// goes down on the ruler, so that the content stands out at least so far; a
// pocket for all of it goes up, but not beyond the room there is.
func (d depth) of(m *maker, held, room units.Length) units.Length {
	switch {
	case d.whole() && m.r.Up(held) > room:
		return m.exact("depth", units.T("height inside", room)).Length()
	case d.whole():
		return m.sum("depth", units.Up, units.T("content and ease", held)).Length()
	case d.standOut > 0:
		return m.sum("depth", units.Down, units.T("content", held), units.N(-1, "standing out", d.standOut)).Length()
	}
	return m.share("depth", d.share, units.Down, units.T("content", held)).Length()
}

// keeps checks that a pocket computed as so deep holds anything at all. If not,
// either the content stands out too far, or the field from which what is held
// came is too small.
func (m *maker) keeps(d depth, deep units.Length, path string, field, held units.Length) bool {
	least := m.r.Up(units.Shortest)
	switch {
	case deep >= least:
		return true
	case d.standOut > 0 && held > least:
		m.Long("standOut", check.TooLarge, m.n, d.standOut, held-least, "so that something stays in the pocket")
	default:
		need, _ := least.Scale(int64(d.share.Of), int64(d.share.Part), units.Up)
		if d.standOut > 0 {
			need = least + d.standOut
		}
		m.Short(path, check.TooSmall, m.n, field, m.r.Up(field+need-held), "for a pocket of that depth")
	}
	return false
}

func (s Slip) steps(d *Design, t *teller) {
	p := d.pieces[0]
	cutPiece(t, p)
	cutNotches(t, p)
	tellScores(d, t, p)
	front, _ := d.Panel("front")
	side := "both sides"
	if s.Build == ThreeGlued {
		side = "both sides and the foot"
	} else {
		t.say("Fold the front, ").len(front.Size().H).say(" deep, up over the back.").done(Fold)
	}
	g, _ := firstGlue(p)
	t.say("Glue ").say(side).say(" of the front, ").len(g.W).say(" wide, and leave the head open; the clear width is ").
		len(d.places[0].Clear.W).say(".").done(Glue)
}
