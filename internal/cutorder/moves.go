package cutorder

import (
	"boardwrap.example/internal/inorder"
	"slices"
)

// A move takes n parts of one shape off a series, each with a cut at the same
// setting; rest is what remains to be cut, −1 where that is nothing but a
// leftover.
type move struct {
	setting int64
	sub     int32 // −1 for the lead
	n       int32
	rest    int32
}

// mostGroups is the number of groups of kids beyond which a series is only cut
// kid by kid.
const mostGroups = 256

// moves lists the ways to go on with a series, by falling setting; whole says
// that these are all there are. Several parts come off at once only where all
// kids are as long: then nothing else is better.
func (t *shapes) moves(id int32) (list []move, whole bool) {
	s := &t.all[id]
	if s.leaf {
		return nil, true
	}
	if s.lead.kind != noEnd {
		return []move{{s.lead.size, -1, 1, t.series(s, s.kids, end{}, s.rest)}}, true
	}
	if s.large {
		return []move{t.first(id)}, false
	}
	if len(s.kids) == 1 {
		c := s.kids[0]
		if s.rest.kind != noEnd {
			return []move{{c.len, c.id, c.n, -1}}, true
		}
		return []move{{c.len, c.id, c.n - 1, c.id}}, true
	}
	groups := int64(1)
	for _, c := range s.kids {
		groups = min(groups*int64(c.n+1), mostGroups+1)
	}
	if groups > mostGroups {
		return t.singles(id), false
	}
	return t.groups(id, groups), true
}

// first is the only move of a large series: its first kid, as often as it is
// there.
func (t *shapes) first(id int32) move {
	s := &t.all[id]
	c := s.kids[0]
	rest := t.suffix(id, 1)
	if rest < 0 && s.rest.kind == noEnd {
		return move{c.len, c.id, c.n - 1, c.id}
	}
	return move{c.len, c.id, c.n, rest}
}

// singles takes kids off one kind at a time, all of it.
func (t *shapes) singles(id int32) []move {
	var list []move
	n := len(t.all[id].kids)
	for k := range n {
		s := &t.all[id]
		c := s.kids[k]
		list = append(list, move{c.len, c.id, c.n, t.series(s, slices.Delete(slices.Clone(s.kids), k, k+1), end{}, s.rest)})
	}
	return list
}

// groups lists every group of kids that can come off in one cut.
func (t *shapes) groups(id int32, number int64) []move {
	s := t.all[id]
	var list []move
	take := make([]int32, len(s.kids))
	for range number - 1 {
		for k := range take { // count up
			if take[k]++; take[k] <= s.kids[k].n {
				break
			}
			take[k] = 0
		}
		var off, stay []kid
		for k, c := range s.kids {
			if take[k] > 0 {
				off = append(off, kid{c.id, take[k], c.len})
			}
			if take[k] < c.n {
				stay = append(stay, kid{c.id, c.n - take[k], c.len})
			}
		}
		if len(stay) == 0 && s.rest.kind == noEnd {
			continue
		}
		list = append(list, move{t.length(off), t.series(&s, off, end{}, end{}), 1, t.series(&s, stay, end{}, s.rest)})
	}
	inorder.Sort(list, func(a, b move) int {
		switch {
		case a.setting != b.setting:
			if a.setting > b.setting {
				return -1
			}
			return 1
		}
		return 0
	})
	return list
}

// A book remembers the moves and the outcomes of shapes.
type book struct {
	*shapes
	known    [][]move
	whole    []bool
	outs     map[at]*outcomes
	work     int64
	complete bool // nothing that could be done was left out so far
}

// at is a shape before a fence that stands at a setting.
type at struct {
	id      int32
	setting int64
}

func newBook(t *shapes) *book {
	return &book{shapes: t, outs: map[at]*outcomes{}, complete: true}
}

// ways returns the moves of a shape.
func (b *book) ways(id int32) []move {
	for len(b.known) < len(b.all) {
		b.known = append(b.known, nil)
		b.whole = append(b.whole, false)
	}
	if b.known[id] == nil {
		m, whole := b.moves(id)
		if m == nil {
			m = []move{}
		}
		for len(b.known) < len(b.all) {
			b.known = append(b.known, nil)
			b.whole = append(b.whole, false)
		}
		b.known[id], b.whole[id] = m, whole
		b.work += int64(len(m)) * 20
	}
	b.complete = b.complete && b.whole[id]
	return b.known[id]
}

// outcomes are the sets of parts that a part may have become when the fence
// moves on; each is sorted.
type outcomes struct {
	sets [][]int32
	// done says that the series is cut up in all of them.
	done bool
}

// mostOutcomes bounds the sets that are followed for a part.
const mostOutcomes = 24

// outcome works out what a part of shape id can become at a setting. Where its
// whole series can be cut up there, only that counts: whatever follows is free
// to happen then or later.
func (b *book) outcome(id int32, setting int64) *outcomes {
	if id < 0 || b.all[id].leaf {
		return &outcomes{sets: [][]int32{{}}, done: true}
	}
	key := at{id, setting}
	if o, ok := b.outs[key]; ok {
		return o
	}
	o := &outcomes{}
	for _, m := range b.ways(id) {
		if m.setting != setting {
			continue
		}
		sub, single := &outcomes{sets: [][]int32{{}}, done: true}, true
		if m.sub >= 0 {
			sub = b.outcome(m.sub, setting)
			single = b.all[m.sub].leaf || b.all[m.sub].axis != b.all[id].axis
		}
		rest := b.outcome(m.rest, setting)
		inSeries := m.rest >= 0 && !b.all[m.rest].leaf && b.all[m.rest].axis == b.all[id].axis
		done := single && (!inSeries || rest.done)
		if o.done && !done {
			continue
		}
		if done && !o.done {
			o.done, o.sets = true, nil
		}
		for _, x := range sub.sets {
			for _, y := range rest.sets {
				o.add(b, union(x, y))
			}
		}
	}
	if !o.done {
		o.add(b, []int32{id})
	}
	b.work += int64(len(o.sets)) * 10
	b.outs[key] = o
	return o
}

// add adds a set unless one that leaves less is there already.
func (o *outcomes) add(b *book, set []int32) {
	for _, s := range o.sets {
		if subset(s, set) {
			return
		}
	}
	if len(o.sets) >= mostOutcomes {
		b.complete = false
		return
	}
	o.sets = append(slices.DeleteFunc(o.sets, func(s []int32) bool { return subset(set, s) }), set)
}

// union joins two sorted sets.
func union(a, b []int32) []int32 {
	if len(a) == 0 {
		return b
	}
	if len(b) == 0 {
		return a
	}
	out := make([]int32, 0, len(a)+len(b))
	for len(a) > 0 && len(b) > 0 {
		switch {
		case a[0] < b[0]:
			out, a = append(out, a[0]), a[1:]
		case a[0] > b[0]:
			out, b = append(out, b[0]), b[1:]
		default:
			out, a, b = append(out, a[0]), a[1:], b[1:]
		}
	}
	return append(append(out, a...), b...)
}

// subset reports whether all of a is in b; both are sorted.
func subset(a, b []int32) bool {
	if len(a) > len(b) {
		return false
	}
	for _, v := range a {
		for len(b) > 0 && b[0] < v {
			b = b[1:]
		}
		if len(b) == 0 || b[0] != v {
			return false
		}
	}
	return true
}
