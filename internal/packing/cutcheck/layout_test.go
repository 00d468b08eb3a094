package cutcheck_test

import (
	"slices"
	"strings"
	"testing"

	"boardwrap.example/internal/packing"
	"boardwrap.example/internal/packing/cutcheck"
)

// refused fails unless one of the complaints says want.
func refused(t *testing.T, what, want string, wrong []string) {
	t.Helper()
	if !slices.ContainsFunc(wrong, func(w string) bool { return strings.Contains(w, want) }) {
		t.Errorf("%s: want a complaint with %q, got %q", what, want, wrong)
	}
}

// taken fails if there is any complaint.
func taken(t *testing.T, what string, wrong []string) {
	t.Helper()
	if len(wrong) > 0 {
		t.Errorf("%s: %q", what, wrong)
	}
}

// byHand is a sheet of 100 × 70 drawn by hand, with a kerf of 2: two pieces of
// 40 × 30 one above the other, one of 30 × 58 turned beside the lower, an offcut
// of 58 × 38 beside the upper, a strip of 40 × 6 of waste on top.
//
// Pieces 2·1200 + 1740 = 4140, offcut 2204; waste is the strip's 240 and the
// kerfs' 200 + 60 + 76 + 80: 656. Together 7000.
func byHand() (packing.Problem, *packing.Result) {
	none := func(n packing.Node) packing.Node { n.Item, n.A, n.B = -1, -1, -1; return n }
	piece := func(n packing.Node) packing.Node { n.Use, n.A, n.B = packing.Piece, -1, -1; return n }
	return packing.Problem{
			Items: []packing.Item{{W: 40, H: 30, Copies: 2}, {W: 30, H: 58, Copies: 1, Turn: true}},
			Stock: []packing.Stock{{W: 100, H: 70, Count: 1, Cost: 9}},
			Kerf:  2, KeepShort: 38, KeepLong: 58,
		}, &packing.Result{
			Sheets: []packing.Sheet{{Times: 1, Nodes: []packing.Node{
				{W: 100, H: 70, Use: packing.CutY, At: 30, Item: -1, A: 1, B: 2},
				{W: 100, H: 30, Use: packing.CutX, At: 40, Item: -1, A: 3, B: 4},
				{Y: 32, W: 100, H: 38, Use: packing.CutX, At: 40, Item: -1, A: 5, B: 6},
				piece(packing.Node{W: 40, H: 30, Item: 0}),
				piece(packing.Node{X: 42, W: 58, H: 30, Item: 1, Turned: true}),
				{Y: 32, W: 40, H: 38, Use: packing.CutY, At: 30, Item: -1, A: 7, B: 8},
				none(packing.Node{X: 42, Y: 32, W: 58, H: 38, Use: packing.Offcut}),
				piece(packing.Node{Y: 32, W: 40, H: 30, Item: 0}),
				none(packing.Node{Y: 64, W: 40, H: 6, Use: packing.Waste}),
			}}},
			Used: []int{1}, Ordinary: 1, Cost: 9, Bound: 1, Proved: true,
			Areas: packing.Areas{
				Stock: packing.Area{Lo: 7000}, Pieces: packing.Area{Lo: 4140},
				Offcuts: packing.Area{Lo: 2204}, Waste: packing.Area{Lo: 656},
			},
		}
}

func TestLayoutByHandIsTaken(t *testing.T) {
	p, r := byHand()
	taken(t, "the layout drawn by hand", cutcheck.Check(p, r))

	p.LongestCut = 100
	taken(t, "a longest cut as long as the longest one made", cutcheck.Check(p, r))

	// The same sheet cut twice, from as many as needed.
	p, r = byHand()
	p.Stock[0].Count = packing.Unlimited
	p.Items[0].Copies, p.Items[1].Copies = 4, 2
	r.Sheets[0].Times = 2
	r.Used[0], r.Ordinary, r.Cost, r.Bound = 2, 2, 18, 2
	r.Areas = packing.Areas{Stock: packing.Area{Lo: 14000}, Pieces: packing.Area{Lo: 8280}, Offcuts: packing.Area{Lo: 4408}, Waste: packing.Area{Lo: 1312}}
	taken(t, "two sheets alike", cutcheck.Check(p, r))

	// One piece more is wanted than there is room for, and said to be short.
	p, r = byHand()
	p.Items[0].Copies = 3
	r.Short = []packing.Short{{Item: 0, Copies: 1, Fits: true}}
	taken(t, "a piece that is short", cutcheck.Check(p, r))

	taken(t, "nothing to cut", cutcheck.Check(packing.Problem{}, &packing.Result{}))
}

// A sheet of 52 × 50 is trimmed by 5 all round, and has one piece of 40 × 40.
func trimmed() (packing.Problem, *packing.Result) {
	leaf := func(x, y, w, h int64, use packing.Use, item int) packing.Node {
		return packing.Node{X: x, Y: y, W: w, H: h, Use: use, Item: item, A: -1, B: -1}
	}
	return packing.Problem{
			Items: []packing.Item{{W: 40, H: 40, Copies: 1}},
			Stock: []packing.Stock{{W: 52, H: 50, Count: packing.Unlimited, Trim: 5}},
			Kerf:  1, KeepShort: 20, KeepLong: 20,
		}, &packing.Result{
			Sheets: []packing.Sheet{{Times: 1, Nodes: []packing.Node{
				{W: 52, H: 50, Use: packing.CutX, At: 4, Item: -1, A: 1, B: 2},
				leaf(0, 0, 4, 50, packing.Waste, -1),
				{X: 5, W: 47, H: 50, Use: packing.CutX, At: 40, Item: -1, A: 3, B: 4},
				{X: 5, W: 40, H: 50, Use: packing.CutY, At: 4, Item: -1, A: 5, B: 6},
				leaf(46, 0, 6, 50, packing.Waste, -1),
				leaf(5, 0, 40, 4, packing.Waste, -1),
				{X: 5, Y: 5, W: 40, H: 45, Use: packing.CutY, At: 40, Item: -1, A: 7, B: 8},
				leaf(5, 5, 40, 40, packing.Piece, 0),
				leaf(5, 46, 40, 4, packing.Waste, -1),
			}}},
			Used: []int{1}, Ordinary: 1,
			Areas: packing.Areas{Stock: packing.Area{Lo: 2600}, Pieces: packing.Area{Lo: 1600}, Waste: packing.Area{Lo: 1000}},
		}
}

func TestTrim(t *testing.T) {
	p, r := trimmed()
	taken(t, "a trimmed sheet", cutcheck.Check(p, r))
	p.Stock[0].Trim = 6
	refused(t, "a piece within the trim", "item 0 in the trim", cutcheck.Check(p, r))
}

// A cut that runs off the edge of its part leaves nothing behind it: the piece
// is as high as the sheet but for half a kerf.
func TestCutOffTheEdge(t *testing.T) {
	p := packing.Problem{Items: []packing.Item{{W: 10, H: 9, Copies: 1}}, Stock: []packing.Stock{{W: 10, H: 10, Count: 1}}, Kerf: 2}
	r := &packing.Result{
		Sheets: []packing.Sheet{{Times: 1, Nodes: []packing.Node{
			{W: 10, H: 10, Use: packing.CutY, At: 9, Item: -1, A: 1, B: -1},
			{W: 10, H: 9, Use: packing.Piece, A: -1, B: -1},
		}}},
		Used: []int{1}, Ordinary: 1,
		Areas: packing.Areas{Stock: packing.Area{Lo: 100}, Pieces: packing.Area{Lo: 90}, Waste: packing.Area{Lo: 10}},
	}
	taken(t, "a cut off the edge", cutcheck.Check(p, r))
	n := &r.Sheets[0].Nodes
	*n = append(*n, packing.Node{Y: 11, W: 10, H: -1, Item: -1, A: -1, B: -1})
	(*n)[0].B = 2
	refused(t, "a part of less than nothing", "child 2 where nothing is left", cutcheck.Check(p, r))
}

// Every single thing that is wrong with a layout is found.
func TestBadLayoutsAreRefused(t *testing.T) {
	for _, c := range []struct {
		what, want string
		spoil      func(p *packing.Problem, r *packing.Result, n []packing.Node)
	}{
		{"two pieces on one another", "pieces overlap", func(_ *packing.Problem, _ *packing.Result, n []packing.Node) { n[7].Y = 29 }},
		{"a piece moved along x over its neighbour", "pieces overlap", func(_ *packing.Problem, _ *packing.Result, n []packing.Node) { n[4].X = 39 }},
		{"a piece off the sheet", "item 1 in the trim", func(_ *packing.Problem, _ *packing.Result, n []packing.Node) { n[4].X = 43 }},
		{"a piece below the sheet", "item 0 in the trim", func(_ *packing.Problem, _ *packing.Result, n []packing.Node) { n[3].Y = -1 }},
		{"a cut that stops half-way", "the cut gives", func(_ *packing.Problem, _ *packing.Result, n []packing.Node) { n[1].W = 60 }},
		{"a part that is no part of the cut one", "the cut gives", func(_ *packing.Problem, _ *packing.Result, n []packing.Node) { n[5].H = 39 }},
		{"a wider blade", "the cut gives", func(p *packing.Problem, _ *packing.Result, _ []packing.Node) { p.Kerf = 3 }},
		{"a narrower blade", "the cut gives", func(p *packing.Problem, _ *packing.Result, _ []packing.Node) { p.Kerf = 1 }},
		{"a cut outside its part", "cut at 101 outside the part", func(_ *packing.Problem, _ *packing.Result, n []packing.Node) { n[1].At = 101 }},
		{"a cut before its part", "cut at -3 outside the part", func(_ *packing.Problem, _ *packing.Result, n []packing.Node) { n[1].At = -3 }},
		{"a cut along the edge that takes nothing", "cut at 0 outside the part", func(p *packing.Problem, _ *packing.Result, n []packing.Node) { p.Kerf, n[1].At = 0, 0 }},
		{"a cut along y that is too long", "cut of 38, longest 37", func(p *packing.Problem, _ *packing.Result, _ []packing.Node) { p.LongestCut = 37 }},
		{"a cut along x that is too long", "cut of 100, longest 99", func(p *packing.Problem, _ *packing.Result, _ []packing.Node) { p.LongestCut = 99 }},
		{"a part used twice", "bad child 3", func(_ *packing.Problem, _ *packing.Result, n []packing.Node) { n[2].A = 3 }},
		{"a part before the one that it is cut from", "bad child 1", func(_ *packing.Problem, _ *packing.Result, n []packing.Node) { n[5].A = 1 }},
		{"a part that is not there", "bad child 9", func(_ *packing.Problem, _ *packing.Result, n []packing.Node) { n[5].B = 9 }},
		{"a part cut from nothing", "part 8: cut from nothing", func(_ *packing.Problem, _ *packing.Result, n []packing.Node) { n[5].B = -1 }},
		{"a cut piece", "uncut but with children", func(_ *packing.Problem, _ *packing.Result, n []packing.Node) { n[3].A = 7 }},
		{"a part without size", "no size", func(_ *packing.Problem, _ *packing.Result, n []packing.Node) { n[8].H = 0 }},
		{"an unknown use", "use 9", func(_ *packing.Problem, _ *packing.Result, n []packing.Node) { n[8].Use = 9 }},
		{"a piece that is smaller than its item", "item 0 is 41 × 30, the part 40 × 30", func(p *packing.Problem, _ *packing.Result, _ []packing.Node) { p.Items[0].W = 41 }},
		{"a piece turned that may not be", "item 1 turned", func(p *packing.Problem, _ *packing.Result, _ []packing.Node) { p.Items[1].Turn = false }},
		{"a piece said to lie straight", "item 1 is 30 × 58, the part 58 × 30", func(_ *packing.Problem, _ *packing.Result, n []packing.Node) { n[4].Turned = false }},
		{"an unknown item", "no such item 2", func(_ *packing.Problem, _ *packing.Result, n []packing.Node) { n[4].Item = 2 }},
		{"a missing piece", "item 0: 2 placed or short, 3 wanted", func(p *packing.Problem, _ *packing.Result, _ []packing.Node) { p.Items[0].Copies = 3 }},
		{"a piece thrown away", "item 0: 1 placed or short, 2 wanted", func(_ *packing.Problem, _ *packing.Result, n []packing.Node) { n[7].Use = packing.Waste }},
		{"a piece too many", "item 0: 2 placed or short, 1 wanted", func(p *packing.Problem, _ *packing.Result, _ []packing.Node) { p.Items[0].Copies = 1 }},
		{"a placed piece said to be short", "item 0: 3 placed or short, 2 wanted", func(_ *packing.Problem, r *packing.Result, _ []packing.Node) {
			r.Short = []packing.Short{{Item: 0, Copies: 1, Fits: true}}
		}},
		{"a shortage of nothing", "odd shortage", func(_ *packing.Problem, r *packing.Result, _ []packing.Node) { r.Short = []packing.Short{{Item: 0}} }},
		{"a shortage of no item", "odd shortage", func(_ *packing.Problem, r *packing.Result, _ []packing.Node) {
			r.Short = []packing.Short{{Item: 2, Copies: 1}}
		}},
		{"an offcut too short to keep", "offcut 58 × 38 is too small", func(p *packing.Problem, _ *packing.Result, _ []packing.Node) { p.KeepLong = 59 }},
		{"an offcut too narrow to keep", "offcut 58 × 38 is too small", func(p *packing.Problem, _ *packing.Result, _ []packing.Node) { p.KeepShort = 39 }},
		{"another sheet than the stock", "not the sheet", func(p *packing.Problem, _ *packing.Result, _ []packing.Node) { p.Stock[0].H = 71 }},
		{"a sheet without parts", "no parts", func(_ *packing.Problem, r *packing.Result, _ []packing.Node) { r.Sheets[0].Nodes = nil }},
		{"an unknown stock", "no such stock 1", func(_ *packing.Problem, r *packing.Result, _ []packing.Node) { r.Sheets[0].Stock = 1 }},
		{"a sheet never cut", "cut 0 times", func(_ *packing.Problem, r *packing.Result, _ []packing.Node) { r.Sheets[0].Times = 0 }},
		{"more sheets than there are", "1 used of 0", func(p *packing.Problem, _ *packing.Result, _ []packing.Node) { p.Stock[0].Count = 0 }},
		{"a wrong count of sheets", "Used says 2, the sheets 1", func(_ *packing.Problem, r *packing.Result, _ []packing.Node) { r.Used[0] = 2 }},
		{"no count of sheets", "Used has 0 entries", func(_ *packing.Problem, r *packing.Result, _ []packing.Node) { r.Used = nil }},
		{"an offcut at hand counted as a sheet", "Ordinary is 1, the sheets say 0", func(p *packing.Problem, _ *packing.Result, _ []packing.Node) { p.Stock[0].First = true }},
		{"a wrong cost", "Cost is 8, the sheets say 9", func(_ *packing.Problem, r *packing.Result, _ []packing.Node) { r.Cost = 8 }},
		{"a bound above what is used", "bound 2 above the 1 sheets used", func(_ *packing.Problem, r *packing.Result, _ []packing.Node) { r.Bound = 2 }},
		{"proved by a bound below", "proved, but bound 0 and 1 sheets", func(_ *packing.Problem, r *packing.Result, _ []packing.Node) { r.Bound = 0 }},
		{"a wrong area of stock", "area of stock is 6999", func(_ *packing.Problem, r *packing.Result, _ []packing.Node) { r.Areas.Stock.Lo-- }},
		{"a wrong area of pieces", "area of pieces is 4141", func(_ *packing.Problem, r *packing.Result, _ []packing.Node) { r.Areas.Pieces.Lo++ }},
		{"a wrong area of offcuts", "area of offcuts", func(_ *packing.Problem, r *packing.Result, _ []packing.Node) { r.Areas.Offcuts.Hi = 1 }},
		{"a wrong area of waste", "area of waste is 655", func(_ *packing.Problem, r *packing.Result, _ []packing.Node) { r.Areas.Waste.Lo-- }},
	} {
		p, r := byHand()
		c.spoil(&p, r, r.Sheets[0].Nodes)
		refused(t, c.what, c.want, cutcheck.Check(p, r))
	}
}

// However much is wrong, the list of it ends.
func TestComplaintsEnd(t *testing.T) {
	p, r := byHand()
	for range 100 {
		r.Sheets[0].Nodes = append(r.Sheets[0].Nodes, packing.Node{A: -1, B: -1})
	}
	if n := len(cutcheck.Check(p, r)); n != 50 {
		t.Errorf("%d complaints", n)
	}
}
