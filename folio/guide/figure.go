package guide

import (
	"slices"

	"boardwrap.example/units"
)

// A pen is what a figure is drawn with: how large things come out on paper.
type pen struct {
	shrink int64 // by how many thousandths the drawing is larger than it is printed
	write  figures
	widest units.Length // of a name beside a figure; 0 for no limit
	keys   *[]letterKey // what letters in the picture stand for
}

// mm returns so many thousandths of a millimetre on paper in the drawing.
func (p pen) mm(thousandths int64) units.Length {
	l, _ := units.Micrometre.Times(thousandths)
	l, _ = l.Scale(p.shrink, 1000, units.Nearest)
	return l
}

// textSize is the size of the text in thousandths of a millimetre on paper:
// capitals of about 2.5 mm, the height that ISO 3098 begins the usual ones with
// (from memory).
const textSize = 3500

// em returns a part of the size of the text, in thousandths.
func (p pen) em(thousandths int64) units.Length {
	l, _ := p.mm(textSize).Scale(thousandths, 1000, units.Nearest)
	return l
}

// A textAnchor is the point of a text that its place is told by.
type textAnchor uint8

const (
	atMiddle textAnchor = iota
	atStart
	atEnd
)

// A text is a text at its place: the anchor on the line that letters stand on.
// Upright ones are read from the right.
type text struct {
	s       string
	at      units.Point
	anchor  textAnchor
	upright bool
	width   units.Length
	of      ref
	covers  units.Rect // its box, of one that is written
}

// box returns the rectangle that the text covers.
func (t *text) box(p pen) units.Rect {
	up := p.em(rises(t.s))
	down := p.em(drop)
	before := t.width.Half(units.Up)
	switch t.anchor {
	case atStart:
		before = 0
	case atEnd:
		before = t.width
	}
	after := t.width - before
	if t.upright {
		return units.Rect{Min: units.Point{X: t.at.X - up, Y: t.at.Y - after}, Max: units.Point{X: t.at.X + down, Y: t.at.Y + before}}
	}
	return units.Rect{Min: units.Point{X: t.at.X - before, Y: t.at.Y - up}, Max: units.Point{X: t.at.X + after, Y: t.at.Y + down}}
}

// A dot is a small mark: a closed arrowhead, a dot or a circle.
type dot struct {
	pts    []units.Point // of an arrowhead
	at     units.Point   // of a dot
	radius units.Length
	open   bool // a circle that is not filled
	box    units.Rect
}

// A field is an area that is hatched: what takes glue.
type field struct {
	rect units.Rect
	back bool // on the side away from the reader
	of   ref
}

// A figure is one drawing of a picture, in lengths of its own.
type figure struct {
	pen      pen
	lines    []line
	dots     []dot
	texts    []text
	fields   []field
	notes    []string // what found no room
	says     []string // what no line can say
	wants    []want
	leaders  []leader // of names beside the figure
	balloons []balloon
	measures bool            // there are dimensions
	times    int64           // how many times larger than true a detail is, else 1
	spare    [2]units.Length // places of a chain between which there is room to spare
	flat     bool            // it is long and low: what is far from the right margin is named below it
	body     units.Rect      // round what is drawn, without dimensions
	swung    units.Rect      // round the arrows of folds, which may reach out of it
	all      units.Rect      // round everything
}

//go:noinline
func newFigure(p pen) *figure {
	return &figure{pen: p, times: 1, lines: make([]line, 0, 32), texts: make([]text, 0, 16), dots: make([]dot, 0, 16)}
}

// with returns a copy of a figure that has no words and marks yet, to be written on with a
// pen.
func (f *figure) with(p pen) *figure {
	g := newFigure(p)
	g.lines = append(make([]line, 0, len(f.lines)+2*len(f.wants)+32), f.lines...)
	g.wants, g.says = slices.Clone(f.wants), slices.Clip(f.says)
	g.body, g.all = f.body, f.all
	return g
}

// line draws a line that is part of what is shown.
func (f *figure) line(k lineKind, of ref, shut bool, pts ...units.Point) {
	if len(pts) < 2 {
		return
	}
	r := boundsOf(pts)
	first := len(f.lines) == 0
	cover(&f.body, r, first)
	cover(&f.all, r, first)
	f.lines = append(f.lines, line{k, of, pts, shut, r})
}

// rect draws a rectangle.
func (f *figure) rect(k lineKind, of ref, r units.Rect) {
	f.line(k, of, true, r.Min, units.Point{X: r.Max.X, Y: r.Min.Y}, r.Max, units.Point{X: r.Min.X, Y: r.Max.Y})
}

// polygon draws an outline.
func (f *figure) polygon(k lineKind, of ref, p units.Polygon) {
	pts := make([]units.Point, 0, p.Len())
	for _, c := range p.Corners() {
		pts = append(pts, c)
	}
	f.line(k, of, true, pts...)
}

// arc draws a quarter of an ellipse from a to b round the corner that its
// tangents meet in, by six chords.
func (f *figure) arc(k lineKind, of ref, a, corner, b units.Point) {
	f.line(k, of, false, quarter(a, corner, b)...)
}

// turn draws the paper round a fold from one layer to another, so far out towards
// the left or towards the right.
func (f *figure) turn(of ref, a, b units.Point, out units.Length, left bool) {
	if left {
		out = -out
	}
	corner := units.Point{X: a.X + out, Y: halfway(a, b).Y}
	f.arc(outline, of, a, units.Point{X: corner.X, Y: a.Y}, corner)
	f.arc(outline, of, corner, units.Point{X: corner.X, Y: b.Y}, b)
}

// aid draws a line that only explains, as dimensions and leaders do.
func (f *figure) aid(pts ...units.Point) {
	r := boundsOf(pts)
	cover(&f.all, r, false)
	f.lines = append(f.lines, line{thin, nothing, pts, false, r})
}

// write puts a text in its place.
func (f *figure) write(t text) {
	if t.width == 0 {
		t.width = f.width(t.s)
	}
	t.covers = t.box(f.pen)
	cover(&f.all, t.covers, false)
	f.texts = append(f.texts, t)
}

// width returns how wide a text is.
func (f *figure) width(s string) units.Length { return textWidth(s, f.pen.mm(textSize)) }

// free reports whether a rectangle touches no line, no text, no hatching and no
// mark.
func (f *figure) free(r units.Rect) bool {
	for i := range f.texts {
		if touches(r, f.texts[i].covers) {
			return false
		}
	}
	for i := range f.fields {
		if touches(r, f.fields[i].rect) {
			return false
		}
	}
	for i := range f.dots {
		if touches(r, f.dots[i].box) {
			return false
		}
	}
	for i := range f.lines {
		if f.lines[i].crosses(r) {
			return false
		}
	}
	return true
}

// part gives another figure what of this one may be in the way in a rectangle, and no more.
func (f *figure) part(r units.Rect, g *figure) {
	g.texts, g.dots, g.lines, g.fields = g.texts[:0], g.dots[:0], g.lines[:0], f.fields
	for i := range f.texts {
		if touches(r, f.texts[i].covers) {
			g.texts = append(g.texts, f.texts[i])
		}
	}
	for i := range f.dots {
		if touches(r, f.dots[i].box) {
			g.dots = append(g.dots, f.dots[i])
		}
	}
	for i := range f.lines {
		if touches(r, f.lines[i].box) {
			g.lines = append(g.lines, f.lines[i])
		}
	}
}

// clear reports whether a leader keeps a distance from every text.
func (f *figure) clear(l leader, pad units.Length) bool {
	near := grown(boundsOf(l[:]), pad)
	for i := range f.texts {
		if touches(near, f.texts[i].covers) && crosses(l[0], l[1], grown(f.texts[i].covers, pad)) {
			return false
		}
	}
	return true
}

// arrow draws a closed arrowhead with its tip at a point, coming from a
// direction: one of −1, 0 and 1 along each axis. It is 15° wide, as ISO 129-1
// draws it (from memory): a length to about a quarter of it.
func (f *figure) arrow(tip units.Point, dx, dy units.Length) {
	long, half := f.pen.mm(arrowLength), f.pen.mm(arrowLength/8)
	foot := units.Point{X: tip.X - dx*long, Y: tip.Y - dy*long}
	pts := []units.Point{tip, {X: foot.X - dy*half, Y: foot.Y + dx*half}, {X: foot.X + dy*half, Y: foot.Y - dx*half}}
	box := boundsOf(pts)
	cover(&f.all, box, false)
	f.dots = append(f.dots, dot{pts: pts, box: box})
}

// arrowLength is in thousandths of a millimetre on paper.
const arrowLength = 2800

// dot draws a dot, or a small circle.
func (f *figure) dot(at units.Point, open bool) {
	r := f.pen.mm(450)
	if open {
		r = f.pen.mm(700)
	}
	f.mark(at, r, open)
}

// mark draws a dot, or a circle, of a radius.
func (f *figure) mark(at units.Point, r units.Length, open bool) {
	f.dots = append(f.dots, dot{at: at, radius: r, open: open, box: grown(units.Rect{Min: at, Max: at}, r)})
}
