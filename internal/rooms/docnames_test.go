package rooms

import (
	"go/ast"
	"go/token"
	"regexp"
	"strings"
	"testing"
)

// A reader who looks for what a comment names finds it: whatever a comment of the
// library calls by its package, or links to in brackets, exists and is exported.
func TestNamesInComments(t *testing.T) {
	set := token.NewFileSet()
	type room struct {
		files []*ast.File
		names map[string]bool
	}
	rooms := map[string]*room{}            // by directory
	byName := map[string]map[string]bool{} // of all rooms of one name
	library(t, set, func(dir string, f *ast.File) {
		r := rooms[dir]
		if r == nil {
			r = &room{names: map[string]bool{}}
			rooms[dir] = r
		}
		r.files = append(r.files, f)
		exported(f, r.names)
	})
	for _, r := range rooms {
		name := r.files[0].Name.Name
		if byName[name] == nil {
			byName[name] = map[string]bool{}
		}
		for n := range r.names {
			byName[name][n] = true
		}
	}
	seen := 0
	for _, r := range rooms {
		for _, f := range r.files {
			for _, group := range f.Comments {
				for _, name := range named(group.Text()) {
					pkg, rest, qualified := strings.Cut(name, ".")
					have, known := byName[pkg]
					switch {
					case qualified && known:
					case ast.IsExported(pkg):
						rest, have = name, r.names
					default:
						continue // of the standard library, or no name
					}
					seen++
					if !have[rest] {
						t.Errorf("%v: there is no %s", set.Position(group.Pos()), name)
					}
				}
			}
		}
	}
	if seen < 500 {
		t.Errorf("looked at %d names only", seen)
	}
}

var (
	called = regexp.MustCompile(`\b([a-z]\w*)\.([A-Z]\w*)(\.[A-Z]\w*)?`)
	linked = regexp.MustCompile(`\[\*?((?:[a-z]\w*\.)?[A-Z]\w*(?:\.[A-Z]\w*)?)\]`)
)

// named lists what a comment calls by its package or links to.
func named(text string) []string {
	list := called.FindAllString(text, -1)
	for _, m := range linked.FindAllStringSubmatch(text, -1) {
		list = append(list, m[1])
	}
	return list
}

// exported adds the exported names of a file, with fields and methods behind their types.
func exported(f *ast.File, names map[string]bool) {
	for _, d := range f.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Recv == nil {
				names[d.Name.Name] = true
				continue
			}
			of := d.Recv.List[0].Type
			if star, ok := of.(*ast.StarExpr); ok {
				of = star.X
			}
			if id, ok := of.(*ast.Ident); ok {
				names[id.Name+"."+d.Name.Name] = true
			}
		case *ast.GenDecl:
			for _, s := range d.Specs {
				switch s := s.(type) {
				case *ast.ValueSpec:
					for _, n := range s.Names {
						names[n.Name] = true
					}
				case *ast.TypeSpec:
					names[s.Name.Name] = true
					members(s, names)
				}
			}
		}
	}
}

// members adds the fields of a structure and the methods of an interface.
func members(s *ast.TypeSpec, names map[string]bool) {
	var list *ast.FieldList
	switch t := s.Type.(type) {
	case *ast.StructType:
		list = t.Fields
	case *ast.InterfaceType:
		list = t.Methods
	default:
		return
	}
	for _, f := range list.List {
		for _, n := range f.Names {
			names[s.Name.Name+"."+n.Name] = true
		}
	}
}
