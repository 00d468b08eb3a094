package main

import (
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// The README's tables go in, its commands are those that run, and what it says
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
	for _, from := range []string{"crews.csv", "batch.csv"} {
		if _, section, ok = strings.Cut(section, "`"+from+"`\n"); !ok {
			t.Fatalf("the README says nothing of %s", from)
		}
		table, rest := block(section)
		command, rest := block(rest)
		want, _ := block(rest)
		args, found := strings.CutPrefix(command, "go run ./examples/sizes ")
		args, into, alsoFound := strings.Cut(args, " < ")
		if !found || !alsoFound || into != from+"\n" {
			t.Fatalf("the command is %q", command)
		}
		out, bad, status := sizes(table, words(args)...)
		if d := cmp.Diff(want, out); d != "" || bad != "" || status != allDone {
			t.Errorf("status %d, %s\nthe README (-) and the program (+):\n%s", status, bad, d)
		}
	}
}

// words are the words of a command, as a shell has them.
func words(s string) (all []string) {
	for i, part := range strings.Split(s, `"`) {
		if i%2 == 1 {
			all = append(all, part)
		} else {
			all = append(all, strings.Fields(part)...)
		}
	}
	return all
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
