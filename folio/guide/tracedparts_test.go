package guide_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Every score of every piece is traced: as a mark along the edge that it runs square to, all
// of them on one band, or where it runs on the whole piece. No part is printed on which
// nothing is drawn.
func TestEveryScoreIsTraced(t *testing.T) {
	bands, wholes := 0, 0
	for _, s := range wide() {
		parts := tilesOf(t, guide.Templates(s.plan, guide.PrintOptions{Paper: guide.A4}).AppendHTML(nil))
		drawn := func(path string) bool {
			return slices.ContainsFunc(parts, func(p tile) bool { return slices.Contains(p.paths, path) })
		}
		for i, p := range parts {
			if len(p.paths) <= 2*len(p.circles) { // a cross is two lines and a circle
				t.Errorf("%s: part %d shows nothing", s.name, i)
			}
		}
		for piece := range s.plan.Pieces() {
			b, ok := piece.Blank()
			if !ok {
				continue
			}
			marked, whole, all := 0, 0, 0
			for _, l := range b.Lines() {
				all++
				from, to, far := l.From, l.To, piece.Size().H
				if l.Axis == score.Level {
					far = piece.Size().W
				}
				if to == 0 {
					to = far
				}
				path := fmt.Sprintf("M%s %sL%s %s", number(l.At), number(from), number(l.At), number(to))
				if l.Axis == score.Level {
					path = fmt.Sprintf("M%s %sL%s %s", number(from), number(l.At), number(to), number(l.At))
				}
				if drawn(path) {
					whole++
				} else if drawn(fmt.Sprintf("M%s 0L%s 22", number(l.At), number(l.At))) {
					marked++
				}
			}
			if marked != all && whole != all {
				t.Errorf("%s: of %d scores of the %s %d are marked and %d drawn", s.name, all, piece.Name(), marked, whole)
			}
			if all > 0 && marked == all {
				bands++
			} else if all > 0 {
				wholes++
			}
		}
	}
	if bands < 5 || wholes < 5 {
		t.Errorf("%d bands, %d whole pieces", bands, wholes)
	}
}

// Of a piece that takes several pages both ways the pages in its middle are left out, and
// those round about are all there: each edge is shown from end to end.
func TestNoEmptyPages(t *testing.T) {
	s := folio.Spec{Cover: units.MustParseSize("900 x 1200 mm"), Spine: rule.Spine{Width: 40 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Board: stock.Stock{Caliper: 3 * mm}}
	s.Fittings = []folio.Fitting{{Name: "chart", Panel: boards.RightCover, Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.Content{Name: "chart", Size: units.MustParseSize("700 x 900 mm")}, Notch: pocket.ThumbNotch{Width: 30 * mm, Depth: 12 * mm}}}}}
	p := build(t, s)
	parts := tilesOf(t, guide.Templates(p, guide.PrintOptions{Paper: guide.A4}).AppendHTML(nil))
	for piece := range p.Pieces() {
		b, ok := piece.Blank()
		if !ok {
			continue
		}
		edge, _ := b.Outline()
		want := ""
		for i, c := range edge.Corners() {
			want += string("ML"[min(i, 1)]) + number(c.X) + " " + number(c.Y)
		}
		var own []tile
		columns, rows := map[float64]bool{}, map[float64]bool{}
		for _, part := range parts {
			if slices.ContainsFunc(part.paths, func(path string) bool { return strings.HasPrefix(path, want) }) {
				own = append(own, part)
				columns[part.x], rows[part.y] = true, true
			}
		}
		if len(columns) < 3 || len(rows) < 3 || len(own) >= len(columns)*len(rows) {
			t.Errorf("%d parts in %d columns and %d rows show the %s", len(own), len(columns), len(rows), piece.Name())
		}
		for q, r := range edge.Edges() {
			for k := range 101 {
				x := q.X.Millimetres() + (r.X-q.X).Millimetres()*float64(k)/100
				y := q.Y.Millimetres() + (r.Y-q.Y).Millimetres()*float64(k)/100
				if !slices.ContainsFunc(own, func(p tile) bool { return x >= p.x && x <= p.x+p.w && y >= p.y && y <= p.y+p.h }) {
					t.Fatalf("no part shows the edge of the %s at %g, %g", piece.Name(), x, y)
				}
			}
		}
	}
}

// A template of a corner is large enough to lay both edges on: it reaches over the ends of
// the cut and the corner of the board by 20 mm, whichever lies farther off.
func TestCornersReachFar(t *testing.T) {
	for _, high := range []string{"236 mm", "250 mm", "700 mm"} {
		sheet := units.Size{W: 700 * mm, H: units.MustParse(high)}
		p := build(t, folio.Spec{Cover: units.Size{W: 150 * mm, H: 210 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Covering: stock.Stock{Name: "paper", Sheets: []stock.Sheet{{Size: sheet}}}})
		for piece := range p.Pieces() {
			for c := range piece.CornerCuts() {
				leg := c.Leg().Length()
				on, _ := p.OnWrap(boards.LeftCover)
				far := max(leg, on.Min.X, on.Min.Y) + 20*mm
				edges := fmt.Sprintf("M0 %sL0 0L%s 0", number(far), number(far))
				if !slices.ContainsFunc(tilesOf(t, guide.Templates(p, guide.PrintOptions{Paper: guide.A4}).AppendHTML(nil)), func(p tile) bool { return slices.Contains(p.paths, edges) }) {
					t.Errorf("a sheet %s high: no edges %s long", high, far)
				}
				break
			}
		}
	}
}
