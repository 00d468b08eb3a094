package answers_test

import (
	"encoding/json"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/examples/web/answers"
	"boardwrap.example/folio/wire"
)

// Each schema says that it is of the draft 2020-12 (JSON Schema Core, section
// 8.1.1) and of an object; every member that it requires stands among its
// properties, and a document of that kind has all that is required and nothing else.
func TestSchemas(t *testing.T) {
	d := answers.New()
	const batch = `{"version":1,"batch":{"folios":[{"copies":3,"spec":{"cover":"6 x 8 in","spine":{"width":"5/8 in"}}}],"except":["board","covering","liner"]}}`
	part := func(name string) string {
		text, err := json.Marshal(member(t, d.Ask("batch", batch), "laid", name))
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	request := d.Ask("request", `{"version":1,"contents":"1 ID-1 card"}`, crew)
	for name, of := range map[string]struct {
		doc    string
		schema func() []byte
	}{
		"spec": {d.Ask("spec", crew), wire.SpecSchema}, "plan": {d.Ask("plan", crew), wire.PlanSchema}, "batch": {batch, wire.BatchSchema},
		"request": {request, wire.RequestSchema}, "proposals": {d.Ask("proposals", request), wire.ProposalsSchema},
		"layout": {part("layout"), wire.LayoutSchema}, "costs": {part("costs"), wire.CostsSchema}, "error": {d.Ask("plan", "{}"), wire.ErrorSchema},
	} {
		doc, text := of.doc, string(of.schema())
		if at := member(t, text, "$schema"); at != "https://json-schema.org/draft/2020-12/schema" || member(t, text, "type") != "object" {
			t.Errorf("%s: a schema of %v, of a %v", name, at, member(t, text, "type"))
		}
		properties, _ := member(t, text, "properties").(map[string]any)
		required, _ := member(t, text, "required").([]any)
		have, _ := member(t, doc).(map[string]any)
		if len(required) == 0 || have[name] == nil {
			t.Errorf("%s: %d members are required; a document is %.80s", name, len(required), doc)
		}
		for _, r := range required {
			if key := r.(string); properties[key] == nil || have[key] == nil {
				t.Errorf("%s: %s is required, but is no property or not in %.80s", name, key, doc)
			}
		}
		for key := range have {
			if properties[key] == nil {
				t.Errorf("%s: a document has %s, which is no property", name, key)
			}
		}
	}
	if got, _ := member(t, d.Ask("colours"), "error", "message").(string); !strings.Contains(got, "proposals") {
		t.Errorf("no such question: %q", got)
	}
}

// The wrap's sheet that a folio names is laid out without being named again; a
// currency that differs from that of the sheets leaves the layout, without costs.
func TestBatchOfItself(t *testing.T) {
	const folios = `{"version":1,"batch":{"folios":[{"copies":2,"spec":{"cover":"6 x 8 in","spine":{"width":"5/8 in"},"covering":{"sheets":[{"size":"18 x 24 in","grain":"along the height"}]}}}]`
	d := answers.New()
	// Two wraps of 14 7/8 x 10 in stand one above the other on 18 x 24 in.
	got := d.Ask("batch", folios+`}}`)
	if n, _ := member(t, got, "laid", "layout", "layout", "materials", 0, "bought").(float64); n != 1 || member(t, got, "laid", "layout", "layout", "materials", 0, "name") != "covering" || member(t, got, "laid", "layout", "layout", "complete") != true {
		t.Errorf("%v sheets: %.300s", n, got)
	}
	if list, _ := member(t, got, "laid", "sheets").([]any); len(list) != 1 || member(t, got, "laid", "sheets", 0, "name") != "sheet 1" {
		t.Errorf("%d sheets are drawn", len(list))
	}

	got = d.Ask("batch", folios+`,"materials":[{"name":"covering","sheets":[{"size":"18 x 24 in","grain":"along the height","count":-1,"price":"4.50 USD"}]}],"costs":{"minutes":[30],"rate":"20.00 EUR"}}}`)
	path, _ := member(t, got, "laid", "error", "error", "problems", 0, "path").(string)
	if !strings.HasPrefix(path, "batch.costs") || member(t, got, "laid", "costs") != nil || member(t, got, "laid", "layout", "layout", "complete") != true {
		t.Errorf("two currencies: at %q in %.300s", path, got)
	}
	got = d.Ask("batch", folios+`,"keep":{"short":"-1 in"}}}`)
	if at := member(t, got, "error", "problems", 0, "path"); at != "batch.keep.short" || member(t, got, "laid") != nil {
		t.Errorf("a length below nothing to keep: at %v in %.300s", at, got)
	}
}

// The list has the drawings of every fitting that folds, and each name in it, and
// every step of the plan, is drawn by that name.
func TestPictureNames(t *testing.T) {
	d := answers.New()
	folded := strings.Replace(crew, `}}`, `},"fittings":[{"name":"pass strip","panel":"left cover","kind":{"type":"folded","kind":{"type":"folded strip","content":{"size":"53.98 x 85.6 mm"}}}}]}`, 1)
	var names []string
	list, _ := member(t, d.Ask("pictures", folded, `{"version":1,"names":[],"list":true}`), "names").([]any)
	for _, n := range list {
		names = append(names, n.(string))
	}
	pieces, _ := member(t, d.Ask("plan", folded), "plan", "pieces").([]any)
	for i := range pieces {
		if !slices.Contains(names, "piece "+strconv.Itoa(i)) {
			t.Errorf("piece %d is not in %q", i, names)
		}
	}
	if !slices.Contains(names, "strip 0") || slices.Contains(names, "accordion 0") {
		t.Errorf("the strip is not in %q", names)
	}
	steps, _ := member(t, d.Ask("plan", folded), "plan", "steps").([]any)
	for i := range steps {
		names = append(names, "step "+strconv.Itoa(i+1))
	}
	if len(steps) < 3 {
		t.Errorf("%d steps", len(steps))
	}
	drawn := func(names []string) []any {
		text, err := json.Marshal(map[string]any{"version": 1, "names": names})
		if err != nil {
			t.Fatal(err)
		}
		list, _ := member(t, d.Ask("pictures", folded, string(text)), "pictures").([]any)
		return list
	}
	got := drawn(names)
	if len(got) != len(names) {
		t.Fatalf("%d of %d are drawn", len(got), len(names))
	}
	for i, n := range names {
		if p := got[i].(map[string]any); p["name"] != n || p["title"] == "" {
			t.Errorf("%v, %v is drawn for %s", p["name"], p["title"], n)
		}
	}
	if got := drawn([]string{"step 0", "step " + strconv.Itoa(len(steps)+1)}); len(got) != 0 {
		t.Errorf("%d drawings of steps that there are not", len(got))
	}
	// However often one is asked for, an answer stays of bounded size.
	if got := drawn(slices.Repeat([]string{"piece 0"}, 1000)); len(got) != 200 {
		t.Errorf("%d pictures", len(got))
	}
}

// What is no request, of nothing, or of a card less than nothing wide, is answered by
// an error and not by folios; so are words of another version or with other members.
func TestNoProposals(t *testing.T) {
	d := answers.New()
	request := d.Ask("request", `{"version":1,"contents":"1 ID-1 card"}`, crew)
	if member(t, request, "request") == nil {
		t.Fatal(request)
	}
	wrong := strings.Replace(request, "53.98", "-53.98", 1) // the height of ID-1, ISO/IEC 7810
	if wrong == request {
		t.Fatal(request)
	}
	for _, text := range []string{"{}", `{"version":1,"request":{"things":[]}}`, wrong} {
		if got := d.Ask("proposals", text); member(t, got, "error", "message") == nil || member(t, got, "proposals") != nil {
			t.Errorf("%.80s: %.200s", text, got)
		}
	}
	for _, text := range []string{`{"version":2,"contents":"1 ID-1 card"}`, `{"version":1,"colour":"red"}`} {
		if got := d.Ask("request", text, crew); member(t, got, "error", "message") == nil {
			t.Errorf("%s: %.200s", text, got)
		}
	}
	if got := d.Ask("request", `{"version":1,"contents":"1 ID-1 card"}`, `{"version":1,"spec":{"cover":7}}`); member(t, got, "error", "message") == nil {
		t.Errorf("a Spec that is none: %.200s", got)
	}
}
