package folio

import (
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A lined is a piece of the liner and where it lies on the row.
type lined struct {
	piece int
	board int // the one that it lines, −1 for all
	rect  units.Rect
}

// line works out the liner from the open cover, nominal or measured, rounded
// down so that it stays inside. What comes out of a sheet must do so at the size
// that is expected of the cover as made, too.
func (b *builder) line() {
	s, p := b.spec, b.plan
	r := s.Rulers.Liner
	less := units.N(-2, "inset", s.Lining.Inset)
	cover := p.openCover()
	open, made := cover.Size(), cover.Size()
	if p.measured == nil {
		made = units.Size{W: p.madeW.Length(), H: p.madeH.Length()}
	}
	w := b.ledger.Sum("liner width", r, units.Down, units.T("open width", open.W), less)
	h := b.ledger.Sum("liner height", r, units.Down, units.T("open height", open.H), less)
	if least := min(w.Length(), h.Length()); least <= 0 {
		side := min(open.W, open.H)
		if s.Lining.Rule == rule.LiningPanels || s.Lining.Rule == rule.LiningAuto && len(s.Liner.Sheets) > 0 {
			side = min(side, b.narrowest()) // each board will want one
		}
		b.leaves(least, side, "")
		return
	}
	p.headIn = max((open.H-h.Length()).Half(units.Up)-p.edge.ends, 0)
	need := units.Size{W: r.Down(made.W - 2*s.Lining.Inset), H: r.Down(made.H - 2*s.Lining.Inset)}
	_, fits := holds(&s.Liner, need, s.Grain)
	fits = fits || len(s.Liner.Sheets) == 0
	switch p.lining = s.Lining.Rule; {
	case p.lining == rule.LiningAuto && fits:
		p.lining = rule.LiningOnePiece
	case p.lining == rule.LiningAuto:
		p.lining = rule.LiningPanels
	case p.lining == rule.LiningOnePiece && !fits:
		b.noSheet("liner.sheets", s.Liner, need, "the liner in one piece", ", or a liner of a piece a board")
		return
	}
	if p.lining == rule.LiningPanels {
		b.linePanels(b.note(h), need.H)
		return
	}
	p.liner = append(p.liner, lined{
		piece: b.pieceFor(&Piece{name: "liner", part: "liner", role: stock.LinerPiece, stock: s.Liner.Name, width: b.note(w), height: b.note(h), quantity: 1}, need, b.stock(s.Liner.Name)),
		board: -1, rect: middle(cover, units.Size{W: w.Length(), H: h.Length()}),
	})
	ends := (open.W - w.Length()).Half(units.Up)
	left, right := ends-p.edge.left, ends-p.edge.right
	if p.measured == nil && s.Placing > 0 {
		// Fittings keep to what is left with the gaps as wide as expected.
		b.expected = (made.W - need.W).Half(units.Up) - s.Covering.Caliper
		left, right = max(left, b.expected), max(right, b.expected)
	}
	// The same at the hinge, so that the middle of a board stays that of its
	// panel.
	first, last := &p.boards[0], &p.boards[len(p.boards)-1]
	first.left, first.right = max(left, 0), max(left, s.Lining.Inset)
	last.left, last.right = max(right, s.Lining.Inset), max(right, 0)
}

// linePanels lines each board by itself.
func (b *builder) linePanels(h *units.Working, high units.Length) {
	s, p := b.spec, b.plan
	r := s.Rulers.Liner
	covering := s.Covering.Caliper
	narrow, where := -units.Nanometre, "" // the narrowest board of which nothing is left
	for i := range p.boards {
		bd := &p.boards[i]
		area := bd.rect
		area.Min.Y, area.Max.Y = area.Min.Y-p.edge.ends, area.Max.Y+p.edge.ends
		made := area.Size().W
		var left, right units.Length
		switch i {
		case 0:
			left = p.edge.left
			made += covering - left
		case len(p.boards) - 1:
			right = p.edge.right
			made += covering - right
		}
		area.Min.X, area.Max.X = area.Min.X-left, area.Max.X+right
		wide := area.Size().W
		label := bd.name
		if left+right > 0 {
			label += " with the covering at its edge"
		}
		width := b.sum("liner panel width", r, units.Down, units.T(label, wide), units.N(-2, "inset", s.Lining.Inset))
		if width.Length() <= 0 && bd.role.Spine() {
			bd.left, bd.right = bd.rect.Size().W, 0 // a spine narrower than two insets is left unlined
			continue
		}
		if width.Length() <= 0 {
			if narrow < 0 || wide < narrow {
				narrow, where = wide, " on the "+bd.name
			}
			continue
		}
		rect := middle(area, units.Size{W: width.Length(), H: h.Length()})
		bd.left, bd.right = max(rect.Min.X-bd.rect.Min.X, 0), max(bd.rect.Max.X-rect.Max.X, 0)
		p.liner = append(p.liner, lined{
			piece: b.pieceFor(&Piece{name: "liner of the " + bd.name, part: "liner", role: stock.LinerPiece, stock: s.Liner.Name, width: width, height: h, quantity: 1},
				units.Size{W: r.Down(made - 2*s.Lining.Inset), H: high}, b.stock(s.Liner.Name)),
			board: i, rect: rect,
		})
	}
	if narrow >= 0 {
		b.leaves(0, narrow, where)
	}
	b.warn(check.Warning{Path: "lining.rule", Code: WarnPanels,
		Text: "the inside is lined board by board, so the wrong side of the wrap shows in the hinges, and the boards stay bare beside them"})
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

// leaves checks that something is left of the liner inside the inset.
func (b *builder) leaves(w, open units.Length, where string) {
	if w > 0 {
		return
	}
	s := b.spec
	most := (open - s.Rulers.Liner.Step()).Half(units.Down)
	if most < units.Shortest {
		n := b.notation()
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
