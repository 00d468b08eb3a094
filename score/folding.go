package score

import (
	"cmp"
	"iter"
	"slices"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
)

// A Folding is a strip folded flat: where each panel lies and in what layers.
// It is seen from above with panel 0 face up, panel 1 going on to the right of
// panel 0 before the first fold. Places count from the left edge of what it
// covers. Foldings cannot be changed.
type Folding struct {
	strip Strip
	flat  []bool         // scores that are still flat; nil if there are none
	order []int          // panels from the bottom to the top
	rank  []int          // the place of each panel in order
	from  []units.Length // the left edge of each panel
	up    []bool         // whether the panel lies face up
	width units.Length
	made  []Made
	over  bool // the maker has it lying the other way up
}

// newFolded lays out a strip. The order is kept, not copied.
func newFolded(s Strip, flat []bool, order []int) Folding {
	f := Folding{strip: s, flat: flat, order: order}
	n := s.Len()
	f.from, f.up = layOut(s, flat)
	f.rank = make([]int, n)
	for at, p := range order {
		f.rank[p] = at
	}
	var left, right units.Length
	for i := range n {
		left = min(left, f.from[i])
		right = max(right, f.from[i]+s.Panel(i))
	}
	for i := range f.from {
		f.from[i] -= left
	}
	f.width = right - left
	return f
}

// layOut returns the left edge of each panel, the left end of panel 0 being
// at 0, and which of them lie face up.
func layOut(s Strip, flat []bool) (from []units.Length, up []bool) {
	n := s.Len()
	from, up = make([]units.Length, n), make([]bool, n)
	var at units.Length
	right := true
	for i := range n {
		if i > 0 && (flat == nil || !flat[i-1]) {
			right = !right
		}
		up[i] = right
		if right {
			from[i] = at
			at += s.Panel(i)
		} else {
			at -= s.Panel(i)
			from[i] = at
		}
	}
	return from, up
}

// Strip returns the strip that was folded. After [Strip.FoldBy] its folds are
// those that were made.
func (f Folding) Strip() Strip { return f.strip }

// Flat reports whether score i was left unfolded.
func (f Folding) Flat(i int) bool { return f.flat != nil && i >= 0 && i < len(f.flat) && f.flat[i] }

// TurnedOver reports whether the turns that folded the strip leave it before the
// maker the other way up than it is described here, with its first panel face
// down: they do after an odd number of turns of what lies before a score.
func (f Folding) TurnedOver() bool { return f.over }

// Width returns how wide the folded strip lies: its footprint.
func (f Folding) Width() units.Length { return f.width }

// Order returns the panels from the bottom to the top. Where two panels do not
// overlap, their order says nothing; see [Folding.Over].
func (f Folding) Order() []int { return slices.Clone(f.order) }

// Span returns the left and right edge of a panel in the folded strip, 0 and 0
// if there is no such panel.
func (f Folding) Span(panel int) (from, to units.Length) {
	if panel < 0 || panel >= len(f.from) {
		return 0, 0
	}
	return f.from[panel], f.from[panel] + f.strip.Panel(panel)
}

// FaceUp reports whether a panel lies with its face up.
func (f Folding) FaceUp(panel int) bool { return panel >= 0 && panel < len(f.up) && f.up[panel] }

// overlap reports whether two panels share a stretch.
func (f *Folding) overlap(a, b int) bool {
	a0, a1 := f.Span(a)
	b0, b1 := f.Span(b)
	return max(a0, b0) < min(a1, b1)
}

// Over reports whether panel a lies over panel b, and whether the two overlap
// at all.
func (f Folding) Over(a, b int) (over, overlap bool) {
	if a == b || !f.overlap(a, b) {
		return false, false
	}
	return f.rank[a] > f.rank[b], true
}

// Equal reports whether two folded strips lie the same way: the same strip,
// the same scores folded, the same panel on top wherever two overlap. The
// turns that led there do not matter.
func (f Folding) Equal(g Folding) bool {
	if !f.strip.Equal(g.strip) {
		return false
	}
	for i := range f.strip.folds {
		if f.Flat(i) != g.Flat(i) {
			return false
		}
	}
	// The same strip folded at the same scores lies over the same places. From
	// left to right the stacks stay alike as long as each panel that begins goes
	// on the same panel in both.
	inF, inG := newRankSet(len(f.order)), newRankSet(len(g.order))
	es := f.edges()
	for i := 0; i < len(es); {
		at, first := es[i].at, i
		for ; i < len(es) && es[i].at == at; i++ {
			if e := es[i]; e.ends {
				inF.remove(f.rank[e.panel])
				inG.remove(g.rank[e.panel])
			}
		}
		for _, e := range es[first:i] {
			if e.ends {
				continue
			}
			a, b := inF.below(f.rank[e.panel]), inG.below(g.rank[e.panel])
			if (a < 0) != (b < 0) || a >= 0 && f.order[a] != g.order[b] {
				return false
			}
			inF.add(f.rank[e.panel])
			inG.add(g.rank[e.panel])
		}
	}
	return true
}

// A Stack is a stretch of the folded strip in which the layers do not change. It is
// plain data.
type Stack struct {
	From, To units.Length // from the left edge of the folded strip
	Panels   []int        // from the bottom to the top
}

// Stacks walks the folded strip from left to right, one stack after the other.
// Each one's Panels is a slice of its own.
func (f Folding) Stacks() iter.Seq[Stack] {
	return func(yield func(Stack) bool) {
		f.walk(func(from, to units.Length, panels []int) bool {
			return yield(Stack{from, to, slices.Clone(panels)})
		})
	}
}

// edge is one end of a panel on the folded strip.
type edge struct {
	at    units.Length
	panel int
	ends  bool
}

func (f *Folding) edges() []edge {
	es := make([]edge, 0, 2*len(f.order))
	for p := range f.order {
		from, to := f.Span(p)
		es = append(es, edge{from, p, false}, edge{to, p, true})
	}
	inorder.Sort(es, func(a, b edge) int { return cmp.Compare(a.at, b.at) })
	return es
}

// walk calls visit with every stack; panels is reused from call to call.
func (f *Folding) walk(visit func(from, to units.Length, panels []int) bool) {
	es := f.edges()
	var panels []int
	byRank := func(p, rank int) int { return f.rank[p] - rank }
	for i := 0; i < len(es); {
		at := es[i].at
		for ; i < len(es) && es[i].at == at; i++ {
			k, _ := slices.BinarySearchFunc(panels, f.rank[es[i].panel], byRank)
			if es[i].ends {
				panels = slices.Delete(panels, k, k+1)
			} else {
				panels = slices.Insert(panels, k, es[i].panel)
			}
		}
		if i < len(es) && !visit(at, es[i].at, panels) {
			return
		}
	}
}

// At returns the layers at a place from the bottom to the top; on the line
// between two stacks those to its right. It returns none beyond the edges.
func (f Folding) At(x units.Length) []int {
	var panels []int
	for _, p := range f.order {
		if from, to := f.Span(p); from <= x && x < to {
			panels = append(panels, p)
		}
	}
	return panels
}

// MostLayers returns the number of layers where there are most.
func (f Folding) MostLayers() int {
	es := f.edges()
	layers, most := 0, 0
	for i := 0; i < len(es); {
		at := es[i].at
		for ; i < len(es) && es[i].at == at; i++ {
			if es[i].ends {
				layers--
			} else {
				layers++
			}
		}
		most = max(most, layers)
	}
	return most
}
