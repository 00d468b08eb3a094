package main

import (
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// The README's table goes in, its command is the one that runs, and what it says
// comes out.
func TestReadme(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, section, ok := strings.Cut(string(text), "## A filter for scripts\n")
	if !ok {
		t.Fatal("the README says nothing of a filter")
	}
	table, section := block(section)
	command, section := block(section)
	want, _ := block(section)
	args, found := strings.CutPrefix(command, "go run ./examples/sizes ")
	args, into, alsoFound := strings.Cut(args, " < ")
	if !found || !alsoFound || into != "crews.csv\n" {
		t.Fatalf("the command is %q", command)
	}
	out, bad, status := sizes(table, strings.Fields(args)...)
	if d := cmp.Diff(want, out); d != "" || bad != "" || status != allDone {
		t.Errorf("status %d, %s\nthe README (-) and the program (+):\n%s", status, bad, d)
	}
}

// block returns the first indented block and what follows it.
func block(s string) (inside, rest string) {
	for s != "" {
		line, after, _ := strings.Cut(s, "\n")
		code, indented := strings.CutPrefix(line, "    ")
		if !indented && inside != "" {
			return inside, s
		}
		if indented {
			inside += code + "\n"
		}
		s = after
	}
	return inside, ""
}
