package pocket

import (
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
type GussetRun struct {
	Content  Content // of each pocket
	Count    int
	Ease     Ease
	StandOut units.Length // as for a Slip
	Depth    Share        // as for a Slip
	// Pockets is how many there are, up to 500; 0 is as many as Spine takes and
	// the paper allows, or 3.
	Pockets int
	Opening units.Length // of each pocket, as for a Gusset
	Half    units.Length // as for a Gusset
	Tab     units.Length // at both ends; 0 is 3/8 in or 10 mm
	Land    units.Length // between the pockets; 0: none
	// OpenFoot leaves out the gusset strip along the foot.
	OpenFoot bool
	JointTab units.Length // 0 is 1/2 in or 10 mm, but no more than a half panel
	Spine    units.Length // room that the full run must fit; 0: no limit
	Place    units.Size   // room at hand for leaves and what stands out
	Notch    Notch        // in every leaf but the back
}

// Name returns "gusset run".
func (g GussetRun) Name() string { return "gusset run" }

// Design works the run out.
func (g GussetRun) Design(p Paper, r units.Ruler) (Design, error) {
	given := g
	if g.Pockets == 0 {
		g.Pockets = pocketsFor(g.Spine, func(n int) (Design, error) {
			g := g
			g.Pockets, g.Spine = n, 0
			return g.Design(p, r)
		})
	}
	m := newMaker(given, p, r)
	h := m.hold(g.Content, g.Count, g.Ease)
	depth := m.depth(g.Depth, g.StandOut)
	n := m.number("pockets", g.Pockets)
	m.Allowance("land", g.Land)
	m.Allowance("spine", g.Spine)
	m.Allowance("jointTab", g.JointTab)
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
	foot := f.half
	if g.OpenFoot {
		foot = 0
	}
	l := m.leaf(leafWish{hold: h, depth: depth, place: g.Place, sides: true, foot: foot, fan: f})
	if m.Len() > 0 {
		return m.finish()
	}
	w, d := l.width, l.depth
	jointTab := m.jointTab(g.JointTab, f.half)
	m.atMost("tab", f.tab, w.Half(units.Down), "half the leaf")
	if !g.OpenFoot {
		m.atMost("tab", f.tab, d, "the height of the leaf")
	}
	m.d.closed = units.Size{W: w, H: l.height}
	m.d.half = f.half
	m.d.open = m.d.closed

	width := m.exact("leaf width", units.T("leaf", w))
	high := m.exact("leaf height", units.T("depth", d))
	var front score.Drawing
	cut := m.notch(g.Notch, &front, score.Head, (w - l.clear.W).Half(units.Down), l.clear.W, d)
	leaves := n + 1
	if cut.Width > 0 {
		leaves = n
	}
	at := m.piece("leaf", leaves, width, high, front)
	if leaves == n {
		m.piece("back leaf", 1, width, high, score.Drawing{})
	}
	where := rect(0, l.height-d, w, d)
	m.panel("leaf", at, rect(0, 0, w, d), where)
	m.lay(where, n+1)

	total := m.exact("gusset run", units.N(2*n, "half panel", f.half), units.N(n-1, "land", g.Land), units.N(2, "tab", f.tab))
	lines, hide := runLines(n, f.half, g.Land, f.tab, score.Mountain)
	tabs := []score.Tab{{Edge: score.Left, Depth: f.tab}, {Edge: score.Right, Depth: f.tab}}
	strip := longStrip{name: "side gusset run", quantity: 2, total: total, breadth: high, lines: lines, hide: hide,
		tab: jointTab, edges: tabs}
	first, joints := m.long(strip)
	m.d.joints = joints
	if first < len(m.d.pieces) {
		m.panel("half panel", first, rect(f.tab, 0, f.half, d), rect(0, l.height-d, f.half, d))
	}
	m.layGussets(w, l.height-d, d, f, 2*n)
	if len(joints) > 0 {
		m.atMost("jointTab", jointTab, f.half, "a half panel, which it is glued to")
		m.lay(rect(0, l.height-d, jointTab, d), len(joints))
		m.lay(rect(w-jointTab, l.height-d, jointTab, d), len(joints))
	}
	if !g.OpenFoot {
		// Between the folds of the side gussets, standing up by a half panel.
		strip.name, strip.quantity = "foot gusset run", 1
		strip.breadth = m.exact("foot gusset", units.T("clear width", l.clear.W))
		_, joints = m.long(strip)
		footAt := rect(f.half, l.height-f.half, l.clear.W, f.half)
		m.lay(footAt, 2*n)
		m.lay(rect(f.half, l.height-f.tab, l.clear.W, f.tab), 2)
		if len(joints) > 0 {
			m.lay(rect(f.half, l.height-jointTab, l.clear.W, jointTab), len(joints))
		}
	}
	m.hasPlace(l.at, l.clear, l.most, f.opening, h.count)
	m.d.pockets = n
	m.fill(l.at, times(n, fullOf(h, f)))
	m.fitSpine(g.Spine)
	return m.finish()
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

func (g GussetRun) steps(d *Design, t *teller) {
	for _, p := range d.pieces {
		cutPiece(t, p)
		cutNotches(t, p)
		tellScores(d, t, p)
	}
	tellJoints(d, t, "each gusset run")
	t.say("Fold the gusset strips to and fro, half panels of ").len(d.half).say(" turning inwards between the leaves.").done(Fold)
	t.say("Glue the end tabs to the first and the last leaf, and the outer folds round the leaves between, one leaf after the other.").done(Glue)
	t.say("Closed it is ").len(d.empty).say(" thick empty and ").len(d.full).say(" full; each pocket opens to ").len(2 * d.half).say(".").done(Fit)
}
