package answers_test

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/examples/web/answers"
)

// Whatever is asked with a document in which there is a member that there is not, as the
// first text or a later one, the answer is an error that names the member, and says
// nothing of what would come after.
func TestWhatCannotBeReadIsNamed(t *testing.T) {
	d := answers.New()
	odd := strings.Replace(crew, `"spec":{`, `"spec":{"colour":"red",`, 1)
	for _, name := range d.Names() {
		text := odd
		switch name {
		case "batch", "lists":
			text = `{"version":1,"batch":{"colour":"red"}}`
		case "proposals":
			text = `{"version":1,"request":{"colour":"red"}}`
		case "request":
			text = `{"version":1,"contents":"1 ID-1 card","colour":"red"}`
		}
		if got, _ := member(t, d.Ask(name, text), "error", "message").(string); !strings.Contains(got, "colour") {
			t.Errorf("%s: %q", name, got)
		}
	}
	for name, texts := range map[string][]string{"request": {`{"version":1,"contents":"1 ID-1 card"}`, odd}, "handout": {crew, "plain", `{"version":1,"batch":{"colour":"red"}}`}, "pictures": {crew, `{"version":1,"colour":"red"}`}, "plan": {crew, "colour"}} {
		if got, _ := member(t, d.Ask(name, texts...), "error", "message").(string); !strings.Contains(got, "colour") {
			t.Errorf("%s: %q", name, got)
		}
	}
	// A folio that cannot be made is named where it stands, before anything is laid out.
	for _, name := range []string{"batch", "lists"} {
		got := d.Ask(name, `{"version":1,"batch":{"folios":[{"spec":{"cover":"6 x 8 in","spine":{"width":"5/8 in"}}},{"spec":{"cover":"6 x 8000 in","spine":{"width":"5/8 in"}}}]}}`)
		if path := member(t, got, "error", "problems", 0, "path"); path != "batch.folios[1].spec.cover.h" {
			t.Errorf("%s: at %v", name, path)
		}
	}
}

// What cannot go into any folio is said where it is asked for, and nothing is proposed.
func TestNothingCanBeProposed(t *testing.T) {
	d := answers.New()
	for things, path := range map[string]string{`[{"content":{"name":"chart","size":"-12 x 9 in"}}]`: "contents.things[0].content.size.w", `[]`: "contents.things"} {
		got := d.Ask("proposals", `{"version":1,"request":{"things":`+things+`}}`)
		if member(t, got, "error", "problems", 0, "path") != path || member(t, got, "proposals") != nil {
			t.Errorf("%.400s", got)
		}
	}
}

// A sheet is drawn to go into a square of 100 mm, however large it is, and the first 200
// of very many sheets.
func TestSheetsAreDrawnSmall(t *testing.T) {
	d := answers.New()
	batch := func(coverings int) string {
		var folios []string
		for i := range coverings {
			folios = append(folios, fmt.Sprintf(`{"spec":{"cover":"6 x 8 in","spine":{"width":"5/8 in"},"covering":{"name":"paper %d","sheets":[{"size":"700 x 1000 mm"}]}},"copies":1}`, i))
		}
		return d.Ask("batch", `{"version":1,"batch":{"folios":[`+strings.Join(folios, ",")+`]}}`)
	}
	svg, _ := member(t, batch(1), "laid", "sheets", 0, "svg").(string)
	size := regexp.MustCompile(`width="([\d.]+)mm" height="([\d.]+)mm"`).FindStringSubmatch(svg)
	if size == nil {
		t.Fatalf("%.200s", svg)
	}
	w, _ := strconv.ParseFloat(size[1], 64)
	if h, _ := strconv.ParseFloat(size[2], 64); w > 100 || h > 100 || max(w, h) < 90 {
		t.Errorf("%g x %g mm", w, h)
	}
	if n := strings.Count(batch(201), `{"name":"sheet `); n != 200 {
		t.Errorf("%d of 201 sheets are drawn", n)
	}
}

// Materials of a batch of which there are no sheets are none to lay anything out on.
func TestHandoutWithoutSheets(t *testing.T) {
	const batch = `{"version":1,"batch":{"folios":[],"materials":[{"name":"covering","sheets":[]}]}}`
	if text, _ := member(t, answers.New().Ask("handout", crew, "plain", batch), "handout").(string); !strings.Contains(text, "Sheets, at most") {
		t.Errorf("%.2000s", text)
	}
}

// What has no mass that is known or can be estimated is named.
func TestUnknownMass(t *testing.T) {
	got := answers.New().Ask("verdicts", strings.Replace(crew, `}}`, `},"fittings":[{"name":"crest","kind":{"type":"ornament","size":"1 x 1 in","thickness":"1/16 in"}}]}`, 1))
	for i := range 2 {
		list, _ := member(t, got, "verdicts", "weight", i, "unknown").([]any)
		if len(list) != 1 || list[0] != "crest (ornament)" {
			t.Errorf("%v is not known", list)
		}
	}
}
