package folio

import (
	"strings"

	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/inorder"
	"boardwrap.example/internal/slab"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

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
		What: work.Object{Index: i, Copy: work.All, Name: o.p.pieceName(i)}, Count: piece.quantity, Size: piece.Size(),
		From: piece.Source(), Grain: work.GrainEither, Upright: piece.oneWay, Up: piece.up,
	}
	if piece.grain == stock.GrainParallel && piece.role != stock.FoamPiece && piece.role != stock.FilmPiece {
		c.Grain = work.GrainAlongHeight
	}
	return c
}

// dry lets what was glued dry.
func (o *order) dry(part work.Part, after int, do work.Action) int {
	return o.step(work.TaskDry, part, 0, []int{after}, do)
}
