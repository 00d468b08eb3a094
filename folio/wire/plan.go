package wire

import (
	"iter"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// AppendPlan appends the document of a plan to dst: everything that a front end
// draws or lists. It is never read back; a plan comes from its Spec.
//
// Every length is an object with its exact text in the notation of the plan and
// the same in millimetres as a number, for drawing. Places are on the row of
// boards, from its upper left corner, as folio describes it. A plan that was refitted
// has in "measured" what its cover measured; any other plan has no such member. The error is for
// [Options].Only naming what there is not.
func AppendPlan(dst []byte, p *folio.Plan, o Options) ([]byte, error) {
	if p == nil {
		return dst, ErrNothing
	}
	m, err := maskOf(shapePlan, o.Only)
	if err != nil {
		return dst, err
	}
	out := planOf(p, m)
	return document(drawing(dst, p.Notation(), m), "plan", &out, (*encoder).writePlan, Options{Indent: o.Indent})
}

// The members of a plan's document.
type plan struct {
	Title    string
	Form     boards.Form
	Notation units.Notation
	Open     extent
	AsMade   extent
	Measured []refit.Measured // one, or none where the plan is not refitted
	Boards   []board
	Gaps     []gap
	Wrap     wrap
	Lines    []line
	Pieces   []piece
	Placed   []placed
	TurnIns  []turnIn
	Fittings []fitting
	Magnets  []magnet
	Closed   []closed // one, or none where the folio does not shut
	Steps    []step
	Workings []units.Working
	Warnings []warning
	Changes  []change
}

type extent struct{ Width, Height units.Working }

// A working is a size with how it came about: what a units.Working is in a
// document.
type working struct {
	Label  string
	Length units.Length
	// Exact is the sum before rounding, Terms what it is the sum of and Shares
	// by how many it is divided.
	Exact  units.Length
	Shares int
	Terms  []term
	Text   workingLine
}

// A workingLine is a working as one line.
type workingLine struct{ w units.Working }

// AppendText appends the line. It never fails.
func (l workingLine) AppendText(dst []byte) ([]byte, error) { return l.w.AppendLine(dst, false), nil }

type term struct {
	Count  int
	Label  string
	Length units.Length
}

type board struct {
	Role          boards.Role
	Piece, Copy   int
	Width, Height units.Working
	Rect          units.Rect
}

type gap struct {
	Left, Right  boards.Role
	Planned      units.Working
	Width, Least units.Length
	Angle        int
	Rect         units.Rect
}

type axis struct {
	Blank, Near, Far units.Working
	LimitedBy        rule.Limit
}

type wrap struct {
	Quarter       bool
	Across, Along axis
	Pieces        []wrapPiece
}

type wrapPiece struct {
	Piece, Copy int
	X           units.Length
	Strip       bool
	First, Last int
}

type line struct {
	Upright bool
	At      units.Length
	Board   boards.Role
	Edge    score.Edge
}

type piece struct {
	Name, Part, Stock string
	Role              stock.PieceRole
	Fitting           string
	Quantity          int
	Size              units.Size
	Width, Height     units.Working
	Caliper           units.Length
	Sheet             work.Source
	Grain             stock.GrainRule
	OneWay            bool
	Up                work.PaperSide
	Outline           []units.Point
	Openings          []units.Rect
	Blank             []score.Draft // one, or none where the piece is plain
}

type placed struct {
	Piece, Copy int
	Panel       int // −1 for the whole piece
	Fitting     int // −1 for the case
	First, Last int // boards
	Outside     bool
	Up          work.PaperSide
	Rect        units.Rect
	Outline     []units.Point
}

type turnIn struct {
	Piece, Copy int
	Edge        score.Edge
	Depth       units.Length
	Outline     []units.Point
}

type layer struct {
	Name        string
	Rect        units.Rect
	Empty, Full units.Length
	Held        bool
}

type holder struct {
	Rect, Lies, WayIn units.Rect
	Clear             units.Size
	Capacity          pocket.Capacity
	Content           []pocket.Content // one, or none
	Mouth             string           // empty for what is mounted
	Hidden            bool
}

type surface struct {
	Name         string
	Rect         units.Rect
	Height       units.Length
	Piece, Panel int
}

type fitting struct {
	Index       int
	Name, Label string
	Kind        folio.Kind
	Panel       boards.Role
	Outside     bool
	StandsOn    int // −1 for the panel
	Rect        units.Rect
	Empty, Full units.Length
	Pieces      []int
	Layers      []layer
	Spots       []holder
	Surfaces    []surface
}

type magnet struct {
	Panel   boards.Role
	Outside bool
	Middle  units.Point
	Pair    int
}

type closed struct {
	Bend                           rule.CreasePlace
	Crease                         units.Length
	Room, Thickness, Width, Height units.Working
	Tightest                       []tight
}

type tight struct {
	Meeting           string
	Panel             boards.Role
	Place             units.Rect
	Room, Stack, Left units.Working
	Things            []thing
	Text              string
}

type thing struct {
	Fitting int
	Name    string
	Height  units.Length
}

func thingOf(t folio.Stacked) thing {
	at, _ := t.Fitting()
	return thing{at, t.Name(), t.Height()}
}

type step struct {
	Number int
	Task   work.Task
	For    work.Part
	After  []int
	Care   []work.Care
	Do     []work.Action
	Text   sentence
}

// A sentence is what a step says.
type sentence struct{ step work.Step }

// AppendText appends the sentence. It never fails.
func (s sentence) AppendText(dst []byte) ([]byte, error) {
	return s.step.Append(dst, units.Format{}), nil
}

type warning struct {
	Path      string
	Code      string
	Text      string
	Got, Want units.Length
}

type change struct {
	What     string
	Index    int
	Name     string
	From, To units.Rect
}

// gather maps what is walked, once: walking works some of it out.
func gather[A, B any](seq iter.Seq[A], f func(A) B) []B { return gatherFew(usual, seq, f) }

// gatherFew is gather where there are mostly so many at most; more take another
// allocation.
func gatherFew[A, B any](few int, seq iter.Seq[A], f func(A) B) []B {
	var all []B
	for a := range seq {
		if all == nil {
			all = make([]B, 0, few)
		}
		all = append(all, f(a))
	}
	return all
}

// How many there mostly are, at most, in a plain plan: of its workings, of all else
// that it lists.
const usualWorkings, usual = 24, 4

func itself[A any](a A) A { return a }

func axisOf(a folio.Extent) axis {
	return axis{a.Blank(), a.Near(), a.Far(), a.LimitedBy()}
}

func corners(p units.Polygon) []units.Point {
	all := make([]units.Point, 0, p.Len())
	for _, c := range p.Corners() {
		all = append(all, c)
	}
	return all
}

// take gathers what a member lists, where it is wanted.
func take[A, B any](m mask, name string, seq iter.Seq[A], f func(A) B) []B {
	if !m.wants(name) {
		return nil
	}
	return gather(seq, f)
}

func planOf(p *folio.Plan, m mask) plan {
	w, h := p.AsMade()
	spec := p.Spec()
	out := plan{
		Title: spec.Title, Form: spec.Form, Notation: p.Notation(),
		Boards:   take(m, "boards", p.Boards(), boardOf),
		Gaps:     take(m, "gaps", p.Gaps(), gapOf),
		Lines:    take(m, "lines", p.Placement(), func(l folio.PlacementLine) line { return line{l.Upright(), l.At(), l.Board(), l.Edge()} }),
		Pieces:   take(m, "pieces", p.Pieces(), pieceOf),
		Placed:   take(m, "placed", p.Placed(), placedOf),
		TurnIns:  take(m, "turnIns", p.TurnIns(), turnInOf),
		Fittings: take(m, "fittings", p.Fittings(), fittingOf),
		Warnings: take(m, "warnings", p.Warnings(), func(w check.Warning) warning { return warning{w.Path, string(w.Code), w.Text, w.Got, w.Want} }),
		Changes: take(m, "changes", p.Changes(), func(c folio.Change) change {
			return change{c.What().String(), c.Index(), c.Name(), c.From(), c.To()}
		}),
	}
	if m.wants("workings") {
		out.Workings = gatherFew(usualWorkings, p.Workings(), itself)
	}
	if m.wants("steps") { // walking them makes them
		out.Steps = make([]step, 0, 24)
		for s := range p.Steps() {
			out.Steps = append(out.Steps, stepOf(s))
		}
	}
	if m.wants("open") {
		out.Open = extent{p.OpenWidth(), p.OpenHeight()}
	}
	if m.wants("asMade") {
		out.AsMade = extent{w, h}
	}
	if made, ok := p.Measured(); ok {
		out.Measured = []refit.Measured{made}
	}
	if m.wants("wrap") {
		out.Wrap = wrapOf(p.Wrap())
	}
	if f, ok := p.Magnets(); ok {
		out.Magnets = gather(f.Places(), func(m folio.MagnetPlace) magnet { return magnet{m.Panel(), m.Outside(), m.Middle(), m.Pair()} })
	}
	if c, ok := p.Closed(); ok && m.wants("closed") {
		out.Closed = []closed{closedOf(p, c)}
	}
	return out
}

func boardOf(b folio.Board) board {
	i, n := b.Piece()
	return board{b.Role(), i, n, b.Width(), b.Height(), b.Rect()}
}

func gapOf(g folio.Gap) gap {
	l, r := g.Between()
	return gap{l, r, g.Planned(), g.Width(), g.Least(), g.Angle(), g.Rect()}
}

func wrapOf(w folio.Wrap) wrap {
	return wrap{w.Quarter(), axisOf(w.Across()), axisOf(w.Along()), gather(w.Pieces(), func(p folio.WrapPiece) wrapPiece {
		i, n := p.Index()
		first, last := p.Boards()
		return wrapPiece{i, n, p.X(), p.Strip(), first, last}
	})}
}

func pieceOf(p folio.Piece) piece {
	out := piece{
		Name: p.Name(), Part: p.Part(), Stock: p.Stock(), Role: p.Role(), Fitting: ownerOf(p), Quantity: p.Quantity(),
		Size: p.Size(), Width: p.Width(), Height: p.Height(), Caliper: p.Caliper(), Sheet: p.Source(),
		Grain: p.Grain(), OneWay: p.OneWay(), Up: p.Up(), Outline: corners(p.Outline()),
		Openings: gather(p.Openings(), itself),
	}
	if b, ok := p.Blank(); ok {
		out.Blank = []score.Draft{b.Draft()}
	}
	return out
}

// ownerOf is the path in the Spec of the fitting that a piece belongs to, empty
// for a piece of the case.
func ownerOf(p folio.Piece) string {
	if i, ok := p.Fitting(); ok {
		return check.Index("fittings", i)
	}
	return ""
}

func placedOf(p folio.Placed) placed {
	out := placed{Panel: -1, Fitting: -1, Outside: p.Outside(), Up: p.Up(), Rect: p.Rect(), Outline: corners(p.Outline())}
	out.Piece, out.Copy = p.Piece()
	out.First, out.Last = p.Boards()
	if i, ok := p.Panel(); ok {
		out.Panel = i
	}
	if i, ok := p.Fitting(); ok {
		out.Fitting = i
	}
	return out
}

func turnInOf(t folio.TurnedEdge) turnIn {
	i, n := t.Piece()
	return turnIn{i, n, t.Edge(), t.Depth(), corners(t.Outline())}
}

func fittingOf(f folio.Fitted) fitting {
	out := fitting{
		Index: f.Index(), Name: f.Name(), Label: f.Label(), Kind: f.Kind(), Panel: f.Panel(), Outside: f.Outside(), StandsOn: -1,
		Rect: f.Rect(), Empty: f.Height(false), Full: f.Height(true),
		Layers: gather(f.Layers(), func(l folio.Layer) layer {
			return layer{l.Name(), l.Rect(), l.Height(false), l.Height(true), l.Held()}
		}),
		Surfaces: gather(f.Surfaces(), func(s folio.Surface) surface {
			return surface{s.Name(), s.Rect(), s.Height(), s.Piece(), s.Panel()}
		}),
	}
	if i, ok := f.StandsOn(); ok {
		out.StandsOn = i
	}
	for i := range f.Pieces() {
		out.Pieces = append(out.Pieces, i)
	}
	for _, s := range f.Spots() {
		h := holder{Rect: s.Rect(), Lies: s.Lies(), WayIn: s.WayIn(), Clear: s.Clear(), Capacity: s.Capacity(), Hidden: s.Hidden()}
		if c, ok := s.Content(); ok {
			h.Content = []pocket.Content{c}
		}
		if m, ok := s.Mouth(); ok {
			h.Mouth = m.String()
		}
		out.Spots = append(out.Spots, h)
	}
	return out
}

func closedOf(p *folio.Plan, c folio.Closed) closed {
	out := closed{c.Bend(), c.Crease(), c.Room(), c.Thickness(), c.Width(), c.Height(), nil}
	if t, ok := p.Tightest(true); ok {
		place, panel := t.Place()
		out.Tightest = []tight{{
			t.Meeting().String(), panel, place, t.Room(), t.Stack(), t.Left(),
			gather(t.Things(), thingOf), t.String(),
		}}
	}
	return out
}

func stepOf(s work.Step) step {
	return step{s.Number, s.Task, s.For, s.After, s.Care(), s.Do, sentence{s}}
}
