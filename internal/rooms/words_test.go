package rooms

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A leave is what a word means in all the rooms that have a type of it.
type leave struct {
	meaning string
	rooms   []string
}

// oneMeaning are the words that types of several rooms are called by, for what they
// mean is the same in each: what that is, and the rooms that were looked at.
var oneMeaning = map[string]leave{
	"Board":   {"one board of a row: as it is asked for, and as it is planned", []string{"folio", "folio/boards"}},
	"Budget":  {"what bounds the work of a search", []string{"folio/fit", "folio/layout", "folio/propose"}},
	"Error":   {"all that is wrong with what was given: a specification, a document", []string{"folio/wire", "units/check"}},
	"Form":    {"a row of boards: one with a name, and whatever row a folio may have", []string{"folio/boards", "folio/propose"}},
	"Height":  {"how far something stands up at a place: of a pocket, of the open folio", []string{"folio", "pocket"}},
	"Kind":    {"one of the closed family of what the package is about", []string{"folio", "pocket"}},
	"Mat":     {"a backing a little larger than its picture: in a pocket, and as a fitting by itself", []string{"folio", "pocket"}},
	"Options": {"how what the package does is done", []string{"folio/guide", "folio/weigh", "folio/wire"}},
	"Piece":   {"something to be cut: of a pocket, of a folio", []string{"folio", "pocket"}},
	"Spot":    {"where contents go: in a pocket, on a fitting", []string{"folio", "pocket"}},
}

// Who knows a word of one room of the library knows it in all: an exported type has
// its name to itself, but for the words above.
func TestWordsMeanOneThing(t *testing.T) {
	set := token.NewFileSet()
	types := map[string]map[string]bool{}
	library(t, set, func(dir string, f *ast.File) {
		if room, err := filepath.Rel(filepath.Join("..", ".."), dir); err == nil {
			typesOf(f, filepath.ToSlash(room), types)
		}
	})
	if len(types) < 200 {
		t.Errorf("looked at %d types only", len(types))
	}
	for _, wrong := range unclear(types, oneMeaning) {
		t.Error(wrong)
	}
}

// unclear says which types of several rooms have no leave for that, and which leave
// nothing needs, or says nothing.
func unclear(types map[string]map[string]bool, leaves map[string]leave) (all []string) {
	for _, word := range slices.Sorted(maps.Keys(types)) {
		if rooms := slices.Sorted(maps.Keys(types[word])); len(rooms) > 1 && !slices.Equal(rooms, leaves[word].rooms) {
			all = append(all, fmt.Sprintf("%s is a type of each of %q: let each mean its own thing, or say what all of them mean", word, rooms))
		}
	}
	for _, word := range slices.Sorted(maps.Keys(leaves)) {
		if n := len(types[word]); n < 2 || leaves[word].meaning == "" {
			all = append(all, fmt.Sprintf("%s, %q, is a type of %d rooms", word, leaves[word].meaning, n))
		}
	}
	return all
}

// typesOf adds the exported types of a file of a room.
func typesOf(f *ast.File, room string, to map[string]map[string]bool) {
	for _, d := range f.Decls {
		g, ok := d.(*ast.GenDecl)
		if !ok || g.Tok != token.TYPE {
			continue
		}
		for _, s := range g.Specs {
			if name := s.(*ast.TypeSpec).Name.Name; ast.IsExported(name) {
				if to[name] == nil {
					to[name] = map[string]bool{}
				}
				to[name][room] = true
			}
		}
	}
}

func TestTheSearchForUnclearWords(t *testing.T) {
	types := map[string]map[string]bool{}
	for room, source := range map[string]string{
		"press":       "package press\n\ntype Bed int\n\ntype (\n\tForme struct{}\n\tTray = int\n\tinner int\n)\n",
		"press/ink":   "package ink\n\ntype Bed string\n\ntype Tray int\n\ntype inner string\n\nfunc Forme() {}\n",
		"press/paper": "package paper\n\ntype Tray string\n",
	} {
		f, err := parser.ParseFile(token.NewFileSet(), "", source, 0)
		if err != nil {
			t.Fatal(err)
		}
		typesOf(f, room, types)
	}
	of := func(rooms ...string) leave { return leave{"a meaning", rooms} }
	for _, c := range []struct {
		leaves map[string]leave
		want   []string // what the complaints begin with
	}{
		{map[string]leave{"Bed": of("press", "press/ink"), "Tray": of("press", "press/ink", "press/paper")}, nil},
		{nil, []string{"Bed is a type of each", "Tray is a type of each"}},
		{map[string]leave{"Bed": of("press", "press/ink"), "Tray": of("press", "press/ink")}, []string{"Tray is a type of each"}},
		{map[string]leave{"Bed": {"", []string{"press", "press/ink"}}, "Tray": of("press", "press/ink", "press/paper")}, []string{`Bed, ""`}},
		{map[string]leave{"Bed": of("press", "press/ink"), "Tray": of("press", "press/ink", "press/paper"), "Forme": of("press", "press/ink"), "Gone": of("press")},
			[]string{`Forme, "a meaning", is a type of 1 rooms`, `Gone, "a meaning", is a type of 0 rooms`}},
	} {
		got := unclear(types, c.leaves)
		if len(got) != len(c.want) {
			t.Errorf("%v: %q; want %q", c.leaves, got, c.want)
			continue
		}
		for i, want := range c.want {
			if !strings.HasPrefix(got[i], want) {
				t.Errorf("%v: %q; want %q", c.leaves, got[i], want)
			}
		}
	}
}
