package mendtest_test

import (
	"strings"
	"testing"

	"boardwrap.example/internal/mendtest"
	"boardwrap.example/units/check"
)

// Names come from before the element that asks, choices from the first that are
// offered, a switch is turned, and of bounds beside what is best the nearest is taken.
func TestOfferedNames(t *testing.T) {
	type seat struct {
		Name, Behind, Side string
		Down               bool
		Height             int
	}
	type crew struct{ Seats []seat }
	bad := func(c crew) error {
		var l check.List
		for i, s := range c.Seats {
			path := check.Index("seats", i)
			if i > 0 && s.Behind != c.Seats[i-1].Name {
				l.Malformed(path+".behind", check.Unknown, s.Behind, "the name of a fitting before this one")
			}
			if s.Side != "port" {
				l.Malformed(path+".side", check.Unknown, s.Side, "one of port, starboard")
			}
			if s.Down {
				l.Malformed(path+".down", check.Conflict, "a seat that is down", "one that is up")
			}
			if s.Height < 3 || s.Height > 9 {
				l.Malformed(path+".height", check.OutOfRange, "another", "6 as planned, or from 3 to 9: measure again")
			}
		}
		return l.Err()
	}
	mendtest.Many(t, 40, 1, nil, func(tally *mendtest.Tally, from int64) {
		c := crew{[]seat{{Name: "bow", Side: "port", Height: 3}, {Name: "stroke", Behind: "cox", Side: "bow", Down: from%2 == 0, Height: int(from % 50)}}}
		mendtest.Value(tally, c, bad(c), []any{mendtest.Names{"bow", "stroke"}}, bad)
		if !strings.Contains(c.Seats[1].Behind, "cox") {
			t.Error("the value that was tried was changed")
		}
	})
}
