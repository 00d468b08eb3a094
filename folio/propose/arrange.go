package propose

import (
	"cmp"

	"boardwrap.example/folio/place"
	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
)

// arrange lays the boards of a candidate out: of two that are alike the thicker
// half on the one that lies on the table.
func (s *searcher) arrange(opts []option, c *candidate, panels []units.Size) []laid {
	parts := c.parts
	if len(parts) == 2 && s.leaves[0].like(&s.leaves[1]) {
		table, other := parts[s.main], parts[1-s.main]
		if table == nil || other != nil && !s.request.Taste.Anyhow && bulk(other, opts) > bulk(table, opts) {
			parts = []*shape{parts[1], parts[0]}
		}
	}
	var all []laid
	for i, part := range parts {
		if part == nil {
			continue
		}
		a := arranger{s: s, opts: opts, leaf: i}
		spare := panels[i].Plus(-part.w, -part.h)
		at := units.Point{X: s.middle(spare.W), Y: s.middle(spare.H)}
		a.put(part, at)
		a.spread(part, panels[i])
		a.touch()
		// What others lie in line with is a fitting before them.
		leads := func(l laid) int {
			if l.by[0].how == inLineWith || l.by[1].how == inLineWith {
				return 1
			}
			return 0
		}
		inorder.Sort(a.all, func(a, b laid) int {
			return cmp.Or(leads(a)-leads(b), cmp.Compare(a.at.Y, b.at.Y), cmp.Compare(a.at.X, b.at.X))
		})
		a.inTurn()
		all = append(all, a.all...)
	}
	return all
}

// inTurn lets what would lie evenly lie as far from the middle instead, where it is
// told of in another order than it lies in: evenly what is told of first lies first.
func (a *arranger) inTurn() {
	for axis := range 2 {
		var last units.Length
		turned := false
		for i := range a.all {
			if l := &a.all[i]; l.by[axis].how == evenly {
				at := *coordinate(&l.at, axis == 1)
				turned, last = turned || at < last, at
			}
		}
		for i := range a.all {
			if turned && a.all[i].by[axis].how == evenly {
				a.all[i].by[axis] = inLine{}
			}
		}
	}
}

// touch lets what may touch follow a neighbour instead of the middle of the board: on
// another cover two middles may be rounded a step towards each other.
func (a *arranger) touch() {
	if a.s.between >= a.s.fitting.Step() {
		return
	}
	for axis, near := range [...]place.Align{place.Left, place.Head} {
		for k := range a.all {
			l, of := &a.all[k], 0
			if row := l.by[1-axis]; row.how == inLineWith {
				of = row.of
			} else if row.how == evenly {
				of = k
			}
			to := &a.all[of]
			if of == k || l.by[axis].how != fromMiddle || to.by[axis].how != fromMiddle {
				continue
			}
			l.by[axis] = inLine{how: inLineWith, of: of, align: near, off: *coordinate(&l.at, axis == 1) - *coordinate(&to.at, axis == 1)}
		}
	}
}
