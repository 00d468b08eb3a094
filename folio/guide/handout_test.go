package guide_test

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"

	"github.com/google/go-cmp/cmp"
)

// Everything that is cut, done, glued and computed stands in the hand-out, in all
// three ways of writing it.
func TestHandOutIsWhole(t *testing.T) {
	for _, s := range samples() {
		doc := s.handOut(t)
		plain, mark, html := squeezed(doc.AppendPlain(nil)), squeezed(unescaped(doc.AppendMarkdown(nil))), squeezed(textOf(doc.AppendHTML(nil)))
		f := units.Format{Ruler: s.plan.Notation().Exact()}
		want := []string{doc.Title()}
		for p := range s.plan.Pieces() {
			want = append(want, p.Name(), f.Size(p.Size()))
		}
		for st := range s.plan.Steps() {
			exact := f
			switch {
			case st.Task == work.TaskMeasure || st.Task == work.TaskCheck: // what is expected only
				exact = units.Format{}
			case s.plan.Notation() == units.MetricDecimal:
				exact.Ruler, _ = units.NewRuler(mm/100, units.MetricDecimal)
			}
			want = append(want, st.Text(exact))
			for _, c := range st.Care() {
				_, rest, _ := strings.Cut(c.Text(), ": ")
				want = append(want, rest[1:])
			}
		}
		for w := range s.plan.Workings() {
			want = append(want, w.String())
		}
		for w := range s.plan.Warnings() {
			want = append(want, w.Text[1:])
		}
		for _, w := range want {
			w = squeezed([]byte(w))
			if !strings.Contains(plain, w) {
				t.Errorf("%s: the text lacks %q", s.name, w)
			}
			if !strings.Contains(mark, w) {
				t.Errorf("%s: the Markdown lacks %q", s.name, w)
			}
			if !strings.Contains(html, w) {
				t.Errorf("%s: the page lacks %q", s.name, w)
			}
		}
	}
}

// squeezed returns a text without its spaces, whatever lines it was broken into.
func squeezed(text []byte) string {
	return strings.Map(func(r rune) rune {
		switch r {
		case ' ', '\n', '\u00a0':
			return -1
		}
		return r
	}, string(text))
}

func unescaped(mark []byte) []byte {
	return bytes.ReplaceAll(mark, []byte{'\\'}, nil)
}

// textOf returns what is read on a page: its text without tags.
func textOf(html []byte) []byte {
	var out []byte
	in := false
	for _, c := range html {
		switch {
		case c == '<':
			in = true
		case c == '>':
			in = false
		case !in:
			out = append(out, c)
		}
	}
	r := strings.NewReplacer("&lt;", "<", "&gt;", ">", "&quot;", `"`, "&amp;", "&")
	return []byte(r.Replace(string(out)))
}

// The same plan gives the same bytes, and none of the writers changes a document.
func TestSameBytes(t *testing.T) {
	for _, s := range samples() {
		doc, again := s.handOut(t), guide.HandOut(s.plan, guide.PrintOptions{Layout: s.laid(t)})
		a, b, c := doc.AppendHTML(nil), doc.AppendMarkdown(nil), doc.AppendPlain(nil)
		if !bytes.Equal(a, again.AppendHTML(nil)) || !bytes.Equal(b, doc.AppendMarkdown(nil)) || !bytes.Equal(c, again.AppendPlain(nil)) || !bytes.Equal(a, doc.AppendHTML(nil)) {
			t.Errorf("%s: two hand-outs differ", s.name)
		}
		if before := doc.AppendPlain([]byte("before")); !bytes.Equal(before[6:], c) {
			t.Errorf("%s: what stood before it changes the text", s.name)
		}
	}
}

// Lines of plain text have at most 78 columns, and no length is torn apart.
func TestPlainLines(t *testing.T) {
	for _, s := range samples() {
		last := ""
		for line := range strings.Lines(string(s.handOut(t).AppendPlain(nil))) {
			line = strings.TrimSuffix(line, "\n")
			if utf8.RuneCountInString(line) > 78 || strings.HasSuffix(line, " ") {
				t.Errorf("%s: %q", s.name, line)
			}
			first, _, _ := strings.Cut(strings.TrimLeft(line, " "), " ")
			if unit := strings.TrimRight(first, ".,:;)"); last != "" && last[len(last)-1] >= '0' && last[len(last)-1] <= '9' && (unit == "in" || unit == "mm" || unit == "x") {
				t.Errorf("%s: a length is torn before %q", s.name, line)
			}
			last = line
		}
	}
}

// What can be done while something dries rests neither on the drying nor on
// anything that rests on it, as far back as one asks.
func TestMeanwhile(t *testing.T) {
	said := 0
	for _, s := range samples() {
		after := map[int][]int{}
		var steps []work.Step
		for st := range s.plan.Steps() {
			after[st.Number] = st.After
			steps = append(steps, st)
		}
		var rests func(n, on int) bool
		rests = func(n, on int) bool {
			return n == on || slices.ContainsFunc(after[n], func(m int) bool { return rests(m, on) })
		}
		for _, tick := range ticks(s.handOut(t), "Order of work") {
			for _, note := range tick.Notes {
				list, ok := strings.CutPrefix(note, "While it dries you can do step")
				if !ok {
					continue
				}
				said++
				free := numbers(list)
				for _, st := range steps {
					want := st.Number > tick.Number && !rests(st.Number, tick.Number)
					if got := slices.Contains(free, st.Number); got != want {
						t.Errorf("%s: while step %d dries step %d may be done: %t, said %t", s.name, tick.Number, st.Number, want, got)
					}
				}
			}
		}
	}
	if said < 10 {
		t.Errorf("only %d notes", said)
	}
}

// ticks returns everything to tick in a document, or in sections of some titles.
func ticks(doc *guide.Document, titles ...string) []guide.Tick {
	var all []guide.Tick
	for s := range doc.Sections() {
		if len(titles) > 0 && !slices.Contains(titles, s.Title) {
			continue
		}
		for _, b := range s.Blocks {
			if list, ok := b.(guide.Checklist); ok {
				all = append(all, list.Ticks...)
			}
		}
	}
	return all
}

// Each part of the order of work says what it is of, also where what is made has
// no name.
func TestPartsOfTheWorkAreNamed(t *testing.T) {
	s := crewSpec()
	parts := 0
	for _, p := range []*folio.Plan{build(t, s), build(t, folio.Spec{Cover: s.Cover, Spine: s.Spine})} {
		for section := range guide.HandOut(p, guide.PrintOptions{}).Sections() {
			for _, b := range section.Blocks {
				if list, ok := b.(guide.Checklist); ok {
					if parts++; list.Part == "" {
						t.Errorf("a part without a name before step %d", list.Ticks[0].Number)
					}
				}
			}
		}
	}
	if parts < 4 {
		t.Errorf("only %d parts", parts)
	}
}

// numbers reads "s 19 to 22, 24 and 30".
func numbers(text string) []int {
	var out []int
	upTo := false
	for _, w := range strings.FieldsFunc(strings.TrimPrefix(text, "s"), func(r rune) bool { return r == ' ' || r == ',' || r == '.' }) {
		switch w {
		case "to":
			upTo = true
		case "and":
		default:
			n := 0
			for _, c := range w {
				n = 10*n + int(c-'0')
			}
			if upTo {
				for k := out[len(out)-1] + 1; k < n; k++ {
					out = append(out, k)
				}
			}
			upTo = false
			out = append(out, n)
		}
	}
	return out
}

// The cover is measured by hand: there is a line for each side.
func TestLinesToFill(t *testing.T) {
	for _, s := range samples() {
		fill := 0
		for _, tick := range ticks(s.handOut(t)) {
			fill += len(tick.Fill)
		}
		if fill != 2 {
			t.Errorf("%s: %d lines to write the measured cover on", s.name, fill)
		}
	}
}

// Where the grain may run either way that is said of every piece that has one: foam and
// film have none.
func TestPiecesWithoutGrain(t *testing.T) {
	s := crewSpec()
	s.Grain = stock.GrainAny
	s.Stocks = append(s.Stocks, stock.Stock{Name: "film", Caliper: mm / 10})
	s.Fittings[2].Kind = folio.Frame{Picture: pocket.Content{Name: "photo", Size: units.MustParseSize("5 x 7 in"), Thickness: 260 * units.Micrometre}, Mouth: score.Head, Film: "film"}
	p := build(t, s)
	text := strings.Join(strings.Fields(string(guide.HandOut(p, guide.PrintOptions{}).AppendPlain(nil))), " ")
	_, said, ok := strings.Cut(text, "either way in the ")
	said, _, _ = strings.Cut(said, ".")
	grained, bare := 0, 0
	for piece := range p.Pieces() {
		none := piece.Role() == stock.FoamPiece || piece.Role() == stock.FilmPiece
		if none {
			bare++
		} else {
			grained++
		}
		if strings.Contains(said, piece.Name()) == none {
			t.Errorf("the %s: %q", piece.Name(), said)
		}
	}
	if !ok || grained < 5 || bare == 0 {
		t.Errorf("%d pieces with a grain, %d without", grained, bare)
	}
	leaf := folio.Folded{Kind: pocket.Flap{Content: pocket.Content{Name: "ticket", Size: units.MustParseSize("2 x 3 in")}}}
	p = build(t, folio.Spec{Cover: s.Cover, Spine: s.Spine, Fittings: []folio.Fitting{{Name: "bow", Kind: leaf}, {Name: "stern", Panel: boards.LeftCover, Kind: leaf}}})
	one := build(t, folio.Spec{Cover: s.Cover, Spine: s.Spine, Fittings: []folio.Fitting{{Name: "bow", Kind: leaf}}})
	for want, p := range map[string]*folio.Plan{"to the spine; either way in the leaf of the bow and leaf of the stern.": p, "to the spine; either way in the leaf of the bow.": one} {
		if text := strings.Join(strings.Fields(string(guide.HandOut(p, guide.PrintOptions{}).AppendPlain(nil))), " "); !strings.Contains(text, want) {
			t.Errorf("not told: %q", want)
		}
	}
}

// Who walks the pictures of a document gets each once and in order, as far as wanted.
func TestPicturesOfADocument(t *testing.T) {
	doc := samples()[0].handOut(t)
	var want []string
	for s := range doc.Sections() {
		for _, b := range s.Blocks {
			switch b := b.(type) {
			case guide.Figures:
				for _, f := range b {
					want = append(want, f.Picture.Title())
				}
			case guide.Checklist:
				for _, k := range b.Ticks {
					if k.Figure != nil {
						want = append(want, k.Figure.Picture.Title())
					}
				}
			}
		}
	}
	for n := 1; n <= len(want); n++ {
		var got []string
		for pic := range doc.Pictures() {
			if got = append(got, pic.Title()); len(got) == n {
				break
			}
		}
		if !slices.Equal(got, want[:n]) {
			t.Errorf("the first %d pictures are %q; want %q", n, got, want[:n])
		}
	}
	if len(want) < 20 {
		t.Errorf("only %d pictures", len(want))
	}
}

// figuresOf walks the pictures of a section.
func figuresOf(s guide.Section) []guide.Picture {
	var list []guide.Picture
	for _, b := range s.Blocks {
		switch b := b.(type) {
		case guide.Figures:
			for _, f := range b {
				list = append(list, f.Picture)
			}
		case guide.Checklist:
			for _, k := range b.Ticks {
				if k.Figure != nil {
					list = append(list, k.Figure.Picture)
				}
			}
		}
	}
	return list
}

// What a hand-out shows is what one gets who asks for the picture by itself: the same
// lines of the same pieces and fittings.
func TestPicturesOfAHandOutAreThoseOfThePlan(t *testing.T) {
	drawn := func(r *reading) string {
		of := map[string]bool{}
		for _, l := range r.lines {
			if !l.legend && l.kind != "thin" && l.kind != "mark" {
				of[fmt.Sprint(l.kind, l.of)] = true
			}
		}
		return strings.Join(slices.Sorted(maps.Keys(of)), "\n")
	}
	for _, s := range samples() {
		known := map[string]bool{}
		for v := range s.pictures(1) {
			known[v.title+"\n"+drawn(v.reading)] = true
		}
		for sheet := range s.laid(t).Sheets() {
			r, bad := readPicture(guide.Sheet(s.laid(t), sheet.Number(), options[1]))
			if bad != "" {
				t.Fatal(bad)
			}
			known[r.title+"\n"+drawn(r)] = true
		}
		for pic := range s.handOut(t).Pictures() {
			r, bad := readPicture(pic, true)
			if bad != "" {
				t.Fatal(bad)
			}
			if !known[r.title+"\n"+drawn(r)] {
				t.Errorf("%s: %s shows\n%s", s.name, r.title, drawn(r))
			}
		}
	}
}

// A picture that is drawn smaller is so for want of room: it takes three quarters of what
// it has on the page, in height or in width, and three of four go into that, for some have
// more words than room. Beside the words of a step, which stand twice where
// a second ruler is asked for, there is less of it.
func TestPicturesTakeTheirRoom(t *testing.T) {
	for _, twice := range []bool{false, true} {
		within, over, broad := 0, 0, 0
		for _, s := range samples() {
			doc := s.handOut(t)
			if twice {
				doc = guide.HandOut(s.plan, guide.PrintOptions{Layout: s.laid(t), Format: units.Format{Second: units.TenthMillimetres}})
			}
			for section := range doc.Sections() {
				room := units.MustParseSize("180 x 110 mm")
				if section.Title == "Order of work" {
					if room = units.MustParseSize("88 x 62 mm"); twice {
						room = units.MustParseSize("110 x 85 mm")
					}
				}
				for _, pic := range figuresOf(section) {
					wide, high := float64(pic.Printed().W)/float64(room.W), float64(pic.Printed().H)/float64(room.H)
					if open := pic.Title() == "Open folio, inside"; open && (high > 75.0/110 || high < 0.65 && wide < 0.9) {
						t.Errorf("%s: the open folio comes out %v", s.name, pic.Printed())
					} else if pic.Printed() != pic.Size() && !open && max(wide, high) < 0.69 {
						t.Errorf("%s: %q has %v, and takes %v", s.name, pic.Title(), room, pic.Printed())
					}
					if section.Title == "Order of work" && 0.9 < wide && wide < 1.02 {
						broad++
					}
					if wide < 1.02 && high < 1.02 {
						within++
					} else {
						over++
					}
				}
			}
		}
		if within < 2*over || broad < 100 {
			t.Errorf("twice %t: %d pictures go into their room, %d do not, %d of steps are as wide as it", twice, within, over, broad)
		}
	}
}

// What is on a page says something: no section is without blocks, no table without rows
// as long as its head, no list without items and no step without words.
func TestNothingIsEmpty(t *testing.T) {
	none := folio.Spec{Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: inch / 2}}
	family, err := fit.FamilyOf(t.Context(), none, units.MustParseSize("6 x 8 in"), units.MustParseSize("5 x 7 in"))
	if err != nil {
		t.Fatal(err)
	}
	unnamed := none
	unnamed.Fittings = []folio.Fitting{{Kind: folio.Ornament{Size: units.MustParseSize("1 x 1 in"), Thickness: inch / 16}}}
	l, _ := regatta(t)
	docs := []*guide.Document{guide.FamilySheet(family, guide.PrintOptions{}), guide.CuttingBook(l, guide.PrintOptions{}), guide.ShoppingList(l, guide.PrintOptions{}),
		guide.HandOut(build(t, unnamed), guide.PrintOptions{}),
		guide.HandOut(build(t, none), guide.PrintOptions{Notes: []string{"for the bow pair"}})}
	for _, s := range samples() {
		docs = append(docs, s.handOut(t), guide.Templates(s.plan, guide.PrintOptions{}))
	}
	for _, doc := range docs {
		for s := range doc.Sections() {
			if s.Title == "" || len(s.Blocks) == 0 {
				t.Errorf("%s: nothing under %q", doc.Title(), s.Title)
			}
			for _, b := range s.Blocks {
				empty := false
				switch b := b.(type) {
				case guide.Para:
					empty = b == ""
				case guide.Texts:
					empty = len(b) == 0 || slices.Contains(b, "")
				case guide.Table:
					empty = len(b.Rows) == 0 || b.Figures >= max(len(b.Head), 2) // the first column says what they are of
					for _, row := range b.Rows {
						empty = empty || b.Head != nil && len(row) != len(b.Head) || row[0] == "" || strings.HasSuffix(row[0], ", ")
					}
				case guide.Checklist:
					empty = len(b.Ticks) == 0 || b.Part == ""
					for _, k := range b.Ticks {
						empty = empty || k.Text == "" || slices.Contains(k.Notes, "") || slices.Contains(k.Cautions, "")
					}
				case guide.Figures:
					empty = len(b) == 0
					for _, f := range b {
						empty = empty || f.Picture.Empty() || f.Caption == ""
					}
				}
				if empty {
					t.Errorf("%s, %s: %+v", doc.Title(), s.Title, b)
				}
			}
		}
	}
}

// A plan that is nothing has a document that says so.
func TestNothing(t *testing.T) {
	for _, doc := range []*guide.Document{guide.HandOut(nil, guide.PrintOptions{}), guide.HandOut(&folio.Plan{}, guide.PrintOptions{}),
		guide.CuttingBook(nil, guide.PrintOptions{}), guide.ShoppingList(nil, guide.PrintOptions{}), guide.PriceList(nil, guide.PrintOptions{})} {
		if len(doc.AppendPlain(nil)) == 0 || doc.Title() == "" || !bytes.Contains(doc.AppendHTML(nil), []byte("<h1>")) {
			t.Errorf("%q", doc.AppendPlain(nil))
		}
	}
}

// Names are text, whatever is written in them.
func TestNamesAreText(t *testing.T) {
	evil := "<script>alert(1)</script><!-- ]]> </style></title> &amp; \"' `code` *b* _i_ [a](http://x.example) ![p](x) # h\n## two\n- three\x00\u202e~~~ ``` $x$ | https://x.example"
	s := crewSpec()
	s.Title, s.Covering.Name, s.Fittings[1].Name, s.Fittings[2].Name = evil, evil+"a", evil+"b", evil+"c"
	s.Fittings[2].Kind = folio.Frame{Picture: pocket.Content{Name: evil, Size: units.MustParseSize("5 x 7 in")}}
	p := build(t, s)
	doc := guide.HandOut(p, guide.PrintOptions{Layout: laid(t, p), Notes: []string{"- a list", "+ another", "= no heading", "12. no number", "3) nor this", "www.example", "a://b", "back\\slash", "2 x 3.5", "bow & stroke"}})
	html := string(doc.AppendHTML(nil))
	for _, want := range []string{"\n- \\- a list\n", "\n- \\+ another\n", "\n- \\= no heading\n", "\n- 12\\. no number\n", "\n- 3\\) nor this\n", "\n- www\\.example\n", "\n- a\\://b\n", "\n- back\\\\slash\n", "\n- 2 x 3.5\n"} {
		if !strings.Contains(string(doc.AppendMarkdown(nil)), want) {
			t.Errorf("%q is missing in the Markdown", want)
		}
	}
	if !strings.Contains(html, "bow &amp; stroke") {
		t.Error("a note with & in it is missing in the page")
	}
	for _, bad := range []string{"<script", "<!--", "]]>", "</style></title>", "\x00", "\u202e", "href", "src="} {
		if strings.Contains(html, bad) {
			t.Errorf("%q stands in the page", bad)
		}
	}
	if n := strings.Count(html, "</style>"); n != 1 {
		t.Errorf("%d styles", n)
	}
	mark := string(doc.AppendMarkdown(nil))
	for _, bad := range []string{"\n## two", "\n- three", "\x00", "\u202e"} {
		if strings.Contains(mark, bad) {
			t.Errorf("%q stands in the Markdown", bad)
		}
	}
	if strings.ContainsAny(string(doc.AppendPlain(nil)), "\x00\u202e") {
		t.Error("what cannot be shown stands in the text")
	}
}

// A page stands by itself: a policy in its head forbids scripts and whatever is
// elsewhere, and there is none of it. Headings go down one level at a time.
func TestPageStandsAlone(t *testing.T) {
	for _, s := range samples() {
		html := string(s.handOut(t).AppendHTML(nil))
		head, _, _ := strings.Cut(html, "</head>")
		if !strings.Contains(head, `<meta http-equiv="Content-Security-Policy" content="default-src 'none';`) || strings.Contains(head, "unsafe-eval") || strings.Contains(head, "script-src") {
			t.Errorf("%s: the policy lacks in %q", s.name, head)
		}
		if !strings.HasPrefix(html, "<!DOCTYPE html>\n<html lang=\"en\">") {
			t.Errorf("%s begins %q", s.name, html[:40])
		}
		lower := strings.ToLower(strings.ReplaceAll(html, `xmlns="http://www.w3.org/2000/svg"`, ""))
		for _, bad := range []string{"<script", "src=", "href=", "@import", "://", "<link", "<iframe", "<object", "<embed", " onload", "javascript:"} {
			if strings.Contains(lower, bad) {
				t.Errorf("%s: %q stands in the page", s.name, bad)
			}
		}
		last := 0
		for i := strings.Index(html, "<h"); i >= 0; {
			if level := int(html[i+2] - '0'); level >= 1 && level <= 6 {
				if level > last+1 || level == 1 && last > 0 {
					t.Errorf("%s: a heading of level %d follows one of %d", s.name, level, last)
				}
				last = level
			}
			next := strings.Index(html[i+2:], "<h")
			if next < 0 {
				break
			}
			i += 2 + next
		}
	}
}

// Lengths are written as one asks: in the plan's notation, in the other, in both.
func TestLengthsAsAsked(t *testing.T) {
	p := build(t, crewSpec())
	for _, c := range []struct {
		f          units.Format
		want, lack string
	}{
		{units.Format{}, "15 x 10 in", " mm"},
		{units.Format{Ruler: units.TenthMillimetres}, "381 x 254 mm", "15 x 10 in"},
		{units.Format{Second: units.TenthMillimetres}, "15 x 10 in (381 x 254 mm)", "no such thing"},
		{units.Format{Typographic: true}, "15″ × 10″", " mm"},
	} {
		text := string(guide.HandOut(p, guide.PrintOptions{Format: c.f}).AppendPlain(nil))
		text, _, _ = strings.Cut(text, "WORKINGS")
		if !strings.Contains(text, c.want) || strings.Contains(text, c.lack) {
			t.Errorf("%+v: %q is missing, or %q stands there", c.f, c.want, c.lack)
		}
	}
}

// Every picture goes on a page, at its own scale, so that no browser has to
// shrink it or to break it in two.
func TestPicturesFitThePage(t *testing.T) {
	for _, s := range samples() {
		for _, paper := range []guide.PaperSize{guide.AnyPaper, guide.A4} {
			room := paper.Size().Grow(-15 * mm)
			doc := s.handOut(t)
			if paper == guide.A4 { // more words, as wide as they get
				doc = guide.HandOut(s.plan, guide.PrintOptions{Paper: paper, Layout: s.laid(t), Format: units.Format{Second: units.TenthMillimetres}})
			}
			for pic := range doc.Pictures() {
				if got := pic.Printed(); got.W > room.W || got.H > room.H {
					t.Errorf("%s on %v: %q comes out %v, the page has %v", s.name, paper, pic.Title(), got, room)
				}
			}
		}
	}
}

// The picture of a step stands beside its words, in 88 x 62 mm, unless it has more words
// than room. Where what it shows would come out less than 15 mm long like that it gets
// more room, down the page, and only there.
func TestPicturesOfStepsStandBesideTheWords(t *testing.T) {
	beside, down := 0, 0
	for _, s := range samples()[:6] {
		for _, tick := range ticks(s.handOut(t), "Order of work") {
			narrow, _ := guide.Step(s.plan, tick.Number, guide.Options{Format: units.Format{Ruler: s.plan.Notation().Exact()}, Fit: units.MustParseSize("88 x 62 mm")})
			r, bad := readPicture(narrow, true)
			if bad != "" {
				t.Fatal(bad)
			}
			small := false
			lines := slices.DeleteFunc(slices.Clone(r.lines), func(l readLine) bool {
				return l.legend || l.kind == "thin" || l.kind == "mark" || l.kind == "swing" || l.kind == "swingunder" || l.kind == "along"
			})
			if b, ok := round(lines); ok { // of several drawings together
				long := float64(max(b.x1-b.x0, b.y1-b.y0)) * float64(narrow.Printed().W) / float64(narrow.Size().W)
				small = long < 15e6
			}
			got := tick.Figure.Picture
			switch same := bytes.Equal(got.AppendSVG(nil), narrow.AppendSVG(nil)); {
			case same && small && narrow.Printed() != narrow.Size():
				t.Errorf("%s, step %d: what is drawn comes out less than 15 mm long", s.name, tick.Number)
			case same:
				beside++
			default:
				if down++; got.Printed().H > 120*mm && got.Printed().H > narrow.Printed().H {
					t.Errorf("%s, step %d: %v", s.name, tick.Number, got.Printed())
				}
			}
		}
	}
	if beside < 60 || down < 3 || down > beside/4 {
		t.Errorf("lopsided: %d pictures beside the words, %d with more room", beside, down)
	}
}

// The first page shows the folio open and closed and has a third of it left for what is
// said there, also of a folio that is much higher than wide, or larger than the page.
func TestTheFirstPageHasRoomForWords(t *testing.T) {
	for _, cover := range []string{"330 x 330 mm", "100 x 400 mm", "400 x 90 mm"} {
		p := build(t, folio.Spec{Cover: units.MustParseSize(cover), Spine: rule.Spine{Width: 24 * mm}})
		for s := range guide.HandOut(p, guide.PrintOptions{Paper: guide.A4}).Sections() {
			var high units.Length
			shown := 0
			for _, b := range s.Blocks {
				if list, ok := b.(guide.Figures); ok {
					for _, g := range list {
						high += g.Picture.Printed().H
						shown++
					}
				}
			}
			if room := guide.A4.Size().H - 30*mm; shown != 2 || 3*high > 2*room {
				t.Errorf("%s: %d pictures are %v high together on a page with %v", cover, shown, high, room)
			}
			break
		}
	}
}

// Who walks a document gets it to keep: what is done to it changes nothing.
func TestSectionsAreCopies(t *testing.T) {
	p := build(t, crewSpec())
	doc := guide.Bind("All", guide.HandOut(p, guide.PrintOptions{Layout: laid(t, p), Notes: []string{"A note."}}), guide.Templates(p, guide.PrintOptions{}))
	before := doc.AppendHTML(nil)
	for s := range doc.Sections() {
		for i, b := range s.Blocks {
			switch b := b.(type) {
			case guide.Texts:
				b[0] = "changed"
			case guide.Table:
				if b.Head != nil {
					b.Head[0] = "changed"
				}
				b.Rows[0][0] = "changed"
			case guide.Figures:
				b[0].Caption = "changed"
			case guide.Checklist:
				for k := range b.Ticks {
					tick := &b.Ticks[k]
					tick.Text = "changed"
					for _, list := range [][]string{tick.Cautions, tick.Notes, tick.Fill} {
						if len(list) > 0 {
							list[0] = "changed"
						}
					}
					if tick.Figure != nil {
						tick.Figure.Caption = "changed"
					}
				}
			}
			s.Blocks[i] = guide.Para("changed")
		}
	}
	if !bytes.Equal(before, doc.AppendHTML(nil)) {
		t.Error("the document has changed")
	}
}

// A hand-out serves however many fittings there are: it draws every step, up to 500
// of them, and says where it ends; with many fittings a picture shows those that
// its step is for, so that what a stranger asks for does not grow without end.
func TestMostDrawn(t *testing.T) {
	var whole map[int]int // in how many pictures of its own steps each is where none is left out
	for _, n := range []int{guide.MostDrawn, guide.MostDrawn + 1, folio.MaxFittings} {
		s := folio.Spec{Cover: units.MustParseSize("1000 x 1200 mm"), Spine: rule.Spine{Width: 60 * mm}}
		s.Rulers.Main = units.WholeMillimetres
		for i := range n {
			column, row := units.Length(i%16), units.Length(i/16)
			s.Fittings = append(s.Fittings, folio.Fitting{Name: "crew " + strconv.Itoa(i), Kind: folio.Mat{Picture: pocket.Content{Name: "print", Size: units.MustParseSize("40 x 40 mm")}},
				Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: column * 55 * mm, Y: row * 55 * mm}}})
		}
		p := build(t, s)
		doc := guide.HandOut(p, guide.PrintOptions{})
		all, drawn, said, most := 0, 0, 0, 0
		of, own := map[int]int{}, map[int]int{}
		for step := range p.Steps() {
			if of[step.Number] = -1; step.For.Kind == work.PartFitting {
				of[step.Number] = step.For.Index
			}
		}
		for _, k := range ticks(doc) {
			all++
			if k.Figure != nil {
				drawn++
				svg := k.Figure.Picture.AppendSVG(nil)
				seen := 0
				for i := range min(n, guide.MostDrawn+1) {
					if bytes.Contains(svg, fmt.Appendf(nil, " data-fitting=\"%d\"", i)) {
						seen++
					}
				}
				most = max(most, seen)
				if len(svg) > 20_000 {
					t.Errorf("%d fittings: the picture of step %d takes %d bytes", n, k.Number, len(svg))
				}
				if i := of[k.Number]; strings.Contains(string(svg), fmt.Sprintf(" data-fitting=\"%d\"", i)) {
					own[i]++
				}
			}
			for _, note := range k.Notes {
				if strings.HasPrefix(note, "From here on the steps are not drawn") {
					said++
					if drawn != 500 {
						t.Errorf("%d fittings: it is said after %d pictures that there are no more", n, drawn)
					}
				}
			}
		}
		if whole := most == n; whole != (n <= guide.MostDrawn) {
			t.Errorf("%d fittings: at most %d are drawn in a picture", n, most)
		}
		if whole == nil {
			whole = own
		}
		for i := range n { // each mat is drawn in as many of its own steps as the others
			if n < folio.MaxFittings && (own[i] == 0 || own[i] != whole[n/2]) {
				t.Errorf("%d fittings: mat %d is drawn in %d of its steps, among few in %d", n, i, own[i], whole[n/2])
			}
		}
		for range p.Steps() {
			all--
		}
		if all != 0 || said == 0 && slices.ContainsFunc(ticks(doc), func(k guide.Tick) bool { return k.Figure == nil }) || drawn > 500 || said > 1 {
			t.Errorf("%d fittings: %d steps too many, %d drawn, said %d times that there are no more", n, all, drawn, said)
		}
	}
}

// The first page tells how large the folio is open, as planned or as it was measured, and,
// on the ruler, how large and thick it is shut at the most, with all that it holds.
func TestFirstPage(t *testing.T) {
	s := folio.Spec{Cover: units.MustParseSize("150 x 200 mm"), Spine: rule.Spine{Width: 30 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}}
	s.Fittings = []folio.Fitting{{Kind: folio.Folded{Kind: pocket.Gusset{Content: pocket.Content{Name: "bundle", Size: units.MustParseSize("60 x 90 mm"), Thickness: 17 * mm}}}},
		{Panel: boards.LeftCover, Outside: true, Kind: folio.Mat{Picture: pocket.Content{Name: "plate", Size: units.MustParseSize("40 x 40 mm"), Thickness: 3 * mm}}}}
	planned := build(t, s)
	measured, err := planned.Refit(refit.Measured{Width: planned.OpenWidth().Length() + 3*mm, Height: planned.OpenHeight().Length() - mm})
	if err != nil {
		t.Fatal(err)
	}
	f := units.Format{Ruler: units.MetricDecimal.Exact()}
	for _, p := range []*folio.Plan{planned, measured} {
		told := map[string]string{}
		for section := range guide.HandOut(p, guide.PrintOptions{}).Sections() {
			for _, row := range section.Blocks[0].(guide.Table).Rows {
				told[row[0]] = row[1]
			}
			break
		}
		label, open := "Open, before covering", units.Size{W: p.OpenWidth().Length(), H: p.OpenHeight().Length()}
		if m, ok := p.Measured(); ok {
			label, open = "Open, as measured", units.Size{W: m.Width, H: m.Height}
		}
		full, _ := p.Overall(true)
		empty, _ := p.Overall(false)
		up := units.WholeMillimetres.Up
		shut := f.Size(units.Size{W: up(full.Size().W), H: up(full.Size().H)}) + ", " + f.Text(up(full.Thickness().Length())) + " thick"
		if told[label] != f.Size(open) || told["Closed, filled, at most"] != shut || full.Thickness().Length() == empty.Thickness().Length() {
			t.Errorf("%q, want %v and %s", told, open, shut)
		}
	}
}

// When the cover has been measured its boards and its wrap are neither bought nor cut
// again, and what is to be made otherwise than planned is told with them.
func TestHandOutOfARefit(t *testing.T) {
	s := folio.Spec{Cover: units.MustParseSize("150 x 200 mm"), Spine: rule.Spine{Width: 12 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}}
	s.Fittings = []folio.Fitting{{Kind: folio.Mat{Picture: pocket.Content{Name: "plate", Size: units.MustParseSize("40 x 40 mm")}}}}
	planned := build(t, s)
	measured, err := planned.Refit(refit.Measured{Width: planned.OpenWidth().Length() + 3*mm, Height: planned.OpenHeight().Length()})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		p    *folio.Plan
		want [3][]string
	}{
		{planned, [3][]string{{"cover board", "spine board", "wrap", "liner", "mat"}, nil, {"board", "covering", "liner", "card", "glue for wrap and liner"}}},
		{measured, [3][]string{{"liner", "mat"}, {"cover board", "spine board", "wrap"}, {"liner", "card", "glue for liner"}}},
	} {
		p := c.p
		var got [3][]string // to cut, made, to buy
		told := map[string]bool{}
		for section := range guide.HandOut(p, guide.PrintOptions{}).Sections() {
			for _, b := range section.Blocks {
				switch b := b.(type) {
				case guide.Table:
					if len(b.Head) == 0 || b.Head[0] != "Piece" && b.Head[0] != "Material" && !strings.HasPrefix(b.Head[0], "Adhesive") {
						continue
					}
					list := &got[0]
					switch {
					case section.Title == "What to buy":
						list = &got[2]
					case !b.Boxes:
						list = &got[1]
					}
					for _, row := range b.Rows {
						what, _, _ := strings.Cut(row[0], ",")
						if strings.HasPrefix(what, "double-sided tape") {
							continue // nothing of the case is taped
						}
						*list = append(*list, what)
					}
				case guide.Texts:
					for _, line := range b {
						told[strings.ToLower(line)] = true
					}
				case guide.Para:
					told[string(b)] = true
				}
			}
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("to cut, made and to buy (-want +got):\n%s", diff)
		}
		changes := 0
		for c := range p.Changes() {
			if changes++; !told[strings.ToLower(c.String())+"."] {
				t.Errorf("%q is not told", c)
			}
		}
		if now := told["To cut now:"]; now != (p == measured) {
			t.Errorf("what is cut is said to be cut now: %t", now)
		}
		if (changes > 0) != (p == measured) {
			t.Errorf("%d changes", changes)
		}
	}
}

// A hand-out of mostPictures steps draws them all and says nothing of an end;
// one with two steps more says at the first of these, once, that it draws no further.
func TestMostPictures(t *testing.T) {
	for _, more := range []int{0, 1} { // ornaments, of two steps each
		s := folio.Spec{Cover: units.MustParseSize("1000 x 1200 mm"), Spine: rule.Spine{Width: 60 * mm}}
		s.Rulers.Main = units.WholeMillimetres
		for i := range 121 + more { // mats, of four steps each; the case takes 16
			f := folio.Fitting{Name: "crew " + strconv.Itoa(i), Kind: folio.Mat{Picture: pocket.Content{Name: "print", Size: units.MustParseSize("40 x 40 mm")}},
				Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: units.Length(i%16) * 55 * mm, Y: units.Length(i/16) * 55 * mm}}}
			if i >= 121 {
				f.Kind = folio.Ornament{Size: units.MustParseSize("40 x 40 mm")}
			}
			s.Fittings = append(s.Fittings, f)
		}
		all := ticks(guide.HandOut(build(t, s), guide.PrintOptions{}))
		if len(all) != 500+2*more {
			t.Fatalf("%d steps; this test needs 500 and 502", len(all))
		}
		for i, k := range all {
			said := slices.ContainsFunc(k.Notes, func(n string) bool { return strings.HasPrefix(n, "From here on the steps are not drawn") })
			if (k.Figure != nil) != (i < 500) || said != (i == 500) {
				t.Errorf("step %d of %d: drawn %v, and it is said that no more are: %v", k.Number, len(all), k.Figure != nil, said)
			}
		}
	}
}

// What has no name of its own is called "content", as in the order of work.
func TestHandOutNamesWhatItHolds(t *testing.T) {
	card := folio.Fitting{Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.Content{Size: units.MustParseSize("2 x 3 in")}, Count: 12}}}
	p, err := folio.Build(folio.Spec{Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: 5 * units.Inch / 8}, Fittings: []folio.Fitting{card}})
	if err != nil {
		t.Fatal(err)
	}
	if text := squeezed(guide.HandOut(p, guide.PrintOptions{}).AppendPlain(nil)); !strings.Contains(text, squeezed([]byte("Holds 12 x content"))) {
		t.Errorf("nothing says what it holds: %.600s", text)
	}
}
