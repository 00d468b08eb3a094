package cutcheck

import (
	"math/bits"

	"boardwrap.example/internal/packing"
)

// mostTrial is the number of pieces up to which a proof by trial is tried again,
// and mostAlike where all sheets are alike and there are enough of them.
const (
	mostTrial = 16
	mostAlike = 20
)

// subsets is a proof by trial, done again: for every set of pieces the fewest
// ordinary sheets that hold it, −1 where the stock does not. Where all sheets are
// alike it is known of the set of all pieces only, as whole.
type subsets struct {
	sheets []int
	whole  int
	size   int // sets that fit the sides of a sheet
}

// try does a proof by trial again; nil if it is none.
func (v *verifier) try(p *packing.Proof) *subsets {
	if p.Root != v.total || v.total > mostTrial && (v.alike() < 0 || v.total > mostAlike) {
		v.say("a proof by trial of %d pieces in %d sets; there are %d", p.Root, p.Size, v.total)
		return nil
	}
	if v.tried == nil {
		v.tried = v.trial()
	}
	if all := p.Size == 1<<v.total && v.total <= mostTrial; !all && (v.alike() < 0 || p.Size != v.tried.size) {
		v.say("a proof by trial of %d pieces in %d sets; there are %d, and a sheet holds %d", p.Root, p.Size, v.total, v.tried.size)
		return nil
	}
	return v.tried
}

// alike is the only stock, if no sheet of it need be spared and all pieces are
// placed, else −1.
func (v *verifier) alike() int {
	only := -1
	for i, s := range v.stock {
		if s.Count == 0 {
			continue
		}
		if only >= 0 || s.First || s.Count > 0 && s.Count < v.total {
			return -1
		}
		only = i
	}
	if v.placed < v.total {
		return -1
	}
	return only
}

// fewest is the least number of sheets that hold some m pieces, −1 if none do.
func (s *subsets) fewest(m int) int {
	if s.sheets == nil {
		return s.whole
	}
	least := -1
	for set, n := range s.sheets {
		if bits.OnesCount(uint(set)) == m && n >= 0 && (least < 0 || n < least) {
			least = n
		}
	}
	return least
}

// A box can hold a set; single says that it is one piece and no more.
type sized struct {
	w, h   int64
	single bool
}

func (v *verifier) trial() *subsets {
	boxes := v.boxes()
	s := &subsets{}
	for _, b := range boxes {
		if len(b) > 0 {
			s.size++
		}
	}
	if only := v.alike(); only >= 0 {
		s.whole = levels(v.holding(only, boxes))
		return s
	}
	s.sheets = make([]int, len(boxes))
	for set := 1; set < len(boxes); set++ {
		s.sheets[set] = -1
	}
	for i, st := range v.stock {
		holds := v.holding(i, boxes)
		n := st.Count
		if n < 0 || n > v.total {
			n = v.total
		}
		for ; n > 0; n-- {
			changed := false
			for set := len(boxes) - 1; set > 0; set-- { // smaller sets are still as before
				for a := set; a > 0; a = (a - 1) & set {
					if !holds[a] || s.sheets[set^a] < 0 {
						continue
					}
					m := s.sheets[set^a]
					if !st.First {
						m++
					}
					if s.sheets[set] < 0 || m < s.sheets[set] {
						s.sheets[set], changed = m, true
					}
				}
			}
			if !changed {
				break
			}
		}
	}
	return s
}

// levels is the number of sheets that hold all pieces, where a sheet holds the
// sets of holds: it lists what one sheet can hold, then two, and so on, where the
// last sheet always holds the first piece that is missing. What a sheet holds it
// holds with a piece less, so it may hold what is on another already.
func levels(holds []bool) int {
	all := len(holds) - 1
	with := make([][]int, bits.Len(uint(all)))
	for set := 1; set <= all; set++ {
		if !holds[set] {
			continue
		}
		greatest := true
		for i := range with {
			greatest = greatest && (set>>i&1 != 0 || !holds[set|1<<i])
		}
		for i := range with {
			if greatest && set>>i&1 != 0 {
				with[i] = append(with[i], set)
			}
		}
	}
	level, seen := []int{0}, make([]bool, len(holds))
	for n := 0; ; n++ {
		var next []int
		for _, set := range level {
			if set == all {
				return n
			}
			for _, a := range with[bits.TrailingZeros(uint(^set))] {
				if !seen[set|a] {
					seen[set|a] = true
					next = append(next, set|a)
				}
			}
		}
		if level = next; len(level) == 0 {
			return -1
		}
	}
}

// boxes are the least boxes that each set of pieces can be cut from.
func (v *verifier) boxes() [][]sized {
	var pieces []packing.Item
	for _, it := range v.items {
		for n := 0; n < it.Copies; n++ {
			pieces = append(pieces, it)
		}
	}
	boxes := make([][]sized, 1<<len(pieces))
	for set := 1; set < len(boxes); set++ {
		var found []sized
		if i := bits.TrailingZeros(uint(set)); set == 1<<i {
			found = v.keep(found, sized{pieces[i].W, pieces[i].H, true})
			if pieces[i].Turn {
				found = v.keep(found, sized{pieces[i].H, pieces[i].W, true})
			}
		}
		if rest := set & (set - 1); rest != 0 && len(boxes[rest]) == 0 {
			continue // what does not fit does not fit with a piece more
		}
		for a := (set - 1) & set; a > set^a; a = (a - 1) & set {
			for _, x := range boxes[a] {
				for _, y := range boxes[set^a] {
					found = v.keep(found, sized{w: x.w + y.w, h: max(x.h, y.h)})
					found = v.keep(found, sized{w: max(x.w, y.w), h: x.h + y.h})
				}
			}
		}
		boxes[set] = found
	}
	return boxes
}

// keep adds a box unless another is within it or it fits no sheet.
func (v *verifier) keep(found []sized, n sized) []sized {
	fits := false
	for _, s := range v.stock {
		fits = fits || s.Count != 0 && n.w <= s.W && n.h <= s.H
	}
	if !fits {
		return found
	}
	to := found[:0:0]
	for _, o := range found {
		if o.w <= n.w && o.h <= n.h {
			return found
		}
		if o.w < n.w || o.h < n.h {
			to = append(to, o)
		}
	}
	return append(to, n)
}

// holding says which sets a sheet of stock i holds. Where one of its sides is
// too long to be cut along, the first cuts make strips across it.
func (v *verifier) holding(i int, boxes [][]sized) []bool {
	raw, s := v.p.Stock[i], v.stock[i]
	longest := v.p.LongestCut
	if longest == 0 {
		longest = 1 << 62 // no limit
	}
	inner := packing.Stock{W: raw.W - 2*raw.Trim, H: raw.H - 2*raw.Trim}
	tooWide, tooHigh := raw.W > longest, raw.H > longest
	if tooWide != tooHigh { // the trims that are possible come first
		tooWide, tooHigh = tooWide && inner.W > longest, tooHigh && inner.H > longest
	}
	holds := make([]bool, len(boxes))
	if !tooWide && !tooHigh || tooWide && tooHigh {
		for set := 1; set < len(boxes); set++ {
			for _, b := range boxes[set] {
				if tooWide { // no cut at all
					holds[set] = holds[set] || raw.Trim == 0 && b.single && b.w == s.W && b.h == s.H
				} else {
					holds[set] = holds[set] || b.w <= s.W && b.h <= s.H
				}
			}
		}
		return holds
	}
	// Strips lie across the side that is too long: stack is along it. Within a
	// strip every cut is short enough if the strip itself is.
	strip := make([]int64, len(boxes))
	stack := make([]int64, len(boxes))
	room, across := s.H, s.W
	if tooWide {
		room, across = s.W, s.H
	}
	for set := 1; set < len(boxes); set++ {
		strip[set], stack[set] = -1, -1
		for _, b := range boxes[set] {
			thick, long := b.h, b.w
			if tooWide {
				thick, long = long, thick
			}
			short := thick-v.p.Kerf <= longest
			if long <= across && (short || raw.Trim == 0 && b.single && long == across) && (strip[set] < 0 || thick < strip[set]) {
				strip[set] = thick
			}
		}
		for a := set; a > 0; a = (a - 1) & set {
			if rest := set ^ a; strip[a] >= 0 && stack[rest] >= 0 {
				if n := strip[a] + stack[rest]; n <= room && (stack[set] < 0 || n < stack[set]) {
					stack[set] = n
				}
			}
		}
		holds[set] = stack[set] >= 0
	}
	return holds
}
