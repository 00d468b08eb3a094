package layout

import "testing"

// What one layout takes more than another is certain where no layout of either takes less,
// not where that is so of one of them only.
func TestCertainOfBoth(t *testing.T) {
	for _, c := range []struct {
		bought, bound, was, wasBound int
		certain                      bool
	}{{3, 3, 2, 2, true}, {3, 2, 2, 2, false}, {3, 3, 2, 1, false}, {3, 2, 2, 1, false}, {0, 0, 0, 0, true}} {
		d := tally{bought: c.bought, bound: c.bound}.minus(tally{bought: c.was, bound: c.wasBound})
		if d.Certain() != c.certain {
			t.Errorf("%+v: certain %t", c, d.Certain())
		}
	}
}
