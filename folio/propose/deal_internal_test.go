package propose

import (
	"cmp"
	"fmt"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"
)

// A hand is some kinds of boxes, and whether they are of a group.
type hand struct {
	boxes  []box
	groups []string
}

func anyHand() gopter.Gen {
	const mm = units.Millimetre
	one := gopter.CombineGens(gen.IntRange(2, 9), gen.IntRange(2, 9), gen.IntRange(1, 2), gen.Bool(), gen.IntRange(1, 9), gen.IntRange(0, 5))
	return proptest.Map(proptest.List(1, 3, one), func(list [][]any) hand {
		var h hand
		for _, v := range list {
			n := func(i int) units.Length { return units.Length(v[i].(int)) }
			h.boxes = append(h.boxes, box{w: 7 * mm * n(0), h: 9 * mm * n(1), count: v[2].(int), mouth: v[3].(bool), height: mm * n(4), bulk: mm * n(4) / 2})
			h.groups = append(h.groups, [...]string{"", "", "crew", "crew", "boat", ""}[v[5].(int)])
		}
		return h
	})
}

// fair reports whether what is dealt out, of each leaf how many of each kind, keeps the
// groups together.
func (h *hand) fair(dealt [][]int) bool {
	on := map[string]int{}
	for leaf, kinds := range dealt {
		for kind, n := range kinds {
			if g := h.groups[kind]; g != "" && n > 0 {
				if other, ok := on[g]; ok && other != leaf {
					return false
				}
				on[g] = leaf
			}
		}
	}
	return true
}

// every calls f with every way to deal the boxes out to some leaves.
func (h *hand) every(leaves int, f func(dealt [][]int)) {
	dealt := make([][]int, leaves)
	for i := range dealt {
		dealt[i] = make([]int, len(h.boxes))
	}
	var deal func(kind, leaf, left int)
	deal = func(kind, leaf, left int) {
		if kind == len(h.boxes) {
			if h.fair(dealt) {
				f(dealt)
			}
			return
		}
		if leaf == leaves-1 {
			dealt[leaf][kind] = left
			if kind+1 == len(h.boxes) {
				deal(kind+1, 0, 0)
			} else {
				deal(kind+1, 0, h.boxes[kind+1].count)
			}
			return
		}
		for n := range left + 1 {
			dealt[leaf][kind] = n
			deal(kind, leaf+1, left-n)
		}
	}
	deal(0, 0, h.boxes[0].count)
}

// smallest is the smallest of all covers on which the boxes can be dealt out.
func (h *hand) smallest(s *searcher) (best units.Size, ok bool) {
	known := map[string][]units.Size{}
	h.every(len(s.leaves), func(dealt [][]int) {
		heights := map[units.Length]bool{0: true}
		shapes := make([][]units.Size, len(dealt))
		for i, kinds := range dealt {
			key := fmt.Sprint(kinds)
			front, done := known[key]
			if !done {
				var all []box
				for kind, n := range kinds {
					all = append(all, slices.Repeat([]box{h.boxes[kind]}, n)...)
				}
				if len(all) > 0 {
					front = fronts(all, s.between, s.grip)
				} else {
					front = []units.Size{{}}
				}
				known[key] = front
			}
			shapes[i] = front
			for _, size := range front {
				heights[size.H] = true
			}
		}
		for high := range heights { // of each leaf the narrowest that is no higher
			cover, all := units.Size{H: s.ruler.Up(high + s.extra)}, true
			for i, front := range shapes {
				k := slices.IndexFunc(front, func(size units.Size) bool { return size.H <= high })
				if k < 0 {
					all = false
					break
				}
				if front[k].W > 0 {
					w, is := s.aroundOn(i, front[k].W)
					cover.W, all = max(cover.W, w), all && is
				}
			}
			if all && (!ok || order(cover, best) < 0) {
				best, ok = cover, true
			}
		}
	})
	return best, ok
}

// misdealt says what is wrong with a candidate.
func (h *hand) misdealt(s *searcher, c *candidate) string {
	dealt := make([][]int, len(s.leaves))
	counts := make([]int, len(h.boxes))
	var least, high units.Length
	var stacks []units.Length
	cover := units.Size{}
	for i, part := range c.parts {
		dealt[i] = make([]int, len(h.boxes))
		if part == nil {
			stacks = append(stacks, 0)
			continue
		}
		if bad := tight(part, h.boxes, s.between, s.grip); bad != "" {
			return bad
		}
		var thick units.Length
		var walk func(p *shape)
		walk = func(p *shape) {
			if p.cut != noCut {
				walk(p.a)
				walk(p.b)
				return
			}
			dealt[i][p.kind]++
			counts[p.kind]++
			thick = max(thick, h.boxes[p.kind].height)
			if i != s.main {
				high += h.boxes[p.kind].bulk
			}
		}
		walk(part)
		stacks, least = append(stacks, thick), max(least, thick)
		w, ok := s.aroundOn(i, part.w)
		if !ok {
			return "it does not go on its board"
		}
		cover = cover.Max(units.Size{W: w, H: s.ruler.Up(part.h + s.extra)})
	}
	for kind, b := range h.boxes {
		if counts[kind] != b.count {
			return fmt.Sprintf("%d of %d of kind %d", counts[kind], b.count, kind)
		}
	}
	slices.Sort(stacks)
	most := stacks[len(stacks)-1]
	if len(stacks) > 1 {
		most += stacks[len(stacks)-2]
	}
	switch {
	case !h.fair(dealt):
		return "a group is parted"
	case c.cover != cover:
		return fmt.Sprintf("a cover of %v, want %v", c.cover, cover)
	case c.least != least || c.most != most || c.high != high:
		return fmt.Sprintf("stacks of %v to %v, %v high elsewhere; want %v, %v, %v", c.least, c.most, c.high, least, most, high)
	}
	return ""
}

// Some boxes are dealt out to the boards of a row: each candidate carries all of them,
// keeps groups together and has the smallest cover for its parts; and none of all ways to
// deal them out has a smaller one than the first.
func TestDealtInEveryWay(t *testing.T) {
	var rows []*searcher
	for _, c := range []folio.Spec{
		{}, {Form: boards.ForeEdgeFlap}, {Form: boards.DoubleSpineGate}, {Form: boards.FourPanelZ},
		{Row: boards.Row{Boards: []boards.Board{{Role: boards.LeftCover}, {Role: boards.Spine1}, {Role: boards.RightCover, Width: 71 * units.Millimetre}}}},
	} {
		c.Rulers = rule.Rulers{Main: units.WholeMillimetres}
		s := begin(t, c)
		if s == nil {
			t.Fatal("no case")
		}
		rows = append(rows, s)
	}
	proptest.Run(t, 200, func(ps *gopter.Properties) {
		ps.Property("every way", prop.ForAll(func(h hand, row int, limit int) string {
			s := rows[row]
			s.meter = endless()
			s.request.Things = nil
			var opts []option
			for kind, b := range h.boxes {
				opts = append(opts, option{thing: kind, number: b.count, box: b})
				s.request.Things = append(s.request.Things, Thing{Count: b.count, Group: h.groups[kind]})
			}
			useful := func(c units.Size) bool { return c.W <= units.Length(limit)*units.Millimetre }
			list, whole := s.covers(opts, useful)
			best, ok := h.smallest(s)
			// A cover that no smaller one is of is that of the box, where there is one alone.
			if floor := (&quest{searcher: s}).floor(opts); ok && (!floor.FitsIn(best) || len(opts) == 1 && opts[0].number == 1 && floor != best) {
				return fmt.Sprintf("none is smaller than %v, and %v does", floor, best)
			}
			switch {
			case !whole:
				return "it is not all"
			case ok && useful(best) && (len(list) == 0 || list[0].cover != best):
				return fmt.Sprintf("%d covers, and one of %v does", len(list), best)
			case !ok && len(list) > 0:
				return "nothing does"
			}
			for i := range list {
				c := &list[i]
				if bad := h.misdealt(s, c); bad != "" {
					return bad
				}
				if !useful(c.cover) {
					return "it is of no use"
				}
				if i > 0 {
					b := &list[i-1]
					if cmp.Or(order(b.cover, c.cover), cmp.Compare(b.most, c.most), cmp.Compare(b.high, c.high)) > 0 {
						return "it is out of order"
					}
				}
				if len(c.parts) == 2 && s.leaves[0].like(&s.leaves[1]) && c.parts[0] != c.parts[1] && slices.ContainsFunc(list, func(o candidate) bool { return o.parts[0] == c.parts[1] && o.parts[1] == c.parts[0] }) {
					return "it is tried with its boards changed about too"
				}
			}
			return ""
		}, anyHand(), gen.IntRange(0, len(rows)-1), gen.IntRange(60, 400)))
	})
}
