package check_test

import (
	"errors"
	"testing"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// What a violation is about is said once, by whoever knows it first, and stands
// behind its path.
func TestAbout(t *testing.T) {
	var l check.List
	l.Malformed("title", check.Missing, "no title", "a title")
	l.Add(check.Violation{Path: "fittings[0].size", Of: "mat", Code: check.TooLarge, Got: "9 mm", Want: "8 mm"})
	l.Add(check.Violation{Code: check.TooSmall, Got: "1 mm", Want: "2 mm"})
	before := 1
	l.About(before, "crew strip")
	var got []string
	var bad *check.Error
	if !errors.As(l.Err(), &bad) {
		t.Fatal(l.Err())
	}
	for v := range bad.All() {
		got = append(got, v.Error())
	}
	want := []string{
		"title: missing: got no title; want a title",
		`fittings[0].size ("mat"): too-large: got 9 mm; want 8 mm`,
		`("crew strip"): too-small: got 1 mm; want 2 mm`,
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("got  %s\nwant %s", got[i], want[i])
		}
	}
}

// Faults and bounds append what they write, and nothing for no value.
func TestWordsAppended(t *testing.T) {
	for _, c := range []struct {
		append func([]byte) ([]byte, error)
		want   string
		err    error
	}{
		{check.Impossible.AppendText, "x impossible", nil},
		{check.Nature(9).AppendText, "x ", units.ErrUnknown},
		{check.AtMost.AppendText, "x at most", nil},
		{check.Bound(9).AppendText, "x ", units.ErrUnknown},
	} {
		if got, err := c.append([]byte("x ")); string(got) != c.want || !errors.Is(err, c.err) {
			t.Errorf("%q, %v; want %q", got, err, c.want)
		}
	}
}
