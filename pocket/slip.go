package pocket

import (
	"boardwrap.example/pocket/work"
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
	Ease    Ease    // over the width, and over the height where all of it goes in
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
	Build Build        // the zero value is glued on three edges
	Glue  units.Length // width of the glued edges; 0 is 1/4 in or 6 mm (common practice, no published source)
	Notch ThumbNotch   // in the front's mouth
}

// Name returns "slip pocket".
func (s Slip) Name() string { return "slip pocket" }

func (s Slip) at(room units.Size, l *check.List) (Kind, [2]string) {
	fields := over(l, "place", &s.Place, room)
	return s, fields
}

func (s Slip) holds() Content { return s.Content }

func (s *Slip) held() *Content { return &s.Content }

func (s Slip) filled(u defaults) Slip {
	s.Count, s.Depth, s.Glue = countOf(s.Count, s.Content), covers(s.Depth, s.StandOut), u.edge(s.Glue)
	return s
}

// Design works the pocket out. Clear width = content + ease; the front is as
// wide as that and two glued edges.
func (s Slip) Design(p Paper, r units.Ruler) (Design, error) { return s.designed(s, p, r) }

func (s Slip) designed(own Kind, p Paper, r units.Ruler) (Design, error) {
	m := newMaker(own, p, r)
	h := m.hold(s.Content, s.Count, s.Ease)
	m.allowance("glue", s.Glue)
	if s.Build > FoldedFoot {
		m.Malformed("build", check.Unknown, itoa(int(s.Build)), "three glued edges or a folded foot")
	}
	m.place(h, s.Place)
	depth := m.depth(s.Depth, s.StandOut)
	if m.Len() > 0 {
		return m.finish()
	}
	size, ok := m.slipSize(s, h, depth)
	if !ok {
		return m.finish()
	}
	w, tall, foot, d := size.w, size.h, size.foot, size.depth
	m.d.closed = units.Size{W: w, H: tall}
	front := rect(0, tall-foot-d, w, foot+d)
	width := m.exact("front width", units.T("clear width", size.clear.W), units.N(2, "glued edge", size.glue))
	if s.Build == FoldedFoot {
		m.slipFolded(s.Notch, size, width, front)
	} else {
		m.slipGlued(s.Notch, size, width, front)
	}
	m.lay(front, 1)

	most := units.Size{W: size.clear.W - h.ease.W - h.walls, H: size.clear.H - depth.ease(h)}
	place := rect(size.glue+(size.clear.W-most.W).Half(units.Down), tall-foot-most.H, most.W, most.H)
	m.hasPlace(place, size.clear, most, h.capacity(), h.count)
	m.fill(place, h.filling())
	m.warnThick(h)
	m.warnGrip(s.Notch.none(), h.or(h.content.Size.H, most.H), d)
	return m.finish()
}

// place checks the room at hand. Without it there must be a content.
func (m *maker) place(h hold, at units.Size) {
	if at != (units.Size{}) {
		m.Size("place", at)
	} else if !h.given {
		m.Malformed("content", check.Missing, "neither content nor place", "a content to hold or a place to fill")
	}
}

// A slipSize is how large a slip pocket is: its footprint with what stands out,
// its glued edges and foot, how deep it is and how much room is inside.
type slipSize struct {
	w, h, glue, foot, depth units.Length
	clear                   units.Size
}

// slipSize works out how large the pocket is, and reports whether it can be.
func (m *maker) slipSize(s Slip, h hold, depth depth) (size slipSize, ok bool) {
	atHand := s.Place != units.Size{}
	size.glue = m.edge(s.Glue)
	if s.Build == ThreeGlued {
		size.foot = size.glue
	}
	// Across the mouth.
	var need units.Length
	if h.given {
		need = m.need(atHand, "clear width", units.T("content", h.content.Size.W), units.T("ease", h.ease.W), units.T("thickness", h.walls))
	}
	if size.clear.W = need; atHand {
		size.clear.W = m.exact("clear width at hand", units.T("place", s.Place.W), units.N(-2, "glued edge", size.glue)).Length()
		if h.given && size.clear.W < need {
			m.Short("place.w", check.TooSmall, m.n, s.Place.W, m.r.Up(need+2*size.glue), "for the content with ease and glued edges")
		}
	}
	// From the foot to the head.
	if atHand {
		size.h = s.Place.H
		size.clear.H = m.exact("height inside", units.T("place", s.Place.H), units.N(-1, "glued foot", size.foot)).Length()
		if h.given && size.clear.H < h.content.Size.H+depth.ease(h) {
			m.Short("place.h", check.TooSmall, m.n, s.Place.H, m.r.Up(h.content.Size.H+depth.ease(h)+size.foot), "for the content")
		}
	} else {
		size.clear.H = m.sum("height inside", units.Up, units.T("content", h.content.Size.H), units.T("ease", depth.ease(h))).Length()
		size.h = size.clear.H + size.foot
	}
	if !h.given {
		m.room("place.w", s.Place.W, size.clear.W-h.ease.W-h.walls, "for the glued edges, the ease and something to hold")
		if depth.whole() {
			m.room("place.h", s.Place.H, size.clear.H-depth.ease(h), "for the glued foot and something to hold")
		}
	}
	if m.Len() > 0 {
		return size, false
	}
	held, path, field := size.clear.H, "place.h", s.Place.H
	if h.given {
		held, path, field = h.content.Size.H+depth.ease(h), "content.size.h", h.content.Size.H
	}
	size.depth = depth.of(m, held, size.clear.H)
	size.w = size.clear.W + 2*size.glue
	return size, m.keeps(depth, size.depth, path, field, held)
}

// slipFolded makes front and back from one sheet that is folded at the foot.
func (m *maker) slipFolded(n ThumbNotch, s slipSize, width *units.Working, front units.Rect) {
	tall := m.exact("sheet height", units.T("back", s.clear.H), units.T("front", s.depth))
	draw := score.Draft{
		Lines: []score.Line{{Axis: score.Level, At: s.clear.H, Fold: score.Valley}},
		Glue:  []score.Glue{{Area: rect(0, s.clear.H, s.glue, s.depth)}, {Area: rect(s.w-s.glue, s.clear.H, s.glue, s.depth)}},
	}
	m.notch(n, &draw, score.Tail, s.glue, s.clear.W, s.depth, 0)
	at := m.piece("pocket", 1, width, tall, draw)
	p := &m.d.pieces[at]
	p.folds = append(m.folds, crease{axis: score.Level, at: s.clear.H, moves: score.Tail})
	back := rect(0, 0, s.w, s.h)
	m.lay(back, 1)
	m.panel("back", at, 0, rect(0, 0, s.w, s.clear.H), back)
	m.panel("front", at, 1, rect(0, s.clear.H, s.w, s.depth), front)
}

// slipGlued makes the front alone, to be glued on what lies under it.
func (m *maker) slipGlued(n ThumbNotch, s slipSize, width *units.Working, front units.Rect) {
	tall := m.exact("front height", units.T("depth", s.depth), units.T("glued foot", s.foot))
	draw := score.Draft{Glue: []score.Glue{
		{Area: rect(0, 0, s.glue, s.depth), Side: score.Back}, {Area: rect(s.w-s.glue, 0, s.glue, s.depth), Side: score.Back},
		{Area: rect(0, s.depth, s.w, s.foot), Side: score.Back},
	}}
	m.notch(n, &draw, score.Head, s.glue, s.clear.W, s.depth, 0)
	at := m.piece("pocket front", 1, width, tall, draw)
	m.panel("front", at, 0, rect(0, 0, s.w, s.depth+s.foot), front)
}

// hasPlace adds the place of one pocket that is open at the head, and returns
// it for what is otherwise.
//
//go:noinline
func (m *maker) hasPlace(r units.Rect, clear, most units.Size, thick units.Length, count int) *Spot {
	m.d.places = append(m.d.places, Spot{rect: r, clear: clear, capacity: Capacity{most, thick, count}})
	m.d.pockets++
	return &m.d.places[len(m.d.places)-1]
}

// warnGrip warns where contents go in all the way and there is no notch.
func (m *maker) warnGrip(none bool, content, depth units.Length) {
	if none && depth >= content {
		m.warn(unwise{path: "notch", code: NoGrip, text: [3]string{"contents go in all the way and there is no thumb notch to grip them by"}})
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
	m.allowance("standout", standOut)
	if standOut != 0 && s != (Share{}) {
		m.Malformed("standout", check.Conflict, m.text(standOut)+" and a depth of "+itoa(s.Part)+"/"+itoa(s.Of), "one of the two")
	}
	return depth{s.or(usualDepth()), standOut}
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
		deep := m.sum("depth", units.Down, units.T("content", held), units.N(-1, "standing out", d.standOut)).Length()
		m.standsOut(d, held-deep)
		return deep
	}
	return m.share("depth", d.share, units.Down, units.T("content", held)).Length()
}

// standsOut warns where contents stand out by another length than is given off the ruler.
func (m *maker) standsOut(d depth, made units.Length) {
	m.comesTo("standout", "standing out by ", d.standOut, made)
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
		m.Long("standout", check.TooLarge, m.n, d.standOut, held-least, ", so that something stays in the pocket")
	default:
		need, _ := least.Scale(int64(d.share.Of), int64(d.share.Part), units.Up)
		if d.standOut > 0 {
			need = least + d.standOut
		}
		m.Short(path, check.TooSmall, m.n, field, m.r.Up(field+need-held), "for a pocket of that depth")
	}
	return false
}

func (s Slip) seen(p panels, all []seen) []seen {
	all = p.sees(all, "pocket front", "front", false)
	if s.Build == FoldedFoot {
		all = p.sees(all, "back above the front", "back", false)
	}
	return all
}

func (s Slip) steps(d *design, o *order) {
	p := o.one(0, 0)
	areas := glueOf(d.pieces[0].blank)
	if s.Build == FoldedFoot {
		o.fold(p, d.pieces[0].folds...)
		back := o.on(0, 0)
		back.Name = "back panel" + o.apart() // not the back of the paper
		o.stick(p, score.Face, back, areas...)
		o.dry("the pocket", p)
		o.base(whole(work.Fix{What: p, At: at(0, 0), Size: d.closed}))
	} else {
		o.base(whole(work.Fix{What: p, At: work.At{Across: score.Left, Along: score.Tail}, Areas: areas, Size: d.pieces[0].blank.Size()}))
	}
	o.dry("the pocket", p)
	o.insert()
}
