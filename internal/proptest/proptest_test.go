package proptest_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
)

// A rectangle has no inverse to the sides it was made of: it is stood up.
type rectangle struct{ short, long int }

func rectangles() gopter.Gen {
	sides := gopter.CombineGens(gen.IntRange(1, 1000), gen.IntRange(1, 1000))
	return proptest.Map(sides, func(v []any) rectangle {
		a, b := v[0].(int), v[1].(int)
		return rectangle{min(a, b), max(a, b)}
	})
}

// falsified checks a property that must fail, and returns the counterexample as
// it was found and as it was shrunk.
func falsified(t *testing.T, p gopter.Prop) (found, shrunk any) {
	t.Helper()
	result := p.Check(proptest.Parameters(200))
	if result.Status != gopter.TestFailed {
		t.Fatalf("the property was not falsified: %v", result)
	}
	return result.Args[0].OrigArg, result.Args[0].Arg
}

// The least rectangle of 10 by 10 or more is 10 by 10, and of those that are 50
// or more longer than they are wide 1 by 51: the counterexamples must be those.
func TestShrinksToTheLeast(t *testing.T) {
	for name, c := range map[string]struct {
		holds func(rectangle) bool
		least rectangle
	}{
		"both sides":     {func(r rectangle) bool { return r.short < 10 }, rectangle{10, 10}},
		"the difference": {func(r rectangle) bool { return r.long-r.short < 50 }, rectangle{1, 51}},
	} {
		t.Run(name, func(t *testing.T) {
			found, shrunk := falsified(t, prop.ForAll(c.holds, rectangles()))
			if diff := cmp.Diff(c.least, shrunk, cmp.AllowUnexported(rectangle{})); diff != "" {
				t.Errorf("found %v, shrunk (-want +got):\n%s", found, diff)
			}
			if found == shrunk {
				t.Errorf("%v was found at once: nothing was shown", found)
			}
		})
	}
}

// The Map of gopter leaves such a counterexample as it was found: the reason
// for ours. Should that change, ours may go.
func TestTheirMapDoesNotShrink(t *testing.T) {
	squares := gen.IntRange(1, 1000).Map(func(n int) rectangle { return rectangle{n, n} })
	found, shrunk := falsified(t, prop.ForAll(func(r rectangle) bool { return r.short < 10 }, squares))
	if found != shrunk {
		t.Errorf("found %v, shrunk to %v", found, shrunk)
	}
}

// But for shrinking ours is as theirs: the same seed gives the same values, and those
// that are generated after them are the same too.
func TestMapDrawsAsTheirs(t *testing.T) {
	tall := func(n int) rectangle { return rectangle{n, 2 * n} }
	draw := func(squares gopter.Gen) (drawn []string) {
		prop.ForAll(func(r rectangle, after int64) bool {
			drawn = append(drawn, fmt.Sprint(r, after))
			return true
		}, squares, gen.Int64()).Check(proptest.Parameters(100))
		return drawn
	}
	ours, theirs := draw(proptest.Map(gen.IntRange(1, 1000), tall)), draw(gen.IntRange(1, 1000).Map(tall))
	if diff := cmp.Diff(theirs, ours); diff != "" || len(ours) == 0 {
		t.Errorf("%d drawn (-theirs +ours):\n%s", len(ours), diff)
	}
}

// A Map of a Map and a slice of mapped elements shrink as well, within the
// bounds of the generator that lies below.
func TestShrinksThroughMapsAndSlices(t *testing.T) {
	even := proptest.Map(proptest.Map(gen.IntRange(3, 500), func(n int) int64 { return int64(n) }), func(n int64) string { return fmt.Sprint(2 * n) })
	_, shrunk := falsified(t, prop.ForAll(func(s string) bool { return len(s) < 3 }, even))
	if shrunk != "100" {
		t.Errorf("an even number of three digits shrank to %v; want 100", shrunk)
	}
	_, shrunk = falsified(t, prop.ForAll(func(s string) bool { return s == "" }, even))
	if shrunk != "6" {
		t.Errorf("an even number from 6 on shrank to %v; want 6", shrunk)
	}
	_, shrunk = falsified(t, prop.ForAll(func(list []rectangle) bool {
		wide := 0
		for _, r := range list {
			if r.long > 20 {
				wide++
			}
		}
		return wide < 3
	}, gen.SliceOfN(5, rectangles())))
	least := rectangle{1, 21}
	got, ok := shrunk.([]rectangle)
	if !ok {
		t.Fatalf("%T", shrunk)
	}
	wide := 0
	for _, r := range got {
		switch r {
		case least:
			wide++
		case rectangle{1, 1}:
		default:
			t.Errorf("%v could be smaller", r)
		}
	}
	if wide != 3 {
		t.Errorf("shrunk to %v; want three times %v and the rest 1 by 1", got, least)
	}
}

// The shortest list that holds a number of 7 or more is that number alone, and
// one of at least three elements has the least ones beside it.
func TestListsLoseElements(t *testing.T) {
	holds := func(list []int) bool {
		for _, n := range list {
			if n >= 7 {
				return false
			}
		}
		return true
	}
	lengths := map[int]bool{}
	for least, want := range map[int][]int{1: {7}, 3: {2, 2, 7}} {
		_, shrunk := falsified(t, prop.ForAll(func(list []int) bool {
			lengths[len(list)] = true
			return holds(list)
		}, proptest.List(least, 9, gen.IntRange(2, 50))))
		got, _ := shrunk.([]int)
		slices.Sort(got)
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("at least %d (-want +got):\n%s", least, diff)
		}
	}
	lengths = map[int]bool{}
	prop.ForAll(func(list []int) bool {
		lengths[len(list)] = true
		return true
	}, proptest.List(0, 3, gen.Int())).Check(proptest.Parameters(500))
	if want := (map[int]bool{0: true, 1: true, 2: true, 3: true}); !cmp.Equal(want, lengths) {
		t.Errorf("lists of 0 to 3 had the lengths %v", lengths)
	}
}

// The same seed gives the same cases, another one others.
func TestSeeds(t *testing.T) {
	cases := func() string {
		var b strings.Builder
		prop.ForAll(func(r rectangle) bool {
			fmt.Fprint(&b, r)
			return true
		}, rectangles()).Check(proptest.Parameters(50))
		return b.String()
	}
	if first := cases(); first != cases() {
		t.Error("the same seed gave other cases")
	}
	p := proptest.Parameters(1)
	if p.Seed() != proptest.Seed() || p.Seed() == 0 {
		t.Errorf("seed %d; want %d", p.Seed(), proptest.Seed())
	}
	first := p.Rng.Int63()
	p.SetSeed(p.Seed() + 1)
	if p.Rng.Int63() == first {
		t.Error("another seed gave the same numbers")
	}
}

// Cases are 25 at every change, 50 with the tag half and 100 in a whole run; that tag
// and the race detector are what a test does not see.
func TestCases(t *testing.T) {
	got := proptest.Parameters(100).MinSuccessfulTests
	want := 25
	switch {
	case proptest.Long:
		want = 2000
	case proptest.Whole:
		want = 100
	}
	if got != want && got != 10 && (got != 50 || proptest.Whole) {
		t.Errorf("%d cases for 100", got)
	}
	if got := proptest.Cases(3); got < 1 {
		t.Errorf("%d cases for 3", got)
	}
}
