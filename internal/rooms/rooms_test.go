package rooms_test

import (
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"boardwrap.example/internal/rooms"
)

const root = "../.."

// core are the packages that stay small enough for a web page; a room that has
// not been built yet is passed over.
var core = []string{"units", "units/check", "units/money", "score", "pocket/work", "pocket/worktop", "pocket", "folio/rule", "folio/stock", "folio/place", "folio/boards", "folio/view", "folio/closing", "folio/refit", "folio"}

// everything is every package of the module, parsed and type-checked once for all tests.
var everything = sync.OnceValues(func() ([]rooms.Checked, error) { return rooms.Check(root, "./...") })

func corePatterns() []string {
	var patterns []string
	for _, room := range core {
		patterns = append(patterns, "./"+room)
	}
	return patterns
}

// TestMain reads the module's files itself, so that the go command, which
// remembers what a test has read, runs the tests again after a change: it does
// not see what a go command started by a test reads.
func TestMain(m *testing.M) {
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && name != root && strings.HasPrefix(d.Name(), "."):
			return filepath.SkipDir
		case strings.HasSuffix(name, ".go"), d.Name() == "go.mod":
			_, err = os.ReadFile(name)
		}
		return err
	})
	if err != nil && !os.IsNotExist(err) { // gone while we walked
		panic(err)
	}
	os.Exit(m.Run())
}

// said are the rooms of folio that a Spec is written with: folio stands on them.
var said = []string{"rule", "stock", "place", "boards", "view", "closing", "refit"}

// rank orders the rooms: a package imports what has a lower rank, or its own
// room. The rooms of folio's sub-packages share one, but for those a Spec is
// written with.
func rank(room string) (int, bool) {
	first, rest, _ := strings.Cut(room, "/")
	switch first {
	case "units":
		return 1, true
	case "score":
		return 2, true
	case "pocket":
		return 3, true
	case "folio":
		switch {
		case slices.Contains(said, rest):
			return 4, true
		case rest == "":
			return 5, true
		}
		return 6, true
	case "examples":
		return 7, true
	}
	return 0, false
}

// testHelper reports whether a package of internal is a test helper, which
// may know the rooms: its name ends in "test".
func testHelper(room string) bool { return strings.HasSuffix(path.Base(room), "test") }

// mayImport is the rule of the house for packages of this module:
//
//	units ← score ← pocket ← folio/rule and its like ← folio ← folio/… ← examples
//
// internal knows none of them, and serves all.
func mayImport(from, to string) bool {
	fromInternal, toInternal := strings.HasPrefix(from, "internal/"), strings.HasPrefix(to, "internal/")
	switch {
	case fromInternal && toInternal:
		return true
	case fromInternal:
		return testHelper(from)
	case toInternal:
		return true
	}
	a, known := rank(from)
	b, alsoKnown := rank(to)
	if !known || !alsoKnown {
		return false
	}
	if a == 1 && b == 1 { // units itself imports nothing of its sub-packages
		return from != "units" && (to == "units" || to == "units/check") || from == to
	}
	return b < a || a == b && (a == 6 || path.Dir(to) == from || path.Dir(from) == path.Dir(to) || from == to)
}

func TestTheRule(t *testing.T) {
	for _, c := range []struct {
		from, to string
		want     bool
	}{
		{"score", "units", true}, {"score", "units/check", true}, {"units/check", "units", true}, {"units", "units/check", false},
		{"units/money", "units/check", true}, {"units/check", "units/money", false}, {"score", "units/money", true},
		{"units", "score", false}, {"score", "pocket", false}, {"pocket", "score", true}, {"folio", "pocket", true}, {"pocket", "folio", false},
		{"folio", "folio/guide", false}, {"folio", "folio/rule", true}, {"folio/rule", "folio", false}, {"folio/boards", "folio/rule", true}, {"folio/rule", "folio/layout", false}, {"folio/guide", "folio", true}, {"folio/wire", "folio/layout", true}, {"folio/cost", "folio/layout", true},
		{"examples/keepsake", "folio/guide", true}, {"folio", "examples/keepsake", false},
		{"internal/packing", "units", false}, {"internal/svg", "internal/packing", true}, {"internal/foliotest", "folio", true},
		{"folio/layout", "internal/packing", true}, {"examples/keepsake", "internal/packing", true},
		{"elsewhere", "units", false}, {"units", "elsewhere", false},
	} {
		if got := mayImport(c.from, c.to); got != c.want {
			t.Errorf("%s may import %s: %t; want %t", c.from, c.to, got, c.want)
		}
	}
}

func TestImportDirections(t *testing.T) {
	packages, err := rooms.List(root, "./...")
	if err != nil {
		t.Fatal(err)
	}
	if len(packages) == 0 {
		t.Fatal("no packages")
	}
	for _, p := range packages {
		from, _ := rooms.Room(p.ImportPath)
		if _, known := rank(from); !known && !strings.HasPrefix(from, "internal/") {
			t.Errorf("%s stands in no room", p.ImportPath)
		}
		for _, dep := range p.Deps {
			if to, ours := rooms.Room(dep); ours && !mayImport(from, to) {
				t.Errorf("%s imports %s, directly or through others", from, to)
			}
			if outside(dep) && !strings.HasPrefix(dep, "golang.org/x/exp/") && !testHelper(from) {
				t.Errorf("%s imports %s outside its tests", from, dep)
			}
		}
		for _, dep := range p.Imports {
			if to, ours := rooms.Room(dep); ours && strings.HasPrefix(from, "examples/") && strings.HasPrefix(to, "internal/") {
				t.Errorf("%s imports %s itself: an example shows what a user can do", from, to)
			}
		}
		for i, dep := range slices.Concat(p.TestImports, p.XTestImports) {
			to, ours := rooms.Room(dep)
			// Tests from outside a package may ask what the rooms below it read
			// of it: whether they get it right is a test of what it tells.
			below := i >= len(p.TestImports) && path.Dir(to) == from
			if ours && dep != p.ImportPath && !mayImport(from, to) && !testHelper(to) && !below {
				t.Errorf("the tests of %s import %s", from, to)
			}
		}
	}
}

// outside reports whether an import path is neither of the standard library
// nor of this module.
func outside(importPath string) bool {
	first, _, _ := strings.Cut(importPath, "/")
	_, ours := rooms.Room(importPath)
	return strings.Contains(first, ".") && !ours
}

// The core packages are to be small on a web page, and to have no clock, no
// files and no chance.
func TestCoreIsLight(t *testing.T) {
	heavy := []string{"fmt", "reflect", "encoding/json", "text/template", "html/template", "math/big", "log", "os", "io/fs",
		"time", "context", "math/rand", "math/rand/v2"}
	packages, err := rooms.List(root, corePatterns()...)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range packages {
		for _, dep := range p.Deps {
			if slices.Contains(heavy, dep) {
				t.Errorf("%s imports %s, directly or through others", p.ImportPath, dep)
			}
		}
		for _, dep := range p.Imports {
			if dep == "io" {
				t.Errorf("%s imports %s", p.ImportPath, dep)
			}
		}
	}
}

// Nobody takes in what makes a program in the browser larger by a megabyte, or by a
// quarter of one, also not through others: documents are read and written by
// internal/jsontext, and who searches asks a score.Stopper, not a context with its clock.
func TestNoRoomTakesInJSONOrTime(t *testing.T) {
	packages, err := rooms.List(root, "./units/...", "./score/...", "./pocket/...", "./folio/...", "./examples/web/answers", "./examples/web/planner")
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range packages {
		for _, heavy := range []string{"encoding/json", "fmt", "os", "log", "text/template", "html/template", "context", "time"} {
			if slices.Contains(p.Deps, heavy) {
				t.Errorf("%s imports %s, directly or through others", p.ImportPath, heavy)
			}
		}
	}
	if len(packages) < 20 {
		t.Errorf("only %d packages", len(packages))
	}
}

// Outside units a length is never made from a bare number: a conversion would
// take nanometres for something else in silence.
func TestNoLengthConversions(t *testing.T) {
	packages, err := everything()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range packages {
		if room, _ := rooms.Room(p.ImportPath); room == "units" || !slices.Contains(core, room) {
			continue
		}
		for _, f := range p.Files {
			for _, call := range lengthConversions(f, p.Info) {
				t.Errorf("%s converts to units.Length: multiply a unit, or declare a variable for 0", place(p.Fset, call.Pos()))
			}
		}
	}
}

// place returns a position relative to the module.
func place(fset *token.FileSet, pos token.Pos) string {
	p := fset.Position(pos)
	if top, err := filepath.Abs(root); err == nil {
		if name, err := filepath.Rel(top, p.Filename); err == nil {
			p.Filename = filepath.ToSlash(name)
		}
	}
	return p.String()
}

func lengthConversions(f *ast.File, info *types.Info) []*ast.CallExpr {
	var found []*ast.CallExpr
	ast.Inspect(f, func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok {
			return true
		}
		tv := info.Types[call.Fun]
		if named, ok := types.Unalias(tv.Type).(*types.Named); ok && tv.IsType() {
			if o := named.Obj(); o.Name() == "Length" && o.Pkg() != nil && o.Pkg().Name() == "units" {
				found = append(found, call)
			}
		}
		return true
	})
	return found
}

// The search for conversions finds them under another name and in parentheses,
// and takes no method, field or call for one.
func TestTheSearchForConversions(t *testing.T) {
	const source = `package units
type Length int64
type L = Length
func (l Length) Length() Length { return l }
func make(n int64) (Length, Length, Length) { return Length(n), (L)(n), (Length)(2).Length() }
func use(f func(int64) Length) int64 { return int64(f(3)) }
`
	fset := token.NewFileSet()
	f, err := parser.ParseFile(fset, "units.go", source, 0)
	if err != nil {
		t.Fatal(err)
	}
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}}
	if _, err := new(types.Config).Check("units", fset, []*ast.File{f}, info); err != nil {
		t.Fatal(err)
	}
	if got := len(lengthConversions(f, info)); got != 3 {
		t.Errorf("%d conversions; want 3", got)
	}
}

func TestTopLevel(t *testing.T) {
	permitted := []string{"folio", "units", "score", "pocket", "examples", "internal", "go.mod", "go.sum", "README.md", "DEVELOPERS.md"}
	entries, err := os.ReadDir(root)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !slices.Contains(permitted, e.Name()) && !strings.HasPrefix(e.Name(), ".") {
			t.Errorf("%s may not stand at the top level", e.Name())
		}
	}
}

func TestRequirements(t *testing.T) {
	cmd := exec.Command("go", "mod", "edit", "-json")
	cmd.Dir = root
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var mod struct {
		Module           struct{ Path string }
		Require          []struct{ Path string }
		Replace, Exclude []any
	}
	if err := json.Unmarshal(out, &mod); err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, r := range mod.Require {
		got = append(got, r.Path)
	}
	slices.Sort(got)
	want := []string{"github.com/google/go-cmp", "github.com/leanovate/gopter", "golang.org/x/exp"}
	if mod.Module.Path != rooms.Module || !slices.Equal(got, want) {
		t.Errorf("%s requires %q; want %q and nothing else", mod.Module.Path, got, want)
	}
	if len(mod.Replace)+len(mod.Exclude) > 0 {
		t.Error("go.mod replaces or excludes modules, which does not hold for those who import this one")
	}
}

// Nothing in the tree names a path of somebody's machine or puts off work; the
// words are put together here, so that this file holds none of them.
func TestNothingIsLeftLying(t *testing.T) {
	words := []string{"TO" + "DO", "FIX" + "ME", "X" + "XX", "/ho" + "me/", "/tm" + "p/", "/wo" + "rk/", "/Us" + "ers/"}
	kinds := []string{".go", ".md", ".json", ".txt", ".mod", ".svg", ".html", ".css", ".js", ".sh", ".yml", ".yaml", ""}
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (d.Name() == ".git" || d.Name() == ".cache" || d.Name() == "node_modules"): // not ours
			return filepath.SkipDir
		case d.IsDir() || !slices.Contains(kinds, filepath.Ext(name)):
			return nil
		}
		text, err := os.ReadFile(name)
		if os.IsNotExist(err) { // gone while we walked
			return nil
		}
		for n, line := range strings.Split(string(text), "\n") {
			for _, word := range words {
				if strings.Contains(line, word) {
					t.Errorf("%s:%d holds %q", strings.TrimPrefix(filepath.ToSlash(name), root+"/"), n+1, word)
				}
			}
		}
		return err
	})
	if err != nil {
		t.Error(err)
	}
}
