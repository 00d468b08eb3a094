package folio

import (
	"slices"
	"strings"

	"boardwrap.example/internal/word"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// A within is the folio as the setting of a design, whose steps it takes over.
type within struct {
	o       *order
	f       *Fitted
	on      work.Base // what it lies on, and where that lies
	seat    units.Rect
	carries bool // another fitting stands on it
	// By which steps of the folio each step of the design is done: those up to its
	// end, from that of the one before.
	done, ends []int32
	last       int  // step
	wet        bool // since something was glued nothing has dried
	fixed      int  // how many steps fix something
	some, few  [18]int32
}

func (w *within) First() int         { return int(w.f.first) }
func (w *within) Part() work.Part    { return w.o.part }
func (w *within) Cut(i int) work.Cut { return w.o.cut(i) }

func (w *within) Under(at work.At, size units.Size) (work.Base, work.At) {
	r, width := at.Rect(size, w.f.rect.Size()), w.f.rect.Size().W
	if w.f.outside {
		r = overIn(r, width)
	}
	return w.on, w.o.p.where(w.f, r.Moved(w.f.rect.Min), w.seat)
}

func (w *within) Sticky(size units.Size) (work.Adhesive, []units.Rect) {
	return w.o.adhesive(), w.o.sticky(size)
}

func (w *within) Crossed(r units.Rect) (gaps []int) {
	// What it stands on lies over none, and outside they are under the covering.
	if w.f.base >= 0 || w.f.outside {
		return nil
	}
	r = r.Moved(w.f.rect.Min)
	for i := range w.o.p.gaps {
		if gap := w.o.p.gaps[i].rect; r.Min.X < gap.Max.X && gap.Min.X < r.Max.X {
			gaps = append(gaps, i)
		}
	}
	return gaps
}

// step takes a step of the design over, or keeps it for later.
func (w *within) step(s work.Step) {
	o := w.o
	var buf [16]int
	after := buf[:0]
	for _, n := range s.After {
		for _, done := range w.done[w.ends[n-1]:w.ends[n]] {
			after = append(after, int(done))
		}
	}
	shuts := s.Task == work.TaskFold && w.fixed > 0 // what is fixed already
	switch {
	case s.Task == work.TaskDry && !w.wet: // tape need not dry
		for _, n := range after {
			w.done = append(w.done, int32(n))
		}
	case s.Task == work.TaskFill && !w.carries:
		o.fillings = append(o.fillings, o.later(s.Ruler, append(after, w.last), s.Do))
	case shuts && !w.carries:
		o.shutting = append(o.shutting, o.later(s.Ruler, append(after, w.last), named(s.Do, w.f)))
	default:
		switch {
		case slices.ContainsFunc(s.Do, func(a work.Action) bool { _, cut := a.(work.Cut); return cut }):
			after = append(after, o.ready()...)
		case onBase(s.Do, w.on):
			after = o.under(after, w.f)
		}
		w.wet = s.Task != work.TaskDry && (w.wet || hasGlue(s.Do))
		content := hasContent(s.Do) // what has been handed on is the walker's
		w.last = o.kept(s.Task, o.part, s.Ruler, after, s.Do)
		if s.Task == work.TaskDry && w.fixed > 0 {
			o.press(w.f, w.last)
		}
		if s.Task == work.TaskGlue && o.adhesive() == work.Glue && content {
			w.last = o.press(w.f, o.dry(o.part, w.last, work.Dry{What: "what is in " + word.The(o.part.Name), Weight: true}))
			w.wet = false
		}
		w.done = append(w.done, int32(w.last))
		if s.Task == work.TaskFix {
			o.filled = append(o.filled, w.last)
			w.fixed++
		}
	}
	w.ends = append(w.ends, int32(len(w.done)))
}

// named tells what is folded with the name that its fitting was given, or with its
// place among several, for others have been worked on since.
func named(do []work.Action, f *Fitted) []work.Action {
	if f.name == "" && f.nth == 0 {
		return do
	}
	for i, a := range do {
		fold, ok := a.(work.FoldAt)
		if !ok {
			continue
		}
		switch {
		case fold.What.Name == label(f.name, f.kind):
			fold.What.Name = f.Label()
		case !strings.HasSuffix(fold.What.Name, f.Label()):
			fold.What.Name = partOf(fold.What.Name, f.Label())
		}
		do[i] = fold
	}
	return do
}

// carries reports whether another fitting stands on one.
func (o *order) carries(fitting int) bool {
	for i := range o.p.fitted {
		if o.p.fitted[i].base == fitting {
			return true
		}
	}
	return false
}

// hasContent reports whether a content is stuck down.
func hasContent(do []work.Action) bool {
	return slices.ContainsFunc(do, func(a work.Action) bool {
		f, ok := a.(work.Fix)
		return ok && f.What.Kind == work.Content
	})
}

// onBase reports whether something of the actions happens on what a fitting lies on.
func onBase(do []work.Action, base work.Base) bool {
	return slices.ContainsFunc(do, func(a work.Action) bool {
		var on work.Base
		switch a := a.(type) {
		case work.MarkPlace:
			on = a.On
		case work.Lay:
			on = a.On
		case work.Fix:
			on = a.On
		case work.Stick:
			on = a.To
		default:
			return false
		}
		return on == base
	})
}
