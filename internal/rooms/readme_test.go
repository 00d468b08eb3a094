package rooms_test

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// A reader who copies the README's program gets what the README says that it
// prints. The program is compiled as a package of the module that lies nowhere
// but in an overlay.
func TestReadmeProgram(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(root, "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	program, rest, ok := between(string(text), "```go\n", "```\n")
	if !ok {
		t.Fatal("the README holds no program")
	}
	want, ok := printed(rest)
	if !ok {
		t.Fatal("the README does not say what its program prints")
	}
	top, err := filepath.Abs(root)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	source, overlay := filepath.Join(dir, "main.go"), filepath.Join(dir, "overlay.json")
	replace, err := json.Marshal(map[string]any{"Replace": map[string]string{filepath.Join(top, "examples", "readme", "main.go"): source}})
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{source: program, overlay: string(replace)} {
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	cmd := exec.Command("go", "run", "-overlay", overlay, "./examples/readme")
	cmd.Dir = top
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	if diff := cmp.Diff(want, string(out)); diff != "" {
		t.Errorf("the README (-) and its program (+):\n%s", diff)
	}
}

// between returns what stands between two texts, and what follows.
func between(s, start, end string) (inside, rest string, ok bool) {
	_, s, ok = strings.Cut(s, start)
	if !ok {
		return "", "", false
	}
	return strings.Cut(s, end)
}

// printed returns the first indented block of a text, without the indentation.
func printed(s string) (string, bool) {
	var b strings.Builder
	for line := range strings.Lines(s) {
		code, indented := strings.CutPrefix(line, "    ")
		switch {
		case indented:
			b.WriteString(code)
		case b.Len() > 0:
			return b.String(), true
		}
	}
	return b.String(), b.Len() > 0
}

func TestPrinted(t *testing.T) {
	if got, ok := printed("\nprints\n\n    a\n      b\n\nand\n\n    c\n"); !ok || got != "a\n  b\n" {
		t.Errorf("%q, %t", got, ok)
	}
	if _, ok := printed("prints nothing\n"); ok {
		t.Error("a block was found where none is")
	}
}
