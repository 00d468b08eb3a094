package pocket

import (
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Concertina is a guard folded to and fro along the spine, with a leaf glued
// to each fold that stands up. With folds f deep, n leaves, lands s between
// them and end tabs a it is 2fn + (n − 1)s + 2a long. The tabs are glued by
// their back, on either side of the folds.
//
// On a panel it lies with all leaves turned to the right: the footprint runs
// from the end of the left tab to the edge of the last leaf. OnSpine says that
// it stands on a spine instead, as the leaves of a book do: see there.
type Concertina struct {
	Content Content // what is mounted on each leaf; none: the most that Leaf takes
	Count   int     // how many of it on a leaf, both sides together; 0 is 1
	// Margin is what shows of a leaf round its content; 0 is 1/8 in or 3 mm
	// (common practice, no published source), [units.None] nothing.
	Margin units.Length
	// Leaves is how many there are, up to 500; 0 is as many as Spine takes and
	// the paper allows, or 3.
	Leaves int
	// Leaf is the size of a leaf at hand, its guarded edge included; a side of
	// 0 is the content with Margin round it.
	Leaf units.Size
	// Fold is how deep a fold is; 0 is 3/16 in or 4.5 mm, or what the ruler has
	// next below that. Folds should be at
	// most 1/8 to 3/16 in deep (Roberts & Etherington, Bookbinding and the
	// Conservation of Books, 1982, "concertina guard"): deeper ones get a
	// warning.
	Fold units.Length
	// Land is how far the folds stand apart; 0 is as much as the content is thicker
	// than the fold's two layers, up on the ruler and then at least [units.Shortest], so
	// that leaves with contents lie no thicker than they are glued; [units.None] not at all.
	Land     units.Length
	Tab      units.Length // at both ends, glued to the boards or the liner; 0 is 1/2 in or 10 mm (common practice, no published source)
	JointTab units.Length // 0 is 1/2 in or 10 mm (Korger, as for a FoldedAccordion), but no more than a fold
	Spine    units.Length // room that the full guard must fit; 0: no limit
	// OnSpine says that the guard stands on a spine, its leaves between the
	// covers when the folio is closed. Then its footprint is what the folds
	// take of the spine, across which the full guard must fit, and its
	// thickness is how far the leaves stand up from there: their width. The
	// tabs lie on either side of the folds, see [Design.Tabs], and on a narrow spine
	// over the hinges.
	OnSpine bool
}

// Name returns "concertina guard".
func (c Concertina) Name() string { return "concertina guard" }

func (c Concertina) at(room units.Size, l *check.List) (Kind, [2]string) {
	fields := over(l, "leaf", &c.Leaf, room)
	return c, fields
}

func (c Concertina) holds() Content { return c.Content }

func (c *Concertina) held() *Content { return &c.Content }

func (c Concertina) filled(u defaults) Concertina {
	c.Count, c.Margin, c.Fold, c.Tab = countOf(c.Count, c.Content), u.margin(c.Margin), u.guardFold(c.Fold), u.tab(c.Tab)
	c.Leaves = pockets(c.Leaves, c.Spine)
	return c
}

// guardFold returns how deep the folds are; by default no deeper than print
// allows, and on the ruler where that leaves something.
func (u defaults) guardFold(given units.Length) units.Length {
	if given != 0 {
		return given
	}
	usual := concertinaMost
	if u.n == units.MetricDecimal {
		usual = 9 * mm / 2
	}
	if on := u.r.Down(usual); on >= units.Shortest {
		return on
	}
	return usual
}

// concertinaMost is the deepest fold that print allows.
const concertinaMost = 3 * in / 16

// Design works the guard and its leaves out.
func (c Concertina) Design(p Paper, r units.Ruler) (Design, error) { return c.designed(c, p, r) }

func (c Concertina) designed(own Kind, p Paper, r units.Ruler) (Design, error) {
	if c.Leaves == 0 {
		c.Leaves = pocketsFor(c.Spine, func(n int) (Design, error) {
			c := c
			c.Leaves, c.Spine = n, 0
			return c.design(newTrial(own, p, r))
		})
	}
	return c.design(newLarge(own, p, r))
}

func (c Concertina) design(m *maker) (Design, error) {
	h := m.hold(c.Content, c.Count, Ease{})
	n := m.number("leaves", c.Leaves)
	for _, f := range [...]struct {
		path string
		l    units.Length
	}{
		{"leaf.w", c.Leaf.W}, {"leaf.h", c.Leaf.H}, {"fold", c.Fold},
		{"tab", c.Tab}, {"jointtab", c.JointTab}, {"spine", c.Spine},
	} {
		m.allowance(f.path, f.l)
	}
	m.optional("margin", c.Margin)
	m.optional("land", c.Land)
	if !h.given && (c.Leaf.W == 0 || c.Leaf.H == 0) {
		m.Malformed("leaf", check.Missing, "neither content nor leaf", "the size of a leaf, or a content to carry")
	}
	if m.Len() > 0 {
		return m.finish()
	}
	g := guard{hold: h, n: n, margin: m.matMargin(c.Margin), fold: m.guardFold(c.Fold), tab: m.tab(c.Tab), land: m.or(c.Land, 0, 0)}
	m.guardLeaf(c, &g)
	caliper := m.d.paper.Caliper
	if c.Land == 0 && h.stack > 2*caliper {
		// Leaf and content against leaf and two layers of the fold.
		g.land = max(units.Shortest, m.sum("land", units.Up, units.T("content", h.stack), units.N(-2, "caliper of the fold", caliper)).Length())
	}
	if g.fold > concertinaMost {
		m.warn(unwise{path: "fold", code: Unusual, got: g.fold, want: concertinaMost, lengths: [2]units.Length{g.fold, concertinaMost},
			text: [3]string{"folds ", " deep; a concertina guard's are at most "}})
	}
	m.guardPieces(c, &g)
	// What the guard takes across a spine: its folds and lands, 2n c + (n − 1)s,
	// or 3n c with the leaves' edges, a layer more for each joint, or the leaves with
	// what they carry.
	folds := times(2*n+len(m.d.joints), caliper)
	m.d.across = max(folds+times(n, caliper), folds+times(n-1, g.land), times(n, caliper+h.stack))
	m.d.land, m.d.tab, m.d.guarded = g.land, g.tab, true
	if c.OnSpine {
		m.guardOnSpine(&g)
	} else {
		m.guardOnPanel(&g)
	}
	m.d.pockets = int32(n)
	if c.Spine > 0 && c.OnSpine && m.d.across > c.Spine {
		m.Short("spine", check.TooSmall, m.n, c.Spine, m.r.Up(m.d.across), "for "+itoa(n)+" of them when full")
	}
	if !c.OnSpine {
		m.d.across = 0
		m.fitSpine(c.Spine)
	}
	if m.Len() == 0 && !m.trial {
		m.guardPanels(c, &g)
	}
	return m.finish()
}

// A guard is a concertina worked out.
type guard struct {
	hold
	n                       int
	margin, fold, tab, land units.Length
	leaf, most              units.Size
	leafPiece               int
}

// root returns where fold i leaves the base, from the first one.
func (g *guard) root(i int) units.Length { return times(i, g.land) }

// guardLeaf works out the leaf.
func (m *maker) guardLeaf(c Concertina, g *guard) {
	g.leaf = c.Leaf
	if g.given {
		w := m.need(g.leaf.W > 0, "leaf width needed", units.T("content", g.content.Size.W), units.N(2, "margin", g.margin), units.T("guard", g.fold))
		tall := m.need(g.leaf.H > 0, "leaf height needed", units.T("content", g.content.Size.H), units.N(2, "margin", g.margin))
		if g.leaf.W == 0 {
			g.leaf.W = w
		} else if g.leaf.W < w {
			m.Short("leaf.w", check.TooSmall, m.n, g.leaf.W, m.r.Up(w), "for the content, the margin and the guard")
		}
		if g.leaf.H == 0 {
			g.leaf.H = tall
		} else if g.leaf.H < tall {
			m.Short("leaf.h", check.TooSmall, m.n, g.leaf.H, m.r.Up(tall), "for the content and the margin")
		}
	}
	var larger units.Length
	if c.Leaf.W == 0 {
		larger = g.leaf.W - g.fold - g.content.Size.W
	}
	if c.Leaf.H == 0 {
		larger = max(larger, g.leaf.H-g.content.Size.H)
	}
	if larger > 0 {
		m.shows(g.margin, larger)
	}
	g.most = units.Size{W: g.leaf.W - g.fold - 2*g.margin, H: g.leaf.H - 2*g.margin}
	if m.Len() == 0 {
		m.room("leaf.w", g.leaf.W, g.most.W, "for the guard, the margin and something to carry")
		m.room("leaf.h", g.leaf.H, g.most.H, "for the margin and something to carry")
	}
}

// guardPieces makes the guard and its leaves. Folded, it lies on its last tab:
// each fold is turned under, so that the leaves lie to the right.
func (m *maker) guardPieces(c Concertina, g *guard) {
	width := m.exact("leaf width", units.T("leaf", g.leaf.W))
	high := m.exact("leaf height", units.T("leaf", g.leaf.H))
	total := m.exact("guard", units.N(2*g.n, "fold", g.fold), units.N(g.n-1, "land", g.land), units.N(2, "tab", g.tab))
	lines, hide := runLines(g.n, g.fold, g.land, g.tab, score.Valley)
	folds := make([]crease, len(lines))
	for i, l := range lines {
		folds[i] = crease{axis: score.Upright, at: l.At, moves: score.Right, way: work.Away}
		if i == 0 || g.land > 0 && i%3 == 0 {
			// From the tab or a land to the fold that stands up there, which
			// lies flat with the leaves.
			folds[i].way, folds[i].end = work.Towards, creased
		}
	}
	joint := m.jointTab(c.JointTab, g.fold)
	m.expect(2, 2*g.n, 17)
	m.d.joints = m.long(longStrip{name: "guard", quantity: 1, total: total, breadth: high, lines: lines, hide: hide, folds: folds, tab: joint,
		edges: []score.Tab{{Edge: score.Left, Depth: g.tab, Side: score.Back}, {Edge: score.Right, Depth: g.tab, Side: score.Back}}})
	if len(m.d.joints) > 0 {
		m.atMost("jointtab", joint, g.fold, ", which the fold that hides it is deep")
	}
	g.leafPiece = m.piece("leaf", g.n, width, high, score.Draft{Glue: []score.Glue{{Area: rect(0, 0, g.fold, g.leaf.H), Side: score.Back}}})
}

// guardOnPanel lays the guard on a panel, its leaves turned to the right.
func (m *maker) guardOnPanel(g *guard) {
	h, last := g.leaf.H, g.tab+g.root(g.n-1)
	m.d.closed = units.Size{W: last + max(g.leaf.W, g.tab), H: h}
	m.d.open = m.d.closed
	m.d.open.W += g.leaf.W - g.tab // leaves turned to the left
	m.lay(rect(0, 0, last, h), 1)  // tab and lands
	m.lay(rect(last, 0, g.tab, h), 1)
	step := 1
	if g.land == 0 { // all in one place
		step = g.n
	}
	for i := 0; i < g.n; i += step {
		x := g.tab + g.root(i)
		m.lay(rect(x, 0, g.leaf.W, h), step)
		m.lay(rect(x, 0, g.fold, h), 2*step)
		place := rect(x+g.fold+g.margin, g.margin, g.most.W, g.most.H)
		in := m.hasPlace(place, g.most, g.most, max(FlatLimit, g.stack), g.count)
		in.mounted, in.hidden = true, i > 0 // the first leaf lies on top
		if g.given {
			m.fill(place, times(step, g.stack))
		}
	}
	for _, j := range m.d.joints {
		m.lay(rect(g.tab+g.root(j.fold/3), 0, j.tab, h), 1)
	}
}

// guardOnSpine stands the guard on a spine.
func (m *maker) guardOnSpine(g *guard) {
	all := units.Size{W: max(m.d.across, units.Shortest), H: g.leaf.H}
	m.d.closed = all
	where := units.RectAt(units.Point{}, all)
	m.d.stack = append(m.d.stack, sheet{rect: where, thick: g.leaf.W})
	for i := range g.n {
		in := m.hasPlace(where, g.most, g.most, max(FlatLimit, g.stack), g.count)
		in.mounted, in.hidden = true, true
		in.stands, in.clear = true, units.Size{W: g.root(i) + g.fold + g.margin, H: g.margin}
	}
}

// guardPanels adds leaves and the folds that they are glued to.
func (m *maker) guardPanels(c Concertina, g *guard) {
	per := 2
	if g.land > 0 {
		per = 3
	}
	on := units.RectAt(units.Point{}, g.leaf)
	chain, at := m.d.chains[0], 0
	for i := range g.n {
		closed := on.Moved(units.Point{X: g.tab + g.root(i)})
		if c.OnSpine {
			closed = rect(g.root(i), 0, 0, g.leaf.H) // it stands upright
		}
		leaf := m.panel("leaf", g.leafPiece, 0, on, closed)
		leaf.copy, leaf.lift = i, 1+2+g.below(i)
		x := g.tab + times(i, 2*g.fold+g.land)
		for at+1 < len(chain) && chain[at+1].from <= x {
			at++
		}
		closed = rect(closed.Min.X, 0, min(g.fold, closed.Size().W), g.leaf.H)
		fold := m.panel("fold", chain[at].piece, 1+per*i, rect(x-chain[at].from, 0, g.fold, g.leaf.H), closed)
		fold.copy, fold.chain, fold.fixed = chain[at].copy, 1, true
		fold.lift = 1 + 1 + g.below(i) // right under its leaf
	}
}

func (c Concertina) seen(p panels, all []seen) []seen {
	return p.sees(p.sees(all, "leaves", "leaf", false), "leaves when turned", "leaf", true)
}

// Tabs returns how wide each tab of a guard is that stands on a spine, and what its folds
// take between them: 2n c + (n − 1)s, and a layer more for each joint. The left one ends at
// the left edge of the closed footprint, where the folds begin. Of everything else both are 0.
//
//go:noinline
func (d Design) Tabs() (tab, folds units.Length) {
	w := d.of()
	if w.guarded && w.across > 0 {
		n := int(w.pockets)
		tab, folds = w.tab, times(2*n+len(w.joints), w.paper.Caliper)+times(n-1, w.land)
	}
	return tab, folds
}

// below returns how many layers of the leaves and folds that follow lie under
// those of leaf i, where most do.
func (g *guard) below(i int) int {
	if g.land == 0 {
		return 3 * (g.n - 1 - i)
	}
	// Where the last fold stands up, all leaves lie, and those folds that reach
	// so far.
	rest := g.n - 1 - i
	reach := (g.fold-1).Nanometres()/g.land.Nanometres() + 1
	return rest + 2*int(min(int64(rest), reach))
}

// Contents are mounted on the leaves, and the leaves on the guard that lies on
// its base, the last one first.
func (c Concertina) steps(d *design, o *order) {
	chain := d.chains[0]
	o.join(chain)
	o.foldChain(chain, score.Upright, false)
	leafPiece, leaves := len(d.pieces)-1, int(d.pockets)
	size := d.pieces[leafPiece].blank.Size()
	glue := glueOf(d.pieces[leafPiece].blank)
	fold := glue[0].Size().W
	if content, ok := o.made.Content(); ok {
		name := content.name()
		if n := d.places[0].capacity.Count; n > 1 {
			name = itoa(n) + " x " + name
		}
		x := fold + (size.W - fold - content.Size.W).Half(units.Down)
		y := (size.H - content.Size.H).Half(units.Down)
		var fixes []work.Action
		for i := range leaves {
			what := o.mounted(content, i)
			what.Name = name
			fixes = append(fixes, o.taped(what, o.on(leafPiece, i), at(x, y), content.Size))
		}
		o.do(work.TaskGlue, fixes...)
	}
	first, last := chain[0], chain[len(chain)-1]
	left, _ := tabsOf(d.pieces[first.piece].blank)
	_, right := tabsOf(d.pieces[last.piece].blank)
	tab, land := d.tab, d.land
	fix := work.Fix{What: o.one(first.piece, first.copy), At: at(0, 0), Areas: []units.Rect{left}, Size: left.Size()}
	if len(chain) == 1 && !c.OnSpine {
		fix.Areas = append(fix.Areas, right)
		fix.Size.W = tab + times(leaves-1, land) + max(fold, tab) // as it lies
		o.base(whole(fix))
	} else {
		end := work.Stick{What: o.one(last.piece, last.copy), Area: right, Side: score.Back, Standing: c.OnSpine}
		fix.What.Name = "first tab of the guard" + o.apart()
		var rubs [2][]work.Action
		if c.OnSpine {
			fix.At.X = -tab
			rubs[0] = o.rub(fix.What, left.Moved(units.Point{X: -tab}))
			last := end.What
			last.Name = "last tab of the guard" + o.apart()
			_, folds := o.made.Tabs()
			rubs[1] = o.rub(last, units.RectAt(units.Point{X: folds}, right.Size()))
		}
		o.baseRubbed(rubs[0], fix)
		o.stickUnder(end, rubs[1])
	}
	o.dry("the guard", o.links(chain)...)
	for i := leaves - 1; i >= 0; i-- {
		fold := o.panelAt(chain, tab+times(i, 2*fold+land), "fold "+itoa(i+1)+" of the guard"+o.apart())
		o.fix(whole(work.Fix{What: o.one(leafPiece, i), On: fold, At: at(0, 0), Areas: glue, Size: size}))
	}
	o.dry("the leaves", o.all(leafPiece))
}
