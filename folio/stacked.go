package folio

import (
	"cmp"
	"slices"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
)

// stacked adds what stands on things that stand on one spine, or on its turn-ins:
// every height by itself, and, where several lie over each other, the sum at each place. With
// many of them the greatest sum over a thing counts for all of it, so that what
// is said to close does.
func stacked(list []Height) []Height {
	var out []Height
	for _, h := range list {
		if !h.TurnIn() {
			out = append(out, h)
		}
	}
	if len(out) == 0 {
		return nil // nothing but turn-ins
	}
	for from := range list {
		panel := list[from].panel
		if slices.ContainsFunc(list[:from], func(h Height) bool { return h.panel == panel }) {
			continue // the spine has had its turn
		}
		var on []Height
		for _, h := range list[from:] {
			if h.panel == panel {
				on = append(on, h)
			}
		}
		if len(on) <= manyOnSpine {
			out = sums(out, on)
		} else {
			out = greatestSums(out, on)
		}
	}
	return out
}

// manyOnSpine is the number of things on one spine up to which each place is
// looked at.
const manyOnSpine = 16

// sums appends the sum at each place of a spine where at least two things lie
// over each other. The edges of all of them cut the spine into places.
func sums(out, on []Height) []Height {
	var xs, ys []units.Length
	for _, h := range on {
		xs = append(xs, h.rect.Min.X, h.rect.Max.X)
		ys = append(ys, h.rect.Min.Y, h.rect.Max.Y)
	}
	inorder.Sort(xs, cmp.Compare)
	inorder.Sort(ys, cmp.Compare)
	xs, ys = slices.Compact(xs), slices.Compact(ys)
	for i := range len(xs) - 1 {
		for j := range len(ys) - 1 {
			place := units.Rect{Min: units.Point{X: xs[i], Y: ys[j]}, Max: units.Point{X: xs[i+1], Y: ys[j+1]}}
			sum, n := Height{rect: place, fitting: ofTurnIns}, 0
			for _, h := range on {
				if place.In(h.rect) {
					sum.fitting, sum.panel, sum.outside, sum.height = max(sum.fitting, h.fitting), h.panel, h.outside, sum.height+h.height
					n++
				}
			}
			if n > 1 && !sum.TurnIn() {
				out = append(out, sum)
			}
		}
	}
	return out
}

// greatestSums appends, for each thing that others lie over, the greatest sum
// anywhere over it.
func greatestSums(out, on []Height) []Height {
	var buf [manyOnSpine]cell
	for i := range on {
		h, over := on[i], buf[:0]
		if h.TurnIn() {
			continue
		}
		for j := range on {
			o := &on[j]
			if r := o.rect.Intersect(h.rect); !r.Empty() {
				over = append(over, cell{r, o.height, o.fitting})
			}
		}
		if sum, _ := greatest(over); sum > h.height {
			h.height = sum
			out = append(out, h)
		}
	}
	return out
}
