package guide

import (
	"boardwrap.example/folio"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// Options say how pictures are drawn. The zero Options draw at true scale, with
// lengths in the notation of the plan.
type Options struct {
	// Format is how lengths are written: on one ruler, or on two. The zero Format
	// is the plan's notation, exactly. The units are said in the legend and left
	// out at the figures, whatever Format.Bare says.
	Format units.Format
	// Fit is the room on paper, or on a screen, that the picture is shrunk to go
	// into; words and lines are then drawn so much larger, so that they come
	// out as they should. What goes in without is not shrunk. A side of 0 sets
	// no limit. A picture with more words than room comes out larger, so that it
	// can be read: Printed says how large it is. For a name beside a drawing that is
	// longer than a third of its width a letter stands there, and the legend has the name.
	Fit units.Size
}

// figures returns how lengths are written for a plan of a notation.
func (o Options) figures(n units.Notation) figures {
	f := o.Format
	if f == (units.Format{}) {
		f.Ruler = n.Exact()
	}
	f.Bare = true
	return figures{f}
}

// made returns how lengths are written in pictures of a plan as far as it is made, and
// in the words of the work on it. What a cover as measured has more than its boards is
// told no finer than hands lay by: in 64ths of an inch or half millimetres, or on
// the plan's own rulers where they are finer.
func (o Options) made(p *folio.Plan) Options {
	n := p.Notation()
	if _, ok := p.Measured(); !ok || o.Format.Ruler != 0 && o.Format.Ruler != n.Exact() || n == units.InchDecimal {
		return o
	}
	o.Format.Ruler = units.SixtyFourths
	if n == units.MetricDecimal {
		o.Format.Ruler = units.HalfMillimetres
	}
	own := p.Spec().Rulers
	for _, r := range [...]units.Ruler{own.Main, own.Board, own.Gap, own.Wrap, own.Liner, own.Fitting} {
		if r.Step() < o.Format.Ruler.Step() {
			o.Format.Ruler = r
		}
	}
	return o
}

// laid is made for the steps that lay things on the cover, or show it.
func (o Options) laid(p *folio.Plan, s work.Step) Options {
	switch s.Task {
	case work.TaskPrepare, work.TaskTurnIn, work.TaskMark, work.TaskLay, work.TaskFix, work.TaskFill:
		return o.made(p)
	}
	return o
}

// figures writes the figures of dimensions.
type figures struct{ bare units.Format }

// fine is the ruler for inches that have no exact text: thicknesses and what is
// made up of them.
var fine, _ = units.NewRuler(units.Thou/10, units.InchDecimal)

// text returns a length as it is written at a dimension. One that has no exact
// text in inches is rounded to the ten-thousandth, and marked as that.
func (f figures) text(l units.Length) string { return f.onFine(l).bare.Text(l) }

// onFine returns the figures on the ruler on which a length is written.
func (f figures) onFine(l units.Length) figures {
	n := f.bare.Ruler.Notation()
	if f.bare.Ruler == n.Exact() && n != units.MetricDecimal && n.Text(l)[0] == '~' {
		f.bare.Ruler = fine
	}
	return f
}

// hundredths returns the ruler that calipers are measured on.
func hundredths() units.Ruler {
	r, _ := units.NewRuler(units.Millimetre/100, units.MetricDecimal)
	return r
}

// rounded writes lengths that are no graduations of a ruler, as heights and what
// something opens to, in millimetres to the hundredth.
func (f figures) rounded() figures {
	if f.bare.Ruler == units.MetricDecimal.Exact() {
		f.bare.Ruler = hundredths()
	}
	return f
}

// whole returns the format with its units.
func (f figures) whole() units.Format {
	whole := f.bare
	whole.Bare = false
	return whole
}

// words returns the format in which the words of a step tell its lengths: exactly,
// as its picture does, whatever ruler they were put on; only what it expects to
// measure or to have left is told on the step's own ruler. A ruler that was asked
// for stays.
func words(f units.Format, s work.Step, n units.Notation) units.Format {
	switch {
	case f.Ruler != 0 && f.Ruler != n.Exact():
	case s.Task == work.TaskMeasure, s.Task == work.TaskCheck:
		f.Ruler = 0
	case n == units.MetricDecimal:
		f.Ruler = hundredths()
	default:
		f.Ruler = n.Exact()
	}
	return f
}

// size returns a size as it is written in a text.
func (f figures) size(s units.Size) string {
	return f.whole().Size(s)
}

// units says in which unit the figures are.
func (f figures) units() string {
	name := func(r units.Ruler) string {
		if r.Notation() == units.MetricDecimal {
			return "mm"
		}
		return "inches"
	}
	text := "lengths in " + name(f.bare.Ruler)
	if f.bare.Second != 0 {
		text += " (" + name(f.bare.Second) + ")"
	}
	return text
}

// drawable reports whether there is a plan with anything in it.
func drawable(p *folio.Plan) bool {
	if p == nil {
		return false
	}
	for range p.Boards() {
		return true
	}
	return false
}
