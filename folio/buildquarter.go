package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A zone is a run of narrow boards and gaps between two wide boards, which a
// spine strip covers and reaches beyond.
type zone struct {
	left, right int // indices of the wide boards
	reach       reach
}

// A part is one piece of a quarter-style covering. Its width is exact until it
// is put on the ruler with the margins at the case's ends.
type part struct {
	x, width    units.Length
	left, right bool // ends at the case's left or right edge
	strip       bool
	first, last int // the wide boards that it lies on
	terms       [6]units.Term
	rounded     *units.Working
}

// edges returns at how many of the case's two ends the part turns in.
func (p part) edges() int {
	n := 0
	if p.left {
		n++
	}
	if p.right {
		n++
	}
	return n
}

// quarter covers the case in two materials. A strip goes over every zone of
// spines and hinges and reaches on to the boards beside it; a side paper covers
// what is left of every wide board, laps the strips beside it and turns in over
// the edges it has.
func (b *builder) quarter() {
	s, w := b.spec, &b.plan.wrap
	w.quarter = true
	r := s.Rulers.Wrap
	zones := b.zones()
	parts, ok := b.sides(zones, b.strips(zones))
	if !ok {
		return
	}
	along, ends, ok := b.quarterMargins(parts)
	if !ok {
		return
	}
	if on := r.Down(ends); on >= s.Margin.Tolerated && (ends < s.Margin.Least || on >= s.Margin.Least) {
		ends = on
	}
	// A margin that no graduation keeps within its bounds is as the sheet leaves it,
	// and so are the papers at the ends: rounded up they would not come out of it.
	atEnd := r
	if !r.Has(ends) {
		atEnd = b.exact()
	}
	w.w = b.endAxis(ends)
	w.h = b.axis("wrap height", "head margin", "tail margin", "open height", b.openHeight(), b.openHeight()+along)
	paper := units.Longest // the width of the narrower of the papers at the ends
	for i := range parts {
		pt := &parts[i]
		label, terms := "side paper width", used(pt.terms[:5])
		if pt.strip {
			label = "spine strip width"
		}
		on := r
		if edges := pt.edges(); edges > 0 {
			terms, on = append(terms, units.N(edges, "margin", ends)), atEnd
		}
		// What rounding adds makes the lap wider, never narrower.
		pt.rounded = b.sum(label, on, units.Up, terms...)
		if pt.left || pt.right {
			paper = min(paper, pt.rounded.Length())
		}
	}
	b.mitres(paper)
	alike := true // the strips, which come first
	for i := range parts {
		alike = alike && (!parts[i].strip || parts[i].rounded.Length() == parts[0].rounded.Length())
	}
	for i := range parts {
		name := "spine strip"
		if !alike { // a side paper has another
			name = ordinal(i) + " " + name
		}
		b.cutPart(&parts[i], name, alike && i > 0 && parts[i].strip)
	}
	b.tellLaps()
}

// tellLaps warns where side papers lap the strips beside them by another length than
// is given off the ruler.
func (b *builder) tellLaps() {
	lap, parts := b.spec.Quarter.Lap, b.plan.wrap.parts
	end := func(i int) units.Length { return parts[i].x + b.plan.pieces[parts[i].piece].width.Length() }
	least, greatest := units.Longest, lap
	for i := range len(parts) / 2 { // the strips, and the papers, one more, behind them
		paper := i + len(parts)/2
		before, behind := end(paper)-parts[i].x, end(i)-parts[paper+1].x
		least, greatest = min(least, before, behind), max(greatest, before, behind)
	}
	b.comesTo("quarter.lap", "lap", "strips and papers", b.spec.Rulers.Wrap, lap, least, greatest)
}

// zones finds what the strips cover.
func (b *builder) zones() []zone {
	p := b.plan
	var zones []zone
	last := -1
	for i := range p.boards {
		if p.boards[i].role.Spine() {
			continue
		}
		if last >= 0 {
			zones = append(zones, zone{last, i, b.reach(p.boards[last], p.boards[i])})
		}
		last = i
	}
	return zones
}

// strips returns the spine strips.
func (b *builder) strips(zones []zone) []part {
	p := b.plan
	parts := make([]part, 0, len(zones)+len(p.boards))
	for _, z := range zones {
		r := z.reach.strip.Length()
		x := p.boards[z.left].planned + p.boards[z.left].width.Length()
		span := p.boards[z.right].planned - x
		parts = append(parts, part{x: x - r, width: span + 2*r, strip: true, first: z.left, last: z.right, terms: [6]units.Term{
			units.T("spine with its hinges", span), units.N(2, "reach", r),
		}})
	}
	return parts
}

// sides adds the side papers to the strips, and reports whether the strips leave
// something to each of them.
func (b *builder) sides(zones []zone, parts []part) ([]part, bool) {
	s, p := b.spec, b.plan
	r := s.Rulers.Wrap
	limit, where := units.Longest, boards.MainPanel // of the reach, and the board that sets it
	at := 0                                         // the zone after the board
	for i := range p.boards {
		bd := &p.boards[i]
		if bd.role.Spine() {
			continue
		}
		pt := part{x: bd.planned, left: i == 0, right: i == len(p.boards)-1, first: i, last: i}
		pt.terms[0] = units.T(bd.role.String(), bd.width.Length())
		k, exact, beside := 1, bd.width.Length(), 0
		give := func(take units.Length) {
			exact -= take - s.Quarter.Lap
			pt.terms[k] = units.N(-1, "reach before rounding", take)
			pt.terms[k+1] = units.T("lap", s.Quarter.Lap)
			k += 2
			beside++
		}
		if !pt.left { // the strip before it
			z := &zones[at].reach
			in := z.exact - s.Quarter.Lap
			// On the ruler, where it laps that strip as far as it should; rounded up, it is
			// wide enough for the other.
			if on := r.Up(in); on <= z.strip.Length()-s.Quarter.Lap {
				in = on
			}
			pt.x += in
			give(z.exact)
			at++
		}
		if !pt.right {
			give(zones[at].reach.exact)
		}
		// The strip stays on the board, and leaves the paper more than its lap.
		most := min(bd.width.Length()-units.Shortest, r.Down(bd.width.Length()))
		if beside == 2 {
			most = min(most, (bd.width.Length()+s.Quarter.Lap).Half(units.Down)-units.Shortest)
		}
		if most < limit {
			limit, where = most, bd.role
		}
		pt.width = r.Up(exact)
		parts = append(parts, pt)
	}
	if s.Quarter.Reach > limit {
		b.tooFar(limit, where)
		return nil, false
	}
	return parts, true
}

// tooFar says that nothing is left for a side paper.
func (b *builder) tooFar(most units.Length, board boards.Role) {
	n, what := b.notation(), "or nothing is left for the side paper of the "+board.String()
	if most < units.Shortest {
		b.bad.Impossible("quarter.reach", TooWide, n.Text(b.spec.Quarter.Reach), "wider boards, "+what)
		return
	}
	b.bad.Long("quarter.reach", TooWide, n, b.spec.Quarter.Reach, most, what)
}

// quarterMargins returns the margins that the sheets of both materials allow, at
// head and tail together and at each end. The height is shared by all pieces, so
// the smallest decides. It reports whether every part comes out of a sheet with
// the tolerated margin at least.
func (b *builder) quarterMargins(parts []part) (along, ends units.Length, ok bool) {
	s := b.spec
	openH := b.openHeight()
	along, ends = 3*units.Longest, b.margin.Ideal // any, where no stock has sheets
	var missing [2]units.Length                   // the widest strip and side paper that come out of no sheet
	for i := range parts {
		pt := &parts[i]
		stock, kind := &s.Covering, 1
		if pt.strip {
			stock, kind = &s.SpineCovering, 0
		}
		if len(stock.Sheets) == 0 {
			continue
		}
		h, side, found := marginOfPart(b.margin, stock, s.Grain, pt, openH)
		if !found {
			missing[kind] = max(missing[kind], pt.width+times(s.Margin.Tolerated, pt.edges()))
			continue
		}
		along = min(along, h)
		if pt.edges() > 0 {
			ends = min(ends, side)
		}
	}
	need := units.Size{W: missing[0], H: openH + 2*s.Margin.Tolerated}
	if need.W > 0 {
		b.noSheet(b.spinePath()+".sheets", s.SpineCovering, need, "the spine strip", "")
	}
	if need.W = missing[1]; need.W > 0 {
		b.noSheet("covering.sheets", s.Covering, need, "a side paper", "")
	}
	return along, ends, missing == [2]units.Length{}
}

// marginOfPart returns what a stock's sheets leave to a part at head and tail
// together, and the widest margin up to the ideal at each end.
func marginOfPart(m rule.Margin, s *stock.Stock, grain stock.GrainRule, pt *part, openH units.Length) (along, ends units.Length, found bool) {
	edges := pt.edges()
	var best units.Length
	lies(s, grain, func(l lie) bool {
		h, side := l.size.H-openH, m.Ideal
		spare := l.size.W - pt.width
		if edges > 0 { // one: no part goes from end to end
			side = min(side, spare)
		} else if spare < 0 {
			return true
		}
		low := min(h.Half(units.Down), side) // at most the ideal, as the side is
		if low < m.Tolerated {
			return true
		}
		// As much margin in all: more of it at the end, whatever the order of the sheets.
		sum := min(h, 2*m.Ideal) + side - (min(along, 2*m.Ideal) + ends)
		if !found || low > best || low == best && (sum > 0 || sum == 0 && side > ends) {
			best, along, ends, found = low, h, side, true
		}
		return true
	})
	return along, ends, found
}

// cutPart adds the piece of a part, or one more of the first one. Spine strips are copies
// of one piece if all are equal, and else told apart by their names.
func (b *builder) cutPart(pt *part, name string, again bool) {
	s, w := b.spec, &b.plan.wrap
	piece := Piece{name: name, part: "wrap", role: stock.StripPiece, stock: s.SpineCovering.Name, up: work.WrongSide,
		width: pt.rounded, height: w.h.blank, quantity: 1}
	out := wrapPart{x: pt.x + w.w.near.Length(), first: pt.first, last: pt.last, strip: pt.strip}
	switch {
	case pt.left:
		out.x = 0
	case pt.right:
		out.x = w.w.blank.Length() - pt.rounded.Length()
	}
	if !pt.strip {
		piece.name, piece.role, piece.stock = "side paper of the "+b.plan.boards[pt.first].name, stock.CoveringPiece, s.Covering.Name
		piece.mitres, piece.mitred = &w.mitres, mitredAt(pt.left, pt.right)
	}
	if again {
		out.piece = w.parts[0].piece
		first := &b.plan.pieces[out.piece]
		out.copy = first.quantity
		first.quantity++
	} else {
		out.piece = b.piece(&piece)
	}
	w.parts = append(w.parts, out)
}

// endAxis is the whole covering across, with equal margins at both ends.
func (b *builder) endAxis(end units.Length) Extent {
	s := b.spec
	open := b.openWidth()
	a := Extent{open: open}
	label := "ideal"
	if end < b.margin.Ideal {
		a.limit, label = rule.LimitSheet, "what the sheets leave"
	}
	a.near = b.exactly("left margin", units.T(label, end))
	a.far = b.exactly("right margin", units.T(label, end))
	a.blank = b.exactly("wrap width", units.T("open width", open), units.T("left margin", end), units.T("right margin", end))
	if end < s.Margin.Least {
		n := b.notation()
		b.warn(check.Warning{Path: "margin.least", Code: WarnMargin, Got: end, Want: s.Margin.Least,
			Text: "the margin at the fore edges is " + n.Text(end) + ", less than the usual least of " + n.Text(s.Margin.Least)})
	}
	return a
}

// A reach is how far a strip goes on to the boards beside it: rounded up for
// the strip, and exact for the side paper, which is rounded up by itself. The
// two roundings widen the lap; that way a larger board never has a smaller
// strip or side paper.
type reach struct {
	strip *units.Working
	exact units.Length
}

func (b *builder) reach(left, right Board) reach {
	s := b.spec
	r := s.Rulers.Wrap
	narrower := min(left.width.Length(), right.width.Length())
	if given := s.Quarter.Reach; given != 0 {
		strip := b.sum("reach of the spine strip", r, units.Up, units.T("as given", given))
		b.moved("quarter.reach", strip)
		return reach{strip, given}
	}
	fifth, _ := narrower.Scale(1, 5, units.Down)
	return reach{b.share("reach of the spine strip", 5, r, units.Up, units.T("board width", narrower)), fifth}
}
