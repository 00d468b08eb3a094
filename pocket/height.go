package pocket

import (
	"iter"
	"slices"

	"boardwrap.example/units"
)

// A Height says how thick a pocket is at a place of its closed footprint.
// Rectangles of one walk do not overlap; where none lies there is nothing.
type Height struct {
	rect   units.Rect
	layers int
	height units.Length
}

// Rect returns the place in the closed footprint.
func (h Height) Rect() units.Rect { return h.rect }

// Layers returns how many layers of the paper lie there.
func (h Height) Layers() int { return h.layers }

// Height returns how thick it is there: layers times caliper, with mats, walls
// that keep it open, and what is held.
func (h Height) Height() units.Length { return h.height }

// A sheet is a part of the closed pocket before heights are added up: so many
// layers of the paper, or something that is so thick.
type sheet struct {
	rect   units.Rect
	layers int32
	held   bool         // only there when the pocket is full
	thick  units.Length // of a mat, or of an air space that a wall keeps open
}

// height returns how high a sheet is at a place it covers.
func (s *sheet) height(caliper units.Length) units.Length {
	return times(int(s.layers), caliper) + s.thick
}

// cut adds a coordinate to those of other edges, in order and each once.
//
//go:noinline
func cut(all []units.Length, at units.Length) []units.Length {
	i := len(all)
	for i > 0 && all[i-1] > at {
		i--
	}
	if i > 0 && all[i-1] == at {
		return all
	}
	all = append(all, at)
	for j := len(all) - 1; j > i; j-- { // there are few
		all[j] = all[j-1]
	}
	all[i] = at
	return all
}

// A rise is by how much more paper lies, or is held, from an edge on.
type rise struct {
	layers int
	height units.Length
}

// walkCells adds the stack up over the grid of all edges and hands over every
// cell that is not empty, head to foot and left to right.
func walkCells(stack []sheet, caliper units.Length, full bool, yield func(Height) bool) {
	var bufX, bufY [48]units.Length
	var bufR [48]rise
	xs, ys := bufX[:0], bufY[:0]
	for i := range stack {
		if s := &stack[i]; full || !s.held {
			xs, ys = cut(xs, s.rect.Min.X), cut(ys, s.rect.Min.Y)
			xs, ys = cut(xs, s.rect.Max.X), cut(ys, s.rect.Max.Y)
		}
	}
	row := bufR[:0] // what begins (or, below 0, ends) at each x
	if len(xs) > len(bufR) {
		row = make([]rise, 0, len(xs))
	}
	for j := 1; j < len(ys); j++ {
		row = row[:len(xs)]
		clear(row)
		for i := range stack {
			s := &stack[i]
			if s.held && !full || s.rect.Empty() || s.rect.Min.Y > ys[j-1] || s.rect.Max.Y < ys[j] {
				continue
			}
			from, _ := slices.BinarySearch(xs, s.rect.Min.X)
			to, _ := slices.BinarySearch(xs, s.rect.Max.X)
			h := s.height(caliper)
			row[from].layers += int(s.layers)
			row[from].height += h
			row[to].layers -= int(s.layers)
			row[to].height -= h
		}
		var h Height
		for i := 1; i < len(xs); i++ {
			h.layers += row[i-1].layers
			h.height += row[i-1].height
			h.rect = units.Rect{Min: units.Point{X: xs[i-1], Y: ys[j-1]}, Max: units.Point{X: xs[i], Y: ys[j]}}
			if (h.layers > 0 || h.height > 0) && !yield(h) {
				return
			}
		}
	}
}

// greatest returns the greatest height of the stack.
func greatest(stack []sheet, caliper units.Length, full bool) units.Length {
	// No place is higher than all of it together, and one that lies under all is
	// so high.
	var sum, most units.Length
	under, any := units.Rect{}, false
	for i := range stack {
		s := &stack[i]
		if s.rect.Empty() || s.held && !full {
			continue
		}
		sum += s.height(caliper)
		if !any {
			under, any = s.rect, true
		}
		under = under.Intersect(s.rect)
	}
	if !under.Empty() {
		return sum
	}
	walkCells(stack, caliper, full, func(h Height) bool {
		most = max(most, h.height)
		return true
	})
	return most
}

// Heights walks the heights over the closed footprint, empty or full, head to
// foot and left to right, for the check whether a folio closes over them.
// Where paper runs slantwise (a corner pocket) the rectangles are the ones
// that hold it.
func (d Design) Heights(full bool) iter.Seq[Height] {
	w := d.of()
	return func(yield func(Height) bool) { w.heights(full, yield) }
}

// heights walks what [Design.Heights] does.
func (d *design) heights(full bool, yield func(Height) bool) {
	var room [16]Height
	rows := room[:0] // finished rectangles of the row above, then of this one
	above := 0
	flush := func(list []Height) bool {
		for _, h := range list {
			if !yield(h) {
				return false
			}
		}
		return true
	}
	// Cells come row by row. Neighbours in a row that agree become one;
	// a row that agrees with the one above it grows that one downwards.
	settle := func() bool {
		row := rows[above:]
		if sameRow(rows[:above], row) {
			for i := range row {
				rows[i].rect.Max.Y = row[i].rect.Max.Y
			}
			rows = rows[:above]
			return true
		}
		if !flush(rows[:above]) {
			return false
		}
		rows = append(rows[:0], row...)
		above = len(rows)
		return true
	}
	stopped := false
	walkCells(d.stack, d.paper.Caliper, full, func(h Height) bool {
		if n := len(rows); n > above {
			last := &rows[n-1]
			switch {
			case last.rect.Min.Y != h.rect.Min.Y:
				if !settle() {
					stopped = true
					return false
				}
			case last.layers == h.layers && last.height == h.height && last.rect.Max.X == h.rect.Min.X:
				last.rect.Max.X = h.rect.Max.X
				return true
			}
		}
		rows = append(rows, h)
		return true
	})
	if !stopped && (len(rows) == above || settle()) {
		flush(rows)
	}
}

// Filling walks what lies there only when the pocket is full, part by part:
// contents in their places, and the room that lands keep open. Parts may lie
// over each other, and their heights add to those of Heights(false).
func (d Design) Filling() iter.Seq[Height] {
	w := d.of()
	return func(yield func(Height) bool) {
		for i := range w.stack {
			s := &w.stack[i]
			if s.held && !s.rect.Empty() && !yield(Height{rect: s.rect, layers: int(s.layers), height: s.height(w.paper.Caliper)}) {
				return
			}
		}
	}
}

// sameRow reports whether the row b lies right under a and says the same.
func sameRow(a, b []Height) bool {
	return slices.EqualFunc(a, b, func(p, q Height) bool {
		return p.layers == q.layers && p.height == q.height && p.rect.Max.Y == q.rect.Min.Y &&
			p.rect.Min.X == q.rect.Min.X && p.rect.Max.X == q.rect.Max.X
	})
}
