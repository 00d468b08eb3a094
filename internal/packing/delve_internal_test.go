package packing

import (
	"math/rand"
	"slices"
	"testing"

	"boardwrap.example/internal/proptest"
)

// Sheets that were cut up, with a little to spare, are put together again by dives, in
// most cases, starting from nothing that was seen. In few it seems that they take more,
// and nothing is laid: that is found, not proved. Whatever comes of a dive holds every
// piece once, on a sheet or without a place, and no sheet holds more than fits. On fewer
// sheets than the area takes nothing is laid.
func TestDelveFindsWhatWasCut(t *testing.T) {
	r := rand.New(rand.NewSource(33))
	found, none, cases := 0, 0, proptest.Cases(12)
	for n := range cases {
		sheets := 4 + r.Intn(3)
		p := threeStages(r, sheets, 2, 1, 3, n%2 == 0)
		p.Stock[0].W, p.Stock[0].H = 63, 63
		if n%3 == 0 {
			p.Items[0].W, p.Items[0].Copies = max(1, p.Items[0].W/2), 2
		}
		v := weaver(p)
		v.lower = 0 // as if nothing were proved
		counts, _ := v.t.stores()
		if s := v.delve(sheets-1, v.mt.steps+20_000_000); s != nil {
			t.Errorf("%d sheets are laid of what takes more", len(s.bins))
		}
		limit := v.mt.steps + 20_000_000
		s := v.delve(sheets, limit)
		if s == nil {
			none++
			continue
		}
		if v.mt.steps > limit+limit/4 {
			t.Errorf("%d steps with a limit of %d", v.mt.steps, limit)
		}
		if got := held(v.t, s); !slices.Equal(got, counts) || len(s.bins) != sheets {
			t.Errorf("%v copies of %v on %d sheets of %d", got, counts, len(s.bins), sheets)
		}
		for i := range s.bins {
			if b := &s.bins[i]; b.root >= 0 && (b.nodes[b.root].w > p.Stock[0].W || b.nodes[b.root].h > p.Stock[0].H) {
				t.Errorf("%d × %d on a sheet", b.nodes[b.root].w, b.nodes[b.root].h)
			}
		}
		if len(s.pool) == 0 {
			found++
		}
	}
	t.Logf("%d of %d were put together again, %d given up", found, cases, none)
	if found < cases*3/4 || none > cases/10 {
		t.Errorf("%d of %d were put together again, %d given up", found, cases, none)
	}
}

// Delving stops with the context, and is not begun on a grid that is too fine for it.
func TestDelveStops(t *testing.T) {
	p := threeStages(rand.New(rand.NewSource(34)), 3, 2, 2, 2, false)
	v := weaver(p)
	v.mt.stopped = true
	if s := v.delve(3, noLimit); s != nil {
		t.Error("something is laid after the end")
	}
	v = weaver(p)
	if s := v.delve(3, v.mt.steps+1000); s != nil || v.strict != nil {
		t.Error("a grid is made that takes too long")
	}
	v = weaver(p)
	v.strict = &grid{xs: make([]int64, 1), ys: make([]int64, mostKept/keptRoot+1)}
	if s := v.delve(3, noLimit); s != nil || v.cover != nil {
		t.Error("sets are kept on a grid that is too fine")
	}
}
