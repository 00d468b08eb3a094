package packing

import "slices"

// contents collects what sheets held in the course of a search: each list of
// parts once, with a tree of cuts for it.
type contents struct {
	bins  []bin
	lists [][]amount // by bin
	names []uint64   // by bin: what seen knows it by
	seen  map[uint64]bool
	least int64 // scaled area on a sheet that is worth keeping
	nodes int   // of all bins
}

// mostNodes bounds what contents holds.
const mostNodes = 1 << 17

// add keeps what is on a sheet, if it is new and not too little; it reports
// whether it does.
func (c *contents) add(m *meter, b *bin) bool {
	return b.used >= c.least && c.force(m, b)
}

// force is add, however little is on the sheet.
func (c *contents) force(m *meter, b *bin) bool {
	if b.count == 0 {
		return false
	}
	list := b.contents()
	h := uint64(14695981039346656037) // FNV-1a
	for _, a := range list {
		h = (h ^ uint64(a.part)) * 1099511628211
		h = (h ^ uint64(a.n)) * 1099511628211
	}
	m.work(2*int64(len(b.nodes)) + 1)
	if c.seen[h] {
		return false
	}
	m.work(4 * int64(len(b.nodes)))
	c.seen[h] = true
	var own bin
	own.copyFrom(b)
	c.bins, c.lists, c.names = append(c.bins, own), append(c.lists, list), append(c.names, h)
	c.nodes += len(b.nodes)
	return true
}

// thin lets the older half go where there is too much, but for those that are used,
// and reports whether there was. What goes may come again.
func (c *contents) thin(used []int) bool {
	if c.nodes <= mostNodes {
		return false
	}
	half := len(c.bins) / 2
	var stay []int
	for i := range c.bins {
		if i >= half || slices.Contains(used, i) {
			stay = append(stay, i)
		} else {
			delete(c.seen, c.names[i])
		}
	}
	o := *c
	c.bins, c.lists, c.names, c.nodes = nil, nil, nil, 0
	for _, i := range stay {
		c.bins, c.lists, c.names = append(c.bins, o.bins[i]), append(c.lists, o.lists[i]), append(c.names, o.names[i])
		c.nodes += len(o.bins[i].nodes)
	}
	return true
}
