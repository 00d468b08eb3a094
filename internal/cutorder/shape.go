package cutorder

import (
	"cmp"
	"encoding/binary"
	"math"
	"slices"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/internal/packing"
)

// A shape is what a part is to become: a leaf, or a series of other shapes.
// Parts of one shape are cut alike. Shapes are interned, so that equal ones have
// one index.
type shape struct {
	w, h int64
	// A leaf has an item, or none for a leftover.
	leaf   bool
	item   int
	turned bool
	use    packing.Use
	// A series is cut along its axis into its lead, kids and rest.
	axis packing.Use
	kids []kid
	lead end
	rest end
	// One large series after another is cut from its first kid to its last; all
	// else in any order.
	large bool
}

// A kid is n strips of one shape, len long along the series.
type kid struct {
	id  int32
	n   int32
	len int64
}

// An end is what is left at an end of a series.
type end struct {
	kind endKind
	size int64
}

type endKind uint8

const (
	noEnd     endKind = iota
	waste             // thrown away
	offcut            // worth keeping
	offTheEnd         // nothing: the cut takes away all that is there
)

// mostKids is the number of different kids beyond which a series is large.
const mostKids = 24

// along is the length of a shape along an axis.
func (s *shape) along(axis packing.Use) int64 {
	if axis == packing.CutX {
		return s.w
	}
	return s.h
}

// shapes interns shapes.
type shapes struct {
	kerf  int64
	keep  [2]int64
	long  int64 // of the longest cut, 0 without a limit
	all   []shape
	index map[string]int32
	key   []byte
	// Kids with the same leftover at their end are kept together where known
	// holds the length of such a group, or the group is the rest of a series.
	known  map[int64]bool
	merged bool // some kids are
}

func newShapes(o *Options) *shapes {
	return &shapes{kerf: o.Kerf, keep: [2]int64{o.KeepShort, o.KeepLong}, long: o.LongestCut, index: map[string]int32{}}
}

func (t *shapes) intern(s shape) int32 {
	k := t.key[:0]
	put := func(v int64) { k = binary.AppendVarint(k, v) }
	put(s.w)
	put(s.h)
	if s.leaf {
		put(int64(s.use))
		put(int64(s.item))
		if s.turned {
			put(1)
		}
	} else {
		put(-int64(s.axis))
		put(int64(s.lead.kind))
		put(s.lead.size)
		put(int64(s.rest.kind))
		put(s.rest.size)
		for _, c := range s.kids {
			put(int64(c.id))
			put(int64(c.n))
		}
	}
	t.key = k
	if id, ok := t.index[string(k)]; ok {
		return id
	}
	return t.add(string(k), s)
}

func (t *shapes) add(key string, s shape) int32 {
	id := int32(len(t.all))
	t.all = append(t.all, s)
	t.index[key] = id
	return id
}

// suffix returns a large series without its first kids; it costs no copy.
func (t *shapes) suffix(id int32, from int) int32 {
	s := t.all[id]
	if from == len(s.kids) {
		return -1
	}
	if from == len(s.kids)-1 && s.kids[from].n == 1 && s.rest.kind == noEnd {
		return s.kids[from].id
	}
	k := binary.AppendVarint(append(t.key[:0], 0), int64(id))
	k = binary.AppendVarint(k, int64(from))
	t.key = k
	if id, ok := t.index[string(k)]; ok {
		return id
	}
	s.kids = s.kids[from:]
	t.stretch(&s)
	return t.add(string(k), s)
}

// length is how long kids are in one piece.
func (t *shapes) length(kids []kid) int64 {
	sum := -t.kerf
	for _, c := range kids {
		sum += int64(c.n) * (c.len + t.kerf)
	}
	return sum
}

// stretch works out how long a series is.
func (t *shapes) stretch(s *shape) {
	n := t.length(s.kids)
	for _, e := range [...]end{s.lead, s.rest} {
		if e.kind != noEnd {
			n += e.size + t.kerf
		}
	}
	if s.axis == packing.CutX {
		s.w = n
	} else {
		s.h = n
	}
}

// series returns the shape of some kids of a series, −1 where there are none
// and only the leftover remains.
func (t *shapes) series(of *shape, kids []kid, lead, rest end) int32 {
	if len(kids) == 0 {
		return -1
	}
	if len(kids) == 1 && kids[0].n == 1 && lead.kind == noEnd && rest.kind == noEnd {
		return kids[0].id
	}
	s := shape{w: of.w, h: of.h, axis: of.axis, kids: kids, lead: lead, rest: rest, large: len(kids) > mostKids}
	t.stretch(&s)
	return t.intern(s)
}

// A strip is an entry of a series as the layout has it.
type strip struct {
	id   int32 // a shape, −1 for a leftover
	kind endKind
	size int64
	at   int64 // where it begins on the sheet
}

// of returns the shape of node i of a sheet.
func (t *shapes) of(s *packing.Sheet, i int, trim int64) int32 {
	n := &s.Nodes[i]
	if n.Use != packing.CutX && n.Use != packing.CutY {
		return t.intern(shape{w: n.W, h: n.H, leaf: true, item: n.Item, turned: n.Turned, use: n.Use})
	}
	strips := t.strips(nil, s, i, n.Use, trim)
	out := shape{w: n.W, h: n.H, axis: n.Use}
	long := s.Nodes[0].W
	if n.Use == packing.CutY {
		long = s.Nodes[0].H
	}
	// The trim stays where it is.
	if e := strips[0]; trim > 0 && e.id < 0 && e.at == 0 && e.size <= trim {
		out.lead = end{e.kind, e.size}
		strips = strips[1:]
	}
	var trail end
	if e := strips[len(strips)-1]; trim > 0 && len(strips) > 1 && e.id < 0 && e.size <= trim && e.at+e.size >= long-t.kerf {
		trail = end{e.kind, e.size}
		strips = strips[:len(strips)-1]
	}
	counts := map[int32]int32{}
	for _, e := range strips {
		if e.id >= 0 {
			if counts[e.id]++; counts[e.id] == 1 {
				out.kids = append(out.kids, kid{id: e.id, len: e.size})
			}
			continue
		}
		out.rest = t.join(out.rest, end{e.kind, e.size}, &out)
	}
	for k := range out.kids {
		out.kids[k].n = counts[out.kids[k].id]
	}
	switch {
	case trail.kind == noEnd:
	case out.rest.kind == offcut:
		// The trim is cut off what is kept.
		w, h := out.rest.size, n.H
		if n.Use == packing.CutY {
			w, h = n.W, out.rest.size
		}
		out.kids = append(out.kids, kid{t.intern(shape{w: w, h: h, leaf: true, item: -1, use: packing.Offcut}), 1, out.rest.size})
		out.rest = trail
	case out.rest.kind == noEnd:
		out.rest = trail
	default:
		out.rest = end{waste, out.rest.size + t.kerf + trail.size}
	}
	if len(out.kids) == 0 {
		return t.intern(shape{w: n.W, h: n.H, leaf: true, item: -1, use: t.left(n.W, n.H)})
	}
	if t.known != nil {
		t.gather(&out)
	}
	sortKids(out.kids)
	return t.series(&out, out.kids, out.lead, out.rest)
}

func sortKids(kids []kid) {
	inorder.Sort(kids, func(a, b kid) int { return cmp.Or(cmp.Compare(b.len, a.len), cmp.Compare(a.id, b.id)) })
}

// gather keeps kids with the same leftover at their end together, so that this is
// cut off all of them at once: for each kid but one of them a cut less, and a
// larger leftover. No more of them are kept together than that cut is long enough
// for.
func (t *shapes) gather(s *shape) {
	for first := 0; first < len(s.kids); first++ {
		rest := t.all[s.kids[first].id].rest
		if !t.ends(s.kids[first], rest) {
			continue
		}
		in, others, number := t.together(s, first, rest)
		free := s.rest.kind == noEnd && s.lead.kind == noEnd && len(others) > 0
		if number < 2 || !free && !t.known[t.length(in)] {
			continue
		}
		group := shape{w: s.w, h: s.h, axis: s.axis}
		for _, c := range in {
			k := t.all[c.id]
			id := t.series(&k, k.kids, end{}, end{})
			at := slices.IndexFunc(group.kids, func(c kid) bool { return c.id == id })
			if at < 0 {
				at = len(group.kids)
				group.kids = append(group.kids, kid{id: id, len: c.len})
			}
			group.kids[at].n += c.n
		}
		sortKids(group.kids)
		// As high as its kids are now, as long as they are together.
		other := packing.CutX + packing.CutY - s.axis
		one := &t.all[group.kids[0].id]
		group.w, group.h = one.w, one.h
		row := t.series(&group, group.kids, end{}, end{})
		whole := shape{w: t.all[row].w, h: t.all[row].h, axis: other}
		if rest.kind != offTheEnd { // the leftovers are one now, and may be worth keeping
			w, h := whole.w, rest.size
			if other == packing.CutX {
				w, h = rest.size, whole.h
			}
			rest.kind = waste
			if t.left(w, h) == packing.Offcut {
				rest.kind = offcut
			}
		}
		id := t.series(&whole, []kid{{row, 1, t.all[row].along(other)}}, end{}, rest)
		s.kids = append(others, kid{id, 1, t.all[id].along(s.axis)})
		t.merged = true
		first = -1 // once more, for what is left
	}
}

// together parts the kids from the first one on that have that leftover at their end
// from the others: all of them, or where the cut is too long for that as many as
// are as long as a setting there is, else as many as go.
func (t *shapes) together(s *shape, first int, rest end) (in, others []kid, number int32) {
	part := func(most int32) {
		in, others, number = nil, nil, 0
		for k, c := range s.kids {
			n := int32(0)
			if k >= first && t.ends(c, rest) {
				n = min(c.n, most-number)
			}
			if n > 0 {
				in, number = append(in, kid{c.id, n, c.len}), number+n
			}
			if n < c.n {
				others = append(others, kid{c.id, c.n - n, c.len})
			}
		}
	}
	if part(math.MaxInt32); t.long == 0 || t.length(in) <= t.long {
		return in, others, number
	}
	goes, long := int32(0), -t.kerf
	for _, c := range in {
		n := min(c.n, int32((t.long-long)/(c.len+t.kerf)))
		if goes, long = goes+n, long+int64(n)*(c.len+t.kerf); n < c.n {
			break
		}
	}
	for n := goes; n > 1; n-- {
		if part(n); t.known[t.length(in)] {
			return in, others, number
		}
	}
	part(goes)
	return in, others, number
}

// ends reports whether a kid has that leftover at its end.
func (t *shapes) ends(c kid, rest end) bool {
	s := &t.all[c.id]
	if s.leaf || s.rest != rest || rest.kind == noEnd || s.lead.kind != noEnd {
		return false
	}
	// A group of its own is not gathered again.
	return len(s.kids) > 1 || s.kids[0].n > 1 || t.all[s.kids[0].id].leaf
}

// left says what becomes of a leftover.
func (t *shapes) left(w, h int64) packing.Use {
	if min(w, h) >= t.keep[0] && max(w, h) >= t.keep[1] {
		return packing.Offcut
	}
	return packing.Waste
}

// join makes one leftover of two.
func (t *shapes) join(a, b end, of *shape) end {
	if a.kind == noEnd {
		return b
	}
	size := a.size + t.kerf + b.size
	if size <= 0 {
		return end{offTheEnd, size}
	}
	w, h := size, of.h
	if of.axis == packing.CutY {
		w, h = of.w, size
	}
	if t.left(w, h) == packing.Offcut {
		return end{offcut, size}
	}
	return end{waste, size}
}

// strips lists what node i is cut into along an axis, nested cuts along the same
// axis included.
func (t *shapes) strips(to []strip, s *packing.Sheet, i int, axis packing.Use, trim int64) []strip {
	place := func(n *packing.Node) (at, size int64) {
		if axis == packing.CutX {
			return n.X, n.W
		}
		return n.Y, n.H
	}
	for {
		n := &s.Nodes[i]
		at, size := place(n)
		if n.Use != axis {
			e := strip{id: -1, size: size, at: at}
			switch n.Use {
			case packing.Waste:
				e.kind = waste
			case packing.Offcut:
				e.kind = offcut
			default:
				e.id = t.of(s, i, trim)
			}
			return append(to, e)
		}
		if n.A >= 0 {
			to = t.strips(to, s, n.A, axis, trim)
		} else {
			to = append(to, strip{id: -1, kind: offTheEnd, size: n.At, at: at})
		}
		if n.B < 0 {
			return append(to, strip{id: -1, kind: offTheEnd, size: size - n.At - t.kerf, at: at + n.At + t.kerf})
		}
		i = n.B
	}
}
