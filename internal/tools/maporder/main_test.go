package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// The comments of the tests in testdata say what the order of a map decides.
func TestLoops(t *testing.T) {
	dir, err := filepath.Abs("testdata/loops")
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(dir, "loops_test.go"))
	if err != nil {
		t.Fatal(err)
	}
	var want []string
	for i, line := range strings.Split(string(text), "\n") {
		if _, what, ok := strings.Cut(line, "// order: "); ok {
			want = append(want, fmt.Sprintf("loops_test.go:%d %s", i+1, what))
		}
	}
	found, err := run(dir, ".")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, f := range found {
		place, what, _ := strings.Cut(strings.TrimPrefix(f, dir+"/"), ": ")
		place = place[:strings.LastIndexByte(place, ':')] // without the column
		what = strings.TrimPrefix(what, "in the order of a map, ")
		got = append(got, place+" "+what)
	}
	slices.Sort(got)
	slices.Sort(want)
	if len(want) == 0 || !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}
