package schemas_test

import (
	"os"
	"path/filepath"
	"testing"

	"boardwrap.example/folio/wire"
)

// The documents of version 1 are valid by the schemas of their time, and those that
// come in by today's.
func TestVersion1(t *testing.T) {
	const v1 = "../../folio/wire/testdata/v1/"
	coming := map[string][]byte{"request": wire.RequestSchema(), "batch": wire.BatchSchema()}
	kinds, tried := 0, 0
	for _, kind := range []string{"request", "batch", "plan", "layout", "costs", "closing", "holding", "posting", "proposals", "error"} {
		text, err := os.ReadFile(v1 + "schema/" + kind + ".json")
		if err != nil {
			t.Fatal(err)
		}
		then := compiled(t, text)
		kinds++
		names, err := filepath.Glob(v1 + kind + "/*.json")
		if err != nil || len(names) == 0 {
			t.Fatalf("%s: %v, no documents", kind, err)
		}
		for _, name := range names {
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			tried++
			doc := read(t, data)
			if err := then.Validate(doc); err != nil {
				t.Errorf("%s: %v", name, err)
			}
			if now, ok := coming[kind]; ok {
				if err := compiled(t, now).Validate(doc); err != nil {
					t.Errorf("%s today: %v", name, err)
				}
			}
		}
	}
	if kinds != 10 || tried < 12 {
		t.Errorf("%d kinds, %d documents", kinds, tried)
	}
}
