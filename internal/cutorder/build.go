package cutorder

import (
	"boardwrap.example/internal/inorder"
	"boardwrap.example/internal/packing"
)

// builder carries an order out: it cuts the sheets up and writes down the steps.
type builder struct {
	*shapes
	from   []packing.Sheet
	sheets []packing.Sheet
	steps  []Step

	number int
	now    pass
	made   map[when]*task
	tasks  []*task
	sheet  int
	sweep  int // the first step of those that are put in order now
}

// A task is a step in the making: parts of one shape at one setting.
type task struct {
	Step
	at    int32
	after []*task // tasks at the same setting that make some of its parts
	done  bool
}

func newBuilder(t *shapes, from []packing.Sheet) *builder {
	b := &builder{shapes: t, from: from, sheets: make([]packing.Sheet, len(from))}
	for i, s := range from {
		b.sheets[i] = packing.Sheet{Stock: s.Stock, Times: s.Times, Nodes: make([]packing.Node, 0, len(s.Nodes))}
	}
	return b
}

// pass cuts up the sheets of a pass.
func (b *builder) pass(number int, p pass, roots []int32) {
	b.number, b.now, b.made, b.tasks = number, p, map[when]*task{}, nil
	for _, i := range p.sheets {
		b.sheet = i
		n := b.from[i].Nodes[0]
		b.add(0, 0, n.W, n.H)
		b.cut(0, roots[i], 0, nil)
	}
	b.sort()
}

func (b *builder) add(x, y, w, h int64) int {
	s := &b.sheets[b.sheet]
	s.Nodes = append(s.Nodes, packing.Node{X: x, Y: y, W: w, H: h, Item: -1, A: -1, B: -1})
	return len(s.Nodes) - 1
}

// cut cuts up node i into a shape, from a setting on; by made the part.
func (b *builder) cut(i int, id, from int32, by *task) {
	var in *task // the step that goes on along the rest of the part
	first := false
	for {
		s := b.all[id]
		if s.leaf {
			n := &b.sheets[b.sheet].Nodes[i]
			n.Use, n.Item, n.Turned = s.use, s.item, s.turned
			return
		}
		at, m := b.now.act(id, from)
		if in == nil || in.at != at || in.Axis != s.axis {
			in = b.task(at, id, s.axis, i, by)
			first = len(in.Parts) == 1
		}
		for range m.n {
			a, rest := b.split(i, s.axis, m.setting)
			if first {
				in.Cuts++
			}
			switch {
			case a >= 0 && m.sub < 0:
				b.spare(a, s.lead.kind)
			case a >= 0:
				b.cut(a, m.sub, at, in)
			}
			i = rest
		}
		if m.rest < 0 {
			if i >= 0 {
				b.spare(i, s.rest.kind)
			}
			return
		}
		id, from, by = m.rest, at, in
	}
}

func (b *builder) spare(i int, kind endKind) {
	if kind == offcut {
		b.sheets[b.sheet].Nodes[i].Use = packing.Offcut
	}
}

// split cuts node i and returns the two parts, −1 for none.
func (b *builder) split(i int, axis packing.Use, setting int64) (first, rest int) {
	first, rest = -1, -1
	n := b.sheets[b.sheet].Nodes[i]
	after := setting + b.kerf
	if axis == packing.CutX {
		if setting > 0 {
			first = b.add(n.X, n.Y, setting, n.H)
		}
		if after < n.W {
			rest = b.add(n.X+after, n.Y, n.W-after, n.H)
		}
	} else {
		if setting > 0 {
			first = b.add(n.X, n.Y, n.W, setting)
		}
		if after < n.H {
			rest = b.add(n.X, n.Y+after, n.W, n.H-after)
		}
	}
	n.Use, n.At, n.A, n.B = axis, setting, first, rest
	b.sheets[b.sheet].Nodes[i] = n
	return first, rest
}

// task returns the task at a setting for a shape, with node i as one more of its
// parts.
func (b *builder) task(at, id int32, axis packing.Use, i int, by *task) *task {
	key := when{id, at}
	t := b.made[key]
	if t == nil {
		t = &task{Step: Step{Pass: b.number, Axis: axis, Setting: b.now.settings[at]}, at: at}
		b.made[key] = t
		b.tasks = append(b.tasks, t)
	}
	t.Parts = append(t.Parts, Ref{b.sheet, i})
	if by != nil && by.at == at && by != t && (len(t.after) == 0 || t.after[len(t.after)-1] != by) {
		t.after = append(t.after, by)
	}
	return t
}

// sort puts the tasks of a pass in order: by settings, and at one setting those
// that go in the direction in hand first.
func (b *builder) sort() {
	inorder.Sort(b.tasks, func(x, y *task) int { return int(x.at - y.at) })
	for len(b.tasks) > 0 {
		n := 1
		for n < len(b.tasks) && b.tasks[n].at == b.tasks[0].at {
			n++
		}
		b.settle(b.tasks[:n])
		b.tasks = b.tasks[n:]
	}
}

// settle orders the tasks at one setting.
func (b *builder) settle(list []*task) {
	ready := func(t *task) bool {
		for _, a := range t.after {
			if !a.done {
				return false
			}
		}
		return true
	}
	for len(list) > 0 {
		axis := list[0].Axis
		if k := len(b.steps); k > 0 {
			axis = b.steps[k-1].Axis
		}
		moved := false
		for try := range 2 {
			var now, later []*task
			for _, t := range list {
				if t.Axis == axis && ready(t) {
					now = append(now, t)
				} else {
					later = append(later, t)
				}
			}
			b.sweep = len(b.steps)
			for _, t := range now {
				t.done, moved = true, true
				b.put(t)
			}
			list = later
			if moved || try == 1 {
				break
			}
			axis = packing.CutX + packing.CutY - axis
		}
		if !moved { // they wait for each other, which parts that shrink never do
			for _, t := range list {
				b.steps = append(b.steps, t.Step)
			}
			return
		}
	}
}

// put adds a task to the steps: to one that does the same to parts of the same
// size, if there is one at this setting that waits for nothing of it.
func (b *builder) put(t *task) {
	size := b.size(t.Step)
	for i := len(b.steps) - 1; i >= b.sweep; i-- {
		if s := &b.steps[i]; s.Cuts == t.Cuts && b.size(*s) == size {
			s.Parts = append(s.Parts, t.Parts...)
			return
		}
	}
	b.steps = append(b.steps, t.Step)
}

func (b *builder) size(s Step) [2]int64 {
	n := &b.sheets[s.Parts[0].Sheet].Nodes[s.Parts[0].Node]
	return [2]int64{n.W, n.H}
}
