package answers_test

import (
	"encoding/json"
	"encoding/xml"
	"io"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/examples/web/answers"
)

const crew = `{"version":1,"spec":{"title":"Eastwater bow pair","cover":"6 x 8 in","spine":{"width":"5/8 in"}}}`

// member returns what stands at the end of a way of members and elements.
func member(t *testing.T, text string, way ...any) any {
	t.Helper()
	var v any
	if err := json.Unmarshal([]byte(text), &v); err != nil {
		t.Fatalf("no JSON: %v\n%s", err, text)
	}
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

func TestPlan(t *testing.T) {
	d := answers.New()
	// The liner of Bean (1914) and Vaughn (1912): 1/4 in less than the open cover
	// both ways; that is 6 + 1/8 + 5/8 + 1/8 + 6 by 8 in, hinges of two calipers of
	// 1/16 in.
	for i, want := range [][2]string{{"12 5/8 in", "7 3/4 in"}} {
		size := member(t, d.Ask("plan", crew), "plan", "pieces", 3+i, "size")
		if w, h := size.(map[string]any)["w"], size.(map[string]any)["h"]; w.(map[string]any)["text"] != want[0] || h.(map[string]any)["text"] != want[1] {
			t.Errorf("liner %v x %v", w, h)
		}
	}
	got := d.Ask("plan", crew, "pieces.name")
	if strings.Contains(got, "steps") || member(t, got, "plan", "pieces", 0, "name") != "cover board" {
		t.Errorf("only the names: %s", got)
	}
	made := strings.TrimSuffix(crew, "}") + `,"measured":{"width":"13 in","height":"8 in"}}`
	if got := member(t, d.Ask("plan", made), "plan", "pieces", 3, "size", "w", "text"); got != "12 3/4 in" {
		t.Errorf("the liner of a cover of 13 in: %v", got)
	}
	// A wrong member of what is wanted.
	if got := member(t, d.Ask("plan", crew, "pieces.colour"), "error", "message"); got == nil {
		t.Error("no error for a member that there is not")
	}
}

// What cannot be done is answered by an error that names the field and what would
// do; doing that mends it.
func TestErrors(t *testing.T) {
	d := answers.New()
	wide := strings.Replace(crew, `}}`, `},"fittings":[{"kind":{"type":"mat","size":"7 x 4 in"}}]}`, 1)
	text := d.Ask("plan", wide)
	if member(t, text, "error", "problems", 0, "path") != "fittings[0].kind.size.w" {
		t.Fatal(text)
	}
	limit, _ := member(t, text, "error", "problems", 0, "limit", "text").(string)
	if text = d.Ask("plan", strings.Replace(wide, "7 x", limit+" x", 1)); member(t, text, "plan") == nil {
		t.Errorf("%s did not mend it: %s", limit, text)
	}
	if got := d.Ask("plan", strings.Replace(strings.Replace(wide, `"spec":{`, `"spec":{"rulers":{"main":"1 mm"},`, 1), "6 x 8", "6.1 x 8", 1)); !strings.Contains(got, " mm") || strings.Contains(got, `1/16 in`) {
		t.Errorf("an error about a metric folio: %s", got)
	}
}

// Nothing that is asked makes anything but a document with a version.
func TestAnything(t *testing.T) {
	d := answers.New()
	texts := []string{"", "null", "[]", `"`, "{}", `{"version":1}`, `{"version":2,"spec":{}}`, crew, crew + crew, strings.Repeat("[", 1<<16), "\xff\xfe", `{"version":1,"spec":{"cover":7}}`,
		`{"version":1,"spec":{"title":"</script><script>alert(1)</script>","cover":"6 x 8 in","spine":{"width":"1 in"}}}`, `{"version":1,"spec":{"fittings":[{}]}}`,
		`{"version":1,"names":["piece 0","piece -1","piece x","piece 99999999999999999999","",""],"fit":"1 x 1 mm"}`, "spec", "plan", "costs", "error"}
	for _, name := range append(answers.New().Names(), "", "nothing") {
		for _, a := range texts {
			for _, b := range texts {
				got := d.Ask(name, a, b, b)
				var doc map[string]any
				if err := json.Unmarshal([]byte(got), &doc); err != nil || doc["version"] != 1.0 {
					t.Errorf("%s(%.40q, %.40q): %v: %.200s", name, a, b, err, got)
				}
			}
		}
	}
	if !slices.Contains(answers.New().Names(), "plan") {
		t.Error(answers.New().Names())
	}
}

// A desk that keeps the last plan answers as a new one does.
func TestKept(t *testing.T) {
	d := answers.New()
	other := strings.Replace(crew, "6 x 8", "5 x 7", 1)
	for _, text := range []string{crew, crew, other, "{}", other, crew} {
		if got, want := d.Ask("plan", text), answers.New().Ask("plan", text); got != want {
			t.Fatalf("%.60s: another answer the second time", text)
		}
	}
}

func TestSpec(t *testing.T) {
	d := answers.New()
	if got := member(t, d.Ask("spec", crew), "spec", "lining", "inset"); got != "1/8 in" {
		t.Errorf("the default inset is %v", got)
	}
	if got := member(t, d.Ask("tidy", crew), "spec", "lining"); got != nil {
		t.Errorf("tidy gives a default: %v", got)
	}
	mixed := strings.Replace(crew, "6 x 8 in", "76.2 x 101.6 mm", 1)
	if got := member(t, d.Ask("tidy", mixed), "spec", "cover"); got != "3 x 4 in" {
		t.Errorf("76.2 x 101.6 mm is %v", got)
	}
	metric := strings.Replace(crew, `"spec":{`, `"spec":{"rulers":{"main":"1 mm"},`, 1)
	if got := member(t, d.Ask("tidy", metric), "spec", "cover"); got != "152.4 x 203.2 mm" { // 25.4 mm an inch
		t.Errorf("6 x 8 in is %v", got)
	}
}

func TestPictures(t *testing.T) {
	d := answers.New()
	hostile := strings.Replace(crew, "Eastwater bow pair", `</title><script>alert(1)</script>`, 1)
	hostile = strings.Replace(hostile, `}}`, `},"fittings":[{"name":"<script>alert(2)</script>","kind":{"type":"mat","picture":{"name":"\" onload=\"alert(3)","size":"3 x 4 in"}}}]}`, 1)
	for _, alone := range []string{"false", "true"} {
		text := d.Ask("pictures", hostile, `{"version":1,"alone":`+alone+`}`)
		list, _ := member(t, text, "pictures").([]any)
		if len(list) < 4 {
			t.Fatalf("%d pictures: %.300s", len(list), text)
		}
		for i := range list {
			svg, _ := member(t, text, "pictures", i, "svg").(string)
			dec := xml.NewDecoder(strings.NewReader(svg))
			for {
				tok, err := dec.Token()
				if err == io.EOF {
					break
				}
				if err != nil {
					t.Fatalf("%d: %v", i, err)
				}
				if e, ok := tok.(xml.StartElement); ok {
					for _, a := range e.Attr {
						if strings.HasPrefix(a.Name.Local, "on") {
							t.Errorf("%d: %s", i, a.Name.Local)
						}
					}
					if e.Name.Local == "script" {
						t.Errorf("%d: a script", i)
					}
				}
			}
		}
	}
	some := d.Ask("pictures", crew, `{"version":1,"names":["piece 3","piece 77","kite 3","no such"],"fit":"60 x 60 mm"}`)
	if list, _ := member(t, some, "pictures").([]any); len(list) != 1 || member(t, some, "pictures", 0, "name") != "piece 3" {
		t.Errorf("asked for one: %.200s", some)
	}
	if w, _ := member(t, some, "pictures", 0, "width").(float64); w <= 0 || w > 120 {
		t.Errorf("%v mm wide", w)
	}
}
