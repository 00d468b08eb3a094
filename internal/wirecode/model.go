package main

import (
	"fmt"
	"go/types"
	"maps"
	"slices"
	"strings"
	"unicode"
)

// module is the path that the types of the project begin with.
const module = "boardwrap.example/"

// The documents that folio/wire only writes, by the types of their bodies, and
// those that it reads and writes.
var (
	written = []string{"working", "plan", "laidOut", "closingVerdict", "holding", "posting", "costs", "problems"}
	read    = []string{"folio.Spec", "folio/refit.Measured", "folio/propose.Request", "Batch", "proposals"}
)

// A form is how values of a type stand in a document.
type form int

const (
	asString form = iota // a Go string
	asText               // a text by the type's own writer and reader
	asLength
	asSize
	asWorking // by the type working
	asBool
	asInt
	asInt64
	asList
	asArray
	asObject
	asTagged // one of several objects, which says which it is
)

// special are types that have a form of their own.
var special = map[string]form{"units.Length": asLength, "units.Size": asSize, "units.Working": asWorking}

// formOf tells a type's form; it has none if documents cannot hold it.
func formOf(t types.Type) (form, error) {
	if f, ok := special[named(t)]; ok {
		return f, nil
	}
	if has(t, "AppendText") {
		return asText, nil
	}
	switch u := t.Underlying().(type) {
	case *types.Basic:
		for kind, f := range map[types.BasicKind]form{types.String: asString, types.Bool: asBool, types.Int: asInt, types.Int64: asInt64} {
			if u.Kind() == kind {
				return f, nil
			}
		}
	case *types.Slice:
		return asList, nil
	case *types.Array:
		return asArray, nil
	case *types.Struct:
		return asObject, nil
	case *types.Interface:
		return asTagged, nil
	}
	return 0, fmt.Errorf("%v cannot stand in a document", t)
}

// has reports whether values of a type have a method.
func has(t types.Type, method string) bool {
	set := types.NewMethodSet(t)
	return slices.ContainsFunc(slices.Collect(set.Methods()), func(s *types.Selection) bool { return s.Obj().Name() == method })
}

// named is a type's name as the package folio/wire writes it.
func named(t types.Type) string {
	return types.TypeString(t, func(p *types.Package) string {
		if p.Path() == module+room {
			return ""
		}
		return p.Name()
	})
}

// element is what a list or an array is of.
func element(t types.Type) types.Type {
	return types.Unalias(t.Underlying().(interface{ Elem() types.Type }).Elem())
}

// ident is a type's name as a part of another: folio.Spec is FolioSpec, board
// Board.
func ident(t types.Type) string {
	pkg, name, ok := strings.Cut(named(t), ".")
	if !ok {
		return upper(pkg)
	}
	return upper(pkg) + upper(name)
}

func upper(s string) string { return string(unicode.ToUpper(rune(s[0]))) + s[1:] }
func lower(s string) string { return string(unicode.ToLower(rune(s[0]))) + s[1:] }

// A model is the types of documents.
type model struct {
	objects map[string]*object // structs, by their names
	tagged  map[string]*family // by their names
	imports map[string]bool
}

// An object is a struct and what is done with it.
type object struct {
	t       *types.Named
	fields  []field
	written bool
	read    bool // and left out where it is zero
	shaped  bool // its members can be asked for
	within  bool // a kind: it comes with its type
	alone   bool // it comes without one
	zero    bool // it is asked whether one is zero, and they cannot be compared
}

type field struct {
	name string
	t    types.Type
	form form
}

// A family is an interface and the types that fill it.
type family struct {
	t     *types.Named
	kinds []*types.Named
	read  bool
}

// modelOf walks the types of all documents.
func modelOf(pkg *types.Package) (*model, error) {
	m := &model{objects: map[string]*object{}, tagged: map[string]*family{}, imports: map[string]bool{}}
	var roots []types.Type
	for _, names := range []struct {
		list []string
		read bool
	}{{written, false}, {read, true}} {
		for _, name := range names.list {
			t, err := lookup(pkg, name)
			if err == nil {
				err = m.walk(t, names.read, false)
			}
			if err != nil {
				return nil, err
			}
			roots = append(roots, t)
		}
	}
	for _, t := range roots {
		m.shape(t)
	}
	for name, o := range m.objects {
		if o.within && o.alone && o.read {
			return nil, fmt.Errorf("%s is read with a type and without one", name)
		}
		for _, f := range o.fields {
			if f.form == asObject && o.read && !types.Comparable(f.t) {
				m.objects[named(f.t)].zero = true
			}
		}
	}
	return m, nil
}

// parts tells the Spec and the working, which stand in documents of others by way of
// folio/wire's own functions, with all that they hold, from the rest. Their code is in
// files of its own: those functions call it, and the code of the rest calls them.
func (m *model) parts() (spec, rest *model) {
	spec = &model{objects: map[string]*object{}, tagged: map[string]*family{}, imports: m.imports}
	var take func(t types.Type)
	take = func(t types.Type) {
		name := named(t)
		switch f, _ := formOf(t); f { // walk made sure of it
		case asList, asArray:
			take(element(t))
		case asObject:
			o := m.objects[name]
			if spec.objects[name] != nil {
				return
			}
			spec.objects[name] = o
			for _, f := range o.fields {
				take(f.t)
			}
		case asTagged:
			if spec.tagged[name] != nil {
				return
			}
			spec.tagged[name] = m.tagged[name]
			for _, k := range m.tagged[name].kinds {
				take(k)
			}
		}
	}
	take(m.objects["folio.Spec"].t)
	take(m.objects["working"].t)
	rest = &model{objects: maps.Clone(m.objects), tagged: maps.Clone(m.tagged), imports: m.imports}
	maps.DeleteFunc(rest.objects, func(name string, _ *object) bool { return spec.objects[name] != nil })
	maps.DeleteFunc(rest.tagged, func(name string, _ *family) bool { return spec.tagged[name] != nil })
	return spec, rest
}

// lookup finds a type of the package or of one that it imports.
func lookup(pkg *types.Package, name string) (types.Type, error) {
	if i := strings.LastIndexByte(name, '.'); i >= 0 {
		path := module + name[:i]
		at := slices.IndexFunc(pkg.Imports(), func(p *types.Package) bool { return p.Path() == path })
		if at < 0 {
			return nil, fmt.Errorf("%s is not imported", path)
		}
		pkg, name = pkg.Imports()[at], name[i+1:]
	}
	o := pkg.Scope().Lookup(name)
	if o == nil {
		return nil, fmt.Errorf("%s has no %s", pkg.Path(), name)
	}
	return types.Unalias(o.Type()), nil
}

// walk notes a type and all that it holds.
func (m *model) walk(t types.Type, read, within bool) error {
	f, err := formOf(t)
	if err != nil {
		return err
	}
	if n, ok := t.(*types.Named); ok && n.Obj().Pkg().Path() != module+room {
		m.imports[n.Obj().Pkg().Path()] = true
	}
	switch f {
	case asList, asArray:
		return m.walk(element(t), read, false)
	case asTagged:
		return m.family(t.(*types.Named), read)
	case asObject:
		return m.object(t.(*types.Named), read, within)
	}
	return nil
}

func (m *model) object(t *types.Named, read, within bool) error {
	o := m.objects[named(t)]
	if o == nil {
		o = &object{t: t}
		m.objects[named(t)] = o
		for v := range t.Underlying().(*types.Struct).Fields() {
			ft := types.Unalias(v.Type())
			f, err := formOf(ft)
			if err != nil {
				return fmt.Errorf("%s.%s: %w", named(t), v.Name(), err)
			}
			o.fields = append(o.fields, field{v.Name(), ft, f})
		}
	}
	o.within, o.alone = o.within || within, o.alone || !within
	if o.read || o.written && !read {
		return nil
	}
	o.written, o.read = true, read
	for _, f := range o.fields {
		// A Spec within a document that is only written is read on its own.
		if err := m.walk(f.t, read || named(f.t) == "folio.Spec", false); err != nil {
			return fmt.Errorf("%s.%s: %w", named(t), f.name, err)
		}
	}
	return nil
}

// shape notes that the members of what a document holds can be asked for. Those
// of what comes with a type only where it is read.
func (m *model) shape(t types.Type) {
	switch f, _ := formOf(t); f { // walk made sure of it
	case asList, asArray:
		m.shape(element(t))
	case asObject:
		o := m.objects[named(t)]
		if o.shaped {
			return
		}
		o.shaped = true
		for _, f := range o.fields {
			m.shape(f.t)
		}
	case asTagged:
		if f := m.tagged[named(t)]; f.read {
			for _, k := range f.kinds {
				m.shape(k)
			}
		}
	}
}

// family notes an interface and every type of its package that fills it.
func (m *model) family(t *types.Named, read bool) error {
	f := m.tagged[named(t)]
	if f == nil {
		f = &family{t: t}
		m.tagged[named(t)] = f
		scope := t.Obj().Pkg().Scope()
		for _, name := range scope.Names() {
			k, ok := types.Unalias(scope.Lookup(name).Type()).(*types.Named)
			if _, isType := scope.Lookup(name).(*types.TypeName); !ok || !isType || !scope.Lookup(name).Exported() || types.IsInterface(k) {
				continue
			}
			if types.Implements(k, t.Underlying().(*types.Interface)) {
				f.kinds = append(f.kinds, k)
			}
		}
	} else if f.read || !read {
		return nil
	}
	f.read = read
	for _, k := range f.kinds {
		if err := m.walk(k, read, true); err != nil {
			return err
		}
	}
	return nil
}
