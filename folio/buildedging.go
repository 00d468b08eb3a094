package folio

import (
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// edging works out the edge strips from the liner: one for each joint at which outsides
// come together, and one for several where two would meet under the liner of the board
// between them, or that board is too narrow for a liner.
func (b *builder) edging(h *units.Working, high units.Length) {
	p := b.plan
	mountain := func(gap int) bool { return gap < len(p.gaps) && p.shape.folds[gap] == score.Mountain }
	if b.spec.Lining.Lap == 0 || p.lining == rule.LiningOnePiece {
		return
	}
	least, greatest := units.Longest, b.spec.Lining.Lap // of the laps that strips have
	for first := 0; first < len(p.gaps); first++ {
		if !mountain(first) {
			continue
		}
		last := first + 1
		for ; mountain(last); last++ {
			if _, wide := p.linedAt(last, false); wide >= 2*b.spec.Lining.Lap+b.spec.Rulers.Wrap.Step() {
				break
			}
		}
		lap, over := b.edgeStrip(first, last, h, high)
		least, greatest = min(least, lap), max(greatest, lap+over)
		first = last - 1
	}
	b.comesTo("lining.lap", "lap of the edge strips", "strips", b.spec.Rulers.Wrap, b.spec.Lining.Lap, least, greatest)
}

// linedAt returns how far the liner of a board keeps from one of its edges, and how much
// of the board it lines: nothing of a spine too narrow for it.
func (p *Plan) linedAt(board int, right bool) (in, wide units.Length) {
	r := p.boards[board].rect
	for i := range p.liner {
		l := &p.liner[i]
		if int(l.first) > board || int(l.last) < board {
			continue
		}
		on := l.rect.Intersect(r)
		if wide = on.Size().W; right {
			return r.Max.X - on.Max.X, wide
		}
		return on.Min.X - r.Min.X, wide
	}
	return 0, 0
}

// down warns of a gap that is narrower than what goes down one edge in it and up the
// other: with the outsides together that has room, and not when the row lies open.
func (b *builder) down(gap int, what string, caliper units.Length) {
	p, n := b.plan, b.notation()
	g, path := p.gaps[gap].Width(), p.gapPath(gap)
	if g >= 2*caliper {
		return
	}
	if p.measured != nil {
		path = "measured.width"
	}
	b.warn(check.Warning{Path: path, Code: WarnStrained, Got: g, Want: 2 * caliper,
		Text: what + " goes down both edges in the gap right of the " + p.boards[gap].name + ", which takes " + n.Bound(2*caliper, units.Up) + ", and the gap is " + n.Bound(g, units.Down) + ": there the boards do not lie quite flat open"})
}

// edgeStrip works out the strip from one board to another, and returns how far it lies
// under the liner at the one and how much further at the other. It goes down the edges of
// the boards and over the wrap between them, which is as far with the row open as with
// the outsides together (derived); on the row it lies so much narrower than it is cut.
func (b *builder) edgeStrip(first, last int, h *units.Working, high units.Length) (lap, over units.Length) {
	s, p := b.spec, b.plan
	r, left := s.Rulers.Wrap, &p.boards[first]
	from, room := p.linedAt(first, true)
	to, other := p.linedAt(last, false)
	between, edges := p.boards[last].rect.Min.X-left.rect.Max.X, 2*(last-first)
	width := b.sum("edge strip width", r, units.Up, units.T("between the boards", between), units.N(edges, "board caliper", s.Board.Caliper),
		units.T("from their edges to the liner's", from+to), units.N(2, "lap", s.Lining.Lap))
	need := units.Size{W: width.Length(), H: high}
	spare := r.Step().Half(units.Up)
	if p.measured == nil {
		// It must come out of a sheet, and stay under the liner, as the row is made too.
		spare += s.Rulers.Liner.Step()
		need.W = r.Up(between + times(s.Placing, last-first) + times(s.Board.Caliper, edges) + 2*(s.Lining.Inset+s.Rulers.Liner.Step().Half(units.Up)+s.Lining.Lap))
	}
	if most := min(room, other) - spare; s.Lining.Lap > most {
		const what = "or an edge strip reaches past the liner"
		if most < units.Shortest {
			b.bad.Impossible("lining.lap", TooWide, b.notation().Text(s.Lining.Lap), "none, or wider boards, "+what)
		} else {
			b.bad.Long("lining.lap", TooWide, b.notation(), s.Lining.Lap, most, what)
		}
	}
	for g := first; g < last; g++ {
		b.down(g, "an edge strip", s.Covering.Caliper)
	}
	on := units.Size{W: width.Length() - times(s.Board.Caliper, edges), H: h.Length()}
	over = on.W - between - from - to - 2*s.Lining.Lap
	lap = s.Lining.Lap + over.Half(units.Down)
	p.edgings = append(p.edgings, lined{
		piece: int32(b.pieceFor(&Piece{name: "edge strip right of the " + left.name, part: "liner", role: stock.EdgeStripPiece, stock: s.Covering.Name, width: width, height: h, quantity: 1},
			need, &s.Covering)),
		first: int16(first), last: int16(last),
		rect: units.RectAt(units.Point{X: left.rect.Max.X - from - lap, Y: p.liner[0].rect.Min.Y}, on),
	})
	return lap, over - 2*over.Half(units.Down)
}
