package cutorder

import "testing"

// A set has what was put into it and nothing else, over the edge of a word too.
func TestSetHasWhatWasPut(t *testing.T) {
	const most = 130
	for put := range most {
		s := make(set, most/64+1)
		s.put(put)
		for i := range most {
			if s.has(i) != (i == put) {
				t.Fatalf("with %d in it: has %d %t", put, i, s.has(i))
			}
		}
		other := make(set, len(s))
		if s.meets(other) || s.count() != 1 {
			t.Fatalf("with %d in it: %d, meets none %t", put, s.count(), s.meets(other))
		}
		if other.join(s); !other.meets(s) || !other.has(put) {
			t.Fatalf("%d is lost", put)
		}
	}
}
