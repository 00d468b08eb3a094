package pocket

import (
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Pleat is a sheet with knife pleats, one under the other, each of which is
// a pocket open at the head: v of it stays visible, and behind that the sheet
// is folded f down and f up again. With n pleats it takes n (v + 2f), three
// times what it covers where f = v. Its sides are glued.
type Pleat struct {
	Content Content // of each pocket
	Count   int
	Ease    Ease
	// Pleats is how many there are; 0 is 3.
	Pleats int
	// Visible is how much of each pleat shows; 0 is 3/4 in or 20 mm, or what
	// Place leaves.
	Visible units.Length
	// Fold is how deep a pleat is, no more than Visible; 0 is Visible.
	Fold  units.Length
	Glue  units.Length // along both sides; 0 is 1/4 in or 6 mm
	Place units.Size   // room at hand for the pleats and what stands out of them
}

// Name returns "pleats".
func (p Pleat) Name() string { return "pleats" }

// Design works the pleats out.
func (p Pleat) Design(paper Paper, r units.Ruler) (Design, error) {
	m := newMaker(p, paper, r)
	h := m.hold(p.Content, p.Count, p.Ease)
	n := p.Pleats
	if n == 0 {
		n = pocketsDefault
	}
	n = m.number("pleats", n)
	m.Allowance("visible", p.Visible)
	m.Allowance("fold", p.Fold)
	m.Allowance("glue", p.Glue)
	atHand := p.Place != units.Size{}
	if atHand {
		m.Size("place", p.Place)
	} else if !h.given {
		m.Malformed("content", check.Missing, "neither content nor place", "a content to hold or a place to fill")
	}
	if m.Len() > 0 {
		return m.finish()
	}
	glue := m.or(p.Glue, in/4, 6*mm)
	width := p.Place.W
	if h.given {
		need := m.sum("width needed", units.Up, units.T("content", h.content.Size.W), units.T("ease", h.ease.W),
			units.T("thickness", h.walls), units.N(2, "glued side", glue)).Length()
		if !atHand {
			width = need
		} else if width < need {
			m.Short("place.w", check.TooSmall, m.n, width, need, "for the content with ease and glued sides")
		}
	}
	// Upwards: what stands out of the first pleat, and n visible parts.
	visible, fold := p.Visible, p.Fold
	content := h.content.Size.H
	if visible == 0 {
		visible = m.or(0, 3*in/4, 20*mm)
		if atHand && !h.given {
			// A content as high as three visible parts, one of them covered
			// by the pleat (common practice, no published source).
			visible = m.share("visible", Share{1, n + 2}, units.Down, units.T("place", p.Place.H)).Length()
			m.room("place.h", p.Place.H, visible, "for "+itoa(n)+" pleats and what stands out")
		}
	}
	if fold == 0 {
		fold = visible
	}
	m.atMost("fold", fold, visible, "what is visible, or the last pleat reaches beyond the foot")
	var rise units.Length
	switch {
	case atHand:
		rise = m.exact("standing out", units.T("place", p.Place.H), units.N(-n, "visible", visible)).Length()
		if rise < 0 {
			m.Short("place.h", check.TooSmall, m.n, p.Place.H, m.r.Up(times(n, visible)), "for "+itoa(n)+" pleats")
		} else if h.given && rise+fold < content {
			m.Short("place.h", check.TooSmall, m.n, p.Place.H, m.r.Up(times(n, visible)+content-fold), "for the pleats and what stands out")
		}
	default:
		rise = max(0, m.sum("standing out", units.Up, units.T("content", content), units.N(-1, "fold", fold)).Length())
	}
	clear := m.exact("clear width", units.T("width", width), units.N(-2, "glued side", glue)).Length()
	most := units.Size{W: clear - h.ease.W - h.walls, H: rise + fold}
	m.room("place.w", width, most.W, "for the glue, the ease and something to hold")
	if m.Len() > 0 {
		return m.finish()
	}

	across := m.exact("width", units.T("pleats", width))
	long := m.exact("length", units.N(n, "visible", visible), units.N(2*n, "fold", fold))
	if long.Length() > units.Longest {
		m.Long("pleats", check.OutOfRange, m.n, long.Length(), units.Longest, "of sheet in all")
		return m.finish()
	}
	draw := score.Drawing{Lines: make([]score.Line, 0, 2*n), Glue: make([]score.Glue, 0, 2*n+2)}
	height := rise + times(n, visible)
	m.d.closed = units.Size{W: width, H: height}
	m.d.open = m.d.closed
	var y units.Length // on the flat sheet, from the head
	for i := range n {
		// Down behind pleat i to its foot, and up to its mouth.
		inner := y + fold
		draw.Lines = append(draw.Lines,
			score.Line{Axis: score.Level, At: inner, Fold: score.Valley},
			score.Line{Axis: score.Level, At: inner + fold, Fold: score.Mountain})
		for _, x := range [...]units.Length{0, width - glue} {
			draw.Glue = append(draw.Glue, score.Glue{Area: rect(x, inner, glue, fold)})
		}
		y = inner + fold + visible
		mouth := rise + times(i, visible)
		m.lay(rect(0, mouth, width, visible), 1)
		m.lay(rect(0, mouth, width, fold), 2)
		place := rect((width - most.W).Half(units.Down), mouth-rise, most.W, most.H)
		m.hasPlace(place, units.Size{W: clear, H: most.H}, most, h.capacity(), h.count)
		m.fill(place, h.filling())
	}
	for _, x := range [...]units.Length{0, width - glue} {
		draw.Glue = append(draw.Glue, score.Glue{Area: rect(x, 0, glue, long.Length()), Side: score.Back})
	}
	at := m.piece("pleats", 1, across, long, draw)
	m.panel("visible part", at, rect(0, long.Length()-visible, width, visible), rect(0, height-visible, width, visible))
	m.warnThick(h)
	return m.finish()
}

func (p Pleat) steps(d *Design, t *teller) {
	piece := d.pieces[0]
	t.say("Cut the sheet for the pleats ").size(piece.Blank.Size()).say(".").done(Cut)
	tellScores(d, t, piece)
	t.say("Fold the scores by turns towards you and away from you, so that ").count(d.pockets).say(" pleats lie one under the other.").done(Fold)
	g, _ := firstGlue(piece)
	t.say("Glue the pleats along both sides, ").len(g.W).say(" wide, and then down; the heads stay open.").done(Glue)
}
