//go:build long

package main

import (
	"bytes"
	"compress/gzip"
	"os"
	"path/filepath"
	"testing"
)

// The programs are measured against an empty one with encoding/json. What is above
// that is the library itself: machine code of every room that is needed, and the tables
// by which Go finds its way in it. The planner, which is all that the first view waits
// for, leaves out what is judged, laid out, proposed, priced and printed, and everything
// of Go's own that it can do without. With Go 1.26 an empty program is 0.55 times the
// one with encoding/json, with units 0.63, with pockets 0.93, with folio.Build and Refit
// 1.39, with the documents of a Spec, a summary and an error 1.63, with the four
// pictures 1.79 before helpers that are called in many places were kept from being
// copied into them (go:noinline). The limits hold what there is.
var mostTimes = map[string]struct{ plain, zipped float64 }{
	"boardwrap.wasm": {3.83, 3.44},
	"planner.wasm":   {1.78, 1.71},
}

func TestLongSizeOfThePrograms(t *testing.T) {
	dir := t.TempDir()
	empty := filepath.Join(dir, "empty")
	if err := os.Mkdir(empty, 0o755); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{
		"go.mod":  "module empty.example\n\ngo 1.26\n",
		"main.go": "package main\n\nimport \"encoding/json\"\n\nfunc main() {\n\tvar v map[string]any\n\t_ = json.Unmarshal([]byte(`{}`), &v)\n\tb, _ := json.Marshal(v)\n\tprintln(len(b))\n}\n",
	} {
		if err := os.WriteFile(filepath.Join(empty, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	out := filepath.Join(dir, "empty.wasm")
	if _, err := output(t.Context(), []string{"GOOS=js", "GOARCH=wasm", "GOWORK=off"}, "go", "build", "-C", empty, "-trimpath", "-ldflags=-s -w", "-o", out); err != nil {
		t.Fatal(err)
	}
	least, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	for name, most := range mostTimes {
		program, err := compile(t.Context(), dir, programTags[name])
		if err != nil {
			t.Fatal(err)
		}
		plain := float64(len(program)) / float64(len(least))
		zipped := float64(zippedSize(t, program)) / float64(zippedSize(t, least))
		t.Logf("%s has %d bytes, %d zipped; an empty program %d and %d: %.2f and %.2f times as many",
			name, len(program), zippedSize(t, program), len(least), zippedSize(t, least), plain, zipped)
		if plain > most.plain || zipped > most.zipped {
			t.Errorf("%s has grown: at most %.2f and %.2f times", name, most.plain, most.zipped)
		}
	}
}

func zippedSize(t *testing.T, b []byte) int {
	t.Helper()
	var z bytes.Buffer
	w, err := gzip.NewWriterLevel(&z, gzip.BestCompression)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := w.Write(b); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return z.Len()
}
