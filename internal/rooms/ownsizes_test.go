package rooms

import (
	"bytes"
	"cmp"
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"math/big"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// What a reader sees plays with sizes that follow from what our crew's and our
// club's folios hold. The sizes of the check values are for tests: none of them
// stands in the README, in a comment, in an Example or in a program to run, either
// way up, in either unit, nor do all scores of one of their strips together.
func TestDemosHaveSizesOfTheirOwn(t *testing.T) {
	taken := checkValues(t)
	if len(taken.sizes) < 25 || len(taken.scores) < 2 {
		t.Fatalf("read %d sizes and %d strips of check values only", len(taken.sizes), len(taken.scores))
	}
	texts := 0
	look := func(where, text string) {
		texts++
		for _, found := range taken.in(text) {
			t.Errorf("%s: %s is of a check value", where, found)
		}
	}
	top := filepath.Join("..", "..")
	err := filepath.WalkDir(top, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		where, _ := filepath.Rel(top, path)
		where = filepath.ToSlash(where)
		switch {
		case d.IsDir() && (where == "internal" || d.Name() == "testdata" || d.Name() == "node_modules" || where != "." && strings.HasPrefix(d.Name(), ".")):
			return filepath.SkipDir
		case d.IsDir():
			return nil
		case strings.HasSuffix(path, ".go"):
			source, err := os.ReadFile(path)
			test := strings.HasSuffix(path, "_test.go")
			if err != nil || test && !bytes.Contains(source, []byte("\nfunc Example")) {
				return err
			}
			set := token.NewFileSet()
			f, err := parser.ParseFile(set, path, source, parser.ParseComments|parser.SkipObjectResolution)
			if err != nil {
				return err
			}
			for _, s := range shown(f, test) {
				look(set.Position(s.at).String(), s.text)
			}
			return nil
		case strings.HasSuffix(path, ".md"), strings.HasPrefix(where, "examples/web/page/"):
			text, err := os.ReadFile(path)
			look(where, string(text))
			return err
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if texts < 2000 {
		t.Errorf("looked at %d texts only", texts)
	}
}

// values are the sizes of check values, as millimetres, and the scores of their strips.
type values struct {
	sizes  map[[2]string]bool
	scores [][]string
}

// checkValues reads the folios and strips of the check values. A sheet, a page or a
// print of a usual size is everybody's, and what is derived is of our own making.
func checkValues(t *testing.T) values {
	t.Helper()
	v := values{sizes: map[[2]string]bool{}}
	read := func(path string, into any) {
		data, err := os.ReadFile(filepath.Join("..", "..", path))
		if err == nil {
			err = json.Unmarshal(data, into)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	add := func(texts ...string) {
		for _, text := range texts {
			for _, s := range sizesIn(text) {
				v.sizes[s.sides] = true
			}
		}
	}
	var cases []map[string]any
	read("folio/testdata/cases.json", &cases)
	for _, c := range cases {
		if source, _ := c["source"].(string); strings.HasPrefix(source, "derived") {
			continue
		}
		delete(c, "source")
		delete(c, "name")
		want, _ := c["want"].(map[string]any)
		maps.Copy(c, want)
		for _, member := range c {
			if text, ok := member.(string); ok {
				add(text)
			}
		}
	}
	var vectors struct {
		Strips []struct {
			Strip, Closed, Mat string
			Scores             []string
		}
	}
	read("pocket/testdata/vectors.json", &vectors)
	for _, s := range vectors.Strips {
		add(s.Strip, s.Closed, s.Mat)
		v.scores = append(v.scores, lengthsIn(strings.Join(s.Scores, ", ")))
	}
	for _, everybodys := range []string{"148 x 210 mm", "8 1/2 x 11 in", "4 x 6 in"} {
		for _, s := range sizesIn(everybodys) {
			delete(v.sizes, s.sides)
		}
	}
	return v
}

// in lists the check values in a text.
func (v values) in(text string) (found []string) {
	if !strings.ContainsAny(text, "0123456789¼½¾") {
		return nil
	}
	for _, s := range sizesIn(text) {
		if v.sizes[s.sides] || v.sizes[[2]string{s.sides[1], s.sides[0]}] {
			found = append(found, s.text)
		}
	}
	lengths := lengthsIn(text)
	for _, scores := range v.scores {
		if !slices.ContainsFunc(scores, func(s string) bool { return !slices.Contains(lengths, s) }) {
			found = append(found, strings.Join(scores, ", ")+" mm")
		}
	}
	return found
}

const number = `(\d+[ -]\d+/\d+|\d+/\d+|\d+\.\d+|\d*[¼½¾]|\d+)`

var (
	sizePattern   = regexp.MustCompile(number + ` ?(in|″|"|mm|cm|) ?(?:x|×|by) ?` + number + ` ?(in\b|″|"|mm\b|cm\b|)`)
	lengthPattern = regexp.MustCompile(number + ` ?(in\b|″|mm\b|cm\b)`)
)

// size is a size in a text, and its sides in millimetres.
type size struct {
	text  string
	sides [2]string
}

// sizesIn lists the sizes in a text. One without a unit is taken for inches and for
// millimetres.
func sizesIn(text string) (list []size) {
	for _, m := range sizePattern.FindAllStringSubmatch(text, -1) {
		for i, unit := range []string{"in", "mm"} {
			if i > 0 && m[2]+m[4] != "" {
				break
			}
			h := cmp.Or(m[4], m[2], unit)
			list = append(list, size{m[0], [2]string{millimetres(m[1], cmp.Or(m[2], h)), millimetres(m[3], h)}})
		}
	}
	return list
}

// lengthsIn lists the lengths in a text, in millimetres.
func lengthsIn(text string) (list []string) {
	for _, m := range lengthPattern.FindAllStringSubmatch(text, -1) {
		list = append(list, millimetres(m[1], m[2]))
	}
	return list
}

// millimetres returns a length in millimetres, one way to write it.
func millimetres(number, unit string) string {
	sum := new(big.Rat)
	number = strings.NewReplacer("-", " ", "¼", " 1/4", "½", " 1/2", "¾", " 3/4").Replace(number)
	for _, part := range strings.Fields(number) {
		if r, ok := new(big.Rat).SetString(part); ok {
			sum.Add(sum, r)
		}
	}
	factor := map[string]string{"in": "25.4", "″": "25.4", `"`: "25.4", "mm": "1", "cm": "10"}[unit]
	r, _ := new(big.Rat).SetString(factor)
	return sum.Mul(sum, r).RatString()
}

// sides returns the sides of a size that is written as a literal, W and H.
func sides(c *ast.CompositeLit) (w, h *big.Rat, ok bool) {
	if len(c.Elts) != 2 {
		return nil, nil, false
	}
	both := map[string]*big.Rat{}
	for _, e := range c.Elts {
		if kv, ok := e.(*ast.KeyValueExpr); ok {
			if key, ok := kv.Key.(*ast.Ident); ok {
				if l, ok := evaluated(kv.Value); ok {
					both[key.Name] = l
				}
			}
		}
	}
	return both["W"], both["H"], both["W"] != nil && both["H"] != nil
}

// evaluated returns what an expression of numbers and units comes to, with lengths in
// millimetres.
func evaluated(e ast.Expr) (*big.Rat, bool) {
	switch e := e.(type) {
	case *ast.ParenExpr:
		return evaluated(e.X)
	case *ast.BasicLit:
		return new(big.Rat).SetString(e.Value)
	case *ast.SelectorExpr:
		return evaluated(e.Sel)
	case *ast.Ident:
		unit, ok := map[string]string{"Inch": "25.4", "in": "25.4", "inch": "25.4", "Foot": "304.8", "Millimetre": "1", "mm": "1"}[e.Name]
		if !ok {
			return nil, false
		}
		return new(big.Rat).SetString(unit)
	case *ast.BinaryExpr:
		x, ok := evaluated(e.X)
		y, okY := evaluated(e.Y)
		if !ok || !okY {
			return nil, false
		}
		switch {
		case e.Op == token.ADD:
			return x.Add(x, y), true
		case e.Op == token.SUB:
			return x.Sub(x, y), true
		case e.Op == token.MUL:
			return x.Mul(x, y), true
		case e.Op == token.QUO && y.Sign() != 0:
			return x.Quo(x, y), true
		}
	}
	return nil, false
}

func TestTheSearchForSizes(t *testing.T) {
	v := values{sizes: map[[2]string]bool{{"1143/10", "635/4"}: true}, scores: [][]string{{"127/2", "635/8"}}}
	for text, want := range map[string]bool{
		"a cover of 4 1/2 x 6 1/4 in": true, "4½″ × 6¼″": true, "114.3 x 158.75 mm": true, "6-1/4 by 4-1/2": true, "11.43cm x 6.25 in": true,
		"4 1/2 x 6 1/2 in": false, "4 1/2 in and 6 1/4 in": false, "14 1/2 x 6 1/4 in": false, "4 1/2 x 6 1/4 mm": false,
		"scored at 2 1/2 in and 3 1/8 in": true, "scored at 2 1/2 in and 3 1/4 in": false,
	} {
		if got := v.in(text); len(got) > 0 != want {
			t.Errorf("%s: %q", text, got)
		}
	}
	// In code too, worked out by the units; what the text of a test says is its own.
	f, err := parser.ParseFile(token.NewFileSet(), "p_test.go", `package p
func ExampleA() { _ = units.Size{W: 4*units.Inch + units.Inch/2, H: 25 * units.Inch / 4} }
func ExampleB() { _ = []units.Length{2*in + in/2, 25 * in / 8} }
// ExampleC has a cover of 4 1/2 x 6 1/4 in.
func ExampleC() {}
func ExampleD() { fmt.Println("4½ by 6¼") }
func ExampleE() { _ = units.Size{W: 5 * units.Inch, H: 25 * units.Inch / 4} }
// A cover of 4 1/2 x 6 1/4 in.
func TestF() {}
`, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	for test, want := range map[bool]int{true: 4, false: 5} {
		n := 0
		for _, s := range shown(f, test) {
			n += len(v.in(s.text))
		}
		if n != want {
			t.Errorf("found %d sizes, want %d", n, want)
		}
	}
}

// seen is what a reader sees, and where.
type seen struct {
	at   token.Pos
	text string
}

// shown lists what a file shows: of the library and of programs comments and texts,
// each function's together, and of tests the Examples.
func shown(f *ast.File, test bool) (list []seen) {
	example := func(d ast.Decl) (*ast.FuncDecl, bool) {
		fn, ok := d.(*ast.FuncDecl)
		return fn, ok && (!test || fn.Recv == nil && strings.HasPrefix(fn.Name.Name, "Example"))
	}
	within := map[*ast.CommentGroup]bool{}
	for _, d := range f.Decls {
		fn, ok := example(d)
		if !ok && test {
			continue
		}
		from := d.Pos()
		if ok && fn.Doc != nil {
			from = fn.Doc.Pos()
		}
		if gen, ok := d.(*ast.GenDecl); ok && gen.Doc != nil {
			from = gen.Doc.Pos()
		}
		var b strings.Builder
		ast.Inspect(d, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.BasicLit:
				if n.Kind == token.STRING {
					b.WriteString(strings.Trim(n.Value, "\"`") + "\n")
				}
			case *ast.BinaryExpr:
				if l, ok := evaluated(n); ok {
					b.WriteString(l.FloatString(6) + " mm\n")
					return false
				}
			case *ast.CompositeLit:
				if w, h, ok := sides(n); ok {
					b.WriteString(w.FloatString(6) + " x " + h.FloatString(6) + " mm\n")
				}
			}
			return true
		})
		for _, c := range f.Comments {
			if c.Pos() >= from && c.End() <= d.End() {
				b.WriteString(c.Text() + "\n")
				within[c] = true
			}
		}
		list = append(list, seen{d.Pos(), b.String()})
	}
	for _, c := range f.Comments {
		if !test && !within[c] {
			list = append(list, seen{c.Pos(), c.Text()})
		}
	}
	return list
}
