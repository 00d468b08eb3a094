package packing

import (
	"slices"

	"boardwrap.example/internal/inorder"
)

// maker turns a slicing tree into edge-to-edge cuts. Wherever the order of two
// cuts is free, it cuts so that the larger leftover stays whole.
type maker struct {
	t     *task
	b     *bin
	kerf  int64
	limit int64
	nodes []Node
	kids  []int32
	room  int  // about how many nodes there will be
	brief bool // of equal pieces in a row only the first is cut
}

// sheet returns the pattern of bin b, cut times times.
func (t *task) sheet(b *bin, times int) Sheet {
	return (&maker{t: t}).sheet(b, times)
}

// sheet returns the pattern of a bin. Small ones lie one behind the other in what is
// made for many.
func (m *maker) sheet(b *bin, times int) Sheet {
	m.b, m.nodes = b, m.nodes[len(m.nodes):]
	if few := 3 * len(b.nodes); cap(m.nodes) < few {
		m.nodes = make([]Node, 0, max(few, min(m.room, 1024)))
	}
	m.make()
	return Sheet{Stock: m.t.kinds[b.kind].stock, Times: times, Nodes: slices.Clip(m.nodes)}
}

// make makes all the cuts.
func (m *maker) make() {
	m.kerf, m.limit = m.t.p.Kerf, m.t.p.LongestCut
	if m.limit == 0 {
		m.limit = 2 * MaxSide
	}
	st := &m.t.p.Stock[m.t.kinds[m.b.kind].stock]
	m.add(0, 0, st.W, st.H)
	if m.b.root >= 0 {
		m.lay(m.b.root, 0, st.Trim, st.Trim)
	} else {
		m.spare(0)
	}
}

func (m *maker) add(x, y, w, h int64) int {
	m.nodes = append(m.nodes, Node{X: x, Y: y, W: w, H: h, Item: -1, A: -1, B: -1})
	return len(m.nodes) - 1
}

// spare marks part i as a leftover.
func (m *maker) spare(i int) {
	n := &m.nodes[i]
	if min(n.W, n.H) >= m.t.p.KeepShort && max(n.W, n.H) >= m.t.p.KeepLong {
		n.Use = Offcut
	}
}

// cut makes a cut in part i and returns the two parts, −1 for none.
func (m *maker) cut(i int, use Use, at int64) (a, b int) {
	a, b = -1, -1
	n := m.nodes[i]
	after := at + m.kerf
	if use == CutX {
		if at > 0 {
			a = m.add(n.X, n.Y, at, n.H)
		}
		if after < n.W {
			b = m.add(n.X+after, n.Y, n.W-after, n.H)
		}
	} else {
		if at > 0 {
			a = m.add(n.X, n.Y, n.W, at)
		}
		if after < n.H {
			b = m.add(n.X, n.Y+after, n.W, n.H-after)
		}
	}
	n.Use, n.At, n.A, n.B = use, at, a, b
	m.nodes[i] = n
	return a, b
}

// split cuts part i so that the first part is size long, the rest is left over.
func (m *maker) split(i int, use Use, size int64) int {
	a, b := m.cut(i, use, size)
	if b >= 0 {
		m.spare(b)
	}
	return a
}

// trim takes both edges off part i.
func (m *maker) trim(i int, use Use, by int64) int {
	_, i = m.cut(i, use, by-m.kerf)
	n := &m.nodes[i]
	size := n.W
	if use == CutY {
		size = n.H
	}
	i, _ = m.cut(i, use, size-by)
	return i
}

// lay cuts tree node x from part i, of which tx and ty are still to be trimmed.
func (m *maker) lay(x int32, i int, tx, ty int64) {
	for {
		p := &m.nodes[i]
		if ty > 0 && p.W <= m.limit {
			i, ty = m.trim(i, CutY, ty), 0
			continue
		}
		if tx > 0 && p.H <= m.limit {
			i, tx = m.trim(i, CutX, tx), 0
			continue
		}
		n := &m.b.nodes[x]
		w, h := n.w-m.kerf, n.h-m.kerf
		slackX := tx == 0 && p.W > w
		slackY := ty == 0 && p.H > h
		canX, canY := p.H <= m.limit, p.W <= m.limit
		// The larger leftover comes off first, in one piece.
		offX := mulArea(max(0, p.W-w-m.kerf), p.H)
		offY := mulArea(max(0, p.H-h-m.kerf), p.W)
		firstX := slackX && canX && (!slackY || !canY || offX.Cmp(offY) >= 0)
		switch {
		case firstX:
			i = m.split(i, CutX, w)
			continue
		case slackY && canY:
			i = m.split(i, CutY, h)
			continue
		case n.dir == leaf:
			m.pieces(n, i)
			return
		}
		m.series(x, i, tx, ty)
		return
	}
}

// series cuts the children of x off part i one after the other.
func (m *maker) series(x int32, i int, tx, ty int64) {
	from := len(m.kids)
	for c := m.b.nodes[x].down; c >= 0; c = m.b.nodes[c].next {
		m.kids = append(m.kids, c)
	}
	kids := m.kids[from:]
	along := m.b.nodes[x].dir
	inorder.Sort(kids, func(a, b int32) int {
		na, nb := &m.b.nodes[a], &m.b.nodes[b]
		d := [3]int64{nb.w - na.w, nb.h - na.h, int64(na.piece - nb.piece)}
		if along == col {
			d[0], d[1] = d[1], d[0]
		}
		for _, v := range d {
			if v != 0 {
				return int(v>>63) | 1
			}
		}
		return 0
	})
	for j := range kids {
		c := m.kids[from+j]
		p, n := &m.nodes[i], &m.b.nodes[c]
		use, size, have := CutX, n.w-m.kerf, p.W
		if along == col {
			use, size, have = CutY, n.h-m.kerf, p.H
		}
		if size == have {
			m.lay(c, i, tx, ty)
			i = -1
			break
		}
		a, b := m.cut(i, use, size)
		m.lay(c, a, tx, ty)
		i = b
	}
	if i >= 0 {
		m.spare(i)
	}
	m.kids = m.kids[:from]
}

// pieces cuts part i, which a leaf fills, into its pieces: into columns first.
func (m *maker) pieces(n *node, i int) {
	item := m.t.parts[n.piece].item
	w, h := n.w/int64(max(1, n.nx))-m.kerf, n.h/int64(max(1, n.ny))-m.kerf
	colsFirst := m.nodes[i].H <= m.limit
	strip := func(i int, use Use, size int64, each func(i int)) {
		for i >= 0 {
			have := m.nodes[i].W
			if use == CutY {
				have = m.nodes[i].H
			}
			if have == size {
				each(i)
				return
			}
			var a int
			a, i = m.cut(i, use, size)
			if each(a); m.brief {
				return
			}
		}
	}
	one := func(i int) {
		p := &m.nodes[i]
		p.Use, p.Item, p.Turned = Piece, item, n.turned
	}
	if colsFirst {
		strip(i, CutX, w, func(i int) { strip(i, CutY, h, one) })
	} else {
		strip(i, CutY, h, func(i int) { strip(i, CutX, w, one) })
	}
}
