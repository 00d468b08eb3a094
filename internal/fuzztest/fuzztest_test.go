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
