package pocket

import (
	"slices"

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
	// fills in height; alone it is divided by the defaults.
	Strip units.Size
	// Scores are the places of the scores, measured from the flap's end of
	// the strip in rising order whichever way it opens: three, or four with a
	// spine.
	Scores [4]units.Length

	// Widths of panels; 0 is the default: a flap 1/8 in or 3 mm narrower than
	// the base, a base that takes the content and its ease, a hem of 1 1/2 in
	// or 40 mm but no more than 3/4 of the front. All are common practice, no
	// published source.
	Flap, Base, Front, Hem units.Length

	Spine    units.Length // width of a spine of its own; 0: none, or as OwnSpine asks
	OwnSpine bool         // a spine as wide as front, hem and contents are thick
	Overhang units.Length // how far the flap may reach beyond the base; 0: not at all

	Glue units.Length // width of the glue along head and tail; 0 is 1/4 in or 6 mm
	// Notch is a thumb notch in the mouth, cut through front and hem. Zero is
	// none here: the content is gripped by what stands out.
	Notch      Notch
	Mat        Mat          // on the flap
	Margin     units.Length // round the mat; 0 is 1/8 in or 3 mm
	OpensRight bool         // the flap is hinged at the right and opens to the right
}

// Name returns "folded strip".
func (s FoldedStrip) Name() string { return "folded strip" }

// stripPanels are the widths of a folded strip.
type stripPanels struct{ flap, spine, base, front, hem units.Length }

func (p stripPanels) sum() units.Length { return p.flap + p.spine + p.base + p.front + p.hem }

// Design works the strip out.
func (s FoldedStrip) Design(p Paper, r units.Ruler) (Design, error) {
	m := newMaker(s, p, r)
	h := m.hold(s.Content, s.Count, s.Ease)
	for _, f := range [...]struct {
		path string
		l    units.Length
	}{
		{"flap", s.Flap}, {"base", s.Base}, {"front", s.Front}, {"hem", s.Hem}, {"spine", s.Spine},
		{"overhang", s.Overhang}, {"glue", s.Glue}, {"margin", s.Margin},
	} {
		m.Allowance(f.path, f.l)
	}
	m.checkMat(s.Mat)
	d := m.depth(s.Depth, s.StandOut)
	atHand, scored := s.Strip != units.Size{}, s.Scores != [4]units.Length{}
	if atHand {
		m.Size("strip", s.Strip)
	}
	if s.Front != 0 && (s.StandOut != 0 || s.Depth != Share{}) {
		m.Malformed("front", check.Conflict, m.text(s.Front)+" and a depth or standOut", "one of the two")
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

	glue := m.or(s.Glue, in/4, 6*mm)
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
	if m.Len() > 0 {
		return m.finish()
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
	}
	p.spine = m.spineFor(s, h)
	m.stripDefaults(s, &p, d, h.content.Size.W)
	if s.Strip.W != 0 {
		m.atMost("strip.w", p.sum(), s.Strip.W, "for flap, base, front and hem; the strip is that long")
	}
	return p
}

// stripDefaults fills in flap, front and hem from the base.
func (m *maker) stripDefaults(s FoldedStrip, p *stripPanels, d depth, content units.Length) {
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
	p := stripPanels{flap: s.Flap, base: s.Base, front: s.Front, hem: s.Hem}
	p.spine = m.spineFor(s, h)
	if d.standOut > 0 {
		m.Malformed("standOut", check.Conflict, "no content", "a content that stands out, or a depth")
		return p
	}
	if p.hem == 0 && (p.flap == 0 || p.base == 0 || p.front == 0) {
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
		p.base = m.share("base", shares, units.Nearest, terms...).Length()
	}
	if p.base < units.Shortest {
		m.Short("strip.w", check.TooSmall, m.n, s.Strip.W, m.r.Up(s.Strip.W-2*p.base+2*units.Shortest), "for flap, base, front and hem")
		return p
	}
	m.stripDefaults(s, &p, d, 0)
	if s.Hem == 0 { // the hem takes what is left
		p.hem = s.Strip.W - p.flap - p.spine - p.base - p.front
		m.d.workings = append(m.d.workings, m.ledger.Sum("hem", m.exactRuler(), units.Nearest, units.T("strip", s.Strip.W),
			units.N(-1, "flap", p.flap), units.N(-1, "spine", p.spine), units.N(-1, "base", p.base), units.N(-1, "pocket front", p.front)))
		m.room("strip.w", s.Strip.W, p.hem, "for flap, base, front and hem")
	} else {
		m.atMost("strip.w", p.sum(), s.Strip.W, "for flap, base, front and hem; the strip is that long")
	}
	return p
}

// stripLay makes piece, panels, places and layers of a strip that folds.
func (m *maker) stripLay(s FoldedStrip, h hold, p stripPanels, glue units.Length) {
	// Along the mouth, from head to tail.
	var tall units.Working
	switch {
	case s.Strip.H != 0:
		tall = m.exact("strip height", units.T("strip", s.Strip.H))
		if h.given {
			need := m.sum("height needed", units.Up, units.T("content", h.content.Size.H), units.T("ease", h.ease.W),
				units.T("thickness", h.walls), units.N(2, "glue", glue)).Length()
			if s.Strip.H < need {
				m.Short("strip.h", check.TooSmall, m.n, s.Strip.H, need, "for the content with ease and the glue at head and tail")
			}
		}
	default:
		tall = m.sum("strip height", units.Up, units.T("content", h.content.Size.H), units.T("ease", h.ease.W),
			units.T("thickness", h.walls), units.N(2, "glue", glue))
	}
	height := tall.Length()
	long := m.exact("strip length", units.T("flap", p.flap), units.T("spine", p.spine), units.T("base", p.base),
		units.T("pocket front", p.front), units.T("hem", p.hem))
	clear := m.exact("clear mouth", units.T("strip height", height), units.N(-2, "glue", glue)).Length()
	most := units.Size{W: p.base - h.ease.H, H: clear - h.ease.W - h.walls}
	base := "base"
	if s.Scores != [4]units.Length{} {
		base = "scores"
	}
	m.room("strip.h", height, most.H, "for the glue, the ease and something to hold")
	switch {
	case h.given && most.W < h.content.Size.W:
		m.Short(base, check.TooSmall, m.n, p.base, m.r.Up(h.content.Size.W+h.ease.H), "for the content with ease")
	case most.W < units.Shortest:
		m.Short(base, check.TooSmall, m.n, p.base, m.r.Up(h.ease.H+units.Shortest), "for the ease and something to hold")
	}
	if m.Len() > 0 {
		return
	}

	// The blank as it lies when the flap is at the left; all folds turn
	// towards the face.
	x := [6]units.Length{0, p.flap, p.flap + p.spine, p.flap + p.spine + p.base, long.Length() - p.hem, long.Length()}
	on := func(r units.Rect) units.Rect { return r }
	if s.OpensRight {
		on = func(r units.Rect) units.Rect { return mirrored(r, long.Length()) }
	}
	part := func(i int) units.Rect { return on(rect(x[i], 0, x[i+1]-x[i], height)) }
	draw := score.Drawing{Lines: make([]score.Line, 0, 4), Glue: make([]score.Glue, 0, 5)}
	for i := 4; i >= 1; i-- { // in the order of folding: hem, front, flap
		if i == 2 && p.spine == 0 {
			continue
		}
		at := x[i]
		if s.OpensRight {
			at = long.Length() - at
		}
		draw.Lines = append(draw.Lines, score.Line{Axis: score.Upright, At: at, Fold: score.Valley})
	}
	draw.Glue = append(draw.Glue, score.Glue{Area: part(4)})
	// What the hem leaves of the front is glued to the base by the front's
	// face, the rest by the hem's back.
	bare := p.front - p.hem
	for _, y := range [...]units.Length{0, height - glue} {
		if bare > 0 {
			draw.Glue = append(draw.Glue, score.Glue{Area: on(rect(x[3], y, bare, glue))})
		}
		draw.Glue = append(draw.Glue, score.Glue{Area: on(rect(x[4], y, p.hem, glue)), Side: score.Back})
	}
	m.stripNotch(s.Notch, &draw, on, x[4], p, height, clear)
	at := m.piece("strip", 1, long, tall, draw)

	wide := max(p.base, p.flap)
	m.d.closed = units.Size{W: wide, H: height}
	m.d.open = units.Size{W: p.flap + p.spine + p.base, H: height}
	m.panel("flap", at, part(0), rect(0, 0, p.flap, height))
	if p.spine > 0 {
		m.panel("spine", at, part(1), rect(0, 0, 0, height))
	}
	m.panel("base", at, part(2), rect(0, 0, p.base, height))
	m.panel("pocket front", at, part(3), rect(p.base-p.front, 0, p.front, height))
	m.panel("hem", at, part(4), rect(p.base-p.front, 0, p.hem, height))
	m.lay(rect(0, 0, p.flap, height), 1)
	m.lay(rect(0, 0, p.base, height), 1)
	m.lay(rect(p.base-p.front, 0, p.front, height), 1)
	m.lay(rect(p.base-p.front, 0, p.hem, height), 1)
	place := rect(p.base-most.W, (height - most.H).Half(units.Down), most.W, most.H)
	in := m.hasPlace(place, units.Size{W: p.base, H: clear}, most, h.capacity(), h.count)
	in.Mouth, in.Hidden = score.Left, true // under the flap
	m.fill(place, h.filling())
	m.warnThick(h)
	if s.OpensRight {
		m.mirror()
	}
	m.carry(0, m.matMargin(s.Margin), s.Mat)
	m.warnFold(p.spine, h.stack+2*m.d.paper.Caliper)
}

// stripNotch cuts a notch through the fold between front and hem, at x.
func (m *maker) stripNotch(n Notch, draw *score.Drawing, on func(units.Rect) units.Rect, x units.Length, p stripPanels, height, clear units.Length) {
	if n == (Notch{}) || n.None && n.Width == 0 && n.Depth == 0 {
		return
	}
	if n.None {
		m.Malformed("notch", check.Conflict, "no notch of "+m.text(n.Width)+" x "+m.text(n.Depth), "one of the two")
		return
	}
	ok := m.Length("notch.width", n.Width)
	ok = m.Length("notch.depth", n.Depth) && ok
	ok = ok && m.atMost("notch.width", n.Width, clear, "the clear mouth")
	ok = ok && m.atMost("notch.depth", n.Depth, min(p.hem, m.r.Down(p.front.Half(units.Down))), "the hem, and half the depth of the pocket")
	if !ok {
		return
	}
	area := on(rect(x-n.Depth, (height - n.Width).Half(units.Down), 2*n.Depth, n.Width))
	draw.CutOuts = append(draw.CutOuts, score.CutOut{Area: area, Radius: min(n.Depth, n.Width.Half(units.Down))})
}

// warnFold warns where the flap turns round more than one score can take: a
// fold round a stack needs two scores once the stack passes about two
// calipers.
func (m *maker) warnFold(spine, stack units.Length) {
	switch least := m.r.Up(stack); {
	case spine == 0 && stack > 2*m.d.paper.Caliper:
		m.warn("spine", NeedsTwoScores, "the flap turns round a stack "+m.text(stack)+" thick when full; two scores "+
			m.text(least)+" apart would let it lie flat", spine, least)
	case spine > 0 && spine < stack:
		m.warn("spine", NeedsTwoScores, "the spine of "+m.text(spine)+" is narrower than the stack it turns round, "+
			m.text(stack)+" when full", spine, least)
	}
}

func (s FoldedStrip) steps(d *Design, t *teller) {
	p := d.pieces[0]
	t.say("Cut the strip ").size(p.Blank.Size()).say(".").done(Cut)
	from, side := "left", "left"
	if s.OpensRight {
		from, side = "right", "right"
	}
	width := p.Blank.Size().W
	var at []units.Length
	for _, l := range p.Blank.Lines() {
		if s.OpensRight {
			at = append(at, width-l.At)
		} else {
			at = append(at, l.At)
		}
	}
	slices.Reverse(at)
	for _, c := range p.Blank.CutOuts() {
		t.say("Cut out a rounded notch ").size(c.Area.Size()).say(", its middle at ").len(c.Area.Min.X + c.Area.Size().W.Half(units.Down)).say(" from the left edge.").done(Cut)
	}
	t.say("Score it at ").list(at).say(" from the ").say(from).say(" edge, which is the flap's.")
	tellLight(d, t)
	t.done(Score)
	hem, _ := d.Panel("hem")
	front, _ := d.Panel("pocket front")
	flap, _ := d.Panel("flap")
	base, _ := d.Panel("base")
	t.say("Fold the hem, ").len(hem.Size().W).say(" wide, towards you on to the pocket front.").done(Fold)
	t.say("Glue the hem down.").done(Glue)
	t.say("Fold the pocket front, ").len(front.Size().W).say(" wide, towards you over the base of ").len(base.Size().W).say(".").done(Fold)
	t.say("Glue it down along head and tail, ").len((base.Size().H - d.places[0].Clear.H).Half(units.Down)).
		say(" wide; the mouth, ").len(d.places[0].Clear.H).say(" clear, faces the flap.").done(Glue)
	t.say("Fold the flap, ").len(flap.Size().W).say(" wide, towards you over the pocket; it opens to the ").say(side).say(".").done(Fold)
	tellMat(d, t)
	t.say("Closed it measures ").size(d.closed).say(".").done(Fit)
}

// tellMat tells how a mat is laid on.
func tellMat(d *Design, t *teller) {
	for _, p := range d.pieces {
		if p.Name == "mat" {
			t.say("Cut the mat ").size(p.Blank.Size()).say(".").done(Cut)
			t.say("Glue the mat to the middle of the ").say(d.panels[d.carrier-1].Name).say(".").done(Glue)
		}
	}
}
