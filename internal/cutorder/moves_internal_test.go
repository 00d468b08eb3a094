package cutorder

import (
	"slices"
	"testing"
)

// Two sets together are what is in either, in order and once, and each is part of that.
func TestUnion(t *testing.T) {
	of := func(bits int) (list []int32) {
		for i := range int32(5) {
			if bits>>i&1 > 0 {
				list = append(list, i)
			}
		}
		return list
	}
	for a := range 1 << 5 {
		for b := range 1 << 5 {
			if got := union(of(a), of(b)); !slices.Equal(got, of(a|b)) {
				t.Errorf("%v and %v: %v", of(a), of(b), got)
			}
			if got := subset(of(a), of(b)); got != (a&^b == 0) {
				t.Errorf("%v is part of %v: %t", of(a), of(b), got)
			}
		}
	}
}
