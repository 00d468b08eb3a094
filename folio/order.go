package folio

import (
	"iter"

	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket/work"
)

// Steps walks the order of work, from the first cut to the last check: what
// hands do, on what lies on the table by then. A step is data; its sentence is
// [work.Step.Text]. The walk of a zero Plan is empty.
func (p *Plan) Steps() iter.Seq[work.Step] {
	return func(yield func(work.Step) bool) {
		if len(p.boards) == 0 {
			return
		}
		n := len(p.fitted)
		room := make([]int, 4*n+2)
		o := order{p: p, yield: yield, stands: room[:n:n], filled: room[n:n]}
		o.all()
	}
}

func (o *order) all() {
	o.findGrain()
	o.cutBoards()
	o.sinkMagnets()
	if o.p.wrap.quarter {
		o.quarter()
	} else {
		o.wrapped()
	}
	o.measure()
	o.lining()
	o.fittings()
	o.close()
}

// findGrain is the first step where the grain matters.
func (o *order) findGrain() {
	p := o.p
	if p.spec.Grain != stock.GrainParallel {
		return
	}
	g := work.FindGrain{Stocks: make([]string, 0, 4)} // board, covering, liner and card, mostly
	for i := range p.pieces {
		piece := &p.pieces[i]
		if piece.role == stock.FoamPiece || piece.role == stock.FilmPiece {
			continue // they have none
		}
		known := false
		for _, s := range g.Stocks {
			known = known || s == piece.stock
		}
		if !known {
			g.Stocks = append(g.Stocks, piece.stock)
		}
		if piece.grain == stock.GrainAny {
			g.Either = append(g.Either, work.Object{Index: i, Copy: work.All, Name: p.told(piece)})
		}
	}
	o.grain = o.step(work.TaskPrepare, forCase(), 0, nil, g)
}

func (o *order) cutBoards() {
	p := o.p
	var buf [usual]work.Action
	do := buf[:0]
	for i := range p.pieces {
		if r := p.pieces[i].role; r == stock.BoardPiece || r == stock.StiffenerPiece {
			do = append(do, o.cut(i))
		}
	}
	o.boards = o.step(work.TaskCut, forCase(), p.spec.Rulers.Board, []int{o.grain}, do...)
}

// fittings writes what each kind of fitting says of its own work, in the order
// of the Spec, and then the filling of all of them.
func (o *order) fittings() {
	p := o.p
	for i := range p.fitted {
		f := &p.fitted[i]
		o.part = work.Part{Kind: work.PartFitting, Index: i, Name: f.Label()}
		f.kind.work(o, f)
	}
	for _, fill := range o.fillings {
		o.put(fill)
	}
	full := len(o.filled) // which may be others that lie under what closes here
	for _, shut := range o.shutting {
		o.filled = append(o.filled, o.kept(work.TaskFold, shut.part, shut.ruler, append(shut.after, o.filled[:full]...), shut.do))
	}
	o.block()
}
