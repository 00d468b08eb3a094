package layout

import (
	"cmp"

	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/packing"
	"boardwrap.example/units"
)

// A problem is one material put into the engine's words: on every sheet as it
// lies, y runs along the grain wherever the grain matters.
type problem struct {
	packing.Problem
	material Material
	assumed  stock.SheetGrain // of sheets whose grain is unknown; 0 when it does not matter
	kinds    []kind           // by index of Stock
	wants    [][]int          // by index of Items: the pieces of that size
	leftOut  []int            // sheet kinds on which grain and pattern contradict each other
	// The kinds of sheet by grain and the needs of the pieces.
	unknown, grained, patterned bool
}

// A kind is a kind of sheet as it lies.
type kind struct {
	index  int // in Material.Sheets
	turned bool
}

// needs says which of grain and pattern matter to some piece.
func needs(wants []Wanted, of []int) (grained, patterned bool) {
	for _, i := range of {
		w := wants[i]
		grained = grained || w.grain == stock.GrainParallel
		patterned = patterned || w.turn != QuarterTurn
	}
	return grained, patterned
}

// newProblem puts a material and the pieces of it into the engine's words,
// taking sheets of unknown grain to be as assumed.
func newProblem(j *Job, m Material, wants []Wanted, of []int, assumed stock.SheetGrain) *problem {
	p := &problem{material: m}
	p.grained, p.patterned = needs(wants, of)
	c, keep := j.cutter(m), j.Keep.withDefaults(j.notation())
	p.Kerf, p.LongestCut = c.Kerf.Nanometres(), c.LongestCut.Nanometres()
	p.KeepShort, p.KeepLong = keep.Short.Nanometres(), keep.Long.Nanometres()
	for i, s := range m.Sheets {
		grain := s.Grain
		if p.grained && grain == stock.GrainUnknown {
			p.unknown, p.assumed = true, assumed
			grain = assumed
		}
		across := p.grained && grain == stock.GrainAlongWidth
		if across && p.patterned {
			p.leftOut = append(p.leftOut, i)
			continue
		}
		size := s.Size
		if across {
			size = size.Turned()
		}
		p.kinds = append(p.kinds, kind{i, across})
		p.Stock = append(p.Stock, packing.Stock{
			W: size.W.Nanometres(), H: size.H.Nanometres(), Count: min(s.Count, MostPieces),
			Cost: s.Price.Minor, First: s.Offcut, Trim: s.Trim.Nanometres(),
		})
	}
	index := make(map[packing.Item]int, len(of))
	for _, i := range of {
		w := wants[i]
		it := packing.Item{W: w.size.W.Nanometres(), H: w.size.H.Nanometres(),
			Turn: w.grain == stock.GrainAny && w.turn == QuarterTurn}
		at, seen := index[it]
		if !seen {
			at = len(p.Items)
			index[it] = at
			p.Items = append(p.Items, it)
			p.wants = append(p.wants, nil)
		}
		p.Items[at].Copies += w.quantity
		p.wants[at] = append(p.wants[at], i)
	}
	return p
}

// solved is a problem with its answer.
type solved struct {
	*problem
	result *packing.Result
	// other is the answer under the other assumption on the grain, nil where
	// there is none.
	other *packing.Result
}

// better reports whether a is a better answer than b, as package packing
// compares them.
func better(a, b *packing.Result) bool {
	return cmp.Or(cmp.Compare(shorts(a), shorts(b)), cmp.Compare(a.Ordinary, b.Ordinary), cmp.Compare(a.Cost, b.Cost)) < 0
}

func shorts(r *packing.Result) int {
	n := 0
	for _, s := range r.Short {
		n += s.Copies
	}
	return n
}

// lay lays out one material with at most so many steps; it tries both
// directions of a grain that is not known. The error is packing.Faults, which a
// checked job never gives.
func (m *meter) lay(j *Job, mat Material, wants []Wanted, of []int, steps int64) (*solved, error) {
	p := newProblem(j, mat, wants, of, stock.GrainAlongHeight)
	if p.unknown {
		steps /= 2
	}
	r, err := m.solve(p.Problem, mat.Name, steps)
	if err != nil {
		return nil, err
	}
	s := &solved{problem: p, result: r}
	if !p.unknown {
		return s, nil
	}
	if m.until.Err() != nil && len(r.Short) == 0 {
		return s, nil // laid out, and there is no time for the other direction
	}
	q := newProblem(j, mat, wants, of, stock.GrainAlongWidth)
	o, err := m.solve(q.Problem, mat.Name, steps)
	if err != nil {
		return nil, err
	}
	if better(o, r) {
		return &solved{problem: q, result: o, other: r}, nil
	}
	s.other = o
	return s, nil
}

// sizeAsLies is the size of a kind of sheet as it lies.
func (p *problem) sizeAsLies(k kind) units.Size {
	size := p.material.Sheets[k.index].Size
	if k.turned {
		return size.Turned()
	}
	return size
}

// leastCut is the shortest longest cut with which a piece of size s comes out
// of one of the sheets, and whether one of them is large enough.
func (p *problem) leastCut(s units.Size, turn bool) (least units.Length, ok bool) {
	for i := range p.kinds {
		if c, fits := p.leastCutOn(i, s, turn); fits {
			if ok {
				c = min(c, least)
			}
			least, ok = c, true
		}
	}
	return least, ok
}

// leastCutOn is leastCut on one kind of sheet. Rows are cut along the width
// first, columns along the height; a piece as wide as an untrimmed sheet needs
// no second cut, and one as large as the sheet needs none.
func (p *problem) leastCutOn(i int, s units.Size, turn bool) (least units.Length, ok bool) {
	sheet, trim := p.sizeAsLies(p.kinds[i]), p.material.Sheets[p.kinds[i].index].Trim
	inner := sheet.Grow(-trim)
	for range 2 {
		if s.FitsIn(inner) {
			rows, columns := max(sheet.W, s.H), max(sheet.H, s.W)
			if trim == 0 && s.W == sheet.W {
				rows = sheet.W
			}
			if trim == 0 && s.H == sheet.H {
				columns = sheet.H
			}
			c := min(rows, columns)
			if trim == 0 && s == sheet {
				c = 0
			}
			if ok {
				c = min(c, least)
			}
			least, ok = c, true
		}
		if !turn {
			break
		}
		s = s.Turned()
	}
	return least, ok
}

// fits reports whether a piece comes out of one of the kinds of sheet, be there
// any left of it or not.
func (p *problem) fits(it packing.Item) bool {
	for k := range p.Stock {
		if p.fitsOn(k, it) {
			return true
		}
	}
	return false
}

// fitsOn is fits of one kind of sheet.
func (p *problem) fitsOn(k int, it packing.Item) bool {
	c, ok := p.leastCutOn(k, units.Size{W: length(it.W), H: length(it.H)}, it.Turn)
	return ok && (p.LongestCut == 0 || c.Nanometres() <= p.LongestCut)
}

// boundless reports whether every piece fits a kind of sheet of which there
// are as many as needed.
func (p *problem) boundless() bool {
	for _, it := range p.Items {
		found := false
		for k := 0; k < len(p.Stock) && !found; k++ {
			found = p.Stock[k].Count == packing.Unlimited && p.fitsOn(k, it)
		}
		if !found {
			return false
		}
	}
	return true
}
