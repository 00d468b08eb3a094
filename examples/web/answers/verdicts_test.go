package answers_test

import (
	"math"
	"strings"
	"testing"

	"boardwrap.example/examples/web/answers"
)

// A folio of boards alone, of 1/16 in at 640 g/m² a millimetre: two covers of 6 x 8
// in and a spine of 5/8 x 8 in are 101 square inches.
func TestVerdicts(t *testing.T) {
	d := answers.New()
	bare := `{"version":1,"spec":{"cover":"6 x 8 in","spine":{"width":"5/8 in"},"board":{"grammage":"1000 g/m²"},"covering":{"grammage":"100 g/m²"},"liner":{"grammage":"100 g/m²"}}}`
	got := d.Ask("verdicts", bare)
	if member(t, got, "verdicts", "closing", "closing", "shuts") != true {
		t.Fatalf("it does not shut: %s", got)
	}
	if text, _ := member(t, got, "verdicts", "closing", "closing", "full", 0, "text").(string); text == "" {
		t.Error("no word of the tightest place")
	}
	// Boards of 101 square inches at 1000 g/m²; a wrap of 14 7/8 x 10 in less its
	// four corners, at most triangles of twice its margin of 1 in, and a liner of 12 5/8 x 7 3/4 in, at 100 g/m².
	const inch = 0.0254
	high := (101*1000 + (14.875*10+12.625*7.75)*100) * inch * inch
	grams, _ := member(t, got, "verdicts", "weight", 0, "grams").(float64)
	if grams > high || grams < high-4*2*100*inch*inch || math.IsNaN(grams) {
		t.Errorf("it weighs %g g, want a little less than %g", grams, high)
	}
	if member(t, got, "verdicts", "weight", 0, "certainty") != "known" || member(t, got, "verdicts", "weight", 1, "filled") != true {
		t.Error(got)
	}
	if member(t, got, "verdicts", "post", 0, "posting", "source") == "" || member(t, got, "verdicts", "notice") == "" {
		t.Error("what the post says has no source or no notice")
	}
	if box, _ := member(t, got, "verdicts", "box").(string); !strings.Contains(box, " in deep") {
		t.Errorf("box %q", box)
	}
	if member(t, d.Ask("verdicts", "{}"), "error") == nil {
		t.Error("a verdict on nothing")
	}
}
