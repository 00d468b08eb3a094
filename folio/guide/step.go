package guide

import (
	"slices"
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/view"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Steps are the steps of a plan, to draw several of: the order of work is worked out
// once for all of them. They are safe to share; the zero Steps are those of no plan.
type Steps struct {
	p    *folio.Plan
	all  []work.Step
	shop *workshop // with nothing done yet
}

// StepsOf returns the steps of a plan; a nil plan, and one that nothing was built of,
// has none.
func StepsOf(p *folio.Plan) Steps {
	if !drawable(p) {
		return Steps{}
	}
	return Steps{p, slices.Collect(p.Steps()), newWorkshop(p)}
}

// Draw draws a step as [Step] does.
func (s Steps) Draw(number int, o Options) (Picture, bool) {
	for i := range s.all {
		if s.all[i].Number == number {
			return s.draw(i, o, new(tabletop))
		}
	}
	return Picture{}, false
}

// Step draws what is done in the step of a number, see [work.Step]: narrow what
// is there already, wide what is new, where the knife goes, what is folded, what
// takes adhesive. A step that works on several things has a drawing of each.
// Pieces that are not in the folio yet are drawn flat, as they are measured, with
// the side up that is worked on; what is folded as it lies before, and in section
// afterwards; what dries in section, pressed. It returns false if there is no such
// step. To draw several, take [StepsOf].
func Step(p *folio.Plan, number int, o Options) (Picture, bool) { return StepsOf(p).Draw(number, o) }

// draw draws step i of the order of work, going on from the table as the last step that
// was drawn found it.
func (s Steps) draw(i int, o Options, last *tabletop) (Picture, bool) {
	p, w, now := s.p, s.shop.anew(), s.all[i]
	w.last = last
	w.last.forget()
	for _, before := range s.all[:i] {
		w.done = append(w.done, before.Do...)
	}
	w.now, w.part = now.Do, now.For
	o = o.laid(p, now)
	write := o.figures(p.Notation()).rounded()
	w.stages()
	subjects := w.subjects()
	alone := w.near()
	return compose("Step "+strconv.Itoa(now.Number), now.Text(words(o.figures(p.Notation()).whole(), now, p.Notation())), o, write, func(q pen) []*figure {
		var figs []*figure
		for _, sub := range subjects {
			figs = append(figs, w.draw(q, sub)...)
		}
		if len(figs) > 0 {
			figs[0].says = append(figs[0].says, w.says()...)
			if alone {
				figs[0].say("other fittings are left out")
			}
		}
		return figs
	})
}

// A workshop is how far the work has come: the actions that were done, and
// those that are being done.
type workshop struct {
	p         *folio.Plan
	done, now []work.Action
	part      work.Part
	last      *tabletop

	pieces   []folio.Piece
	owners   []int // by piece: the place of its fitting, −1 for the case
	fits     []folio.Fitted
	fittings []lineKind          // with which line each fitting is drawn in the folio
	copies   map[[2]int]lineKind // of those, what is laid by itself, by piece and copy; only looked up
	contents []lineKind          // and what it holds
}

func newWorkshop(p *folio.Plan) *workshop {
	w := &workshop{p: p}
	for piece := range p.Pieces() {
		w.pieces, w.owners = append(w.pieces, piece), append(w.owners, -1)
	}
	for g := range p.Fittings() {
		w.fits = append(w.fits, g)
		for i := range g.Pieces() {
			w.owners[i] = g.Index()
		}
	}
	return w.anew()
}

// anew returns the same workshop with nothing done.
func (w *workshop) anew() *workshop {
	out := &workshop{p: w.p, pieces: w.pieces, owners: w.owners, fits: w.fits, last: new(tabletop), copies: map[[2]int]lineKind{}}
	out.last.forget()
	kinds := make([]lineKind, 2*len(w.fits))
	out.fittings, out.contents = kinds[:len(w.fits):len(w.fits)], kinds[len(w.fits):]
	return out
}

// stages works out which fittings, and what they hold, are in the folio already,
// and which come now. What was only marked or laid dry lies where it will be.
func (w *workshop) stages() {
	for i := range w.fits {
		w.fittings[i], w.contents[i] = absent, absent
	}
	for k, list := range [...][]work.Action{w.done, w.now} {
		kind := [...]lineKind{there, fresh}[k]
		for _, a := range list {
			switch a := a.(type) {
			case work.Fix:
				w.stand(a.What, a.On, kind)
				if a.What.Kind == work.Content {
					w.hold(a.What.Index, kind)
				}
			case work.Lay:
				w.stand(a.What, a.On, kind)
			case work.MarkPlace:
				w.stand(a.What, a.On, kind)
			case work.Insert:
				if a.Into.Kind == work.PartFitting {
					w.hold(a.Into.Index, kind)
				}
			}
		}
	}
}

// near leaves out the fittings that the step is not for, where there are many: all but
// those that come now, and what they stand on, MostDrawn of them with each. It
// reports whether it did.
func (w *workshop) near() bool {
	if len(w.fits) <= MostDrawn {
		return false
	}
	keep := make([]bool, len(w.fits))
	mark := func(i int) {
		n := 0 // of a high stack the topmost
		for ok := i >= 0 && i < len(keep); ok && !keep[i] && n < MostDrawn; i, ok = w.fits[i].StandsOn() {
			keep[i] = true
			n++
		}
	}
	left := false
	for i := range w.fits {
		if w.fittings[i] == fresh || w.contents[i] == fresh {
			mark(i)
		}
	}
	for i := range keep {
		if !keep[i] && w.fittings[i] != absent {
			w.fittings[i], left = absent, true // with what it holds
		}
	}
	return left
}

// stand notes that a thing lies on a base: its fitting is in the folio, unless
// the base is a piece of the fitting itself.
func (w *workshop) stand(what work.Thing, on work.Base, kind lineKind) {
	i := none
	switch what.Kind {
	case work.Bought:
		i = what.Index
	case work.Piece:
		i = w.owner(what.Index)
	}
	if i < 0 || on.Kind == work.OnPiece && w.owner(on.Index) == i {
		return
	}
	w.fittings[i] = kind
	if what.Kind == work.Piece && what.Copy != work.All {
		w.copies[[2]int{what.Index, what.Copy}] = kind
	}
}

func (w *workshop) hold(fitting int, kind lineKind) {
	if fitting >= 0 && fitting < len(w.contents) {
		w.contents[fitting] = kind
	}
}

// says tells what no line can: what takes adhesive all over.
func (w *workshop) says() []string {
	var list []string
	var names [work.SelfSticky][]string // by adhesive
	say := func(list *[]string, s string) {
		if !slices.Contains(*list, s) {
			*list = append(*list, s)
		}
	}
	for _, a := range w.now {
		switch a := a.(type) {
		case work.TurnIn:
			say(&list, "glue on all that is turned in")
		case work.Fix:
			switch {
			case len(a.Areas) > 0 || a.By >= work.SelfSticky:
			case a.What.Kind == work.Magnet:
				say(&names[a.By], "each magnet")
			default:
				say(&names[a.By], a.What.Name)
			}
		}
	}
	for by, names := range names {
		for i, name := range names {
			if i == 0 {
				name = work.Adhesive(by).String() + " all over: " + name
			}
			if i < len(names)-1 {
				name += ","
			}
			list = append(list, name)
		}
	}
	return list
}

// place dimensions where the first new thing of the step lies, or where all copies
// of one piece do, from the edges that they are measured from, and hatches what takes
// adhesive on a flat piece.
func (w *workshop) place(f *figure, outside bool) {
	seen := w.p.View(view.Cover)
	if outside {
		seen = w.p.View(view.Outside)
	}
	var xs, ys dimensioned
	piece := work.Thing{Index: -1}
	for _, a := range w.now {
		what, at, size, areas, ok := placing(a)
		if !ok || xs.list != nil && (what.Kind != work.Piece || what.Index != piece.Index) {
			continue
		}
		r, ok := w.lies(what, size)
		if !ok {
			continue
		}
		if fix, ok := a.(work.Fix); ok && fix.Panel != work.All {
			f.say("what opens is drawn closed")
		}
		piece, r = what, seen.Rect(r)
		if piece, ok := w.piece(what.Index); ok && what.Kind == work.Piece && piece.Size() == size {
			for _, area := range areas {
				if seen.Over() {
					area.Min.X, area.Max.X = size.W-area.Max.X, size.W-area.Min.X
				}
				f.fields = append(f.fields, field{area.Moved(r.Min), true, ofPiece(what.Index)})
			}
		}
		if seen.Edge(at.Across) == score.Right {
			xs.add(r.Max.X+at.X, r.Max.X)
		} else {
			xs.add(r.Min.X-at.X, r.Min.X)
		}
		ys.add(r.Min.Y-at.Y, r.Min.Y) // places are told from the head edge
	}
	xs.draw(f, score.Tail)
	ys.draw(f, score.Right)
}

// dimensioned are places along one axis with the edge that they are measured from.
type dimensioned struct {
	from units.Length
	list []units.Length
}

// add takes in a place, if it is measured from the same edge as those before.
func (d *dimensioned) add(from, at units.Length) {
	if d.list == nil {
		d.from = from
	}
	if from == d.from {
		d.list = append(d.list, at)
	}
}

// draw dimensions the places along a side: one by itself, several from their edge.
func (d *dimensioned) draw(f *figure, side score.Edge) {
	if d.list == nil {
		return
	}
	at := sortedPlaces(append(d.list, d.from)...)
	if len(at) < 3 {
		f.chain(side, at)
		return
	}
	f.running(side, at, at[0] != d.from)
}

// slips draws the way of what the step slips in, over the edge at which it goes in.
func (w *workshop) slips(f *figure, outside bool) {
	seen := w.p.View(view.Cover)
	if outside {
		seen = w.p.View(view.Outside)
	}
	var drawn []units.Point
	near := f.pen.mm(4000)
	for _, a := range w.now {
		in, ok := a.(work.Insert)
		if !ok || in.Corners || in.Into.Kind != work.PartFitting {
			continue
		}
		g := w.fits[in.Into.Index]
		for i, spot := range g.Spots() {
			r := seen.Rect(spot.Lies())
			at := middleOf(r)
			if i != in.What.Copy || g.Outside() != outside || slices.ContainsFunc(drawn, func(q units.Point) bool {
				return (q.X-at.X).Abs() < near && (q.Y-at.Y).Abs() < near
			}) {
				continue
			}
			drawn = append(drawn, at)
			f.slip(r, seen.Edge(in.From))
		}
	}
}

// slip draws an arrow from an edge of a rectangle inwards.
func (f *figure) slip(r units.Rect, over score.Edge) {
	size := r.Size()
	long, deep := f.pen.mm(9000), size.H
	if over == score.Left || over == score.Right {
		deep = size.W
	}
	long = min(long, deep.Half(units.Down))
	from, way := halfway(r.Min, units.Point{X: r.Max.X, Y: r.Min.Y}), units.Point{Y: 1}
	switch over {
	case score.Left:
		from, way = halfway(r.Min, units.Point{X: r.Min.X, Y: r.Max.Y}), units.Point{X: 1}
	case score.Right:
		from, way = halfway(units.Point{X: r.Max.X, Y: r.Min.Y}, r.Max), units.Point{X: -1}
	case score.Tail:
		from, way = halfway(units.Point{X: r.Min.X, Y: r.Max.Y}, r.Max), units.Point{Y: -1}
	}
	tip := units.Point{X: from.X + way.X*long, Y: from.Y + way.Y*long}
	body := f.body
	f.line(slide, nothing, false, from, tip)
	f.body = body // it is not part of what is measured
	f.arrow(tip, way.X, way.Y)
}

// placing returns what an action puts where, and what of it takes adhesive.
//
//go:noinline
func placing(a work.Action) (what work.Thing, at work.At, size units.Size, areas []units.Rect, ok bool) {
	switch a := a.(type) {
	case work.MarkPlace:
		return a.What, a.At, a.Size, nil, true
	case work.Lay:
		return a.What, a.At, a.Size, nil, true
	case work.Fix:
		if a.By != work.SelfSticky {
			areas = a.Areas
		}
		return a.What, a.At, a.Size, areas, true
	}
	return what, at, size, nil, false
}

// places reports whether the step puts something in a place that is dimensioned.
func (w *workshop) places() bool {
	return slices.ContainsFunc(w.now, func(a work.Action) bool {
		what, _, size, _, ok := placing(a)
		if ok {
			_, ok = w.lies(what, size)
		}
		return ok
	})
}

// lies returns where a thing of a size lies on the row.
func (w *workshop) lies(t work.Thing, size units.Size) (units.Rect, bool) {
	switch t.Kind {
	case work.Bought:
		if t.Index >= 0 && t.Index < len(w.fits) {
			return w.fits[t.Index].Rect(), true
		}
	case work.Piece:
		for _, q := range placed(w.p) {
			if i, n := q.Piece(); i == t.Index && n == max(t.Copy, 0) && q.Rect().Size() == size {
				return q.Rect(), true
			}
		}
	}
	return units.Rect{}, false
}

// none lists the fittings as not there.
func (w *workshop) none() []lineKind {
	var list []lineKind
	for range w.p.Fittings() {
		list = append(list, absent)
	}
	return list
}

// state tells how far the open folio has come.
func (w *workshop) state() state {
	s := state{boards: there, turnedIn: absent, liner: absent}
	stage := func(is func(work.Action) bool) lineKind {
		switch {
		case slices.ContainsFunc(w.now, is):
			return fresh
		case slices.ContainsFunc(w.done, is):
			return there
		}
		return absent
	}
	s.turnedIn = stage(func(a work.Action) bool { _, ok := a.(work.TurnIn); return ok })
	s.turned = map[[2]int]lineKind{}
	for k, list := range [...][]work.Action{w.done, w.now} {
		for _, a := range list {
			if in, ok := a.(work.TurnIn); ok {
				s.turned[[2]int{in.What.Index, max(in.What.Copy, 0)}] = [...]lineKind{there, fresh}[k]
			}
		}
	}
	s.liner = stage(func(a work.Action) bool {
		switch a := a.(type) {
		case work.Fix:
			return a.What.Kind == work.Piece && w.role(a.What.Index) == stock.LinerPiece
		case work.Lay:
			return a.What.Kind == work.Piece && w.role(a.What.Index) == stock.LinerPiece
		}
		return false
	})
	s.fittings, s.contents, s.copies = w.fittings, w.contents, w.copies
	return s
}

// onWrap draws the covering laid flat as it is in the step.
func (w *workshop) onWrap(f *figure) {
	boards := map[int]lineKind{} // by the place of the piece and the copy; only looked up
	look := func(list []work.Action, k lineKind) {
		for _, a := range list {
			if fix, ok := a.(work.Fix); ok && fix.What.Kind == work.Piece {
				boards[fix.What.Index<<8|fix.What.Copy&255] = k
			}
		}
	}
	look(w.done, there)
	look(w.now, fresh)
	on, copy := w.layingOn()
	over := false
	for _, a := range w.now {
		_, base := placedOn(a)
		over = over || base.Kind == work.OnOutside
	}
	f.wrapped(w.p, wrapState{
		step: true, over: over, on: [2]int{on, copy}, turned: w.state().turned,
		board: func(piece, copy int) lineKind {
			if k, ok := boards[piece<<8|copy&255]; ok {
				return k
			}
			return absent
		},
		paper: w.laidOut(),
		lines: w.drawnLines(),
		cuts:  w.trims(),
	})
	if over {
		w.pasted(f)
	}
}

// placedOn returns what an action lays, and on what; nothing bought on the open row if
// it lays nothing.
//
//go:noinline
func placedOn(a work.Action) (work.Thing, work.Base) {
	switch a := a.(type) {
	case work.Lay:
		return a.What, a.On
	case work.Fix:
		return a.What, a.On
	}
	return work.Thing{Kind: work.Bought}, work.Base{Kind: work.OnRow}
}

// pasted dimensions where pieces of the covering are laid on the outside of boards:
// from the edge of its board at which each of them is measured, as one looks at it.
func (w *workshop) pasted(f *figure) {
	wide := w.p.Wrap().Size().W
	var xs, ys []units.Length
	for _, a := range w.now {
		what, on := placedOn(a)
		_, at, size, _, _ := placing(a)
		n := 0
		for b := range w.p.Boards() {
			if n == on.Index && on.Kind == work.OnOutside {
				board, _ := w.p.OnWrap(b.Role())
				x := w.offset(what)
				if at.Across == score.Left { // by the row, which one sees turned over
					xs = append(xs, wide-x, wide-board.Min.X)
				} else {
					xs = append(xs, wide-x-size.W, wide-board.Max.X)
				}
				ys = append(ys, board.Min.Y, board.Min.Y+at.Y)
			}
			n++
		}
	}
	f.chain(score.Tail, sortedPlaces(xs...))
	f.chain(score.Right, sortedPlaces(ys...))
}

// laidOut tells which pieces of the covering lie there: those that something was
// done to, besides cutting them.
func (w *workshop) laidOut() func(piece, copy int) lineKind {
	lies := map[[2]int]lineKind{} // by piece and copy; only looked up
	for k, list := range [...][]work.Action{w.done, w.now} {
		for _, a := range list {
			if d, ok := a.(work.Draw); ok { // the first thing that is done to what boards are glued on
				lies[[2]int{d.On.Index, max(d.On.Copy, 0)}] = there
			}
			what, on := placedOn(a)
			if what.Kind == work.Piece {
				kind := there
				if k == 1 && on.Kind == work.OnOutside {
					kind = fresh
				}
				lies[[2]int{what.Index, max(what.Copy, 0)}] = kind
			}
		}
	}
	return func(piece, copy int) lineKind {
		if k, ok := lies[[2]int{piece, copy}]; ok {
			return k
		}
		return absent
	}
}

// layingOn returns the piece of the covering on which the step draws lines, or lays
// boards by them: they are measured from its edges.
func (w *workshop) layingOn() (piece, copy int) {
	for _, a := range w.now {
		switch a := a.(type) {
		case work.Draw:
			return a.On.Index, max(a.On.Copy, 0)
		case work.Fix:
			if a.Lines {
				return a.On.Index, max(a.On.Copy, 0)
			}
		}
	}
	return none, none
}

// offset returns where the upper left corner of a piece of the covering lies on
// the whole covering.
func (w *workshop) offset(t work.Thing) units.Length {
	for part := range w.p.Wrap().Pieces() {
		if i, n := part.Index(); i == t.Index && n == max(t.Copy, 0) {
			return part.X()
		}
	}
	return 0
}

// drawnLines lists the lines drawn on the covering in this step.
func (w *workshop) drawnLines() [][2]units.Point {
	var list [][2]units.Point
	for _, a := range w.now {
		d, ok := a.(work.Draw)
		if !ok {
			continue
		}
		piece, _ := w.piece(d.On.Index)
		x, size := w.offset(work.Thing{Index: d.On.Index, Copy: d.On.Copy}), piece.Size()
		if d.Axis == score.Upright {
			list = append(list, [2]units.Point{{X: x + d.At}, {X: x + d.At, Y: size.H}})
		} else {
			list = append(list, [2]units.Point{{X: x, Y: d.At}, {X: x + size.W, Y: d.At}})
		}
	}
	return list
}

// trims lists the cuts that take corners off the covering in this step.
func (w *workshop) trims() [][2]units.Point {
	var list [][2]units.Point
	for _, a := range w.now {
		if t, ok := a.(work.Trim); ok {
			by := units.Point{X: w.offset(t.What)}
			list = append(list, [2]units.Point{t.From.Plus(by), t.To.Plus(by)})
		}
	}
	return list
}
