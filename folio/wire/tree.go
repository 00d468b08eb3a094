package wire

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"strconv"
	"unicode/utf8"

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
	data   []byte
	dec    *json.Decoder
	count  int
	trail  trail // to the value that is read
	faults *faults
}

// tree reads a whole document; nil where it is no JSON, or too much of it.
func tree(data []byte, f *faults) *node {
	r := &reader{data: data, faults: f}
	switch {
	case len(data) > MostBytes:
		f.add(Fault{Code: check.TooLarge, Got: strconv.Itoa(len(data)) + " bytes", Want: "at most " + strconv.Itoa(MostBytes)}, 0)
		return nil
	case !utf8.Valid(data):
		at := 0
		for at < len(data) {
			c, size := utf8.DecodeRune(data[at:])
			if c == utf8.RuneError && size == 1 {
				break
			}
			at += size
		}
		f.add(Fault{Code: NotJSON, Got: "bytes that are no UTF-8", Want: "a text in UTF-8"}, int64(at))
		return nil
	}
	r.dec = json.NewDecoder(bytes.NewReader(data))
	r.dec.UseNumber()
	n := r.value(0)
	if n == nil {
		return nil
	}
	if _, err := r.dec.Token(); !errors.Is(err, io.EOF) {
		f.add(Fault{Code: NotJSON, Got: "something after the document", Want: "its end"}, r.next())
		return nil
	}
	return n
}

// next is where the next token begins.
func (r *reader) next() int64 {
	at := r.dec.InputOffset()
	for at < int64(len(r.data)) && bytes.IndexByte([]byte(" \t\r\n,:"), r.data[at]) >= 0 {
		at++
	}
	return at
}

// value reads the next value; nil where that failed, which is said then.
func (r *reader) value(depth int) *node {
	at := r.next()
	if r.count++; r.count > MostMembers {
		r.faults.add(Fault{Pointer: r.trail.pointer(), Code: check.TooMany, Got: "more than " + strconv.Itoa(MostMembers) + " values", Want: "fewer"}, at)
		return nil
	}
	t, err := r.dec.Token()
	if err != nil {
		return r.broken(err)
	}
	n := &node{at: at}
	switch t := t.(type) {
	case nil:
	case bool:
		n.form, n.yes = isBool, t
	case json.Number:
		n.form, n.text = isNumber, t.String()
	case string:
		n.form, n.text = isText, t
	case json.Delim:
		if depth == MostDepth {
			r.faults.add(Fault{Pointer: r.trail.pointer(), Code: check.TooMany, Got: "more than " + strconv.Itoa(MostDepth) + " lists and objects inside one another", Want: "fewer"}, at)
			return nil
		}
		if t == '[' {
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
	for r.dec.More() {
		v := r.below(crumb{element: true, index: len(n.list)}, depth)
		if v == nil {
			return nil
		}
		n.list = append(n.list, v)
	}
	if _, err := r.dec.Token(); err != nil {
		return r.broken(err)
	}
	return n
}

func (r *reader) object(n *node, depth int) *node {
	n.form = isObject
	for r.dec.More() {
		at := r.next()
		t, err := r.dec.Token()
		if err != nil {
			return r.broken(err)
		}
		name, _ := t.(string)
		v := r.below(crumb{name: name}, depth)
		if v == nil {
			return nil
		}
		n.members = append(n.members, member{name, at, v})
	}
	if _, err := r.dec.Token(); err != nil {
		return r.broken(err)
	}
	return n
}

func (r *reader) broken(err error) *node {
	at := r.dec.InputOffset()
	var syntax *json.SyntaxError
	if errors.As(err, &syntax) {
		at = max(syntax.Offset-1, 0)
	}
	r.faults.add(Fault{Pointer: r.trail.pointer(), Code: NotJSON, Got: "no JSON: " + err.Error(), Want: "JSON"}, at)
	return nil
}
