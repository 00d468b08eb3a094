package propose

import "boardwrap.example/units"

// A dealer deals the fittings of a choice out to the leaves, in every way.
type dealer struct {
	s      *searcher
	p      *packer
	opts   []option
	useful func(units.Size) bool
	least  units.Length
	most   []units.Length // of each set, the thickest box
	sets   []int          // of each leaf, what lies on it
	list   []candidate
}

// deal gives a leaf any part of what is left, and those after it the rest. It
// reports whether it got through.
func (d *dealer) deal(i, left int) bool {
	if i == len(d.sets)-1 {
		// Of two leaves that are alike it makes no difference which carries what.
		if i == 1 && d.sets[0] > left && d.s.leaves[0].like(&d.s.leaves[1]) {
			return true
		}
		if d.sets[i] = left; d.some(i) && d.grouped() {
			d.faces()
		}
		return !d.s.over()
	}
	for part := 0; ; {
		if d.sets[i] = part; d.some(i) && !d.deal(i+1, left-part) {
			return false
		}
		if part = d.p.next(part, left); part == 0 {
			return true
		}
	}
}

// some reports whether what lies on a leaf can lie beside each other.
func (d *dealer) some(i int) bool { return d.sets[i] == 0 || len(d.p.shapes[d.sets[i]]) > 0 }

// grouped reports whether the things of each group are on one leaf.
func (d *dealer) grouped() bool {
	for leaf, set := range d.sets {
		for i, t := range d.s.request.Things {
			if t.Group == "" {
				continue
			}
			n := d.p.digit(set, i)
			if n != 0 && n != d.p.boxes[i].count {
				return false
			}
			for j, o := range d.s.request.Things[:i] {
				if o.Group == t.Group && (d.p.digit(d.sets[leaf], j) > 0) != (n > 0) {
					return false
				}
			}
		}
	}
	return true
}

// nothing is what lies on a leaf that stays free.
var nothing = [1]shape{}

// shapes returns the shapes in which a leaf may carry what lies on it.
func (d *dealer) shapes(i int) []shape {
	if d.sets[i] == 0 {
		return nothing[:]
	}
	return d.p.shapes[d.sets[i]]
}

// thickest returns the thickest stack of two leaves, each as thick as what is
// thickest on it.
func (d *dealer) thickest() units.Length {
	var first, second units.Length
	for _, set := range d.sets {
		switch h := d.most[set]; {
		case h > first:
			first, second = h, first
		case h > second:
			second = h
		}
	}
	return first + second
}

// faces adds the covers for what lies on each leaf: the highest shapes first, which
// are the narrowest.
func (d *dealer) faces() {
	s := d.s
	at := make([]int, len(d.sets))
	most := d.thickest()
	var high units.Length
	for i, set := range d.sets {
		s.spend(len(d.shapes(i)))
		if i != s.main {
			for kind := range d.opts {
				b, _ := d.opts[kind].box.bulk.Times(int64(d.p.digit(set, kind)))
				high += b
			}
		}
	}
	from := len(d.list)
	loose := s.loose()
	for {
		c := candidate{parts: make([]*shape, len(d.sets)), least: d.least, most: most, high: high}
		var h, surely units.Length
		ok := true
		for i, set := range d.sets {
			a := &d.shapes(i)[at[i]]
			h = max(h, a.h)
			if set > 0 {
				c.parts[i] = a
				w, is := s.aroundOn(i, a.w)
				c.cover.W, ok = max(c.cover.W, w), ok && is
				w, _ = s.surelyOn(i, a.w)
				surely = max(surely, w)
			}
		}
		if !ok {
			return // and what is wider goes on it even less
		}
		c.cover.H = s.ruler.Up(h + s.extra)
		if n := len(d.list); loose {
			d.wider(c, units.Size{W: surely, H: s.ruler.Up(h + s.extra + s.more)})
		} else if (n == from || c.cover.H < d.list[n-1].cover.H) && d.useful(c.cover) {
			d.list = append(d.list, c)
		}
		// The highest decide: the next ones of them are wider and lower.
		for i := range d.sets {
			if list := d.shapes(i); list[at[i]].h == h {
				if at[i]++; at[i] == len(list) {
					return
				}
			}
		}
	}
}

// wider adds the covers from the smallest that may take a layout to the smallest that
// surely does.
func (d *dealer) wider(c candidate, surely units.Size) {
	least, step := c.cover.H, d.s.ruler.Step()
	for ; c.cover.W <= surely.W; c.cover.W += step {
		for c.cover.H = least; c.cover.H <= surely.H; c.cover.H += step {
			if d.useful(c.cover) {
				d.list = append(d.list, c)
			}
		}
	}
}
