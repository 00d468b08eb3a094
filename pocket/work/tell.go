package work

import (
	"slices"
	"strconv"
	"strings"

	"boardwrap.example/internal/quote"
	"boardwrap.example/internal/word"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Text returns the step in words, with every length written by the format. A
// format without a ruler uses the step's own; lengths that are not exact on it
// are marked.
func (s Step) Text(f units.Format) string { return string(s.Append(nil, f)) }

// Append appends the step in words to dst, as [Step.Text] writes it.
func (s Step) Append(dst []byte, f units.Format) []byte {
	if f.Ruler == 0 {
		f.Ruler = s.Ruler
	}
	w := &writer{text: dst, f: f}
	if s.For.Name != "" {
		w.owner = " of " + word.The(s.For.Name)
	}
	for i := 0; i < len(s.Do); i = w.next {
		w.all, w.at, w.next = s.Do, i, i+1
		if s.Do[i] == nil {
			continue
		}
		if len(w.text) > len(dst) {
			w.say(" ")
		}
		s.Do[i].append(w)
	}
	return w.text
}

func (g FindGrain) append(w *writer) {
	w.say("Find the grain of ")
	for i, s := range g.Stocks {
		w.join(i, len(g.Stocks)).say(quote.Clip(s, quote.Most))
	}
	w.say(" and mark it")
	if len(g.Across)+len(g.Either) == 0 {
		w.say(": in every piece it runs along the height, parallel to the spine.")
		return
	}
	w.say(": it runs along the height of the pieces, parallel to the spine")
	for i, list := range [...][]Object{g.Across, g.Either} {
		for k, t := range list {
			switch {
			case k > 0:
				w.join(k, len(list))
			case i == 0:
				w.say(", but along the width of ")
			default:
				w.say("; it may run either way in ")
			}
			w.the(t.Name)
		}
	}
	w.say(".")
}

func (c Cut) append(w *writer) {
	list := run(w, func(a, b Cut) bool {
		said := a.From == b.From || a.From.Index < 0 && b.From.Index < 0 && a.From.Stock == b.From.Stock
		return said && a.Grain == b.Grain && a.Upright == b.Upright && a.Up == b.Up
	})
	if c.From.Index >= 0 {
		w.say("From a sheet of ", quote.Clip(c.From.Stock, quote.Most), ", ").size(c.From.Size)
		if c.From.Turned {
			w.say(" as it lies after a quarter turn")
		}
		w.say(",")
	} else {
		w.say("From ", quote.Clip(c.From.Stock, quote.Most))
	}
	w.say(" cut ")
	for i := range list {
		c := list.at(i)
		w.join(i, len(list))
		name := w.brief(c.What.Name)
		if c.Count == 1 {
			w.say(word.The(name))
		} else {
			w.count(c.Count).say(" x ", name)
		}
		if n := len(name); n > 0 && '0' <= name[n-1] && name[n-1] <= '9' {
			w.say(",") // "strip 1 8 3/4 in" would be 1 8 3/4 in
		}
		w.say(" ").size(c.Size)
	}
	switch c.Grain {
	case GrainAlongHeight:
		w.say(", grain along the height")
	case GrainAlongWidth:
		w.say(", grain along the width")
	}
	if c.Upright {
		w.say(", the pattern upright")
	}
	if c.Up == WrongSide {
		w.say(", wrong side up")
	}
	w.say(".")
}

func (o Open) append(w *writer) {
	w.say("Cut out of ").thing(o.What).say(" ").areas([]units.Rect{o.Area}, units.Size{})
	if o.Radius > 0 {
		w.say(", corners rounded to ").len(o.Radius)
	}
	w.say(".")
}

func (n NotchOut) append(w *writer) {
	list := run(w, func(a, b NotchOut) bool {
		b.Notch.Middle = a.Notch.Middle
		return a == b
	})
	shape := "square"
	if n.Notch.Round {
		shape = "half-round"
	}
	if len(list) == 1 {
		w.say("Cut a ", shape, " notch ")
	} else {
		w.say("Cut ", shape, " notches ")
	}
	w.len(n.Notch.Width).say(" wide and ").len(n.Notch.Depth).say(" deep into the ", n.Notch.Edge.String(), " edge of ").thing(n.What)
	if len(list) == 1 {
		w.say(", its middle ")
	} else {
		w.say(", their middles ")
	}
	at := make([]units.Length, len(list))
	for i := range list {
		at[i] = list.at(i).Notch.Middle
	}
	edge := "left"
	if n.Notch.Edge == score.Left || n.Notch.Edge == score.Right {
		edge = "head"
	}
	w.lengths(at).say(" from the ", edge, " edge.")
}

// legs returns how far from its corner a cut meets the edges, given the size
// of the piece only by the cut itself.
func (t Trim) legs() (x, y units.Length) {
	return (t.From.X - t.To.X).Abs(), (t.From.Y - t.To.Y).Abs()
}

func (t Trim) append(w *writer) {
	x, y := t.legs()
	list := run(w, func(a, b Trim) bool {
		bx, by := b.legs()
		return a.What == b.What && x == bx && y == by
	})
	cut := make([]score.Corner, len(list))
	for i := range list {
		cut[i] = list.at(i).Corner
	}
	w.say("Cut ").corners(cut).say(" off ")
	w.thing(t.What)
	if x == y {
		w.say(" at 45 degrees, through the points ").len(x).say(" from the corner along both edges.")
		return
	}
	w.say(", straight from ").len(x).say(" along the level edge to ").len(y).say(" along the upright edge.")
}

func (d Draw) append(w *writer) {
	list := run(w, func(a, b Draw) bool { return a.On == b.On })
	w.say("On ").base(d.On).say(" draw lines to lay by:")
	said := false
	for _, axis := range [...]score.Axis{score.Level, score.Upright} {
		var at []units.Length
		for i := range list {
			if l := list.at(i); l.Axis == axis {
				at = append(at, l.At)
			}
		}
		if len(at) == 0 {
			continue
		}
		if said {
			w.say(";")
		}
		said = true
		w.say(" from the ", from(axis), " edge ").lengths(at)
	}
	w.say(".")
}

func (m MarkPlace) append(w *writer) {
	w.say("Mark lightly on ").base(m.On).say(" the place of ").thing(m.What).say(", ").size(m.Size).say(": ").place(m.At, m.On).say(".")
	// What is laid there at once needs no more words.
	if w.next < len(w.all) {
		if l, ok := w.all[w.next].(Lay); ok && l == Lay(m) {
			w.next++
			w.say(" Lay it there dry, to see that it goes.")
		}
	}
}

func (s ScoreAt) append(w *writer) {
	list := run(w, func(a, b ScoreAt) bool { return a.What == b.What && a.On == b.On && a.Light == b.Light })
	w.say("Score the ", s.On.String(), " of ").thing(s.What).say(":")
	said := false
	for _, axis := range [...]score.Axis{score.Upright, score.Level} {
		for _, fold := range [...]score.Fold{score.Valley, score.Mountain} {
			said = w.scores(list, axis, fold, said) || said
		}
	}
	if s.On == score.Back {
		w.say(", as seen from the face")
	}
	w.say(".")
	told := slices.ContainsFunc(w.all[:w.at], func(a Action) bool { before, ok := a.(ScoreAt); return ok && before.Light })
	if s.Light && !told {
		w.say(" Paper this light also folds along a line that is only marked, with a bone folder and with the grain.")
	}
}

// scores writes the lines of one axis and fold, and reports whether there are
// any. Lines that do not run from edge to edge are told with their ends.
func (w *writer) scores(list alike[ScoreAt], axis score.Axis, fold score.Fold, said bool) bool {
	var parts []score.Line // each with other ends
	for i := range list {
		if l := list.at(i); l.Line.Axis == axis && l.Line.Fold == fold && !slices.ContainsFunc(parts, func(p score.Line) bool { return sameEnds(p, l.Line) }) {
			parts = append(parts, l.Line)
		}
	}
	for i, part := range parts {
		if i > 0 || said {
			w.say(";")
		}
		var at []units.Length
		for k := range list {
			if l := list.at(k); l.Line.Axis == axis && l.Line.Fold == fold && sameEnds(part, l.Line) {
				at = append(at, l.Line.At)
			}
		}
		edge, across := "left edge", "head edge"
		if list.at(0).On == score.Back { // turned over, left to right
			edge = nowRight
		}
		if axis == score.Level {
			edge, across = across, edge
		}
		w.say(" ").lengths(at).say(" from the ", edge)
		if part.To != 0 {
			w.say(", from ").len(part.From).say(" to ").len(part.To).say(" from the ", across, ",")
		}
		if len(at) > 1 {
			w.say(" for ", fold.String(), " folds")
		} else {
			w.say(" for a ", fold.String(), " fold")
		}
	}
	return len(parts) > 0
}

func sameEnds(a, b score.Line) bool { return a.From == b.From && a.To == b.To }

func (f FoldAt) append(w *writer) {
	if f.Open {
		f.creases(w)
		return
	}
	list := run(w, func(a, b FoldAt) bool {
		return !b.Open && a.What == b.What && sameFold(a, b)
	})
	w.say("Fold ").thing(f.What).foldLines(list)
	if len(list) > 1 {
		w.say(", in this order")
	}
	w.foldTurn(f)
	if len(list) == 2 && !f.Flat {
		w.say(" each time: what lies between the scores stands as a wall, and what lies beyond it lies flat again")
	}
	w.say(".")
}

// creases tells neighbours that are only creased: one after the other, in any
// order, for all lies flat again each time.
func (f FoldAt) creases(w *writer) {
	list := run(w, func(a, b FoldAt) bool { return b.Open && a.What == b.What })
	w.say("Crease ").thing(f.What).say(" and lay it open again")
	if len(list) > 1 {
		w.say(" each time")
	}
	w.say(", folding it")
	for i, done := 0, 0; done < len(list) && i < len(list); i++ {
		a := list.at(i)
		same := func(b Action) bool { return sameFold(a, b.(FoldAt)) }
		if slices.ContainsFunc(list[:i], same) {
			continue // told with the first of its like
		}
		var like alike[FoldAt]
		for _, b := range list[i:] {
			if same(b) {
				like = append(like, b)
			}
		}
		if done > 0 {
			w.say("; then")
		}
		done += len(like)
		w.foldLines(like).foldTurn(a)
	}
	w.say(".")
}

// sameFold reports whether two folds turn alike.
func sameFold(a, b FoldAt) bool {
	return a.Axis == b.Axis && a.Moves == b.Moves && a.Way == b.Way && a.Flat == b.Flat
}

// foldLines writes at which scores of one axis.
func (w *writer) foldLines(list alike[FoldAt]) *writer {
	at := make([]units.Length, len(list))
	for i := range list {
		at[i] = list.at(i).At
	}
	w.say(" at the score")
	if len(list) > 1 {
		w.say("s")
	}
	return w.say(" ").lengths(at).say(" from the ", from(list.at(0).Axis), " edge")
}

// foldTurn writes which part turns, and which way. The edge is that of the piece as
// it was cut, wherever it lies by now.
func (w *writer) foldTurn(f FoldAt) {
	w.say(": the part with its ", f.Moves.String(), " edge ")
	switch {
	case f.Way == Towards && f.Flat:
		w.say("up towards you, flat over the rest")
	case f.Flat:
		w.say("away from you, flat under the rest")
	default:
		w.say(f.Way.String(), ", until it stands at a right angle")
	}
}

func (t TurnOver) append(w *writer) {
	w.say("Turn ").thing(t.What)
	if t.Again {
		w.say(" back over, left to right.")
		return
	}
	w.say(" over, left to right")
	back := t
	back.Again = true
	if !slices.Contains(w.all[w.at:], Action(back)) {
		w.say("; the left edge lies at the right from now on")
	}
	w.say(".")
}

func (l Lay) append(w *writer) {
	w.say("Lay ").thing(l.What).say(" dry on ").base(l.On).say(", to see that it goes: ").place(l.At, l.On).say(".")
}

func (p Put) append(w *writer) {
	w.say("Put ").thing(p.What).say(" on ").base(p.On).say(", ").place(p.At, p.On).say(".")
}

func (s Sink) append(w *writer) {
	side, edge := "inside", score.Left
	if s.Outside {
		side, edge = "outside", score.Right // of hands that look at it
	}
	w.say("Bore a hole ").thick(s.Diameter).say(" across and ").thick(s.Depth).say(" deep into the ", side, " of ").thing(s.What).
		say(", its middle ").len(s.Middle.X).say(" from its ", edge.String(), " edge as you look at that side and ").len(s.Middle.Y).say(" from its head edge.")
}

func (t TryPair) append(w *writer) {
	w.say("Hold ").thing(t.One).say(" to ").thing(t.Other).say(" as they will meet: they must draw each other, not push. Mark on each the face that meets the other.")
}

// Again reports whether next sticks a content like f's in the same way on another
// copy of the piece.
func (f Fix) Again(next Fix) bool {
	on, what := next.On, next.What
	on.Copy, on.Name, what.Copy = f.On.Copy, f.On.Name, f.What.Copy
	return on.Kind == OnPiece && what.Kind == Content && on == f.On && what == f.What &&
		next.At == f.At && next.Quarters == f.Quarters && next.Up == f.Up && next.By == f.By &&
		next.Flat == f.Flat && next.Marked == f.Marked && next.Size == f.Size && slices.Equal(next.Areas, f.Areas)
}

// counted reports whether what things are stuck on is called by the numbers of its
// copies, one after the other, as in leaf 3, leaf 4, leaf 5.
func counted(list alike[Fix]) bool {
	first := list.at(0).On
	for i := range list {
		on := list.at(i).On
		if on.Copy != first.Copy+i || on.Name != strings.Replace(first.Name, strconv.Itoa(first.Copy+1), strconv.Itoa(on.Copy+1), 1) {
			return false
		}
	}
	return true
}

func (f Fix) append(w *writer) {
	lines := run(w, func(a, b Fix) bool {
		return a.Lines && b.Lines && a.On == b.On && a.By == b.By && a.What.Kind == b.What.Kind &&
			a.At.Across == b.At.Across && a.At.Along == b.At.Along && a.At.Y == b.At.Y
	})
	if f.Lines {
		w.by(f.By).say(" on ").base(f.On).say(", each on its lines: ")
		for i := range lines {
			f := lines.at(i)
			w.join(i, len(lines)).the(f.What.Name).say(" ")
			if f.At.X < 0 { // there is no line beyond the edge, but one on its other side
				w.say("with its ", overLeftToRight(f.At.Across).String(), " edge ").len(f.At.X+f.Size.W).say(" from the ", f.At.Across.String(), " edge")
				continue
			}
			w.distance(f.At.X, edge(f.At.Across))
		}
		w.say("; ").distance(f.At.Y, edge(f.At.Along)).say(".")
		return
	}
	if len(lines) < 2 {
		lines = run(w, Fix.Again)
	}
	w.by(f.By).say(" ").thing(f.What)
	turned := [...]string{"", ", turned a quarter clockwise", ", turned half round", ", turned a quarter anticlockwise"}[f.Quarters&3]
	w.say(turned)
	back := f.backUp()
	if back {
		w.say(", back up")
	}
	if turned != "" || back {
		w.say(",")
	}
	if f.What.Kind == Magnet {
		w.say(" into its hole in ").base(f.On).say(", its marked face out")
	} else if w.say(" on "); len(lines) > 1 {
		w.say("each of ").base(f.On)
		if len(lines) > 2 && counted(lines) {
			lines = lines[len(lines)-1:]
			w.say(" to ").base(lines.at(0).On)
		}
		for i := 1; i < len(lines); i++ {
			w.join(i, len(lines)).base(lines.at(i).On)
		}
	} else {
		w.base(f.On)
	}
	if f.Marked {
		w.say(", in the marked place")
	} else {
		w.say(": ").place(f.At, f.On)
	}
	if width, ok := band(f.Areas, f.Size); ok {
		w.say("; ", f.By.String(), " ").len(width).say(" wide along all four edges")
	} else if len(f.Areas) > 1 && f.By != SelfSticky || len(f.Areas) == 1 && f.Areas[0].Size() != f.Size {
		w.say("; ", f.By.String(), " underneath, only on ").areas(f.Areas, f.Flat).say(", measured on the flat piece")
	}
	w.say(".")
}

// backUp reports whether a thing is told to lie with its back up. What goes on the
// outside of a board goes there with its good side out, and of a covering that is the
// side that is called the back.
func (f Fix) backUp() bool {
	return f.Up == score.Back && f.By != SelfSticky && f.On.Kind != OnOutside
}

// by writes the verb for sticking with an adhesive.
func (w *writer) by(a Adhesive) *writer {
	switch a {
	case Tape:
		return w.say("Tape")
	case SelfSticky:
		return w.say("Stick")
	}
	return w.say("Glue")
}

func (s Stick) append(w *writer) {
	list := run(w, func(a, b Stick) bool {
		return a.What == b.What && a.By == b.By && a.To == b.To && a.Side == b.Side && a.Standing == b.Standing
	})
	areas := make([]units.Rect, len(list))
	for i := range list {
		areas[i] = list.at(i).Area
	}
	if s.Standing {
		w.say("Stand the folds of ").thing(s.What).say(" up, pressed together, and stick the ", s.Side.String(), " of it")
	} else {
		w.say("Stick the ", s.Side.String(), " of ").thing(s.What)
	}
	w.say(" to ")
	if s.To.Kind == OnPiece && s.To.Name == s.What.Name {
		w.say("itself")
	} else {
		w.base(s.To)
	}
	w.say(", with ", s.By.String(), " on ").areas(areas, s.Flat).say(", measured on the flat piece.")
}

func (t TurnIn) append(w *writer) {
	list := run(w, func(a, b TurnIn) bool { return a.What == b.What })
	w.say("Glue and turn in ").thing(t.What).say(" over the boards: ")
	for i := range list {
		t := list.at(i)
		w.join(i, len(list)).len(t.Depth).say(" at the ", t.Edge.String())
	}
	w.say(".")
}

func (t Tuck) append(w *writer) {
	w.say("Tuck ").corners(t.Corners).say(" of ").thing(t.What).say(" in with a bone folder")
	w.say(".")
}

func (r Rub) append(w *writer) {
	some := len(r.Gaps) > len(r.Deep)
	if some {
		w.say("Rub ").thing(r.What).say(" down into the ")
		if len(r.Gaps) == 1 {
			w.say("hinge.")
		} else {
			w.say("hinges.")
		}
	}
	if len(r.Deep) > 0 {
		if some {
			w.say(" ")
		}
		w.say("At ")
		for i, g := range r.Deep {
			w.join(i, len(r.Deep)).say("hinge ").count(g + 1)
		}
		w.say(" from the left fold the outsides together and work ")
		if some {
			w.say("it")
		} else {
			w.thing(r.What)
		}
		w.say(" while wet round both edges, down on to the covering between them, before you rub down what lies beyond, or it holds the boards open.")
	}
}

func (d Dry) append(w *writer) {
	w.say("Let ", d.What, " dry")
	if d.Weight {
		w.say(" under a weight")
	}
	if d.Apart {
		w.say(", with waste sheets between what could stick together")
	}
	w.say(".")
}

func (m Measure) append(w *writer) {
	// The estimate is told as closely as a hand can measure.
	near := w.f.Ruler
	if near == 0 {
		near = units.TenthMillimetres
	}
	about := units.Size{W: near.Nearest(m.Expected.W), H: near.Nearest(m.Expected.H)}
	w.say("Measure the open cover: planned ").size(m.Planned).say(", expected as made about ").size(about).say(".")
}

func (r Refit) append(w *writer) {
	if r.Done {
		w.say("The case is made: the steps before this one are done. What follows is refitted to the cover as measured, ").size(r.Size).say(".")
		return
	}
	w.say("If it measures anything but what was planned, refit the plan to what it measures before cutting anything for the inside.")
}

func (i Insert) append(w *writer) {
	list := run(w, func(a, b Insert) bool {
		return a.What.Name == b.What.Name && a.What.Index == b.What.Index && a.Count == b.Count && a.Into == b.Into &&
			a.From == b.From && !a.Corners && !b.Corners
	})
	what := func() {
		if i.Count > 1 {
			w.count(i.Count).say(" x ", i.What.Name)
		} else {
			w.thing(i.What)
		}
	}
	switch {
	case i.Corners:
		w.say("Slip ")
		what()
		w.say(" under ").the(i.Into.Name).say(", one corner after the other.")
	case len(list) > 1:
		w.say("Slip ")
		what()
		w.say(" into each of the ").count(len(list)).say(" pockets of ").the(i.Into.Name).say(" from the ", i.From.String(), ".")
	default:
		w.say("Slip ")
		what()
		w.say(" into ").the(i.Into.Name).say(" from the ", i.From.String(), ".")
	}
}

func (c Close) append(w *writer) {
	w.say("Close the folio")
	if c.Ajar {
		w.say(" as far as it goes without force")
	}
	for i, t := range c.Turns {
		if i == 0 {
			w.say(": ")
		} else {
			w.say(", then ")
		}
		if t.Over < 0 {
			w.say("stand the ", t.Name, " up")
		} else {
			w.say("turn the ", t.Name, " over the ", t.On)
			if t.Upright != "" {
				w.say(" with the ", t.Upright, " held upright")
			}
		}
	}
	if c.Ajar {
		w.say(". The covers do not come to lie parallel: see the plan's warning")
	} else if c.Left < 0 {
		w.say(". Creased as planned it is ").lacking(-c.Left).say(" too tight at the tightest place: see the plan's warning, and do not force the hinges")
	} else {
		w.say(". It must close without force on the hinges, with ")
		finest := w.f.Ruler
		for finest.Finer() != finest {
			finest = finest.Finer()
		}
		if c.Left > 0 && finest.Down(c.Left) == 0 { // and not "~0 in"
			w.say("less than ").thick(finest.Step())
		} else {
			w.spare(c.Left)
		}
		w.say(" to spare at the tightest place")
	}
	if c.Doors {
		w.say(", and the doors must meet without overlapping")
	}
	w.say(".")
}
