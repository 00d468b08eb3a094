package folio

import (
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A lined is a piece of the liner, or an edge strip, and where it lies on the row.
type lined struct {
	piece       int32
	first, last int16 // the boards that it lines, or at which a strip begins and ends
	rect        units.Rect
}

// line works out the liner from the open cover, nominal or measured, rounded
// down so that it stays inside. What comes out of a sheet must do so at the size
// that is expected of the cover as made, too.
func (b *builder) line() {
	s, p, before := b.spec, b.plan, b.bad.Len()
	r := s.Rulers.Liner
	less := units.N(-2, "inset", s.Lining.Inset)
	open := p.openCover().Size()
	wide, made := open.W, open.H
	if p.measured == nil {
		wide, made = p.madeW.Length(), p.madeH.Length()
	}
	w := b.ledger.Sum("liner width", r, units.Down, units.T("open width", open.W), less)
	h := b.ledger.Sum("liner height", r, units.Down, units.T("open height", open.H), less)
	if least := min(w.Length(), h.Length()); least <= 0 {
		side := min(open.W, open.H)
		_, narrow := b.outward()
		panels := s.Lining.Rule >= rule.LiningPanels || s.Lining.Rule == rule.LiningAuto && narrow >= 0
		if s.Lining.Rule == rule.LiningAuto && len(s.Liner.Sheets) > 0 {
			// Where no sheet takes as little as there can be in one piece.
			most := side - r.Step()
			_, fits := holds(&s.Liner, units.Size{W: r.Down(wide - most), H: r.Down(made - most)}, s.Grain)
			panels = panels || !fits
		}
		if panels {
			side = min(side, b.narrowest()) // each board will want one
		}
		b.noneLeft(side, "")
		return
	}
	p.headIn = max((open.H-h.Length()).Half(units.Up)-p.edge.ends, 0)
	high := r.Down(made - 2*s.Lining.Inset)
	out, narrow := b.outward()
	switch p.lining = s.Lining.Rule; {
	case p.lining == rule.LiningRuns && !out, p.lining == rule.LiningAuto && narrow < 0:
		p.lining = rule.LiningOnePiece
	case p.lining == rule.LiningAuto:
		p.lining = rule.LiningRuns
	}
	if p.lining != rule.LiningPanels && len(s.Liner.Sheets) > 0 {
		need := units.Size{W: b.widest(), H: high}
		switch _, fits := holds(&s.Liner, need, s.Grain); {
		case fits:
		case s.Lining.Rule == rule.LiningAuto:
			p.lining = rule.LiningPanels
		case p.lining == rule.LiningOnePiece:
			b.noSheet("liner.sheets", s.Liner, need, "the liner in one piece", ", or a liner of a piece a board")
			return
		}
	}
	var whole *units.Working
	if p.lining == rule.LiningOnePiece {
		if n := p.strained(0, len(p.gaps)); n > 0 {
			w = b.ledger.Sum("liner width", r, units.Down, units.T("open width", open.W), less, units.N(2*n, "board caliper, down edges and up", s.Board.Caliper))
		}
		whole = b.note(w)
	}
	height := b.note(h)
	if b.linePieces(whole, height, high); b.bad.Len() == before && len(p.gaps) == len(p.boards)-1 {
		b.edging(height, high)
	}
	n := b.notation()
	warning := check.Warning{Path: "lining.rule", Code: WarnPanels}
	switch {
	case p.lining == rule.LiningPanels: // insides come together somewhere in every row that shuts
		warning.Text = "the inside is lined board by board, so the wrong side of the wrap shows in the hinges, and the boards stay bare beside them"
		if len(p.edgings) > 0 {
			warning.Text = "the inside is lined board by board, so the wrong side of the wrap shows in the hinges where insides come together, and the boards stay bare beside them"
		}
	case p.lining == rule.LiningRuns && len(p.edgings) == 0:
		warning.Text = "the inside is lined in pieces that end where outsides come together: without edge strips the wrong side of the wrap and the boards' edges show there"
	case narrow >= 0 && p.lining == rule.LiningOnePiece:
		warning.Code, warning.Got, warning.Want = WarnStrained, p.gaps[narrow].planned.Length(), p.around()
		warning.Text = "where outsides come together right of the " + p.boards[narrow].name + ", the liner takes up to " + n.Bound(warning.Want, units.Up) + " round both edges, over a gap of " +
			n.Bound(warning.Got, units.Down) + ": it is cut " + n.Bound(2*s.Board.Caliper, units.Up) +
			" wider for each such gap, and holds the boards open unless it is worked to the bottom of that, down the one edge and up the other; a liner of a piece a run of boards takes no such work"
		for i := range p.gaps {
			if p.strains(i) {
				b.down(i, "the liner", s.Liner.Caliper)
			}
		}
	default:
		return
	}
	b.warn(warning)
}

// around returns how far a liner has to go at most round the edges of two boards whose
// outsides come together: over both with the covering between them.
//
//go:noinline
func (p *Plan) around() units.Length { return 2 * (p.spec.Board.Caliper + p.outer()) }

// strains reports whether a gap is too narrow for a flat liner to go round the edges of two
// boards whose outsides come together.
func (p *Plan) strains(gap int) bool {
	return p.shape.folds[gap] == score.Mountain && p.gaps[gap].planned.Length() < p.around()
}

// strained returns how many of the gaps between two boards a liner that goes over them
// is worked to the bottom of: each takes it two board calipers, down the one edge and up
// the other (derived). In pieces it goes over none.
func (p *Plan) strained(first, last int) (n int) {
	for gap := first; gap < last; gap++ {
		if p.strains(gap) {
			n++
		}
	}
	return n
}

// outward reports whether outsides come together at a joint, and returns the first
// whose gap is too narrow for a flat liner to go round the edges there, −1 for none.
func (b *builder) outward() (out bool, narrow int) {
	narrow = -1
	for i := range b.plan.gaps {
		if b.plan.shape.folds[i] != score.Mountain {
			continue
		}
		if out = true; narrow < 0 && b.plan.strains(i) {
			narrow = i
		}
	}
	return out, narrow
}

// runEnd returns the last board that a piece of the liner lines which begins at one.
func (b *builder) runEnd(first int) int {
	p := b.plan
	for p.lining != rule.LiningPanels && first < len(p.gaps) && (p.lining == rule.LiningOnePiece || p.shape.folds[first] != score.Mountain) {
		first++
	}
	return first
}

// linedBy returns what a piece of the liner covers, less the inset: boards and the gaps
// between them, with the covering at the outer edges; how wide the piece is expected
// to lie; and how much of it goes down edges and up besides.
func (b *builder) linedBy(first, last int) (area units.Rect, need, down units.Length) {
	p, s := b.plan, b.spec
	area = p.covered(first)
	area.Max.X = p.covered(last).Max.X
	if need = area.Size().W; p.measured == nil {
		left, right := p.ends(first, last, s.Covering.Caliper)
		need += times(s.Placing, last-first) + left + right
	}
	down = times(s.Board.Caliper, 2*p.strained(first, last))
	return area, s.Rulers.Liner.Down(need-2*s.Lining.Inset+down) - down, down
}

// ends returns something at those ends of a run of boards that are ends of the row.
//
//go:noinline
func (p *Plan) ends(first, last int, l units.Length) (left, right units.Length) {
	if first == 0 {
		left = l
	}
	if last == len(p.boards)-1 {
		right = l
	}
	return left, right
}

// widest returns how wide a sheet has to be for the liner.
func (b *builder) widest() (need units.Length) {
	for i := 0; i < len(b.plan.boards); i++ {
		first := i
		i = b.runEnd(first)
		_, w, down := b.linedBy(first, i)
		need = max(need, w+down)
	}
	return need
}

// linePieces lines boards, all of them, a run or each by itself.
func (b *builder) linePieces(whole, h *units.Working, high units.Length) {
	s, p := b.spec, b.plan
	narrow, where := -units.Nanometre, ""              // the narrowest board of which nothing is left
	least, greatest := units.Longest, -units.Nanometre // of the insets that pieces have
	for i := 0; i < len(p.boards); i++ {
		from := i
		i = b.runEnd(from)
		first, last := &p.boards[from], &p.boards[i]
		area, need, down := b.linedBy(from, i)
		wide := area.Size().W
		width, name := whole, "liner"
		if width == nil {
			label, of := first.name, " of the "
			if i > from {
				label, of = label+" to the "+last.name, " from the "
			}
			name += of + label
			if wide > last.rect.Max.X-first.rect.Min.X {
				label += " with the covering at its edge"
			}
			width = b.sum("liner panel width", s.Rulers.Liner, units.Down, units.T(label, wide), units.N(-2, "inset", s.Lining.Inset))
		}
		if width.Length() <= 0 && from == i && first.role.Spine() {
			first.left, first.right = first.rect.Size().W, 0 // a spine narrower than two insets is left unlined
			continue
		}
		if width.Length() <= 0 {
			if narrow < 0 || wide < narrow {
				narrow, where = wide, " on the "+first.name
			}
			continue
		}
		rect := middle(area, units.Size{W: width.Length() - down, H: h.Length()})
		outL, outR := first.rect.Min.X-area.Min.X, area.Max.X-last.rect.Max.X
		if from < i {
			l, _ := b.free(wide-outL-outR, outL, outR, down)
			rect = units.RectAt(units.Point{X: area.Min.X + l, Y: rect.Min.Y}, rect.Size())
		}
		in := area.Size().Plus(-rect.Size().W, -rect.Size().H)
		least, greatest = min(least, in.W, in.H), max(greatest, in.W, in.H)
		left, right := max(rect.Min.X-first.rect.Min.X, 0), max(last.rect.Max.X-rect.Max.X, 0)
		if from < i {
			if p.measured == nil && s.Placing > 0 {
				// Fittings keep to what is left with the gaps as wide as expected.
				l, r := p.ends(from, i, s.Covering.Caliper)
				atL, atR := b.free(wide+times(s.Placing, i-from), l, r, down)
				left, right = max(left, atL-l), max(right, atR-r)
				if l > 0 {
					b.expected = max(b.expected, atL-l)
				}
				if r > 0 {
					b.expected = max(b.expected, atR-r)
				}
			}
			// The same at the hinge, so that the middle of a board stays that of its
			// panel.
			first.right, last.left = max(left, s.Lining.Inset), max(right, s.Lining.Inset)
		}
		first.left, last.right = left, right
		p.liner = append(p.liner, lined{
			piece: int32(b.pieceFor(&Piece{name: name, part: "liner", role: stock.LinerPiece, stock: s.Liner.Name, width: width, height: h, quantity: 1},
				units.Size{W: need + down, H: high}, b.stock(s.Liner.Name))),
			first: int16(from), last: int16(i), rect: rect,
		})
	}
	if narrow >= 0 {
		b.noneLeft(narrow, where)
		return
	}
	b.comesTo("lining.inset", "inset", "liner", s.Rulers.Liner, s.Lining.Inset, least.Half(units.Up), greatest.Half(units.Up))
}

// free returns how far the liner of a run of boards, so wide together, stays away from its
// ends, which are those of the covering where that lies round an end of the row. It lies
// in their middle, but at an end inside the row leaves no more free than it would without the
// covering at the other, lest the panel there come out narrower than planned.
func (b *builder) free(boards, outL, outR, down units.Length) (left, right units.Length) {
	s := b.spec
	rest := func(wide units.Length) units.Length {
		return wide + down - s.Rulers.Liner.Down(wide-2*s.Lining.Inset+down)
	}
	all, alone := rest(boards+outL+outR), rest(boards)
	left, right = all.Half(units.Down), all.Half(units.Up)
	switch {
	case outL > 0 && outR == 0:
		right = min(alone.Half(units.Up), all-s.Lining.Inset)
		left = all - right
	case outR > 0 && outL == 0:
		left = min(alone.Half(units.Down), all-s.Lining.Inset)
		right = all - left
	}
	return left, right
}

// narrowest returns the width of the narrowest board that must have a liner.
func (b *builder) narrowest() units.Length {
	least := units.Longest
	for i := range b.plan.boards {
		if bd := &b.plan.boards[i]; !bd.role.Spine() {
			least = min(least, bd.rect.Size().W)
		}
	}
	return least
}

// noneLeft says that nothing is left of the liner inside the inset.
func (b *builder) noneLeft(open units.Length, where string) {
	s := b.spec
	most := (open - s.Rulers.Liner.Step()).Half(units.Down)
	switch n := b.notation(); {
	case open <= 2*units.Shortest: // no ruler leaves anything
		b.bad.Impossible("lining.inset", LinerNone, n.Text(s.Lining.Inset), "a wider or higher board, or no liner is left"+where)
		return
	case most < units.Shortest:
		b.bad.Impossible("rulers.liner", LinerNone, "steps of "+n.Text(s.Rulers.Liner.Step()), "a finer ruler, or no liner is left"+where)
		return
	}
	b.bad.Long("lining.inset", LinerNone, b.notation(), s.Lining.Inset, most, "or no liner is left"+where)
}

// middle returns a size in the middle of an area; what is left over by a
// nanometre is at the right and at the tail.
func middle(area units.Rect, s units.Size) units.Rect {
	room := area.Size()
	return units.RectAt(area.Min.Plus(units.Point{X: (room.W - s.W).Half(units.Down), Y: (room.H - s.H).Half(units.Down)}), s)
}
