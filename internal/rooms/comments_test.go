package rooms

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// Every field that somebody else can set or read says what it is: beside it, over
// it, or by its name in what is said over a field before. Fields embedded say it
// themselves. The tools' own rooms under internal may be shorter.
func TestFieldsHaveComments(t *testing.T) {
	fields := 0
	set := token.NewFileSet()
	library(t, set, func(_ string, f *ast.File) {
		ast.Inspect(f, func(n ast.Node) bool {
			if s, ok := n.(*ast.TypeSpec); ok && s.Name.IsExported() {
				if st, ok := s.Type.(*ast.StructType); ok {
					fields += len(st.Fields.List)
					for _, name := range uncommented(st) {
						t.Errorf("%v: nothing is said of %s.%s", set.Position(name.Pos()), s.Name, name)
					}
				}
			}
			return true
		})
	})
	if fields < 500 {
		t.Errorf("looked at %d fields only", fields)
	}
}

// What somebody fills in and leaves at 0 means something or is refused: every number,
// length, size and mass of plain data says which. Results need not.
func TestFieldsSayWhatZeroIs(t *testing.T) {
	fields := 0
	set := token.NewFileSet()
	known := map[string]bool{}
	library(t, set, func(dir string, f *ast.File) {
		room := filepath.ToSlash(strings.TrimPrefix(dir, filepath.Join("..", "..")+string(filepath.Separator)))
		ast.Inspect(f, func(n ast.Node) bool {
			s, ok := n.(*ast.TypeSpec)
			if !ok || !s.Name.IsExported() {
				return true
			}
			st, ok := s.Type.(*ast.StructType)
			if !ok {
				return true
			}
			if what := room + "." + s.Name.Name; room == "pocket/work" || results[what] {
				known[what] = results[what]
				return true
			}
			fields += len(st.Fields.List)
			for _, name := range zeroless(st) {
				t.Errorf("%v: nothing is said of %s.%s left at 0", set.Position(name.Pos()), s.Name, name)
			}
			return true
		})
	})
	for what := range results {
		if !known[what] {
			t.Errorf("%s is no result that is left", what)
		}
	}
	if fields < 350 {
		t.Errorf("looked at %d fields only", fields)
	}
}

// results are the types of which the library fills the fields itself, besides those of
// pocket/work, of which orders of work are made.
var results = map[string]bool{
	"units.ParseError": true, "units.Rounded": true, "units/check.Violation": true,
	"score.Advice": true, "score.Around": true, "score.Blocked": true, "score.Crease": true, "score.CrossPanel": true, "score.FoldedPanel": true,
	"score.Made": true, "score.Patch": true, "score.Rise": true, "score.Bay": true, "score.Shown": true, "score.Snap": true,
	"score.Stack": true, "score.ThickScore": true,
	"pocket.Capacity": true, "folio/propose.Held": true, "folio/propose.Reason": true, "folio/propose.RuledOut": true,
	"folio/wire.Drawn": true, "folio/wire.Fault": true,
}

var saysZero = regexp.MustCompile(`(?i)\b(0|zero|none|empty|nothing)\b`)

// zeroless returns the exported names of fields that hold numbers and do not say what
// 0 means in them.
func zeroless(s *ast.StructType) (silent []*ast.Ident) {
	before := ""
	for _, f := range s.Fields.List {
		if f.Doc != nil || f.Comment != nil {
			before = f.Doc.Text() + f.Comment.Text()
		}
		if !measures(f.Type) || saysZero.MatchString(before) {
			continue
		}
		for _, name := range f.Names {
			if name.IsExported() {
				silent = append(silent, name)
			}
		}
	}
	return silent
}

// measures reports whether a type is a number or something measured, or a list of those.
func measures(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.ArrayType:
		return measures(e.Elt)
	case *ast.SelectorExpr:
		return measures(e.Sel)
	case *ast.Ident:
		switch e.Name {
		case "int", "int64", "float64", "Length", "Size", "Area", "Mass", "Grammage", "Rect", "Amount", "Share":
			return true
		}
	}
	return false
}

// Every constant and variable that somebody else can read says what it is: beside it,
// over it, or by its name over the group; methods of interfaces likewise.
func TestValuesHaveComments(t *testing.T) {
	values := 0
	set := token.NewFileSet()
	library(t, set, func(_ string, f *ast.File) {
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.BlockStmt:
				return false
			case *ast.InterfaceType:
				for _, m := range n.Methods.List {
					if len(m.Names) > 0 && m.Names[0].IsExported() && m.Doc == nil && m.Comment == nil {
						t.Errorf("%v: nothing is said of %s", set.Position(m.Pos()), m.Names[0])
					}
				}
			case *ast.GenDecl:
				if n.Tok == token.CONST || n.Tok == token.VAR {
					values += len(n.Specs)
					for _, name := range unsaid(n) {
						t.Errorf("%v: nothing is said of %s", set.Position(name.Pos()), name)
					}
				}
			}
			return true
		})
	})
	if values < 500 {
		t.Errorf("looked at %d values only", values)
	}
}

// unsaid returns the exported names of a declaration of values of which nothing is said.
func unsaid(d *ast.GenDecl) (bare []*ast.Ident) {
	over := d.Doc.Text()
	for _, s := range d.Specs {
		v, ok := s.(*ast.ValueSpec)
		if !ok {
			continue
		}
		over += v.Doc.Text()
		for _, name := range v.Names {
			if name.IsExported() && v.Doc == nil && v.Comment == nil && !mentions(over, name.Name) {
				bare = append(bare, name)
			}
		}
	}
	return bare
}

// library parses the files of the library that others import, tests apart, and hands
// each on with its directory.
func library(t *testing.T, set *token.FileSet, take func(dir string, f *ast.File)) {
	t.Helper()
	err := filepath.WalkDir(filepath.Join("..", ".."), func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			switch d.Name() {
			case ".git", "testdata", "node_modules", "internal", "examples":
				return filepath.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		f, err := parser.ParseFile(set, path, nil, parser.ParseComments)
		if err != nil {
			return err
		}
		take(filepath.Dir(path), f)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// uncommented returns the exported names of fields of which nothing is said.
func uncommented(s *ast.StructType) (bare []*ast.Ident) {
	before := ""
	for _, f := range s.Fields.List {
		if f.Doc != nil || f.Comment != nil {
			before = f.Doc.Text() + f.Comment.Text()
			continue
		}
		for _, name := range f.Names {
			if name.IsExported() && !mentions(before, name.Name) {
				bare = append(bare, name)
			}
		}
	}
	return bare
}

// mentions reports whether a text has a word.
func mentions(text, word string) bool {
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return !('a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' || '0' <= r && r <= '9') }) {
		if w == word {
			return true
		}
	}
	return false
}

func TestTheSearchForComments(t *testing.T) {
	f, err := parser.ParseFile(token.NewFileSet(), "p.go", `package p
type T struct {
	A int // is said
	// C and D belong together.
	C int
	D, E int
	f int
	G int
	H []units.Length // of all; zero is the default
	I, J units.Size // of each
	K bool // of it
}
// The sides are L and R.
const (
	L = iota
	R
	S
	// V and W come last.
	V
	W
	u
	X // is said
)`, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	var got, silent []string
	names := func(list *[]string, found []*ast.Ident) {
		for _, name := range found {
			*list = append(*list, name.Name)
		}
	}
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.StructType:
			names(&got, uncommented(n))
			names(&silent, zeroless(n))
		case *ast.GenDecl:
			names(&got, unsaid(n))
		}
		return true
	})
	if strings.Join(got, " ") != "E G S" {
		t.Errorf("found %q; want E, G and S", got)
	}
	if strings.Join(silent, " ") != "A C D E G I J" {
		t.Errorf("found %q; want A, C, D, E, G, I and J", silent)
	}
}
