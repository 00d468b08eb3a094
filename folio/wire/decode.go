package wire

import (
	"encoding"
	"iter"
	"slices"
	"strconv"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/internal/word"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

// Documents are read and written by the Go types of the Spec: a field is a
// member of the same name that begins with a small letter. The code that goes
// through the fields is written by internal/wirecode, so no field can be
// forgotten here, and a new one is in the documents as soon as it is in the
// Spec.

// tag is the member that says which kind a fitting or a pocket is.
const tag = "type"

// A shape is what a document holds at a place: those that are not listed here
// are objects and kinds of the types of documents, in shape_code.go.
type shape int

const (
	shapeLeaf   shape = iota // a text, a number, true or false
	shapeLength              // one of them, but for drawing an object
	shapeSize
	lastOwnShape = iota - 1
)

// A part is a member of an object: its name, that of the field in paths, and
// what it or each element of its list is.
type part struct {
	name, field string
	of          shape
	list        bool
}

// A family is the kinds that a tagged object may be.
type family struct {
	what   string
	names  []string
	shapes []shape
}

// The families are built once; nothing changes them.
var (
	fittings = familyOf("a fitting", folio.Kinds(), func(k folio.Kind) string { return strings.TrimSuffix(k.String(), " fitting") }, shapeOfFolioKind)
	pockets  = familyOf("a pocket", pocket.Kinds(), pocketName, shapeOfPocketKind)
)

// pocketName is a kind's name of the trade, but where documents have called it
// otherwise from the first on.
func pocketName(k pocket.Kind) string {
	if name := k.Name(); name != "hinged leaf" {
		return name
	}
	return "flap"
}

func familyOf[K any](what string, kinds iter.Seq[K], name func(K) string, shapeOf func(K) shape) *family {
	f := &family{what: what}
	for k := range kinds {
		f.names, f.shapes = append(f.names, name(k)), append(f.shapes, shapeOf(k))
	}
	return f
}

// familyAt is the family of a tagged object, nil where a shape is none.
func familyAt(s shape) *family {
	switch s {
	case shapeFolioKind:
		return fittings
	case shapePocketKind:
		return pockets
	}
	return nil
}

// name is what a kind is called.
func (f *family) name(s shape) string { return f.names[slices.Index(f.shapes, s)] }

// wanted says what a tagged object is to be.
func (f *family) wanted() string {
	return f.what + " with a type: one of " + strings.Join(f.names, ", ")
}

// parts are the members of an object.
func parts(s shape) []part {
	if int(s) < len(objects) {
		return objects[s]
	}
	return nil
}

// partNamed finds a member by its exact name.
func partNamed(s shape, name string) (int, bool) {
	i := slices.IndexFunc(parts(s), func(p part) bool { return p.name == name })
	return i, i >= 0
}

// partNames lists the members of an object.
func partNames(s shape) string {
	var names []string
	for _, p := range parts(s) {
		names = append(names, p.name)
	}
	return strings.Join(names, ", ")
}

// A crumb is one step on the way to a value: into a member or into an element.
type crumb struct {
	name    string // of the member
	field   string // of the Spec, empty where paths do not name it
	element bool
	index   int
}

// A trail leads from a document to a value within it.
type trail []crumb

// pointer is the trail as a JSON pointer.
func (t trail) pointer() string {
	var b strings.Builder
	for _, c := range t {
		b.WriteByte('/')
		if c.element {
			b.WriteString(strconv.Itoa(c.index))
		} else {
			b.WriteString(escaped(c.name))
		}
	}
	return b.String()
}

// path is the trail as violations name it.
func (t trail) path() string {
	path := ""
	for _, c := range t {
		switch {
		case c.element:
			path = check.Index(path, c.index)
		case path == "":
			path = c.field
		case c.field != "":
			path += "." + c.field
		}
	}
	return path
}

// A decoder fills Go values from a tree. What goes through their fields is in
// read_code.go and, of a Spec, in readspec_code.go.
type decoder struct {
	faults *faults
	trail  trail // to the value that is read
	mm     bool  // lengths come with their millimetres, as for drawing
}

//go:noinline
func (d *decoder) enter(c crumb) { d.trail = append(d.trail, c) }
func (d *decoder) leave()        { d.trail = d.trail[:len(d.trail)-1] }

func (d *decoder) fault(at int64, code check.Code, got, want string) {
	d.faults.add(Fault{Pointer: d.trail.pointer(), Path: d.trail.path(), Code: code, Got: got, Want: want}, at)
}

// faultBelow is for a member that is no field.
func (d *decoder) faultBelow(name string, at int64, code check.Code, got, want string) {
	d.enter(crumb{name: name})
	d.fault(at, code, got, want)
	d.leave()
}

// wrong says that a value has another form than is wanted.
func (d *decoder) wrong(n *node, want string) {
	got := forms[n.form]
	if n.form == isNumber || n.form == isCell {
		got += ", " + check.Quote(n.text)
	}
	d.fault(n.at, WrongForm, got, want)
}

// members walks the members of an object that are those of its shape, and says
// what is wrong with the others.
func (d *decoder) members(n *node, s shape) iter.Seq2[int, *node] {
	return func(yield func(int, *node) bool) { d.object(n, s, "", yield) }
}

// kindMembers are the members of an object besides the one that says its type.
func (d *decoder) kindMembers(n *node, s shape) iter.Seq2[int, *node] {
	return func(yield func(int, *node) bool) { d.object(n, s, tag, yield) }
}

func (d *decoder) object(n *node, s shape, skip string, yield func(int, *node) bool) {
	if n.form != isObject {
		d.wrong(n, "an object")
		return
	}
	all := parts(s)
	var seen uint64 // no object has more than 64 members
	for _, m := range n.members {
		if skip != "" && m.name == skip {
			continue
		}
		i, ok := partNamed(s, m.name)
		if !ok {
			d.faultBelow(m.name, m.at, NoMember, check.Quote(m.name), "one of "+partNames(s))
			continue
		}
		d.enter(crumb{name: m.name, field: all[i].field})
		if seen&(1<<i) != 0 {
			d.fault(m.at, Twice, check.Quote(m.name)+" again", "each member once")
		} else {
			yield(i, m.value)
		}
		d.leave()
		seen |= 1 << i
	}
	for i, p := range all {
		if seen&(1<<i) != 0 {
			continue
		}
		if f := familyAt(p.of); f != nil { // no kind is a default
			d.fault(n.at, check.Missing, "no "+p.name, "a member "+check.Quote(p.name)+": "+f.wanted())
		} else if d.mm && !p.list { // in what is written for drawing only empty lists are left out
			d.fault(n.at, check.Missing, "no "+p.name, "a member "+check.Quote(p.name))
		}
	}
}

// kind says which kind of a family an object is; shapeLeaf where it is none.
func (d *decoder) kind(n *node, of shape) shape {
	f := familyAt(of)
	want := f.wanted()
	if n.form != isObject {
		d.wrong(n, want)
		return shapeLeaf
	}
	var name *node
	for _, m := range n.members {
		if m.name != tag {
			continue
		}
		if name != nil {
			d.faultBelow(tag, m.at, Twice, check.Quote(tag)+" again", "each member once")
			return shapeLeaf
		}
		name = m.value
	}
	if name == nil || name.form != isText && name.form != isCell {
		d.fault(n.at, check.Missing, "no type", want)
		return shapeLeaf
	}
	i := slices.Index(f.names, name.text)
	if i < 0 {
		d.faultBelow(tag, name.at, check.Unknown, check.Quote(name.text), "one of "+strings.Join(f.names, ", "))
		return shapeLeaf
	}
	return f.shapes[i]
}

// What is wanted of texts.
const (
	want         = "a text"
	wantGrammage = `a grammage with its unit, as in "120 g/m²"`
	wantMass     = `a mass with its unit, as in "40 g"`
	wantRuler    = `a step of a ruler with its unit, as in "1/16 in" or "1 mm"`
	wantAmount   = `an amount with its currency, as in "4.50 USD"`
)

// length reads a length: a text, and in what is written for drawing an object
// with that text and the millimetres that it says.
func (d *decoder) length(n *node, to *units.Length) {
	const wantLength = `a length with its unit, as in "4 1/2 in" or "114 mm"`
	if !d.mm {
		d.text(n, to, wantLength)
		return
	}
	var mm *node
	before := d.faults.len()
	for i, n := range d.members(n, shapeLength) {
		if i == 0 {
			d.text(n, to, wantLength)
		} else {
			mm = n
		}
	}
	if mm == nil {
		return
	}
	d.enter(crumb{name: "mm", field: "mm"})
	switch number, err := strconv.ParseFloat(mm.text, 64); {
	case mm.form != isNumber || err != nil:
		d.wrong(mm, "a number of millimetres")
	case number != to.Millimetres() && d.faults.len() == before:
		d.fault(mm.at, check.Conflict, mm.text, "the millimetres of "+check.Quote(to.String()))
	}
	d.leave()
}

// size reads a size: a text, and in what is written for drawing an object.
func (d *decoder) size(n *node, to *units.Size) {
	if !d.mm {
		d.text(n, to, `a width and a height with their unit, as in "6 x 8 in"`)
		return
	}
	for i, n := range d.members(n, shapeSize) {
		d.length(n, [...]*units.Length{&to.W, &to.H}[i])
	}
}

// text reads a text by the type's own reader.
func (d *decoder) text(n *node, to encoding.TextUnmarshaler, want string) {
	if n.form != isText && n.form != isCell {
		if words, ok := to.UnmarshalText(nil).(*word.Error); ok {
			want = words.Want()
		}
		d.wrong(n, want)
		return
	}
	switch err := to.UnmarshalText([]byte(n.text)).(type) {
	case nil:
		return
	case *word.Error:
		want = err.Want()
	case *units.ParseError:
		want += " (at byte " + strconv.Itoa(err.Offset) + ": " + err.Problem + ")"
	default:
		if err != money.ErrText { // than which what is wanted says more
			want += " (" + strings.TrimPrefix(err.Error(), "money: ") + ")"
		}
	}
	d.fault(n.at, BadText, check.Quote(n.text), want)
}

//go:noinline
func (d *decoder) string(n *node, to *string) {
	if n.form != isText && n.form != isCell {
		d.wrong(n, want)
		return
	}
	*to = n.text
}

func (d *decoder) bool(n *node, to *bool) {
	yes := n.form == isCell && n.text == "true"
	if n.form != isBool && !yes && (n.form != isCell || n.text != "false") {
		d.wrong(n, "true or false")
		return
	}
	*to = n.yes || yes
}

func (d *decoder) int(n *node, to *int) {
	i, err := strconv.ParseInt(n.text, 10, 32)
	if n.form != isNumber && n.form != isCell || err != nil {
		d.wrong(n, "a whole number, up to "+strconv.Itoa(1<<31-1))
		return
	}
	*to = int(i)
}

func (d *decoder) int64(n *node, to *int64) {
	i, err := strconv.ParseInt(n.text, 10, 64)
	if n.form != isNumber || err != nil { // no Spec has one, so no cell
		d.wrong(n, "a whole number")
		return
	}
	*to = i
}

func readList[T any](d *decoder, n *node, to *[]T, one func(*decoder, *node, *T)) {
	if n.form != isArray {
		d.wrong(n, "a list")
		return
	}
	if len(n.list) > 0 {
		*to = make([]T, len(n.list))
	}
	readElements(d, n, *to, one)
}

// readArray leaves what a short list does not name as it is.
func readArray[T any](d *decoder, n *node, to []T, one func(*decoder, *node, *T)) {
	switch {
	case n.form != isArray:
		d.wrong(n, "a list")
	case len(n.list) > len(to):
		d.fault(n.at, check.TooMany, strconv.Itoa(len(n.list)), "at most "+strconv.Itoa(len(to)))
	default:
		readElements(d, n, to, one)
	}
}

func readElements[T any](d *decoder, n *node, to []T, one func(*decoder, *node, *T)) {
	for i, v := range n.list {
		d.enter(crumb{element: true, index: i})
		one(d, v, &to[i])
		d.leave()
	}
}
