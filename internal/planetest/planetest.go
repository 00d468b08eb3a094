// Package planetest tells whether convex shapes in a plane share an area, in floating
// point, for tests that find out anew what others work out exactly.
package planetest

import "math"

// A Vec is a place or a way in the plane.
type Vec struct{ X, Y float64 }

// apartOn reports whether a line along one edge of a separates it from b.
func apartOn(a, b []Vec) bool {
	for i := range a {
		j := (i + 1) % len(a)
		nx, ny := a[j].Y-a[i].Y, a[i].X-a[j].X
		span := func(p []Vec) (low, high float64) {
			low, high = math.Inf(1), math.Inf(-1)
			for _, v := range p {
				d := v.X*nx + v.Y*ny
				low, high = min(low, d), max(high, d)
			}
			return low, high
		}
		la, ha := span(a)
		lb, hb := span(b)
		if ha <= lb || hb <= la {
			return true
		}
	}
	return false
}

// Overlap reports whether two convex polygons share an area; touching is none.
func Overlap(a, b []Vec) bool { return !apartOn(a, b) && !apartOn(b, a) }
