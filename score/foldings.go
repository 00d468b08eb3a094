package score

import (
	"errors"
	"math/bits"
	"strconv"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// MaxLayers is how many panels a strip may have whose layer orders are listed.
const MaxLayers = 64

// ErrLimit is returned when there are more layer orders than were asked for.
var ErrLimit = errors.New("score: more layer orders than the limit")

// Foldings returns every way in which the strip can lie when all its scores
// are folded as told: each layer order once, up to limit of them, in an order
// that is the same each time. A strip that does not fold flat has none.
//
// If there are more than limit, or until ends, it returns those found so
// far with [ErrLimit] or the error of until. The number of layer orders grows
// exponentially with the panels, and so may the time between two of them: give
// long strips a context with a deadline. A strip of more than [MaxLayers]
// panels or a limit below 1 is an error.
//
// Two layer orders differ if two panels that overlap lie differently. An order
// is one that paper can take if no panel that crosses a fold lies between the
// two panels of the fold, no two folds in one place and on one side
// interleave, and it is transitive (Arkin et al. 2004, section 2).
func (s Strip) Foldings(until Stopper, limit int) ([]Folding, error) {
	var list check.List
	if limit < 1 {
		list.Malformed("limit", check.NotPositive, strconv.Itoa(limit), "at least 1")
	}
	var out []Folding
	err := s.enumerate(until, &list, func(e *layering) bool {
		if len(out) == limit {
			return false
		}
		out = append(out, newFolded(s, nil, e.order()))
		return true
	})
	return out, err
}

// CountFoldings returns how many layer orders [Strip.Foldings] would list,
// counting up to limit, with the same errors.
func (s Strip) CountFoldings(until Stopper, limit int) (int, error) {
	var list check.List
	if limit < 1 {
		list.Malformed("limit", check.NotPositive, strconv.Itoa(limit), "at least 1")
	}
	n := 0
	err := s.enumerate(until, &list, func(*layering) bool {
		if n == limit {
			return false
		}
		n++
		return true
	})
	return n, err
}

// enumerate calls visit with every layer order until it returns false.
func (s Strip) enumerate(until Stopper, list *check.List, visit func(*layering) bool) error {
	if s.Len() > MaxLayers {
		list.Malformed("panels", check.TooMany, strconv.Itoa(s.Len()), "at most "+strconv.Itoa(MaxLayers))
	}
	if err := list.Err(); err != nil {
		return err
	}
	if err := ended(until); err != nil {
		return err
	}
	// The decision is cheap, the search for what is not there may not be.
	if !s.FoldsFlat() {
		return nil
	}
	e := newLayering(s)
	e.until, e.visit = until, visit
	e.place(0)
	return e.err
}

// A set is a set of panels.
type set uint64

func (a set) has(p int) bool { return a>>uint(p)&1 != 0 }
func just(p int) set         { return 1 << uint(p) }

// A layering places the panels of a strip one after the other. For each panel
// the ones that it lies over are chosen among those placed before it that it
// overlaps; the rules between them make implications ("if it lies over a, it
// lies over b"), so that every choice made is a valid one for the panels
// placed so far.
type layering struct {
	strip Strip
	from  []units.Length
	to    []units.Length
	meets []set // the panels placed before it that a panel overlaps
	under []set // of those, the ones it lies over

	until Stopper
	visit func(*layering) bool
	nodes int
	err   error
}

func newLayering(s Strip) *layering {
	n := s.Len()
	e := &layering{strip: s, to: make([]units.Length, n), meets: make([]set, n), under: make([]set, n)}
	e.from, _ = layOut(s, nil)
	for p := range n {
		e.to[p] = e.from[p] + s.Panel(p)
		for q := range p {
			if max(e.from[p], e.from[q]) < min(e.to[p], e.to[q]) {
				e.meets[p] |= just(q)
			}
		}
	}
	return e
}

// over reports whether panel a lies over panel b, both placed and overlapping.
func (e *layering) over(a, b int) bool {
	if a > b {
		return e.under[a].has(b)
	}
	return !e.under[b].has(a)
}

// line returns the place of a score; turnsRight whether its two panels lie to
// the right of it.
func (e *layering) line(score int) (at units.Length, turnsRight bool) {
	if score%2 == 0 {
		return e.to[score], false
	}
	return e.from[score], true
}

// place chooses the layers of panel p and of all after it. It returns false to
// stop.
func (e *layering) place(p int) bool {
	if e.nodes++; e.nodes%1024 == 0 {
		if e.err = ended(e.until); e.err != nil {
			return false
		}
	}
	if p == e.strip.Len() {
		if !e.visit(e) {
			e.err = ErrLimit
			return false
		}
		return true
	}
	c := choice{layering: e, panel: p}
	if !c.rules() {
		return true
	}
	return c.choose()
}

// order returns the panels from the bottom to the top.
func (e *layering) order() []int {
	return sorted(e.strip.Len(), func(a, b int) bool {
		if a > b {
			return e.meets[a].has(b) && e.under[a].has(b)
		}
		return e.meets[b].has(a) && !e.under[b].has(a)
	})
}

// A choice is the choice of what one panel lies over.
type choice struct {
	*layering
	panel       int
	implies     [MaxLayers]set // over the index, so over all of these too
	impliedBy   [MaxLayers]set
	over, below set // decided so far
}

// rules fills in the implications and what they decide; false if they
// contradict each other.
func (c *choice) rules() bool {
	p, others := c.panel, c.meets[c.panel]
	for rest := others; rest != 0; rest &= rest - 1 {
		a := bits.TrailingZeros64(uint64(rest))
		c.implies[a] = just(a)
		for more := others; more != 0; more &= more - 1 {
			b := bits.TrailingZeros64(uint64(more))
			if a != b && c.overlapping(a, b) && c.layering.over(a, b) {
				c.implies[a] |= just(b) // transitive
			}
		}
	}
	if p > 0 {
		c.foldRules()
	}
	// No panel may come between the two of a fold that it crosses: over both
	// or over neither.
	for d := range max(p-1, 0) {
		x, _ := c.line(d)
		if c.from[p] < x && x < c.to[p] {
			c.both(d, d+1)
		}
	}
	for changed := true; changed; {
		changed = false
		for rest := others; rest != 0; rest &= rest - 1 {
			a := bits.TrailingZeros64(uint64(rest))
			all := c.implies[a]
			for more := all; more != 0; more &= more - 1 {
				all |= c.implies[bits.TrailingZeros64(uint64(more))]
			}
			changed = changed || all != c.implies[a]
			c.implies[a] = all
		}
	}
	for rest := others; rest != 0; rest &= rest - 1 {
		a := bits.TrailingZeros64(uint64(rest))
		for more := c.implies[a]; more != 0; more &= more - 1 {
			c.impliedBy[bits.TrailingZeros64(uint64(more))] |= just(a)
		}
	}
	for rest := c.over; rest != 0; rest &= rest - 1 {
		c.over |= c.implies[bits.TrailingZeros64(uint64(rest))]
	}
	for rest := c.below; rest != 0; rest &= rest - 1 {
		c.below |= c.impliedBy[bits.TrailingZeros64(uint64(rest))]
	}
	return c.over&c.below == 0
}

func (c *choice) overlapping(a, b int) bool {
	if a > b {
		return c.meets[a].has(b)
	}
	return c.meets[b].has(a)
}

// both makes a and b lie on the same side of the panel.
func (c *choice) both(a, b int) {
	c.implies[a] |= just(b)
	c.implies[b] |= just(a)
}

// foldRules decides what the fold at the panel's beginning decides.
func (c *choice) foldRules() {
	p := c.panel
	b := p - 1 // the panel before it, and the number of the score
	x, right := c.line(b)
	rises := risesAt(c.strip, b)
	if rises {
		c.over |= just(b)
	} else {
		c.below |= just(b)
	}
	for rest := c.meets[p] & ^just(b); rest != 0; rest &= rest - 1 {
		q := bits.TrailingZeros64(uint64(rest))
		if c.from[q] < x && x < c.to[q] {
			// q crosses the fold, so it lies on the same side of both.
			c.same(q, b)
		}
	}
	for d := range b {
		if y, r := c.line(d); y != x || r != right {
			continue
		}
		first, second := c.layering.over(d, b), c.layering.over(d+1, b)
		switch {
		case first == second:
			// One inside the other or apart, not across each other.
			c.both(d, d+1)
		case rises == first:
			// The fold goes round this one, so its far panel is beyond p.
			c.same(d, b)
		default:
			c.same(d+1, b)
		}
	}
}

// same puts q on the side of the panel on which it lies of b.
func (c *choice) same(q, b int) {
	if c.layering.over(q, b) {
		c.below |= just(q)
	} else {
		c.over |= just(q)
	}
}

// choose decides the first panel left open both ways, and goes on.
func (c *choice) choose() bool {
	open := c.meets[c.panel] &^ (c.over | c.below)
	if open == 0 {
		c.under[c.panel] = c.over
		return c.place(c.panel + 1)
	}
	a := bits.TrailingZeros64(uint64(open))
	over, below := c.over, c.below
	c.over |= c.implies[a]
	if !c.choose() {
		return false
	}
	c.over, c.below = over, below|c.impliedBy[a]
	if !c.choose() {
		return false
	}
	c.below = below
	return true
}

// sorted puts panels into an order from the bottom to the top in which a comes
// after b wherever over(a, b), the lowest number first where there is a
// choice. Panels on a line that overlap are ordered without a cycle, because a
// cycle of overlapping intervals always has three that share a place.
func sorted(n int, over func(a, b int) bool) []int {
	under := make([]int, n) // how many panels have to come first
	for a := range n {
		for b := range n {
			if a != b && over(a, b) {
				under[a]++
			}
		}
	}
	order := make([]int, 0, n)
	placed := make([]bool, n)
	for len(order) < n {
		next := -1
		for p := range n {
			if !placed[p] && (next < 0 || under[p] < under[next]) {
				if next = p; under[p] == 0 {
					break
				}
			}
		}
		placed[next] = true
		order = append(order, next)
		for p := range n {
			if !placed[p] && over(p, next) {
				under[p]--
			}
		}
	}
	return order
}
