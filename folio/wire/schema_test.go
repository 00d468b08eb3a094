package wire_test

import (
	"encoding/json"
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
