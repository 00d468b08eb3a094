package score

import (
	"cmp"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A cutList is one of the lists of a draft that take paper away.
type cutList uint8

const (
	byCutOut cutList = iota
	byNotch
	bySlant
	byTaper // at the beginning of a tab
	byTaperEnd
)

// A cut is what a part of a draft takes away.
type cut struct {
	by    cutList
	exact bool // a rectangle or a triangle, with no rounds
	index int
	box   units.Rect // about all of it
}

// path names the field that is to blame, whole the part of the drawing.
func (c cut) path() string {
	switch c.by {
	case byCutOut:
		return c.whole() + ".area"
	case byTaper, byTaperEnd:
		return c.whole() + ".taper"
	}
	return c.whole()
}

func (c cut) whole() string {
	name := [...]string{byCutOut: "cutouts", byNotch: "notches", bySlant: "slants", byTaper: "tabs", byTaperEnd: "tabs"}
	return check.Index(name[c.by], c.index)
}

// shape returns what is taken away. Those of a sound part are always polygons.
func (c cut) shape(d *Draft) units.Polygon {
	switch c.by {
	case byCutOut:
		return d.CutOuts[c.index].shape()
	case byNotch:
		return d.Notches[c.index].shape(d.Size)
	case bySlant:
		return triangle(d.Slants[c.index].corners(d.Size))
	}
	first, second := d.Tabs[c.index].tapers(d.Size)
	if c.by == byTaper {
		return triangle(first)
	}
	return triangle(second)
}

func triangle(c [3]units.Point) units.Polygon {
	p, _ := units.NewPolygon(c[0], c[1], c[2])
	return p
}

// boxOf returns the box about a triangle whose first corner is a right angle
// along the axes: what the other two span.
func boxOf(c [3]units.Point) units.Rect {
	p, q := c[1], c[2]
	return units.Rect{
		Min: units.Point{X: min(p.X, q.X), Y: min(p.Y, q.Y)},
		Max: units.Point{X: max(p.X, q.X), Y: max(p.Y, q.Y)},
	}
}

// cuts returns what the parts of a draft take away that are sound, from left
// to right.
func cuts(d *Draft, sound func(by cutList, index int) bool) []cut {
	n := len(d.CutOuts) + len(d.Notches) + len(d.Slants)
	for _, t := range d.Tabs {
		if t.Taper > 0 {
			n += 2
		}
	}
	if n == 0 {
		return nil
	}
	all := make([]cut, 0, n)
	for i, c := range d.CutOuts {
		if sound(byCutOut, i) {
			all = append(all, cut{byCutOut, c.Radius == 0, i, c.Area})
		}
	}
	for i, n := range d.Notches {
		if sound(byNotch, i) {
			all = append(all, cut{byNotch, !n.Round, i, n.Area(d.Size)})
		}
	}
	for i, t := range d.Slants {
		if sound(bySlant, i) {
			all = append(all, cut{bySlant, true, i, boxOf(t.corners(d.Size))})
		}
	}
	for i, t := range d.Tabs {
		if t.Taper > 0 && sound(byTaper, i) {
			first, second := t.tapers(d.Size)
			all = append(all, cut{byTaper, true, i, boxOf(first)}, cut{byTaperEnd, true, i, boxOf(second)})
		}
	}
	inorder.Sort(all, func(a, b cut) int { return cmp.Compare(a.box.Min.X, b.box.Min.X) })
	return all
}

// shapes returns what all cuts take away.
func shapes(d *Draft, all []cut) []units.Polygon {
	out := make([]units.Polygon, len(all))
	for i, c := range all {
		out[i] = c.shape(d)
	}
	return out
}

// corners returns how many corners the shape of a cut has, at the most.
func (c cut) corners() int {
	switch {
	case c.by == bySlant, c.by == byTaper, c.by == byTaperEnd:
		return 3
	case c.exact:
		return 4
	case c.by == byNotch:
		return 2*len(sines) - 1
	}
	return 4 * len(sines)
}

// clearlyWhole reports that no cut comes near another one, and that each
// reaches the edge of the sheet in one stretch at most: then the paper stays in
// one piece. Otherwise it may do so too.
func clearlyWhole(size units.Size, all []cut) bool {
	for i, c := range all {
		left, right := c.box.Min.X == 0, c.box.Max.X == size.W
		head, tail := c.box.Min.Y == 0, c.box.Max.Y == size.H
		if left && right || head && tail || !c.exact && (left || right) && (head || tail) {
			return false
		}
		for _, o := range all[i+1:] {
			if o.box.Min.X > c.box.Max.X {
				break
			}
			if o.box.Min.Y <= c.box.Max.Y && c.box.Min.Y <= o.box.Max.Y {
				return false
			}
		}
	}
	return true
}

// order compares the places of two cuts in the lists of a draft.
func order(a, b cut) int {
	switch {
	case a.by != b.by && a.by < b.by:
		return -1
	case a.by != b.by:
		return 1
	}
	return a.index - b.index
}

// share reports whether two cuts share an area. Rounds are taken with the
// corners about them: a blank with so little between two cuts tears.
func share(d *Draft, a, b cut) bool {
	if !a.box.Overlaps(b.box) {
		return false
	}
	if (a.by == byCutOut || a.by == byNotch) && (b.by == byCutOut || b.by == byNotch) {
		return true
	}
	p, q := a.box.Polygon(), b.box.Polygon()
	if a.exact {
		p = a.shape(d)
	}
	if b.exact {
		q = b.shape(d)
	}
	return !apart(p, q) && !apart(q, p)
}

// apart reports whether some edge of p, which is convex, has all of q on its
// outer side: whether a line along it separates the two.
func apart(p, q units.Polygon) bool {
	for a, b := range p.Edges() {
		outside := true
		for _, c := range q.Corners() {
			if turnAt(a, b, c) > 0 {
				outside = false
				break
			}
		}
		if outside {
			return true
		}
	}
	return false
}
