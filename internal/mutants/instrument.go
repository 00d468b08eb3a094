package main

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"slices"
	"strings"
)

// switchName is the variable of an instrumented package that says which mutant
// runs; nobody else calls one so.
const switchName = "mutantSwitchedOn__"

// instrumented is the text of a package with all its mutants in it.
type instrumented struct {
	files  map[string]string // by the name of the file that it stands for
	copies map[string][]copied
}

// copied says between which offsets of an instrumented file the copy of a
// mutant lies.
type copied struct {
	start, end int
	mutant     *mutant
}

// instrument puts the mutants into the text of their package, those that do not
// type-check left out, which it marks. Mutants without a unit are passed over.
func instrument(s *subject, mutants []*mutant) (*instrumented, error) {
	for range 100 {
		number(mutants)
		in := &instrumented{files: map[string]string{}, copies: map[string][]copied{}}
		for _, f := range s.files {
			if us := unitsOf(mutants, f); len(us) > 0 {
				in.files[f.name], in.copies[f.name] = render(f, us)
			}
		}
		bad, err := in.check(s)
		if err != nil {
			return nil, err
		}
		if !bad {
			return in, nil
		}
	}
	return nil, errors.New("the mutants that do not type-check come to no end")
}

// number gives every mutant that has a unit its number, from 1, those of one
// unit one after the other, and the units their mutants.
func number(mutants []*mutant) {
	for _, m := range mutants {
		if m.unit != nil {
			m.unit.mutants = nil
		}
	}
	var units []*unit
	for _, m := range mutants {
		if m.unit == nil || m.outcome == illegal {
			continue
		}
		if m.unit.mutants == nil {
			units = append(units, m.unit)
		}
		m.unit.mutants = append(m.unit.mutants, m)
	}
	n := 0
	for _, u := range units {
		for _, m := range u.mutants {
			n++
			m.number = n
		}
	}
}

func unitsOf(mutants []*mutant, f *file) []*unit {
	var all []*unit
	for _, m := range mutants {
		if m.file == f && m.unit != nil && len(m.unit.mutants) > 0 && m.unit.mutants[0] == m {
			all = append(all, m.unit)
		}
	}
	return all
}

// render writes the file with every unit behind an if: the copies of its
// mutants, and otherwise the unit as it is, in which other units may lie.
func render(f *file, units []*unit) (string, []copied) {
	type insertion struct {
		at, depth int
		unit      *unit // nil at an end
	}
	var all []insertion
	for _, u := range units {
		all = append(all, insertion{u.start, u.depth, u}, insertion{u.end, -u.depth, nil})
	}
	// At one place ends come before beginnings, the inner ends and the outer
	// beginnings first.
	slices.SortStableFunc(all, func(a, b insertion) int {
		switch {
		case a.at != b.at:
			return a.at - b.at
		case (a.unit == nil) != (b.unit == nil):
			if a.unit == nil {
				return -1
			}
			return 1
		}
		return a.depth - b.depth
	})
	var b strings.Builder
	var copies []copied
	at := 0
	for _, i := range all {
		b.Write(f.text[at:i.at])
		at = i.at
		if i.unit == nil {
			b.WriteString("\n}")
			continue
		}
		ms := i.unit.mutants
		fmt.Fprintf(&b, "if %s-%d < %d {\n", switchName, ms[0].number, len(ms))
		for k, m := range ms {
			switch {
			case len(ms) == 1:
				b.WriteString("{")
			case k == 0:
				fmt.Fprintf(&b, "if %s == %d {", switchName, m.number)
			case k < len(ms)-1:
				fmt.Fprintf(&b, "} else if %s == %d {", switchName, m.number)
			default:
				b.WriteString("} else {")
			}
			start := b.Len()
			b.WriteString(i.unit.copyFor(m))
			copies = append(copies, copied{start, b.Len(), m})
			b.WriteString("\n")
		}
		b.WriteString("}\n} else {\n")
	}
	b.Write(f.text[at:])
	return b.String(), copies
}

// check type-checks the instrumented package, marks the mutants whose copies
// do not pass, and reports whether there were any.
func (in *instrumented) check(s *subject) (bad bool, err error) {
	fset := token.NewFileSet()
	sources := map[string]string{helperName(s): "package " + s.types.Name() + "\n\nvar " + switchName + " uint64\n"}
	for _, f := range s.files {
		sources[f.name] = string(f.text)
		if text, ok := in.files[f.name]; ok {
			sources[f.name] = text
		}
	}
	var asts []*ast.File
	for name, text := range sources {
		f, err := parser.ParseFile(fset, name, text, parser.SkipObjectResolution)
		if err != nil {
			return false, fmt.Errorf("a mutant is no Go: %w", err)
		}
		asts = append(asts, f)
	}
	conf := types.Config{Importer: s.importer, Error: func(e error) {
		var wrong types.Error
		if !errors.As(e, &wrong) {
			err = e
			return
		}
		p := fset.Position(wrong.Pos)
		if m := in.mutantAt(p.Filename, p.Offset); m != nil {
			bad = true
			m.outcome, m.by = illegal, wrong.Msg
			return
		}
		if err == nil && !strings.HasPrefix(wrong.Msg, "\t") {
			err = fmt.Errorf("instrumented: %w", wrong)
		}
	}}
	_, _ = conf.Check(s.path, fset, asts, nil)
	if bad { // what is wrong elsewhere may follow from them
		err = nil
	}
	return bad, err
}

// checkAlone type-checks the package with this one mutant in its text, without the
// bodies of functions if they are not to be looked at.
func (m *mutant) checkAlone(bodies bool) error {
	var asts []*ast.File
	for _, f := range m.subject.files {
		if f != m.file {
			asts = append(asts, f.ast)
			continue
		}
		text := apply(f.text, 0, len(f.text), []edit{{m.start, m.end, m.text}})
		changed, err := parser.ParseFile(m.subject.fset, f.name, text, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		asts = append(asts, changed)
	}
	conf := types.Config{Importer: m.subject.importer, IgnoreFuncBodies: !bodies, DisableUnusedImportCheck: !bodies}
	_, err := conf.Check(m.subject.path, m.subject.fset, asts, nil)
	return err
}

func (in *instrumented) mutantAt(name string, offset int) *mutant {
	for _, c := range in.copies[name] {
		if c.start <= offset && offset <= c.end {
			return c.mutant
		}
	}
	return nil
}
