package wire_test

import (
	"encoding/json"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units"
)

// The schema knows the words and the kinds, and refuses what there is not.
func TestSpecSchema(t *testing.T) {
	var doc struct {
		Schema     string `json:"$schema"`
		Properties map[string]any
		Defs       map[string]struct {
			AdditionalProperties *bool
			Properties           map[string]struct{ Enum []string }
			OneOf                []struct {
				Properties map[string]struct{ Const string }
			}
		} `json:"$defs"`
	}
	if err := json.Unmarshal(wire.SpecSchema(), &doc); err != nil {
		t.Fatal(err)
	}
	spec := doc.Defs["folio.Spec"]
	if spec.AdditionalProperties == nil || *spec.AdditionalProperties || !strings.Contains(doc.Schema, "2020-12") {
		t.Errorf("%+v", spec)
	}
	if words := strings.Join(spec.Properties["form"].Enum, "; "); !strings.Contains(words, "double-spine gate") {
		t.Errorf("forms: %s", words)
	}
	var kinds []string
	for _, k := range doc.Defs["folio.Kind"].OneOf {
		kinds = append(kinds, k.Properties["type"].Const)
	}
	if got := strings.Join(kinds, " "); got != "mat frame ornament folded" {
		t.Errorf("kinds: %s", got)
	}
}

// What is wrong with a folio goes out with its path and what would do.
func TestErrorDocument(t *testing.T) {
	_, err := folio.Build(folio.Spec{Cover: units.MustParseSize("6 x 8 in")})
	data, failed := wire.AppendError(nil, err, units.InchFraction, wire.Options{})
	if failed != nil {
		t.Fatal(failed)
	}
	var doc struct {
		Error struct {
			Problems []struct{ Path, Code, Want string }
		}
	}
	if err := json.Unmarshal(data, &doc); err != nil || len(doc.Error.Problems) != 1 || doc.Error.Problems[0].Path != "spine" || doc.Error.Problems[0].Want == "" {
		t.Errorf("%v\n%s", err, data)
	}
	_, err = wire.ReadSpec([]byte(`{"version":1,"spec":{"cover":7}}`))
	data, failed = wire.AppendError(nil, err, units.InchFraction, wire.Options{})
	if failed != nil || !strings.Contains(string(data), `"pointer":"/spec/cover"`) || !strings.Contains(string(data), `"line":1`) {
		t.Errorf("%v\n%s", failed, data)
	}
}

// What is wrong is written out whole: alone as one line, more of it one a line
// under their number, and what is beyond the limit as a number.
func TestErrorInWords(t *testing.T) {
	said := func(stocks string) string {
		t.Helper()
		_, err := wire.ReadSpec([]byte(`{"version":1,"spec":{"stocks":[` + stocks + `]}}`))
		if err == nil {
			t.Fatal("no error")
		}
		return err.Error()
	}
	one := `line 1, column 32, /spec/stocks/0: wrong-form: `
	if got := said("7"); !strings.HasPrefix(got, one) || strings.Contains(got, "\n") {
		t.Errorf("one fault: %s", got)
	}
	two := strings.Split(said("7,8"), "\n")
	if len(two) != 3 || two[0] != "2 things are wrong with the document:" || !strings.HasPrefix(two[1], "  "+one) ||
		!strings.HasPrefix(two[2], "  line 1, column 34, /spec/stocks/1: wrong-form: ") {
		t.Errorf("two faults: %q", two)
	}
	many := strings.Split(said(strings.Repeat("7,", wire.MostFaults+4)+"7"), "\n")
	if len(many) != wire.MostFaults+2 || many[0] != strconv.Itoa(wire.MostFaults+5)+" things are wrong with the document:" ||
		many[len(many)-1] != "  and 5 more" {
		t.Errorf("%d lines, from %q to %q", len(many), many[0], many[len(many)-1])
	}
}

// breaches says where a document is not as its schema has it: members that are
// missing, or that the schema does not know. It follows references, members and
// lists (JSON Schema 2020-12, Core, sections 8.2.3.1, 10.3.1.2 and 10.3.2.1;
// Validation, section 6.5.3); where there is a choice it asks no more.
func breaches(root, schema map[string]any, doc any, at string) (all []string) {
	if ref, ok := schema["$ref"].(string); ok {
		name := strings.TrimPrefix(ref, "#/$defs/")
		schema, ok = root["$defs"].(map[string]any)[name].(map[string]any)
		if !ok {
			return []string{at + ": no definition of " + name}
		}
	}
	switch doc := doc.(type) {
	case []any:
		items, ok := schema["items"].(map[string]any)
		for i, v := range doc {
			if !ok {
				return []string{at + ": a list"}
			}
			all = append(all, breaches(root, items, v, at+"/"+strconv.Itoa(i))...)
		}
	case map[string]any:
		if schema["oneOf"] != nil {
			return nil
		}
		required, _ := schema["required"].([]any)
		for _, name := range required {
			if _, ok := doc[name.(string)]; !ok {
				all = append(all, at+": no "+name.(string))
			}
		}
		members, _ := schema["properties"].(map[string]any)
		for name, v := range doc {
			member, ok := members[name].(map[string]any)
			if !ok {
				all = append(all, at+"/"+name+": unknown")
				continue
			}
			all = append(all, breaches(root, member, v, at+"/"+name)...)
		}
	}
	return all
}

// Each document that goes out has what its schema requires, and nothing that
// the schema does not know; with a member more, or one less, it has not.
func TestDocumentsAreAsTheirSchemas(t *testing.T) {
	p, err := folio.Build(crew())
	if err != nil {
		t.Fatal(err)
	}
	drawn, err := wire.AppendPlan(nil, p, wire.Options{})
	if err != nil {
		t.Fatal(err)
	}
	_, wrong := wire.ReadSpec([]byte(`{"version":1,"spec":{"cover":7}}`))
	problem, err := wire.AppendError(nil, wrong, units.InchFraction, wire.Options{})
	if err != nil {
		t.Fatal(err)
	}
	try := func(name string, schema, data []byte, body string) {
		var s, doc map[string]any
		if err := json.Unmarshal(schema, &s); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if err := json.Unmarshal(data, &doc); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for _, b := range breaches(s, s, doc, "") {
			t.Errorf("%s: %s", name, b)
		}
		doc[body].(map[string]any)["rig"] = true
		if got := breaches(s, s, doc, ""); len(got) != 1 || got[0] != "/"+body+"/rig: unknown" {
			t.Errorf("%s: a member more: %q", name, got)
		}
		delete(doc, body)
		if got := breaches(s, s, doc, ""); len(got) != 1 || got[0] != ": no "+body {
			t.Errorf("%s: a member less: %q", name, got)
		}
	}
	try("plan", wire.PlanSchema(), drawn, "plan")
	try("error", wire.ErrorSchema(), problem, "error")
	for name, data := range requests(t) {
		try(name, wire.RequestSchema(), data, "request")
	}
}
