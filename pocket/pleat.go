package pocket

import (
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Pleat is a sheet with knife pleats, one under the other, each of which is
// a pocket open at the head: v of it stays visible, and behind that the sheet
// is folded f down and f up again. With n pleats it takes n (v + 2f), three
// times what it covers where f = v. Its sides are glued.
type Pleat struct {
	Content Content // of each pocket; none: the most that Place takes
	Count   int     // how many of it in a pocket, one on another; 0 is 1
	Ease    Ease    // only W counts, across
	// Pleats is how many there are; 0 is 3.
	Pleats int
	// Visible is how much of each pleat shows; 0 is 3/4 in or 20 mm (common
	// practice, no published source), or what Place leaves.
	Visible units.Length
	// Fold is how deep a pleat is, no more than Visible; 0 is Visible.
	Fold  units.Length
	Glue  units.Length // along both sides; 0 is 1/4 in or 6 mm (common practice, no published source)
	Place units.Size   // room at hand for the pleats and what stands out of them; zero takes what is needed
}

// Name returns "pleats".
func (p Pleat) Name() string { return "pleats" }

func (p Pleat) at(room units.Size, l *check.List) (Kind, [2]string) {
	fields := over(l, "place", &p.Place, room)
	return p, fields
}

func (p Pleat) holds() Content { return p.Content }

func (p *Pleat) held() *Content { return &p.Content }

func (p Pleat) filled(u defaults) Pleat {
	p.Count, p.Glue, p.Pleats = countOf(p.Count, p.Content), u.edge(p.Glue), pockets(p.Pleats, 0)
	return p
}

// Design works the pleats out.
func (p Pleat) Design(paper Paper, r units.Ruler) (Design, error) { return p.designed(p, paper, r) }

func (p Pleat) designed(own Kind, paper Paper, r units.Ruler) (Design, error) {
	m := newMaker(own, paper, r)
	h := m.hold(p.Content, p.Count, p.Ease)
	s := pleats{hold: h, n: p.Pleats}
	if s.n == 0 {
		s.n = pocketsDefault
	}
	s.n = m.number("pleats", s.n)
	m.allowance("visible", p.Visible)
	m.allowance("fold", p.Fold)
	m.allowance("glue", p.Glue)
	m.place(h, p.Place)
	if m.Len() > 0 {
		return m.finish()
	}
	s.glue = m.edge(p.Glue)
	m.pleatWidth(p, &s)
	m.pleatHeight(p, &s)
	if m.Len() > 0 {
		return m.finish()
	}
	across := m.exact("width", units.T("pleats", s.width))
	long := m.exact("length", units.N(s.n, "visible", s.visible), units.N(2*s.n, "fold", s.fold))
	if long.Length() > units.Longest {
		m.pleatsLong(p, &s, long.Length())
		return m.finish()
	}
	m.pleatPiece(&s, across, long)
	m.warnThick(h)
	return m.finish()
}

// pleatsLong says that pleats take up too long a sheet: how many of them do not, or
// what makes one too long.
func (m *maker) pleatsLong(p Pleat, s *pleats, long units.Length) {
	path, most := "pleats", units.Longest/(s.visible+2*s.fold)
	want := "at most " + itoa(int(most)) + ", which"
	if most == 0 {
		if path, want = "visible", "less, so that pleats"; p.Fold > 0 {
			path = "fold"
		}
	}
	m.Impossible(path, check.OutOfRange, m.text(long)+" of sheet in all", want+" take up no more than "+m.longest()+" of it")
}

// Pleats are worked out: n of them, of which so much shows and is folded under,
// and how far contents stand out of the first.
type pleats struct {
	hold
	n                          int
	width, visible, fold, glue units.Length
	rise, clear                units.Length
	most                       units.Size
}

// pleatWidth works out, across, the sheet.
func (m *maker) pleatWidth(p Pleat, s *pleats) {
	s.width = p.Place.W
	if s.given {
		need := m.need(s.width > 0, "width needed", units.T("content", s.content.Size.W), units.T("ease", s.ease.W),
			units.T("thickness", s.walls), units.N(2, "glued side", s.glue))
		if s.width == 0 {
			s.width = need
		} else if s.width < need {
			m.Short("place.w", check.TooSmall, m.n, s.width, m.r.Up(need), "for the content with ease and glued sides")
		}
	}
	s.clear = m.exact("clear width", units.T("width", s.width), units.N(-2, "glued side", s.glue)).Length()
	if s.most.W = s.clear - s.ease.W - s.walls; m.Len() == 0 {
		m.room("place.w", s.width, s.most.W, "for the glue, the ease and something to hold")
	}
}

// pleatHeight works out, upwards, what stands out of the first pleat, and n
// visible parts.
func (m *maker) pleatHeight(p Pleat, s *pleats) {
	content, atHand := s.content.Size.H, p.Place != units.Size{}
	usual := max(m.or(0, 3*in/4, 20*mm), m.r.Up(p.Fold))
	takes := func(visible units.Length) units.Length { // of height
		fold := p.Fold
		if fold == 0 {
			fold = visible
		}
		return times(s.n, visible) + max(0, content-fold)
	}
	s.visible = p.Visible
	if least := m.pleatLeast(p, s, takes, usual); atHand && p.Place.H < least {
		m.Short("place.h", check.TooSmall, m.n, p.Place.H, least, "for "+itoa(s.n)+" pleats and what stands out")
		return
	}
	if s.visible == 0 {
		s.visible = usual
		if atHand && (!s.given || takes(usual) > p.Place.H) {
			// A content as high as three visible parts, one of them covered
			// by the pleat (common practice, no published source).
			s.visible = m.share("visible", Share{1, s.n + 2}, units.Down, units.T("place", p.Place.H)).Length()
		}
	}
	if s.fold = p.Fold; s.fold == 0 {
		s.fold = s.visible
	}
	if !m.atMost("fold", s.fold, s.visible, ", as much as is visible, or the last pleat reaches beyond the foot") {
		return
	}
	if atHand {
		s.rise = m.exact("standing out", units.T("place", p.Place.H), units.N(-s.n, "visible", s.visible)).Length()
	} else {
		s.rise = max(0, m.sum("standing out", units.Up, units.T("content", content), units.N(-1, "fold", s.fold)).Length())
	}
	s.most.H = s.rise + s.fold
}

// pleatLeast returns the least height at hand that would do: for what is
// visible where that is given, otherwise for the usual or for a share of the
// height, whichever takes less.
func (m *maker) pleatLeast(p Pleat, s *pleats, takes func(units.Length) units.Length, usual units.Length) units.Length {
	if p.Visible > 0 {
		return m.r.Up(takes(p.Visible))
	}
	// With v = H/(n + 2) the height H takes n v and what stands out.
	parts := int64(s.n + 2)
	share := times(s.n+2, m.r.Up(max(units.Shortest, p.Fold)))
	if out := s.content.Size.H; p.Fold == 0 {
		l, _ := out.Scale(parts, 3, units.Up)
		share = max(share, l)
	} else if out > p.Fold {
		l, _ := (out - p.Fold).Scale(parts, 2, units.Up)
		share = max(share, l)
	}
	share = m.r.Up(share)
	if s.given {
		return min(share, m.r.Up(takes(usual)))
	}
	return share
}

// pleatPiece makes the sheet, with what lies over what.
func (m *maker) pleatPiece(s *pleats, across, long *units.Working) {
	n, width, glue, fold := s.n, s.width, s.glue, s.fold
	draw := score.Draft{Lines: make([]score.Line, 0, 2*n), Glue: make([]score.Glue, 0, 2*n+2)}
	folds := make([]crease, 0, 2*n)
	height := s.rise + times(n, s.visible)
	m.d.closed = units.Size{W: width, H: height}
	m.expect(1, n, 3*n)
	var y units.Length // on the flat sheet, from the head
	for i := range n {
		// Down behind pleat i to its foot, and up to its mouth.
		inner := y + fold
		draw.Lines = append(draw.Lines,
			score.Line{Axis: score.Level, At: inner, Fold: score.Valley},
			score.Line{Axis: score.Level, At: inner + fold, Fold: score.Mountain})
		folds = append(folds, crease{axis: score.Level, at: inner, moves: score.Tail}, crease{axis: score.Level, at: inner + fold, moves: score.Tail})
		for _, x := range [...]units.Length{0, width - glue} {
			draw.Glue = append(draw.Glue, score.Glue{Area: rect(x, inner, glue, fold)})
		}
		y = inner + fold + s.visible
		mouth := s.rise + times(i, s.visible)
		m.lay(rect(0, mouth, width, s.visible), 1)
		m.lay(rect(0, mouth, width, fold), 2)
		place := rect((width - s.most.W).Half(units.Down), mouth-s.rise, s.most.W, s.most.H)
		m.hasPlace(place, units.Size{W: s.clear, H: s.most.H}, s.most, s.capacity(), s.count)
		m.fill(place, s.filling())
	}
	for _, x := range [...]units.Length{0, width - glue} {
		draw.Glue = append(draw.Glue, score.Glue{Area: rect(x, 0, glue, long.Length()), Side: score.Back})
	}
	at := m.piece("pleats", 1, across, long, draw)
	m.d.pieces[at].folds = folds
	for i := range n {
		y := times(i, s.visible+2*fold) + 2*fold
		m.panel("visible part", at, 2*i+2, rect(0, y, width, s.visible), rect(0, s.rise+times(i, s.visible), width, s.visible))
	}
}

func (Pleat) seen(p panels, all []seen) []seen {
	return p.sees(all, "visible parts", "visible part", false)
}

// The pleats are folded from the head down, glued at their sides, behind and to
// each other, and then laid on the base.
func (p Pleat) steps(d *design, o *order) {
	sheet, piece := o.one(0, 0), d.pieces[0]
	pleats := o.on(0, 0)
	o.fold(sheet, piece.folds...)
	var sides, based []units.Rect
	size := piece.blank.Size()
	for _, g := range piece.blank.Glue() {
		if g.Side == score.Face { // up to a mouth: on what lies behind, and by its back on what hangs down from the mouth
			sides = append(sides, g.Area)
		}
	}
	glue, deep := sides[0].Size().W, sides[0].Size().H
	// Its back lies on the base where it does not lie on a pleat.
	for _, x := range [...]units.Length{0, size.W - glue} {
		based = append(based, rect(x, 0, glue, deep))
		for i := 1; i < len(piece.folds); i += 2 {
			from, to := piece.folds[i].at+deep, size.H
			if i+1 < len(piece.folds) {
				to = piece.folds[i+1].at
			}
			if from < to {
				based = append(based, rect(x, from, glue, to-from))
			}
		}
	}
	o.stick(sheet, score.Face, pleats, sides...)
	o.stick(sheet, score.Back, pleats, sides...)
	o.dry("the pleats", sheet)
	o.base(whole(work.Fix{What: sheet, At: work.At{Across: score.Left, Along: score.Tail},
		Areas: based, Size: units.Size{W: size.W, H: d.closed.H - d.places[0].rect.Size().H + piece.folds[0].at}}))
	o.dry("the pleats", sheet)
	o.insert()
}
