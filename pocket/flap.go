package pocket

import (
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Flap is a hinged leaf: a leaf that is hinged at one edge and opens away from
// it. In texts it is called that, since flap alone is a board of the case. It is
// hinged by a tab that is glued down under it; over something thick it has a
// spine of its own between tab and leaf. It may carry a mat, a picture or
// both.
type Flap struct {
	Content Content // what is mounted on it
	Mat     Mat     // what lies between the leaf and the content
	// Margin is what shows of the leaf round the mat, or round the content
	// without one; 0 is 1/8 in or 3 mm (common practice, no published source).
	Margin units.Length
	Leaf   units.Size // size at hand; zero is mat or content and the margin
	// Hinge is the edge at which the leaf is hinged; the zero value is the
	// head.
	Hinge score.Edge
	Tab   units.Length // depth of the hinge tab; 0 is 1/2 in or 10 mm (common practice, no published source)
	// Over is how thick that is which the leaf closes over; 0 is nothing.
	Over units.Length
	// Spine is the width of a spine of its own; 0 is none where Over is no
	// more than two calipers, which one score takes, and otherwise Over.
	Spine units.Length
}

// Name returns "hinged leaf".
func (f Flap) Name() string { return "hinged leaf" }

func (f Flap) at(room units.Size, l *check.List) (Kind, [2]string) {
	fields := over(l, "leaf", &f.Leaf, room)
	return f, fields
}

func (f Flap) holds() Content { return f.Content }

func (f *Flap) held() *Content { return &f.Content }

func (f Flap) filled(u defaults) Flap {
	f.Margin = u.margin(f.Margin)
	return f
}

// Design works the leaf out: one blank with a score for the tab, and a second
// one for the spine.
func (f Flap) Design(p Paper, r units.Ruler) (Design, error) { return f.designed(f, p, r) }

func (f Flap) designed(own Kind, p Paper, r units.Ruler) (Design, error) {
	m := newMaker(own, p, r)
	h := m.hold(f.Content, 0, Ease{})
	m.checkMat(f.Mat)
	m.optional("margin", f.Margin)
	m.allowance("tab", f.Tab)
	m.allowance("over", f.Over)
	m.allowance("spine", f.Spine)
	if f.Hinge > score.Right {
		m.Malformed("hinge", check.Unknown, itoa(int(f.Hinge)), "head, tail, left or right")
	}
	atHand := f.Leaf != units.Size{}
	if atHand {
		m.Size("leaf", f.Leaf)
	} else if !h.given && f.Mat == (Mat{}) {
		m.Malformed("leaf", check.Missing, "neither leaf, mat nor content", "a size, or something to carry")
	}
	if m.Len() > 0 {
		return m.finish()
	}
	margin := m.matMargin(f.Margin)
	leaf := m.flapLeaf(f, h, margin)
	spine := f.Spine
	if spine == 0 && f.Over > 2*m.d.paper.Caliper {
		spine = m.sum("spine", units.Up, units.T("what it closes over", f.Over)).Length()
	}
	tab := m.tab(f.Tab)
	across := leaf.W
	if f.level() {
		across = leaf.H
	}
	if f.Tab == 0 {
		tab = min(tab, across)
	}
	m.atMost("tab", tab, across, ", so that the leaf covers its tab")
	if m.Len() > 0 {
		return m.finish()
	}
	m.flapPiece(f, leaf, tab, spine)
	m.carry(0, margin, f.Mat)
	if m.Len() > 0 {
		return m.finish()
	}
	most := leaf.Grow(-margin)
	if f.Mat != (Mat{}) {
		most = f.Mat.Size
	}
	if !most.Empty() {
		place := rect((leaf.W - most.W).Half(units.Down), (leaf.H - most.H).Half(units.Down), most.W, most.H)
		m.hasPlace(place, most, most, max(FlatLimit, h.stack), 1).mounted = true
		m.fill(place, h.stack)
	}
	if spine > 0 && spine < f.Over {
		m.warn(unwise{path: "spine", code: NeedsTwoScores, got: spine, want: m.r.Up(f.Over), lengths: [2]units.Length{spine, f.Over},
			text: [3]string{"the spine of ", " is narrower than what the leaf closes over, "}})
	}
	return m.finish()
}

// level reports whether the leaf is hinged at the head or the tail.
func (f Flap) level() bool { return f.Hinge == score.Head || f.Hinge == score.Tail }

// flapLeaf returns the size of the leaf, from what it carries or at hand.
func (m *maker) flapLeaf(f Flap, h hold, margin units.Length) units.Size {
	label, carried := "content", h.content.Size
	if f.Mat != (Mat{}) {
		label, carried = "mat", f.Mat.Size
		if h.given {
			m.atMost("content.size.w", h.content.Size.W, f.Mat.Size.W, ", which the mat is wide")
			m.atMost("content.size.h", h.content.Size.H, f.Mat.Size.H, ", which the mat is high")
		}
	}
	leaf := f.Leaf
	if leaf == (units.Size{}) {
		leaf.W = m.sum("leaf width", units.Up, units.T(label, carried.W), units.N(2, "margin", margin)).Length()
		leaf.H = m.sum("leaf height", units.Up, units.T(label, carried.H), units.N(2, "margin", margin)).Length()
		m.shows(margin, max(leaf.W-carried.W, leaf.H-carried.H))
		return leaf
	}
	if h.given || f.Mat != (Mat{}) {
		need := carried.Grow(margin)
		if need.W > leaf.W {
			m.Short("leaf.w", check.TooSmall, m.n, leaf.W, m.r.Up(need.W), "for the "+label+" and the margin")
		}
		if need.H > leaf.H {
			m.Short("leaf.h", check.TooSmall, m.n, leaf.H, m.r.Up(need.H), "for the "+label+" and the margin")
		}
	}
	return leaf
}

// flapPiece makes the blank, with its panels and layers. It lies with its face
// up: the leaf's outside, when closed.
func (m *maker) flapPiece(f Flap, leaf units.Size, tab, spine units.Length) {
	u := leaf.W // away from the hinge
	if f.level() {
		u = leaf.H
	}
	reach := m.exact("across the hinge", units.T("tab", tab), units.T("spine", spine), units.T("leaf", u))
	var w, tall *units.Working
	if f.level() {
		w, tall = m.exact("width", units.T("leaf", leaf.W)), reach
	} else {
		w, tall = reach, m.exact("height", units.T("leaf", leaf.H))
	}
	blank := units.Size{W: w.Length(), H: tall.Length()}
	on := hinged(f.Hinge)
	draw := score.Draft{Tabs: []score.Tab{{Edge: f.Hinge, Depth: tab}}}
	lines := []score.Line{on.line(blank, tab, score.Mountain)}
	hinge := flat
	if spine > 0 {
		lines = append(lines, on.line(blank, tab+spine, score.Mountain))
		hinge = upright
	}
	draw.Lines = lines
	at := m.piece("leaf", 1, w, tall, draw)
	p := &m.d.pieces[at]
	p.folds = m.folds
	for _, l := range lines {
		p.folds = append(p.folds, crease{axis: l.Axis, at: l.At, moves: f.Hinge, way: work.Away, end: hinge})
	}
	m.d.closed = leaf
	if f.level() {
		m.d.open.H = blank.H
	} else {
		m.d.open.W = blank.W
	}
	leafOn := units.RectAt(units.Point{}, leaf)
	m.lay(leafOn, 1)
	m.lay(on.span(leaf, 0, tab), 1)
	// Panels are counted from the left or the head.
	order := []int{len(lines), 1, 0}
	if f.Hinge == score.Tail || f.Hinge == score.Right {
		order = []int{0, len(lines) - 1, len(lines)}
	}
	m.panel("leaf", at, order[0], on.span(blank, tab+spine, tab+spine+u), leafOn)
	if spine > 0 {
		m.panel("spine", at, order[1], on.span(blank, tab, tab+spine), on.span(leaf, 0, 0))
	}
	m.panel("tab", at, order[2], on.span(blank, 0, tab), on.span(leaf, 0, tab))
}

func (f Flap) seen(p panels, all []seen) []seen {
	return p.sees(p.sees(all, "leaf when closed", "leaf", false), "leaf when opened", "leaf", true)
}

// The tab is glued under the leaf. One with a spine is glued as it lies
// opened, its face down, and closes over what is thick.
func (f Flap) steps(d *design, o *order) {
	flap := o.one(0, 0)
	folds := slices.Clone(d.pieces[0].folds)
	leaf, tab := d.panels[0], d.panels[len(d.panels)-1]
	spined := len(folds) > 1
	mount := func() {
		on, offset := o.on(0, 0), units.Point{}
		if spined { // it still lies flat, its face up
			offset = leaf.blank.Min
		}
		o.mountMat(on, offset)
		o.mount(on, offset)
	}
	fix := work.Fix{What: flap, Panel: work.All, At: at(0, 0), Areas: []units.Rect{tab.blank}, Size: d.closed}
	o.fold(flap, folds...)
	if !spined {
		o.base(fix)
		o.dry("the tab", flap)
		mount()
		return
	}
	mount()
	o.do(work.TaskLay, work.TurnOver{What: flap})
	fix.What.Name = "tab of the leaf" + o.apart()
	fix.Panel, fix.Up, fix.At, fix.Size = tab.number, score.Back, at(tab.closed.Min.X, tab.closed.Min.Y), tab.closed.Size()
	if f.level() { // turned over left to right, its leaf still lies the wrong way
		fix.Quarters = 2
	}
	o.base(fix)
	o.dry("the tab", flap)
	// The tab stays now, and the leaf turns over it, from the nearer fold on.
	for i := range folds {
		folds[i].moves, folds[i].way = opposite(f.Hinge), work.Towards
	}
	o.shut(flap, folds...)
}

// opposite returns the edge across from an edge.
func opposite(e score.Edge) score.Edge {
	return [...]score.Edge{score.Head: score.Tail, score.Tail: score.Head, score.Left: score.Right, score.Right: score.Left}[e]
}

// hinged maps distances from a hinge to places on a rectangle.
type hinged score.Edge

// line returns the score line at distance u from the hinge's edge.
func (e hinged) line(s units.Size, u units.Length, f score.Fold) score.Line {
	switch score.Edge(e) {
	case score.Head:
		return score.Line{Axis: score.Level, At: u, Fold: f}
	case score.Tail:
		return score.Line{Axis: score.Level, At: s.H - u, Fold: f}
	case score.Right:
		return score.Line{Axis: score.Upright, At: s.W - u, Fold: f}
	}
	return score.Line{Axis: score.Upright, At: u, Fold: f}
}

// span returns the part of a rectangle between two distances from the hinge's
// edge.
func (e hinged) span(s units.Size, from, to units.Length) units.Rect {
	switch score.Edge(e) {
	case score.Head:
		return rect(0, from, s.W, to-from)
	case score.Tail:
		return rect(0, s.H-to, s.W, to-from)
	case score.Right:
		return rect(s.W-to, 0, to-from, s.H)
	}
	return rect(from, 0, to-from, s.H)
}
