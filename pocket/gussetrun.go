package pocket

import (
	"boardwrap.example/internal/word"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A GussetRun is an accordion of n pockets between n + 1 leaves, with one
// strip of gussets along either side and, unless OpenFoot, one along the foot.
//
// From one strip with end tabs a and lands s between the pockets, half panels
// w make a length of 2wn + (n − 1)s + 2a, with 2n + 1 scores, or 3n with
// lands. Closed, the gussets lie in 2n layers between n + 1 leaves.
//
// The end tabs hold the first and the last leaf. Each leaf between is glued on
// the half panel under it, along Glue beside the outer fold. What is glued
// there is not free to open: a pocket opens to h where h² = 4w (w − g), the
// last one to 2w.
type GussetRun struct {
	Content  Content      // of each pocket; none: the most that Place takes
	Count    int          // how many of it in a pocket, one on another; 0 is 1
	Ease     Ease         // as for a Slip
	StandOut units.Length // as for a Slip; 0 leaves it to Depth
	Depth    Share        // as for a Slip; zero is 2/3
	// Pockets is how many there are, up to 500; 0 is as many as Spine takes and
	// the paper allows, or 3.
	Pockets int
	Opening units.Length // of each pocket, as for a Gusset; 0 is the default there
	// Half is the width of a half panel; 0 is the least that opens so far, but
	// at least 1/4 in or 6 mm (common practice, no published source).
	Half units.Length
	// Tab is the depth of the tabs at both ends, no more than a half panel; 0 is
	// 3/8 in or 10 mm (common practice, no published source), or Glue where that is
	// more, or a half panel where that is less.
	Tab units.Length
	// Glue is how wide the leaves between are glued on, at their sides and foot, no
	// wider than Tab, to which the last one is glued; 0 is 1/8 in or 3 mm (common
	// practice, no published source), or Tab where that is less.
	Glue units.Length
	// Land is between the pockets; 0: none. Lands stand upright when the run is
	// closed, so that each keeps the pockets so far apart, full or empty.
	Land units.Length
	// OpenFoot leaves out the gusset strip along the foot.
	OpenFoot bool
	JointTab units.Length // 0 is 1/2 in or 10 mm (Korger, as for a FoldedAccordion), but no more than a half panel
	Spine    units.Length // room that the full run must fit; 0: no limit
	Place    units.Size   // room at hand for leaves and what stands out; zero takes what is needed
	Notch    ThumbNotch   // in every leaf but the back
}

// Name returns "gusset run".
func (g GussetRun) Name() string { return "gusset run" }

func (g GussetRun) at(room units.Size, l *check.List) (Kind, [2]string) {
	fields := over(l, "place", &g.Place, room)
	return g, fields
}

func (g GussetRun) holds() Content { return g.Content }

func (g *GussetRun) held() *Content { return &g.Content }

// between is how wide the leaves between are glued on: 1/8 in or 3 mm (common
// practice, no published source), but no wider than a tab that is given.
func (u defaults) between(given, tab units.Length) units.Length {
	glue := u.usual(given, in/8, 3*mm)
	if given == 0 && tab > 0 {
		glue = min(glue, tab)
	}
	return glue
}

func (g GussetRun) filled(u defaults) GussetRun {
	g.Count, g.Depth, g.Glue = countOf(g.Count, g.Content), covers(g.Depth, g.StandOut), u.between(g.Glue, g.Tab)
	g.Pockets = pockets(g.Pockets, g.Spine)
	return g
}

// Design works the run out.
func (g GussetRun) Design(p Paper, r units.Ruler) (Design, error) { return g.designed(g, p, r) }

func (g GussetRun) designed(own Kind, p Paper, r units.Ruler) (Design, error) {
	if g.Pockets == 0 {
		g.Pockets = pocketsFor(g.Spine, func(n int) (Design, error) {
			g := g
			g.Pockets, g.Spine = n, 0
			return g.design(newTrial(own, p, r))
		})
	}
	return g.design(newLarge(own, p, r))
}

func (g GussetRun) design(m *maker) (Design, error) {
	h := m.hold(g.Content, g.Count, g.Ease)
	depth := m.depth(g.Depth, g.StandOut)
	n := m.number("pockets", g.Pockets)
	m.allowance("land", g.Land)
	m.allowance("spine", g.Spine)
	m.allowance("jointtab", g.JointTab)
	m.allowance("glue", g.Glue)
	m.place(h, g.Place)
	if m.Len() > 0 {
		return m.finish()
	}
	run := gussetRun{n: n, land: g.Land, glue: m.between(g.Glue, g.Tab)}
	if n == 1 {
		run.glue = 0 // nothing lies between
	}
	run.fan = m.fan(h, g.Opening, g.Half, g.Tab, run.glue)
	if g.Tab == 0 {
		run.tab = max(run.tab, m.r.Up(run.glue))
	} else if g.Tab > 0 {
		m.atMost("glue", run.glue, g.Tab, ", which the tab that the last leaf is glued to is deep")
	}
	m.tabClear(&run.fan, g.Tab)
	if m.Len() > 0 {
		return m.finish()
	}
	if run.foot = run.half; g.OpenFoot {
		run.foot = 0
	}
	run.leaf = m.leaf(leafWish{hold: h, depth: depth, place: g.Place, sides: true, foot: run.foot, fan: run.fan})
	if m.Len() > 0 {
		return m.finish()
	}
	run.joint = m.jointTab(g.JointTab, run.half)
	m.d.closed = units.Size{W: run.width, H: run.height}
	m.d.half, m.d.opens = run.half, opensTo(run.half, run.glue)
	m.runLeaves(g.Notch, &run)
	m.runStrips(g.OpenFoot, &run)
	m.hasPlace(run.at, run.clear, run.most, run.opening, h.count)
	m.d.pockets = int32(n)
	m.fill(run.at, times(n, fullOf(h, run.fan)))
	m.warnGrip(g.Notch.none(), h.or(h.content.Size.H, run.most.H), run.depth)
	m.fitSpine(g.Spine)
	return m.finish()
}

// A gussetRun is a run worked out: n pockets between leaves, with the gussets
// that join them.
type gussetRun struct {
	leaf
	fan
	n          int
	foot       units.Length // half panels at the foot, 0 where it is open
	land, glue units.Length
	joint      units.Length
}

// runLeaves makes the leaves, the back one without a notch.
func (m *maker) runLeaves(n ThumbNotch, run *gussetRun) {
	w, d := run.width, run.depth
	width := m.exact("leaf width", units.T("leaf", w))
	high := m.exact("leaf height", units.T("depth", d))
	glued := func(d score.Draft) score.Draft { // behind, along the sides and the foot
		if run.glue > 0 {
			d.Glue = []score.Glue{
				{Area: rect(0, 0, run.glue, run.depth), Side: score.Back}, {Area: rect(w-run.glue, 0, run.glue, run.depth), Side: score.Back},
			}
			if run.foot > 0 {
				d.Glue = append(d.Glue, score.Glue{Area: rect(run.half, run.depth-run.glue, run.clear.W, run.glue), Side: score.Back})
			}
		}
		return d
	}
	var front score.Draft
	var foot units.Length
	if run.foot > 0 { // the last one is glued on the tab, and the gusset would be seen
		foot = max(run.glue, run.tab, run.foot)
	}
	m.notch(n, &front, score.Head, run.side, run.clear.W, d, foot)
	where := rect(0, run.height-d, w, d)
	m.expect(4, 36, 8)
	at := m.piece("leaf", run.n, width, high, glued(front))
	back := m.piece("back leaf", 1, width, high, score.Draft{})
	m.lay(where, run.n+1)
	if m.trial {
		return
	}
	m.panel("back leaf", back, 0, rect(0, 0, w, d), where)
	for i := range run.n {
		p := m.panel("leaf", at, 0, rect(0, 0, w, d), where)
		// Over each pocket lie a leaf and two half panels, over the first one
		// a tab too, and under the last one another.
		p.copy, p.lift = i, 1+1+i+2*(i+1)
		if i == run.n-1 {
			p.lift++
		}
	}
}

// runStrips makes the gusset strips at the sides and at the foot.
func (m *maker) runStrips(openFoot bool, run *gussetRun) {
	w, top, d, f := run.width, run.height-run.depth, run.depth, run.fan
	total := m.exact("gusset run", units.N(2*run.n, "half panel", f.half), units.N(run.n-1, "land", run.land), units.N(2, "tab", f.tab))
	lines, hide := runLines(run.n, f.half, run.land, f.tab, score.Mountain)
	// It lies turned over, its first tab face down, and the rest is folded up
	// over that; the last tab lies face up under the last leaf. So both are
	// glued by their face.
	folds := make([]crease, 0, len(lines))
	for i := range lines {
		f := crease{axis: score.Upright, at: lines[i].At, moves: score.Right}
		if run.land > 0 && i > 0 && i < len(lines)-1 && i%3 != 1 {
			f.end = standing
		}
		folds = append(folds, f)
	}
	strip := longStrip{name: "side gusset run", quantity: 2, total: total, lines: lines, hide: hide, folds: folds, tab: run.joint,
		edges: []score.Tab{{Edge: score.Left, Depth: f.tab}, {Edge: score.Right, Depth: f.tab}}}
	strip.breadth = m.exact("side gusset", units.T("depth", d))
	strip.over = true
	joints := m.long(strip)
	m.d.joints = joints
	m.layGussets(w, top, d, f, 2*run.n)
	if len(joints) > 0 {
		m.jointHidden(run)
		m.lay(rect(0, top, run.joint, d), len(joints))
		m.lay(rect(w-run.joint, top, run.joint, d), len(joints))
	}
	m.runLands(top, run)
	if m.Len() == 0 && !m.trial {
		side := rect(0, top, f.half, d)
		m.runPanels(0, run, d, side)
		m.runPanels(1, run, d, mirrored(side, w))
	}
	if openFoot {
		return
	}
	// Between the folds of the side gussets, standing up by a half panel.
	strip.name, strip.quantity = "foot gusset run", 1
	strip.breadth = m.exact("foot gusset", units.T("clear width", run.clear.W))
	joints = m.long(strip)
	where := rect(f.half, run.height-f.half, run.clear.W, f.half)
	if m.Len() == 0 && !m.trial {
		m.runPanels(2, run, run.clear.W, where)
	}
	m.lay(where, 2*run.n)
	m.lay(rect(f.half, run.height-f.tab, run.clear.W, f.tab), 2)
	if len(joints) > 0 {
		if len(m.d.joints) == 0 {
			m.jointHidden(run)
		}
		m.lay(rect(f.half, run.height-run.joint, run.clear.W, run.joint), len(joints))
	}
}

// jointHidden checks the tab of a joint.
func (m *maker) jointHidden(run *gussetRun) {
	m.atMost("jointtab", run.joint, run.half, ", which the half panel that it is glued to is wide")
}

// runLands adds what lands keep open: between two pockets a leaf lies in each,
// which is thinner.
func (m *maker) runLands(top units.Length, run *gussetRun) {
	room := times(run.n-1, run.land-m.d.paper.Caliper)
	if room <= 0 {
		return
	}
	// At the folds, and where the half panels lie.
	w, h := run.width, run.half
	for _, r := range [...]units.Rect{
		rect(0, top, h, run.depth), rect(w-h, top, h, run.depth), rect(h, top+run.depth-run.foot, w-2*h, run.foot),
	} {
		if !r.Empty() {
			m.d.stack = append(m.d.stack, sheet{rect: r, thick: room})
		}
	}
}

// runPanels adds the half panels of a strip, which lie at one place.
func (m *maker) runPanels(which int, run *gussetRun, across units.Length, closed units.Rect) {
	chain := m.d.chains[which]
	at, x, number := 0, run.tab, 1
	for i := range run.n {
		for range 2 {
			for at+1 < len(chain) && chain[at+1].from <= x {
				at++
			}
			l := chain[at]
			half := m.panel("half panel", l.piece, number, rect(x-l.from, 0, run.half, across), closed)
			half.copy, half.chain = l.copy, which+1
			half.lift = 1 + i // the leaves
			x += run.half
			number++
		}
		if run.land > 0 {
			x += run.land
			number++
		}
	}
}

// runLines returns the scores of a run and the folds at which it can be
// joined: those at the outer edge, between two pockets.
func runLines(n int, half, land, tab units.Length, first score.Fold) ([]score.Line, []hiding) {
	lines := make([]score.Line, 0, 3*n)
	hide := make([]hiding, 0, n)
	at := tab
	add := func(f score.Fold) {
		lines = append(lines, score.Line{Axis: score.Upright, At: at, Fold: f})
	}
	add(first)
	for i := range n {
		at += half
		add(first.Other())
		at += half
		add(first)
		if i == n-1 {
			break
		}
		if land > 0 {
			at += land
			add(first)
		}
		hide = append(hide, hiding{len(lines), at})
	}
	return lines, hide
}

func (g GussetRun) seen(p panels, all []seen) []seen {
	// Of the half panels the outer sides.
	return p.sees(p.sees(all, "leaves", "leaf", false), "gussets", "half panel", false)
}

// The run is put together leaf by leaf, on the back one: the strips are glued by
// their first tab, folded up over it to the place of the next leaf, and over
// that when it is dry.
func (g GussetRun) steps(d *design, o *order) {
	const leaf, back = 0, 1 // pieces
	for _, chain := range d.chains {
		o.join(chain)
		o.creaseChain(chain)
		o.do(work.TaskLay, work.TurnOver{What: o.one(chain[0].piece, chain[0].copy)})
	}
	size, tab := d.pieces[back].blank.Size(), tabOf(d)
	names := []string{"left gussets", "right gussets", "foot gussets"}
	var strips []work.Object
	for i, chain := range d.chains {
		strip := o.one(chain[0].piece, chain[0].copy)
		if names[i] += o.apart(); len(chain) == 1 { // it is called as it was cut
			names[i] = strip.Name
		}
		strips = append(strips, o.links(chain)...)
		area, _ := tabsOf(d.pieces[chain[0].piece].blank)
		fix := work.Fix{What: strip, On: o.on(back, 0), At: at(0, 0), Up: score.Back, Areas: []units.Rect{area}, Size: area.Size()}
		fix.What.Name = "first tab of " + word.The(names[i])
		switch i {
		case 1:
			fix.At.Across, fix.Quarters = score.Right, 2
		case 2: // along the foot
			fix.At = work.At{Across: score.Left, X: d.half, Along: score.Tail}
			fix.Quarters, fix.Size = 3, area.Size().Turned()
		}
		o.fix(fix)
	}
	o.dry("the tabs", append(strips, o.one(back, 0))...)
	pitch, total := 2*d.half+g.Land, d.chainLength()
	glued := glueOf(d.pieces[leaf].blank)
	for i := range int(d.pockets) {
		from := tab + times(i, pitch)
		areas, x, to, part := glued, from+d.half, from+d.half, "uppermost half panel of " // the second one of this pocket
		if i == int(d.pockets)-1 {
			x, to, part = total-tab, total, "last tab of "
			areas = []units.Rect{rect(0, 0, tab, size.H), rect(size.W-tab, 0, tab, size.H), rect(d.half, size.H-tab, size.W-2*d.half, tab)}
		}
		for _, chain := range d.chains {
			o.foldBetween(chain, from-g.Land, to)
		}
		this := o.one(leaf, i)
		var folded []int // all of them, or one would come to lie on the leaf
		for _, strip := range strips {
			folded = o.rest(folded, &strip)
		}
		o.fixAfter(folded, whole(work.Fix{What: this, On: o.panelAt(d.chains[0], x, part+word.The(names[0])), At: at(0, 0), Areas: areas[:1], Size: size}))
		for c := range d.chains[1:] {
			o.stick(this, score.Back, o.panelAt(d.chains[c+1], x, part+word.The(names[c+1])), areas[c+1])
		}
		o.dry(word.The(this.Name), append(strips, this, o.one(back, 0))...)
	}
	// Put together it goes to its place as one, so that no strip lies open over
	// what is beside it.
	o.base(whole(work.Fix{What: o.one(back, 0), At: work.At{Across: score.Left, Along: score.Tail}, Size: size}))
	o.dry("the back leaf", o.one(back, 0))
	o.insert()
}

// tabOf returns the end tab of a design's first chain.
func tabOf(d *design) units.Length {
	tab, _ := tabsOf(d.pieces[d.chains[0][0].piece].blank)
	return tab.Size().W
}

// chainLength returns the length of the first chain, joined.
func (d *design) chainLength() units.Length {
	last := d.chains[0][len(d.chains[0])-1]
	return last.from + d.pieces[last.piece].blank.Size().W
}
