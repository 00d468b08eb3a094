package packing

// A bin is one sheet in the making: a slicing tree over pieces. A row sets its
// children side by side along x, a column one above the other along y, and
// rows and columns take turns on the way down. Only the least box of each node
// is kept; what is left over is implied: each node may still grow up to (aw,
// ah), so a piece can go in wherever the whole stays within the sheet.
type bin struct {
	kind  int32
	root  int32 // -1 when empty
	spare int32 // list of unused nodes, through next
	used  int64 // scaled area of the pieces
	count int
	// No piece wider than gapX finds room in a row, none higher than gapY in a
	// column.
	gapX, gapY int64
	state      int64 // tells different contents and layouts apart, see memo
	nodes      []node
}

type node struct {
	w, h           int64 // least box
	aw, ah         int64 // what the box may grow to
	up, down, next int32
	piece          int32
	nx, ny         int32 // a leaf of many equal pieces: so many side by side and above
	dir            dir
	opts           uint8 // directions in which a piece can be joined here
	turned         bool
}

type dir uint8

const (
	leaf dir = iota
	row      // children along x
	col      // children along y
	dead     // not in use
)

const (
	optRow uint8 = 1
	optCol uint8 = 2
)

// copies is the number of pieces of a leaf.
func (n *node) copies() int { return int(max(1, n.nx)) * int(max(1, n.ny)) }

//go:noinline
func (b *bin) clear(kind int32) {
	b.kind, b.root, b.spare, b.used, b.count = kind, -1, -1, 0, 0
	b.nodes = b.nodes[:0]
}

//go:noinline
func (b *bin) copyFrom(o *bin) {
	nodes := append(b.nodes[:0], o.nodes...)
	*b = *o
	b.nodes = nodes
}

//go:noinline
func (b *bin) alloc(n node) int32 {
	if b.spare >= 0 {
		i := b.spare
		b.spare = b.nodes[i].next
		b.nodes[i] = n
		return i
	}
	b.nodes = append(b.nodes, n)
	return int32(len(b.nodes) - 1)
}

func (b *bin) release(i int32) {
	b.nodes[i] = node{dir: dead, next: b.spare}
	b.spare = i
}

// replace puts node y where x stands in x's parent (or at the root).
func (b *bin) replace(x, y int32) {
	up := b.nodes[x].up
	b.nodes[y].up = up
	b.nodes[y].next = b.nodes[x].next
	if up < 0 {
		b.root = y
		return
	}
	if b.nodes[up].down == x {
		b.nodes[up].down = y
		return
	}
	c := b.nodes[up].down
	for b.nodes[c].next != x {
		c = b.nodes[c].next
	}
	b.nodes[c].next = y
}

// insert joins a piece to node x (-1: the empty sheet) in direction d, and
// returns its leaf.
func (b *bin) insert(x int32, d dir, piece int32, w, h int64, turned bool, score int64) int32 {
	b.used += score
	b.count++
	l := b.alloc(node{w: w, h: h, up: -1, down: -1, next: -1, piece: piece, dir: leaf, turned: turned})
	switch {
	case x < 0:
		b.root = l
	case b.nodes[x].dir == d:
		b.nodes[l].up = x
		b.nodes[l].next = b.nodes[x].down
		b.nodes[x].down = l
	default:
		j := b.alloc(node{down: x, piece: -1, dir: d})
		b.replace(x, j)
		b.nodes[x].up, b.nodes[x].next = j, l
		b.nodes[l].up = j
	}
	return l
}

// remove takes a leaf out and closes the gap; sizes are stale until refresh.
func (b *bin) remove(l int32, copies int, score int64) {
	b.used -= score * int64(copies)
	b.count -= copies
	up := b.nodes[l].up
	if up < 0 {
		b.root = -1
		b.release(l)
		return
	}
	if b.nodes[up].down == l {
		b.nodes[up].down = b.nodes[l].next
	} else {
		c := b.nodes[up].down
		for b.nodes[c].next != l {
			c = b.nodes[c].next
		}
		b.nodes[c].next = b.nodes[l].next
	}
	b.release(l)
	c := b.nodes[up].down
	if b.nodes[c].next >= 0 {
		return
	}
	// One child left: it takes its parent's place.
	b.replace(up, c)
	b.release(up)
	g := b.nodes[c].up
	if g < 0 || b.nodes[c].dir != b.nodes[g].dir {
		return
	}
	// A row in a row (or column in column): its children move up.
	first := b.nodes[c].down
	last := first
	for {
		b.nodes[last].up = g
		if b.nodes[last].next < 0 {
			break
		}
		last = b.nodes[last].next
	}
	b.nodes[last].next = b.nodes[c].next
	if b.nodes[g].down == c {
		b.nodes[g].down = first
	} else {
		p := b.nodes[g].down
		for b.nodes[p].next != c {
			p = b.nodes[p].next
		}
		b.nodes[p].next = first
	}
	b.release(c)
}

// refresh works out all sizes and allowances anew.
func (b *bin) refresh(k *kind) {
	if b.root < 0 {
		b.nodes = b.nodes[:0]
		b.spare = -1
		return
	}
	b.measure(b.root)
	b.gapX, b.gapY = k.w-b.nodes[b.root].w, k.h-b.nodes[b.root].h
	b.allow(b.root, k.w, k.h)
	b.nodes[b.root].opts = optRow | optCol
}

func (b *bin) measure(x int32) {
	n := &b.nodes[x]
	if n.dir == leaf {
		return
	}
	var w, h int64
	for c := n.down; c >= 0; c = b.nodes[c].next {
		if b.nodes[c].dir != leaf {
			b.measure(c)
		}
		cn := &b.nodes[c]
		if n.dir == row {
			w += cn.w
			h = max(h, cn.h)
		} else {
			h += cn.h
			w = max(w, cn.w)
		}
	}
	n.w, n.h = w, h
}

func (b *bin) allow(x int32, aw, ah int64) {
	n := &b.nodes[x]
	n.aw, n.ah = aw, ah
	switch n.dir {
	case leaf:
		if n.up >= 0 && b.nodes[n.up].dir == row {
			n.opts = optCol
			b.gapY = max(b.gapY, ah-n.h)
		} else {
			n.opts = optRow
			b.gapX = max(b.gapX, aw-n.w)
		}
	case row:
		n.opts = optRow
		s := aw - n.w
		b.gapX = max(b.gapX, s)
		for c := n.down; c >= 0; c = b.nodes[c].next {
			b.allow(c, b.nodes[c].w+s, ah)
		}
	case col:
		n.opts = optCol
		s := ah - n.h
		b.gapY = max(b.gapY, s)
		for c := n.down; c >= 0; c = b.nodes[c].next {
			b.allow(c, aw, b.nodes[c].h+s)
		}
	}
}

// legal reports whether the tree keeps the sheet's longest cut.
func (b *bin) legal(k *kind) bool {
	if k.mode == cutFree || b.root < 0 {
		return true
	}
	top := row // the direction of the only first cuts is across it
	if k.mode == cutRows {
		top = col
	}
	r := &b.nodes[b.root]
	if r.dir == top && k.mode != cutNone {
		for c := r.down; c >= 0; c = b.nodes[c].next {
			if !b.strip(k, c) {
				return false
			}
		}
		return true
	}
	return b.strip(k, b.root)
}

// strip reports whether node x can be one strip of a sheet too long to cut.
//
//go:noinline
func (b *bin) strip(k *kind, x int32) bool {
	n := &b.nodes[x]
	switch k.mode {
	case cutRows:
		return n.h <= k.limit || n.dir == leaf && n.w == k.w && k.whole
	case cutCols:
		return n.w <= k.limit || n.dir == leaf && n.h == k.h && k.whole
	case cutNone:
		return n.dir == leaf && n.w == k.w && n.h == k.h
	}
	return true
}
