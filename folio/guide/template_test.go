package guide_test

import (
	"encoding/xml"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// A tile is a part of a template as it is read back from a page: where on the
// template it lies, and what is drawn, all in units of the drawing.
type tile struct {
	x, y, w, h float64
	paths      []string
	circles    []string
}

// tiles reads the parts of templates from a page. What is drawn must be at full
// size: as many millimetres wide as it has units.
func tilesOf(t *testing.T, html []byte) []tile {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(string(html)))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	var out []tile
	depth, inside := 0, false
	for {
		token, err := d.Token()
		if err == io.EOF {
			return out
		} else if err != nil {
			t.Fatal(err)
		}
		switch e := token.(type) {
		case xml.StartElement:
			a := map[string]string{}
			for _, at := range e.Attr {
				a[at.Name.Local] = at.Value
			}
			switch e.Name.Local {
			case "svg":
				depth++
				var p tile
				box := strings.Fields(a["viewBox"])
				for i, to := range []*float64{&p.x, &p.y, &p.w, &p.h} {
					*to, _ = strconv.ParseFloat(box[i], 64)
				}
				unit := ""
				if depth == 1 {
					unit = "mm"
				}
				if a["width"] != box[2]+unit || a["height"] != box[3]+unit {
					t.Errorf("%s x %s for a box of %s", a["width"], a["height"], a["viewBox"])
				}
				if inside = depth == 2; inside {
					out = append(out, p)
				}
			case "path":
				if inside {
					last := &out[len(out)-1]
					last.paths = append(last.paths, a["d"])
				}
			case "circle":
				last := &out[len(out)-1]
				last.circles = append(last.circles, a["cx"]+" "+a["cy"])
			}
		case xml.EndElement:
			if e.Name.Local == "svg" {
				depth--
				inside = false
			}
		}
	}
}

// number writes a length as drawings do.
func number(l units.Length) string { return strings.TrimSuffix(l.String(), " mm") }

// The slanted lines of corners and the marks of a strip's scores lie where the
// plan has them, at full size, each on a part that shows it.
func TestTemplatesAreTrue(t *testing.T) {
	p := build(t, crewSpec())
	parts := tilesOf(t, guide.Templates(p, guide.PrintOptions{Paper: guide.A4}).AppendHTML(nil))
	shown := func(path string, x, y float64) bool {
		return slices.ContainsFunc(parts, func(p tile) bool {
			return slices.Contains(p.paths, path) && x >= p.x && x <= p.x+p.w && y >= p.y && y <= p.y+p.h
		})
	}
	for piece := range p.Pieces() {
		for c := range piece.CornerCuts() {
			leg := c.Leg().Length()
			if l := number(leg); !shown("M"+l+" 0L0 "+l, leg.Millimetres(), 0) {
				t.Errorf("no corner of %s", leg)
			}
		}
		b, ok := piece.Blank()
		if !ok {
			continue
		}
		for _, l := range b.Lines() {
			if n := number(l.At); !shown(fmt.Sprintf("M%s 0L%s 22", n, n), l.At.Millimetres(), 8) {
				t.Errorf("%s has no mark at %s", piece.Name(), l.At)
			}
		}
		if end := number(piece.Size().W); !shown("M0 22L0 0L"+end+" 0L"+end+" 22", piece.Size().W.Millimetres(), 8) {
			t.Errorf("%s does not end at %s", piece.Name(), piece.Size().W)
		}
	}
}

// Of the marks of a strip each has its place written right after it, as the plan writes
// lengths, and before the next one; one without lies so near to one that has it that there is no room for another. A
// corner's template shows the board's corner as far from the edges as it lies on the wrap.
func TestMarksAreLettered(t *testing.T) {
	crowded := folio.Spec{Cover: units.MustParseSize("160 x 210 mm"), Spine: rule.Spine{Width: 40 * mm}, Rulers: rule.Rulers{Main: units.HalfMillimetres}, Stocks: []stock.Stock{{Name: "card", Caliper: mm / 4}}}
	crowded.Fittings = []folio.Fitting{{Name: "leaves", Stock: "card", Kind: folio.Folded{Kind: pocket.Concertina{Content: pocket.Content{Size: units.MustParseSize("60 x 90 mm")}, Leaves: 5, Fold: 3 * mm}}}}
	low := crewSpec() // its sheet turns in less at the head and the tail than at the sides
	low.Cover, low.Covering.Sheets[0].Size = units.MustParseSize("7 3/4 x 8 in"), units.MustParseSize("24 x 9 1/4 in")
	for _, c := range []struct {
		spec folio.Spec
		unit string
	}{{crewSpec(), "in"}, {crowded, "mm"}, {low, "in"}} {
		marksAreLettered(t, build(t, c.spec), c.unit)
	}
	// Turned by half a circle a corner goes where the one across lies, its edges as they
	// were; the other two have it turned over.
	for spec, want := range map[*folio.Spec]string{
		&low:     "as it is for the head left and tail right corners of the wrap, turned over for the head right and tail left corners of the wrap.",
		&crowded: "All four corners of the wrap.",
	} {
		if text := squeezed(guide.Templates(build(t, *spec), guide.PrintOptions{}).AppendPlain(nil)); !strings.Contains(text, squeezed([]byte(want))) {
			t.Errorf("it is not said of the corners: %s", want)
		}
	}
}

// The word in a corner's template.
var boardText = regexp.MustCompile(`x="([\d.]+)" y="([\d.]+)">board</text>`)

func marksAreLettered(t *testing.T, p *folio.Plan, unit string) {
	t.Helper()
	html := string(guide.Templates(p, guide.PrintOptions{Paper: guide.A4}).AppendHTML(nil))
	upright := regexp.MustCompile(`translate\((\S+) (\S+)\)rotate\(-90\)">([^<]*)</text>`)
	level := regexp.MustCompile(`<path d="M(\S+) 0L(\S+) 22"`)
	strips := 0
	for _, part := range strings.Split(html, "<figure class=\"tile\">")[1:] {
		var marks []float64
		for _, m := range level.FindAllStringSubmatch(part, -1) {
			at, err := strconv.ParseFloat(m[1], 64)
			if err != nil || m[1] != m[2] {
				t.Errorf("a mark from %s to %s", m[1], m[2])
			}
			marks = append(marks, at)
		}
		slices.Sort(marks)
		marks = slices.Compact(marks)
		said := map[float64]bool{}
		for _, m := range upright.FindAllStringSubmatch(part, -1) {
			x, _ := strconv.ParseFloat(m[1], 64)
			y, _ := strconv.ParseFloat(m[2], 64)
			l, err := units.Parse(strings.ReplaceAll(m[3], "\u00a0", " "))
			if at := l.Millimetres(); err != nil || !strings.HasSuffix(m[3], unit) || !slices.ContainsFunc(marks, func(k float64) bool { return near(k, at) }) || x <= at || x >= at+4 || y <= 0 || y >= 22 {
				t.Errorf("%q stands at %g, %g beside marks at %v", m[3], x, y, marks)
			}
			said[x] = true
		}
		last := -4.0
		for _, k := range marks {
			if has := said[k+3]; has != (k-last >= 4) {
				t.Errorf("the mark at %g, after one at %g with its place, has it: %t; %v", k, last, has, said)
			} else if has {
				last = k
			}
		}
		strips += len(said)
	}
	on, _ := p.OnWrap(boards.LeftCover)
	if corner := "L" + number(on.Min.X) + " " + number(on.Min.Y) + "L"; !strings.Contains(html, corner) {
		t.Errorf("no board's corner at %v", on.Min)
	}
	if m := boardText.FindStringSubmatch(html); m == nil {
		t.Error("the board has no name")
	} else { // it stands in the board, near its corner
		x, _ := strconv.ParseFloat(m[1], 64)
		y, _ := strconv.ParseFloat(m[2], 64)
		if x -= on.Min.X.Millimetres(); x < 1 || x > 4 {
			t.Errorf("the board's name begins %g mm from its left edge", x)
		}
		if y -= on.Min.Y.Millimetres(); y < 4 || y > 7 { // letters 3 mm high stand on it
			t.Errorf("the board's name stands %g mm under its edge", y)
		}
	}
	if strips < 4 {
		t.Errorf("only %d places are written", strips)
	}
}

// What does not go on one page comes in parts that lap each other by 10 mm, with
// two crosses in common; together they show all of it.
func TestPartsLap(t *testing.T) {
	s := crewSpec()
	s.Cover, s.Spine.Width, s.Covering.Sheets, s.Liner.Sheets = units.MustParseSize("12 x 14 in"), 3*inch/2, nil, nil
	s.Fittings = []folio.Fitting{{Name: "cards", Panel: boards.RightCover, Place: place.Place{Along: place.Head}, Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.Content{Name: "chart", Size: units.MustParseSize("9 x 11 in")}}}},
		{Name: "bookmark", Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.Content{Name: "bookmark", Size: units.MustParseSize("2 x 12 1/2 in")}}}}} // narrow and high
	p := build(t, s)
	for _, paper := range []guide.PaperSize{guide.AnyPaper, guide.A4, guide.Letter} {
		parts := tilesOf(t, guide.Templates(p, guide.PrintOptions{Paper: paper}).AppendHTML(nil))
		beside := 0
		for i, a := range parts {
			for _, b := range parts[i+1:] {
				if len(a.circles) == 0 || len(b.circles) == 0 || a.w != b.w || a.h != b.h {
					continue
				}
				if dx, dy := b.x-a.x, b.y-a.y; dy == 0 && near(dx, a.w-10) || dx == 0 && near(dy, a.h-10) {
					beside++
					common := 0
					for _, c := range a.circles {
						if slices.Contains(b.circles, c) {
							common++
						}
					}
					if common != 2 {
						t.Errorf("%v: parts at (%g, %g) and (%g, %g) have %d crosses in common", paper, a.x, a.y, b.x, b.y, common)
					}
				}
			}
			size := paper.Size()
			if a.w > size.W.Millimetres()-30 || a.h+24 > size.H.Millimetres()-30 {
				t.Errorf("%v: a part of %g x %g", paper, a.w, a.h)
			}
		}
		if beside < 4 {
			t.Errorf("%v: only %d parts lap", paper, beside)
		}
		for piece := range p.Pieces() {
			b, ok := piece.Blank()
			if !ok {
				continue
			}
			outline, _ := b.Outline()
			for _, c := range outline.Corners() {
				if !slices.ContainsFunc(parts, func(p tile) bool {
					return c.X.Millimetres() >= p.x && c.X.Millimetres() <= p.x+p.w && c.Y.Millimetres() >= p.y && c.Y.Millimetres() <= p.y+p.h
				}) {
					t.Errorf("%v: no part shows the corner %v", paper, c)
				}
			}
		}
	}
}

func near(a, b float64) bool { return a-b < 1e-6 && b-a < 1e-6 }

// A folio without mitres and folds has nothing to trace, and says so.
func TestNothingToTrace(t *testing.T) {
	if text := string(guide.Templates(nil, guide.PrintOptions{}).AppendPlain(nil)); !strings.Contains(text, "no plan") {
		t.Error(text)
	}
	if text := string(guide.Templates(&folio.Plan{}, guide.PrintOptions{}).AppendPlain(nil)); !strings.Contains(text, "no plan") {
		t.Error(text)
	}
}

// What is cut in any other shape than a rectangle, or has a round opening, is drawn whole:
// every corner of its outline and of what is cut out, in order.
func TestOutlinesAreDrawn(t *testing.T) {
	s := crewSpec()
	s.Cover.H, s.Liner.Sheets = 12*inch, nil
	s.Spine.Width, s.Fittings = 3*inch/2, []folio.Fitting{
		{Name: "cards", Panel: boards.RightCover, Kind: folio.Folded{Kind: pocket.GussetRun{Content: pocket.IDCard(), Pockets: 3}}},
		{Name: "corners", Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.Corners{Content: pocket.Content{Name: "chart", Size: units.MustParseSize("4 x 6 in")}}}},
		{Name: "strip", Panel: boards.RightCover, Place: place.Place{Along: place.Tail}, Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pocket.IDCard(), Notch: pocket.ThumbNotch{Width: inch, Depth: inch / 4}}}},
	}
	p := build(t, s)
	parts := tilesOf(t, guide.Templates(p, guide.PrintOptions{Paper: guide.A4}).AppendHTML(nil))
	shaped, open := 0, 0
	for piece := range p.Pieces() {
		b, ok := piece.Blank()
		outline, openings := b.Outline()
		if _, plain := piece.Outline().Rect(); !ok || plain && len(openings) == 0 {
			continue
		}
		shaped++
		open += len(openings)
		for _, shape := range append(openings, outline) {
			want := ""
			for i, c := range shape.Corners() {
				want += string("ML"[min(i, 1)]) + number(c.X) + " " + number(c.Y)
			}
			if !slices.ContainsFunc(parts, func(p tile) bool { return slices.Contains(p.paths, want+"Z") }) {
				t.Errorf("%s has no outline %s", piece.Name(), want)
			}
		}
	}
	if shaped < 3 || open == 0 {
		t.Errorf("only %d pieces of another shape, %d openings", shaped, open)
	}
}
