package rooms_test

import (
	"go/constant"
	"go/types"
	"io/fs"
	"math/big"
	"os"
	"regexp"
	"strings"
	"testing"

	"boardwrap.example/internal/rooms"
)

// A row of the table of limits in DEVELOPERS.md.
var limitRow = regexp.MustCompile("(?m)^\\| `([a-z/]+)\\.([A-Za-z]+)` \\| ([0-9,]+) ?([^ |]*) \\| .+ \\|$")

// limitName is what a constant is called that bounds something.
var limitName = regexp.MustCompile(`^(Max|Most|max|most)([A-Z]|$)|^(Shortest|Longest|Farthest)$`)

// limitUnits are the units of the table, in nanometres, micrograms and the like,
// as the library counts.
var limitUnits = map[string]int64{
	"": 1, "µm": 1e3, "m": 1e9, "km": 1e12, "MiB": 1 << 20, "bytes": 1, "kg": 1e9, "g/m²": 1e3, "kg/m³": 1,
}

// The table of limits is held to the constants: each constant that bounds
// something has a row with its value, and each row a constant.
func TestTableOfLimits(t *testing.T) {
	text, err := os.ReadFile(root + "/DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string]string{}
	for _, m := range limitRow.FindAllStringSubmatch(string(text), -1) {
		unit, ok := limitUnits[m[4]]
		n, ok2 := new(big.Int).SetString(strings.ReplaceAll(m[3], ",", ""), 10)
		name := m[1] + "." + m[2]
		if !ok || !ok2 || rows[name] != "" {
			t.Errorf("the row of %s cannot be read, or comes twice", name)
			continue
		}
		rows[name] = n.Mul(n, big.NewInt(unit)).String()
	}
	packages, err := everything()
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for _, p := range packages {
		room, _ := rooms.Room(p.Types.Path())
		if inner, ok := strings.CutPrefix(room, "internal/"); ok && inner != "packing" && inner != "cutorder" && inner != "quote" {
			continue // their limits are those of tools and tests
		}
		for _, name := range p.Types.Scope().Names() {
			c, ok := p.Types.Scope().Lookup(name).(*types.Const)
			if !ok || !limitName.MatchString(name) || c.Val().Kind() != constant.Int {
				continue
			}
			found++
			switch row := rows[room+"."+name]; row {
			case c.Val().ExactString():
			case "":
				t.Errorf("%s.%s, %s, has no row", room, name, c.Val())
			default:
				t.Errorf("%s.%s is %s, the table says %s", room, name, c.Val(), row)
			}
			delete(rows, room+"."+name)
		}
	}
	for name := range rows {
		t.Errorf("the row of %s is of no constant", name)
	}
	tried := namedInTests(t)
	for _, m := range limitRow.FindAllStringSubmatch(string(text), -1) {
		if !tried[m[2]] {
			t.Errorf("%s.%s: no test names it", m[1], m[2])
		}
	}
	if found < 30 {
		t.Errorf("only %d limits", found)
	}
}

// namedInTests is every word of every test outside this package.
func namedInTests(t *testing.T) map[string]bool {
	t.Helper()
	all := map[string]bool{}
	word := regexp.MustCompile(`[A-Za-z]+`)
	err := fs.WalkDir(os.DirFS(root), ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (d.Name() == "node_modules" || strings.HasPrefix(name, "internal/rooms")):
			return fs.SkipDir
		case !strings.HasSuffix(name, "_test.go"):
			return nil
		}
		text, err := os.ReadFile(root + "/" + name)
		for _, w := range word.FindAll(text, -1) {
			all[string(w)] = true
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}
