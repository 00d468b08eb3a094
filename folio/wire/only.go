package wire

import (
	"fmt"
	"reflect"
	"strings"
)

// A mask says which members of a document are wanted: a nil mask all of them,
// else those that it names, each with the mask of what it holds.
type mask map[string]mask

// wants reports whether a member is wanted.
func (m mask) wants(name string) bool {
	if m == nil {
		return true
	}
	_, ok := m[name]
	return ok
}

// maskOf makes the mask of dotted member names of a type's document. Naming what
// holds others takes them all.
func maskOf(t reflect.Type, names []string) (mask, error) {
	if len(names) == 0 {
		return nil, nil
	}
	m := mask{}
	for _, name := range names {
		if err := m.add(t, strings.Split(name, "."), name); err != nil {
			return nil, err
		}
	}
	return m, nil
}

// add wants one more member, the parts of whose name lead down from a type.
func (m mask) add(t reflect.Type, parts []string, name string) error {
	below, ok := memberType(t, parts[0])
	if !ok {
		return fmt.Errorf("wire: %q: there is no member %q; want one of %s", name, parts[0], membersBelow(t))
	}
	sub, had := m[parts[0]]
	switch {
	case len(parts) == 1:
		m[parts[0]] = nil
		return nil
	case had && sub == nil:
		return maskCheck(below, parts[1:], name)
	case !had:
		sub = mask{}
	}
	if err := sub.add(below, parts[1:], name); err != nil {
		return err
	}
	m[parts[0]] = sub
	return nil
}

// maskCheck checks a name whose beginning is wanted whole already.
func maskCheck(t reflect.Type, parts []string, name string) error {
	return mask{}.add(t, parts, name)
}

// memberType is the type of a member of a plan's document; elements of lists
// have no names of their own. Kinds and actions are taken whole.
func memberType(t reflect.Type, name string) (reflect.Type, bool) {
	for t.Kind() == reflect.Slice || t.Kind() == reflect.Array {
		t = t.Elem()
	}
	if t == specType {
		return nil, false // it is taken whole
	}
	if t == lengthType {
		return reflect.TypeFor[bool](), name == "text" || name == "mm"
	}
	if t.Kind() != reflect.Struct || t != sizeType && t != pointType && isTextType(t) {
		return nil, false
	}
	i, ok := fieldNamed(t, name)
	if !ok {
		return nil, false
	}
	return t.Field(i).Type, true
}

// membersBelow lists what memberType finds.
func membersBelow(t reflect.Type) string {
	for t.Kind() == reflect.Slice || t.Kind() == reflect.Array {
		t = t.Elem()
	}
	switch {
	case t == specType:
	case t == lengthType:
		return "text, mm"
	case t.Kind() == reflect.Struct && (t == sizeType || t == pointType || !isTextType(t)):
		return memberList(t)
	}
	return "none: it is taken whole"
}
