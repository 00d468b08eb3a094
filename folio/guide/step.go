package guide

import (
	"slices"
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/pocket/work"
)

// Steps are the steps of a plan, to draw several of: the order of work is worked out
// once for all of them. They are safe to share; the zero Steps are those of no plan.
type Steps struct {
	p    *folio.Plan
	all  []work.Step
	shop *workshop // with nothing done yet
}

// StepsOf returns the steps of a plan; a nil plan, and one that nothing was built of,
// has none.
func StepsOf(p *folio.Plan) Steps {
	if !drawable(p) {
		return Steps{}
	}
	return Steps{p, slices.Collect(p.Steps()), newWorkshop(p)}
}

// Draw draws a step as [Step] does.
func (s Steps) Draw(number int, o Options) (Picture, bool) {
	for i := range s.all {
		if s.all[i].Number == number {
			return s.draw(i, o, new(tabletop))
		}
	}
	return Picture{}, false
}

// Step draws what is done in the step of a number, see [work.Step]: narrow what
// is there already, wide what is new, where the knife goes, what is folded, what
// takes adhesive. A step that works on several things has a drawing of each.
// Pieces that are not in the folio yet are drawn flat, as they are measured, with
// the side up that is worked on; what is folded as it lies before, and in section
// afterwards; what dries in section, pressed. It returns false if there is no such
// step. To draw several, take [StepsOf].
func Step(p *folio.Plan, number int, o Options) (Picture, bool) { return StepsOf(p).Draw(number, o) }

// draw draws step i of the order of work, going on from the table as the last step that
// was drawn found it.
func (s Steps) draw(i int, o Options, last *tabletop) (Picture, bool) {
	p, w, now := s.p, s.shop.anew(), s.all[i]
	w.last = last
	w.last.forget()
	for _, before := range s.all[:i] {
		w.done = append(w.done, before.Do...)
	}
	w.now, w.part = now.Do, now.For
	o = o.laid(p, now)
	write := o.figures(p.Notation()).rounded()
	w.stages()
	subjects := w.subjects()
	alone := w.near()
	return compose("Step "+strconv.Itoa(now.Number), now.Text(words(o.figures(p.Notation()).whole(), now, p.Notation())), o, write, func(q pen) []*figure {
		var figs []*figure
		for _, sub := range subjects {
			figs = append(figs, w.draw(q, sub)...)
		}
		if len(figs) > 0 {
			figs[0].says = append(figs[0].says, w.says()...)
			if alone {
				figs[0].say("other fittings are left out")
			}
		}
		return figs
	}), true
}

// draw draws a subject as it is in the step.
func (w *workshop) draw(q pen, s subject) []*figure {
	f := newFigure(q)
	switch s.view {
	case onPiece:
		w.flat(f, s)
	case onHeap:
		return w.heapFigures(q, s)
	case onWrap:
		w.onWrap(f)
	case onOutside, onInside:
		state := w.state()
		state.unmeasured = w.places()
		f.open(w.p, s.view == onOutside, state)
		w.place(f, s.view == onOutside)
		if s.view == onInside {
			w.tabs(f)
		}
		w.slips(f, s.view == onOutside)
	case onGrain:
		f.open(w.p, false, state{turnedIn: absent, edging: absent, liner: absent, fittings: w.none(), contents: w.none()})
		f.grain(f.body, work.GrainAlongHeight)
	case onMeasure:
		w.measured(f)
	case onPress:
		w.press(f)
	case onClosed:
		shut, ok := w.p.Closed()
		if !ok {
			f.open(w.p, false, w.state())
			break
		}
		f.pen.write = f.pen.write.rounded()
		tight, stands := w.p.Tightest(true)
		f.section(w.p, shut, tight, stands)
	}
	return []*figure{f}
}

// says tells what no line can: what takes adhesive all over.
func (w *workshop) says() []string {
	var list []string
	var names [work.SelfSticky][]string // by adhesive
	say := func(list *[]string, s string) {
		if !slices.Contains(*list, s) {
			*list = append(*list, s)
		}
	}
	for _, a := range w.now {
		switch a := a.(type) {
		case work.TurnIn:
			say(&list, "glue on all that is turned in")
		case work.Fix:
			switch {
			case len(a.Areas) > 0 || a.By >= work.SelfSticky:
			case a.What.Kind == work.Magnet:
				say(&names[a.By], "each magnet")
			default:
				say(&names[a.By], a.What.Name)
			}
		}
	}
	for by, names := range names {
		for i, name := range names {
			if i == 0 {
				name = work.Adhesive(by).String() + " all over: " + name
			}
			if i < len(names)-1 {
				name += ","
			}
			list = append(list, name)
		}
	}
	return list
}
