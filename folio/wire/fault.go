package wire

import (
	"bytes"
	"errors"
	"iter"
	"slices"
	"strconv"
	"strings"

	"boardwrap.example/units/check"
)

// Codes of faults, besides those of package check.
const (
	NotJSON    check.Code = "not-json"    // the document is no JSON
	WrongForm  check.Code = "wrong-form"  // a number where a text is meant, and the like
	NoMember   check.Code = "no-member"   // a member that there is not
	Twice      check.Code = "twice"       // a member that is there already
	BadText    check.Code = "bad-text"    // a text that cannot be read
	BadVersion check.Code = "bad-version" // a version that this package does not read
)

// ErrNothing is returned for a document of nothing: of a plan, a layout, a batch that is
// costed, a survey, proposals or an error that is nil.
var ErrNothing = errors.New("wire: there is nothing to write")

// A Fault is one thing that is wrong with a document.
type Fault struct {
	// Pointer is the JSON pointer of the value (RFC 6901), empty for the whole
	// document.
	Pointer string
	// Path is the field of the Spec, as violations name it; empty where it is
	// none.
	Path string
	// Line and Column say where the value begins, from 1; columns count bytes.
	Line, Column int
	Code         check.Code // what kind of fault, for a program
	Got, Want    string     // what stands there, and what would do
}

// String returns the fault as one line.
func (f Fault) String() string {
	var b strings.Builder
	b.WriteString("line " + strconv.Itoa(f.Line) + ", column " + strconv.Itoa(f.Column))
	if f.Pointer != "" {
		b.WriteString(", " + f.Pointer)
	}
	b.WriteString(": " + string(f.Code) + ": got " + f.Got)
	if f.Want != "" {
		b.WriteString("; want " + f.Want)
	}
	return b.String()
}

// An Error holds what is wrong with a document, in the order of the document:
// the first [MostFaults] of it.
type Error struct {
	faults []Fault
	more   int
}

// All walks the faults.
func (e *Error) All() iter.Seq[Fault] {
	return func(yield func(Fault) bool) {
		for _, f := range e.faults {
			if !yield(f) {
				return
			}
		}
	}
}

// Len returns how many faults there are, those that are not listed included.
func (e *Error) Len() int { return len(e.faults) + e.more }

// Error lists the faults, one a line.
func (e *Error) Error() string {
	if e.Len() == 1 {
		return e.faults[0].String()
	}
	var b strings.Builder
	b.WriteString(strconv.Itoa(e.Len()) + " things are wrong with the document:")
	for _, f := range e.faults {
		b.WriteString("\n  " + f.String())
	}
	if e.more > 0 {
		b.WriteString("\n  and " + strconv.Itoa(e.more) + " more")
	}
	return b.String()
}

// from counts the lines from the line of a stream at which the document begins.
func (e *Error) from(line int) *Error {
	out := &Error{slices.Clone(e.faults), e.more}
	for i := range out.faults {
		out.faults[i].Line += max(line, 1) - 1
	}
	return out
}

// faults gathers what is wrong.
type faults struct {
	data []byte
	// cells says that the values are cells of a row, and offsets their numbers.
	cells bool
	list  []Fault
	more  int
}

// add notes a fault of the value that begins at an offset.
func (f *faults) add(fault Fault, at int64) {
	if len(f.list) >= MostFaults {
		f.more++
		return
	}
	if f.cells {
		fault.Line, fault.Column = 1, int(at)+1
		f.list = append(f.list, fault)
		return
	}
	before := f.data[:min(at, int64(len(f.data)))]
	fault.Line = 1 + bytes.Count(before, []byte("\n"))
	fault.Column = len(before) - bytes.LastIndexByte(before, '\n')
	f.list = append(f.list, fault)
}

// len is how many there are, those that are not listed included.
func (f *faults) len() int { return len(f.list) + f.more }

func (f *faults) err() error {
	if len(f.list) == 0 {
		return nil
	}
	return &Error{f.list, f.more}
}

// escaped is a name as part of a JSON pointer.
func escaped(name string) string {
	if !strings.ContainsAny(name, "~/") {
		return name
	}
	return strings.NewReplacer("~", "~0", "/", "~1").Replace(name)
}
