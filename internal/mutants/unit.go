package main

import (
	"go/ast"
	"go/token"
	"slices"
	"strconv"
	"strings"
)

// A unit is a stretch of a function that stands in the test binary once as it
// is and once for each of its mutants: a statement, or, where a declaration is
// changed, which has to stay in the scope it is in, the list of statements that
// it stands in.
type unit struct {
	file       *file
	start, end int
	depth      int
	labels     []*ast.Ident // declared or used inside, of labels declared inside
	mutants    []*mutant
}

// unitOf returns the least unit around the node in hand, nil outside functions.
func (fd *finder) unitOf() *unit {
	for i := len(fd.stack) - 1; i > 0; i-- {
		s, ok := fd.stack[i].(ast.Stmt)
		if !ok {
			continue
		}
		list, start, end := fd.listAround(fd.stack[i-1])
		if list == nil || !slices.Contains(list, s) || !wholeStatements(list) {
			continue
		}
		depth := 2 * i
		if standsAlone(s) {
			start, end = fd.file.offset(s.Pos()), fd.file.offset(s.End())
			depth++
		}
		key := [2]int{start, end}
		if fd.units[key] == nil {
			fd.units[key] = &unit{file: fd.file, start: start, end: end, depth: depth, labels: labels(list, start, end, fd.file)}
		}
		return fd.units[key]
	}
	return nil
}

// listAround returns the statements that a node holds as a list, and where the
// list begins and ends in the text.
func (fd *finder) listAround(n ast.Node) (list []ast.Stmt, start, end int) {
	switch n := n.(type) {
	case *ast.BlockStmt:
		return n.List, fd.file.offset(n.Lbrace) + 1, fd.file.offset(n.Rbrace)
	case *ast.CaseClause:
		list, start = n.Body, fd.file.offset(n.Colon)+1
	case *ast.CommClause:
		list, start = n.Body, fd.file.offset(n.Colon)+1
	}
	if len(list) > 0 {
		end = fd.file.offset(list[len(list)-1].End())
	}
	return list, start, end
}

// wholeStatements reports whether a list of statements can be copied into an
// if: the cases of a switch cannot, nor what falls through to the next.
func wholeStatements(list []ast.Stmt) bool {
	for _, s := range list {
		switch s := s.(type) {
		case *ast.CaseClause, *ast.CommClause:
			return false
		case *ast.BranchStmt:
			if s.Tok == token.FALLTHROUGH {
				return false
			}
		}
	}
	return true
}

// standsAlone reports whether nothing after the statement needs names that it
// declares.
func standsAlone(s ast.Stmt) bool {
	switch s := s.(type) {
	case *ast.AssignStmt:
		return s.Tok != token.DEFINE
	case *ast.DeclStmt, *ast.LabeledStmt:
		return false
	}
	return true
}

// labels returns where labels that are declared between two offsets are named.
func labels(list []ast.Stmt, start, end int, f *file) []*ast.Ident {
	declared := map[string]bool{}
	var named []*ast.Ident
	for pass := range 2 {
		for _, s := range list {
			ast.Inspect(s, func(n ast.Node) bool {
				if n == nil || f.offset(n.Pos()) >= end || f.offset(n.End()) <= start {
					return false
				}
				switch n := n.(type) {
				case *ast.LabeledStmt:
					if pass == 0 {
						declared[n.Label.Name] = true
					} else {
						named = append(named, n.Label)
					}
				case *ast.BranchStmt:
					if pass == 1 && n.Label != nil && declared[n.Label.Name] {
						named = append(named, n.Label)
					}
				}
				return true
			})
		}
	}
	return named
}

// An edit replaces a stretch of text.
type edit struct {
	start, end int
	text       string
}

// copyFor returns the text of the unit with one mutant's change in it. Labels
// get names of their own, because a function must not declare one twice.
func (u *unit) copyFor(m *mutant) string {
	edits := []edit{{m.start, m.end, m.text}}
	for _, l := range u.labels {
		if at := u.file.offset(l.Pos()); at < m.start || at >= m.end {
			edits = append(edits, edit{at, u.file.offset(l.End()), l.Name + "_" + strconv.Itoa(m.number)})
		}
	}
	return apply(u.file.text, u.start, u.end, edits)
}

// apply returns the text between two offsets with the edits made.
func apply(text []byte, start, end int, edits []edit) string {
	slices.SortFunc(edits, func(a, b edit) int { return a.start - b.start })
	var b strings.Builder
	for _, e := range edits {
		b.Write(text[start:e.start])
		b.WriteString(e.text)
		start = e.end
	}
	b.Write(text[start:end])
	return b.String()
}
