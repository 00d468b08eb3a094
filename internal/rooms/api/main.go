// Command api compares what the packages promise to those who import them
// with what was agreed on: one file a package in the directory faces.
//
//	go run ./internal/rooms/api          # says what differs, and fails if anything does
//	go run ./internal/rooms/api -write   # agrees to it
//
// Run it at the top of the module. With packages behind (units/check score) it
// keeps to those. A package without a file is named, but is no failure: nothing
// was promised of it yet.
package main

import (
	"flag"
	"fmt"
	"go/types"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"boardwrap.example/internal/rooms"
)

const faces = "internal/rooms/api/faces"

func main() {
	write := flag.Bool("write", false, "agree to the differences")
	flag.Parse()
	differs, err := run(*write, flag.Args())
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
	if differs {
		fmt.Println("\nIf that is meant, agree to it: go run ./internal/rooms/api -write")
		os.Exit(1)
	}
}

func run(write bool, only []string) (differs bool, err error) {
	packages, err := rooms.Check(".", "./units/...", "./score/...", "./pocket/...", "./folio/...")
	if err != nil {
		return false, err
	}
	now := map[string]string{}
	for _, p := range packages {
		room, _ := rooms.Room(p.ImportPath)
		if p.Types.Name() != "main" && !strings.Contains("/"+room+"/", "/internal/") {
			now[fileName(room)] = strings.Join(face(p.Types), "\n") + "\n"
		}
	}
	agreed, err := read()
	if err != nil {
		return false, err
	}
	if len(only) > 0 {
		for i, room := range only {
			only[i] = fileName(room)
			if now[only[i]] == "" && agreed[only[i]] == "" {
				return false, fmt.Errorf("there is no package %s, and nothing was agreed on for it", room)
			}
		}
		others := func(name, _ string) bool { return !slices.Contains(only, name) }
		maps.DeleteFunc(now, others)
		maps.DeleteFunc(agreed, others)
	}
	if write {
		return false, renew(now, agreed)
	}
	for _, name := range slices.Sorted(maps.Keys(now)) {
		if _, ok := agreed[name]; !ok {
			fmt.Printf("%s: a new package, not agreed on yet\n", name)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(agreed)) {
		for _, line := range difference(agreed[name], now[name]) {
			fmt.Printf("%s: %s\n", name, line)
			differs = true
		}
	}
	return differs, nil
}

func fileName(room string) string { return strings.ReplaceAll(room, "/", "_") + ".txt" }

func read() (map[string]string, error) {
	agreed := map[string]string{}
	entries, err := os.ReadDir(faces)
	if err != nil && !os.IsNotExist(err) {
		return nil, err
	}
	for _, e := range entries {
		text, err := os.ReadFile(filepath.Join(faces, e.Name()))
		if err != nil {
			return nil, err
		}
		agreed[e.Name()] = string(text)
	}
	return agreed, nil
}

func renew(now, agreed map[string]string) error {
	if err := os.MkdirAll(faces, 0o777); err != nil {
		return err
	}
	for name := range agreed {
		if _, ok := now[name]; !ok {
			if err := os.Remove(filepath.Join(faces, name)); err != nil {
				return err
			}
		}
	}
	for name, text := range now {
		if err := os.WriteFile(filepath.Join(faces, name), []byte(text), 0o666); err != nil {
			return err
		}
	}
	return nil
}

// difference returns the lines that went, with "-", and those that came, with
// "+".
func difference(before, after string) []string {
	was, is := strings.Split(strings.TrimSpace(before), "\n"), strings.Split(strings.TrimSpace(after), "\n")
	var lines []string
	for _, line := range was {
		if !slices.Contains(is, line) {
			lines = append(lines, "- "+line)
		}
	}
	for _, line := range is {
		if !slices.Contains(was, line) && line != "" {
			lines = append(lines, "+ "+line)
		}
	}
	return lines
}

// face returns the exported names of a package with their types, constants
// with their values, structs with their exported fields, and the methods of
// each type; one a line, sorted.
func face(p *types.Package) []string {
	var lines []string
	qualify := types.RelativeTo(p)
	add := func(format string, args ...any) { lines = append(lines, fmt.Sprintf(format, args...)) }
	for _, name := range p.Scope().Names() {
		o := p.Scope().Lookup(name)
		if !o.Exported() {
			continue
		}
		switch o := o.(type) {
		case *types.Const:
			add("const %s %s = %s", name, types.TypeString(o.Type(), qualify), o.Val().ExactString())
		case *types.TypeName:
			typeFace(o, qualify, add)
		default: // a function or a variable
			add("%s", types.ObjectString(o, qualify))
		}
	}
	slices.Sort(lines)
	return lines
}

func typeFace(o *types.TypeName, qualify types.Qualifier, add func(string, ...any)) {
	name := o.Name()
	if o.IsAlias() {
		add("type %s = %s", name, types.TypeString(types.Unalias(o.Type()), qualify))
		return
	}
	named, ok := o.Type().(*types.Named)
	if !ok {
		return
	}
	head := types.TypeString(named, qualify)
	if list := named.TypeParams(); list != nil {
		var params []string
		for param := range list.TypeParams() {
			params = append(params, param.String()+" "+types.TypeString(param.Constraint(), qualify))
		}
		head = name + "[" + strings.Join(params, ", ") + "]"
	}
	switch under := named.Underlying().(type) {
	case *types.Struct:
		hidden := ""
		for f := range under.Fields() {
			if f.Exported() {
				embedded := ""
				if f.Embedded() {
					embedded = " (embedded)"
				}
				add("type %s, field %s %s%s", name, f.Name(), types.TypeString(f.Type(), qualify), embedded)
			} else {
				hidden = " with unexported fields"
			}
		}
		// Whether == compiles is a promise too.
		comparable := "not comparable"
		if types.Comparable(named) {
			comparable = "comparable"
		}
		add("type %s struct, %s%s", head, comparable, hidden)
	case *types.Interface:
		add("type %s %s", head, types.TypeString(under, qualify))
		return // its methods stand in the line
	default:
		add("type %s %s", head, types.TypeString(under, qualify))
	}
	methods := types.NewMethodSet(types.NewPointer(named))
	values := types.NewMethodSet(named)
	for m := range methods.Methods() {
		if !m.Obj().Exported() {
			continue
		}
		receiver := name
		if values.Lookup(m.Obj().Pkg(), m.Obj().Name()) == nil {
			receiver = "*" + name
		}
		signature := strings.TrimPrefix(types.TypeString(m.Type(), qualify), "func")
		add("method (%s) %s%s", receiver, m.Obj().Name(), signature)
	}
}
