package answers_test

import (
	"fmt"
	"strings"
	"testing"

	"boardwrap.example/examples/web/answers"
)

// Three wraps of 14 7/8 x 10 in (6 + 1/8 + 5/8 + 1/8 + 6 by 8 in, with 1 in turned
// in all round), their grain along the height, of sheets of 18 x 24 in with the
// grain along 24 in: two stand one above the other, 14 7/8 of 18 and 20 of 24 in,
// and three are 446 1/4 in² of 432 in². So two sheets, and no fewer.
func TestBatch(t *testing.T) {
	const folios = `{"version":1,"batch":{"folios":[{"copies":3,"spec":{"cover":"6 x 8 in","spine":{"width":"5/8 in"},"covering":{"sheets":[{"size":"18 x 24 in","grain":"along the height"}]}}}]`
	d := answers.New()
	got := d.Ask("batch", folios+`,"materials":[{"name":"covering","sheets":[{"size":"18 x 24 in","grain":"along the height","count":-1,"price":"4.50 USD"}]}],
		"costs":{"minutes":[30],"rate":"20.00 USD"}}}`)
	for _, c := range []struct {
		way  []any
		want any
	}{
		{[]any{"laid", "layout", "layout", "complete"}, true},
		{[]any{"laid", "layout", "layout", "materials", 0, "name"}, "covering"},
		{[]any{"laid", "layout", "layout", "materials", 0, "price"}, "9.00 USD"},
		{[]any{"laid", "apart", 0}, "board"},
		{[]any{"laid", "error"}, nil},
	} {
		if v := member(t, got, c.way...); v != c.want {
			t.Errorf("%v is %v; want %v", c.way, v, c.want)
		}
	}
	bought, _ := member(t, got, "laid", "layout", "layout", "materials", 0, "bought").(float64)
	if bound, _ := member(t, got, "laid", "layout", "layout", "materials", 0, "bound").(float64); bought != 2 || bound != 2 {
		t.Errorf("%v sheets, at least %v; want 2", bought, bound)
	}
	// 2 x 4.50 and 3 x 30 minutes of 20.00 an hour.
	if total := member(t, got, "laid", "costs", "costs", "total"); total != "39.00 USD" {
		t.Errorf("it costs %v", total)
	}
	if steps, _ := member(t, got, "laid", "layout", "layout", "steps").([]any); len(steps) < 2 {
		t.Errorf("%d steps", len(steps))
	}

	few := d.Ask("batch", folios+`,"materials":[{"name":"covering","sheets":[{"size":"18 x 24 in","count":1}]}]}}`)
	if member(t, few, "laid", "layout", "layout", "complete") != false || member(t, few, "laid", "error", "error", "problems", 0, "path") != "batch.materials[0].sheets" {
		t.Errorf("too few sheets: %.600s", few)
	}
	wrong := d.Ask("batch", strings.Replace(folios, "6 x 8 in", "6 x 8000 in", 1)+`}}`)
	if member(t, wrong, "error", "problems", 0, "path") != "batch.folios[0].spec.cover.h" {
		t.Errorf("a folio that cannot be: %.300s", wrong)
	}
}

func TestHandout(t *testing.T) {
	d := answers.New()
	hostile := strings.Replace(crew, "Eastwater bow pair", `<script>alert(1)</script>`, 1)
	html, _ := member(t, d.Ask("handout", hostile), "handout").(string)
	if !strings.HasPrefix(html, "<!DOCTYPE html>") && !strings.HasPrefix(html, "<!doctype html>") || strings.Contains(html, "<script") {
		t.Errorf("%.200s", html)
	}
	for _, form := range []string{"markdown", "plain"} {
		if text, _ := member(t, d.Ask("handout", crew, form), "handout").(string); !strings.Contains(text, "12 5/8") {
			t.Errorf("%s: no liner in %.200s", form, text)
		}
	}
}

// The hand-out tells how many sheets to buy and how they are cut: of those that the
// Spec says are at hand, or those of a batch.
func TestHandoutWithSheets(t *testing.T) {
	d := answers.New()
	if text, _ := member(t, d.Ask("handout", crew, "plain"), "handout").(string); !strings.Contains(text, "Sheets, at most") {
		t.Errorf("no sheets at hand: %.2000s", text)
	}
	sheeted := strings.Replace(crew, `"cover"`, `"covering":{"sheets":[{"size":"18 x 24 in"}]},"cover"`, 1)
	text, _ := member(t, d.Ask("handout", sheeted, "plain"), "handout").(string)
	if !strings.Contains(text, "Sheets for one folio:") || !strings.Contains(text, "1 sheet to buy") {
		t.Errorf("a wrap of 14 7/8 x 10 in needs one sheet of 18 x 24 in: %.3000s", text)
	}
	// Four of them: two wraps go on each sheet, one above the other.
	batch := `{"version":1,"batch":{"folios":[{"spec":` + strings.TrimSuffix(strings.TrimPrefix(sheeted, `{"version":1,"spec":`), "}") + `,"copies":4}]}}`
	if text, _ = member(t, d.Ask("handout", sheeted, "plain", batch), "handout").(string); !strings.Contains(text, "2 sheets to buy") {
		t.Errorf("four wraps need two sheets: %.3000s", text)
	}
	if got := member(t, d.Ask("handout", sheeted, "plain", "{"), "error"); got == nil {
		t.Error("a batch that is none is taken")
	}
}

func TestLists(t *testing.T) {
	d := answers.New()
	batch := `{"version":1,"batch":{"folios":[{"spec":{"title":"Eastwater bow pair","cover":"6 x 8 in","spine":{"width":"5/8 in"},"covering":{"sheets":[{"size":"18 x 24 in"}]}},"copies":4}],
		"materials":[{"name":"covering","sheets":[{"size":"18 x 24 in","count":-1,"price":"4.50 USD"}]}],"costs":{"rate":"30.00 USD","minutes":[60],"margin":4000}}}`
	for which, want := range map[string]string{"": "18 x 24 in", "buy": "18 x 24 in", "cut": "4 x wrap", "prices": "Eastwater bow pair"} {
		if text, _ := member(t, d.Ask("lists", batch, which, "plain"), "list").(string); !strings.Contains(text, want) {
			t.Errorf("%q: no %q in %.3000s", which, want, text)
		}
	}
	// Two sheets at 4.50 and four hours at 30.00 are 129.00; a quarter is 32.25, and
	// with 40 in 100 of the price left over the price is 53.75.
	if text, _ := member(t, d.Ask("lists", batch, "prices", "plain"), "list").(string); !strings.Contains(text, "53.75") || !strings.Contains(text, "129.00") {
		t.Errorf("%.3000s", text)
	}
	for _, bad := range []string{d.Ask("lists", batch, "colours"), d.Ask("lists", batch, "buy", "paint"), d.Ask("lists", "{}"), d.Ask("templates", "{}"), d.Ask("templates", crew, "paint")} {
		if member(t, bad, "error") == nil {
			t.Errorf("taken: %.300s", bad)
		}
	}
	if text, _ := member(t, d.Ask("templates", crew, "html"), "templates").(string); !strings.Contains(text, "<svg") {
		t.Errorf("templates without a drawing: %.300s", text)
	}
}

// Lists and hand-outs of what has no place on the sheets, of a batch whose folios
// cannot be made, and of costs that are wrong.
func TestListsOfWhatCannotBe(t *testing.T) {
	d := answers.New()
	batch := func(spec, rest string) string {
		return `{"version":1,"batch":{"folios":[{"spec":` + spec + `,"copies":2}]` + rest + `}}`
	}
	const folio = `{"cover":"6 x 8 in","spine":{"width":"5/8 in"},"covering":{"sheets":[{"size":"18 x 24 in"}]}}`
	// A wrap of 14 7/8 x 10 in goes on no sheet of 8 x 10 in, nor on three where there is one.
	small := batch(folio, `,"materials":[{"name":"covering","sheets":[{"size":"8 x 10 in","count":-1}]}]`)
	for _, text := range []string{d.Ask("lists", small), d.Ask("lists", batch(`{"cover":"6 x 8 in"}`, "")), d.Ask("lists", batch(folio, `,"costs":{"margin":10000}`), "prices"),
		d.Ask("batch", batch(folio, `,"cutter":{"kerf":"-1 mm"}`)), d.Ask("lists", batch(folio, `,"cutter":{"kerf":"-1 mm"}`))} {
		if member(t, text, "error", "problems", 0, "want") == nil {
			t.Errorf("taken: %.500s", text)
		}
	}
	made := `{"version":1,"spec":` + folio + `}`
	if text, _ := member(t, d.Ask("handout", made, "plain", small), "handout").(string); !strings.Contains(strings.Join(strings.Fields(text), " "), "Not everything has a place on the sheets: ") {
		t.Errorf("a wrap on a sheet that is smaller than itself: %.2000s", text)
	}
	if text := d.Ask("handout", made, "plain", batch(folio, `,"cutter":{"kerf":"-1 mm"}`)); member(t, text, "error", "problems", 0, "want") == nil {
		t.Errorf("taken: %.500s", text)
	}
	// What is left out of the layout is cut from sheets that are named one by one.
	if text, _ := member(t, d.Ask("handout", made, "plain", batch(folio, `,"except":["covering"]`)), "handout").(string); !strings.Contains(text, "Sheets, at most") {
		t.Errorf("%.2000s", text)
	}
}

// A sheet is drawn as large as its room, and no room is read out of what asks for none.
func TestRoomOfASheet(t *testing.T) {
	d := answers.New()
	const doc = `{"version":1,"batch":{"folios":[{"copies":1,"spec":{"cover":"6 x 8 in","spine":{"width":"5/8 in"}}}],"except":["board","liner"],"materials":[{"name":"covering","sheets":[{"size":"18 x 24 in","count":1}]}]}}`
	for wanted, most := range map[string]float64{"": 100, `{"version":1,"fit":"80 x 80 mm"}`: 80, `{"version":1,"fit":"140 x 140 mm"}`: 140} {
		svg, _ := member(t, d.Ask("batch", doc, wanted), "laid", "sheets", 0, "svg").(string)
		var wide, high float64
		if _, err := fmt.Sscanf(svg, `<svg xmlns="http://www.w3.org/2000/svg" width="%fmm" height="%fmm"`, &wide, &high); err != nil {
			t.Fatalf("%v: %.120s", err, svg)
		}
		if larger := max(wide, high); larger > most || larger < 0.8*most {
			t.Errorf("%q: %v x %v mm; want close to %v mm", wanted, wide, high, most)
		}
	}
	if got := d.Ask("batch", doc, `{"version":1,"fit":"60"}`); member(t, got, "error", "faults", 0, "pointer") != "/fit" {
		t.Errorf("%.300s", got)
	}
}
