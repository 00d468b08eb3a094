// Package word writes and reads the values of small enumerations as words.
package word

import (
	"errors"
	"slices"
	"strings"

	"boardwrap.example/internal/quote"
)

// Errors that every [Error] wraps one of.
var (
	// ErrSyntax is wrapped where a text is none of the words.
	ErrSyntax = errors.New("not a text of this kind")
	// ErrUnknown is wrapped where a value has no word.
	ErrUnknown = errors.New("no such value")
)

// A List holds the words of the values 0, 1, 2 and so on.
type List struct {
	What  string // what the values are, as in "direction"
	Words []string
}

// An Error says that a text is none of the words, or that a value has none.
type Error struct {
	text, want string
	cause      error
}

// Error says what was got and what would do.
func (e *Error) Error() string { return e.text }

// Want returns what would do as a text, empty where a value has none.
func (e *Error) Want() string { return e.want }

// Unwrap returns [ErrSyntax] or [ErrUnknown].
func (e *Error) Unwrap() error { return e.cause }

// String returns the word of a value, or "unknown" and what it is not.
func (l List) String(value uint8) string {
	if int(value) < len(l.Words) {
		return l.Words[value]
	}
	return "unknown " + l.What
}

// Append appends the word of a value to dst. The error wraps [ErrUnknown], and
// dst is then returned as it was.
func (l List) Append(dst []byte, value uint8) ([]byte, error) {
	if int(value) >= len(l.Words) {
		return dst, &Error{text: l.String(value), cause: ErrUnknown}
	}
	return append(dst, l.Words[value]...), nil
}

// Marshal returns the word of a value, with the error of [List.Append].
func (l List) Marshal(value uint8) ([]byte, error) {
	if int(value) >= len(l.Words) {
		return nil, &Error{text: l.String(value), cause: ErrUnknown}
	}
	return []byte(l.Words[value]), nil
}

// Read returns the value that a text is the word of. The error wraps
// [ErrSyntax].
func (l List) Read(text []byte) (uint8, error) {
	if i := slices.Index(l.Words, string(text)); i >= 0 {
		return uint8(i), nil
	}
	msg := append([]byte("no "), l.What...)
	msg = quote.Append(append(msg, " is called "...), string(text))
	want := l.Want()
	if want != "" {
		msg = append(append(msg, ": want "...), want...)
	}
	return 0, &Error{string(msg), want, ErrSyntax}
}

// Want returns what would do: "this, that or another", in quotation marks where
// a word has a comma of its own.
func (l List) Want() string {
	var dst []byte
	quoted := slices.ContainsFunc(l.Words, func(w string) bool { return strings.Contains(w, ",") })
	for i, w := range l.Words {
		switch {
		case i == 0:
		case i == len(l.Words)-1:
			dst = append(dst, " or "...)
		default:
			dst = append(dst, ", "...)
		}
		if quoted {
			dst = quote.Append(dst, w)
		} else {
			dst = append(dst, w...)
		}
	}
	return string(dst)
}

// Unmarshal sets *v to the value that a text is the word of, or leaves it as it
// is and returns the error of [List.Read].
func Unmarshal[E ~uint8](l List, v *E, text []byte) error {
	n, err := l.Read(text)
	if err == nil {
		*v = E(n)
	}
	return err
}

// An Enum is an enumeration whose values are 0, 1, 2 and so on, as far as they are
// known, and whose texts are their Strings.
type Enum interface {
	~uint8
	String() string
	Known() bool
}

// Of lists the texts of all values of an enumeration.
func Of[E Enum](what string) List {
	l := List{What: what}
	for v := E(0); v.Known(); v++ {
		l.Words = append(l.Words, v.String())
	}
	return l
}

// OneOf says which values of an enumeration would do.
func OneOf[E Enum]() string { return Of[E]("").Want() }

// Append appends the text of a value to dst, with the error of [List.Append].
func Append[E Enum](dst []byte, v E, what string) ([]byte, error) {
	if !v.Known() {
		return Of[E](what).Append(dst, uint8(v)) // which says what is wrong
	}
	return append(dst, v.String()...), nil
}

// Read sets *v to the value that a text is that of, or leaves it as it is and
// returns the error of [List.Read].
func Read[E Enum](v *E, what string, text []byte) error { return Unmarshal(Of[E](what), v, text) }
