package wire

import (
	"bytes"
	"encoding"
	"errors"
	"reflect"
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/internal/jsontext"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// An encoder writes documents, members in the order of the fields of their types.
// What goes through the fields is in write_code.go and, of a Spec and a working, in
// writespec_code.go.
type encoder struct {
	out   []byte // what the document is appended to, and the document
	head  int    // bytes of out that were there before
	mm    bool   // lengths come with their millimetres, for drawing
	note  units.Notation
	all   bool // zero values are written too
	mask  mask // of the object that is written
	err   error
	said  [128]said // lengths, which come many times in a plan
	shown [32]shown // workings, which come with what they are of and once more
	terms []term    // of the working that is written
}

// said is a length and where in the document it stands already.
type said struct {
	length   units.Length
	from, to int
}

// shown is a working and where in the document it stands already.
type shown struct {
	working  *units.Working
	from, to int
}

// newEncoder appends to dst, lengths in a notation.
func newEncoder(dst []byte, n units.Notation) *encoder {
	return &encoder{out: dst, head: len(dst), note: n}
}

// drawing makes an encoder of documents whose lengths come with their
// millimetres, with the members that are wanted.
func drawing(dst []byte, n units.Notation, m mask) *encoder {
	e := newEncoder(dst, n)
	e.mm, e.all, e.mask = true, true, m
	return e
}

// document writes a document with a body, and returns it as the options want it.
func document[T any](e *encoder, name string, body *T, write func(*encoder, *T), o Options) ([]byte, error) {
	e.raw(`{"version":` + strconv.Itoa(Version))
	if o.Line > 0 {
		e.raw(`,"line":` + strconv.Itoa(o.Line))
	}
	e.raw(`,"` + name + `":`)
	writeObject(e, body, write)
	e.raw("}")
	return e.done(o)
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
	return jsontext.AppendIndented(dst, bytes.Clone(e.out[e.head:]), min(o.Indent, 8)), nil
}

// What each field of each document calls is not copied to where it is called: that
// would make programs in the browser larger by more than a megabyte.

//go:noinline
func (e *encoder) put(b byte) { e.out = append(e.out, b) }

//go:noinline
func (e *encoder) raw(s string) { e.out = append(e.out, s...) }

//go:noinline
func (e *encoder) bool(b bool) { e.out = strconv.AppendBool(e.out, b) }

//go:noinline
func (e *encoder) int(i int64) { e.out = strconv.AppendInt(e.out, i, 10) }

func (e *encoder) fail(err error) {
	if e.err == nil {
		e.err = err
	}
}

// member begins a member, whose key comes with quotation marks and colon, if it
// is wanted.
//
//go:noinline
func (e *encoder) member(m mask, key string) bool {
	if m != nil {
		sub, ok := m[key[1:len(key)-2]]
		if !ok {
			return false
		}
		e.mask = sub
	}
	if e.out[len(e.out)-1] != '{' {
		e.out = append(e.out, ',')
	}
	e.out = append(e.out, key...)
	return true
}

// begin begins an object that says which kind it is.
func (e *encoder) begin(kind string) {
	e.raw(`{"` + tag + `":`)
	e.string(kind)
}

// noKind says that a value is none of the kinds that documents know.
func (e *encoder) noKind(v any) {
	if v == nil {
		e.fail(errors.New("wire: there is no kind"))
		return
	}
	e.fail(errors.New("wire: " + reflect.TypeOf(v).String() + " is none of the kinds that documents know"))
}

// writeObject writes what a pointer leads to. By its type the machine code is the same
// for all.
//
//go:noinline
func writeObject[P any](e *encoder, v P, members func(*encoder, P)) {
	e.put('{')
	members(e, v)
	e.put('}')
}

//go:noinline
func writeObjects[T any](e *encoder, list []T, members func(*encoder, *T)) {
	e.put('[')
	for i := range list {
		if i > 0 {
			e.put(',')
		}
		e.put('{')
		members(e, &list[i])
		e.put('}')
	}
	e.put(']')
}

//go:noinline
func writeList[T any](e *encoder, list []T, one func(*encoder, *T)) {
	e.put('[')
	for i := range list {
		if i > 0 {
			e.put(',')
		}
		one(e, &list[i])
	}
	e.put(']')
}

// writeArray leaves out the zero values at the end.
func writeArray[T comparable](e *encoder, list []T, one func(*encoder, *T)) {
	var zero T
	for len(list) > 0 && list[len(list)-1] == zero {
		list = list[:len(list)-1]
	}
	writeList(e, list, one)
}

//go:noinline
func (e *encoder) string(s string) {
	if plain(s) {
		e.out = append(append(append(e.out, '"'), s...), '"')
		return
	}
	e.out = jsontext.AppendText(e.out, s)
}

// plain reports whether a text stands in a document as it is.
func plain[T string | []byte](s T) bool {
	for i := range len(s) {
		if safe[s[i]] == 0 {
			return false
		}
	}
	return true
}

// safe marks the bytes that stand for themselves; nothing changes it.
var safe = func() (all [256]uint8) {
	for c := ' '; c <= '~'; c++ {
		all[c] = 1
	}
	for _, c := range `"\<>&` {
		all[c] = 0
	}
	return all
}()

// writeText writes what a value is as a text.
//
//go:noinline
func writeText[T encoding.TextAppender](e *encoder, v *T) {
	from := len(e.out)
	out, err := (*v).AppendText(append(e.out, '"'))
	e.texted(from, out, err)
}

// texted ends a text that begins in out at a quotation mark.
//
//go:noinline
func (e *encoder) texted(from int, out []byte, err error) {
	if err != nil {
		e.fail(err)
		return
	}
	e.out = out
	if text := out[from+1:]; !plain(text) {
		e.out = out[:from]
		e.string(string(text))
		return
	}
	e.out = append(e.out, '"')
}

// length writes a length exactly: in the notation of the plan, with the
// millimetres where they are wanted.
func (e *encoder) length(l units.Length) {
	if !e.mm {
		e.exactly(l)
		return
	}
	was := &e.said[spread(l)>>57]
	if e.mask == nil && was.to > 0 && was.length == l {
		e.out = append(e.out, e.out[was.from:was.to]...)
		return
	}
	from, m := len(e.out), e.mask
	e.raw("{")
	if e.member(m, `"text":`) {
		e.exactly(l)
	}
	if e.member(m, `"mm":`) {
		e.millimetres(l)
	}
	e.raw("}")
	if e.mask = m; m == nil {
		*was = said{l, from, len(e.out)}
	}
}

// millimetres writes a length as a number for drawing.
func (e *encoder) millimetres(l units.Length) {
	n := l
	if n < 0 {
		n = -n
	}
	if n != 0 && n < 100 || n >= 1e12 { // digits and power of ten are shorter
		e.out = strconv.AppendFloat(e.out, l.Millimetres(), 'g', -1, 64)
		return
	}
	if l < 0 {
		e.out = append(e.out, '-')
	}
	e.out = strconv.AppendInt(e.out, int64(n/units.Millimetre), 10)
	rest := n % units.Millimetre
	if rest == 0 {
		return
	}
	e.out = append(e.out, '.')
	for digit := units.Millimetre / 10; rest > 0; digit /= 10 {
		e.out = append(e.out, '0'+byte(rest/digit))
		rest %= digit
	}
}

// size writes a size exactly, in the notation of the Spec where that can be; for
// drawing, as two lengths.
func (e *encoder) size(s units.Size) {
	if e.mm {
		m := e.mask
		e.raw("{")
		if e.member(m, `"w":`) {
			e.length(s.W)
		}
		if e.member(m, `"h":`) {
			e.length(s.H)
		}
		e.raw("}")
		return // whoever holds it sets the mask anew
	}
	e.string(units.Format{Ruler: e.note.Exact()}.Size(s))
}

// exactly writes a length in a notation, or in millimetres where that notation
// cannot say it exactly.
func (e *encoder) exactly(l units.Length) {
	e.out = append(units.Format{Ruler: e.note.Exact()}.Append(append(e.out, '"'), l), '"')
}

// spread makes of lengths, which are multiples of the step of a ruler, numbers whose
// upper bits differ: 2⁶⁴ by the golden ratio times the length.
func spread(l units.Length) uint64 { return uint64(l) * 0x9e3779b97f4a7c15 }

// nameFolioKind is what a kind of fitting is called in a document, whatever it
// holds.
//
//go:noinline
func nameFolioKind(k folio.Kind) string { return fittings.name(shapeOfFolioKind(k)) }

// namePocketKind is what a kind of pocket is called in a document.
//
//go:noinline
func namePocketKind(k pocket.Kind) string { return pockets.name(shapeOfPocketKind(k)) }
