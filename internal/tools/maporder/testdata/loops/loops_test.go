// Package loops has loops over maps, and says of which names in them the order of
// the map decides something.
package loops

import (
	"maps"
	"math/rand"
	"slices"
	"testing"
)

type crew struct{ r *rand.Rand }

func (c *crew) pick(n int) int { return c.r.Intn(n) }

func numbers(r *rand.Rand) func() int { return func() int { return r.Int() } }

func TestLoops(t *testing.T) {
	boats := map[string]int{"pair": 2, "four": 4}
	r := rand.New(rand.NewSource(1))
	for name, seats := range boats {
		t.Log(name, r.Intn(seats)) // order: r draws
	}
	for name := range maps.Keys(boats) {
		t.Run(name, func(t *testing.T) { t.Log(r.Intn(4)) }) // order: r draws
	}
	for _, name := range slices.Sorted(maps.Keys(boats)) {
		t.Log(name, r.Intn(4))
	}
	for name, seats := range boats { // each from its own
		own := rand.New(rand.NewSource(int64(seats)))
		t.Log(name, own.Intn(seats))
	}
	c, seat, next := &crew{r}, func(n int) int { return r.Intn(n) }, numbers(r)
	again := func() int { return seat(3) }
	for _, seats := range boats {
		t.Log(c.pick(seats)) // order: c draws
	}
	for _, seats := range boats {
		t.Log(seat(seats)) // order: seat draws
	}
	for range boats {
		t.Log(again()) // order: again draws
	}
	for range boats {
		t.Log(next()) // order: next draws
	}
	n, sum := 0, 0
	for _, seats := range boats {
		sum += seats
		n++
	}
	for name := range boats {
		if n++; n%2 == 0 { // order: n counts
			t.Log(name, sum)
		}
	}
	t.Log(rand.Intn(7)) // order: rand.Intn has no seed
}
