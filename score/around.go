package score

import (
	"slices"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// An Around is what a fold goes round, and whether one score will do for it.
type Around struct {
	Score  int           // the score that is folded
	Layers int           // layers between the fold's two panels, where there are most
	Stack  units.Length  // how thick what lies between them is, where it is thickest
	Apart  units.Working // how far apart two scores are to stand: [DoubleScore]
	Double bool          // whether two scores are needed
}

// Around returns for every fold, in the order of the scores, what lies between
// its two panels: layers of the caliper and inserts. What ends short of the
// fold counts too, as a panel that is a tuck narrower does, because the fold
// has to reach round it. Two scores stand in place of one where [DoubleScore]
// says so, Apart rounded up on the ruler. The error lists what is wrong with
// the caliper, the ruler and the inserts.
func (f Folded) Around(caliper units.Length, r units.Ruler, inserts ...Insert) ([]Around, error) {
	var list check.List
	list.Length("caliper", caliper)
	checkRuler(&list, "ruler", r)
	f.checkInserts(&list, inserts)
	if err := list.Err(); err != nil {
		return nil, err
	}
	var out []Around
	for s := range f.strip.folds {
		if f.Flat(s) {
			continue
		}
		a := Around{Score: s}
		a.Layers, a.Stack = f.between(s, caliper, inserts)
		a.Apart, a.Double = DoubleScore(a.Stack, caliper, r)
		out = append(out, a)
	}
	return out, nil
}

// between returns the most layers and the thickest stack between the panels of
// a score.
func (f *Folded) between(s int, caliper units.Length, inserts []Insert) (layers int, stack units.Length) {
	low, high := f.rank[s], f.rank[s+1]
	if low > high {
		low, high = high, low
	}
	var held []change
	for _, p := range f.order[low+1 : high] {
		from, to := f.Span(p)
		held = append(held, change{from, 1, 0, caliper}, change{to, -1, 0, -caliper})
	}
	for _, c := range inserts {
		// An insert on the upper side lies over its panel, on the lower side
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
	for _, r := range rises(held) {
		if max(r.From, from) < min(r.To, to) {
			layers, stack = max(layers, r.Layers), max(stack, r.Height)
		}
	}
	return layers, stack
}

// A change is where a layer or an insert begins or ends.
type change struct {
	at              units.Length
	layers, inserts int
	height          units.Length
}

// rises adds changes up from left to right.
func rises(changes []change) []Rise {
	slices.SortFunc(changes, func(a, b change) int { return compare(a.at, b.at) })
	var out []Rise
	var now Rise
	for i := 0; i < len(changes); {
		at := changes[i].at
		for ; i < len(changes) && changes[i].at == at; i++ {
			now.Layers += changes[i].layers
			now.Inserts += changes[i].inserts
			now.Height += changes[i].height
		}
		if i == len(changes) {
			break
		}
		now.From, now.To = at, changes[i].at
		if n := len(out); n > 0 && out[n-1].To == now.From && out[n-1].Layers == now.Layers && out[n-1].Inserts == now.Inserts && out[n-1].Height == now.Height {
			out[n-1].To = now.To
			continue
		}
		out = append(out, now)
	}
	return out
}
