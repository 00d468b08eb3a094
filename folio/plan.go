package folio

import (
	"iter"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Plan is a folio worked out: every piece with its working, where it lies,
// and the order of work. A Plan cannot be changed and may be shared between
// goroutines; [Build] and [Plan.Refit] make one.
type Plan struct {
	spec       Spec  // with defaults, and nothing where explicitly none was given
	nones      uint8 // where that was, a bit each of Spec.nones
	spineGiven bool  // the Spec has a covering of its own for the spine
	lining     rule.LiningRule
	ofCase     made // what a refit keeps
	measured   *refit.Measured
	planned    *Plan // what was refitted, nil for a plan as built

	shape  shape
	folded folding
	boards []Board
	gaps   []Gap
	edge   edges

	openW, openH *units.Working // nominal, or as measured
	madeW, madeH *units.Working

	wrap      Wrap
	liner     []lined
	edgings   []lined // the edge strips under it
	lapW      *units.Working
	lapH      *units.Working
	headIn    units.Length // from the boards' edges at head and tail to the panels'
	fitted    []Fitted
	fastening *Fastening // nil without magnets
	stiff     *stiffener // of a soft spine, nil without
	pieces    []Piece
	workings  []units.Working
	warnings  []check.Warning // without those of the designs of fittings
}

// made counts the pieces, workings and warnings of the case, which stand before
// those of the inside.
type made struct{ pieces, workings, warnings int32 }

// Spec returns a copy of what the plan was built from, with its defaults filled
// in.
func (p *Plan) Spec() Spec {
	s := p.spec
	for i, l := range s.nones() {
		if p.nones>>i&1 > 0 {
			*l = units.None
		}
	}
	s.own()
	return s
}

// Stock returns the material that pieces call by a name, and whether it is one
// of the Spec's or the default card, which is also what an empty name stands for
// unless the Spec has a material called "card". Foam and mats may have none.
func (p *Plan) Stock(name string) (stock.Stock, bool) {
	found := p.spec.stock(name)
	if found == nil {
		return stock.Stock{}, false
	}
	s := *found
	s.Sheets = append([]stock.Sheet(nil), s.Sheets...)
	return s, true
}

// noPlan is the error of what is asked of a plan that is nil.
func noPlan() error {
	var bad check.List
	bad.Malformed("plan", check.Missing, "no plan", "a plan made by folio.Build")
	return bad.Err()
}

// Notation is the way the plan writes lengths.
func (p *Plan) Notation() units.Notation { return p.spec.Rulers.Main.Notation() }

// Boards walks the row of boards, left to right as seen inside: the order in which
// steps and outlines count them, from 0.
func (p *Plan) Boards() iter.Seq[Board] { return walk(p.boards) }

// Board returns the board with a role, and whether the row has one.
func (p *Plan) Board(r boards.Role) (Board, bool) {
	if i := p.index(r); i >= 0 {
		return p.boards[i], true
	}
	return Board{}, false
}

// called returns what a board of the row is called in a sentence.
//
//go:noinline
func (p *Plan) called(r boards.Role) string { return p.boards[p.index(r)].name }

// Gaps walks the hinge gaps, left to right: the order in which steps count them, from
// 0, the first between the boards 0 and 1.
func (p *Plan) Gaps() iter.Seq[Gap] { return walk(p.gaps) }

// OpenWidth returns the width of the row of boards with its gaps as planned, or
// of the open cover as measured after [Plan.Refit].
func (p *Plan) OpenWidth() units.Working { return of(p.openW) }

// OpenHeight returns the height of the row of boards as planned, or of the open
// cover as measured.
func (p *Plan) OpenHeight() units.Working { return of(p.openH) }

// AsMade returns an estimate of what the open cover measures when it is
// covered: the nominal size, the covering's caliper at both outer edges and
// Spec.Placing at every gap. It is exact, not put on a ruler. A plan can always be
// refitted to it.
func (p *Plan) AsMade() (width, height units.Working) { return of(p.madeW), of(p.madeH) }

// Wrap returns the covering and how the boards lie on it.
func (p *Plan) Wrap() Wrap {
	w := p.wrap
	w.plan = p
	return w
}

// Liner walks the liner: one piece, or one for each board or run of boards.
func (p *Plan) Liner() iter.Seq[Piece] {
	return func(yield func(Piece) bool) {
		for _, l := range p.liner {
			if !yield(p.pieces[l.piece]) {
				return
			}
		}
	}
}

// LiningStyle returns whether the liner is in one piece, in runs of boards or in panels.
func (p *Plan) LiningStyle() rule.LiningRule { return p.lining }

// TurnInLap returns how far the liner lies over the turn-ins at the sides and
// at head and tail, each at its smaller margin.
func (p *Plan) TurnInLap() (sides, headAndTail units.Working) { return of(p.lapW), of(p.lapH) }

// Fittings walks the fittings in the order of the Spec.
func (p *Plan) Fittings() iter.Seq[Fitted] { return walk(p.fitted) }

// Pieces walks everything that has to be cut: boards, wrap, liner, edge strips, then the
// fittings in the order of the Spec. Steps count them in this order, from 0.
func (p *Plan) Pieces() iter.Seq[Piece] { return walk(p.pieces) }

// Workings walks the working of every dimension in the order in which they
// were computed.
func (p *Plan) Workings() iter.Seq[units.Working] { return walk(p.workings) }

//go:noinline
func (p *Plan) index(r boards.Role) int {
	if r == boards.MainPanel {
		r = p.shape.Main
	}
	for i := range p.boards {
		if p.boards[i].role == r {
			return i
		}
	}
	return -1
}

// foldAt returns the fold that a spine board stands in, −1 of all others.
func (p *Plan) foldAt(r boards.Role) int {
	if !r.Spine() {
		return -1
	}
	if i := p.index(r); i > 0 {
		return p.folded.lies(i - 1)
	}
	return -1
}

// valley reports whether a fold brings insides together.
func (p *Plan) valley(fold int) bool { return p.folded.kind[fold] == score.Valley }

// panelWidth returns the width of a board as it is, measured if it was.
func (p *Plan) panelWidth(i int) units.Length { return p.boards[i].rect.Size().W }

// row returns the size of the row of boards as it is.
func (p *Plan) row() units.Size {
	if len(p.boards) == 0 { // of the zero Plan
		return units.Size{}
	}
	last := p.boards[len(p.boards)-1].rect
	return units.Size{W: last.Max.X, H: last.Max.Y}
}

// openCover returns where the open cover lies on the row: the boards and gaps as
// planned, or with the covering at its edges as measured.
func (p *Plan) openCover() units.Rect {
	row := p.row()
	return units.Rect{
		Min: units.Point{X: -p.edge.left, Y: -p.edge.ends},
		Max: units.Point{X: row.W + p.edge.right, Y: row.H + p.edge.ends},
	}
}

// Panel returns the part of a board that fittings may cover, and whether the
// row has that board: inside, what the liner covers of the board, less the
// inset at its hinges, which keeps fittings off them; outside, the whole board.
// It is measured from the upper left corner of the open row and empty when the
// inset leaves nothing.
func (p *Plan) Panel(r boards.Role, outside bool) (units.Rect, bool) {
	if p.index(r) < 0 {
		return units.Rect{}, false
	}
	return p.panelArea(r, outside), true
}

//go:noinline
func (p *Plan) panelArea(r boards.Role, outside bool) units.Rect {
	b := &p.boards[p.index(r)]
	area := b.rect
	if !outside {
		area.Min.X += b.left
		area.Max.X -= b.right
		area.Min.Y += p.headIn
		area.Max.Y -= p.headIn
	}
	return area
}

// LargestPicture returns the largest picture that a panel takes with the given
// reveal round it and the given clearance, at least Spec.Clearance, between its
// mat and the panel's edges, rounded down on the ruler of fittings so that its
// mat, rounded up, still goes on the panel. It is the zero Size when
// nothing is left or the row has no such board.
func (p *Plan) LargestPicture(r boards.Role, reveal, clearance units.Length) units.Size {
	area, ok := p.Panel(r, false)
	if !ok || reveal < 0 || clearance < 0 || reveal > units.Longest || clearance > units.Longest {
		return units.Size{}
	}
	ruler := p.spec.Rulers.Fitting
	mat := area.Size().Grow(-max(clearance, p.spec.Clearance))
	s := units.Size{W: ruler.Down(mat.W), H: ruler.Down(mat.H)}.Grow(-reveal)
	s = units.Size{W: ruler.Down(s.W), H: ruler.Down(s.H)}
	if s.Empty() {
		return units.Size{}
	}
	return s
}
