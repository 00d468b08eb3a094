// Package check says what is wrong with a specification: every violation at
// once, each with the path of the field, a stable code, what was got and what
// would do.
//
// A front end reads [Violation] as data; a person reads the error's text:
//
//	2 things must be changed:
//	  cover.w: not-positive: got 0 mm; want a length from 0.01 mm to 10 m
//	  fittings[2].kind.picture.size.w ("frame"): too-wide: got 5 in; want at most 4 1/4 in
//
// Three things are kept apart: what is [Malformed] (the field itself cannot
// be), what is [Impossible] (well formed, but it cannot be made), and what is
// merely unwise, which is a [Warning] on a result and never an error.
//
// An error stays readable, and small, whatever it is about: it lists the first
// [MaxViolations] and counts the rest, and what was given by someone else is
// quoted with [Quote], at most [MaxQuote] characters of it.
package check

import (
	"errors"
	"iter"
	"math"
	"strconv"
	"strings"

	"boardwrap.example/internal/quote"
	"boardwrap.example/internal/word"
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
	Missing     Code = "missing"      // a field that this choice needs is not set; what it is to be is advice
	Conflict    Code = "conflict"     // two fields say different things
	TooSmall    Code = "too-small"    // below the least that would do; where a ruler is too coarse that is advice
	TooLarge    Code = "too-large"    // above the most that would do; where no less of that field would, what would do is advice
	TooMany     Code = "too-many"     // more of them than a list or a search takes
)

// A Nature tells apart what cannot be written from what cannot be made.
type Nature uint8

// Kinds of fault.
const (
	Malformed  Nature = iota // the field itself cannot be
	Impossible               // well formed, but it cannot be made
)

var faults = word.List{What: "fault", Words: []string{Malformed: "malformed", Impossible: "impossible"}}

// String returns "malformed" or "impossible".
func (f Nature) String() string { return faults.String(uint8(f)) }

// AppendText appends the text of [Nature.String]. The error matches
// units.ErrUnknown.
func (f Nature) AppendText(dst []byte) ([]byte, error) { return faults.Append(dst, uint8(f)) }

// MarshalText returns the text of [Nature.String], with the error of
// [Nature.AppendText].
func (f Nature) MarshalText() ([]byte, error) { return faults.Marshal(uint8(f)) }

// UnmarshalText reads what [Nature.String] writes. The error matches
// units.ErrSyntax.
func (f *Nature) UnmarshalText(text []byte) error { return word.Unmarshal(faults, f, text) }

// A Bound says on which side of a limit a length has to lie.
type Bound uint8

// Bounds.
const (
	NoBound Bound = iota // it is not a matter of one length
	AtLeast              // the limit or more
	AtMost               // the limit or less
)

var bounds = word.List{What: "bound", Words: []string{NoBound: "no bound", AtLeast: "at least", AtMost: "at most"}}

// String returns "no bound", "at least" or "at most".
func (b Bound) String() string { return bounds.String(uint8(b)) }

// AppendText appends the text of [Bound.String]. The error matches
// units.ErrUnknown.
func (b Bound) AppendText(dst []byte) ([]byte, error) { return bounds.Append(dst, uint8(b)) }

// MarshalText returns the text of [Bound.String], with the error of
// [Bound.AppendText].
func (b Bound) MarshalText() ([]byte, error) { return bounds.Marshal(uint8(b)) }

// UnmarshalText reads what [Bound.String] writes. The error matches
// units.ErrSyntax.
func (b *Bound) UnmarshalText(text []byte) error { return word.Unmarshal(bounds, b, text) }

// A Violation is one thing that must be changed. Violations are comparable.
type Violation struct {
	// Path is the way to the field from the value that was checked, every name
	// as the field is called, in lower case: fittings[2].picture.w. It is empty
	// where no field can be blamed.
	Path string
	// Of is what the field's owner is called, as a user named it or in words of
	// the trade: "strip". It is empty where nothing has a name.
	Of     string
	Code   Code   // what kind of violation, for a program
	Nature Nature // whether it cannot be written or cannot be made
	Got    string // what was given
	Want   string // what would do, in words that follow "want": "at most 4 1/4 in"
	// Bound says how Limit is meant, for a program: with AtLeast or AtMost the
	// field at Path is a length, and setting it to Limit mends this violation.
	// By is how far the length that was found is from the limit, above 0; that
	// need not be the field's own, where a rule works it out of several. With
	// NoBound both are 0 and Want alone says what would do.
	Bound Bound
	Limit units.Length // the length that would just do
	By    units.Length // how far it is missed
}

// Error returns the violation as one line.
func (v Violation) Error() string { return string(v.append(nil)) }

// Words returns what is wrong without the path and what it is of, and the code as
// words: for a list that says itself what it is about.
//
//	too wide: got 5 in; want at most 4 1/4 in
func (v Violation) Words() string {
	v.Path, v.Of = "", ""
	v.Code = Code(strings.ReplaceAll(string(v.Code), "-", " "))
	return v.Error()
}

func (v Violation) append(dst []byte) []byte {
	before := len(dst)
	dst = append(dst, v.Path...)
	if v.Of != "" {
		if v.Path != "" {
			dst = append(dst, ' ')
		}
		dst = append(dst, '(')
		dst = quote.Append(dst, v.Of)
		dst = append(dst, ')')
	}
	if len(dst) > before {
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

// An Error holds the violations of one specification in the order in which
// they were found: all of them up to [MaxViolations], and how many more there
// are. It always holds at least one. Use errors.As to get at it.
type Error struct {
	violations []Violation
	more       int
}

// Error lists the violations, one a line, and says how many more there are:
//
//	1,334 things must be changed:
//	  cover.w: not-positive: got 0 mm; want a length from 0.01 mm to 10 m
//	  ...
//	  and 1,234 more
func (e *Error) Error() string {
	var dst []byte
	if e.Len() == 1 {
		return e.violations[0].Error()
	}
	dst = appendCount(dst, e.Len())
	dst = append(dst, " things must be changed:"...)
	for _, v := range e.violations {
		dst = append(dst, "\n  "...)
		dst = v.append(dst)
	}
	if e.more > 0 {
		dst = append(dst, "\n  and "...)
		dst = appendCount(dst, e.more)
		dst = append(dst, " more"...)
	}
	return string(dst)
}

// appendCount appends n with a comma at each thousand.
func appendCount(dst []byte, n int) []byte {
	if n >= 1000 {
		dst = append(appendCount(dst, n/1000), ',')
		n %= 1000
		dst = append(dst, byte('0'+n/100), byte('0'+n/10%10), byte('0'+n%10))
		return dst
	}
	return strconv.AppendInt(dst, int64(n), 10)
}

// All walks the violations that are kept, the first [MaxViolations] found.
func (e *Error) All() iter.Seq[Violation] {
	return func(yield func(Violation) bool) {
		for _, v := range e.violations {
			if !yield(v) {
				return
			}
		}
	}
}

// Len returns the number of violations, those included that are only counted.
func (e *Error) Len() int { return len(e.violations) + e.more }

// More returns how many violations are counted beyond those that [Error.All]
// walks; 0 if it walks them all.
func (e *Error) More() int { return e.more }

// Find returns the first violation kept at path with the given code; an empty
// path or code stands for any.
func (e *Error) Find(path string, code Code) (Violation, bool) {
	for _, v := range e.violations {
		if (path == "" || v.Path == path) && (code == "" || v.Code == code) {
			return v, true
		}
	}
	return Violation{}, false
}

// Unwrap gives errors.Is and errors.As each violation kept in turn.
func (e *Error) Unwrap() []error {
	errs := make([]error, len(e.violations))
	for i, v := range e.violations {
		errs[i] = v
	}
	return errs
}

// A Warning is something that can be made but is unwise.
type Warning struct {
	Path string // the field, as in margin.ideal; empty where it is none's
	Code Code   // what kind of warning, for a program
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

// A List collects violations: the first [MaxViolations] of them, each of its
// texts cut at [MaxText] characters; the rest it counts. So it stays small
// however many are added. The zero List is empty and ready for use.
type List struct {
	violations []Violation
	more       int
	notation   units.Notation
}

// Add adds a violation.
func (l *List) Add(v Violation) {
	if l.counted() {
		return
	}
	v.Path, v.Code = clip(v.Path), Code(clip(string(v.Code)))
	v.Of, v.Got, v.Want = clip(v.Of), clip(v.Got), clip(v.Want)
	l.violations = append(l.violations, v)
}

// counted counts a violation that the list has no room for, whose texts nobody needs
// to put together, and reports whether it did.
func (l *List) counted() bool {
	full := len(l.violations) >= MaxViolations
	if full {
		l.more = addCounts(l.more, 1)
	}
	return full
}

// About says what the violations from the n-th on are about, counted from 0 as
// [List.Len] counts; those that say so already keep it.
func (l *List) About(n int, of string) {
	for i := n; i < len(l.violations); i++ {
		if l.violations[i].Of == "" {
			l.violations[i].Of = clip(of)
		}
	}
}

// Malformed adds a malformed field.
func (l *List) Malformed(path string, code Code, got, want string) {
	l.Add(Violation{Path: path, Code: code, Nature: Malformed, Got: got, Want: want})
}

// Impossible adds a field that is well formed but cannot be made.
func (l *List) Impossible(path string, code Code, got, want string) {
	l.Add(Violation{Path: path, Code: code, Nature: Impossible, Got: got, Want: want})
}

// Short adds a length that is too small by limit − got; lengths are written in
// notation n, and what would do so that it does, also where that notation has no
// exact text for the limit.
func (l *List) Short(path string, code Code, n units.Notation, got, limit units.Length, what string) {
	l.Add(Violation{Path: path, Code: code, Nature: Impossible, Got: n.Text(got),
		Want: join("at least "+n.Bound(limit, units.Up), what), Bound: AtLeast, Limit: limit, By: apart(got, limit)})
}

// Long adds a length that is too large by got − limit.
func (l *List) Long(path string, code Code, n units.Notation, got, limit units.Length, what string) {
	l.Add(Violation{Path: path, Code: code, Nature: Impossible, Got: n.Text(got),
		Want: join("at most "+n.Bound(limit, units.Down), what), Bound: AtMost, Limit: limit, By: apart(got, limit)})
}

// apart returns how far two lengths are from each other, or the largest length.
func apart(a, b units.Length) units.Length {
	if a == b {
		return 0
	}
	// One less first: the lowest length has no positive twin.
	d, ok := max(a, b).Plus(-(min(a, b) + units.Nanometre))
	if !ok || d == math.MaxInt64 {
		return math.MaxInt64
	}
	return d + units.Nanometre
}

// join puts what is said of a bound behind it; a comma or a semicolon stands right
// after it.
func join(a, b string) string {
	switch {
	case b == "" || b[0] == ',' || b[0] == ';':
		return a + b
	case strings.HasPrefix(b, "or "): // what happens otherwise, not another way to mend it
		return a + ", " + b
	}
	return a + " " + b
}

// In sets the notation in which lengths are written by [List.Length],
// [List.Allowance], [List.Size] and [List.Text]; that of a zero List is metric.
func (l *List) In(n units.Notation) { l.notation = n }

// Notation returns the notation that the list was told.
func (l *List) Notation() units.Notation { return l.notation }

// Text writes a length in the notation of the list, exactly, and "none" for
// [units.None].
func (l *List) Text(got units.Length) string {
	if got == units.None {
		return "none"
	}
	return l.notation.Text(got)
}

func (l *List) shortest() string { return l.notation.Bound(units.Shortest, units.Up) }

// Longest writes the greatest length of a plan in the notation of the list, in inches a
// little less.
func (l *List) Longest() string {
	if l.notation == units.MetricDecimal {
		return "10 m"
	}
	return l.notation.Bound(units.Longest-units.Longest%(units.Inch/10), units.Down)
}

// Between writes what a length must be that [List.Length] checks.
func (l *List) Between() string { return "a length from " + l.shortest() + " to " + l.Longest() }

// Reach writes how far something may be moved either way.
func (l *List) Reach() string { return "a length from -" + l.Longest() + " to " + l.Longest() }

// Length checks that a length that must be given lies in the bounds of a
// plan, units.Shortest to units.Longest, and reports whether it does.
func (l *List) Length(path string, got units.Length) bool {
	if InBounds(got) {
		return true
	}
	if l.counted() {
		return false
	}
	want := l.Between()
	switch {
	case got <= 0:
		l.outside(path, NotPositive, got, want, AtLeast, units.Shortest)
	case got < units.Shortest:
		l.outside(path, OutOfRange, got, want, AtLeast, units.Shortest)
	default:
		l.outside(path, OutOfRange, got, want, AtMost, units.Longest)
	}
	return false
}

// Allowance checks a length that may be 0 but not negative nor above
// units.Longest, and reports whether it is that.
func (l *List) Allowance(path string, got units.Length) bool {
	if 0 <= got && got <= units.Longest {
		return true
	}
	if l.counted() {
		return false
	}
	want := "0 or a length up to " + l.Longest()
	switch {
	case got < 0:
		l.outside(path, Negative, got, want, AtLeast, 0)
	case got > units.Longest:
		l.outside(path, OutOfRange, got, want, AtMost, units.Longest)
	}
	return false
}

func (l *List) outside(path string, code Code, got units.Length, want string, b Bound, limit units.Length) {
	l.Add(Violation{Path: path, Code: code, Nature: Malformed, Got: l.Text(got), Want: want, Bound: b, Limit: limit, By: apart(got, limit)})
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
// through wrapped and joined errors, so that no violation is lost; those that
// err only counts are counted here too. A *units.ParseError becomes one
// malformed violation that quotes what was read, any other error one with the
// beginning of its text as what was got, both [Unknown]. Nil adds nothing.
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
		l.more = addCounts(l.more, e.more)
		return
	case Violation:
		l.addUnder(prefix, e)
		return
	case *units.ParseError:
		if e != nil {
			l.Malformed(prefix, Unknown, Quote(e.Input), e.Problem)
		}
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
	if inner := errors.Unwrap(err); inner != nil {
		_, many := errors.AsType[*Error](inner)
		_, one := errors.AsType[Violation](inner)
		if many || one {
			l.Under(prefix, inner)
			return
		}
	}
	l.Malformed(prefix, Unknown, Clip(err.Error()), "")
}

func (l *List) addUnder(prefix string, v Violation) {
	switch {
	case len(l.violations) >= MaxViolations: // only counted
	case v.Path == "":
		v.Path = prefix
	case prefix != "" && v.Path[0] == '[':
		v.Path = prefix + v.Path
	case prefix != "":
		v.Path = prefix + "." + v.Path
	}
	l.Add(v)
}

// Has reports whether a violation that is kept has the code.
func (l *List) Has(code Code) bool {
	for i := range l.violations {
		if l.violations[i].Code == code {
			return true
		}
	}
	return false
}

// Len returns the number of violations so far, those included that are only
// counted.
func (l *List) Len() int { return len(l.violations) + l.more }

// addCounts adds up what is only counted, no further than what can still be added to
// the length of a full list.
func addCounts(a, b int) int {
	const most = math.MaxInt - MaxViolations
	if a > most-b {
		return most
	}
	return a + b
}

// Err returns nil for an empty list, otherwise an *[Error] with a copy of what
// was collected.
func (l *List) Err() error {
	if len(l.violations) == 0 {
		return nil
	}
	return &Error{append([]Violation(nil), l.violations...), l.more}
}

// Index returns path[i], for the i-th element of a list.
func Index(path string, i int) string { return path + "[" + strconv.Itoa(i) + "]" }
