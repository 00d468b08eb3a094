package guide_test

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// The sheet of a family has a letter for each measure, a row for each size that
// can be made, and says why of each that cannot; what is in a cell is what the
// plan of that size says.
func TestFamilySheet(t *testing.T) {
	shared := 0
	for _, form := range []boards.Form{boards.SpineBoard, boards.ForeEdgeFlap, boards.DoubleSpineGate} {
		s := folio.Spec{Title: "Log books", Form: form, Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: inch / 2},
			Liner: stock.Stock{Name: "plain paper", Sheets: []stock.Sheet{{Size: units.MustParseSize("30 x 20 in")}}}}
		s.Fittings = []folio.Fitting{{Name: "crest", Kind: folio.Mat{Picture: pocket.Content{Name: "crest", Size: units.MustParseSize("2 x 2 in")}}}}
		covers := []units.Size{units.MustParseSize("4 x 6 in"), units.MustParseSize("6 x 8 in"), units.MustParseSize("7 x 9 in"), {W: inch / 16, H: inch / 16}, {W: 6 * inch, H: 400 * inch}}
		family, err := fit.FamilyOf(t.Context(), s, covers...)
		if err != nil {
			t.Fatal(err)
		}
		doc := guide.FamilySheet(family, guide.PrintOptions{})
		var table, names, pieces guide.Table
		for section := range doc.Sections() {
			for _, b := range section.Blocks {
				if tb, ok := b.(guide.Table); ok && tb.Head != nil && tb.Head[0] == "Cover" {
					table = tb
				} else if ok && tb.Head != nil {
					pieces = tb
				} else if ok {
					names = tb
				}
			}
		}
		if len(table.Rows) != 3 {
			t.Fatalf("%v: %d rows", form, len(table.Rows))
		}
		f := units.Format{Ruler: units.InchFraction.Exact()}
		i := 0
		for _, r := range family.Rows() {
			p := r.Plan()
			if p == nil {
				continue
			}
			want := []string{f.Size(r.Cover()), f.Text(p.Wrap().Size().W), f.Text(p.Wrap().Size().H)}
			for b := range p.Boards() {
				want = append(want, f.Text(b.Size().W), f.Text(b.Size().H))
			}
			for g := range p.Gaps() {
				want = append(want, f.Text(g.Width()))
			}
			for _, w := range want {
				if !slices.Contains(table.Rows[i], w) {
					t.Errorf("%v: row %q lacks %s", form, table.Rows[i], w)
				}
			}
			i++
		}
		// The mat has the same size on every cover and no letter.
		if len(pieces.Rows) != 1 || !slices.Equal(pieces.Rows[0], []string{"mat, crest", "2 1/4 x 2 1/4 in", "2 1/4 x 2 1/4 in", "2 1/4 x 2 1/4 in"}) {
			t.Errorf("%v: pieces %q", form, pieces.Rows)
		}
		html := string(doc.AppendHTML(nil))
		for _, n := range names.Rows {
			if !slices.Contains(table.Head, n[0]) || !strings.Contains(html, ">"+n[0]+"</text>") {
				t.Errorf("%v: the letter %s is missing in the table or the drawing", form, n[0])
			}
		}
		// Every board's width has one letter, which boards of one width on every folio share.
		first, _ := folio.Build(s)
		for b := range first.Boards() {
			with := 0
			for _, n := range names.Rows {
				list, ok := strings.CutSuffix(n[1], ", width")
				if !ok || !slices.Contains(strings.FieldsFunc(strings.ReplaceAll(list, " and ", ","), func(r rune) bool { return r == ',' }), b.Name()) {
					continue
				}
				if with++; strings.Contains(list, " and ") {
					shared++
				}
				i := 0
				for _, r := range family.Rows() {
					if r.Plan() == nil {
						continue
					}
					on, _ := r.Plan().Board(b.Role())
					if got, want := table.Rows[i][slices.Index(table.Head, n[0])], f.Text(on.Size().W); got != want {
						t.Errorf("%v: the %s of %v is %s wide; want %s", form, b.Name(), r.Cover(), got, want)
					}
					i++
				}
			}
			if with != 1 {
				t.Errorf("%v: %d letters for the %s", form, with, b.Name())
			}
		}
		checkLettered(t, html, family)
		if !strings.Contains(string(doc.AppendPlain(nil)), "1/16 x 1/16 in") {
			t.Errorf("%v: nothing is said of what cannot be made", form)
		}
		said := squeezed(doc.AppendPlain(nil))
		for _, r := range family.Rows() {
			if why := squeezed([]byte(f.Size(r.Cover()) + ": " + r.Why())); r.Plan() == nil && !strings.Contains(said, why) {
				t.Errorf("%v: of %v it is not said: %s", form, r.Cover(), r.Why())
			}
		}
	}
	if shared != 2+2+4 { // covers, doors, spines between them
		t.Errorf("%d boards share letters", shared)
	}
	// One size by itself is told in the notation of its plan too, and its liner apart from
	// the covers, though it is as high as they are wide, 1/8 in from either edge.
	for _, cover := range []string{"7 3/4 x 8 in", "152.5 x 203 mm"} {
		size := units.MustParseSize(cover)
		// A sheet so low turns in less at the head and the tail than at the sides.
		s := folio.Spec{Cover: size, Spine: rule.Spine{Width: inch / 2}, Covering: stock.Stock{Sheets: []stock.Sheet{{Size: units.MustParseSize("24 x 9 1/4 in")}}}}
		if size.H%mm == 0 {
			s.Spine.Width, s.Rulers.Main = 12*mm, units.HalfMillimetres
		}
		one, err := fit.FamilyOf(t.Context(), s, size)
		if err != nil {
			t.Fatal(err)
		}
		doc := guide.FamilySheet(one, guide.PrintOptions{})
		checkLettered(t, string(doc.AppendHTML(nil)), one)
		if rows := tables(doc)["Cover"].Rows; len(rows) != 1 || rows[0][0] != cover {
			t.Errorf("the family of %s: %q", cover, rows)
		}
		if said := string(doc.AppendPlain(nil)); !strings.Contains(said, "left cover and right cover, width") || !strings.Contains(said, "liner, height") {
			t.Errorf("the family of %s: %s", cover, said)
		}
	}
	if none := guide.FamilySheet(fit.Family{}, guide.PrintOptions{}); !strings.Contains(string(none.AppendPlain(nil)), "None of the sizes") {
		t.Error("an empty family")
	}
}

// The text over the bar of a drawing, and a straight line.
var (
	barText   = regexp.MustCompile(`>(\d+)[ \x{a0}](in|mm)</text>`)
	levelLine = regexp.MustCompile(`d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)"`)
)

// checkLettered reads the rectangles of the lettered drawing back: wrap, boards
// and liner lie as in the middle plan of the family, all by one scale.
func checkLettered(t *testing.T, html string, family fit.Family) {
	t.Helper()
	var plans []*folio.Plan
	for _, r := range family.Rows() {
		if r.Plan() != nil {
			plans = append(plans, r.Plan())
		}
	}
	p := plans[len(plans)/2]
	wrap := units.RectAt(units.Point{}, p.Wrap().Size())
	want := []units.Rect{wrap}
	var row units.Rect
	for b := range p.Boards() {
		r, _ := p.OnWrap(b.Role())
		want = append(want, r)
		if row.Empty() {
			row.Min = r.Min
		}
		row.Max = r.Max
	}
	for l := range p.Liner() {
		side, end := (row.Size().W-l.Size().W)/2, (row.Size().H-l.Size().H)/2
		want = append(want, units.RectAt(units.Point{X: row.Min.X + side, Y: row.Min.Y + end}, l.Size()))
	}
	_, drawing, _ := strings.Cut(html, `<figure class="beside">`)
	drawing, _, _ = strings.Cut(drawing, "</svg>")
	var got [][4]float64
	for _, tag := range strings.Split(drawing, "<rect ")[1:] {
		var r [4]float64
		if _, err := fmt.Sscanf(tag, `x="%f" y="%f" width="%f" height="%f"`, &r[0], &r[1], &r[2], &r[3]); err != nil {
			t.Fatal(err)
		}
		got = append(got, r)
	}
	if len(got) != len(want) {
		t.Fatalf("%d rectangles; want %d", len(got), len(want))
	}
	scale := got[0][2] / wrap.Size().W.Millimetres()
	// The bar says how long it is at that scale: the text over it, and a level line.
	said, bar := barText.FindStringSubmatch(drawing), false
	if said == nil {
		t.Fatal("no bar")
	}
	long := units.MustParse(said[1]+" "+said[2]).Millimetres() * scale
	for _, l := range levelLine.FindAllStringSubmatch(drawing, -1) {
		var x0, x1 float64
		if _, err := fmt.Sscan(l[1]+" "+l[3], &x0, &x1); err != nil {
			t.Fatal(err)
		}
		bar = bar || l[2] == l[4] && x1-x0-long < 0.001 && long-x1+x0 < 0.001
	}
	if !bar || long > 45.001 || long < 15 {
		t.Errorf("the bar of %s is not %.3f mm long", said[1], long)
	}
	for i, w := range want {
		for k, l := range []units.Length{w.Min.X, w.Min.Y, w.Size().W, w.Size().H} {
			at := l.Millimetres() * scale
			if k < 2 {
				at += got[0][k]
			}
			if d := got[i][k] - at; d > 0.001 || d < -0.001 {
				t.Errorf("rectangle %d: %v; want %v by %.4f", i, got[i], w, scale)
			}
		}
	}
}

// Letters stand for the liner where that of the folio that is drawn is in one piece; what
// they do not tell, as that of one with a liner for each board, the pieces do. Each letter
// that is drawn is listed.
func TestFamilyWithLinersOfBothKinds(t *testing.T) {
	f := units.Format{Ruler: units.InchFraction.Exact()}
	s := folio.Spec{Spine: rule.Spine{Width: inch / 2}, Liner: stock.Stock{Sheets: []stock.Sheet{{Size: units.MustParseSize("13 x 20 in"), Grain: stock.GrainAlongHeight}}}}
	for _, c := range []struct {
		covers []string
		styles []rule.LiningRule
		drawn  int // rectangles
	}{
		{[]string{"7 x 9 in", "6 x 8 in", "5 x 7 in"}, []rule.LiningRule{rule.LiningPanels, rule.LiningOnePiece, rule.LiningOnePiece}, 5},
		{[]string{"5 x 7 in", "7 x 9 in", "6 x 8 in"}, []rule.LiningRule{rule.LiningOnePiece, rule.LiningPanels, rule.LiningOnePiece}, 4},
	} {
		var covers []units.Size
		for _, cover := range c.covers {
			covers = append(covers, units.MustParseSize(cover))
		}
		family, err := fit.FamilyOf(t.Context(), s, covers...)
		if err != nil {
			t.Fatal(err)
		}
		doc := guide.FamilySheet(family, guide.PrintOptions{})
		_, drawing, _ := strings.Cut(string(doc.AppendHTML(nil)), `<figure class="beside">`)
		drawing, _, _ = strings.Cut(drawing, "</svg>")
		table, pieces := tables(doc)["Cover"], tables(doc)["Pieces for a cover of"]
		for _, text := range regexp.MustCompile(`>([A-Z])</text>`).FindAllStringSubmatch(drawing, -1) {
			if !slices.Contains(table.Head, text[1]) {
				t.Errorf("the letter %s is in no column of %q", text[1], table.Head)
			}
		}
		if n := strings.Count(drawing, "<rect "); n != c.drawn {
			t.Errorf("%v: %d rectangles; want %d", c.covers, n, c.drawn)
		}
		for i, r := range family.Rows() {
			if r.Plan().LiningStyle() != c.styles[i] {
				t.Fatalf("%v: %v", r.Cover(), r.Plan().LiningStyle())
			}
			for l := range r.Plan().Liner() {
				row := table.Rows[i]
				lettered := slices.Contains(row, f.Text(l.Size().W)) && slices.Contains(row, f.Text(l.Size().H))
				listed := slices.ContainsFunc(pieces.Rows, func(row []string) bool {
					return strings.Contains(row[0], "liner") && row[slices.Index(pieces.Head, f.Size(r.Cover()))] == f.Size(l.Size())
				})
				if lettered == listed {
					t.Errorf("%v, %v: the liner of %v: told by letters %t, among the pieces %t", c.covers, r.Cover(), l.Size(), lettered, listed)
				}
			}
		}
	}
}
