package pocket

import (
	"slices"
	"strings"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/internal/slab"
	"boardwrap.example/internal/word"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// An order puts steps in their order and finds what each rests on: the last
// step of everything that it handles.
type order struct {
	d       *design
	made    Design    // the same
	in      Setting   // nil for a design by itself
	first   int       // place of its first piece
	part    work.Part // what all steps make
	yield   func(work.Step) bool
	stopped bool
	n       int
	last    []touch
	rests   []int // of the step that is written
	// What steps do and rest on, kept together.
	actions slab.Slab[work.Action]
	numbers slab.Slab[int]
	few     [2]touch
	some    [4]int
}

// mostly is how many actions the steps of a design mostly have together, and on how many
// steps they rest.
const mostly = 24

// aFew is how many actions a step mostly has at most; more take an allocation.
const aFew = 12

// A touch is the last step that handled a copy of a piece.
type touch struct{ index, copy, step int }

// do hands a step on and returns its number.
func (o *order) do(task work.Task, actions ...work.Action) int {
	return o.after(task, nil, actions...)
}

// after is do for a step that rests on other steps too.
func (o *order) after(task work.Task, on []int, actions ...work.Action) int {
	if o.stopped || len(actions) == 0 {
		return o.n
	}
	o.n++
	o.rests = o.rests[:0]
	for _, n := range on {
		o.rests = inorder.Add(o.rests, n)
	}
	var buf [6]work.Object
	things := buf[:0]
	for _, a := range actions {
		things = o.handled(things, a)
	}
	for i := range things {
		o.rests = o.rest(o.rests, &things[i])
	}
	for i := range things {
		o.touch(&things[i])
	}
	o.stopped = !o.yield(work.Step{
		Number: o.n, Task: task, For: o.part, Do: o.actions.Keep(actions...), After: o.numbers.Keep(o.rests...), Ruler: o.d.ruler,
	})
	return o.n
}

// rest adds the last step of a thing, or those of all its copies, to a rising list.
func (o *order) rest(on []int, t *work.Object) []int {
	latest := 0
	for _, l := range o.last {
		switch {
		case l.index != t.Index:
		case t.Copy == work.All:
			on = inorder.Add(on, l.step)
		case l.copy == t.Copy, l.copy == work.All:
			latest = max(latest, l.step)
		}
	}
	if latest > 0 {
		on = inorder.Add(on, latest)
	}
	return on
}

// touch says that the step now written is the last of a thing.
func (o *order) touch(t *work.Object) {
	this := touch{t.Index, t.Copy, o.n}
	if n := len(o.last); n > 0 && o.last[n-1].index == t.Index && o.last[n-1].copy == t.Copy {
		o.last[n-1] = this
		return
	}
	o.last = slices.DeleteFunc(o.last, func(l touch) bool {
		return l.index == t.Index && (l.copy == t.Copy || t.Copy == work.All)
	})
	o.last = append(o.last, this)
}

// handled appends the pieces of the design that an action handles.
func (o *order) handled(all []work.Object, a work.Action) []work.Object {
	var what work.Object
	var on work.Base
	on.Kind = work.Under
	switch a := a.(type) {
	case work.Cut:
		what = o.all(a.What.Index - o.first)
	case work.Open:
		what = a.What
	case work.NotchOut:
		what = a.What
	case work.Trim:
		what = a.What
	case work.ScoreAt:
		what = a.What
	case work.FoldAt:
		what = a.What
	case work.TurnOver:
		what = a.What
	case work.Lay:
		what, on = a.What, a.On
	case work.Fix:
		what, on = a.What, a.On
	case work.Stick:
		what, on = a.What, a.To
	default:
		return all
	}
	if n := len(all); what.Kind == work.Piece && (n == 0 || all[n-1] != what) { // as of many folds of one strip
		all = append(all, what)
	}
	if on.Kind == work.OnPiece && on.Index >= o.first { // what is there before lies under it
		all = append(all, work.Object{Index: on.Index, Copy: on.Copy})
	}
	return all
}

// all is every copy of a piece, one is one copy of it.
func (o *order) all(piece int) work.Object {
	t := work.Object{Kind: work.Piece, Index: o.first + piece, Name: o.d.pieces[piece].name}
	if o.in != nil { // where it may be told apart: as the leaf of something, or as the first pleats
		if name := o.in.Cut(t.Index).What.Name; strings.HasPrefix(name, t.Name) || strings.HasSuffix(name, t.Name) {
			t.Name = name
		}
	}
	if o.d.pieces[piece].quantity > 1 {
		t.Copy = work.All
	}
	return t
}

// apart is what tells the parts of the first piece apart from others of their names, in
// the setting: of what they are, as it stands behind the name.
//
//go:noinline
func (o *order) apart() string {
	of, told := strings.CutPrefix(o.all(0).Name, o.d.pieces[0].name)
	if !told {
		return ""
	}
	return of
}

func (o *order) one(piece, copy int) work.Object {
	t := o.all(piece)
	t.Copy = copy
	if own := o.d.pieces[piece].name; o.d.pieces[piece].quantity > 1 { // what tells it apart stands behind its number
		of, told := strings.CutPrefix(t.Name, own)
		if t.Name = word.Numbered(own, itoa(copy+1)); told {
			t.Name += of
		}
	}
	return t
}

// on is a copy of a piece as a base, as it lies.
func (o *order) on(piece, copy int) work.Base {
	return work.Base{Kind: work.OnPiece, Index: o.first + piece, Copy: copy, Panel: work.All, Name: o.one(piece, copy).Name}
}

// under is what the pocket lies on, and where on it something lies.
func (o *order) under(at work.At, size units.Size) (work.Base, work.At) {
	if o.in != nil {
		return o.in.Under(at, size)
	}
	return work.Base{Kind: work.Under, Panel: work.All, Name: "base"}, at
}

// grain finds the grain of the paper where a piece has folds.
func (o *order) grain() {
	find := work.FindGrain{Stocks: []string{o.d.paper.Name}}
	folds := false
	for i, p := range o.d.pieces {
		axis, ok := p.Grain()
		folds = folds || ok
		switch {
		case ok && axis == score.Level:
			find.Across = append(find.Across, o.all(i))
		case !ok && p.StockKind() == PaperStock:
			find.Either = append(find.Either, o.all(i))
		}
	}
	if folds {
		o.do(work.TaskPrepare, find)
	}
}

// goesInto reports whether a piece goes into a sheet as it lies, of which a side of 0
// is no limit.
func goesInto(piece, sheet units.Size) bool {
	return (sheet.W == 0 || piece.W <= sheet.W) && (sheet.H == 0 || piece.H <= sheet.H)
}

// cut cuts all pieces out of their stocks.
func (o *order) cut() {
	var buf [aFew]work.Action
	actions := buf[:0]
	for i := range o.d.pieces {
		if o.in != nil {
			actions = append(actions, o.in.Cut(o.first+i))
		} else {
			actions = append(actions, o.cutting(i))
		}
	}
	var after []int
	if o.n > 0 { // the grain
		after = []int{o.n}
	}
	o.after(work.TaskCut, after, actions...)
}

// cutting cuts a piece out of the paper as far as the design knows it.
func (o *order) cutting(i int) work.Cut {
	p := &o.d.pieces[i]
	from := work.Source{Stock: o.d.paper.Name, Index: -1, Size: o.d.paper.Sheet}
	up := o.made.up
	if p.stock == MatStock {
		from, up = work.Source{Stock: "the mat's stock", Index: -1}, work.RightSide
	}
	size := p.blank.Size()
	if !goesInto(size, from.Size) && goesInto(size, from.Size.Turned()) {
		from.Size, from.Turned = from.Size.Turned(), true
	}
	grain := work.GrainEither
	if axis, ok := p.Grain(); ok {
		grain = work.GrainAlongHeight
		if axis == score.Level {
			grain = work.GrainAlongWidth
		}
	}
	return work.Cut{What: o.all(i), Count: p.quantity, Size: size, From: from, Grain: grain, Up: up}
}

// shape cuts out of a piece what is to be cut while it lies flat.
func (o *order) shape(piece int) {
	p, t := &o.d.pieces[piece], o.all(piece)
	var buf [aFew]work.Action
	actions := buf[:0]
	for _, c := range p.blank.CutOuts() {
		actions = append(actions, work.Open{What: t, Area: c.Area, Radius: c.Radius})
	}
	for _, n := range p.blank.Notches() {
		actions = append(actions, work.NotchOut{What: t, Notch: n})
	}
	for _, c := range p.blank.Slants() {
		actions = append(actions, trim(t, c, p.blank.Size()))
	}
	o.do(work.TaskCut, actions...)
}

// score scores a piece, first on the face and then, turned over, on the back.
// It is left lying face up.
func (o *order) score(piece int) {
	t := o.all(piece)
	light := !score.Advise(o.d.paper.Grammage, score.GrainWith, score.Heavy{}).Score
	var buf [2][2 * aFew]work.Action
	sides := [2][]work.Action{score.Face: buf[score.Face][:0], score.Back: buf[score.Back][:0]}
	for _, l := range o.d.pieces[piece].blank.Lines() {
		if o.d.pieces[piece].blank.Whole(l) {
			l.To = 0
		}
		side := o.d.paper.Groove.side(l.Fold)
		sides[side] = append(sides[side], work.ScoreAt{What: t, Line: l, On: side, Light: light})
	}
	actions := sides[score.Face]
	if len(sides[score.Back]) > 0 {
		actions = append(actions, work.TurnOver{What: t})
		actions = append(actions, sides[score.Back]...)
		actions = append(actions, work.TurnOver{What: t, Again: true})
	}
	o.do(work.TaskScore, actions...)
}

// fold folds a piece as its design says.
func (o *order) fold(t work.Object, folds ...crease) {
	var buf [aFew]work.Action
	actions := buf[:0]
	for _, f := range folds {
		actions = append(actions, f.action(t))
	}
	o.do(work.TaskFold, actions...)
}

// shut closes what was creased and laid open, over what has been put in: flat, or
// as a wall between two folds, each at a right angle. It rests on all before.
func (o *order) shut(t work.Object, folds ...crease) {
	var buf [aFew]work.Action
	var last [aFew]int
	actions := buf[:0]
	for _, f := range folds {
		if f.end = flat; len(folds) > 1 {
			f.end = standing
		}
		actions = append(actions, f.action(t))
	}
	o.after(work.TaskFold, o.everything(last[:0]), actions...)
}

// stick glues areas of a piece, on one side of its drawing, to a base.
func (o *order) stick(t work.Object, side score.Side, to work.Base, areas ...units.Rect) {
	var buf [aFew]work.Action
	actions := buf[:0]
	for _, a := range areas {
		if !a.Empty() {
			actions = append(actions, work.Stick{What: t, Area: a, Side: side, Flat: o.flat(t), By: work.Glue, To: to})
		}
	}
	o.do(work.TaskGlue, actions...)
}

// at measures from the left and the head edge.
func at(x, y units.Length) work.At {
	return work.At{Across: score.Left, X: x, Along: score.Head, Y: y}
}

// whole measures a thing as it lies.
func whole(f work.Fix) work.Fix {
	f.Panel = work.All
	return f
}

// stickUnder sticks an area of a piece to what the pocket lies on, with what is done
// before the adhesive has set.
func (o *order) stickUnder(s work.Stick, wet []work.Action) {
	s.Flat, s.By = o.flat(s.What), work.Glue
	s.To, _ = o.under(work.At{}, s.Area.Size())
	if o.in != nil {
		s.By, _ = o.in.Sticky(s.Area.Size())
	}
	var buf [2]work.Action
	o.do(work.TaskGlue, append(append(buf[:0], s), wet...)...)
}

// fix glues a thing on to a piece.
func (o *order) fix(f work.Fix) { o.fixAfter(nil, f) }

// fixAfter is fix for what rests on other steps too.
func (o *order) fixAfter(on []int, f work.Fix) {
	if f.Flat = f.Size; f.What.Kind == work.Piece {
		f.Flat = o.flat(f.What)
	}
	o.after(work.TaskGlue, on, f)
}

// flat returns the size of a piece as it was cut.
func (o *order) flat(t work.Object) units.Size { return o.d.pieces[t.Index-o.first].blank.Size() }

// base glues pieces to what the pocket lies on: their places are marked, they
// are laid dry to see that they go, and then they are glued.
func (o *order) base(fixes ...work.Fix) { o.baseRubbed(nil, fixes...) }

// rub is that a piece is rubbed down into the gaps which a part of it lies across, from
// the corner of the closed footprint; nothing where it lies across none.
func (o *order) rub(t work.Object, part units.Rect) []work.Action {
	if o.in == nil {
		return nil
	}
	gaps := o.in.Crossed(part)
	if len(gaps) == 0 {
		return nil
	}
	return []work.Action{work.Rub{What: t, Gaps: gaps}}
}

// baseRubbed is base with what is done before the adhesive has set.
func (o *order) baseRubbed(wet []work.Action, fixes ...work.Fix) {
	var buf [2][aFew]work.Action
	var now [2]work.Action
	marks, lays := buf[0][:0], buf[1][:0]
	for i := range fixes {
		f := &fixes[i]
		f.Flat = o.flat(f.What)
		f.On, f.At = o.under(f.At, f.Size)
		if o.in != nil {
			by, areas := o.in.Sticky(f.Size)
			switch f.Marked, f.By = true, by; {
			case len(f.Areas) == 0:
				f.Areas = areas
			case len(f.Areas) == 1 && f.Areas[0].Size() == f.Size && len(areas) == 4 && !o.d.guarded:
				// All of a panel that is too wide for the tape to cover. A tab holds by all of it.
				for i, r := range areas {
					areas[i] = r.Moved(f.Areas[0].Min)
				}
				f.Areas = areas
			}
		}
		marks = append(marks, work.MarkPlace{What: f.What, On: f.On, At: f.At, Size: f.Size})
		lays = append(lays, work.Lay{What: f.What, On: f.On, At: f.At, Size: f.Size})
	}
	mark := o.do(work.TaskMark, marks...)
	o.after(work.TaskLay, []int{mark}, lays...)
	for _, f := range fixes {
		o.do(work.TaskFix, append(append(now[:0], f), wet...)...)
	}
}

// dry lets what was glued dry; what is done with these things afterwards rests
// on it.
func (o *order) dry(what string, things ...work.Object) {
	var buf [aFew]int
	rests := buf[:0]
	for i := range things {
		rests = o.rest(rests, &things[i])
	}
	if o.in != nil && what != "the "+o.part.Name {
		what += " of " + word.The(o.part.Name)
	}
	n := o.after(work.TaskDry, rests, work.Dry{What: what})
	for i := range things {
		if n == o.n {
			o.touch(&things[i])
		}
	}
}

// matPiece returns the mat, if there is one.
func (o *order) matPiece() (int, bool) {
	i := slices.IndexFunc(o.d.pieces, func(p Piece) bool { return p.stock == MatStock })
	return i, i >= 0
}

// mountMat glues the mat, where there is one, on a piece as it lies; offset is
// how far the piece's edges lie from those of the closed footprint.
func (o *order) mountMat(on work.Base, offset units.Point) {
	if i, ok := o.matPiece(); ok {
		place := o.d.matAt.Moved(offset)
		o.fix(whole(work.Fix{What: o.one(i, 0), On: on, At: at(place.Min.X, place.Min.Y), Size: place.Size()}))
		o.dry("the mat", o.one(i, 0), work.Object{Index: on.Index, Copy: on.Copy})
	}
}

// mount tapes contents on the mat, or where there is none on a piece as it lies.
func (o *order) mount(on work.Base, offset units.Point) {
	c, ok := o.made.Content()
	if !ok || o.d.pockets == 0 {
		return
	}
	place := lain(c, o.d.places[0])
	if i, ok := o.matPiece(); ok {
		on, offset = o.on(i, 0), units.Point{X: -o.d.matAt.Min.X, Y: -o.d.matAt.Min.Y}
	}
	place = place.Moved(offset)
	o.fix(o.taped(o.mounted(c, 0), on, at(place.Min.X, place.Min.Y), c.Size))
}

// taped sticks a content on a piece as the setting has it, and else with tape along its
// edges: what is worth keeping is not glued.
func (o *order) taped(what work.Object, on work.Base, at work.At, size units.Size) work.Fix {
	fix := whole(work.Fix{What: what, On: on, At: at, Size: size})
	if o.in != nil {
		fix.By, fix.Areas = o.in.Sticky(size)
		return fix
	}
	width := units.Inch / 4 // common practice, no published source
	if o.d.ruler.Notation() == units.MetricDecimal {
		width = 6 * mm
	}
	fix.By, fix.Areas = work.Tape, work.Edges(size, width)
	return fix
}

// mounted is a content that is stuck on, or put in.
func (o *order) mounted(c Content, spot int) work.Object {
	return work.Object{Kind: work.Content, Index: o.part.Index, Copy: spot, Name: c.name()}
}

// insert puts contents into their places.
func (o *order) insert() {
	c, ok := o.made.Content()
	if !ok {
		return
	}
	var buf [aFew]work.Action
	var last [aFew]int
	actions := buf[:0]
	for i, p := range o.made.Spots() {
		where := lain(c, p)
		on, at := o.under(at(where.Min.X, where.Min.Y), c.Size)
		actions = append(actions, work.Insert{
			What: o.mounted(c, i), Count: p.capacity.Count, Into: o.part, From: p.mouth,
			Corners: p.corners, On: on, At: at, Size: c.Size,
		})
	}
	n := o.after(work.TaskFill, o.everything(last[:0]), actions...)
	if n == o.n { // what follows comes after it
		o.last = append(o.last, touch{index: -1, step: n})
	}
}

// everything appends the last steps of all things.
func (o *order) everything(on []int) []int {
	for _, l := range o.last {
		on = append(on, l.step)
	}
	return on
}

// lain returns where a content lies in a place: in its middle, and on the edge
// opposite the mouth.
func lain(c Content, p Spot) units.Rect {
	free := p.rect.Size().Plus(-c.Size.W, -c.Size.H)
	x, y := free.W.Half(units.Down), free.H.Half(units.Down)
	if !p.mounted {
		switch p.mouth {
		case score.Head:
			y = free.H
		case score.Left:
			x = free.W
		case score.Right:
			x = 0
		}
	}
	return units.RectAt(p.rect.Min.Plus(units.Point{X: x, Y: y}), c.Size)
}

// glueOf returns the areas of a blank that take glue, in its order.
func glueOf(b score.Blank) []units.Rect {
	var areas []units.Rect
	for _, g := range b.Glue() {
		areas = append(areas, g.Area)
	}
	return areas
}

// trim is the cut of a slant, from the head or tail edge to the left or right
// one.
func trim(t work.Object, s score.Slant, size units.Size) work.Trim {
	cut := work.Trim{What: t, Corner: s.Corner, From: units.Point{X: s.Along}, To: units.Point{Y: s.Down}}
	if cut.Corner == score.HeadRight || cut.Corner == score.TailRight {
		cut.From.X, cut.To.X = size.W-s.Along, size.W
	}
	if cut.Corner == score.TailLeft || cut.Corner == score.TailRight {
		cut.From.Y, cut.To.Y = size.H, size.H-s.Down
	}
	return cut
}
