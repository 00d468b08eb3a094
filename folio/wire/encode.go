package wire

import (
	"bytes"
	"encoding"
	"encoding/json"
	"fmt"
	"reflect"
	"strconv"

	"boardwrap.example/units"
)

// An encoder writes Go values as JSON, members in the order of their fields.
type encoder struct {
	out  []byte                  // what the document is appended to, and the document
	head int                     // bytes of out that were there before
	said map[units.Length]string // texts of lengths, which come many times in a plan
	mm   bool                    // lengths come with their millimetres, for drawing
	note units.Notation
	all  bool // zero values are written too
	mask mask // of the object that is written
	err  error
}

// newEncoder appends to dst, lengths in a notation.
func newEncoder(dst []byte, n units.Notation) *encoder {
	return &encoder{out: dst, head: len(dst), note: n, said: map[units.Length]string{}}
}

// done returns what was written, indented if that is wanted, or what was there
// before if it failed.
func (e *encoder) done(o Options) ([]byte, error) {
	dst := e.out[:e.head]
	switch {
	case e.err != nil:
		return dst, e.err
	case o.Indent <= 0:
		return e.out, nil
	}
	var b bytes.Buffer
	if err := json.Indent(&b, e.out[e.head:], "", "        "[:min(o.Indent, 8)]); err != nil {
		return dst, err
	}
	return append(dst, b.Bytes()...), nil
}

func (e *encoder) raw(s string) { e.out = append(e.out, s...) }

func (e *encoder) string(s string) {
	if plain(s) {
		e.out = append(append(append(e.out, '"'), s...), '"')
		return
	}
	text, err := json.Marshal(s)
	if err != nil {
		e.fail(err)
		return
	}
	e.out = append(e.out, text...)
}

// plain reports whether a text stands in a document as it is.
func plain(s string) bool {
	for i := range len(s) {
		if c := s[i]; c < ' ' || c > '~' || c == '"' || c == '\\' || c == '<' || c == '>' || c == '&' {
			return false
		}
	}
	return true
}

func (e *encoder) fail(err error) {
	if e.err == nil {
		e.err = err
	}
}

// millimetres writes a length as a number for drawing.
func (e *encoder) millimetres(l units.Length) {
	e.out = strconv.AppendFloat(e.out, l.Millimetres(), 'g', -1, 64)
}

func (e *encoder) value(v reflect.Value) {
	t := v.Type()
	switch {
	case t == lengthType:
		e.length(units.Length(v.Int()))
	case families[t] != nil:
		e.tagged(v, families[t])
	case t == actionType:
		e.action(v.Elem())
	case e.mm && t == specType:
		e.spec(v)
	case e.mm && (t == sizeType || t == pointType):
		e.raw("{")
		e.fields(v, false)
		e.raw("}")
	case t == sizeType:
		e.size(v.Interface().(units.Size))
	case isTextType(t):
		e.text(v)
	case t.Kind() == reflect.Bool:
		e.out = strconv.AppendBool(e.out, v.Bool())
	case t.Kind() == reflect.Int, t.Kind() == reflect.Int64:
		e.out = strconv.AppendInt(e.out, v.Int(), 10)
	case t.Kind() == reflect.Struct:
		e.raw("{")
		e.fields(v, false)
		e.raw("}")
	case t.Kind() == reflect.Slice, t.Kind() == reflect.Array:
		e.list(v)
	default:
		e.fail(fmt.Errorf("wire: a %v cannot be written", t))
	}
}

// length writes a length exactly: in the notation of the plan, with the
// millimetres where they are wanted.
func (e *encoder) length(l units.Length) {
	text, ok := e.said[l]
	if !ok {
		text = exactly(e.note, l)
		e.said[l] = text
	}
	if !e.mm {
		e.string(text)
		return
	}
	open := "{"
	if e.mask.wants("text") {
		e.raw(`{"text":`)
		e.string(text)
		open = ","
	}
	if e.mask.wants("mm") {
		e.raw(open + `"mm":`)
		e.millimetres(l)
	}
	e.raw("}")
}

// size writes a size exactly, in the notation of the Spec where that can be.
func (e *encoder) size(s units.Size) {
	text := units.Format{Ruler: e.note.Exact()}.Size(s)
	if got, err := units.ParseSize(text); err != nil || got != s {
		text = s.String()
	}
	e.string(text)
}

func (e *encoder) text(v reflect.Value) {
	if v.Kind() == reflect.String && !v.Type().Implements(textMarshaler) {
		e.string(v.String())
		return
	}
	text, err := v.Interface().(encoding.TextMarshaler).MarshalText()
	if err != nil {
		e.fail(err)
		return
	}
	e.string(string(text))
}

func (e *encoder) list(v reflect.Value) {
	n := v.Len()
	for v.Kind() == reflect.Array && n > 0 && v.Index(n-1).IsZero() {
		n--
	}
	e.raw("[")
	for i := range n {
		if i > 0 {
			e.raw(",")
		}
		e.value(v.Index(i))
	}
	e.raw("]")
}

// fields writes the members of a struct, those with a zero value left out;
// more says that there are members before them.
func (e *encoder) fields(v reflect.Value, more bool) {
	names, ok := memberNames[v.Type()]
	if !ok {
		names = namesOf(v.Type())
	}
	m := e.mask
	defer func() { e.mask = m }()
	for i := range names {
		f := v.Field(i)
		if !e.all && f.IsZero() || f.Kind() == reflect.Slice && f.Len() == 0 {
			continue
		}
		name := names[i]
		if !m.wants(name) {
			continue
		}
		if more {
			e.raw(",")
		}
		more = true
		e.string(name)
		e.raw(":")
		e.mask = m[name]
		e.value(f)
	}
}

// action writes one action of a step, with its name as its type.
func (e *encoder) action(v reflect.Value) {
	e.raw("{")
	e.string(tag)
	e.raw(":")
	e.string(memberName(v.Type().Name()))
	e.fields(v, true)
	e.raw("}")
}

// spec writes a Spec within what goes out for drawing as its own document has it,
// so that it can be read again.
func (e *encoder) spec(v reflect.Value) {
	all, m := e.all, e.mask
	e.mm, e.all, e.mask = false, false, nil
	e.raw("{")
	e.fields(v, false)
	e.raw("}")
	e.mm, e.all, e.mask = true, all, m
}

func (e *encoder) tagged(v reflect.Value, f *family) {
	if v.IsNil() {
		e.fail(fmt.Errorf("wire: no kind for %s", f.what))
		return
	}
	k := v.Elem()
	if k.Kind() == reflect.Pointer && !k.IsNil() {
		k = k.Elem()
	}
	name, ok := f.name(k.Type())
	if !ok {
		e.fail(fmt.Errorf("wire: %v is no kind of %s", k.Type(), f.what))
		return
	}
	e.raw("{")
	e.string(tag)
	e.raw(":")
	e.string(name)
	e.fields(k, true)
	e.raw("}")
}

// exactly writes a length in a notation, or in millimetres where that notation
// cannot say it exactly.
func exactly(n units.Notation, l units.Length) string {
	if text := n.Text(l); back(text) == l {
		return text
	}
	return l.String()
}

// back reads a text; what cannot be read is no length that was written.
func back(text string) units.Length {
	l, err := units.Parse(text)
	if err != nil {
		return -1
	}
	return l
}
