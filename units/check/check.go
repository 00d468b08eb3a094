// Package check says what is wrong with a specification: every violation at
// once, each with the path of the field, a stable code, what was got and what
// would do.
//
// A front end reads [Violation] as data; a person reads the error's text:
//
//	2 things must be changed:
//	  cover.w: not-positive: got 0 mm; want a length from 0.01 mm to 10 m
//	  fittings[2].picture: too-wide: got 5 in; want at most 4 1/4 in
//
// Three things are kept apart: what is [Malformed] (the field itself cannot
// be), what is [Impossible] (well formed, but it cannot be made), and what is
// merely unwise, which is a [Warning] on a result and never an error.
package check

import (
	"errors"
	"iter"
	"strconv"

	"boardwrap.example/units"
)

// A Code names a kind of violation or warning in lower case with hyphens. A
// package lists its codes as constants, and they do not change.
type Code string

// Codes that any package uses.
const (
	NotPositive Code = "not-positive" // a length must be above 0
	Negative    Code = "negative"     // a length or count must not be below 0
	OutOfRange  Code = "out-of-range" // outside the bounds of a plan
	Unknown     Code = "unknown"      // no such value or name
	Missing     Code = "missing"      // a field that this choice needs is not set
	Conflict    Code = "conflict"     // two fields say different things
	TooSmall    Code = "too-small"
	TooLarge    Code = "too-large"
	TooMany     Code = "too-many"
)

// A Kind tells apart what cannot be written from what cannot be made.
type Kind uint8

// Kinds of violation.
const (
	Malformed Kind = iota
	Impossible
)

// String returns "malformed" or "impossible".
func (k Kind) String() string {
	switch k {
	case Malformed:
		return "malformed"
	case Impossible:
		return "impossible"
	}
	return "unknown kind"
}

// A Violation is one thing that must be changed. Violations are comparable.
type Violation struct {
	Path string // the field, as in fittings[2].picture.w
	Code Code
	Kind Kind
	Got  string // what was given
	Want string // what would do
	// Limit is the length that would just do and By how far the given one is
	// from it, both 0 where it is not a matter of one length.
	Limit, By units.Length
}

// Error returns the violation as one line.
func (v Violation) Error() string { return string(v.append(nil)) }

func (v Violation) append(dst []byte) []byte {
	if v.Path != "" {
		dst = append(dst, v.Path...)
		dst = append(dst, ": "...)
	}
	dst = append(dst, v.Code...)
	if v.Got != "" {
		dst = append(dst, ": got "...)
		dst = append(dst, v.Got...)
	}
	if v.Want != "" {
		dst = append(dst, "; want "...)
		dst = append(dst, v.Want...)
	}
	return dst
}

// An Error holds all violations of one specification, in the order in which
// they were found. It always holds at least one. Use errors.As to get at it.
type Error struct{ violations []Violation }

// Error lists every violation, one a line.
func (e *Error) Error() string {
	var dst []byte
	if len(e.violations) == 1 {
		return e.violations[0].Error()
	}
	dst = strconv.AppendInt(dst, int64(len(e.violations)), 10)
	dst = append(dst, " things must be changed:"...)
	for _, v := range e.violations {
		dst = append(dst, "\n  "...)
		dst = v.append(dst)
	}
	return string(dst)
}

// All walks the violations.
func (e *Error) All() iter.Seq[Violation] {
	return func(yield func(Violation) bool) {
		for _, v := range e.violations {
			if !yield(v) {
				return
			}
		}
	}
}

// Len returns the number of violations.
func (e *Error) Len() int { return len(e.violations) }

// Find returns the first violation at path with the given code; an empty path
// or code stands for any.
func (e *Error) Find(path string, code Code) (Violation, bool) {
	for _, v := range e.violations {
		if (path == "" || v.Path == path) && (code == "" || v.Code == code) {
			return v, true
		}
	}
	return Violation{}, false
}

// Unwrap gives errors.Is and errors.As each violation in turn.
func (e *Error) Unwrap() []error {
	errs := make([]error, len(e.violations))
	for i, v := range e.violations {
		errs[i] = v
	}
	return errs
}

// A Warning is something that can be made but is unwise.
type Warning struct {
	Path string
	Code Code
	Text string // one sentence with its numbers
	// Got is the length found and Want the one that would be wise, both 0
	// where it is not a matter of one length.
	Got, Want units.Length
}

// String returns the warning as one line.
func (w Warning) String() string {
	if w.Path == "" {
		return string(w.Code) + ": " + w.Text
	}
	return w.Path + ": " + string(w.Code) + ": " + w.Text
}

// A List collects violations. The zero List is empty and ready for use.
type List struct{ violations []Violation }

// Add adds a violation.
func (l *List) Add(v Violation) { l.violations = append(l.violations, v) }

// Malformed adds a malformed field.
func (l *List) Malformed(path string, code Code, got, want string) {
	l.Add(Violation{Path: path, Code: code, Kind: Malformed, Got: got, Want: want})
}

// Impossible adds a field that is well formed but cannot be made.
func (l *List) Impossible(path string, code Code, got, want string) {
	l.Add(Violation{Path: path, Code: code, Kind: Impossible, Got: got, Want: want})
}

// Short adds a length that is too small by limit − got; lengths are written in
// notation n, exactly.
func (l *List) Short(path string, code Code, n units.Notation, got, limit units.Length, what string) {
	l.Add(Violation{Path: path, Code: code, Kind: Impossible, Got: n.Text(got),
		Want: join("at least "+n.Text(limit), what), Limit: limit, By: limit - got})
}

// Long adds a length that is too large by got − limit.
func (l *List) Long(path string, code Code, n units.Notation, got, limit units.Length, what string) {
	l.Add(Violation{Path: path, Code: code, Kind: Impossible, Got: n.Text(got),
		Want: join("at most "+n.Text(limit), what), Limit: limit, By: got - limit})
}

func join(a, b string) string {
	if b == "" {
		return a
	}
	return a + " " + b
}

// Length checks that a length that must be given lies in the bounds of a
// plan, units.Shortest to units.Longest, and reports whether it does.
func (l *List) Length(path string, got units.Length) bool {
	const want = "a length from 0.01 mm to 10 m"
	switch {
	case got <= 0:
		l.Malformed(path, NotPositive, got.String(), want)
	case got < units.Shortest || got > units.Longest:
		l.Malformed(path, OutOfRange, got.String(), want)
	default:
		return true
	}
	return false
}

// Allowance checks a length that may be 0 but not negative nor above
// units.Longest, and reports whether it is that.
func (l *List) Allowance(path string, got units.Length) bool {
	switch {
	case got < 0:
		l.Malformed(path, Negative, got.String(), "0 or a length up to 10 m")
	case got > units.Longest:
		l.Malformed(path, OutOfRange, got.String(), "0 or a length up to 10 m")
	default:
		return true
	}
	return false
}

// Size checks both sides of a size as [List.Length] does.
func (l *List) Size(path string, got units.Size) bool {
	// Paths are only put together for what is wrong: a plan checks many sizes
	// and few of them are.
	w := InBounds(got.W) || l.Length(path+".w", got.W)
	h := InBounds(got.H) || l.Length(path+".h", got.H)
	return w && h
}

// InBounds reports whether a length lies in the bounds of a plan,
// units.Shortest to units.Longest: whether [List.Length] would take it.
func InBounds(l units.Length) bool { return units.Shortest <= l && l <= units.Longest }

// Under adds all violations of err with prefix put before their paths. It looks
// through wrapped and joined errors, so that no violation is lost; an error of
// another type becomes one malformed, unknown violation with its text as what
// was got. Nil adds nothing.
func (l *List) Under(prefix string, err error) {
	switch e := err.(type) {
	case nil:
		return
	case *Error:
		if e == nil {
			return
		}
		for v := range e.All() {
			l.addUnder(prefix, v)
		}
		return
	case Violation:
		l.addUnder(prefix, e)
		return
	case interface{ Unwrap() []error }:
		if inner := e.Unwrap(); len(inner) > 0 {
			for _, err := range inner {
				l.Under(prefix, err)
			}
			return
		}
	}
	// A wrapper around violations is looked through, any other error is taken
	// by its own text.
	var e *Error
	var v Violation
	if inner := errors.Unwrap(err); inner != nil && (errors.As(inner, &e) || errors.As(inner, &v)) {
		l.Under(prefix, inner)
		return
	}
	l.Malformed(prefix, Unknown, err.Error(), "")
}

func (l *List) addUnder(prefix string, v Violation) {
	switch {
	case v.Path == "":
		v.Path = prefix
	case prefix != "" && v.Path[0] == '[':
		v.Path = prefix + v.Path
	case prefix != "":
		v.Path = prefix + "." + v.Path
	}
	l.Add(v)
}

// Len returns the number of violations so far.
func (l *List) Len() int { return len(l.violations) }

// Err returns nil for an empty list, otherwise an *[Error] with a copy of what
// was collected.
func (l *List) Err() error {
	if len(l.violations) == 0 {
		return nil
	}
	return &Error{append([]Violation(nil), l.violations...)}
}

// Index returns path[i], for the i-th element of a list.
func Index(path string, i int) string { return path + "[" + strconv.Itoa(i) + "]" }
