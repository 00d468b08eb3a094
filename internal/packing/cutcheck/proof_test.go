package cutcheck_test

import (
	"slices"
	"testing"

	"boardwrap.example/internal/packing"
	"boardwrap.example/internal/packing/cutcheck"
)

// claim is a result that says that n sheets are the fewest, for reasons.
func claim(n int, proof packing.Proof) *packing.Result {
	proof.Bound = n
	return &packing.Result{Ordinary: n, Bound: n, Proved: true, Proof: &proof}
}

// proves fails unless a proof of n sheets is taken and one of n + 1 is not.
func proves(t *testing.T, what string, p packing.Problem, n int, proof packing.Proof) {
	t.Helper()
	taken(t, what, cutcheck.CheckProof(p, claim(n, proof)))
	refused(t, what+", one too high", "the proof of", cutcheck.CheckProof(p, claim(n+1, proof)))
}

// bars are nine pieces of 4 × 10 on sheets of 10 × 10. As 3·4 > 10, a sheet
// holds two, and nine need five. By area alone four would do: 360 ÷ 100.
func bars() packing.Problem {
	return packing.Problem{
		Items: []packing.Item{{W: 4, H: 10, Copies: 9}},
		Stock: []packing.Stock{{W: 10, H: 10, Count: packing.Unlimited}},
	}
}

var plain = packing.Function{Shape: packing.Plain, C: 10, K: 1}

func TestBoundsByFunctions(t *testing.T) {
	proves(t, "by area", bars(), 4, packing.Proof{X: plain, Y: plain})
	proves(t, "by a step: ⌊3·4 ÷ 10⌋ of 2", bars(), 5, packing.Proof{X: packing.Function{Shape: packing.Steps, C: 10, K: 2}, Y: plain})
	proves(t, "by a fold: ⌊4 ÷ 4⌋ of ⌊10 ÷ 4⌋", bars(), 5, packing.Proof{X: packing.Function{Shape: packing.Fold, C: 10, K: 4}, Y: plain})

	// Pieces more than half as long as the sheet both ways never share one.
	p := packing.Problem{Items: []packing.Item{{W: 6, H: 7, Copies: 3}, {W: 2, H: 1, Copies: 1}}, Stock: []packing.Stock{{W: 10, H: 10, Count: packing.Unlimited}}}
	half := packing.Function{Shape: packing.Threshold, C: 10, K: 4}
	proves(t, "by area: 3·42 + 2", p, 2, packing.Proof{X: plain, Y: plain})
	p.Items[1].Copies = 0
	p.Items[0].W = 7
	proves(t, "by thresholds", p, 3, packing.Proof{X: half, Y: half})
	fold := packing.Function{Shape: packing.Fold, C: 10, K: 4}
	proves(t, "by folds of 7 and 7", p, 3, packing.Proof{X: fold, Y: fold})
	// Beyond a half a threshold is not superadditive and shows nothing.
	p.Items[0].Copies = 1
	over := packing.Function{Shape: packing.Threshold, C: 10, K: 6}
	refused(t, "a threshold beyond a half", "shows 0", cutcheck.CheckProof(p, claim(1, packing.Proof{X: over, Y: over})))

	// Halves: a fold is worth just half of the whole there.
	p.Items[0] = packing.Item{W: 5, H: 10, Copies: 5}
	proves(t, "by a fold at the middle", p, 3, packing.Proof{X: fold, Y: plain})
	third := packing.Function{Shape: packing.Fold, C: 10, K: 3} // 3 of 6, not 6 − 2
	proves(t, "by a fold in thirds at the middle", p, 3, packing.Proof{X: third, Y: plain})

	// Bars that may be turned are worth less turned, by one function; the sum
	// of both ways is the same either way.
	p = bars()
	p.Items[0].Turn = true
	proves(t, "by one way", p, 4, packing.Proof{X: fold, Y: plain})
	proves(t, "by both ways", p, 5, packing.Proof{X: fold, Y: plain, Both: true})
}

// A piece that is there once is on no sheet twice. A sheet of 10 × 10 takes a
// bar of 5 × 10, a bar of 3 × 10 and a strip of 2 × 10. At prices of 5, 3 and 3 a
// sheet would be worth 12 with two strips on each half; with the one that there
// is it is worth 11.
func TestCountedCopies(t *testing.T) {
	p := packing.Problem{Stock: []packing.Stock{{W: 10, H: 10, Count: packing.Unlimited}}, Items: []packing.Item{
		{W: 5, H: 10, Copies: 1}, {W: 3, H: 10, Copies: 4}, {W: 2, H: 10, Copies: 1},
	}}
	price := []int64{5, 3, 3}
	refused(t, "strips without end", "worth 12 can be cut", cutcheck.CheckProof(p, claim(2, packing.Proof{Price: price, Cap: []int64{11}})))
	counted := packing.Proof{Price: price, Cap: []int64{11}, Once: []int{2}}
	proves(t, "the strip counted", p, 2, counted) // 5 + 4·3 + 3 of 11
	refused(t, "a cap below", "worth 11 can be cut", cutcheck.CheckProof(p, claim(2, packing.Proof{Price: price, Cap: []int64{10}, Once: []int{2}})))
	p.Items[2].Copies = 2
	refused(t, "two strips", "worth 12 can be cut", cutcheck.CheckProof(p, claim(2, counted)))
	// Three strips of 2 and a bar of 3: of two strips there are no three.
	proves(t, "both strips counted", p, 2, packing.Proof{Price: price, Cap: []int64{12}, Once: []int{2}})
	// Counted copies are counted over both ways to lie, and over both parts.
	q := packing.Problem{Stock: []packing.Stock{{W: 10, H: 10, Count: packing.Unlimited}}, Items: []packing.Item{{W: 5, H: 10, Copies: 2, Turn: true}, {W: 10, H: 4, Copies: 3}}}
	proves(t, "halves and a strip", q, 2, packing.Proof{Price: []int64{2, 1}, Cap: []int64{4}, Once: []int{0}})

	for what, once := range map[string][]int{"an item that is not there": {3}, "an item below": {-1}, "an item twice": {2, 2}} {
		refused(t, what, "no copies to count", cutcheck.CheckProof(p, claim(2, packing.Proof{Price: price, Cap: []int64{12}, Once: once})))
	}
	p.Items[1].Copies = 11
	refused(t, "too many copies", "no copies to count", cutcheck.CheckProof(p, claim(2, packing.Proof{Price: price, Cap: []int64{12}, Once: []int{1}})))
	p.Items[1].Copies = 9
	refused(t, "too many copies together", "copies to count", cutcheck.CheckProof(p, claim(2, packing.Proof{Price: price, Cap: []int64{12}, Once: []int{1, 2}})))
}

// Each cut takes a kerf. With one of 3 a bar of 4 takes 7 of 13, and one sheet
// has one: 4 + 3 + 4 > 10. With one of 2 it takes 6 of 12, and there are two.
func TestKerfInProofs(t *testing.T) {
	for kerf, want := range map[int64]int{2: 5, 3: 9} {
		p := bars()
		p.Kerf = kerf
		proves(t, "by price", p, want, packing.Proof{Price: []int64{1}, Cap: []int64{int64(9+want-1) / int64(want)}})
		proves(t, "by a fold", p, want, packing.Proof{
			X: packing.Function{Shape: packing.Fold, C: 10 + kerf, K: 4 + kerf}, Y: packing.Function{Shape: packing.Plain, C: 10 + kerf, K: 1}})
	}
}

// Trim makes a sheet smaller: of 14 × 14 trimmed by 2 there are 10 × 10 left.
func TestTrimInProofs(t *testing.T) {
	p := bars()
	p.Stock[0] = packing.Stock{W: 14, H: 14, Count: packing.Unlimited, Trim: 2}
	proves(t, "by price", p, 5, packing.Proof{Price: []int64{1}, Cap: []int64{2}})
}

func TestBoundsByPrice(t *testing.T) {
	two := packing.Proof{Price: []int64{1}, Cap: []int64{2}}
	proves(t, "two on a sheet", bars(), 5, two)
	proves(t, "a cap above the truth", bars(), 3, packing.Proof{Price: []int64{1}, Cap: []int64{3}})
	proves(t, "on a raster as fine as the lengths", bars(), 5, packing.Proof{Price: []int64{1}, Cap: []int64{2}, Raster: 11, Wide: 10, High: 10})
	// On a raster of two fields each bar's 4 are nothing, and all nine may lie there.
	proves(t, "on a raster too coarse", bars(), 1, packing.Proof{Price: []int64{1}, Cap: []int64{9}, Raster: 3, Wide: 10, High: 10})

	for what, c := range map[string]struct {
		want  string
		proof packing.Proof
	}{
		"a cap below what can be cut":  {"worth 2 can be cut", packing.Proof{Price: []int64{1}, Cap: []int64{1}}},
		"a price raised":               {"worth 4 can be cut", packing.Proof{Price: []int64{2}, Cap: []int64{2}}},
		"a cap below, on a raster":     {"worth 9 can be cut", packing.Proof{Price: []int64{1}, Cap: []int64{2}, Raster: 3, Wide: 10, High: 10}},
		"a price below nothing":        {"a price of -1", packing.Proof{Price: []int64{-1}, Cap: []int64{2}}},
		"a price beyond all bounds":    {"a price of", packing.Proof{Price: []int64{1 << 50}, Cap: []int64{2 << 50}}},
		"a price missing":              {"0 prices, 1 caps", packing.Proof{Price: []int64{}, Cap: []int64{2}}},
		"a cap missing":                {"1 prices, 0 caps", packing.Proof{Price: []int64{1}}},
		"a raster of no field":         {"a proof with", packing.Proof{Price: []int64{1}, Cap: []int64{2}, Raster: 1, Wide: 10, High: 10}},
		"a raster of no width":         {"a proof with", packing.Proof{Price: []int64{1}, Cap: []int64{2}, Raster: 11, High: 10}},
		"a function of no length":      {"no function", packing.Proof{X: packing.Function{K: 1}, Y: plain}},
		"a function of no known shape": {"no function", packing.Proof{X: plain, Y: packing.Function{Shape: 4, C: 10, K: 1}}},
		"a function that ends early":   {"ends before a sheet does", packing.Proof{X: packing.Function{C: 9, K: 1}, Y: plain}},
	} {
		wrong := cutcheck.CheckProof(bars(), claim(5, c.proof))
		refused(t, what, c.want, wrong)
	}
	lone := bars()
	lone.Items = []packing.Item{{W: 6, H: 10, Copies: 1}, {W: 4, H: 10, Copies: 1}}
	refused(t, "a cap below what two lone pieces are worth", "worth 2 can be cut",
		cutcheck.CheckProof(lone, claim(2, packing.Proof{Price: []int64{1, 1}, Cap: []int64{1}})))

	lone.Items[1].W = 5 // 6 + 5 > 10
	proves(t, "two lone pieces", lone, 2, packing.Proof{Price: []int64{1, 1}, Cap: []int64{1}})

	r := claim(5, two)
	r.Proof.Bound = 4
	refused(t, "a proof of another bound", "the proof of 4", cutcheck.CheckProof(bars(), r))
	r.Proof = nil
	refused(t, "no proof", "bound 5 without a proof", cutcheck.CheckProof(bars(), r))
	r = claim(5, two)
	r.Ordinary = 6
	refused(t, "six sheets proved by a bound of five", "bound 5 and 6 sheets", cutcheck.CheckProof(bars(), r))
}

// Offcuts at hand take some of the worth: with two of 4 × 10 seven bars are
// left, for four sheets. Of two sorts of sheet the one that holds more counts.
func TestBoundsWithSeveralStocks(t *testing.T) {
	p := bars()
	p.Stock = append(p.Stock, packing.Stock{W: 4, H: 10, Count: 2, First: true})
	proves(t, "with offcuts", p, 4, packing.Proof{Price: []int64{1}, Cap: []int64{2, 1}})
	p.Stock = append(p.Stock, packing.Stock{W: 12, H: 10, Count: 1}) // three on the one
	proves(t, "with a larger sheet", p, 3, packing.Proof{Price: []int64{1}, Cap: []int64{2, 1, 3}})
}

// pinwheel is a sheet of 3 × 3 covered whole by four pieces around a fifth, none
// turned. No straight cut parts them, and no other arrangement does: a cut
// leaves a strip 1 wide, which two pieces only fill, an upright (or flat) one
// and the small one; then 2 × 3 is left for two flat ones, which leave 2 × 1,
// and an upright one. So two sheets are needed, though the area is that of one.
func pinwheel() packing.Problem {
	return packing.Problem{
		Items: []packing.Item{{W: 2, H: 1, Copies: 2}, {W: 1, H: 2, Copies: 2}, {W: 1, H: 1, Copies: 1}},
		Stock: []packing.Stock{{W: 3, H: 3, Count: packing.Unlimited}},
	}
}

func TestBoundsByTrial(t *testing.T) {
	five := packing.Proof{Root: 5, Size: 32}
	proves(t, "the pinwheel", pinwheel(), 2, five)
	turning := pinwheel()
	turning.Items[1].Turn = true // 2 × 1 and 1 × 1 in one row, two rows and a column
	proves(t, "the pinwheel with pieces that turn", turning, 1, five)

	refused(t, "half the sets", "5 pieces in 16 sets; there are 5", cutcheck.CheckProof(pinwheel(), claim(2, packing.Proof{Root: 5, Size: 16})))
	refused(t, "other pieces", "4 pieces in 16 sets; there are 5", cutcheck.CheckProof(pinwheel(), claim(2, packing.Proof{Root: 4, Size: 16})))
	many := bars()
	many.Items[0].Copies = 17
	refused(t, "more than can be tried again", "17 pieces", cutcheck.CheckProof(many, claim(9, packing.Proof{Root: 17, Size: 1 << 17})))

	// One of the sheets is an offcut at hand and is not counted.
	first := pinwheel()
	first.Stock = append(first.Stock, packing.Stock{W: 2, H: 1, Count: 1, First: true})
	proves(t, "the pinwheel with an offcut", first, 1, five)
}

// rows are 10 × 6 covered by two rows that share no joint: 5 + 5 and 3 + 4 + 3,
// each 3 high. A cut 10 long parts the rows. Without it every strip would have
// to be filled by itself: one 5 wide lacks a row of 5, one 3 wide takes both of
// 3 and leaves 5, 5 and 4 on 7. So two sheets are needed where cuts are shorter.
func rows(trim, longest int64, swap bool) packing.Problem {
	p := packing.Problem{
		Items:      []packing.Item{{W: 5, H: 3, Copies: 2}, {W: 3, H: 3, Copies: 2}, {W: 4, H: 3, Copies: 1}},
		Stock:      []packing.Stock{{W: 10 + 2*trim, H: 6 + 2*trim, Count: packing.Unlimited, Trim: trim}},
		LongestCut: longest,
	}
	if swap {
		for i := range p.Items {
			p.Items[i].W, p.Items[i].H = p.Items[i].H, p.Items[i].W
		}
		p.Stock[0].W, p.Stock[0].H = p.Stock[0].H, p.Stock[0].W
	}
	return p
}

func TestLongestCutInProofs(t *testing.T) {
	for _, swap := range []bool{false, true} {
		for _, c := range []struct {
			trim, longest int64
			sheets        int
		}{
			{0, 0, 1}, {0, 10, 1}, {0, 9, 2}, {0, 6, 2},
			{1, 12, 1}, {1, 10, 1}, // the short sides are trimmed off first, then 10 is left
			{1, 9, 2}, {1, 8, 2},
		} {
			proves(t, "rows", rows(c.trim, c.longest, swap), c.sheets, packing.Proof{Root: 5, Size: 32})
		}
	}
	// Where no cut at all is possible a piece is the whole sheet or nothing.
	p := packing.Problem{
		Items: []packing.Item{{W: 10, H: 10, Copies: 2}}, Stock: []packing.Stock{{W: 10, H: 10, Count: packing.Unlimited}}, LongestCut: 9,
	}
	proves(t, "whole sheets", p, 2, packing.Proof{Root: 2, Size: 4})
	p.Items[0].W = 5
	p.Stock = append(p.Stock, packing.Stock{W: 5, H: 10, Count: packing.Unlimited})
	proves(t, "halves that cannot be cut apart", p, 2, packing.Proof{Root: 2, Size: 4})
	// A strip as wide as the longest cut is parted by it, kerf or no kerf.
	p = packing.Problem{
		Items: []packing.Item{{W: 6, H: 2, Copies: 2}}, Stock: []packing.Stock{{W: 20, H: 6, Count: packing.Unlimited}}, Kerf: 2, LongestCut: 6,
	}
	proves(t, "a strip with a kerf", p, 1, packing.Proof{Root: 2, Size: 4})
}

// With one sheet the second of two large squares has no place, and with four
// sheets the ninth bar has none.
func TestNoMoreCanBePlaced(t *testing.T) {
	p := packing.Problem{Items: []packing.Item{{W: 7, H: 7, Copies: 2}}, Stock: []packing.Stock{{W: 10, H: 10, Count: 1}}}
	half := packing.Function{Shape: packing.Threshold, C: 10, K: 4}
	short := func(proof, noMore *packing.Proof) *packing.Result {
		r := claim(1, *proof)
		r.Short, r.NoMore = []packing.Short{{Item: 0, Copies: 1, Fits: true}}, noMore
		return r
	}
	area := &packing.Proof{X: plain, Y: plain}
	thresholds := &packing.Proof{X: half, Y: half}
	price := &packing.Proof{Price: []int64{1}, Cap: []int64{1}}
	trial := &packing.Proof{Root: 2, Size: 4}
	for i, good := range []*packing.Proof{thresholds, price, trial} {
		taken(t, []string{"by thresholds", "by price", "by trial"}[i], cutcheck.CheckProof(p, short(trial, good)))
	}
	// The area of two is 98 of 100, which shows nothing.
	for i, bad := range []*packing.Proof{area, {Price: []int64{1}, Cap: []int64{2}}, {Root: 2, Size: 2}, {Root: 1, Size: 2}, {}} {
		refused(t, []string{"by area", "by too high a cap", "by half the sets", "by one piece", "by nothing"}[i],
			"1 of 2 pieces are placed; that no more can be is not shown", cutcheck.CheckProof(p, short(trial, bad)))
	}
	refused(t, "no reason", "not that no more than 1 of 2", cutcheck.CheckProof(p, short(trial, nil)))
	p.Stock[0].Count = 2
	for _, early := range []*packing.Proof{thresholds, price, trial} {
		refused(t, "a second sheet is there", "is not shown", cutcheck.CheckProof(p, short(trial, early)))
	}
}

// A bound holds for as many pieces as are placed, whichever they are: with one
// of three short, two halves fill one sheet, though the three need two.
func TestBoundOfThoseThatArePlaced(t *testing.T) {
	p := packing.Problem{
		Items: []packing.Item{{W: 10, H: 10, Copies: 1}, {W: 5, H: 10, Copies: 2}},
		Stock: []packing.Stock{{W: 10, H: 10, Count: packing.Unlimited}},
	}
	for _, proof := range []packing.Proof{{X: plain, Y: plain}, {Price: []int64{2, 1}, Cap: []int64{2}}, {Root: 3, Size: 8}} {
		proves(t, "all three", p, 2, proof)
		r := claim(2, proof)
		r.Short = []packing.Short{{Item: 0, Copies: 1, Fits: true}}
		refused(t, "two of three", "the proof of 2 shows 1", cutcheck.CheckProof(p, r))
	}
}

// Pieces that fit no sheet are in no proof; nor is a sheet that is no use.
func TestWhatFitsNothingIsInNoProof(t *testing.T) {
	p := bars()
	p.Items = slices.Insert(p.Items, 0, packing.Item{W: 11, H: 11, Copies: 3})
	p.Stock = append(p.Stock, packing.Stock{W: 9, H: 30, Count: 5, Trim: 5})
	r := claim(5, packing.Proof{Price: []int64{7, 1}, Cap: []int64{2, 0}})
	r.Short = []packing.Short{{Item: 0, Copies: 3}}
	taken(t, "with pieces that fit nothing", cutcheck.CheckProof(p, r))
	byFold := claim(5, packing.Proof{X: packing.Function{Shape: packing.Fold, C: 10, K: 4}, Y: plain})
	byFold.Short = r.Short
	taken(t, "with pieces that fit nothing, by a fold", cutcheck.CheckProof(p, byFold))
	// A sheet too large for the trimmer that has to be trimmed is none.
	p.LongestCut = 10
	p.Stock[1] = packing.Stock{W: 40, H: 40, Count: 5, Trim: 1}
	taken(t, "with a sheet that cannot be trimmed", cutcheck.CheckProof(p, r))
	p.Stock[1].Trim = 0
	refused(t, "with a sheet that has room", "stock 1: worth", cutcheck.CheckProof(p, r))
}

// What is said to fit nothing is left out of every proof, so that it fits
// nothing has to be true.
func TestWhatFitsIsNotLeftOut(t *testing.T) {
	said := func(what string, p packing.Problem, copies int, want string) {
		t.Helper()
		r := &packing.Result{Proved: true, Short: []packing.Short{{Item: 0, Copies: copies}}}
		if wrong := cutcheck.CheckProof(p, r); want == "" {
			taken(t, what, wrong)
		} else {
			refused(t, what, want, wrong)
		}
	}
	const fits = "item 0 is said to fit nothing, but fits stock 0"
	p := bars()
	said("bars that fit", p, 9, fits)
	p.Items[0].W = 11
	said("bars that are too long", p, 9, "")
	said("one of nine bars", p, 1, "only 1 of 9 are short")
	p.Stock[0].W = 11
	p.Stock[0].H = 9
	said("bars that are too wide", p, 9, "")
	p.Items[0].H, p.Items[0].W = 11, 9
	said("bars that lie the other way", p, 9, "")
	p.Items[0].Turn = true
	said("bars that fit turned", p, 9, fits)
	p.Stock[0].Count = 0
	said("bars for which there is no sheet", p, 9, "")
	p.Stock[0] = packing.Stock{W: 13, H: 11, Count: 1, Trim: 1}
	said("bars that fit within the trim", p, 9, fits)
	p.Stock[0].Trim = 2
	said("bars that do not", p, 9, "")

	// A piece of 7 × 6 takes a cut 6 long, one of 7 × 5 one that is 7 or 10 long.
	p = packing.Problem{
		Items: []packing.Item{{W: 7, H: 6, Copies: 1}}, Stock: []packing.Stock{{W: 10, H: 6, Count: 1}}, LongestCut: 6,
	}
	said("a piece across the sheet", p, 1, fits)
	p.Items[0].H = 5
	said("a piece that takes a long cut", p, 1, "")
	p.LongestCut = 7
	said("a piece that takes a cut that can be made", p, 1, fits)
}
