package answers_test

import (
	"encoding/json"
	"testing"

	"boardwrap.example/examples/web/answers"
)

// What is proposed is a Spec that can be made, larger than what goes in.
func TestProposals(t *testing.T) {
	d := answers.New()
	got := d.Ask("proposals", d.Ask("request", `{"version":1,"contents":"1 print 4 x 6 in in view, 1 ID-1 card"}`, crew))
	list, _ := member(t, got, "proposals", "proposals").([]any)
	if len(list) == 0 {
		t.Fatalf("%.500s", got)
	}
	for i := range list {
		spec, err := json.Marshal(map[string]any{"version": 1, "spec": member(t, got, "proposals", "proposals", i, "spec")})
		if err != nil {
			t.Fatal(err)
		}
		plan := d.Ask("plan", string(spec))
		fittings, _ := member(t, plan, "plan", "fittings").([]any)
		w, _ := member(t, plan, "plan", "boards", 0, "width", "length", "mm").(float64)
		h, _ := member(t, plan, "plan", "boards", 0, "height", "length", "mm").(float64)
		if len(fittings) != 2 || w*h < 101.6*152.4 {
			t.Errorf("%v: %d fittings on covers of %v x %v mm: %.300s", member(t, got, "proposals", "proposals", i, "aim"), len(fittings), w, h, plan)
		}
	}
	for text, path := range map[string]string{
		`{"version":1,"contents":"3 somethings"}`: "contents.things[0]",
		`{"version":1,"contents":""}`:             "contents.things[0]",
	} {
		if at := member(t, d.Ask("request", text, crew), "error", "problems", 0, "path"); at != path {
			t.Errorf("%s: at %v; want %s: %s", text, at, path, d.Ask("request", text, crew))
		}
	}
}
