package pocket

import (
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Corners is a set of triangular pockets that hold a content by its corners:
// by all four, by the two at the foot, or by the left one at the foot. Each is
// a right triangle whose two legs have edges turned under and glued.
type Corners struct {
	Content Content // what is held; none: the most that Place takes
	Count   int     // how many of it, one on another; 0 is 1
	Ease    Ease    // only W counts, over width and height alike: nothing goes in along a corner's depth
	// Corners is how many there are: 1, 2 or 4; 0 is 4.
	Corners int
	// Leg is the length of a triangle's legs; 0 is 1/3 of the content's
	// shorter side (common practice, no published source), down on the ruler, or more:
	// where ease and thickness hold the content's corner that far off, and where
	// half of that side is enough for edges of 1/8 in or 3 mm to be turned under.
	Leg units.Length
	// Turn is the width of the edges turned under; 0 is 1/4 in or 6 mm (common
	// practice, no published source), or a third of the leg where that is less, down on
	// the ruler. Below 1/8 in or 3 mm, which glue hardly holds (common practice, no
	// published source), there is a warning.
	Turn units.Length
	// Place is the room at hand; zero takes what the content needs, and with a
	// content the corners go round that wherever there is more room.
	Place units.Size
}

// Name returns "corner pocket".
func (c Corners) Name() string { return "corner pocket" }

func (c Corners) at(room units.Size, l *check.List) (Kind, [2]string) {
	fields := over(l, "place", &c.Place, room)
	return c, fields
}

func (c Corners) holds() Content { return c.Content }

func (c *Corners) held() *Content { return &c.Content }

func (c Corners) filled(defaults) Corners {
	if c.Count = countOf(c.Count, c.Content); c.Corners == 0 {
		c.Corners = 4
	}
	return c
}

// Design works the corners out. A blank is a square of leg and turned edge,
// cut off slantwise; the waste where both turned edges meet is cut out, and so
// are the ears that would reach past the slant when they are turned under.
func (c Corners) Design(p Paper, r units.Ruler) (Design, error) { return c.designed(c, p, r) }

func (c Corners) designed(own Kind, p Paper, r units.Ruler) (Design, error) {
	m := newMaker(own, p, r)
	h := m.hold(c.Content, c.Count, c.Ease)
	m.allowance("leg", c.Leg)
	m.allowance("turn", c.Turn)
	corners := c.Corners
	switch corners {
	case 0:
		corners = 4
	case 1, 2, 4:
	default:
		m.Malformed("corners", check.Unknown, itoa(corners), "1, 2 or 4")
	}
	m.place(h, c.Place)
	if m.Len() > 0 {
		return m.finish()
	}
	closed := m.cornerPlace(c.Place, h)
	most := units.Size{W: closed.W - h.ease.W - h.walls, H: closed.H - h.ease.W - h.walls}
	if !h.given {
		m.room("place.w", closed.W, most.W, "for the ease and something to hold")
		m.room("place.h", closed.H, most.H, "for the ease and something to hold")
	}
	if m.Len() > 0 {
		return m.finish()
	}
	leg, turn, ok := m.cornerLegs(c, corners, closed, most, h)
	if !ok {
		return m.finish()
	}
	m.d.closed = closed
	m.expect(1, corners, 3*corners+1)
	at := m.cornerPiece(corners, leg, turn)
	for i := range corners {
		square := cornerSquare(i, closed, leg)
		m.lay(square, 1)
		// The turned edges lie under it, along the sides of the place.
		x, y := square.Min.X, square.Min.Y
		if x > 0 {
			x = square.Max.X - turn
		}
		if y > 0 {
			y = square.Max.Y - turn
		}
		m.lay(rect(x, square.Min.Y, turn, leg), 1)
		m.lay(rect(square.Min.X, y, leg, turn), 1)
		panel := m.panel("corner", at, 1, rect(turn, 0, leg, leg), square)
		panel.slanted, panel.copy, panel.lift = true, i, 1 // in the angle both turned edges lie under it
	}
	place := rect((closed.W - most.W).Half(units.Down), (closed.H - most.H).Half(units.Down), most.W, most.H)
	held := m.hasPlace(place, closed, most, h.capacity(), h.count)
	held.mounted, held.corners = true, true
	m.fill(place, h.filling())
	m.warnThick(h)
	return m.finish()
}

// cornerPlace returns the place that the corners enclose.
func (m *maker) cornerPlace(place units.Size, h hold) units.Size {
	if !h.given {
		return place
	}
	atHand := place != units.Size{}
	w := m.need(atHand, "clear width", units.T("content", h.content.Size.W), units.T("ease", h.ease.W), units.T("thickness", h.walls))
	tall := m.need(atHand, "clear height", units.T("content", h.content.Size.H), units.T("ease", h.ease.W), units.T("thickness", h.walls))
	if !atHand {
		return units.Size{W: w, H: tall}
	}
	if w > place.W {
		m.Short("place.w", check.TooSmall, m.n, place.W, m.r.Up(w), "for the content with ease")
	}
	if tall > place.H {
		m.Short("place.h", check.TooSmall, m.n, place.H, m.r.Up(tall), "for the content with ease")
	}
	// They go round the content, wherever in the place it lies.
	return units.Size{W: min(m.r.Up(w), place.W), H: min(m.r.Up(tall), place.H)}
}

// cornerLegs returns the legs of a corner and the width of its turned edges.
func (m *maker) cornerLegs(c Corners, corners int, closed, most units.Size, h hold) (leg, turn units.Length, ok bool) {
	var limit units.Length
	what := ", so that two corners have room side by side"
	switch corners {
	case 4:
		limit = min(closed.W, closed.H).Half(units.Down)
	case 2:
		limit = min(closed.W.Half(units.Down), closed.H)
	default:
		limit, what = min(closed.W, closed.H), ", the shorter side of the place"
	}
	// The content's corner lies so far from the place's, along the head and along
	// the side; a slant at 45 degrees reaches over it where its leg is longer
	// than both together (derived).
	var off units.Length
	if h.given {
		off = (closed.W - h.content.Size.W).Half(units.Up) + (closed.H - h.content.Size.H).Half(units.Up)
	}
	narrow := m.n.Choose(in/8, 3*mm)
	if leg = c.Leg; leg == 0 {
		shorter := min(most.W, most.H)
		leg = m.share("leg", Share{1, 3}, units.Down, units.T("shorter side", shorter)).Length()
		if leg < 3*units.Shortest { // a third of it is less than the ruler shows
			leg = m.sum("leg, a step of the ruler", units.Up, units.T("at least", 3*units.Shortest)).Length()
		}
		if leg < 2*off {
			leg = m.sum("leg over the content's corner", units.Up, units.T("leg", leg), units.T("content's corner to the place's", off)).Length()
		}
		if wide := m.r.Up(3 * narrow); c.Turn == 0 && leg < wide && wide <= min(limit, shorter.Half(units.Down)) { // or nothing of a side would be free
			leg = m.sum("leg for its turned edges", units.Up, units.N(3, "turned edge", narrow)).Length()
		}
		if leg > limit {
			on, least := m.r, max(3*units.Shortest, off+units.Shortest)
			if on.Down(limit) < least {
				on = m.n.Exact()
			}
			leg = m.note("leg, as far as there is room", 1, on, units.Down, units.T("at most", limit)).Length()
		}
		if leg < off+units.Shortest {
			m.Impossible("content", NoCorner, m.text(off)+" of ease and thickness at each corner",
				"less than "+m.text(limit)+", which is as far as a corner can reach: thinner or fewer contents, less ease or a smaller place")
			return leg, 0, false
		}
	}
	ok = m.atMost("leg", leg, limit, what) && m.atLeast("leg", leg, max(3*units.Shortest, off+units.Shortest), "for a corner with its turned edges that reaches over the content's corner")
	if turn = c.Turn; turn == 0 {
		turn = m.cornerTurn(leg)
	}
	if ok = ok && m.atMost("turn", turn, third(leg), ", a third of the leg, so that both edges find room for glue"); ok && turn < narrow {
		m.warn(unwise{path: "turn", code: NarrowEdge, got: turn, want: narrow, lengths: [2]units.Length{turn, narrow},
			text: [3]string{"edges turned under by ", " leave little to glue; corners with legs of three times ", " have room for more"}})
	}
	return leg, turn, ok
}

// cornerTurn is the usual width of the edges turned under: on the ruler wherever it shows
// one that a third of the leg has room for.
func (m *maker) cornerTurn(leg units.Length) units.Length {
	usual, room, on := m.n.Choose(in/4, 6*mm), third(leg), m.r
	if on.Down(min(usual, room)) < units.Shortest {
		if usual = on.Step(); usual < units.Shortest || usual > room {
			usual, on = m.n.Choose(in/4, 6*mm), m.n.Exact()
		}
	}
	if usual <= room {
		return m.note("turned edge", 1, on, units.Down, units.T("usual", usual)).Length()
	}
	return m.note("turned edge", 3, on, units.Down, units.T("leg", leg)).Length()
}

// cornerPiece makes the blank. The edges are turned under at the left and at
// the tail of the triangle, whose long side runs from its head to its right.
func (m *maker) cornerPiece(corners int, leg, turn units.Length) int {
	side := m.exact("corner blank", units.T("leg", leg), units.T("turned edge", turn))
	at := m.piece("corner", corners, side, side, score.Draft{
		Lines: []score.Line{
			{Axis: score.Upright, At: turn, Fold: score.Mountain},
			{Axis: score.Level, At: leg, Fold: score.Mountain},
		},
		CutOuts: []score.CutOut{{Area: rect(0, leg, turn, turn)}},
		Slants: []score.Slant{
			{Corner: score.HeadRight, Along: leg, Down: leg},
			// Turned under, an edge would stand past the slant by its own width:
			// the cut mirrors the slant at the fold.
			{Corner: score.HeadLeft, Along: turn, Down: turn},
			{Corner: score.TailRight, Along: turn, Down: turn},
		},
		// Clear of the ears, and of the angle, where one lies on the other.
		Glue: []score.Glue{{Area: rect(0, turn, turn, leg-2*turn)}, {Area: rect(turn, leg, leg-turn, turn)}},
	})
	p := &m.d.pieces[at]
	p.folds = append(m.folds,
		crease{axis: score.Upright, at: turn, moves: score.Left, way: work.Away},
		crease{axis: score.Level, at: leg, moves: score.Tail, way: work.Away})
	return at
}

// cornerSquare returns where corner i lies: left foot, right foot, left head,
// right head.
func cornerSquare(i int, closed units.Size, leg units.Length) units.Rect {
	at := rect(0, closed.H-leg, leg, leg)
	if i%2 == 1 {
		at = at.Moved(units.Point{X: closed.W - leg})
	}
	if i >= 2 {
		at = at.Moved(units.Point{Y: leg - closed.H})
	}
	return at
}

func (c Corners) seen(p panels, all []seen) []seen { return p.sees(all, "corners", "corner", false) }

func (c Corners) steps(d *design, o *order) {
	p := d.pieces[0]
	o.fold(o.all(0), p.folds...)
	fixes := make([]work.Fix, p.quantity)
	leg := d.panels[0].closed.Size()
	for i := range fixes {
		// The drawing has its square corner at the left and the tail.
		place := [...]work.At{
			{Across: score.Left, Along: score.Tail}, {Across: score.Right, Along: score.Tail},
			{Across: score.Left, Along: score.Head}, {Across: score.Right, Along: score.Head},
		}[i]
		fixes[i] = whole(work.Fix{What: o.one(0, i), At: place, Quarters: [...]int{0, 3, 1, 2}[i], Areas: glueOf(p.blank), Size: leg})
	}
	o.base(fixes...)
	o.dry("the corners", o.all(0))
	o.insert()
}
