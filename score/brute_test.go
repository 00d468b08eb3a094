package score_test

import (
	"slices"

	"boardwrap.example/score"
	"boardwrap.example/units"
)

// The rules of a layer order, written down once more and without any of the
// package's shortcuts (Arkin et al. 2004, section 2; TRADE rule: a panel that
// crosses a fold may not lie between the fold's two panels, two folds in one
// place and on one side may not interleave). The strip is a walk on a line;
// flat scores join their two panels into one straight stretch.

type interval struct{ from, to units.Length }

func (a interval) overlaps(b interval) bool { return max(a.from, b.from) < min(a.to, b.to) }

// walkOf lays the strip out, panel 0 going right from 0.
func walkOf(s score.Strip, flat func(int) bool) (spans []interval, right []bool) {
	at, rightwards := units.Length(0), true
	for i, p := range s.Panels() {
		if i > 0 && !flat(i-1) {
			rightwards = !rightwards
		}
		if rightwards {
			spans = append(spans, interval{at, at + p})
			at += p
		} else {
			spans = append(spans, interval{at - p, at})
			at -= p
		}
		right = append(right, rightwards)
	}
	return spans, right
}

func never(int) bool { return false }

// broken says which rule an order breaks, "" if none. Over must be a strict
// order on overlapping panels.
func broken(s score.Strip, flat func(int) bool, over func(a, b int) bool) string {
	spans, right := walkOf(s, flat)
	n := len(spans)
	// Straight stretches: number and extent.
	run := make([]int, n)
	extent := []interval{spans[0]}
	for i := 1; i < n; i++ {
		run[i] = run[i-1]
		if flat(i - 1) {
			e := &extent[run[i]]
			e.from, e.to = min(e.from, spans[i].from), max(e.to, spans[i].to)
		} else {
			run[i]++
			extent = append(extent, spans[i])
		}
	}
	type crease struct {
		at    units.Length
		left  bool // its panels lie to the left
		a, b  int
		index int
	}
	var creases []crease
	for i, sc := range s.Scores() {
		if flat(i) {
			continue
		}
		c := crease{spans[i].from, false, i, i + 1, i}
		if right[i] {
			c.at, c.left = spans[i].to, true
		}
		creases = append(creases, c)
		// Panel i face up (it goes right): a valley brings the next over it.
		if over(i+1, i) != ((sc.Fold == score.Valley) == right[i]) {
			return "kind of fold"
		}
	}
	between := func(p, a, b int) bool { return over(p, a) != over(p, b) }
	for _, c := range creases {
		for p := range n {
			if p == c.a || p == c.b {
				continue
			}
			e := extent[run[p]]
			if e.from < c.at && c.at < e.to && spans[p].overlaps(spans[c.a]) && spans[p].overlaps(spans[c.b]) &&
				touches(spans[p], c.at, c.left) && between(p, c.a, c.b) {
				return "a panel through a fold"
			}
		}
		for _, d := range creases {
			if d.index <= c.index || d.at != c.at || d.left != c.left {
				continue
			}
			if between(d.a, c.a, c.b) != between(d.b, c.a, c.b) {
				return "folds that cross"
			}
		}
	}
	// Two stretches that overlap lie the same way all along.
	lies := map[[2]int]bool{}
	for a := range n {
		for b := range n {
			if run[a] == run[b] || !spans[a].overlaps(spans[b]) {
				continue
			}
			stretches := [2]int{run[a], run[b]}
			if was, met := lies[stretches]; met && was != over(a, b) {
				return "a panel through a panel"
			}
			lies[stretches] = over(a, b)
		}
	}
	for a := range n {
		for b := range n {
			for c := range n {
				if a != b && b != c && a != c && spans[a].overlaps(spans[b]) && spans[b].overlaps(spans[c]) && spans[a].overlaps(spans[c]) &&
					over(a, b) && over(b, c) && !over(a, c) {
					return "not transitive"
				}
			}
		}
	}
	return ""
}

// touches reports whether a span lies on the given side of x right beside it.
func touches(s interval, x units.Length, left bool) bool {
	if left {
		return s.from < x && x <= s.to
	}
	return s.from <= x && x < s.to
}

// key writes down which of two overlapping panels is over the other, so that
// equal keys are equal layer orders.
func key(spans []interval, over func(a, b int) bool) string {
	var k []byte
	for a := range spans {
		for b := range a {
			if spans[a].overlaps(spans[b]) {
				if over(a, b) {
					k = append(k, '1')
				} else {
					k = append(k, '0')
				}
			}
		}
	}
	return string(k)
}

// bruteForce tries every permutation of the panels and returns the keys of the
// layer orders that keep the rules. Because the order of overlapping panels
// has no cycles, every layer order is found so.
func bruteForce(s score.Strip) map[string]bool {
	spans, _ := walkOf(s, never)
	keys := map[string]bool{}
	rank := make([]int, s.Len())
	over := func(a, b int) bool { return rank[a] > rank[b] }
	permutations(s.Len(), func(order []int) {
		for at, p := range order {
			rank[p] = at
		}
		if broken(s, never, over) == "" {
			keys[key(spans, over)] = true
		}
	})
	return keys
}

func permutations(n int, visit func([]int)) {
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	var rec func(k int)
	rec = func(k int) {
		if k == n {
			visit(order)
			return
		}
		for i := k; i < n; i++ {
			order[k], order[i] = order[i], order[k]
			rec(k + 1)
			order[k], order[i] = order[i], order[k]
		}
	}
	rec(0)
}

func overIn(f score.Folding) func(a, b int) bool {
	rank := make([]int, f.Strip().Len())
	for at, p := range f.Order() {
		rank[p] = at
	}
	return func(a, b int) bool { return rank[a] > rank[b] }
}

// assignments calls visit with every assignment of n folds.
func assignments(n int, visit func([]score.Fold)) {
	for bits := range 1 << n {
		folds := make([]score.Fold, n)
		for i := range folds {
			if bits>>i&1 == 1 {
				folds[i] = score.Mountain
			}
		}
		visit(folds)
	}
}

// lengthsOf calls visit with every choice of n panels of 1 to most mm.
func lengthsOf(n, most int, visit func([]units.Length)) {
	panels := slices.Repeat([]units.Length{units.Millimetre}, n)
	for {
		visit(panels)
		i := 0
		for ; i < n; i++ {
			if panels[i] < units.Length(most)*units.Millimetre {
				panels[i] += units.Millimetre
				break
			}
			panels[i] = units.Millimetre
		}
		if i == n {
			return
		}
	}
}
