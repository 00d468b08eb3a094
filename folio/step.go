package folio

import (
	"iter"
	"slices"
	"strconv"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A Task is a kind of work.
type Task uint8

// Tasks, roughly in the order in which they come up.
const (
	TaskPrepare Task = iota
	TaskCut
	TaskScore
	TaskMark
	TaskLay
	TaskMitre
	TaskTurnIn
	TaskMeasure
	TaskRefit
	TaskLine
	TaskFold
	TaskGlue
	TaskFit
	TaskCheck
)

// String returns the task as a verb.
func (t Task) String() string {
	switch t {
	case TaskPrepare:
		return "prepare"
	case TaskCut:
		return "cut"
	case TaskScore:
		return "score"
	case TaskMark:
		return "mark"
	case TaskLay:
		return "lay"
	case TaskMitre:
		return "mitre"
	case TaskTurnIn:
		return "turn in"
	case TaskMeasure:
		return "measure"
	case TaskRefit:
		return "refit"
	case TaskLine:
		return "line"
	case TaskFold:
		return "fold"
	case TaskGlue:
		return "glue"
	case TaskFit:
		return "fit"
	case TaskCheck:
		return "check"
	}
	return "no such task"
}

// A Step is one numbered step of the order of work. Part is what it makes, as
// [Piece.Part]. Care is the caution where a blade or glue is used, empty
// elsewhere.
type Step struct {
	Number int
	Task   Task
	Part   string
	Text   string
	Care   string
}

// Cautions that go with a step. They are the usual ones and not a substitute
// for the tools' manuals and the rules that hold where the work is done.
const (
	// CareBlade follows HSE, Information sheet PPS12, on hand knives.
	CareBlade = "Blade: metal straightedge, many light passes, a sharp blade, away from the holding hand; put it away when idle; a trimmer's barrier and latch in use. The maker's judgement, the tool's manual and local rules come first."
	// CareGlue is common practice, no published source.
	CareGlue = "Glue: follow its label; spray glue only where the air is changed, and away from flames. Local rules come first."
)

// Steps walks the order of work with its sizes, from the first cut to the last
// check. Lengths are written on the rulers that they were rounded on, or on
// the ruler of the format if it has one, and marked there if they are not
// exact.
func (p *Plan) Steps(f units.Format) iter.Seq[Step] {
	return func(yield func(Step) bool) {
		t := teller{p: p, f: f, yield: yield}
		t.all()
	}
}

// A teller writes the steps one by one until the walker stops.
type teller struct {
	p       *Plan
	f       units.Format
	yield   func(Step) bool
	number  int
	text    []byte
	stopped bool
}

func (t *teller) done(task Task, part, care string) {
	if !t.stopped {
		t.number++
		t.stopped = !t.yield(Step{t.number, task, part, string(t.text), care})
	}
	t.text = t.text[:0]
}

func (t *teller) say(s string) *teller {
	t.text = append(t.text, s...)
	return t
}

func (t *teller) count(n int) *teller {
	t.text = strconv.AppendInt(t.text, int64(n), 10)
	return t
}

// on returns the format for lengths of a role.
func (t *teller) on(r units.Ruler) units.Format {
	f := t.f
	if f.Ruler == 0 {
		f.Ruler = r
	}
	return f
}

func (t *teller) len(r units.Ruler, l units.Length) *teller {
	t.text = t.on(r).Append(t.text, l)
	return t
}

func (t *teller) size(r units.Ruler, s units.Size) *teller {
	t.text = t.on(r).AppendSize(t.text, s)
	return t
}

func (t *teller) all() {
	p, r := t.p, t.p.spec.Rulers
	if p.spec.Grain == GrainParallel {
		t.say("Find the grain of boards and papers and mark it: in every piece it runs along the height, parallel to the spine.")
		t.done(TaskPrepare, "case", "")
	}
	t.cutBoards()
	if p.wrap.quarter {
		t.quarter()
	} else {
		t.wrapped()
	}
	t.turnIn()
	t.say("Press under a weight until dry, then measure the open cover: planned ").
		size(r.Main, units.Size{W: p.nominalW(), H: p.boards[0].height.Length()}).
		say(", expected as made about ").say(sizeText(p.Notation(), units.Size{W: p.madeW.Length(), H: p.madeH.Length()})).say(".")
	t.done(TaskMeasure, "case", "")
	if p.measured == nil {
		t.say("If the cover measures anything else, refit the plan to what it measures before cutting anything for the inside.")
	} else {
		t.say("The inside below is refitted to the cover as measured, ").
			say(sizeText(p.Notation(), units.Size{W: p.measured.Width, H: p.measured.Height})).say(".")
	}
	t.done(TaskRefit, "case", "")
	t.linings()
	for i := range p.fitted {
		t.fitting(i)
	}
	t.say("Let everything dry flat, then close the folio: the covers must lie parallel, without force on the hinges.")
	t.done(TaskCheck, "case", "")
}

// nominalW is the planned open width even after measuring.
func (p *Plan) nominalW() units.Length {
	last := p.boards[len(p.boards)-1]
	return last.planned + last.width.Length()
}

func (t *teller) cutBoards() {
	p, r := t.p, t.p.spec.Rulers
	t.say("From ").say(p.spec.Board.Name).say(" cut ")
	first := true
	for _, piece := range p.pieces {
		if piece.part != "case" {
			continue
		}
		if !first {
			t.say(", ")
		}
		first = false
		t.count(piece.quantity).say(" x ").say(piece.name).say(" ").size(r.Board, piece.Size())
	}
	t.say(". Square each one; boards of a pair must be equal.")
	t.done(TaskCut, "case", CareBlade)
}

func (t *teller) cutPiece(verb string, piece Piece, r units.Ruler) {
	t.say(verb).say(" ")
	if piece.quantity > 1 {
		t.count(piece.quantity).say(" x ")
	} else {
		t.say("the ")
	}
	t.say(piece.name).say(" ").size(r, piece.Size()).say(" from ").say(piece.stock)
	if piece.fitting > 0 && piece.up == work.WrongSide {
		t.say(", wrong side showing")
	}
	if piece.oneWay {
		t.say(", pattern upright")
	}
	for i, o := range piece.openings {
		if i == 0 {
			t.say("; cut out a window of ")
		} else {
			t.say(" and one of ")
		}
		t.size(r, o.Size()).say(", ").len(r, o.Min.X).say(" from the left and ").len(r, o.Min.Y).say(" from the head")
	}
	t.say(".")
	t.done(TaskCut, piece.part, CareBlade)
}

func (t *teller) wrapped() {
	p, r := t.p, t.p.spec.Rulers
	wrap := p.pieces[p.wrap.parts[0].piece]
	t.cutPiece("Cut", wrap, r.Wrap)
	t.marks()
	t.say("Glue the boards down on the lines, left to right: ")
	t.boardsAndGaps()
	t.done(TaskLay, "case", CareGlue)
}

func (t *teller) marks() {
	p, r := t.p, t.p.spec.Rulers
	t.say("On the wrong side of the wrap draw the lines to lay the boards by: from the head edge ")
	var upright []PlacementLine
	level := 0
	for l := range p.Placement() {
		if l.Upright {
			upright = append(upright, l)
			continue
		}
		if level > 0 {
			t.say(" and ")
		}
		level++
		t.len(r.Wrap, l.At)
	}
	t.say("; from the left edge ")
	for i, l := range upright {
		if i > 0 {
			t.say(", ")
		}
		t.len(r.Wrap, l.At)
	}
	t.say(".")
	t.done(TaskMark, "wrap", "")
}

// sidePaper says which board a side paper is for and how far it laps the
// strips.
func (t *teller) sidePaper(w WrapPiece) {
	p := t.p
	end := w.X() + w.piece.width.Length()
	t.say(p.boards[w.part.first].role.String()).say(" ").say(sizeText(p.Notation(), w.piece.Size())).say(", lap ")
	first := true
	for o := range p.Wrap().Pieces() {
		if lap := min(end, o.X()+o.piece.width.Length()) - max(w.X(), o.X()); o.Strip() && lap > 0 {
			if !first {
				t.say(" and ")
			}
			first = false
			t.say(p.Notation().Text(lap))
		}
	}
}

// stripMarks draws the lines on one spine strip.
func (t *teller) stripMarks(w WrapPiece) {
	p, r := t.p, t.p.spec.Rulers
	head := p.wrap.h.near.Length()
	t.say("On the wrong side of the spine strip draw the lines to lay the boards by: from the head edge ").
		len(r.Wrap, head).say(" and ").len(r.Wrap, head+p.boards[0].height.Length()).say("; from the left edge ")
	first := true
	for l := range p.Placement() {
		at := l.At - w.X()
		if !l.Upright || at <= 0 || at >= w.piece.width.Length() {
			continue
		}
		if !first {
			t.say(", ")
		}
		first = false
		t.len(r.Wrap, at)
	}
	t.say(".")
	t.done(TaskMark, "wrap", "")
}

func (t *teller) boardsAndGaps() {
	p, r := t.p, t.p.spec.Rulers
	for i, b := range p.boards {
		if i > 0 {
			t.say(", gap ").len(r.Gap, p.gaps[i-1].planned.Length()).say(", ")
		}
		t.say(b.role.String())
	}
	t.say(". A strip of board as wide as the gap keeps it even.")
}

func (t *teller) quarter() {
	p, r := t.p, t.p.spec.Rulers
	for _, piece := range p.pieces {
		if piece.role == StripPiece {
			t.cutPiece("Cut", piece, r.Wrap)
		}
	}
	for w := range p.Wrap().Pieces() {
		if w.Strip() {
			t.stripMarks(w)
		}
	}
	t.say("Glue the boards to the spine strips, left to right: ")
	t.boardsAndGaps()
	t.done(TaskLay, "case", CareGlue)
	t.say("Turn in the spine strips at head and tail and rub them down into the hinges.")
	t.done(TaskTurnIn, "wrap", CareGlue)
	for _, piece := range p.pieces {
		if piece.role == CoveringPiece {
			t.cutPiece("Cut", piece, r.Wrap)
		}
	}
	t.say("Glue the side papers on, each over the spine strip beside it: ")
	first := true
	for w := range p.Wrap().Pieces() {
		if w.Strip() {
			continue
		}
		if !first {
			t.say("; ")
		}
		first = false
		t.sidePaper(w)
	}
	t.say(".")
	t.done(TaskLay, "wrap", CareGlue)
}

func (t *teller) turnIn() {
	p, r := t.p, t.p.spec.Rulers
	corners := p.wrap.Corners()
	c := corners[work.HeadLeft]
	t.say("Cut the corners off at 45 degrees: ")
	same := true
	for _, o := range corners {
		same = same && o.Leg().Length() == c.Leg().Length()
	}
	if same {
		t.say("at each corner through the points ").len(r.Wrap, c.Leg().Length()).say(" along both edges")
	} else {
		for i, o := range corners {
			if i > 0 {
				t.say(", ")
			}
			t.say(o.corner.String()).say(" ").len(r.Wrap, o.Leg().Length())
		}
		t.say(" along both edges from the corner")
	}
	t.say(". The cut passes the board's corner so that ").len(r.Wrap, c.Reach().Length()).
		say(" is left along each of its extended edges, for an edge of ").
		say(t.p.Notation().Text(c.Edge())).say(".")
	t.done(TaskMitre, "wrap", CareBlade)

	first, second := "head and tail", "the sides"
	a, b := p.wrap.h, p.wrap.w
	if p.spec.Turning == SidesFirst {
		first, second, a, b = second, first, b, a
	}
	t.say("Turn in ").say(first).say(" (").len(r.Wrap, a.near.Length()).say(" and ").len(r.Wrap, a.far.Length()).
		say("), tuck the corners in with a bone folder, then turn in ").say(second).say(" (").
		len(r.Wrap, b.near.Length()).say(" and ").len(r.Wrap, b.far.Length()).say(").")
	t.done(TaskTurnIn, "wrap", CareGlue)
}

func (t *teller) linings() {
	p, r := t.p, t.p.spec.Rulers
	for _, piece := range p.pieces {
		if piece.part == "liner" {
			t.cutPiece("Cut", piece, r.Liner)
		}
	}
	n := p.Notation()
	inHinges := " at head and tail, rubbing it into the hinges"
	if p.lining == LiningPanels {
		inHinges = " at head and tail of each board"
	}
	t.say("Glue the liner down ").say(n.Text(p.boards[0].left)).say(" inside the edges at the sides and ").say(n.Text(p.headIn)).say(inHinges).say(", over the turn-ins (lap ").
		say(p.Notation().Text(p.lapW.Length())).say(" at the sides, ").say(p.Notation().Text(p.lapH.Length())).say(" at head and tail).")
	t.done(TaskLine, "liner", CareGlue)
}

func (t *teller) fitting(i int) {
	p, r := t.p, t.p.spec.Rulers
	f := p.fitted[i]
	part := f.Label()
	if f.design != nil {
		format := t.on(r.Fitting)
		for s := range f.design.Steps() {
			switch s.Task {
			case work.TaskPrepare, work.TaskMark, work.TaskLay, work.TaskFix, work.TaskDry, work.TaskFill:
				continue // told for all fittings alike
			}
			t.say(part).say(": ").say(s.Text(format))
			t.done(taskOf(s.Task), part, careOf(s))
			if t.stopped {
				return
			}
		}
	} else {
		for _, piece := range p.pieces {
			if piece.fitting == f.index+1 {
				t.cutPiece("Cut", piece, r.Fitting)
			}
		}
		if frame, ok := f.fitting.Kind.(Frame); ok {
			t.frame(f, frame.withDefaults(p.Notation()), part)
		}
	}
	area := p.panelArea(f.panel, f.fitting.Outside)
	where := "inside of the " + f.panel.String()
	if f.fitting.Outside {
		where = "outside of the " + f.panel.String()
	}
	if f.base >= 0 {
		base := p.fitted[f.base]
		area = base.rect
		if !base.carrier.Empty() {
			area = base.carrier
		}
		where = base.Label()
	}
	t.say("Fix ").say(part).say(" on the ").say(where)
	_, framed := f.fitting.Kind.(Frame)
	if framed {
		t.say(" by its foam strips only")
	}
	whose := "the panel's"
	switch {
	case f.base >= 0:
		whose = "its"
	case f.fitting.Outside:
		whose = "the board's"
	}
	t.say(": ").
		len(r.Fitting, f.rect.Min.X-area.Min.X).say(" from ").say(whose).say(" left edge and ").
		len(r.Fitting, f.rect.Min.Y-area.Min.Y).say(" from its head edge")
	if f.fitting.Outside {
		t.say(", left as seen from inside")
	}
	t.say(".")
	t.done(TaskFit, part, CareGlue)
	for _, s := range f.spots {
		if s.content.Name == "" || f.design != nil {
			continue // what a pocket holds is the maker's
		}
		if frame, ok := f.fitting.Kind.(Frame); ok {
			t.say("Slip the ").say(s.content.Name).say(" into ").say(part).say(" from the ").say(frame.Mouth.String()).say(".")
		} else {
			t.say("Fix the ").say(s.content.Name).say(" in the middle of ").say(part).say(".")
		}
		t.done(TaskFit, part, "")
	}
}

// frame says where the foam goes on the back of a frame, and the film.
func (t *teller) frame(f Fitted, frame Frame, part string) {
	n := t.p.Notation()
	if frame.Film != "" {
		t.say("Glue the window film over the opening on the back of ").say(part).say(", the same lap all round.")
		t.done(TaskGlue, part, CareGlue)
	}
	side, far := f.placed[1].rect, f.placed[3].rect
	sides, inner, end := "left and right", side.Max.X-f.rect.Min.X, f.rect.Max.Y-far.Min.Y
	if upright(frame.Mouth) {
		sides, inner = "head and tail", side.Max.Y-f.rect.Min.Y
	}
	opposite := score.Tail
	switch frame.Mouth {
	case score.Tail:
		opposite, end = score.Head, far.Max.Y-f.rect.Min.Y
	case score.Left:
		opposite, end = score.Right, f.rect.Max.X-far.Min.X
	case score.Right:
		opposite, end = score.Left, far.Max.X-f.rect.Min.X
	}
	t.say("Stick the foam on the back of ").say(part).say(": the side strips along ").say(sides).
		say(", their inner edges ").say(n.Text(inner)).say(" from the frame's; the far strip between them at the ").say(opposite.String()).
		say(", its inner edge ").say(n.Text(end)).say(" from the frame's. The ").say(frame.Mouth.String()).say(" stays open.")
	t.done(TaskGlue, part, "")
}

// careOf says the caution of a folded fitting's step in the words of the rest.
func careOf(s work.Step) string {
	cares := s.Care()
	switch {
	case slices.Contains(cares, work.CareBlade):
		return CareBlade
	case slices.Contains(cares, work.CareGlue):
		return CareGlue
	}
	return ""
}

// taskOf translates the task of a folded fitting.
func taskOf(k work.Task) Task {
	switch k {
	case work.TaskCut:
		return TaskCut
	case work.TaskScore:
		return TaskScore
	case work.TaskFold:
		return TaskFold
	case work.TaskGlue:
		return TaskGlue
	}
	return TaskFit
}
