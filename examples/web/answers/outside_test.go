package answers_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"boardwrap.example/examples/web/answers"
)

// Boards of 2 mm and no known grammage are weighed by it: 101 square inches at 2 x 640
// g/m² are 83.406 g. What the pocket holds is a card of ISO/IEC 7810, 85.6 x 53.98 x
// 0.76 mm, at 1400 kg/m³ 4.9164 g; the post is told of both.
func TestVerdictsByThickness(t *testing.T) {
	const made = `{"version":1,"spec":{"cover":"6 x 8 in","spine":{"width":"5/8 in"},"board":{"caliper":"2 mm"},"fittings":[{"name":"pocket","panel":"left cover",
		"kind":{"type":"folded","kind":{"type":"slip pocket","content":{"name":"card","size":"85.6 x 53.98 mm","thickness":"0.76 mm"}}}}]}}`
	got := answers.New().Ask("verdicts", made)
	var grams [2]float64
	for i := range grams {
		grams[i], _ = member(t, got, "verdicts", "weight", i, "grams").(float64)
		if c := member(t, got, "verdicts", "weight", i, "certainty"); c != "estimated" || grams[i] < 83.406 || grams[i] > 125 {
			t.Errorf("%d: %v g, %v", i, grams[i], c)
		}
	}
	if card := grams[1] - grams[0]; math.Abs(card-4.9164) > 1e-4 {
		t.Errorf("the card weighs %v g", card)
	}
	// Its packing is not known, so it is no less than that, to a tenth.
	want := fmt.Sprintf("it weighs at least %.1f g; at most 750 g are taken: weigh it", math.Floor(grams[1]*10)/10)
	if text := member(t, got, "verdicts", "post", 0, "posting", "formats", 1, "mass", "text"); text != want {
		t.Errorf("as a large letter: %v; want %s", text, want)
	}
}

// What a batch says is read whole or not at all, and what is wrong in it is named.
func TestBatchWithAMemberThatThereIsNot(t *testing.T) {
	const batch = `{"version":1,"batch":{"colour":"red","folios":[{"spec":{"cover":"6 x 8 in","spine":{"width":"5/8 in"}},"copies":1}]}}`
	d := answers.New()
	for _, what := range []string{"batch", "lists"} {
		if text, _ := member(t, d.Ask(what, batch), "error", "message").(string); !strings.Contains(text, "/batch/colour") {
			t.Errorf("%s: %s", what, text)
		}
	}
	if text, _ := member(t, d.Ask("handout", crew, "plain", batch), "error", "message").(string); !strings.Contains(text, "/batch/colour") {
		t.Errorf("handout: %s", text)
	}
}

// A page has the signs of the printer, a text those of a keyboard; a page is the usual
// form.
func TestSignsOfAHandout(t *testing.T) {
	d := answers.New()
	for form, signs := range map[string]bool{"": true, "html": true, "plain": false, "markdown": false} {
		if text, _ := member(t, d.Ask("handout", crew, form), "handout").(string); strings.Contains(text, " × ") != signs || text == "" {
			t.Errorf("%q: signs of the printer %v, want %v", form, !signs, signs)
		}
	}
}

// Two wraps of 14 7/8 x 10 in go on a sheet of 18 x 24 in, so n folios take half as
// many sheets, up; a folio of which none are made takes none.
func TestSheetsOfAHandout(t *testing.T) {
	d := answers.New()
	spec := `{"cover":"6 x 8 in","spine":{"width":"5/8 in"},"covering":{"sheets":[{"size":"18 x 24 in"}]}}`
	for _, c := range []struct {
		copies []int
		want   string
	}{{[]int{2}, "1 sheet to buy"}, {[]int{3}, "2 sheets to buy"}, {[]int{-1, 3}, "2 sheets to buy"}, {[]int{-1, 4}, "2 sheets to buy"}, {[]int{3, 2}, "3 sheets to buy"}} {
		var folios []string
		for _, n := range c.copies {
			folios = append(folios, fmt.Sprintf(`{"spec":%s,"copies":%d}`, spec, n))
		}
		text, _ := member(t, d.Ask("handout", `{"version":1,"spec":`+spec+`}`, "plain", `{"version":1,"batch":{"folios":[`+strings.Join(folios, ",")+`]}}`), "handout").(string)
		if !strings.Contains(text, c.want) {
			t.Errorf("%v: no %q in %.2000s", c.copies, c.want, text)
		}
	}
}

// Of a Spec a request keeps form, boards and papers, and nothing that what must go in
// decides.
func TestRequestKeepsTheCase(t *testing.T) {
	const made = `{"version":1,"spec":{"title":"Eastwater bow pair","cover":"6 x 8 in","spine":{"width":"5/8 in"},"form":"double-spine gate","flapWidth":"2 in","doorGap":"1/8 in",
		"board":{"caliper":"2 mm"},"magnets":{"diameter":"1/4 in","thickness":"1 mm","pairs":2},"fittings":[{"kind":{"type":"mat","size":"7 x 4 in"}}]}}`
	got := answers.New().Ask("request", `{"version":1,"contents":"1 ID-1 card"}`, made)
	kept, _ := member(t, got, "request", "case").(map[string]any)
	if len(kept) != 2 || kept["form"] != "double-spine gate" || member(t, got, "request", "case", "board", "caliper") != "2 mm" {
		t.Errorf("%s", got)
	}
}

// A box has half an inch round the closed folio on all sides: 6.2001 x 8.0126 in and
// 0.6376 in thick with its covering, it is an inch more, up on 1/16 in.
func TestBoxOfVerdicts(t *testing.T) {
	const made = `{"version":1,"spec":{"cover":"6 x 8 in","spine":{"width":"5/8 in"},"board":{"caliper":"2 mm"}}}`
	if box := member(t, answers.New().Ask("verdicts", made), "verdicts", "box"); box != "7 1/4 in x 9 1/16 in, 1 11/16 in deep" {
		t.Errorf("box %v", box)
	}
}
