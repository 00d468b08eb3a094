package guide

import (
	"slices"
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Step draws what is done in the step of a number, see [work.Step]: narrow what
// is there already, wide what is new, where the knife goes, what is folded, what
// takes adhesive. A step that works on several things has a drawing of each.
// Pieces that are not in the folio yet are drawn flat, their face up, as they
// are measured. It returns false if there is no such step.
func Step(p *folio.Plan, number int, o Options) (Picture, bool) {
	if !drawable(p) {
		return Picture{}, false
	}
	w := newWorkshop(p)
	for s := range p.Steps() {
		if s.Number != number {
			w.done = append(w.done, s.Do...)
			continue
		}
		w.now = s.Do
		w.part = s.For
		write := o.figures(p.Notation())
		w.stages()
		subjects := w.subjects()
		return compose("Step "+strconv.Itoa(number), s.Text(write.whole()), o, write, func(q pen) []*figure {
			var figs []*figure
			for _, sub := range subjects {
				if f := w.draw(q, sub); f != nil {
					figs = append(figs, f)
				}
			}
			if len(figs) > 0 {
				figs[0].says = append(figs[0].says, w.says()...)
			}
			return figs
		})
	}
	return Picture{}, false
}

// A workshop is how far the work has come: the actions that were done, and
// those that are being done.
type workshop struct {
	p         *folio.Plan
	done, now []work.Action
	part      work.Part

	pieces   []folio.Piece
	owners   []int // by piece: the place of its fitting, −1 for the case
	fits     []folio.Fitted
	fittings []lineKind // with which line each fitting is drawn in the folio
	contents []lineKind // and what it holds
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
	w.fittings, w.contents = make([]lineKind, len(w.fits)), make([]lineKind, len(w.fits))
	return w
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

// stand notes that a thing lies on a base: its fitting is in the folio, unless
// the base is a piece of the fitting itself.
func (w *workshop) stand(what work.Thing, on work.Base, kind lineKind) {
	i := -1
	switch what.Kind {
	case work.Bought:
		i = what.Index
	case work.Piece:
		i = w.owner(what.Index)
	}
	if i < 0 || i >= len(w.fits) || on.Kind == work.OnPiece && w.owner(on.Index) == i {
		return
	}
	w.fittings[i] = kind
}

func (w *workshop) hold(fitting int, kind lineKind) {
	if fitting >= 0 && fitting < len(w.contents) {
		w.contents[fitting] = kind
	}
}

// A subject is what is drawn of a step.
type subject struct {
	view  subjectView
	piece int // of onPiece
}

type subjectView uint8

const (
	onPiece   subjectView = iota // a flat piece
	onWrap                       // the covering laid flat
	onInside                     // the open folio
	onOutside                    // the open folio turned over
	onClosed                     // the closed folio
	onGrain                      // the boards with the grain
)

// subjects lists what is to be drawn of the step, in the order of its actions.
func (w *workshop) subjects() []subject {
	var list []subject
	for _, a := range w.now {
		if s, ok := w.subject(a); ok && !slices.Contains(list, s) {
			list = append(list, s)
		}
		if s, ok := w.coated(a); ok && !slices.Contains(list, s) {
			list = append(list, s)
		}
	}
	if len(list) == 0 {
		list = append(list, w.rest())
	}
	return list
}

// coated returns the folded piece of which parts take adhesive, which is drawn
// flat beside where it goes.
func (w *workshop) coated(a work.Action) (subject, bool) {
	fix, ok := a.(work.Fix)
	if !ok || fix.What.Kind != work.Piece || len(fix.Areas) == 0 || fix.By == work.SelfSticky {
		return subject{}, false
	}
	piece, _ := w.piece(fix.What.Index)
	b, folded := piece.Blank()
	if !folded {
		return subject{}, false
	}
	for range b.Lines() {
		return subject{onPiece, fix.What.Index}, true
	}
	return subject{}, false
}

// says tells what no line can: what takes adhesive all over.
func (w *workshop) says() []string {
	var list []string
	say := func(s string) {
		if !slices.Contains(list, s) {
			list = append(list, s)
		}
	}
	for _, a := range w.now {
		switch a := a.(type) {
		case work.TurnIn:
			say("glue on all that is turned in")
		case work.Fix:
			if len(a.Areas) == 0 && a.By != work.SelfSticky {
				say(a.By.String() + " all over: " + a.What.Name)
			}
		}
	}
	return list
}

// rest is what is drawn of a step that does nothing to a thing of its own, as
// drying.
func (w *workshop) rest() subject {
	switch w.part.Kind {
	case work.PartCase, work.PartWrap, work.PartMagnets:
		for _, a := range w.done {
			if _, ok := a.(work.TurnIn); ok {
				return subject{view: onInside}
			}
		}
		return subject{view: onWrap}
	case work.PartFitting:
		if i := w.part.Index; i < 0 || i >= len(w.fits) {
			break
		}
		g := w.fits[w.part.Index]
		if w.fittings[w.part.Index] == absent {
			for i := range g.Pieces() {
				return subject{onPiece, i}
			}
		}
		if g.Outside() {
			return subject{view: onOutside}
		}
	}
	return subject{view: onInside}
}

// subject returns what an action is drawn on.
func (w *workshop) subject(a work.Action) (subject, bool) {
	flat := func(t work.Thing) (subject, bool) { return subject{onPiece, t.Index}, t.Kind == work.Piece }
	switch a := a.(type) {
	case work.FindGrain:
		return subject{view: onGrain}, true
	case work.Cut:
		return flat(a.What)
	case work.Open:
		return flat(a.What)
	case work.NotchOut:
		return flat(a.What)
	case work.ScoreAt:
		return flat(a.What)
	case work.FoldAt:
		return flat(a.What)
	case work.Stick:
		return flat(a.What)
	case work.Sink:
		return flat(a.What)
	case work.Trim:
		if w.role(a.What.Index) == folio.CoveringPiece || w.role(a.What.Index) == folio.StripPiece {
			return subject{view: onWrap}, true
		}
		return flat(a.What)
	case work.Draw:
		return w.base(a.On, work.Thing{Kind: work.Bought})
	case work.MarkPlace:
		return w.base(a.On, a.What)
	case work.Lay:
		return w.base(a.On, a.What)
	case work.Put:
		return w.base(a.On, a.What)
	case work.Fix:
		return w.base(a.On, a.What)
	case work.Insert:
		return w.base(a.On, a.What)
	case work.TurnIn, work.Tuck, work.Rub, work.Measure, work.Refit:
		return subject{view: onInside}, true
	case work.Close:
		return subject{view: onClosed}, true
	}
	return subject{}, false
}

// base returns what something that lies on a base is drawn on.
func (w *workshop) base(on work.Base, what work.Thing) (subject, bool) {
	switch on.Kind {
	case work.OnOutside:
		if r := w.role(what.Index); what.Kind == work.Piece && (r == folio.CoveringPiece || r == folio.StripPiece) {
			return subject{view: onWrap}, true
		}
		if what.Kind == work.Magnet {
			return w.board(on.Index), true
		}
		return subject{view: onOutside}, true
	case work.OnPiece:
		if r := w.role(on.Index); r == folio.CoveringPiece || r == folio.StripPiece {
			return subject{view: onWrap}, true
		}
		switch i := w.owner(on.Index); {
		case i < 0:
		case w.fittings[i] == absent:
			return subject{onPiece, on.Index}, true
		case w.fits[i].Outside():
			return subject{view: onOutside}, true
		}
	case work.OnBoard:
		if what.Kind == work.Magnet {
			return w.board(on.Index), true
		}
	}
	return subject{view: onInside}, true
}

// board returns the piece of a board as what is drawn.
func (w *workshop) board(index int) subject {
	n := 0
	for b := range w.p.Boards() {
		if n == index {
			i, _ := b.Piece()
			return subject{onPiece, i}
		}
		n++
	}
	return subject{view: onInside}
}

// piece returns a piece of the plan.
func (w *workshop) piece(i int) (folio.Piece, bool) {
	if i < 0 || i >= len(w.pieces) {
		return folio.Piece{}, false
	}
	return w.pieces[i], true
}

// role returns what a piece is for.
func (w *workshop) role(i int) folio.PieceRole {
	piece, _ := w.piece(i)
	return piece.Role()
}

// owner returns the place of the fitting that a piece belongs to, −1 for none.
func (w *workshop) owner(piece int) int {
	if piece < 0 || piece >= len(w.owners) {
		return -1
	}
	return w.owners[piece]
}

// draw draws a subject as it is in the step.
func (w *workshop) draw(q pen, s subject) *figure {
	f := newFigure(q)
	switch s.view {
	case onPiece:
		if !w.flat(f, s.piece) {
			return nil
		}
	case onWrap:
		w.onWrap(f)
	case onOutside, onInside:
		f.open(w.p, s.view == onOutside, w.state())
		w.place(f, s.view == onOutside)
	case onGrain:
		f.open(w.p, false, state{turnedIn: absent, liner: absent, fittings: w.none(), contents: w.none()})
		f.grain(f.body, work.GrainAlongHeight)
	case onClosed:
		shut, ok := w.p.Closed()
		if !ok {
			f.open(w.p, false, w.state())
			break
		}
		tight, stands := w.p.Tightest(true)
		f.section(w.p, shut, tight, stands)
	}
	f.settle()
	return f
}

// place dimensions where the first new thing of the step lies, from the edges
// that it is measured from, and hatches what takes adhesive on a flat piece.
func (w *workshop) place(f *figure, outside bool) {
	view := w.p.View(folio.ViewCover)
	if outside {
		view = w.p.View(folio.ViewOutside)
	}
	for _, a := range w.now {
		var what work.Thing
		var at work.At
		var size units.Size
		var areas []units.Rect
		switch a := a.(type) {
		case work.MarkPlace:
			what, at, size = a.What, a.At, a.Size
		case work.Lay:
			what, at, size = a.What, a.At, a.Size
		case work.Fix:
			what, at, size = a.What, a.At, a.Size
			if a.By != work.SelfSticky {
				areas = a.Areas
			}
		default:
			continue
		}
		r, ok := w.lies(what, size)
		if !ok {
			continue
		}
		r = view.Rect(r)
		if piece, ok := w.piece(what.Index); ok && what.Kind == work.Piece && piece.Size() == size {
			for _, area := range areas {
				if view.Over() {
					area.Min.X, area.Max.X = size.W-area.Max.X, size.W-area.Min.X
				}
				f.fields = append(f.fields, field{area.Moved(r.Min), true, ofPiece(what.Index)})
			}
		}
		if view.Edge(at.Across) == score.Right {
			f.chain(score.Tail, sortedPlaces(r.Max.X, r.Max.X+at.X))
		} else {
			f.chain(score.Tail, sortedPlaces(r.Min.X-at.X, r.Min.X))
		}
		if at.Along == score.Tail {
			f.chain(score.Right, sortedPlaces(r.Max.Y, r.Max.Y+at.Y))
		} else {
			f.chain(score.Right, sortedPlaces(r.Min.Y-at.Y, r.Min.Y))
		}
		return
	}
}

// lies returns where a thing of a size lies on the row.
func (w *workshop) lies(t work.Thing, size units.Size) (units.Rect, bool) {
	switch t.Kind {
	case work.Bought:
		if t.Index >= 0 && t.Index < len(w.fits) {
			return w.fits[t.Index].Rect(), true
		}
	case work.Piece:
		for q := range w.p.Placed() {
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
	s.liner = stage(func(a work.Action) bool {
		switch a := a.(type) {
		case work.Fix:
			return a.What.Kind == work.Piece && w.role(a.What.Index) == folio.LinerPiece
		case work.Lay:
			return a.What.Kind == work.Piece && w.role(a.What.Index) == folio.LinerPiece
		}
		return false
	})
	s.fittings, s.contents = w.fittings, w.contents
	return s
}

// onWrap draws the covering laid flat as it is in the step.
func (w *workshop) onWrap(f *figure) {
	boards := map[int]lineKind{} // by the place of the piece and the copy; only looked up
	look := func(list []work.Action, k lineKind) {
		for _, a := range list {
			if fix, ok := a.(work.Fix); ok && fix.What.Kind == work.Piece && w.role(fix.What.Index) == folio.BoardPiece {
				boards[fix.What.Index<<8|fix.What.Copy&255] = k
			}
		}
	}
	look(w.done, there)
	look(w.now, fresh)
	f.wrapped(w.p, wrapState{
		mitred: w.mitred(w.done),
		board: func(piece, copy int) lineKind {
			if k, ok := boards[piece<<8|copy&255]; ok {
				return k
			}
			return absent
		},
		paper: there,
		lines: w.drawnLines(),
		cuts:  w.trims(),
	})
}

// mitred reports whether corners were cut off the covering.
func (w *workshop) mitred(list []work.Action) bool {
	return slices.ContainsFunc(list, func(a work.Action) bool {
		t, ok := a.(work.Trim)
		return ok && w.role(t.What.Index) == folio.CoveringPiece
	})
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
