package guide_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"
)

// A point is a place on a drawing in nanometres.
type point struct{ x, y int64 }

// A box is a rectangle in nanometres.
type box struct{ x0, y0, x1, y1 int64 }

func (b box) meets(c box) bool {
	return b.x0 < c.x1 && c.x0 < b.x1 && b.y0 < c.y1 && c.y0 < b.y1
}

// A readLine is one straight way of a path, with what it says of itself and of
// the groups round it.
type readLine struct {
	kind   string // data-line
	of     map[string]string
	legend bool
	pts    []point // closed ones end where they begin
}

type readText struct {
	s      string
	box    box
	of     map[string]string
	height int64
}

type readCircle struct {
	middle point
	radius int64
}

type readField struct {
	box    box
	of     map[string]string
	behind bool
	legend bool
}

// A reading is what a reader who knows nothing but SVG makes of a picture.
type reading struct {
	width, height string // of the document
	view          box
	title, desc   string
	ids           []string
	lines         []readLine
	texts         []readText
	circles       []readCircle
	fields        []readField
}

// allowed are the elements that the pictures may use: basic shapes, texts,
// groups and patterns of SVG 1.1 and 2, which browsers and printers draw.
var allowed = map[string]string{
	"svg": "xmlns width height viewBox role aria-labelledby aria-describedby fill stroke font-family font-size", "title": "id", "desc": "id", "style": "",
	"defs": "", "pattern": "id patternUnits width height", "g": "data-piece data-copy data-panel data-fitting data-legend fill stroke text-anchor",
	"path":   "data-line stroke-width stroke-dasharray d fill stroke",
	"circle": "data-line cx cy r stroke-width fill stroke",
	"rect":   "data-adhesive x y width height stroke fill",
	"text":   "x y transform text-anchor textLength lengthAdjust data-piece data-fitting",
}

// A reader reads a picture. It shares nothing with what drew it.
type reader struct {
	reading
	open  []element
	chars strings.Builder
	size  int64 // of the text
}

// An element is one that is open, with what it says of itself.
type element struct {
	name   string
	attr   map[string]string
	of     map[string]string // data attributes of it and of what it is in
	at     point
	turned bool
}

func read(svg []byte) (*reading, error) {
	r := &reader{}
	d := xml.NewDecoder(bytes.NewReader(svg))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return &r.reading, nil
		}
		if err == nil {
			switch token := token.(type) {
			case xml.CharData:
				r.chars.Write(token)
			case xml.StartElement:
				err = r.begin(token)
			case xml.EndElement:
				r.end()
			}
		}
		if err != nil {
			return nil, err
		}
	}
}

// begin takes an element in: one of those that are allowed, with attributes that
// are, and no reference to anywhere else.
func (r *reader) begin(token xml.StartElement) error {
	r.chars.Reset()
	e := element{name: token.Name.Local, attr: map[string]string{}, of: map[string]string{}}
	names, ok := allowed[e.name]
	if !ok {
		return fmt.Errorf("element %s", e.name)
	}
	inPattern := false
	if n := len(r.open); n > 0 {
		inPattern = r.open[n-1].name == "pattern"
		for k, v := range r.open[n-1].of {
			e.of[k] = v
		}
	}
	for _, a := range token.Attr {
		name := a.Name.Local
		if !strings.Contains(" "+names+" ", " "+name+" ") {
			return fmt.Errorf("attribute %s of %s", name, e.name)
		}
		if strings.Contains(a.Value, "://") && a.Value != "http://www.w3.org/2000/svg" || strings.Contains(a.Value, "javascript") {
			return fmt.Errorf("reference %s", a.Value)
		}
		e.attr[name] = a.Value
		if name == "id" {
			r.ids = append(r.ids, a.Value)
		}
		if data, ok := strings.CutPrefix(name, "data-"); ok {
			e.of[data] = a.Value
		}
	}
	var err error
	if !inPattern {
		err = r.shape(&e)
	}
	r.open = append(r.open, e)
	return err
}

// shape takes in what an element draws.
func (r *reader) shape(e *element) error {
	attr := e.attr
	_, legend := e.of["legend"]
	switch e.name {
	case "svg":
		r.width, r.height = attr["width"], attr["height"]
		f := strings.Fields(attr["viewBox"])
		if len(f) != 4 {
			return errors.New("no viewBox")
		}
		r.view = box{nm(f[0]), nm(f[1]), nm(f[2]), nm(f[3])}
		r.size = nm(attr["font-size"])
	case "path":
		ways, err := parseWay(attr["d"])
		if err != nil {
			return err
		}
		for _, pts := range ways {
			r.lines = append(r.lines, readLine{attr["data-line"], e.of, legend, pts})
		}
	case "circle":
		r.circles = append(r.circles, readCircle{point{nm(attr["cx"]), nm(attr["cy"])}, nm(attr["r"])})
	case "rect":
		x, y := nm(attr["x"]), nm(attr["y"])
		r.fields = append(r.fields, readField{box{x, y, x + nm(attr["width"]), y + nm(attr["height"])}, e.of, attr["data-adhesive"] == "behind", legend})
	case "text":
		e.at = point{nm(attr["x"]), nm(attr["y"])}
		if t := attr["transform"]; t != "" {
			rest, ok := strings.CutPrefix(t, "translate(")
			at, rest, _ := strings.Cut(rest, ")")
			f := strings.Fields(at)
			if !ok || len(f) != 2 || rest != "rotate(-90)" {
				return fmt.Errorf("transform %s", t)
			}
			e.at, e.turned = point{nm(f[0]), nm(f[1])}, true
		}
	}
	return nil
}

// end takes in the text of an element.
func (r *reader) end() {
	e := r.open[len(r.open)-1]
	r.open = r.open[:len(r.open)-1]
	s := r.chars.String()
	switch e.name {
	case "title":
		r.title = s
	case "desc":
		r.desc = s
	case "text":
		r.texts = append(r.texts, readText{s, boxOf(s, e.at.x, e.at.y, nm(e.attr["textLength"]), r.size, e.attr["text-anchor"], e.turned), e.of, r.size})
	}
}

// boxOf returns what a text covers: from the font's descenders to its capitals,
// of Helvetica −207 and 718 thousandths of its size; signs with accents reach
// higher.
func boxOf(s string, x, y, length, size int64, anchor string, turned bool) box {
	up, down := size*718/1000, size*207/1000
	if len(s) != utf8.RuneCountInString(s) {
		up = size * 940 / 1000
	}
	from := x
	if turned {
		from = y
	}
	var b box
	switch anchor {
	case "start":
		b = box{0, 0, length, 0}
	case "end":
		b = box{-length, 0, 0, 0}
	default:
		b = box{-length / 2, 0, length / 2, 0}
	}
	if turned { // what ran to the right runs up
		return box{x - up, from - b.x1, x + down, from - b.x0}
	}
	return box{x + b.x0, y - up, x + b.x1, y + down}
}

// nm reads a decimal number of millimetres as nanometres.
func nm(s string) int64 {
	if s == "" {
		return 0
	}
	sign := int64(1)
	if rest, ok := strings.CutPrefix(s, "-"); ok {
		s, sign = rest, -1
	}
	whole, part, _ := strings.Cut(s, ".")
	n, err := strconv.ParseInt(whole+(part + "000000")[:6], 10, 64)
	if err != nil || len(part) > 6 {
		panic("no length: " + s)
	}
	return sign * n
}

// parseWay reads the data of a path of straight lines.
func parseWay(d string) ([][]point, error) {
	var ways [][]point
	at := point{}
	for len(d) > 0 {
		c := d[0]
		n := 1
		for n < len(d) && !strings.ContainsRune("MLHVZ", rune(d[n])) {
			n++
		}
		f := strings.Fields(d[1:n])
		d = d[n:]
		want := map[byte]int{'M': 2, 'L': 2, 'H': 1, 'V': 1, 'Z': 0}
		if k, ok := want[c]; !ok || len(f) != k {
			return nil, fmt.Errorf("%c with %d numbers", c, len(f))
		}
		switch c {
		case 'M', 'L':
			at = point{nm(f[0]), nm(f[1])}
		case 'H':
			at.x = nm(f[0])
		case 'V':
			at.y = nm(f[0])
		case 'Z':
			at = ways[len(ways)-1][0]
		}
		if c == 'M' {
			ways = append(ways, nil)
		}
		ways[len(ways)-1] = append(ways[len(ways)-1], at)
	}
	return ways, nil
}

// crosses reports whether a straight line passes through a box.
func crosses(a, b point, c box) bool {
	// Clipped against each side in turn.
	t0, t1 := 0.0, 1.0
	dx, dy := float64(b.x-a.x), float64(b.y-a.y)
	for _, e := range [...][2]float64{
		{-dx, float64(a.x - c.x0)}, {dx, float64(c.x1 - a.x)}, {-dy, float64(a.y - c.y0)}, {dy, float64(c.y1 - a.y)},
	} {
		switch p, q := e[0], e[1]; {
		case p == 0 && q <= 0:
			return false
		case p < 0:
			t0 = max(t0, q/p)
		case p > 0:
			t1 = min(t1, q/p)
		}
	}
	return t0 < t1 || dx == 0 && dy == 0 && c.meets(box{a.x, a.y, a.x + 1, a.y + 1})
}

// overlaps names a text that overlaps another or something drawn, or lies
// outside of the drawing; empty if none does.
func (r *reading) overlaps() string {
	for i, t := range r.texts {
		if b := t.box; b.x0 < 0 || b.y0 < 0 || b.x1 > r.view.x1 || b.y1 > r.view.y1 {
			return fmt.Sprintf("%q is cut off", t.s)
		}
		for _, u := range r.texts[:i] {
			if t.box.meets(u.box) {
				return fmt.Sprintf("%q overlaps %q", t.s, u.s)
			}
		}
		for _, l := range r.lines {
			for k := 1; k < len(l.pts); k++ {
				if crosses(l.pts[k-1], l.pts[k], t.box) {
					return fmt.Sprintf("%q lies over a line (%s) from %v to %v: %v", t.s, l.kind, l.pts[k-1], l.pts[k], t.box)
				}
			}
		}
		for _, f := range r.fields {
			if f.box.meets(t.box) {
				return fmt.Sprintf("%q lies over hatching", t.s)
			}
		}
		for _, c := range r.circles {
			inside := true
			for _, p := range [...]point{{t.box.x0, t.box.y0}, {t.box.x1, t.box.y0}, {t.box.x0, t.box.y1}, {t.box.x1, t.box.y1}} {
				dx, dy := float64(p.x-c.middle.x), float64(p.y-c.middle.y)
				inside = inside && dx*dx+dy*dy < float64(c.radius)*float64(c.radius)
			}
			round := box{c.middle.x - c.radius, c.middle.y - c.radius, c.middle.x + c.radius, c.middle.y + c.radius}
			if !inside && round.meets(t.box) {
				return fmt.Sprintf("%q touches a circle", t.s)
			}
		}
	}
	return ""
}
