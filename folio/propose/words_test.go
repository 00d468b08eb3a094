package propose_test

import (
	"encoding"
	"errors"
	"fmt"
	"testing"

	"boardwrap.example/folio/propose"
	"boardwrap.example/units"
)

// A word is a value of an enumeration that writes its text.
type word interface {
	fmt.Stringer
	encoding.TextMarshaler
	encoding.TextAppender
}

// back reads a text as a value of the type of another one.
func back[T any, P interface {
	*T
	encoding.TextUnmarshaler
}](text []byte) (any, error) {
	var v T
	err := P(&v).UnmarshalText(text)
	return v, err
}

// Every value of an enumeration has a word of its own, which is read as it; one
// beyond the last has none.
func TestWords(t *testing.T) {
	for _, c := range []struct {
		of   func(n uint8) word
		back func([]byte) (any, error)
		n    int
	}{
		{func(n uint8) word { return propose.Aim(n) }, back[propose.Aim], 4},
		{func(n uint8) word { return propose.Sight(n) }, back[propose.Sight], 3},
		{func(n uint8) word { return propose.Keeping(n) }, back[propose.Keeping], 3},
		{func(n uint8) word { return propose.Way(n) }, back[propose.Way], 8},
		{func(n uint8) word { return propose.Order(n) }, back[propose.Order], 2},
		{func(n uint8) word { return propose.Cause(n) }, back[propose.Cause], int(propose.NothingHolds) + 1},
	} {
		seen := map[string]bool{}
		for i := range c.n {
			v := c.of(uint8(i))
			text, err := v.MarshalText()
			appended, err2 := v.AppendText([]byte("x"))
			again, err3 := c.back(text)
			if err != nil || err2 != nil || err3 != nil || string(text) != v.String() || string(appended) != "x"+string(text) || again != any(v) || seen[string(text)] {
				t.Errorf("%T %d: %q, %q, %v", v, i, text, appended, again)
			}
			seen[string(text)] = true
		}
		v := c.of(uint8(c.n))
		if _, err := v.MarshalText(); !errors.Is(err, units.ErrUnknown) {
			t.Errorf("%T %d: %v", v, c.n, err)
		}
		if _, err := c.back([]byte("wombat")); !errors.Is(err, units.ErrSyntax) {
			t.Errorf("%T: %v", v, err)
		}
	}
}

// Every cause has a sentence, which says its numbers; a cause that is none has
// none.
func TestReasons(t *testing.T) {
	for c := propose.Cause(0); c <= propose.NothingHolds+1; c++ {
		for _, thing := range []int{-1, 0} {
			r := propose.Reason{Cause: c, Thing: thing, Name: "print", Way: propose.Slip, Count: 2, Detail: "it is green"}
			text := r.Text(units.MetricDecimal)
			if none := c == propose.NoCause || c > propose.NothingHolds; none != (text == "") {
				t.Errorf("%v: %q", c, text)
			}
		}
	}
	for _, c := range []struct {
		r    propose.Reason
		want string
	}{
		{propose.Reason{Cause: propose.Larger, Name: "photo", Way: propose.Frame, Count: 3, Size: units.Size{W: 9 * units.Inch, H: 4 * units.Inch}, Than: units.Size{W: 8 * units.Inch, H: 4 * units.Inch}},
			"With a frame for the photo (3) the cover would be 9 x 4 in instead of 8 x 4 in."},
		{propose.Reason{Cause: propose.WouldStick, Way: propose.Mat}, "On a mat the content would be stuck down for good, and nobody said that it may be."},
		{propose.Reason{Cause: propose.ComesOut, Name: "note"}, "The note comes out again: nothing is stuck to it."},
		{propose.Reason{Cause: propose.MoreSheets, Name: "note", Way: propose.Corners, Sheets: 4, ThanSheets: 3}, "With corner pockets for the note it would take 4 sheets instead of 3."},
		{propose.Reason{Cause: propose.OverThick, Thing: -1, Thick: units.Inch / 2, ThanThick: units.Inch / 4}, "The folio would be 1/2 in thick, and at most 1/4 in is wanted."},
		{propose.Reason{Cause: propose.CannotBe, Thing: -1, Detail: "it is green"}, "It cannot be made: it is green."},
	} {
		if got := c.r.Text(units.InchFraction); got != c.want {
			t.Errorf("%q; want %q", got, c.want)
		}
	}
}
