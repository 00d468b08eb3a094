package pocket

import (
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Corner is a set of triangular pockets that hold a content by its corners:
// by all four, by the two at the foot, or by the left one at the foot. Each is
// a right triangle whose two legs have edges turned under and glued.
type Corner struct {
	Content Content
	Count   int
	Ease    Ease // only W counts, over width and height alike: nothing goes in along a corner's depth
	// Corners is how many there are: 1, 2 or 4; 0 is 4.
	Corners int
	// Leg is the length of a triangle's legs; 0 is 1/3 of the content's
	// shorter side (common practice, no published source).
	Leg units.Length
	// Turn is the width of the edges turned under; 0 is 1/4 in or 6 mm.
	Turn units.Length
	// Place is the room at hand; zero takes what the content needs.
	Place units.Size
}

// Name returns "corner pocket".
func (c Corner) Name() string { return "corner pocket" }

// Design works the corners out. A blank is a square of leg and turned edge,
// cut off slantwise; the waste where both turned edges meet is cut out.
func (c Corner) Design(p Paper, r units.Ruler) (Design, error) {
	m := newMaker(c, p, r)
	h := m.hold(c.Content, c.Count, c.Ease)
	m.Allowance("leg", c.Leg)
	m.Allowance("turn", c.Turn)
	corners := c.Corners
	switch corners {
	case 0:
		corners = 4
	case 1, 2, 4:
	default:
		m.Malformed("corners", check.Unknown, itoa(corners), "1, 2 or 4")
	}
	atHand := c.Place != units.Size{}
	if atHand {
		m.Size("place", c.Place)
	} else if !h.given {
		m.Malformed("content", check.Missing, "neither content nor place", "a content to hold or a place to fill")
	}
	if m.Len() > 0 {
		return m.finish()
	}
	closed := c.Place
	if h.given {
		w := m.sum("clear width", units.Up, units.T("content", h.content.Size.W), units.T("ease", h.ease.W), units.T("thickness", h.walls)).Length()
		tall := m.sum("clear height", units.Up, units.T("content", h.content.Size.H), units.T("ease", h.ease.W), units.T("thickness", h.walls)).Length()
		switch {
		case !atHand:
			closed = units.Size{W: w, H: tall}
		default:
			if w > closed.W {
				m.Short("place.w", check.TooSmall, m.n, closed.W, w, "for the content with ease")
			}
			if tall > closed.H {
				m.Short("place.h", check.TooSmall, m.n, closed.H, tall, "for the content with ease")
			}
		}
	}
	most := units.Size{W: closed.W - h.ease.W - h.walls, H: closed.H - h.ease.W - h.walls}
	m.room("place.w", closed.W, most.W, "for the ease and something to hold")
	m.room("place.h", closed.H, most.H, "for the ease and something to hold")
	if m.Len() > 0 {
		return m.finish()
	}
	leg := c.Leg
	if leg == 0 {
		leg = m.share("leg", Share{1, 3}, units.Down, units.T("shorter side", min(most.W, most.H))).Length()
	}
	turn := c.Turn
	if turn == 0 {
		turn = min(m.or(0, in/4, 6*mm), max(m.r.Down(leg.Half(units.Down)), units.Shortest))
	}
	switch corners {
	case 4:
		m.atMost("leg", leg, min(closed.W, closed.H).Half(units.Down), "so that two corners have room side by side")
	case 2:
		m.atMost("leg", leg, min(closed.W.Half(units.Down), closed.H), "so that two corners have room side by side")
	default:
		m.atMost("leg", leg, min(closed.W, closed.H), "the place")
	}
	m.room("leg", leg, leg, "for a corner")
	m.atMost("turn", turn, leg, "the leg")
	if m.Len() > 0 {
		return m.finish()
	}
	side := m.exact("corner blank", units.T("leg", leg), units.T("turned edge", turn))
	draw := score.Drawing{
		Lines: []score.Line{
			{Axis: score.Upright, At: turn, Fold: score.Mountain},
			{Axis: score.Level, At: leg, Fold: score.Mountain},
		},
		CutOuts: []score.CutOut{{Area: rect(0, leg, turn, turn)}},
		Glue:    []score.Glue{{Area: rect(0, 0, turn, leg)}, {Area: rect(turn, leg, leg, turn)}},
	}
	at := m.piece("corner", corners, side, side, draw)
	m.d.pieces[at].Slant = Slant{units.Point{X: turn}, units.Point{X: turn + leg, Y: leg}}
	m.d.closed, m.d.open = closed, closed
	// Left foot, right foot, left head, right head.
	for i := range corners {
		var x, inX units.Length
		y, inY := closed.H-leg, closed.H-turn
		if i%2 == 1 {
			x, inX = closed.W-leg, closed.W-turn
		}
		if i >= 2 {
			y, inY = 0, 0
		}
		square := rect(x, y, leg, leg)
		if i == 0 {
			m.panel("corner", at, rect(turn, 0, leg, leg), square)
		}
		m.lay(square, 1)
		m.lay(rect(inX, y, turn, leg), 1)
		m.lay(rect(x, inY, leg, turn), 1)
	}
	place := rect((closed.W - most.W).Half(units.Down), (closed.H - most.H).Half(units.Down), most.W, most.H)
	m.hasPlace(place, closed, most, h.capacity(), h.count).Mounted = true
	m.fill(place, h.filling())
	m.warnThick(h)
	return m.finish()
}

func (c Corner) steps(d *Design, t *teller) {
	p := d.pieces[0]
	cutPiece(t, p)
	tellScores(d, t, p)
	for _, w := range p.Blank.CutOuts() {
		t.say("Cut out the square of ").size(w.Area.Size()).say(" where the scores cross at the tail's left corner.").done(Cut)
	}
	t.say("Cut from ").len(p.Slant.From.X).say(" on the head to ").len(p.Slant.To.Y).say(" on the right edge, straight across.").done(Cut)
	t.say("Fold both edges away from you under the triangle.").done(Fold)
	t.say("Glue the turned edges down in the corners of a rectangle ").size(d.closed).say("; leave the long side open.").done(Glue)
}
