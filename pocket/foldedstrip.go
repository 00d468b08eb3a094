package pocket

import (
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A FoldedStrip is one strip that is flap, base, pocket front and hem, in this
// order. The front is turned over the base and glued along head and tail; the
// hem is turned in on the front's free edge, which is the pocket's mouth; the
// flap closes over both. With a spine of its own between flap and base it
// closes over something thick.
//
// It is given by its scores, by what it must hold, or by a strip at hand that
// is divided by the defaults. Whichever it is, the strip must fold as told:
// the front no wider than the base, the hem no wider than the front, the flap
// no wider than the base and Overhang. These rules are the same as that it can
// be folded hem first and flap last, each towards the maker, in the words of
// [score.Strip.FoldBy].
type FoldedStrip struct {
	Content Content // what the pocket holds; it goes in sideways, its height along the mouth
	Count   int     // how many of it; 0 is 1
	Ease    Ease    // W along the mouth, H from the mouth inwards
	// StandOut is how far the content stands out of the mouth, over the base
	// and under the flap. 0 leaves that to Front or Depth.
	StandOut units.Length
	// Depth is how much of the base the front covers; zero is 2/3 (common
	// practice, no published source). Front or StandOut replace it.
	Depth Share

	// Strip is the size of the flat strip: W along it, H along its folds. With
	// Scores it must be given; with a content it is a limit that the design
	// fills in height, and a side of 0 sets none; alone it is divided by the
	// defaults.
	Strip units.Size
	// Scores are the places of the scores, measured from the flap's end of
	// the strip in rising order whichever way it opens: three, or four with a
	// spine, and what follows 0. All 0 leaves them to the widths of panels.
	Scores [4]units.Length

	// Widths of panels; 0 is the default: a flap 1/8 in or 3 mm narrower than
	// the base, a base that takes the content and its ease, a hem of 1 1/2 in
	// or 40 mm but no more than 3/4 of the front, of a strip alone no more than
	// 1/8 of it. All are common practice, no published source.
	Flap, Base, Front, Hem units.Length

	Spine    units.Length // width of a spine of its own; 0: none, or as OwnSpine asks
	OwnSpine bool         // a spine as wide as front, hem and contents are thick
	Overhang units.Length // how far the flap may reach beyond the base; 0: not at all

	Glue units.Length // width of the glue along head and tail; 0 is 1/4 in or 6 mm (common practice, no published source)
	// Notch is a thumb notch in the mouth, cut through front and hem. Zero is
	// none here: the content is gripped by what stands out.
	Notch      ThumbNotch
	Mat        Mat          // on the flap
	Margin     units.Length // round the mat; 0 is 1/8 in or 3 mm (common practice, no published source)
	OpensRight bool         // the flap is hinged at the right and opens to the right
}

// Name returns "folded strip".
func (s FoldedStrip) Name() string { return "folded strip" }

func (s FoldedStrip) at(room units.Size, l *check.List) (Kind, [2]string) {
	hand(l, "base", &s.Base, room.W)
	hand(l, "strip.h", &s.Strip.H, room.H)
	return s, [2]string{"base", "strip.h"}
}

func (s FoldedStrip) holds() Content { return s.Content }

func (s *FoldedStrip) held() *Content { return &s.Content }

func (s FoldedStrip) filled(u defaults) FoldedStrip {
	s.Count, s.Glue, s.Margin = countOf(s.Count, s.Content), u.edge(s.Glue), u.margin(s.Margin)
	if s.Scores == ([4]units.Length{}) {
		s.Depth = covers(s.Depth, s.StandOut, s.Front)
	}
	return s
}

// Design works the strip out.
func (s FoldedStrip) Design(p Paper, r units.Ruler) (Design, error) { return s.designed(s, p, r) }

func (s FoldedStrip) designed(own Kind, p Paper, r units.Ruler) (Design, error) {
	m := newMaker(own, p, r)
	h := m.hold(s.Content, s.Count, s.Ease)
	for _, f := range [...]struct {
		path string
		l    units.Length
	}{
		{"flap", s.Flap}, {"base", s.Base}, {"front", s.Front}, {"hem", s.Hem}, {"spine", s.Spine},
		{"overhang", s.Overhang}, {"glue", s.Glue},
	} {
		m.allowance(f.path, f.l)
	}
	m.optional("margin", s.Margin)
	m.checkMat(s.Mat)
	d := m.depth(s.Depth, s.StandOut)
	atHand, scored := s.Strip != units.Size{}, s.Scores != [4]units.Length{}
	switch {
	case atHand && h.given && !scored: // one side may have no limit
		m.allowance("strip.w", s.Strip.W)
		m.allowance("strip.h", s.Strip.H)
	case atHand:
		m.Size("strip", s.Strip)
	}
	if s.Front != 0 && (s.StandOut != 0 || s.Depth != Share{}) {
		m.Malformed("front", check.Conflict, m.text(s.Front)+" and a depth or standout", "one of the two")
	}
	switch {
	case scored && !atHand:
		m.Malformed("strip", check.Missing, "scores without a strip", "the size of the strip that is scored")
	case scored && (s.Flap != 0 || s.Base != 0 || s.Front != 0 || s.Hem != 0):
		m.Malformed("scores", check.Conflict, "scores and widths of panels", "one of the two")
	case !scored && !atHand && !h.given:
		m.Malformed("content", check.Missing, "neither content, strip nor scores", "a content to hold, or a strip")
	}
	if m.Len() > 0 {
		return m.finish()
	}

	glue := m.edge(s.Glue)
	var panels stripPanels
	switch {
	case scored:
		panels = m.stripFromScores(s)
	case h.given:
		panels = m.stripFromContent(s, h, d)
	default:
		panels = m.stripFromStrip(s, d, h)
	}
	if m.Len() > 0 {
		return m.finish()
	}
	if !scored {
		m.stripFolds(s, panels)
	}
	m.stripLay(s, h, panels, glue)
	return m.finish()
}

// spineFor returns the width of the strip's own spine.
func (m *maker) spineFor(s FoldedStrip, h hold) units.Length {
	if s.Spine != 0 || !s.OwnSpine {
		return s.Spine
	}
	return m.sum("spine", units.Up, units.T("contents", h.filling()), units.N(2, "caliper of front and hem", m.d.paper.Caliper)).Length()
}

func (m *maker) stripFromContent(s FoldedStrip, h hold, d depth) stripPanels {
	p := stripPanels{flap: s.Flap, base: s.Base, front: s.Front, hem: s.Hem}
	need := m.sum("base needed", units.Up, units.T("content", h.content.Size.W), units.T("ease", h.ease.H)).Length()
	if p.base == 0 {
		p.base = need
	} else if p.base < need {
		m.Short("base", check.TooSmall, m.n, p.base, need, "for the content with ease")
		p.base = need // the strip must be long enough for that
	}
	p.spine = m.spineFor(s, h)
	m.stripDefaults(&p, d, h.content.Size.W)
	if sum := p.sum(); s.Strip.W != 0 && s.Strip.W < sum {
		m.Short("strip.w", check.TooSmall, m.n, s.Strip.W, m.r.Up(sum), "for flap, base, front and hem")
	}
	return p
}

// stripDefaults fills in flap, front and hem from the base.
func (m *maker) stripDefaults(p *stripPanels, d depth, content units.Length) {
	if p.flap == 0 {
		p.flap = m.sum("flap", units.Down, units.T("base", p.base), units.N(-1, "set back", m.or(0, in/8, 3*mm))).Length()
		if p.flap < units.Shortest {
			p.flap = p.base
		}
	}
	switch {
	case p.front != 0:
	case d.standOut > 0:
		p.front = m.sum("pocket front", units.Down, units.T("content", content), units.N(-1, "standing out", d.standOut)).Length()
		m.standsOut(d, content-p.front)
	default:
		p.front = m.share("pocket front", d.share, units.Down, units.T("base", p.base)).Length()
	}
	if p.hem == 0 {
		most := m.share("most of a hem", Share{3, 4}, units.Down, units.T("pocket front", p.front)).Length()
		p.hem = min(m.or(0, 3*in/2, 40*mm), most)
	}
}

// stripFromStrip divides a strip at hand: with a flap set back by s from the
// base b, a front of share q of the base and a hem h, its length is
// 2b + q·b − s + h.
func (m *maker) stripFromStrip(s FoldedStrip, d depth, h hold) stripPanels {
	if d.standOut > 0 {
		m.Malformed("standout", check.Conflict, "no content", "0, or a content that stands out")
		return stripPanels{}
	}
	spine := m.spineFor(s, h)
	p, ok := m.stripShares(s, d, spine)
	if ok {
		return p
	}
	m.Short("strip.w", check.TooSmall, m.n, s.Strip.W, m.leastLong(s, d, spine, h.ease.H+units.Shortest), "for flap, base, front and hem")
	return p
}

// leastLong returns the least length on the ruler, no less than it is, of a strip
// that is divided so that something is left for each panel and the base is at
// least so wide. A longer one leaves more; where nothing of it is shared out, all
// of that.
func (m *maker) leastLong(s FoldedStrip, d depth, spine, base units.Length) units.Length {
	return m.r.Up(1 + mostOf(s.Strip.W, units.Longest, func(l units.Length) bool {
		s := s
		s.Strip.W = m.r.Up(l)
		try := maker{defaults: m.defaults, d: new(design)}
		p, ok := try.stripShares(s, d, spine)
		return !ok || s.Base == 0 && p.base < base
	}))
}

// stripShares divides the strip. It reports whether that is long enough: for the
// panels, or, where no hem is given, for them and the least hem.
func (m *maker) stripShares(s FoldedStrip, d depth, spine units.Length) (p stripPanels, ok bool) {
	p = stripPanels{flap: s.Flap, spine: spine, base: s.Base, front: s.Front, hem: s.Hem}
	if p.hem == 0 {
		p.hem = min(m.or(0, 3*in/2, 40*mm), m.r.Down(s.Strip.W/8))
	}
	if p.base == 0 {
		back := m.or(0, in/8, 3*mm)
		terms := []units.Term{units.T("strip", s.Strip.W), units.N(-1, "hem", p.hem), units.N(-1, "spine", p.spine)}
		shares := Share{1, 1}
		if p.flap == 0 {
			terms = append(terms, units.T("set back", back))
			shares.Of++
		} else {
			terms = append(terms, units.N(-1, "flap", p.flap))
		}
		if p.front == 0 { // n/d of the base more: d/(shares·d + n) of the sum
			shares = Share{d.share.Of, shares.Of*d.share.Of + d.share.Part}
		} else {
			terms = append(terms, units.N(-1, "pocket front", p.front))
		}
		direction := units.Nearest
		if s.Hem != 0 { // no hem takes what is left
			direction = units.Down
		}
		if p.base = m.share("base", shares, direction, terms...).Length(); p.base < units.Shortest {
			return p, false
		}
	}
	m.stripDefaults(&p, d, 0)
	if s.Hem != 0 {
		return p, s.Strip.W >= p.sum()
	}
	// The hem takes what is left.
	p.hem = s.Strip.W - p.flap - p.spine - p.base - p.front
	m.note("hem", 1, m.n.Exact(), units.Nearest, units.T("strip", s.Strip.W),
		units.N(-1, "flap", p.flap), units.N(-1, "spine", p.spine), units.N(-1, "base", p.base), units.N(-1, "pocket front", p.front))
	return p, p.hem >= units.Shortest
}

// stripHeight returns the working of the strip's height, along the mouth.
func (m *maker) stripHeight(s FoldedStrip, h hold, glue units.Length) *units.Working {
	terms := []units.Term{units.T("content", h.content.Size.H), units.T("ease", h.ease.W), units.T("thickness", h.walls), units.N(2, "glue", glue)}
	if s.Strip.H == 0 {
		return m.sum("strip height", units.Up, terms...)
	}
	if h.given {
		if need := m.exact("height needed", terms...).Length(); s.Strip.H < need {
			m.Short("strip.h", check.TooSmall, m.n, s.Strip.H, m.r.Up(need), "for the content with ease and the glue at head and tail")
		}
	}
	return m.exact("strip height", units.T("strip", s.Strip.H))
}

// A stripSize is a folded strip worked out: its panels, its sizes, and where its
// panels end, counted from the flap's end.
type stripSize struct {
	stripPanels
	height, glue, clear units.Length
	long, tall          *units.Working
	x                   [6]units.Length
	right               bool // it opens to the right
}

// on places what is counted from the flap's end on the blank.
func (s *stripSize) on(r units.Rect) units.Rect {
	if s.right {
		return mirrored(r, s.long.Length())
	}
	return r
}

// part returns panel i of flap, spine, base, front and hem on the blank.
func (s *stripSize) part(i int) units.Rect {
	return s.on(rect(s.x[i], 0, s.x[i+1]-s.x[i], s.height))
}

// stripLay makes piece, panels, places and layers of a strip that folds.
func (m *maker) stripLay(s FoldedStrip, h hold, p stripPanels, glue units.Length) {
	size := stripSize{stripPanels: p, glue: glue, right: s.OpensRight, tall: m.stripHeight(s, h, glue)}
	height := size.tall.Length()
	size.height = height
	size.long = m.exact("strip length", units.T("flap", p.flap), units.T("spine", p.spine), units.T("base", p.base),
		units.T("pocket front", p.front), units.T("hem", p.hem))
	size.clear = m.exact("clear mouth", units.T("strip height", height), units.N(-2, "glue", glue)).Length()
	size.x = [6]units.Length{0, p.flap, p.flap + p.spine, p.flap + p.spine + p.base, size.long.Length() - p.hem, size.long.Length()}
	most := units.Size{W: p.base - h.ease.H, H: size.clear - h.ease.W - h.walls}
	if !h.given {
		m.room("strip.h", height, most.H, "for the glue, the ease and something to hold")
	}
	m.stripBase(s, h, p, most)
	if m.Len() > 0 {
		return
	}
	m.d.closed = units.Size{W: max(p.base, p.flap), H: height}
	m.d.open = units.Size{W: p.flap + p.spine + p.base, H: height}
	m.stripPiece(s.Notch, &size)
	place := rect(p.base-most.W, (height - most.H).Half(units.Down), most.W, most.H)
	in := m.hasPlace(place, units.Size{W: p.base, H: size.clear}, most, h.capacity(), h.count)
	in.mouth, in.hidden = score.Left, true // under the flap
	m.fill(place, h.filling())
	m.warnThick(h)
	if s.OpensRight {
		m.mirror()
	}
	if m.Len() > 0 {
		return
	}
	m.carry(0, m.matMargin(s.Margin), s.Mat)
	m.warnFold(p.spine, h.stack+2*m.d.paper.Caliper)
}

// stripBase checks that the base takes what is held.
func (m *maker) stripBase(s FoldedStrip, h hold, p stripPanels, most units.Size) {
	need, what := h.content.Size.W+h.ease.H, "for the content with ease"
	switch {
	case h.given && most.W < h.content.Size.W:
	case most.W < units.Shortest:
		need, what = h.ease.H+units.Shortest, "for the ease and something to hold"
	default:
		return
	}
	need = m.r.Up(need)
	switch {
	case s.Scores != [4]units.Length{}:
		m.Impossible("scores", check.TooSmall, "a base of "+m.text(p.base), "a base of at least "+m.text(need)+" "+what)
	case s.Base == 0:
		m.Short("strip.w", check.TooSmall, m.n, s.Strip.W, m.leastLong(s, depth{s.Depth.or(usualDepth()), s.StandOut}, p.spine, need), what)
	default:
		m.Short("base", check.TooSmall, m.n, p.base, need, what)
	}
}

// stripPiece makes the blank as it lies when the flap is at the left, or at the
// right; all folds turn towards the face.
func (m *maker) stripPiece(n ThumbNotch, s *stripSize) {
	outer := [2]score.Edge{score.Right, score.Left} // of the hem and of the flap
	if s.right {
		outer = [2]score.Edge{score.Left, score.Right}
	}
	var lines [4]score.Line
	var glue [8]score.Glue // up to four round a notch, and four at head and tail
	draw := score.Draft{Lines: lines[:0], Glue: glue[:0]}
	folds := m.folds
	for i := 4; i >= 1; i-- { // in the order of folding: hem, front, flap
		if i == 2 && s.spine == 0 {
			continue
		}
		at := s.x[i]
		if s.right {
			at = s.long.Length() - at
		}
		f := crease{axis: score.Upright, at: at, moves: outer[0]}
		if i <= 2 {
			f.moves = outer[1]
			if f.end = closing; s.spine > 0 {
				f.end = upright
			}
		}
		draw.Lines = append(draw.Lines, score.Line{Axis: score.Upright, At: at, Fold: score.Valley})
		folds = append(folds, f)
	}
	cut := m.stripNotch(n, s)
	if !cut.Area.Empty() {
		draw.CutOuts = []score.CutOut{cut}
	}
	draw.Glue = around(draw.Glue, s.part(4), cut.Area)
	// What the hem leaves of the front is glued to the base by the front's
	// face, the rest by the hem's back.
	bare := s.front - s.hem
	for _, y := range [...]units.Length{0, s.height - s.glue} {
		if bare > 0 {
			draw.Glue = append(draw.Glue, score.Glue{Area: s.on(rect(s.x[3], y, bare, s.glue))})
		}
		draw.Glue = append(draw.Glue, score.Glue{Area: s.on(rect(s.x[4], y, s.hem, s.glue)), Side: score.Back})
	}
	at := m.piece("strip", 1, s.long, s.tall, draw)
	m.d.pieces[at].folds = folds
	m.stripPanels(at, s, len(folds))
}

// stripPanels adds the panels as they lie when the flap is at the left, and
// their layers.
func (m *maker) stripPanels(at int, s *stripSize, folds int) {
	number := func(i int) int { // of the panel on the blank, from the left
		if s.spine == 0 && i > 0 {
			i--
		}
		if s.right {
			i = folds - i
		}
		return i
	}
	add := func(name string, i int, closed units.Rect) {
		m.panel(name, at, number(i), s.part(i), closed)
		m.lay(closed, 1)
	}
	add("flap", 0, rect(0, 0, s.flap, s.height))
	if s.spine > 0 {
		add("spine", 1, rect(0, 0, 0, s.height))
	}
	add("base", 2, rect(0, 0, s.base, s.height))
	add("pocket front", 3, rect(s.base-s.front, 0, s.front, s.height))
	add("hem", 4, rect(s.base-s.front, 0, s.hem, s.height))
}

func (s FoldedStrip) seen(p panels, all []seen) []seen {
	all = p.sees(p.sees(all, "flap when closed", "flap", false), "flap when opened", "flap", true)
	return p.sees(p.sees(all, "pocket front", "pocket front", false), "base beside the pocket", "base", false)
}

// stripNotch returns the notch to be cut through the fold between front and hem,
// and the zero CutOut for none.
func (m *maker) stripNotch(n ThumbNotch, s *stripSize) score.CutOut {
	if n == (ThumbNotch{}) || !m.checkNotch(n) {
		return score.CutOut{}
	}
	ok := m.Length("notch.width", n.Width)
	ok = m.Length("notch.depth", n.Depth) && ok
	ok = ok && m.atMost("notch.width", n.Width, s.clear, ", the width of the clear mouth")
	ok = ok && m.atMost("notch.depth", n.Depth, min(s.hem, s.front.Half(units.Down)), ", the depth of the hem or half that of the pocket")
	if !ok {
		return score.CutOut{}
	}
	area := s.on(rect(s.x[4]-n.Depth, (s.height - n.Width).Half(units.Down), 2*n.Depth, n.Width))
	return score.CutOut{Area: area, Radius: min(n.Depth, n.Width.Half(units.Down))}
}

// around adds glue to what is left of a rectangle round a hole in its middle, or
// one that reaches over its left or right edge.
func around(all []score.Glue, r, hole units.Rect) []score.Glue {
	if hole.Empty() {
		return append(all, score.Glue{Area: r})
	}
	for _, part := range [...]units.Rect{
		{Min: r.Min, Max: units.Point{X: r.Max.X, Y: hole.Min.Y}},
		{Min: units.Point{X: r.Min.X, Y: hole.Min.Y}, Max: units.Point{X: hole.Min.X, Y: hole.Max.Y}},
		{Min: units.Point{X: hole.Max.X, Y: hole.Min.Y}, Max: units.Point{X: r.Max.X, Y: hole.Max.Y}},
		{Min: units.Point{X: r.Min.X, Y: hole.Max.Y}, Max: r.Max},
	} {
		if !part.Empty() {
			all = append(all, score.Glue{Area: part})
		}
	}
	return all
}

// warnFold warns where the flap turns round more than one score can take: a
// fold round a stack needs two scores once the stack passes about two
// calipers.
func (m *maker) warnFold(spine, stack units.Length) {
	switch least := m.r.Up(stack); {
	case spine == 0 && stack > 2*m.d.paper.Caliper:
		m.warn(unwise{path: "spine", code: NeedsTwoScores, want: least, lengths: [2]units.Length{stack, least},
			text: [3]string{"the flap turns round a stack ", " thick when full; two scores ", " apart would let it lie flat"}})
	case spine > 0 && spine < stack:
		m.warn(unwise{path: "spine", code: NeedsTwoScores, got: spine, want: least, lengths: [2]units.Length{spine, stack},
			text: [3]string{"the spine of ", " is narrower than the stack it turns round, ", " when full"}})
	}
}

func (s FoldedStrip) steps(d *design, o *order) {
	strip, p := o.one(0, 0), d.pieces[0]
	front, base := o.on(0, 0), o.on(0, 0)
	front.Name, base.Name = "pocket front"+o.apart(), "base"+o.apart()
	hem := d.panel("hem")
	var few [3][2]units.Rect
	toFront, toBase, byHem := few[0][:0], few[1][:0], few[2][:0]
	for _, g := range p.blank.Glue() {
		switch {
		case g.Side == score.Back:
			byHem = append(byHem, g.Area)
		case g.Area.In(hem.blank):
			toFront = append(toFront, g.Area)
		default:
			toBase = append(toBase, g.Area)
		}
	}
	o.fold(strip, p.folds[0])
	o.stick(strip, score.Face, front, toFront...)
	o.dry("the hem", strip)
	o.fold(strip, p.folds[1])
	o.stick(strip, score.Face, base, toBase...)
	o.stick(strip, score.Back, base, byHem...)
	o.dry("the pocket front", strip)
	flap := d.panel("flap")
	if _, ok := o.matPiece(); ok {
		// It lies on the outside of the flap, which is its back.
		offset := units.Point{X: -flap.closed.Min.X}
		if !s.OpensRight {
			offset.X += d.open.W - flap.Size().W
		}
		o.do(work.TaskLay, work.TurnOver{What: strip})
		o.mountMat(o.on(0, 0), offset)
		o.do(work.TaskLay, work.TurnOver{What: strip, Again: true})
	}
	o.fold(strip, p.folds[2:]...)
	lies, on := d.panel("base"), strip
	on.Name = "base of the strip" + o.apart()
	o.base(work.Fix{What: on, Panel: lies.number, At: at(lies.closed.Min.X, 0), Areas: []units.Rect{lies.blank}, Size: lies.Size()})
	o.dry("the strip", strip)
	o.insert()
	o.shut(strip, p.folds[2:]...)
}
