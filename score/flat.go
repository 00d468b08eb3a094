package score

import (
	"cmp"
	"slices"
	"strconv"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
)

// An Unfoldable is the error of a strip that cannot be folded flat as told. It
// names scores that block each other: with all that end folds and crimps take
// away gone, none of these can be taken away. Taken away in another order, the
// others may leave other scores. Those named here are what is left going from
// left to right or from right to left, whichever leaves fewer, or all of both
// where they are as many: so they are the same whichever way round the strip
// lies, and whichever side is up.
type Unfoldable struct{ scores []int }

// Scores returns the scores that block each other, counted from 0.
func (e *Unfoldable) Scores() []int { return append([]int(nil), e.scores...) }

// Error names the scores, counting from 1.
func (e *Unfoldable) Error() string {
	dst := []byte("the strip cannot be folded flat: scores ")
	for i, s := range e.scores {
		switch {
		case i == 12 && len(e.scores) > 13:
			dst = append(dst, " and "...)
			dst = strconv.AppendInt(dst, int64(len(e.scores)-i), 10)
			dst = append(dst, " more block each other"...)
			return string(dst)
		case i > 0 && i == len(e.scores)-1:
			dst = append(dst, " and "...)
		case i > 0:
			dst = append(dst, ", "...)
		}
		dst = strconv.AppendInt(dst, int64(s+1), 10)
	}
	return string(append(dst, " block each other"...))
}

// FoldsFlat reports whether the strip can be folded flat with every score
// folded as told.
func (s Strip) FoldsFlat() bool {
	r := reduction{strip: s}
	r.run()
	return r.done()
}

// Fold folds the strip flat at every score and returns it with one of its
// layer orders, or an [*Unfoldable]. The strip without panels folds to nothing.
//
// It reduces the strip by end folds and crimps until no score is left. An end
// fold takes an end panel that reaches no further than the next score. A crimp
// takes two neighbouring scores of opposite kind whose middle panel is no
// longer than either neighbour. A strip folds flat exactly if these use up its
// scores, in whatever order they are taken (Arkin, Bender, Demaine, Demaine,
// Mitchell, Sethia and Skiena, "When Can You Fold a Map?", CGTA 29, 2004). The
// decision takes time in proportion to the number of panels.
func (s Strip) Fold() (Folding, error) {
	r := reduction{strip: s, layers: true}
	r.run()
	if !r.done() {
		return Folding{}, r.unfoldable()
	}
	return newFolded(s, nil, r.bottomUp()), nil
}

// Turns returns single folds that fold the strip flat at every score, in the
// order in which they succeed and with the way that each turns, or an
// [*Unfoldable]. An end fold is one turn, a
// crimp two. [Strip.FoldBy] carries them out and yields the layer order of
// [Strip.Fold].
func (s Strip) Turns() ([]Turn, error) {
	r := reduction{strip: s, order: make([]int, 0, len(s.folds))}
	r.run()
	if !r.done() {
		return nil, r.unfoldable()
	}
	order := make([]motionAt, len(r.order))
	for i, score := range r.order {
		order[i].score = score
	}
	return turnsOf(s, order), nil
}

// reduction takes end folds and crimps away from a strip. What is left is a
// chain of parts; a part is a panel or a folded bundle of them that has taken
// a panel's place. The layers of a part are kept as a list that runs through
// next, from its bottom to its top as they lie in the end, so that bundling
// is joining lists.
type reduction struct {
	strip  Strip
	parts  []part
	left   int // the first part of the chain
	right  int // the last one
	layers bool
	next   []int // the panel above, -1 at the top of a part
	order  []int // the scores as they are taken away, recorded unless nil
}

type part struct {
	length      units.Length
	prev, next  int // parts, -1 at the ends
	bottom, top int // panels
	first, last int // panels at the left and right end of the chain's part
}

func (r *reduction) run() {
	n := r.strip.Len()
	if n == 0 {
		return
	}
	r.parts = make([]part, n)
	for i := range r.parts {
		r.parts[i] = part{r.strip.Panel(i), i - 1, i + 1, i, i, i, i}
	}
	r.parts[n-1].next = -1
	r.right = n - 1
	if r.layers {
		r.next = make([]int, n)
		for i := range r.next {
			r.next[i] = -1
		}
	}
	// at walks to the right; what a reduction changes lies at most one part
	// back. Every step back is paid for by a score taken away.
	for at := 0; at >= 0; {
		at = r.reduce(at)
	}
}

// reduce takes away the scores at one part if that can be done, and returns
// the part to look at next, -1 at the end.
func (r *reduction) reduce(at int) int {
	p := &r.parts[at]
	switch {
	case p.prev < 0 && p.next < 0:
		return -1
	case p.prev < 0 && p.length <= r.parts[p.next].length:
		return r.endFoldLeft(at)
	case p.next < 0 && p.length <= r.parts[p.prev].length:
		return r.endFoldRight(at)
	case p.prev < 0 || p.next < 0:
		return p.next
	case r.strip.folds[p.first-1] != r.strip.folds[p.last] &&
		p.length <= r.parts[p.prev].length && p.length <= r.parts[p.next].length:
		return r.crimp(at)
	}
	return p.next
}

// risesAt reports whether the panel after a score lies above the one before
// it. A panel with an even number lies face up when every score is folded.
func risesAt(s Strip, score int) bool { return (s.folds[score] == Valley) == (score%2 == 0) }

// stack puts the layers of part b on those of part a.
//
//go:noinline
func (r *reduction) stack(a, b int) (bottom, top int) {
	if r.layers {
		r.next[r.parts[a].top] = r.parts[b].bottom
	}
	return r.parts[a].bottom, r.parts[b].top
}

func (r *reduction) endFoldLeft(at int) int {
	p := &r.parts[at]
	to := p.next
	q := &r.parts[to]
	r.record(p.last)
	if risesAt(r.strip, p.last) {
		q.bottom, q.top = r.stack(at, to)
	} else {
		q.bottom, q.top = r.stack(to, at)
	}
	q.prev = -1
	r.left = to
	return to
}

func (r *reduction) endFoldRight(at int) int {
	p := &r.parts[at]
	to := p.prev
	q := &r.parts[to]
	r.record(q.last)
	if risesAt(r.strip, q.last) {
		q.bottom, q.top = r.stack(to, at)
	} else {
		q.bottom, q.top = r.stack(at, to)
	}
	q.next = -1
	r.right = to
	return to
}

// crimp bundles a part and its two neighbours into the left one.
func (r *reduction) crimp(at int) int {
	b := &r.parts[at]
	left, right := b.prev, b.next
	a, c := &r.parts[left], &r.parts[right]
	r.record(a.last)
	r.record(b.last)
	if risesAt(r.strip, a.last) {
		a.bottom, a.top = r.stack(left, at)
		a.bottom, a.top = r.stack(left, right)
	} else {
		b.bottom, b.top = r.stack(right, at)
		b.bottom, b.top = r.stack(at, left)
		a.bottom, a.top = b.bottom, b.top
	}
	a.length += c.length - b.length
	a.last = c.last
	a.next = c.next
	if c.next >= 0 {
		r.parts[c.next].prev = left
	} else {
		r.right = left
	}
	if a.prev >= 0 {
		return a.prev
	}
	return left
}

func (r *reduction) record(score int) {
	if r.order != nil {
		r.order = append(r.order, score)
	}
}

func (r *reduction) done() bool { return r.strip.Len() == 0 || r.left == r.right }

// bottomUp returns the panels of the only part that is left, bottom to top.
func (r *reduction) bottomUp() []int {
	if r.strip.Len() == 0 {
		return nil
	}
	order := make([]int, 0, len(r.next))
	for p := r.parts[r.left].bottom; p >= 0; p = r.next[p] {
		order = append(order, p)
	}
	return order
}

func (r *reduction) unfoldable() *Unfoldable {
	there := r.remaining()
	turned := reduction{strip: r.strip.Reversed()}
	turned.run()
	back := turned.remaining()
	for i, s := range back {
		back[i] = len(r.strip.folds) - 1 - s
	}
	slices.Reverse(back)
	switch {
	case len(back) < len(there):
		there = back
	case len(back) == len(there):
		there = append(there, back...)
		inorder.Sort(there, cmp.Compare)
		there = slices.Compact(there)
	}
	return &Unfoldable{there}
}

// remaining returns the scores that were not taken away.
func (r *reduction) remaining() []int {
	var out []int
	for at := r.left; r.parts[at].next >= 0; at = r.parts[at].next {
		out = append(out, r.parts[at].last)
	}
	return out
}
