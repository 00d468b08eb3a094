package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// row works out the boards and the gaps between them and reports whether they
// make a row.
func (b *builder) row() bool {
	s, p := b.spec, b.plan
	r := s.Rulers

	coverW, coverH := b.coverSize()
	if coverW.Length() <= 0 {
		most := s.Block.Page.W + s.Block.Square - units.Shortest
		b.bad.Long("block.setback", TooNarrow, b.notation(), s.Block.Setback, most, "or no board's width is left")
		return false
	}
	for i := range p.shape.Boards {
		p.boards = append(p.boards, Board{role: p.shape.role(i), name: p.shape.name(i), width: coverW, height: coverH})
	}
	var spine *units.Working
	if p.shape.spined() && (s.Spine.Width != 0 || s.contents() != 0) {
		terms := s.spineTerms()
		spine = b.sum("spine width", r.Board, units.Up, used(terms[:])...)
		if s.Spine.Width != 0 {
			b.moved("spine.width", spine)
		}
		if spine.Length() < units.Shortest {
			path := "spine.contents"
			if s.Spine.Contents == 0 {
				path = "block.thickness"
			}
			from := spine.Rounded().From
			b.bad.Short(path, check.TooSmall, b.notation(), s.contents(), s.contents()+units.Shortest-from, "for a spine board")
			return false
		}
	}
	b.spine = lengthOf(spine)
	var z sizing
	if !b.widths(&z, coverW, spine) {
		return false
	}
	b.hinges(&z)

	var x units.Length
	for i := range p.boards {
		bd := &p.boards[i]
		bd.planned = x
		bd.left, bd.right = s.Lining.Inset, s.Lining.Inset
		bd.rect = units.RectAt(units.Point{X: x}, bd.Size())
		x = bd.rect.Max.X
		if i < len(p.gaps) {
			gap := &p.gaps[i]
			gap.rect = units.RectAt(units.Point{X: x}, units.Size{W: gap.planned.Length(), H: bd.height.Length()})
			x = gap.rect.Max.X
		}
	}
	b.cutBoards()
	return true
}

// cutBoards adds the pieces of the boards. Equal boards are copies of one piece;
// those of one kind but of unequal width are told apart by their names.
func (b *builder) cutBoards() {
	p := b.plan
	for i := range p.boards {
		bd := &p.boards[i]
		bd.piece, bd.copy = -1, 0
		kind, width, unequal := boardKind(bd.role), bd.width.Length(), false
		for j := range p.boards {
			other := &p.boards[j]
			equal := other.width.Length() == width
			switch {
			case equal && j >= i || boardKind(other.role) != kind:
			case equal:
				bd.piece = other.piece
			default:
				unequal = true
			}
		}
		if bd.piece >= 0 {
			bd.copy = int16(p.pieces[bd.piece].quantity)
			p.pieces[bd.piece].quantity++
			continue
		}
		name := kind
		if unequal {
			name = b.boardNames(i)
		}
		bd.piece = int32(b.piece(&Piece{name: name, part: "case", role: stock.BoardPiece, stock: b.spec.Board.Name, width: bd.width, height: bd.height, quantity: 1}))
	}
}

// boardNames names a board and those like it further right.
func (b *builder) boardNames(i int) string {
	row := b.plan.boards
	names := row[i].name
	for _, other := range row[i+1:] {
		if boardKind(other.role) == boardKind(row[i].role) && other.width.Length() == row[i].width.Length() {
			names += " and " + other.name
		}
	}
	return names + " board"
}

// boardKind is what boards that do the same are called together.
func boardKind(r boards.Role) string {
	switch {
	case r.Spine():
		return "spine board"
	case r == boards.Back:
		return "back board"
	case r == boards.LeftDoor || r == boards.RightDoor:
		return "door board"
	case r == boards.Flap || r == boards.LeftFlap:
		return "flap board"
	case r >= boards.Panel1:
		return "panel board"
	}
	return "cover board"
}

func (b *builder) coverSize() (w, h *units.Working) {
	s := b.spec
	r := s.Rulers.Board
	if s.Block.Given() {
		page, square := s.Block.Page, s.Block.Square
		w = b.sum("cover width", r, units.Up, units.T("page", page.W), units.T("square", square), units.N(-1, "setback", s.Block.Setback))
		h = b.sum("cover height", r, units.Up, units.T("page", page.H), units.N(2, "square", square))
		fore, ends := w.Length()-page.W+s.Block.Setback, (h.Length() - page.H).Half(units.Up)
		b.comesTo("block.square", "square", "boards", r, square, min(fore, ends), max(fore, ends))
		return w, h
	}
	w, h = b.sum("cover width", r, units.Up, units.T("as given", s.Cover.W)), b.sum("cover height", r, units.Up, units.T("as given", s.Cover.H))
	b.moved("cover.w", w)
	b.moved("cover.h", h)
	return w, h
}

// open adds up the row.
func (b *builder) open() {
	p := b.plan
	var buf [10]units.Term
	terms := buf[:0]
	for i := range p.boards {
		terms = merge(terms, units.T(p.boards[i].role.String(), p.boards[i].width.Length()))
		if i < len(p.gaps) {
			terms = merge(terms, units.T("hinge gap", p.gaps[i].planned.Length()))
		}
	}
	// The row is exact: boards and gaps are on their rulers already.
	p.openW = b.exactly("open width", terms...)
	p.openH = b.exactly("open height", units.T("cover height", p.boards[0].height.Length()))
	b.nomW, b.nomH = p.openW, p.openH
}

// made estimates what the open cover measures when it is covered, and reports
// whether that is within bounds.
func (b *builder) made() bool {
	s, p := b.spec, b.plan
	p.madeW = b.exactly("open width as made, estimate", units.T("open width", b.openWidth()),
		units.N(2, "covering caliper", s.Covering.Caliper), units.N(len(p.gaps), "placing", s.Placing))
	p.madeH = b.exactly("open height as made, estimate", units.T("open height", b.openHeight()),
		units.N(2, "covering caliper", p.edgeAlong()))
	before, n := b.bad.Len(), b.notation()
	if w := p.madeW.Length(); w > units.Longest {
		b.tooLong("w", n.Text(w)+" of open width as made", w, b.spec.Cover.W)
	}
	if h := p.madeH.Length(); h > units.Longest {
		b.tooLong("h", n.Text(h)+" of open height as made", h, b.spec.Cover.H)
	}
	return b.bad.Len() == before
}

// tooLong refuses a side of the cover with which the open cover is longer than the
// longest length. Every board that is as long as the side takes its share of what is
// too much.
func (b *builder) tooLong(side, got string, made, cover units.Length) {
	n, boards := b.notation(), 1
	if side == "w" {
		boards = 0
		for i := range b.plan.boards {
			if b.plan.boards[i].width.Length() >= cover {
				boards++
			}
		}
	}
	if b.tooThick(side, got, made, cover, boards) {
		return
	}
	v := check.Violation{Path: b.coverPath(side), Code: check.TooLarge, Nature: check.Impossible, Got: got, Want: "at most " + n.Bound(units.Longest, units.Down) + " of it"}
	if boards > 0 && !b.spec.Block.Given() {
		less, _ := (made - units.Longest).Scale(1, int64(boards), units.Up)
		v.Want = "thinner boards, narrower hinges or fewer boards, for " + n.Bound(units.Longest, units.Down) + " of it at most: no smaller cover would do"
		if most := b.spec.Rulers.Board.Down(cover - less); most >= units.Shortest {
			v.Want = "at most " + n.Bound(most, units.Down) + " for " + n.Bound(units.Longest, units.Down) + " of it"
			v.Bound, v.Limit, v.By = check.AtMost, most, cover-most
		}
	}
	b.bad.Add(v)
}

// tooThick refuses what goes round the edges, or what boards may be laid out of place,
// where that by itself is longer than the longest length, so that no cover would do.
func (b *builder) tooThick(side, got string, made, cover units.Length, boards int) bool {
	s, n := b.spec, b.notation()
	least := made - times(cover, boards) + times(units.Shortest, boards) - units.Longest // with the smallest cover
	if least <= 0 {
		return false
	}
	sized := [...]struct {
		path  string
		l     units.Length
		count int
	}{{"covering.caliper", s.Covering.Caliper, 2}, {"placing", s.Placing, len(b.plan.gaps)}}
	for _, f := range sized {
		if f.path == "placing" && side == "h" || times(f.l, f.count) <= least {
			continue
		}
		over, _ := (made - units.Longest).Scale(1, int64(f.count), units.Up)
		if over > f.l {
			over, _ = least.Scale(1, int64(f.count), units.Up)
		}
		b.bad.Add(check.Violation{Path: f.path, Code: check.TooLarge, Nature: check.Impossible, Got: got + " with " + n.Text(f.l),
			Want: "at most " + n.Bound(f.l-over, units.Down), Bound: check.AtMost, Limit: f.l - over, By: over})
		return true
	}
	return false
}

// coverPath is where a side of the cover is given.
func (b *builder) coverPath(side string) string {
	if b.spec.Block.Given() {
		return "block.page." + side
	}
	return "cover." + side
}

// cover works out the wrap, in one piece or in quarter style.
func (b *builder) cover() {
	s := b.spec
	if narrower, small := b.margin.ForSmallCover(min(b.openWidth(), b.openHeight()), s.Rulers.Wrap, b.notation()); small {
		s.Margin = narrower
	}
	b.margin = s.Margin
	if b.margin.Ideal = s.Rulers.Wrap.Up(s.Margin.Ideal); b.margin.Ideal != s.Margin.Ideal {
		w := units.Sum("ideal margin", s.Rulers.Wrap, units.Up, units.T("as given", s.Margin.Ideal))
		b.moved("margin.ideal", &w)
	}
	switch s.Quarter.Rule {
	case rule.QuarterAlways:
		b.quarter()
		return
	case rule.QuarterNever, rule.QuarterWhenNeeded:
	}
	open := b.openSize()
	sheet, found := marginBest(b.margin, open, s.Covering, s.Grain)
	if !found && len(s.Covering.Sheets) > 0 {
		if s.Quarter.Rule == rule.QuarterWhenNeeded {
			n := b.notation()
			need := open.Grow(s.Margin.Tolerated)
			b.warn(check.Warning{Path: "covering.sheets", Code: WarnQuarter,
				Text: "no sheet takes a wrap of " + sizeText(n, need) + ", so the case is covered in quarter style"})
			b.quarter()
			return
		}
		// It must go round the boards' edges, too.
		sheet.size = open.Grow(max(s.Margin.Tolerated, s.Rulers.Wrap.Up(s.Board.Caliper+s.Covering.Caliper+units.Shortest)))
		b.noSheet("covering.sheets", s.Covering, sheet.size, "the wrap", ", or quarter style")
	}
	w := &b.plan.wrap
	w.sheet, w.onSheet = sheet, found
	w.w = b.axis("wrap width", "left margin", "right margin", "open width", open.W, sheet.size.W)
	w.h = b.axis("wrap height", "head margin", "tail margin", "open height", open.H, sheet.size.H)
	b.mitres(w.w.blank.Length().Half(units.Down))
	w.parts = append(w.parts, wrapPart{last: len(b.plan.boards) - 1, piece: b.piece(&Piece{
		name: "wrap", part: "wrap", role: stock.CoveringPiece, stock: s.Covering.Name, quantity: 1, up: work.WrongSide,
		width: w.w.blank, height: w.h.blank, mitres: &w.mitres, mitred: allCorners, sheet: sheet,
	})})
}
