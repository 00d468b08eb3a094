package wire

import (
	"bytes"
	"strconv"
	"unicode/utf8"

	"boardwrap.example/internal/jsontext"
	"boardwrap.example/units/check"
)

// Limits on a document. What goes beyond is refused before anything of it is
// used.
const (
	MostBytes   = 1 << 20 // 1 MiB
	MostDepth   = 16      // arrays and objects inside one another
	MostMembers = 50_000  // members and elements, all together
	MostFaults  = 100     // that are listed; the rest is counted
)

// A form is what a value of a document is.
type form uint8

const (
	isNull form = iota
	isBool
	isNumber
	isText
	isArray
	isObject
	isCell // of a table: a text, a number, true or false
)

var forms = [...]string{"null", "true or false", "a number", "a text", "a list", "an object", "a cell"}

// A node is a value of a document and where it begins.
type node struct {
	form    form
	at      int64 // offset of its first byte
	text    string
	yes     bool
	list    []*node
	members []member
}

type member struct {
	name  string
	at    int64
	value *node
}

// A reader reads a document into a tree, strictly.
type reader struct {
	text   jsontext.Reader
	count  int
	trail  trail // to the value that is read
	faults *faults
}

// tree reads a whole document; nil where it is no JSON, or too much of it.
func tree(data []byte, f *faults) *node {
	r := &reader{text: jsontext.Reader{Data: data}, faults: f}
	switch {
	case len(data) > MostBytes:
		f.add(Fault{Code: check.TooLarge, Got: strconv.Itoa(len(data)) + " bytes", Want: "at most " + strconv.Itoa(MostBytes)}, 0)
		return nil
	case !utf8.Valid(data):
		at := 0
		for {
			c, size := utf8.DecodeRune(data[at:])
			if c == utf8.RuneError && size == 1 {
				break
			}
			at += size
		}
		f.add(Fault{Code: NotJSON, Got: "bytes that are no UTF-8", Want: "a text in UTF-8"}, int64(at))
		return nil
	case bytes.HasPrefix(data, []byte("\ufeff")):
		f.add(Fault{Code: NotJSON, Got: "a byte order mark", Want: "the document without it"}, 0)
		return nil
	}
	n := r.value(0)
	if n == nil {
		return nil
	}
	if !r.text.End() {
		f.add(Fault{Code: NotJSON, Got: "something after the document", Want: "its end"}, int64(r.text.Next()))
		return nil
	}
	return n
}

// value reads the next value; nil where that failed, which is said then.
func (r *reader) value(depth int) *node {
	at := int64(r.text.Next())
	if r.count++; r.count > MostMembers {
		r.faults.add(Fault{Pointer: r.trail.pointer(), Code: check.TooMany, Got: "more than " + strconv.Itoa(MostMembers) + " values", Want: "fewer"}, at)
		return nil
	}
	kind, text, err := r.text.Value()
	if err != nil {
		return r.broken(err)
	}
	n := &node{at: at, text: text}
	switch kind {
	case jsontext.False, jsontext.True:
		n.form, n.yes = isBool, kind == jsontext.True
	case jsontext.Number:
		n.form = isNumber
	case jsontext.Text:
		n.form = isText
	case jsontext.Array, jsontext.Object:
		if depth == MostDepth {
			r.faults.add(Fault{Pointer: r.trail.pointer(), Code: check.TooMany, Got: "more than " + strconv.Itoa(MostDepth) + " lists and objects inside one another", Want: "fewer"}, at)
			return nil
		}
		if kind == jsontext.Array {
			return r.array(n, depth+1)
		}
		return r.object(n, depth+1)
	}
	return n
}

// below reads the value of a member or an element.
func (r *reader) below(c crumb, depth int) *node {
	r.trail = append(r.trail, c)
	v := r.value(depth)
	r.trail = r.trail[:len(r.trail)-1]
	return v
}

func (r *reader) array(n *node, depth int) *node {
	n.form = isArray
	for {
		switch ok, err := r.text.Element(len(n.list)); {
		case err != nil:
			return r.broken(err)
		case !ok:
			return n
		}
		v := r.below(crumb{element: true, index: len(n.list)}, depth)
		if v == nil {
			return nil
		}
		n.list = append(n.list, v)
	}
}

func (r *reader) object(n *node, depth int) *node {
	n.form = isObject
	for {
		name, at, ok, err := r.text.Member(len(n.members))
		switch {
		case err != nil:
			return r.broken(err)
		case !ok:
			return n
		}
		v := r.below(crumb{name: name}, depth)
		if v == nil {
			return nil
		}
		n.members = append(n.members, member{name, int64(at), v})
	}
}

func (r *reader) broken(err error) *node {
	r.faults.add(Fault{Pointer: r.trail.pointer(), Code: NotJSON, Got: "no JSON: " + err.Error(), Want: "JSON"}, int64(r.text.At))
	return nil
}
