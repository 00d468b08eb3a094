// Package listing is what tools have in common that load packages and list what
// they find in them.
package listing

import (
	"fmt"
	"os"

	"golang.org/x/tools/go/packages"
)

// Main prints what run finds in the packages that the command line names, a line
// each, and ends the program: with 0 if that is nothing, 1 if it is something, 2 if
// run fails.
func Main(run func(dir string, patterns ...string) ([]string, error)) {
	found, err := run(".", os.Args[1:]...)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
	for _, line := range found {
		fmt.Println(line)
	}
	if len(found) > 0 {
		os.Exit(1)
	}
}

// Load loads packages with their syntax and types, with tests and what is built
// with the tag long if they are wanted. The error is of the first package that does
// not build.
func Load(dir string, tests bool, patterns ...string) ([]*packages.Package, error) {
	config := &packages.Config{Dir: dir, Tests: tests,
		Mode: packages.NeedName | packages.NeedFiles | packages.NeedSyntax | packages.NeedTypes | packages.NeedTypesInfo | packages.NeedImports | packages.NeedDeps}
	if tests {
		config.BuildFlags = []string{"-tags=long"}
	}
	loaded, err := packages.Load(config, patterns...)
	if err != nil {
		return nil, err
	}
	for _, p := range loaded {
		if len(p.Errors) > 0 {
			return nil, p.Errors[0]
		}
	}
	return loaded, nil
}
