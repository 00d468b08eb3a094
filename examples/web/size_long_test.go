//go:build long

package main

import (
	"bytes"
	"compress/gzip"
	"os"
	"path/filepath"
	"testing"
)

// The program is measured against an empty one with encoding/json, which folio/wire
// needs: what is above that is the library itself, machine code of every room from
// units to the pictures, and the tables by which Go finds its way in it. What the
// binding adds is less than one in a hundred. The limits hold what there is.
const (
	mostTimesPlain  = 3.6
	mostTimesZipped = 3.4
)

func TestLongSizeOfTheProgram(t *testing.T) {
	dir := t.TempDir()
	program, err := compile(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
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
	plain := float64(len(program)) / float64(len(least))
	zipped := float64(zippedSize(t, program)) / float64(zippedSize(t, least))
	t.Logf("the program has %d bytes, %d zipped; an empty one %d and %d: %.2f and %.2f times as many",
		len(program), zippedSize(t, program), len(least), zippedSize(t, least), plain, zipped)
	if plain > mostTimesPlain || zipped > mostTimesZipped {
		t.Errorf("it has grown: at most %.1f and %.1f times", mostTimesPlain, mostTimesZipped)
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
