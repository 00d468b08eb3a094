package packing

import (
	"context"
	"math/rand"
	"slices"
	"testing"

	"boardwrap.example/internal/proptest"
)

// dense makes small pieces that leave 2 to 4 % of so many sheets.
func dense(r *rand.Rand, sheets int64, turn bool) Problem {
	const side = 50
	for {
		p := Problem{Stock: []Stock{{W: side, H: side, Count: Unlimited, Cost: 1}}}
		area := int64(0)
		for area < sheets*side*side*96/100 {
			it := Item{W: 1 + r.Int63n(side/3), H: 1 + r.Int63n(side/3), Copies: 1 + r.Intn(2), Turn: turn}
			p.Items = append(p.Items, it)
			area += it.W * it.H * int64(it.Copies)
		}
		if area <= sheets*side*side*98/100 {
			return p
		}
	}
}

// filledRight says what is wrong with sheets: too much on one, or a piece too often.
func filledRight(t *testing.T, v *solver, sheets []stacked) (held []int) {
	t.Helper()
	held = make([]int, len(v.t.parts))
	for i := range sheets {
		b := &sheets[i].b
		b.refresh(&v.t.kinds[0])
		if n := &b.nodes[b.root]; n.w > v.t.kinds[0].w || n.h > v.t.kinds[0].h {
			t.Errorf("%d × %d on a sheet", n.w, n.h)
		}
		for _, h := range b.contents() {
			if held[h.part] += h.n; held[h.part] > v.t.parts[h.part].n {
				t.Errorf("part %d is laid too often", h.part)
			}
		}
	}
	return held
}

// Where sheets are filled to the brim nearly all of what small pieces allow is found,
// starting from a sheet more, and each piece is on a sheet.
func TestBrimFindsASheetLess(t *testing.T) {
	r := rand.New(rand.NewSource(35))
	begun, won := 0, 0
	for n := range proptest.Cases(16) {
		sheets := 2 + n%2
		v := newSolver(context.Background(), dense(r, int64(sheets), n%3 == 0), noLimit/4)
		v.begin()
		if v.m.ordinary == sheets {
			continue
		}
		begun++
		limit := v.mt.steps + 6_000_000
		v.brim(limit)
		if v.mt.steps > limit+limit/4 {
			t.Errorf("%d steps with a limit of %d", v.mt.steps, limit)
		}
		counts, _ := v.t.stores()
		if held := filledRight(t, v, v.best); !slices.Equal(held, counts) {
			t.Errorf("%v copies of %v", held, counts)
		}
		if v.m.ordinary == sheets {
			won++
		}
	}
	t.Logf("%d of %d", won, begun)
	if won < begun*3/4 || begun == 0 {
		t.Errorf("%d of %d come to a sheet less", won, begun)
	}
}

// A sheet that is filled holds nothing more often than it is needed, next to nothing is
// left of it where there is much to choose from, and the more large pieces count the
// fewer it takes. Of too little nothing is said to be full.
func TestFullest(t *testing.T) {
	r := rand.New(rand.NewSource(36))
	var pieces [2]int
	loose, cases := 0, proptest.Cases(12)
	for range cases {
		v := newSolver(context.Background(), dense(r, 2, false), noLimit/4)
		some := v.assorted(noLimit / 8)
		need, _ := v.t.stores()
		for i := range need { // one piece is on another sheet
			if r.Intn(10) == 0 {
				need[i]--
			}
		}
		for i, lean := range []int64{10 << 10, 60 << 10} {
			b, ok := v.fullest(some, need, 2, lean, noLimit)
			if !ok {
				loose++
				continue
			}
			held := filledRight(t, v, []stacked{{b, 1}})
			for q, n := range held {
				if n > need[q] {
					t.Errorf("%d of part %d, %d are needed", n, q, need[q])
				}
				pieces[i] += n
			}
			if k := &v.t.kinds[0]; b.used < k.score*97/100 {
				loose++
			}
		}
		few := make([]int, len(need))
		few[0] = 1
		if b, ok := v.fullest(some, few, 2, 3<<10, noLimit); ok || b.count > 0 {
			t.Errorf("a sheet is full with %d pieces", b.count)
		}
		if _, ok := v.fullest(some, need, 2, 3<<10, v.mt.steps); ok {
			t.Error("filled without a step")
		}
	}
	t.Logf("%d pieces, %d where large ones count for more, %d of %d loose", pieces[0], pieces[1], loose, 2*cases)
	if loose > cases/3 {
		t.Errorf("of %d of %d sheets more than 3 %% is left", loose, 2*cases)
	}
	if pieces[1] >= pieces[0] {
		t.Errorf("%d pieces where large ones count for more, else %d", pieces[1], pieces[0])
	}
}

// Every try for a last sheet holds what is needed, once, on it or without a place. Where
// it is more than a sheet holds, a try takes what is granted for a search, and every
// second what the best set takes too, of more sets every fourth time.
func TestLastSheetHoldsWhatIsNeeded(t *testing.T) {
	v := newSolver(context.Background(), dense(rand.New(rand.NewSource(37)), 2, false), noLimit/4)
	need, _ := v.t.stores()
	n := 0
	for i := range need { // a sheet and a half
		if i%4 == 0 {
			need[i] = 0
		}
		n += need[i]
	}
	some := v.assorted(noLimit / 8)
	var took [4]int64
	for try := range took {
		before := v.mt.steps
		s := v.lastSheet(some, need, try, noLimit)
		took[try] = v.mt.steps - before - int64(brimEach*n)
		if held := held(v.t, s); !slices.Equal(held, need) || len(s.bins) != 1 {
			t.Errorf("%v copies of %v on %d sheets", held, need, len(s.bins))
		}
	}
	const little = 50_000
	if took[0] < 0 || took[0] > little || took[2] < 0 || took[2] > little || took[1] < 2*little || took[3] < 2*took[1] {
		t.Errorf("%v steps besides the search", took)
	}
}

// Where no more goes on the sheets one try follows another until the limit, and what is
// laid stays.
func TestBrimGoesOn(t *testing.T) {
	v := newSolver(context.Background(), dense(rand.New(rand.NewSource(39)), 2, false), noLimit/4)
	v.begin()
	v.m.ordinary, v.lower = 3, 0
	for q := range v.t.parts { // more than two sheets hold
		v.t.parts[q].n++
		v.t.total++
	}
	before, limit := len(v.best), v.mt.steps+14_000_000
	v.brim(limit)
	if v.m.ordinary != 3 || len(v.best) != before || v.mt.steps < limit || v.mt.steps > limit+limit/8 {
		t.Errorf("%d sheets, %d steps with a limit of %d", len(v.best), v.mt.steps, limit)
	}
}

// Filling stops with the context, is not begun on a grid that is too fine or where there
// is no sheet but the last, and is given up where the first sheet takes too long.
func TestBrimStops(t *testing.T) {
	p := dense(rand.New(rand.NewSource(38)), 2, false)
	begun := func() (*solver, int64) {
		v := newSolver(context.Background(), p, noLimit/4)
		v.begin()
		v.mt.work(10_000_000)
		if v.m.ordinary != 3 {
			t.Fatalf("%d sheets of 2", v.m.ordinary)
		}
		return v, v.mt.steps
	}
	v, _ := begun()
	v.mt.stopped = true
	if v.brim(noLimit); v.m.ordinary != 3 {
		t.Error("something is laid after the end")
	}
	v, from := begun()
	if v.brim(from + 1000); v.strict != nil {
		t.Error("a grid is made that takes too long")
	}
	v, from = begun()
	v.strict = &grid{xs: make([]int64, 1), ys: make([]int64, mostKept/keptRoot+1)}
	if v.brim(noLimit); v.mt.steps != from {
		t.Error("sets are kept on a grid that is too fine")
	}
	v, from = begun()
	v.m.ordinary, v.lower = 2, 1
	if v.brim(from + 10_000_000); v.mt.steps > from+100_000 {
		t.Error("there is nothing to fill, and it takes its time")
	}
	v, _ = begun()
	v.assorted(noLimit / 8)
	from = v.mt.steps
	const short = 400_000 // a quarter of it does not do for a sheet
	if v.brim(from + short); v.m.ordinary != 3 || v.mt.steps < from+short/brimFirst || v.mt.steps > from+short/2 {
		t.Errorf("%d steps of %d", v.mt.steps-from, short)
	}
}
