package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// wrapped covers the case in one sheet.
func (o *order) wrapped() {
	p, r := o.p, o.p.spec.Rulers
	t := p.wrapObject(p.wrap.parts[0])
	cut := o.step(work.TaskCut, forWrap(), r.Wrap, []int{o.grain}, o.cut(t.Index))
	on := onPiece(t)
	var buf [usual]work.Action
	mark := o.step(work.TaskMark, forWrap(), r.Wrap, []int{cut}, o.lines(buf[:0], on, 0, 0, len(p.boards))...)
	lay := o.step(work.TaskFix, forCase(), r.Wrap, []int{o.boards, mark}, o.layBoards(buf[:0], on, 0, 0, len(p.boards))...)
	dry := o.dry(forCase(), lay, work.Dry{What: "the boards on the wrap", Weight: true})
	o.turnIn(dry)
}

// lines appends the lines by which boards from one place of the row up to
// another are laid on a piece of the covering that begins at x on the whole
// of it.
func (o *order) lines(do []work.Action, on work.Base, x units.Length, from, to int) []work.Action {
	p := o.p
	head := p.wrap.h.near.Length()
	do = append(do, work.Draw{On: on, Axis: score.Level, At: head},
		work.Draw{On: on, Axis: score.Level, At: head + p.boards[from].height.Length()})
	left := p.wrap.w.near.Length() - x
	width := p.pieces[on.Index].width.Length()
	for i := from; i < to; i++ {
		b := &p.boards[i]
		ends := [4]units.Length{left + b.planned, left + b.planned + b.width.Length()}
		if p.stiff != nil && b.role == boards.LeftCover {
			ends[2] = ends[1] + p.stiff.margin
			ends[3] = ends[2] + p.pieces[p.stiff.piece].width.Length()
		}
		for _, at := range ends {
			if at > 0 && at < width {
				do = append(do, work.Draw{On: on, Axis: score.Upright, At: at})
			}
		}
	}
	return do
}

// layBoards appends that the boards are glued down on their lines.
func (o *order) layBoards(do []work.Action, on work.Base, x units.Length, from, to int) []work.Action {
	p := o.p
	for i := from; i < to; i++ {
		b := &p.boards[i]
		do = append(do, work.Fix{
			What: p.boardThing(i), Panel: work.All, On: on, Lines: true, By: work.Glue, Size: b.Size(),
			At: work.At{Across: score.Left, X: p.wrap.w.near.Length() - x + b.planned, Along: score.Head, Y: p.wrap.h.near.Length()},
		})
	}
	return o.layStiffener(do, on, x)
}

// layStiffener appends that the stiffener is glued to the wrap between the boards.
func (o *order) layStiffener(do []work.Action, on work.Base, x units.Length) []work.Action {
	p := o.p
	if p.stiff == nil {
		return do
	}
	t := p.object(p.stiff.piece)
	first := &p.boards[0]
	return append(do, work.Fix{
		What: t, Panel: work.All, On: on, By: work.Glue, Lines: true, Size: p.pieces[t.Index].Size(),
		At: work.At{
			Across: score.Left, X: p.wrap.w.near.Length() - x + first.width.Length() + p.stiff.margin,
			Along: score.Head, Y: p.wrap.h.near.Length(),
		},
	})
}

// quarter covers the case with spine strips first and then with side papers.
// The boards beside a strip are laid on it by lines. The board that the first of two
// strips holds goes on the second by its line too, when it has dried and can be lifted.
func (o *order) quarter() {
	p, r := o.p, o.p.spec.Rulers
	strips := 0
	for strips < len(p.wrap.parts) && p.wrap.parts[strips].strip {
		strips++
	}
	sides := p.wrap.parts[strips:]
	var buf, buf2 [usual]work.Action
	cut := o.step(work.TaskCut, forWrap(), r.Wrap, []int{o.grain}, o.cutAll(buf[:0], p.wrap.parts[:strips])...)
	ready := o.boards
	for _, w := range p.wrap.parts[:strips] {
		t := p.wrapObject(w)
		on := onPiece(t)
		mark := o.step(work.TaskMark, forWrap(), r.Wrap, []int{cut}, o.lines(buf[:0], on, w.x, w.first, w.last+1)...)
		ready = o.step(work.TaskFix, forCase(), r.Wrap, []int{mark, ready}, o.layBoards(buf[:0], on, w.x, w.first, w.last+1)...)
		ready = o.dry(forCase(), ready, work.Dry{What: "the boards on the " + t.Name, Weight: true})
	}
	do := buf[:0]
	for _, w := range p.wrap.parts[:strips] {
		t := p.wrapObject(w)
		rub := work.Rub{What: t}
		for g := w.first; g < w.last; g++ {
			rub.Gaps = append(rub.Gaps, g)
		}
		do = append(do, work.TurnIn{What: t, Edge: score.Head, Depth: p.wrap.h.near.Length()},
			work.TurnIn{What: t, Edge: score.Tail, Depth: p.wrap.h.far.Length()}, rub)
	}
	ready = o.step(work.TaskTurnIn, forWrap(), r.Wrap, []int{ready}, do...)
	ready = o.dry(forWrap(), ready, work.Dry{What: "the strips", Weight: true})
	cut = o.step(work.TaskCut, forWrap(), r.Wrap, []int{o.grain}, o.cutAll(buf[:0], sides)...)
	do, lays := buf[:0], buf2[:0]
	for _, w := range sides {
		f := p.fixOutside(p.wrapObject(w), w.first, w.x)
		lays, do = append(lays, work.Lay{What: f.What, On: f.On, At: f.At, Size: f.Size}), append(do, f)
	}
	lay := o.step(work.TaskLay, forWrap(), r.Wrap, []int{cut, ready}, lays...)
	ready = o.step(work.TaskFix, forWrap(), r.Wrap, []int{lay}, do...)
	ready = o.dry(forWrap(), ready, work.Dry{What: "the side papers", Weight: true})
	o.turnIn(ready)
}

// cutAll appends the cutting of pieces of the covering.
func (o *order) cutAll(do []work.Action, parts []wrapPart) []work.Action {
	for _, w := range parts {
		if w.copy == 0 {
			do = append(do, o.cut(w.piece))
		}
	}
	return do
}

// fixOutside glues a piece of the covering to the outside of a board that is
// there already. It is measured from the edge of the board on which it ends, if it
// reaches beyond the other.
func (p *Plan) fixOutside(t work.Object, board int, x units.Length) work.Fix {
	b, size := &p.boards[board], p.pieces[t.Index].Size()
	at := work.At{Across: score.Left, X: x - p.wrap.w.near.Length() - b.planned, Along: score.Head, Y: -p.wrap.h.near.Length()}
	if far := b.width.Length() - at.X - size.W; at.X < 0 && far >= 0 {
		at.Across, at.X = score.Right, far
	}
	return work.Fix{What: t, Panel: work.All, On: p.boardBase(board, true), Up: score.Back, By: work.Glue, Size: size, At: at}
}

// turnIn cuts the mitres, turns the edges in and lets the case dry.
func (o *order) turnIn(after int) {
	p, r := o.p, o.p.spec.Rulers
	var buf [usual]work.Action
	do := buf[:0]
	for _, w := range p.wrap.parts {
		if w.strip {
			continue
		}
		t := p.wrapObject(w)
		for c := range p.pieces[t.Index].CornerCuts() {
			do = append(do, work.Trim{What: t, Corner: c.Corner(), From: c.Cut().From, To: c.Cut().To})
		}
	}
	mitres := o.step(work.TaskCut, forWrap(), r.Wrap, []int{after}, do...)
	do = buf[:0]
	sides := p.spec.Turning == rule.SidesFirst
	do = p.turns(do, sides)
	for _, w := range p.wrap.parts {
		t := work.Tuck{What: p.wrapObject(w), Corners: make([]score.Corner, 0, 4)}
		for c := range p.pieces[t.What.Index].CornerCuts() {
			t.Corners = append(t.Corners, c.Corner())
		}
		if len(t.Corners) > 0 {
			do = append(do, t)
		}
	}
	do = p.turns(do, !sides)
	turned := o.step(work.TaskTurnIn, forWrap(), r.Wrap, []int{mitres}, do...)
	o.covered = o.dry(forCase(), turned, work.Dry{What: "the case", Weight: true})
}

// turns appends that the covering is turned in at the sides, or at head and tail.
func (p *Plan) turns(do []work.Action, sides bool) []work.Action {
	near, far, a := score.Head, score.Tail, &p.wrap.h
	if sides {
		near, far, a = score.Left, score.Right, &p.wrap.w
	}
	for _, w := range p.wrap.parts {
		if w.strip {
			continue
		}
		if !sides || w.first == 0 {
			do = append(do, work.TurnIn{What: p.wrapObject(w), Edge: near, Depth: a.near.Length()})
		}
		if !sides || w.last == len(p.boards)-1 {
			do = append(do, work.TurnIn{What: p.wrapObject(w), Edge: far, Depth: a.far.Length()})
		}
	}
	return do
}

// measure has the case measured and the inside refitted.
func (o *order) measure() {
	p := o.p
	fine := units.TenthMillimetres // what a hand can measure
	if p.Notation() != units.MetricDecimal {
		fine = units.SixtyFourths
	}
	m := o.step(work.TaskMeasure, forCase(), fine, []int{o.covered}, work.Measure{
		Planned:  units.Size{W: p.boards[len(p.boards)-1].planned + p.boards[len(p.boards)-1].width.Length(), H: p.boards[0].height.Length()},
		Expected: units.Size{W: p.madeW.Length(), H: p.madeH.Length()},
	})
	refit := work.Refit{}
	if p.measured != nil {
		refit = work.Refit{Done: true, Size: units.Size{W: p.measured.Width, H: p.measured.Height}}
	}
	o.covered = o.step(work.TaskRefit, forCase(), 0, []int{m}, refit)
}

// edging glues the edge strips on, each from the board at its left, and returns the step
// after which they are dry, 0 without any.
func (o *order) edging() int {
	p, r := o.p, o.p.spec.Rulers
	if len(p.edgings) == 0 {
		return 0
	}
	var buf, buf2 [usual]work.Action
	cuts, fixes := buf[:0], buf2[:0]
	for _, l := range p.edgings {
		t, size, seat := p.object(int(l.piece)), p.pieces[l.piece].Size(), p.covered(int(l.first))
		at := work.At{Across: score.Right, X: seat.Max.X - l.rect.Min.X - size.W, Along: score.Head, Y: l.rect.Min.Y - seat.Min.Y}
		gaps := l.gaps()
		cuts = append(cuts, o.cut(t.Index))
		fixes = append(fixes, work.Fix{What: t, Panel: work.All, On: p.boardBase(int(l.first), false), At: at, By: work.Glue, Size: size},
			work.Rub{What: t, Gaps: gaps, Deep: gaps})
	}
	dry := work.Dry{What: "the edge strips", Weight: true, Apart: true}
	if len(p.edgings) == 1 {
		dry.What = "the edge strip"
	}
	cut := o.step(work.TaskCut, forLiner(), r.Wrap, []int{o.grain, o.covered}, cuts...)
	return o.dry(forLiner(), o.step(work.TaskFix, forLiner(), r.Wrap, []int{cut}, fixes...), dry)
}

// gaps lists the gaps that a piece lies across.
func (l *lined) gaps() []int {
	gaps := make([]int, 0, l.last-l.first)
	for g := int(l.first); g < int(l.last); g++ {
		gaps = append(gaps, g)
	}
	return gaps
}

// lining glues the liner in, over the edge strips.
func (o *order) lining() {
	p, r, edged := o.p, o.p.spec.Rulers, o.edging()
	var buf [3][usual]work.Action
	cuts, lays, fixes := buf[0][:0], buf[1][:0], buf[2][:0]
	for k, l := range p.liner {
		piece, first, last := &p.pieces[l.piece], int(l.first), int(l.last)
		t := work.Object{Index: int(l.piece), Name: piece.name}
		for _, before := range p.liner[:k] {
			if before.piece == l.piece {
				t.Copy++
			}
		}
		if t.Copy == 0 {
			cuts = append(cuts, o.cut(t.Index))
		}
		on, seat := work.Base{Kind: work.OnRow, Panel: work.All, Name: "open case"}, p.openCover()
		if first == last || first > 0 && last < len(p.boards)-1 { // hands measure from the edge that is near
			on, seat = p.boardBase(first, false), p.covered(first)
		}
		at := work.At{Across: score.Left, X: l.rect.Min.X - seat.Min.X, Along: score.Head, Y: l.rect.Min.Y - seat.Min.Y}
		if first > 0 && last == len(p.boards)-1 {
			at.Across, at.X = score.Right, seat.Max.X-l.rect.Max.X
		}
		fixes = append(fixes, work.Fix{What: t, Panel: work.All, On: on, At: at, By: work.Glue, Size: piece.Size()})
		rub := work.Rub{What: t}
		if first < last {
			rub.Gaps = l.gaps()
			for _, g := range rub.Gaps {
				if p.strains(g) {
					rub.Deep = append(rub.Deep, g)
				}
			}
			fixes = append(fixes, rub)
		}
		if len(rub.Deep) == 0 { // dry it does not go down edges, and reaches past the cover
			lays = append(lays, work.Lay{What: t, On: on, At: at, Size: piece.Size()})
		}
	}
	if o.lined = o.covered; len(cuts) == 0 {
		return
	}
	cut := o.step(work.TaskCut, forLiner(), r.Liner, []int{o.grain, o.covered}, cuts...)
	if len(lays) > 0 {
		cut = o.step(work.TaskLay, forLiner(), r.Liner, []int{cut, edged}, lays...)
	}
	fix := o.step(work.TaskFix, forLiner(), r.Liner, []int{cut}, fixes...)
	o.lined = o.dry(forLiner(), fix, work.Dry{What: "the lining", Weight: true, Apart: true})
}

// sinkMagnets bores the holes before the boards are covered and glues the
// magnets in.
func (o *order) sinkMagnets() {
	p := o.p
	if p.fastening == nil {
		return
	}
	places := p.fastening.places
	m := p.spec.Magnets
	part := work.Part{Kind: work.PartMagnets, Name: "magnets"}
	var bores, tries, fixes []work.Action
	for k, place := range places {
		i := p.index(place.panel)
		size := units.Size{W: m.Diameter, H: m.Diameter}
		middle := units.Point{X: place.middle.X - p.boards[i].rect.Min.X, Y: place.middle.Y - p.boards[i].rect.Min.Y}
		t := magnet(k)
		bores = append(bores, work.Sink{What: p.boardThing(i), Outside: place.outside, Middle: middle, Diameter: m.Diameter, Depth: m.Thickness})
		if k%2 == 1 {
			tries = append(tries, work.TryPair{One: magnet(k - 1), Other: t})
		}
		half := m.Diameter.Half(units.Down)
		fixes = append(fixes, work.Fix{What: t, Panel: work.All, On: p.boardBase(i, place.outside), By: work.Glue, Size: size,
			At: work.At{Across: score.Left, X: middle.X - half, Along: score.Head, Y: middle.Y - half}})
	}
	bored := o.step(work.TaskCut, part, p.spec.Rulers.Main, []int{o.boards}, bores...)
	set := o.step(work.TaskFix, part, p.spec.Rulers.Main, []int{bored}, append(tries, fixes...)...)
	o.boards = o.dry(part, set, work.Dry{What: "the magnets"}) // or they slip out as the boards are turned
}

// magnet names a magnet by its pair.
func magnet(k int) work.Object {
	return work.Object{Kind: work.Magnet, Index: k, Name: ordinal(k%2) + " magnet of pair " + count(k/2+1)}
}
