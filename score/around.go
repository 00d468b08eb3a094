package score

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// An Around is what a fold goes round, and whether one score will do for it. It is
// plain data.
type Around struct {
	Score  int           // the score that is folded
	Layers int           // layers between the fold's two panels, where there are most
	Stack  units.Length  // how thick what lies between them is, where it is thickest
	Apart  units.Working // how far apart two scores are to stand: [DoubleScore]
	Double bool          // whether two scores are needed
}

// Around returns for every fold, in the order of the scores, what lies between
// its two panels: layers of the caliper and enclosures. What ends short of the
// fold counts too, as a panel that is a tuck narrower does, because the fold
// has to reach round it. Two scores stand in place of one where [DoubleScore]
// says so, Apart rounded up on the ruler. The error lists what is wrong with
// the caliper, the ruler and the enclosures.
func (f Folding) Around(caliper units.Length, r units.Ruler, inserts ...Enclosure) ([]Around, error) {
	var list check.List
	list.Length("caliper", caliper)
	checkRuler(&list, "ruler", r)
	f.checkInserts(&list, inserts)
	if err := list.Err(); err != nil {
		return nil, err
	}
	var out []Around
	var held []change
	for s := range f.strip.folds {
		if f.Flat(s) {
			continue
		}
		a := Around{Score: s}
		a.Layers, a.Stack = f.between(&held, s, caliper, inserts)
		a.Apart, a.Double = DoubleScore(a.Stack, caliper, r)
		out = append(out, a)
	}
	return out, nil
}

// between returns the most layers and the thickest stack between the panels of
// a score. Held is room to work in.
func (f *Folding) between(room *[]change, s int, caliper units.Length, inserts []Enclosure) (layers int, stack units.Length) {
	low, high := f.rank[s], f.rank[s+1]
	if low > high {
		low, high = high, low
	}
	held := (*room)[:0]
	for _, p := range f.order[low+1 : high] {
		from, to := f.Span(p)
		held = append(held, change{from, 1, 0, caliper}, change{to, -1, 0, -caliper})
	}
	for _, c := range inserts {
		// An enclosure on the upper side lies over its panel, on the lower side
		// under it.
		over := f.up[c.Panel] == (c.Side == Face)
		if at := f.rank[c.Panel]; over && low <= at && at < high || !over && low < at && at <= high {
			from, to := f.spanOf(c)
			held = append(held, change{from, 0, 1, c.Thickness}, change{to, 0, -1, -c.Thickness})
		}
	}
	// Only over the stretch that both panels cover.
	a0, a1 := f.Span(s)
	b0, b1 := f.Span(s + 1)
	from, to := max(a0, b0), min(a1, b1)
	eachRise(held, func(r Rise) {
		if max(r.From, from) < min(r.To, to) {
			layers, stack = max(layers, r.Layers), max(stack, r.Height)
		}
	})
	*room = held
	return layers, stack
}
