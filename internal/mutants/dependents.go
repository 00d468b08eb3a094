package main

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// tryDependents runs the tests of the packages that import the survivors' one
// and notes which of them notices what. It does not count: the tests of a
// package are to hold it by themselves.
func (b *bench) tryDependents(ctx context.Context, mutants []*mutant) error {
	var left []*mutant
	for _, m := range mutants {
		if m.isSurvivor() && m.unit != nil {
			left = append(left, m)
		}
	}
	if len(left) == 0 {
		return nil
	}
	all, err := goList(b.root, "./...")
	if err != nil {
		return err
	}
	for _, p := range all {
		imports := slices.Concat(p.Deps, p.TestImports, p.XTestImports)
		if p.ImportPath == b.subject.path || !slices.Contains(imports, b.subject.path) || len(p.TestGoFiles)+len(p.XTestGoFiles) == 0 {
			continue
		}
		if err := b.tryDependent(ctx, p, left); err != nil {
			return err
		}
		left = slices.DeleteFunc(left, func(m *mutant) bool { return m.by != "" })
		b.log("%s: %d survive the tests of %s", b.subject.room, len(left), p.ImportPath)
	}
	return nil
}

func (b *bench) tryDependent(ctx context.Context, p listed, left []*mutant) error {
	binary := filepath.Join(b.tmp, "dependent.test")
	if err := buildTest(b.root, &subject{path: p.ImportPath}, binary, "-overlay="+b.overlay); err != nil {
		return err
	}
	defer os.Remove(binary)
	everything := &check{name: ".*"}
	clean := exec.CommandContext(ctx, binary)
	clean.Dir = p.Dir
	if err := clean.Run(); err != nil {
		b.log("%s: the tests of %s do not pass on the instrumented package", b.subject.room, p.ImportPath)
		return nil
	}
	everything.cpu = clean.ProcessState.UserTime() + clean.ProcessState.SystemTime() + time.Second
	b.each(len(left), func(i int) {
		r := b.run(ctx, binary, p.Dir, []*check{everything}, left[i].number, true)
		if ctx.Err() == nil && !r.passed {
			left[i].by = p.ImportPath + ": " + strings.Join(append(r.failed, r.how), ", ")
		}
	})
	return nil
}
