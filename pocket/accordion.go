package pocket

import (
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A FoldedAccordion is one long strip whose foot is turned up by the depth of
// the pockets and which is then folded to and fro, so that every panel has a
// pocket. With panels p, n of them and an end tab a the strip is n p + a long;
// where that is more than the sheet it is joined at a fold. The turned-up foot
// is glued at both ends of every strip, so that no pocket is open at a joint.
// The spine's room must take 2n layers and all contents.
//
// The end tab is glued by its back, so that the accordion lies face up, its
// pockets to be seen, when it is drawn out over the tab's fold.
type FoldedAccordion struct {
	Content  Content      // of each pocket; none: the most that Panel or Strip takes
	Count    int          // how many of it in a pocket, one on another; 0 is 1
	Ease     Ease         // as for a Slip
	StandOut units.Length // as for a Slip; 0 leaves it to Depth
	Depth    Share        // as for a Slip; zero is 2/3
	// Panels is how many there are, up to 500; 0 is as many as Spine takes and
	// paper and strip allow, or 3.
	Panels int
	// Panel is the size of a panel at hand, with what stands out; a side of 0
	// takes what is needed.
	Panel units.Size
	// Strip is a flat strip at hand, in one piece: its width is divided by
	// Panels, its height into panel and foot. Zero is none at hand.
	Strip    units.Size
	Tab      units.Length // at the end; 0 is 1/2 in or 10 mm (common practice, no published source)
	JointTab units.Length // 0 is 1/2 in or 10 mm (Korger, Handbook of Type and Lettering), but no more than a panel
	Glue     units.Length // at both ends of the foot of every strip; 0 is 1/4 in or 6 mm (common practice, no published source)
	// Notch is a thumb notch in the mouth of every pocket, which is the tail of
	// the flat strip. Zero is none here: the content is gripped by what stands
	// out.
	Notch ThumbNotch
	Spine units.Length // room that the full accordion must fit; 0: no limit
}

// Name returns "folded-up accordion".
func (a FoldedAccordion) Name() string { return "folded-up accordion" }

func (a FoldedAccordion) at(room units.Size, l *check.List) (Kind, [2]string) {
	fields := over(l, "panel", &a.Panel, room)
	if a.Strip != (units.Size{}) {
		l.Malformed("strip", check.Conflict, "a strip and room at hand", "one of the two")
	}
	return a, fields
}

func (a FoldedAccordion) holds() Content { return a.Content }

func (a *FoldedAccordion) held() *Content { return &a.Content }

func (a FoldedAccordion) filled(u defaults) FoldedAccordion {
	a.Count, a.Depth, a.Glue = countOf(a.Count, a.Content), covers(a.Depth, a.StandOut), u.edge(a.Glue)
	a.Panels = pockets(a.Panels, a.Spine)
	return a
}

// Design works the accordion out.
func (a FoldedAccordion) Design(p Paper, r units.Ruler) (Design, error) { return a.designed(a, p, r) }

func (a FoldedAccordion) designed(own Kind, p Paper, r units.Ruler) (Design, error) {
	if a.Panels == 0 {
		a.Panels = pocketsFor(a.Spine, func(n int) (Design, error) {
			a := a
			a.Panels, a.Spine = n, 0
			return a.design(newTrial(own, p, r))
		})
	}
	return a.design(newLarge(own, p, r))
}

func (a FoldedAccordion) design(m *maker) (Design, error) {
	h := m.hold(a.Content, a.Count, a.Ease)
	w := accordion{hold: h, depth: m.depth(a.Depth, a.StandOut), n: m.number("panels", a.Panels), atHand: a.Strip != units.Size{}}
	m.allowance("panel.w", a.Panel.W)
	m.allowance("panel.h", a.Panel.H)
	m.allowance("tab", a.Tab)
	m.allowance("jointtab", a.JointTab)
	m.allowance("glue", a.Glue)
	m.allowance("spine", a.Spine)
	if w.atHand {
		m.Size("strip", a.Strip)
	}
	switch {
	case w.atHand && a.Panel != units.Size{}:
		m.Malformed("panel", check.Conflict, "the sizes of a panel and of a strip", "one of the two")
	case !h.given && !w.atHand && (a.Panel.W == 0 || a.Panel.H == 0):
		m.Malformed("content", check.Missing, "neither content, panel nor strip", "a content to hold, or a size")
	}
	if m.Len() > 0 {
		return m.finish()
	}
	w.tab, w.glue = m.tab(a.Tab), m.edge(a.Glue)
	m.accordionHeight(a, &w)
	if !m.accordionWidth(a, &w) {
		return m.finish()
	}
	if a.Tab == 0 && !w.atHand {
		w.tab = min(w.tab, w.width)
	}
	m.atMost("tab", w.tab, w.width, ", which a panel is wide")
	if m.Len() > 0 {
		return m.finish()
	}
	m.d.closed = units.Size{W: w.width, H: w.tall}
	m.d.open = units.Size{W: times(w.n, w.width) + w.tab, H: w.tall}
	m.expect(1, 2*w.n, 6)
	m.accordionPieces(a, &w)
	m.accordionPlaces(&w)
	m.warnThick(h)
	m.warnGrip(a.Notch == ThumbNotch{} || a.Notch.none(), h.or(h.content.Size.H, w.most.H), w.deep)
	m.warnAround(&w)
	m.fitSpine(a.Spine)
	return m.finish()
}

// An accordion is a folded accordion worked out: n panels, so wide and tall,
// with a foot so deep, of strips that are glued at their ends.
type accordion struct {
	hold
	depth
	n                 int
	atHand            bool // of a strip at hand
	tab, glue         units.Length
	width, tall, deep units.Length
	ends              int    // glued ends of a panel, at most
	starts            []bool // whether a strip starts at a panel
	most              units.Size
}

// accordionHeight works out, upwards, the panel and the depth of its pocket.
func (m *maker) accordionHeight(a FoldedAccordion, w *accordion) {
	ease := w.depth.ease(w.hold)
	path, field := "panel.h", a.Panel.H
	if w.atHand {
		path, field = "strip.h", a.Strip.H
		if w.standOut > 0 { // panel + (panel − standing out) = strip
			w.tall = m.share("panel height", Share{1, 2}, units.Up, units.T("strip", a.Strip.H), units.T("standing out", w.standOut)).Length()
		} else {
			// The foot is the share of the panel, so the panel is
			// of/(of + part) of the strip.
			w.tall = m.share("panel height", Share{w.share.Of, w.share.Of + w.share.Part}, units.Up, units.T("strip", a.Strip.H)).Length()
		}
		w.deep = m.exact("depth", units.T("strip", a.Strip.H), units.N(-1, "panel height", w.tall)).Length()
		m.standsOut(w.depth, w.tall-w.deep)
		least := units.Shortest
		if w.given {
			least = w.content.Size.H + ease
		} else if w.whole() {
			least += ease
		}
		if w.tall < least || w.deep < units.Shortest {
			m.Short(path, check.TooSmall, m.n, a.Strip.H, m.leastHigh(w.depth, a.Strip.H, least), "for what it holds and the foot")
		}
	} else {
		w.tall = a.Panel.H
		held := w.tall
		if w.given {
			held = w.content.Size.H + ease
			need := m.need(w.tall > 0, "panel height needed", units.T("content", w.content.Size.H), units.T("ease", ease))
			if w.tall == 0 {
				w.tall = need
			} else if w.tall < need {
				m.Short(path, check.TooSmall, m.n, w.tall, m.r.Up(need), "for the content")
			}
		}
		if w.deep = w.depth.of(m, held, w.tall); w.given {
			path, field = "content.size.h", w.content.Size.H
		}
		m.keeps(w.depth, w.deep, path, field, held)
	}
	if w.most.H = w.tall - ease; w.whole() && m.Len() == 0 {
		m.room(path, field, w.most.H, "for the ease and something to hold")
	}
}

// leastHigh returns the least height on the ruler, no less than from, of a strip
// that is divided into a panel of at least so much and a foot: both grow with it.
func (m *maker) leastHigh(d depth, from, least units.Length) units.Length {
	short := func(h units.Length) bool {
		h = m.r.Up(h)
		tall := (h + d.standOut).Half(units.Up)
		if d.standOut == 0 {
			tall, _ = h.Scale(int64(d.share.Of), int64(d.share.Of+d.share.Part), units.Up)
		}
		tall = m.r.Up(tall)
		return tall < least || h-tall < units.Shortest
	}
	return m.r.Up(1 + mostOf(from, units.Longest, short))
}

// accordionWidth works out, across, the panel. One at the end of a strip is
// glued there; one that is a strip by itself is glued at both ends.
func (m *maker) accordionWidth(a FoldedAccordion, w *accordion) bool {
	for w.ends = min(2, 1+1/w.n); ; w.ends++ {
		m.accordionPanel(a, w)
		strip := m.accordionStrip(a, w)
		cutAt, ok := m.joints(strip)
		if w.ends < 2 && (!ok || singles(cutAt, w.n)) {
			continue
		}
		w.starts = make([]bool, w.n+1)
		w.starts[0], w.starts[w.n] = true, true
		for _, j := range cutAt {
			w.starts[j.fold] = true
		}
		if !ok && !w.atHand { // a strip at hand is in one piece, or too short
			m.cannotJoin(strip)
		}
		m.accordionFits(a, w)
		return m.Len() == 0
	}
}

// accordionPanel works out how wide a panel is: at hand, or as wide as what it
// holds and its glued ends need.
func (m *maker) accordionPanel(a FoldedAccordion, w *accordion) {
	switch {
	case w.atHand:
		w.width = max(units.Shortest, m.share("panel", Share{1, w.n}, units.Down, units.T("strip", a.Strip.W), units.N(-1, "tab", w.tab)).Length())
	case a.Panel.W > 0:
		w.width = a.Panel.W
	default:
		w.width = m.sum("panel needed", units.Up, units.T("content", w.content.Size.W), units.T("ease", w.hold.ease.W),
			units.T("thickness", w.walls), units.N(w.ends, "glued end", w.glue)).Length()
	}
}

// accordionFits checks that a panel takes what it is to hold.
func (m *maker) accordionFits(a FoldedAccordion, w *accordion) {
	clear := m.exact("clear width", units.T("panel", w.width), units.N(-w.ends, "glued end", w.glue)).Length()
	w.most.W = clear - w.hold.ease.W - w.walls
	least, what := max(units.Shortest, w.content.Size.W), "for the content with ease and the glued ends of a panel"
	if !w.given {
		what = "for the glue, the ease and something to hold in each panel"
	}
	if w.most.W >= least {
		return
	}
	// Wider panels may make more strips, and more glued ends.
	need := m.r.Up(least + w.hold.ease.W + w.walls + 2*w.glue)
	if one := m.r.Up(least + w.hold.ease.W + w.walls + w.glue); w.ends == 1 && !w.atHand {
		try := *w
		try.width = one
		if cutAt, ok := m.joints(m.accordionStrip(a, &try)); ok && !singles(cutAt, w.n) {
			need = one
		}
	} else if w.ends == 1 { // a strip at hand is in one piece
		need = one
	}
	if w.atHand {
		m.Short("strip.w", check.TooSmall, m.n, a.Strip.W, m.r.Up(times(w.n, need)+w.tab), what)
	} else {
		m.Short("panel.w", check.TooSmall, m.n, w.width, need, what)
	}
}

// singles reports whether joints leave a strip of one panel.
func singles(cutAt []hiding, n int) bool {
	last := 0
	for _, j := range cutAt {
		if j.fold-last == 1 {
			return true
		}
		last = j.fold
	}
	return n-last == 1
}

// accordionStrip is the whole strip, with what it takes to see where it is
// joined.
func (m *maker) accordionStrip(a FoldedAccordion, w *accordion) longStrip {
	n := w.n
	strip := longStrip{name: "accordion", quantity: 1, tab: m.jointTab(a.JointTab, w.width), foot: w.deep, footGlue: w.glue, endCut: w.tab,
		total:   m.total("strip", units.N(n, "panel", w.width), units.T("tab", w.tab)),
		breadth: m.total("strip height", units.T("panel height", w.tall), units.T("foot", w.deep)),
		lines:   make([]score.Line, 0, n), hide: make([]hiding, 0, n), folds: make([]crease, 0, n),
		edges:      []score.Tab{{Edge: score.Right, Depth: w.tab, To: w.tall, Side: score.Back}},
		sheetBound: a.Strip.W,
	}
	for i := 1; i <= n; i++ {
		at := times(i, w.width)
		kind := score.Valley // the last fold, over the tab
		if (n-i)%2 == 1 {
			kind = score.Mountain
		}
		strip.lines = append(strip.lines, score.Line{Axis: score.Upright, At: at, Fold: kind})
		if i < n {
			strip.hide = append(strip.hide, hiding{i, at})
		}
	}
	for i := n; i >= 1; i-- { // the tab stays on the table
		strip.folds = append(strip.folds, crease{axis: score.Upright, at: times(i, w.width), moves: score.Left})
	}
	return strip
}

// accordionPieces makes the strips, their panels and their layers.
func (m *maker) accordionPieces(a FoldedAccordion, w *accordion) {
	strip := m.accordionStrip(a, w)
	m.d.workings = append(m.d.workings, *strip.total, *strip.breadth)
	if a.Notch != (ThumbNotch{}) {
		var one score.Draft
		clear := w.width - times(w.ends, w.glue)
		m.notch(a.Notch, &one, score.Tail, (w.width - clear).Half(units.Down), clear, w.deep, 0)
		for i := range w.n {
			for _, cut := range one.Notches {
				cut.Middle += times(i, w.width)
				strip.notches = append(strip.notches, cut)
			}
		}
	}
	m.d.joints = m.long(strip)
	if len(m.d.joints) > 0 {
		m.atMost("jointtab", strip.tab, w.width, ", which the panel that it is glued to is wide")
	}
	where, pocket := rect(0, 0, w.width, w.tall), rect(0, w.tall-w.deep, w.width, w.deep)
	m.lay(where, w.n)
	m.lay(pocket, w.n)
	// Folds stand by turns at the left and at the right edge, the last one at
	// the left.
	edge := func(fold int, tab units.Length) units.Rect {
		if (w.n-fold)%2 == 1 {
			return rect(w.width-tab, 0, tab, w.tall)
		}
		return rect(0, 0, tab, w.tall)
	}
	m.lay(edge(w.n, w.tab), 1)
	var sides [2]int
	for _, j := range m.d.joints {
		sides[(w.n-j.fold)%2]++
	}
	for i, joints := range sides {
		if joints > 0 {
			m.lay(edge(w.n-i, strip.tab), joints)
		}
	}
	if m.Len() == 0 && !m.trial {
		m.accordionPanels(w, where, pocket)
	}
}

// accordionPanels adds the panels and the fronts of their pockets.
func (m *maker) accordionPanels(w *accordion, where, pocket units.Rect) {
	links := m.d.chains[0]
	at := 0
	for i := range w.n {
		x := times(i, w.width)
		for at+1 < len(links) && links[at+1].from <= x {
			at++
		}
		l := links[at]
		p := m.panel("panel", l.piece, i, rect(x-l.from, 0, w.width, w.tall), where)
		p.copy, p.chain, p.crossed = l.copy, 1, true
		p = m.panel("foot", l.piece, i, rect(x-l.from, w.tall, w.width, w.deep), pocket)
		p.copy, p.chain, p.crossed, p.front = l.copy, 1, true, true
	}
}

func (a FoldedAccordion) seen(p panels, all []seen) []seen {
	// Drawn out, all lies as the strip was cut, its foot turned up.
	all = append(all, seen{"panels when drawn out", score.Face}, seen{"pocket fronts when drawn out", score.Back})
	return p.sees(all, "first panel when closed", "panel", false)
}

// accordionPlaces adds a place in every panel, clear of the glue at its ends.
func (m *maker) accordionPlaces(w *accordion) {
	var filled []sheet
	for i := range w.n {
		var left, right units.Length
		if w.starts[i] {
			left = w.glue
		}
		if w.starts[i+1] {
			right = w.glue
		}
		if (w.n-i)%2 == 1 { // it lies face down: seen from above, the other way round
			left, right = right, left
		}
		clear := w.width - left - right
		place := rect(left+(clear-w.most.W).Half(units.Down), w.tall-w.most.H, w.most.W, w.most.H)
		in := m.hasPlace(place, units.Size{W: clear, H: w.tall}, w.most, w.capacity(), w.count)
		in.hidden = i > 0
		found := false
		for k := range filled {
			if filled[k].rect == place {
				filled[k].thick += w.filling()
				found = true
			}
		}
		if !found {
			filled = append(filled, sheet{rect: place, thick: w.filling()})
		}
	}
	for _, f := range filled {
		m.fill(f.rect, f.thick)
	}
}

// warnAround warns where one score is not enough for the folds that close over
// two pockets: their fronts and what they hold lie between.
func (m *maker) warnAround(w *accordion) {
	c := m.d.paper.Caliper
	stack := 2*c + times(2, w.filling())
	if w.n == 1 { // over the tab
		stack = c + w.filling()
	}
	if apart, double := score.DoubleScore(stack, c, m.r); double {
		m.warn(unwise{code: NeedsTwoScores, want: apart.Length(), lengths: [2]units.Length{stack, apart.Length()},
			text: [3]string{"when full, the folds that close over pockets turn round ", "; two scores ", " apart would let the panels lie flat"}})
	}
}

// Each strip has its foot turned up and glued before strips are joined and
// folded to and fro.
func (a FoldedAccordion) steps(d *design, o *order) {
	chain := d.chains[0]
	for _, l := range chain {
		p := d.pieces[l.piece]
		this, panels := o.one(l.piece, l.copy), o.on(l.piece, l.copy)
		panels.Name = "panels" + o.apart()
		o.fold(this, p.folds[0])
		o.stick(this, score.Face, panels, glueOf(p.blank)...)
	}
	o.dry("the foot", o.links(chain)...)
	o.join(chain)
	o.foldChain(chain, score.Upright, true)
	last := chain[len(chain)-1]
	_, tab := tabsOf(d.pieces[last.piece].blank)
	o.base(whole(work.Fix{What: o.one(last.piece, last.copy), At: at(0, 0), Areas: []units.Rect{tab}, Size: d.closed}))
	o.dry("the tab", o.links(chain)...)
	o.insert()
}
