package main

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A result that is added to a function breaks who calls it, a new function
// nobody, and what is inside is nobody's business.
func TestApart(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		t.Helper()
		name = filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	commit := func() {
		t.Helper()
		for _, args := range [][]string{{"init", "-q"}, {"add", "-A"}, {"-c", "user.name=t", "-c", "user.email=t@t.example", "commit", "-q", "-m", "all"}} {
			if _, err := git(dir, args...); err != nil {
				t.Fatal(err)
			}
		}
	}
	write("go.mod", "module m.example\n\ngo 1.26.0\n")
	write("p/p.go", "package p\n\nfunc F() int { return 1 }\n\nfunc A(any) {}\n\nfunc h() {}\n")
	write("gone/gone.go", "package gone\n")
	write("internal/q/q.go", "package q\n\nfunc Q() {}\n")
	commit()
	write("p/p.go", "package p\n\nfunc F() (int, error) { return 1, nil }\n\nfunc G() {}\n\nfunc A(any) {}\n")
	write("internal/q/q.go", "package q\n")
	if err := os.RemoveAll(filepath.Join(dir, "gone")); err != nil {
		t.Fatal(err)
	}
	commit()
	var out bytes.Buffer
	breaking, err := run(&out, dir, "")
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"breaking    m.example/gone: the package is gone",
		"breaking    m.example/p: F: changed from func() int to func() (int, error)",
		"compatible  m.example/p: G: added",
	}
	got := strings.Split(strings.TrimSpace(out.String()), "\n")[1:]
	if !breaking || !slices.Equal(got, want) {
		t.Errorf("%t:\n%s\nwant\n%s", breaking, strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	out.Reset()
	if breaking, err = run(&out, dir, "HEAD"); err != nil || breaking || !strings.HasSuffix(out.String(), ":\nnone\n") {
		t.Errorf("against itself: %t, %v: %s", breaking, err, &out)
	}
}
