package pocket

import (
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Concertina is a guard folded to and fro along the spine, with a leaf glued
// to each fold that stands up. With folds f deep, n leaves, lands s between
// them and end tabs a it is 2fn + (n − 1)s + 2a long.
type Concertina struct {
	Content Content // what is mounted on each leaf
	Count   int     // how many of it on a leaf, both sides together; 0 is 1
	Margin  units.Length
	// Leaves is how many there are, up to 500; 0 is as many as Spine takes and
	// the paper allows, or 3.
	Leaves int
	// Leaf is the size of a leaf at hand, its guarded edge included; a side of
	// 0 is the content with Margin round it (0 is 1/8 in or 3 mm).
	Leaf units.Size
	// Fold is how deep a fold is; 0 is 3/16 in or 4.5 mm. Folds should be at
	// most 1/8 to 3/16 in deep (Roberts & Etherington, Bookbinding and the
	// Conservation of Books, 1982, "concertina guard"): deeper ones get a
	// warning.
	Fold units.Length
	// Land is how far the folds stand apart; 0 is as much as leaf and content
	// are thicker than the fold's own two layers.
	Land     units.Length
	Tab      units.Length // at both ends, glued to the boards or the liner; 0 is 1/2 in or 10 mm
	JointTab units.Length // 0 is 1/2 in or 10 mm, but no more than a fold
	Spine    units.Length // room that the full guard must fit; 0: no limit
}

// Name returns "concertina guard".
func (c Concertina) Name() string { return "concertina guard" }

// concertinaMost is the deepest fold that print allows.
const concertinaMost = 3 * in / 16

// Design works the guard and its leaves out.
func (c Concertina) Design(p Paper, r units.Ruler) (Design, error) {
	given := c
	if c.Leaves == 0 {
		c.Leaves = pocketsFor(c.Spine, func(n int) (Design, error) {
			c := c
			c.Leaves, c.Spine = n, 0
			return c.Design(p, r)
		})
	}
	m := newMaker(given, p, r)
	h := m.hold(c.Content, c.Count, Ease{})
	n := m.number("leaves", c.Leaves)
	for _, f := range [...]struct {
		path string
		l    units.Length
	}{
		{"margin", c.Margin}, {"leaf.w", c.Leaf.W}, {"leaf.h", c.Leaf.H}, {"fold", c.Fold}, {"land", c.Land},
		{"tab", c.Tab}, {"jointTab", c.JointTab}, {"spine", c.Spine},
	} {
		m.Allowance(f.path, f.l)
	}
	if !h.given && (c.Leaf.W == 0 || c.Leaf.H == 0) {
		m.Malformed("leaf", check.Missing, "neither content nor leaf", "a content to carry or the size of a leaf")
	}
	if m.Len() > 0 {
		return m.finish()
	}
	margin := m.matMargin(c.Margin)
	fold, tab := m.or(c.Fold, concertinaMost, 9*mm/2), m.tab(c.Tab)
	joint := m.jointTab(c.JointTab, fold)
	leaf := c.Leaf
	if h.given {
		w := m.sum("leaf width needed", units.Up, units.T("content", h.content.Size.W), units.N(2, "margin", margin), units.T("guard", fold)).Length()
		tall := m.sum("leaf height needed", units.Up, units.T("content", h.content.Size.H), units.N(2, "margin", margin)).Length()
		if leaf.W == 0 {
			leaf.W = w
		} else if leaf.W < w {
			m.Short("leaf.w", check.TooSmall, m.n, leaf.W, w, "for the content, the margin and the guard")
		}
		if leaf.H == 0 {
			leaf.H = tall
		} else if leaf.H < tall {
			m.Short("leaf.h", check.TooSmall, m.n, leaf.H, tall, "for the content and the margin")
		}
	}
	most := units.Size{W: leaf.W - fold - 2*margin, H: leaf.H - 2*margin}
	m.room("leaf.w", leaf.W, most.W, "for the guard, the margin and something to carry")
	m.room("leaf.h", leaf.H, most.H, "for the margin and something to carry")
	caliper := m.d.paper.Caliper
	land := c.Land
	if land == 0 && h.stack > 2*caliper {
		// Leaf and content against leaf and two layers of the fold.
		land = m.sum("land", units.Up, units.T("content", h.stack), units.N(-2, "caliper of the fold", caliper)).Length()
	}
	if m.Len() > 0 {
		return m.finish()
	}
	if fold > concertinaMost {
		m.warn("fold", Unusual, "folds "+m.text(fold)+" deep; a concertina guard's are at most "+m.text(concertinaMost), fold, concertinaMost)
	}

	width := m.exact("leaf width", units.T("leaf", leaf.W))
	high := m.exact("leaf height", units.T("leaf", leaf.H))
	total := m.exact("guard", units.N(2*n, "fold", fold), units.N(n-1, "land", land), units.N(2, "tab", tab))
	lines, hide := runLines(n, fold, land, tab, score.Valley)
	first, joints := m.long(longStrip{name: "guard", quantity: 1, total: total, breadth: high, lines: lines, hide: hide, tab: joint,
		edges: []score.Tab{{Edge: score.Left, Depth: tab}, {Edge: score.Right, Depth: tab}}})
	m.d.joints = joints
	if len(joints) > 0 {
		m.atMost("jointTab", joint, fold, "a fold, which hides it")
	}
	at := m.piece("leaf", n, width, high, score.Drawing{Glue: []score.Glue{{Area: rect(0, 0, fold, leaf.H), Side: score.Back}}})
	m.d.closed = leaf
	m.d.open = leaf
	where, guard := units.RectAt(units.Point{}, leaf), rect(0, 0, fold, leaf.H)
	m.panel("leaf", at, where, where)
	if first < at {
		m.panel("fold", first, rect(tab, 0, fold, leaf.H), guard)
	}
	m.lay(where, n)
	m.lay(guard, 2*n)
	if len(joints) > 0 {
		m.lay(rect(0, 0, joint, leaf.H), len(joints))
	}
	place := rect(fold+margin, margin, most.W, most.H)
	m.hasPlace(place, most, most, max(FlatLimit, h.stack), h.count).Mounted = true
	m.d.pockets = n
	if h.given {
		m.fill(place, times(n, h.stack))
	}
	// The lands lie along the spine: when full the guard is as thick as its
	// folds and lands, 2n c + (n − 1)s, if that is more than 3n c.
	m.d.stack = append(m.d.stack, sheet{rect: guard, thick: max(0, times(n-1, land)-times(n, caliper)), held: true})
	m.fitSpine(c.Spine)
	return m.finish()
}

func (c Concertina) steps(d *Design, t *teller) {
	for _, p := range d.pieces {
		cutPiece(t, p)
		tellScores(d, t, p)
	}
	tellJoints(d, t, "the guard")
	if fold, ok := d.Panel("fold"); ok {
		t.say("Fold the guard to and fro, folds ").len(fold.Size().W).say(" deep, the tabs lying flat.").done(Fold)
	}
	t.say("Glue a leaf to the side of each fold, its edge on the fold.").done(Glue)
	t.say("Glue the tabs down at either side of the spine.").done(Glue)
}
