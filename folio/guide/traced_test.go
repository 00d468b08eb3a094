package guide_test

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// Every cross is a cross: two lines of 6 mm through the middle of its circle. A
// template that goes on over several pages fills them.
func TestCrossesAndPages(t *testing.T) {
	s := crewSpec()
	s.Cover, s.Spine.Width, s.Covering.Sheets, s.Liner.Sheets = units.MustParseSize("12 x 14 in"), 3*inch/2, nil, nil
	s.Fittings = []folio.Fitting{{Name: "cards", Panel: boards.RightCover, Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.Content{Name: "chart", Size: units.MustParseSize("9 x 11 in")}}}}}
	p := build(t, s)
	for _, paper := range []guide.PaperSize{guide.A4, guide.Letter} {
		crosses, full := 0, 0
		for _, part := range tilesOf(t, guide.Templates(p, guide.PrintOptions{Paper: paper}).AppendHTML(nil)) {
			for _, c := range part.circles {
				var x, y float64
				if _, err := fmt.Sscanf(c, "%g %g", &x, &y); err != nil {
					t.Fatal(err)
				}
				number := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
				level := "M" + number(x-3) + " " + number(y) + "L" + number(x+3) + " " + number(y)
				upright := "M" + number(x) + " " + number(y-3) + "L" + number(x) + " " + number(y+3)
				if !slices.Contains(part.paths, level) || !slices.Contains(part.paths, upright) {
					t.Errorf("%v: no cross at %s: %q", paper, c, part.paths)
				}
				crosses++
			}
			size := paper.Size()
			if len(part.circles) > 0 && part.w > size.W.Millimetres()-31 && part.h > size.H.Millimetres()-30-24-45 {
				full++
			}
		}
		if crosses < 8 || full < 2 {
			t.Errorf("%v: %d crosses, %d full pages", paper, crosses, full)
		}
	}
}

// Where the margins at the head and at the sides differ, one template serves two
// corners as it is and two turned over: half a turn takes the head left corner to
// the tail right one, a mirror to the two others.
func TestCornersTurnedOver(t *testing.T) {
	p := build(t, folio.Spec{Cover: units.Size{W: 150 * mm, H: 210 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Covering: stock.Stock{Name: "paper", Sheets: []stock.Sheet{{Size: units.Size{W: 700 * mm, H: 236 * mm}}}}})
	text := string(guide.Templates(p, guide.PrintOptions{}).AppendPlain(nil))
	text = strings.Join(strings.Fields(text), " ")
	if want := regexp.MustCompile(`as it is for the head left and (the )?tail right[^.]*turned over for the head right and (the )?tail left`); !want.MatchString(text) {
		t.Errorf("%q does not say %s", text, want)
	}
}

// A word that is too long for a line may be broken after every 24 signs, and no
// shorter one.
func TestLongWords(t *testing.T) {
	s := crewSpec()
	s.Title = strings.Repeat("Eastwater", 9) + " and a shorter one"
	html := string(guide.HandOut(build(t, s), guide.PrintOptions{}).AppendHTML(nil))
	_, title, _ := strings.Cut(html, "<h1>")
	title, _, _ = strings.Cut(title, "</h1>")
	parts := strings.Split(title, "<wbr>")
	for i, part := range parts {
		if i < len(parts)-1 && len(part) != 24 {
			t.Errorf("%q can be broken after %q", title, part)
		}
	}
	if len(parts) != 4 || !strings.HasSuffix(parts[3], " and a shorter one") {
		t.Errorf("%q", parts)
	}
}

// Each letter of a family's drawing stands at a dimension as long as what the
// letter is said to be, by the scale of the drawing; all of it is on the drawing.
func TestLettersMeasure(t *testing.T) {
	for _, cover := range []string{"6 x 8 in", "3 x 12 in"} { // as wide as there is room, as high
		lettersMeasure(t, units.MustParseSize(cover), stock.Stock{})
	}
	// A sheet so low turns in less at the head and the tail than at the sides.
	lettersMeasure(t, units.MustParseSize("7 3/4 x 8 in"), stock.Stock{Sheets: []stock.Sheet{{Size: units.MustParseSize("24 x 9 1/4 in")}}})
}

func lettersMeasure(t *testing.T, size units.Size, covering stock.Stock) {
	t.Helper()
	s := folio.Spec{Title: "Log books", Cover: size, Spine: rule.Spine{Width: inch / 2}, Covering: covering}
	family, err := fit.FamilyOf(t.Context(), s, size)
	if err != nil {
		t.Fatal(err)
	}
	var p *folio.Plan
	for _, r := range family.Rows() {
		p = r.Plan()
	}
	html := string(guide.FamilySheet(family, guide.PrintOptions{}).AppendHTML(nil))
	_, drawing, _ := strings.Cut(html, `<figure class="beside">`)
	drawing, _, _ = strings.Cut(drawing, "</svg>")
	var w, h float64
	if _, box, ok := strings.Cut(drawing, `viewBox="0 0 `); !ok {
		t.Fatal("no drawing")
	} else if _, err := fmt.Sscanf(box, "%f %f", &w, &h); err != nil {
		t.Fatal(err)
	}
	var first [4]float64
	_, rect, _ := strings.Cut(drawing, "<rect ")
	if _, err := fmt.Sscanf(rect, `x="%f" y="%f" width="%f" height="%f"`, &first[0], &first[1], &first[2], &first[3]); err != nil {
		t.Fatal(err)
	}
	scale := first[2] / p.Wrap().Size().W.Millimetres()
	if first[2] > 110.001 || first[3] > 90.001 || first[2] < 109.999 && first[3] < 89.999 || !near(first[3]/first[2], p.Wrap().Size().H.Millimetres()/p.Wrap().Size().W.Millimetres()) {
		t.Errorf("the wrap of %v is drawn %g x %g mm; there is room for 110 x 90", size, first[2], first[3])
	}
	type line struct{ x0, y0, x1, y1 float64 }
	var lines []line
	for _, d := range regexp.MustCompile(`d="M(\S+) (\S+)L(\S+) (\S+)"`).FindAllStringSubmatch(drawing, -1) {
		var v [4]float64
		for i := range v {
			v[i], _ = strconv.ParseFloat(d[i+1], 64)
		}
		lines = append(lines, line{v[0], v[1], v[2], v[3]})
	}
	wrap := p.Wrap().Size()
	var cover, spine, gap, tall units.Length
	for b := range p.Boards() {
		if tall = b.Rect().Size().H; b.Role().Spine() {
			spine = b.Rect().Size().W
		} else {
			cover = b.Rect().Size().W
		}
	}
	for g := range p.Gaps() {
		gap = g.Width()
	}
	want := map[string]units.Length{"A": cover, "B": spine, "C": tall, "D": gap, "E": wrap.W, "F": wrap.H}
	for l := range p.Liner() {
		want["G"], want["H"] = l.Size().W, l.Size().H
	}
	seen := map[string]bool{}
	for _, m := range regexp.MustCompile(`text-anchor="(\w+)" x="(\S+)" y="(\S+)">(\w)</text>`).FindAllStringSubmatch(drawing, -1) {
		x, _ := strconv.ParseFloat(m[2], 64)
		y, _ := strconv.ParseFloat(m[3], 64)
		if x < 0 || y < 3 || x > w || y > h {
			t.Errorf("%s stands at %g, %g of %g x %g", m[4], x, y, w, h)
		}
		long, ok := want[m[4]]
		if !ok {
			continue
		}
		if slices.ContainsFunc(lines, func(l line) bool {
			d := l.x1 - l.x0
			on := l.y0 == l.y1 && near(l.y0, y+1) && near((l.x0+l.x1)/2, x)
			if m[1] == "start" { // beside an upright one
				d = l.y1 - l.y0
				on = l.x0 == l.x1 && near(l.x0, x-1) && near((l.y0+l.y1)/2, y-1)
			}
			off := d - long.Millimetres()*scale
			return on && off < 0.001 && off > -0.001
		}) {
			seen[m[4]] = true
		}
	}
	if len(seen) != len(want) || len(want) != 8 {
		t.Errorf("only %v stand at what they measure", seen)
	}
	// A line square to a dimension begins at an edge of what is drawn.
	edges := map[bool][]float64{}
	for _, r := range regexp.MustCompile(`<rect x="(\S+)" y="(\S+)" width="(\S+)" height="(\S+)"`).FindAllStringSubmatch(drawing, -1) {
		var v [4]float64
		for i := range v {
			v[i], _ = strconv.ParseFloat(r[i+1], 64)
		}
		edges[false], edges[true] = append(edges[false], v[0], v[0]+v[2]), append(edges[true], v[1], v[1]+v[3])
	}
	for _, l := range lines {
		for _, upright := range []bool{false, true} {
			from, to, at, over := l.x0, l.x1, l.y0, l.y1
			if upright {
				from, to, at, over = l.y0, l.y1, l.x0, l.x1
			}
			dimension := slices.ContainsFunc(lines, func(d line) bool {
				if upright {
					return d.y0 == d.y1 && d.x0 != d.x1 && (d.x0 == l.x0 || d.x1 == l.x0) && min(l.y0, l.y1) < d.y0 && d.y0 < max(l.y0, l.y1)
				}
				return d.x0 == d.x1 && d.y0 != d.y1 && (d.y0 == l.y0 || d.y1 == l.y0) && min(l.x0, l.x1) < d.x0 && d.x0 < max(l.x0, l.x1)
			})
			if at == over && from != to && dimension && !slices.ContainsFunc(edges[upright], func(e float64) bool { return near(e, from) }) {
				t.Errorf("a line of a dimension begins beside every edge, at %g, %g", l.x0, l.y0)
			}
		}
	}
}

// The leaves of a run of gusset pockets lie in the section, when all is glued, as
// far across as the plan has them, and one over the other as the plan stacks them.
func TestLeavesInSection(t *testing.T) {
	for _, n := range []int{2, 3, 5} {
		p := build(t, folio.Spec{Cover: units.Size{W: 200 * mm, H: 220 * mm}, Spine: rule.Spine{Width: 50 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
			Fittings: []folio.Fitting{{Name: "cards", Kind: folio.Folded{Kind: pocket.GussetRun{Content: pocket.IDCard(), Pockets: n}}}}})
		var last int
		for s := range p.Steps() {
			for _, a := range s.Do {
				if stick, ok := a.(work.Stick); ok && s.For.Kind == work.PartFitting && stick.What.Kind == work.Piece {
					last = s.Number + 1 // it dries
				}
			}
		}
		pic, ok := guide.Step(p, last, guide.Options{})
		r, bad := readPicture(pic, ok)
		if bad != "" {
			t.Fatal(bad)
		}
		for f := range p.Fittings() {
			d, _ := f.Design()
			first := -1
			for i := range f.Pieces() {
				first = i
				break
			}
			lines := func(q pocket.Panel) box {
				b, _ := round(slices.DeleteFunc(r.kind("outline"), func(l readLine) bool {
					return l.of["piece"] != strconv.Itoa(first+q.Piece()) || l.of["copy"] != copyText(q.Copy()) || l.of["panel"] == ""
				}))
				return b
			}
			levels := d.Levels()
			type leaf struct {
				level int
				at    box
				want  units.Rect
			}
			var leaves []leaf
			for i, q := range d.Panels() {
				if strings.Contains(q.Name(), "leaf") {
					leaves = append(leaves, leaf{levels[i], lines(q), q.Closed()})
				}
			}
			if len(leaves) != n+1 {
				t.Fatalf("%d leaves of %d pockets", len(leaves), n)
			}
			for _, a := range leaves {
				b := leaves[0]
				if !within(a.at.x0-b.at.x0, nanos(a.want.Min.X-b.want.Min.X)) || !within(a.at.x1-b.at.x0, nanos(a.want.Max.X-b.want.Min.X)) {
					t.Errorf("%d pockets: a leaf lies from %d to %d; want %v", n, a.at.x0-b.at.x0, a.at.x1-b.at.x0, a.want)
				}
				for _, c := range leaves {
					if a.level > c.level && a.at.y0 >= c.at.y0 {
						t.Errorf("%d pockets: a leaf at level %d is not drawn over one at %d", n, a.level, c.level)
					}
				}
			}
		}
	}
}

// What is folded more often than can be followed is drawn flat, and all of its steps
// have a picture; what has walls stands up in section.
func TestFoldedOften(t *testing.T) {
	c := pocket.Content{Name: "ticket", Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: mm / 100}
	s := folio.Spec{Cover: units.Size{W: 300 * mm, H: 300 * mm}, Spine: rule.Spine{Width: 150 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Fittings: []folio.Fitting{{Name: "tickets", Kind: folio.Folded{Kind: pocket.FoldedAccordion{Content: c, Panels: 130}}}}}
	s.Stocks = []stock.Stock{{Name: "thin paper", Caliper: mm / 10, TwoSided: true}}
	s.Fittings[0].Stock = "thin paper"
	p := build(t, s)
	for _, k := range ticks(guide.HandOut(p, guide.PrintOptions{})) {
		if k.Figure == nil || k.Figure.Picture.Empty() {
			t.Errorf("step %d is not drawn", k.Number)
		}
	}
}
