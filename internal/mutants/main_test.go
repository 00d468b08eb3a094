package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
)

const fixture = "testdata/fixture"

// expected reads the comments of the fixture: for each line the mutants that
// begin on it and what becomes of them, sorted.
func expected(t *testing.T) map[int][]string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(fixture, "fixture.go"))
	if err != nil {
		t.Fatal(err)
	}
	want := map[int][]string{}
	for i, line := range strings.Split(string(text), "\n") {
		code, comment, ok := strings.Cut(line, " // ")
		if !ok || strings.TrimSpace(code) == "" || strings.TrimSpace(comment) == "-" {
			continue
		}
		words := strings.Fields(comment)
		for k := 0; k+1 < len(words); k += 2 {
			want[i+1] = append(want[i+1], words[k]+" "+words[k+1])
		}
		slices.Sort(want[i+1])
	}
	return want
}

func became(m *mutant) string {
	switch {
	case m.reason != "":
		return "e"
	case m.outcome == noticed:
		return "n"
	case m.outcome == hung:
		return "h"
	case m.outcome == survived:
		return "s"
	case m.outcome == uncovered:
		return "u"
	}
	return fmt.Sprintf("outcome %d", m.outcome)
}

// The fixture's tests notice just those mutants that the comments say, of every
// operator some that are noticed and some that survive.
func TestFixture(t *testing.T) {
	root, err := filepath.Abs(fixture)
	if err != nil {
		t.Fatal(err)
	}
	subjects, err := load(root, []string{"."})
	if err != nil {
		t.Fatal(err)
	}
	list, err := judgements("testdata/equivalent.json")
	if err != nil {
		t.Fatal(err)
	}
	found := find(subjects[0], false)
	if stale := judge(list, subjects, found); len(stale) != 0 {
		t.Errorf("no such mutants: %v", stale)
	}
	o := options{seed: 1, workers: 2}
	chosen, err := o.choose(found)
	if err != nil {
		t.Fatal(err)
	}
	w := &workshop{root: root, tmp: t.TempDir(), workers: 2, tests: regexp.MustCompile(""), log: t.Logf}
	var out bytes.Buffer
	if err := o.tryPackage(context.Background(), &out, w, chosen, new(time.Duration)); err != nil {
		t.Fatal(err)
	}
	got := map[int][]string{}
	seen := map[operator]map[string]bool{}
	for _, m := range chosen {
		if m.outcome == illegal || m.outcome == untried {
			t.Errorf("%s was chosen and then not counted: %s", m.describe(root), m.by)
		}
		got[m.line()] = append(got[m.line()], string(m.op)+" "+became(m))
		if seen[m.op] == nil {
			seen[m.op] = map[string]bool{}
		}
		seen[m.op][became(m)] = true
	}
	want := expected(t)
	for line := range 400 {
		slices.Sort(got[line])
		if !slices.Equal(got[line], want[line]) {
			t.Errorf("line %d: %v; want %v", line, got[line], want[line])
		}
	}
	for _, op := range operators {
		if !seen[op]["n"] || !seen[op]["s"] && op != negation && op != drop && op != comparison {
			t.Errorf("the fixture shows only %v of %s", seen[op], op)
		}
	}
}
