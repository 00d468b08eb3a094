package cutorder_test

import (
	"cmp"
	"container/heap"

	"boardwrap.example/internal/packing"
)

// plain is the order of work that this package is measured against: sheet by
// sheet, level by level of the tree of cuts as the engine gives it, equal
// settings of one level together, a turn being a new setting. It is kept as it
// was before there was a search for fewer settings.
func plain(sheets []packing.Sheet) (settings int, cuts int64) {
	var last fence
	set := false
	for i := range sheets {
		s := &sheets[i]
		if u := s.Nodes[0].Use; u != packing.CutX && u != packing.CutY {
			continue
		}
		p := &plainOrder{s: s}
		p.shapes()
		level := []chain{{parts: []int{0}}}
		for len(level) > 0 {
			var next []chain
			groups := map[int]int{}
			q := &queue{waiting: map[fence][]int{}}
			at := make([]int, len(level))
			for i := range level {
				p.unroll(&level[i])
				q.add(level[i].ops[0].key, i)
			}
			for {
				i, ok := q.take(last, set)
				if !ok {
					break
				}
				c := &level[i]
				o := c.ops[at[i]]
				if !set || o.key != last {
					settings++
				}
				last, set = o.key, true
				cuts += int64(o.cuts) * int64(len(c.parts)) * int64(s.Times)
				for _, g := range o.give {
					if u := s.Nodes[g].Use; u != packing.CutX && u != packing.CutY {
						continue
					}
					to, seen := groups[p.shape[g]]
					if !seen {
						to = len(next)
						groups[p.shape[g]] = to
						next = append(next, chain{})
					}
					next[to].parts = append(next[to].parts, g)
				}
				if at[i]++; at[i] < len(c.ops) {
					q.add(c.ops[at[i]].key, i)
				}
			}
			level = next
		}
	}
	return settings, cuts
}

type fence struct {
	axis packing.Use
	at   int64
}

type chain struct {
	parts []int
	ops   []op
}

type op struct {
	key  fence
	cuts int
	give []int
}

type plainOrder struct {
	s     *packing.Sheet
	shape []int
}

func (p *plainOrder) shapes() {
	type key struct {
		use  packing.Use
		w, h int64
		at   int64
		a, b int
	}
	seen := map[key]int{}
	p.shape = make([]int, len(p.s.Nodes))
	for i := len(p.s.Nodes) - 1; i >= 0; i-- {
		n := p.s.Nodes[i]
		k := key{n.Use, n.W, n.H, n.At, -1, -1}
		if n.A >= 0 {
			k.a = p.shape[n.A]
		}
		if n.B >= 0 {
			k.b = p.shape[n.B]
		}
		id, ok := seen[k]
		if !ok {
			id = len(seen)
			seen[k] = id
		}
		p.shape[i] = id
	}
}

func (p *plainOrder) unroll(c *chain) {
	rest := append([]int(nil), c.parts...)
	axis := p.s.Nodes[rest[0]].Use
	for {
		n := p.s.Nodes[rest[0]]
		k := fence{axis, n.At}
		if m := len(c.ops); m == 0 || c.ops[m-1].key != k {
			c.ops = append(c.ops, op{key: k})
		}
		o := &c.ops[len(c.ops)-1]
		o.cuts++
		for i, r := range rest {
			q := p.s.Nodes[r]
			if q.A >= 0 {
				o.give = append(o.give, q.A)
			}
			rest[i] = q.B
		}
		if rest[0] < 0 {
			return
		}
		if p.s.Nodes[rest[0]].Use != axis {
			o.give = append(o.give, rest...)
			return
		}
	}
}

// queue holds chains by the setting that they wait for: level cuts after upright
// ones, the largest setting first.
type queue struct {
	keys    []fence
	waiting map[fence][]int
}

func (q *queue) add(k fence, chain int) {
	list, known := q.waiting[k]
	q.waiting[k] = append(list, chain)
	if !known {
		heap.Push(q, k)
	}
}

func (q *queue) take(last fence, set bool) (chain int, ok bool) {
	if set {
		if list := q.waiting[last]; len(list) > 0 {
			q.waiting[last] = list[1:]
			return list[0], true
		}
	}
	for len(q.keys) > 0 {
		k := q.keys[0]
		if list := q.waiting[k]; len(list) > 0 {
			q.waiting[k] = list[1:]
			return list[0], true
		}
		heap.Pop(q)
		delete(q.waiting, k)
	}
	return 0, false
}

func (q *queue) Len() int { return len(q.keys) }
func (q *queue) Less(i, j int) bool {
	a, b := q.keys[i], q.keys[j]
	return cmp.Or(cmp.Compare(a.axis, b.axis), cmp.Compare(b.at, a.at)) < 0
}
func (q *queue) Swap(i, j int) { q.keys[i], q.keys[j] = q.keys[j], q.keys[i] }
func (q *queue) Push(x any)    { q.keys = append(q.keys, x.(fence)) }
func (q *queue) Pop() any {
	n := len(q.keys) - 1
	k := q.keys[n]
	q.keys = q.keys[:n]
	return k
}
