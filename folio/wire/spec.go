package wire

import (
	"slices"
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
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
	var s folio.Spec
	if err := read(data, body{name: "spec", read: into(&s, (*decoder).readFolioSpec)}); err != nil {
		return folio.Spec{}, err
	}
	return s, nil
}

// ReadMade reads the document of a Spec that may hold the cover as it was
// measured too, for [folio.Plan.Refit]:
//
//	{"version": 1, "spec": {…}, "measured": {"width": "13 in", "height": "8 in"}}
//
// It is otherwise what [ReadSpec] is. ok says whether a measured cover is there.
func ReadMade(data []byte) (s folio.Spec, m refit.Measured, ok bool, err error) {
	measured := func(d *decoder, n *node) {
		ok = true
		d.readRefitMeasured(n, &m)
	}
	err = read(data, body{name: "spec", read: into(&s, (*decoder).readFolioSpec)}, body{name: "measured", path: "measured", mayLack: true, read: measured})
	if err != nil {
		return folio.Spec{}, refit.Measured{}, false, err
	}
	return s, m, ok, nil
}

// A body is a member of a document besides its version.
type body struct {
	name    string
	path    string // what paths begin with: those of a Spec begin below it
	mayLack bool
	read    func(d *decoder, n *node)
}

// into reads a body into a value.
func into[T any](to *T, read func(*decoder, *node, *T)) func(*decoder, *node) {
	return func(d *decoder, n *node) { read(d, n, to) }
}

// read reads the members of a document.
func read(data []byte, bodies ...body) error {
	f := &faults{data: data}
	root := tree(data, f)
	if d := (&decoder{faults: f}); root != nil && d.versioned(root) {
		d.top(root, bodies)
	}
	return f.err()
}

// versioned checks the version first: what another one means is not known.
func (d *decoder) versioned(root *node) bool {
	if root.form != isObject {
		d.wrong(root, "an object with a version and what it is about")
		return false
	}
	for _, m := range root.members {
		if m.name != "version" {
			continue
		}
		if m.value.form == isNumber && m.value.text == strconv.Itoa(Version) {
			return true
		}
		d.faultBelow(m.name, m.value.at, BadVersion, forms[m.value.form]+" "+check.Quote(m.value.text), strconv.Itoa(Version))
		return false
	}
	d.fault(root.at, BadVersion, "no version", strconv.Itoa(Version))
	return false
}

// top reads the members of a document.
func (d *decoder) top(root *node, bodies []body) {
	seen := map[string]bool{}
	for _, m := range root.members {
		i := slices.IndexFunc(bodies, func(b body) bool { return b.name == m.name })
		switch {
		case i < 0 && m.name != "version":
			names := "version"
			for _, b := range bodies {
				names += ", " + b.name
			}
			d.faultBelow(m.name, m.at, NoMember, check.Quote(m.name), "one of "+names)
		case seen[m.name]:
			again := crumb{name: m.name}
			if i >= 0 {
				again.field = bodies[i].path
			}
			d.enter(again)
			d.fault(m.at, Twice, check.Quote(m.name)+" again", "each member once")
			d.leave()
		case i >= 0:
			d.enter(crumb{name: m.name, field: bodies[i].path})
			bodies[i].read(d, m.value)
			d.leave()
		}
		seen[m.name] = true
	}
	for _, b := range bodies {
		if !seen[b.name] && !b.mayLack {
			d.fault(root.at, check.Missing, "no "+b.name, "a member "+check.Quote(b.name))
		}
	}
}

// AppendSpec appends the document of a Spec to dst, lengths and sizes in the
// notation of its own ruler where they have an exact text in it. The error is for
// a Spec that no document can hold: one with a fitting without a kind or with one of
// another package, or a value that is none of an enumeration's.
func AppendSpec(dst []byte, s folio.Spec, o Options) ([]byte, error) {
	if o.Defaults {
		s = s.WithDefaults()
	}
	return document(newEncoder(dst, notation(s.Rulers)), "spec", &s, (*encoder).writeFolioSpec, Options{Indent: o.Indent})
}

// AppendMade appends the document of a Spec with the cover as it was measured to
// dst, as [ReadMade] reads it, with the errors of [AppendSpec].
func AppendMade(dst []byte, s folio.Spec, m refit.Measured, o Options) ([]byte, error) {
	if o.Defaults {
		s = s.WithDefaults()
	}
	e := newEncoder(dst, notation(s.Rulers))
	e.raw(`{"version":` + strconv.Itoa(Version) + `,"spec":`)
	writeObject(e, &s, (*encoder).writeFolioSpec)
	e.raw(`,"measured":`)
	writeObject(e, &m, (*encoder).writeRefitMeasured)
	e.raw("}")
	return e.done(o)
}

// notation is the one that a Spec asks for.
func notation(r rule.Rulers) units.Notation {
	if r.Main == 0 {
		return units.Sixteenths.Notation()
	}
	return r.Main.Notation()
}
