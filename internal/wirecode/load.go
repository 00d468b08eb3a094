package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
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
	paths := []string{"list", "-export", "-deps", "-json=ImportPath,Export"}
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
	exports, err := exported(root, paths)
	if err != nil {
		return nil, err
	}
	conf := types.Config{
		Importer: importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) }),
		Error:    func(error) {}, // it calls what is not there
	}
	pkg, _ := conf.Check(module+room, fset, files, nil) // with what is not there it has errors
	return pkg, nil
}

// exported asks the go command where the export data of packages are.
func exported(root string, args []string) (map[string]string, error) {
	cmd := exec.Command("go", args...)
	cmd.Dir = root
	var problems bytes.Buffer
	cmd.Stderr = &problems
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w\n%s", err, &problems)
	}
	all := map[string]string{}
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p struct{ ImportPath, Export string }
		switch err := dec.Decode(&p); {
		case errors.Is(err, io.EOF):
			return all, nil
		case err != nil:
			return nil, err
		}
		all[p.ImportPath] = p.Export
	}
}
