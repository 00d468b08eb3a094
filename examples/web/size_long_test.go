//go:build long

package main

import (
	"bytes"
	"compress/gzip"
	"os"
	"path/filepath"
	"testing"
)

// The programs as they are handed out, which is trimmed (trim.go), are measured against
// an empty one with encoding/json as Go makes it. What is above that is the library
// itself: machine code of every room that is needed, and the tables by which Go finds its
// way in it. The planner, which is all that the first view waits for, leaves out what is
// judged, laid out, proposed, priced and printed, and everything of Go's own that it can
// do without. Before programs were trimmed it was 1.78 and 1.71 times, the whole 3.83 and
// 3.43. The limits hold what there is.
var mostTimes = map[string]struct{ plain, zipped float64 }{
	"boardwrap.wasm": {2.74, 2.52},
	"planner.wasm":   {1.42, 1.35},
}

func TestLongSizeOfThePrograms(t *testing.T) {
	least := compiled(t, "empty.example", "package main\n\nimport \"encoding/json\"\n\nfunc main() {\n\tvar v map[string]any\n\t_ = json.Unmarshal([]byte(`{}`), &v)\n\tb, _ := json.Marshal(v)\n\tprintln(len(b))\n}\n")
	trimmed, err := trim(least)
	if err != nil {
		t.Fatal(err)
	}
	for name, most := range mostTimes {
		program, err := compile(t.Context(), t.TempDir(), programTags[name])
		if err != nil {
			t.Fatal(err)
		}
		if program, err = trim(program); err != nil {
			t.Fatal(err)
		}
		plain := float64(len(program)) / float64(len(least))
		zipped := float64(zippedSize(t, program)) / float64(zippedSize(t, least))
		t.Logf("%s has %d bytes, %d zipped; an empty program %d and %d: %.3f and %.3f times as many; one that is trimmed too %d and %d",
			name, len(program), zippedSize(t, program), len(least), zippedSize(t, least), plain, zipped, len(trimmed), zippedSize(t, trimmed))
		if plain > most.plain || zipped > most.zipped {
			t.Errorf("%s has grown: at most %.2f and %.2f times", name, most.plain, most.zipped)
		}
	}
}

// compiled is a program of one file as Go compiles it.
func compiled(t *testing.T, module, text string) []byte {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{"go.mod": "module " + module + "\n\ngo 1.26\n", "main.go": text} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	out := filepath.Join(dir, "program.wasm")
	if _, err := output(t.Context(), []string{"GOOS=js", "GOARCH=wasm", "GOWORK=off"}, "go", "build", "-C", dir, "-trimpath", "-ldflags=-s -w", "-o", out); err != nil {
		t.Fatal(err)
	}
	program, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	return program
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
