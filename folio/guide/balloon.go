package guide

import "boardwrap.example/units"

// A balloon is a number in a circle that stands beside a line.
type balloon struct {
	s    string
	line []units.Point
}

// number puts the balloons into place, each beside its line with a short leader
// to it; those without room go to the notes.
func (f *figure) number() {
	radius, away := f.pen.em(900), f.pen.em(1250)
	for _, b := range f.balloons {
		from, to := b.line[0], b.line[1]
		upright := from.X == to.X
		placed := false
	search:
		for _, share := range [...]int64{2, 14, 4, 12, 1, 15, 6, 10, 8, 3, 13, 5, 11, 7, 9} {
			x, _ := (to.X - from.X).Scale(share, 16, units.Down)
			y, _ := (to.Y - from.Y).Scale(share, 16, units.Down)
			on := from.Plus(units.Point{X: x, Y: y})
			for _, d := range [...]units.Length{-away, away} {
				middle, near := on, on
				if upright {
					middle.X += d
					near.X += d - d.Clamp(-radius, radius)
				} else {
					middle.Y += d
					near.Y += d - d.Clamp(-radius, radius)
				}
				ring := units.Rect{Min: units.Point{X: middle.X - radius, Y: middle.Y - radius}, Max: units.Point{X: middle.X + radius, Y: middle.Y + radius}}
				if !ring.In(f.all) || !f.free(ring) {
					continue
				}
				f.aid(on, near)
				f.mark(middle, radius, true)
				f.write(text{s: b.s, at: units.Point{X: middle.X, Y: middle.Y + f.pen.em((rise-drop)/2)}, of: nothing})
				placed = true
				break search
			}
		}
		if !placed {
			f.notes = append(f.notes, "cut "+b.s)
		}
	}
	f.balloons = nil
}
