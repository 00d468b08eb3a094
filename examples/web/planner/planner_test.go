package planner_test

import (
	"encoding/json"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/examples/web/answers"
	"boardwrap.example/examples/web/planner"
	"boardwrap.example/folio"
	"boardwrap.example/folio/guide"
	"boardwrap.example/units"
)

const (
	crew   = `{"version":1,"spec":{"title":"Eastwater <bow> pair","cover":"6 x 8 in","spine":{"width":"5/8 in"}}}`
	metric = `{"version":1,"spec":{"rulers":{"main":"1 mm"},"cover":"150 x 210 mm","spine":{"width":"18 mm"},"fittings":[` +
		`{"name":"oars","panel":"left cover","kind":{"type":"mat","picture":{"size":"100 x 140 mm"}}},` +
		`{"name":"cards","panel":"right cover","kind":{"type":"folded","kind":{"type":"gusset pocket","content":{"name":"race card","size":"85 x 54 mm"}}}}]}}`
	refitted = `{"version":1,"spec":{"cover":"6 x 8 in","spine":{"width":"5/8 in"}},"measured":{"width":"13 in","height":"8 in"}}`
	soft     = `{"version":1,"spec":{"form":"two covers, soft spine","cover":"6 x 8 in","spine":{"contents":"3/8 in"}}}`
)

// at goes into a document by members and elements; nil where there is nothing.
func at(v any, way ...any) any {
	for _, k := range way {
		switch k := k.(type) {
		case string:
			o, _ := v.(map[string]any)
			v = o[k]
		case int:
			l, _ := v.([]any)
			if k >= len(l) {
				return nil
			}
			v = l[k]
		}
	}
	return v
}

func document(t *testing.T, text string) any {
	t.Helper()
	var v any
	if err := json.Unmarshal([]byte(text), &v); err != nil {
		t.Fatalf("%v: %.200s", err, text)
	}
	return v
}

// What a summary says is what the plan's document says.
func TestSummary(t *testing.T) {
	small, all := planner.New(planner.Pictures{}), answers.New()
	for _, made := range []string{crew, metric, refitted, soft} {
		text := small.Ask("summary", made)
		if text != all.Ask("summary", made) {
			t.Errorf("the small desk answers otherwise about %.60s", made)
		}
		s, p := at(document(t, text), "summary"), at(document(t, all.Ask("plan", made)), "plan")
		if s == nil || p == nil {
			t.Fatalf("%.200s", text)
		}
		pairs := [][2]any{
			{at(s, "title"), at(p, "title")},
			{at(s, "open", "width"), at(p, "open", "width", "length", "text")}, {at(s, "open", "height"), at(p, "open", "height", "length", "text")},
		}
		if (at(s, "closed") == nil) != (at(p, "closed") == nil) {
			t.Errorf("%.40s: closed %v, in the plan %v", made, at(s, "closed"), at(p, "closed"))
		}
		for list, members := range map[string][][2][]any{
			"boards": {{{}, {"role"}}},
			"pieces": {{{"name"}, {"name"}}, {{"stock"}, {"stock"}}, {{"fitting"}, {"fitting"}}, {{"quantity"}, {"quantity"}}, {{"width"}, {"size", "w", "text"}}, {{"height"}, {"size", "h", "text"}},
				{{"working", 0}, {"width", "text"}}, {{"working", 1}, {"height", "text"}}},
			"fittings": {{{"index"}, {"index"}}, {{"label"}, {"label"}}, {{"panel"}, {"panel"}}, {{"outside"}, {"outside"}}, {{"x"}, {"rect", "min", "x", "mm"}}, {{"y"}, {"rect", "min", "y", "mm"}},
				{{"pieces", 0}, {"pieces", 0}}, {{"pieces", 1}, {"pieces", 1}}},
			"warnings": {{{}, {"text"}}},
		} {
			short, _ := at(s, list).([]any)
			long, _ := at(p, list).([]any)
			if len(short) != len(long) {
				t.Errorf("%d %s, %d in the plan", len(short), list, len(long))
				continue
			}
			for i := range short {
				for _, m := range members {
					pairs = append(pairs, [2]any{at(short[i], m[0]...), at(long[i], m[1]...)})
				}
			}
		}
		for i, pair := range pairs {
			if pair[0] != pair[1] {
				t.Errorf("%.40s, %d: %v, in the plan %v", made, i, pair[0], pair[1])
			}
		}
	}
}

// What is wrong is said as the whole desk says it, in the Spec's own unit.
func TestFaults(t *testing.T) {
	small, all := planner.New(planner.Pictures{}), answers.New()
	for _, bad := range []string{
		"", "{", `{"version":2}`, `{"version":1,"spec":{"cover":7}}`, `{"version":1,"spec":{"cover":"1 x 1 in"}}`,
		strings.Replace(metric, "100 x 140", "200 x 140", 1), strings.Replace(refitted, "13 in", "3 in", 1), "\xff",
	} {
		got := small.Ask("summary", bad)
		if at(document(t, got), "error") == nil || got != all.Ask("plan", bad) {
			t.Errorf("%.60q: %s", bad, got)
		}
	}
	// A limit is told in the unit of the main ruler, in inches where the Spec has none.
	wide := `{"version":1,"spec":{"rulers":{"main":"1 mm"},"cover":"6 x 8 in","spine":{"width":"5/8 in"},"fittings":[{"kind":{"type":"mat","size":"9 x 4 in"}}]}}`
	for made, unit := range map[string]string{wide: " mm", strings.Replace(wide, "1 mm", "1/16 in", 1): " in"} {
		if want, _ := at(document(t, small.Ask("summary", made)), "error", "problems", 0, "limit", "text").(string); !strings.HasSuffix(want, unit) {
			t.Errorf("at most %s; want it in%s", want, unit)
		}
	}
	decimal := at(document(t, small.Ask("summary", strings.Replace(wide, "1 mm", "0.001 in", 1))), "error", "problems", 0, "limit", "text")
	if text, _ := decimal.(string); !strings.Contains(text, ".") || !strings.HasSuffix(text, " in") {
		t.Errorf("at most %s; want it in decimals of an inch", text)
	}
	bare, sixteenths := strings.Replace(wide, `"rulers":{"main":"1 mm"},`, "", 1), strings.Replace(wide, "1 mm", "1/16 in", 1)
	if got := small.Ask("summary", bare); got != small.Ask("summary", sixteenths) {
		t.Errorf("without a ruler: %s", got)
	}
	if got := small.Ask("summary", strings.Replace(crew, `"title"`, `"colour"`, 1)); !strings.Contains(got, "colour") {
		t.Error(got)
	}
	if got := small.Ask("plan", crew); !strings.Contains(got, "there is no question \\\"plan\\\"; there are summary, pictures") {
		t.Error(got)
	}
	if got := small.Ask(strings.Repeat("plan\u202e", 1<<17), crew); len(got) > 1000 { // quoted short
		t.Errorf("an answer of %d bytes", len(got))
	}
	broken := planner.New(planner.Pictures{}, planner.Question{Name: "broken", Answer: func(*planner.Desk, [3]string) ([]byte, error) { panic("broken") }})
	if got := broken.Ask("broken"); !strings.Contains(got, "a mistake in boardwrap itself") {
		t.Error(got)
	}
}

// Why a folio cannot be made is kept as a plan is: a front end asks for several things
// about one document, wrong or not.
func TestWhatIsWrongIsWorkedOutOnce(t *testing.T) {
	d := planner.New(planner.Pictures{})
	wrong := strings.Replace(metric, "100 x 140", "200 x 140", 1)
	once := d.Ask("summary", wrong)
	n := 0
	anew := testing.AllocsPerRun(10, func() {
		n++
		d.Ask("pictures", wrong+strings.Repeat(" ", n))
	})
	d.Ask("summary", wrong)
	again := testing.AllocsPerRun(10, func() { d.Ask("pictures", wrong) })
	if again > anew/4 {
		t.Errorf("%v allocations for the second answer, of %v for the first", again, anew)
	}
	if got := d.Ask("pictures", wrong); got != once {
		t.Errorf("%s; was %s", got, once)
	}
	if got := d.Ask("summary", metric); strings.Contains(got, `"error"`) || d.Ask("pictures", wrong) != once || d.Ask("summary", metric) != got {
		t.Error("an answer about one document is given for another one")
	}
}

// Pictures are the same from both desks, those of folds come from the whole one.
func TestPictures(t *testing.T) {
	small, all := planner.New(planner.Pictures{}), answers.New()
	const four = `{"version":1,"names":["inside","closed","outside","wrap"],"fit":"90 x 90 mm","alone":false,"list":false}`
	for _, made := range []string{crew, metric, refitted, soft} {
		got := small.Ask("pictures", made, four)
		if got != all.Ask("pictures", made, four) {
			t.Errorf("the small desk draws otherwise: %.60s", made)
		}
		list, _ := at(document(t, got), "pictures").([]any)
		if len(list) < 3 {
			t.Errorf("%d pictures", len(list))
		}
		for i := range list {
			if svg, _ := at(list[i], "svg").(string); !strings.HasPrefix(svg, "<svg ") || at(list[i], "description") == "" {
				t.Errorf("%v: %.40s", at(list[i], "name"), svg)
			}
		}
	}
	names := func(d *planner.Desk) []any {
		list, _ := at(document(t, d.Ask("pictures", metric, `{"version":1,"names":[],"list":true}`)), "names").([]any)
		return list
	}
	if a, b := names(small), names(all); !slices.Equal(a, []any{"inside", "closed", "outside", "wrap"}) || !slices.Contains(b, any("strip 1")) || !slices.Contains(b, any("piece 0")) {
		t.Error(a, b)
	}
	if got := small.Ask("pictures", metric, `{"version":1,"names":["strip 1","piece 0","piece x","no such"]}`); len(at(document(t, got), "pictures").([]any)) != 0 {
		t.Errorf("%.200s", got)
	}
}

// A document that is not the one that asks for pictures is refused, and says so.
func TestWanted(t *testing.T) {
	d := planner.New(planner.Pictures{})
	for _, bad := range []string{"{", "[]", `{}`, `{"version":1,"names":[7]}`, `{"version":1,"colour":"red"}`} {
		if got := d.Ask("pictures", crew, bad); at(document(t, got), "error", "message") == nil {
			t.Errorf("%s: %.100s", bad, got)
		}
	}
	for _, n := range []int{planner.MostPictures, planner.MostPictures + 1, 1000} {
		many := `{"version":1,"names":["inside"` + strings.Repeat(`,"inside"`, n-1) + `],"fit":"20 x 20 mm"}`
		if got := at(document(t, d.Ask("pictures", crew, many)), "pictures").([]any); len(got) != 200 {
			t.Errorf("%d pictures of %d", len(got), n)
		}
	}
}

// A picture is drawn by its name, the same as it is without a desk; of the others the
// kind and the number in the name are asked for, and what is not there is left out.
func TestPicturesByName(t *testing.T) {
	d := planner.New(planner.Pictures{})
	p, err := d.Build(crew)
	if err != nil {
		t.Fatal(err)
	}
	if again, _ := d.Build(crew); again != p {
		t.Error("the plan is worked out a second time")
	}
	if other, err := d.Build(metric); err != nil || other == p {
		t.Errorf("another folio has the same plan: %v", err)
	}
	if made, err := d.Build(refitted); err != nil {
		t.Error(err)
	} else if m, ok := made.Measured(); !ok || m.Width != 13*units.Inch {
		t.Errorf("measured %v", m)
	}
	for name, draw := range map[string]func(*folio.Plan, guide.Options) (guide.Picture, bool){"inside": guide.Inside, "outside": guide.Outside, "closed": guide.Closed, "wrap": guide.Wrap} {
		want, _ := draw(p, guide.Options{})
		got, ok := d.Draw(p, name, guide.Options{})
		if !ok || string(got.AppendSVG(nil)) != string(want.AppendSVG(nil)) {
			t.Errorf("another picture of the %s", name)
		}
	}
	if _, ok := d.Draw(p, "step 1", guide.Options{}); ok {
		t.Error("a desk without pictures of steps draws one")
	}
	var asked []string
	there := false
	more := planner.New(planner.Pictures{Draw: func(p *folio.Plan, kind string, i int, o guide.Options) (guide.Picture, bool) {
		asked = append(asked, kind+" "+strconv.Itoa(i))
		pic, _ := guide.Inside(p, o)
		return pic, there
	}})
	for _, there = range []bool{false, true} {
		asked = nil
		list, _ := at(document(t, more.Ask("pictures", crew, `{"version":1,"names":["step 7","step x","step","step -1","step 7 8"]}`)), "pictures").([]any)
		if want := []string{"step 7", "step 0", "step -1"}; !slices.Equal(asked, want) || (len(list) == 3) != there {
			t.Errorf("there %t: asked for %q; want %q; %d are drawn", there, asked, want, len(list))
		}
	}
}

// Without a wish all pictures are drawn, those alone as files of their own and the
// others as parts of a page; what the folio lacks has none.
func TestAllPictures(t *testing.T) {
	d := planner.New(planner.Pictures{})
	for _, c := range []struct {
		wish, begins string
	}{
		{"", "<svg "},
		{`{"version":1}`, "<svg "},
		{`{"version":1,"alone":true}`, "<?xml"},
	} {
		pictures, _ := at(document(t, d.Ask("pictures", crew, c.wish)), "pictures").([]any)
		var names []any
		for _, p := range pictures {
			names = append(names, at(p, "name"))
			if svg, _ := at(p, "svg").(string); !strings.HasPrefix(svg, c.begins) {
				t.Errorf("%s: %v begins with %.40q", c.wish, at(p, "name"), svg)
			}
		}
		if !slices.Equal(names, []any{"inside", "closed", "outside", "wrap"}) {
			t.Errorf("%s: %v", c.wish, names)
		}
	}
	if got := document(t, d.Ask("pictures", `{"version":1,"spec":{}}`, "")); at(got, "error") == nil || at(got, "pictures") != nil {
		t.Errorf("pictures of what is no folio: %v", got)
	}
}
