package wire

import (
	"errors"
	"strings"

	"boardwrap.example/units/check"
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

// maskOf makes the mask of dotted member names of a document. Naming what
// holds others takes them all.
func maskOf(of shape, names []string) (mask, error) {
	if len(names) == 0 {
		return nil, nil
	}
	m := mask{}
	for _, name := range names {
		if err := m.add(of, strings.Split(name, "."), name); err != nil {
			return nil, err
		}
	}
	return m, nil
}

// add wants one more member, the parts of whose name lead down from a shape.
func (m mask) add(of shape, parts []string, name string) error {
	below, ok := memberShape(of, parts[0])
	if !ok {
		return errors.New("wire: " + check.Quote(name) + ": there is no member " + check.Quote(parts[0]) + "; want one of " + membersBelow(of))
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
func maskCheck(of shape, parts []string, name string) error {
	return mask{}.add(of, parts, name)
}

// memberShape is the shape of a member of a document; elements of lists have no
// names of their own. Kinds, actions and Specs are taken whole.
func memberShape(of shape, name string) (shape, bool) {
	i, ok := partNamed(of, name)
	if !ok || of == shapeFolioSpec {
		return 0, false
	}
	return parts(of)[i].of, true
}

// membersBelow lists what memberShape finds.
func membersBelow(of shape) string {
	if of == shapeFolioSpec || len(parts(of)) == 0 {
		return "none: it is taken whole"
	}
	return partNames(of)
}
