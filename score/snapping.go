package score

import (
	"cmp"
	"slices"
	"strconv"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// MaxSnap is how many panels a strip may have that is put on grooves.
const MaxSnap = 256

// Snap puts every score of a strip on a groove, from whichever end is nearer,
// and moves none by more than half a pitch. The strip keeps its length, and
// every order in keep: a panel that was to be no wider than another is so
// afterwards. Without any keep, each panel that is narrower than another stays
// no wider than it. An order that the strip itself breaks is an error.
//
// A score that cannot lie on a groove without breaking an order, because it is
// beyond the grooves or because no groove within half a pitch will do, stays
// where it was asked for and is reported by [Snapped.OffGroove]: it has to be
// made with ruler and bone folder. As few as possible do; then the scores are
// moved as little as possible in all, and the sheet is turned only for a
// nearer groove. The best choice is found for strips of a few panels; for
// longer ones the search is cut short at a fixed number of trials, and the
// result keeps all the rules but may move a score further than it need be.
func (g Grooves) Snap(s Strip, keep ...NoWider) (Snapped, error) {
	var list check.List
	g.check(&list)
	if s.Len() == 0 {
		list.Malformed("strip", check.Missing, "no panels", "at least one panel")
	}
	if s.Len() > MaxSnap {
		list.Malformed("strip", check.TooMany, strconv.Itoa(s.Len())+" panels", "at most "+strconv.Itoa(MaxSnap))
	}
	for i, k := range keep {
		path := check.Index("keep", i)
		switch n := s.Len(); {
		case k.Panel < 0 || k.Panel >= n || k.Than < 0 || k.Than >= n:
			if k.Panel < 0 || k.Panel >= n {
				list.Malformed(path+".panel", check.Unknown, strconv.Itoa(k.Panel), upTo(n, "panel"))
			}
			if k.Than < 0 || k.Than >= n {
				list.Malformed(path+".than", check.Unknown, strconv.Itoa(k.Than), upTo(n, "panel"))
			}
		case s.Panel(k.Panel) > s.Panel(k.Than):
			list.Impossible(path, check.Conflict, s.Panel(k.Panel).String(), leftOut("the strip itself has no more than "+s.Panel(k.Than).String()+" for the other panel"))
		}
	}
	if err := list.Err(); err != nil {
		return Snapped{}, err
	}
	search := newSnapping(g, s, keep)
	search.run()
	return search.result(), nil
}

// A place is one place that a score could take.
type place struct {
	x      units.Length
	end    End
	groove int
	moved  units.Length
}

// A snapping looks for the best places of all scores together.
type snapping struct {
	g      Grooves
	strip  Strip
	places [][]place // of each score, the nearest first, its own place last
	rules  []NoWider
	ruled  [][]int // the rules that hold for each panel
	taken  []int   // the place tried for each score
	rest   []cost  // what the scores from here on cost at the least
	trials int

	best     []int
	bestCost cost
}

// trialsOf bounds the search, in steps and not in time, so that the result is
// the same on every machine.
const trialsOf = 50_000

// cost compares choices: scores on no groove first, then what they are moved
// in all, then how many want the sheet turned.
type cost struct {
	off   int
	moved units.Length
	turns int
}

func (a cost) less(b cost) bool {
	if a.off != b.off {
		return a.off < b.off
	}
	if a.moved != b.moved {
		return a.moved < b.moved
	}
	return a.turns < b.turns
}

func (a cost) and(b cost) cost {
	return cost{a.off + b.off, a.moved + b.moved, a.turns + b.turns}
}

func (a cost) plus(p place) cost {
	a.moved += p.moved
	switch p.end {
	case NoEnd:
		a.off++
	case RightEnd:
		a.turns++
	}
	return a
}

func newSnapping(g Grooves, s Strip, keep []NoWider) *snapping {
	n := &snapping{g: g, strip: s, taken: make([]int, len(s.folds))}
	length := s.Length()
	for _, sc := range s.Scores() {
		var ps []place
		for _, k := range g.near(sc.At, length) {
			ps = append(ps, place{g.at(k), LeftEnd, k, (g.at(k) - sc.At).Abs()})
		}
		if !g.NoTurn {
			for _, k := range g.near(length-sc.At, length) {
				x := length - g.at(k)
				if !slices.ContainsFunc(ps, func(p place) bool { return p.x == x }) {
					ps = append(ps, place{x, RightEnd, k, (x - sc.At).Abs()})
				}
			}
		}
		inorder.Sort(ps, func(a, b place) int { return cmp.Compare(a.moved, b.moved) })
		n.places = append(n.places, append(ps, place{sc.At, NoEnd, -1, 0}))
	}
	n.rest = make([]cost, len(n.places)+1)
	for i := len(n.places) - 1; i >= 0; i-- {
		// Of two as near as each other the one without a turn comes first.
		n.rest[i] = n.rest[i+1].plus(n.places[i][0])
	}
	n.rules = keep
	if len(keep) == 0 {
		n.rules = orders(s)
	}
	n.ruled = make([][]int, s.Len())
	for i, r := range n.rules {
		n.ruled[r.Panel] = append(n.ruled[r.Panel], i)
		if r.Than != r.Panel {
			n.ruled[r.Than] = append(n.ruled[r.Than], i)
		}
	}
	return n
}

// orders returns the orders that hold strictly between the panels of a strip,
// only those between neighbours in width: between each width and the next. The
// others do not follow from them after snapping, since equal panels may come
// out unequal, so each pair of two groups that follow each other is there, and
// the pairs of groups further apart follow.
func orders(s Strip) []NoWider {
	byWidth := make([]int, s.Len())
	for i := range byWidth {
		byWidth[i] = i
	}
	inorder.Sort(byWidth, func(a, b int) int { return cmp.Compare(s.Panel(a), s.Panel(b)) })
	var out []NoWider
	var before, group []int
	for i, p := range byWidth {
		if i > 0 && s.Panel(p) != s.Panel(byWidth[i-1]) {
			before, group = group, nil
		}
		for _, b := range before {
			out = append(out, NoWider{b, p})
		}
		group = append(group, p)
	}
	return out
}

// edge returns an edge of the strip as it stands: edge i is the left one of
// panel i.
func (n *snapping) edge(i int) units.Length {
	switch i {
	case 0:
		return 0
	case n.strip.Len():
		return n.strip.Length()
	}
	return n.places[i-1][n.taken[i-1]].x
}

func (n *snapping) panel(i int) units.Length { return n.edge(i+1) - n.edge(i) }

// keeps reports whether a panel is wide enough and in order with those panels
// of which known says that both edges are decided.
func (n *snapping) keeps(p int, known func(int) bool) bool {
	if n.panel(p) < units.Shortest {
		return false
	}
	for _, r := range n.ruled[p] {
		o := n.rules[r]
		if known(o.Panel) && known(o.Than) && n.panel(o.Panel) > n.panel(o.Than) {
			return false
		}
	}
	return true
}

func (n *snapping) run() {
	if len(n.places) == 0 {
		n.best = []int{}
		return
	}
	n.repair()
	clear(n.taken)
	n.search(0, cost{})
}

// repair starts from the nearest grooves and, while a rule is broken, takes
// the next place for one of the scores that break it, the one that gains the
// least. Every score comes to its own place at last, where nothing is broken,
// so this ends.
func (n *snapping) repair() {
	all := func(int) bool { return true }
	for p := 0; p < n.strip.Len(); {
		if n.keeps(p, all) {
			p++
			continue
		}
		score := n.toMove(p)
		n.taken[score]++
		// The panels at the score may break rules with any other; go back to
		// the first panel that a rule ties to them.
		p = 0
	}
	n.best = slices.Clone(n.taken)
	n.bestCost = cost{}
	for i, t := range n.taken {
		n.bestCost = n.bestCost.plus(n.places[i][t])
	}
}

// toMove picks a score, of those that bound a panel that breaks a rule and the
// panels that it breaks it with.
func (n *snapping) toMove(p int) int {
	best, bestCost := -1, cost{}
	consider := func(edge int) {
		s := edge - 1
		if s < 0 || s >= len(n.places) || n.taken[s]+1 >= len(n.places[s]) {
			return
		}
		c := cost{}.plus(n.places[s][n.taken[s]+1])
		if best < 0 || c.less(bestCost) {
			best, bestCost = s, c
		}
	}
	consider(p)
	consider(p + 1)
	for _, r := range n.ruled[p] {
		o := n.rules[r]
		if n.panel(o.Panel) > n.panel(o.Than) {
			for _, q := range []int{o.Panel, o.Than} {
				consider(q)
				consider(q + 1)
			}
		}
	}
	return best
}

// search tries the places of score i and of those after it, and gives up a
// branch that cannot be better than the best found.
func (n *snapping) search(i int, c cost) {
	if i == len(n.places) {
		if n.keeps(i, func(int) bool { return true }) && c.less(n.bestCost) {
			n.bestCost = c
			copy(n.best, n.taken)
		}
		return
	}
	for t, p := range n.places[i] {
		if n.trials++; n.trials > trialsOf {
			return
		}
		next := c.plus(p)
		if bound := next.and(n.rest[i+1]); !bound.less(n.bestCost) {
			continue
		}
		n.taken[i] = t
		if n.keeps(i, func(q int) bool { return q <= i }) {
			n.search(i+1, next)
		}
	}
}

func (n *snapping) result() Snapped {
	length := n.strip.Length()
	out := Snapped{strip: n.strip}
	at := make([]units.Length, len(n.best))
	var ledger units.Ledger
	for i, t := range n.best {
		p := n.places[i][t]
		sc, _ := n.strip.Score(i)
		at[i] = p.x
		label := "score " + strconv.Itoa(i+1)
		var w units.Working
		groove := []units.Term{units.T("first groove", n.g.origin()), units.N(p.groove, "pitch", n.g.Pitch)}
		switch p.end {
		case NoEnd:
			w = ledger.Sum(label, 0, units.Nearest, units.T("as asked for", sc.At))
		case LeftEnd:
			w = ledger.Sum(label, 0, units.Nearest, groove...)
		case RightEnd:
			w = ledger.Sum(label, 0, units.Nearest, units.T("length", length),
				units.N(-1, "first groove", n.g.origin()), units.N(-p.groove, "pitch", n.g.Pitch))
		}
		out.snaps = append(out.snaps, Snap{i, sc.At, p.x, p.end, p.groove, w})
	}
	edges := append(append([]units.Length{0}, at...), length)
	out.strip.edges = edges
	return out
}
