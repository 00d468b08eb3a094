package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// The comments of the package in testdata say which fields of a line are never
// read.
func TestFields(t *testing.T) {
	dir, err := filepath.Abs("testdata/fields")
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(dir, "fields.go"))
	if err != nil {
		t.Fatal(err)
	}
	var want []string
	for i, line := range strings.Split(string(text), "\n") {
		_, names, _ := strings.Cut(line, "// never: ")
		for _, name := range strings.Fields(names) {
			want = append(want, fmt.Sprintf("fields.go:%d the field %s is never read", i+1, name))
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
		got = append(got, place+" "+what)
	}
	slices.Sort(got)
	slices.Sort(want)
	if len(want) == 0 || !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}
