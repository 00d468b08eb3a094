package cutorder

import (
	"cmp"
	"encoding/binary"
	"math/bits"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/internal/packing"
)

// alike lays sheets of the same stock with the same pieces alike: of those that
// take no more cuts than there are now, as the one with the larger leftover
// worth keeping, then more of them by area, then fewer cuts. Where the largest
// leftover of all would be lost by that, they stay as they are.
func alike(sheets []packing.Sheet) []packing.Sheet {
	var groups [][]int
	index := map[string]int{}
	worth := make([]merits, len(sheets))
	var top packing.Area
	for i := range sheets {
		key := contents(&sheets[i])
		at, ok := index[key]
		if !ok {
			at = len(groups)
			index[key] = at
			groups = append(groups, nil)
		}
		groups[at] = append(groups[at], i)
		worth[i] = merit(&sheets[i])
		if worth[i].largest.Cmp(top) > 0 {
			top = worth[i].largest
		}
	}
	var out []packing.Sheet
	for _, g := range groups {
		times, cuts := 0, 0
		loses := false
		for _, i := range g {
			times += sheets[i].Times
			cuts += sheets[i].Times * worth[i].cuts
		}
		best := -1
		for _, i := range g {
			if worth[i].cuts*times <= cuts && (best < 0 || worth[i].less(worth[best])) {
				best = i
			}
		}
		for _, i := range g {
			loses = loses || worth[i].largest == top && worth[best].largest != top
		}
		if loses {
			for _, i := range g {
				out = append(out, sheets[i])
			}
			continue
		}
		one := sheets[best]
		one.Times = times
		out = append(out, one)
	}
	return out
}

// contents is a key of the stock and the pieces of a sheet.
func contents(s *packing.Sheet) string {
	items := make([]int, 0, len(s.Nodes)/2+1)
	for i := range s.Nodes {
		if s.Nodes[i].Use == packing.Piece {
			items = append(items, s.Nodes[i].Item)
		}
	}
	inorder.Sort(items, cmp.Compare)
	key := binary.AppendUvarint(nil, uint64(s.Stock))
	for i := 0; i < len(items); {
		n := i
		for n < len(items) && items[n] == items[i] {
			n++
		}
		key = binary.AppendUvarint(key, uint64(items[i]))
		key = binary.AppendUvarint(key, uint64(n-i))
		i = n
	}
	return string(key)
}

// merits are what makes one tree of cuts better than another with the same
// pieces.
type merits struct {
	largest, all packing.Area
	cuts, sizes  int
}

func merit(s *packing.Sheet) merits {
	var m merits
	sizes := map[int64]bool{}
	for i := range s.Nodes {
		n := &s.Nodes[i]
		switch n.Use {
		case packing.Offcut:
			hi, lo := bits.Mul64(uint64(n.W), uint64(n.H))
			a := packing.Area{Hi: hi, Lo: lo}
			m.all = m.all.Add(a)
			if a.Cmp(m.largest) > 0 {
				m.largest = a
			}
		case packing.CutX, packing.CutY:
			m.cuts++
			sizes[n.At] = true
		}
	}
	m.sizes = len(sizes)
	return m
}

// less reports whether m is better.
func (m merits) less(o merits) bool {
	return cmp.Or(o.largest.Cmp(m.largest), o.all.Cmp(m.all), cmp.Compare(m.cuts, o.cuts), cmp.Compare(m.sizes, o.sizes)) < 0
}
