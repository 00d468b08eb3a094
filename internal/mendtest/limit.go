package mendtest

import (
	"math"
	"testing"

	"boardwrap.example/units/check"
)

// A Limit is something that is bounded, and how to ask for so much of it.
type Limit struct {
	At   int64                 // the most that is taken
	Path string                // of the violation beyond that
	Code check.Code            // and its code
	Try  func(n int64) error   // asks for n
	Far  int64                 // how much to ask for far above; 0 for ten times as much
	Also func(err error) error // what is left of an error at the limit, if not all of it must be nil
}

// Limits tries each limit at it, above it and far above it: it is taken, and
// refused with a violation of its path and code.
func Limits(t *testing.T, limits map[string]Limit) {
	t.Helper()
	for name, l := range limits {
		err := l.Try(l.At)
		if l.Also != nil {
			err = l.Also(err)
		}
		if err != nil {
			t.Errorf("%s: at the limit, %d: %v", name, l.At, err)
		}
		far := l.Far
		if far == 0 {
			far = math.MaxInt64
			if l.At < far/10 {
				far = 10 * l.At
			}
		}
		for _, n := range []int64{l.At + 1, far} {
			err := l.Try(n)
			if _, ok := find(err, check.Violation{Path: l.Path, Code: l.Code}); !ok {
				t.Errorf("%s: %d gives %v; want a violation %s at %q", name, n, err, l.Code, l.Path)
			}
		}
	}
}
