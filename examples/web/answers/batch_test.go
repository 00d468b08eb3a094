package answers_test

import (
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
	var d answers.Desk
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
	var d answers.Desk
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
