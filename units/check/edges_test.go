package check_test

import (
	"errors"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// grouped writes a number with a comma at each thousand, by slicing its text.
func grouped(n int) string {
	s := strconv.Itoa(n)
	var groups []string
	for ; len(s) > 3; s = s[:len(s)-3] {
		groups = append(groups, s[len(s)-3:])
	}
	groups = append(groups, s)
	slices.Reverse(groups)
	return strings.Join(groups, ",")
}

// An error says how many violations there are and how many of them it does not
// show, with commas, on both sides of every thousand.
func TestCountsAreGrouped(t *testing.T) {
	var l check.List
	n := 0
	for _, want := range []int{2, 9, 10, 99, 100, 101, 999, 1000, 1001, 1090, 1099, 1110, 1234, 1987, 9999, 10_000, 20_909, 99_999, 100_000, 123_456} {
		for ; n < want; n++ {
			l.Malformed("field", check.Unknown, "", "")
		}
		text := l.Err().Error()
		if first, _, _ := strings.Cut(text, "\n"); first != grouped(want)+" things must be changed:" {
			t.Errorf("%d: %s", want, first)
		}
		_, more, found := strings.Cut(text, "\n  and ")
		if found != (want > check.MaxViolations) || found && more != grouped(want-check.MaxViolations)+" more" {
			t.Errorf("%d: and %s", want, more)
		}
	}
}

// An error that is none of ours is one unknown field, with its text.
func TestForeignErrors(t *testing.T) {
	for name, err := range map[string]error{"plain": errors.New("no such file"), "empty join": errors.Join(errors.New("no such file"))} {
		var l check.List
		l.Under("stock", err)
		e := new(check.Error)
		if !errors.As(l.Err(), &e) || e.Len() != 1 {
			t.Fatalf("%s: %v", name, l.Err())
		}
		if v := slices.Collect(e.All())[0]; v.Code != check.Unknown || v.Path != "stock" || v.Got != "no such file" {
			t.Errorf("%s: %+v", name, v)
		}
	}
}

// A join of one error is that error, and a length that cannot be read is an
// unknown field that quotes it.
func TestOneJoinedAndUnread(t *testing.T) {
	var inner, l check.List
	inner.Malformed("width", check.Missing, "nothing", "")
	l.Under("cover", errors.Join(inner.Err()))
	_, err := units.Parse("wide")
	l.Under("spine", err)
	e := new(check.Error)
	if !errors.As(l.Err(), &e) || e.Len() != 2 {
		t.Fatal(l.Err())
	}
	all := slices.Collect(e.All())
	if all[0].Path != "cover.width" || all[0].Code != check.Missing {
		t.Errorf("%+v", all[0])
	}
	if all[1].Path != "spine" || all[1].Code != check.Unknown || all[1].Got != `"wide"` {
		t.Errorf("%+v", all[1])
	}
}

// Texts are kept up to the documented number of characters and cut behind it.
func TestTextsAreCut(t *testing.T) {
	if check.MaxText != 512 || check.MaxViolations != 100 {
		t.Errorf("limits are %d characters and %d violations", check.MaxText, check.MaxViolations)
	}
	for _, n := range []int{510, 511, 512, 513, 600, 100_000} {
		var l check.List
		l.Malformed("field", check.Unknown, strings.Repeat("é", n), "")
		e := new(check.Error)
		if !errors.As(l.Err(), &e) {
			t.Fatal(l.Err())
		}
		got := []rune(slices.Collect(e.All())[0].Got)
		if n <= 512 && string(got) != strings.Repeat("é", n) || len(got) > 512 {
			t.Errorf("%d characters became %d", n, len(got))
		}
	}
}
