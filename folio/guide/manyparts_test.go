package guide_test

import (
	"regexp"
	"slices"
	"strconv"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// thin is a folio with room for very many layers of thin paper.
func thin(fittings ...folio.Fitting) folio.Spec {
	for i := range fittings {
		fittings[i].Stock = "thin"
	}
	return folio.Spec{Cover: units.Size{W: 1500 * mm, H: 1500 * mm}, Spine: rule.Spine{Width: 900 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Stocks: []stock.Stock{{Name: "thin", Caliper: mm / 50, TwoSided: true}}, Fittings: fittings}
}

// Of a fitting of very many layers the picture of the open folio has a quarter of what it
// draws of each kind four times over: the lowest and the highest, as many of both.
func TestLowestAndHighestLayers(t *testing.T) {
	for _, k := range []pocket.Kind{pocket.FoldedAccordion{Content: pocket.IDCard(), Panels: 300}, pocket.GussetRun{Content: pocket.IDCard(), Pockets: 200}} {
		p := build(t, thin(folio.Fitting{Name: "cards", Kind: folio.Folded{Kind: k}}))
		r, bad := readPicture(guide.Inside(p, guide.Options{}))
		if bad != "" {
			t.Fatal(bad)
		}
		levels := designOf(p, 0).Levels()
		type part struct {
			piece, copy, panel, level int
		}
		var parts []part
		for q := range p.Placed() {
			if _, fitted := q.Fitting(); fitted {
				i, n := q.Piece()
				panel, _ := q.Panel()
				parts = append(parts, part{i, n, panel, levels[panel]})
			}
		}
		slices.SortStableFunc(parts, func(a, b part) int { return a.level - b.level })
		if len(parts) <= 240 {
			t.Fatalf("only %d parts of the %s", len(parts), k.Name())
		}
		for i, q := range parts {
			drawn := len(r.of(strconv.Itoa(q.piece), copyText(q.copy), strconv.Itoa(q.panel), "0")) > 0
			if want := i < 120 || i >= len(parts)-120; drawn != want {
				t.Errorf("%s: part %d of %d, at level %d, is drawn: %t", k.Name(), i, len(parts), q.level, drawn)
			}
		}
	}
}

// A section through more than sixty layers draws that many and says how many it leaves out.
func TestSectionOfManyLayers(t *testing.T) {
	more := regexp.MustCompile(`^and (\d+) layers more$`)
	p := build(t, thin(folio.Fitting{Name: "cards", Kind: folio.Folded{Kind: pocket.FoldedAccordion{Content: pocket.IDCard(), Panels: 90}}}))
	steps, said := guide.StepsOf(p), 0
	for s := range p.Steps() {
		r, bad := readPicture(steps.Draw(s.Number, guide.Options{}))
		if bad != "" {
			t.Fatal(bad)
		}
		heights := map[int64]bool{}
		for _, l := range r.kind("outline") {
			if len(l.pts) == 2 && l.pts[0].y == l.pts[1].y {
				heights[l.pts[0].y] = true
			}
		}
		for _, x := range r.texts {
			if m := more.FindStringSubmatch(x.s); m != nil {
				said++
				// Each panel lies on its foot, and a tab ends them.
				if n, _ := strconv.Atoi(m[1]); len(heights) != 60 || 60+n != 2*90+1 {
					t.Errorf("step %d: %d layers are drawn, %q", s.Number, len(heights), x.s)
				}
			}
		}
		if len(heights) > 60 {
			t.Errorf("step %d: %d layers are drawn", s.Number, len(heights))
		}
	}
	if said == 0 {
		t.Error("no step shows more than sixty layers")
	}
}
