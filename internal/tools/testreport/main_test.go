package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const passing = `{"Action":"start","Package":"m/p"}
{"Action":"run","Package":"m/p","Test":"TestA"}
{"Action":"output","Package":"m/p","Test":"TestA","Output":"=== RUN   TestA\n"}
{"Action":"output","Package":"m/p","Test":"TestA","Output":"    a_test.go:9: no browser here\n"}
{"Action":"output","Package":"m/p","Test":"TestA","Output":"--- SKIP: TestA (0.00s)\n"}
{"Action":"skip","Package":"m/p","Test":"TestA"}
{"Action":"output","Package":"m/p","Test":"TestB","Output":"noise\n"}
{"Action":"pass","Package":"m/p","Test":"TestB"}
{"Action":"output","Package":"m/p","Output":"PASS\n"}
{"Action":"output","Package":"m/p","Output":"coverage: 91.7% of statements\n"}
{"Action":"output","Package":"m/p","Output":"ok  \tm/p\t0.1s\tcoverage: 91.7% of statements\n"}
{"Action":"pass","Package":"m/p"}
`

func TestPassing(t *testing.T) {
	dir := t.TempDir()
	floors, skipped := filepath.Join(dir, "floors"), filepath.Join(dir, "skipped")
	var out bytes.Buffer
	if err := run(strings.NewReader(passing), &out, floors, skipped, true); err != nil {
		t.Fatal(err)
	}
	if got, want := out.String(), "ok  \tm/p\t0.1s\tcoverage: 91.7% of statements\n"; got != want {
		t.Errorf("printed %q; want %q", got, want)
	}
	if text, err := os.ReadFile(skipped); err != nil || string(text) != "m/p.TestA: a_test.go:9: no browser here\n" {
		t.Errorf("skipped: %s, %v", text, err)
	}
	if text, err := os.ReadFile(floors); err != nil || !strings.HasSuffix(string(text), "\nm/p 91.5\n") {
		t.Errorf("floors: %s, %v", text, err)
	}
	for text, want := range map[string]string{
		"m/p 91.5\n": "", "m/p 91.7\n": "", "m/p 91.8\n": "91.7 %; the floor is 91.8", "# note\nm/q 3\n": "m/q has a floor", "m/p x\n": "line 1",
	} {
		if err := os.WriteFile(floors, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		err := run(strings.NewReader(passing), &out, floors, "", false)
		if (err == nil) != (want == "") || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("floors %q: %v; want %q", text, err, want)
		}
	}
}

func TestFailing(t *testing.T) {
	for name, c := range map[string]struct{ in, said string }{
		"a test": {`{"Action":"output","Package":"m/p","Test":"TestA","Output":"a_test.go:3: wrong\n"}
{"Action":"fail","Package":"m/p","Test":"TestA"}
`, "a_test.go:3: wrong"},
		"a build": {`{"ImportPath":"m/p","Action":"build-output","Output":"p.go:3: syntax\n"}
{"ImportPath":"m/p","Action":"build-fail"}
{"Action":"fail","Package":"m/p"}
`, "p.go:3: syntax"},
	} {
		var out bytes.Buffer
		if err := run(strings.NewReader(c.in), &out, "", "", false); err == nil || !strings.Contains(out.String(), c.said) {
			t.Errorf("%s: %v: %s", name, err, &out)
		}
	}
	if err := run(strings.NewReader("ok m/p\n"), &bytes.Buffer{}, "", "", false); err == nil {
		t.Error("text that is no JSON passed")
	}
}
