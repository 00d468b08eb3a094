package folio

import (
	"iter"
	"strings"

	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/inorder"
	"boardwrap.example/internal/slab"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
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

// usual is how many actions a step mostly has at most; more take an allocation.
const usual = 12

// An order writes the steps one by one until the walker stops.
type order struct {
	p       *Plan
	yield   func(work.Step) bool
	stopped bool
	number  int // of the last step
	// The steps that others rest on, 0 while there are none: grain found,
	// boards cut, the case dry and measured, the lining dry.
	grain, boards, covered, lined int
	part                          work.Part // of the present fitting
	stands                        []int     // by fitting: the step after which it stands
	filled                        []int     // what the last check rests on
	pressed                       [2][]int  // on the inside, and on the outside: the steps in which fittings dry under a weight
	fillings                      []filling
	shutting                      []filling // what closes over contents
	// What steps do and rest on, kept together.
	actions slab.Slab[work.Action]
	numbers slab.Slab[int]
}

// step hands on one step and returns its number. What it rests on may hold
// zeros, which are left out.
func (o *order) step(task work.Task, part work.Part, r units.Ruler, after []int, do ...work.Action) int {
	return o.kept(task, part, r, after, o.actions.Keep(do...))
}

// kept is step for actions that nobody else keeps.
func (o *order) kept(task work.Task, part work.Part, r units.Ruler, after []int, do []work.Action) int {
	o.number++
	if o.stopped {
		return o.number
	}
	if r == 0 {
		r = o.p.Notation().Exact()
	}
	if task == work.TaskFill {
		o.tellInto(do)
	}
	o.stopped = !o.yield(work.Step{Number: o.number, Task: task, For: part, Do: do, After: o.rests(after), Ruler: r})
	return o.number
}

// tellInto tells a fitting by its kind where it is called like what is put into it.
func (o *order) tellInto(do []work.Action) {
	for k, a := range do {
		in, ok := a.(work.Insert)
		if !ok || !alike(in.What.Name, in.Into.Name) {
			continue
		}
		kind := o.p.fitted[in.Into.Index].kind.String()
		// "The token pocket" is told from the token as well as a slip pocket is.
		if in.What.Name == in.Into.Name || !strings.Contains(in.Into.Name, kind[strings.LastIndexByte(kind, ' ')+1:]) {
			in.Into.Name += " " + kind
			do[k] = in
		}
	}
}

// alike reports whether one name begins with the other, as "note" and "notes" do.
func alike(a, b string) bool { return strings.HasPrefix(a, b) || strings.HasPrefix(b, a) }

// rests keeps the numbers of steps in a rising list.
func (o *order) rests(after []int) []int {
	var buf [16]int
	list := buf[:0]
	for _, n := range after {
		if n > 0 {
			list = inorder.Add(list, n)
		}
	}
	return o.numbers.Keep(list...)
}

// The parts of the case.
func forCase() work.Part  { return work.Part{Kind: work.PartCase, Name: "case"} }
func forWrap() work.Part  { return work.Part{Kind: work.PartWrap, Name: "wrap"} }
func forLiner() work.Part { return work.Part{Kind: work.PartLiner, Name: "liner"} }

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
			g.Either = append(g.Either, work.Thing{Index: i, Copy: work.All, Name: p.told(piece)})
		}
	}
	o.grain = o.step(work.TaskPrepare, forCase(), 0, nil, g)
}

// told is what a piece is called among those of all fittings: with its fitting where
// another one has a piece of that name.
//
//go:noinline
func (p *Plan) told(piece *Piece) string {
	for k := range p.pieces {
		if q := &p.pieces[k]; q.name == piece.name && q.fitting != piece.fitting && piece.fitting > 0 {
			return partOf(piece.name, p.fitted[piece.fitting-1].Label())
		}
	}
	return piece.name
}

// cut returns the cutting of every copy of a piece.
func (o *order) cut(i int) work.Cut {
	piece := &o.p.pieces[i]
	c := work.Cut{
		What: work.Thing{Index: i, Copy: work.All, Name: piece.name}, Count: piece.quantity, Size: piece.Size(),
		From: piece.Sheet(), Grain: work.GrainEither, Upright: piece.oneWay, Up: piece.up,
	}
	if piece.grain == stock.GrainParallel && piece.role != stock.FoamPiece && piece.role != stock.FilmPiece {
		c.Grain = work.GrainAlongHeight
	}
	return c
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
