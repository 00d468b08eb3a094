package folio

import (
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A zone is a run of narrow boards and gaps between two wide boards, which a
// spine strip covers.
type zone struct{ left, right int } // indices of the wide boards

// A part is one piece of a quarter-style covering, before the margins at the
// case's ends are known.
type part struct {
	x, width    units.Length
	left, right bool // ends at the case's left or right edge
	strip       bool
	first, last int // the wide boards that it lies on
	terms       [6]units.Term
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
	s, p := &b.spec, b.plan
	w := &p.wrap
	w.quarter = true
	r := s.Rulers.Wrap
	n := b.notation()

	var zones []zone
	last := -1
	for i := range p.boards {
		if p.boards[i].role.narrow() {
			continue
		}
		if last >= 0 {
			zones = append(zones, zone{last, i})
		}
		last = i
	}

	// The margins: as much as the sheets of both materials allow. The height
	// is shared by all pieces, so the smallest decides.
	openH := b.openHeight()
	reaches := make([]reach, len(zones))
	for i, z := range zones {
		reaches[i] = b.reach(p.boards[z.left], p.boards[z.right])
	}
	parts := make([]part, 0, len(zones)+len(p.boards))
	for i, z := range zones {
		r := reaches[i].strip.Length()
		x := p.boards[z.left].planned + p.boards[z.left].width.Length()
		span := p.boards[z.right].planned - x
		parts = append(parts, part{x: x - r, width: span + 2*r, strip: true, first: z.left, last: z.right, terms: [6]units.Term{
			units.T("spine with its hinges", span), units.N(2, "reach", r),
		}})
	}
	zoneAt := 0
	for i := range p.boards {
		bd := p.boards[i]
		if bd.role.narrow() {
			continue
		}
		pt := part{x: bd.planned, left: i == 0, right: i == len(p.boards)-1, first: i, last: i}
		pt.terms[0] = units.T(bd.role.String(), bd.width.Length())
		k, exact := 1, bd.width.Length()
		give := func(z int) {
			take := reaches[z].exact
			exact -= take - s.Quarter.Lap
			pt.terms[k] = units.N(-1, "reach before rounding", take)
			pt.terms[k+1] = units.T("lap", s.Quarter.Lap)
			k += 2
		}
		if !pt.left { // the strip before it
			pt.x += reaches[zoneAt].exact - s.Quarter.Lap
			give(zoneAt)
			zoneAt++
		}
		if !pt.right {
			give(zoneAt)
		}
		if exact <= s.Quarter.Lap {
			b.bad.Long("quarter.reach", TooWide, n, reaches[0].strip.Length(), bd.width.Length()-units.Shortest, "or nothing is left for the side paper of the "+bd.role.String())
			return
		}
		pt.width = r.Up(exact)
		parts = append(parts, pt)
	}

	// Which sheet each part comes from, with the tolerated margin at least.
	sideH, ends := 2*b.margin.Ideal, b.margin.Ideal
	for _, pt := range parts {
		stock, path := s.Covering, "covering.sheets"
		if pt.strip {
			stock, path = s.SpineCovering, "spinecovering.sheets"
		}
		if len(stock.Sheets) == 0 {
			continue
		}
		edges := pt.edges()
		var bestLow, bestH, bestW units.Length
		found := false
		stock.lies(s.Grain, func(l lie) bool {
			h := min(l.size.H-openH, 2*b.margin.Ideal)
			side := b.margin.Ideal
			spare := l.size.W - pt.width
			if edges > 0 {
				share, _ := spare.Scale(1, int64(edges), units.Down)
				side = min(side, share)
			} else if spare < 0 {
				return true
			}
			low := min(h.Half(units.Down), side)
			if low < s.Margin.Tolerated {
				return true
			}
			if !found || low > bestLow || low == bestLow && h+side > bestH+bestW {
				bestLow, bestH, bestW, found = low, h, side, true
			}
			return true
		})
		if !found {
			what := "a side paper"
			if pt.strip {
				what = "the spine strip"
			}
			b.noSheet(path, stock, units.Size{W: pt.width + times(s.Margin.Tolerated, edges), H: openH + 2*s.Margin.Tolerated}, what, "")
			return
		}
		sideH = min(sideH, bestH)
		if edges > 0 {
			ends = min(ends, bestW)
		}
	}
	end := ends
	if on := r.Down(ends); on >= s.Margin.Tolerated && (ends < s.Margin.Least || on >= s.Margin.Least) && ends < b.margin.Ideal {
		end = on
	}
	w.w = b.endAxis(end)
	w.h = b.axis("wrap height", "head margin", "tail margin", "open height", openH, quarterSheet(openH, sideH, b.margin.Ideal))
	b.mitres()

	height := w.h.blank
	for _, pt := range parts {
		x, terms := pt.x+w.w.near.Length(), used(pt.terms[:5])
		label, name, stock, role := "side paper width", "side paper of the "+p.boards[pt.first].role.String(), s.Covering.Name, CoveringPiece
		if pt.strip {
			label, name, stock, role = "spine strip width", "spine strip", s.SpineCovering.Name, StripPiece
		}
		if edges := pt.edges(); edges > 0 {
			terms = append(terms, units.N(edges, "margin", end))
		}
		// What rounding adds makes the lap wider, never narrower.
		width := b.sum(label, r, units.Up, terms...)
		switch {
		case pt.left:
			x = 0
		case pt.right:
			x = w.w.blank.Length() - width.Length()
		}
		piece := Piece{name: name, part: "wrap", role: role, stock: stock, up: work.WrongSide, width: width, height: height, quantity: 1}
		if !pt.strip {
			piece.cuts = partCorners(w.corners, x, pt.left, pt.right)
		}
		out := wrapPart{x: x, first: pt.first, last: pt.last, strip: pt.strip}
		out.piece, out.copy = b.strip(piece)
		w.parts = append(w.parts, out)
	}
}

// strip adds a piece of a quarter-style covering and returns its place and which
// copy it is. Two spine strips are copies of one piece if they are equal, and
// told apart by their names if not.
func (b *builder) strip(piece Piece) (index, copy int) {
	p := b.plan
	if piece.role == StripPiece {
		for i := range p.pieces {
			switch k := &p.pieces[i]; {
			case k.role != StripPiece:
			case k.Size() == piece.Size():
				k.quantity++
				return i, k.quantity - 1
			default:
				k.name, piece.name = "first spine strip", "second spine strip"
			}
		}
	}
	return b.piece(piece), 0
}

// quarterSheet is the side of an imagined sheet that leaves just the margins
// that the real ones allow, or 0 when they allow the ideal.
func quarterSheet(open, margins, ideal units.Length) units.Length {
	if margins >= 2*ideal {
		return 0
	}
	return open + margins
}

// endAxis is the whole covering across, with equal margins at both ends.
func (b *builder) endAxis(end units.Length) Axis {
	s := &b.spec
	open := b.openWidth()
	a := Axis{open: open}
	label := "ideal"
	if end < b.margin.Ideal {
		a.limit, label = LimitSheet, "what the sheets leave"
	}
	a.near = b.sum("left margin", b.exact(), units.Nearest, units.T(label, end))
	a.far = b.sum("right margin", b.exact(), units.Nearest, units.T(label, end))
	a.blank = b.sum("wrap width", b.exact(), units.Nearest, units.T("open width", open), units.T("left margin", end), units.T("right margin", end))
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
	strip units.Working
	exact units.Length
}

func (b *builder) reach(left, right Board) reach {
	s := &b.spec
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

// partCorners returns the mitres of the whole covering that belong to a part,
// in the part's own coordinates.
func partCorners(all [4]CornerCut, x units.Length, left, right bool) []CornerCut {
	var cuts []CornerCut
	for _, c := range all {
		onRight := c.corner == work.HeadRight || c.corner == work.TailRight
		if onRight && !right || !onRight && !left {
			continue
		}
		c.cut.From.X -= x
		c.cut.To.X -= x
		cuts = append(cuts, c)
	}
	return cuts
}
