package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Closed is the folio shut: its boards parallel, every hinge creased as Spec.Hinge or
// its joint says. All sizes are exact, to the nanometre; room is rounded down and
// outside sizes up where a bend makes them irrational.
//
// Whatever the row, the way from one board to another one that lies on it goes
// through the folds between them: each that rises on the way adds what it spans,
// each that comes back takes it off, and what is left after both boards and their
// liners, or coverings where outsides meet, is the room there. The thickness is the
// way from the lowest to the highest face, the width from the outermost fold or edge
// to the other one. For two covers with a spine board that comes to the following.
//
// With a spine board S, a board caliper t, a liner and a covering, and a single
// crease at x from the spine board's edge in a gap g, turned by 90° (derived):
//
//	room between the liners  S + 2x − 2t − 2 × liner
//	outside thickness        S + 2x + 2 × covering
//	closed width             cover + (g − x) + 2 × covering
//	closed height            cover + 2 × covering
//
// In quarter style the strip's covering counts at the back of a spine, and both
// coverings at the faces and at head and tail, where one laps the other.
// Turn-ins lie under the liners and take from the room as what is fitted there
// does, see [Plan.Heights].
//
// With two creases, at both edges of the gap, the gap lies aslant: it adds
// g/√2 to the thickness instead of x and g/√2 to the width instead of g − x. A
// round bend adds 2g/π to each.
//
// A soft joint turns by 180°. With two creases, each at x from its board's edge, the
// back is flat: g − 2x takes the place of S + 2x, and the closed width is cover + x +
// 2 × covering; inside other folds the two creases lie at unequal distances, past
// what each must clear. A round back is a half circle: 2g/π takes that place, and g/π
// that of x in the width.
type Closed struct {
	bend   rule.CreasePlace
	crease units.Length
	between,
	under,
	thickness, width, height units.Working
	flap bool
}

// Bend returns how the hinges bend; a single crease anywhere is
// [rule.CreaseAtOffset].
func (c Closed) Bend() rule.CreasePlace { return c.bend }

// Crease returns how far the crease lies from the edge of the spine board, or
// of the cover beside a soft spine; it is 0 for a round bend.
func (c Closed) Crease() units.Length { return c.crease }

// Room returns the clear distance between the insides of the board on the table and
// of the one beside it that folds on to it, the left one where both do: between the
// liners of two covers, or of back and doors. It may be negative. Other places of a
// row may leave more or less, see [Plan.Over].
func (c Closed) Room() units.Working { return c.between }

// UnderFlap returns the clear distance between an outside and the inside that comes
// to lie on it, as between the front cover and a flap, of several the one nearest to
// the table, and whether the row has such a place.
func (c Closed) UnderFlap() (units.Working, bool) { return c.under, c.flap }

// Thickness returns the thickness over the covering, without what sits on the
// outside of the covers.
func (c Closed) Thickness() units.Working { return c.thickness }

// Width returns the width over the covering.
func (c Closed) Width() units.Working { return c.width }

// Height returns the height over the covering.
func (c Closed) Height() units.Working { return c.height }

// Size returns width and height.
func (c Closed) Size() units.Size {
	return units.Size{W: c.width.Length(), H: c.height.Length()}
}

// gapRange returns the narrowest and the widest of the gaps that are planned like
// one. One that came out wider than planned adds no room, as what is measured is the
// whole cover and not the gap.
func (p *Plan) gapRange(joint int) (least, most units.Length) {
	planned := p.gaps[joint].planned
	least = units.Longest
	for i := range p.gaps {
		if p.gaps[i].planned != planned {
			continue
		}
		g := p.gaps[i].Width()
		least, most = min(least, g, planned.Length()), max(most, g)
	}
	return least, most
}

// bents returns the hinges before they are bent.
func (p *Plan) bents() (s shut) {
	s.p = p
	for i := range p.gaps {
		b := &s.j[i]
		b.soft, b.beside = p.shape.soft(i), p.gaps[i].crease
		b.gap, b.wide = p.gapRange(i)
	}
	return s
}

// Shuts returns nil if the covers come to lie parallel, and otherwise an
// *[check.Error] of the code [WarnOpen]: what is worked out of the closed folio
// has no answer then.
func (p *Plan) Shuts() error {
	if p == nil || len(p.boards) == 0 {
		return noPlan()
	}
	if _, ok := p.hinged(); ok {
		return nil
	}
	var bad check.List
	path, why := p.ajar()
	bad.Impossible(path, WarnOpen, why, "a folio that shuts")
	return bad.Err()
}

// hinged returns how the Spec bends the hinges, and whether they turn far
// enough for the covers to lie parallel. Without boards there are none.
func (p *Plan) hinged() (s shut, all bool) {
	s, all = p.bents(), len(p.boards) > 0
	for i := range p.gaps {
		b, h := &s.j[i], p.shape.hinge(i)
		b.bend = h.Crease
		all = p.turnsFlat(i, b, h) && all
		switch b.bend {
		case rule.CreaseAtOffset:
			b.x = h.Offset
		case rule.CreaseMidGap:
			b.x, b.mid = b.gap.Half(units.Down), true
		}
		if b.bend == rule.CreaseAtEdge || b.bend == rule.CreaseMidGap {
			b.bend = rule.CreaseAtOffset
		}
	}
	return s, all
}

// turnsFlat reports whether a hinge turns far enough for the covers to lie parallel.
func (p *Plan) turnsFlat(i int, b *bent, h rule.Hinge) bool {
	angle := 90
	var past units.Length
	if b.soft {
		angle, past = 180, b.beside[0]+b.beside[1]
	}
	need, ok := rule.LeastGap(p.leaning(i), angle, h.Crease, min(h.Offset, b.gap-h.Offset))
	return ok && b.gap >= need+past
}

// ajar says of a plan with a hinge that does not turn far enough for that which field
// makes it so, and why.
func (p *Plan) ajar() (path, why string) {
	s := p.bents()
	for i := range p.gaps {
		h := p.shape.hinge(i)
		if p.turnsFlat(i, &s.j[i], h) {
			continue
		}
		if s.j[i].gap = p.gaps[i].planned.Length(); p.measured != nil && p.turnsFlat(i, &s.j[i], h) {
			return "measured.width", "a gap came out too narrow"
		}
		return p.hingePath(i) + ".angle", "the hinges turn by " + count(h.Angle) + " degrees"
	}
	return "", ""
}

// leaning is what of a board leans into a hinge: at head and tail with the
// turn-ins, which a published gap does not count.
func (p *Plan) leaning(joint int) units.Length {
	h := p.shape.hinge(joint)
	if p.shape.folds[joint] == score.Mountain {
		return p.outer()
	}
	thick := p.spec.thick(h)
	if h.Rule == rule.HingeFixed || h.Rule == rule.HingeLeast {
		thick += p.spec.atHinge(p.wrap.quarter)
	}
	return thick
}

// turned is what of a board leans into a hinge with the turn-ins counted.
func (p *Plan) leaningTurned(joint int) units.Length {
	if p.shape.folds[joint] == score.Mountain {
		return p.outer()
	}
	return p.spec.thick(p.shape.hinge(joint)) + p.spec.atHinge(p.wrap.quarter)
}

// furthest returns the hinges bent as they leave the most room that a single
// crease up to mid-gap can, and whether they turn that far at all. Beyond it
// the boards would meet: with a gap of less than 2t the crease must stay
// within g − t of the spine board. A soft spine leaves the most room with a
// flat back creased at the covers' edges. All gaps may be taken to be as wide as they may
// have come out.
func (p *Plan) furthest(widest bool) (s shut, all bool) {
	s, all = p.bents(), len(p.boards) > 0
	if widest {
		s = s.expected()
	}
	for i := range p.gaps {
		b := &s.j[i]
		all = all && b.gap >= b.parallel(p.leaning(i))
		if widest {
			b.gap = b.wide
		}
		b.bend = rule.CreaseAtOffset
		if b.soft {
			b.bend = rule.CreaseTwo
		} else {
			b.x = max(0, min(b.gap.Half(units.Down), b.gap-p.leaningTurned(i)))
		}
	}
	return s, all
}

// parallel returns the least gap with which boards that lean so thick into it come to lie
// parallel at all.
func (b *bent) parallel(leaning units.Length) units.Length {
	if b.soft {
		return b.beside[0] + 2*leaning + b.beside[1]
	}
	return leaning
}

// Closed returns the folio shut with its hinges creased as Spec.Hinge says, and
// whether it shuts: false where a gap is too narrow for the covers to lie
// parallel, as with an angle below 90°, or 180° for a soft spine.
func (p *Plan) Closed() (Closed, bool) {
	s, ok := p.hinged()
	if !ok {
		return Closed{}, false
	}
	return s.closed(), true
}

// ClosedRange returns the folio shut in the two ways between which a hand-made
// hinge lies: creased at the spine board's edge, which leaves the least room,
// and as far from it as mid-gap or the boards allow, which leaves the most. For
// a soft spine they are a round back and a flat one. Of gaps that came out wider, or that
// Spec.Placing expects to, the one counts with the narrowest that they may be and the
// other with the widest. It reports false where the
// hinges do not turn that far.
func (p *Plan) ClosedRange() (least, most Closed, ok bool) {
	near, ok := p.furthest(false)
	if !ok {
		return Closed{}, Closed{}, false
	}
	far, _ := p.furthest(true)
	for i := range p.gaps {
		if near.j[i].x = 0; near.j[i].soft {
			near.j[i].bend = rule.CreaseRound
		}
	}
	return near.closed(), far.closed(), true
}

// ClosedAt returns the folio shut with each hinge creased once, at the given
// distance from the edge of the spine board; a soft joint is creased twice, at that
// distance from each board, or from where the crease must lie at least to go past
// what lies inside. The error is a *[check.Error]: the crease
// must lie between 0 and mid-gap, and so that the boards do not meet.
func (p *Plan) ClosedAt(crease units.Length) (Closed, error) {
	if len(p.boards) == 0 {
		return Closed{}, p.Shuts()
	}
	var bad check.List
	if !bad.Allowance("crease", crease) {
		return Closed{}, bad.Err()
	}
	s, _ := p.furthest(false)
	limit := units.Longest
	for i := range p.gaps {
		b := &s.j[i]
		if b.gap < b.parallel(p.leaning(i)) {
			short(&bad, p.gapPath(i), GapNarrow, p.Notation(), b.gap, b.parallel(p.leaningTurned(i)), "for the covers to lie parallel")
			return Closed{}, bad.Err()
		}
		most := b.x
		if b.soft {
			most = max(0, (b.gap - b.parallel(p.leaningTurned(i))).Half(units.Down))
		}
		limit = min(limit, most)
		b.x = crease
	}
	if crease > limit {
		bad.Long("crease", check.TooLarge, p.Notation(), crease, limit, "from the board's edge")
		return Closed{}, bad.Err()
	}
	return s.closed(), nil
}

// closed writes the sizes down with their workings.
func (s *shut) closed() Closed {
	var g units.Ledger
	g.Reserve(24) // what two covers take, and more
	return s.closedIn(&g)
}

// closedIn keeps the terms of the workings in a ledger of the caller's.
func (s *shut) closedIn(g *units.Ledger) Closed {
	p := s.p
	n := p.Notation()
	var buf [4]meet
	all := s.meetings(buf[:0])
	c := Closed{bend: s.j[0].bend, crease: s.j[0].x}
	var terms [4 * boards.MaxBoards]units.Term
	c.between = exactly(g, "room between the covers", n, s.roomTerms(terms[:0], s.base(all))...)
	if m := under(all); m != nil {
		c.flap = true
		c.under = exactly(g, "room under the flap", n, s.roomTerms(terms[:0], m)...)
	}
	top := s.top()
	up := s.passage(p.folded.main, top)
	thick := up.terms(terms[:0], units.Up)
	if covers := p.overFaces(); p.folded.up(top) {
		covers.Count = 1
		thick = append(thick, covers, units.T("board caliper", p.spec.Board.Caliper), units.T("liner caliper", p.spec.Liner.Caliper))
	} else {
		thick = append(thick, covers)
	}
	c.thickness = exactly(g, "closed thickness", n, thick...)
	c.width = exactly(g, "closed width", n, s.widthTerms(terms[:0])...)
	height := "cover height"
	if p.row().H != p.boards[0].height.Length() {
		height = "cover height as measured"
	}
	c.height = exactly(g, "closed height", n, units.T(height, p.row().H), p.overFaces())
	return c
}

// top returns the board that lies highest.
func (s *shut) top() int {
	f := &s.p.folded
	top := f.main
	var most units.Length
	for k := range f.n {
		w := s.passage(f.main, k)
		if z := w.length(units.Up); z > most {
			top, most = k, z
		}
	}
	return top
}

// A rim is what reaches furthest to one side of the closed folio: a fold, or the
// edge of a board.
type rim struct {
	at    units.Length
	fold  int // −1 for an edge
	board int // that the edge is of
}

// rim finds what reaches furthest to a side.
func (z *sizing) rim(right bool) rim {
	best := rim{fold: -1, board: -1}
	further := func(e rim) {
		if best.board < 0 && best.fold < 0 || right && e.at > best.at || !right && e.at < best.at {
			best = e
		}
	}
	for k := range z.f.n - 1 {
		if z.right(k) == right {
			further(rim{z.at[k], k, -1})
		}
	}
	side := 0
	if right {
		side = 1
	}
	for k := range z.f.n {
		further(rim{z.x[k][side], -1, k})
	}
	return best
}

// of reports whether it is an end of a board.
func (e rim) of(board int) bool {
	return e.board == board || e.fold >= 0 && (e.fold == board || e.fold+1 == board)
}

// widthTerms appends what the closed width adds up: the board that reaches from one
// end to the other, what its folds lie beyond it, and what goes round both ends.
func (s *shut) widthTerms(terms []units.Term) []units.Term {
	p, z := s.p, s.laid(units.Up)
	left, right := z.rim(false), z.rim(true)
	board := -1
	for k := range z.f.n {
		if left.of(k) && right.of(k) {
			board = k // the only one: two folds at the two sides share one board at most
		}
	}
	if board < 0 {
		terms = append(terms, units.T("from the left end to the right", right.at-left.at))
	} else {
		terms = append(terms, units.T(coverName(p.boards[z.f.inRow(board)].role), z.wide[board]))
		for _, e := range [...]rim{left, right} {
			if e.fold >= 0 {
				terms = s.pastTerms(terms, e.fold, board-e.fold)
			}
		}
	}
	if left.fold < 0 {
		left, right = right, left // a fold is told first
	}
	for _, e := range [...]rim{left, right} {
		switch {
		case e.fold >= 0 && p.folded.kind[e.fold] == score.Mountain:
			terms = merge(terms, units.T("board and liner at a fold", z.outside(e.fold)))
		case e.fold >= 0 && p.wrap.quarter:
			terms = merge(terms, units.T("spine covering caliper", p.spec.SpineCovering.Caliper))
		default:
			terms = merge(terms, units.T("covering caliper", p.spec.Covering.Caliper))
		}
	}
	return terms
}

// coverName is what a board is called in the closed width.
func coverName(r boards.Role) string {
	if r == boards.LeftCover || r == boards.RightCover {
		return "cover"
	}
	return r.String()
}

// pastTerms appends how far a fold lies beyond the board on one side of it.
func (s *shut) pastTerms(terms []units.Term, fold, side int) []units.Term {
	b, right := s.joints(fold)
	if side == 1 {
		b = right
	}
	out := b.out(side, units.Up)
	switch {
	case b.soft && b.bend == rule.CreaseRound:
		return merge(terms, units.T("depth of the round back", out))
	case b.soft:
		return merge(terms, units.T("crease", out))
	case b.bend == rule.CreaseTwo:
		return merge(terms, units.T("gap aslant", out))
	case b.bend == rule.CreaseRound:
		return merge(terms, units.T("radius of the bend", out))
	}
	return merge(merge(terms, units.T("gap", b.wide)), units.N(-1, "crease", b.wide-out))
}

// overFaces is what the covering adds to both faces, and to head and tail, of the
// closed folio: in quarter style where a side paper laps a strip.
func (p *Plan) overFaces() units.Term {
	if p.wrap.quarter {
		return units.N(2, "covering where one laps the other", p.spec.overEdge(true))
	}
	return units.N(2, "covering caliper", p.spec.Covering.Caliper)
}
