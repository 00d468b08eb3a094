package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/internal/word"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A filling is what is put into a fitting when everything is in its place, or what
// is closed over it then.
type filling struct {
	part  work.Part
	after []int
	ruler units.Ruler
	do    []work.Action
}

// put puts something into its fitting and returns the step after which it is in.
func (o *order) put(fill filling) int {
	f := &o.p.fitted[fill.part.Index]
	glue := hasGlue(fill.do) // what has been handed on is the walker's
	done := o.kept(work.TaskFill, fill.part, fill.ruler, append(fill.after, o.across(f)...), fill.do)
	if glue {
		done = o.press(f, o.dry(fill.part, done, work.Dry{What: "what is in " + word.The(fill.part.Name), Weight: true}))
	}
	o.filled = append(o.filled, done)
	return done
}

// hasGlue reports whether wet glue is used.
func hasGlue(do []work.Action) bool { return work.Step{Do: do}.Takes(work.CareGlue) }

// fill keeps the filling of the present fitting for when everything is fixed.
func (o *order) fill(after []int, do ...work.Action) {
	o.fillings = append(o.fillings, o.later(o.p.spec.Rulers.Fitting, after, o.actions.Keep(do...)))
}

// later is what is done with the present fitting when others are in their places.
func (o *order) later(r units.Ruler, after []int, do []work.Action) filling {
	return filling{o.part, o.numbers.Keep(after...), r, do}
}

// cutFitting cuts the pieces of a fitting and returns the step.
func (o *order) cutFitting(f *Fitted) int {
	var buf [usual]work.Action
	do := buf[:0]
	for i := int(f.first); i < int(f.first+f.cut); i++ {
		do = append(do, o.cut(i))
		for w := range o.p.pieces[i].Openings() {
			do = append(do, work.Open{What: o.p.object(i), Area: w})
		}
	}
	return o.step(work.TaskCut, o.part, o.p.spec.Rulers.Fitting, o.ready(), do...)
}

// ready is what cutting the present fitting rests on: nothing for the inside is
// cut before the cover has been measured and the plan refitted to it.
func (o *order) ready() []int {
	if o.p.fitted[o.part.Index].outside {
		return []int{o.grain}
	}
	return []int{o.grain, o.covered}
}

// adhesive is what fittings are fixed with.
func (o *order) adhesive() work.Adhesive {
	if o.p.spec.Closing.Adhesive.Glue {
		return work.Glue
	}
	return work.Tape
}

// sticky returns the areas of a rectangle that take the adhesive of fittings:
// none, which stands for all of it, with glue; with tape its four edges, or
// one length along the middle where it is less than two widths across.
func (o *order) sticky(s units.Size) []units.Rect {
	a := o.p.spec.Closing.Adhesive
	if a.Glue {
		return nil
	}
	return work.Edges(s, a.TapeWidth)
}

// seat is what a fitting lies on and where that lies on the row: the board as
// covered, or the paper of the fitting it stands on.
func (p *Plan) seat(f *Fitted) (work.Base, units.Rect) {
	if f.base >= 0 {
		under := &p.fitted[f.base]
		s := &under.surfaces[f.on]
		base := work.Base{Kind: work.OnPiece, Index: s.Piece(), Panel: work.All, Name: under.Label()}
		if s.piece < 0 {
			base.Kind, base.Index = work.OnBought, under.index
			return base, under.rect
		}
		if s.panel < 0 { // hands measure from the edges of the piece, as those of its parts are not all seen
			base.Name = partOf(p.pieces[s.piece].name, base.Name)
			return base, under.rect
		}
		on := under.folds(int(s.panel))
		base.Name, base.Copy, base.Panel = partOf(under.called(int(f.on)), base.Name), on.Copy(), on.Base()
		if base.Panel != work.All {
			return base, s.rect
		}
		var lies units.Rect
		for _, l := range under.lain {
			if l.piece == s.piece && int(l.copy) == base.Copy {
				lies = lies.Union(l.rect)
			}
		}
		return base, lies
	}
	i := p.index(f.panel)
	return p.boardBase(i, f.outside), p.covered(i)
}

// where returns how far a rectangle lies from the edges of its seat that hands
// can get at: the fore edge of a board, the left edge elsewhere, and the head.
func (p *Plan) where(f *Fitted, r, seat units.Rect) work.At {
	at := work.At{Across: score.Left, X: r.Min.X - seat.Min.X, Along: score.Head, Y: r.Min.Y - seat.Min.Y}
	if i := p.index(f.panel); f.base < 0 && i == len(p.boards)-1 {
		at.Across, at.X = score.Right, seat.Max.X-r.Max.X
	}
	if f.base >= 0 && f.outside {
		at.X = seat.Max.X - r.Max.X // on a fitting at the outside one looks with the folio turned over
	}
	return at
}

// fix marks the place of a paper, lays it dry, fixes it and lets it dry where
// it is glued. It rests on a step, 0 for none, and on there being something to fix it on.
func (o *order) fix(f *Fitted, t work.Object, r units.Rect, by work.Adhesive, areas []units.Rect, after int) int {
	p := o.p
	on, seat := p.seat(f)
	at, ruler := p.where(f, r, seat), p.spec.Rulers.Fitting
	size := r.Size()
	var buf [8]int
	mark := o.step(work.TaskMark, o.part, ruler, o.under(append(buf[:0], after), f), work.MarkPlace{What: t, On: on, At: at, Size: size}, work.Lay{What: t, On: on, At: at, Size: size})
	done := o.step(work.TaskFix, o.part, ruler, []int{mark}, work.Fix{What: t, Panel: work.All, On: on, At: at, By: by, Areas: areas, Flat: size, Size: size, Marked: true})
	return o.dryFitting(f, by, done)
}

// dryFitting lets a fitting dry that was glued with wet glue, and notes when
// others may stand on it.
func (o *order) dryFitting(f *Fitted, by work.Adhesive, done int) int {
	if by == work.Glue {
		done = o.press(f, o.dry(o.part, done, work.Dry{What: "the " + f.Label(), Weight: true, Apart: true}))
	}
	return o.stood(done)
}

// stood notes the step after which the present fitting stands.
func (o *order) stood(done int) int {
	o.stands[o.part.Index] = done
	o.filled = append(o.filled, done)
	return done
}

// hides reports whether another fitting stands on the present one over a place.
//
//go:noinline
func (o *order) hides(place units.Rect) bool {
	for i := range o.p.fitted {
		if f := &o.p.fitted[i]; f.base == o.part.Index && f.rect.Overlaps(place) {
			return true
		}
	}
	return false
}

// under adds after which steps there is something to fix a fitting on: the lining, which
// lies under a weight till then, or the fitting it stands on; and the other side must
// be dry.
func (o *order) under(after []int, f *Fitted) []int {
	on := o.lined
	if f.base >= 0 {
		on = o.stands[f.base]
	}
	return append(append(after, on), o.across(f)...)
}

// across returns the steps after which what was glued on the other side of the boards is dry:
// while it lies under a weight nobody turns the case over.
func (o *order) across(f *Fitted) []int {
	if f.outside {
		return o.pressed[0]
	}
	return o.pressed[1]
}

// press notes that a fitting dries under a weight in a step.
func (o *order) press(f *Fitted, dry int) int {
	side := 0
	if f.outside {
		side = 1
	}
	o.pressed[side] = append(o.pressed[side], dry)
	return dry
}

// block puts the block in, over what lies on its board.
func (o *order) block() {
	p := o.p
	r, ok := p.blockRect()
	if !ok {
		return
	}
	i := p.index(boards.MainPanel)
	board := p.covered(i)
	part := work.Part{Kind: work.PartContents, Name: "block"}
	at := work.At{Across: score.Right, X: board.Max.X - r.Max.X, Along: score.Head, Y: r.Min.Y - board.Min.Y}
	o.filled = append(o.filled, o.step(work.TaskFill, part, p.spec.Rulers.Main, append(o.filled, o.lined), work.Put{
		What: work.Object{Kind: work.Block, Name: "block"}, On: p.boardBase(i, false), At: at, Size: r.Size(),
	}))
}

// close is the last check: every board turned in its order.
func (o *order) close() {
	p := o.p
	var c work.Close
	f, onMain := &p.folded, 0
	c.Turns = make([]work.Turned, 0, 2*(f.n-1)) // each fold with its spine
	for _, t := range f.inOrder() {
		left, right := f.between(t.fold)
		if left != right {
			spine := left + 1
			c.Turns = append(c.Turns, work.Turned{Board: spine, Over: -1, Name: p.boards[spine].name, Held: -1})
		}
		board, over := f.inRow(t.board), f.inRow(t.over)
		turned := work.Turned{Board: board, Over: over, Name: p.boards[board].name, On: p.boards[over].name, Held: -1}
		if t.held >= 0 {
			turned.Held = f.inRow(t.held)
			turned.Upright = p.boards[turned.Held].name
		}
		c.Turns = append(c.Turns, turned)
		if t.over == f.main {
			onMain++
		}
	}
	c.Doors = onMain == 2
	if s, ok := p.hinged(); !ok {
		c.Ajar = true
	} else {
		s.bare = true
		h := s.tightest(true)
		c.Left = h.left()
	}
	o.step(work.TaskCheck, forCase(), p.spec.Rulers.Main, append(o.filled, o.lined, o.covered), c)
}
