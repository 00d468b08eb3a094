package packing

import (
	"slices"

	"boardwrap.example/internal/stop"
)

// solver holds the best layout so far.
type solver struct {
	t  *task
	mt *meter

	best    []stacked
	short   []int // copies left out, by part
	m       measure
	fixed   []stacked // the leading sheets of best that improve leaves alone
	open    []int     // sheets by kind that fixed leaves
	proofs  []*worth
	cols    *columns  // of a batch
	pricing *columns  // for the bound
	bySize  []int     // parts, largest first
	seen    *contents // of weave
	cover   *cover    // of weave
	strict  *grid     // of weave
	chance  rng       // of weave
	begun   *search   // a hunt to be gone on with
	beam    int       // the next bias of a beam
	how     int       // the next way to fill
	tries   int       // of improve
	r       rng       // of improve
	lower   int       // proven bound on ordinary sheets
	why     *worth    // proves lower
	noMore  *worth    // proves that no more pieces can be placed
	idle    int       // stages in which settle found nothing
	tried   bool      // the exact search, as far as it goes
	exact   bool      // it came to its end
	size    int       // sets of pieces that a sheet holds, where going through them proves lower
	allShow bool      // proved that no layout places more pieces
	end, by int64     // of the next stage, and how much longer the one after it is
}

func newSolver(until stop.Stopper, p Problem, limit int64) *solver {
	return &solver{t: newTask(p), mt: newMeter(until, limit), end: stageOne, by: 5, chance: 77}
}

// stacked is a sheet that is cut a number of times.
type stacked struct {
	b     bin
	times int
}

// offer takes a layout if it is better than the best, and says whether it is.
// The sheets are the solver's from then on.
func (v *solver) offer(sheets []stacked, short []int) bool {
	if v.best != nil && v.mt.spent(noLimit) {
		// What was cut short is not what a larger budget comes by, so it does
		// not count: more budget must never give less.
		return false
	}
	sheets = slices.DeleteFunc(sheets, func(s stacked) bool { return s.b.count == 0 })
	m := v.measure(sheets, short)
	if v.best != nil && !m.less(v.m) && (m != v.m || !v.calmer(sheets)) {
		return false
	}
	if sheets == nil {
		sheets = []stacked{}
	}
	v.best, v.short, v.m = sheets, short, m
	return true
}

// bounds works out lower anew for the number of pieces placed, for about most
// steps.
func (v *solver) bounds(most int64) {
	placed := v.t.total - v.m.short
	b, why, _ := v.t.dualBound(v.mt, placed, most)
	v.lift(b, why)
	for _, w := range v.proofs {
		b, _ := v.t.bound(w, placed)
		v.lift(b, w)
	}
	if v.m.short == 0 {
		v.allShow = true
		return
	}
	_, _, v.noMore = v.t.dualBound(v.mt, placed+1, most)
	for _, w := range v.proofs {
		if _, ok := v.t.bound(w, placed+1); !ok {
			v.noMore = w
		}
	}
	v.allShow = v.noMore != nil
}

// lift takes a better bound and what proves it.
func (v *solver) lift(b int, why *worth) {
	if b > v.lower {
		v.lower, v.why = b, why
	}
}

// done reports whether the number of sheets is proved fewest.
func (v *solver) done() bool { return v.allShow && v.m.ordinary == v.lower }

// settled reports whether nothing of the measure can be better.
//
//go:noinline
func (v *solver) settled() bool { return v.done() && v.cheapest() }

// cheapest reports whether no layout of as many ordinary sheets can cost less or
// spare a First sheet.
//
//go:noinline
func (v *solver) cheapest() bool {
	least := int64(-1)
	for _, k := range v.t.kinds {
		if k.first && v.m.first > 0 {
			return false
		}
		if !k.first && (least < 0 || k.cost < least) {
			least = k.cost
		}
	}
	return v.m.ordinary == 0 || v.m.cost == least*int64(v.m.ordinary)
}

// newSearch starts a search over the given copies and open stock.
func (v *solver) newSearch(counts, open []int) *search {
	s := newSearch(v.t, v.mt)
	s.open = slices.Clone(open)
	for q, n := range counts {
		for ; n > 0; n-- {
			s.pool = append(s.pool, int32(q))
		}
	}
	v.mt.work(int64(len(s.pool)+len(open)+len(v.t.parts))/4 + 1)
	return s
}

// together joins fixed sheets and a search's into a layout.
func (v *solver) together(fixed []stacked, s *search) ([]stacked, []int) {
	out := slices.Clone(fixed)
	nodes := 0
	for i := range s.bins {
		if s.bins[i].count > 0 {
			var b bin
			b.copyFrom(&s.bins[i])
			nodes += len(b.nodes)
			out = append(out, stacked{b, 1})
		}
	}
	short := make([]int, len(v.t.parts))
	copy(short, s.away)
	for _, q := range s.pool {
		short[q]++
	}
	v.mt.work(int64(nodes+len(short)+len(fixed))/4 + 1)
	return out, short
}
