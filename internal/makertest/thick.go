package makertest

import (
	"fmt"
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// thick returns how thick a pocket by itself is where it is thickest, empty or
// filled: at each place all that lies there, one on another, and the way that walls
// keep open beyond that. Slid, what is put in counts in all of its place.
func (t *table) thick(full, slid bool) units.Length {
	var pile []*facet
	var xs, ys []units.Length
	var widest, most units.Length
	for _, f := range t.under.body.stack {
		if f.stands || f.of == t.under || f.of.kind == work.Content && !full {
			continue
		}
		if slid && f.of.kind == work.Content {
			moved := *f
			moved.shape = append(rectRegion(t.other(f.of).Room.Moved(t.home())), f.shape...)
			f = &moved
		}
		pile, widest = append(pile, f), max(widest, f.shape.rect().Size().W)
		for _, p := range f.shape {
			for _, v := range p {
				xs, ys = append(xs, units.Length(v.x)), append(ys, units.Length(v.y))
			}
		}
	}
	if t.job.Upright {
		return widest
	}
	walls := t.walls(pile)
	calipers := make([]units.Length, len(pile))
	ys = places(ys)
	for _, x := range places(xs) {
		for _, y := range ys {
			most = max(most, thickAt(vec{float64(x), float64(y)}, pile, walls, calipers))
		}
	}
	return most
}

// places returns two places in each stretch between edges, a little inside its ends:
// what a slanting edge cuts off from a rectangle holds one of its corners.
func places(edges []units.Length) []units.Length {
	slices.Sort(edges)
	edges = slices.Compact(edges)
	var all []units.Length
	for i := 1; i < len(edges); i++ {
		in := min(units.Micrometre, (edges[i]-edges[i-1])/4)
		all = append(all, edges[i-1]+in, edges[i]-in)
	}
	return all
}

// thickAt returns how thick a pile is at a place. It fills in what each part of it
// adds there.
func thickAt(at vec, pile []*facet, walls []wall, calipers []units.Length) units.Length {
	var sum units.Length
	for k, f := range pile {
		calipers[k] = 0
		if f.shape.holds(at) {
			calipers[k] = f.of.thickness()
		}
		sum += calipers[k]
	}
	for _, w := range walls {
		if !pile[w.low].shape.holds(at) || !pile[w.high].shape.holds(at) {
			continue
		}
		open := w.height
		for _, c := range calipers[w.low+1 : w.high] {
			open -= c
		}
		sum += max(0, open)
	}
	return sum
}

// thickness returns how thick a paper is, and all that lies in one place of what is put
// in.
func (p *paper) thickness() units.Length {
	if p.plan != nil {
		return p.plan.Caliper
	}
	return p.caliper
}

// A wall stands between two layers of a pile.
type wall struct {
	low, high int
	height    units.Length
}

// walls returns what stands and keeps layers apart. One wall alone leans over, as that
// of a flap; those of several papers hold each other.
func (t *table) walls(pile []*facet) []wall {
	var all []wall
	var papers []*paper
	for _, f := range t.under.body.stack {
		if !f.stands {
			continue
		}
		var ends []int
		height := f.area.rect().Size().W
		for _, c := range f.of.creases {
			other := c.a
			if c.a == f {
				other = c.b
			} else if c.b != f {
				continue
			}
			if i := slices.Index(pile, other); i >= 0 && c.real() {
				ends = append(ends, i)
			}
		}
		if len(ends) != 2 {
			continue
		}
		slices.Sort(ends)
		all = append(all, wall{ends[0], ends[1], height})
		if !slices.Contains(papers, f.of) {
			papers = append(papers, f.of)
		}
	}
	if len(papers) < 2 {
		return nil
	}
	return all
}

// holds reports whether a place lies within a region.
func (r region) holds(at vec) bool {
	return slices.ContainsFunc(r, func(p poly) bool {
		for i, v := range p {
			if cross(v, p[(i+1)%len(p)], at) < 0 {
				return false
			}
		}
		return true
	})
}

// asThick objects where the closed pocket is another thickness than planned: empty, and
// filled with what it holds where that lies, or may lie.
func (t *table) asThick() error {
	if got := t.thick(false, false); t.job.Empty > 0 && got != t.job.Empty {
		return fmt.Errorf("closed and empty it is %v thick; planned %v", got, t.job.Empty)
	}
	if t.job.Full == 0 {
		return nil
	}
	if least, most := t.thick(true, false), t.thick(true, true); t.job.Full < least || t.job.Full > most {
		return fmt.Errorf("closed and filled it is %v thick, or up to %v; planned %v", least, most, t.job.Full)
	}
	return nil
}
