package packing

// rng is the xorshift64* generator (Vigna, ACM TOMS 42, 2016). Its seed is
// fixed, so that the same input gives the same answer.
type rng uint64

func (r *rng) next() uint64 {
	x := uint64(*r)
	x ^= x >> 12
	x ^= x << 25
	x ^= x >> 27
	*r = rng(x)
	return x * 0x2545F4914F6CDD1D
}

// below returns a number from 0 to n−1; n is at least 1.
//
//go:noinline
func (r *rng) below(n int) int {
	return int((r.next() >> 33) % uint64(n))
}

// chance is true in a of b cases.
func (r *rng) chance(a, b int) bool { return r.below(b) < a }
