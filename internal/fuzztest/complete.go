package fuzztest

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"runtime"
	"strings"
	"testing"
)

// Complete fails the test unless the functions that [Call] is given are all that
// the package in a directory exports, but for those that are excepted, and unless
// every exported struct with exported fields is filled or returned somewhere on
// the way.
func Complete(t testing.TB, dir string, functions ...any) {
	t.Helper()
	called, reached := map[string]bool{}, map[string]bool{}
	for _, f := range functions {
		switch f := f.(type) {
		case Except:
			called[f.Name], reached[f.Name] = true, true
		case Choice:
			reach(reflect.TypeOf(f.Value), reached)
		default:
			v := reflect.ValueOf(f)
			if v.Kind() == reflect.Func {
				name := runtime.FuncForPC(v.Pointer()).Name()
				called[name[strings.LastIndexByte(name, '.')+1:]] = true
			}
			reach(v.Type(), reached)
		}
	}
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil || len(names) == 0 {
		t.Fatalf("no package in %s: %v", dir, err)
	}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range file.Decls {
			for _, missing := range exported(d, called, reached) {
				t.Errorf("nothing calls or fills %s of %s", missing, filepath.Base(name))
			}
		}
	}
}

// exported lists the functions and structs of a declaration that are missing.
func exported(d ast.Decl, called, reached map[string]bool) (missing []string) {
	switch d := d.(type) {
	case *ast.FuncDecl:
		if d.Recv == nil && d.Name.IsExported() && d.Type.TypeParams == nil && !called[d.Name.Name] {
			missing = append(missing, d.Name.Name)
		}
	case *ast.GenDecl:
		for _, s := range d.Specs {
			spec, ok := s.(*ast.TypeSpec)
			if !ok || !spec.Name.IsExported() || spec.TypeParams != nil || reached[spec.Name.Name] {
				continue
			}
			if st, ok := spec.Type.(*ast.StructType); ok && hasExported(st) {
				missing = append(missing, spec.Name.Name)
			}
		}
	}
	return missing
}

func hasExported(s *ast.StructType) bool {
	for _, f := range s.Fields.List {
		for _, n := range f.Names {
			if n.IsExported() {
				return true
			}
		}
	}
	return false
}

// reach notes the names of all types that values of a type lead to: by fields,
// elements, and what functions and methods take and return.
func reach(t reflect.Type, reached map[string]bool) {
	reachOnce(t, reached, map[reflect.Type]bool{})
}

func reachOnce(t reflect.Type, reached map[string]bool, seen map[reflect.Type]bool) {
	if seen[t] {
		return
	}
	seen[t] = true
	if t.Name() != "" {
		reached[t.Name()] = true
	}
	next := func(t reflect.Type) { reachOnce(t, reached, seen) }
	switch t.Kind() {
	case reflect.Pointer, reflect.Slice, reflect.Array, reflect.Chan:
		next(t.Elem())
	case reflect.Map:
		next(t.Key())
		next(t.Elem())
	case reflect.Func:
		for i := range t.NumIn() {
			next(t.In(i))
		}
		for i := range t.NumOut() {
			next(t.Out(i))
		}
	case reflect.Struct:
		for i := range t.NumField() {
			if t.Field(i).IsExported() {
				next(t.Field(i).Type)
			}
		}
	}
	if t.Kind() != reflect.Interface {
		for i := range t.NumMethod() {
			next(t.Method(i).Type)
		}
	}
}
