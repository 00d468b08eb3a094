package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"path/filepath"
	"strconv"
	"strings"

	"boardwrap.example/internal/rooms"
)

// suffix ends the names of files that this command writes.
const suffix = "_code.go"

// load type-checks the package in a directory as far as it can without the code
// that is to be written, which may be of yesterday or missing.
func load(root, dir string) (*types.Package, error) {
	fset := token.NewFileSet()
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		return nil, err
	}
	var files []*ast.File
	var paths []string
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") || strings.HasSuffix(name, suffix) {
			continue
		}
		f, err := parser.ParseFile(fset, name, nil, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		files = append(files, f)
		for _, i := range f.Imports {
			path, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				return nil, err
			}
			paths = append(paths, path)
		}
	}
	imports, err := rooms.Importer(fset, root, paths...)
	if err != nil {
		return nil, err
	}
	conf := types.Config{Importer: imports, Error: func(error) {}} // it calls what is not there
	pkg, _ := conf.Check(module+room, fset, files, nil)            // with what is not there it has errors
	return pkg, nil
}
