package folio

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// line works out the liner from the open size, nominal or measured, rounded
// down so that it stays inside the cover.
func (b *builder) line() {
	s, p := &b.spec, b.plan
	r, n := s.Rulers.Liner, b.notation()
	inset := s.Lining.Inset
	w := b.ledger.Sum("liner width", r, units.Down, units.T("open width", p.openW.Length()), units.N(-2, "inset", inset))
	h := b.ledger.Sum("liner height", r, units.Down, units.T("open height", p.openH.Length()), units.N(-2, "inset", inset))
	if h.Length() <= 0 {
		b.bad.Long("lining.inset", LinerNone, n, inset, (p.openH.Length() - r.Step()).Half(units.Down), "or no liner is left")
	}
	if w.Length() <= 0 {
		b.bad.Long("lining.inset", LinerNone, n, inset, (p.openW.Length() - r.Step()).Half(units.Down), "or no liner is left")
	}
	if w.Length() <= 0 || h.Length() <= 0 {
		return
	}
	p.insetH = (p.openH.Length() - h.Length()).Half(units.Up)
	p.lining = s.Lining.Rule
	size := units.Size{W: w.Length(), H: h.Length()}
	_, fits := s.Liner.holds(size, s.Grain)
	fits = fits || len(s.Liner.Sheets) == 0
	if p.lining == LiningAuto {
		p.lining = LiningOnePiece
		if !fits {
			p.lining = LiningPanels
		}
	} else if p.lining == LiningOnePiece && !fits {
		b.noSheet("liner.sheets", s.Liner, size, "the liner in one piece", ", or LiningPanels")
		return
	}
	if p.lining == LiningOnePiece {
		p.workings = append(p.workings, w, h)
		// The same at both sides of a board, so that its middle stays that of
		// its panel.
		ends := max(inset, (p.openW.Length() - w.Length()).Half(units.Up))
		for _, i := range [...]int{0, len(p.panels) - 1} {
			p.panels[i].left, p.panels[i].right = ends, ends
		}
		p.liner = append(p.liner, b.piece(Piece{name: "liner", part: "liner", stock: s.Liner.Name, width: w, height: h, quantity: 1}))
		return
	}

	p.workings = append(p.workings, h)
	from := len(p.pieces)
	for i := range p.boards {
		bd := p.boards[i]
		pw := b.sum("liner panel width", r, units.Down, units.T(bd.role.String(), p.panelWidth(i)), units.N(-2, "inset", inset))
		if pw.Length() <= 0 {
			if bd.role.narrow() {
				p.panels[i].left = p.panelWidth(i) // a spine narrower than two insets is left unlined
				p.panels[i].right = 0
				continue
			}
			b.bad.Long("lining.inset", LinerNone, n, inset, (p.panelWidth(i) - r.Step()).Half(units.Down), "or no liner is left on the "+bd.role.String())
			continue
		}
		ends := (p.panelWidth(i) - pw.Length()).Half(units.Up)
		p.panels[i].left, p.panels[i].right = ends, ends
		p.liner = append(p.liner, b.piece(Piece{name: "liner panel", part: "liner", stock: s.Liner.Name, width: pw, height: h, quantity: 1}))
	}
	b.mergeLast(len(p.pieces) - from)
	if len(p.gaps) > 0 {
		b.warn(check.Warning{Path: "lining.rule", Code: WarnPanels,
			Text: "the inside is lined board by board, so the wrong side of the wrap shows in the hinges"})
	}
}
