package propose

import (
	"cmp"
	"slices"

	"boardwrap.example/units"
)

// A cut says how the two parts of a shape lie to each other.
type cut uint8

const (
	noCut   cut = iota // it is one fitting
	upright            // side by side, between them a line from head to tail
	level              // one over the other
)

// A shape is a part of a cover with what lies in it, as small as it goes: one
// fitting, or two shapes beside each other.
type shape struct {
	w, h units.Length
	cut  cut
	kind int // which kind of box, of one fitting
	a, b *shape
}

// A box is a kind of fitting that has to find room, in a number of copies.
type box struct {
	w, h   units.Length
	count  int
	mouth  bool // something slips in, and must be gripped
	height units.Length
	bulk   units.Length // of what it holds, for where the heavy lies
}

// A packer finds, for every part of a set of boxes, the shapes in which it can
// lie: all of which none is both wider and higher than another. Sets are
// numbered by how many of each kind they have, in mixed radix.
//
// The shapes of a set come from those of its halves, laid side by side and one
// over the other with what must be between them (L. Stockmeyer, Optimal
// orientations of cells in slicing floorplan designs, Information and Control
// 57, 1983, for one division; here over all divisions).
type packer struct {
	*meter
	boxes   []box
	between units.Length
	grip    units.Length
	most    units.Size // of a shape; nothing larger is of use
	useful  func(w, h units.Length) bool
	radix   []int // what one more of each kind adds to a set's number
	sets    int
	mouths  []bool
	shapes  [][]shape
	kept    []shape // what all lists are parts of, for fewer allocations
}

// mostParts bounds the pairs of a set and a part of it: above them a search is of no
// use. There are fewer sets than such pairs.
const mostParts = 1 << 20

// newPacker returns a packer of boxes, and false where there are too many ways to
// part the sets of them.
func newPacker(m *meter, boxes []box, between, grip units.Length, most units.Size) (*packer, bool) {
	p := &packer{meter: m, boxes: boxes, between: between, grip: grip, most: most, radix: make([]int, len(boxes)), sets: 1}
	parts := int64(1) // pairs of a set and a part of it
	for i, b := range boxes {
		p.radix[i] = p.sets
		parts *= int64(b.count+1) * int64(b.count+2) / 2
		if p.sets *= b.count + 1; parts > mostParts {
			return nil, false
		}
	}
	p.shapes = make([][]shape, p.sets)
	p.mouths = make([]bool, p.sets)
	return p, true
}

// digit returns how many of a kind a set has.
func (p *packer) digit(set, kind int) int { return set / p.radix[kind] % (p.boxes[kind].count + 1) }

// next returns the part of a set after another one, in the order of their
// numbers, and 0 after the last.
func (p *packer) next(part, set int) int {
	for i, r := range p.radix {
		n := p.digit(part, i)
		if n < p.digit(set, i) {
			return part + r
		}
		part -= n * r
	}
	return 0
}

// stepsOfShape is what a shape that is put beside another one counts.
const stepsOfShape = 4

// all works out the shapes of every set, and reports whether it got through.
func (p *packer) all() bool {
	var found []shape
	for set := 1; set < p.sets; set++ {
		found = found[:0]
		for i, b := range p.boxes {
			if n := p.digit(set, i); n > 0 {
				p.mouths[set] = p.mouths[set] || b.mouth
				if set == p.radix[i] {
					found = p.keep(found, shape{w: b.w, h: b.h, kind: i})
				}
			}
		}
		for part := p.next(0, set); 2*part <= set; part = p.next(part, set) {
			rest := set - part
			p.spend(1 + stepsOfShape*(len(p.shapes[part])+len(p.shapes[rest])))
			if p.over() {
				return false
			}
			found = p.beside(found, part, rest)
		}
		p.shapes[set] = p.best(found)
	}
	return true
}

// gap is what must be between two sets.
func (p *packer) gap(a, b int) units.Length {
	if p.mouths[a] || p.mouths[b] {
		return max(p.between, p.grip)
	}
	return p.between
}

// beside adds the shapes of two sets beside each other. Both lists are from
// narrow and high to wide and low.
func (p *packer) beside(found []shape, first, second int) []shape {
	as, bs, gap := p.shapes[first], p.shapes[second], p.gap(first, second)
	// One over the other: of each the lowest that is no wider than the other.
	for range 2 {
		k := -1
		for i := range as {
			for k+1 < len(bs) && bs[k+1].w <= as[i].w {
				k++
			}
			if k >= 0 {
				found = p.keep(found, shape{w: as[i].w, h: as[i].h + gap + bs[k].h, cut: level, a: &as[i], b: &bs[k]})
			}
		}
		// Side by side: of each the narrowest that is no higher than the other.
		k = len(bs)
		for i := len(as) - 1; i >= 0; i-- {
			for k > 0 && bs[k-1].h <= as[i].h {
				k--
			}
			if k < len(bs) {
				found = p.keep(found, shape{w: as[i].w + gap + bs[k].w, h: as[i].h, cut: upright, a: &as[i], b: &bs[k]})
			}
		}
		as, bs = bs, as
	}
	return found
}

// keep adds a shape if it is of use.
func (p *packer) keep(found []shape, s shape) []shape {
	if s.w > p.most.W || s.h > p.most.H || !p.useful(s.w, s.h) {
		return found
	}
	return append(found, s)
}

// best keeps the shapes of which none is both wider and higher than another,
// from narrow to wide.
func (p *packer) best(found []shape) []shape {
	slices.SortFunc(found, func(a, b shape) int {
		if c := cmp.Compare(a.w, b.w); c != 0 {
			return c
		}
		return cmp.Compare(a.h, b.h)
	})
	from := len(p.kept)
	if cap(p.kept)-from < len(found) {
		p.kept, from = make([]shape, 0, max(1024, len(found))), 0
	}
	for _, s := range found {
		if n := len(p.kept); n == from || s.h < p.kept[n-1].h {
			p.kept = append(p.kept, s)
		}
	}
	return p.kept[from:len(p.kept):len(p.kept)]
}
