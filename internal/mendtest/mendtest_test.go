package mendtest_test

import (
	"fmt"
	"strings"
	"testing"

	"boardwrap.example/internal/mendtest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

type oar struct {
	Length units.Length
	Blade  units.Size
}

type boat struct {
	Name string
	Oars []oar
	Cox  any
}

const cm = units.Centimetre

// sound checks that no oar is longer than 3 m, that blades have a size and that
// there are at most two oars.
func sound(b boat) error {
	var bad check.List
	for i, o := range b.Oars {
		path := check.Index("oars", i)
		if o.Length > 300*cm {
			bad.Long(path+".length", check.TooLarge, units.MetricDecimal, o.Length, 300*cm, "of oar")
		}
		if o.Blade == (units.Size{}) {
			bad.Malformed(path+".blade", check.Missing, "no blade", "a size")
		}
	}
	if len(b.Oars) > 2 {
		bad.Malformed("oars", check.TooMany, "3", "at most 2")
	}
	if b.Name == "" {
		bad.Malformed("name", check.Missing, "no name", "a name")
	}
	return bad.Err()
}

func TestMended(t *testing.T) {
	long := oar{Length: 400 * cm}
	b := boat{Oars: []oar{long, long, long}}
	var tally mendtest.Tally
	mendtest.Value(&tally, b, sound(b), nil, sound)
	tally.Check(t, 0)
	if tally.Refused() != 1 || b.Oars[0] != long || b.Name != "" {
		t.Errorf("%d refused; the value that was tried is now %v", tally.Refused(), b)
	}
}

// An element that is one too many is taken out of its list, a list is made as
// long as it has to be and an
// area goes where the text says.
func TestLists(t *testing.T) {
	type crew struct {
		Places []int
		Areas  []units.Rect
	}
	at := units.RectAt(units.Point{X: cm}, units.Size{W: cm, H: 2 * cm})
	sound := func(c crew) error {
		var bad check.List
		seen := map[int]bool{}
		for i, p := range c.Places {
			if seen[p] {
				bad.Malformed(check.Index("places", i), check.Conflict, "a place that is taken", "it left out; someone sits there")
			}
			seen[p] = true
		}
		if len(c.Areas) != 2 {
			bad.Malformed("areas", check.Conflict, "another number", "2 areas, one between each two oars")
		}
		for i, a := range c.Areas {
			if i == 0 && a != at {
				bad.Malformed("areas[0]", check.OutOfRange, "another area", "an area clear of it, such as x 10 mm to 20 mm, y 0 mm to 20 mm")
			}
		}
		return bad.Err()
	}
	var tally mendtest.Tally
	for _, c := range []crew{{Places: []int{1, 2, 1, 1}, Areas: make([]units.Rect, 2)}, {Areas: make([]units.Rect, 3)}, {}} {
		mendtest.Value(&tally, c, sound(c), nil, sound)
	}
	tally.Check(t, 0)
	if tally.Refused() != 3 {
		t.Errorf("%d refused", tally.Refused())
	}
}

// What does not mend, leads astray or is advice is told from what mends.
func TestNotMended(t *testing.T) {
	b := boat{Oars: []oar{{Length: 4}}, Cox: oar{Length: 5}}
	never := func(v check.Violation) func(boat) error {
		return func(boat) error {
			var bad check.List
			bad.Add(v)
			return bad.Err()
		}
	}
	for _, c := range []struct {
		v    check.Violation
		want mendtest.Outcome
	}{
		{check.Violation{Path: "oars[0].length", Code: "long", Got: "4", Want: "at most 3 mm", Bound: check.AtMost, Limit: 3, By: 1}, mendtest.NotDone},
		{check.Violation{Path: "cox.length", Code: "long", Got: "5", Want: "at most 3 mm"}, mendtest.NotDone},
		{check.Violation{Path: "oars[1].length", Code: "long", Got: "4", Want: "at most 3 mm"}, mendtest.Astray},
		{check.Violation{Path: "oars[0].width", Code: "long", Got: "4", Want: "at most 3 mm"}, mendtest.Astray},
		{check.Violation{Path: "oars", Code: "long", Got: "4", Want: "at most 3 mm", Bound: check.AtMost, Limit: 3, By: 1}, mendtest.Astray},
		{check.Violation{Path: "oars[0].length", Code: "long", Got: "4"}, mendtest.Astray},
		{check.Violation{Path: "oars[0].length", Code: "long", Got: "4", Want: "something shorter"}, mendtest.Advice},
		{check.Violation{Path: "oars[0]", Code: "long", Got: "4", Want: "it left out; there is another"}, mendtest.NotDone},
		{check.Violation{Path: "oars[1]", Code: "long", Got: "4", Want: "it left out; there is another"}, mendtest.Astray},
		{check.Violation{Path: "oars", Code: "long", Got: "4", Want: "it left out; there is another"}, mendtest.Astray},
	} {
		if got := mendtest.Try(b, c.v, nil, never(c.v)); got.Outcome != c.want || got.Text == "" {
			t.Errorf("%v: %v, want outcome %d", c.v, got, c.want)
		}
	}
}

// recorder is a test that fails without ending.
type recorder struct {
	testing.TB
	said []string
}

func (r *recorder) Helper()                   {}
func (r *recorder) Log(...any)                {}
func (r *recorder) Error(a ...any)            { r.said = append(r.said, fmt.Sprint(a...)) }
func (r *recorder) Errorf(f string, a ...any) { r.Error(fmt.Sprintf(f, a...)) }

// One value in fifty that is not mended is too many, and so is advice by a code
// that does not say it.
func TestCheckFails(t *testing.T) {
	advice := check.Violation{Path: "oars[0].length", Code: "long", Got: "4", Want: "something shorter"}
	var tally mendtest.Tally
	for range 50 {
		b := boat{Oars: []oar{{Length: 400 * cm}}}
		mendtest.Value(&tally, b, sound(b), nil, sound)
	}
	r := &recorder{}
	if tally.Check(r, 1, check.Missing); len(r.said) > 0 {
		t.Error(r.said)
	}
	var bad check.List
	bad.Add(advice)
	mendtest.Value(&tally, boat{Oars: []oar{{}}}, bad.Err(), nil, sound)
	if tally.Check(r, 1, "long"); len(r.said) != 1 || !strings.Contains(r.said[0], "50 of 51") {
		t.Error(r.said)
	}
	r.said = nil
	tally.Check(r, 5)
	if len(r.said) != 1 || !strings.Contains(r.said[0], "does not say that it is advice") {
		t.Error(r.said)
	}
}

// Spoiling changes something, says the same for the same number, and leaves what
// it was given.
func TestSpoil(t *testing.T) {
	b := boat{Name: "skiff", Oars: []oar{{Length: 200 * cm, Blade: units.Size{W: cm, H: cm}}}}
	before, changed := fmt.Sprint(b), 0
	for from := range int64(200) {
		got := fmt.Sprint(mendtest.Spoil(b, from))
		if got != fmt.Sprint(mendtest.Spoil(b, from)) || fmt.Sprint(b) != before {
			t.Fatalf("%d: not the same again", from)
		}
		if got != before {
			changed++
		}
	}
	if changed < 150 {
		t.Errorf("%d changed", changed)
	}
}

// The codes of package check that say that they advise are found.
func TestAdviceOf(t *testing.T) {
	if got := mendtest.AdviceOf(t, "../../units/check"); len(got) != 3 || got[0] != check.Missing {
		t.Errorf("%v", got)
	}
}
