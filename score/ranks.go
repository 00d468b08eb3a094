package score

import "math/bits"

// A rankSet is a set of places in a stack.
type rankSet []uint64

func newRankSet(n int) rankSet { return make(rankSet, (n+63)/64) }

func (s rankSet) add(r int)    { s[r/64] |= 1 << (r % 64) }
func (s rankSet) remove(r int) { s[r/64] &^= 1 << (r % 64) }

// below returns the highest place in the set below r, -1 if there is none.
func (s rankSet) below(r int) int {
	i := r / 64
	if w := s[i] & (1<<(r%64) - 1); w != 0 {
		return 64*i + bits.Len64(w) - 1
	}
	for i--; i >= 0; i-- {
		if s[i] != 0 {
			return 64*i + bits.Len64(s[i]) - 1
		}
	}
	return -1
}
