package guide

import (
	"math/rand/v2"
	"testing"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
)

// A part of a template is printed where some point of a line lies on it, its own left and
// upper edge counted in and the others left to the next part: of lines along the axes, open
// and shut, that is found point by point.
func TestPartsThatAreDrawnOn(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 21))
	at := func() units.Length { return units.Length(r.IntN(7)) }
	met, not, open := 0, 0, 0
	for range proptest.Cases(2000) {
		a, b := units.Point{X: at(), Y: at()}, units.Point{X: at(), Y: at()}
		l := trace{points: []units.Point{a, {X: b.X, Y: a.Y}, b, {X: a.X, Y: b.Y}}, shut: r.IntN(2) == 0}
		points := l.points
		if l.shut {
			points = append(points[:4:4], a)
		}
		part := units.RectAt(units.Point{X: at(), Y: at()}, units.Size{W: 1 + at(), H: 1 + at()})
		want := false
		for i := 1; i < len(points); i++ {
			from, to := points[i-1], points[i]
			for x := min(from.X, to.X); x <= max(from.X, to.X); x++ {
				for y := min(from.Y, to.Y); y <= max(from.Y, to.Y); y++ {
					want = want || part.Min.X <= x && x < part.Max.X && part.Min.Y <= y && y < part.Max.Y
				}
			}
		}
		tp := template{lines: []trace{l}}
		if got := tp.meets(part); got != want {
			t.Fatalf("%+v on %v: %t, want %t", l, part, got, want)
		}
		switch {
		case want:
			met++
		case l.shut:
			not++
		default:
			open++
		}
	}
	if least := proptest.Cases(2000) / 20; met < least || not < least || open < least {
		t.Errorf("%d parts are drawn on, %d and %d are not", met, not, open)
	}
}

// Parts are told apart by their column and row, as far as there are several.
func TestNamesOfParts(t *testing.T) {
	for want, at := range map[string][4]int{
		"strip":                               {0, 0, 1, 1},
		"strip: part 2 of 3":                  {1, 0, 3, 1},
		"strip: part 3 of 4":                  {0, 2, 1, 4},
		"strip: column 2 of 3, row 4 of 5":    {1, 3, 3, 5},
		"strip: column 12 of 12, row 1 of 20": {11, 0, 12, 20},
	} {
		if got := partName("strip", at[0], at[1], at[2], at[3]); got != want {
			t.Errorf("%v: %q, want %q", at, got, want)
		}
	}
}
