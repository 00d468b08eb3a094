package planetest_test

import (
	"testing"

	"boardwrap.example/internal/planetest"
)

type vec = planetest.Vec

func TestOverlap(t *testing.T) {
	square := []vec{{X: 0, Y: 0}, {X: 2, Y: 0}, {X: 2, Y: 2}, {X: 0, Y: 2}}
	for name, c := range map[string]struct {
		other []vec
		want  bool
	}{
		"beside it":            {[]vec{{X: 3, Y: 0}, {X: 4, Y: 0}, {X: 4, Y: 2}}, false},
		"touching an edge":     {[]vec{{X: 2, Y: 0}, {X: 4, Y: 0}, {X: 4, Y: 2}, {X: 2, Y: 2}}, false},
		"inside it":            {[]vec{{X: 0.5, Y: 0.5}, {X: 1, Y: 0.5}, {X: 1, Y: 1}}, true},
		"over its corner":      {[]vec{{X: 1.5, Y: 1.5}, {X: 3, Y: 1.5}, {X: 3, Y: 3}, {X: 1.5, Y: 3}}, true},
		"askew off its corner": {[]vec{{X: 3, Y: 1.2}, {X: 4, Y: 2.2}, {X: 3, Y: 3.2}, {X: 2.1, Y: 2.2}}, false},
		"itself":               {square, true},
	} {
		if got := planetest.Overlap(square, c.other); got != c.want || planetest.Overlap(c.other, square) != c.want {
			t.Errorf("%s: overlaps %t, want %t", name, got, c.want)
		}
	}
}
