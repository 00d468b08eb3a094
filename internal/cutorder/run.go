package cutorder

import (
	"boardwrap.example/internal/stop"
	"cmp"
	"slices"

	"boardwrap.example/internal/inorder"
)

// when is a shape at a place in a list of settings.
type when struct{ id, from int32 }

// choice is a move that leads to the end, if any does.
type choice struct {
	move
	ok bool
}

// A runner finds out what to cut at which of a list of settings.
type runner struct {
	*book
	settings []int64
	good     map[when]choice
	able     map[when]bool
}

// all reports whether the settings cut up all parts.
func (r *runner) all(parts []int32) bool {
	for _, id := range parts {
		if !r.ok(id, 0) {
			return false
		}
	}
	return true
}

// ok reports whether a part that is there from a setting on can be cut up.
func (r *runner) ok(id, from int32) bool {
	if id < 0 || r.shapes.all[id].leaf {
		return true
	}
	key := when{id, from}
	if able, known := r.able[key]; known {
		return able
	}
	able := false
	for j := from; j < int32(len(r.settings)) && !able; j++ {
		able = r.choose(id, j).ok
	}
	r.able[key] = able
	return able
}

// choose looks for a move at a setting that leads to the end.
func (r *runner) choose(id, j int32) choice {
	key := when{id, j}
	if c, known := r.good[key]; known {
		return c
	}
	c := choice{}
	for _, m := range r.ways(id) {
		if m.setting == r.settings[j] && r.ok(m.sub, j) && r.ok(m.rest, j) {
			c = choice{m, true}
			break
		}
	}
	r.good[key] = c
	return c
}

// act returns the first move of a part that is there from a setting on.
func (r *runner) act(id, from int32) (int32, move) {
	for j := from; j < int32(len(r.settings)); j++ {
		if c := r.choose(id, j); c.ok {
			return j, c.move
		}
	}
	panic("cutorder: a part is never cut up")
}

// greedy takes one setting after the other, those first that no part needs
// which is still to come, and at each cuts all that can be cut.
type greedy struct {
	*shapes
	settings []int64
	acts     map[int32][]deed
	open     map[int32]bool
	seen     map[int32]bool
	waiting  map[int64][]int32
	future   map[int64]int // by length: shapes still to come that have such a kid
	queue    *inorder.Queue[fence]
}

// deed is a move at a setting.
type deed struct {
	at int32
	move
}

func newGreedy(t *shapes) *greedy {
	return &greedy{shapes: t, acts: map[int32][]deed{}, open: map[int32]bool{}, seen: map[int32]bool{},
		queue: inorder.NewQueue(fence.before), waiting: map[int64][]int32{}, future: map[int64]int{}}
}

// fence is a setting with how hopeful it was when it was put in the queue.
type fence struct {
	setting int64
	future  int
}

// before says which of two is tried first: one without future, then the larger.
func (f fence) before(g fence) bool {
	return cmp.Or(cmp.Compare(f.future, g.future), cmp.Compare(g.setting, f.setting)) < 0
}

// count adds to the future of the lengths below a shape.
func (g *greedy) count(id int32) {
	if g.seen[id] || g.all[id].leaf {
		return
	}
	g.seen[id] = true
	g.lengths(id, func(l int64) { g.future[l]++ })
	for _, c := range g.all[id].kids {
		g.count(c.id)
	}
}

// lengths calls f with the settings that a series can be cut at next, and those
// at which it can be later.
func (g *greedy) lengths(id int32, f func(int64)) {
	s := &g.all[id]
	if s.lead.kind != noEnd {
		f(s.lead.size)
	}
	last := int64(-1)
	for _, c := range s.kids {
		if c.len != last {
			f(c.len)
		}
		last = c.len
	}
}

// run reports whether it came to the end before the Stopper had ended.
func (g *greedy) run(until stop.Stopper, parts []int32) bool {
	for _, each := range []func(id int32){g.count, g.lay} {
		for n, id := range parts {
			if n&63 == 63 && until.Err() != nil {
				return false
			}
			each(id)
		}
	}
	for n := 0; g.queue.Len() > 0; n++ {
		if n&63 == 63 && until.Err() != nil {
			return false
		}
		f := g.queue.Pop()
		switch {
		case len(g.waiting[f.setting]) == 0:
			continue
		case g.future[f.setting] != f.future:
			f.future = g.future[f.setting]
			g.queue.Push(f)
			continue
		}
		g.set(f.setting)
	}
	return true
}

// lay puts a part on the table.
func (g *greedy) lay(id int32) {
	if id < 0 || g.all[id].leaf || g.open[id] {
		return
	}
	g.open[id] = true
	if g.seen[id] { // it is no longer to come
		g.seen[id] = false
		g.lengths(id, func(l int64) { g.future[l]-- })
	}
	s := &g.all[id]
	offer := func(l int64) {
		if len(g.waiting[l]) == 0 {
			g.queue.Push(fence{l, g.future[l]})
		}
		g.waiting[l] = append(g.waiting[l], id)
	}
	switch {
	case s.lead.kind != noEnd:
		offer(s.lead.size)
	case s.large:
		offer(s.kids[0].len)
	default:
		g.lengths(id, offer)
	}
}

// set sets the fence.
func (g *greedy) set(setting int64) {
	at := int32(len(g.settings))
	g.settings = append(g.settings, setting)
	for len(g.waiting[setting]) > 0 {
		list := g.waiting[setting]
		id := list[len(list)-1]
		g.waiting[setting] = list[:len(list)-1]
		if !g.open[id] {
			continue
		}
		m, ok := g.move(id, setting)
		if !ok {
			continue
		}
		g.open[id] = false
		g.acts[id] = append(g.acts[id], deed{at, m})
		g.lay(m.sub)
		g.lay(m.rest)
	}
}

// move takes all kids of a length off a series, of one shape at a time.
func (g *greedy) move(id int32, setting int64) (move, bool) {
	s := &g.all[id]
	switch {
	case s.lead.kind != noEnd:
		return move{setting, -1, 1, g.series(s, s.kids, end{}, s.rest)}, s.lead.size == setting
	case s.large:
		return g.first(id), s.kids[0].len == setting
	}
	for k, c := range s.kids {
		if c.len != setting {
			continue
		}
		stay := slices.Delete(slices.Clone(s.kids), k, k+1)
		if len(stay) == 0 && s.rest.kind == noEnd {
			return move{setting, c.id, c.n - 1, c.id}, true
		}
		return move{setting, c.id, c.n, g.series(s, stay, end{}, s.rest)}, true
	}
	return move{}, false
}

// act returns the first move of a part that is there from a setting on.
func (g *greedy) act(id, from int32) (int32, move) {
	list := g.acts[id]
	k, _ := slices.BinarySearchFunc(list, from, func(d deed, from int32) int { return cmp.Compare(d.at, from) })
	return list[k].at, list[k].move
}
