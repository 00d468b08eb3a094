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
		{func(n uint8) word { return propose.Holder(n) }, back[propose.Holder], 8},
		{func(n uint8) word { return propose.Order(n) }, back[propose.Order], 2},
		{func(n uint8) word { return propose.Cause(n) }, back[propose.Cause], int(propose.LessWork) + 1},
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
	for c := propose.Cause(0); c <= propose.LessWork+1; c++ {
		for _, thing := range []int{-1, 0} {
			r := propose.Reason{Cause: c, Thing: thing, Name: "print", Way: propose.Slip, Count: 2, Detail: "it is green"}
			text := r.Text(units.MetricDecimal)
			if none := c == propose.NoCause || c > propose.LessWork; none != (text == "") {
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
		{propose.Reason{Cause: propose.MoreSheets, Name: "note", Way: propose.Corners, Sheets: 1, ThanSheets: 0}, "With corner pockets for the note it would take 1 sheet instead of 0."},
		{propose.Reason{Cause: propose.MoreSheets, Name: "note", Way: propose.Corners, Sheets: 12, ThanSheets: 10}, "With corner pockets for the note it would take 12 sheets instead of 10."},
		{propose.Reason{Cause: propose.OverThick, Thing: -1, Thick: units.Inch / 2, ThanThick: units.Inch / 4}, "The folio would be 1/2 in thick, and at most 1/4 in is wanted."},
		{propose.Reason{Cause: propose.CannotBe, Thing: -1, Detail: "it is green"}, "It cannot be made: it is green."},
	} {
		if got := c.r.Text(units.InchFraction); got != c.want {
			t.Errorf("%q; want %q", got, c.want)
		}
	}
}

// What would come of it is told no smaller than it is and a limit no larger, on a
// ruler that can be read: 12.5 mm are between 31/64 and 1/2 in, 13.91379 mm between
// 35/64 and 9/16 in. What would read alike is told exactly.
func TestReasonsOnARuler(t *testing.T) {
	thicker := propose.Reason{Cause: propose.Thicker, Name: "note", Way: propose.Slip, Thick: 13_913_790, ThanThick: 12_500_000}
	limit := propose.Reason{Cause: propose.OverThick, Thing: -1, Thick: 13_913_790, ThanThick: 12_500_000}
	alike := propose.Reason{Cause: propose.Thicker, Name: "note", Way: propose.Slip, Thick: 12_420_000, ThanThick: 12_410_000}
	space := propose.Reason{Cause: propose.OverSpace, Thing: -1, Size: units.Size{W: 150_320_040, H: 100 * mm}, Than: units.Size{W: 150_280_000, H: 200 * mm}}
	larger := propose.Reason{Cause: propose.Larger, Name: "note", Way: propose.Slip, Size: units.Size{W: 160_020_000, H: 100 * mm}, Than: units.Size{W: 150_310_000, H: 99_940_000}}
	nearly := propose.Reason{Cause: propose.Larger, Name: "note", Way: propose.Slip, Size: units.Size{W: 150_330_000, H: 100 * mm}, Than: units.Size{W: 150_320_000, H: 100 * mm}}
	for _, c := range []struct {
		r    propose.Reason
		in   units.Notation
		want string
	}{
		{thicker, units.InchFraction, "With a slip pocket for the note the folio would be 9/16 in thick instead of 1/2 in."},
		{thicker, units.MetricDecimal, "With a slip pocket for the note the folio would be 14 mm thick instead of 12.5 mm."},
		{propose.Reason{Cause: propose.Thicker, Name: "note", Way: propose.Slip, Thick: 13_960_000, ThanThick: 12_560_000, AtLeast: true}, units.MetricDecimal, "With a slip pocket for the note the folio would be at least 13.9 mm thick instead of 12.6 mm."},
		{propose.Reason{Cause: propose.Larger, Name: "note", Way: propose.Slip, Size: units.Size{W: 160_090_000, H: 100 * mm}, Than: units.Size{W: 150_310_000, H: 99_940_000}, AtLeast: true}, units.MetricDecimal, "With a slip pocket for the note the cover would be at least 160 x 100 mm instead of 150.4 x 100 mm."},
		{limit, units.InchFraction, "The folio would be 9/16 in thick, and at most 31/64 in is wanted."},
		{limit, units.InchDecimal, "The folio would be 0.548 in thick, and at most 0.492 in is wanted."},
		{propose.Reason{Cause: propose.OverThick, Thing: -1, Thick: 13_913_790, ThanThick: 12_560_000}, units.MetricDecimal, "The folio would be 14 mm thick, and at most 12.5 mm is wanted."},
		{alike, units.MetricDecimal, "With a slip pocket for the note the folio would be 12.42 mm thick instead of 12.41 mm."},
		{nearly, units.MetricDecimal, "With a slip pocket for the note the cover would be 150.33 x 100 mm instead of 150.32 x 100 mm."},
		{larger, units.MetricDecimal, "With a slip pocket for the note the cover would be 160.1 x 100 mm instead of 150.4 x 100 mm."},
		{space, units.MetricDecimal, "Closed, the folio would be 150.4 x 100 mm, which does not go into 150.2 x 200 mm."},
	} {
		if got := c.r.Text(c.in); got != c.want {
			t.Errorf("%q; want %q", got, c.want)
		}
	}
}
