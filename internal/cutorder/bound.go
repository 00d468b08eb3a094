package cutorder

import (
	"math/bits"
	"slices"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/internal/packing"
)

// A set of lengths, by their index.
type set []uint64

func (s set) has(i int) bool { return s[i>>6]>>(i&63)&1 != 0 }
func (s set) put(i int)      { s[i>>6] |= 1 << (i & 63) }

func (s set) join(t set) {
	for i, w := range t {
		s[i] |= w
	}
}

func (s set) meets(t set) bool {
	for i, w := range t {
		if s[i]&w != 0 {
			return true
		}
	}
	return false
}

func (s set) count() int {
	n := 0
	for _, w := range s {
		n += bits.OnesCount64(w)
	}
	return n
}

// A need is what it takes to cut up a part, the parts that come of it
// included.
type need struct {
	must  set     // settings that every order has
	soft  []int32 // series of which an order has at least one kid's length
	all   set     // lengths of all kids
	below set     // those of the series that come of it
}

// needs works out needs of shapes.
type needs struct {
	*shapes
	lengths map[int64]int
	words   int
	known   []*need
}

func newNeeds(t *shapes) *needs {
	n := &needs{shapes: t, lengths: map[int64]int{}}
	put := func(l int64) {
		if _, ok := n.lengths[l]; !ok {
			n.lengths[l] = len(n.lengths)
		}
	}
	for i := range t.all {
		for _, c := range t.all[i].kids {
			put(c.len)
		}
		if t.all[i].lead.kind != noEnd {
			put(t.all[i].lead.size)
		}
	}
	n.words = (len(n.lengths) + 63) / 64
	return n
}

func (n *needs) set() set { return make(set, n.words) }

// of returns the need of a shape.
//
// The last cut in a series parts two kids, or a kid and a leftover, so the fence
// stands at the length of a kid of it at some time. Where all kids are as long,
// that is a setting that no order is without; else one of them is (soft).
func (n *needs) of(id int32) *need {
	for len(n.known) < len(n.all) {
		n.known = append(n.known, nil)
	}
	if n.known[id] != nil {
		return n.known[id]
	}
	s := &n.all[id]
	x := &need{must: n.set(), all: n.set(), below: n.set()}
	if !s.leaf {
		if s.lead.kind != noEnd {
			x.must.put(n.lengths[s.lead.size])
			x.all.put(n.lengths[s.lead.size])
		}
		pure := true
		for _, c := range s.kids {
			pure = pure && c.len == s.kids[0].len
			x.all.put(n.lengths[c.len])
		}
		if pure && n.cut(s) {
			x.must.put(n.lengths[s.kids[0].len])
		} else if !pure {
			x.soft = append(x.soft, id)
		}
		for _, c := range s.kids {
			k := n.of(c.id)
			x.must.join(k.must)
			x.below.join(k.all)
			x.soft = append(x.soft, k.soft...)
		}
		x.soft = inorder.Set(x.soft)
		x.all.join(x.below)
	}
	n.known[id] = x
	return x
}

// cut reports whether a series of kids needs a cut besides that of its lead.
func (n *needs) cut(s *shape) bool {
	return s.rest.kind != noEnd || len(s.kids) > 1 || s.kids[0].n > 1
}

// own is the set of the lengths of the kids of a series itself.
func (n *needs) own(id int32, to set) {
	for _, c := range n.all[id].kids {
		to.put(n.lengths[c.len])
	}
}

// least is a number of settings that no order for the parts can do without.
func (n *needs) least(parts []int32) int {
	u := n.set()
	for _, id := range parts {
		u.join(n.of(id).must)
	}
	least := u.count()
	own := n.set()
	for _, id := range parts {
		for _, f := range n.of(id).soft {
			clear(own)
			n.own(f, own)
			if !own.meets(u) {
				u.join(own)
				least++
			}
		}
	}
	return least
}

// guess is about how many settings an order for the parts takes that cuts kid
// by kid.
func (n *needs) guess(parts []int32) int {
	u := n.set()
	for _, id := range parts {
		u.join(n.of(id).must)
	}
	guess := u.count()
	own := n.set()
	for _, id := range parts {
		for _, f := range n.of(id).soft {
			clear(own)
			n.own(f, own)
			missing := 0
			for i := range own {
				missing += bits.OnesCount64(own[i] &^ u[i])
			}
			if n.all[f].rest.kind == noEnd {
				missing = max(0, missing-1)
			}
			guess += missing
			u.join(own)
		}
	}
	return guess
}

// hidden counts the lengths of strips in parts that are still to come.
func (n *needs) hidden(parts []int32) int {
	u := n.set()
	for _, id := range parts {
		u.join(n.of(id).below)
	}
	return u.count()
}

// turns is a number of turns that no order can do without: on the way to the
// deepest part the direction changes so often.
func (t *shapes) turns(id int32, known map[int32]int) int {
	s := &t.all[id]
	if s.leaf {
		return -1
	}
	if n, ok := known[id]; ok {
		return n
	}
	n := 0
	for _, c := range s.kids {
		n = max(n, t.turns(c.id, known)+1)
	}
	known[id] = n
	return n
}

// A leastCutter finds the fewest cuts of sheets, one after the other, in the same
// memory.
type leastCutter struct {
	series []int  // the first part of each part's series
	left   []bool // of a series, whether what is left of it has been counted
}

// of is a number of cuts that a sheet cannot do without: a series comes apart
// into its strips and what is left of it, which is one part at least, and each cut
// makes one part more.
func (l *leastCutter) of(s *packing.Sheet) int64 {
	n := int64(0)
	l.series = slices.Grow(l.series[:0], len(s.Nodes))[:len(s.Nodes)]
	l.left = slices.Grow(l.left[:0], len(s.Nodes))[:len(s.Nodes)]
	series, left := l.series, l.left
	for i := range series {
		series[i], left[i] = i, false
	}
	for i := range s.Nodes { // a part stands behind what it is cut from
		p := &s.Nodes[i]
		if p.Use != packing.CutX && p.Use != packing.CutY {
			continue
		}
		if series[i] == i {
			n--
		}
		for _, c := range [2]int{p.A, p.B} {
			switch {
			case c < 0 || s.Nodes[c].Use == packing.Waste:
				if !left[series[i]] {
					left[series[i]] = true
					n++
				}
			case s.Nodes[c].Use == p.Use:
				series[c] = series[i]
			default:
				n++
			}
		}
	}
	return n
}
