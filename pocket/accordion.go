package pocket

import (
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A FoldedAccordion is one long strip whose foot is turned up by the depth of
// the pockets and which is then folded to and fro, so that every panel has a
// pocket. The turned-up foot is glued at both ends of the strip. With panels
// p, n of them and an end tab a the strip is n p + a long; where that is more
// than the sheet it is joined at a fold. The spine's room must take 2n layers
// and all contents.
type FoldedAccordion struct {
	Content  Content // of each pocket
	Count    int
	Ease     Ease
	StandOut units.Length // as for a Slip
	Depth    Share        // as for a Slip
	// Panels is how many there are, up to 500; 0 is as many as Spine takes and
	// paper and strip allow, or 3.
	Panels int
	// Panel is the size of a panel at hand, with what stands out; a side of 0
	// takes what is needed.
	Panel units.Size
	// Strip is a flat strip at hand, in one piece: its width is divided by
	// Panels, its height into panel and foot.
	Strip    units.Size
	Tab      units.Length // at the end; 0 is 1/2 in or 10 mm
	JointTab units.Length // 0 is 1/2 in or 10 mm (Korger, Handbook of Type and Lettering), but no more than a panel
	Glue     units.Length // at both ends of the foot; 0 is 1/4 in or 6 mm
	// Notch is a thumb notch in the mouth of every pocket, which is the tail of
	// the flat strip. Zero is none here: the content is gripped by what stands
	// out.
	Notch Notch
	Spine units.Length // room that the full accordion must fit; 0: no limit
}

// Name returns "folded-up accordion".
func (a FoldedAccordion) Name() string { return "folded-up accordion" }

// Design works the accordion out.
func (a FoldedAccordion) Design(p Paper, r units.Ruler) (Design, error) {
	given := a
	if a.Panels == 0 {
		a.Panels = pocketsFor(a.Spine, func(n int) (Design, error) {
			a := a
			a.Panels, a.Spine = n, 0
			return a.Design(p, r)
		})
	}
	m := newMaker(given, p, r)
	h := m.hold(a.Content, a.Count, a.Ease)
	depth := m.depth(a.Depth, a.StandOut)
	n := m.number("panels", a.Panels)
	m.Allowance("panel.w", a.Panel.W)
	m.Allowance("panel.h", a.Panel.H)
	m.Allowance("tab", a.Tab)
	m.Allowance("jointTab", a.JointTab)
	m.Allowance("glue", a.Glue)
	m.Allowance("spine", a.Spine)
	atHand := a.Strip != units.Size{}
	if atHand {
		m.Size("strip", a.Strip)
	}
	switch {
	case atHand && a.Panel != units.Size{}:
		m.Malformed("panel", check.Conflict, "the sizes of a panel and of a strip", "one of the two")
	case !h.given && !atHand && (a.Panel.W == 0 || a.Panel.H == 0):
		m.Malformed("content", check.Missing, "neither content, panel nor strip", "a content to hold, or a size")
	}
	if m.Len() > 0 {
		return m.finish()
	}
	tab, glue := m.tab(a.Tab), m.or(a.Glue, in/4, 6*mm)
	ends := 1 // of the strip that one panel has at most
	if n == 1 {
		ends = 2
	}
	ease := depth.ease(h)

	// Across: the panel.
	width, path := a.Panel.W, "panel.w"
	if atHand {
		path = "strip.w"
		width = m.share("panel", Share{1, n}, units.Down, units.T("strip", a.Strip.W), units.N(-1, "tab", tab)).Length()
		if !m.room("strip.w", a.Strip.W, width, "for "+itoa(n)+" panels and the tab") {
			return m.finish()
		}
	}
	if h.given {
		need := m.sum("panel needed", units.Up, units.T("content", h.content.Size.W), units.T("ease", h.ease.W),
			units.T("thickness", h.walls), units.N(ends, "glued end", glue)).Length()
		if width == 0 {
			width = need
		} else if width < need {
			m.Short(path, check.TooSmall, m.n, width, need, "a panel, for the content with ease")
		}
	}
	clear := m.exact("clear width", units.T("panel", width), units.N(-ends, "glued end", glue)).Length()
	most := units.Size{W: clear - h.ease.W - h.walls}
	m.room(path, width, most.W, "a panel, for the glue, the ease and something to hold")

	// Upwards: the panel and the depth of its pocket.
	var tall, deep units.Length
	switch {
	case atHand:
		path = "strip.h"
		if depth.standOut > 0 { // panel + (panel − standing out) = strip
			tall = m.share("panel height", Share{1, 2}, units.Up, units.T("strip", a.Strip.H), units.T("standing out", depth.standOut)).Length()
		} else {
			// The foot is the share of the panel, so the panel is
			// of/(of + part) of the strip.
			tall = m.share("panel height", Share{depth.share.Of, depth.share.Of + depth.share.Part}, units.Up, units.T("strip", a.Strip.H)).Length()
		}
		deep = m.exact("depth", units.T("strip", a.Strip.H), units.N(-1, "panel height", tall)).Length()
		if h.given && tall < h.content.Size.H+ease {
			m.Short(path, check.TooSmall, m.n, a.Strip.H, a.Strip.H+2*(m.r.Up(h.content.Size.H+ease)-tall), "for the content and the foot")
		}
	default:
		path = "panel.h"
		tall = a.Panel.H
		held := tall
		if h.given {
			need := m.sum("panel height needed", units.Up, units.T("content", h.content.Size.H), units.T("ease", ease)).Length()
			held = h.content.Size.H + ease
			if tall == 0 {
				tall = need
			} else if tall < need {
				m.Short(path, check.TooSmall, m.n, tall, need, "for the content")
			}
		}
		deep = depth.of(m, held, tall)
		field := a.Panel.H
		if h.given {
			path, field = "content.size.h", h.content.Size.H
		}
		m.keeps(depth, deep, path, field, held)
	}
	most.H = tall - ease
	if depth.whole() {
		m.room(path, tall, most.H, "for the ease and something to hold")
	}
	if atHand {
		m.room(path, a.Strip.H, deep, "for panel and foot")
	}
	m.atMost("tab", tab, width, "a panel")
	if m.Len() > 0 {
		return m.finish()
	}

	joint := m.jointTab(a.JointTab, width)
	total := m.exact("strip", units.N(n, "panel", width), units.T("tab", tab))
	breadth := m.exact("strip height", units.T("panel height", tall), units.T("foot", deep))
	lines := make([]score.Line, 0, n)
	hide := make([]hiding, 0, n)
	fold := score.Valley
	for i := 1; i <= n; i++ {
		at := times(i, width)
		lines = append(lines, score.Line{Axis: score.Upright, At: at, Fold: fold})
		fold = fold.Other()
		if i < n {
			hide = append(hide, hiding{i, at})
		}
	}
	strip := longStrip{name: "accordion", quantity: 1, total: total, breadth: breadth, lines: lines, hide: hide, tab: joint,
		foot: deep, endCut: tab,
		edges: []score.Tab{{Edge: score.Right, Depth: tab, To: tall}}}
	if atHand {
		strip.sheetBound = a.Strip.W
	}
	strip.glue = []score.Glue{{Area: rect(0, tall, glue, deep)}, {Area: rect(times(n, width)-glue, tall, glue, deep)}}
	if a.Notch != (Notch{}) {
		var one score.Drawing
		m.notch(a.Notch, &one, score.Tail, (width - clear).Half(units.Down), clear, deep)
		for i := range n {
			for _, cut := range one.Notches {
				cut.Middle += times(i, width)
				strip.notches = append(strip.notches, cut)
			}
		}
	}
	first, joints := m.long(strip)
	m.d.joints = joints
	if len(joints) > 0 {
		m.atMost("jointTab", joint, width, "a panel, which it is glued to")
	}
	m.d.closed = units.Size{W: width, H: tall}
	m.d.open = units.Size{W: times(n, width), H: tall}
	where, pocket := rect(0, 0, width, tall), rect(0, tall-deep, width, deep)
	if first < len(m.d.pieces) {
		m.panel("panel", first, rect(0, 0, width, tall), where)
		m.panel("foot", first, rect(0, tall, width, deep), pocket)
	}
	m.lay(where, n)
	m.lay(pocket, n)
	// Folds stand by turns at the right and at the left edge.
	edge := func(fold int, tab units.Length) units.Rect {
		if fold%2 == 1 {
			return rect(width-tab, 0, tab, tall)
		}
		return rect(0, 0, tab, tall)
	}
	m.lay(edge(n, tab), 1)
	right, left := 0, 0
	for _, j := range joints {
		if j.Fold%2 == 1 {
			right++
		} else {
			left++
		}
	}
	if right > 0 {
		m.lay(edge(1, joint), right)
	}
	if left > 0 {
		m.lay(edge(2, joint), left)
	}
	place := rect((width - most.W).Half(units.Down), tall-most.H, most.W, most.H)
	m.hasPlace(place, units.Size{W: clear, H: tall}, most, h.capacity(), h.count)
	m.d.pockets = n
	m.fill(place, times(n, h.filling()))
	m.warnThick(h)
	m.fitSpine(a.Spine)
	return m.finish()
}

func (a FoldedAccordion) steps(d *Design, t *teller) {
	for _, p := range d.pieces {
		cutPiece(t, p)
		cutNotches(t, p)
		for _, w := range p.Blank.CutOuts() {
			t.say("Cut away the foot below the tab, ").size(w.Area.Size()).say(".").done(Cut)
		}
		tellScores(d, t, p)
	}
	tellJoints(d, t, "the accordion")
	foot, _ := d.Panel("foot")
	panel, _ := d.Panel("panel")
	t.say("Turn the foot up by ").len(foot.Size().H).say(" along the whole strip.").done(Fold)
	t.say("Glue the foot at both ends of the strip only.").done(Glue)
	t.say("Fold the panels to and fro, ").count(d.pockets).say(" of ").len(panel.Size().W).say(", the first fold towards you.").done(Fold)
	t.say("Glue the end tab down where the accordion is to stand.").done(Glue)
	t.say("Closed it is ").len(d.empty).say(" thick empty and ").len(d.full).say(" full.").done(Fit)
}
