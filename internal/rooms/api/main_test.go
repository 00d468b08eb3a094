package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"slices"
	"testing"
)

const source = `package strip
const Panels = 3
const hidden = 4
var Err error
type Kind uint8
type Pair[T any] struct { A, B T }
type Strip struct {
	Length int
	notes  []string
}
type Old = Strip
type Shape interface { Area() int; private() }
func New(n int, names ...string) (*Strip, error) { return nil, nil }
func helper() {}
func (s Strip) Panels() []int { return nil }
func (s *Strip) Fold(k Kind) {}
func (s Strip) secret() {}
`

func checked(t *testing.T, source string) *types.Package {
	t.Helper()
	fset := token.NewFileSet()
	f, err := parser.ParseFile(fset, "strip.go", source, 0)
	if err != nil {
		t.Fatal(err)
	}
	p, err := new(types.Config).Check("strip", fset, []*ast.File{f}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestFace(t *testing.T) {
	want := []string{
		"const Panels untyped int = 3",
		"func New(n int, names ...string) (*Strip, error)",
		"method (*Strip) Fold(k Kind)",
		"method (Strip) Panels() []int",
		"type Kind uint8",
		"type Old = Strip",
		"type Pair, field A T",
		"type Pair, field B T",
		"type Pair[T any] struct, not comparable",
		"type Shape interface{Area() int; private()}",
		"type Strip struct, not comparable with unexported fields",
		"type Strip, field Length int",
		"var Err error",
	}
	if got := face(checked(t, source)); !slices.Equal(got, want) {
		t.Errorf("%q\nwant\n%q", got, want)
	}
}

func TestDifference(t *testing.T) {
	got := difference("func A()\nfunc B(int)\n", "func A()\nfunc B(int64)\nfunc C()\n")
	if want := []string{"- func B(int)", "+ func B(int64)", "+ func C()"}; !slices.Equal(got, want) {
		t.Errorf("%q; want %q", got, want)
	}
	if got := difference("func A()\n", ""); !slices.Equal(got, []string{"- func A()"}) {
		t.Errorf("a package that went: %q", got)
	}
	if got := difference("func A()\n", "func A()\n"); got != nil {
		t.Errorf("no difference: %q", got)
	}
}
