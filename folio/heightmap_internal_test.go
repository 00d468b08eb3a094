package folio

import (
	"math/rand/v2"
	"testing"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
)

// greatestByGrid tries every unit square.
func greatestByGrid(cells []cell, side int) units.Length {
	most := units.Length(0)
	for x := range side {
		for y := range side {
			sum := units.Length(0)
			for _, c := range cells {
				r := c.rect
				if int64(r.Min.X) <= int64(x) && int64(x) < int64(r.Max.X) && int64(r.Min.Y) <= int64(y) && int64(y) < int64(r.Max.Y) {
					sum += c.height
				}
			}
			most = max(most, sum)
		}
	}
	return most
}

// Both ways to find the greatest sum agree with trying every square, and the
// place that they name has that sum all over.
func TestGreatestByGrid(t *testing.T) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 3))
	const side = 24
	for trial := range 2400 {
		cells := make([]cell, r.IntN(few+12))
		for i := range cells {
			x, y := r.Int64N(side), r.Int64N(side)
			at := units.Point{X: units.Nanometre * units.Length(x), Y: units.Nanometre * units.Length(y)}
			size := units.Size{W: units.Length(1 + r.Int64N(side-x)), H: units.Length(1 + r.Int64N(side-y))}
			cells[i] = cell{units.RectAt(at, size), units.Length(1 + r.IntN(5)), i}
		}
		want := greatestByGrid(cells, side)
		few, at := greatestOfFew(cells)
		many, at2 := sweep(cells)
		got, place := greatest(cells)
		if few != want || many != want || got != want {
			t.Fatalf("trial %d: %d cells: few %d, sweep %d, greatest %d, want %d", trial, len(cells), few, many, got, want)
		}
		if at != at2 {
			t.Fatalf("trial %d: the two name different places, %v and %v", trial, at, at2)
		}
		if len(cells) == 0 {
			if place != (units.Rect{}) {
				t.Fatalf("a place without cells: %v", place)
			}
			continue
		}
		if place.Empty() {
			t.Fatalf("trial %d: empty place", trial)
		}
		for x := place.Min.X; x < place.Max.X; x++ {
			for y := place.Min.Y; y < place.Max.Y; y++ {
				sum := units.Length(0)
				for i := range cells {
					if cells[i].over(units.Point{X: x, Y: y}) {
						sum += cells[i].height
					}
				}
				if sum != want {
					t.Fatalf("trial %d: at (%d, %d) of the place the sum is %d, want %d", trial, x, y, sum, want)
				}
			}
		}
	}
}

// With any number of edges on the way from head to tail the sweep finds the one place where
// two lie over each other: cells one below the other, of which one reaches into the next.
func TestSweepOfAnyNumber(t *testing.T) {
	for n := 1; n <= 140; n++ {
		for _, at := range []int{0, n / 2, n - 1} {
			var cells []cell
			for i := range n {
				y := units.Length(i) * 10
				c := cell{rect: units.Rect{Min: units.Point{Y: y}, Max: units.Point{X: 10, Y: y + 10}}, height: 1}
				if i == at {
					c.rect.Max.Y += 3
				}
				cells = append(cells, c)
			}
			want, y := units.Length(2), units.Length(at+1)*10
			if at == n-1 {
				want, y = 1, 0
			}
			if most, place := sweep(cells); most != want || place.Y != y {
				t.Fatalf("%d cells, cell %d reaches further: %v at %v, want %v at %v", n, at, most, place, want, y)
			}
		}
	}
}
