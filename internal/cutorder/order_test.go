package cutorder_test

import (
	"context"
	"fmt"
	"math/rand"
	"testing"

	"boardwrap.example/internal/cutorder"
	"boardwrap.example/internal/packing"
	"boardwrap.example/internal/packing/cutcheck"
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
	o := cutorder.Options{Kerf: p.Kerf, KeepShort: p.KeepShort, KeepLong: p.KeepLong, Work: work}
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
	if again.Areas.Stock != r.Areas.Stock || again.Areas.Pieces != r.Areas.Pieces || again.Areas.Offcuts.Cmp(r.Areas.Offcuts) < 0 {
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
		if i > 0 && s.Axis != o.Steps[i-1].Axis {
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
		p.LongestCut = side + r.Int63n(side)
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
	for i := range 300 {
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
