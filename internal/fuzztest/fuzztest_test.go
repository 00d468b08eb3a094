package fuzztest_test

import (
	"fmt"
	"iter"
	"math/rand"
	"strings"
	"testing"

	"boardwrap.example/internal/fuzztest"
)

// A boat breaks in every way that the caller has to notice, somewhere.
type boat struct {
	Name string
	Oars []int
	Cox  bool
}

func (b boat) Stroke() int { return b.Oars[2] } // panics for fewer

func (b boat) Sign() string { return ("boat " + b.Name)[:5+min(1, len(b.Name))] } // half a letter

type crew struct{ n int64 }

func newCrew(n int64) (crew, error) {
	if n < 0 {
		return crew{}, fmt.Errorf("no crew of %d", n)
	}
	return crew{n}, nil
}

func (c crew) Boats() iter.Seq2[int, launch] {
	return func(yield func(int, launch) bool) {
		for i := 0; yield(i, launch{}); i++ { // without end
		}
	}
}

type launch struct{}

func (launch) Say() string { return "\xff" }

// recorder is a test that fails without ending.
type recorder struct {
	testing.TB
	said []string
}

func (r *recorder) Helper()                   {}
func (r *recorder) Errorf(f string, a ...any) { r.said = append(r.said, fmt.Sprintf(f, a...)) }
func (r *recorder) Fatalf(f string, a ...any) { r.Errorf(f, a...) }

func run(seed int64, functions ...any) string {
	data := make([]byte, 300)
	rand.New(rand.NewSource(seed)).Read(data)
	r := &recorder{}
	fuzztest.Call(r, data, functions...)
	return strings.Join(r.said, "\n")
}

func TestCallNotices(t *testing.T) {
	wants := []string{"boat.Stroke([]) panics", "boat.Sign([]) says", `launch.Say([]) says "\xff"`}
	noticed := make([]int, len(wants))
	for seed := range int64(200) {
		s := run(seed, func(b boat) boat { return b }, newCrew)
		for i, want := range wants {
			if strings.Contains(s, want) {
				noticed[i]++
			}
		}
	}
	for i, want := range wants {
		if noticed[i] < 10 {
			t.Errorf("%q is noticed %d times", want, noticed[i])
		}
	}
	for seed := range int64(50) {
		if s := run(seed, func() {}, newCrew, func(int) int { return 1 }, func(f func()) { f() }); strings.Contains(s, "panics") {
			t.Errorf("sound functions: %s", s)
		}
	}
}

func TestSameDataSameCalls(t *testing.T) {
	for seed := range int64(50) {
		if a, b := run(seed, boat{}, newCrew), run(seed, boat{}, newCrew); a != b {
			t.Errorf("%s\nthen\n%s", a, b)
		}
	}
}

// Of this package itself, Call is called and Except is filled; what is left out is
// named.
func TestComplete(t *testing.T) {
	r := &recorder{}
	fuzztest.Complete(r, ".", fuzztest.Call, fuzztest.Everything, fuzztest.Except{Name: "Complete", Because: "it is asked"})
	if said := strings.Join(r.said, "\n"); len(r.said) != 2 || !strings.Contains(said, "Choice of fuzztest.go") || !strings.Contains(said, "Except of fuzztest.go") {
		t.Errorf("%q", r.said)
	}
	r = &recorder{}
	fuzztest.Complete(r, ".", fuzztest.Call, fuzztest.Everything, fuzztest.Complete, func(fuzztest.Choice, []fuzztest.Except) {})
	if len(r.said) != 0 {
		t.Errorf("%q", r.said)
	}
	// A method that only breaks where nothing was given is one that callers meet.
	fuzztest.Complete(r, ".", fuzztest.Call, fuzztest.Everything, fuzztest.Complete, func(fuzztest.Choice, []fuzztest.Except) {}, boat{}, newCrew)
	if len(r.said) != 1 || !strings.Contains(r.said[0], "Stroke of the zero fuzztest_test.boat panics") {
		t.Errorf("%q", r.said)
	}
}

// An interface is filled with its choices, and what has choices is one of them; a
// pointer is now and then nil, or one to nothing that was made.
func TestChoices(t *testing.T) {
	type rower interface{ Stroke() int }
	rowed, given := map[string]bool{}, map[*crew]bool{}
	two := []*crew{{1}, {2}}
	for seed := range int64(100) {
		data := make([]byte, 50)
		rand.New(rand.NewSource(seed)).Read(data)
		functions := append(fuzztest.Choices[rower](single{}, double{}), fuzztest.Choices(two...)...)
		fuzztest.Call(t, data, append(functions, func(r rower, c *crew) {
			rowed[fmt.Sprintf("%T", r)], given[c] = true, true
		})...)
	}
	empty := false
	for c := range given {
		empty = empty || c != nil && *c == crew{}
	}
	if len(rowed) != 2 || !given[two[0]] || !given[two[1]] || !given[nil] || !empty {
		t.Errorf("%v, %v", rowed, given)
	}
}

type single struct{ Oars int }

func (s single) Stroke() int { return s.Oars }

type double struct{ Oars [2]int }

func (d double) Stroke() int { return d.Oars[0] }
