// Package jsontext reads and writes JSON (RFC 8259) as package encoding/json does,
// token by token, with no reflection: a program in the browser that takes in no more
// than this is smaller by more than a megabyte. That is its only reason; what need not
// be small uses encoding/json.
//
// It does no more than documents need. What is read must be valid UTF-8; how deep and
// how much of it is for the caller to bound, who also sees members that come twice.
// Numbers stay texts. Half of a surrogate pair is read as U+FFFD, as encoding/json does.
package jsontext

import (
	"strconv"
	"unicode/utf16"
	"unicode/utf8"
)

// A Kind is what a value is.
type Kind uint8

// Kinds of values.
const (
	Null Kind = iota
	False
	True
	Number
	Text
	Array
	Object
)

// An Error is where a text stops being JSON.
type Error struct {
	At   int // offset of the first byte that is wrong
	want string
}

// Error says what would have gone on.
func (e *Error) Error() string { return "there is no " + e.want + " at byte " + strconv.Itoa(e.At) }

// A Reader reads a text that is valid UTF-8. The zero Reader of a text is at its
// beginning.
type Reader struct {
	Data []byte
	At   int // offset of what has not been read
}

func (r *Reader) wrong(want string) error { return &Error{r.At, want} }

// Next skips white space and returns the offset of what follows.
//
//go:noinline
func (r *Reader) Next() int {
	for r.At < len(r.Data) {
		switch r.Data[r.At] {
		case ' ', '\t', '\r', '\n':
			r.At++
			continue
		}
		break
	}
	return r.At
}

// took reads a byte, if it is the next.
func (r *Reader) took(b byte) bool {
	if r.Next() < len(r.Data) && r.Data[r.At] == b {
		r.At++
		return true
	}
	return false
}

// Value reads a value: of a number its text as it stands, of a text what it says. Of
// an array or an object it reads the bracket that begins it; [Reader.Element] and
// [Reader.Member] go through the rest.
func (r *Reader) Value() (Kind, string, error) {
	if r.Next() < len(r.Data) {
		switch c := r.Data[r.At]; {
		case c == '"':
			s, err := r.text()
			return Text, s, err
		case c == '[' || c == '{':
			r.At++
			if c == '[' {
				return Array, "", nil
			}
			return Object, "", nil
		case c == '-' || '0' <= c && c <= '9':
			s, err := r.number()
			return Number, s, err
		}
		for kind, word := range [...]string{Null: "null", False: "false", True: "true"} {
			if rest := r.Data[r.At:]; len(rest) >= len(word) && string(rest[:len(word)]) == word {
				r.At += len(word)
				return Kind(kind), "", nil
			}
		}
	}
	return Null, "", r.wrong("value")
}

// Element reports whether another element of an array follows, the i-th, and reads
// what stands before it.
func (r *Reader) Element(i int) (bool, error) { return r.more(i, ']', "comma or end of the list") }

// Member is as Element, of an object, and reads the name of the member too.
func (r *Reader) Member(i int) (name string, at int, ok bool, err error) {
	if ok, err = r.more(i, '}', "comma or end of the object"); !ok {
		return "", r.At, false, err
	}
	if at = r.Next(); at == len(r.Data) || r.Data[at] != '"' {
		return "", at, false, r.wrong("name of a member")
	}
	if name, err = r.text(); err == nil && !r.took(':') {
		err = r.wrong("colon")
	}
	return name, at, err == nil, err
}

func (r *Reader) more(i int, end byte, want string) (bool, error) {
	switch {
	case r.took(end):
		return false, nil
	case i > 0 && !r.took(','):
		return false, r.wrong(want)
	}
	return true, nil
}

// End reports whether nothing but white space is left.
func (r *Reader) End() bool { return r.Next() == len(r.Data) }

// digits reads digits, of which there must be one.
func (r *Reader) digits() bool {
	from := r.At
	for r.At < len(r.Data) && '0' <= r.Data[r.At] && r.Data[r.At] <= '9' {
		r.At++
	}
	return r.At > from
}

// at reports whether the next byte is one of some.
func (r *Reader) at(some string) bool {
	if r.At < len(r.Data) {
		for i := range len(some) {
			if r.Data[r.At] == some[i] {
				return true
			}
		}
	}
	return false
}

func (r *Reader) number() (string, error) {
	from := r.At
	if r.at("-") {
		r.At++
	}
	if r.at("0") {
		r.At++
	} else if !r.digits() {
		return "", r.wrong("digit")
	}
	if r.at(".") {
		if r.At++; !r.digits() {
			return "", r.wrong("digit")
		}
	}
	if r.at("eE") {
		r.At++
		if r.at("+-") {
			r.At++
		}
		if !r.digits() {
			return "", r.wrong("digit")
		}
	}
	return string(r.Data[from:r.At]), nil
}

// text reads a text from its first quotation mark on.
func (r *Reader) text() (string, error) {
	r.At++
	from := r.At
	var out []byte // what was written otherwise than it is meant
	for r.At < len(r.Data) {
		switch c := r.Data[r.At]; {
		case c == '"':
			s := r.Data[from:r.At]
			r.At++
			if out == nil {
				return string(s), nil
			}
			return string(append(out, s...)), nil
		case c < ' ':
			return "", r.wrong("character of a text")
		case c == '\\':
			out = append(out, r.Data[from:r.At]...)
			r.At++
			one, err := r.escape()
			if err != nil {
				return "", err
			}
			out, from = utf8.AppendRune(out, one), r.At
		default:
			r.At++
		}
	}
	return "", r.wrong("end of the text")
}

// escape reads what follows a backslash.
func (r *Reader) escape() (rune, error) {
	const letters, means = `"\/bfnrt`, "\"\\/\b\f\n\r\t"
	for i := range len(letters) {
		if r.at(letters[i : i+1]) {
			r.At++
			return rune(means[i]), nil
		}
	}
	if !r.at("u") {
		return 0, r.wrong("character that may follow a backslash")
	}
	r.At++
	one, ok := r.hex()
	if !ok {
		return 0, r.wrong("number of a character")
	}
	if !utf16.IsSurrogate(one) {
		return one, nil
	}
	// Half a character says nothing without the other.
	rest := *r
	if rest.at(`\`) {
		if rest.At++; rest.at("u") {
			rest.At++
			if other, ok := rest.hex(); ok {
				if both := utf16.DecodeRune(one, other); both != utf8.RuneError {
					*r = rest
					return both, nil
				}
			}
		}
	}
	return utf8.RuneError, nil
}

// hex reads four hexadecimal digits.
func (r *Reader) hex() (rune, bool) {
	n := rune(0)
	for range 4 {
		if r.At == len(r.Data) {
			return 0, false
		}
		c := rune(r.Data[r.At])
		switch {
		case '0' <= c && c <= '9':
			c -= '0'
		case 'a' <= c && c <= 'f':
			c -= 'a' - 10
		case 'A' <= c && c <= 'F':
			c -= 'A' - 10
		default:
			return 0, false
		}
		r.At++
		n = n<<4 | c
	}
	return n, true
}
