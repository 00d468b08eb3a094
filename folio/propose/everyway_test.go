package propose_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"
)

// step is the ruler of the boards where every way to hold things is tried by hand.
const step = 5 * mm

// A holding is a way in which a maker may hold a thing: some fittings, all alike.
type holding struct {
	way   propose.Holder
	turn  int
	kind  folio.Kind
	n     int
	size  units.Size
	thick units.Length // of the closed folio, with nothing else in it
}

// holdings are all ways in which a thing may be held, by what a request says of it, that
// can be made without a warning; how large a fitting is, is taken from a folio that is
// built round it. Strips open to the spine.
func holdings(tb testing.TB, r propose.Request, t propose.Thing) []holding {
	tb.Helper()
	n := max(t.Count, 1)
	var all []holding
	for turn, c := range []pocket.Content{t.Content, t.Content.Turned()} {
		if turn > 0 && t.Upright {
			continue
		}
		each := map[propose.Holder]folio.Kind{
			propose.Corners: folio.Folded{Kind: pocket.Corners{Content: c}}, propose.Frame: folio.Frame{Picture: c}, propose.Mat: folio.Mat{Picture: c},
			propose.Slip: folio.Folded{Kind: pocket.Slip{Content: c}}, propose.Gusset: folio.Folded{Kind: pocket.Gusset{Content: c}},
			propose.FoldedFlap: folio.Folded{Kind: pocket.FoldedStrip{Content: c, Count: 1, OwnSpine: true, OpensRight: true}},
		}
		pooled := map[propose.Holder]folio.Kind{
			propose.Slip: folio.Folded{Kind: pocket.Slip{Content: c, Count: n}}, propose.Gusset: folio.Folded{Kind: pocket.Gusset{Content: c, Count: n}},
			propose.FoldedFlap: folio.Folded{Kind: pocket.FoldedStrip{Content: c, Count: n, OwnSpine: true, OpensRight: true}},
			propose.GussetRun:  folio.Folded{Kind: pocket.GussetRun{Content: c, Pockets: n}}, propose.Accordion: folio.Folded{Kind: pocket.FoldedAccordion{Content: c, Panels: n}},
		}
		for w := propose.Corners; w <= propose.FoldedFlap; w++ {
			row := w == propose.GussetRun || w == propose.Accordion
			if slices.Contains(r.Without, w) || w == propose.Mat && !t.Sticks || t.Sight == propose.InView && !w.InView() || t.Sight == propose.TuckedAway && w.InView() {
				continue
			}
			if k := each[w]; k != nil && (n == 1 || t.Keeping != propose.Together) {
				all = append(all, holding{way: w, turn: turn, kind: k, n: n})
			}
			if k := pooled[w]; k != nil && n > 1 && (t.Keeping != propose.Apart || row) {
				all = append(all, holding{way: w, turn: turn, kind: k, n: 1})
			}
		}
	}
	for i := range all {
		s := r.Case
		s.Cover, s.Spine.Width = units.Size{W: 600 * mm, H: 600 * mm}, 300*mm
		s.Board.Sheets, s.Stocks = nil, []stock.Stock{{Name: "card", Caliper: mm / 4, TwoSided: true}} // out of sheets of any size
		s.Fittings = []folio.Fitting{{Panel: boards.LeftCover, Kind: all[i].kind, Stock: r.Stock}}
		plan, err := folio.Build(s)
		if err != nil || !shutsWell(plan) {
			continue
		}
		for f := range plan.Fittings() {
			all[i].size = f.Rect().Size()
		}
		t, _ := plan.TightestOf(closing.BetweenCovers, true)
		o, _ := plan.Overall(true)
		all[i].thick = o.Thickness().Length() - s.Spine.Width + t.WouldDo().Length()
	}
	return slices.DeleteFunc(all, func(h holding) bool { return h.size.Empty() })
}

// plainly are ways to hold things without the gusset pockets for what a slip pocket takes,
// which nobody makes if there is a folio without.
func plainly(all [][]holding) [][]holding {
	out := make([][]holding, len(all))
	for i, list := range all {
		out[i] = slices.DeleteFunc(slices.Clone(list), func(h holding) bool {
			return h.way == propose.Gusset && slices.ContainsFunc(list, func(o holding) bool { return o.way == propose.Slip && o.n == h.n && o.turn == h.turn })
		})
	}
	return out
}

// A whole is a folio put together by hand: what lies on each of two covers, in a row or
// in a column, with 6 mm round it and between.
type whole struct {
	on    [2][]holding
	stack [2]bool // one over the other
}

// wholes calls f with every way to hold the things of a request on two covers by these
// holdings, until f returns true, and says whether all is in view then.
func wholes(r propose.Request, all [][]holding, f func(w whole, view bool) bool) {
	var on func(i int, w whole, view bool) bool
	on = func(i int, w whole, view bool) bool {
		if i == len(all) {
			for k := range 4 {
				w.stack = [2]bool{k&1 != 0, k&2 != 0}
				if w.stack[0] && len(w.on[0]) < 2 || w.stack[1] && len(w.on[1]) < 2 {
					continue
				}
				if f(w, view) {
					return true
				}
			}
			return false
		}
		for _, h := range all[i] {
			for left := range h.n + 1 { // so many on the left cover
				next := w
				next.on[0] = append(slices.Clip(w.on[0]), slices.Repeat([]holding{h}, left)...)
				next.on[1] = append(slices.Clip(w.on[1]), slices.Repeat([]holding{h}, h.n-left)...)
				if on(i+1, next, view && (h.way.InView() || r.Things[i].Sight == propose.TuckedAway)) {
					return true
				}
			}
		}
		return false
	}
	on(0, whole{}, true)
}

// needs is what a cover must have, for what lies on it.
func (w whole) needs() units.Size {
	var most units.Size
	for k, list := range w.on {
		var s units.Size
		for _, h := range list {
			if w.stack[k] {
				s = units.Size{W: max(s.W, h.size.W), H: s.H + h.size.H + 6*mm}
			} else {
				s = units.Size{W: s.W + h.size.W + 6*mm, H: max(s.H, h.size.H)}
			}
		}
		if w.stack[k] {
			s = s.Plus(12*mm, 6*mm)
		} else {
			s = s.Plus(6*mm, 12*mm)
		}
		most = most.Max(s)
	}
	return most
}

// made builds it with a cover, as thin as it goes; not ok where that has a warning or
// does not keep to the limits of the request. What lies on the left cover is laid at
// its head and spine, what lies on the right one at its tail and fore edge, so that little
// lies over the other.
func (w whole) made(r propose.Request, cover units.Size) (*folio.Plan, bool) {
	s := r.Case
	s.Cover, s.Spine.Width = cover, 300*mm
	for k, list := range w.on {
		at := 6 * mm
		for _, h := range list {
			f := folio.Fitting{Panel: [...]boards.Role{boards.LeftCover, boards.RightCover}[k], Kind: h.kind, Stock: r.Stock}
			f.Place = [...]place.Place{{Across: place.Right, Along: place.Head}, {Across: place.Right, Along: place.Tail}}[k]
			dx, dy := -6*mm, [...]units.Length{6 * mm, -6 * mm}[k]
			if w.stack[k] {
				dy = [...]units.Length{at, -at}[k]
				at += h.size.H + 6*mm
			} else {
				dx = -at
				at += h.size.W + 6*mm
			}
			f.Place.Offset = units.Point{X: dx, Y: dy}
			s.Fittings = append(s.Fittings, f)
		}
	}
	plan, err := folio.Build(s)
	if err != nil {
		return nil, false
	}
	t, shuts := plan.TightestOf(closing.BetweenCovers, true)
	if !shuts {
		return nil, false
	}
	s.Spine.Width = t.WouldDo().Length()
	if plan, err = folio.Build(s); err != nil || !shutsWell(plan) {
		return nil, false
	}
	o, _ := plan.Overall(true)
	l := r.Limits
	return plan, (l.Cover.W == 0 || cover.W <= l.Cover.W) && (l.Cover.H == 0 || cover.H <= l.Cover.H) && (l.Thickness == 0 || o.Thickness().Length() <= l.Thickness) &&
		(l.Into.Size.Empty() || o.Size().Grow(l.Into.Padding).FitsTurned(l.Into.Size)) && (l.Into.Depth == 0 || o.Thickness().Length() <= l.Into.Depth-2*l.Into.Padding)
}

// sheetsOf lays a folio out; −1 where that cannot be.
func sheetsOf(plan *folio.Plan, r propose.Request) int {
	job := layout.Job{Folios: []layout.Folio{{Plan: plan, Copies: 1}}, Ruler: r.Case.Rulers.Main}
	for _, m := range layout.MaterialsOf(plan) {
		if k := slices.IndexFunc(r.Limits.Materials, func(h layout.Material) bool { return h.Name == m.Name }); k >= 0 {
			m = r.Limits.Materials[k]
		}
		if len(m.Sheets) > 0 {
			job.Materials = append(job.Materials, m)
		} else {
			job.Except = append(job.Except, m.Name)
		}
	}
	laid, err := layout.Lay(context.Background(), job, layout.Budget{Steps: 100_000})
	if err != nil {
		return -1
	}
	return laid.Bought()
}

// anySmall generates requests of a thing or two, in up to two copies each, for two
// covers and a spine.
func anySmall() gopter.Gen {
	thing := gopter.CombineGens(gen.IntRange(0, 20), gen.IntRange(0, 20), gen.IntRange(0, 12), gen.IntRange(1, 2), gen.IntRange(0, 8), gen.IntRange(0, 3))
	return proptest.Map(gopter.CombineGens(proptest.List(1, 2, proptest.Map(thing, func(v []any) propose.Thing {
		t := anyThing([]int{4 * v[0].(int), 4 * v[1].(int), 4 * v[2].(int), v[3].(int), v[4].(int) % 3, v[4].(int) / 3, v[5].(int)})
		return t
	})), gen.IntRange(0, 127), gen.IntRange(0, 15), gen.IntRange(0, 15), gen.IntRange(0, 20)), func(v []any) propose.Request {
		r := propose.Request{Things: v[0].([]propose.Thing), Stock: "card"}
		for i := range r.Things {
			r.Things[i].Content.Name += string(rune('a' + i))
		}
		bits, w, h, d := v[1].(int), units.Length(v[2].(int)), units.Length(v[3].(int)), units.Length(v[4].(int))
		ruler, _ := units.NewRuler(step, units.MetricDecimal)
		r.Case.Rulers = rule.Rulers{Main: ruler, Fitting: units.WholeMillimetres}
		r.Case.Lining, r.Case.Margin = rule.Lining{Inset: step}, rule.Margin{Ideal: 2 * step}
		r.Case.Stocks = []stock.Stock{{Name: "card", Caliper: mm / 4, TwoSided: true}}
		if bits&1 != 0 {
			r.Limits.Cover = units.Size{W: 60*mm + 5*w*mm, H: 60*mm + 5*h*mm}
		}
		if bits&2 != 0 {
			r.Limits.Thickness = 6*mm + d*mm/2
		}
		if bits&4 != 0 {
			r.Limits.Into = propose.Space{Size: units.Size{W: 90*mm + 5*h*mm, H: 80*mm + 5*w*mm}, Depth: 8*mm + d*mm/2, Padding: mm}
		}
		if bits&24 == 24 {
			r.Case.Board.Sheets = []stock.Sheet{{Size: units.Size{W: 100*mm + 10*w*mm, H: 100*mm + 20*h*mm}}}
		}
		if bits&32 != 0 {
			r.Case.Stocks[0].Sheets = []stock.Sheet{{Size: units.Size{W: 100*mm + 10*h*mm, H: 100*mm + 20*w*mm}}}
		}
		if bits&72 == 72 { // an offcut, which nobody buys, and sheets
			r.Limits.Materials = []layout.Material{{Name: "card", Caliper: mm / 4, Sheets: []layout.SheetKind{
				{Size: units.Size{W: 60*mm + 10*w*mm, H: 60*mm + 10*h*mm}, Count: 1, Offcut: true}, {Size: units.Size{W: 200 * mm, H: 280 * mm}, Count: 1 + int(d)},
			}}}
		}
		return r
	})
}

// A thing or two in every way in which they may be held, in rows and columns on every
// cover that is smaller than what is said to be the smallest, or as thin as can be on a
// large one: nothing that can be built and keeps to the limits is better than what is
// said to be the best, for any aim, and there is nothing where it is said that there is
// nothing.
func TestEveryWayByHand(t *testing.T) {
	proved, none := map[propose.Aim]int{}, 0
	proptest.Run(t, 60, func(ps *gopter.Properties) {
		ps.Property("nothing made by hand is better", prop.ForAll(func(r propose.Request) string {
			answer, err := propose.Folios(context.Background(), r, propose.Budget{})
			if err != nil {
				return err.Error()
			}
			if bad := missaid(r, answer); bad != "" {
				return bad
			}
			all := make([][]holding, len(r.Things))
			for i, thing := range r.Things {
				all[i] = holdings(t, r, thing)
			}
			for aim := propose.Smallest; aim <= propose.AllInView; aim++ {
				p, ok := answer.Of(aim)
				complete := p.Complete()
				for l := range answer.Unmet() {
					complete = complete || l.Aim() == aim && l.Complete()
				}
				if ok {
					if bad := sound(r, p) + within(r, p); bad != "" {
						return aim.String() + ": " + bad
					}
				}
				if !complete {
					continue
				}
				if proved[aim]++; !ok {
					none++
				}
				if made := len(slices.Concat(all...)) > 0; ok && !made {
					return "nothing can be made by hand"
				}
				some := all
				if ok {
					some = plainly(all)
				}
				if bad := beaten(r, some, aim, p, ok); bad != "" {
					return aim.String() + ": " + bad
				}
			}
			return ""
		}, anySmall()))
	})
	least := proptest.Cases(60)
	if proved[propose.Smallest] < 3*least/4 || proved[propose.Thinnest] < least/2 || proved[propose.AllInView] < 3*least/4 || proved[propose.FewestSheets] < least/2 || none < least/2 {
		t.Errorf("lopsided: %v are proved, of %d there is none", proved, none)
	}
}

// beaten says what made by hand is better than what is said to be the best for an aim,
// or is there although it is said that there is nothing.
func beaten(r propose.Request, all [][]holding, aim propose.Aim, p propose.Proposal, ok bool) (bad string) {
	sheets, _ := p.Sheets()
	at := 0 // materials of which there are sheets: of each one is needed at the least
	for _, k := range []stock.Stock{r.Case.Board, r.Case.Stocks[0]} {
		at += min(len(k.Sheets), 1)
	}
	hand := len(r.Limits.Materials) > 0 // with an offcut, of which none may be needed
	if hand {
		at = min(len(r.Case.Board.Sheets), 1)
	}
	if aim == propose.FewestSheets && (at == 0 && !hand || ok && sheets <= at) {
		return ""
	}
	ruler := r.Case.Rulers.Main
	inset := 2*step + 2*r.Case.WithDefaults().Clearance // what a liner and what is left round fittings take
	most := units.Size{W: 300 * mm, H: 300 * mm}
	if l := r.Limits.Cover; l.W > 0 {
		most = most.Min(l)
	}
	thick := p.Closed().Thickness().Length()
	wholes(r, all, func(w whole, view bool) bool {
		cover := w.needs().Plus(inset, inset)
		cover = units.Size{W: ruler.Up(cover.W), H: ruler.Up(cover.H)}
		size := cover.Area().Compare(p.Cover().Area())
		thin := w.thick()
		switch {
		case !cover.FitsIn(most), aim == propose.AllInView && !view, r.Limits.Thickness > 0 && thin > r.Limits.Thickness,
			ok && aim == propose.Thinnest && thin >= thick, ok && (aim == propose.Smallest || aim == propose.AllInView) && size >= 0:
			return false // it cannot be better
		case ok && aim == propose.Thinnest && r.Limits.Into.Size.Empty(): // the larger, the less lies on what is opposite
			cover = units.Size{W: ruler.Down(most.W), H: ruler.Down(most.H)}
		}
		plan, does := w.made(r, cover)
		if !does {
			return false
		}
		o, _ := plan.Overall(true)
		n := 0
		if aim == propose.FewestSheets || hand {
			n = sheetsOf(plan, r)
		}
		switch {
		case n < 0, aim == propose.FewestSheets && (ok && n >= sheets), ok && aim == propose.Thinnest && o.Thickness().Length() >= thick:
		case !ok:
			bad = fmt.Sprintf("there is none, and a cover of %v does, held by %v", cover, w.on)
		default:
			bad = fmt.Sprintf("a cover of %v, %v thick, %d sheets, and there is one of %v, %v thick, %d sheets, held by %v", p.Cover(), thick, sheets, cover, o.Thickness(), n, w.on)
		}
		return bad != ""
	})
	return bad
}

// thick is how thick it is at the least: as thick as with the thickest by itself.
func (w whole) thick() (least units.Length) {
	for _, list := range w.on {
		for _, h := range list {
			least = max(least, h.thick)
		}
	}
	return least
}
