// Package edgetest tries refusals and warnings at their edges, for tests: at the
// least value at which something is said, and at the greatest at which it is not.
package edgetest

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"iter"
	"regexp"
	"testing"

	"boardwrap.example/internal/texttest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// An Edge is the least change at which something is refused or warned about: at
// Fine nothing is refused, and Code is not said at Path; at Wrong it is. Both are
// worked out by hand. They are lengths, or counts as such.
type Edge struct {
	Name, Path  string
	Code        check.Code
	Fine, Wrong units.Length
	// Would is what would do, of a violation with a bound, where that is not Fine.
	Would units.Length
	// Got and Want are what a warning says was found and would be wise.
	Got, Want units.Length
	// Also says that at Fine something else is refused, of which this edge is not.
	Also bool
	// Try builds the thing with a value, and returns its warnings, if it has any.
	Try func(v units.Length) (iter.Seq[check.Warning], error)
}

// Refused is the Try of what gives no warnings.
func Refused(try func(v units.Length) error) func(units.Length) (iter.Seq[check.Warning], error) {
	return func(v units.Length) (iter.Seq[check.Warning], error) { return nil, try(v) }
}

// A saying is what is said of what is wrong.
type saying struct {
	found     bool
	text      string
	bound     check.Bound
	limit     units.Length // of a violation with a bound
	warning   bool
	got, want units.Length // of a warning
}

// A result is what gives warnings.
type result interface {
	Warnings() iter.Seq[check.Warning]
}

// Built is the Try of what gives warnings where it is not refused.
func Built[R result](build func(v units.Length) (R, error)) func(units.Length) (iter.Seq[check.Warning], error) {
	return func(v units.Length) (iter.Seq[check.Warning], error) {
		r, err := build(v)
		if err != nil {
			return nil, err
		}
		return r.Warnings(), nil
	}
}

// Said reports whether a violation or a warning is said.
func Said[R result](r R, err error, path string, code check.Code) bool {
	if err != nil {
		return said(nil, err, path, code).found
	}
	return said(r.Warnings(), nil, path, code).found
}

func said(warnings iter.Seq[check.Warning], err error, path string, code check.Code) saying {
	var bad *check.Error
	if errors.As(err, &bad) {
		v, found := bad.Find(path, code)
		return saying{found: found, text: v.Error(), bound: v.Bound, limit: v.Limit}
	}
	if err == nil && warnings != nil {
		for w := range warnings {
			if w.Path == path && w.Code == code {
				return saying{found: true, text: w.String(), warning: true, got: w.Got, want: w.Want}
			}
		}
	}
	return saying{}
}

func (e Edge) said(v units.Length) (saying, error) {
	warnings, err := e.Try(v)
	return said(warnings, err, e.Path, e.Code), err
}

// write is beside the tests of every package that has edges: what is kept of them
// is in its own testdata.
var write = flag.Bool("writeedges", false, "write the texts that the edges of a package are compared with, to be read before they are kept")

// goName is a name of two words in Go: what is said is in words of the trade, and the
// path leads to the field.
var goName = regexp.MustCompile(`\b[A-Z][a-z]+[A-Z]\w*`)

// Run tries every edge of the package of a test, and compares what is said at Wrong
// with what testdata/edges.txt keeps of it, after somebody read it.
func Run(t *testing.T, edges []Edge) {
	t.Helper()
	var texts bytes.Buffer
	names := map[string]bool{}
	for _, e := range edges {
		if names[e.Name] {
			t.Errorf("two edges are called %s", e.Name)
		}
		names[e.Name] = true
		fine, err := e.said(e.Fine)
		if err != nil != e.Also || fine.found {
			t.Errorf("%s at %d, where nothing is wrong: %v, %s", e.Name, e.Fine, err, fine.text)
		}
		wrong, err := e.said(e.Wrong)
		if !wrong.found {
			t.Errorf("%s at %d: %s is not said at %q: %v", e.Name, e.Wrong, e.Code, e.Path, err)
			continue
		}
		if name := goName.FindString(wrong.text); name != "" {
			t.Errorf("%s: %s is a name of Go, which nobody knows who reads a document or a page: %s", e.Name, name, wrong.text)
		}
		e.compare(t, wrong)
		fmt.Fprintf(&texts, "%s\n\t%s\n", e.Name, wrong.text)
	}
	texttest.Kept(t, "testdata/edges.txt", texts.String(), *write)
}

// compare compares what is said with what would do.
func (e Edge) compare(t *testing.T, wrong saying) {
	t.Helper()
	if wrong.warning {
		if wrong.got != e.Got || wrong.want != e.Want {
			t.Errorf("%s: got and wanted are %d and %d, want %d and %d", e.Name, wrong.got, wrong.want, e.Got, e.Want)
		}
		return
	}
	would := e.Would
	if would == 0 {
		would = e.Fine
	}
	if wrong.bound != check.NoBound && wrong.limit != would {
		t.Errorf("%s: %d would do, want %d", e.Name, wrong.limit, would)
	}
	if e.Would != 0 { // need not be of what was changed
		return
	}
	if wrong.bound == check.AtLeast && e.Wrong >= wrong.limit || wrong.bound == check.AtMost && e.Wrong <= wrong.limit {
		t.Errorf("%s: %v %d, and it is %d", e.Name, wrong.bound, wrong.limit, e.Wrong)
	}
}
