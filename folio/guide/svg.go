package guide

import (
	"strconv"
	"unicode/utf8"

	"boardwrap.example/internal/quote"
	"boardwrap.example/units"
)

// AppendSVG appends the picture as an SVG document by itself, with its width and
// height in millimetres and a viewBox in the same numbers.
func (p Picture) AppendSVG(dst []byte) []byte {
	dst = append(dst, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"...)
	return p.element(dst, "", p.size, false)
}

// AppendEmbedded appends the picture as an element of an HTML page, as large as
// Printed says. All names in it begin with id, so that many go on one page; of
// the id letters, digits, - and _ are kept.
func (p Picture) AppendEmbedded(dst []byte, id string) []byte {
	return p.element(dst, id, p.printed, true)
}

// An encoder writes a picture.
type encoder struct {
	dst []byte
	id  string
	pen pen
	by  units.Point // by how much what is written is moved
}

func (p Picture) element(dst []byte, id string, shown units.Size, embedded bool) []byte {
	e := encoder{dst: dst, pen: p.pen}
	e.id = named(id)
	e.say(`<svg xmlns="http://www.w3.org/2000/svg" width="`)
	e.mm(shown.W).say(`mm" height="`).mm(shown.H).say(`mm" viewBox="0 0 `)
	e.mm(p.size.W).say(" ").mm(p.size.H).say(`" role="img" aria-labelledby="`)
	e.say(e.id, `title" aria-describedby="`, e.id, `desc" fill="none" stroke="currentColor" font-family="`, family, `" font-size="`)
	e.mm(p.pen.mm(textSize)).say("\">\n<title id=\"", e.id, `title">`).escaped(p.title)
	e.say("</title>\n<desc id=\"", e.id, `desc">`).escaped(p.description).say("</desc>\n")
	if !embedded {
		e.say("<style>:root{color:#000;background:#fff}@media screen and (prefers-color-scheme:dark){:root{color:#fff;background:#000}}</style>\n")
	}
	e.patterns(&p)
	for i := range p.figures {
		e.by = p.figures[i].by
		e.figure(p.figures[i].figure)
	}
	e.by = units.Point{}
	e.legend(&p)
	e.texts(&p)
	e.say("</svg>\n")
	return e.dst
}

// named keeps of an id what a name may hold, and sets what follows off.
func named(id string) string {
	if id == "" {
		return ""
	}
	buf := make([]byte, 0, len(id)+1)
	for i := range len(id) {
		switch c := id[i]; {
		case c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z', c >= '0' && c <= '9', c == '-', c == '_':
			buf = append(buf, c)
		}
	}
	return string(append(buf, '-'))
}

//go:noinline
func (e *encoder) say(list ...string) *encoder {
	for _, s := range list {
		e.dst = append(e.dst, s...)
	}
	return e
}

func (e *encoder) number(n int) *encoder {
	e.dst = strconv.AppendInt(e.dst, int64(n), 10)
	return e
}

// mm writes a length in millimetres, exactly.
func (e *encoder) mm(l units.Length) *encoder {
	n := l.Nanometres()
	if n < 0 {
		e.dst = append(e.dst, '-')
		n = -n
	}
	e.dst = strconv.AppendInt(e.dst, n/1_000_000, 10)
	rest := n % 1_000_000
	if rest == 0 {
		return e
	}
	e.dst = append(e.dst, '.')
	for unit := int64(100_000); rest > 0; unit /= 10 {
		e.dst = append(e.dst, byte('0'+rest/unit))
		rest %= unit
	}
	return e
}

// x and y write a coordinate of the figure at hand.
func (e *encoder) x(l units.Length) *encoder { return e.mm(l + e.by.X) }
func (e *encoder) y(l units.Length) *encoder { return e.mm(l + e.by.Y) }

func (e *encoder) point(p units.Point) *encoder { return e.x(p.X).say(" ").y(p.Y) }

// escaped writes foreign text as it is shown: what XML cannot hold becomes U+FFFD.
func (e *encoder) escaped(s string) *encoder {
	for _, r := range s {
		switch r = quote.Shown(r); r {
		case '&':
			e.say("&amp;")
		case '<':
			e.say("&lt;")
		case '>':
			e.say("&gt;")
		case '"':
			e.say("&quot;")
		default:
			e.dst = utf8.AppendRune(e.dst, r)
		}
	}
	return e
}

// patterns defines the hatchings that are used: strokes rising to the right for
// what takes adhesive on the side that is seen, falling ones behind.
func (e *encoder) patterns(p *Picture) {
	_, face, back := p.kinds()
	if !face && !back {
		return
	}
	size := e.pen.mm(1800)
	e.say("<defs>")
	for i, there := range [...]bool{face, back} {
		if !there {
			continue
		}
		e.say(`<pattern id="`, e.id, hatching(i == 1), `" patternUnits="userSpaceOnUse" width="`).mm(size).say(`" height="`).mm(size)
		if i == 0 {
			e.say(`"><path stroke-width="`).mm(e.pen.mm(150)).say(`" d="M0 `).mm(size).say("L").mm(size).say(` 0`)
		} else {
			e.say(`"><path stroke-width="`).mm(e.pen.mm(150)).say(`" d="M0 0L`).mm(size).say(" ").mm(size)
		}
		e.say(`"/></pattern>`)
	}
	e.say("</defs>\n")
}

func hatching(back bool) string {
	if back {
		return "behind"
	}
	return "adhesive"
}

// figure writes the hatchings, the lines and the marks of a figure; lines that
// belong together go in one group.
func (e *encoder) figure(f *figure) {
	e.say("<g>\n")
	for i := range f.fields {
		e.begin(f.fields[i].of)
		e.field(f.fields[i].back, f.fields[i].rect)
		e.end(f.fields[i].of)
	}
	for i := 0; i < len(f.lines); {
		of := f.lines[i].of
		e.begin(of)
		for i < len(f.lines) && f.lines[i].of == of {
			k := f.lines[i].kind
			e.open(k)
			for ; i < len(f.lines) && f.lines[i].of == of && f.lines[i].kind == k; i++ {
				e.way(f.lines[i].pts, f.lines[i].shut)
			}
			e.say("\"/>\n")
		}
		e.end(of)
	}
	e.marks(f.dots)
	e.say("</g>\n")
}

// begin opens the group of what belongs to something.
func (e *encoder) begin(of ref) {
	if of == nothing {
		return
	}
	e.say("<g")
	for _, a := range [...]struct {
		name string
		n    int
		say  bool
	}{{"piece", of.piece, of.piece >= 0}, {"copy", of.copy, of.copy > 0}, {"panel", of.panel, of.panel >= 0}, {"fitting", of.fitting, of.fitting >= 0}} {
		if a.say {
			e.say(" data-", a.name, `="`).number(a.n).say(`"`)
		}
	}
	e.say(">")
}

func (e *encoder) end(of ref) {
	if of != nothing {
		e.say("</g>\n")
	}
}

// open begins a path of a kind of line, up to its data.
func (e *encoder) open(k lineKind) {
	s := &styles[k]
	e.say(`<path data-line="`, s.name, `" stroke-width="`).mm(e.pen.mm(s.width))
	if len(s.dashes) > 0 {
		e.say(`" stroke-dasharray="`)
		for i, d := range s.dashes {
			if i > 0 {
				e.say(" ")
			}
			e.mm(e.pen.mm(d))
		}
	}
	e.say(`" d="`)
}

// way writes a line as part of a path.
func (e *encoder) way(pts []units.Point, shut bool) {
	for i, p := range pts {
		switch {
		case i == 0:
			e.say("M").point(p)
		case p.X == pts[i-1].X:
			e.say("V").y(p.Y)
		case p.Y == pts[i-1].Y:
			e.say("H").x(p.X)
		default:
			e.say("L").point(p)
		}
	}
	if shut {
		e.say("Z")
	}
}

func (e *encoder) field(back bool, r units.Rect) {
	e.say(`<rect data-adhesive="`, hatching(back), `" x="`).x(r.Min.X).say(`" y="`).y(r.Min.Y).say(`" width="`).mm(r.Max.X - r.Min.X)
	e.say(`" height="`).mm(r.Max.Y-r.Min.Y).say(`" stroke="none" fill="url(#`, e.id, hatching(back), ")\"/>\n")
}

// marks writes arrowheads, dots and circles.
func (e *encoder) marks(dots []dot) {
	if len(dots) == 0 {
		return
	}
	e.say(`<path data-line="mark" fill="currentColor" stroke="none" d="`)
	for i := range dots {
		if d := &dots[i]; len(d.pts) > 0 {
			e.way(d.pts, true)
		}
	}
	e.say("\"/>\n")
	for i := range dots {
		d := &dots[i]
		if d.radius == 0 {
			continue
		}
		e.say(`<circle data-line="mark" cx="`).x(d.at.X).say(`" cy="`).y(d.at.Y).say(`" r="`).mm(d.radius)
		if d.open {
			e.say(`" stroke-width="`).mm(e.pen.mm(styles[thin].width)).say("\"/>\n")
		} else {
			e.say("\" fill=\"currentColor\" stroke=\"none\"/>\n")
		}
	}
}

// legend writes the samples of lines.
func (e *encoder) legend(p *Picture) {
	if len(p.keys) == 0 {
		return
	}
	e.say("<g data-legend=\"\">\n")
	for i := range p.keys {
		k := &p.keys[i]
		if k.field {
			e.field(k.back, k.at)
			continue
		}
		e.open(k.kind)
		e.way([]units.Point{k.at.Min, k.at.Max}, false)
		e.say("\"/>\n")
	}
	e.say("</g>\n")
}

// texts writes all texts, last, so that nothing is drawn over them.
func (e *encoder) texts(p *Picture) {
	e.say("<g fill=\"currentColor\" stroke=\"none\" text-anchor=\"middle\">\n")
	for i := range p.figures {
		e.by = p.figures[i].by
		for k := range p.figures[i].texts {
			e.text(&p.figures[i].texts[k])
		}
	}
	e.by = units.Point{}
	for i := range p.texts {
		e.text(&p.texts[i])
	}
	e.say("</g>\n")
}

func (e *encoder) text(t *text) {
	e.say(`<text`)
	if t.of.piece >= 0 {
		e.say(` data-piece="`).number(t.of.piece).say(`"`)
	}
	if t.of.fitting >= 0 {
		e.say(` data-fitting="`).number(t.of.fitting).say(`"`)
	}
	if t.upright {
		e.say(` transform="translate(`).point(t.at).say(`)rotate(-90)"`)
	} else {
		e.say(` x="`).x(t.at.X).say(`" y="`).y(t.at.Y).say(`"`)
	}
	switch t.anchor {
	case atStart:
		e.say(` text-anchor="start"`)
	case atEnd:
		e.say(` text-anchor="end"`)
	}
	e.say(` textLength="`).mm(t.width).say(`" lengthAdjust="spacingAndGlyphs">`).escaped(t.s).say("</text>\n")
}
