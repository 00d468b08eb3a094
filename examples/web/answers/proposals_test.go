package answers_test

import (
	"encoding/json"
	"strings"
	"testing"

	"boardwrap.example/examples/web/answers"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/propose"
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

// What is proposed has the form of the Spec, whichever that is, a row of boards of one's
// own too; with any form it says which was taken and why none of the others.
func TestFormsOfProposals(t *testing.T) {
	d := answers.New()
	const things = `"version":1,"contents":"1 print 4 x 6 in in view, 1 ID-1 card"`
	ask := func(wish, made string) (string, []any) {
		t.Helper()
		got := d.Ask("proposals", d.Ask("request", "{"+things+wish+"}", made))
		list, _ := member(t, got, "proposals", "proposals").([]any)
		if len(list) == 0 {
			t.Errorf("%s, %s: none: %.500s", wish, made, got)
		}
		return got, list
	}
	forms := propose.AnyForm()
	of := func(form string) string { return strings.Replace(crew, `"spec":{`, `"spec":{`+form+`,`, 1) }
	for _, f := range forms {
		for i, list := range []string{"", `,"anyForm":false`} {
			got, all := ask(list, of(`"form":"`+f.String()+`"`))
			for k := range all {
				form := member(t, got, "proposals", "proposals", k, "spec", "form")
				if form != f.String() && (form != nil || f.Form != boards.SpineBoard) || member(t, got, "proposals", "proposals", k, "chosen") != nil {
					t.Errorf("%s, %d: of form %v", f, i, form)
				}
			}
		}
	}
	const own = `"row":{"boards":[{"role":"left cover"},{"role":"spine"},{"role":"right cover"}],"joints":[{},{}]}`
	got, all := ask("", of(own))
	for k := range all {
		if roles, _ := member(t, got, "proposals", "proposals", k, "spec", "row", "boards").([]any); len(roles) != 3 {
			t.Errorf("a row of one's own: %d boards", len(roles))
		}
	}
	for _, made := range []string{"", crew, of(`"form":"double-spine gate"`), of(own)} {
		got, all := ask(`,"anyForm":true`, made)
		for k := range all {
			chosen, _ := member(t, got, "proposals", "proposals", k, "chosen", 0, "form").(string)
			others, _ := member(t, got, "proposals", "proposals", k, "chosen", 0, "others").([]any)
			if len(others) != len(forms)-1 || member(t, got, "proposals", "proposals", k, "chosen", 0, "others", 0, "why", 0, "text") == nil {
				t.Errorf("%.60s: %s of %d others", made, chosen, len(others))
			}
		}
	}
}
