package score

import (
	"cmp"
	"iter"
	"math"
	"slices"
	"strconv"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Bay is the space between two panels that lie next to each other in the
// stack, over the stretch in which they do. It is plain data.
type Bay struct {
	Under, Over int          // the panels below and above it
	From, To    units.Length // from the left edge of the folded strip
	// Left and Right are the scores that close the bay at its ends by
	// joining its two panels, -1 where it is not closed so: there it is open,
	// or goes on between other panels.
	Left, Right int
}

// Bays returns every bay between two layers, by its lower panel's place in
// the stack and from left to right. The time it takes grows with stacks x
// layers.
func (f Folding) Bays() []Bay {
	type pair struct{ under, over int }
	last := map[pair]int{} // only looked up, never walked
	var out []Bay
	f.walk(func(from, to units.Length, panels []int) bool {
		for i := 1; i < len(panels); i++ {
			p := pair{panels[i-1], panels[i]}
			if k, ok := last[p]; ok && out[k].To == from {
				out[k].To = to
				continue
			}
			last[p] = len(out)
			out = append(out, Bay{Under: p.under, Over: p.over, From: from, To: to})
		}
		return true
	})
	for i := range out {
		out[i].Left, out[i].Right = f.joint(out[i], out[i].From), f.joint(out[i], out[i].To)
	}
	inorder.Sort(out, func(a, b Bay) int {
		if d := f.rank[a.Under] - f.rank[b.Under]; d != 0 {
			return d
		}
		return cmp.Compare(a.From, b.From)
	})
	return out
}

// joint returns the score that joins the panels of a bay at x, or -1.
func (f *Folding) joint(r Bay, x units.Length) int {
	s := min(r.Under, r.Over)
	if max(r.Under, r.Over) != s+1 || f.Flat(s) || f.line(s) != x {
		return -1
	}
	return s
}

// line returns the place of a score on the folded strip.
func (f *Folding) line(score int) units.Length {
	from, to := f.Span(score)
	if f.up[score] {
		return to
	}
	return from
}

// BaysOn returns the bays that one side of a panel faces, from left to
// right. Where nothing lies on that side there is none.
func (f Folding) BaysOn(panel int, side Side) []Bay {
	if panel < 0 || panel >= len(f.up) {
		return nil
	}
	faces := f.up[panel] == (side == Face) // the side looks up
	var out []Bay
	for _, r := range f.Bays() {
		if faces && r.Under == panel || !faces && r.Over == panel {
			out = append(out, r)
		}
	}
	inorder.Sort(out, func(a, b Bay) int { return cmp.Compare(a.From, b.From) })
	return out
}

// A Crease is a fold line on the folded strip. It is plain data.
type Crease struct {
	Score  int          // the score that was folded
	At     units.Length // from the left edge of the folded strip
	Right  bool         // its panels lie to the right of it, its edge looks left
	Inside int          // layers inside it that reach the fold line
}

// Creases returns the fold lines from left to right; of those in one place and
// on one side the inner ones before the outer ones. See [Folding.Around] for what
// each goes round.
func (f Folding) Creases() []Crease {
	var out []Crease
	for s := range f.strip.folds {
		if f.Flat(s) {
			continue
		}
		c := Crease{Score: s, At: f.line(s), Right: !f.up[s]}
		low, high := f.rank[s], f.rank[s+1]
		if low > high {
			low, high = high, low
		}
		for _, p := range f.order[low+1 : high] {
			from, to := f.Span(p)
			if c.Right && from <= c.At && c.At < to || !c.Right && from < c.At && c.At <= to {
				c.Inside++
			}
		}
		out = append(out, c)
	}
	inorder.Sort(out, func(a, b Crease) int {
		if d := cmp.Compare(a.At, b.At); d != 0 {
			return d
		}
		if a.Right != b.Right {
			if a.Right {
				return 1
			}
			return -1
		}
		return a.Inside - b.Inside
	})
	return out
}

// Made walks the turns that folded the strip, in order. A strip folded by
// [Strip.Fold] or [Strip.Foldings] has none; [Strip.Turns] finds some.
func (f Folding) Made() iter.Seq[Made] {
	return func(yield func(Made) bool) {
		for _, m := range f.made {
			if !yield(Made{m.Turn, slices.Clone(m.Scores)}) {
				return
			}
		}
	}
}

// An Enclosure is something that lies on one side of a panel: a card, a print. It
// reaches from From to To, measured on the flat panel from the panel's left
// end, and is as thick as Thickness.
type Enclosure struct {
	Panel     int          // that it lies on, counted from 0
	Side      Side         // of the panel that it lies on
	From, To  units.Length // from the left end of the flat panel, which is 0; To is beyond From
	Thickness units.Length // 0 for what has none that matters
}

// A Rise is a stretch of the folded strip in which its thickness does not
// change. It is plain data.
type Rise struct {
	From, To   units.Length // from the left edge of the folded strip
	Layers     int          // panels that lie there
	Enclosures int          // enclosures that lie there
	Height     units.Length // layers x caliper and the enclosures
}

// Lies returns the bays in which an enclosure lies, cut off at its ends; none
// where it lies outside, with no layer on it. The error lists what is wrong
// with the enclosure: it must lie on its panel.
func (f Folding) Lies(c Enclosure) ([]Bay, error) {
	var list check.List
	f.checkInsert(&list, "insert", c)
	if err := list.Err(); err != nil {
		return nil, err
	}
	from, to := f.spanOf(c)
	var out []Bay
	for _, r := range f.BaysOn(c.Panel, c.Side) {
		if r.From >= to || r.To <= from {
			continue
		}
		if r.From < from {
			r.From, r.Left = from, -1
		}
		if r.To > to {
			r.To, r.Right = to, -1
		}
		out = append(out, r)
	}
	return out, nil
}

func (f *Folding) checkInsert(list *check.List, path string, c Enclosure) {
	if c.Panel < 0 || c.Panel >= f.strip.Len() {
		list.Malformed(path+".panel", check.Unknown, strconv.Itoa(c.Panel), upTo(f.strip.Len(), "panel"))
		return
	}
	if c.Side > Back {
		list.Malformed(path+".side", check.Unknown, strconv.Itoa(int(c.Side)), "face or back")
	}
	if c.From < 0 || c.From >= c.To || c.To > f.strip.Panel(c.Panel) {
		list.Impossible(path, check.OutOfRange, span(c.From, c.To), "an extent from 0 mm to "+f.strip.Panel(c.Panel).String()+", which is its panel")
	}
	list.Allowance(path+".thickness", c.Thickness)
}

// spanOf returns where an enclosure lies on the folded strip.
func (f *Folding) spanOf(c Enclosure) (from, to units.Length) {
	left, right := f.Span(c.Panel)
	if f.up[c.Panel] {
		return left + c.From, left + c.To
	}
	return right - c.To, right - c.From
}

// Thickness returns how thick the folded strip is where it is thickest: most
// layers x caliper, a caliper beyond 0 to 10 m being brought into it. The bulge
// of the folds is neglected.
func (f Folding) Thickness(caliper units.Length) units.Length {
	return times(f.MostLayers(), caliper.Clamp(0, units.Longest))
}

// times returns n·l, or the largest length where that does not fit.
func times(n int, l units.Length) units.Length {
	p, ok := l.Times(int64(n))
	if !ok {
		return math.MaxInt64
	}
	return p
}

// ThicknessWorking returns the working of [Folding.Thickness].
func (f Folding) ThicknessWorking(label string, caliper units.Length) units.Working {
	return units.Sum(label, 0, units.Nearest, units.N(f.MostLayers(), "caliper", caliper.Clamp(0, units.Longest)))
}

// Profile returns the thickness from left to right: layers x caliper and the
// enclosures that lie there. A sheet is taken to follow what lies under it
// without stiffness, so heights add up place by place. The error lists what is
// wrong with the caliper and the enclosures.
func (f Folding) Profile(caliper units.Length, inserts ...Enclosure) ([]Rise, error) {
	var list check.List
	list.Allowance("caliper", caliper)
	f.checkInserts(&list, inserts)
	if err := list.Err(); err != nil {
		return nil, err
	}
	var changes []change
	for p := range f.order {
		from, to := f.Span(p)
		changes = append(changes, change{from, 1, 0, caliper}, change{to, -1, 0, -caliper})
	}
	for _, c := range inserts {
		from, to := f.spanOf(c)
		changes = append(changes, change{from, 0, 1, c.Thickness}, change{to, 0, -1, -c.Thickness})
	}
	return rises(changes), nil
}

func (f *Folding) checkInserts(list *check.List, inserts []Enclosure) {
	for i, c := range inserts {
		f.checkInsert(list, check.Index("inserts", i), c)
	}
}

// A change is where a layer or an enclosure begins or ends.
type change struct {
	at              units.Length
	layers, inserts int
	height          units.Length
}

// rises adds changes up from left to right; what does not change is one rise.
func rises(changes []change) []Rise {
	var out []Rise
	eachRise(changes, func(r Rise) {
		if n := len(out); n > 0 && out[n-1].To == r.From && out[n-1].Layers == r.Layers && out[n-1].Enclosures == r.Enclosures && out[n-1].Height == r.Height {
			out[n-1].To = r.To
			return
		}
		out = append(out, r)
	})
	return out
}

// eachRise adds changes up from left to right, from one to the next.
func eachRise(changes []change, visit func(Rise)) {
	inorder.Sort(changes, func(a, b change) int { return cmp.Compare(a.at, b.at) })
	var now Rise
	for i := 0; i < len(changes); {
		at := changes[i].at
		for ; i < len(changes) && changes[i].at == at; i++ {
			now.Layers += changes[i].layers
			now.Enclosures += changes[i].inserts
			now.Height += changes[i].height
		}
		if i == len(changes) {
			break
		}
		now.From, now.To = at, changes[i].at
		visit(now)
	}
}
