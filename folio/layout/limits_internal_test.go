package layout

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/cutorder"
	"boardwrap.example/internal/packing"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A length may shrink by so many steps of the ruler as its tolerance has, up to 256;
// beyond that, however much it may, by 256, and there is a folio for it.
func TestMostLengths(t *testing.T) {
	if mostLengths != 256 {
		t.Errorf("%d steps, DEVELOPERS.md says 256", mostLengths)
	}
	mm := units.Millimetre
	plan, err := folio.Build(folio.Spec{Cover: units.Size{W: 500 * mm, H: 700 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}})
	if err != nil {
		t.Fatal(err)
	}
	for may, steps := range map[units.Length]int16{
		-mm: 0, 0: 0, mm - 1: 0, mm: 1, (mostLengths - 1) * mm: mostLengths - 1,
		mostLengths * mm: mostLengths, (mostLengths + 1) * mm: mostLengths, 10 * mostLengths * mm: mostLengths, 1<<63 - 1: mostLengths,
	} {
		a, ok := newAlterer(plan, Tolerance{Width: may, Height: may})
		if !ok {
			t.Fatal("it cannot be built again")
		}
		if a.most[Narrower] != steps || a.most[Lower] != steps {
			t.Errorf("%v: %d and %d steps", may, a.most[Narrower], a.most[Lower])
		}
		if p := a.build(a.most); p == nil || p.Spec().Cover != (units.Size{W: 500*mm - units.Length(steps)*mm, H: 700*mm - units.Length(steps)*mm}) {
			t.Errorf("%v: it cannot be built, or is another one", may)
		} else if a.build(a.most) != p {
			t.Errorf("%v: it is built again", may)
		}
	}
}

// The search of one material for how many copies it yields ends with its share of the
// budget or with the whole, and has ended then, whatever is given it afterwards.
func TestYieldEndsWithItsShare(t *testing.T) {
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	for _, c := range []struct {
		ctx   context.Context
		share int64
		ends  bool
	}{{t.Context(), 1, false}, {t.Context(), 0, true}, {t.Context(), -1, true}, {gone, 1, true}} {
		m := newMeter(c.ctx, Budget{}, leastSearch)
		y := yielder{meter: m, left: c.share}
		if y.over() != c.ends || y.stopped != c.ends {
			t.Errorf("with %d steps left, %v: over %t", c.share, c.ctx.Err(), !c.ends)
		}
		if y.left = 1; c.ctx == t.Context() && y.over() != c.ends {
			t.Errorf("with %d steps left, and then 1: over %t", c.share, !c.ends)
		}
		m.end()
	}
}

// The pieces of a material are the same only if they are as many, of the same sizes, as
// often, with the same grain.
func TestSameWants(t *testing.T) {
	size := units.Size{W: 3, H: 5}
	list := []Wanted{{size: size, quantity: 2, grain: stock.GrainAny}, {size: size, quantity: 2, grain: stock.GrainAny}, {size: size.Turned(), quantity: 2, grain: stock.GrainAny},
		{size: size, quantity: 3, grain: stock.GrainAny}, {size: size, quantity: 2, grain: stock.GrainParallel}}
	for i := range list {
		if got := sameWants(list, []int{i}, list, []int{0}); got != (i < 2) || got != sameWants(list, []int{0}, list, []int{i}) {
			t.Errorf("%+v is the same as %+v: %v", list[i], list[0], got)
		}
	}
	if sameWants(list, []int{0, 1}, list, []int{0}) || sameWants(list, []int{0}, list, []int{0, 1}) || !sameWants(list, []int{0, 4}, list, []int{1, 4}) {
		t.Error("one is two")
	}
}

// A job holds 10,000 different pieces, those of its folios and those by hand together,
// and is told when it is one more.
func TestMostDifferentPieces(t *testing.T) {
	plan, err := folio.Build(folio.Spec{Cover: units.Size{W: units.Metre / 5, H: units.Metre / 4}, Spine: rule.Spine{Width: units.Metre / 50}, Board: stock.Stock{Name: "board"}})
	if err != nil {
		t.Fatal(err)
	}
	boards := 0
	for p := range plan.Pieces() {
		if p.Stock() == "board" {
			boards++
		}
	}
	job := Job{Folios: []Folio{{Plan: plan, Copies: 1}}, Materials: []Material{{Name: "board", Sheets: []SheetKind{{Size: units.Size{W: units.Metre, H: units.Metre}, Count: Unlimited}}}}}
	for _, m := range MaterialsOf(plan) {
		if m.Name != "board" {
			job.Except = append(job.Except, m.Name)
		}
	}
	for more, refused := range map[int]bool{0: false, 1: true} {
		job.Pieces = slices.Repeat([]LoosePiece{{Name: "tag", Material: "board", Size: units.Size{W: units.Inch, H: units.Inch}, Quantity: 1}}, 10_000-boards+more)
		var bad check.List
		job.gather(&bad)
		_, is := bad.Err().(*check.Error)
		if is {
			_, is = bad.Err().(*check.Error).Find("", check.TooMany)
		}
		if boards == 0 || is != refused || refused && bad.Len() != 1 {
			t.Errorf("%d boards and %d pieces by hand: %v", boards, len(job.Pieces), bad.Err())
		}
	}
}

// Where nothing is left for finding out how many more sheets would do, that is not
// searched; with a step it is. A cutter that is too small for two pieces is told once,
// with what would do for both, and that of another material by itself.
func TestLackerAtItsEdge(t *testing.T) {
	for left, searched := range map[int64]bool{-1: false, 0: false, 1: true} {
		m := newMeter(t.Context(), Budget{}, 1)
		c := &lacker{meter: m, left: left}
		s := &solved{problem: &problem{}}
		s.Stock = []packing.Stock{{W: 10, H: 10, Count: 1}}
		more := packing.Problem{Stock: s.Stock, Items: []packing.Item{{W: 10, H: 10, Copies: 3}}}
		if used := c.few(more, s); (used != nil) != searched || searched && used[0] != 3 || (m.done > 0) != searched {
			t.Errorf("%d steps left: %v after %d", left, used, m.done)
		}
	}
	// Of sheets that are not bought no more are to be had, so nobody says how many would do.
	c := &lacker{meter: newMeter(t.Context(), Budget{}, 1), left: 1000}
	s := &solved{problem: &problem{}}
	s.Stock = []packing.Stock{{W: 10, H: 10, Count: 1}, {W: 20, H: 20, Count: 1, First: true}}
	more := packing.Problem{Stock: slices.Clone(s.Stock), Items: []packing.Item{{W: 10, H: 10, Copies: 1}, {W: 20, H: 20, Copies: 2}}}
	if used := c.few(more, s); used != nil {
		t.Errorf("%v would do for what comes out of offcuts only", used)
	}
	// A sheet with its trim may be 10 m long, and no longer.
	c.l = &Layout{job: Job{Ruler: units.WholeMillimetres}}
	s.material.Sheets = []SheetKind{{Trim: 50 * units.Millimetre}}
	for long, want := range map[units.Length]string{
		9 * units.Metre: "9100 x 1100 mm with its trim of 50 mm", 9900 * units.Millimetre: "10000 x 1100 mm with its trim of 50 mm", 9901 * units.Millimetre: "9901 x 1000 mm without trim",
	} {
		if got := c.withTrim(s, units.Size{W: long, H: units.Metre}); got != want {
			t.Errorf("%v: %q, want %q", long, got, want)
		}
	}
	c = &lacker{}
	for _, v := range []check.Violation{
		{Path: "cutter.longestcut", Code: CutShort, Limit: 5}, {Path: "cutter.longestcut", Code: CutShort, Limit: 7}, {Path: "cutter.longestcut", Code: CutShort, Limit: 6},
		{Path: "materials[1].cutter.longestcut", Code: CutShort, Limit: 9}, {Path: "materials[1].cutter.longestcut", Code: CutShort, Limit: 8},
	} {
		if !c.cutter(v) {
			t.Errorf("%v is not kept", v)
		}
	}
	if c.cutter(check.Violation{Path: "cutter.longestcut", Code: SheetSmall}) || len(c.cuts) != 2 || c.cuts[0].Limit != 7 || c.cuts[1].Limit != 9 {
		t.Errorf("kept %v", c.cuts)
	}
}

// A piece is said to come out of a sheet just where it is laid on one, whatever is taken
// off the edges, however long the cuts may be and whichever way round it may lie: also one
// as large as the sheet, for which nothing is cut.
func TestFitsByLaying(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 1))
	fit, not, whole := 0, 0, 0
	n := proptest.Cases(2000)
	for range n {
		some := func(most int64) int64 { return 1 + r.Int64N(most) }
		st := packing.Stock{W: some(8), H: some(8), Count: 1, Trim: max(0, r.Int64N(5)-2)}
		it := packing.Item{W: some(8), H: some(8), Copies: 1, Turn: r.IntN(2) == 0}
		if r.IntN(8) == 0 {
			it.W, it.H = st.W, st.H
		}
		p := &problem{Problem: packing.Problem{Stock: []packing.Stock{st}, Items: []packing.Item{it}, LongestCut: r.Int64N(10)}, kinds: []kind{{index: 0}},
			material: Material{Sheets: []SheetKind{{Size: units.Size{W: length(st.W), H: length(st.H)}, Trim: length(st.Trim)}}}}
		laid, err := packing.Solve(t.Context(), p.Problem, packing.Budget{Steps: 10_000})
		if err != nil {
			t.Fatal(err)
		}
		if got, want := p.fits(it), shorts(laid) == 0; got != want {
			t.Fatalf("%+v out of %+v with cuts of up to %d: %t, laid %t", it, st, p.LongestCut, got, want)
		}
		switch {
		case shorts(laid) > 0:
			not++
		case len(laid.Sheets[0].Nodes) == 1:
			whole++
		default:
			fit++
		}
	}
	if fit < n/10 || not < n/4 || whole < n/40 {
		t.Errorf("of %d %d fit, %d do not, %d are as large as the sheet", n, fit, not, whole)
	}
}

// What is left is kept from 1 in by 3 in, or from 25 by 75 mm, where nothing is said; where
// one side is, any length of the other one does.
func TestKeepByDefault(t *testing.T) {
	mm := units.Millimetre
	for _, c := range []struct {
		n         units.Notation
		said, has Keep
	}{
		{units.MetricDecimal, Keep{}, Keep{25 * mm, 75 * mm}}, {units.InchFraction, Keep{}, Keep{units.Inch, 3 * units.Inch}},
		{units.MetricDecimal, Keep{Short: mm}, Keep{Short: mm}}, {units.MetricDecimal, Keep{Long: mm}, Keep{Long: mm}}, {units.InchFraction, Keep{Long: mm}, Keep{Long: mm}},
	} {
		if got := c.said.withDefaults(c.n); got != c.has {
			t.Errorf("%+v: %+v, want %+v", c.said, got, c.has)
		}
	}
}

// Of two answers the better has fewer pieces short; of as many, fewer bought sheets; of as
// many again, a lower price.
func TestBetterByAll(t *testing.T) {
	var all [][]int64
	for n := range int64(27) {
		all = append(all, []int64{n / 9, n / 3 % 3, n % 3})
	}
	of := func(n []int64) *packing.Result {
		r := &packing.Result{Ordinary: int(n[1]), Cost: n[2]}
		for range n[0] {
			r.Short = append(r.Short, packing.Short{Copies: 1})
		}
		return r
	}
	for _, a := range all {
		for _, b := range all {
			if better(of(a), of(b)) != (slices.Compare(a, b) < 0) {
				t.Errorf("short, bought, price: %v is better than %v: %t", a, b, better(of(a), of(b)))
			}
		}
	}
}

// A change is within another one that changes nothing less.
func TestWithin(t *testing.T) {
	by := alteration{3, 0, 2, 0, 1}
	for a, want := range map[alteration]bool{{}: true, {3, 0, 2, 0, 1}: true, {2, 0, 1, 0, 0}: true, {3, 0, 3, 0, 1}: false, {0, 1, 0, 0, 0}: false, {4, 0, 0, 0, 0}: false, {3, 0, 2, 1, 1}: false} {
		if a.within(by) != want {
			t.Errorf("%v within %v: %v", a, by, !want)
		}
	}
}

// A step that cuts parts of many sheets names thirteen of them or of their rows, and of
// more the first thirteen.
func TestSheetsAreNamed(t *testing.T) {
	for want, numbers := range map[string][]int{
		"sheet 4": {4}, "sheets 1 and 2": {1, 2}, "sheets 1 to 3": {2, 1, 3}, "sheets 1, 3 to 5 and 9": {1, 3, 4, 5, 9}, "sheets 2 to 4, 7, 8 and 10": {2, 3, 4, 7, 8, 10},
		"sheets 1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23 and 25":         {1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23, 25},
		"sheets 1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23, 25 and others": {1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23, 25, 27},
	} {
		s := CutStep{m: &Laid{}, take: -1}
		for i, n := range numbers {
			s.m.sheets, s.refs = append(s.m.sheets, LaidSheet{number: n}), append(s.refs, cutorder.Ref{Sheet: i})
		}
		if got := (&writer{s: s}).sheets(); got != want {
			t.Errorf("%v: %q, want %q", numbers, got, want)
		}
	}
}
