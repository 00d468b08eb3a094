package work

import (
	"slices"
	"strconv"
	"strings"

	"boardwrap.example/internal/word"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A writer writes sentences from actions. Neighbours of one type that say the
// same of several things are told in one sentence.
type writer struct {
	text []byte
	f    units.Format
	all  []Action
	at   int // the action being told
	next int // the one to be told after it
	// owner ends the names of what is a piece of the step's part and called by it, as in
	// "mat of the notices"; told says that one was.
	owner string
	told  bool
}

//go:noinline
func (w *writer) say(parts ...string) *writer {
	for _, p := range parts {
		w.text = append(w.text, p...)
	}
	return w
}

func (w *writer) len(l units.Length) *writer {
	w.text = w.on(l, l).Append(w.text, l)
	return w
}

// on returns the format for lengths. Where inches have no exact text for them, they
// are told on the fine ruler of the notation, marked as rounded: a plan in inches never
// says millimetres.
//
//go:noinline
func (w *writer) on(a, b units.Length) units.Format {
	f := w.f
	if n := f.Ruler.Notation(); f.Ruler == n.Exact() && (n.Text(a)[0] == '~' || n.Text(b)[0] == '~') {
		f.Ruler = n.Fine()
	}
	return f
}

// spare writes what is to spare, never more than there is.
func (w *writer) spare(l units.Length) *writer {
	w.text = w.on(l, l).AppendAtMost(w.text, l)
	return w
}

// lacking writes what is missing, never less than that.
func (w *writer) lacking(l units.Length) *writer {
	w.text = w.on(l, l).AppendAtLeast(w.text, l)
	return w
}

// thick writes what is as thick, or as wide, as something at hand, which no ruler
// rounds.
func (w *writer) thick(l units.Length) *writer {
	f := w.f
	n := f.Ruler.Notation()
	if f.Ruler = n.Exact(); n.Text(l)[0] == '~' {
		f.Ruler = fine // a 64th is too much of a caliper
	}
	w.text = f.Append(w.text, l)
	return w
}

// fine is the ruler for thicknesses that have no exact text in inches.
var fine, _ = units.NewRuler(units.Thou/10, units.InchDecimal)

func (w *writer) size(s units.Size) *writer {
	w.text = w.on(s.W, s.H).AppendSize(w.text, s)
	return w
}

func (w *writer) count(n int) *writer {
	w.text = strconv.AppendInt(w.text, int64(n), 10)
	return w
}

// join writes what stands before item i of n in a list.
func (w *writer) join(i, n int) *writer {
	switch {
	case i == 0:
	case i == n-1:
		w.say(" and ")
	default:
		w.say(", ")
	}
	return w
}

// lengths writes a list of lengths.
func (w *writer) lengths(list []units.Length) *writer {
	for i, l := range list {
		w.join(i, len(list)).len(l)
	}
	return w
}

// alike are neighbours of one type.
type alike[A Action] []Action

func (l alike[A]) at(i int) A { return l[i].(A) }

// run returns the actions of one type from the present one on that keep belongs
// to, and has the writer go on after them.
func run[A Action](w *writer, keep func(first, next A) bool) alike[A] {
	first := w.all[w.at].(A)
	for w.next < len(w.all) {
		next, ok := w.all[w.next].(A)
		if !ok || !keep(first, next) {
			break
		}
		w.next++
	}
	return alike[A](w.all[w.at:w.next])
}

// thing writes "the mat", "corner 2", or "each of the corners".
func (w *writer) thing(t Object) *writer {
	if t.Kind == Piece && t.Copy == All {
		return w.say("each ", w.brief(t.Name))
	}
	return w.the(t.Name)
}

// brief is a name without the part of the step that it is of, once that is said: the
// gusset of the ticket pocket is glued on the back.
func (w *writer) brief(name string) string {
	own, ok := strings.CutSuffix(name, w.owner)
	if ok && w.told && w.owner != "" {
		return own
	}
	w.told = w.told || ok
	return name
}

// the writes a name with its article. What is told apart by a number or a letter
// at the end, as in "corner 2" or "fold 2 of the guard", takes none.
func (w *writer) the(name string) *writer {
	return w.say(word.The(w.brief(name)))
}

// base writes what something is laid on.
func (w *writer) base(b Base) *writer {
	switch b.Kind {
	case OnBoard:
		return w.say("the inside of the ", b.Name)
	case OnOutside:
		return w.say("the outside of the ", b.Name)
	case OnRow:
		return w.say("the inside of the open case")
	case Under:
		return w.say("the support")
	}
	return w.the(b.Name)
}

// place writes "3 mm from the left edge and 5 mm from the head edge of the ...",
// which is said of the same edges of the thing. On the outside of a board left and
// right are those of hands that look at it, where what is told as seen from inside
// is turned over.
func (w *writer) place(a At, on Base) *writer {
	if on.Kind == OnOutside {
		a.Across = overLeftToRight(a.Across)
	}
	across := edge(a.Across)
	over := on.Kind == OnPiece && w.turned(on)
	if over {
		across = nowRight
		if a.Across == score.Left {
			across = "edge at the left"
		}
	}
	if a.X == 0 && a.Y == 0 && !over {
		w.say("on the ", a.Across.String(), " and ", a.Along.String(), " edges")
	} else {
		w.distance(a.X, across).say(" and ").distance(a.Y, edge(a.Along))
	}
	switch on.Kind {
	case OnBoard:
		w.say(" of the board")
	case OnOutside:
		w.say(" of the board as you look at its outside")
	case OnRow:
		w.say(" of the cover")
	case OnPiece, OnBought:
		w.say(" of it")
	case Under:
		w.say(" of the place")
	}
	return w
}

// overLeftToRight is an edge as it lies when what it is of is turned over.
func overLeftToRight(e score.Edge) score.Edge {
	switch e {
	case score.Left:
		return score.Right
	case score.Right:
		return score.Left
	}
	return e
}

// nowRight is the edge that lies at the right of a piece that was turned over, left to
// right: that is its left one as it was cut, and "the right edge" could be either.
const nowRight = "edge at the right"

func edge(e score.Edge) string { return e.String() + " edge" }

// turned reports whether the step says of a piece that it lies turned over while
// the present action is done.
func (w *writer) turned(on Base) bool {
	over, known := false, false
	for i, a := range w.all {
		t, ok := a.(TurnOver)
		if !ok || t.What.Index != on.Index || t.What.Copy != on.Copy && t.What.Copy != All {
			continue
		}
		if i > w.at {
			return over || !known && t.Again
		}
		over, known = !t.Again, true
	}
	return over
}

// distance writes how far inside an edge, or beyond it.
func (w *writer) distance(d units.Length, edge string) *writer {
	switch {
	case d == 0:
		return w.say("on the ", edge)
	case d < 0:
		return w.len(-d).say(" beyond the ", edge)
	}
	return w.len(d).say(" from the ", edge)
}

func from(a score.Axis) string {
	if a == score.Level {
		return "head"
	}
	return "left"
}

// areas writes rectangles of a piece: "6 x 40 mm at the left edge, 5 mm from the
// head; and 6 x 40 mm, 24 mm from the left and 5 mm from the head edge". One that
// lies in a corner is told by that, or it would sound like two bands; and
// one that is as long as the flat piece by its width: "6 mm along the whole left edge".
func (w *writer) areas(list []units.Rect, flat units.Size) *writer {
	for i, a := range list {
		switch {
		case i == 0:
		case i < len(list)-1:
			w.say("; ")
		default:
			w.say("; and ")
		}
		size := a.Size()
		switch {
		case size == flat:
			w.say("all of it")
			continue
		case size.W == flat.W:
			w.strip(size.H, a.Min.Y, flat.H-a.Max.Y, "head", "tail")
			continue
		case size.H == flat.H:
			w.strip(size.W, a.Min.X, flat.W-a.Max.X, "left", "right")
			continue
		}
		w.size(size)
		across, along := nearest(a.Min.X, a.Max.X, flat.W, "left", "right"), nearest(a.Min.Y, a.Max.Y, flat.H, "head", "tail")
		switch {
		case across != "" && along != "":
			w.say(" at the ", along, " ", across, " corner")
		case across != "":
			w.say(" at the ", across, " edge, ").len(a.Min.Y).say(" from the head")
		case along != "":
			w.say(" at the ", along, " edge, ").len(a.Min.X).say(" from the left")
		default:
			w.say(", ").len(a.Min.X).say(" from the left and ").len(a.Min.Y).say(" from the head edge")
		}
	}
	return w
}

// nearest returns the edge that an area begins or ends at, of a flat piece so long.
func nearest(from, to, flat units.Length, first, last string) string {
	switch {
	case from == 0:
		return first
	case to == flat:
		return last
	}
	return ""
}

// strip writes an area that is as long as the flat piece, by how far it is from the edges
// along it.
func (w *writer) strip(wide, near, far units.Length, first, last string) {
	w.len(wide)
	switch {
	case near == 0:
		w.say(" along the whole ", first, " edge")
	case far == 0:
		w.say(" along the whole ", last, " edge")
	default:
		w.say(" wide from edge to edge, ").len(near).say(" from the ", first)
	}
}

// band returns the width of tape that runs along all four edges of a thing, and
// whether the areas are that.
func band(areas []units.Rect, of units.Size) (units.Length, bool) {
	if len(areas) != 4 {
		return 0, false
	}
	w, from := areas[0].Size().H, areas[0].Min
	return w, slices.EqualFunc(areas, Edges(of, w), func(a, b units.Rect) bool { return a == b.Moved(from) })
}

// corners writes "the head left corner", or "all four corners".
func (w *writer) corners(list []score.Corner) *writer {
	if len(list) == 4 {
		return w.say("all four corners")
	}
	w.say("the ")
	for i, c := range list {
		w.join(i, len(list)).say(c.String())
	}
	if len(list) == 1 {
		return w.say(" corner")
	}
	return w.say(" corners")
}
