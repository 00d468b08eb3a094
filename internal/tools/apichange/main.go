// Command apichange tells changes of what the packages promise apart into
// compatible and breaking ones, by golang.org/x/exp/apidiff: between a commit
// and the files as they are.
//
//	apichange            # since the latest tag, or since the commit before, if there is none
//	apichange -since REF
//
// Run it at the top of the module. It tells, and fails only with -strict.
package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"go/types"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"golang.org/x/exp/apidiff"
	"golang.org/x/tools/go/packages"
)

func main() {
	since := flag.String("since", "", "the `commit` to compare with")
	strict := flag.Bool("strict", false, "fail if a change is breaking")
	flag.Parse()
	breaking, err := run(os.Stdout, ".", *since)
	switch {
	case err != nil:
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	case breaking && *strict:
		os.Exit(1)
	}
}

func run(out io.Writer, dir, since string) (breaking bool, err error) {
	if since == "" {
		if since, err = base(dir); err != nil {
			return false, err
		}
	}
	tmp, err := os.MkdirTemp("", "apichange")
	if err != nil {
		return false, err
	}
	defer os.RemoveAll(tmp)
	if err := checkOut(dir, since, tmp); err != nil {
		return false, err
	}
	before, err := load(tmp)
	if err != nil {
		return false, fmt.Errorf("%s: %w", since, err)
	}
	after, err := load(dir)
	if err != nil {
		return false, err
	}
	fmt.Fprintf(out, "changes since %s:\n", since)
	report := compare(before, after)
	for _, r := range report {
		fmt.Fprintln(out, r)
		breaking = breaking || strings.HasPrefix(r, "breaking")
	}
	if len(report) == 0 {
		fmt.Fprintln(out, "none")
	}
	return breaking, nil
}

// compare returns a line a change, the breaking ones first.
func compare(before, after map[string]*types.Package) []string {
	var breaking, compatible []string
	for _, path := range slices.Sorted(maps.Keys(before)) {
		if after[path] == nil {
			breaking = append(breaking, "breaking    "+path+": the package is gone")
			continue
		}
		for _, c := range apidiff.Changes(before[path], after[path]).Changes {
			if c.Compatible {
				compatible = append(compatible, "compatible  "+path+": "+c.Message)
			} else {
				breaking = append(breaking, "breaking    "+path+": "+c.Message)
			}
		}
	}
	for _, path := range slices.Sorted(maps.Keys(after)) {
		if before[path] == nil {
			compatible = append(compatible, "compatible  "+path+": a new package")
		}
	}
	return append(breaking, compatible...)
}

func git(dir string, args ...string) (string, error) {
	cmd := exec.Command("git", args...)
	cmd.Dir = dir
	var problems bytes.Buffer
	cmd.Stderr = &problems
	out, err := cmd.Output()
	if err != nil {
		return "", fmt.Errorf("git %s: %w: %s", strings.Join(args, " "), err, &problems)
	}
	return strings.TrimSpace(string(out)), nil
}

// base returns the latest tag, or the commit before this one.
func base(dir string) (string, error) {
	if tag, err := git(dir, "describe", "--tags", "--abbrev=0"); err == nil {
		return tag, nil
	}
	return git(dir, "rev-parse", "--short", "HEAD~1")
}

// checkOut puts the files of a commit into a directory.
func checkOut(dir, since, to string) error {
	archive := filepath.Join(to, "tree.tar")
	if _, err := git(dir, "archive", "--format=tar", "--output="+archive, since); err != nil {
		return err
	}
	defer os.Remove(archive)
	if out, err := exec.Command("tar", "-xf", archive, "-C", to).CombinedOutput(); err != nil {
		return fmt.Errorf("tar: %w: %s", err, out)
	}
	return nil
}

// load type-checks the packages that others can import.
func load(dir string) (map[string]*types.Package, error) {
	const need = packages.NeedName | packages.NeedTypes | packages.NeedImports | packages.NeedDeps | packages.NeedSyntax | packages.NeedTypesInfo
	loaded, err := packages.Load(&packages.Config{Mode: need, Dir: dir}, "./...")
	if err != nil {
		return nil, err
	}
	found := map[string]*types.Package{}
	for _, p := range loaded {
		if len(p.Errors) > 0 {
			return nil, p.Errors[0]
		}
		if p.Name != "main" && !strings.Contains("/"+p.PkgPath+"/", "/internal/") {
			found[p.PkgPath] = p.Types
		}
	}
	if len(found) == 0 {
		return nil, errors.New("no packages")
	}
	return found, nil
}
