package fuzztest

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"path/filepath"
	"reflect"
	"runtime"
	"slices"
	"strings"
	"testing"
)

// Complete fails the test unless the functions that [Call] is given are all that
// the package in a directory exports, but for those that are excepted, and unless
// every exported struct with exported fields is filled or returned somewhere on
// the way. It calls all methods of the zero values of these types, too, with zero
// arguments: nobody keeps a caller from that.
func Complete(t testing.TB, dir string, functions ...any) {
	t.Helper()
	called, reached := map[string]bool{}, map[string]bool{}
	types, home := map[reflect.Type]bool{}, map[string]bool{}
	for _, f := range functions {
		switch f := f.(type) {
		case Except:
			called[f.Name], reached[f.Name] = true, true
		case Choice:
			reach(reflect.TypeOf(f.Value), reached, types)
		default:
			v := reflect.ValueOf(f)
			if v.Kind() == reflect.Func {
				name := runtime.FuncForPC(v.Pointer()).Name()
				at := strings.LastIndexByte(name, '.')
				called[name[at+1:]], home[name[:at]] = true, true
			} else {
				home[v.Type().PkgPath()] = true
			}
			reach(v.Type(), reached, types)
		}
	}
	for _, of := range slices.SortedFunc(maps.Keys(types), func(a, b reflect.Type) int { return strings.Compare(a.String(), b.String()) }) {
		if home[of.PkgPath()] && of.Kind() != reflect.Interface {
			zero(t, of)
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

// zero calls the methods of a type's zero value, and walks what they return.
func zero(t testing.TB, of reflect.Type) {
	v := reflect.New(of)
	for i := range v.NumMethod() {
		func() {
			name := v.Type().Method(i).Name
			defer func() {
				if r := recover(); r != nil {
					t.Errorf("%s of the zero %v panics: %v", name, of, r)
				}
			}()
			f := v.Method(i)
			var args []reflect.Value
			for k := range f.Type().NumIn() {
				args = append(args, reflect.Zero(f.Type().In(k)))
				if args[k].Kind() == reflect.Func {
					return // is to be called
				}
			}
			call := f.Call
			if f.Type().IsVariadic() {
				call = f.CallSlice
			}
			for _, r := range call(args) {
				switch {
				case r.Kind() == reflect.Func && r.Type().CanSeq():
					for range r.Seq() {
						break
					}
				case r.Kind() == reflect.Func && r.Type().CanSeq2():
					for range r.Seq2() {
						break
					}
				}
			}
		}()
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
func reach(t reflect.Type, reached map[string]bool, seen map[reflect.Type]bool) {
	if seen[t] {
		return
	}
	seen[t] = true
	if t.Name() != "" {
		reached[t.Name()] = true
	}
	next := func(t reflect.Type) { reach(t, reached, seen) }
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
