package wire

import (
	"encoding"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"boardwrap.example/folio"
	"boardwrap.example/folio/propose"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Documents are read and written by the Go types of the Spec: a field is a
// member of the same name that begins with a small letter. So no field can be
// forgotten here, and a new one is in the documents as soon as it is in the
// Spec.

var (
	lengthType    = reflect.TypeFor[units.Length]()
	sizeType      = reflect.TypeFor[units.Size]()
	pointType     = reflect.TypeFor[units.Point]()
	specType      = reflect.TypeFor[folio.Spec]()
	actionType    = reflect.TypeFor[work.Action]()
	fittingKind   = reflect.TypeFor[folio.Kind]()
	pocketKind    = reflect.TypeFor[pocket.Kind]()
	textMarshaler = reflect.TypeFor[encoding.TextMarshaler]()
)

// tag is the member that says which kind a fitting or a pocket is.
const tag = "type"

// A family is the kinds that a tagged object may be.
type family struct {
	what  string
	kinds []reflect.Type
	names []string
}

// families are built once; nothing changes them.
var families = map[reflect.Type]*family{fittingKind: fittings(), pocketKind: pockets()}

func fittings() *family {
	f := &family{what: "a fitting"}
	for k := range folio.Kinds() {
		f.kinds = append(f.kinds, reflect.TypeOf(k))
		f.names = append(f.names, strings.TrimSuffix(k.String(), " fitting"))
	}
	return f
}

func pockets() *family {
	f := &family{what: "a pocket"}
	for k := range pocket.Kinds() {
		name := k.Name()
		if _, ok := k.(pocket.Flap); ok {
			name = "flap" // as documents have called a hinged leaf from the first on
		}
		f.kinds = append(f.kinds, reflect.TypeOf(k))
		f.names = append(f.names, name)
	}
	return f
}

// name is what the kind is called in a document.
func (f *family) name(t reflect.Type) (string, bool) {
	for i, k := range f.kinds {
		if k == t {
			return f.names[i], true
		}
	}
	return "", false
}

func (f *family) kind(name string) (reflect.Type, bool) {
	for i, n := range f.names {
		if n == name {
			return f.kinds[i], true
		}
	}
	return nil, false
}

// memberName is the name of a field's member.
func memberName(field string) string {
	r, size := utf8.DecodeRuneInString(field)
	return string(unicode.ToLower(r)) + field[size:]
}

// memberNames are the names of the members of the types that documents hold,
// built once; nothing changes them.
var memberNames = allNames(reflect.TypeFor[plan](), reflect.TypeFor[folio.Spec](), reflect.TypeFor[folio.Measured](), reflect.TypeFor[Batch](), reflect.TypeFor[problems](),
	reflect.TypeFor[laidOut](), reflect.TypeFor[closing](), reflect.TypeFor[holding](), reflect.TypeFor[posting](),
	reflect.TypeFor[propose.Request](), reflect.TypeFor[proposals]())

// namesOf are the names of the members of a struct.
func namesOf(t reflect.Type) []string {
	names := make([]string, t.NumField())
	for i := range names {
		names[i] = memberName(t.Field(i).Name)
	}
	return names
}

// allNames are the names of types and of all that they hold.
func allNames(types ...reflect.Type) map[reflect.Type][]string {
	all := map[reflect.Type][]string{}
	for len(types) > 0 {
		t := types[len(types)-1]
		types = types[:len(types)-1]
		switch k := t.Kind(); {
		case families[t] != nil:
			types = append(types, families[t].kinds...)
		case k == reflect.Slice, k == reflect.Array:
			types = append(types, t.Elem())
		case k == reflect.Struct && all[t] == nil:
			all[t] = namesOf(t)
			for i := range t.NumField() {
				types = append(types, t.Field(i).Type)
			}
		}
	}
	return all
}

// isText reports whether values of a type are texts.
func isTextType(t reflect.Type) bool {
	return t.Kind() == reflect.String || t.Implements(textMarshaler)
}

// A decoder fills Go values from a tree.
type decoder struct{ faults *faults }

// A spot is where in the document and in the Spec a value is.
type spot struct{ pointer, path string }

func (s spot) member(name, field string) spot {
	s.pointer += "/" + escaped(name)
	if s.path != "" {
		s.path += "."
	}
	s.path += strings.ToLower(field)
	return s
}

func (s spot) element(i int) spot {
	s.pointer += "/" + strconv.Itoa(i)
	s.path = check.Index(s.path, i)
	return s
}

func (d *decoder) fault(s spot, at int64, code check.Code, got, want string) {
	d.faults.add(Fault{Pointer: s.pointer, Path: s.path, Code: code, Got: got, Want: want}, at)
}

// wrong says that a value has another form than is wanted.
func (d *decoder) wrong(n *node, s spot, want string) {
	got := forms[n.form]
	if n.form == isNumber || n.form == isCell {
		got += ", " + check.Quote(n.text)
	}
	d.fault(s, n.at, WrongForm, got, want)
}

func (d *decoder) value(n *node, to reflect.Value, s spot) {
	t := to.Type()
	switch {
	case families[t] != nil:
		d.tagged(n, to, s, families[t])
	case isTextType(t):
		d.text(n, to, s)
	case t.Kind() == reflect.Bool:
		yes := n.form == isCell && n.text == "true"
		if n.form != isBool && !yes && (n.form != isCell || n.text != "false") {
			d.wrong(n, s, "true or false")
			return
		}
		to.SetBool(n.yes || yes)
	case t.Kind() == reflect.Int:
		i, err := strconv.ParseInt(n.text, 10, 32)
		if n.form != isNumber && n.form != isCell || err != nil {
			d.wrong(n, s, "a whole number, up to "+strconv.Itoa(1<<31-1))
			return
		}
		to.SetInt(i)
	case t.Kind() == reflect.Int64:
		i, err := strconv.ParseInt(n.text, 10, 64)
		if n.form != isNumber && n.form != isCell || err != nil {
			d.wrong(n, s, "a whole number")
			return
		}
		to.SetInt(i)
	case t.Kind() == reflect.Struct:
		d.object(n, to, s, "")
	case t.Kind() == reflect.Slice, t.Kind() == reflect.Array:
		d.list(n, to, s)
	default:
		d.fault(s, n.at, WrongForm, forms[n.form], "nothing: this cannot be written")
	}
}

// text reads a text by the type's own reader.
func (d *decoder) text(n *node, to reflect.Value, s spot) {
	want := "a text"
	switch to.Type() {
	case lengthType:
		want = `a length with its unit, as in "4 1/2 in" or "114 mm"`
	case sizeType:
		want = `a width and a height with their unit, as in "6 x 8 in"`
	}
	if n.form != isText && n.form != isCell {
		d.wrong(n, s, want)
		return
	}
	if to.Kind() == reflect.String && !to.Type().Implements(textMarshaler) {
		to.SetString(n.text)
		return
	}
	u := to.Addr().Interface().(encoding.TextUnmarshaler)
	if err := u.UnmarshalText([]byte(n.text)); err != nil {
		d.fault(s, n.at, BadText, check.Quote(n.text), err.Error())
	}
}

func (d *decoder) list(n *node, to reflect.Value, s spot) {
	if n.form != isArray {
		d.wrong(n, s, "a list")
		return
	}
	if to.Kind() == reflect.Array && len(n.list) > to.Len() {
		d.fault(s, n.at, check.TooMany, strconv.Itoa(len(n.list)), "at most "+strconv.Itoa(to.Len()))
		return
	}
	if to.Kind() == reflect.Slice && len(n.list) > 0 {
		to.Set(reflect.MakeSlice(to.Type(), len(n.list), len(n.list)))
	}
	for i, v := range n.list {
		d.value(v, to.Index(i), s.element(i))
	}
}

// object fills the fields of a struct; a member named skip is none of them.
func (d *decoder) object(n *node, to reflect.Value, s spot, skip string) {
	if n.form != isObject {
		d.wrong(n, s, "an object")
		return
	}
	t := to.Type()
	seen := make(map[string]bool, len(n.members))
	for _, m := range n.members {
		if m.name == skip && skip != "" {
			continue
		}
		i, ok := fieldNamed(t, m.name)
		if !ok {
			d.fault(spot{s.pointer + "/" + escaped(m.name), s.path}, m.at, NoMember, check.Quote(m.name), "one of "+memberList(t))
			continue
		}
		at := s.member(m.name, t.Field(i).Name)
		if seen[m.name] {
			d.fault(at, m.at, Twice, check.Quote(m.name)+" again", "each member once")
			continue
		}
		seen[m.name] = true
		d.value(m.value, to.Field(i), at)
	}
	for i, name := range namesOf(t) {
		if f := families[t.Field(i).Type]; f != nil && !seen[name] { // no kind is a default
			d.fault(s, n.at, check.Missing, "no "+name, "a member "+check.Quote(name)+": "+f.wanted())
		}
	}
}

// wanted says what a tagged object is to be.
func (f *family) wanted() string {
	return f.what + " with a type: one of " + strings.Join(f.names, ", ")
}

// tagged fills an interface with the kind that the object says it is.
func (d *decoder) tagged(n *node, to reflect.Value, s spot, f *family) {
	want := f.wanted()
	if n.form != isObject {
		d.wrong(n, s, want)
		return
	}
	var name *node
	for _, m := range n.members {
		if m.name != tag {
			continue
		}
		if name != nil {
			d.fault(spot{s.pointer + "/" + tag, s.path}, m.at, Twice, check.Quote(tag)+" again", "each member once")
			return
		}
		name = m.value
	}
	if name == nil || name.form != isText && name.form != isCell {
		d.fault(s, n.at, check.Missing, "no type", want)
		return
	}
	t, ok := f.kind(name.text)
	if !ok {
		d.fault(spot{s.pointer + "/" + tag, s.path}, name.at, check.Unknown, check.Quote(name.text), "one of "+strings.Join(f.names, ", "))
		return
	}
	v := reflect.New(t).Elem()
	d.object(n, v, s, tag)
	to.Set(v)
}

// fieldNamed finds the field of a member, by its exact name.
func fieldNamed(t reflect.Type, name string) (int, bool) {
	names, ok := memberNames[t]
	if !ok {
		names = namesOf(t)
	}
	i := slices.Index(names, name)
	return i, i >= 0
}

func memberList(t reflect.Type) string {
	return strings.Join(namesOf(t), ", ")
}
