package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// widths gives every board its width, and reports whether the row shuts with them.
// What lies comes first, then what stands, which goes round it.
func (b *builder) widths(z *sizing, cover, spine *units.Working) bool {
	p := b.plan
	var lying [boards.MaxBoards]units.Working
	n := 0
	for i := range p.boards {
		if p.shape.stands(i) {
			continue
		}
		b.widthOf(&lying[n], i, cover)
		if z.wide[n] = lying[n].Length(); z.wide[n] < units.Shortest {
			b.noBoard(i, &lying[n])
			return false
		}
		n++
	}
	if z.spine = lengthOf(spine); !b.sized(z) {
		return false
	}
	k, doors := 0, p.shape.ruled(boards.WidthShared) // those that lie, those that share what the gap leaves
	for i := range p.boards {
		bd := &p.boards[i]
		switch {
		case p.shape.stands(i):
			bd.width = b.spineOf(z, k-1, spine)
			continue
		case p.shape.rule(i) != boards.WidthCover:
			bd.width = b.note(lying[k])
		}
		k++
		switch {
		case p.shape.rule(i) == boards.WidthFixed:
			b.moved(check.Index("row.boards", i)+".width", bd.width)
		case p.shape.rule(i) == boards.WidthHalf && b.spec.FlapWidth != 0:
			b.moved("flapwidth", bd.width)
		case p.shape.rule(i) == boards.WidthShared && doors > 0:
			left := cover.Length() - times(bd.width.Length(), doors)
			b.comesTo("doorgap", "gap between the doors", "doors", b.spec.Rulers.Board, b.spec.DoorGap, left, left)
			doors = 0 // told
		}
	}
	return !b.lackBoards(z)
}

// widthOf works out the width of a board that lies.
func (b *builder) widthOf(w *units.Working, i int, cover *units.Working) {
	s, row := b.spec, &b.plan.shape
	r, role := s.Rulers.Board, row.role(i)
	put := func(n int, d units.Direction, terms ...units.Term) {
		b.ledger.Put(w, widthLabel(role), n, r, d, terms...)
	}
	switch row.rule(i) {
	case boards.WidthFixed:
		put(1, units.Up, units.T("as given", row.Boards[i].Width))
	case boards.WidthHalf:
		if s.FlapWidth != 0 {
			put(1, units.Up, units.T("as given", s.FlapWidth))
			return
		}
		put(2, units.Down, units.T("cover width", cover.Length()))
	case boards.WidthShared:
		what := "cover width"
		if row.index(boards.Back) >= 0 {
			what = "back width"
		}
		put(row.ruled(boards.WidthShared), units.Down, units.T(what, cover.Length()), units.N(-1, "gap between the doors", s.DoorGap))
	default:
		*w = *cover
	}
}

// widthLabel is what the width of a board is called.
func widthLabel(r boards.Role) string {
	switch r {
	case boards.Flap, boards.LeftFlap:
		return "flap width"
	case boards.LeftDoor, boards.RightDoor:
		return "door width"
	}
	return r.String() + " width"
}

// noBoard says that nothing is left of a board of which the width follows from the
// cover's.
func (b *builder) noBoard(i int, width *units.Working) {
	s, n := b.spec, b.notation()
	if b.plan.shape.rule(i) == boards.WidthHalf {
		b.bad.Impossible("flapwidth", check.TooSmall, "half the cover's width, "+n.Text(width.Rounded().From)+", on a ruler of "+n.Text(s.Rulers.Board.Step()), "a width of its own, or a finer ruler")
		return
	}
	cover, shares := b.plan.boards[0].width.Length(), b.plan.shape.ruled(boards.WidthShared)
	if most := cover - times(s.Rulers.Board.Up(units.Shortest), shares); most > 0 && s.DoorGap > most {
		b.bad.Long("doorgap", check.TooSmall, n, s.DoorGap, most, "or nothing is left of the doors")
		return
	}
	b.bad.Impossible("doorgap", check.TooSmall, n.Text(s.DoorGap)+" in a back of "+n.Text(cover), "less between the doors, a wider back or a finer ruler")
}

// spineOf notes the width of the spine board of a fold.
func (b *builder) spineOf(z *sizing, fold int, spine *units.Working) *units.Working {
	s, row := b.spec, z.row
	i := z.f.inRow(fold) + 1
	switch width := z.span[fold] - z.in[fold]; {
	case row.rule(i) == boards.WidthFixed:
		w := b.sum(row.role(i).String()+" width", s.Rulers.Board, units.Up, units.T("as given", row.Boards[i].Width))
		b.moved(check.Index("row.boards", i)+".width", w)
		return w
	case z.f.kind[fold] == score.Valley && width == z.spine:
		return spine
	}
	var buf [boards.MaxBoards + 8]units.Term
	terms := z.spanTerms(buf[:0], fold)
	if total(terms) < units.Shortest {
		terms = append(buf[:0], units.T("least width of a board", units.Shortest))
	}
	label := row.role(i).String() + " width"
	if row.role(i) == boards.Spine1 {
		label = "spine board width"
	}
	return b.sum(label, s.Rulers.Board, units.Up, terms...)
}

// spanTerms appends what the spine board of a fold, or a soft gap without what lies
// beside it, goes round: the other folds on the way through the layer that asks
// the most of it, and that layer.
func (z *sizing) spanTerms(terms []units.Term, fold int) []units.Term {
	l, _ := z.binding(fold)
	sign := 1
	if l.low > l.high {
		sign = -1
	}
	in := z.unlike(min(l.low, l.high), max(l.low, l.high), sign) - z.in[fold]
	for k := min(l.low, l.high); k < max(l.low, l.high); k++ {
		if k == fold {
			continue
		}
		count := 1
		if z.rising(l, k) {
			count = -1
		}
		joints := z.joints(k)
		if joints[0] != joints[1] {
			terms = merge(terms, units.N(count, z.row.role(joints[1]).String(), z.span[k]-z.in[k]))
		} else {
			terms = merge(terms, units.N(count, "soft joint", z.span[k]))
		}
		in += times(z.in[k], count)
	}
	own, insides := z.takes(l)
	switch {
	case !insides:
		for _, t := range own {
			if t.Label != "" {
				terms = append(terms, t)
			}
		}
	case z.spine != 0:
		terms = append(terms, units.T("spine by itself", z.spine))
	default:
		f := z.s.filling()
		terms = append(terms, units.N(2, "board caliper", z.s.Board.Caliper), units.N(2, "liner caliper", z.s.Liner.Caliper), f[0])
		if f[1].Label != "" {
			terms = append(terms, f[1])
		}
	}
	switch {
	case in > 0:
		terms = append(terms, units.T("creases", in))
	case in < 0:
		terms = append(terms, units.N(-1, "creases", -in))
	}
	return terms
}

// lackBoards says which spine boards are given too narrow for what they go round,
// and reports whether any is.
func (b *builder) lackBoards(z *sizing) bool {
	any := false
	for i, least := range z.lacks[:len(z.row.Boards)] {
		if least > 0 {
			any = true
			b.bad.Short(check.Index("row.boards", i)+".width", check.TooSmall, b.notation(), z.row.Boards[i].Width, b.spec.Rulers.Board.Up(least), "to go round what lies inside")
		}
	}
	return any
}
