package main

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"text/tabwriter"
)

// A tally counts what became of mutants. Those judged equivalent count as
// nothing else, unless a test noticed them.
type tally struct{ tried, noticed, survived, uncovered, equivalent, untried int }

func (t *tally) add(m *mutant) {
	switch {
	case m.outcome == illegal:
	case m.outcome == untried:
		t.untried++
	case m.reason != "" && !m.wasNoticed():
		t.equivalent++
	case m.wasNoticed():
		t.tried++
		t.noticed++
	default:
		t.tried++
		t.survived++
		if m.outcome == uncovered {
			t.uncovered++
		}
	}
}

// percent is how many of those tried were noticed; 100 if none was tried.
func (t tally) percent() float64 {
	if t.tried == 0 {
		return 100
	}
	return 100 * float64(t.noticed) / float64(t.tried)
}

func (m *mutant) wasNoticed() bool { return m.outcome == noticed || m.outcome == hung }

// isSurvivor reports whether a mutant should have been noticed and was not.
func (m *mutant) isSurvivor() bool {
	return (m.outcome == survived || m.outcome == uncovered) && m.reason == ""
}

func count(mutants []*mutant, which func(*mutant) bool) tally {
	var t tally
	for _, m := range mutants {
		if which(m) {
			t.add(m)
		}
	}
	return t
}

func all(*mutant) bool { return true }

func isRounding(m *mutant) bool { return m.op == rounding }

// table prints what became of the mutants, a line for each package and for each
// operator. A mutant noticed by running on is counted with the noticed.
func table(out io.Writer, subjects []*subject, mutants []*mutant) {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	line := func(name string, t, r tally) {
		fmt.Fprintf(w, "%s\t%d\t%d\t%d\t%d\t%d\t%.1f %%\t%d of %d\t\n", name, t.tried, t.noticed, t.survived, t.uncovered, t.equivalent, t.percent(), r.noticed, r.tried)
	}
	fmt.Fprintln(w, "package\ttried\tnoticed\tsurvived\tof them not run\tequivalent\tnoticed\trounding noticed\t")
	for _, s := range subjects {
		here := func(m *mutant) bool { return m.subject == s }
		if t := count(mutants, here); t.tried+t.equivalent+t.untried > 0 {
			line(s.room, t, count(mutants, func(m *mutant) bool { return here(m) && isRounding(m) }))
		}
	}
	total := count(mutants, all)
	line("all", total, count(mutants, isRounding))
	_ = w.Flush()
	fmt.Fprintln(out)
	fmt.Fprintln(w, "operator\ttried\tnoticed\tsurvived\tof them not run\tequivalent\tnoticed\t")
	for _, op := range operators {
		t := count(mutants, func(m *mutant) bool { return m.op == op })
		fmt.Fprintf(w, "%s\t%d\t%d\t%d\t%d\t%d\t%.1f %%\t\n", op, t.tried, t.noticed, t.survived, t.uncovered, t.equivalent, t.percent())
	}
	_ = w.Flush()
	if total.untried > 0 {
		fmt.Fprintf(out, "\nNot tried, because the time was up or there are no tests: %d\n", total.untried)
	}
}

// where says at which place of which file a mutant is.
func (m *mutant) where(root string) string {
	name, err := filepath.Rel(root, m.file.name)
	if err != nil {
		name = m.file.name
	}
	return fmt.Sprintf("%s:%d:%d", filepath.ToSlash(name), m.line(), m.column())
}

func (m *mutant) describe(root string) string {
	what := short(m.before(), 70) + " → " + short(m.after(), 70)
	function := m.function
	if function == "" {
		function = "outside functions"
	}
	return fmt.Sprintf("%s  %s  %s  %s: %s", m.where(root), m.id(), function, m.op, what)
}

// survivors prints the mutants that no test minds.
func survivors(out io.Writer, root string, mutants []*mutant) {
	list := slices.DeleteFunc(slices.Clone(mutants), func(m *mutant) bool { return !m.isSurvivor() })
	if len(list) == 0 {
		return
	}
	fmt.Fprintln(out, "\nSurvivors:")
	for _, m := range list {
		note := ""
		if m.outcome == uncovered {
			note = " (no test runs this)"
		}
		if m.by != "" {
			note = " (but noticed by " + m.by + ")"
		}
		fmt.Fprintf(out, "%s%s\n", m.describe(root), note)
	}
}

// diff prints a mutant as a change of its file, with three lines around.
func diff(out io.Writer, root string, m *mutant) {
	name := strings.TrimSuffix(m.where(root), fmt.Sprintf(":%d:%d", m.line(), m.column()))
	was := strings.Split(string(m.file.text), "\n")
	is := strings.Split(apply(m.file.text, 0, len(m.file.text), []edit{{m.start, m.end, m.text}}), "\n")
	from := m.line() - 1
	after := len(was) - m.file.tok.Line(m.file.tok.Pos(m.end)) // unchanged lines behind
	before := max(from-3, 0)
	more := min(after, 3)
	fmt.Fprintf(out, "--- %s\n+++ %s\n@@ -%d,%d +%d,%d @@ %s\n", name, name,
		before+1, len(was)-after+more-before, before+1, len(is)-after+more-before, m.function)
	lines := func(sign string, list []string) {
		for _, l := range list {
			fmt.Fprintf(out, "%s%s\n", sign, l)
		}
	}
	lines(" ", was[before:from])
	lines("-", was[from:len(was)-after])
	lines("+", is[from:len(is)-after])
	lines(" ", was[len(was)-after:len(was)-after+more])
}
