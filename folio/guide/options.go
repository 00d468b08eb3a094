package guide

import (
	"boardwrap.example/folio"
	"boardwrap.example/units"
)

// Options say how pictures are drawn. The zero Options draw at true scale, with
// lengths in the notation of the plan.
type Options struct {
	// Format is how lengths are written. The zero Format is the plan's notation,
	// exactly. The unit is always said in the legend instead.
	Format units.Format
	// Also is a second way to write lengths, in brackets behind the first; the
	// zero Format is none.
	Also units.Format
	// Fit is the room on paper, or on a screen, that the picture is shrunk to go
	// into; words and lines are then drawn so much larger, so that they come
	// out as they should. What goes in without is not shrunk. A side of 0 sets
	// no limit. A picture with more words than room comes out larger, so that it
	// can be read: Printed says how large it is.
	Fit units.Size
}

// format returns the formats of lengths for a notation.
func (o Options) format(n units.Notation) figures {
	f := figures{first: o.Format, second: o.Also}
	if f.first == (units.Format{}) {
		f.first.Ruler = n.Exact()
	}
	f.first.Bare = true
	f.both = o.Also != units.Format{}
	f.second.Bare = true
	return f
}

// figures writes the figures of dimensions.
type figures struct {
	first, second units.Format
	both          bool
}

// text returns a length as it is written at a dimension.
func (f figures) text(l units.Length) string {
	buf := make([]byte, 0, 32)
	buf = f.first.Append(buf, l)
	if f.both {
		buf = append(buf, " ["...)
		buf = append(f.second.Append(buf, l), ']')
	}
	return string(buf)
}

// size returns a size as it is written in a text.
func (f figures) size(s units.Size) string {
	first := f.first
	first.Bare = false
	return first.Size(s)
}

// units says in which unit the figures are.
func (f figures) units() string {
	name := func(r units.Ruler) string {
		if r.Notation() == units.MetricDecimal {
			return "mm"
		}
		return "inches"
	}
	text := "lengths in " + name(f.first.Ruler)
	if f.both {
		text += " [" + name(f.second.Ruler) + "]"
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
