package guide

import (
	"slices"
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/word"
	"boardwrap.example/pocket/work"
	"boardwrap.example/pocket/worktop"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

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
	alike    map[subject]string  // the last of the copies that a subject is drawn for; only looked up
}

func newWorkshop(p *folio.Plan) *workshop {
	w := &workshop{p: p}
	for piece := range p.Pieces() {
		w.pieces, w.owners = append(w.pieces, piece), append(w.owners, none)
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
	out := &workshop{p: w.p, pieces: w.pieces, owners: w.owners, fits: w.fits, last: new(tabletop), copies: map[[2]int]lineKind{}, alike: map[subject]string{}}
	out.last.forget()
	kinds := make([]lineKind, 2*len(w.fits))
	out.fittings, out.contents = kinds[:len(w.fits):len(w.fits)], kinds[len(w.fits):]
	return out
}

// A tabletop is the table as a step found it, for the steps after it of the same part
// to go on from, and what was looked up for its pictures at any scale;
// the zero tabletop is of none.
type tabletop struct {
	part work.Part
	done int // how many actions were done before
	t    *worktop.Bench
	lost bool

	seen   map[subject]look           // only looked up
	scored map[scoring][]units.Length // of all steps; only looked up
}

// forget forgets what was seen in the step before.
func (t *tabletop) forget() {
	t.seen = map[subject]look{}
	if t.scored == nil {
		t.scored = map[scoring][]units.Length{}
	}
}

// piece returns a piece of the plan, the zero Piece if there is none.
//
//go:noinline
func (w *workshop) piece(i int) (piece folio.Piece) {
	if i < len(w.pieces) {
		piece = w.pieces[i]
	}
	return piece
}

// role returns what a piece is for.
func (w *workshop) role(i int) stock.PieceRole {
	piece := w.piece(i)
	return piece.Role()
}

// owner returns the place of the fitting that a piece belongs to, −1 for none.
func (w *workshop) owner(piece int) int {
	if piece < 0 || piece >= len(w.owners) {
		return none
	}
	return w.owners[piece]
}

// of is the ref of a copy of a piece that may be of a fitting.
func (w *workshop) of(i, copy int) ref { return ref{i, copy, none, w.owner(i)} }

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
func (w *workshop) stand(what work.Object, on work.Base, kind lineKind) {
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
	if what.Kind == work.Piece {
		w.copies[[2]int{what.Index, what.Copy}] = kind
	}
}

func (w *workshop) hold(fitting int, kind lineKind) {
	if fitting >= 0 && fitting < len(w.contents) {
		w.contents[fitting] = kind
	}
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
	s := state{worked: true, turnedIn: absent, edging: absent, liner: absent}
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
				s.turned[[2]int{in.What.Index, in.What.Copy}] = [...]lineKind{there, fresh}[k]
			}
		}
	}
	laid := func(role stock.PieceRole) lineKind {
		return stage(func(a work.Action) bool {
			what, _ := placedOn(a)
			return what.Kind == work.Piece && w.role(what.Index) == role
		})
	}
	s.edging, s.liner = laid(stock.EdgeStripPiece), laid(stock.LinerPiece)
	s.fittings, s.contents, s.copies = w.fittings, w.contents, w.copies
	return s
}

// placing returns what an action puts where, and what of it takes adhesive.
//
//go:noinline
func placing(a work.Action) (what work.Object, at work.At, size units.Size, areas []units.Rect, ok bool) {
	switch a := a.(type) {
	case work.MarkPlace:
		return a.What, a.At, a.Size, nil, true
	case work.Lay:
		return a.What, a.At, a.Size, nil, true
	case work.Fix:
		return a.What, a.At, a.Size, a.Areas, true
	}
	return what, at, size, nil, false
}

// placedOn returns what an action lays, and on what; nothing bought on the open row if
// it lays nothing.
//
//go:noinline
func placedOn(a work.Action) (work.Object, work.Base) {
	switch a := a.(type) {
	case work.Lay:
		return a.What, a.On
	case work.Fix:
		return a.What, a.On
	}
	return work.Object{Kind: work.Bought}, work.Base{Kind: work.OnRow}
}

// laidOut tells which pieces of the covering lie there: those that something was
// done to, besides cutting them.
func (w *workshop) laidOut() func(piece, copy int) lineKind {
	lies := map[[2]int]lineKind{} // by piece and copy; only looked up
	for k, list := range [...][]work.Action{w.done, w.now} {
		for _, a := range list {
			if d, ok := a.(work.Draw); ok { // the first thing that is done to what boards are glued on
				lies[[2]int{d.On.Index, d.On.Copy}] = there
			}
			what, on := placedOn(a)
			if what.Kind == work.Piece {
				kind := there
				if k == 1 && on.Kind == work.OnOutside {
					kind = fresh
				}
				lies[[2]int{what.Index, what.Copy}] = kind
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
			return a.On.Index, a.On.Copy
		case work.Fix:
			if a.Lines {
				return a.On.Index, a.On.Copy
			}
		}
	}
	return none, none
}

// offset returns where the upper left corner of a piece of the covering lies on
// the whole covering.
func (w *workshop) offset(t work.Object) (x units.Length) {
	for part := range w.p.Wrap().Pieces() {
		if i, n := part.Index(); i == t.Index && n == t.Copy {
			x = part.X()
		}
	}
	return x
}

// drawnLines lists the lines drawn on the covering in this step.
func (w *workshop) drawnLines() [][2]units.Point {
	var list [][2]units.Point
	for _, a := range w.now {
		d, ok := a.(work.Draw)
		if !ok {
			continue
		}
		piece := w.piece(d.On.Index)
		x, size := w.offset(work.Object{Index: d.On.Index, Copy: d.On.Copy}), piece.Size()
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

// copyName returns what a copy of a piece is called in steps: with its number where
// there are several.
func (w *workshop) copyName(i, copy int) string {
	piece := w.piece(i)
	if piece.Quantity() > 1 {
		return word.Numbered(piece.Name(), strconv.Itoa(copy+1))
	}
	return piece.Name()
}
