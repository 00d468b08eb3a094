package score

import (
	"math/rand"
	"testing"
)

// A set of places in a stack says of each place which of the others is the next
// below it, as looking at one after the other does.
func TestRankSets(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for _, n := range []int{1, 2, 63, 64, 65, 127, 128, 129, 200} {
		s, has := newRankSet(n), make([]bool, n)
		for range 4 * n {
			p := r.Intn(n)
			if has[p] = !has[p]; has[p] {
				s.add(p)
			} else {
				s.remove(p)
			}
			at := r.Intn(n)
			want := at - 1
			for want >= 0 && !has[want] {
				want--
			}
			if got := s.below(at); got != want {
				t.Fatalf("of %d, below %d: %d; want %d", n, at, got, want)
			}
		}
	}
}
