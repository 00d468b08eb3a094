package guide

import (
	"math/rand"
	"testing"

	"boardwrap.example/units"
)

// Figures beside each other are moved by the least sum of squares that gives each its
// room: none overlaps the next, and of those that touch, the first ones would rather
// be further on and the last ones further back, all of them together neither. These
// are the conditions of Karush, Kuhn and Tucker for it, which a convex problem has one
// solution of (Boyd and Vandenberghe, Convex Optimization, 2004, section 5.5.3).
func TestSpreadMovesTheLeast(t *testing.T) {
	rnd := rand.New(rand.NewSource(15))
	touching := 0
	for range 300 {
		var wanted, room []units.Length
		for range 1 + rnd.Intn(9) {
			wanted, room = append(wanted, units.Length(rnd.Intn(40)*1000)), append(room, units.Length(2000*(1+rnd.Intn(6))))
		}
		for i := 1; i < len(wanted); i++ { // in their order
			wanted[i] += wanted[i-1] - min(wanted[i], 25_000)
			wanted[i] = max(wanted[i], wanted[i-1])
		}
		got := append([]units.Length(nil), wanted...)
		spread(got, room)
		slack := units.Length(len(got) + 1) // a pool lies at a whole nanometre
		for i := 0; i < len(got); {
			n := i + 1
			for ; n < len(got) && got[n]-got[n-1] <= (room[n]+room[n-1])/2; n++ {
				touching++
				if got[n]-got[n-1] < (room[n]+room[n-1])/2 {
					t.Fatalf("%v with room %v come to %v: they overlap", wanted, room, got)
				}
			}
			var moved units.Length
			for k := i; k < n; k++ {
				if moved += got[k] - wanted[k]; moved > slack {
					t.Fatalf("%v with room %v come to %v: those up to %d could go less far on", wanted, room, got, k)
				}
			}
			if moved < -slack {
				t.Fatalf("%v with room %v come to %v: those up to %d go back too far", wanted, room, got, n-1)
			}
			i = n
		}
	}
	if touching < 200 {
		t.Errorf("only %d touch", touching)
	}
}
