package check_test

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

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
			} else if !ok && (len(vs) != 1 || vs[0].Code != f.want || vs[0].Path != "cover.w" || vs[0].Nature != check.Malformed || vs[0].Got != c.l.String() || vs[0].Want == "") {
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

// Setting the field to the limit mends what Length, Allowance, Short and Long
// say, whatever was got.
func TestLimitsMend(t *testing.T) {
	mends := func(v check.Violation, got units.Length, ok func(units.Length) bool) {
		t.Helper()
		by := new(big.Int).Sub(big.NewInt(int64(v.Limit)), big.NewInt(int64(got)))
		if by.Abs(by); !by.IsInt64() {
			by.SetInt64(math.MaxInt64)
		}
		beyond := v.Bound == check.AtLeast && got < v.Limit || v.Bound == check.AtMost && got > v.Limit
		if !beyond || !ok(v.Limit) || int64(v.By) != by.Int64() {
			t.Errorf("%d: %+v", got, v)
		}
	}
	for _, got := range []units.Length{math.MinInt64, math.MinInt64 + 1, -1, 0, 1, units.Shortest - 1, units.Longest + 1, math.MaxInt64} {
		var l check.List
		if !l.Length("a", got) {
			mends(violations(l.Err())[0], got, func(m units.Length) bool { return new(check.List).Length("a", m) })
		}
		l = check.List{}
		if !l.Allowance("a", got) {
			mends(violations(l.Err())[0], got, func(m units.Length) bool { return new(check.List).Allowance("a", m) })
		}
		for _, limit := range []units.Length{-units.Longest, 0, units.Inch, math.MaxInt64} {
			l = check.List{}
			if got < limit {
				l.Short("a", check.TooSmall, units.InchFraction, got, limit, "")
				mends(violations(l.Err())[0], got, func(m units.Length) bool { return m >= limit })
			} else if got > limit {
				l.Long("a", check.TooLarge, units.InchFraction, got, limit, "")
				mends(violations(l.Err())[0], got, func(m units.Length) bool { return m <= limit })
			}
		}
	}
}

func TestShortAndLongSayByHowMuch(t *testing.T) {
	var l check.List
	l.Short("hinge", check.TooSmall, units.InchFraction, units.Inch/16, units.Inch/8, "to close at 90 degrees")
	l.Long("fittings[2].picture", check.TooLarge, units.InchFraction, 5*units.Inch, 17*units.Inch/4, "")
	want := []check.Violation{
		{Path: "hinge", Code: check.TooSmall, Nature: check.Impossible, Got: "1/16 in", Want: "at least 1/8 in to close at 90 degrees", Bound: check.AtLeast, Limit: units.Inch / 8, By: units.Inch / 16},
		{Path: "fittings[2].picture", Code: check.TooLarge, Nature: check.Impossible, Got: "5 in", Want: "at most 4 1/4 in", Bound: check.AtMost, Limit: 17 * units.Inch / 4, By: 3 * units.Inch / 4},
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
	if got := []string{check.Malformed.String(), check.Impossible.String(), check.Nature(9).String()}; !slices.Equal(got, []string{"malformed", "impossible", "unknown fault"}) {
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
	second := check.Violation{Path: "b", Code: check.TooLarge, Nature: check.Impossible, Got: "9", Want: "8"}
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

// However many violations are added, and however long their texts, an error
// stays readable and small, and says how many there are.
func TestAnErrorStaysReadable(t *testing.T) {
	const many = 1334
	long := strings.Repeat("½", 1<<14)
	var l check.List
	for i := range many {
		l.Malformed(check.Index(long, i), check.Code(long), long, long)
	}
	err := l.Err().(*check.Error)
	if l.Len() != many || err.Len() != many || err.More() != many-check.MaxViolations || len(violations(err)) != check.MaxViolations || len(err.Unwrap()) != check.MaxViolations {
		t.Errorf("Len %d and %d, %d more than %d", l.Len(), err.Len(), err.More(), len(violations(err)))
	}
	text := err.Error()
	if !utf8.ValidString(text) || len(text) > check.MaxViolations*(4*3*check.MaxText+40) {
		t.Errorf("a text of %d bytes", len(text))
	}
	lines := strings.Split(text, "\n")
	if len(lines) != check.MaxViolations+2 || lines[0] != "1,334 things must be changed:" || lines[len(lines)-1] != "  and 1,234 more" {
		t.Errorf("%d lines, from %q to %q", len(lines), lines[0], lines[len(lines)-1])
	}
	for _, v := range violations(err) {
		for _, text := range []string{v.Path, string(v.Code), v.Got, v.Want} {
			if n := utf8.RuneCountInString(text); n > check.MaxText {
				t.Fatalf("a text of %d characters", n)
			}
		}
	}
}

func TestTheFirstAreKept(t *testing.T) {
	for _, n := range []int{1, 99, 100, 101, 1_234_667} {
		var l check.List
		for i := range n {
			l.Malformed("", check.Missing, strconv.Itoa(i), "")
		}
		err := l.Err().(*check.Error)
		for i, v := range violations(err) {
			if v.Got != strconv.Itoa(i) {
				t.Fatalf("violation %d is %q", i, v.Got)
			}
		}
		_, more, _ := strings.Cut(err.Error(), "\n  and ")
		if want := map[int]string{101: "1 more", 1_234_667: "1,234,567 more"}[n]; more != want {
			t.Errorf("%d violations: and %q; want %q", n, more, want)
		}
	}
}

// Adding to a full list costs no memory.
func TestAFullListTakesNoMemory(t *testing.T) {
	var l check.List
	for range check.MaxViolations {
		l.Malformed("a", check.Missing, "", "")
	}
	v := check.Violation{Path: "w", Code: check.Missing}
	err, one := l.Err(), error(v)
	if n := testing.AllocsPerRun(1000, func() {
		l.Add(v)
		l.Under("strip", err)
		l.Under("strip", one)
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func TestUnderCountsOn(t *testing.T) {
	var inner, outer check.List
	for range 250 {
		inner.Malformed("w", check.Missing, "", "")
	}
	outer.Under("a", inner.Err())
	outer.Under("b", inner.Err())
	if err := outer.Err().(*check.Error); err.Len() != 500 || err.More() != 400 {
		t.Errorf("%d, %d of them more", err.Len(), err.More())
	}
	for range 80 { // doubles what it counts each time
		outer.Under("", outer.Err())
	}
	if err := outer.Err().(*check.Error); outer.Len() != math.MaxInt || err.Len() != math.MaxInt || err.More() <= 0 {
		t.Errorf("%d, %d of them more", err.Len(), err.More())
	}
}

// Texts of other packages come in short, cut between characters.
func TestForeignTextsAreShort(t *testing.T) {
	long := strings.Repeat("½", 1000)
	_, wrong := units.Parse(long)
	var l check.List
	l.Under("name", errors.New(long))
	l.Under("width", wrong)
	l.Under("height", (*units.ParseError)(nil))
	vs := violations(l.Err())
	if len(vs) != 2 || vs[0].Got != strings.Repeat("½", 61)+"..." || vs[1].Got != `"`+strings.Repeat("½", 59)+`"...` || vs[1].Want == "" || vs[1].Path != "width" {
		t.Errorf("%+v", vs)
	}
	if got := check.Quote("board\n" + long); utf8.RuneCountInString(got) > check.MaxQuote || !strings.HasPrefix(got, `"board\n½`) {
		t.Errorf("%s", got)
	}
}

func TestWordsReadBack(t *testing.T) {
	for v, want := range map[check.Nature]string{check.Malformed: "malformed", check.Impossible: "impossible"} {
		var back check.Nature
		text, err := v.MarshalText()
		if err2 := back.UnmarshalText(text); err != nil || err2 != nil || back != v || string(text) != want {
			t.Errorf("%v: %q, %v, %v", v, text, err, err2)
		}
	}
	for v, want := range map[check.Bound]string{check.NoBound: "no bound", check.AtLeast: "at least", check.AtMost: "at most"} {
		var back check.Bound
		text, err := v.MarshalText()
		if err2 := back.UnmarshalText(text); err != nil || err2 != nil || back != v || string(text) != want || v.String() != want {
			t.Errorf("%v: %q, %v, %v", v, text, err, err2)
		}
	}
}

// What would do is the bound itself.
func TestBoundsOfLengths(t *testing.T) {
	for got, want := range map[units.Length]units.Length{-1: 0, units.Longest + 1: units.Longest} {
		var l check.List
		l.Allowance("a", got)
		if v := violations(l.Err())[0]; v.Limit != want || v.By != 1 {
			t.Errorf("%d nm: %d would do, missed by %d; want %d", got, v.Limit, v.By, want)
		}
	}
	for got, want := range map[units.Length]units.Length{units.Shortest - 1: units.Shortest, units.Longest + 1: units.Longest} {
		var l check.List
		l.Length("a", got)
		if v := violations(l.Err())[0]; v.Limit != want || v.By != 1 {
			t.Errorf("%d nm: %d would do, missed by %d; want %d", got, v.Limit, v.By, want)
		}
	}
}

// What is told to be enough, or not too much, is so where inches have no exact text
// for it: 12 mm are 0.47244... in, and 10 m 393.70078... in.
func TestBoundsInInchesHold(t *testing.T) {
	for _, n := range []units.Notation{units.InchFraction, units.InchDecimal} {
		var l check.List
		l.Short("a", check.TooSmall, n, units.Inch/4, 12*units.Millimetre, "")
		l.Long("a", check.TooLarge, n, 400*units.Inch, units.Longest, "")
		v := violations(l.Err())
		if v[0].Want != "at least 0.4725 in" || v[1].Want != "at most 393.7007 in" {
			t.Errorf("%v: %q, %q", n, v[0].Want, v[1].Want)
		}
	}
}

// Lengths are written in the notation that the list was told.
func TestNotation(t *testing.T) {
	for n, want := range map[units.Notation]string{
		units.MetricDecimal: "a: not-positive: got -12.7 mm; want a length from 0.01 mm to 10 m",
		units.InchFraction:  "a: not-positive: got -1/2 in; want a length from 0.0004 in to 393.7 in",
		units.InchDecimal:   "a: not-positive: got -0.5 in; want a length from 0.0004 in to 393.7 in",
	} {
		var l check.List
		l.In(n)
		l.Length("a", -units.Inch/2)
		if got := l.Err().Error(); got != want {
			t.Errorf("%v: %q, want %q", n, got, want)
		}
		if l.Text(units.None) != "none" {
			t.Errorf("%v: none is written %q", n, l.Text(units.None))
		}
	}
}

// How far a thing may be moved reads as bounds that hold: 10 m either way, in
// inches the last tenth within it, 393.7 in (10 m is 393.7008 in).
func TestReach(t *testing.T) {
	for n, want := range map[units.Notation]string{
		units.MetricDecimal: "a length from -10 m to 10 m", units.InchFraction: "a length from -393.7 in to 393.7 in",
	} {
		var l check.List
		l.In(n)
		if l.Notation() != n || l.Reach() != want {
			t.Errorf("%v: %v, %q; want %q", n, l.Notation(), l.Reach(), want)
		}
	}
}

// What is said of a bound stands behind it after a space, but a comma and a semicolon
// right after it.
func TestSaidOfABound(t *testing.T) {
	for what, want := range map[string]string{"": "at most 5 mm", "for a foot": "at most 5 mm for a foot", "or no foot is left": "at most 5 mm, or no foot is left", ", all told": "at most 5 mm, all told", "; or less": "at most 5 mm; or less"} {
		var l check.List
		l.Long("a", check.TooLarge, units.MetricDecimal, 7*units.Millimetre, 5*units.Millimetre, what)
		if v := violations(l.Err())[0]; v.Want != want {
			t.Errorf("%q; want %q", v.Want, want)
		}
	}
}

// A full list counts a length that cannot be as it does any other violation, and still
// says that it cannot be.
func TestAFullListCountsLengths(t *testing.T) {
	var l check.List
	for range check.MaxViolations {
		l.Malformed("name", check.Unknown, "", "")
	}
	for _, c := range []struct {
		what string
		ok   bool
	}{
		{"length", l.Length("cover.w", 0)},
		{"allowance", l.Allowance("hinge.gap", -1)},
		{"size", l.Size("cover", units.Size{W: -1, H: units.Longest + 1})},
	} {
		if c.ok {
			t.Errorf("%s: taken", c.what)
		}
	}
	if !l.Length("cover.w", units.Inch) || !l.Allowance("hinge.gap", 0) || l.Len() != check.MaxViolations+4 {
		t.Errorf("%d violations", l.Len())
	}
	for _, v := range violations(l.Err()) {
		if v.Path != "name" {
			t.Errorf("kept: %v", v)
		}
	}
}

// A list knows the codes of what it keeps, and not of what it only counts.
func TestHas(t *testing.T) {
	var l check.List
	if l.Has(check.Conflict) {
		t.Error("an empty list has a conflict")
	}
	l.Malformed("a", check.Unknown, "", "")
	l.Impossible("b", check.Conflict, "", "")
	if !l.Has(check.Unknown) || !l.Has(check.Conflict) || l.Has(check.TooMany) {
		t.Error("it has an unknown and a conflict, and not too many")
	}
	for range check.MaxViolations {
		l.Malformed("c", check.Unknown, "", "")
	}
	l.Malformed("d", check.TooMany, "", "")
	if l.Has(check.TooMany) {
		t.Error("what is only counted is kept")
	}
}
