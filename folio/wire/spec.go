package wire

import (
	"reflect"
	"slices"
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Version is the version of the documents that this package writes, and the
// only one that it reads.
const Version = 1

// Options say how a document is written.
type Options struct {
	// Defaults writes every default that does not depend on other fields
	// instead of leaving it out.
	Defaults bool
	// Indent puts each member on a line of its own, moved in by so many
	// spaces; 0 writes everything on one line.
	Indent int
	// Only are the members of a plan that are wanted, by their dotted names as
	// in "pieces.size.w.mm"; elements of lists have no names of their own, and
	// what holds others brings them all. Left empty, everything is written.
	// Kinds of fittings and actions of steps come whole.
	Only []string
	// Line is the line of a stream at which the document begins that an error
	// is about, from 1: it is written with the error, and lines of faults are
	// counted from it. 0 means a document by itself.
	Line int
}

// ReadSpec reads the document of a Spec. The error is an *[Error] with
// everything that is wrong, and the Spec is then the zero Spec: nothing is half
// taken. Whether the folio can be made is for folio.Build to say.
func ReadSpec(data []byte) (folio.Spec, error) {
	var doc struct {
		Version int
		Spec    folio.Spec
	}
	if _, err := read(data, reflect.ValueOf(&doc).Elem(), ""); err != nil {
		return folio.Spec{}, err
	}
	return doc.Spec, nil
}

// ReadMade reads the document of a Spec that may hold the cover as it was
// measured too, for [folio.Plan.Refit]:
//
//	{"version": 1, "spec": {…}, "measured": {"width": "13 in", "height": "8 in"}}
//
// It is otherwise what [ReadSpec] is. ok says whether a measured cover is there.
func ReadMade(data []byte) (s folio.Spec, m folio.Measured, ok bool, err error) {
	var doc struct {
		Version  int
		Spec     folio.Spec
		Measured folio.Measured
	}
	root, err := read(data, reflect.ValueOf(&doc).Elem(), "measured")
	if err != nil {
		return folio.Spec{}, folio.Measured{}, false, err
	}
	ok = slices.ContainsFunc(root.members, func(m member) bool { return m.name == "measured" })
	return doc.Spec, doc.Measured, ok, nil
}

// read fills the members of a document. Only the one named may be left out.
func read(data []byte, to reflect.Value, may string) (*node, error) {
	f := &faults{data: data}
	root := tree(data, f)
	if d := (decoder{f}); root != nil && d.versioned(root) {
		d.top(root, to, may)
	}
	return root, f.err()
}

// versioned checks the version first: what another one means is not known.
func (d *decoder) versioned(root *node) bool {
	if root.form != isObject {
		d.wrong(root, spot{}, "an object with a version and what it is about")
		return false
	}
	for _, m := range root.members {
		if m.name != "version" {
			continue
		}
		if m.value.form == isNumber && m.value.text == strconv.Itoa(Version) {
			return true
		}
		d.fault(spot{pointer: "/version"}, m.value.at, BadVersion, forms[m.value.form]+" "+check.Quote(m.value.text), strconv.Itoa(Version))
		return false
	}
	d.fault(spot{}, root.at, BadVersion, "no version", strconv.Itoa(Version))
	return false
}

// top reads the members of a document; paths begin below its body. Only the one
// named may be left out.
func (d *decoder) top(root *node, to reflect.Value, may string) {
	seen := map[string]bool{}
	for _, m := range root.members {
		s := spot{pointer: "/" + escaped(m.name)}
		i, ok := fieldNamed(to.Type(), m.name)
		switch {
		case !ok:
			d.fault(s, m.at, NoMember, check.Quote(m.name), "one of "+memberList(to.Type()))
		case seen[m.name]:
			d.fault(s, m.at, Twice, check.Quote(m.name)+" again", "each member once")
		default:
			if m.name == "measured" {
				s.path = m.name // as folio.Plan.Refit names it
			}
			d.value(m.value, to.Field(i), s)
		}
		seen[m.name] = true
	}
	for i := range to.NumField() {
		if name := memberName(to.Type().Field(i).Name); !seen[name] && name != may {
			d.fault(spot{}, root.at, check.Missing, "no "+name, "a member "+check.Quote(name))
		}
	}
}

// AppendSpec appends the document of a Spec to dst, lengths and sizes in the
// notation of its own ruler where they have an exact text in it. The error is for
// a Spec that no document can hold: one with a kind of another package, or a value
// that is none of an enumeration's.
func AppendSpec(dst []byte, s folio.Spec, o Options) ([]byte, error) {
	if o.Defaults {
		s = s.WithDefaults()
	}
	n := s.Rulers.Main.Notation()
	if s.Rulers.Main == 0 {
		n = units.Sixteenths.Notation()
	}
	e := newEncoder(dst, n)
	e.raw(`{"version":` + strconv.Itoa(Version) + `,"spec":`)
	e.value(reflect.ValueOf(s))
	e.raw("}")
	return e.done(o)
}
