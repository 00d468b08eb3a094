package fit

import (
	"context"
	"math/bits"
	"math/rand/v2"
	"slices"
	"testing"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
)

// asking is a search of a few dozen steps of a ruler each way, what does in it, and
// what was asked so far. Each question is a step of the budget.
type asking struct {
	*seeker
	t     *testing.T
	low   units.Size
	alone []units.Size
	fits  func(units.Size) bool
	asked []units.Size
}

const across = 24 // steps of the roomy cover

// anyAsking is one by chance: what takes contents of some sizes, either way round, and
// is as large as one of some covers; with holes in it, where larger ones do not do.
func anyAsking(t *testing.T, r *rand.Rand) *asking {
	step := units.Length(1 + r.IntN(7))
	ruler, err := units.NewRuler(step, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	a := &asking{t: t, seeker: &seeker{meter: newMeter(context.Background(), Budget{}), ruler: ruler, step: step, roomy: across * step, wide: across * step}}
	some := func() units.Size {
		return units.Size{W: units.Length(1 + r.IntN(int(a.roomy))), H: units.Length(1 + r.IntN(int(a.roomy)))}
	}
	a.low = units.Size{W: step * units.Length(1+r.IntN(5)), H: step * units.Length(1+r.IntN(5))}
	if side := r.IntN(8); side < 2 { // one side nearly as long as the roomy one
		*[...]*units.Length{&a.low.W, &a.low.H}[side] = step * units.Length(1+r.IntN(across-1))
	}
	for range r.IntN(3) {
		a.alone = append(a.alone, some())
	}
	enough := make([]units.Size, 1+r.IntN(3))
	for i := range enough {
		enough[i] = some()
	}
	holes := r.IntN(2) * r.IntN(60)
	odd := r.Uint64() | 1
	a.fits = func(c units.Size) bool {
		if hole := int(uint64(c.W*1009+c.H) * odd >> 40 % 100); hole < holes && c.W < a.roomy {
			return false
		}
		return takesAll(c, a.alone) && slices.ContainsFunc(enough, func(e units.Size) bool { return e.FitsIn(c) })
	}
	return a
}

// takesAll reports whether each of the sizes goes into a cover by itself.
func takesAll(c units.Size, alone []units.Size) bool {
	return !slices.ContainsFunc(alone, func(s units.Size) bool { return !s.FitsTurned(c) })
}

// ask is what does, with a note of the question.
func (a *asking) ask(c units.Size) bool {
	if a.over() && c != a.low {
		a.t.Errorf("%v is asked for when the budget is spent", c)
	}
	if c.W%a.step != 0 || c.H%a.step != 0 || !a.low.FitsIn(c) {
		a.t.Errorf("%v is asked for on a ruler of %v, from %v up", c, a.step, a.low)
	}
	a.asked = append(a.asked, c)
	a.spend(1)
	return a.fits(c)
}

// before reports whether one cover is smaller than another: of equal areas the
// narrower one.
func before(a, b units.Size) bool {
	if a.W*a.H != b.W*b.H {
		return a.W*a.H < b.W*b.H
	}
	return a.W < b.W
}

// byAll is the smallest cover that does, found by trying all of them.
func (a *asking) byAll() units.Size {
	best := units.Size{W: a.roomy, H: a.roomy}
	for w := a.low.W; w*a.low.H <= best.W*best.H; w += a.step {
		for h := a.low.H; w*h <= best.W*best.H; h += a.step {
			if c := (units.Size{W: w, H: h}); before(c, best) && a.fits(c) {
				best = c
			}
		}
	}
	return best
}

// The search for a cover finds the one that trying all of them finds, whatever does
// and does not. Once it has one, it asks for none that is as large or that a content
// does not go into by itself, and goes on for each width that could have a smaller
// one.
func TestCoverByTryingAll(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 3))
	searched := 0
	n := proptest.Cases(400)
	for range n {
		a := anyAsking(t, r)
		want := a.byAll()
		first := a.someCover(a.low, a.ask)
		begun := len(a.asked)
		for _, c := range a.asked {
			if max(c.W, c.H) > a.roomy {
				t.Fatalf("%v is asked for, from %v up, where the roomy one is %v", c, a.low, a.roomy)
			}
		}
		a.asked, a.meter = nil, newMeter(context.Background(), Budget{})
		got, complete := a.cover(a.low, a.alone, a.ask)
		if got != want || !complete {
			t.Fatalf("%v, complete %t; by trying all %v", got, complete, want)
		}
		if got == a.low {
			if len(a.asked) != 1 {
				t.Fatalf("what does at once is asked for %d times", len(a.asked))
			}
			continue
		}
		searched++
		best := first
		for _, c := range a.asked[1+begun:] {
			if !takesAll(c, a.alone) || !before(c, best) {
				t.Fatalf("%v is asked for with %v at hand, to take %v", c, best, a.alone)
			}
			if a.fits(c) {
				best = c
			}
		}
		widths := func(c units.Size) int { return int((c.W*c.H - 1) / a.low.H / a.step) }
		low := int(a.low.W/a.step) - 1
		if looked := int(a.done) - len(a.asked); looked < widths(want)-low || looked > widths(first)-low {
			t.Fatalf("%d widths looked at, from %v by %v to %v", looked, a.low, a.step, want)
		}
	}
	if searched < n/2 {
		t.Errorf("%d searches", searched)
	}
}

// Where what is larger does as well, the first cover that is found is one of which
// neither side can be a step less, after a few questions for each doubling.
func TestSomeCoverIsTight(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 4))
	for range proptest.Cases(400) {
		a := anyAsking(t, r)
		alone := slices.Clone(a.alone)
		least := units.Size{W: units.Length(1 + r.IntN(across*int(a.step))), H: units.Length(1 + r.IntN(across*int(a.step)))}
		a.fits = func(c units.Size) bool { return least.FitsIn(c) && takesAll(c, alone) }
		if a.fits(a.low) {
			continue
		}
		c := a.someCover(a.low, a.ask)
		narrower, lower := c.Plus(-a.step, 0), c.Plus(0, -a.step)
		if !a.fits(c) || a.low.FitsIn(narrower) && a.fits(narrower) || a.low.FitsIn(lower) && a.fits(lower) {
			t.Fatalf("%v, from %v by %v, to take %v and %v", c, a.low, a.step, least, alone)
		}
		for _, c := range a.asked {
			if !c.FitsIn(units.Size{W: a.roomy, H: a.roomy}) {
				t.Fatalf("%v is asked for, larger than %v", c, a.roomy)
			}
		}
		if most := 3 * bits.Len(across); len(a.asked) > most {
			t.Fatalf("%d questions, %d would do", len(a.asked), most)
		}
	}
}

// However soon the budget ends, there is a cover on the ruler that does, and nothing
// more is asked for; it is the smallest only where all was tried.
func TestCoverWithinABudget(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 5))
	for range proptest.Cases(40) {
		a := anyAsking(t, r)
		want := a.byAll()
		a.cover(a.low, a.alone, a.ask)
		if want == a.low {
			continue
		}
		whole := a.done
		for n := int64(1); n <= whole+1; n += 1 + n/4 {
			a.meter = newMeter(context.Background(), Budget{Steps: n})
			c, complete := a.cover(a.low, a.alone, a.ask)
			if complete != (n > whole) || complete && c != want || !a.fits(c) || c.W%a.step != 0 || c.H%a.step != 0 {
				t.Fatalf("%d of %d steps: %v, complete %t, on a ruler of %v", n, whole, c, complete, a.step)
			}
		}
	}
}

// The search for a spine finds one that does while the one a step narrower does not,
// whatever does and does not, in a few questions for each doubling; where what is wider
// does as well, that is the narrowest. What does not do up to the roomy one does not do
// at all.
func TestNarrowestByTryingAll(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 6))
	found, not := 0, 0
	for range proptest.Cases(2000) {
		a := anyAsking(t, r)
		low := a.step * units.Length(1+r.IntN(across))
		from, holes, odd := units.Length(r.IntN(across+4))*a.step, r.IntN(2)*r.IntN(80), r.Uint64()|1
		fits := func(l units.Length) bool { return l >= from && int(uint64(l)*odd>>40%100) >= holes }
		var asked []units.Length
		got, ok := a.narrowest(low, a.ruler, func(l units.Length) bool {
			if asked = append(asked, l); l%a.step != 0 || l < low || l > a.roomy {
				t.Errorf("%v is asked for on a ruler of %v, from %v to %v", l, a.step, low, a.roomy)
			}
			return fits(l)
		})
		if most := 2*bits.Len(across) + 2; len(asked) > most {
			t.Fatalf("%d questions, %d would do", len(asked), most)
		}
		if !ok {
			if not++; fits(a.roomy) {
				t.Fatalf("none from %v by %v, but %v does", low, a.step, a.roomy)
			}
			continue
		}
		found++
		if !fits(got) || got > low && fits(got-a.step) || holes == 0 && got != max(low, from) {
			t.Fatalf("%v from %v by %v, what does from %v on with %d holes", got, low, a.step, from, holes)
		}
	}
	if n := proptest.Cases(2000); found < n/2 || not < n/20 {
		t.Errorf("%d found, %d not", found, not)
	}
}

// On a ruler of boards finer than the liner's, where only a graduation of both does,
// that is the spine; by hand.
func TestNarrowestOnBothRulers(t *testing.T) {
	one, err := units.NewRuler(1, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	ten, err := units.NewRuler(10, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	q := seeker{ruler: one, step: 1, wide: 95}
	for _, c := range []struct {
		low, even, any units.Length // from where what is on both does, and what is on the one
		want           units.Length
	}{
		{12, 20, 25, 20}, {12, 20, 90, 20}, {12, 30, 35, 30}, {20, 20, 25, 20}, {12, 40, 40, 40}, {12, 40, 33, 33},
		{12, 90, 95, 90}, {91, 100, 95, 95}, {91, 100, 96, 0},
	} {
		got, ok := q.narrowest(c.low, ten, func(l units.Length) bool { return l >= c.any || l%10 == 0 && l >= c.even })
		if got != c.want || ok != (c.want > 0) {
			t.Errorf("from %d, %d on both or %d: %d, %t; want %d", c.low, c.even, c.any, got, ok, c.want)
		}
	}
	// On a ruler of 4 up to 96, from 20: 80 is the first that reaches one of 40 from 24, 28,
	// 36 or 52, the steps that are tried, and the first that reaches one of 77.
	four, err := units.NewRuler(4, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	q = seeker{ruler: four, step: 4, wide: 96}
	for liner, want := range map[units.Length]units.Length{10: 32, 40: 80, 77: 80} {
		r, err := units.NewRuler(liner, units.MetricDecimal)
		if err != nil {
			t.Fatal(err)
		}
		if got, ok := q.narrowest(20, r, func(l units.Length) bool { return l == want || l == 96 }); got != want || !ok {
			t.Errorf("a liner in steps of %d, %d or 96: %d, %t", liner, want, got, ok)
		}
	}
}

// The least height for a width is the one that trying all of them finds.
func TestLowestByTryingAll(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 7))
	none := 0
	for range proptest.Cases(2000) {
		alone := make([]units.Size, r.IntN(4))
		for i := range alone {
			alone[i] = units.Size{W: units.Length(1 + r.IntN(12)), H: units.Length(1 + r.IntN(12))}
		}
		w, h := units.Length(1+r.IntN(14)), units.Length(1+r.IntN(14))
		want := h
		for want < 20 && !takesAll(units.Size{W: w, H: want}, alone) {
			want++
		}
		got, ok := lowest(w, h, alone)
		if ok != (want < 20) || ok && got != want {
			t.Fatalf("%v wide, at least %v high, to take %v: %v, %t; want %v", w, h, alone, got, ok, want)
		}
		if !ok {
			none++
		}
	}
	if none == 0 {
		t.Error("each width has a height")
	}
}
