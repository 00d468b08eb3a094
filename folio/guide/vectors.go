package guide

import (
	"boardwrap.example/units"
)

// Strokes of the drawings that a document makes itself.
const (
	wideLine   = `stroke-width="0.5"`
	narrowLine = `stroke-width="0.18"`
	thinLine   = `stroke-width="0.25"`
	dashedLine = `stroke-width="0.25" stroke-dasharray="3 1.2"`
	chainLine  = `stroke-width="0.25" stroke-dasharray="5 1.2 0.5 1.2"`
)

// vectors writes a drawing at full size: a unit of it is a millimetre on paper.
type vectors struct{ dst []byte }

func (v *vectors) say(parts ...string) *vectors {
	for _, s := range parts {
		v.dst = append(v.dst, s...)
	}
	return v
}

func (v *vectors) mm(list ...units.Length) *vectors {
	for i, l := range list {
		if i > 0 {
			v.dst = append(v.dst, ' ')
		}
		v.dst = appendMillimetres(v.dst, l)
	}
	return v
}

// open begins a drawing of a size with its name for those who cannot see it.
func (v *vectors) open(size units.Size, name string) {
	v.say(`<svg width="`).mm(size.W).say(`mm" height="`).mm(size.H).say(`mm" viewBox="0 0 `).mm(size.W, size.H)
	v.say(`" role="img" aria-label="`)
	p := page{dst: v.dst}
	v.dst = p.text(name).dst
	v.say(`" fill="none" stroke="currentColor" font-family="`, family, `" font-size="3.2">`)
}

func (v *vectors) close() []byte { return v.say("</svg>").dst }

func (v *vectors) rect(r units.Rect, stroke string) {
	v.say(`<rect x="`).mm(r.Min.X).say(`" y="`).mm(r.Min.Y).say(`" width="`).mm(r.Size().W).say(`" height="`).mm(r.Size().H).say(`" `, stroke, `/>`)
}

// line draws a narrow straight line.
func (v *vectors) line(a, b units.Point) {
	v.say(`<path d="M`).mm(a.X, a.Y).say("L").mm(b.X, b.Y).say(`" `, narrowLine, `/>`)
}

// way draws lines from point to point, back to the first if shut.
func (v *vectors) way(points []units.Point, shut bool, stroke string) {
	v.say(`<path d="`)
	for i, c := range points {
		if i == 0 {
			v.say("M")
		} else {
			v.say("L")
		}
		v.mm(c.X, c.Y)
	}
	if shut {
		v.say("Z")
	}
	v.say(`" `, stroke, `/>`)
}

// text writes a text; the anchor is start, middle or end.
func (v *vectors) text(at units.Point, anchor, text string) {
	v.say(`<text stroke="none" fill="currentColor" text-anchor="`, anchor, `" x="`).mm(at.X).say(`" y="`).mm(at.Y).say(`">`)
	p := page{dst: v.dst}
	v.dst = p.text(text).dst
	v.say("</text>")
}

// upright writes a text that is read from the right.
func (v *vectors) upright(at units.Point, text string) {
	v.say(`<text stroke="none" fill="currentColor" transform="translate(`).mm(at.X, at.Y).say(`)rotate(-90)">`)
	p := page{dst: v.dst}
	v.dst = p.text(text).dst
	v.say("</text>")
}

// across draws a level dimension from one x to another at a height, with lines
// from where it is measured, and its text above it, or beside it where it is
// narrow.
func (v *vectors) across(x0, x1, y, from units.Length, text string) {
	const beyond = units.Millimetre
	if from != y {
		reach := y + beyond
		if from > y {
			reach = y - beyond
		}
		v.line(units.Point{X: x0, Y: from}, units.Point{X: x0, Y: reach})
		v.line(units.Point{X: x1, Y: from}, units.Point{X: x1, Y: reach})
	}
	v.line(units.Point{X: x0, Y: y}, units.Point{X: x1, Y: y})
	v.slash(units.Point{X: x0, Y: y})
	v.slash(units.Point{X: x1, Y: y})
	v.text(units.Point{X: (x0 + x1).Half(units.Nearest), Y: y - beyond}, "middle", text)
}

// down draws an upright dimension at an x.
func (v *vectors) down(y0, y1, x, from units.Length, text string) {
	const beyond = units.Millimetre
	if from != x {
		reach := x + beyond
		if from > x {
			reach = x - beyond
		}
		v.line(units.Point{X: from, Y: y0}, units.Point{X: reach, Y: y0})
		v.line(units.Point{X: from, Y: y1}, units.Point{X: reach, Y: y1})
	}
	v.line(units.Point{X: x, Y: y0}, units.Point{X: x, Y: y1})
	v.slash(units.Point{X: x, Y: y0})
	v.slash(units.Point{X: x, Y: y1})
	v.text(units.Point{X: x + beyond, Y: (y0 + y1).Half(units.Nearest) + beyond}, "start", text)
}

// slash ends a dimension.
func (v *vectors) slash(p units.Point) {
	const d = 7 * units.Millimetre / 10
	v.line(units.Point{X: p.X - d, Y: p.Y + d}, units.Point{X: p.X + d, Y: p.Y - d})
}
