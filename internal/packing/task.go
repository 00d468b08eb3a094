package packing

import "math/bits"

// A task is a Problem made ready: kerf and trim are folded into the sizes (a
// piece and its kerf on a sheet that is one kerf larger), pieces that fit no
// sheet are set aside, and areas are scaled so that sums cannot overflow.
type task struct {
	p     Problem
	parts []part  // item kinds that fit some sheet
	kinds []kind  // stock kinds that can hold something
	unfit []Short // items that fit nothing
	total int     // copies of all parts
	shift uint    // lengths are shifted right by this for scores
	trial bin     // of lawful
}

// part is an item kind, kerf included.
type part struct {
	w, h  int64
	n     int
	turn  bool
	item  int
	score int64 // scaled area, at least 1
}

// kind is a stock kind: its inner size, kerf included.
type kind struct {
	w, h  int64
	n     int // how many, never more than there are pieces
	stock int
	first bool
	cost  int64
	score int64 // scaled area
	most  int64 // scaled areas of pieces on it add up to no more
	// limit is the longest side along which a cut is possible, kerf
	// included, and mode what that means for the whole sheet.
	limit int64
	mode  cutMode
	whole bool // untrimmed: a piece as wide as the sheet needs no cut there
}

// cutMode says which first cuts the longest cut leaves possible.
type cutMode uint8

const (
	cutFree cutMode = iota // every cut is short enough
	cutRows                // too tall: only cuts along x, into rows of height ≤ limit
	cutCols                // too wide: only cuts along y, into columns of width ≤ limit
	cutNone                // no cut is possible
)

// newTask makes p ready; p is valid.
func newTask(p Problem) *task {
	t := &task{p: p}
	limit := p.LongestCut
	if limit == 0 {
		limit = MaxSide * 2
	}
	for i, s := range p.Stock {
		w, h := s.W-2*s.Trim, s.H-2*s.Trim
		if w <= 0 || h <= 0 || s.Count == 0 {
			continue
		}
		k := kind{w: w + p.Kerf, h: h + p.Kerf, n: s.Count, stock: i, first: s.First,
			cost: s.Cost, limit: limit + p.Kerf, whole: s.Trim == 0}
		// The trims along the short direction come first and may bring the
		// other side down to what can be cut.
		longW, longH := s.W > limit, s.H > limit
		switch {
		case longW && longH:
			k.mode = cutNone
			if !k.whole {
				continue
			}
		case longH && h > limit:
			k.mode = cutRows
		case longW && w > limit:
			k.mode = cutCols
		}
		t.kinds = append(t.kinds, k)
	}
	t.parts = make([]part, 0, len(p.Items))
	for i, it := range p.Items {
		if it.Copies == 0 {
			continue
		}
		q := part{w: it.W + p.Kerf, h: it.H + p.Kerf, n: it.Copies, turn: it.Turn && it.W != it.H, item: i}
		fits := false
		for j := range t.kinds {
			if t.kinds[j].holds(q.w, q.h) || q.turn && t.kinds[j].holds(q.h, q.w) {
				fits = true
				break
			}
		}
		if !fits {
			t.unfit = append(t.unfit, Short{Item: i, Copies: it.Copies})
			continue
		}
		t.parts = append(t.parts, q)
		t.total += q.n
	}
	long := int64(1)
	for _, k := range t.kinds {
		long = max(long, k.w, k.h)
	}
	t.shift = uint(max(0, bits.Len64(uint64(long))-15))
	for i := range t.kinds {
		k := &t.kinds[i]
		k.score = t.area(k.w, k.h)
		k.most = k.score
		if t.shift > 0 {
			k.most = ((k.w >> t.shift) + 1) * ((k.h >> t.shift) + 1)
		}
		if k.n < 0 || k.n > t.total {
			k.n = t.total
		}
	}
	for i := range t.parts {
		t.parts[i].score = t.area(t.parts[i].w, t.parts[i].h)
	}
	return t
}

// area is a scaled area for scores, at least 1.
func (t *task) area(w, h int64) int64 {
	return max(1, (w>>t.shift)*(h>>t.shift))
}

// holds reports whether a single w × h piece can be cut from the kind.
//
//go:noinline
func (k *kind) holds(w, h int64) bool {
	if w > k.w || h > k.h {
		return false
	}
	switch k.mode {
	case cutRows:
		return h <= k.limit || w == k.w && k.whole
	case cutCols:
		return w <= k.limit || h == k.h && k.whole
	case cutNone:
		return w == k.w && h == k.h
	}
	return true
}
