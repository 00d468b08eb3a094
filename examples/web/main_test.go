package main

import (
	"bytes"
	"compress/gzip"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// emptyPrograms are the programs of the page with nothing in them, in a version.
func emptyPrograms(version byte) map[string][]byte {
	all := map[string][]byte{}
	for name := range programTags {
		all[name] = []byte{0, 'a', 's', 'm', version, 0, 0, 0}
	}
	return all
}

// little are the files with no program in them.
func little(t *testing.T) files {
	t.Helper()
	all, err := gather(emptyPrograms(1), []byte("globalThis.Go = class {};\n"))
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestServe(t *testing.T) {
	all := little(t)
	ask := func(method, path string, head ...string) *http.Response {
		r := httptest.NewRequest(method, "http://127.0.0.1"+path, nil)
		for i := 0; i+1 < len(head); i += 2 {
			r.Header.Set(head[i], head[i+1])
		}
		w := httptest.NewRecorder()
		all.ServeHTTP(w, r)
		return w.Result()
	}
	for name, kind := range map[string]string{"": "text/html; charset=utf-8", "index.html": "text/html; charset=utf-8", "page.js": "text/javascript; charset=utf-8",
		"page.css": "text/css; charset=utf-8", "boardwrap.wasm": "application/wasm", "planner.wasm": "application/wasm", "wasm_exec.js": "text/javascript; charset=utf-8", "icon.svg": "image/svg+xml"} {
		r := ask("GET", "/"+name)
		if r.StatusCode != 200 || r.Header.Get("Content-Type") != kind {
			t.Errorf("/%s: %s, %s", name, r.Status, r.Header.Get("Content-Type"))
		}
		if csp := r.Header.Get("Content-Security-Policy"); !strings.HasPrefix(csp, "default-src 'none'; script-src 'self' 'wasm-unsafe-eval';") || strings.Contains(csp, "unsafe-inline") {
			t.Errorf("/%s: policy %q", name, csp)
		}
	}
	plain := ask("GET", "/page.js")
	zipped := ask("GET", "/page.js", "Accept-Encoding", "br, gzip")
	z, err := gzip.NewReader(zipped.Body)
	if err != nil {
		t.Fatal(err)
	}
	a, _ := io.ReadAll(plain.Body)
	b, _ := io.ReadAll(z)
	if !bytes.Equal(a, b) || len(a) == 0 {
		t.Error("zipped it is another file")
	}
	if r := ask("GET", "/page.js", "If-None-Match", plain.Header.Get("ETag")); r.StatusCode != http.StatusNotModified {
		t.Errorf("what is there already: %s", r.Status)
	}
	for path, want := range map[string]int{"/nothing": 404, "/../main.go": 404, "/page/page.js": 404, "/page/": 404} {
		if r := ask("GET", path); r.StatusCode != want {
			t.Errorf("%s: %s", path, r.Status)
		}
	}
	if r := ask("POST", "/"); r.StatusCode != http.StatusMethodNotAllowed {
		t.Errorf("POST: %s", r.Status)
	}
	if r := ask("HEAD", "/"); r.ContentLength == 0 {
		t.Error("HEAD without a length")
	}
}

// The page has no script, style or handler of its own in its text, and its policy
// is the one that the server sends.
func TestPage(t *testing.T) {
	html := string(little(t)["index.html"].plain)
	if !strings.Contains(html, `content="`+policy+`"`) {
		t.Error("the page has not the policy")
	}
	for _, bad := range []string{`<script>`, `<style`, ` style=`, `javascript:`, `http://`, `https://`} {
		if strings.Contains(html, bad) {
			t.Errorf("the page has %q", bad)
		}
	}
	if m := regexp.MustCompile(`\son[a-z]+=`).FindString(html); m != "" {
		t.Errorf("the page has a handler: %q", m)
	}
	scripts, err := page.ReadDir("page")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range scripts {
		b, err := page.ReadFile("page/" + e.Name())
		if err != nil {
			t.Fatal(err)
		}
		for _, bad := range []string{"innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "eval(", "new Function", "://"} {
			if bytes.Contains(bytes.ReplaceAll(b, []byte("http://www.w3.org/2000/svg"), nil), []byte(bad)) {
				t.Errorf("%s has %q", e.Name(), bad)
			}
		}
	}
}

// The service worker keeps every file that the page needs, and another version of
// any of them is another version of all.
func TestOffline(t *testing.T) {
	all := little(t)
	worker := string(all["offline.js"].plain)
	for name := range all {
		if strings.HasSuffix(name, ".ts") || name == "offline.js" {
			continue
		}
		if !strings.Contains(worker, `"`+name+`"`) {
			t.Errorf("%s is not kept", name)
		}
	}
	other, err := gather(emptyPrograms(2), []byte("globalThis.Go = class {};\n"))
	if err != nil {
		t.Fatal(err)
	}
	if all["offline.js"].version == other["offline.js"].version {
		t.Error("another program has the same version")
	}
}

// A taken port is no obstacle, the address is printed and is this machine's
// alone, and the end of the context ends it.
func TestLoopback(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Skip("no loopback interface: ", err)
	}
	defer taken.Close()
	ctx, stop := context.WithCancel(t.Context())
	r, w := io.Pipe()
	ended := make(chan error, 1)
	go func() { ended <- serve(ctx, little(t), taken.Addr().(*net.TCPAddr).Port, w) }()
	var at string
	if _, err := fmt.Fscanln(r, &at); err != nil {
		t.Fatal(err)
	}
	go func() { _, _ = io.Copy(io.Discard, r) }()
	if !strings.HasPrefix(at, "http://127.0.0.1:") || strings.Contains(at, taken.Addr().String()) {
		t.Errorf("it is at %q", at)
	}
	got, err := http.Get(at)
	if err != nil {
		t.Fatal(err)
	}
	_ = got.Body.Close()
	stop()
	select {
	case err := <-ended:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(10 * time.Second):
		t.Fatal("it goes on")
	}
}

func TestWrite(t *testing.T) {
	all := little(t)
	dir := filepath.Join(t.TempDir(), "a", "b")
	if err := all.write(dir); err != nil {
		t.Fatal(err)
	}
	for name, f := range all {
		b, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil || !bytes.Equal(b, f.plain) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestMisuse(t *testing.T) {
	for _, args := range [][]string{{"-colour"}, {"page"}, {"-port", "many"}} {
		if err := run(t.Context(), args, io.Discard); err == nil {
			t.Errorf("%q went through", args)
		}
	}
}
