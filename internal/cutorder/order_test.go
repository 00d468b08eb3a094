package cutorder_test

import (
	"context"
	"fmt"
	"math/rand"
	"runtime"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/internal/cutorder"
	"boardwrap.example/internal/packing"
	"boardwrap.example/internal/packing/cutcheck"
	"boardwrap.example/internal/proptest"
)

// order solves a problem and plans the order of its cuts.
func order(t testing.TB, p packing.Problem, steps, work int64) (*packing.Result, *cutorder.Order) {
	t.Helper()
	r, err := packing.Solve(context.Background(), p, packing.Budget{Steps: steps})
	if err != nil {
		t.Fatal(err)
	}
	return r, cutorder.Plan(context.Background(), r.Sheets, options(p, work))
}

func options(p packing.Problem, work int64) cutorder.Options {
	o := cutorder.Options{Kerf: p.Kerf, LongestCut: p.LongestCut, KeepShort: p.KeepShort, KeepLong: p.KeepLong, Work: work, Least: 1 << 40}
	for _, s := range p.Stock {
		o.Trim = append(o.Trim, s.Trim)
	}
	return o
}

// faults carries an order out and returns all that is wrong with it: the sheets
// by the checker of the engine, the steps by a heap of parts on which nothing is
// cut before it is there, and the counts.
func faults(p packing.Problem, r *packing.Result, o *cutorder.Order) []string {
	var wrong []string
	say := func(format string, args ...any) { wrong = append(wrong, fmt.Sprintf(format, args...)) }
	again := *r
	again.Sheets = o.Sheets
	again.Areas = areas(o.Sheets)
	for _, w := range cutcheck.Check(p, &again) {
		say("%s", w)
	}
	// Sheets that are laid alike may lose a leftover, but not the largest.
	fewer := len(o.Sheets) < len(r.Sheets)
	if again.Areas.Stock != r.Areas.Stock || again.Areas.Pieces != r.Areas.Pieces || !fewer && again.Areas.Offcuts.Cmp(r.Areas.Offcuts) < 0 ||
		largest(o.Sheets).Cmp(largest(r.Sheets)) < 0 {
		say("areas %+v became %+v", r.Areas, again.Areas)
	}
	there := make([]map[int]bool, len(o.Sheets)) // parts on the table
	for i := range there {
		there[i] = map[int]bool{0: true}
	}
	settings, turns, cuts := 0, 0, int64(0)
	for i, s := range o.Steps {
		if i == 0 || s.Setting != o.Steps[i-1].Setting {
			settings++
		}
		if i > 0 && s.Axis != o.Steps[i-1].Axis && s.Pass == o.Steps[i-1].Pass {
			turns++
		}
		if s.Cuts < 1 || len(s.Parts) == 0 {
			say("step %d cuts nothing", i)
		}
		for _, ref := range s.Parts {
			sheet := &o.Sheets[ref.Sheet]
			at := ref.Node
			if !there[ref.Sheet][at] {
				say("step %d: part %d of sheet %d is not there", i, at, ref.Sheet)
				return wrong
			}
			first, first0 := sheet.Nodes[at], o.Sheets[s.Parts[0].Sheet].Nodes[s.Parts[0].Node]
			if first.W != first0.W || first.H != first0.H {
				say("step %d: parts of two sizes", i)
			}
			for k := range s.Cuts {
				if at < 0 {
					say("step %d: cut %d of nothing", i, k)
					return wrong
				}
				n := sheet.Nodes[at]
				delete(there[ref.Sheet], at)
				if n.Use != s.Axis || n.At != s.Setting {
					say("step %d: cut %d at %d, the sheet says %d", i, k, s.Setting, n.At)
					return wrong
				}
				if n.A >= 0 {
					there[ref.Sheet][n.A] = true
				}
				if n.B >= 0 {
					there[ref.Sheet][n.B] = true
				}
				at = n.B
				cuts += int64(sheet.Times)
			}
		}
	}
	for i := range there {
		for n := range there[i] {
			if u := o.Sheets[i].Nodes[n].Use; u == packing.CutX || u == packing.CutY {
				say("sheet %d: part %d is never cut", i, n)
			}
		}
	}
	if settings != o.Settings || turns != o.Turns || cuts != o.Cuts {
		say("%d settings, %d turns, %d cuts; counted %d, %d, %d", o.Settings, o.Turns, o.Cuts, settings, turns, cuts)
	}
	if o.LeastSettings > settings || o.LeastTurns > turns || o.LeastCuts > cuts {
		say("at least %d settings, %d turns, %d cuts; counted %d, %d, %d", o.LeastSettings, o.LeastTurns, o.LeastCuts, settings, turns, cuts)
	}
	if _, before := plain(r.Sheets); cuts > before {
		say("%d cuts, %d before", cuts, before)
	}
	return wrong
}

// largest is the area of the largest leftover worth keeping.
func largest(sheets []packing.Sheet) packing.Area {
	var a packing.Area
	for _, s := range sheets {
		for _, n := range s.Nodes {
			if x := product(n.W, n.H); n.Use == packing.Offcut && x.Cmp(a) > 0 {
				a = x
			}
		}
	}
	return a
}

func areas(sheets []packing.Sheet) packing.Areas {
	var a packing.Areas
	for _, s := range sheets {
		n := uint64(s.Times)
		var piece, off packing.Area
		for _, d := range s.Nodes {
			x := product(d.W, d.H)
			switch d.Use {
			case packing.Piece:
				piece = piece.Add(x)
			case packing.Offcut:
				off = off.Add(x)
			}
		}
		all := product(s.Nodes[0].W, s.Nodes[0].H)
		a.Stock = a.Stock.Add(all.Times(n))
		a.Pieces = a.Pieces.Add(piece.Times(n))
		a.Offcuts = a.Offcuts.Add(off.Times(n))
		a.Waste = a.Waste.Add(all.Sub(piece).Sub(off).Times(n))
	}
	return a
}

func product(a, b int64) packing.Area {
	x := packing.Area{}
	for range b >> 20 {
		x = x.Add(packing.Area{Lo: uint64(a) << 20})
	}
	return x.Add(packing.Area{Lo: uint64(a) * uint64(b&(1<<20-1))})
}

// random makes a problem of so many kinds of pieces.
func random(r *rand.Rand, kinds, copies int, side int64) packing.Problem {
	p := packing.Problem{KeepShort: 4, KeepLong: 12}
	if r.Intn(4) == 0 {
		p.Kerf = int64(r.Intn(3))
	}
	for range 1 + r.Intn(2) {
		s := packing.Stock{W: side + r.Int63n(side), H: side + r.Int63n(side), Count: packing.Unlimited, Cost: 1 + r.Int63n(3)}
		if r.Intn(4) == 0 {
			s.Trim = 1 + r.Int63n(2)
		}
		p.Stock = append(p.Stock, s)
	}
	if r.Intn(5) == 0 {
		p.LongestCut = side/2 + 2 + r.Int63n(side)
	}
	for range kinds {
		p.Items = append(p.Items, packing.Item{W: 2 + r.Int63n(side/2), H: 2 + r.Int63n(side/2), Copies: 1 + r.Intn(copies), Turn: r.Intn(2) == 0})
	}
	return p
}

func TestRandom(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	var was, is, least int
	var cutsWas, cutsIs int64
	for i := range proptest.Cases(100) {
		p := random(r, 1+r.Intn(8), 12, 40)
		res, o := order(t, p, 100_000, 1_000_000)
		for _, w := range faults(p, res, o) {
			t.Errorf("case %d: %s", i, w)
		}
		if t.Failed() {
			t.Logf("%+v", p)
			break
		}
		s, c := plain(res.Sheets)
		was, is, least, cutsWas, cutsIs = was+s, is+o.Settings, least+o.LeastSettings, cutsWas+c, cutsIs+o.Cuts
	}
	t.Logf("settings %d, were %d, at least %d; cuts %d, were %d", is, was, least, cutsIs, cutsWas)
}

// Twenty batches such as a table of folios takes, from the sheets and offcuts of
// a cupboard: over all of them at least a quarter fewer settings than in the
// plain order of the same layouts, and not one cut more.
func TestBatches(t *testing.T) {
	r := rand.New(rand.NewSource(20))
	var was, is, least int
	for i := range 20 {
		for _, p := range batch(r) {
			res, o := order(t, p, 1_000_000, 1_000_000)
			for _, w := range faults(p, res, o) {
				t.Errorf("batch %d: %s", i, w)
			}
			n, _ := plain(res.Sheets)
			was, is, least = was+n, is+o.Settings, least+o.LeastSettings
		}
	}
	t.Logf("%d settings, %d in the plain order, at least %d", is, was, least)
	if is*4 > was*3 {
		t.Errorf("%d settings, %d in the plain order", is, was)
	}
}

// batch makes the problems of a batch of up to four folios in sixteenths of an
// inch: boards, wraps, liners and mats.
func batch(r *rand.Rand) []packing.Problem {
	stock := func(w, h int64, count int) packing.Stock {
		return packing.Stock{W: w * 16, H: h * 16, Count: count, First: count > 0}
	}
	boards := packing.Problem{Stock: []packing.Stock{stock(20, 26, -1), stock(10, 13, 3)}}
	wraps := packing.Problem{Stock: []packing.Stock{stock(18, 24, -1)}}
	liners := packing.Problem{Stock: []packing.Stock{stock(25, 19, -1), stock(9, 11, 4)}}
	mats := packing.Problem{Stock: []packing.Stock{stock(12, 12, -1)}}
	for range 1 + r.Intn(4) {
		n := 1 + r.Intn(20)
		w, h, spine := 56+2*r.Int63n(16), 80+2*r.Int63n(24), 8+r.Int63n(12)
		add := func(p *packing.Problem, w, h int64, n int) {
			p.Items = append(p.Items, packing.Item{W: w, H: h, Copies: n})
			p.KeepShort, p.KeepLong = 16, 48
		}
		add(&boards, w, h, 2*n)
		add(&boards, spine, h, n)
		add(&wraps, 2*w+spine+8+28, h+32, n)
		add(&liners, 2*w+spine+4, h-4, n)
		add(&mats, w-6, h-6, 2*n)
	}
	return []packing.Problem{boards, wraps, liners, mats}
}

// A leftover is cut off several strips at once only as far as the longest cut goes:
// behind two pieces as high as the sheet stand three strips, each with 20 left at its
// end. Two strips together are as wide as such a piece and take no other setting.
func TestLongestCut(t *testing.T) {
	for _, c := range []struct{ longest, cuts int64 }{{0, 5}, {300, 5}, {299, 6}, {200, 6}, {199, 7}, {100, 7}} {
		p := packing.Problem{
			Items: []packing.Item{{W: 200, H: 50, Copies: 2}, {W: 100, H: 30, Copies: 3}},
			Stock: []packing.Stock{{W: 700, H: 50, Count: 1}}, LongestCut: c.longest,
		}
		res, o := order(t, p, 100_000, 1_000_000)
		for _, w := range faults(p, res, o) {
			t.Errorf("cuts of up to %d: %s", c.longest, w)
		}
		if o.Cuts != c.cuts || o.Settings != 3 {
			t.Errorf("cuts of up to %d: %d of them with %d settings, want %d with 3", c.longest, o.Cuts, o.Settings, c.cuts)
		}
	}
}

// Strips of one size take one setting, however many sheets they come from and
// whatever the last sheet holds.
func TestStrips(t *testing.T) {
	p := packing.Problem{Items: []packing.Item{{W: 10, H: 3048, Copies: 1000}}, Stock: []packing.Stock{{W: 3048, H: 3048, Count: packing.Unlimited}}}
	res, o := order(t, p, 1_000_000, 1_000_000)
	for _, w := range faults(p, res, o) {
		t.Error(w)
	}
	if o.Settings != 1 || o.LeastSettings != 1 || o.Turns != 0 || len(res.Sheets) < 2 {
		t.Errorf("%d settings, at least %d, %d turns from %d patterns", o.Settings, o.LeastSettings, o.Turns, len(res.Sheets))
	}
}

// A fence that stands at 6 serves both ways: squares of 6 from a sheet of 12 by
// 18 take one setting and a turn.
func TestAcrossATurn(t *testing.T) {
	p := packing.Problem{Items: []packing.Item{{W: 6, H: 6, Copies: 6}}, Stock: []packing.Stock{{W: 12, H: 18, Count: packing.Unlimited}}}
	res, o := order(t, p, 100_000, 100_000)
	for _, w := range faults(p, res, o) {
		t.Error(w)
	}
	if o.Settings != 1 || o.Turns != 1 || o.LeastTurns != 1 || o.Cuts != 5 || o.LeastCuts != 5 {
		t.Errorf("%d settings, %d turns, %d cuts", o.Settings, o.Turns, o.Cuts)
	}
}

// Two sheets with the same pieces, laid in two ways, are laid alike: as the one
// with the larger leftover.
func TestAlike(t *testing.T) {
	piece := func(x, y, w, h int64, item int) packing.Node {
		return packing.Node{X: x, Y: y, W: w, H: h, Use: packing.Piece, Item: item, A: -1, B: -1}
	}
	off := func(x, y, w, h int64) packing.Node {
		return packing.Node{X: x, Y: y, W: w, H: h, Use: packing.Offcut, Item: -1, A: -1, B: -1}
	}
	cut := func(x, y, w, h int64, use packing.Use, at int64, a, b int) packing.Node {
		return packing.Node{X: x, Y: y, W: w, H: h, Use: use, Item: -1, At: at, A: a, B: b}
	}
	rows := packing.Sheet{Times: 1, Nodes: []packing.Node{
		cut(0, 0, 12, 12, packing.CutY, 8, 1, 2), cut(0, 0, 12, 8, packing.CutX, 6, 3, 4), off(0, 8, 12, 4),
		piece(0, 0, 6, 8, 0), piece(6, 0, 6, 8, 0)}}
	columns := packing.Sheet{Times: 2, Nodes: []packing.Node{
		cut(0, 0, 12, 12, packing.CutX, 6, 1, 2), cut(0, 0, 6, 12, packing.CutY, 8, 3, 4), cut(6, 0, 6, 12, packing.CutY, 8, 5, 6),
		piece(0, 0, 6, 8, 0), off(0, 8, 6, 4), piece(6, 0, 6, 8, 0), off(6, 8, 6, 4)}}
	for _, sheets := range [][]packing.Sheet{{rows, columns}, {columns, rows}} {
		o := cutorder.Plan(context.Background(), sheets, cutorder.Options{KeepShort: 1, KeepLong: 1, Trim: []int64{0}, Work: 10_000})
		if len(o.Sheets) != 1 || o.Sheets[0].Times != 3 || o.Settings != 2 || o.Cuts != 6 {
			t.Errorf("%d patterns, %d settings, %d cuts: %+v", len(o.Sheets), o.Settings, o.Cuts, o.Sheets)
		}
	}
}

// A done context still gives an order, and the same input the same order.
func TestStopped(t *testing.T) {
	p := random(rand.New(rand.NewSource(8)), 8, 12, 40)
	res, err := packing.Solve(context.Background(), p, packing.Budget{Steps: 100_000})
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	o := cutorder.Plan(ctx, res.Sheets, options(p, 1<<40))
	for _, w := range faults(p, res, o) {
		t.Error(w)
	}
	// Too large for what may be done: the sheets are cut as they come.
	least := options(p, 1)
	least.Least = 1
	o = cutorder.Plan(context.Background(), res.Sheets, least)
	for _, w := range faults(p, res, o) {
		t.Error(w)
	}
	if o.Passes != len(res.Sheets) || o.LeastSettings != 1 {
		t.Errorf("%d passes for %d sheets, at least %d settings", o.Passes, len(res.Sheets), o.LeastSettings)
	}
	a, b := cutorder.Plan(context.Background(), res.Sheets, options(p, 300_000)), cutorder.Plan(context.Background(), res.Sheets, options(p, 300_000))
	if diff := cmp.Diff(a, b); diff != "" {
		t.Error(diff)
	}
	if a.Work > 3*300_000 {
		t.Errorf("%d steps of 300,000", a.Work)
	}
}

// An ender is a context that ends after so many looks, and notes how many objects
// are made between two looks at most.
type ender struct {
	context.Context
	left, late int
	last, most uint64
}

func made() uint64 {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.Mallocs
}

func (e *ender) Err() error {
	now := made()
	e.most = max(e.most, now-e.last)
	e.last = made()
	if e.left--; e.left >= 0 {
		return nil
	}
	e.late++
	return context.Canceled
}

// Wherever the context ends while thousands of sheets are put in order, little is
// made until it is looked at, and then no order by settings.
func TestStopsSoon(t *testing.T) {
	p := packing.Problem{Stock: []packing.Stock{{W: 1000, H: 1000, Count: packing.Unlimited}}}
	r := rand.New(rand.NewSource(5))
	for range 4000 {
		p.Items = append(p.Items, packing.Item{W: 50 + r.Int63n(400), H: 100 + r.Int63n(400), Copies: 2})
	}
	res, err := packing.Solve(context.Background(), p, packing.Budget{Steps: 1})
	if err != nil {
		t.Fatal(err)
	}
	nodes := 0
	for _, s := range res.Sheets {
		nodes += len(s.Nodes)
	}
	ended := 0
	for _, looks := range []int{0, 1, 2, 3, 5, 8, 12, 20, 50, 100} {
		e := &ender{Context: context.Background(), left: looks, last: made()}
		o := cutorder.Plan(e, res.Sheets, options(p, 12_000_000))
		if e.late == 0 {
			continue
		}
		ended++
		if e.most = max(e.most, made()-e.last); e.most > uint64(nodes) {
			t.Errorf("%d looks: %d objects made between two, of %d parts", looks, e.most, nodes)
		}
		if o.Passes != len(res.Sheets) || e.late > 3 {
			t.Errorf("%d looks: %d passes for %d sheets, %d looks more", looks, o.Passes, len(res.Sheets), e.late)
		}
	}
	if nodes < 10_000 || ended < 8 {
		t.Errorf("%d parts, ended %d times", nodes, ended)
	}
}

// Ten thousand strips of ten thousand lengths on one sheet, and as many sheets
// of their own: both come out, in time that grows no faster than the input does.
func TestLarge(t *testing.T) {
	const n = 10_000
	wide := packing.Problem{}
	total := int64(0)
	for i := range n {
		wide.Items = append(wide.Items, packing.Item{W: int64(1000 + i), H: 50, Copies: 1})
		total += int64(1000 + i)
	}
	wide.Stock = []packing.Stock{{W: total + 5, H: 50, Count: packing.Unlimited}}
	many := packing.Problem{Items: wide.Items, Stock: []packing.Stock{{W: 1000 + n, H: 50, Count: packing.Unlimited}}}
	for name, p := range map[string]packing.Problem{"one sheet": wide, "many sheets": many} {
		t.Run(name, func(t *testing.T) {
			res, o := order(t, p, 1, 1_000_000)
			for _, w := range faults(p, res, o) {
				t.Fatal(w)
			}
			if o.Settings > n || o.Settings < o.LeastSettings {
				t.Errorf("%d settings, at least %d", o.Settings, o.LeastSettings)
			}
		})
	}
}

func BenchmarkPlan(b *testing.B) {
	r := rand.New(rand.NewSource(3))
	type job struct {
		p      packing.Problem
		sheets []packing.Sheet
	}
	var jobs []job
	for range 20 {
		for _, p := range batch(r) {
			res, err := packing.Solve(context.Background(), p, packing.Budget{Steps: 1_000_000})
			if err != nil {
				b.Fatal(err)
			}
			jobs = append(jobs, job{p, res.Sheets})
		}
	}
	for _, work := range []int64{0, 100_000, 3_000_000, 12_000_000} {
		b.Run(fmt.Sprint("work=", work), func(b *testing.B) {
			for b.Loop() {
				settings, least := 0, 0
				for _, j := range jobs {
					o := cutorder.Plan(context.Background(), j.sheets, options(j.p, work))
					settings, least = settings+o.Settings, least+o.LeastSettings
				}
				b.ReportMetric(float64(settings), "settings")
				b.ReportMetric(float64(least), "least")
			}
		})
	}
}
