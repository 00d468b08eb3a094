package main

import (
	"bytes"
	"compress/gzip"
	"context"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"mime"
	"net/http"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"

	"boardwrap.example/folio/wire"
)

//go:embed page
var page embed.FS

// A file is one file of the page.
type file struct {
	kind    string // its media type
	plain   []byte
	zipped  []byte // nil where zipping saves nothing
	version string // of its bytes
}

// files are the files of the page by their names.
type files map[string]file

// policy is what the page may do: run its own scripts and its own WebAssembly,
// and fetch its own files. It stands in the page too, for hosts that send no
// headers.
const policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data:; " +
	"connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'"

// build compiles the library to WebAssembly, with the Go tool and into a
// directory that does not stay, and gathers all files.
func build(ctx context.Context) (files, error) {
	dir, err := os.MkdirTemp("", "web")
	if err != nil {
		return nil, err
	}
	defer func() { _ = os.RemoveAll(dir) }() // what cannot be removed is the system's to clear away
	programs := map[string][]byte{}
	for name, tags := range programTags {
		program, err := compile(ctx, dir, tags)
		if err != nil {
			return nil, err
		}
		if less, err := trim(program); err == nil {
			program = less // of another Go it stays larger, and works as well
		}
		programs[name] = program
	}
	root, err := output(ctx, nil, "go", "env", "GOROOT")
	if err != nil {
		return nil, err
	}
	starter, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return nil, err
	}
	return gather(programs, starter)
}

// programTags are the WebAssembly programs and the tags that they are built with:
// everything, and the smaller one that the page begins with, which answers only
// what is asked at every change.
var programTags = map[string]string{"boardwrap.wasm": "", "planner.wasm": "planner"}

// gather puts the page's files together.
func gather(programs map[string][]byte, starter []byte) (files, error) {
	all := files{}
	for name, program := range programs {
		all.add(name, program)
	}
	all.add("wasm_exec.js", starter)
	all.add("schemas.json", schemas())
	entries, err := page.ReadDir("page")
	if err != nil {
		return nil, err
	}
	for _, e := range entries {
		b, err := page.ReadFile("page/" + e.Name())
		if err != nil {
			return nil, err
		}
		if path.Ext(e.Name()) == ".html" {
			b = bytes.ReplaceAll(b, []byte("POLICY"), []byte(policy))
		}
		all.add(e.Name(), b)
	}
	return all, all.offline()
}

// schemas are the schemas of all documents, by what they are of: for whoever writes to the
// programs, and to make the form from. They are worked out here, so that the programs
// need not, and need not know how.
func schemas() []byte {
	all := []byte("{")
	for i, one := range []struct {
		name   string
		schema func() []byte
	}{
		{"spec", wire.SpecSchema}, {"plan", wire.PlanSchema}, {"closing", wire.ClosingSchema}, {"posting", wire.PostingSchema},
		{"batch", wire.BatchSchema}, {"request", wire.RequestSchema}, {"proposals", wire.ProposalsSchema},
		{"layout", wire.LayoutSchema}, {"costs", wire.CostsSchema}, {"error", wire.ErrorSchema},
	} {
		if i > 0 {
			all = append(all, ',')
		}
		all = fmt.Appendf(all, "%q:", one.name)
		all = append(all, one.schema()...)
	}
	var small bytes.Buffer
	_ = json.Compact(&small, append(all, '}')) // schemas are JSON
	return small.Bytes()
}

// compile returns the WebAssembly program with the given tags.
func compile(ctx context.Context, dir, tags string) ([]byte, error) {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return nil, errors.New("this program does not know its own module")
	}
	target := filepath.Join(dir, "program.wasm")
	args := []string{"build", "-trimpath", "-ldflags=-s -w", "-tags=" + tags, "-o", target}
	// Where the functions of these are not copied into their callers, the programs are
	// three bytes in a hundred smaller: texts, numbers and sentences of steps and violations,
	// words of enumerations and options of a Spec are not asked for often enough to be
	// missed.
	args = append(args, "-gcflags=strconv=-l", "-gcflags=strings=-l", "-gcflags=unicode/utf8=-l")
	for _, small := range []string{"pocket/work", "units/check", "internal/word", "folio/boards", "folio/closing", "folio/refit"} {
		args = append(args, "-gcflags="+path.Join(info.Main.Path, small)+"=-l")
	}
	// By its module, so that it is found from anywhere inside that.
	args = append(args, path.Join(info.Main.Path, "examples/web/wasm"))
	_, err := output(ctx, []string{"GOOS=js", "GOARCH=wasm", "GOWORK=off"}, "go", args...)
	if err != nil {
		return nil, err
	}
	return os.ReadFile(target)
}

// output runs a command and returns what it prints.
func output(ctx context.Context, env []string, name string, args ...string) ([]byte, error) {
	cmd := exec.CommandContext(ctx, name, args...)
	cmd.Env = append(os.Environ(), env...)
	var bad bytes.Buffer
	cmd.Stderr = &bad
	b, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("%s %s: %w\n%s", name, strings.Join(args, " "), err, bad.Bytes())
	}
	return b, nil
}

func (f files) add(name string, b []byte) {
	sum := sha256.Sum256(b)
	one := file{kind: mediaType(name), plain: b, version: hex.EncodeToString(sum[:8])}
	var z bytes.Buffer
	w := gzip.NewWriter(&z)
	if _, err := w.Write(b); err == nil && w.Close() == nil && z.Len() < len(b) {
		one.zipped = z.Bytes()
	}
	f[name] = one
}

// mediaType is the same on every machine, whatever its tables say.
func mediaType(name string) string {
	switch path.Ext(name) {
	case ".html":
		return "text/html; charset=utf-8"
	case ".js":
		return "text/javascript; charset=utf-8"
	case ".css":
		return "text/css; charset=utf-8"
	case ".wasm":
		return "application/wasm"
	case ".svg":
		return "image/svg+xml"
	case ".webmanifest":
		return "application/manifest+json"
	case ".json":
		return "application/json"
	case ".ts":
		return "text/plain; charset=utf-8"
	}
	return mime.TypeByExtension(path.Ext(name))
}

// offline writes what the service worker keeps into it: the names of all files
// and one version of them all.
func (f files) offline() error {
	worker, ok := f["offline.js"]
	if !ok {
		return errors.New("no offline.js among the files")
	}
	names := []string{}
	sum := sha256.New()
	for _, name := range f.names() {
		if path.Ext(name) != ".ts" && name != "offline.js" {
			names = append(names, name)
		}
		sum.Write([]byte(name + f[name].version))
	}
	list, err := json.Marshal(names)
	if err != nil {
		return err
	}
	head := fmt.Sprintf("const version = %q;\nconst names = %s;\n", hex.EncodeToString(sum.Sum(nil)[:8]), list)
	f.add("offline.js", append([]byte(head), worker.plain...))
	return nil
}

func (f files) names() []string {
	names := make([]string, 0, len(f))
	for name := range f {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// write writes all files into a directory.
func (f files) write(dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for _, name := range f.names() {
		if err := os.WriteFile(filepath.Join(dir, name), f[name].plain, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// ServeHTTP hands out a file, zipped for whoever takes that.
func (f files) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	name := strings.TrimPrefix(r.URL.Path, "/")
	if name == "" {
		name = "index.html"
	}
	one, ok := f[name]
	if !ok {
		http.NotFound(w, r)
		return
	}
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD")
		http.Error(w, "only GET and HEAD", http.StatusMethodNotAllowed)
		return
	}
	h := w.Header()
	h.Set("Content-Type", one.kind)
	h.Set("Content-Security-Policy", policy+"; frame-ancestors 'none'")
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cache-Control", "no-cache") // asked again each time, and mostly not sent again
	h.Set("ETag", `"`+one.version+`"`)
	h.Set("Vary", "Accept-Encoding")
	if r.Header.Get("If-None-Match") == `"`+one.version+`"` {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	b := one.plain
	if one.zipped != nil && strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		h.Set("Content-Encoding", "gzip")
		b = one.zipped
	}
	h.Set("Content-Length", fmt.Sprint(len(b)))
	if r.Method == http.MethodGet {
		_, _ = w.Write(b) // whoever hung up does not want it
	}
}
