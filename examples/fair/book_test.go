package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The papers go to the file that is named, and that is said.
func TestBook(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"a.html", "b.md", "c.txt"} {
		file := filepath.Join(dir, name)
		var out strings.Builder
		if err := run([]string{"-small", "2", "-large", "1", "-steps", "200000", "-out", file}, &out, nil); err != nil {
			t.Fatal(err)
		}
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, want := range []string{"marbled paper", "price card", "USD"} {
			if !strings.Contains(string(text), want) {
				t.Errorf("%s: %q is missing", name, want)
			}
		}
		if want := "wrote the shopping list, the cutting book and the price list to " + file + "\n"; out.String() != want {
			t.Errorf("said %q", out.String())
		}
	}
	for _, args := range [][]string{{"-out", filepath.Join(dir, "d.pdf")}, {"-out", filepath.Join(dir, "none", "e.txt")}, {"-small", "60", "-large", "30", "-out", filepath.Join(dir, "f.txt")}} {
		var out strings.Builder
		if err := run(append(args, "-steps", "200000"), &out, nil); err == nil || out.Len() > 0 {
			t.Errorf("%q: %v, said %q", args, err, out.String())
		}
	}
}
