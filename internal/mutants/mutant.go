package main

import (
	"crypto/sha1"
	"fmt"
	"go/ast"
	"slices"
	"strings"
)

// An operator is a kind of change.
type operator string

// The operators.
const (
	arithmetic      operator = "arithmetic" // another operation: + for −, × for ÷, a sign dropped
	comparison      operator = "comparison" // the opposite comparison
	boundary        operator = "boundary"   // < for ≤
	logic           operator = "logic"      // && for ||
	negation        operator = "negation"   // a condition negated
	offByOne        operator = "off-by-one" // a number or a place in a list one more or less
	rounding        operator = "rounding"   // another direction
	swap            operator = "swap"       // another axis, side or end
	swappedConstant operator = "constant"   // another constant of the type
	drop            operator = "drop"       // a statement left out
	violation       operator = "violation"  // a violation or warning left out
)

var operators = []operator{arithmetic, comparison, boundary, logic, negation, offByOne, rounding, swap, swappedConstant, drop, violation}

// A mutant is one change of the text of a package.
type mutant struct {
	subject     *subject
	file        *file
	start, end  int    // what is replaced
	text        string // by what
	op          operator
	function    string // as in Ruler.Round; empty outside functions
	declaration ast.Decl
	nth         int // among mutants that are alike in all that identifies them, from 0

	unit   *unit // nil: it needs a build of its own
	number int   // what switches it on

	outcome outcome
	by      string // what noticed it, or why it is none
	reason  string // why it is judged equivalent
}

// An outcome is what became of a mutant.
type outcome uint8

const (
	untried   outcome = iota
	illegal           // it does not type-check
	noticed           // a test failed
	hung              // noticed by running on or eating memory
	uncovered         // no test runs the line
	survived
)

// before and after are the source text that is changed, on one line.
func (m *mutant) before() string { return oneLine(string(m.file.text[m.start:m.end])) }

func (m *mutant) after() string {
	if m.op == drop || m.op == violation {
		return "(left out)"
	}
	return oneLine(m.text)
}

func (m *mutant) change() string { return m.before() + " → " + m.after() }

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// short cuts a text for a list that people read.
func short(s string, most int) string {
	if r := []rune(s); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return s
}

// An identity says which mutant is meant, whatever lines are added above it.
type identity struct {
	Package  string `json:"package"`
	Function string `json:"function"`
	Operator string `json:"operator"`
	Line     string `json:"line"` // the source line on which the change begins
	Change   string `json:"change"`
	Nth      int    `json:"nth,omitempty"` // where several are alike, counted from 0
}

func (m *mutant) identity() identity {
	return identity{m.subject.room, m.function, string(m.op), m.file.lineText(m.start), m.change(), m.nth}
}

// id is a short name of the identity.
func (m *mutant) id() string {
	return fmt.Sprintf("%x", sha1.Sum(fmt.Appendf(nil, "%+v", m.identity())))[:8]
}

func (m *mutant) line() int { return m.file.tok.Line(m.file.tok.Pos(m.start)) }

func (m *mutant) column() int { return m.file.tok.Position(m.file.tok.Pos(m.start)).Column }

// finder walks a package and notes its mutants.
type finder struct {
	*subject
	file     *file
	function string
	decl     ast.Decl
	stack    []ast.Node // from the file down to the node in hand
	units    map[[2]int]*unit
	found    []*mutant
	texts    bool // String methods too
}

// find returns the mutants of a package in the order of its text. Generated
// files have none, and methods called String only if texts is set.
func find(s *subject, texts bool) []*mutant {
	fd := &finder{subject: s, texts: texts}
	for _, f := range s.files {
		if ast.IsGenerated(f.ast) {
			continue
		}
		fd.file, fd.units = f, map[[2]int]*unit{}
		for _, d := range f.ast.Decls {
			fd.declaration(d)
		}
	}
	fd.sortAndNumber()
	return fd.found
}

func (fd *finder) declaration(d ast.Decl) {
	fd.function, fd.decl = "", d
	if fn, ok := d.(*ast.FuncDecl); ok {
		if fn.Body == nil || fn.Name.Name == "String" && fn.Recv != nil && !fd.texts {
			return
		}
		fd.function = fn.Name.Name
		if fn.Recv != nil {
			fd.function = receiver(fn.Recv.List[0].Type) + "." + fn.Name.Name
		}
	}
	ast.PreorderStack(d, []ast.Node{fd.file.ast}, func(n ast.Node, stack []ast.Node) bool {
		fd.stack = append(stack, n)
		switch n := n.(type) {
		case *ast.ImportSpec, *ast.FuncType, *ast.TypeSpec, *ast.Field, *ast.StructType, *ast.MapType, *ast.ChanType, *ast.InterfaceType:
			return false
		case *ast.ArrayType:
			return false
		case *ast.FuncDecl:
			return true
		case ast.Expr:
			if fd.isRoom(n) {
				return false
			}
			fd.visit(n)
		default:
			fd.visit(n)
		}
		return true
	})
}

func receiver(t ast.Expr) string {
	switch t := t.(type) {
	case *ast.StarExpr:
		return receiver(t.X)
	case *ast.IndexExpr:
		return receiver(t.X)
	case *ast.IndexListExpr:
		return receiver(t.X)
	case *ast.Ident:
		return t.Name
	}
	return "?"
}

// add notes a change of the node that is in hand, or of a part of it.
func (fd *finder) add(op operator, start, end int, text string) {
	if string(fd.file.text[start:end]) == text {
		return
	}
	fd.found = append(fd.found, &mutant{
		subject: fd.subject, file: fd.file, start: start, end: end, text: text, op: op, function: fd.function, declaration: fd.decl, unit: fd.unitOf(),
	})
}

// replace notes a change of a whole node.
func (fd *finder) replace(op operator, n ast.Node, text string) {
	fd.add(op, fd.file.offset(n.Pos()), fd.file.offset(n.End()), text)
}

// sortAndNumber puts the mutants in the order of the text, leaves one of those
// that do the same, and tells apart those that are alike.
func (fd *finder) sortAndNumber() {
	order := func(a, b *mutant) int {
		if c := strings.Compare(a.file.name, b.file.name); c != 0 {
			return c
		}
		return a.start - b.start
	}
	slices.SortStableFunc(fd.found, order)
	type edit struct {
		file       *file
		start, end int
		text       string
	}
	seen := map[edit]bool{}
	alike := map[identity]int{}
	kept := fd.found[:0]
	for _, m := range fd.found {
		e := edit{m.file, m.start, m.end, oneLine(m.text)}
		if seen[e] {
			continue
		}
		seen[e] = true
		who := m.identity()
		m.nth = alike[who]
		alike[who]++
		kept = append(kept, m)
	}
	fd.found = kept
}
