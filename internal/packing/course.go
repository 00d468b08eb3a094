package packing

import (
	"boardwrap.example/internal/stop"
	"slices"
)

// A course is a run of the search, and where pieces may turn a second run beside
// it, of the same pieces as they lie. Each goes stage by stage as it would alone,
// and the better layout is the answer: so leave to turn never gives a worse one,
// whatever the budget, in anything that is compared before the offcut.
type course struct {
	v *solver
	u *solver // without turns; nil if there is no need for it
	// looked is the work of finding out whether there is.
	looked int64
	known  int // bound on what u can reach, and whether it places everything
	whole  bool
}

// unturned adds a run without turns.
func (c *course) unturned(until stop.Stopper, p Problem, limit int64) {
	p.Items = slices.Clone(p.Items)
	for i := range p.Items {
		p.Items[i].Turn = false
	}
	c.u = newSolver(until, p, limit)
	c.whole = c.u.t.total == c.v.t.total
}

// run works until nothing is left to be done or to be spent.
func (c *course) run() {
	v := c.v
	on := v.begin()
	also := c.u != nil && c.contest()
	if also {
		// A bound may tell at once that it cannot be better.
		mt := newMeter(v.mt.until, v.mt.end)
		c.known, _, _ = c.u.t.dualBound(mt, c.u.t.total, 10_000)
		c.looked = mt.steps
		also = c.contest() && c.u.begin()
		c.join()
	}
	for on || also {
		if on {
			on = v.next()
		}
		if also = also && c.contest(); also {
			also = c.u.next()
			c.join()
		}
	}
	// With what cannot lie unturned, the other layout measures no less than alone.
	if c.u != nil && c.u.best != nil && c.u.m.less(v.m) {
		sheets, short := c.turnable()
		if m := v.measure(sheets, short); m.less(v.m) {
			more := m.short < v.m.short
			if v.best, v.short, v.m = sheets, short, m; more {
				v.bounds(10_000)
			}
		}
	}
}

// contest reports whether the run without turns may still come to something
// better.
func (c *course) contest() bool {
	v, u := c.v, c.u
	if v.mt.stopped || v.exact || v.settled() {
		return false
	}
	if v.m.short > 0 {
		return true
	}
	if !c.whole {
		return false
	}
	if u.best != nil && u.m.short == 0 {
		c.known = max(c.known, u.lower)
	}
	return v.m.ordinary > c.known || !v.cheapest()
}

// join has the run with turns go on from the layout of the other, if that is
// better.
func (c *course) join() {
	if c.u.best == nil || c.v.mt.spent(noLimit) {
		return
	}
	c.v.offer(c.turnable())
}

// turnable is the layout of the run without turns, as one of the parts that may
// turn.
func (c *course) turnable() (sheets []stacked, short []int) {
	v, u := c.v, c.u
	at := make([]int32, len(v.t.p.Items)) // part by item
	for q := range v.t.parts {
		at[v.t.parts[q].item] = int32(q)
		short = append(short, v.t.parts[q].n)
	}
	nodes := 0
	for i := range u.best {
		nodes += len(u.best[i].b.nodes)
	}
	v.mt.work(int64(nodes+len(short))/4 + 1)
	for _, s := range u.best {
		var b bin
		b.copyFrom(&s.b)
		for i := range b.nodes {
			if n := &b.nodes[i]; n.dir == leaf {
				n.piece = at[u.t.parts[n.piece].item]
				short[n.piece] -= n.copies() * s.times
			}
		}
		v.mt.past(int64(len(b.nodes)))
		sheets = append(sheets, stacked{b, s.times})
	}
	return sheets, short
}

func (c *course) steps() int64 {
	n := c.v.mt.steps + c.looked
	if c.u != nil {
		n += c.u.mt.steps
	}
	return n
}

func (c *course) stopped() bool { return c.v.mt.stopped || c.u != nil && c.u.mt.stopped }

// report has the meters tell fn of the progress, 200 times in a whole run.
func (c *course) report(fn func(Progress)) {
	if fn == nil {
		return
	}
	each, next := c.v.mt.end/200, int64(0)
	tell := func(*meter) {
		if n := c.steps(); n >= next {
			next = n + each
			fn(c.progress())
		}
	}
	c.v.mt.tell = tell
	if c.u != nil {
		c.u.mt.tell = tell
		each *= 2
	}
}

func (c *course) progress() Progress {
	v := c.v
	p := Progress{Steps: c.steps(), Of: v.mt.end, Best: -1, Bound: v.lower}
	if c.u != nil {
		p.Of *= 2
	}
	p.Steps = min(p.Steps, p.Of)
	if v.best != nil {
		p.Best = v.m.ordinary
		p.Bound = min(p.Bound, p.Best)
	}
	return p
}
