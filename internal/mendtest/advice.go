package mendtest

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/units/check"
)

// says is what the doc of a code says where what would do is no setting of one
// field.
const says = "advice"

// AdviceOf lists the codes of the packages in directories whose docs say that
// what would do is advice.
func AdviceOf(tb testing.TB, dirs ...string) []check.Code {
	tb.Helper()
	var codes []check.Code
	for _, dir := range dirs {
		files, err := filepath.Glob(filepath.Join(dir, "*.go"))
		if err != nil || len(files) == 0 {
			tb.Fatalf("no package in %s: %v", dir, err)
		}
		for _, name := range files {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments)
			if err != nil {
				tb.Fatal(err)
			}
			ast.Inspect(file, func(n ast.Node) bool {
				if d, ok := n.(*ast.GenDecl); ok && d.Tok == token.CONST {
					for _, spec := range d.Specs {
						codes = append(codes, adviceOf(d, spec.(*ast.ValueSpec))...)
					}
				}
				return true
			})
		}
	}
	return codes
}

func adviceOf(d *ast.GenDecl, spec *ast.ValueSpec) []check.Code {
	doc := spec.Doc.Text() + spec.Comment.Text()
	if !d.Lparen.IsValid() { // one by itself
		doc += d.Doc.Text()
	}
	if !strings.Contains(doc, says) {
		return nil
	}
	var codes []check.Code
	for _, v := range spec.Values {
		lit, ok := v.(*ast.BasicLit)
		if !ok {
			continue
		}
		if text, err := strconv.Unquote(lit.Value); err == nil {
			codes = append(codes, check.Code(text))
		}
	}
	return codes
}
