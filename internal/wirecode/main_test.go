package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The code is that of the types. The go command runs this test again after a
// change of what it depends on only if the test reads it.
func TestCodeIsThatOfTheTypes(t *testing.T) {
	for _, name := range []string{"units", "units/money", "score", "pocket", "pocket/work", "folio", "folio/cost", "folio/fit", "folio/layout", "folio/post", "folio/propose", "folio/weigh", "folio/wire"} {
		files, err := filepath.Glob(filepath.Join("../..", name, "*.go"))
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: %v, %d files", name, err, len(files))
		}
		for _, f := range files {
			if _, err := os.ReadFile(f); err != nil {
				t.Fatal(err)
			}
		}
	}
	stale, err := run("../..", false)
	if err != nil {
		t.Fatal(err)
	}
	if len(stale) > 0 {
		t.Errorf("%s: go run ./internal/wirecode -write", stale)
	}
}

// A field more, a kind more, and what documents cannot hold are noticed.
func TestCode(t *testing.T) {
	pkg, err := load("../..", "../../"+room)
	if err != nil {
		t.Fatal(err)
	}
	files, err := code(pkg)
	if err != nil {
		t.Fatal(err)
	}
	for name, wants := range map[string][]string{
		"writespec": {"e.string(v.Title)", "(e.all || v.Outside) && e.member(m, `\"outside\":`)", "writeArray(e, v.Scores[:]"},
		"write":     {"writeObjects(e, v.Boards, (*encoder).writeBoard)", `e.begin("turnIn")`, "e.spec(&v.Spec)"},
		"readspec":  {"d.string(n, &v.Title)", "d.size(n, &v.Cover)", "case shapePocketSlip:", "readArray(d, n, v.Scores[:], "},
		"read":      {"d.spec(n, &v.Spec)"},
		"shape":     {`{name: "flapWidth", field: "flapwidth", of: shapeLength},`, `{name: "fittings", field: "fittings", of: shapeFolioFitting, list: true},`},
	} {
		for _, want := range wants {
			if !strings.Contains(string(files[name+suffix]), want) {
				t.Errorf("no %s in %s", want, name+suffix)
			}
		}
	}
	written = append(written, "encoder") // it has a map
	defer func() { written = written[:len(written)-1] }()
	if _, err := code(pkg); err == nil || !strings.Contains(err.Error(), "cannot stand in a document") {
		t.Errorf("an encoder as a document: %v", err)
	}
	written[len(written)-1] = "nothing"
	if _, err := code(pkg); err == nil || !strings.Contains(err.Error(), "has no nothing") {
		t.Errorf("what there is not as a document: %v", err)
	}
}
