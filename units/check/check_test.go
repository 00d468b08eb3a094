package check_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

func violations(err error) []check.Violation {
	var e *check.Error
	if !errors.As(err, &e) {
		return nil
	}
	return slices.Collect(e.All())
}

func TestAnEmptyListIsNoError(t *testing.T) {
	var l check.List
	l.Under("spec", nil)
	l.Under("spec", (*check.Error)(nil))
	if err := l.Err(); err != nil || l.Len() != 0 {
		t.Errorf("%v", err)
	}
}

func TestLengthBounds(t *testing.T) {
	for _, c := range []struct {
		l         units.Length
		length    check.Code // of List.Length, empty if it passes
		allowance check.Code
	}{
		{math.MinInt64, check.NotPositive, check.Negative},
		{-1, check.NotPositive, check.Negative},
		{0, check.NotPositive, ""},
		{1, check.OutOfRange, ""},
		{units.Shortest - 1, check.OutOfRange, ""},
		{units.Shortest, "", ""},
		{units.Inch, "", ""},
		{units.Longest, "", ""},
		{units.Longest + 1, check.OutOfRange, check.OutOfRange},
		{math.MaxInt64, check.OutOfRange, check.OutOfRange},
	} {
		if check.InBounds(c.l) != (c.length == "") {
			t.Errorf("InBounds(%v) is wrong", c.l)
		}
		for name, f := range map[string]struct {
			check func(*check.List) bool
			want  check.Code
		}{
			"length":    {func(l *check.List) bool { return l.Length("cover.w", c.l) }, c.length},
			"allowance": {func(l *check.List) bool { return l.Allowance("cover.w", c.l) }, c.allowance},
		} {
			var l check.List
			ok := f.check(&l)
			vs := violations(l.Err())
			if ok != (f.want == "") || ok != (len(vs) == 0) {
				t.Errorf("%s of %v: %t, %v", name, c.l, ok, vs)
			} else if !ok && (len(vs) != 1 || vs[0].Code != f.want || vs[0].Path != "cover.w" || vs[0].Kind != check.Malformed || vs[0].Got != c.l.String() || vs[0].Want == "") {
				t.Errorf("%s of %v: %+v; want %s", name, c.l, vs, f.want)
			}
		}
	}
	var l check.List
	if l.Size("cover", units.Size{W: -1, H: 0}) || l.Len() != 2 {
		t.Errorf("both sides of a size: %v", l.Err())
	}
	if _, ok := l.Err().(*check.Error).Find("cover.h", check.NotPositive); !ok {
		t.Errorf("no cover.h: %v", l.Err())
	}
	if l.Size("cover", units.Size{W: units.Inch}) || l.Size("cover", units.Size{H: units.Inch}) {
		t.Error("a size with one good side passes")
	}
	if !l.Size("cover", units.Size{W: units.Inch, H: units.Inch}) {
		t.Error("a good size is refused")
	}
}

func TestShortAndLongSayByHowMuch(t *testing.T) {
	var l check.List
	l.Short("hinge", check.TooSmall, units.InchFraction, units.Inch/16, units.Inch/8, "to close at 90 degrees")
	l.Long("fittings[2].picture", check.TooLarge, units.InchFraction, 5*units.Inch, 17*units.Inch/4, "")
	want := []check.Violation{
		{Path: "hinge", Code: check.TooSmall, Kind: check.Impossible, Got: "1/16 in", Want: "at least 1/8 in to close at 90 degrees", Limit: units.Inch / 8, By: units.Inch / 16},
		{Path: "fittings[2].picture", Code: check.TooLarge, Kind: check.Impossible, Got: "5 in", Want: "at most 4 1/4 in", Limit: 17 * units.Inch / 4, By: 3 * units.Inch / 4},
	}
	if got := violations(l.Err()); !slices.Equal(got, want) {
		t.Errorf("%+v; want %+v", got, want)
	}
	const text = "2 things must be changed:\n" +
		"  hinge: too-small: got 1/16 in; want at least 1/8 in to close at 90 degrees\n" +
		"  fittings[2].picture: too-large: got 5 in; want at most 4 1/4 in"
	if got := l.Err().Error(); got != text {
		t.Errorf("%s\nwant\n%s", got, text)
	}
}

func TestTexts(t *testing.T) {
	for want, v := range map[string]check.Violation{
		"board: unknown":                         {Path: "board", Code: check.Unknown},
		"missing: got nothing; want a board":     {Code: check.Missing, Got: "nothing", Want: "a board"},
		"board: conflict; want one of the two":   {Path: "board", Code: check.Conflict, Want: "one of the two"},
		"board: too-many: got 99":                {Path: "board", Code: check.TooMany, Got: "99"},
		"board: unknown: got felt; want a stock": {Path: "board", Code: check.Unknown, Got: "felt", Want: "a stock"},
	} {
		var l check.List
		l.Add(v)
		if v.Error() != want || l.Err().Error() != want {
			t.Errorf("%q and %q; want %q", v.Error(), l.Err(), want)
		}
	}
	for want, w := range map[string]check.Warning{
		"wrap: too-small: the margin is 1/4 in": {Path: "wrap", Code: check.TooSmall, Text: "the margin is 1/4 in"},
		"too-small: it is tight":                {Code: check.TooSmall, Text: "it is tight"},
	} {
		if w.String() != want {
			t.Errorf("%q; want %q", w, want)
		}
	}
	if got := []string{check.Malformed.String(), check.Impossible.String(), check.Kind(9).String()}; !slices.Equal(got, []string{"malformed", "impossible", "unknown kind"}) {
		t.Errorf("%q", got)
	}
	if check.Index("fittings", 3) != "fittings[3]" {
		t.Error(check.Index("fittings", 3))
	}
}

func TestErrorsMatch(t *testing.T) {
	var l check.List
	l.Malformed("a", check.Negative, "-1", "0")
	l.Impossible("b", check.TooLarge, "9", "8")
	err := fmt.Errorf("planning: %w", l.Err())
	var e *check.Error
	if !errors.As(err, &e) || e.Len() != 2 {
		t.Fatalf("no *check.Error in %v", err)
	}
	first := check.Violation{Path: "a", Code: check.Negative, Got: "-1", Want: "0"}
	second := check.Violation{Path: "b", Code: check.TooLarge, Kind: check.Impossible, Got: "9", Want: "8"}
	var v check.Violation
	if !errors.As(err, &v) || v != first || !errors.Is(err, second) {
		t.Errorf("violations cannot be matched: %+v", v)
	}
	for _, c := range []struct {
		path string
		code check.Code
		want check.Violation
		ok   bool
	}{
		{"a", check.Negative, first, true}, {"a", "", first, true}, {"", check.TooLarge, second, true}, {"", "", first, true},
		{"a", check.TooLarge, check.Violation{}, false}, {"c", "", check.Violation{}, false},
	} {
		if got, ok := e.Find(c.path, c.code); got != c.want || ok != c.ok {
			t.Errorf("Find(%q, %q) = %+v, %t", c.path, c.code, got, ok)
		}
	}
	for range e.All() {
		break // a loop may end early
	}
}

func TestAnErrorIsNotChangedLater(t *testing.T) {
	var l check.List
	l.Malformed("a", check.Negative, "", "")
	err := l.Err()
	l.Malformed("b", check.Negative, "", "")
	if n := len(violations(err)); n != 1 {
		t.Errorf("the error grew to %d violations", n)
	}
}

func TestUnderLosesNothing(t *testing.T) {
	list := func(paths ...string) error {
		var l check.List
		for _, p := range paths {
			l.Malformed(p, check.Missing, "", "")
		}
		return l.Err()
	}
	one := check.Violation{Path: "x", Code: check.Unknown}
	var nilError *check.Error
	for _, c := range []struct {
		name, prefix string
		err          error
		want         string // the paths
	}{
		{"a list", "strip", list("w", "", "[2].w"), "strip.w strip strip[2].w"},
		{"no prefix", "", list("w", "[2]"), "w [2]"},
		{"wrapped", "strip", fmt.Errorf("scoring: %w", list("w", "h")), "strip.w strip.h"},
		{"joined", "strip", errors.Join(list("a", "b"), list("c"), one, errors.New("torn")), "strip.a strip.b strip.c strip.x strip"},
		{"joined and wrapped", "strip", fmt.Errorf("scoring: %w", errors.Join(list("a"), list("b"))), "strip.a strip.b"},
		{"two wrapped", "strip", fmt.Errorf("%w, %w", list("a"), list("b")), "strip.a strip.b"},
		{"a violation", "strip", one, "strip.x"},
		{"a wrapped violation", "strip", fmt.Errorf("scoring: %w", one), "strip.x"},
		{"another error", "strip", errors.New("torn"), "strip"},
		{"another wrapped error", "strip", fmt.Errorf("scoring: %w", errors.New("torn")), "strip"},
		{"nil of the type", "strip", nilError, ""},
		{"an error that claims to be one", "strip", claims{}, "strip"},
		{"an empty join", "strip", empty{}, "strip"},
	} {
		var l check.List
		l.Under(c.prefix, c.err)
		var paths []string
		for _, v := range violations(l.Err()) {
			paths = append(paths, v.Path)
		}
		if got := strings.Join(paths, " "); got != c.want {
			t.Errorf("%s: %q; want %q", c.name, got, c.want)
		}
	}
	var l check.List
	l.Under("strip", fmt.Errorf("scoring: %w", errors.New("torn")))
	if got := violations(l.Err()); len(got) != 1 || got[0].Got != "scoring: torn" || got[0].Code != check.Unknown {
		t.Errorf("another error: %+v", got)
	}
}

type claims struct{}

func (claims) Error() string { return "claims" }

func (claims) As(target any) bool {
	if e, ok := target.(**check.Error); ok {
		*e = nil
		return true
	}
	return false
}

type empty struct{}

func (empty) Error() string { return "empty" }

func (empty) Unwrap() []error { return nil }
