package guide

import (
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

// What is in an element is written in all three ways, whatever it leaves out: a picture's
// title for a caption, boxes before pairs, a caption beside the words of a step; and what is
// empty writes nothing.
func TestElementsInEveryForm(t *testing.T) {
	p, err := folio.Build(folio.Spec{Title: "Log", Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.Inch}})
	if err != nil {
		t.Fatal(err)
	}
	pic, _ := Inside(p, Options{})
	write := func(e Element) (html, markdown, plain string) {
		d := &Document{title: "Log", sections: []Section{{Title: "Log"}, {Title: "Work", Blocks: []Element{e}}}}
		return string(d.AppendHTML(nil)), string(d.AppendMarkdown(nil)), string(d.AppendPlain(nil))
	}
	bare, _, _ := write(Para(""))
	for name, c := range map[string]struct {
		e                     Element
		html, markdown, plain string
	}{
		"a picture without a caption": {Figures{{Picture: pic}}, "<figcaption>Open folio, inside</figcaption>", "Picture: Open folio, inside. The inside", "Picture: Open folio, inside."},
		"a picture with one":          {Figures{{Picture: pic, Caption: "As it was"}}, "<figcaption>As it was</figcaption>", "Picture: Open folio, inside. The inside", "Picture: Open folio, inside."},
		"a step with a picture":       {Checklist{Part: "case", Ticks: []Tick{{Number: 3, Text: "Fold it.", Figure: &Figure{Picture: pic}}}}, "Fold it.</label></div>\n<figure><svg", "**3.** Fold it.", "3. Fold it."},
		"a step with a caption":       {Checklist{Ticks: []Tick{{Number: 3, Text: "Fold it.", Figure: &Figure{Picture: pic, Caption: "Half open"}}}}, "<figcaption>Half open</figcaption></figure></div></li>", "**3.** Fold it.", "3. Fold it."},
		"pairs with boxes":            {Table{Rows: [][]string{{"tape", "2 m"}}, Boxes: true}, "<label><input type=\"checkbox\"> tape</label></th><td>2 m</td>", "- [ ] tape: 2 m", "[ ] tape"},
		"pairs":                       {Table{Rows: [][]string{{"tape", "2 m"}}}, "<th scope=\"row\">tape</th><td>2 m</td>", "\n- tape: 2 m", "tape  2 m"},
		"a drawing without a caption": {Drawing{Title: "Corner", Description: "A line."}, "<figcaption>Corner</figcaption>", "Drawing: Corner. A line.", "Drawing: Corner. A line."},
	} {
		html, markdown, plain := write(c.e)
		for _, w := range [][2]string{{html, c.html}, {markdown, c.markdown}, {plain, c.plain}} {
			if !strings.Contains(w[0], w[1]) {
				t.Errorf("%s: no %q in %s", name, w[1], w[0][strings.LastIndex(w[0], "Work")+4:])
			}
		}
		if n := strings.Count(html, "<figcaption>"); n > 1 || n == 1 != strings.Contains(c.html, "figcaption") {
			t.Errorf("%s: %d captions", name, n)
		}
	}
	for name, e := range map[string]Element{"list": Texts{}, "table": Table{}, "pictures": Figures{}, "work": Checklist{}} {
		html, _, _ := write(e)
		for _, tag := range []string{"<ul", "<table", "<figure", "<ol", "class=\"figures\"", "<h3"} {
			if strings.Contains(html, tag) && !strings.Contains(bare, tag) {
				t.Errorf("an empty %s has a %s>", name, tag)
			}
		}
	}
}
